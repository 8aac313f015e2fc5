//! # jaw/locks
//!
//! Needle and bobbin thread still lock in the thickest stitch of the sole.
//!
//! ## At the bench
//!
//! A machine that is forced through more than its hook can follow makes stitches that look sewn from above and lie
//! loose below.
//!
//! ## Formula
//!
//! What the needle crosses at its thickest (a channel under the row shortens it) `<= locks-through`. Refused if the
//! nominal fails; tight if only the thick end does. A machine that does not say how deep it locks is not judged.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { on bench-stitcher }      # 17.43 mm in the stitch, it locks through 16
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { on sole-stitcher }       # locks through 26
//! ```
//!
//! ## Source
//!
//! The machine's own figure, as the shop states it.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::tall;
use crate::build::{Build, of};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct JawLocks;

impl Rule for JawLocks {
    fn name(&self) -> &'static str {
        "jaw/locks"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_locks.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.stack, |_| judge(build).unwrap_or_else(|hole| vec![Judgement::lost(SUBJECT, hole)]))
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let message = tall::words(judgement, "the stitch", "the machine locks through", "too deep");
        let help = "take a thinner midsole or outsole, sew through fewer layers, or sew on another machine";
        let tight = matches!(judgement.verdict, Verdict::Tight(_));
        Words { message, help: if tight { Vec::new() } else { vec![help.to_owned()] } }
    }
}

const SUBJECT: Subject = Subject::SoleStitch;

fn judge(build: &Build<'_>) -> Result<Vec<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    let machine = of(&sole.on)?;
    let (Some(locks), Ok(stack)) = (&machine.it.locks_through, &build.stack) else { return Ok(Vec::new()) };
    let locks = of(locks)?;
    let (lying, limit) = (&stack.stitch, locks.it.nominal());
    let judgement = tall::judge(SUBJECT, (&lying.nominal.sum, &lying.hi.sum), limit);
    Ok(vec![
        judgement
            .limit_at(locks.origin.clone(), "the machine locks through")
            .lever(machine.origin.clone(), Moves::Another),
    ])
}
