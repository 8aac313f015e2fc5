//! Every snapshot on the disk is one that a test takes: what no test asks for any more would be read as if it held.

use std::collections::BTreeSet;
use std::fs::{read_dir, read_to_string};
use std::path::{Path, PathBuf};

fn suite() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/suite")
}

/// The snapshots of a module of the suite, by the names that its tests give them.
pub fn snapshots_of(module: &str) -> BTreeSet<String> {
    let of_module = format!("suite__{module}__");
    let files = read_dir(suite().join("snapshots")).expect("the folder is there").flatten();
    let names = files.map(|file| file.file_name().to_string_lossy().into_owned());
    names.filter_map(|name| Some(name.strip_prefix(&of_module)?.strip_suffix(".snap")?.to_owned())).collect()
}

/// Whether a test of this source takes a snapshot of this name: by its own name, or by one that it says.
fn taken(source: &str, name: &str) -> bool {
    source.contains(&format!("fn {name}(")) || source.contains(&format!("\"{name}\""))
}

#[test]
fn every_snapshot_is_taken_by_a_test() {
    let mut known = BTreeSet::new();
    for file in read_dir(suite()).expect("the folder is there").flatten() {
        let name = file.file_name().to_string_lossy().into_owned();
        let Some(module) = name.strip_suffix(".rs") else { continue };
        let source = read_to_string(file.path()).expect("it is text");
        for name in snapshots_of(module) {
            // The pages of a sheet are named as they are numbered: tests/suite/sheets.rs sees to those.
            let page = module == "sheets" && name.starts_with(|first: char| first.is_ascii_digit());
            assert!(page || taken(&source, &name), "no test of {module} takes {name}: delete it");
            known.insert(format!("suite__{module}__{name}.snap"));
        }
    }
    let all = read_dir(suite().join("snapshots")).expect("the folder is there").flatten();
    let all: BTreeSet<String> = all.map(|file| file.file_name().to_string_lossy().into_owned()).collect();
    assert_eq!(all, known, "each snapshot is of a module that there is, and none waits to be reviewed");
}
