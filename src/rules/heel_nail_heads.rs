//! # heel/nail-heads
//!
//! What is sanded off the base stays clear of its nails' heads.
//!
//! ## At the bench
//!
//! Heads are sunk below what the sander will take at nominal. A thick stack in a boot whose layers turn out thin is sanded
//! farther, and there the heads meet the belt: sparks, a torn belt, and nails that have lost their hold.
//!
//! ## Formula
//!
//! The most that may be sanded = base given - base needed, both at the end of their tolerance, + what the wedges leave of the
//! slope where that comes on top; a note where it is more than the sink of the heads. The heeling sheet then says at what
//! gauge to stop: the height of the level base, built to the thick end of its gauge, at which its heads would be reached. Its
//! heads are driven deeper there before levelling goes on.
//!
//! ## Fails
//!
//! ```text
//! outsole { base 4.5 mm +- 0.3 mm;  lug 3 mm +- 0.2 mm }     # 3.63 may be sanded, the heads lie 3.13 deep
//! ```
//!
//! ## Mended
//!
//! ```text
//! outsole { base 4.5 mm;  lug 3 mm }                         # sorted: at most 3.13
//! ```
//!
//! ## Source
//!
//! Common practice, no source; how much deeper heads lie is a house rule.

use super::Rule;
use super::judgement::{Judgement, Verdict, Words, judged};
use super::words::number;
use crate::build::{Build, HeelNailsBuilt};
use crate::finding::Subject;

/// The rule.
pub(super) struct HeelNailHeads;

const SUBJECT: Subject = Subject::HeadsInBase;

impl Rule for HeelNailHeads {
    fn name(&self) -> &'static str {
        "heel/nail-heads"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_nail_heads.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(nails) = &build.heel_nails else { return Vec::new() };
        judged(SUBJECT, nails, |nails| nails.heads.is_some().then(|| judge(build, nails)).into_iter().collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "at most {} mm of the base are sanded away, its nails' heads lie {} mm deep: {} mm past them",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        let help = "stop at the gauge that the heeling sheet gives and drive the heads deeper before you go on";
        Words { message, help: vec![help.to_owned()] }
    }
}

fn judge(build: &Build<'_>, nails: &HeelNailsBuilt) -> Judgement {
    let Some(sanded) = &nails.heads else { return Judgement::yes_no(SUBJECT, true) };
    let most = sanded.spread().hi;
    let mut judgement = Judgement::new(SUBJECT, most, nails.sink, nails.sink - most, "mm");
    // Heads can always be driven deeper.
    if judgement.verdict == Verdict::Refused {
        judgement.verdict = Verdict::Noted;
    }
    judgement.terms = sanded.clone();
    match build.house.rule("heads-below") {
        Ok(below) => judgement.at(below.origin, "house rule: heads below what is sanded at nominal"),
        Err(_) => judgement,
    }
}
