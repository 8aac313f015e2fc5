//! # rows/edge
//!
//! The outer row keeps enough leather between itself and the finished edge.
//!
//! ## At the bench
//!
//! A row too near to the edge is cut by the trimmer or laid bare by the sander, and the boot loses its sole from the
//! toe on: most field damage begins at the front of the upper-to-sole stitching.
//!
//! ## Formula
//!
//! `from-edge >= edge-after-sanding` (house). Both are finished figures: what inspection measures.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { from-edge 1.5 mm }    # the house wants 2
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { from-edge 3.5 mm }
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::{Build, of};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct RowsEdge;

const SUBJECT: Subject = Subject::OuterSoleRow;

impl Rule for RowsEdge {
    fn name(&self) -> &'static str {
        "rows/edge"
    }

    fn source(&self) -> &'static str {
        include_str!("rows_edge.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        vec![judge(build).unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole))]
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the outer row stands {} mm from the finished edge, the house wants {} mm: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["set the row farther in; the turnout may have to grow with it".to_owned()] }
    }
}

fn judge(build: &Build<'_>) -> Result<Judgement, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    let from_edge = of(&sole.from_edge)?;
    let rule = build.house.rule("edge-after-sanding")?;
    let (value, limit) = (from_edge.it.nominal(), rule.it.nominal());
    Ok(Judgement::new(SUBJECT, value, limit, value - limit, "mm")
        .at(from_edge.origin.clone(), format!("{} mm from the edge", number(value, 1.0)))
        .limit_at(rule.origin, "house rule: least leather outside the row")
        .lever(from_edge.origin.clone(), Moves::Up))
}
