//! The order of work as a model writes it: what differs from the default.

use super::fields::{Field, Fields};
use super::value::Val;
use crate::finding::{FaultName, Finding};
use crate::language::Hole;
use crate::measure::Amount;
use crate::source::Origin;

/// Where a step is put.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Put {
    /// Right behind a step.
    After(&'static str),
    /// Right before a step.
    Before(&'static str),
}

/// What is done to the default route.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// Moves a step.
    Move(&'static str, Put),
    /// Leaves a step out.
    Skip(&'static str),
    /// Adds a step of the shop's own, in its words.
    Add(String, Put),
}

/// A change of the default route, and where it is written.
#[derive(Clone, Debug)]
pub struct RouteEdit {
    /// What is done.
    pub change: Change,
    /// Where it is written.
    pub origin: Origin,
}

/// How long a boot rests with a step, where the model says so.
#[derive(Clone, Debug)]
pub struct DwellWritten {
    /// The step.
    pub step: &'static str,
    /// Least and most.
    pub time: Val<Amount>,
}

/// What a model writes about its order of work. The one block in which order counts.
#[derive(Clone, Debug, Default)]
pub struct RouteWritten {
    /// Changes, one after another.
    pub edits: Vec<RouteEdit>,
    /// Rests.
    pub dwells: Vec<DwellWritten>,
    /// A fault that took one of the changes: the order is not known.
    pub lost: Option<Hole>,
}

pub(super) fn route(inner: &Fields<'_>, findings: &mut Vec<Finding>) -> RouteWritten {
    let mut written = RouteWritten { lost: inner.block.unread, ..RouteWritten::default() };
    for force in &inner.block.statements {
        let word = force.statement.def.word;
        let field = inner.all(word).into_iter().find(|field| std::ptr::eq(field.force, force));
        let Some(field) = field else { continue };
        if word == "dwell" {
            let time = field.amount(1);
            written.dwells.extend(field.word(0).ok().map(|step| DwellWritten { step: step.it, time }));
            continue;
        }
        match change(word, &field, findings) {
            Ok(change) => {
                written.edits.push(RouteEdit { change, origin: field.origin(field.force.statement.word) });
            }
            Err(hole) => written.lost = written.lost.or(Some(hole)),
        }
    }
    written
}

fn change(word: &str, field: &Field<'_>, findings: &mut Vec<Finding>) -> Result<Change, Hole> {
    match word {
        "skip" => Ok(Change::Skip(field.word(0)?.it)),
        "add" => Ok(Change::Add(field.text(0)?.it, put(field, findings)?)),
        _ => Ok(Change::Move(field.word(0)?.it, put(field, findings)?)),
    }
}

/// Behind a step or before one; one of the two must be said.
fn put(field: &Field<'_>, findings: &mut Vec<Finding>) -> Result<Put, Hole> {
    if let Some(after) = field.clause_word("after") {
        return Ok(Put::After(after?.it));
    }
    if let Some(before) = field.clause_word("before") {
        return Ok(Put::Before(before?.it));
    }
    if field.force.statement.hole.is_some() {
        return Err(field.lost());
    }
    let span = field.force.statement.word;
    let message = "it is not said where the step goes";
    let finding = Finding::fault(FaultName::VALUE_MISSING, span, message).help("write `after` or `before` and a step");
    let hole = Hole { fault: finding.name, span };
    findings.push(finding);
    Err(hole)
}
