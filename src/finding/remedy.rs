//! Ways out of a finding: edits that were tried and found to pass.

use crate::source::Edit;
use std::sync::Arc;

/// What a remedy changes, dearest last: the order of preference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// What is set at a bench: pitch, needle, machine, a skive in the turnout.
    Setting,
    /// What is taken from the shelf: a substance, an outsole, a nail.
    Stock,
    /// How the boot is built: its layers, how far its rows go.
    Construction,
    /// What is cut: a measure of a part, which wants a new pattern.
    Pattern,
}

impl Kind {
    /// As printed and in JSON.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Kind::Setting => "setting",
            Kind::Stock => "stock",
            Kind::Construction => "construction",
            Kind::Pattern => "pattern",
        }
    }
}

/// How far a remedy gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reaches {
    /// Everything passes with every tolerance.
    Passes,
    /// Nothing is refused, but an end of a tolerance does not pass.
    Tight,
}

/// One edit as the reader sees it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// What is written.
    pub edit: Edit,
    /// The way to what it changes: `model x / bottom / sole / through`.
    pub path: Arc<str>,
    /// What stands there, or what was inherited; empty if nothing did.
    pub old: String,
    /// What stands there then, in the form that the author used; empty if it is removed.
    pub new: String,
}

/// Edits that cure a finding together; none of them can be left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remedy {
    /// What it changes; of several edits the dearest.
    pub kind: Kind,
    /// The edits, in the order of their paths.
    pub changes: Vec<Change>,
    /// How far it gets.
    pub reaches: Reaches,
    /// The keys of all findings that go away.
    pub cures: Vec<String>,
    /// Files that use an edited text and were not given, by the path that is shown. They were not looked at.
    pub unseen: Vec<String>,
}

/// What a search found for one finding.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WaysOut {
    /// All that were found, the first preferred.
    pub remedies: Vec<Remedy>,
    /// How many edits were tried for it.
    pub trials: usize,
    /// The limit that makes it so that there is none.
    pub none_because: Option<String>,
}
