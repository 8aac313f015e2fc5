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
//! Each nail is judged where it stands: `length + sunk head >= base there + what holds nothing + bite`. Slip, any rubber and
//! filler hold nothing; what of them lies below the place where the bite is complete is gone through first. In stages,
//! the first is a base of its own and each later one bites in the lifts before it. Refused if the nominal fails; tight if it
//! fails only with base, slip and filler thick and leather thin.
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
use crate::finding::Subject;
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
        judged(Subject::HeelNails, nails, |nails| nails.nails.iter().map(judge).collect())
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
    let reach = nail.reach();
    let (nominal, thick) = (nail.hold.nominal(), nail.hold_thick.spread().hi);
    let refused = !fits(nominal, reach);
    let needed = if refused { nominal } else { thick };
    let mut judgement = Judgement::new(subject(nail), reach, needed, reach - needed, "mm");
    if !refused && !fits(thick, reach) {
        judgement.verdict = Verdict::Tight(share_above(nominal, nail.hold_thick.sigma(), reach));
    }
    judgement.terms = if refused { nail.hold.clone() } else { nail.hold_thick.clone() };
    judgement.at(nail.origin.clone(), lengthy(nail)).lever(nail.origin.clone(), Moves::Up)
}
