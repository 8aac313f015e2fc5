//! A lap outside the turnout: both parts' profiles added, from the top part's edge.

use super::name_of;
use super::row::{EdgeOf, Left, UpperRow, UpperSeam, numbered, places};
use super::section::{LapSection, section};
use super::thinned::Thinned;
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::finding::{LapName, SeamName, Sum};
use crate::measure::fits;
use crate::source::Origin;
use crate::spec::{House, Lap, Upper};
use std::sync::Arc;

/// What a skive that is wider than its lap leaves of one part alone, at the lap's edge.
#[derive(Clone, Debug)]
pub struct Beyond {
    /// The part.
    pub part: Arc<str>,
    /// How far the skive reaches beyond the lap, mm.
    pub reaches: f64,
    /// What is left there.
    pub sum: Sum,
    /// The skive's figure.
    pub origin: Origin,
}

/// What is special to a lap.
#[derive(Clone, Debug)]
pub struct LapBuilt {
    /// Its parts.
    pub name: LapName,
    /// The step that its edge makes inside.
    pub step: Built<Sum>,
    /// Where that was written.
    pub step_origin: Built<Origin>,
    /// The lining that is lasted in covers the lap inside.
    pub covered: bool,
    /// Parts that are thinned beyond the lap.
    pub beyond: Built<Vec<Beyond>>,
    /// The lap cut across.
    pub section: Built<LapSection>,
}

/// Both parts of a lap with its width.
struct Both {
    top: Thinned,
    under: Thinned,
    wide: f64,
}

fn both(lap: &Lap) -> Built<Both> {
    let (top, under) = (&of(&lap.top)?.it, &of(&lap.under)?.it);
    Ok(Both { top: Thinned::of(lap, top)?, under: Thinned::of(lap, under)?, wide: mm(&lap.wide)? })
}

fn named(lap: &Lap) -> LapName {
    LapName { top: name_of(&lap.top).into(), under: name_of(&lap.under).into() }
}

/// The lap as a seam.
pub(super) fn seam(lap: &Lap, house: &House) -> UpperSeam {
    let rows = both(lap).and_then(|both| {
        let places = places(&lap.stitching, house)?;
        Ok(numbered(&places, |number, place| row(lap, &both, number, place)))
    });
    UpperSeam::new(SeamName::Lap(named(lap)), &lap.stitching, rows)
}

fn row(lap: &Lap, both: &Both, number: u32, place: f64) -> UpperRow {
    let from_under = both.wide - place;
    let (inside, edge_of) =
        if from_under < place { (from_under, name_of(&lap.under)) } else { (place, name_of(&lap.top)) };
    let parts = [(&both.top, name_of(&lap.top), place), (&both.under, name_of(&lap.under), from_under)];
    // A row that misses a part goes through the other alone.
    let parts = || parts.iter().filter(|(_, _, x)| fits(0.0, *x));
    let left = parts().filter(|(part, _, x)| part.thins(*x));
    UpperRow {
        number,
        place,
        inside,
        edge_of: EdgeOf::part(edge_of),
        stack: parts().fold(Sum::new(), |sum, (part, _, x)| sum.plus_all(part.at(*x))),
        left: left.map(|(part, name, x)| Left { part: (*name).into(), sum: part.at(*x) }).collect(),
    }
}

/// What is special to the lap.
pub(super) fn lap(lap: &Lap, upper: &Upper) -> LapBuilt {
    let both = both(lap);
    let both = both.as_ref().map_err(|hole| *hole);
    let step_origin = both.map(|both| match &both.under.taper {
        Some(taper) => taper.origin.clone(),
        None => both.under.ply.origin.clone(),
    });
    LapBuilt {
        name: named(lap),
        step: both.map(|both| both.under.at(0.0)),
        step_origin,
        covered: !upper.lasted_in.is_empty() && (lap.enters_inside.is_some() || lap.enters_outside.is_some()),
        beyond: both.map(|both| beyond(lap, both)),
        section: section(lap),
    }
}

fn beyond(lap: &Lap, both: &Both) -> Vec<Beyond> {
    let parts = [(&both.top, name_of(&lap.top)), (&both.under, name_of(&lap.under))];
    let of = |(part, name): (&Thinned, &str)| {
        let taper = part.taper.as_ref().filter(|taper| taper.wide > both.wide)?;
        let reaches = taper.wide - both.wide;
        Some(Beyond { part: name.into(), reaches, sum: part.at(both.wide), origin: taper.origin.clone() })
    };
    parts.into_iter().filter_map(of).collect()
}
