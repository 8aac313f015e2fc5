//! # hardware/spacing
//!
//! Enough leather is left between the holes of a facing, and from them to its edge, its rows and its ends.
//!
//! ## At the bench
//!
//! Laces pull each hole towards the edge and towards its neighbour. Where holes, rows and edges come too near to each
//! other, the facing tears along them like a stamp; small sizes fail first, because the facing grades and the hardware
//! does not.
//!
//! ## Formula
//!
//! The highest centre stays at `first` from the top edge, the lowest keeps its distance from the facing's end: what the
//! facing grows by is shared out between the centres in proportion. Then, each `>= hole-web` of the house: centre to centre
//! less half of both holes; `from-edge` less half a hole; centre to the nearest row less half a hole; first centre to the
//! top, last centre to the end of `long` (if it is stated), less half a hole.
//!
//! ## Fails
//!
//! ```text
//! facing { from-edge 5 mm }       # a hole of 5 leaves 2.5 mm to the edge
//! ```
//!
//! ## Mended
//!
//! ```text
//! facing { from-edge 13 mm }
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Build, Web};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct HardwareSpacing;

impl Rule for HardwareSpacing {
    fn name(&self) -> &'static str {
        "hardware/spacing"
    }

    fn source(&self) -> &'static str {
        include_str!("hardware_spacing.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(facing) = &build.facing else { return Vec::new() };
        judged(Subject::FACING, facing, |facing| {
            let of_web = |web: &Web| {
                judge(build, web).unwrap_or_else(|hole| Judgement::lost(Subject::FacingHoles(web.what), hole))
            };
            facing.webs.iter().map(of_web).collect()
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let message = format!(
            "{} mm of leather are left at the {subject}, the house wants {} mm: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["set fewer, move them, or take hardware with a smaller hole".to_owned()] }
    }
}

fn judge(build: &Build<'_>, web: &Web) -> Result<Judgement, Hole> {
    let rule = build.house.rule("hole-web")?;
    let limit = rule.it.nominal();
    let mut judgement = Judgement::new(Subject::FacingHoles(web.what), web.leather, limit, web.leather - limit, "mm")
        .lever(web.origin.clone(), Moves::Another)
        .limit_at(rule.origin, "house rule: least leather beside a hole");
    judgement.place = Some(web.place.clone().into());
    Ok(judgement)
}
