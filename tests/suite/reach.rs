//! `hobnail reach`: what it prints as the limit passes when it is written into the texts and checked, and a little more
//! does not.

use crate::common::memory::Memory;
use crate::common::{Case, case};
use hobnail::check::AllSizes;
use hobnail::finding::{Finding, Severity};
use serde_json::Value;

const CAIRN: &str = "specs/models/cairn-10.hob";
const MODELS: [&str; 3] = [CAIRN, "specs/models/muster-10.hob", "specs/models/scree-8.hob"];

fn json(case: &Case, path: &str) -> Value {
    let ran = case.run(&["reach", path, "--format", "json"]);
    assert_eq!(ran.code, Some(0), "{ran}");
    serde_json::from_str(&ran.out).expect("it is JSON")
}

fn text<'v>(value: &'v Value, key: &str) -> &'v str {
    value[key].as_str().unwrap_or_default()
}

fn all<'v>(value: &'v Value, key: &str) -> &'v [Value] {
    value[key].as_array().map(Vec::as_slice).unwrap_or_default()
}

/// Checks a variant of the cairn whose rows go through an outsole of one thickness, and says whether jaw or stitch are
/// refused, or tight.
fn stack(demo: &Memory, row: &Value, outsole: f64) -> &'static str {
    let mut text_of = format!(
        "use \"specs/models/cairn-10.hob\"\noutsole trial {{ base {outsole:.4} mm;  blanks us-men 5..14 }}\n\
         model trial-boot like cairn-10 {{\n  revision 1\n  upper {{\n"
    );
    for part in ["quarter", "vamp"] {
        text_of += &format!("    part {part} {{ of {} }}\n", text(row, "outer"));
    }
    let slip = if row.get("slip").is_some() { "" } else { "    without layer slip\n" };
    text_of += &format!(
        "  }}\n  bottom {{\n    layer midsole {{ of {} }}\n{slip}    layer outsole {{ of trial }}\n    \
         sole sewn {{ through outsole;  on {} }}\n  }}\n}}\n",
        text(row, "midsole"),
        text(row, "machine")
    );
    let (_, checked) = demo.with("trial.hob", text_of).check(&["trial.hob"], &AllSizes);
    let faults: Vec<&Finding> = checked.findings.iter().filter(|it| it.severity == Severity::Fault).collect();
    assert!(faults.is_empty(), "{faults:?}");
    let of_stack = checked.findings.iter().filter(|it| ["jaw/sole-stack", "jaw/locks"].contains(&it.name));
    match of_stack.map(|it| it.severity).min() {
        None => "passes",
        Some(Severity::Refused) => "refused",
        Some(_) => "tight",
    }
}

#[test]
fn an_outsole_at_the_limit_passes_and_one_beyond_does_not() {
    let demo = Memory::demo();
    let found = json(&case().demo(), CAIRN);
    let rows = all(&found["models"][0], "outsoles");
    assert_eq!(rows.len(), 16, "two machines, two midsoles, two leathers, with and without the slip");
    for row in rows {
        let (passes, nominal) = (row["passes"].as_f64().expect("mm"), row["nominal"].as_f64().expect("mm"));
        assert!(passes < nominal, "tolerances leave less");
        for (outsole, expected) in [
            (passes - 1e-4, "passes"),
            (nominal + 2e-3, "refused"),
            // In between the thick end fails: tight, or a note where it is too rare for more.
            (f64::midpoint(passes, nominal), "not refused"),
        ] {
            let stack = stack(&demo, row, outsole);
            let as_expected = stack == expected || expected == "not refused" && stack != "refused";
            assert!(as_expected, "{outsole} under {row}: {stack}");
        }
    }
}

/// The bench stitcher sews 18 and locks through 16, so its lock sets the limit: 16 less vamp, quarter skived flat and a
/// midsole of 12 iron; at the thick end with 7 oz, 1.25 and 12.5 iron. The other one locks through 26 and sews 19.
#[test]
fn the_lower_of_jaw_and_lock_is_the_limit() {
    let found = json(&case().demo(), "specs/models/scree-8.hob");
    let of = |machine: &str| {
        let made = [machine, "bend 12 iron", "oil-tan"];
        let rows = all(&found["models"][0], "outsoles").iter();
        let row = rows.clone().find(|row| [text(row, "machine"), text(row, "midsole"), text(row, "outer")] == made);
        let row = row.expect("it is tried");
        let mm = |key: &str| row[key].as_f64().expect("mm");
        (text(row, "limit").to_owned(), mm("passes"), mm("nominal"))
    };
    let (oz, iron) = (25.4 / 64.0, 25.4 / 48.0);
    for (machine, limit, takes) in [("bench-stitcher", "locks-through", 16.0), ("sole-stitcher", "sews", 19.0)] {
        let (said, passes, nominal) = of(machine);
        assert_eq!(said, limit, "{machine}");
        assert!((nominal - (takes - 6.5 * oz - 1.0 - 12.0 * iron)).abs() < 1e-6, "{machine}: {nominal}");
        assert!((passes - (takes - 7.0 * oz - 1.25 - 12.5 * iron)).abs() < 1e-6, "{machine}: {passes}");
    }
    let table = case().demo().run(&["reach", "specs/models/scree-8.hob"]).out;
    assert!(table.contains("which sews 18.00 mm and locks through 16.00 mm"), "{table}");
}

/// The stocked outsole, machine and midsole of the demo's own build are among those that serve.
#[test]
fn what_the_models_are_made_of_serves() {
    let found = json(&case().demo(), "specs/models/muster-10.hob");
    let model = &found["models"][0];
    let own = all(model, "outsoles").iter().find(|row| {
        (text(row, "machine"), text(row, "midsole"), text(row, "outer")) == ("sole-stitcher", "bend 10 iron", "oil-tan")
    });
    let stocked = all(own.expect("muster is made so"), "stocked");
    let low = stocked.iter().find(|it| text(it, "outsole") == "lug-low").expect("it is stocked");
    assert_eq!(text(low, "serves"), "passes");
    let stage = |place: &str, length: &str| {
        let row = all(model, "nails").iter().find(|it| text(it, "place") == place && text(it, "length") == length);
        row.unwrap_or_else(|| panic!("no {length} at {place}"))["sizes"].clone()
    };
    // As muster says: 8/8 at the back and 6/8 at the breast of the first stage, 7/8 in the second.
    assert_eq!(stage("heel nail of stage 1 at the back", "8/8 in")["passes"], 60);
    assert_eq!(stage("heel nail of stage 1 at the breast", "6/8 in")["passes"], 60);
    assert_eq!(stage("heel nail of stage 2 at the back", "7/8 in")["passes"], 60);
    let lifts = &all(model, "lifts")[0];
    assert_eq!((text(lifts, "lift"), lifts["count"].as_u64()), ("lift-leather 12 iron", Some(4)));
}

/// Waist nails by arithmetic of their own: a length serves in all sizes if it lies between the thick end with the least
/// clinch and the thin end with the most, as `waist.window` says.
#[test]
fn nails_that_serve_are_those_inside_every_window() {
    let case = case().demo();
    for path in MODELS {
        let found = json(&case, path);
        let ran = case.run(&["figures", path, "--format", "json"]);
        let figures: Value = serde_json::from_str(&ran.out).expect("it is JSON");
        for model in all(&found, "models") {
            let of = all(&figures, "models").iter().find(|it| it["name"] == model["model"]).expect("the same models");
            let builds = all(of, "sizes");
            let window = |build: &Value| {
                let window = &build["figures"]["waist.window"];
                (window["lo"].as_f64().expect("mm"), window["hi"].as_f64().expect("mm"))
            };
            let windows: Vec<(f64, f64)> = builds.iter().map(window).collect();
            for row in all(model, "nails").iter().filter(|row| text(row, "place") == "waist nails") {
                let eighths: f64 = text(row, "length").trim_end_matches("/8 in").parse().expect("eighths of an inch");
                let length = eighths * 25.4 / 8.0;
                let serves = windows.iter().filter(|(lo, hi)| lo - 1e-9 <= length && length <= hi + 1e-9).count();
                let passes = row["sizes"]["passes"].as_u64().expect("a count");
                assert_eq!(usize::try_from(passes), Ok(serves), "{path}: {row}");
            }
        }
    }
}

#[test]
fn the_table_says_what_the_json_says() {
    let case = case().demo();
    let found = json(&case, CAIRN);
    let table = case.run(&["reach", CAIRN, "--out", "reach.pdf"]);
    assert_eq!(table.code, Some(0));
    for row in all(&found["models"][0], "outsoles") {
        let slip = row.get("slip").and_then(Value::as_str).unwrap_or("none");
        let (passes, nominal) = (row["passes"].as_f64().expect("mm"), row["nominal"].as_f64().expect("mm"));
        let cells = [text(row, "outer"), text(row, "midsole"), slip];
        let machine = table.out.split("thickest outsole on ").find(|part| part.starts_with(text(row, "machine")));
        let line = machine.expect("each machine has its table").lines().find(|line| {
            let columns: Vec<&str> = line.trim().split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
            columns.len() > 5 && columns[..3] == cells
        });
        let line = line.unwrap_or_else(|| panic!("no line for {row}\n{}", table.out));
        assert!(line.contains(&format!("{passes:.2}")) && line.contains(&format!("{nominal:.2}")), "{line}");
    }
    let pdf = lopdf::Document::load(case.path("reach.pdf")).expect("it is a PDF");
    let pages: Vec<u32> = pdf.get_pages().into_keys().collect();
    assert_eq!(pages.len(), 2);
    let said = pdf.extract_text(&pages).expect("its text can be read");
    for row in all(&found["models"][0], "outsoles") {
        let left =
            format!("{:.2} / {:.2} mm", row["passes"].as_f64().expect("mm"), row["nominal"].as_f64().expect("mm"));
        assert!(said.contains(&left), "{left} is not drawn");
    }
}

#[test]
fn what_is_not_there_is_said() {
    let case = case().demo();
    let ran = case.run(&["reach", CAIRN, "--model", "carn"]);
    assert_eq!((ran.code, &*ran.error), (Some(2), "hobnail: no model is called `carn`; there are: cairn-10\n"));
    let ran =
        case.edit(CAIRN, "layer outsole { of lug-heavy; ", "layer outsole { of lug-havy; ").run(&["reach", CAIRN]);
    assert_eq!(ran.code, Some(1), "{ran}");
    assert!(ran.error.contains("no sole-leather, outsole or rubber is named `lug-havy`"), "{ran}");
}
