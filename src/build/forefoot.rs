//! The forefoot's through-seam: its row, its stitches, what it goes through.

use super::Built;
use super::amounts::{base, mm, of};
use super::lines::{Inside, Lines, lining};
use super::ply::Ply;
use super::rows::stitches;
use super::thread::{ThreadUse, thread_use};
use crate::finding::Sum;
use crate::geometry::{Path, Rail};
use crate::language::Hole;
use crate::spec::{Forefoot, ForefootHold, House, Model, Role};

/// The forefoot of one size.
#[derive(Clone, Debug)]
pub struct ForefootBuilt {
    /// Sewn or nailed.
    pub hold: ForefootHold,
    /// From the feather line inward, mm.
    pub inset: f64,
    /// The row and the parameters at which it crosses the joint line, outside and inside.
    pub row: Rail,
    /// See `row`.
    pub from: f64,
    /// See `row`.
    pub to: f64,
    /// Its length, mm.
    pub length: f64,
    /// Whole stitches and the length of one, mm; none if it is nailed.
    pub stitches: Option<(u32, f64)>,
    /// Insole, lining and midsole.
    pub layers: Sum,
    /// Thread, if it is sewn.
    pub thread: Option<ThreadUse>,
}

pub(super) fn forefoot(
    model: &Model,
    house: &House,
    forefoot: &Forefoot,
    lines: &Lines,
    inside: &Inside,
) -> Built<ForefootBuilt> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let inset = mm(&forefoot.inside_feather)?;
    let row = inside.rail(lines, inset);
    let lost = || Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: model.span };
    let crossings = row.crossings(&lines.last.joint_line);
    let (from, to) = (*crossings.first().ok_or_else(lost)?, *crossings.last().ok_or_else(lost)?);
    let length = row.length_between(from, to);
    let hold = of(&forefoot.hold)?.it;
    let mut layers = Sum::new();
    layers.terms.extend(Ply::of_role(bottom, Role::Insole)?.iter().map(Ply::term));
    layers.terms.extend(lining(model)?.as_ref().map(Ply::term));
    layers.terms.extend(Ply::of_role(bottom, Role::Midsole)?.iter().map(Ply::term));
    let sewn = match &forefoot.pitch {
        Some(pitch) if hold == ForefootHold::Sewn => Some(stitches(length, 25.4 / base(pitch)?)),
        _ => None,
    };
    let thread = match (sewn, &forefoot.on) {
        (Some((count, pitch)), Some(machine)) => {
            let t = layers.nominal();
            Some(thread_use(&of(machine)?.it, pitch, (0..count).map(|_| t), mm(&house.rule("tails"))?)?)
        }
        _ => None,
    };
    Ok(ForefootBuilt { hold, inset, row, from, to, length, stitches: sewn, layers, thread })
}
