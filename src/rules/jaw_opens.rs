//! # jaw/opens
//!
//! What is pushed under the raised foot of the sole stitcher fits under it.
//!
//! ## At the bench
//!
//! A boot that has to be forced under the foot is marked by it along the whole row, before the first stitch.
//!
//! ## Formula
//!
//! The stack in the jaw at its thick end `<= opens`. A note: leather gives, and `sews` decides.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { on bench-stitcher }      # up to 18.64 mm, its foot lifts 18.5
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { on sole-stitcher }       # its foot lifts 23
//! ```
//!
//! ## Source
//!
//! The machine's own figure, as the shop states it.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::words::number;
use crate::build::{Build, of};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct JawOpens;

impl Rule for JawOpens {
    fn name(&self) -> &'static str {
        "jaw/opens"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_opens.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.stack, |_| judge(build).unwrap_or_else(|hole| vec![Judgement::lost(SUBJECT, hole)]))
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the stack is up to {} mm, the raised foot lifts {} mm: {} mm have to be pushed under",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: Vec::new() }
    }
}

const SUBJECT: Subject = Subject::UnderRaisedFoot;

fn judge(build: &Build<'_>) -> Result<Vec<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    let machine = of(&sole.on)?;
    let (Some(opens), Ok(stack)) = (&machine.it.opens, &build.stack) else { return Ok(Vec::new()) };
    let opens = of(opens)?;
    let (thick, limit) = (stack.asked.hi.sum.spread().hi, opens.it.nominal());
    let mut judgement = Judgement::new(SUBJECT, thick, limit, limit - thick, "mm");
    if judgement.verdict == Verdict::Refused {
        judgement.verdict = Verdict::Noted;
    }
    judgement.terms = stack.asked.hi.sum.clone();
    Ok(vec![judgement.limit_at(opens.origin.clone(), "the foot lifts").lever(machine.origin.clone(), Moves::Another)])
}
