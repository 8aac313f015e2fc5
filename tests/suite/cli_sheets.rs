//! The command that prints: what it refuses to print, what it prints when forced.

use crate::common::case;

const MODEL: &str = "specs/models/cairn-10.hob";
const REFUSED: &str = "specs/refused/jaw-sole-stack.hob";
const ONE: [&str; 6] = ["--size", "9 D", "--station", "heeling", "--out", "sheets"];

/// The words of the only PDF of the folder, page by page.
fn pages(case: &crate::common::Case) -> Vec<String> {
    let mut files = std::fs::read_dir(case.path("sheets")).expect("a folder was made").flatten();
    let bytes = std::fs::read(files.next().expect("a file was printed").path()).expect("it can be read");
    assert!(files.next().is_none(), "one file was printed");
    let pdf = lopdf::Document::load_mem(&bytes).expect("it is a PDF");
    pdf.get_pages().keys().map(|page| pdf.extract_text(&[*page]).expect("it has a text")).collect()
}

#[test]
fn what_is_refused_prints_only_when_forced_and_says_so() {
    let case = case().demo();
    let arguments: Vec<&str> = ["sheets", REFUSED].into_iter().chain(ONE).collect();
    let ran = case.run(&arguments);
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    assert!(!case.path("sheets").exists(), "nothing is printed");
    for (lang, words) in [("en", "NOT RELEASED"), ("es", "NO LIBERADO")] {
        let forced: Vec<&str> = arguments.iter().copied().chain(["--force", "--lang", lang]).collect();
        assert_eq!(case.run(&forced).code, Some(1), "it is refused all the same");
        for page in pages(&case) {
            assert!(page.contains(words), "{page}");
        }
        assert!(pages(&case)[0].contains("jaw/sole-stack"));
    }
}

#[test]
fn what_can_be_built_prints_the_same_when_forced() {
    let case = case().demo();
    let arguments: Vec<&str> = ["sheets", MODEL].into_iter().chain(ONE).collect();
    case.run(&arguments);
    let before = pages(&case);
    case.run(&[&arguments[..], &["--force"]].concat());
    assert_eq!(before, pages(&case));
    assert!(!before[0].contains("NOT RELEASED") && before[0].contains("pairs: ____"));
    case.run(&[&arguments[..], &["--pairs", "12"]].concat());
    assert!(pages(&case)[0].contains("pairs: 12"));
}

#[test]
fn a_character_that_the_typefaces_lack_is_found_before_anything_is_printed() {
    let case = case().demo().edit(MODEL, "cairn-10 \"Cairn, 10 inch\"", "cairn-10 \"Cairn 靴, 10 inch\"");
    let ran = case.run(&[&["sheets", MODEL, "--format", "short"][..], &ONE].concat());
    assert_eq!(ran.code, Some(1));
    assert!(!case.path("sheets").exists(), "nothing is printed");
    let fault = ran.error.lines().find(|line| line.contains("text/unprintable")).expect("it is found");
    assert!(fault.contains(MODEL) && fault.contains("`靴` (U+9774)"), "{fault}");
}

#[test]
fn a_character_in_a_comment_is_nobody_s_business() {
    let case = case().demo().edit(MODEL, "revision 2", "revision 2   # 靴");
    let ran = case.run(&[&["sheets", MODEL][..], &ONE].concat());
    assert_eq!(ran.code, Some(0));
    assert!(!pages(&case).is_empty());
}
