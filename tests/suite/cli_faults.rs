//! Faults of texts, as `check` shows them: input and output together.

use crate::common::case;
use insta::assert_snapshot;

const THREAD: &str = "thread fine { size 70 tex }\n";

#[test]
fn a_misspelt_word() {
    assert_snapshot!(case().file("stock.hob", "thred fine { size 70 tex }\n").run(&["check", "stock.hob"]));
}

#[test]
fn a_wrong_unit_and_a_unit_left_out() {
    let text = "thread fine { size 70 mm }\nthread coarse {\n  size 350\n  strength 249 N\n}\n";
    assert_snapshot!(case().file("stock.hob", text).run(&["check", "stock.hob"]));
}

#[test]
fn a_missing_brace() {
    let text = "thread fine {\n  size 70 tex\n\nthread coarse { size 350 tex }\n";
    assert_snapshot!(case().file("stock.hob", text).run(&["check", "stock.hob"]));
}

#[test]
fn a_missing_file() {
    let text = "use \"stock.hob\"\nuse \"lasts\"\nshop \"Mine\" { paper a4 }\n";
    assert_snapshot!(case().file("shop.hob", text).bytes("lasts/a.hob", b"").run(&["check", "shop.hob"]));
}

#[test]
fn a_finding_in_two_files() {
    let mine = "use \"../shared/stock.hob\"\n\nthread fine { size 75 tex }\n";
    let case = case().file("mine/stock.hob", mine).file("shared/stock.hob", &format!("# Shared.\n{THREAD}"));
    assert_snapshot!("human", case.run(&["check", "mine/stock.hob"]));
    assert_snapshot!("short", case.run(&["check", "--format", "short", "mine/stock.hob"]));
    assert_snapshot!("json", case.run(&["check", "--format=json", "mine/stock.hob"]));
}

#[test]
fn two_shops_in_three_files() {
    let case = case()
        .file("all.hob", "use \"a.hob\"\nuse \"b.hob\"\n")
        .file("a.hob", "shop \"A\" { paper a4 }\n")
        .file("b.hob", "shop \"B\" { paper a4 }\n");
    assert_snapshot!(case.run(&["check", "all.hob"]));
}

#[test]
fn many_faults_in_one_run() {
    let text = "thread fine { size 70 tex; size 75 tex }\nnail long { lengths 8/8 in; shank 1.8 }\n}\nCap low { thickness 8 mm }\n";
    assert_snapshot!(case().file("stock.hob", text).run(&["check", "stock.hob"]));
}

#[test]
fn a_file_that_uses_itself() {
    let text = format!("use \"stock.hob\"\n{THREAD}");
    assert_snapshot!(case().file("stock.hob", &text).run(&["check", "stock.hob"]));
}

#[test]
fn files_in_a_circle() {
    let case = case().file("a.hob", &format!("use \"b.hob\"\n{THREAD}")).file("b.hob", "use \"a.hob\"\n");
    assert_snapshot!(case.run(&["check", "a.hob"]));
}

#[test]
fn an_empty_file() {
    assert_snapshot!(case().file("empty.hob", "").run(&["check", "empty.hob"]));
}

#[test]
fn a_byte_order_mark_and_line_ends_of_two_bytes() {
    let text = "\u{feff}thread fine { size 70 tex }\r\nthread coarse { size 350 }\r\n";
    assert_snapshot!(case().file("stock.hob", text).run(&["check", "stock.hob"]));
}

#[test]
fn characters_that_a_terminal_would_act_on() {
    let text = "thread fine { size 70 tex }\0\n# \u{1b}[31mred\u{202e}\nthread coarse { siz \u{1b}[2J350 tex }\n";
    assert_snapshot!(case().file("stock.hob", text).run(&["check", "stock.hob"]));
}

#[test]
fn not_utf8() {
    let case = case().bytes("latin.hob", b"shop \"Caf\xe9\" { paper a4 }\n");
    assert_snapshot!("latin", case.run(&["check", "latin.hob"]));
    let case = case.bytes("wide.hob", b"\xff\xfes\0h\0o\0p\0");
    assert_snapshot!("wide", case.run(&["check", "wide.hob"]));
}

#[test]
fn a_very_long_line_is_shown_in_part() {
    let text =
        format!("# {}\nthread fine {{ {}size 70 mm }} # {}\n", "x".repeat(900), " ".repeat(900), "y".repeat(900));
    let ran = case().bytes("stock.hob", text.as_bytes()).run(&["check", "stock.hob"]);
    assert!(ran.out.contains("stock.hob:2:920"), "{}", ran.out);
    assert!(ran.out.lines().all(|line| line.chars().count() < 400), "{}", ran.out);
}

#[test]
fn no_more_than_a_thousand_faults_are_shown() {
    let case = case().bytes("stock.hob", "quux 1\n".repeat(1_203).as_bytes());
    let short = case.run(&["check", "--format", "short", "stock.hob"]);
    assert_eq!(short.out.lines().count(), 1_001);
    assert!(short.out.ends_with("fault limit/faults: 203 more faults are not shown\n"));
    let human = case.run(&["check", "stock.hob"]);
    assert!(human.out.ends_with("no models: 1203 faults\n"));
    assert_eq!(human.code, Some(1));
}
