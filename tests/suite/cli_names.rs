//! Names as long as a shop likes: what `check` passes prints, and nothing that is said on a page is lost.

use crate::common::{Case, case};
use lopdf::Document;

const MODEL: &str = "specs/models/scree-8.hob";

/// The demo shop with the scree's quarter called otherwise.
fn called(name: &str) -> Case {
    let case = case().demo();
    let text = std::fs::read_to_string(case.path(MODEL)).expect("the file is there");
    case.bytes(MODEL, text.replace("quarter", name).as_bytes())
}

/// All words of one PDF, spaces apart: a name that is broken over lines is whole again.
fn words(case: &Case, path: &str) -> String {
    let bytes = std::fs::read(case.path(path)).expect("it was printed");
    let pdf = Document::load_mem(&bytes).expect("it is a PDF");
    let numbers: Vec<u32> = pdf.get_pages().into_keys().collect();
    pdf.extract_text(&numbers).expect("it has a text").split_whitespace().collect()
}

#[test]
fn a_part_with_a_long_name_prints_on_every_kind_of_page() {
    for letters in [22, 40, 120] {
        let name = format!("quarter-{}", "of-the-hill-boot-in-two-pieces-".repeat(4))[..letters - 1].to_owned() + "s";
        let case = called(&name);
        let checked = case.run(&["check", MODEL, "--size", "9 D"]);
        assert_eq!(checked.code, Some(0), "{checked}");
        for (command, file) in [
            ("sheets", "out/scree-8_us-men_09_D.pdf"),
            ("templates", "out/scree-8_us-men_09_D_templates_left.pdf"),
            ("traveller", "out/scree-8_traveller.pdf"),
            ("line-card", "out/line-card_post-bed.pdf"),
        ] {
            let ran = case.run(&[command, MODEL, "--size", "9 D", "--out", "out"]);
            assert_eq!(ran.code, Some(0), "{letters} letters: {ran}");
            assert!(command != "sheets" || words(&case, file).contains(&name), "{letters} letters: {file}");
        }
    }
}
