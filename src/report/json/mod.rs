//! Findings and figures as JSON documents, each with a committed schema of its own version.

mod attached;
mod explain;
mod figures;
mod findings;
mod origin;
mod reach;
#[cfg(test)]
mod schema;
mod verify;
mod ways;

pub(super) use attached::read;
pub(super) use explain::write as explain;
pub(super) use figures::{attached, write as figures};
pub(super) use findings::write as findings;
pub(super) use reach::write as reach;
pub(super) use verify::write as verify;

use serde::Serialize;
use std::io::{self, Write};

/// The version of documents of derivations.
pub const EXPLAIN_SCHEMA: &str = "hobnail/explain/1";

/// The version of documents of findings.
pub const FINDINGS_SCHEMA: &str = "hobnail/findings/1";

/// The version of documents of figures.
pub const FIGURES_SCHEMA: &str = "hobnail/figures/2";

/// Earlier versions of documents of figures that are still read: sheets that hang in the shop carry them. What they have
/// is in the present one, too.
pub(super) const EARLIER_FIGURES: &[&str] = &["hobnail/figures/1"];

/// The version of documents of how far one can go.
pub const REACH_SCHEMA: &str = "hobnail/reach/1";

/// The version of documents of sheets held against the present sources.
pub const VERIFY_SCHEMA: &str = "hobnail/verify/1";

fn document(out: &mut dyn Write, document: &impl Serialize) -> io::Result<()> {
    serde_json::to_writer_pretty(&mut *out, document).map_err(io::Error::from)?;
    writeln!(out)
}
