//! The house: names are values, and what the guide for contributors points to is there.

use std::fs::{read_dir, read_to_string};
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn sources(folder: &Path, all: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> =
        read_dir(folder).expect("the folder is there").flatten().map(|entry| entry.path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sources(&path, all);
        } else if path.extension().is_some_and(|it| it == "rs") {
            all.push(path);
        }
    }
}

/// What takes a text apart.
const TAKES_APART: [&str; 9] = [
    "starts_with",
    "ends_with",
    "strip_prefix",
    "strip_suffix",
    "split",
    "rsplit",
    "splitn",
    "split_once",
    "rsplit_once",
];

/// Texts that once served as data.
const NAMES: [&str; 8] = ["key", "label", "subject", "source", "what", "message", "path", "name"];

/// What is left, each with its reason.
const LEFT: [(&str, &str); 7] = [
    ("src/spec/fields.rs", "the last part of a path, to be said in a fault"),
    ("src/spec/fields.rs", "whether a fault of the same lack was said"),
    ("src/report/ways.rs", "a path shown without its model"),
    ("src/report/table.rs", "a key shown under its first part"),
    ("src/remedy/candidate.rs", "the stock that a path leads to: paths are text still"),
    ("src/remedy/candidate.rs", "the machine that a path leads to"),
    ("src/remedy/candidate.rs", "the block that a path leads to"),
];

/// Whether a line takes apart a text that is called one of `NAMES`.
fn takes_apart(line: &str) -> bool {
    TAKES_APART.iter().any(|method| {
        line.match_indices(&format!(".{method}(")).any(|(at, _)| {
            let before = &line[..at];
            let start = before.rfind(|c: char| !c.is_ascii_alphanumeric() && c != '_').map_or(0, |at| at + 1);
            NAMES.contains(&&before[start..])
        })
    })
}

#[test]
fn no_name_is_taken_apart_but_where_it_is_shown() {
    let mut all = Vec::new();
    sources(&root().join("src"), &mut all);
    let mut found = Vec::new();
    for path in all {
        let shown = path.strip_prefix(root()).expect("it is in the house").to_string_lossy().replace('\\', "/");
        // These rooms are about texts.
        if ["src/language", "src/measure", "src/source", "src/cli", "src/sheets/paper"]
            .iter()
            .any(|it| shown.starts_with(it))
        {
            continue;
        }
        let text = read_to_string(&path).expect("it is text");
        let code = text.split("#[cfg(test)]").next().expect("a first part");
        let lines = code.lines().filter(|line| !line.trim_start().starts_with("//"));
        found.extend(lines.filter(|line| takes_apart(line)).map(|line| (shown.clone(), line.trim().to_owned())));
    }
    for (file, line) in &found {
        let of_file = |all: usize, known: &str| all + usize::from(known == file);
        let left = LEFT.iter().map(|(known, _)| *known).fold(0, of_file);
        let here = found.iter().map(|(known, _)| known.as_str()).fold(0, of_file);
        assert!(here <= left, "{file} takes a name apart: {line}");
    }
    assert_eq!(found.len(), LEFT.len(), "what is mended leaves the list: {found:?}");
}

#[test]
fn where_is_leads_to_files_that_are_there() {
    let guide = read_to_string(root().join("DEVELOPERS.md")).expect("the guide is there");
    let table = guide.split("## Where is").nth(1).expect("it says where things are");
    let table = table.split("\n## ").next().expect("the table ends");
    let rows: Vec<&str> = table.lines().filter(|line| line.starts_with("| ") && line.contains('`')).collect();
    assert!(rows.len() >= 12, "{}", rows.len());
    for row in rows {
        for place in row.split('`').skip(1).step_by(2) {
            assert!(root().join(place).exists(), "{place} is not there: {row}");
        }
    }
}
