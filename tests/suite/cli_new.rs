//! `new`: a shop to start from.

use crate::common::case;
use insta::assert_snapshot;

#[test]
fn what_is_new_checks_clean() {
    let case = case();
    assert_snapshot!("new", case.run(&["new", "boots"]));
    for file in ["boots/shop.hob", "boots/stock.hob", "boots/lasts/plain.hob", "boots/models/first.hob"] {
        let ran = case.run(&["check", "--deny", "tight", file]);
        assert_eq!((ran.code, ran.out.lines().count()), (Some(0), 1), "{file}\n{}", ran.out);
    }
}

#[test]
fn what_is_there_is_left_alone() {
    let case = case().bytes("boots/notes", b"mine").bytes("file", b"mine");
    for name in ["boots", "file"] {
        let ran = case.run(&["new", name]);
        assert_eq!(ran.error, format!("hobnail: {name} is there already; give a name that is free\n"));
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""));
    }
    assert!(!case.path("boots/shop.hob").exists());
    let ran = case.run(&["new", "none/boots"]);
    assert_eq!(ran.error, "hobnail: none/boots can't be written: no such file or directory\n");
}
