//! Findings and figures as JSON documents, each with a committed schema of its own version.

mod figures;
mod findings;
mod origin;

pub(super) use figures::{attached, write as figures};
pub(super) use findings::write as findings;

use schemars::Schema;
use serde::Serialize;
use std::io::{self, Write};

/// The version of documents of findings.
pub const FINDINGS_SCHEMA: &str = "hobnail/findings/1";

/// The version of documents of figures.
pub const FIGURES_SCHEMA: &str = "hobnail/figures/1";

/// Every schema with the name of the file under `docs/schema` that holds it.
#[must_use]
pub fn schemas() -> Vec<(&'static str, Schema)> {
    vec![("findings-1.json", findings::schema()), ("figures-1.json", figures::schema())]
}

fn document(out: &mut dyn Write, document: &impl Serialize) -> io::Result<()> {
    serde_json::to_writer_pretty(&mut *out, document).map_err(io::Error::from)?;
    writeln!(out)
}
