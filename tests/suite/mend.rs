//! `hobnail mend` from outside: files are written, checked again, and come out as promised.

use crate::common::memory::Memory;
use crate::common::{Case, Ran, case};
use hobnail::check::AllSizes;
use hobnail::remedy::remedies;
use hobnail::source::{Edit, EditFault};
use insta::assert_snapshot;
use rayon::prelude::*;
use std::fs;

const NEEDLE: &str = "specs/models/scree-8.hob";

/// The demo shop with a needle that the sole stitcher does not take.
fn needle() -> Case {
    case().demo().edit(NEEDLE, "needle 230 Nm", "needle 300 Nm")
}

fn text(case: &Case, path: &str) -> String {
    fs::read_to_string(case.path(path)).expect("the file is there")
}

fn clean(ran: &Ran) {
    assert_eq!(ran.code, Some(0), "{ran}");
}

#[test]
fn each_refused_example_is_mended_and_checks_clean() {
    Memory::demo().list("specs/refused/").par_iter().for_each(|path| {
        let case = case().demo();
        let before = text(&case, path);
        let mut said = case.run(&["mend", path]);
        // Findings that could not be mended by one set are mended one after another.
        for _ in 0..3 {
            if said.code == Some(0) {
                break;
            }
            said = case.run(&["mend", path]);
        }
        clean(&said);
        let checked = case.run(&["check", path, "--format", "short"]);
        clean(&checked);
        assert!(checked.out.lines().all(|line| !line.contains(": tight ")), "{checked}");
        // Nothing but the lines of the edits has changed, and no comment is lost.
        let after = text(&case, path);
        assert_ne!(before, after, "{path}");
        let comments =
            |text: &str| text.lines().filter_map(|line| Some(line.split_once('#')?.1.to_owned())).collect::<Vec<_>>();
        assert_eq!(comments(&before), comments(&after), "{path}");
        let beside = fs::read_dir(case.path("specs/refused")).expect("the folder is there");
        let left = beside.map(|entry| entry.expect("it is there").file_name()).filter(|name| {
            let name = name.to_string_lossy();
            name.starts_with('.') || name.ends_with(".before-mend")
        });
        assert_eq!(left.count(), 0, "{path}: something lies beside it");
    });
}

#[test]
fn what_it_writes_is_what_the_dry_run_says() {
    let case = needle();
    let before = text(&case, NEEDLE);
    let dry = case.run(&["mend", NEEDLE, "--dry-run"]);
    clean(&dry);
    assert_eq!(text(&case, NEEDLE), before, "a dry run writes nothing");
    assert_snapshot!("dry_run", dry.out);
    let ran = case.run(&["mend", NEEDLE]);
    clean(&ran);
    assert_snapshot!("mended", ran.out);
    // The diff, made by hand: each line that goes stands in the old text, each that comes in the new.
    let mut expected = before;
    let lines = |sign: char| dry.out.lines().filter_map(move |line| line.strip_prefix(sign)).skip(1);
    for (old, new) in lines('-').zip(lines('+')) {
        assert_eq!(expected.matches(old).count(), 1, "{old}");
        expected = expected.replace(old, new);
    }
    assert_eq!(text(&case, NEEDLE), expected);
}

#[test]
fn windows_line_ends_a_mark_and_comments_stay() {
    let case = needle();
    let windows = format!("\u{feff}{}", text(&case, NEEDLE).replace('\n', "\r\n"));
    let case = case.bytes(NEEDLE, windows.as_bytes());
    clean(&case.run(&["mend", NEEDLE]));
    let after = text(&case, NEEDLE);
    assert_eq!(after.matches("needle 230 Nm").count() + after.matches("needle 250 Nm").count(), 1, "{after}");
    let differing = windows.lines().zip(after.lines()).filter(|(old, new)| old != new).count();
    assert_eq!(differing, 1);
    assert_eq!(after.matches("\r\n").count(), after.matches('\n').count());
    assert!(after.starts_with('\u{feff}'));
}

#[test]
fn a_comment_inside_a_statement_stays() {
    let path = "specs/trial.hob";
    let model = "use \"models/scree-8.hob\"\nmodel trial like scree-8 {\n  revision 1\n  bottom {\n    turnout at-forepart 9.5 mm   # so much\n      at-waist 9.5 mm            # and here\n      at-heel 4 mm\n  }\n}\n";
    let case = case().demo().file(path, model);
    let ran = case.run(&["mend", path]);
    // Whether or not a line may end inside a statement, nothing that was written is lost.
    for comment in ["# so much", "# and here"] {
        assert!(text(&case, path).contains(comment), "{ran}");
    }
}

#[test]
fn a_text_from_standard_input_is_printed() {
    let source = Memory::demo().text("specs/refused/rows-edge.hob").to_owned();
    let case = case().demo().input(&source);
    let ran = case.run(&["mend", "-", "--as", "specs/refused/rows-edge.hob"]);
    clean(&ran);
    let again = case.input(&ran.out).run(&["check", "-", "--as", "specs/refused/rows-edge.hob"]);
    clean(&again);
}

#[test]
fn what_can_not_be_done_is_said() {
    let case = needle();
    let unknown = case.run(&["mend", NEEDLE, "--finding", "jaw/thread@scree-8, sole rows"]);
    let beyond = case.run(&["mend", NEEDLE, "--remedy", "99"]);
    let none = case.run(&["mend", "specs/models/cairn-10.hob"]);
    let fault = case.edit(NEEDLE, "needle 300 Nm", "needle 300 mm").run(&["mend", NEEDLE]);
    let say = |ran: Ran| format!("{}exit code {:?}\n", ran.error + &ran.out, ran.code);
    assert_snapshot!("not_done", [unknown, beyond, none, fault].map(say).join("\n"));
}

#[cfg(unix)]
#[test]
fn a_read_only_file_is_not_written() {
    use std::os::unix::fs::PermissionsExt as _;
    let case = needle();
    let before = text(&case, NEEDLE);
    fs::set_permissions(case.path(NEEDLE), fs::Permissions::from_mode(0o444)).expect("it is ours");
    let ran = case.run(&["mend", NEEDLE]);
    assert_eq!(
        (ran.code, &*ran.error),
        (Some(2), "hobnail: specs/models/scree-8.hob can't be written: it is read-only\n")
    );
    assert_eq!(text(&case, NEEDLE), before);
}

#[test]
fn an_interrupted_mending_is_not_written_over() {
    let case = needle().bytes("specs/models/scree-8.hob.before-mend", b"what was there");
    let before = text(&case, NEEDLE);
    let ran = case.run(&["mend", NEEDLE]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.error.contains("scree-8.hob.before-mend lies beside it"), "{ran}");
    assert_eq!(text(&case, NEEDLE), before);
    assert_eq!(text(&case, "specs/models/scree-8.hob.before-mend"), "what was there");
}

/// A disk that takes no file longer than so many blocks of 512 bytes: the system's own limit, which the shell sets.
#[cfg(unix)]
fn run_within(case: &Case, blocks: usize, arguments: &[&str]) -> (Option<i32>, String) {
    let mut shell = std::process::Command::new("sh");
    shell.args(["-c", "trap '' XFSZ; ulimit -f \"$0\"; exec \"$@\"", &blocks.to_string()]);
    shell.arg(env!("CARGO_BIN_EXE_hobnail")).args(arguments).current_dir(case.path("."));
    let ran = shell.output().expect("the shell starts");
    (ran.status.code(), String::from_utf8(ran.stderr).expect("what is written is UTF-8"))
}

#[cfg(unix)]
#[test]
fn an_original_that_the_disk_has_no_room_for_is_not_left_half() {
    // The way out, 250 Nm, is a letter shorter: the new text has room where the original lacks that of one letter.
    let case = case().demo().edit(NEEDLE, "needle 230 Nm", "needle 1000 Nm");
    let text_of = text(&case, NEEDLE);
    let blocks = text_of.len() / 512 + 1;
    let padded = format!("{text_of}#{}\n", "x".repeat(blocks * 512 + 1 - text_of.len() - 2));
    let case = case.bytes(NEEDLE, padded.as_bytes());
    let (code, said) = run_within(&case, blocks, &["mend", NEEDLE]);
    assert_eq!((code, &*said), (Some(2), "hobnail: specs/models/scree-8.hob can't be written: file too large\n"));
    assert_eq!(text(&case, NEEDLE), padded);
    let beside = fs::read_dir(case.path("specs/models")).expect("the folder is there");
    assert_eq!(beside.count(), 3, "nothing is left beside the models");
    clean(&case.run(&["mend", NEEDLE]));
}

#[test]
fn an_original_that_was_cut_off_is_not_to_be_put_back() {
    let case = needle();
    let before = text(&case, NEEDLE);
    let case = case.bytes("specs/models/scree-8.hob.before-mend", &before.as_bytes()[..before.len() / 2]);
    let ran = case.run(&["mend", NEEDLE]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.error.contains("delete it") && !ran.error.contains("put it back"), "{ran}");
}

#[test]
fn a_value_that_two_models_share_is_mended_once_for_both() {
    let case = needle();
    let ran = case.run(&["mend", NEEDLE]);
    clean(&ran);
    let mended: Vec<&str> = ran.out.lines().filter(|line| line.starts_with("mended ")).collect();
    assert_eq!(mended, ["mended jaw/needle@scree-8, sole rows", "mended jaw/needle@scree-8-slim, sole rows"]);
}

#[test]
fn two_ways_out_on_one_value_can_not_be_made_together() {
    let demo = Memory::demo();
    let text = demo.text(NEEDLE).replacen("from-edge 3.5 mm;  apart 3.5 mm", "from-edge 1.25 mm;  apart 3.5 mm", 1);
    let demo = demo.with(NEEDLE, text);
    let (loaded, mut checked) = demo.check(&[NEEDLE], &AllSizes);
    remedies(&loaded, &mut checked);
    let ways = checked.findings.iter().find_map(|finding| finding.ways_out.as_ref()).expect("it is refused");
    let edits = ways.remedies.iter().flat_map(|remedy| remedy.changes.iter().map(|change| change.edit.clone()));
    let first = edits.clone().next().expect("there is a way out");
    let twice: Vec<Edit> = vec![first.clone(), Edit { text: "9 mm".to_owned(), ..first }];
    assert_eq!(loaded.sources.apply(&twice).err(), Some(EditFault::Overlap));
}
