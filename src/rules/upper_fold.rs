//! # upper/fold
//!
//! A folded edge has enough allowance for its row to catch it.
//!
//! ## At the bench
//!
//! The row of a folded collar must go through the turned-in leather, too, and not along its raw edge. Thick leather takes
//! more: the turn itself eats as much as the leather is thick.
//!
//! ## Formula
//!
//! `folded >= last row from the fold + row-inside-edges + substance`. Refused if the nominal fails; tight if only the thick
//! end of the leather does.
//!
//! ## Fails
//!
//! ```text
//! collar collar-band { folded 4 mm;  rows 1 first 2 mm }    # 2 + 2 + 0.99 = 4.99 mm are needed
//! ```
//!
//! ## Mended
//!
//! ```text
//! collar collar-band { folded 8 mm;  rows 1 first 2 mm }
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the distance of a row from an edge is a house rule.

use super::Rule;
use super::ends::{at_end, at_most};
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::{Build, FoldBuilt};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct UpperFold;

const SUBJECT: Subject = Subject::CollarFold;

impl Rule for UpperFold {
    fn name(&self) -> &'static str {
        "upper/fold"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_fold.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let fold = build.upper.fold.iter();
        fold.map(|fold| judge(fold).unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole))).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the fold needs {} mm{}, {} mm are folded in: {} mm short",
            number(*sum, *margin),
            at_end(judgement, "thick"),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["fold more in, or bring the row nearer to the fold".to_owned()] }
    }
}

fn judge(fold: &FoldBuilt) -> Result<Judgement, Hole> {
    let (folded, origin) = fold.folded.clone()?;
    let needed = fold.needed.as_ref().map_err(|hole| *hole)?;
    Ok(at_most(SUBJECT, needed, folded).lever(origin.clone(), Moves::Up).limit_at(origin, "folded in"))
}
