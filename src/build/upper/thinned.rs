//! A part of the upper as a lap thins it at its edge, outside the turnout.

use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::build::ply::Ply;
use crate::finding::{PartPlace, Sum, Term, Variation};
use crate::measure::Spread;
use crate::source::Origin;
use crate::spec::{Lap, Part};

/// A part with the taper at its edge.
#[derive(Clone, Debug)]
pub(super) struct Thinned {
    pub ply: Ply,
    pub taper: Option<Taper>,
}

/// From the full thickness down to what is left at the edge.
#[derive(Clone, Debug)]
pub(super) struct Taper {
    pub wide: f64,
    pub to: Spread,
    pub origin: Origin,
    source: Variation,
}

impl Thinned {
    pub fn of(lap: &Lap, part: &Part) -> Built<Self> {
        let edge = lap.skives.get(&part.name).and_then(|skive| skive.edge.as_ref());
        let taper = match edge {
            Some((wide, to)) => Some(Taper {
                wide: mm(wide)?,
                to: of(to)?.it.spread(),
                origin: of(to)?.origin.clone(),
                source: Variation::Skive(part.name.as_str().into()),
            }),
            None => None,
        };
        Ok(Self { ply: Ply::of_part(part)?, taper })
    }

    /// How much of the full thickness counts at `x` from the part's own edge; the rest is the edge's.
    fn share(&self, x: f64) -> f64 {
        match &self.taper {
            Some(taper) if taper.wide > 0.0 => (x / taper.wide).clamp(0.0, 1.0),
            _ => 1.0,
        }
    }

    /// Whether the skive takes something away at `x` from the part's own edge.
    pub fn thins(&self, x: f64) -> bool {
        self.share(x) < 1.0
    }

    /// The thickness at `x` from the part's own edge: `e + (T - e) x / w`, the skive's tolerance with what is left of
    /// the edge, the leather's with the rest.
    pub fn at(&self, x: f64) -> Sum {
        let share = self.share(x);
        let mut sum = Sum::new();
        if let Some(taper) = self.taper.as_ref().filter(|_| share < 1.0) {
            sum.terms.push(Term {
                what: self.ply.what.clone().placed(PartPlace::AtItsEdge),
                coefficient: 1.0 - share,
                spread: taper.to,
                source: Some(taper.source.clone()),
                origin: taper.origin.clone(),
                tolerance: None,
            });
        }
        if share > 0.0 {
            sum.terms.push(Term { coefficient: share, ..self.ply.term() });
        }
        sum
    }
}
