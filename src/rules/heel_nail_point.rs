//! # heel/nail-point
//!
//! No heel nail's point comes nearer to the foot than the reserve.
//!
//! ## At the bench
//!
//! Heel nails are driven blind, from the base up into the seat. A point that comes through the insole stands in the
//! heel of the foot, and the wearer finds it, not the shop.
//!
//! ## Formula
//!
//! `length + sunk head <= base + layers over it - reserve`, all at the thin end, at the lowest place that the nail
//! may stand: the breast's base for nails at the breast and the sides, the back's for the back. The base is as
//! built, before levelling; at the breast it is less by what the wedges take. Worst case decides: this rule knows
//! no tight.
//!
//! ## Fails
//!
//! ```text
//! nailed { base heel-nail 7/8 in }                        # midsole 10 iron: through at the breast from size 7 1/2 up
//! ```
//!
//! ## Mended
//!
//! ```text
//! nailed { base heel-nail back 7/8 in, breast 6/8 in }
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the reserve is a house rule.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use super::nail::{lengthy, subject};
use super::words::number;
use crate::build::{Build, HeelNail};

/// The rule.
pub(super) struct HeelNailPoint;

impl Rule for HeelNailPoint {
    fn name(&self) -> &'static str {
        "heel/nail-point"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_nail_point.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(nails) = &build.heel_nails else { return Vec::new() };
        judged("heel nails", nails, |nails| nails.nails.iter().map(judge).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let message = format!(
            "the {subject} reaches {} mm up from the base's face, {} mm keep its point clear of the foot: {} mm too long",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        let help = "take a shorter nail there; where none holds, give lengths by place or nail in stages";
        Words { message, help: vec![help.to_owned()] }
    }
}

/// Worst case decides: a point in the foot is never tight.
fn judge(nail: &HeelNail) -> Judgement {
    let (reach, room) = (nail.length + nail.sunk, nail.room.spread().lo);
    let mut judgement = Judgement::new(subject(nail), reach, room, room - reach, "mm");
    judgement.terms = nail.room.clone();
    judgement.at(nail.origin.clone(), lengthy(nail)).lever(nail.origin.clone(), Moves::Down)
}
