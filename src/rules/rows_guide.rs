//! # rows/guide
//!
//! The edge guide can be set to where the outer row runs.
//!
//! ## At the bench
//!
//! The guide runs on the rough edge, not on the finished one. Set by the drawing's figure it sews the row too near,
//! and the trimmer cuts into it.
//!
//! ## Formula
//!
//! `least <= from-edge + what trimming and sanding take <= most` of the machine's edge guide. A machine that does
//! not say is not judged.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { from-edge 2.5 mm;  on bench-stitcher }      # setting 3.5, the guide begins at 4
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { from-edge 3.5 mm;  on bench-stitcher }      # setting 4.5
//! ```
//!
//! ## Source
//!
//! The machine's own figures; what the edge loses is a house rule.

use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, of};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct RowsGuide;

impl Rule for RowsGuide {
    fn name(&self) -> &'static str {
        "rows/guide"
    }

    fn source(&self) -> &'static str {
        include_str!("rows_guide.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.rows, |rows| {
            judge(build, rows.guide).unwrap_or_else(|hole| vec![Judgement::lost(SUBJECT, hole)])
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let (which, way) = if sum > limit { ("ends", "out of its reach") } else { ("begins", "too near") };
        let message = format!(
            "the edge guide has to be set to {} mm and {which} at {} mm: {} mm {way}",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["set the outer row at another distance from the edge".to_owned()] }
    }
}

const SUBJECT: Subject = Subject::EdgeGuide;

fn judge(build: &Build<'_>, setting: f64) -> Result<Vec<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    let Some(guide) = &of(&sole.on)?.it.edge_guide else { return Ok(Vec::new()) };
    let (guide, from_edge) = (of(guide)?, of(&sole.from_edge)?);
    let off = build.house.rule("off-the-edge")?;
    let window = guide.it.window();
    let limit = window.nearer_end(setting);
    let moves = if setting > limit { Moves::Down } else { Moves::Up };
    let margin = (setting - window.lo).min(window.hi - setting);
    Ok(vec![
        Judgement::new(SUBJECT, setting, limit, margin, "mm")
            .at(from_edge.origin.clone(), Phrase::of("{} mm from the finished edge", from_edge.it.nominal()))
            .at(off.origin, Phrase::of("trimming and sanding take {} mm", off.it.nominal()))
            .limit_at(guide.origin.clone(), "the guide's settings")
            .lever(from_edge.origin.clone(), moves),
    ])
}
