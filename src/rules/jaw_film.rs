//! # jaw/film
//!
//! More is left in the jaw than the films of adhesive commonly add of which nothing is said.
//!
//! ## At the bench
//!
//! Cement dried between two faces is as thick as paper, and three joints are as thick as a thin lining. Where the stack
//! passes by less than that, it may pass on offcuts laid on each other and not on the boot.
//!
//! ## Formula
//!
//! What the machine sews - the stack at its thick end `>=` joints * `film` of the house: every bonded midsole, slip and
//! outsole down to where the rows end whose adhesive does not say how thick its `film` is. An adhesive that says so is
//! counted in the stack. A note only, and only where the stack passes.
//!
//! ## Fails
//!
//! ```text
//! outsole lug-low { base 4.6 mm +- 0.3 mm }      # 0.26 mm are left, two joints commonly add 0.3
//! ```
//!
//! ## Mended
//!
//! ```text
//! adhesive neoprene { film 0.1 mm }              # measured: the stack counts it, and says whether it passes
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, Stack, of};
use crate::finding::Subject;
use crate::language::Hole;
use crate::measure::fits;

/// The rule.
pub(super) struct JawFilm;

const SUBJECT: Subject = Subject::CementedJoints;

impl Rule for JawFilm {
    fn name(&self) -> &'static str {
        "jaw/film"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_film.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.stack, |stack| match judge(build, stack) {
            Ok(judgement) => judgement.into_iter().collect(),
            Err(hole) => vec![Judgement::lost(SUBJECT, hole)],
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "{} mm are left in the jaw, the films of its joints commonly add {} mm, and no adhesive says how thick its own is",
            number(*sum, *margin),
            number(*limit, *margin),
        );
        Words { message, help: vec!["measure a joint, and say `film` with the adhesive".to_owned()] }
    }
}

/// Nothing where every film is known, or the stack itself does not pass.
fn judge(build: &Build<'_>, stack: &Stack) -> Result<Option<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    let machine = of(&sole.on)?;
    let sews = of(&machine.it.sews)?;
    let left = sews.it.nominal() - stack.asked.hi.sum.spread().hi;
    if stack.unfilmed == 0 || !fits(0.0, left) {
        return Ok(None);
    }
    let film = build.house.rule("film")?;
    let limit = f64::from(stack.unfilmed) * film.it.nominal();
    let mut judgement = Judgement::new(SUBJECT, left, limit, left - limit, "mm");
    if judgement.verdict == Verdict::Refused {
        judgement.verdict = Verdict::Noted;
    }
    judgement.facts.push(Phrase::of("{} joints have a film of which nothing is said", f64::from(stack.unfilmed)));
    let judgement = judgement.at(sews.origin.clone(), "the machine sews").lever(machine.origin.clone(), Moves::Another);
    Ok(Some(judgement.limit_at(film.origin, "house rule: what a joint commonly adds")))
}
