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
//! Each nail is judged where it stands, `x` mm from the heel along the centre line:
//! `length + sunk head <= base(x) + what lies over it there - reserve`, all at the thin end. `base(x)` is the base as built,
//! before levelling: at the back less what the wedges take, `x` over the heel's length of it. Over it lie slip, midsole,
//! filler, the outer where it is lasted in, lining, shank, pad and insole, each only where it really is; near an edge both
//! ways are judged. In the ledge outside the wall the point ends below the ledge's face instead. A nail that leans by an
//! angle reaches `length * cos`. Worst case decides: this rule knows no tight.
//!
//! ## Fails
//!
//! ```text
//! nailed { base heel-nail 7/8 in }                        # midsole 10 iron: too long at the breast in every size
//! ```
//!
//! ## Mended
//!
//! ```text
//! nailed { base heel-nail back 7/8 in, breast 6.5/8 in }
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the reserve is a house rule.

use super::judgement::{Judgement, Moves, Words, judged};
use super::nail::{lengthy, standing, subject};
use super::words::number;
use super::{Case, Rule};
use crate::build::{Build, HeelNail, HeelNailsBuilt, Zone};
use crate::finding::Subject;

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
        judged(Subject::HeelNails, nails, |nails| nails.nails.iter().filter_map(|nail| judge(nails, nail)).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let clear = if judgement.case == Case::Ledge { "below the ledge's face" } else { "clear of the foot" };
        let message = format!(
            "the {subject} reaches {} mm up from the base's face, {} mm keep its point {clear}: {} mm too long",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        let help = "take a shorter nail there; where none holds, give lengths by place or nail in stages";
        Words { message, help: vec![help.to_owned()] }
    }
}

/// Worst case decides: a point in the foot is never tight. A nail that stands at the turn of the upper is judged where it
/// stands, by `heel/nail-place`.
fn judge(nails: &HeelNailsBuilt, nail: &HeelNail) -> Option<Judgement> {
    let (reach, room) = (nail.reach(), nail.room.spread().lo);
    if nail.zone == Zone::Turn {
        return None;
    }
    let mut judgement = Judgement::new(subject(nail), reach, room, room - reach, "mm");
    judgement.terms = nail.room.clone();
    let place = standing(&nails.stands[nail.worst]);
    judgement.place = Some(place.clone().into());
    if nail.zone == Zone::Ledge {
        judgement.place = Some(format!("{place}, in the ledge").into());
        judgement.case = Case::Ledge;
    }
    Some(judgement.at(nail.origin.clone(), lengthy(nail)).lever(nail.origin.clone(), Moves::Down))
}
