//! Finding one's way in what is printed: outlines, page labels, properties, names of files, pages picked, the code.

#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "pictures of pages are small"
)]

use crate::common::{Case, case};
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object, ObjectId};
use serde_json::Value;
use std::fs;
use std::process::Command;

const SCREE: &str = "specs/models/scree-8.hob";
const CAIRN: &str = "specs/models/cairn-10.hob";
const TITLES: [&str; 11] = [
    "Cutting",
    "Skiving",
    "Closing",
    "Hardware",
    "Lasting",
    "Bottoming",
    "Sole stitching",
    "Heeling",
    "Edge",
    "Finishing",
    "Inspection",
];

/// Files that were printed to a folder, in the order of their names.
fn files(case: &Case, folder: &str) -> Vec<String> {
    let entries = fs::read_dir(case.path(folder)).expect("it is there");
    let mut names: Vec<String> =
        entries.map(|entry| entry.expect("it can be read").file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

fn load(case: &Case, path: &str) -> Document {
    Document::load(case.path(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

fn string(object: &Object) -> String {
    let bytes = object.as_str().expect("a string");
    match bytes.strip_prefix(&[0xFE, 0xFF]) {
        Some(units) => {
            let units: Vec<u16> = units.chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
            String::from_utf16(&units).expect("it is UTF-16")
        }
        None => String::from_utf8(bytes.to_vec()).expect("it is ASCII"),
    }
}

/// Titles of the outline with their depth and the number of the page that they lead to.
fn outline(pdf: &Document) -> Vec<(usize, String, u32)> {
    fn walk(pdf: &Document, parent: &Dictionary, depth: usize, all: &mut Vec<(usize, String, u32)>) {
        let mut next = parent.get(b"First").ok().cloned();
        while let Some(id) = next {
            let entry = pdf.get_dictionary(id.as_reference().expect("a reference")).expect("an entry");
            let target =
                entry.get(b"Dest").and_then(Object::as_array).expect("a place")[0].as_reference().expect("a page");
            let page = pdf.get_pages().into_iter().find(|(_, page)| *page == target).expect("a page of the document").0;
            all.push((depth, string(entry.get(b"Title").expect("a title")), page));
            walk(pdf, entry, depth + 1, all);
            next = entry.get(b"Next").ok().cloned();
        }
    }
    let mut all = Vec::new();
    let root = pdf.catalog().expect("a catalog").get(b"Outlines").and_then(Object::as_reference).expect("an outline");
    walk(pdf, pdf.get_dictionary(root).expect("an outline"), 0, &mut all);
    all
}

fn labels(pdf: &Document) -> Vec<String> {
    let labels = pdf.catalog().expect("a catalog").get(b"PageLabels").and_then(Object::as_dict).expect("labels");
    let numbers = labels.get(b"Nums").and_then(Object::as_array).expect("numbers");
    numbers.chunks(2).map(|pair| string(pair[1].as_dict().and_then(|it| it.get(b"P")).expect("a prefix"))).collect()
}

/// Labels that stand for the first page of something.
fn firsts(pdf: &Document) -> Vec<String> {
    labels(pdf).into_iter().filter(|label| !label.ends_with(" +")).collect()
}

/// What a page shows, text by text.
fn shown(pdf: &Document, page: u32) -> Vec<String> {
    let page = pdf.get_pages()[&page];
    let fonts = pdf.get_page_fonts(page).expect("fonts");
    let content = Content::decode(&pdf.get_page_content(page)).expect("content");
    let (mut all, mut font) = (Vec::new(), None);
    for operation in content.operations {
        match operation.operator.as_str() {
            "Tf" => font = fonts.get(operation.operands[0].as_name().expect("a name")),
            "Tj" => {
                let encoding = font.expect("a font is set").get_font_encoding(pdf).expect("an encoding");
                let bytes = operation.operands[0].as_str().expect("a string");
                all.push(Document::decode_text(&encoding, bytes).expect("it can be read"));
            }
            _ => {}
        }
    }
    all
}

/// What a document shows, page by page.
fn all_shown(pdf: &Document) -> Vec<Vec<String>> {
    pdf.get_pages().keys().map(|page| shown(pdf, *page)).collect()
}

fn station(title: &str) -> String {
    title.to_lowercase().replace(' ', "-")
}

#[test]
fn one_file_a_size() {
    let case = case().demo();
    case.run(&["sheets", CAIRN, "--size", "9..9.5 D", "--out", "out"]);
    assert_eq!(files(&case, "out"), ["cairn-10_us-men_09.5_D.pdf", "cairn-10_us-men_09_D.pdf"]);
    let pdf = load(&case, "out/cairn-10_us-men_09_D.pdf");
    let mut known = vec![(0, "cairn-10 9 D".to_owned())];
    known.extend(TITLES.map(|title| (1, title.to_owned())));
    let outline = outline(&pdf);
    assert_eq!(outline.iter().map(|(depth, title, _)| (*depth, title.clone())).collect::<Vec<_>>(), known);
    assert_eq!(firsts(&pdf), TITLES.map(station));
    let labels = labels(&pdf);
    for (_, title, page) in &outline[1..] {
        assert_eq!(labels[*page as usize - 1], station(title));
    }
}

#[test]
fn one_file_a_station() {
    let case = case().demo();
    case.run(&["sheets", CAIRN, "--size", "9..9.5", "--out", "out", "--by", "station"]);
    let mut known: Vec<String> = TITLES.iter().map(|title| format!("cairn-10_{}.pdf", station(title))).collect();
    known.sort();
    assert_eq!(files(&case, "out"), known);
    let sizes = ["9 C", "9 D", "9 E", "9 EE", "9.5 C", "9.5 D", "9.5 E", "9.5 EE"];
    let pdf = load(&case, "out/cairn-10_sole-stitching.pdf");
    let outline = outline(&pdf);
    let mut titles = vec![(0, "Sole stitching")];
    titles.extend(sizes.map(|size| (1, size)));
    assert_eq!(outline.iter().map(|(depth, title, _)| (*depth, title.as_str())).collect::<Vec<_>>(), titles);
    assert_eq!(firsts(&pdf), sizes);
    let labels = labels(&pdf);
    for (_, title, page) in &outline[1..] {
        assert_eq!(labels[*page as usize - 1], *title);
    }
}

#[test]
fn one_file_a_model() {
    let case = case().demo();
    case.run(&["sheets", CAIRN, "--size", "9..9.5 D", "--out", "out", "--by", "one"]);
    assert_eq!(files(&case, "out"), ["cairn-10.pdf"]);
    let pdf = load(&case, "out/cairn-10.pdf");
    let parts: Vec<String> =
        outline(&pdf).into_iter().filter(|(depth, ..)| *depth == 0).map(|(_, title, _)| title).collect();
    assert_eq!(parts, ["cairn-10 9 D", "cairn-10 9.5 D"]);
    let known = ["9 D", "9.5 D"].iter().flat_map(|size| TITLES.map(|title| format!("{size} {}", station(title))));
    assert_eq!(firsts(&pdf), known.collect::<Vec<_>>());
}

#[test]
fn the_same_pages_however_they_are_put_together() {
    let case = case().demo();
    let mut all = Vec::new();
    for by in ["size", "station", "one"] {
        case.run(&["sheets", CAIRN, "--size", "9..9.5 D", "--out", by, "--by", by]);
        let mut texts: Vec<Vec<String>> = Vec::new();
        for file in files(&case, by) {
            texts.extend(all_shown(&load(&case, &format!("{by}/{file}"))));
        }
        // Which page of how many it is depends on what was laid together.
        for text in &mut texts {
            text.retain(|text| !text.starts_with("page "));
        }
        texts.sort();
        all.push(texts);
    }
    assert!(all[0].len() > 20);
    assert_eq!(all[0], all[1]);
    assert_eq!(all[0], all[2]);
}

#[test]
fn pages_are_picked() {
    let case = case().demo();
    let sheets = ["sheets", CAIRN, "--size", "9 D", "--out", "out", "--pages"];
    case.run(&[&sheets[..6], &[]].concat());
    let whole = load(&case, "out/cairn-10_us-men_09_D.pdf");
    let said = case.run(&[&sheets[..], &["2-3,7"]].concat());
    assert_eq!(said.out, "1 file, 3 pages in out\n", "{said}");
    let picked = load(&case, "out/cairn-10_us-men_09_D.pdf");
    let (all, kept) = (labels(&whole), labels(&picked));
    assert_eq!(kept, [all[1].as_str(), &all[2], &all[6]]);
    assert_eq!(shown(&picked, 3), shown(&whole, 7));
    let ran = case.run(&[&sheets[..], &["90"]].concat());
    assert_eq!(ran.code, Some(2));
    assert!(ran.error.ends_with("\nhobnail: no file has the pages that `--pages` asks for\n"), "{ran}");
    let ran = case.run(&[&sheets[..], &["3-1"]].concat());
    assert_eq!(ran.error, "hobnail: `--pages`: `3-1` is upside down; write the smaller number first\n");
}

#[test]
fn properties_say_what_it_is() {
    let case = case().demo();
    case.run(&["sheets", CAIRN, "--size", "9 D", "--out", "out"]);
    case.run(&["traveller", CAIRN, "--size", "9 D", "--out", "out"]);
    case.run(&["line-card", CAIRN, "--size", "9 D", "--out", "out", "--machine", "sole-stitcher"]);
    let known = [
        ("out/cairn-10_us-men_09_D.pdf", "cairn-10 9 D", "Build sheets"),
        ("out/cairn-10_traveller.pdf", "cairn-10 Traveller", "Traveller"),
        ("out/line-card_sole-stitcher.pdf", "Line card sole-stitcher", "Line card"),
    ];
    for (path, title, subject) in known {
        let pdf = load(&case, path);
        let info = pdf.trailer.get(b"Info").and_then(Object::as_reference).expect("properties");
        let info = pdf.get_dictionary(info).expect("properties");
        let says = |key: &str| string(info.get(key.as_bytes()).expect("a property"));
        assert_eq!([says("Title").as_str(), &says("Author"), &says("Subject")], [title, "Tarnbeck Bootyard", subject]);
        assert!(says("Creator").starts_with("hobnail ") && !says("Keywords").is_empty());
        let language = pdf.catalog().expect("a catalog").get(b"Lang").map(string).expect("a language");
        assert_eq!(language, "en");
    }
}

#[test]
fn every_file_is_sound() {
    if Command::new("qpdf").arg("--version").output().is_err() {
        return;
    }
    let case = case().demo();
    for by in ["size", "station", "one"] {
        case.run(&["sheets", SCREE, "--size", "9..9.5 D", "--out", "out", "--by", by]);
    }
    case.run(&["traveller", SCREE, "--size", "9 D", "--pairs", "3", "--out", "out"]);
    case.run(&["line-card", SCREE, "--size", "9..9.5 D", "--out", "out"]);
    let files = files(&case, "out");
    assert!(files.len() > 20);
    for file in files {
        let checked = Command::new("qpdf").arg("--check").arg(case.path("out").join(&file)).output().expect("it runs");
        assert!(checked.status.success(), "{file}: {}", String::from_utf8_lossy(&checked.stdout));
    }
}

// ---- Cards

#[test]
fn a_card_a_pair_or_a_batch() {
    let case = case().demo();
    let ran = case.run(&["traveller", CAIRN, "--size", "9..9.5 D", "--pairs", "3", "--out", "out"]);
    assert_eq!(ran.out, "1 file, 3 pages in out\n", "{ran}");
    let pdf = load(&case, "out/cairn-10_traveller.pdf");
    let text: Vec<String> = all_shown(&pdf).concat();
    for pair in ["pair 1 of 3", "pair 2 of 3", "pair 3 of 3"] {
        assert_eq!(text.iter().filter(|text| text.ends_with(pair)).count(), 2, "{pair} in two sizes");
    }
    let known = [(0, "cairn-10 Traveller".to_owned(), 1), (1, "9 D".to_owned(), 1), (1, "9.5 D".to_owned(), 2)];
    assert_eq!(outline(&pdf), known);
    let ran = case.run(&["traveller", CAIRN, "--size", "9 D", "--pairs", "12", "--batch", "May 1/2", "--out", "out"]);
    assert_eq!(ran.out, "1 file, 1 page in out\n", "{ran}");
    let pdf = load(&case, "out/cairn-10_traveller_May-1-2.pdf");
    let text = shown(&pdf, 1);
    assert!(text.iter().any(|text| text.ends_with("batch May 1/2 · 12 pairs")), "{text:?}");
}

/// The order of benches in a text, each as often as the boot stays there.
#[test]
fn a_card_has_a_row_for_every_stay_and_says_how_long_the_boot_rests() {
    let case = case().demo();
    case.run(&["traveller", CAIRN, "--size", "9 D", "--out", "out"]);
    let text = shown(&load(&case, "out/cairn-10_traveller.pdf"), 1);
    let ran = case.run(&["figures", CAIRN, "--size", "9 D", "--format", "json"]);
    let document: Value = serde_json::from_str(&ran.out).expect("figures");
    let figures = &document["models"][0]["sizes"][0]["figures"];
    let benches = figures["route.stations"]["list"].as_array().expect("benches");
    let mut stays: Vec<&str> = benches.iter().filter_map(Value::as_str).collect();
    stays.dedup();
    let rows: Vec<String> =
        text.iter().map(|text| station(text)).filter(|line| stays.contains(&line.as_str())).collect();
    assert_eq!(rows, stays);
    let rests = figures.as_object().expect("figures").iter().filter(|(key, _)| key.starts_with("route.dwell."));
    let rests: Vec<_> = rests.filter(|(key, _)| !matches!(key.rsplit('.').next(), Some("open" | "press"))).collect();
    assert!(rests.len() >= 3);
    for (key, figure) in rests {
        let label = figure["label"].as_str().expect("a label");
        let hours = figure["value"].as_f64().or(figure["lo"].as_f64()).expect("minutes") / 60.0;
        let said = |line: &String| line.starts_with(label) && line.contains(&format!(" {hours}"));
        assert!(text.iter().any(said), "{key}: {text:?}");
    }
}

#[test]
fn names_of_batches_that_no_card_holds() {
    let case = case().demo();
    let long = "b".repeat(41);
    for (batch, said) in [("", "a batch needs a name"), (long.as_str(), "the name of a batch has up to 40 letters")] {
        let ran = case.run(&["traveller", CAIRN, "--out", "out", "--batch", batch]);
        assert_eq!((ran.code, ran.error), (Some(2), format!("hobnail: `--batch`: {said}\n")));
    }
    let ran = case.run(&["traveller", CAIRN, "--out", "out", "--size", "9 D", "--batch", &"W".repeat(40)]);
    assert_eq!(ran.code, Some(0), "{ran}");
}

/// Every value of a machine's figures stands on its card, in each size that has it.
#[test]
fn a_line_card_says_what_the_machine_is_set_to() {
    let case = case().demo();
    case.run(&["line-card", CAIRN, SCREE, "--size", "9..10", "--out", "out"]);
    assert_eq!(
        files(&case, "out"),
        [
            "line-card_flat-bed.pdf",
            "line-card_horn-stitcher.pdf",
            "line-card_post-bed.pdf",
            "line-card_sole-stitcher.pdf"
        ]
    );
    let pdf = load(&case, "out/line-card_sole-stitcher.pdf");
    let pages = all_shown(&pdf);
    assert!(pages.iter().all(|page| page[0] == "sole-stitcher"), "every page says its machine");
    let text: Vec<String> = pages.concat();
    let ran = case.run(&["figures", CAIRN, SCREE, "--size", "9..10", "--format", "json"]);
    let document: Value = serde_json::from_str(&ran.out).expect("figures");
    let mut compared = 0;
    for size in
        document["models"].as_array().expect("models").iter().flat_map(|it| it["sizes"].as_array().expect("sizes"))
    {
        let figures = &size["figures"];
        for key in ["sole.row-1.stitches", "sole.row-2.stitches", "sole.rows-a-bobbin"] {
            let value = figures[key]["value"].to_string();
            assert!(text.contains(&value), "{}: {key} {value}", size["size"]);
            compared += 1;
        }
        let off = format!("{:.2}", figures["stack.off-the-lap"]["value"].as_f64().expect("a number"));
        assert!(text.iter().any(|text| text.contains(&off)), "{off}");
    }
    assert!(compared > 100);
    let ran = case.run(&["line-card", CAIRN, "--size", "9 D", "--out", "out", "--machine", "loom"]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.error.contains("\nhobnail: no seam of the models given is sewn on `loom`; there are "), "{ran}");
}

// ---- The code

/// What is filled on a page, in its order: rings in points, and whether black.
fn filled(pdf: &Document, page: ObjectId) -> Painted {
    let resources = pdf.get_dictionary(page).expect("a page").get(b"Resources").and_then(Object::as_reference);
    let resources = pdf.get_dictionary(resources.expect("resources")).expect("resources");
    let forms = resources.get(b"XObject").and_then(Object::as_reference).and_then(|id| pdf.get_dictionary(id));
    let mut all = Vec::new();
    let content = pdf.get_page_content(page);
    paint(pdf, &content, forms.expect("forms"), (0.0, 0.0), &mut all);
    all
}

type Painted = Vec<(Vec<Vec<(f64, f64)>>, bool)>;

fn paint(pdf: &Document, content: &[u8], forms: &Dictionary, origin: (f64, f64), all: &mut Painted) {
    let (mut at, mut before, mut black) = (origin, Vec::new(), true);
    let mut rings: Vec<Vec<(f64, f64)>> = Vec::new();
    for operation in Content::decode(content).expect("content").operations {
        let number = |n: usize| f64::from(operation.operands[n].as_float().expect("a number"));
        match operation.operator.as_str() {
            "q" => before.push((at, black)),
            "Q" => (at, black) = before.pop().expect("it was saved"),
            "cm" => at = (at.0 + number(4), at.1 + number(5)),
            "g" => black = number(0) < 0.5,
            "m" => rings.push(vec![(at.0 + number(0), at.1 + number(1))]),
            "l" => rings.last_mut().expect("a ring").push((at.0 + number(0), at.1 + number(1))),
            "f*" => all.push((std::mem::take(&mut rings), black)),
            "S" | "n" | "b*" => rings.clear(),
            "Do" => {
                let name = operation.operands[0].as_name().expect("a name");
                let form = forms.get(name).and_then(Object::as_reference).and_then(|id| pdf.get_object(id));
                let form = form.and_then(Object::as_stream).expect("a form");
                paint(pdf, &form.decompressed_content().expect("content"), forms, at, all);
            }
            _ => {}
        }
    }
}

const DOTS: f64 = 4.0;

/// What codes on a page say, read by a reader of such codes that knows nothing of ours; and the side of each, mm.
fn codes(pdf: &Document, page: ObjectId, (width, height): (f64, f64)) -> Vec<(String, f64)> {
    let (columns, rows) = ((width * DOTS) as usize, (height * DOTS) as usize);
    let mut picture = vec![255_u8; columns * rows];
    for (rings, black) in filled(pdf, page) {
        let points = || rings.iter().flatten();
        let (low, high) = points().fold((height, 0.0_f64), |(low, high), point| (low.min(point.1), high.max(point.1)));
        let row_of = |y: f64| (((height - y) * DOTS).max(0.0) as usize).min(rows);
        for row in row_of(high)..(row_of(low) + 1).min(rows) {
            let y = height - (row as f64 + 0.5) / DOTS;
            let mut crossings: Vec<f64> = Vec::new();
            for ring in &rings {
                for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                    if (a.1 > y) != (b.1 > y) {
                        crossings.push(a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0));
                    }
                }
            }
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                let column = |x: f64| ((x * DOTS - 0.5).ceil().max(0.0) as usize).min(columns);
                picture[row * columns + column(pair[0])..row * columns + column(pair[1])].fill(if black {
                    0
                } else {
                    255
                });
            }
        }
    }
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(columns, rows, |x, y| picture[y * columns + x]);
    let grids = image.detect_grids();
    grids
        .iter()
        .map(|grid| {
            let (a, b) = (grid.bounds[0], grid.bounds[1]);
            let side = f64::from((a.x - b.x).pow(2) + (a.y - b.y).pow(2)).sqrt() / DOTS / 72.0 * 25.4;
            (grid.decode().expect("the code can be read").1, side)
        })
        .collect()
}

#[test]
fn every_page_has_a_code_that_others_read() {
    let case = case().demo();
    // One that goes on upon further pages, and one with drawings.
    let stations = ["--station", "bottoming", "--station", "sole-stitching"];
    case.run(&[&["sheets", CAIRN, "--size", "9.5 EE", "--out", "out", "--by", "one"], &stations[..]].concat());
    let ran = case.run(&["figures", CAIRN, "--size", "9.5 EE", "--format", "json"]);
    let document: Value = serde_json::from_str(&ran.out).expect("figures");
    let fingerprint = document["models"][0]["sizes"][0]["fingerprint"].as_str().expect("one");
    let known = format!("HOBNAIL 1; cairn-10; r2; us-men 9.5 EE; {fingerprint}");
    let pdf = load(&case, "out/cairn-10.pdf");
    assert!(pdf.get_pages().len() > 2);
    for (number, page) in pdf.get_pages() {
        let read = codes(&pdf, page, (595.276, 841.89));
        assert_eq!(read.len(), 1, "page {number}");
        assert_eq!(read[0].0, known, "page {number}");
        assert!(read[0].1 >= 12.0, "page {number}: {} mm", read[0].1);
    }
}

#[test]
fn every_card_has_a_code_of_its_own() {
    let case = case().demo();
    case.run(&["traveller", CAIRN, "--size", "9 D", "--pairs", "2", "--out", "out", "--paper", "letter"]);
    let pdf = load(&case, "out/cairn-10_traveller.pdf");
    let page = pdf.get_pages()[&1];
    let mut read: Vec<String> = codes(&pdf, page, (612.0, 792.0)).into_iter().map(|(text, _)| text).collect();
    read.sort();
    assert_eq!(read.len(), 2);
    for (n, text) in read.iter().enumerate() {
        assert!(text.starts_with("HOBNAIL 1; cairn-10; r2; us-men 9 D; "), "{text}");
        assert!(text.ends_with(&format!("; pair {}/2", n + 1)), "{text}");
        assert_eq!(case.run(&["verify", "--fingerprint", text, CAIRN]).code, Some(0));
    }
}
