//! Nails by kind and length.

use super::super::amounts::{mm, of};
use super::super::{Build, Built, NailsBuilt};
use crate::geometry::{Path, Side, Straight};
use crate::measure::SLACK;
use crate::spec::{ByPlace, HeelNails, Nail, NailLine, Val};
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
    add(counts, &of(&line.with)?.it, built.length, built.places.len());
    Ok(())
}

/// The nails of the heel stand in a line inside its edge, from the breast round the back to the breast: as many as `apart`
/// gives in each stage, and as many in the cap.
fn heel_nails(build: &Build<'_>, nails: &HeelNails, counts: &mut Counts) -> Built<()> {
    let (Some(inside), Some(apart)) = (&nails.inside_edge, &nails.apart) else { return Ok(()) };
    let places = places(build, mm(inside)?, mm(apart)?)?;
    if let Some((nail, lengths)) = &nails.base {
        let nail = &of(nail)?.it;
        let stages: Vec<Option<&Val<ByPlace>>> = if nails.stages.is_empty() {
            vec![lengths.as_ref()]
        } else {
            nails.stages.iter().map(|stage| stage.lengths.as_ref()).collect()
        };
        for lengths in stages {
            by_place(nail, lengths.map(of).transpose()?.map(|lengths| &lengths.it), places, counts);
        }
    }
    if let Some((nail, length)) = &nails.cap {
        let length = length.as_ref().map(mm).transpose()?;
        add(counts, &of(nail)?.it, length, places.iter().sum());
    }
    Ok(())
}

/// How many stand at the back, at the sides and at the breast: in the thirds of the heel's length.
fn places(build: &Build<'_>, inside: f64, apart: f64) -> Built<[usize; 3]> {
    let lines = build.lines.as_ref().map_err(|hole| *hole)?;
    let rail = lines.edge.beside(-inside);
    let breast = Straight::square_at(lines.last.breast);
    let ends = (
        rail.crossings_on(&breast, Side::Inside).last().copied(),
        rail.crossings_on(&breast, Side::Outside).first().copied(),
    );
    let (Some(from), Some(to)) = ends else { return Ok([0; 3]) };
    let to = rail.period() + to;
    let gaps = (rail.length_between(from, to) / apart + SLACK).floor().clamp(0.0, 10_000.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped above")]
    let gaps = gaps as usize;
    let back = rail.point(0.0).x;
    let third = (lines.last.breast - back) / 3.0;
    let mut counts = [0; 3];
    for t in rail.evenly(from, to, gaps) {
        let along = rail.point(t).x - back;
        counts[usize::from(along > third) + usize::from(along > 2.0 * third)] += 1;
    }
    Ok(counts)
}

fn by_place(nail: &Arc<Nail>, lengths: Option<&ByPlace>, places: [usize; 3], counts: &mut Counts) {
    let of_place = |pick: fn(&ByPlace) -> f64| lengths.map(pick);
    let at = [
        of_place(|lengths| lengths.back.nominal()),
        of_place(|lengths| lengths.sides.nominal()),
        of_place(|lengths| lengths.breast.nominal()),
    ];
    for (length, count) in at.into_iter().zip(places) {
        add(counts, nail, length, count);
    }
}
