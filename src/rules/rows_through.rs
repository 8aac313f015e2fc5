//! # rows/through
//!
//! A row meets the layers that it goes through, along its whole length.
//!
//! ## At the bench
//!
//! A row beside the outsole holds the upper to the midsole and nothing to the ground: the sole is on by its cement alone,
//! and the stitches stand in the open. A forefoot row off the insole holds the upper to nothing.
//!
//! ## Formula
//!
//! The sole's rows go through the midsole and the layer that they end in, the forefoot's row through insole and midsole.
//! Each row lies on each of them ahead of the place where that layer says that it ends: the joint line if it `covers
//! forepart`, else where it `ends`. A layer with a `breadth` reaches half of it to each side of the centre line; one that
//! covers the waist or the seat leaves the forepart bare.
//!
//! ## Fails
//!
//! ```text
//! layer outsole { of lug-low;  breadth 80 mm }      # both rows run beside it from the waist on
//! sole sewn { through slip }                        # layer slip { covers waist }: nothing of it under the forepart
//! ```
//!
//! ## Mended
//!
//! ```text
//! layer outsole { of lug-low;  ends at-breast }
//! layer slip { of slip-sheet;  covers all }
//! ```
//!
//! ## Source
//!
//! Geometry.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use crate::build::{Build, Missed, of};
use crate::finding::Subject;
use crate::geometry::Side;
use crate::language::Hole;
use crate::spec::{Bottom, Extent, Layer, Role};

/// The rule.
pub(super) struct RowsThrough;

impl Rule for RowsThrough {
    fn name(&self) -> &'static str {
        "rows/through"
    }

    fn source(&self) -> &'static str {
        include_str!("rows_through.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Ok(bottom) = &build.model.bottom else { return Vec::new() };
        let judge = |subject: Subject, missed: &[Missed]| {
            judge(&subject, bottom, missed).unwrap_or_else(|hole| vec![Judgement::lost(subject, hole)])
        };
        let mut all = judged(SOLE, &build.stack, |stack| judge(SOLE, &stack.missed));
        if let Some(forefoot) = &build.forefoot {
            all.extend(judged(FOREFOOT, forefoot, |forefoot| judge(FOREFOOT, &forefoot.missed)));
        }
        all
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let what = judgement.facts.first().map(ToString::to_string).unwrap_or_default();
        Words { message: what, help: vec!["let the layer reach under the row, or sew through another".to_owned()] }
    }
}

const SOLE: Subject = Subject::SOLE_ROWS;
const FOREFOOT: Subject = Subject::FOREFOOT_ROW;

/// One judgement: of the layer and the row that miss each other most.
fn judge(subject: &Subject, bottom: &Bottom, missed: &[Missed]) -> Result<Vec<Judgement>, Hole> {
    let more = |a: Missed, b: Missed| if b.length > a.length { b } else { a };
    let Some(worst) = missed.iter().copied().reduce(more) else { return Ok(Vec::new()) };
    let mut judgement = Judgement::yes_no(subject.clone(), worst.length <= 0.0);
    let Some(layer) = bottom.layer(worst.role).filter(|_| worst.length > 0.0) else { return Ok(vec![judgement]) };
    let row = if *subject == FOREFOOT { "its row".to_owned() } else { format!("row {}", worst.row + 1) };
    let (first, side) = worst.first;
    let side = if side == Side::Outside { "outside" } else { "inside" };
    judgement.facts.push(said(subject, worst.role, &row, worst.length).into());
    judgement.place = Some(format!("from {first:.0} mm along {row} from its start, on the {side}").into());
    judgement = by_layer(judgement, layer)?;
    let through = bottom.sole.as_ref().ok().map(|sole| &sole.through).filter(|_| *subject == SOLE);
    if let Some(through) = through {
        let through = of(through)?;
        judgement =
            judgement.at(through.origin.clone(), "the rows end in this").lever(through.origin.clone(), Moves::Another);
    }
    Ok(vec![judgement])
}

fn said(subject: &Subject, role: Role, row: &str, length: f64) -> String {
    let go = if *subject == FOREFOOT { "goes" } else { "go" };
    format!("the {subject} {go} through the {}, and {length:.1} mm of {row} lie beside it", role.name())
}

/// With what the layer says of where it lies, and the choices that change that.
fn by_layer(mut judgement: Judgement, layer: &Layer) -> Result<Judgement, Hole> {
    let covers = of(&layer.covers)?;
    if matches!(covers.it, Extent::Waist | Extent::Seat) {
        let origin = covers.origin.clone();
        judgement = judgement.at(origin.clone(), "what it covers").lever(origin, Moves::Another);
    }
    if let Some(breadth) = &layer.breadth {
        let breadth = of(breadth)?;
        let origin = breadth.origin.clone();
        judgement = judgement.at(origin.clone(), "its breadth, centred on the centre line").lever(origin, Moves::Up);
    }
    Ok(judgement)
}
