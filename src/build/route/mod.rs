//! The order of work: the steps that a model has, whether each finds what it needs, and how long the boot rests.

mod dwell;
mod facts;
mod operations;

pub use dwell::{Bound, Dwell, Rest};
pub use operations::State;

use super::Built;
use crate::language::vocabulary::STEPS;
use crate::source::Origin;
use crate::spec::{Change, House, Model, Put, RouteEdit};
use facts::Facts;
use operations::{FOR_A_HORN, FROM_THE_START, operation};
use std::sync::Arc;

/// A step of the order of work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// Its name; a step of the shop's own is named by its words.
    pub name: Arc<str>,
    /// The bench.
    pub station: &'static str,
}

/// Something that a step needs and does not find.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// The step.
    pub step: &'static str,
    /// What it needs.
    pub state: State,
    /// The step before it that took it away.
    pub destroyed: Option<&'static str>,
    /// The step that would leave it and comes too late.
    pub late: Option<&'static str>,
    /// The step that would leave it and was left out.
    pub dropped: Option<&'static str>,
    /// Where that was written.
    pub origins: Vec<Origin>,
}

/// The order of work of a model.
#[derive(Clone, Debug)]
pub struct Route {
    /// The steps in order.
    pub steps: Vec<Step>,
    /// What is missing, in the order of the steps.
    pub missing: Vec<Missing>,
    /// Where the boot rests, and how long, in the order of the steps.
    pub dwells: Vec<Dwell>,
    /// The steps on which a bond depends that nothing else holds: rows that stop above the outsole leave it to its
    /// adhesive alone. Empty where the rows go through it.
    pub critical: Vec<&'static str>,
    /// The steps after which the inside is felt by hand for points: where nails are in by then.
    pub felt: Vec<&'static str>,
}

/// Where a point may have come through, or may not have been struck flat.
const FELT: &[&str] = &["hammer-points", "sew-forefoot", "build-heel", "cap"];

pub(super) fn route(model: &Model, house: &House) -> Built<Route> {
    if let Some(hole) = model.route.lost {
        return Err(hole);
    }
    let facts = Facts::of(model, house)?;
    let due: Vec<&'static str> = STEPS.iter().copied().filter(|name| has(name, &facts)).collect();
    let steps: Vec<Step> =
        ordered(&model.route.edits).into_iter().filter(|step| is_own(step) || has(&step.name, &facts)).collect();
    let missing = missing(&steps, &due, &facts, &model.route.edits);
    let dwells = dwell::dwells(model, house, &facts, &steps)?;
    let bond = ["prime-rubber", "cement-outsole", "press-outsole"];
    let on_the_way = |name: &&str| steps.iter().any(|step| &*step.name == *name);
    let critical = if facts.cemented_after { bond.into_iter().filter(on_the_way).collect() } else { Vec::new() };
    let felt = felt(&steps, &facts);
    Ok(Route { steps, missing, dwells, critical, felt })
}

fn felt(steps: &[Step], facts: &Facts) -> Vec<&'static str> {
    let nailed = |name: &str| match name {
        "build-heel" | "cap" => facts.clinched || facts.heel_nailed,
        _ => facts.clinched,
    };
    let in_order = steps.iter().filter_map(|step| FELT.iter().copied().find(|felt| *felt == &*step.name));
    in_order.filter(|name| nailed(name)).collect()
}

fn has(name: &str, facts: &Facts) -> bool {
    operation(name).is_some_and(|operation| (operation.has)(facts))
}

fn is_own(step: &Step) -> bool {
    operation(&step.name).is_none()
}

/// All steps of the default with the edits done one after another. Steps that the model does not have are still there,
/// so that an edit may name one.
fn ordered(edits: &[RouteEdit]) -> Vec<Step> {
    let step =
        |name: &'static str| Step { name: name.into(), station: operation(name).map_or("", |known| known.station) };
    let mut steps: Vec<Step> = STEPS.iter().copied().map(step).collect();
    for edit in edits {
        match &edit.change {
            Change::Skip(name) => steps.retain(|known| &*known.name != *name),
            Change::Move(name, put) => insert(&mut steps, step(name), *put),
            Change::Add(words, put) => {
                let (Put::After(other) | Put::Before(other)) = *put;
                let station = operation(other).map_or("", |known| known.station);
                insert(&mut steps, Step { name: words.as_str().into(), station }, *put);
            }
        }
    }
    steps
}

fn insert(steps: &mut Vec<Step>, step: Step, put: Put) {
    let (other, behind) = match put {
        Put::After(other) => (other, 1),
        Put::Before(other) => (other, 0),
    };
    if &*step.name == other {
        return;
    }
    steps.retain(|known| known.name != step.name);
    let at = steps.iter().position(|known| &*known.name == other).map_or(steps.len(), |at| at + behind);
    steps.insert(at, step);
}

/// What a step needs of this boot. A machine with a horn needs its room inside, whatever it sews.
fn needs(name: &str, facts: &Facts) -> Vec<State> {
    let Some(operation) = operation(name) else { return Vec::new() };
    let horn: &[State] = if name == "sew-sole" && facts.horn { FOR_A_HORN } else { &[] };
    operation.needs.iter().chain(horn).copied().collect()
}

fn missing(steps: &[Step], due: &[&'static str], facts: &Facts, edits: &[RouteEdit]) -> Vec<Missing> {
    let mut here: Vec<State> = FROM_THE_START.to_vec();
    let mut taken: Vec<(State, &'static str)> = Vec::new();
    let mut all = Vec::new();
    for (at, step) in steps.iter().enumerate() {
        let Some(done) = operation(&step.name) else { continue };
        let lacking = needs(done.name, facts).into_iter().filter(|state| !here.contains(state));
        for state in lacking {
            let destroyed = taken.iter().rev().find(|(known, _)| *known == state).map(|(_, by)| *by);
            let leaves = |name: &str| operation(name).is_some_and(|known| known.leaves.contains(&state));
            let late =
                steps[at + 1..].iter().find(|later| leaves(&later.name)).and_then(|later| operation(&later.name));
            let gone = |name: &&'static str| !steps.iter().any(|step| &*step.name == *name);
            let dropped = due.iter().copied().find(|name| leaves(name) && gone(name));
            // What no operation of this model leaves, this boot does not need.
            if destroyed.is_some() || late.is_some() || dropped.is_some() {
                let late = late.map(|late| late.name);
                let origins = origins(edits, &[Some(done.name), destroyed, late, dropped]);
                all.push(Missing { step: done.name, state, destroyed, late, dropped, origins });
            }
        }
        // Who takes what is no longer there has taken nothing.
        taken.extend(done.destroys.iter().filter(|state| here.contains(state)).map(|state| (*state, done.name)));
        here.retain(|state| !done.destroys.contains(state));
        here.extend(done.leaves);
    }
    all
}

/// Where the steps concerned were moved or left out; every edit, if none of them was.
fn origins(edits: &[RouteEdit], steps: &[Option<&'static str>]) -> Vec<Origin> {
    let of = |edit: &RouteEdit| match edit.change {
        Change::Move(name, _) | Change::Skip(name) => steps.contains(&Some(name)),
        Change::Add(..) => false,
    };
    let named: Vec<Origin> = edits.iter().filter(|edit| of(edit)).map(|edit| edit.origin.clone()).collect();
    if named.is_empty() { edits.iter().map(|edit| edit.origin.clone()).collect() } else { named }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_has_an_operation_and_every_operation_a_step() {
        let operations: Vec<&str> = operations::OPERATIONS.iter().map(|operation| operation.name).collect();
        assert_eq!(operations, STEPS);
    }
}
