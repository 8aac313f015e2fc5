//! The committed schemas are those of the code: only tests need the code's, so that the program carries none.
//!
//! With `HOBNAIL_WRITE=1` the schemas under `docs/schema` are written anew.

#![expect(clippy::disallowed_methods, reason = "a test that reads and writes committed files")]

use super::{explain, figures, findings, reach, verify};
use std::fs;
use std::path::Path;

#[test]
fn the_committed_schemas_are_those_of_the_code() {
    let schemas = [
        ("explain-1.json", explain::schema()),
        ("findings-1.json", findings::schema()),
        ("figures-2.json", figures::schema()),
        ("reach-1.json", reach::schema()),
        ("verify-1.json", verify::schema()),
    ];
    for (name, schema) in schemas {
        let text = serde_json::to_string_pretty(&schema).expect("a schema is JSON") + "\n";
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/schema").join(name);
        if std::env::var_os("HOBNAIL_WRITE").is_some() {
            fs::write(&path, &text).expect("the schema can be written");
        }
        let known = fs::read_to_string(&path).unwrap_or_default();
        assert_eq!(known, text, "docs/schema/{name} is old; HOBNAIL_WRITE=1 writes it anew");
    }
}
