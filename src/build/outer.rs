//! Which part of the upper lies outermost where, and where laps enter the turnout.

use super::Built;
use super::amounts::{base, mm, of};
use super::ply::Ply;
use crate::finding::{PartPlace, Term, Variation};
use crate::geometry::Side;
use crate::language::Hole;
use crate::measure::Spread;
use crate::source::Origin;
use crate::spec::{Lap, Model, Part, Skive, Upper};
use std::sync::Arc;

/// A lap between two neighbours of the turned-out parts.
#[derive(Clone, Debug)]
pub(super) struct TurnedLap {
    /// `vamp over quarter`
    pub name: Arc<str>,
    /// How far the parts lie on each other.
    pub wide: f64,
    /// Station of the mark, as a share of the bottom, by side.
    pub outside: f64,
    pub inside: f64,
    /// Angle between the top part's edge and the feather line on the toe side, radians.
    pub lean: f64,
    /// The top part lies toeward of the one underneath, so that the lap runs toeward of the mark.
    pub toeward: bool,
    pub top: Thinned,
    pub under: Thinned,
}

/// A part with how it is thinned in a lap.
#[derive(Clone, Debug)]
pub(super) struct Thinned {
    pub ply: Ply,
    /// Width of the taper, what is left at its edge and where that was written.
    edge: Option<(f64, Spread, Origin)>,
    flat: Option<(Spread, Origin)>,
    edge_skive: Variation,
    flat_skive: Variation,
}

/// What lies at a place of a part.
enum Lying<'t> {
    /// The leather as it is.
    Whole,
    /// A taper at the fraction `f` of its width from the edge.
    Taper { f: f64, to: &'t Spread, origin: &'t Origin },
    /// A flat skive.
    Flat { flat: &'t Spread, origin: &'t Origin },
}

impl Lying<'_> {
    fn spread(&self, ply: &Ply) -> Spread {
        match self {
            Lying::Whole => ply.spread,
            Lying::Taper { f, to, .. } => to.blend(&ply.spread, *f),
            Lying::Flat { flat, .. } => **flat,
        }
    }
}

/// The turned-out parts from the heel to the toe, and the laps between them.
#[derive(Clone, Debug)]
pub(super) struct Turned {
    pub parts: Vec<Ply>,
    /// One less than the parts.
    pub laps: Vec<TurnedLap>,
}

impl TurnedLap {
    pub fn mark(&self, side: Side) -> f64 {
        if side == Side::Inside { self.inside } else { self.outside }
    }

    /// Whether part `part` of the turned-out ones lies on top in this lap, the one ahead of part `n`.
    pub fn on_top(&self, n: usize, part: usize) -> bool {
        self.toeward == (part > n)
    }

    /// The same part as it is thinned here.
    pub fn thinned(&self, n: usize, part: usize) -> &Thinned {
        if self.on_top(n, part) { &self.top } else { &self.under }
    }

    /// How much of a row the lap takes: its width over the sine of its lean.
    pub fn run(&self) -> f64 {
        self.wide / self.lean.sin()
    }

    /// Distances from the top part's edge at which a profile changes, both ends of the lap among them.
    pub fn breaks(&self) -> Vec<f64> {
        let mut breaks = vec![0.0, self.wide];
        breaks.extend(self.top.edge.as_ref().map(|(wide, ..)| *wide));
        breaks.extend(self.under.edge.as_ref().map(|(wide, ..)| self.wide - wide));
        // Where a taper crosses the flat skive, the thinner of the two changes.
        breaks.extend(self.top.crossing());
        breaks.extend(self.under.crossing().map(|x| self.wide - x));
        breaks.retain(|x| (0.0..=self.wide).contains(x));
        breaks
    }
}

impl Thinned {
    /// What is left of the part at `x` from its own edge inside the lap: shares of what lies there, which make 1. Which
    /// of taper and flat skive counts is as at `of`, a place between the same breaks: where one goes over into the
    /// other they are equally thick, and each has its own tolerance up to there.
    fn lying(&self, x: f64, of: f64) -> Lying<'_> {
        match &self.flat {
            // The thinner of the two counts; flat, if they are equal.
            Some((flat, origin)) if flat.nominal <= self.tapered(of).spread(&self.ply).nominal => {
                Lying::Flat { flat, origin }
            }
            _ => self.tapered(x),
        }
    }

    fn tapered(&self, x: f64) -> Lying<'_> {
        match &self.edge {
            Some((wide, to, origin)) if x < *wide => Lying::Taper { f: (x / wide).max(0.0), to, origin },
            _ => Lying::Whole,
        }
    }

    /// Thickness at `x` from the part's own edge inside the lap, with the skive that counts at `of`.
    pub fn at(&self, x: f64, of: f64) -> Spread {
        self.lying(x, of).spread(&self.ply)
    }

    /// The same as terms. A skive varies with the hand that makes it; on a taper the leather counts as far as it is
    /// still there.
    pub fn terms(&self, x: f64, of: f64) -> Vec<Term> {
        let skived = |coefficient: f64, spread: &Spread, origin: &Origin, source: &Variation| Term {
            what: self.ply.what.clone().placed(PartPlace::Skived),
            coefficient,
            spread: *spread,
            source: Some(source.clone()),
            origin: origin.clone(),
            tolerance: None,
        };
        match self.lying(x, of) {
            Lying::Whole => vec![self.ply.term()],
            Lying::Flat { flat, origin } => vec![skived(1.0, flat, origin, &self.flat_skive)],
            Lying::Taper { f, to, origin } => {
                let edge = skived(1.0 - f, to, origin, &self.edge_skive);
                let leather = Term { coefficient: f, ..self.ply.term() };
                if f > 0.0 { vec![edge, leather] } else { vec![edge] }
            }
        }
    }

    /// Distance from the edge at which the taper is as thick as the flat skive.
    fn crossing(&self) -> Option<f64> {
        let ((wide, to, _), (flat, _)) = (self.edge.as_ref()?, self.flat.as_ref()?);
        let rise = self.ply.spread.nominal - to.nominal;
        (rise > 0.0).then(|| wide * (flat.nominal - to.nominal) / rise)
    }
}

pub(super) fn turned(model: &Model) -> Built<Turned> {
    let upper = model.upper.as_ref().map_err(|hole| *hole)?;
    let parts = upper.turned_out.as_ref().map_err(|hole| *hole)?;
    let laps = parts.windows(2).map(|pair| turned_lap(upper, &pair[0].it, &pair[1].it, pair[1].span()));
    Ok(Turned {
        laps: laps.collect::<Built<_>>()?,
        parts: parts.iter().map(|part| Ply::of_part(&part.it)).collect::<Built<_>>()?,
    })
}

/// The lap between two neighbours; `spec` has made sure that there is one that says where it enters.
fn turned_lap(upper: &Upper, behind: &Arc<Part>, before: &Arc<Part>, at: crate::source::Span) -> Built<TurnedLap> {
    let lost = Hole { fault: crate::finding::FaultName::STATEMENT_MISSING.0, span: at };
    let lap = upper.lap_between(behind, before).ok_or(lost)?;
    let (top, under) = (&of(&lap.top)?.it, &of(&lap.under)?.it);
    let station = |value: &Option<_>| value.as_ref().map_or(Err(lost), base).map(|share: f64| share / 100.0);
    let lean = lap.leans.as_ref().map_or(Ok(90.0), base)?;
    Ok(TurnedLap {
        name: format!("{} over {}", top.name, under.name).into(),
        wide: mm(&lap.wide)?,
        outside: station(&lap.enters_outside)?,
        inside: station(&lap.enters_inside)?,
        lean: lean.to_radians(),
        toeward: top.name == before.name,
        top: thinned(lap, top)?,
        under: thinned(lap, under)?,
    })
}

fn thinned(lap: &Lap, part: &Part) -> Built<Thinned> {
    let none = Skive::default();
    let skive = lap.skives.get(&part.name).unwrap_or(&none);
    let edge = match &skive.edge {
        Some((wide, to)) => Some((mm(wide)?, of(to)?.it.spread(), of(to)?.origin.clone())),
        None => None,
    };
    let flat = match &skive.flat {
        Some(to) => Some((of(to)?.it.spread(), of(to)?.origin.clone())),
        None => None,
    };
    let ply = Ply::of_part(part)?;
    let (part, leather): (Arc<str>, Arc<str>) = (part.name.as_str().into(), of(&part.of)?.it.name.as_str().into());
    Ok(Thinned {
        edge_skive: Variation::EdgeSkive { part: Arc::clone(&part), leather: Arc::clone(&leather) },
        flat_skive: Variation::FlatSkive { part, leather },
        ply,
        edge,
        flat,
    })
}
