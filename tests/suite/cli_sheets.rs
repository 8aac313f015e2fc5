//! The command that prints: what it refuses to print, what it prints when forced.

use crate::common::{Case, case};

const MODEL: &str = "specs/models/cairn-10.hob";
const REFUSED: &str = "specs/refused/jaw-sole-stack.hob";
const ONE: [&str; 6] = ["--size", "9 D", "--station", "heeling", "--out", "sheets"];

/// The words of the only PDF of the folder, page by page.
fn pages(case: &Case) -> Vec<String> {
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

/// Two files that declare a model of one name; what they hold differs.
fn namesakes() -> Case {
    let variant = |sewn: &str| {
        format!(
            "use \"models/scree-8.hob\"\nmodel namesake like scree-8 {{ revision 1;  bottom {{ sole sewn {{ {sewn} }} }} }}\n"
        )
    };
    case().demo().file("specs/a.hob", &variant("pitch 5 spi")).file("specs/b.hob", &variant("pitch 6 spi"))
}

/// Every command that prints, with what it needs.
const PRINTING: [&[&str]; 5] =
    [&["sheets"], &["templates"], &["templates", "--kind", "svg"], &["traveller"], &["line-card"]];

#[test]
fn models_of_one_name_in_two_files_print_nothing() {
    for command in PRINTING {
        let case = namesakes();
        let ran = case.run(&[command, &["specs/a.hob", "specs/b.hob", "--size", "9 D", "--out", "out"]].concat());
        assert_eq!(ran.code, Some(2), "{ran}");
        for said in ["specs/a.hob", "specs/b.hob", "`namesake`"] {
            assert!(ran.error.contains(said), "{ran}");
        }
        assert!(!case.path("out").exists(), "nothing is printed");
    }
}

#[test]
fn one_file_given_twice_is_one() {
    let ran = namesakes().run(&["sheets", "specs/a.hob", "specs/a.hob", "--size", "9 D", "--out", "out"]);
    assert_eq!((ran.code, ran.out.starts_with("1 file,")), (Some(0), true), "{ran}");
}

/// The files of a folder and what they hold.
fn held(case: &Case) -> Vec<(std::path::PathBuf, Vec<u8>)> {
    let files = std::fs::read_dir(case.path("out")).expect("a folder was made").flatten();
    let mut held: Vec<_> =
        files.map(|file| (file.path(), std::fs::read(file.path()).expect("it can be read"))).collect();
    held.sort();
    held
}

#[test]
fn only_prints_of_the_model_are_printed_over() {
    const CAIRN: &str = "specs/models/cairn-10.hob";
    for command in PRINTING {
        let print = |case: &Case, more: &[&str]| {
            case.run(&[command, &["specs/a.hob", "--size", "9 D", "--out", "out"], more].concat())
        };
        let case = namesakes();
        let first = print(&case, &[]);
        assert_eq!(first.code, Some(0), "{first}");
        let printed = held(&case);
        // Again, and in another language: prints of the model.
        for again in [&[][..], &["--lang", "es"]] {
            let ran = print(&case, again);
            assert_eq!(ran.code, Some(0), "{ran}");
        }
        // Whatever else lies there stays, and none of the other files is written.
        let other = case.run(&[command, &[CAIRN, "--size", "9 D", "--out", "other"]].concat());
        assert_eq!(other.code, Some(0), "{other}");
        let file = std::fs::read_dir(case.path("other")).expect("a folder").flatten().next().expect("a file").path();
        let foreign = std::fs::read(file).expect("it can be read");
        let last = printed.len() - 1;
        for foreign in [b"a letter to the tannery".to_vec(), b"%PDF-1.4 cut off".to_vec(), Vec::new(), foreign] {
            for (path, bytes) in &printed {
                std::fs::write(path, bytes).expect("files can be written");
            }
            std::fs::write(&printed[last].0, &foreign).expect("files can be written");
            let before = held(&case);
            let ran = print(&case, &["--lang", "es"]);
            assert_eq!(ran.code, Some(2), "{ran}");
            assert!(ran.error.contains("`--replace`") && ran.error.contains("namesake"), "{ran}");
            assert_eq!(held(&case), before, "nothing was written");
            let ran = print(&case, &["--replace"]);
            assert_eq!(ran.code, Some(0), "{ran}");
            assert_eq!(held(&case), printed);
        }
    }
}

#[test]
fn a_page_of_reach_is_printed_over_a_page_of_reach_alone() {
    let case = namesakes();
    let reach = |more: &[&str]| case.run(&[&["reach", "specs/a.hob", "--out", "reach.pdf"], more].concat());
    assert_eq!(reach(&[]).code, Some(0));
    assert_eq!(reach(&["--lang", "es"]).code, Some(0));
    std::fs::write(case.path("reach.pdf"), "notes").expect("files can be written");
    let ran = reach(&[]);
    assert_eq!(ran.code, Some(2), "{ran}");
    assert_eq!(std::fs::read(case.path("reach.pdf")).expect("it is there"), b"notes");
    assert_eq!(reach(&["--replace"]).code, Some(0));
}
