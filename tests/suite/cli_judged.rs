//! What is judged of the demo shop's models, and their figures, as the commands show them.

use crate::common::{Case, case};
use insta::assert_snapshot;

const SCREE: &str = "specs/models/scree-8.hob";

/// A model whose waist nails reach too far in the small sizes only.
fn partly() -> Case {
    case().demo().file(
        "specs/models/carried.hob",
        "use \"scree-8.hob\"\n\nmodel carried like scree-8 {\n  revision 1\n  bottom {\n    waist nailed { with clinching;  inside-feather 10 mm;  apart 12 mm;  to 58.3 % }\n  }\n}\n",
    )
}

#[test]
fn refused_in_some_sizes() {
    let case = partly();
    assert_snapshot!("partly_human", case.run(&["check", "specs/models/carried.hob"]));
    assert_snapshot!("partly_short", case.run(&["check", "--format=short", "specs/models/carried.hob"]));
    assert_snapshot!("partly_json", case.run(&["check", "--format=json", "specs/models/carried.hob", "--size=6 D"]));
    let passing = case.run(&["check", "specs/models/carried.hob", "--size", "12..14"]);
    let said = passing.out.lines().last().expect("a summary");
    assert_eq!((passing.code, said), (Some(0), "1 model, 12 sizes: nothing refused, 1 note"));
}

#[test]
fn tight_passes_unless_it_is_denied() {
    let case = case().demo().edit("specs/shop.hob", "sews 19 mm", "sews 17.6 mm");
    assert_snapshot!("tight", case.run(&["check", SCREE, "--size", "9 D"]));
    let denied = case.run(&["check", SCREE, "--deny", "tight", "--size", "9 D"]);
    assert_eq!((denied.code, denied.error.as_str()), (Some(1), ""));
}

#[test]
fn a_finding_of_a_shared_file_is_shown_once_for_all_that_use_it() {
    let case =
        case().demo().edit("specs/stock.hob", "thread bonded-415 { size 400 tex", "thread bonded-415 { size 400");
    let ran = case.run(&["check", SCREE, "specs/models/muster-10.hob"]);
    assert_snapshot!("shared", ran);
}

#[test]
fn every_model_passes() {
    let case = case().demo();
    let ran = case.run(&["check", "--format=short", SCREE, "specs/models/muster-10.hob", "specs/models/cairn-10.hob"]);
    assert_eq!((ran.code, ran.error.as_str()), (Some(0), ""), "{}", ran.out);
    // The four are levelled as their shop does it: heads 1 mm below the nominal, with more than that in the tolerances.
    let noted = ran.out.lines().filter(|line| line.contains(": note heel/nail-heads: ")).count();
    assert_eq!((noted, ran.out.lines().count()), (4, 4), "{}", ran.out);
}

#[test]
fn a_size_that_no_model_is_made_in() {
    let case = case().demo();
    let said = |size| case.run(&["check", SCREE, "--size", size]);
    let nearest = |size, nearest| {
        let expected = format!("hobnail: no model given is made in {size}; the nearest size is {nearest}\n");
        assert_eq!((said(size).error, said(size).code), (expected, Some(2)));
    };
    nearest("9 B", "9 C");
    nearest("13.5", "13 C");
    nearest("5½ 2E", "6 EE");
    nearest("14.5..16 D", "14 D");
    for size in ["9", "9 D", "9½ d", "9 1/2 2e", "9..11 EE"] {
        assert_eq!(said(size).code, Some(0), "{size}");
    }
}

#[test]
fn figures_of_one_size() {
    let case = case().demo();
    assert_snapshot!("figures_human", case.run(&["figures", SCREE, "--size", "9 D"]));
    let short = case.run(&["figures", "--format", "short", SCREE, "--size", "9 D"]);
    assert!(short.out.lines().all(|line| line.starts_with("scree-8") && line.contains(", 9 D: ")), "{}", short.out);
    assert_eq!(short.code, Some(0));
}

#[test]
fn the_same_twice() {
    let case = case().demo();
    for format in ["human", "short", "json"] {
        let arguments = ["figures", "--format", format, SCREE, "--size", "8..9"];
        assert_eq!(case.run(&arguments).out, case.run(&arguments).out, "{format}");
    }
}
