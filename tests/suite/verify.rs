//! Printed sheets held against sources, from outside: what matches, what differs and in which figures, what can't be read;
//! sheets that earlier versions printed among them.

use crate::common::{Case, case};
use hobnail::build::COMPUTATION;
use lopdf::{Document, Object, dictionary};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

const CAIRN: &str = "specs/models/cairn-10.hob";
const SHEET: &str = "out/cairn-10_us-men_09_D.pdf";

/// The demo shop with a sheet of cairn-10 in 9 D, printed.
fn printed() -> Case {
    let case = case().demo();
    let ran = case.run(&["sheets", CAIRN, "--size", "9 D", "--out", "out"]);
    assert_eq!(ran.code, Some(0), "{ran}");
    case
}

/// A PDF changed by hand.
fn changed(case: &Case, path: &str, change: impl FnOnce(&mut Document)) {
    let mut pdf = Document::load(case.path(path)).expect("the sheet is a PDF");
    change(&mut pdf);
    pdf.save(case.path(path)).expect("it can be written");
}

fn is_file(object: &Object) -> bool {
    object
        .as_stream()
        .is_ok_and(|stream| stream.dict.get(b"Type").is_ok_and(|it| it.as_name().is_ok_and(|it| it == b"EmbeddedFile")))
}

/// What the PDF carries, changed by hand.
fn carried(case: &Case, path: &str, change: impl FnOnce(&str) -> String) {
    changed(case, path, |pdf| {
        let file = pdf.objects.values_mut().find(|object| is_file(object)).expect("it carries its figures");
        let file = file.as_stream_mut().expect("a stream");
        let text = String::from_utf8(file.decompressed_content().expect("it is deflated")).expect("JSON is UTF-8");
        file.dict.remove(b"Filter");
        file.set_content(change(&text).into_bytes());
    });
}

fn json(case: &Case, arguments: &[&str]) -> (Value, Option<i32>) {
    let ran = case.run(&[arguments, &["--format", "json"]].concat());
    let document = serde_json::from_str(&ran.out).unwrap_or_else(|why| panic!("{why}: {ran}"));
    has_shape(&document, "verify-1");
    (document, ran.code)
}

/// The document has the shape that this version writes down.
fn has_shape(document: &Value, schema: &str) {
    let schema = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("docs/schema/{schema}.json"));
    let schema = serde_json::from_str(&fs::read_to_string(schema).expect("it is there")).expect("it is JSON");
    let validator = jsonschema::validator_for(&schema).expect("the schema is one");
    let faults: Vec<String> = validator.iter_errors(document).map(|fault| fault.to_string()).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Every figure of the one build, without its terms: they say where it was written, which a sheet does not.
fn figures(case: &Case) -> BTreeMap<String, Value> {
    let ran = case.run(&["figures", CAIRN, "--size", "9 D", "--format", "json"]);
    bare(&serde_json::from_str(&ran.out).expect("the figures are JSON"))
}

fn bare(document: &Value) -> BTreeMap<String, Value> {
    let figures = document["models"][0]["sizes"][0]["figures"].as_object().expect("figures").clone();
    let bare = |(key, mut figure): (String, Value)| {
        figure.as_object_mut().expect("a figure").remove("terms");
        (key, figure)
    };
    figures.into_iter().map(bare).collect()
}

#[test]
fn a_sheet_matches_the_sources_that_it_was_printed_from() {
    let case = printed();
    for by in ["station", "one"] {
        case.run(&["sheets", CAIRN, "--size", "9..9.5", "--out", "out", "--by", by]);
    }
    case.run(&["traveller", CAIRN, "--size", "9 D", "--out", "out"]);
    case.run(&["line-card", CAIRN, "--size", "9..9.5", "--out", "out", "--machine", "sole-stitcher"]);
    let all = [
        SHEET,
        "out/cairn-10_heeling.pdf",
        "out/cairn-10.pdf",
        "out/cairn-10_traveller.pdf",
        "out/line-card_sole-stitcher.pdf",
    ];
    for (sheet, builds) in all.into_iter().zip([1, 8, 8, 1, 8]) {
        let (document, code) = json(&case, &["verify", sheet, CAIRN]);
        assert_eq!(document["summary"]["matching"], builds, "{sheet}: {document}");
        assert_eq!(code, Some(0), "{sheet}");
    }
}

/// What a sheet carries is read back bit for bit; the last bit of a half, lost, would be another fingerprint.
#[test]
fn numbers_come_back_as_they_were_written() {
    let ran = case().demo().run(&["figures", CAIRN, "--format", "json"]);
    let numbers = ran.out.split(|c: char| !(c.is_ascii_digit() || ".eE-".contains(c)));
    let numbers = numbers.filter(|text| text.contains('.') && !text.ends_with('.') && text.parse::<f64>().is_ok());
    let numbers: Vec<&str> = numbers.collect();
    assert!(numbers.len() > 10_000, "{} numbers", numbers.len());
    for number in numbers.into_iter().chain(["11.807812499999999"]) {
        let read: f64 = serde_json::from_str(number).expect("it is a number");
        assert_eq!(Ok(read.to_bits()), number.parse().map(f64::to_bits), "{number}");
    }
}

#[test]
fn a_changed_value_is_told_figure_by_figure() {
    let edits = [
        ("pitch 5 spi;  thread bonded-346", "pitch 5.5 spi;  thread bonded-346"),
        ("rows 2;  from-edge 3.5 mm", "rows 2;  from-edge 4 mm"),
        ("pattern \"C10-1\"", "pattern \"C10-1b\""),
    ];
    for (from, to) in edits {
        let case = printed();
        let before = figures(&case);
        let case = case.edit(CAIRN, from, to);
        let after = figures(&case);
        let keys = before.keys().chain(after.keys());
        let differing: BTreeMap<&String, (Option<&Value>, Option<&Value>)> = keys
            .filter(|key| before.get(*key) != after.get(*key))
            .map(|key| (key, (before.get(key), after.get(key))))
            .collect();
        assert!(!differing.is_empty(), "{to}");

        let (document, code) = json(&case, &["verify", SHEET, CAIRN]);
        assert_eq!(code, Some(1));
        let build = &document["sheets"][0]["builds"][0];
        assert_eq!(build["standing"], "differs");
        assert_ne!(build["printed"]["fingerprint"], build["now"]["fingerprint"]);
        let told = build["figures"].as_array().expect("figures");
        assert_eq!(told.len(), differing.len(), "{to}: {told:?} against {differing:?}");
        for it in told {
            let key = it["key"].as_str().expect("a key").to_owned();
            let (then, now) = differing[&key];
            for (side, known) in [(&it["printed"], then), (&it["now"], now)] {
                for what in ["unit", "value", "lo", "nominal", "hi", "text", "list"] {
                    let known = known.map_or(&Value::Null, |known| &known[what]);
                    assert_eq!(&side[what], known, "{key}: {what}");
                }
            }
        }
    }
}

#[test]
fn a_line_card_goes_by_what_stands_on_it() {
    let case = case().demo();
    case.run(&["line-card", CAIRN, "--size", "9 D", "--out", "out"]);
    let case = case.edit(CAIRN, "pitch 5 spi;  thread bonded-346", "pitch 5.5 spi;  thread bonded-346");
    let (document, code) = json(&case, &["verify", "out/line-card_sole-stitcher.pdf", CAIRN]);
    assert_eq!(code, Some(1), "{document}");
    let (document, code) = json(&case, &["verify", "out/line-card_horn-stitcher.pdf", CAIRN]);
    assert_eq!(code, Some(0), "{document}");
}

#[test]
fn words_for_people() {
    let case = printed().edit(CAIRN, "rows 2;  from-edge 3.5 mm", "rows 2;  from-edge 4 mm");
    let ran = case.run(&["verify", SHEET, CAIRN]);
    let (first, rest) = ran.out.split_once('\n').expect("lines");
    assert!(first.starts_with("out/cairn-10_us-men_09_D.pdf: cairn-10 in 9 D differs in "), "{ran}");
    let row = rest.lines().find(|line| line.trim_start().starts_with("sole.from-edge ")).expect("a row");
    let words: Vec<&str> = row.split("  ").map(str::trim).filter(|word| !word.is_empty()).collect();
    assert_eq!(words, ["sole.from-edge", "outer row from the finished edge", "3.50 mm", "4.00 mm"]);
    assert!(ran.out.ends_with("1 differing\n"), "{ran}");
    let short = case.run(&["verify", SHEET, CAIRN, "--format", "short"]);
    assert!(short.out.contains(": sole.from-edge: 3.50 mm -> 4.00 mm\n"), "{short}");
}

#[test]
fn a_revision_that_was_raised_is_another_sheet() {
    let case = printed().edit(CAIRN, "  revision 2\n", "  revision 3\n");
    let ran = case.run(&["verify", SHEET, CAIRN]);
    assert_eq!(ran.code, Some(1), "{ran}");
    assert!(ran.out.contains("model.revision  revision  2        3\n"), "{ran}");
    case.run(&["line-card", CAIRN, "--size", "9 D", "--out", "out", "--machine", "sole-stitcher"]);
    let case = case.edit(CAIRN, "  revision 3\n", "  revision 4\n");
    let ran = case.run(&["verify", "out/line-card_sole-stitcher.pdf", CAIRN]);
    assert_eq!(ran.code, Some(1), "{ran}");
    assert!(ran.out.contains("differs, in no figure\n  revision: printed 3, now 4\n"), "{ran}");
}

#[test]
fn a_comment_changes_nothing() {
    let case = printed().edit(CAIRN, "  revision 2\n", "  revision 2   # as agreed\n");
    assert_eq!(case.run(&["verify", SHEET, CAIRN]).code, Some(0));
}

#[test]
fn what_is_no_longer_there_is_said() {
    let case = printed();
    let ran = case.run(&["verify", SHEET, "specs/models/muster-10.hob"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains("cairn-10 in 9 D is in none of the files given\n"), "{ran}");
    let case = case.edit(CAIRN, "run us-men 6..12 by 1/2, 13, 14", "run us-men 10..12 by 1/2");
    let ran = case.run(&["verify", SHEET, CAIRN]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains("cairn-10 in 9 D is no longer made\n"), "{ran}");
}

#[test]
fn a_fault_in_the_sources_is_not_a_difference() {
    let case = printed().edit(CAIRN, "rows 2;  from-edge 3.5 mm", "rows 2;  from-edge wide");
    let ran = case.run(&["verify", SHEET, CAIRN]);
    assert_eq!(ran.code, Some(1), "{ran}");
    assert!(ran.out.contains("can't be compared"), "{ran}");
    assert!(ran.error.contains("fault "), "{ran}");
}

#[test]
fn an_older_computation_is_said() {
    let case = printed();
    carried(&case, SHEET, |text| {
        let (head, rest) = text.split_once("\"computation\":").expect("it says its computation");
        let end = rest.find(',').expect("more follows");
        format!("{head}\"computation\":1{}", &rest[end..]).replace("\"fingerprint\":\"", "\"fingerprint\":\"0000-")
    });
    let ran = case.run(&["verify", SHEET, CAIRN]);
    assert_eq!(ran.code, Some(1), "{ran}");
    assert!(ran.out.contains("printed by computation 1, this program has "), "{ran}");
    assert!(!ran.out.contains("not those of its fingerprint"), "{ran}");
}

/// Unit and value of a figure, numbers to a millionth, as far as a fingerprint tells them apart; its label may be worded anew,
/// and what earlier versions did not carry is left out.
fn told(figure: &Value) -> String {
    fn shape(value: &Value) -> String {
        match value {
            Value::Number(number) if number.is_f64() => format!("{:.6}", number.as_f64().expect("it is one") + 0.0),
            Value::Array(all) => all.iter().map(shape).collect::<Vec<_>>().join(" "),
            Value::Object(all) => {
                let said = all
                    .iter()
                    .filter(|(key, _)| !["label", "definition", "names"].contains(&key.as_str()))
                    .map(|(key, it)| format!("{key}={}", shape(it)));
                said.collect::<Vec<_>>().join(" ")
            }
            other => other.to_string(),
        }
    }
    shape(figure)
}

/// Sheets of the demo shop as earlier versions printed them: each is read, and what it tells is what its own figures, read
/// here by another library, and the present ones differ in.
#[test]
fn sheets_of_earlier_versions_are_read() {
    let case = case().demo();
    let present = figures(&case);
    for (computation, fingerprint) in [(8, "cd07-6777-9f13"), (9, "ce12-24cc-0179"), (10, "8c93-d58e-d9b5")] {
        let kept = format!("tests/reference/printed/computation-{computation}.pdf");
        let kept = fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(kept)).expect("it is kept");
        let pdf = Document::load_mem(&kept).expect("the sheet is a PDF");
        let file = pdf.objects.values().find(|object| is_file(object)).expect("it carries its figures");
        let file = file.as_stream().expect("a stream").decompressed_content().expect("it is deflated");
        let carried: Value = serde_json::from_slice(&file).expect("the figures are JSON");
        has_shape(&carried, if computation < 10 { "figures-1" } else { "figures-2" });
        assert_eq!(carried["computation"], computation);
        let printed = bare(&carried);
        let keys: BTreeSet<&String> = printed.keys().chain(present.keys()).collect();
        let differing = |key: &&&String| printed.get(**key).map(told) != present.get(**key).map(told);
        let differing: BTreeSet<&str> = keys.iter().filter(differing).map(|key| key.as_str()).collect();

        fs::write(case.path("kept.pdf"), &kept).expect("files can be written");
        let (document, code) = json(&case, &["verify", "kept.pdf", CAIRN]);
        let build = &document["sheets"][0]["builds"][0];
        assert_eq!(build["printed"]["fingerprint"], fingerprint);
        let said = build["figures"].as_array().map(Vec::as_slice).unwrap_or_default();
        let said: BTreeSet<&str> = said.iter().map(|it| it["key"].as_str().expect("a key")).collect();
        assert_eq!(said, differing, "computation {computation}");
        let earlier = computation < COMPUTATION;
        let same = !earlier && differing.is_empty();
        assert_eq!((code, build["standing"] == "matches"), (Some(i32::from(!same)), same), "{build}");
        let said = case.run(&["verify", "kept.pdf", CAIRN]);
        let note = format!("printed by computation {computation}, this program has {COMPUTATION}: print it again");
        assert_eq!(said.out.contains(&note), earlier, "{said}");
        assert!(!said.out.contains("not those of its fingerprint"), "{said}");
    }
}

#[test]
fn figures_that_are_not_those_of_the_fingerprint_are_said() {
    let case = printed();
    carried(&case, SHEET, |text| text.replacen("\"value\":3.5", "\"value\":3.75", 1));
    let ran = case.run(&["verify", SHEET, CAIRN]);
    assert_eq!(ran.code, Some(1), "{ran}");
    assert!(ran.out.contains("the figures that it carries are not those of its fingerprint"), "{ran}");
}

#[test]
fn what_can_t_be_read_is_said() {
    let case = printed().bytes("text.pdf", b"no pages here").bytes("empty.pdf", b"");
    fs::create_dir(case.path("folder.pdf")).expect("folders can be made");
    let mut foreign = Document::with_version("1.7");
    let pages = foreign.add_object(dictionary! { "Type" => "Pages", "Count" => 0, "Kids" => Vec::<Object>::new() });
    let catalog = foreign.add_object(dictionary! { "Type" => "Catalog", "Pages" => pages });
    foreign.trailer.set("Root", catalog);
    foreign.save(case.path("foreign.pdf")).expect("it can be written");
    let newer = |text: &str| text.replacen("hobnail/figures/2", "hobnail/figures/9", 1);
    for (path, change) in
        [("newer.pdf", &newer as &dyn Fn(&str) -> String), ("torn.pdf", &|text: &str| text[..900].to_owned())]
    {
        fs::copy(case.path(SHEET), case.path(path)).expect("files can be copied");
        carried(&case, path, change);
    }
    let said = [
        ("text.pdf", "it is not a PDF"),
        ("empty.pdf", "it is not a PDF"),
        ("none.pdf", "no such file or directory"),
        ("folder.pdf", "it is not a file"),
        ("foreign.pdf", "it carries no figures; it is no sheet of this program, or they were taken out"),
        ("newer.pdf", "its figures have the shape `hobnail/figures/9`, which this program does not read"),
        ("torn.pdf", "the figures that it carries are damaged"),
    ];
    for (path, why) in said {
        let ran = case.run(&["verify", path, CAIRN]);
        assert_eq!(ran.code, Some(2), "{ran}");
        assert_eq!(ran.error, format!("hobnail: {path} can't be read: {why}\n"));
        assert!(ran.out.contains(&format!("{path}: {why}\n")), "{ran}");
    }
    // The others are held against the sources all the same.
    let (document, code) = json(&case, &["verify", "text.pdf", SHEET, CAIRN]);
    assert_eq!(
        (code, &document["summary"]["matching"], &document["summary"]["unread"]),
        (Some(2), &1.into(), &1.into())
    );
}

#[test]
fn a_sheet_that_is_cut_off_anywhere_is_unread_or_the_same() {
    let case = printed();
    let whole = fs::read(case.path(SHEET)).expect("it is printed");
    let (mut files, mut lengths) = (Vec::new(), Vec::new());
    for part in 0..40 {
        let length = whole.len() * part / 40;
        let name = format!("cut-{part}.pdf");
        fs::write(case.path(&name), &whole[..length]).expect("files can be written");
        files.push(name);
        lengths.push(length);
    }
    // And with bytes that are not its own, in the same places.
    for (part, length) in lengths.into_iter().enumerate() {
        let mut broken = whole.clone();
        broken[length..(length + 40).min(whole.len())].fill(b'<');
        let name = format!("broken-{part}.pdf");
        fs::write(case.path(&name), broken).expect("files can be written");
        files.push(name);
    }
    let mut arguments = vec!["verify", CAIRN];
    arguments.extend(files.iter().map(String::as_str));
    let (document, code) = json(&case, &arguments);
    assert_eq!(code, Some(2));
    for sheet in document["sheets"].as_array().expect("sheets") {
        let cut = sheet["given"].as_str().is_some_and(|given| given.starts_with("cut"));
        let unread = sheet["unread"].is_string();
        assert!(unread || !cut, "{sheet}");
        assert!(unread || sheet["builds"][0]["standing"] == "matches", "{sheet}");
    }
}

#[test]
fn a_fingerprint_is_found_or_not() {
    let case = printed();
    let (document, _) = json(&case, &["verify", SHEET, CAIRN]);
    let fingerprint = document["sheets"][0]["builds"][0]["printed"]["fingerprint"].as_str().expect("one").to_owned();
    let ran = case.run(&["verify", "--fingerprint", &fingerprint.to_uppercase(), CAIRN]);
    assert_eq!(ran.code, Some(0), "{ran}");
    assert!(ran.out.contains(": cairn-10 in 9 D matches\n"), "{ran}");
    let code = format!("HOBNAIL 1; cairn-10; r2; us-men 9 D; {fingerprint}; pair 3/12");
    assert_eq!(case.run(&["verify", "--fingerprint", &code, CAIRN]).code, Some(0));
    let ran = case.run(&["verify", "--fingerprint", &code.replace("; r2;", "; r1;"), CAIRN]);
    assert_eq!(ran.code, Some(1), "{ran}");
    assert!(ran.out.contains("revision: printed 1, now 2"), "{ran}");
    let case = case.edit(CAIRN, "rows 2;  from-edge 3.5 mm", "rows 2;  from-edge 4 mm");
    let ran = case.run(&["verify", "--fingerprint", &fingerprint, CAIRN]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains("no build of the files given has this fingerprint"), "{ran}");
    let ran = case.run(&["verify", "--fingerprint", &code, CAIRN]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains(&format!("fingerprint: printed {fingerprint}, now ")), "{ran}");
}

#[test]
fn calls_that_mean_nothing() {
    let case = printed();
    let ran = case.run(&["verify", CAIRN]);
    assert_eq!(ran.error, "hobnail: no sheet is given; name a PDF, or `--fingerprint` what stands on one\n");
    let ran = case.run(&["verify", SHEET]);
    assert_eq!(ran.error, "hobnail: no models are given; name the files that the sheets were printed from\n");
    assert_eq!(ran.code, Some(2));
}
