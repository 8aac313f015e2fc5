//! A remedy as new texts, and what was promised of them.

use crate::check::Checked;
use crate::finding::{Finding, Remedy, Severity};
use crate::source::{Edit, EditFault, SourceId, Sources};
use std::collections::BTreeSet;
use std::sync::Arc;

/// A text that a remedy changes.
#[derive(Clone, Debug)]
pub struct Rewritten {
    /// Which.
    pub id: SourceId,
    /// What it says now.
    pub new: Arc<str>,
}

/// The texts that a remedy changes, in the order in which they were opened.
///
/// # Errors
/// Edits that overlap or lie outside their text: those of a remedy of other texts than these.
pub fn mended(sources: &Sources, remedy: &Remedy) -> Result<Vec<Rewritten>, EditFault> {
    let edits: Vec<Edit> = remedy.changes.iter().map(|change| change.edit.clone()).collect();
    let changed = sources.apply(&edits)?;
    let edited: BTreeSet<SourceId> = edits.iter().map(|edit| edit.span.source).collect();
    Ok(edited.into_iter().map(|id| Rewritten { id, new: Arc::clone(&changed.get(id).text) }).collect())
}

/// The keys of everything that refuses or is tight after a remedy.
#[must_use]
pub fn promised(checked: &Checked, sources: &Sources, remedy: &Remedy) -> BTreeSet<String> {
    weighing(checked, sources).into_iter().filter(|key| !remedy.cures.contains(key)).collect()
}

/// The keys of everything that refuses, is tight or is at fault.
#[must_use]
pub fn weighing(checked: &Checked, sources: &Sources) -> BTreeSet<String> {
    let weighs = |finding: &&Finding| finding.severity < Severity::Note;
    checked.findings.iter().filter(weighs).map(|finding| finding.key(sources)).collect()
}
