//! The document of findings, one for a run.

use super::origin::{PlaceDoc, TermDoc, terms};
use super::ways::{WaysOutDoc, ways_out};
use crate::finding::{Finding, Label, Measured, Severity, Sizes};
use crate::report::places::Places;
use crate::report::run::Run;
#[cfg(test)]
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;
use std::io::{self, Write};

/// Everything that one run found.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields, title = "hobnail/findings/1"))]
struct FindingsDoc<'d> {
    /// The version of this shape: `hobnail/findings/1`.
    version: &'static str,
    /// Faults first, then what was judged.
    findings: Vec<FindingDoc<'d>>,
    /// How much there is of everything.
    summary: SummaryDoc,
}

/// How much there is of everything, shown or not.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct SummaryDoc {
    /// Models in the files given.
    models: usize,
    /// Sizes judged, of all models together.
    sizes: usize,
    /// Faults of the texts, also those that are not shown.
    faults: usize,
    /// Findings that refuse a build.
    refused: usize,
    /// Findings of builds that pass at nominal only.
    tight: usize,
    /// Findings worth knowing.
    notes: usize,
}

/// How much a finding weighs.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum SeverityDoc {
    /// The text can't be understood as written.
    Fault,
    /// The build can't be made.
    Refused,
    /// The nominal passes, an end of the tolerance does not.
    Tight,
    /// Worth knowing.
    Note,
}

/// One thing found.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct FindingDoc<'d> {
    /// What tells it from others and stays when something else is edited.
    key: String,
    /// Plain name, never reused.
    name: &'static str,
    /// How much it weighs.
    severity: SeverityDoc,
    /// What it is about; empty for faults.
    subject: String,
    /// What is wrong, with the numbers.
    message: &'d str,
    /// Where; the first is the primary place.
    labels: Vec<LabelDoc<'d>>,
    /// Facts beside the message.
    notes: &'d [String],
    /// How to mend it.
    help: &'d [String],
    /// The sizes that it holds for; absent where it does not depend on size.
    #[serde(skip_serializing_if = "Option::is_none")]
    sizes: Option<SizesDoc>,
    /// The numbers; absent where nothing was measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    measured: Option<MeasuredDoc<'d>>,
    /// The files given that it concerns, where it stands in a file that several use.
    roots: &'d [String],
    /// Ways out, all that were found; absent where they were not looked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    ways_out: Option<WaysOutDoc<'d>>,
}

/// A place with what is to be said there.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct LabelDoc<'d> {
    /// The path as the user would write it.
    path: &'d str,
    /// The line, from 1.
    line: usize,
    /// The column, from 1, in characters.
    column: usize,
    /// The first byte, from 0.
    start: u32,
    /// The byte after the last.
    end: u32,
    /// What is said there; may be empty for the first.
    text: &'d str,
}

/// The sizes that a finding holds for.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct SizesDoc {
    /// The size system: `us-men`, `eu`, …
    system: &'static str,
    /// The sizes, in the order of the run.
    holds: Vec<String>,
    /// How many sizes were judged.
    of: usize,
    /// The size whose figures are shown.
    worst: String,
}

/// What was judged against what.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct MeasuredDoc<'d> {
    /// What was judged, in the worst size.
    sum: f64,
    /// The limit.
    limit: f64,
    /// How much is left; negative is missing.
    margin: f64,
    /// The unit of all three and of the terms.
    unit: &'static str,
    /// The terms of the sum; empty where a single value was compared.
    terms: Vec<TermDoc<'d>>,
}

#[cfg(test)]
pub(super) fn schema() -> Schema {
    schema_for!(FindingsDoc<'static>)
}

/// Writes the document.
pub(in crate::report) fn write(out: &mut dyn Write, run: &Run<'_>) -> io::Result<()> {
    let findings = run.findings().map(|finding| one(finding, run)).collect();
    super::document(out, &FindingsDoc { version: super::FINDINGS_SCHEMA, findings, summary: summary(run) })
}

fn summary(run: &Run<'_>) -> SummaryDoc {
    let counts = run.counts();
    SummaryDoc {
        models: run.checked.models.len(),
        sizes: run.sizes_judged(),
        faults: counts.faults,
        refused: counts.refused,
        tight: counts.tight,
        notes: counts.notes,
    }
}

fn one<'d>(finding: &'d Finding, run: &'d Run<'d>) -> FindingDoc<'d> {
    FindingDoc {
        key: finding.key(run.sources()),
        name: finding.name,
        severity: match finding.severity {
            Severity::Fault => SeverityDoc::Fault,
            Severity::Refused => SeverityDoc::Refused,
            Severity::Tight => SeverityDoc::Tight,
            Severity::Note => SeverityDoc::Note,
        },
        subject: finding.subject(),
        message: &finding.message,
        labels: finding.labels.iter().map(|label| labelled(label, &run.places)).collect(),
        notes: &finding.notes,
        help: &finding.help,
        sizes: finding.sizes.as_ref().map(sizes),
        measured: finding.measured.as_ref().map(|it| measured(it, &run.places)),
        roots: &finding.roots,
        ways_out: finding.ways_out.as_ref().map(|ways| ways_out(ways, &run.places)),
    }
}

fn labelled<'d>(label: &'d Label, places: &Places<'d>) -> LabelDoc<'d> {
    let PlaceDoc { path, line, column, start, end } = PlaceDoc::of(label.span, places);
    LabelDoc { path, line, column, start, end, text: &label.text }
}

fn sizes(sizes: &Sizes) -> SizesDoc {
    SizesDoc {
        system: sizes.worst.system.name(),
        holds: sizes.holds.iter().map(ToString::to_string).collect(),
        of: sizes.of,
        worst: sizes.worst.to_string(),
    }
}

fn measured<'d>(measured: &'d Measured, places: &Places<'d>) -> MeasuredDoc<'d> {
    MeasuredDoc {
        sum: measured.sum,
        limit: measured.limit,
        margin: measured.margin,
        unit: measured.unit,
        terms: terms(&measured.terms, places),
    }
}
