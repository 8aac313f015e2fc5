//! Sheets read back: their text, their figures, their bytes.

use crate::common::memory::{Memory, Only};
use crate::common::printed::{Printed, Wanted, print_of};
use crate::snapshots::snapshots_of;
use hobnail::sheets::paper::{Op, Point};
use hobnail::sheets::{Lang, Paper, Station, Units};
use insta::assert_snapshot;
use serde_json::Value;

fn print(size: &'static str, stations: &[Station], on: Paper) -> Vec<Printed> {
    let wanted = Wanted { paper: on, stations, units: Units::TradeMetric, bytes: true, ..Wanted::default() };
    print_of(&Memory::demo(), &Only(size), &wanted)
}

/// The text of every page, read back out of the PDF.
fn pages(bytes: &[u8]) -> Vec<String> {
    let pdf = lopdf::Document::load_mem(bytes).expect("the PDF can be read");
    let count = u32::try_from(pdf.get_pages().len()).expect("few pages");
    (1..=count).map(|page| pdf.extract_text(&[page]).expect("the text can be extracted")).collect()
}

#[test]
fn two_prints_are_byte_equal() {
    for (first, second) in print("9 D", &[], Paper::A4).iter().zip(&print("9 D", &[], Paper::A4)) {
        assert!(first.bytes == second.bytes, "{}", first.name);
    }
}

#[test]
fn the_text_of_each_station_is_as_it_was() {
    let printed = print("9 D", &[], Paper::A4);
    let scree = printed.iter().find(|printed| printed.name == "scree-8").expect("scree-8 prints");
    let labels = scree.laid.document.pages.iter().map(|page| page.label.replace(" +", "_continued"));
    let names: Vec<String> = labels.enumerate().map(|(n, label)| format!("{:02}_{label}", n + 1)).collect();
    for (name, text) in names.iter().zip(pages(&scree.bytes)) {
        assert_snapshot!(name.as_str(), text);
    }
    let mut kept = snapshots_of("sheets");
    kept.retain(|name| name.starts_with(|first: char| first.is_ascii_digit()));
    assert_eq!(kept, names.into_iter().collect(), "a page that is no longer printed has no snapshot");
}

/// Every point that is drawn, to a hundredth of a millimetre, with the size of what stands there; texts, which are pinned as
/// texts, and the code, which holds the fingerprint, are left out.
fn drawn(ops: &[Op]) -> Vec<String> {
    let all = |points: &[Point]| points.iter().map(|p| format!("{:.2} {:.2}", p.x, p.y)).collect::<Vec<_>>().join(" ");
    let rings = |rings: &[Vec<Point>]| rings.iter().map(|ring| all(ring)).collect::<Vec<_>>().join(" / ");
    ops.iter()
        .filter_map(|op| {
            Some(match op {
                Op::Line { from, to, pen } => format!("line {} {:.2}", all(&[*from, *to]), pen.width),
                Op::Polyline { points, pen } => format!("lines {} {:.2}", all(points), pen.width),
                Op::Circle { centre, radius, .. } => format!("circle {} {radius:.2}", all(&[*centre])),
                Op::Rect { at, width, height, .. } => format!("rect {} {width:.2} {height:.2}", all(&[*at])),
                Op::Hatched { rings: of, hatch, .. } => format!("hatched {hatch:?} {}", rings(of)),
                _ => return None,
            })
        })
        .collect()
}

#[test]
fn the_drawings_of_each_station_are_as_they_were() {
    let printed = print("9 D", &[], Paper::A4);
    let scree = printed.iter().find(|printed| printed.name == "scree-8").expect("scree-8 prints");
    let mut said = String::new();
    for page in &scree.laid.document.pages {
        let drawn = drawn(&page.ops);
        let hash = blake3::hash(drawn.join("\n").as_bytes()).to_hex();
        said += &format!("{}: {} drawn, {}\n", page.label, drawn.len(), &hash[..16]);
    }
    assert_snapshot!(said);
}

#[test]
fn every_station_with_work_has_its_sheet() {
    for printed in print("12 EE", &[], Paper::Letter) {
        let labels: Vec<&str> = printed.laid.document.pages.iter().map(|page| page.label.as_str()).collect();
        for station in Station::ALL {
            assert!(labels.contains(&station.name()), "{} lacks {}", printed.name, station.name());
        }
    }
}

#[test]
fn one_station_prints_alone() {
    for printed in print("9 D", &[Station::Heeling], Paper::A4) {
        let labels: Vec<&str> = printed.laid.document.pages.iter().map(|page| page.label.as_str()).collect();
        assert!(
            labels.iter().all(|label| label.trim_end_matches(" +") == "heeling"),
            "{} has {labels:?}",
            printed.name
        );
    }
}

/// Numbers in a text, as written.
fn numbers(text: &str) -> Vec<String> {
    let runs = text.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'));
    runs.filter(|run| run.parse::<f64>().is_ok()).map(str::to_owned).collect()
}

/// Every number of a figure of the JSON, and half of its spread.
fn values(figure: &Value) -> Vec<f64> {
    let mut all = Vec::new();
    for key in ["value", "lo", "nominal", "hi"] {
        all.extend(figure[key].as_f64());
    }
    all.extend(figure["list"].as_array().into_iter().flatten().filter_map(Value::as_f64));
    if let (Some(lo), Some(hi)) = (figure["lo"].as_f64(), figure["hi"].as_f64()) {
        all.push((hi - lo) / 2.0);
    }
    all
}

/// What a number of a printed unit is in a figure's unit; a stitch's length for so many stitches an inch.
fn turned(value: f64, printed: &str, own: &str) -> f64 {
    match (printed, own) {
        ("oz", "mm") => value * 25.4 / 64.0,
        ("iron", "mm") => value * 25.4 / 48.0,
        ("in", "mm") => value * 25.4,
        ("in", "1/8 in") => value * 8.0,
        ("sq ft", "dm2") => value * 9.290_304,
        ("mm", "spi") => 25.4 / value,
        ("h", "minutes") => value * 60.0,
        ("days", "minutes") => value * 1440.0,
        _ => value,
    }
}

/// The printed units, longest first, so that `min` is not taken for `in`.
const UNITS: [&str; 17] = [
    "g/m²", "N/mm", "sq ft", "iron", "hides", "days", "dm²", "cm²", "spi", "tex", "min", "mm", "Nm", "oz", "in", "m",
    "h",
];

/// Every number of a printed text as it would stand in the figure's unit, with what it may be off by.
fn read_back(text: &str, own: &str) -> Vec<(f64, f64)> {
    let text = text.replace('\u{a0}', " ");
    let mut all = Vec::new();
    for part in text.split(['(', ')']) {
        let part = part.trim();
        let unit = UNITS.iter().find(|unit| part.ends_with(*unit)).copied().unwrap_or_default();
        let bare = part.strip_suffix(unit).unwrap_or(part).trim();
        if unit == "in" {
            // Sixteenths are exact, or the inches of the figure itself.
            for bare in bare.split([',', ';']) {
                let number = hobnail::measure::parse_number(bare.trim()).expect("inches are a mixed number");
                all.push((turned(hobnail::measure::to_f64(number.value), unit, own), 1e-6));
            }
            continue;
        }
        for number in numbers(&bare.replace('–', " ")) {
            let places = number.split_once('.').map_or(0, |(_, places)| places.len());
            let half = 0.5 * 10_f64.powi(-i32::try_from(places).expect("few places"));
            let value: f64 = number.parse().expect("a number");
            let ends = [value - half, value + half].map(|value| turned(value, unit, own));
            all.push((turned(value, unit, own), (ends[1] - ends[0]).abs() / 2.0 + 1e-9));
        }
    }
    all
}

#[test]
fn every_number_on_a_sheet_is_the_json_s_to_the_printed_precision() {
    let mut compared = 0;
    for (lang, units) in [(Lang::En, Units::TradeMetric), (Lang::En, Units::Metric), (Lang::Es, Units::TradeMetric)] {
        for size in ["6 C", "9 D", "10.5 EE", "14 E"] {
            for printed in print_of(&Memory::demo(), &Only(size), &Wanted { lang, units, ..Wanted::default() }) {
                let figures = &printed.json["models"][0]["sizes"][0]["figures"];
                for shown in &printed.laid.printed {
                    let figure = &figures[&shown.key];
                    assert!(figure.is_object(), "{}: the JSON lacks {}", printed.name, shown.key);
                    compared += agrees(&shown.key, &shown.text, figure, lang);
                }
            }
        }
    }
    assert!(compared > 5_000, "only {compared} numbers were compared");
}

/// How many numbers of a printed text were found in the figure; it is a failure if one was not.
fn agrees(key: &str, text: &str, figure: &Value, lang: Lang) -> usize {
    if let Some(said) = figure["text"].as_str() {
        assert!(lang == Lang::Es || said == text, "{key} prints {text}");
        return 0;
    }
    let own = figure["unit"].as_str().unwrap_or_default();
    let known = values(figure);
    // Spanish has a comma before decimals, and a semicolon between numbers.
    let text = match lang {
        Lang::En => text.to_owned(),
        Lang::Es => text.replace(',', ".").replace("ppp", "spi").replace("pies²", "sq ft").replace("días", "days"),
    };
    let read = read_back(&text, own);
    for (value, slack) in &read {
        let close = |known: &f64| (known - value).abs() <= *slack;
        assert!(known.iter().any(close), "{key} prints {text}: {value} is none of {known:?}");
    }
    read.len()
}

#[test]
fn every_figure_printed_can_be_found_in_the_text() {
    for printed in print("9 D", &[], Paper::A4) {
        let text: String = pages(&printed.bytes).join(" ").split_whitespace().collect::<Vec<_>>().join(" ");
        for shown in &printed.laid.printed {
            for word in shown.text.split_whitespace() {
                assert!(text.contains(word), "{}: `{word}` of {} is not in the text", printed.name, shown.key);
            }
        }
    }
}

#[test]
fn fonts_are_subset_and_figures_are_attached() {
    for printed in print("9 D", &[], Paper::A4) {
        let count = printed.laid.document.pages.len();
        assert!(printed.bytes.len() < 40_000 * count, "{} has {} bytes", printed.name, printed.bytes.len());
        let pdf = lopdf::Document::load_mem(&printed.bytes).expect("the PDF can be read");
        let names = pdf.catalog().expect("a catalog").get(b"Names");
        assert!(names.is_ok(), "{} carries its figures", printed.name);
    }
}
