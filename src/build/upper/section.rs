//! A lap cut across: both parts with what their skives leave, from the top part's edge to the under part's.

use super::name_of;
use super::thinned::Thinned;
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::spec::{Lap, Part, Val};
use std::sync::Arc;

/// A lap cut across, mm. The top part's edge is at 0, the under part's at `wide`.
#[derive(Clone, Debug)]
pub struct LapSection {
    /// Width of the lap.
    pub wide: f64,
    /// The part whose edge is seen.
    pub top: LapSide,
    /// The part that it lies on.
    pub under: LapSide,
}

/// One part of a lap, from its own edge, mm.
#[derive(Clone, Debug)]
pub struct LapSide {
    /// The part's name.
    pub part: Arc<str>,
    /// How wide the taper at its edge is, if it has one.
    pub taper: Option<f64>,
    /// What is left over the whole lap inside the turnout, if it is skived flat there.
    pub flat: Option<f64>,
    thinned: Thinned,
}

impl LapSide {
    fn of(lap: &Lap, part: &Val<Arc<Part>>) -> Built<Self> {
        let skive = lap.skives.get(name_of(part));
        let flat = skive.and_then(|skive| skive.flat.as_ref()).map(mm).transpose()?;
        let thinned = Thinned::of(lap, &of(part)?.it)?;
        let taper = thinned.taper.as_ref().map(|taper| taper.wide);
        Ok(Self { part: name_of(part).into(), taper, flat, thinned })
    }

    /// Its nominal thickness at `x` mm from its own edge, outside the turnout.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        self.thinned.at(x).nominal()
    }

    /// Its full thickness.
    #[must_use]
    pub fn full(&self) -> f64 {
        self.thinned.ply.spread.nominal
    }
}

pub(super) fn section(lap: &Lap) -> Built<LapSection> {
    let (top, under) = (LapSide::of(lap, &lap.top)?, LapSide::of(lap, &lap.under)?);
    Ok(LapSection { wide: mm(&lap.wide)?, top, under })
}
