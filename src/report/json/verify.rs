//! The document of sheets held against the present sources.

use super::figures::{ValueDoc, value};
use crate::build::COMPUTATION;
use crate::check::{Compared, Difference, Recorded, Standing};
use crate::report::verify::{Verified, tally};
#[cfg(test)]
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;
use std::io::{self, Write};

/// Sheets, or fingerprints, held against the present sources.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields, title = "hobnail/verify/1"))]
struct VerifyDoc<'d> {
    /// The version of this shape: `hobnail/verify/1`.
    version: &'static str,
    /// What was given, in its order.
    sheets: Vec<SheetDoc<'d>>,
    /// How much there is of everything.
    summary: SummaryDoc,
}

/// How much there is of everything.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct SummaryDoc {
    /// Builds that are as they were printed.
    matching: usize,
    /// Builds that are not, and fingerprints that no build has.
    differing: usize,
    /// Sheets that can't be read.
    unread: usize,
}

/// A sheet or a fingerprint.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct SheetDoc<'d> {
    /// The path as it was given, or the fingerprint.
    given: &'d str,
    /// Why it can't be read; absent if it can.
    #[serde(skip_serializing_if = "Option::is_none")]
    unread: Option<&'d str>,
    /// The builds that it was printed for; of a fingerprint that no build has, none.
    builds: Vec<BuildDoc<'d>>,
}

/// One model in one size.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct BuildDoc<'d> {
    /// The model's name.
    model: &'d str,
    /// The size system: `us-men`, `eu`, …
    system: &'d str,
    /// The size: `9.5 EE`
    size: &'d str,
    /// How it stands.
    standing: StandingDoc,
    /// What was printed.
    printed: StateDoc<'d>,
    /// What is now; absent if there is no such build.
    #[serde(skip_serializing_if = "Option::is_none")]
    now: Option<StateDoc<'d>>,
    /// Whether some rule refuses the build now.
    refused: bool,
    /// The figures that differ, in the order of the work.
    figures: Vec<DifferenceDoc<'d>>,
}

/// How a build stands to what was printed of it.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum StandingDoc {
    /// The same build.
    Matches,
    /// Another one.
    Differs,
    /// No model of that name is in the files given.
    NoModel,
    /// The model is there, and not made in that size.
    NoSize,
    /// A fault in the sources took what had to be compared.
    Lost,
}

/// What tells a build from others.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct StateDoc<'d> {
    /// The model's revision, if it has one.
    revision: Option<u32>,
    /// The fingerprint.
    fingerprint: &'d str,
    /// The version of the computation; null if it isn't known.
    computation: Option<u32>,
}

/// A figure that is not what it was.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct DifferenceDoc<'d> {
    /// Its key.
    key: &'d str,
    /// What it is, in words.
    label: &'d str,
    /// What was printed; absent if there was no such figure.
    #[serde(skip_serializing_if = "Option::is_none")]
    printed: Option<SideDoc<'d>>,
    /// What it is now; absent if there is no such figure any more.
    #[serde(skip_serializing_if = "Option::is_none")]
    now: Option<SideDoc<'d>>,
}

/// A value with its unit.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
struct SideDoc<'d> {
    /// The unit; empty for counts and words.
    unit: &'d str,
    /// The value.
    #[serde(flatten)]
    value: ValueDoc<'d>,
}

#[cfg(test)]
pub(super) fn schema() -> Schema {
    schema_for!(VerifyDoc<'static>)
}

/// Writes the document.
pub(in crate::report) fn write(out: &mut dyn Write, all: &[Verified]) -> io::Result<()> {
    let tally = tally(all);
    let summary = SummaryDoc { matching: tally.matching, differing: tally.differing, unread: tally.unread };
    let sheets = all.iter().map(sheet).collect();
    super::document(out, &VerifyDoc { version: super::VERIFY_SCHEMA, sheets, summary })
}

fn sheet(it: &Verified) -> SheetDoc<'_> {
    let builds = it.builds.as_deref().unwrap_or_default();
    SheetDoc {
        given: &it.given,
        unread: it.builds.as_ref().err().map(String::as_str),
        builds: builds.iter().map(build).collect(),
    }
}

fn build((printed, now): &(Recorded, Compared)) -> BuildDoc<'_> {
    let (standing, figures) = match &now.standing {
        Standing::Matches => (StandingDoc::Matches, Vec::new()),
        Standing::Differs(all) => (StandingDoc::Differs, all.iter().map(difference).collect()),
        Standing::NoModel => (StandingDoc::NoModel, Vec::new()),
        Standing::NoSize => (StandingDoc::NoSize, Vec::new()),
        Standing::Lost => (StandingDoc::Lost, Vec::new()),
    };
    BuildDoc {
        model: &printed.model,
        system: &printed.system,
        size: &printed.size,
        standing,
        printed: StateDoc {
            revision: printed.revision,
            fingerprint: &printed.fingerprint,
            computation: printed.computation,
        },
        now: now.fingerprint.as_deref().map(|fingerprint| StateDoc {
            revision: now.revision,
            fingerprint,
            computation: Some(COMPUTATION),
        }),
        refused: now.refused,
        figures,
    }
}

fn difference(it: &Difference) -> DifferenceDoc<'_> {
    DifferenceDoc {
        key: &it.key,
        label: &it.label,
        printed: it.then.as_ref().map(|datum| SideDoc { unit: &it.units.0, value: value(datum) }),
        now: it.now.as_ref().map(|datum| SideDoc { unit: &it.units.1, value: value(datum) }),
    }
}
