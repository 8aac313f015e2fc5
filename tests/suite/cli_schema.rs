//! The JSON documents against their committed schemas.

use crate::common::case;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

fn committed(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/schema").join(name)
}

fn valid(document: &str, schema: &str) -> Value {
    let schema = fs::read_to_string(committed(schema)).expect("the schema is there");
    let schema = serde_json::from_str(&schema).expect("the schema is JSON");
    let document = serde_json::from_str(document).expect("the document is JSON");
    let validator = jsonschema::validator_for(&schema).expect("the schema is one");
    let faults: Vec<String> =
        validator.iter_errors(&document).map(|fault| format!("{}: {fault}", fault.instance_path())).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    document
}

#[test]
fn findings() {
    let case = case().demo().bytes("faulty.hob", b"thred fine { size 70 mm }\n");
    let files: Vec<String> = fs::read_dir(case.path("specs/refused"))
        .expect("it is there")
        .map(|file| format!("specs/refused/{}", file.expect("it can be read").file_name().display()))
        .collect();
    let mut arguments = vec!["check", "--format=json", "--size=9 D", "faulty.hob"];
    arguments.extend(files.iter().map(String::as_str));
    let document = valid(&case.run(&arguments).out, "findings-1.json");
    assert_eq!(document["version"], hobnail::report::FINDINGS_SCHEMA);
    assert_eq!(document["summary"]["faults"], 2);
    assert!(document["summary"]["refused"].as_u64().is_some_and(|refused| refused >= 10));
}

#[test]
fn figures() {
    let case = case().demo();
    let models = ["specs/models/scree-8.hob", "specs/models/muster-10.hob", "specs/models/cairn-10.hob"];
    let mut arguments = vec!["figures", "--format=json", "--size=9 D"];
    arguments.extend(models);
    let document = valid(&case.run(&arguments).out, "figures-2.json");
    assert_eq!(document["version"], hobnail::report::FIGURES_SCHEMA);
    assert_eq!(document["models"].as_array().map(Vec::len), Some(4));
    let size = &document["models"][0]["sizes"][0];
    assert_eq!((size["size"].as_str(), size["system"].as_str()), (Some("9 D"), Some("us-men")));
}

#[test]
fn derivations() {
    let case = case().demo();
    for rule in hobnail::rules::all() {
        let arguments = ["explain", rule.name(), "specs/models/muster-10.hob", "--format", "json", "--size", "9..10 D"];
        let document = valid(&case.run(&arguments).out, "explain-1.json");
        assert_eq!(document["version"], hobnail::report::EXPLAIN_SCHEMA);
        assert_eq!(document["rule"], rule.name());
    }
}
