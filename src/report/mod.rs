//! Findings and figures to a terminal, to short lines and to JSON. Renders; judges and computes nothing.

mod diff;
mod explain;
mod human;
mod json;
mod number;
mod places;
mod reach;
mod run;
mod short;
mod sizes;
mod snippet;
mod strip;
mod table;
mod theme;
mod verify;
mod ways;
mod words;

pub use diff::diff;
pub use json::{EXPLAIN_SCHEMA, FIGURES_SCHEMA, FINDINGS_SCHEMA, REACH_SCHEMA, VERIFY_SCHEMA};
pub use run::{Counts, MAX_FAULTS, Run};
pub use verify::{Tally, Verified, tally};
pub use ways::mended;

use crate::build::Figure;
use crate::check::{Derived, Figured, ModelChecked, Recorded};
use crate::remedy::reach::Reach;
use crate::rules::Rule;
use std::io::{self, Write};

/// How something is written out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Format {
    /// For people: the places drawn, tables.
    #[default]
    Human,
    /// One line each.
    Short,
    /// One JSON document.
    Json,
}

/// What the place of output can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Whether colours are wanted.
    pub colour: bool,
    /// Columns.
    pub width: usize,
}

/// Writes everything that a run found.
///
/// # Errors
/// What `out` answers.
pub fn findings(out: &mut dyn Write, run: &Run<'_>, format: Format, look: Look) -> io::Result<()> {
    match format {
        Format::Human => human::write(out, run, look),
        Format::Short => short::findings(out, run),
        Format::Json => json::findings(out, run),
    }
}

/// Writes the line that sums a run up.
///
/// # Errors
/// What `out` answers.
pub fn summary(out: &mut dyn Write, run: &Run<'_>) -> io::Result<()> {
    writeln!(out, "{}", words::summary(run))
}

/// Writes the figures of every model in every size; `figured` holds those of each model of the run, in its order.
///
/// # Errors
/// What `out` answers.
pub fn figures(
    out: &mut dyn Write,
    run: &Run<'_>,
    figured: &[Vec<Figured>],
    format: Format,
    look: Look,
) -> io::Result<()> {
    match format {
        Format::Human => table::write(out, run, figured, look),
        Format::Short => short::figures(out, run, figured),
        Format::Json => json::figures(out, run, figured),
    }
}

/// Writes how a rule comes to its verdicts, passing or not.
///
/// # Errors
/// What `out` answers.
pub fn explain(
    out: &mut dyn Write,
    run: &Run<'_>,
    rule: &dyn Rule,
    derived: &[Derived<'_>],
    format: Format,
    look: Look,
) -> io::Result<()> {
    match format {
        Format::Human => explain::write(out, run, rule, derived, look),
        Format::Short => explain::short(out, rule, derived),
        Format::Json => json::explain(out, run, rule, derived),
    }
}

/// Writes how far models can go.
///
/// # Errors
/// What `out` answers.
pub fn reach(out: &mut dyn Write, run: &Run<'_>, all: &[Reach], format: Format, look: Look) -> io::Result<()> {
    match format {
        Format::Human => reach::write(out, all, look),
        Format::Short => reach::short(out, all),
        Format::Json => json::reach(out, all, &run.places),
    }
}

/// Writes how sheets stand to the present sources.
///
/// # Errors
/// What `out` answers.
pub fn verified(out: &mut dyn Write, all: &[Verified], format: Format, look: Look) -> io::Result<()> {
    match format {
        Format::Human => verify::write(out, all, look),
        Format::Short => verify::short(out, all),
        Format::Json => json::verify(out, all),
    }
}

/// The figures of one model in one size as JSON, to be attached to its sheets.
///
/// # Errors
/// A figure that JSON can't hold, which no finite number is.
pub fn attachment(model: &ModelChecked, size: &Figured) -> io::Result<Vec<u8>> {
    attachment_of(&[(model, vec![size])])
}

/// The figures of models in some sizes as JSON, to be attached to sheets of them all.
///
/// # Errors
/// A figure that JSON can't hold, which no finite number is.
pub fn attachment_of(models: &[(&ModelChecked, Vec<&Figured>)]) -> io::Result<Vec<u8>> {
    json::attached(models, None).map_err(io::Error::from)
}

/// Some figures of models as JSON, to be attached to a card that shows them; `shown` picks them.
///
/// # Errors
/// A figure that JSON can't hold, which no finite number is.
pub fn attachment_of_part(
    models: &[(&ModelChecked, Vec<&Figured>)],
    shown: &dyn Fn(&ModelChecked, &Figure) -> bool,
) -> io::Result<Vec<u8>> {
    json::attached(models, Some(shown)).map_err(io::Error::from)
}

/// What [`attachment`] wrote, read back.
///
/// # Errors
/// Words for why it can't be read.
pub fn recorded(attachment: &[u8]) -> Result<Vec<Recorded>, String> {
    json::read(attachment)
}
