//! # rows/no-line
//!
//! Every row and every line of clinch nails has a line to run on, in one piece from its start to its end.
//!
//! ## At the bench
//!
//! A line too far inside its bottom meets itself: from both sides of the waist, or from both sides of a pointed toe, it runs
//! into the middle, and farther in there is none. A row can't be sewn there.
//!
//! ## Formula
//!
//! Yes or no: of the line at its distance from the feather line, with what crosses itself cut off, one piece is left between
//! the row's ends.
//!
//! ## Fails
//!
//! ```text
//! forefoot sewn { inside-feather 50 mm }      # no place of the bottom is 50 mm inside it
//! ```
//!
//! ## Mended
//!
//! ```text
//! forefoot sewn { inside-feather 10 mm }
//! ```
//!
//! ## Source
//!
//! Geometry.

use super::Rule;
use super::judgement::{Judgement, Moves, Words};
use crate::build::{Build, NO_LINE, of};
use crate::finding::{ClinchLine, Subject};
use crate::language::Hole;
use crate::spec::NailLine;

/// The rule.
pub(super) struct RowsNoLine;

const SOLE: Subject = Subject::SOLE_ROWS;
const FOREFOOT: Subject = Subject::FOREFOOT_ROW;

impl Rule for RowsNoLine {
    fn name(&self) -> &'static str {
        NO_LINE
    }

    fn source(&self) -> &'static str {
        include_str!("rows_no_line.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let rows = has_none(&build.rows).then(|| sole(build).unwrap_or_else(|hole| Judgement::lost(SOLE, hole)));
        let row = build.forefoot.as_ref().is_some_and(has_none);
        let forefoot = row.then(|| forefoot(build).unwrap_or_else(|hole| Judgement::lost(FOREFOOT, hole)));
        rows.into_iter().chain(forefoot).chain(nails(build)).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let message =
            format!("nothing is left of the line of the {} at its distance: it would cross itself", judgement.subject);
        Words { message, help: vec!["move it outward".to_owned()] }
    }
}

/// Whether a row was lost because it has no line.
fn has_none<T>(built: &Result<T, Hole>) -> bool {
    built.as_ref().err().is_some_and(|hole| hole.fault == NO_LINE)
}

fn sole(build: &Build<'_>) -> Result<Judgement, Hole> {
    let sole = build.model.bottom.as_ref().map_err(|hole| *hole)?.sole.as_ref().map_err(|hole| *hole)?;
    let from_edge = of(&sole.from_edge)?;
    let judgement = Judgement::yes_no(SOLE, false).lever(from_edge.origin.clone(), Moves::Down);
    Ok(judgement.at(from_edge.origin.clone(), "so far inside the edge"))
}

/// The lines of clinch nails that have none.
fn nails(build: &Build<'_>) -> Vec<Judgement> {
    let bottom = build.model.bottom.as_ref().ok();
    let line =
        |line: Option<&NailLine>| line.and_then(|line| of(&line.inside_feather).ok()).map(|it| it.origin.clone());
    let left = build.model.lasting.tacks_left.as_ref().and_then(|left| left.inside_feather.as_ref());
    [
        (ClinchLine::Waist, &build.waist, line(bottom.and_then(|bottom| bottom.waist.as_ref()))),
        (ClinchLine::Seat, &build.seat, line(bottom.and_then(|bottom| bottom.seat.as_ref()))),
        (ClinchLine::Tacks, &build.tacks, left.and_then(|inset| of(inset).ok()).map(|it| it.origin.clone())),
    ]
    .into_iter()
    .filter(|(_, built, _)| built.as_ref().is_some_and(has_none))
    .map(|(line, _, inset)| {
        let judgement = Judgement::yes_no(Subject::Clinched(line), false);
        match inset {
            Some(inset) => judgement.lever(inset.clone(), Moves::Down).at(inset, "so far inside the feather line"),
            None => judgement,
        }
    })
    .collect()
}

fn forefoot(build: &Build<'_>) -> Result<Judgement, Hole> {
    let judgement = Judgement::yes_no(FOREFOOT, false);
    let Some(forefoot) = &build.model.bottom.as_ref().map_err(|hole| *hole)?.forefoot else { return Ok(judgement) };
    let inset = of(&forefoot.inside_feather)?;
    let judgement = judgement.lever(inset.origin.clone(), Moves::Down);
    Ok(judgement.at(inset.origin.clone(), "so far inside the feather line"))
}
