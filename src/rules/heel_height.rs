//! # heel/height
//!
//! Lifts, wedges and cap together reach the heel that the last asks for.
//!
//! ## At the bench
//!
//! A base too low can't be levelled: the boot rocks back, and by then the base is nailed.
//!
//! ## Formula
//!
//! Block (base and cap) at the back = seat height of the last + what lies under the ball - what lies under the seat,
//! the outer that is lasted in there included. `lifts + wedges >= block - cap`; the given base has the tolerance of the
//! gauge that it is built to (house), not n times a lift's. A midsole or slip that lies under both cancels, its tolerance
//! too. Refused if the nominal is short, tight if only the thin end of the base is, held against the most that is needed:
//! what is needed has a thick end of its own, by the cap, the outsole and the outer.
//!
//! ## Fails
//!
//! ```text
//! lifts 1 of lift-leather 12 iron        # with one wedge 12.70 mm, 16.92 are needed
//! ```
//!
//! ## Mended
//!
//! ```text
//! lifts 2 of lift-leather 12 iron        # 19.05 mm, 2.13 to sand
//! ```
//!
//! ## Source
//!
//! Level condition: F. Y. Golding, The Manufacture of Boots and Shoes (1902), "Constructing a standard from a forme".

use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, HeelBuilt, of};
use crate::finding::Subject;
use crate::language::Hole;
use crate::measure::fits;

/// The rule.
pub(super) struct HeelHeight;

const SUBJECT: Subject = Subject::HeelBase;

impl Rule for HeelHeight {
    fn name(&self) -> &'static str {
        "heel/height"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_height.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(heel) = &build.heel else { return Vec::new() };
        judged(SUBJECT, heel, |heel| vec![judge(build, heel).unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole))])
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let (end, most) = if judgement.verdict == Verdict::Refused { ("", "") } else { ("at the thin end ", "up to ") };
        let message = format!(
            "the heel's base is {end}{} mm, {most}{} mm are needed at the back: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["add a lift, or take a thicker one or a thicker cap".to_owned()] }
    }
}

fn judge(build: &Build<'_>, heel: &HeelBuilt) -> Result<Judgement, Hole> {
    let Some(spec) = &build.model.heel else { return Ok(Judgement::yes_no(SUBJECT, true)) };
    if heel.lugs_under {
        let span = spec.span;
        return Ok(Judgement::lost(SUBJECT, Hole { fault: "heel/lugs-under-base", span }));
    }
    let short = heel.given.clone().less(&heel.needed);
    let (given, needed) = (heel.given.nominal(), heel.needed.nominal());
    let refused = !fits(needed, given);
    let mut judgement = Judgement::new(SUBJECT, given, needed, given - needed, "mm");
    judgement.terms = heel.given.clone();
    if !refused && !fits(0.0, short.spread().lo) {
        let share = crate::measure::share_below(short.nominal(), short.sigma(), 0.0);
        // Both have ends of their own: the thinnest base against the most that is needed.
        let (thin, most) = (heel.given.spread().lo, heel.needed.spread().hi);
        judgement = Judgement::new(SUBJECT, thin, most, thin - most, "mm");
        judgement.verdict = Verdict::Tight(share);
        judgement.terms = heel.given.clone();
    }
    judgement.facts.push(Phrase::Terms("needed: ", heel.needed.clone()));
    for term in heel.needed.settled().terms {
        judgement = judgement.at(term.origin.clone(), Phrase::Term(term.what.clone(), term.nominal()));
    }
    if let Some(lifts) = &spec.lifts {
        judgement = judgement.lever(of(&lifts.count)?.origin.clone(), Moves::Up);
    }
    Ok(judgement)
}
