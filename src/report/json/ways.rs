//! Ways out in the document of findings.

use super::origin::PlaceDoc;
use crate::finding::{Change, Kind, Reaches, Remedy, WaysOut};
use crate::report::places::Places;
#[cfg(test)]
use schemars::JsonSchema;
use serde::Serialize;

/// What a search for ways out found.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
pub(super) struct WaysOutDoc<'d> {
    /// All that were found, the preferred one first.
    remedies: Vec<RemedyDoc<'d>>,
    /// How many drafts were tried for it.
    trials: usize,
    /// The limit that makes it so that there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    none_because: Option<&'d str>,
}

/// Edits that mend together; each was tried, and none can be left out.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct RemedyDoc<'d> {
    /// What it changes; of several edits the dearest.
    kind: KindDoc,
    /// How far it gets.
    reaches: ReachesDoc,
    /// The keys of the findings that go away.
    cures: &'d [String],
    /// Files that use an edited text and were not looked at.
    unseen: &'d [String],
    /// The edits; spans are those of the texts as they were read.
    edits: Vec<EditDoc<'d>>,
}

/// What a way out changes.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum KindDoc {
    /// What is set at a bench.
    Setting,
    /// What is taken from the shelf.
    Stock,
    /// How the boot is built.
    Construction,
    /// What is cut.
    Pattern,
}

/// How far a way out gets.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum ReachesDoc {
    /// Everything passes with every tolerance.
    Passes,
    /// Nothing is refused, but an end of a tolerance does not pass.
    Tight,
}

/// One edit: the bytes from `start` to `end` give way to `text`.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct EditDoc<'d> {
    /// Where.
    #[serde(flatten)]
    place: PlaceDoc<'d>,
    /// What comes there.
    text: &'d str,
    /// The way to the statement: `model x / bottom / sole / through`.
    of: &'d str,
    /// The statement as it was, or as it was inherited; empty if there was none.
    old: &'d str,
    /// The statement as it is then; empty if it is deleted.
    new: &'d str,
}

pub(super) fn ways_out<'d>(ways: &'d WaysOut, places: &Places<'d>) -> WaysOutDoc<'d> {
    WaysOutDoc {
        remedies: ways.remedies.iter().map(|remedy| one(remedy, places)).collect(),
        trials: ways.trials,
        none_because: ways.none_because.as_deref(),
    }
}

fn one<'d>(remedy: &'d Remedy, places: &Places<'d>) -> RemedyDoc<'d> {
    RemedyDoc {
        kind: match remedy.kind {
            Kind::Setting => KindDoc::Setting,
            Kind::Stock => KindDoc::Stock,
            Kind::Construction => KindDoc::Construction,
            Kind::Pattern => KindDoc::Pattern,
        },
        reaches: match remedy.reaches {
            Reaches::Passes => ReachesDoc::Passes,
            Reaches::Tight => ReachesDoc::Tight,
        },
        cures: &remedy.cures,
        unseen: &remedy.unseen,
        edits: remedy.changes.iter().map(|change| edit(change, places)).collect(),
    }
}

fn edit<'d>(change: &'d Change, places: &Places<'d>) -> EditDoc<'d> {
    EditDoc {
        place: PlaceDoc::of(change.edit.span, places),
        text: &change.edit.text,
        of: &change.path,
        old: &change.old,
        new: &change.new,
    }
}
