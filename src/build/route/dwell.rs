//! How long the boot rests: on the last, between coat and joining, under the bond that sets.

use super::super::Built;
use super::super::amounts::of;
use super::Step;
use super::facts::Facts;
use crate::measure::Amount;
use crate::source::Origin;
use crate::spec::{Adhesive, House, Model, Role, Val};
use std::sync::Arc;

/// What a boot waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// Until the leather is ready: mulled through, or dry on the last.
    Leather,
    /// Until the adhesive may be joined.
    Open,
    /// Until the bond holds.
    Set,
    /// Because the model says so.
    Said,
}

impl Rest {
    /// As keys of figures have it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Rest::Leather | Rest::Said => "rest",
            Rest::Open => "open",
            Rest::Set => "set",
        }
    }
}

/// A time, and where it is written.
#[derive(Clone, Debug)]
pub struct Bound {
    /// Minutes.
    pub minutes: f64,
    /// Where it is written.
    pub origin: Origin,
}

/// A rest at a step.
#[derive(Clone, Debug)]
pub struct Dwell {
    /// The step.
    pub step: &'static str,
    /// What it waits for.
    pub rest: Rest,
    /// The least time that is given, minutes.
    pub least: f64,
    /// The most.
    pub most: Option<f64>,
    /// Where the model says how long; `None` where the stock or the house says it.
    pub written: Option<Origin>,
    /// The least that is needed.
    pub needs: Option<Bound>,
    /// The most that is allowed.
    pub allows: Option<Bound>,
    /// How long it is pressed before, minutes.
    pub pressed: Option<f64>,
    /// The bond holds the sole on: joined too late, it does not.
    pub holds_sole: bool,
}

/// The steps that join what the boot stands on. Shank and pad are between insole and midsole, whatever holds them.
const HOLD_SOLE: &[&str] = &["midsole", "cement-sole", "cement-outsole"];

/// The steps that wet the leather.
const WET: &[&str] = &["mull", "wet-last"];

/// The rests of the steps, in their order.
pub(super) fn dwells(model: &Model, house: &House, facts: &Facts, steps: &[Step]) -> Built<Vec<Dwell>> {
    let mut all = Vec::new();
    let wet = steps.iter().any(|step| WET.contains(&&*step.name));
    for name in steps.iter().filter_map(|step| super::operation(&step.name)).map(|known| known.name) {
        let due = match name {
            "last" => on_the_last(house, facts, wet)?,
            _ => due(model, name)?,
        };
        let written = model.route.dwells.iter().rfind(|dwell| dwell.step == name).map(|dwell| &dwell.time);
        all.extend(dwell(name, due, written.or(in_lasting(model, name)))?);
    }
    Ok(all)
}

/// What a step waits for by itself.
struct Due {
    rest: Rest,
    needs: Option<Bound>,
    allows: Option<Bound>,
    pressed: Option<f64>,
}

fn dwell(step: &'static str, due: Due, written: Option<&Val<Amount>>) -> Built<Option<Dwell>> {
    let Due { rest, needs, allows, pressed } = due;
    let (least, most, written) = if let Some(time) = written {
        let time = of(time)?;
        let window = time.it.window();
        (window.lo, Some(window.hi), Some(time.origin.clone()))
    } else {
        let Some(least) = needs.as_ref().map(|needs| needs.minutes) else { return Ok(None) };
        (least, allows.as_ref().map(|allows| allows.minutes), None)
    };
    let holds_sole = HOLD_SOLE.contains(&step);
    Ok(Some(Dwell { step, rest, least, most, written, needs, allows, pressed, holds_sole }))
}

/// The statements of `lasting` that say how long.
fn in_lasting<'m>(model: &'m Model, step: &str) -> Option<&'m Val<Amount>> {
    match step {
        "mull" => model.lasting.mulled.as_ref(),
        "last" => model.lasting.on_the_last.as_ref(),
        _ => None,
    }
}

/// Leather that was mulled or wet-lasted dries on the last; heavy leather longer, mulled or not.
fn on_the_last(house: &House, facts: &Facts, wet: bool) -> Built<Due> {
    let dry = house.rule(if facts.heavy { "dry-heavy" } else { "dry-on-last" })?;
    let bound = Bound { minutes: dry.it.nominal(), origin: dry.origin };
    Ok(Due { rest: Rest::Leather, needs: wet.then_some(bound), allows: None, pressed: None })
}

fn due(model: &Model, step: &str) -> Built<Due> {
    let plain = |rest: Rest| Due { rest, needs: None, allows: None, pressed: None };
    Ok(match step {
        "mull" => plain(Rest::Leather),
        "cement-lining" => open(&linings(model)?)?,
        "shank" => open(&bonds(model, |role, _| matches!(role, Role::Arch | Role::Shank | Role::Pad))?)?,
        "midsole" => open(&bonds(model, |role, _| role == Role::Midsole)?)?,
        "cement-sole" => open(&bonds(model, first)?)?,
        "press" => set(&bonds(model, first)?)?,
        "cement-outsole" => open(&bonds(model, after)?)?,
        "press-outsole" => set(&bonds(model, after)?)?,
        "build-heel" | "cap" => open(&of_the_heel(model)?)?,
        _ => plain(Rest::Said),
    })
}

/// What is cemented before the rows are sewn.
fn first(role: Role, through: Role) -> bool {
    role > Role::Midsole && role <= through
}

/// What is cemented after the rows are sewn.
fn after(role: Role, through: Role) -> bool {
    role > Role::Midsole && role > through
}

/// The adhesives of the layers that are joined in one step.
fn bonds(model: &Model, joined: impl Fn(Role, Role) -> bool) -> Built<Vec<Arc<Adhesive>>> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let through = of(&bottom.sole.as_ref().map_err(|hole| *hole)?.through)?.it;
    let layers = bottom.layers.iter().filter(|layer| joined(layer.role, through));
    layers.filter_map(|layer| layer.bonded.as_ref()).map(|bond| Ok(Arc::clone(&of(bond)?.it))).collect()
}

/// The adhesive that joins base and cap of the heel.
fn of_the_heel(model: &Model) -> Built<Vec<Arc<Adhesive>>> {
    let bonded = model.heel.as_ref().and_then(|heel| heel.bonded.as_ref());
    bonded.into_iter().map(|bond| Ok(Arc::clone(&of(bond)?.it))).collect()
}

/// The adhesives that linings are cemented in with.
fn linings(model: &Model) -> Built<Vec<Arc<Adhesive>>> {
    let lasted_in = &model.upper.as_ref().map_err(|hole| *hole)?.lasted_in;
    lasted_in.iter().filter_map(|lining| lining.bonded.as_ref()).map(|bond| Ok(Arc::clone(&of(bond)?.it))).collect()
}

/// The open times of several adhesives in one: the longest least, the shortest most.
fn open(bonds: &[Arc<Adhesive>]) -> Built<Due> {
    let mut due = Due { rest: Rest::Open, needs: None, allows: None, pressed: None };
    for open in bonds.iter().filter_map(|bond| bond.open.as_ref()) {
        let open = of(open)?;
        let window = open.it.window();
        let bound = |minutes: f64| Bound { minutes, origin: open.origin.clone() };
        if due.needs.as_ref().is_none_or(|known| known.minutes < window.lo) {
            due.needs = Some(bound(window.lo));
        }
        if due.allows.as_ref().is_none_or(|known| known.minutes > window.hi) {
            due.allows = Some(bound(window.hi));
        }
    }
    Ok(due)
}

/// The longest press and the longest time to set.
fn set(bonds: &[Arc<Adhesive>]) -> Built<Due> {
    let mut due = Due { rest: Rest::Set, needs: None, allows: None, pressed: None };
    for bond in bonds {
        if let Some(press) = &bond.press {
            let minutes = of(press)?.it.nominal();
            due.pressed = Some(due.pressed.map_or(minutes, |known| known.max(minutes)));
        }
        let Some(time) = &bond.set else { continue };
        let time = of(time)?;
        if due.needs.as_ref().is_none_or(|known| known.minutes < time.it.nominal()) {
            due.needs = Some(Bound { minutes: time.it.nominal(), origin: time.origin.clone() });
        }
    }
    Ok(due)
}
