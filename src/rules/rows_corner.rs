//! # rows/corner
//!
//! No row that is sewn has a corner. A note: it says where the boot is turned on the needle.
//!
//! ## At the bench
//!
//! A row lies at one distance from the edge, or from the feather line. Where the last is drawn in more tightly than that
//! distance, or its toe is more pointed, the line can't follow round: it meets itself, and what lies beyond is cut off. The
//! corner that is left is no place for a machine that feeds. It sews up to it, stops with the needle down, and the boot is
//! turned on the needle; run through, it cuts the corner and leaves the distance.
//!
//! ## Formula
//!
//! What is cut off the line at its corners `<= 0 mm`: nothing. Said of each sole row and of a sewn forefoot row, with the side,
//! the station, the mm along the row from its start, and by how many degrees it turns.
//!
//! ## Fails
//!
//! ```text
//! forefoot sewn { inside-feather 12 mm }      # a toe that is rounder than 12 mm nowhere
//! ```
//!
//! ## Mended
//!
//! ```text
//! forefoot sewn { inside-feather 6 mm }
//! ```
//!
//! ## Source
//!
//! Geometry. That a machine is stopped at a corner is common practice, no source.

use super::judgement::{Judgement, Moves, Verdict, Words};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, Corner, of};
use crate::finding::Subject;
use crate::geometry::Side;
use crate::language::Hole;
use crate::spec::ForefootHold;

/// The rule.
pub(super) struct RowsCorner;

impl Rule for RowsCorner {
    fn name(&self) -> &'static str {
        "rows/corner"
    }

    fn source(&self) -> &'static str {
        include_str!("rows_corner.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        sole_rows(build).unwrap_or_default().into_iter().chain(forefoot(build).ok().flatten()).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, margin, .. } = judgement;
        let message = format!(
            "{} mm of the line are cut off where it would cross itself: no machine follows the corner that is left",
            number(*sum, *margin),
        );
        Words { message, help: vec!["stop there and turn the boot on the needle, or move the line outward".to_owned()] }
    }
}

/// Rows that were lost have been said to be.
fn sole_rows(build: &Build<'_>) -> Result<Vec<Judgement>, Hole> {
    let rows = build.rows.as_ref().map_err(|hole| *hole)?;
    let sole = build.model.bottom.as_ref().map_err(|hole| *hole)?.sole.as_ref().map_err(|hole| *hole)?;
    let from_edge = of(&sole.from_edge)?;
    let judge = |(n, row): (usize, &crate::build::RowBuilt)| {
        judge(Subject::SoleRow(n + 1), &row.corners)
            .at(from_edge.origin.clone(), Phrase::of("{} mm from the finished edge", row.inset))
            .lever(from_edge.origin.clone(), Moves::Up)
    };
    Ok(rows.rows.iter().enumerate().filter(|(_, row)| !row.corners.is_empty()).map(judge).collect())
}

fn forefoot(build: &Build<'_>) -> Result<Option<Judgement>, Hole> {
    let Some(Ok(row)) = &build.forefoot else { return Ok(None) };
    let Some(forefoot) = &build.model.bottom.as_ref().map_err(|hole| *hole)?.forefoot else { return Ok(None) };
    if row.hold != ForefootHold::Sewn || row.corners.is_empty() {
        return Ok(None);
    }
    let inset = of(&forefoot.inside_feather)?;
    let judgement = judge(Subject::FOREFOOT_ROW, &row.corners)
        .at(inset.origin.clone(), Phrase::of("{} mm inside the feather line", row.inset))
        .lever(inset.origin.clone(), Moves::Down);
    Ok(Some(judgement))
}

fn judge(subject: Subject, corners: &[Corner]) -> Judgement {
    let cut: f64 = corners.iter().map(|corner| corner.cut).sum();
    let mut judgement = Judgement::new(subject, cut, 0.0, -cut, "mm");
    if judgement.verdict == Verdict::Refused {
        judgement.verdict = Verdict::Noted;
    }
    let place = |corner: &Corner| {
        let side = if corner.side == Side::Outside { "outside" } else { "inside" };
        let Corner { station, along, turn, .. } = corner;
        format!(
            "at {:.1} % of the bottom on the {side}, {along:.1} mm along the row, turning by {turn:.0} degrees",
            station * 100.0
        )
    };
    judgement.place = corners.first().map(|corner| place(corner).into());
    judgement
        .facts
        .extend(corners.iter().skip(1).map(|corner| Phrase::Said(format!("another corner {}", place(corner)))));
    judgement
}
