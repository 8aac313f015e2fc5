//! The command line itself: what it takes, what it refuses, where it writes.

use crate::common::case;
use insta::assert_snapshot;
use std::io::Write;
use std::process::Stdio;

const STOCK: &str = "thread fine { size 70 tex }\n";

#[test]
fn nothing_found_is_said_in_one_line() {
    let case = case().file("stock.hob", STOCK);
    assert_snapshot!("nothing_human", case.run(&["check", "stock.hob"]));
    assert_snapshot!("nothing_short", case.run(&["check", "--format=short", "stock.hob"]));
    assert_snapshot!("nothing_json", case.run(&["check", "--format=json", "stock.hob"]));
}

#[test]
fn help_and_version() {
    assert_snapshot!("help", case().run(&["--help"]));
    assert_snapshot!("help_check", case().run(&["check", "--help"]));
    assert_snapshot!("help_sheets", case().run(&["sheets", "-h"]));
    let version = case().run(&["--version"]);
    assert_eq!(version.out, format!("hobnail {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn what_means_nothing_is_said_on_standard_error() {
    let case = case().file("stock.hob", STOCK);
    let lines: Vec<String> = [
        &[][..],
        &["chek", "stock.hob"],
        &["check"],
        &["check", "--formt", "json", "stock.hob"],
        &["check", "--format", "xml", "stock.hob"],
        &["check", "--format"],
        &["check", "--size", "9 Q", "stock.hob"],
        &["check", "--size", "11..9", "stock.hob"],
        &["check", "--size", "nine", "stock.hob"],
        &["check", "--deny", "loose", "stock.hob"],
        &["check", "--as", "stock.hob", "stock.hob"],
        &["check", "--paper", "a4", "stock.hob"],
        &["sheets", "stock.hob"],
        &["sheets", "--out", "sheets", "--paper", "a6", "stock.hob"],
        &["new"],
        &["rules", "jaw"],
    ]
    .into_iter()
    .map(|arguments| {
        let ran = case.run(arguments);
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""), "{arguments:?}");
        assert!(ran.error.starts_with("hobnail: "), "{arguments:?}");
        format!("hobnail {}\n{}", arguments.join(" "), ran.error)
    })
    .collect();
    assert_snapshot!(lines.join("\n"));
}

#[test]
fn files_that_cannot_be_read() {
    let case = case().file("stock.hob", STOCK).bytes("lasts/plain.hob", b"");
    let large = std::fs::File::create(case.path("large.hob")).expect("files can be made");
    large.set_len(16 * 1024 * 1024 + 1).expect("files can grow");
    let said = |file| case.run(&["check", "stock.hob", file]);
    assert_eq!(said("none.hob").error, "hobnail: none.hob can't be read: there is no such file\n");
    assert_eq!(said("stock.hob/x.hob").error, "hobnail: stock.hob/x.hob can't be read: there is no such file\n");
    assert_eq!(said("lasts").error, "hobnail: lasts is a folder; name the files in it\n");
    assert_eq!(
        said("large.hob").error,
        "hobnail: large.hob can't be read: it has 16777217 bytes; the limit is 16777216 (16 MiB)\n"
    );
    for file in ["none.hob", "lasts", "large.hob"] {
        assert_eq!((said(file).code, said(file).out), (Some(2), String::new()), "{file}");
    }
}

#[cfg(unix)]
#[test]
fn only_regular_files_are_read() {
    let ran = case().run(&["check", "/dev/null"]);
    assert_eq!(ran.error, "hobnail: /dev/null can't be read: it is not a regular file\n");
    let ran = case().file("a.hob", "use \"/dev/zero\"\n").run(&["check", "--format=short", "a.hob"]);
    assert_eq!(ran.out, "a.hob:1:5: fault file/unreadable: `/dev/zero` can't be used: it is not a regular file\n");
}

#[test]
fn standard_input_under_the_path_that_it_would_have() {
    let shared = "thread fine { size 75 tex }\n";
    let case = case().bytes("shared/stock.hob", shared.as_bytes());
    let case = case.input("use \"../shared/stock.hob\"\nthread fine { size 70 tex }\n");
    assert_snapshot!("input_as", case.run(&["check", "-", "--as", "models/new.hob"]));
    assert_snapshot!("input", case.run(&["check", "-"]));
}

#[test]
fn standard_input_stands_for_the_file_that_others_use() {
    let case = case().bytes("a.hob", b"use \"b.hob\"\n").bytes("b.hob", b"quux\n").input(STOCK);
    let ran = case.run(&["check", "a.hob", "-", "--as", "b.hob"]);
    assert_eq!(ran.out, "no models: nothing refused\n");
    assert_eq!(case.run(&["check", "a.hob"]).code, Some(1));
}

#[test]
fn one_file_by_two_paths_is_one() {
    let case = case().bytes("a/stock.hob", b"quux\n").bytes("b/x", b"");
    let ran = case.run(&["check", "--format=short", "./a/stock.hob", "b/../a/stock.hob"]);
    assert_eq!(ran.out.lines().count(), 1);
    assert!(ran.out.starts_with("a/stock.hob:1:1: fault word/unknown: "), "{}", ran.out);
}

#[test]
fn paths_are_shown_from_the_current_folder() {
    let case =
        case().bytes("a.hob", b"use \"b/c.hob\"\n").bytes("b/c.hob", b"use \"../d.hob\"\n").bytes("d.hob", b"quux\n");
    let mut command = case.command(&["check", "--format=short", "../a.hob"]);
    let output = command.current_dir(case.path("b")).output().expect("the command runs");
    assert!(output.stdout.starts_with(b"../d.hob:1:1: "), "{}", String::from_utf8_lossy(&output.stdout));
}

#[test]
fn colours() {
    let case = case().file("stock.hob", "thread fine { size 70 mm }\n");
    let always = case.run(&["check", "--color", "always", "stock.hob"]);
    assert_snapshot!("colour_always", always);
    for arguments in [&["check", "stock.hob"][..], &["check", "--color=never", "stock.hob"]] {
        assert!(!case.run(arguments).out.contains('\u{1b}'));
    }
    let case = case.variable("NO_COLOR", "1");
    assert!(!case.run(&["check", "stock.hob"]).out.contains('\u{1b}'));
    assert_eq!(case.run(&["--color=always", "check", "stock.hob"]).out, always.out);
}

#[test]
fn a_closed_pipe_ends_quietly() {
    let case = case();
    for (text, code) in [(STOCK, 0), ("quux\n", 1)] {
        let mut child = case.command(&["check", "-"]).spawn().expect("the command starts");
        // Nobody reads any more before there is anything to write.
        drop(child.stdout.take());
        let mut stdin = child.stdin.take().expect("it has an input");
        stdin.write_all(text.as_bytes()).expect("it reads");
        drop(stdin);
        let output = child.wait_with_output().expect("the command ends");
        assert_eq!((output.status.code(), output.stderr), (Some(code), Vec::new()));
    }
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_cannot_be_written() {
    let case = case().bytes("stock.hob", STOCK.as_bytes());
    let full = || Stdio::from(std::fs::File::create("/dev/full").expect("it is there"));
    let output = case.command(&["check", "stock.hob"]).stdout(full()).output().expect("the command runs");
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(output.stderr, b"hobnail: standard output can't be written: no space left on device\n");
    let status = case.command(&["check", "none.hob"]).stderr(full()).status().expect("the command runs");
    assert_eq!(status.code(), Some(2));
}

#[test]
fn findings_of_other_commands_stand_on_standard_error() {
    let case = case().bytes("stock.hob", b"quux\n");
    for arguments in [&["figures", "stock.hob"][..], &["sheets", "stock.hob", "--out", "sheets"]] {
        let ran = case.run(arguments);
        assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
        assert!(ran.error.starts_with("fault word/unknown\n"), "{}", ran.error);
    }
}

#[test]
fn every_name_is_listed() {
    let rules = case().run(&["rules"]);
    assert_eq!(rules.code, Some(0));
    for (name, says) in hobnail::finding::FaultName::FAULTS {
        let line = rules.out.lines().find(|line| line.trim_start().starts_with(&format!("{} ", name.0)));
        assert!(line.is_some_and(|line| line.ends_with(says)), "{}", name.0);
    }
}
