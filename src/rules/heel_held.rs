//! # heel/held
//!
//! Base and cap of the heel are held by nails, by adhesive, or by both.
//!
//! ## At the bench
//!
//! Cement alone holds a heel until its edge gets wet or a rung catches the breast; then it shears off whole. Nails without
//! cement hold, but let water in between the lifts. With neither, nothing holds it when the press is opened.
//!
//! ## Formula
//!
//! The base has nails, or the heel is `bonded` with an adhesive, which holds the base to the sole, the lifts to each other and
//! the cap; the same for the cap with its own nails. Neither is refused; adhesive without nails is a note, for the base and for
//! the cap each. Nails without adhesive pass.
//!
//! ## Fails
//!
//! ```text
//! heel { lifts 2 of lift-leather 12 iron;  cap cap-low }                     # neither bonded nor nailed
//! ```
//!
//! ## Mended
//!
//! ```text
//! heel { lifts 2 of lift-leather 12 iron;  cap cap-low;  bonded neoprene
//!        nailed { base heel-nail;  cap cap-nail } }
//! ```
//!
//! ## Source
//!
//! Common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words};
use crate::build::{Build, of};
use crate::finding::Subject;
use crate::spec::Heel;

/// The rule.
pub(super) struct HeelHeld;

impl Rule for HeelHeld {
    fn name(&self) -> &'static str {
        "heel/held"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_held.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(heel) = &build.model.heel else { return Vec::new() };
        let nails = heel.nails.as_ref();
        let nailed = [
            (Subject::BaseHeld, nails.is_some_and(|nails| nails.base.is_some())),
            (Subject::CapHeld, nails.is_some_and(|nails| nails.cap.is_some())),
        ];
        nailed.into_iter().map(|(subject, nailed)| judge(subject, nailed, heel)).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let what = &judgement.subject;
        let (message, help) = if judgement.verdict == Verdict::Refused {
            (
                format!("nothing holds the {what}: it has neither nails nor adhesive"),
                "say what bonds it, such as `bonded neoprene` in `heel`, or nail it: `nailed { … }`",
            )
        } else {
            (format!("the {what} has no nails: adhesive alone holds it"), "nail it as well: `nailed { … }`")
        };
        Words { message, help: vec![help.to_owned()] }
    }
}

fn judge(subject: Subject, nailed: bool, heel: &Heel) -> Judgement {
    if nailed {
        return Judgement::yes_no(subject, true);
    }
    let origin = |cap: &crate::spec::Val<_>| of(cap).map(|cap| cap.origin.clone()).ok();
    match &heel.bonded {
        Some(Err(hole)) => Judgement::lost(subject, *hole),
        Some(Ok(bonded)) => {
            let noted = Judgement { verdict: Verdict::Noted, ..Judgement::new(subject, 0.0, 1.0, -1.0, "nails") };
            noted.at(bonded.origin.clone(), "holds it alone")
        }
        None => {
            let refused = Judgement::yes_no(subject, false);
            match origin(&heel.cap) {
                Some(at) => refused.at(at.clone(), "the heel").lever(at, Moves::Another),
                None => refused,
            }
        }
    }
}
