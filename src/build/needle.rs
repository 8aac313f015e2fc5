//! Needle against pitch and thread, seam by seam, with the pitch that comes out.

use super::{Built, SeamBuilt};
use crate::finding::SeamName;
use crate::language::Hole;
use crate::measure::Window;
use crate::source::Origin;
use crate::spec::House;

/// The needle of a seam in one size.
#[derive(Clone, Debug)]
pub struct NeedleBuilt {
    /// The seam, as its settings name it.
    pub name: SeamName,
    /// The blade, mm, and where it was written.
    pub blade: Built<(f64, Origin)>,
    /// The shortest stitch, mm: as laid out where the row's length is known, else as stated.
    pub pitch: Built<f64>,
    /// Blade over stitch: how much of the line is holes.
    pub perforation: Built<f64>,
    /// The house's most for that, and where.
    pub most: Built<(f64, Origin)>,
    /// Blade over thread.
    pub over_thread: Built<f64>,
    /// The house's window for that, and where.
    pub ratio: Built<(Window, Origin)>,
    /// The needles that the thread's maker names, Nm, if he names any, and where.
    pub named: Option<Built<(Window, Origin)>>,
}

/// The shortest stitch of rows whose length is known: the sole's, the forefoot's.
#[derive(Clone, Copy, Debug)]
pub(super) struct Laid {
    pub sole: Option<Result<f64, Hole>>,
    pub forefoot: Option<Result<f64, Hole>>,
}

pub(super) fn needles(seams: &[SeamBuilt], house: &House, laid: Laid) -> Vec<NeedleBuilt> {
    seams.iter().map(|seam| needle(seam, house, laid)).collect()
}

fn needle(seam: &SeamBuilt, house: &House, laid: Laid) -> NeedleBuilt {
    let stated = || seam.pitch.as_ref().map_err(|hole| *hole).map(|pitch| 25.4 / pitch.value);
    let (pitch, rule) = match seam.name {
        SeamName::Sole => (laid.sole.unwrap_or_else(stated), "perforation-sole"),
        SeamName::Forefoot => (laid.forefoot.unwrap_or_else(stated), "perforation-sole"),
        _ => (stated(), "perforation-upper"),
    };
    // Nm counts the blade in hundredths of a mm.
    let needle = seam.needle.as_ref().map_err(|hole| *hole);
    let blade = needle.map(|needle| (needle.value / 100.0, needle.origin.clone()));
    let over = |other: Built<f64>| Ok(blade.as_ref().map_err(|hole| *hole)?.0 / other?);
    NeedleBuilt {
        name: seam.name.clone(),
        perforation: over(pitch),
        over_thread: over(seam.diameter),
        pitch,
        most: house.rule(rule).map(|rule| (rule.it.nominal(), rule.origin)),
        ratio: house.rule("needle-over-thread").map(|rule| (rule.it.window(), rule.origin)),
        named: seam.named.clone(),
        blade,
    }
}
