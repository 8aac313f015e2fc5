//! Nails by kind and length.

use super::super::amounts::of;
use super::super::{Build, Built, NailsBuilt};
use crate::spec::{HeelNails, Nail, NailLine};
use std::collections::BTreeMap;
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
    let nail = &of(&line.with)?.it;
    for one in &built.nails {
        add(counts, nail, one.length, 1);
    }
    Ok(())
}

/// The nails of the heel's base, stage by stage, and of its cap.
fn heel_nails(build: &Build<'_>, nails: &HeelNails, counts: &mut Counts) -> Built<()> {
    let Some(Ok(built)) = &build.heel_nails else { return Ok(()) };
    if let Some((nail, _)) = &nails.base {
        let nail = &of(nail)?.it;
        for of_place in &built.nails {
            add(counts, nail, Some(of_place.length), of_place.count);
        }
    }
    if let (Some((nail, _)), Some(cap)) = (&nails.cap, &built.cap) {
        add(counts, &of(nail)?.it, Some(cap.length), cap.count);
    }
    Ok(())
}
