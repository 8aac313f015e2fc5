//! # heel/cap-nails
//!
//! Cap nails bite in the base, and end inside it or clear of the foot.
//!
//! ## At the bench
//!
//! Cap nails too short let the cap go; too long, they meet the nails of the base or come out of its breast, where
//! they catch every rung.
//!
//! ## Formula
//!
//! `cap + bite <= length + sunk head` at the thick end of the cap, and `length + sunk head <= block` at its thin end, where
//! each nail stands: the block is level, and less towards the breast. Where the seat lies over a nail, well inside the
//! feather line, it may go on into the midsole, less the reserve to the foot. Worst case decides both ways.
//!
//! ## Fails
//!
//! ```text
//! nailed { base heel-nail 7/8 in;  cap cap-nail 7/8 in }      # 22.23 in a block that may be 20.46 at the breast
//! ```
//!
//! ## Mended
//!
//! ```text
//! nailed { base heel-nail 7/8 in;  cap cap-nail 5/8 in }
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the bite is a house rule.

use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, CapNail};
use crate::finding::Subject;
use crate::measure::fits;

/// The rule.
pub(super) struct HeelCapNails;

impl Rule for HeelCapNails {
    fn name(&self) -> &'static str {
        "heel/cap-nails"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_cap_nails.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(nails) = &build.heel_nails else { return Vec::new() };
        judged(SUBJECT, nails, |nails| nails.cap.iter().map(judge).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let (long, why) = if sum > limit {
            ("too long", "end inside the block, or clear of the foot, where each stands")
        } else {
            ("too short", "bite in the base")
        };
        let message = format!(
            "cap nails reach {} mm, {} mm {why}: {} mm {long}",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words {
            message,
            help: vec![
                "take another length of cap nail, or leave it out: the shortest that serves is chosen".to_owned(),
            ],
        }
    }
}

const SUBJECT: Subject = Subject::CapNails;

fn judge(nail: &CapNail) -> Judgement {
    let reach = nail.length + nail.sunk;
    let (least, most) = (nail.hold.spread().hi, nail.room.spread().lo);
    let (short, long) = (reach - least, most - reach);
    let (limit, terms, moves) =
        if short < long { (least, &nail.hold, Moves::Up) } else { (most, &nail.room, Moves::Down) };
    let mut judgement = Judgement::new(SUBJECT, reach, limit, short.min(long), "mm");
    debug_assert!(fits(0.0, judgement.margin) == (fits(least, reach) && fits(reach, most)));
    judgement.terms = terms.clone();
    if let Some(sunk) = &nail.sunk_origin {
        judgement = judgement.at(sunk.clone(), Phrase::of("head sunk {} mm", nail.sunk));
    }
    judgement.at(nail.origin.clone(), Phrase::of("{} mm long", nail.length)).lever(nail.origin.clone(), moves)
}
