//! Every skive against the shop's skivers.

use super::name_of;
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::finding::{LapName, PartOfLap, SkiverFigure};
use crate::language::Hole;
use crate::source::Origin;
use crate::spec::{Lap, Part, Skive, Skiver, Val};
use std::sync::Arc;

/// One limit of a skiver, held against what a skive asks for.
#[derive(Clone, Debug)]
pub struct SkiverLimit {
    /// Which.
    pub what: SkiverFigure,
    /// What is asked for, mm, and where.
    pub asked: f64,
    /// See `asked`.
    pub origin: Origin,
    /// The skiver's figure, mm, and where it was written.
    pub limit: f64,
    /// See `limit`.
    pub limit_origin: Origin,
    /// How much is left.
    pub margin: f64,
}

/// A skive against the skiver that does it best.
#[derive(Clone, Debug)]
pub struct SkiveBuilt {
    /// The part that is skived, and the lap.
    pub name: PartOfLap,
    /// The skiver.
    pub skiver: Arc<str>,
    /// Its limits.
    pub limits: Built<Vec<SkiverLimit>>,
}

pub(super) fn skives(lap: &Lap, skivers: &[Skiver]) -> Vec<SkiveBuilt> {
    let (top, under) = (name_of(&lap.top), name_of(&lap.under));
    let parts = [&lap.top, &lap.under].into_iter().filter_map(|part| part.as_ref().ok());
    let one = |part: &Arc<Part>| {
        let skive = lap.skives.get(&part.name)?;
        let tried = skivers.iter().map(|skiver| (skiver, limits(part, skive, skiver)));
        let (skiver, limits) = best(tried)?;
        let lap = LapName { top: top.into(), under: under.into() };
        let name = PartOfLap { part: part.name.as_str().into(), lap };
        Some(SkiveBuilt { name, skiver: skiver.name.as_str().into(), limits })
    };
    parts.filter_map(|part| one(&part.it)).collect()
}

type Tried<'s> = (&'s Skiver, Built<Vec<SkiverLimit>>);

/// The skiver that leaves most; of equal ones the first. One whose figures a fault took comes last.
fn best<'s>(tried: impl Iterator<Item = Tried<'s>>) -> Option<Tried<'s>> {
    let least = |(_, limits): &Tried<'_>| match limits {
        Ok(limits) => limits.iter().map(|limit| limit.margin).fold(f64::INFINITY, f64::min),
        Err(_) => f64::NEG_INFINITY,
    };
    tried.reduce(|best, next| if least(&next) > least(&best) { next } else { best })
}

fn limits(part: &Part, skive: &Skive, skiver: &Skiver) -> Built<Vec<SkiverLimit>> {
    let mut all = Vec::new();
    if let Some((wide, to)) = &skive.edge {
        all.extend(at_least(
            SkiverFigure::Edge,
            (of(to)?.it.spread().lo, of(to)?.origin.clone()),
            skiver.edge.as_ref(),
        )?);
        all.extend(at_most(SkiverFigure::Width, (mm(wide)?, of(wide)?.origin.clone()), skiver.wide.as_ref())?);
    }
    if let Some(to) = &skive.flat {
        let to = of(to)?;
        all.extend(at_least(SkiverFigure::Flat, (to.it.spread().half(), to.origin.clone()), skiver.flat.as_ref())?);
    }
    let substance = of(&of(&part.of)?.it.substance)?;
    all.extend(at_most(
        SkiverFigure::Leather,
        (substance.it.spread().hi, substance.origin.clone()),
        skiver.leather.as_ref(),
    )?);
    Ok(all)
}

type Limited = Result<Option<SkiverLimit>, Hole>;

fn at_most(what: SkiverFigure, asked: (f64, Origin), limit: Option<&Val<crate::measure::Amount>>) -> Limited {
    limited(what, asked, limit, |asked, limit| limit - asked)
}

fn at_least(what: SkiverFigure, asked: (f64, Origin), limit: Option<&Val<crate::measure::Amount>>) -> Limited {
    limited(what, asked, limit, |asked, limit| asked - limit)
}

fn limited(
    what: SkiverFigure,
    (asked, origin): (f64, Origin),
    limit: Option<&Val<crate::measure::Amount>>,
    left: fn(f64, f64) -> f64,
) -> Limited {
    let Some(limit) = limit else { return Ok(None) };
    let limit = of(limit)?;
    let most = limit.it.nominal();
    let limit_origin = limit.origin.clone();
    Ok(Some(SkiverLimit { what, asked, origin, limit: most, limit_origin, margin: left(asked, most) }))
}
