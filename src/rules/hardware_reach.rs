//! # hardware/reach
//!
//! The setter reaches the centres of eyelets and hooks.
//!
//! ## At the bench
//!
//! Past the throat of the setter a hole can be punched and nothing set in it: the facing would have to be crumpled into
//! the frame.
//!
//! ## Formula
//!
//! `from-edge <= reach` of the setter that the facing names.
//!
//! ## Fails
//!
//! ```text
//! facing { from-edge 32 mm;  with bench-setter }     # reaches 30
//! ```
//!
//! ## Mended
//!
//! ```text
//! facing { from-edge 13 mm;  with bench-setter }
//! ```
//!
//! ## Source
//!
//! The setter's own figure, as the shop states it.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::Build;
use crate::finding::Subject;

/// The rule.
pub(super) struct HardwareReach;

const SUBJECT: Subject = Subject::SettingFacing;

impl Rule for HardwareReach {
    fn name(&self) -> &'static str {
        "hardware/reach"
    }

    fn source(&self) -> &'static str {
        include_str!("hardware_reach.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(facing) = &build.facing else { return Vec::new() };
        judged(SUBJECT, facing, |facing| {
            let (asked, origin) = &facing.from_edge;
            let judgement = facing.reach.as_ref().map(|(reach, limit)| {
                Judgement::new(SUBJECT, *asked, *reach, reach - asked, "mm")
                    .lever(origin.clone(), Moves::Down)
                    .limit_at(limit.clone(), "the setter reaches")
            });
            judgement.into_iter().collect()
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the centres stand {} mm from the edge, the setter reaches {} mm: {} mm too far",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["bring them nearer to the edge, or take a setter that reaches farther".to_owned()] }
    }
}
