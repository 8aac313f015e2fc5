//! Thread: what the rows of the upper take, and everything of a thread together.

use super::super::FACINGS;
use super::super::amounts::{base, mm, of};
use super::super::rows::stitches;
use super::super::thread::{ThreadUse, thread_use};
use super::super::{Build, Built};
use super::BOOTS;
use crate::build::key_of_seam;
use crate::finding::{LapName, SeamName};
use crate::spec::{Facing, Part, Stitching, Upper, Val};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The rows of one seam of the upper, on one boot.
#[derive(Clone, Debug, PartialEq)]
pub struct RowTaken {
    /// Which seam.
    pub of: SeamName,
    /// The thread.
    pub thread: String,
    /// Rows.
    pub rows: u32,
    /// Stitches of one row and what they take, with its tails; none where the seam's length is not said.
    pub row: Option<(u32, ThreadUse)>,
    /// The true pitch of its rows, mm, where `row` is known.
    pub pitch: Option<f64>,
}

/// What a pair takes of one thread, m.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ThreadTaken {
    /// Its name.
    pub name: String,
    /// From needles.
    pub needle: f64,
    /// From bobbins.
    pub bobbin: f64,
    /// Tails.
    pub tails: f64,
    /// Seams whose length is not said: then nothing more than the thread's name is known.
    pub unknown: Vec<String>,
}

impl ThreadTaken {
    /// Everything, m.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.needle + self.bobbin + self.tails
    }

    fn add(&mut self, used: &ThreadUse, times: f64) {
        self.needle += times * used.needle;
        self.bobbin += times * used.bobbin;
        self.tails += times * used.tails;
    }
}

/// Every thread by its name.
///
/// # Errors
/// The hole of a fault in a seam, its thread or its machine.
pub fn threads(build: &Build<'_>) -> Built<Vec<ThreadTaken>> {
    let mut all: BTreeMap<String, ThreadTaken> = BTreeMap::new();
    let mut of_name = |name: &str, add: &dyn Fn(&mut ThreadTaken)| {
        let start = || ThreadTaken { name: name.to_owned(), ..ThreadTaken::default() };
        add(all.entry(name.to_owned()).or_insert_with(start));
    };
    for seam in upper_rows(build)? {
        of_name(&seam.thread, &|taken| match &seam.row {
            Some((_, used)) => taken.add(used, BOOTS * f64::from(seam.rows)),
            None => taken.unknown.push(key_of_seam(&seam.of)),
        });
    }
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    if let Some(forefoot) = &build.forefoot
        && let Some(thread) = bottom.forefoot.as_ref().and_then(|forefoot| forefoot.thread.as_ref())
        && let Some(used) = &forefoot.as_ref().map_err(|hole| *hole)?.thread
    {
        of_name(&of(thread)?.it.name, &|taken| taken.add(used, BOOTS));
    }
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    let rows = &build.rows.as_ref().map_err(|hole| *hole)?.rows;
    let known = rows.iter().all(|row| row.thread.is_some());
    of_name(&of(&sole.thread)?.it.name, &|taken| {
        if known {
            rows.iter().filter_map(|row| row.thread.as_ref()).for_each(|used| taken.add(used, BOOTS));
        } else {
            taken.unknown.push(key_of_seam(&SeamName::Sole));
        }
    });
    Ok(all.into_values().collect())
}

/// The rows of the upper, seam by seam.
///
/// # Errors
/// The hole of a fault in a seam, its parts or its machine.
pub fn upper_rows(build: &Build<'_>) -> Built<Vec<RowTaken>> {
    let upper = build.model.upper.as_ref().map_err(|hole| *hole)?;
    let factor = build.last.as_ref().map_err(|hole| *hole)?.length_factor;
    let graded = |stitching: &Stitching| stitching.long.as_ref().map(|long| Ok(mm(long)? * factor)).transpose();
    let mut all = Vec::new();
    for (seam, stitching, thickness) in sewn(upper)? {
        all.push(rows(build, seam, stitching, graded(stitching)?, thickness)?);
    }
    if let Some(facing) = &upper.facing
        && let Some(stitching) = &facing.rows
    {
        let long = build.facing.as_ref().map(|facing| facing.as_ref().map_err(|hole| *hole)).transpose()?;
        let long = long.and_then(|facing| facing.long.as_ref()).map(|(long, _)| *long);
        let of_a_side = rows(build, SeamName::Facing, stitching, long, through_facing(upper, facing)?)?;
        all.push(RowTaken { rows: FACINGS * of_a_side.rows, ..of_a_side });
    }
    Ok(all)
}

/// The true pitch of the rows of a seam of the upper, mm; `None` where its length is not said.
#[must_use]
pub fn upper_pitch(build: &Build<'_>, of: &SeamName) -> Option<f64> {
    upper_rows(build).ok()?.into_iter().find(|seam| seam.of == *of)?.pitch
}

/// Every seam with what is sewn there, mm: the full substance of each part, skives left out, so that thread is not short.
fn sewn(upper: &Upper) -> Built<Vec<(SeamName, &Stitching, f64)>> {
    let mut all = Vec::new();
    for lap in &upper.laps {
        let both = whole(&lap.top)? + whole(&lap.under)?;
        all.push((SeamName::Lap(LapName::of(&of(&lap.top)?.it.name, &of(&lap.under)?.it.name)), &lap.stitching, both));
    }
    for seam in &upper.seams {
        let parts = seam.joins.as_ref().map_err(|hole| *hole)?;
        let substances = parts.iter().map(|part| substance(&part.it)).collect::<Built<Vec<f64>>>()?;
        // One name joins the part to its like.
        let both = if let [one] = substances[..] { 2.0 * one } else { substances.iter().sum() };
        all.push((SeamName::Seam(seam.name.as_str().into()), &seam.stitching, both));
    }
    for stay in &upper.stays {
        let covered = of(&stay.covers)?;
        let seam = upper.seams.iter().find(|seam| seam.name == covered.it);
        let joined = seam.map(|seam| seam.joins.as_ref().map_err(|hole| *hole)).transpose()?;
        let sides = joined.into_iter().flatten().map(|part| substance(&part.it)).collect::<Built<Vec<f64>>>()?;
        // It lies over both sides of its seam; the thicker one counts.
        let under = sides.into_iter().fold(0.0, f64::max);
        all.push((SeamName::Stay(stay.name.as_str().into()), &stay.stitching, whole(&stay.of)? + under));
    }
    for gusset in &upper.gussets {
        let both = whole(&gusset.part)? + whole(&gusset.joins)?;
        all.push((SeamName::Gusset(of(&gusset.part)?.it.name.as_str().into()), &gusset.stitching, both));
    }
    if let Some(collar) = &upper.collar {
        let plies = if collar.folded.is_some() { 2.0 } else { 1.0 };
        let thickness = plies * whole(&collar.part)? + whole(&collar.joins)?;
        all.push((SeamName::Collar, &collar.stitching, thickness));
    }
    Ok(all)
}

/// A facing and its backing: another part, or itself turned in.
fn through_facing(upper: &Upper, facing: &Facing) -> Built<f64> {
    let part = upper.faced(facing)?.map_or(Ok(0.0), |part| substance(&part.it))?;
    Ok(match &facing.backing {
        Some(Some(backing)) => part + whole(backing)?,
        Some(None) => 2.0 * part,
        None => part,
    })
}

fn whole(part: &Val<Arc<Part>>) -> Built<f64> {
    substance(&of(part)?.it)
}

fn substance(part: &Part) -> Built<f64> {
    mm(&of(&part.of)?.it.substance)
}

fn rows(
    build: &Build<'_>,
    seam: SeamName,
    stitching: &Stitching,
    long: Option<f64>,
    thickness: f64,
) -> Built<RowTaken> {
    let thread = of(&stitching.thread)?.it.name.clone();
    let mut taken = RowTaken { of: seam, thread, rows: of(&stitching.rows)?.it, row: None, pitch: None };
    let Some(length) = long else { return Ok(taken) };
    let (count, pitch) = stitches(length, 25.4 / base(&stitching.pitch)?);
    let machine = &of(&stitching.on)?.it;
    let tails = mm(&build.house.rule("tails"))?;
    taken.pitch = Some(pitch);
    taken.row = Some((count, thread_use(machine, pitch, (0..count).map(|_| thickness), tails)?));
    Ok(taken)
}
