//! Nails by kind and length.

use super::super::amounts::of;
use super::super::{Build, Built, HeelNail, HeelNailsBuilt, NailsBuilt, Place, Ring};
use crate::spec::{HeelNails, Nail, NailLine};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Nails of one kind and length for a pair.
#[derive(Clone, Debug, PartialEq)]
pub struct NailsTaken {
    /// The nail.
    pub nail: String,
    /// Its length, mm; none where it is neither stated nor found.
    pub length: Option<f64>,
    /// How many.
    pub count: u64,
    /// What they weigh, g, where the stock says how many go to the kilogram.
    pub grams: Option<f64>,
}

/// Counts by name and by length in millionths of a mm, which sort.
type Counts = BTreeMap<(String, Option<u64>), (Arc<Nail>, Option<f64>, u64)>;

/// Every nail of the bottom and the heel.
///
/// # Errors
/// The hole of a fault in a line of nails, the heel or the bottom's lines.
pub fn nails(build: &Build<'_>) -> Built<Vec<NailsTaken>> {
    let mut counts = Counts::new();
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    for (line, built) in [(&bottom.waist, &build.waist), (&bottom.seat, &build.seat)] {
        if let (Some(line), Some(built)) = (line, built) {
            clinched(line, built.as_ref().map_err(|hole| *hole)?, &mut counts)?;
        }
    }
    if let Some(nails) = build.model.heel.as_ref().and_then(|heel| heel.nails.as_ref()) {
        heel_nails(build, nails, &mut counts)?;
    }
    let taken = counts.into_values().map(|(nail, length, boot)| {
        let count = 2 * boot;
        let each = match &nail.weight {
            #[expect(clippy::cast_precision_loss, reason = "nails are counted in hundreds")]
            Some(weight) => Some(count as f64 * 1000.0 / f64::from(of(weight)?.it)),
            None => None,
        };
        Ok(NailsTaken { nail: nail.name.clone(), length, count, grams: each })
    });
    taken.collect()
}

fn add(counts: &mut Counts, nail: &Arc<Nail>, length: Option<f64>, count: usize) {
    if count == 0 {
        return;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "lengths are some mm")]
    let sorted = length.map(|length| (length * 1e6).round() as u64);
    let known = counts.entry((nail.name.clone(), sorted)).or_insert_with(|| (Arc::clone(nail), length, 0));
    known.2 += count as u64;
}

fn clinched(line: &NailLine, built: &NailsBuilt, counts: &mut Counts) -> Built<()> {
    add(counts, &of(&line.with)?.it, built.length, built.places.len());
    Ok(())
}

/// The nails of the heel stand in a ring inside its edge: as many as `apart` gives in each stage, and as many in the cap.
fn heel_nails(build: &Build<'_>, nails: &HeelNails, counts: &mut Counts) -> Built<()> {
    let Some(Ok(built)) = &build.heel_nails else { return Ok(()) };
    let Some(ring) = &built.ring else { return Ok(()) };
    if let Some((nail, _)) = &nails.base {
        let nail = &of(nail)?.it;
        let stages: BTreeSet<Option<u32>> = built.nails.iter().map(|nail| nail.stage).collect();
        for stage in stages {
            let of_stage: Vec<&HeelNail> = built.nails.iter().filter(|nail| nail.stage == stage).collect();
            for share in &ring.along {
                add(counts, nail, of_place(&of_stage, *share).map(|nail| nail.length), 1);
            }
        }
    }
    if let (Some((nail, _)), Some(cap)) = (&nails.cap, &built.cap) {
        add(counts, &of(nail)?.it, Some(cap.length), ring.along.len());
    }
    Ok(())
}

/// How many of a boot's nails in the ring are this one.
#[must_use]
pub fn in_place(nails: &HeelNailsBuilt, ring: &Ring, nail: &HeelNail) -> u64 {
    let here = |share: &&f64| nail_at(nails, nail.stage, **share).is_some_and(|other| other.place == nail.place);
    ring.along.iter().filter(here).count() as u64
}

/// The nail of one stage that stands at a share of the way from the back to the breast.
#[must_use]
pub fn nail_at(nails: &HeelNailsBuilt, stage: Option<u32>, share: f64) -> Option<&HeelNail> {
    let of_stage: Vec<&HeelNail> = nails.nails.iter().filter(|nail| nail.stage == stage).collect();
    of_place(&of_stage, share)
}

/// The nail of a place: by thirds of the heel's length; where the sides have none of their own, by halves.
fn of_place<'n>(nails: &[&'n HeelNail], share: f64) -> Option<&'n HeelNail> {
    let of = |place: Place| nails.iter().copied().find(|nail| nail.place == place);
    let sides = of(Place::Sides);
    let (back, breast) = if sides.is_some() { (1.0 / 3.0, 2.0 / 3.0) } else { (0.5, 0.5) };
    let (first, second) = match share {
        share if share <= back => (of(Place::Back), of(Place::Breast)),
        share if share > breast => (of(Place::Breast), of(Place::Back)),
        _ => (sides, of(Place::Back)),
    };
    first.or(second)
}
