//! # heel/nail-hold
//!
//! Every heel nail bites deep enough in leather.
//!
//! ## At the bench
//!
//! A base that is held by points in rubber, or by the last millimetre of a nail, comes off with the first stone
//! that it is pulled over.
//!
//! ## Formula
//!
//! `length + sunk head >= base + slip + bite` at the highest place that the nail may stand: the back's base for
//! nails at the back and the sides, the breast's for the breast. Slip rubber holds nothing, so that it counts like
//! the base. In stages, the first is a base of its own and each later one bites in the lifts before it. Refused if
//! the nominal fails, tight if only the thick end does.
//!
//! ## Fails
//!
//! ```text
//! nailed { base heel-nail 6/8 in }         # 19.05 + 3.13 of sink in a base of 19.05: 1.87 short
//! ```
//!
//! ## Mended
//!
//! ```text
//! nailed { base heel-nail 7/8 in }
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the bite is a house rule.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::nail::{lengthy, subject};
use super::words::number;
use crate::build::{Build, HeelNail};
use crate::measure::{fits, share_above};

/// The rule.
pub(super) struct HeelNailHold;

impl Rule for HeelNailHold {
    fn name(&self) -> &'static str {
        "heel/nail-hold"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_nail_hold.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(nails) = &build.heel_nails else { return Vec::new() };
        judged("heel nails", nails, |nails| nails.nails.iter().map(judge).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let end = if judgement.verdict == Verdict::Refused { "" } else { " at the thick end" };
        let message = format!(
            "the {subject} reaches {} mm up from the base's face, {} mm are needed{end} to bite: {} mm too short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        let help = "take a longer nail there; where that comes through, give lengths by place or nail in stages";
        Words { message, help: vec![help.to_owned()] }
    }
}

fn judge(nail: &HeelNail) -> Judgement {
    let reach = nail.length + nail.sunk;
    let (nominal, thick) = (nail.hold.nominal(), nail.hold.spread().hi);
    let refused = !fits(nominal, reach);
    let needed = if refused { nominal } else { thick };
    let mut judgement = Judgement::new(subject(nail), reach, needed, reach - needed, "mm");
    if !refused && !fits(thick, reach) {
        judgement.verdict = Verdict::Tight(share_above(nominal, nail.hold.sigma(), reach));
    }
    judgement.terms = nail.hold.clone();
    judgement.at(nail.origin.clone(), lengthy(nail)).lever(nail.origin.clone(), Moves::Up)
}
