//! Sheets read back: their text, their figures, their bytes.

#[path = "common/memory.rs"]
mod memory;

use hobnail::build::Plan;
use hobnail::check::Figured;
use hobnail::report;
use hobnail::sheets::{Job, Laid, Lang, Paper, Station, Units, lay, paper, typefaces};
use insta::assert_snapshot;
use memory::{Memory, Only};
use serde_json::Value;

const MODELS: [&str; 3] = ["specs/models/cairn-10.hob", "specs/models/muster-10.hob", "specs/models/scree-8.hob"];

/// One size of one model: what was laid out, the bytes, the attached JSON.
struct Printed {
    name: String,
    laid: Laid,
    bytes: Vec<u8>,
    json: Value,
}

fn print(size: &'static str, stations: &[Station], on: Paper) -> Vec<Printed> {
    let (_, checked) = Memory::demo().check(&MODELS, &Only(size));
    let mut all = Vec::new();
    for model in &checked.models {
        let world = &checked.worlds[model.place.0];
        let shop = world.shop.as_ref().expect("the demo has a shop");
        let plan = Plan::new(&world.models[model.place.1], shop);
        let sizes = checked.figured(model);
        let faces = typefaces(&shop.name, sizes.iter().map(|size| &size.figures)).expect("typefaces are cut");
        for sized in &sizes {
            let Figured { checked: size, figures, fingerprint } = sized;
            let build = plan.build(size.size);
            let attachment = report::attachment(model, sized).expect("figures are finite");
            let json = serde_json::from_slice(&attachment).expect("the attachment is JSON");
            let job = Job {
                build: &build,
                shop,
                figures,
                fingerprint,
                attachment,
                paper: on,
                lang: Lang::En,
                units: Units::Metric,
                pairs: None,
                notices: &[],
                stations,
            };
            let laid = lay(&job).expect("the demo has work for every station");
            let bytes = paper::write(&laid.document, &faces).expect("the document is written");
            all.push(Printed { name: model.name.clone(), laid, bytes, json });
        }
    }
    all
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
    for (n, text) in pages(&scree.bytes).iter().enumerate() {
        let page = &scree.laid.document.pages[n];
        let name = format!("{:02}_{}", n + 1, page.label.replace(" +", "_continued"));
        assert_snapshot!(name, text);
    }
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
        assert_eq!(labels, ["heeling"], "{}", printed.name);
    }
}

/// Numbers in a text, as written.
fn numbers(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for run in text.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-')) {
        for part in run.split("..") {
            let part = part.trim_matches('.');
            if part.parse::<f64>().is_ok() {
                all.push(part.to_owned());
            }
        }
    }
    all
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

#[test]
fn every_number_on_a_sheet_is_the_json_s_to_the_printed_precision() {
    let mut compared = 0;
    for size in ["6 C", "9 D", "10.5 EE", "14 E"] {
        for printed in print(size, &[], Paper::A4) {
            let figures = &printed.json["models"][0]["sizes"][0]["figures"];
            for shown in &printed.laid.printed {
                let figure = &figures[&shown.key];
                assert!(figure.is_object(), "{}: the JSON lacks {}", printed.name, shown.key);
                if let Some(text) = figure["text"].as_str() {
                    assert_eq!(shown.text, text, "{}", shown.key);
                    continue;
                }
                // Times are printed in the largest unit that keeps them whole.
                let scales: &[f64] = if figure["unit"] == "minutes" { &[1.0, 60.0, 1440.0] } else { &[1.0] };
                let known = values(figure);
                let unit = figure["unit"].as_str().unwrap_or_default();
                let ending = if unit == "1/8 in" { "/8 in" } else { unit };
                if unit == "in" {
                    let read = hobnail::measure::parse_number(shown.text.trim_end_matches(" in"));
                    let read = read.map(|number| hobnail::measure::to_f64(number.value));
                    assert!(read.is_ok_and(|read| known.contains(&read)), "{}: {}", shown.key, shown.text);
                    compared += 1;
                    continue;
                }
                let bare = shown.text.strip_suffix(ending).unwrap_or(&shown.text);
                for number in numbers(bare) {
                    let places = number.split_once('.').map_or(0, |(_, places)| places.len());
                    let slack = 0.5 * 10_f64.powi(-i32::try_from(places).expect("few places")) + 1e-9;
                    let value: f64 = number.parse().expect("a number");
                    let close = |known: &f64| scales.iter().any(|scale| (known / scale - value).abs() <= slack);
                    assert!(
                        known.iter().any(close),
                        "{} {size}: {} prints {number} of {known:?}",
                        printed.name,
                        shown.key
                    );
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 2_000, "only {compared} numbers were compared");
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

#[test]
fn nothing_leaves_the_page() {
    use paper::{Op, Style, width_mm};
    for printed in print("13 EE", &[], Paper::Letter) {
        for page in &printed.laid.document.pages {
            let (width, height) = (page.size.width(), page.size.height());
            for op in &page.ops {
                let Op::Text(text) = op else { continue };
                let long = width_mm(&text.content, text.style, text.size);
                let left = match text.anchor {
                    paper::Anchor::Left => text.at.x,
                    paper::Anchor::Centre => text.at.x - long / 2.0,
                    paper::Anchor::Right => text.at.x - long,
                };
                let inside =
                    left >= 11.5 && left + long <= width - 11.5 && text.at.y >= 12.0 && text.at.y <= height - 11.5;
                assert!(inside, "{} {}: `{}` leaves the page", printed.name, page.label, text.content);
                assert!(text.size >= 7.0 && Style::ALL.contains(&text.style));
            }
        }
    }
}
