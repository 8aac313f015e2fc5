//! # lasting/margin
//!
//! The lasting margin is as wide as what it has to become.
//!
//! ## At the bench
//!
//! What is cut too narrow is missed at the pincers' last pull, or at the rough-rounder, when there is no leather
//! left to make a turnout of.
//!
//! ## Formula
//!
//! From the feather line, nominal, the margin is at least
//!
//! - where the outer is turned out (toe, joints): insole + lining + turnout + what trimming and sanding take + what
//!   rough-rounding cuts away;
//! - where it is lasted in (heel): insole + lining + how far it reaches over the insole (house).
//!
//! ## Fails
//!
//! ```text
//! lasting { margin at-toe 20 mm at-joints 24 mm at-heel 22 mm }      # the toe needs 21.32
//! ```
//!
//! ## Mended
//!
//! ```text
//! lasting { margin at-toe 24 mm at-joints 24 mm at-heel 22 mm }
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the house's figures are house rules.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Build, Margin};
use crate::finding::Subject;

/// The rule.
pub(super) struct LastingMargin;

impl Rule for LastingMargin {
    fn name(&self) -> &'static str {
        "lasting/margin"
    }

    fn source(&self) -> &'static str {
        include_str!("lasting_margin.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(Subject::LastingMargins, &build.margins, |margins| margins.iter().map(judge).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let message = format!(
            "the {subject} is {} mm, {} mm are needed: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["cut it wider; it can always be trimmed".to_owned()] }
    }
}

fn judge(margin: &Margin) -> Judgement {
    let (value, needed) = (margin.stated, margin.needed.nominal());
    let mut judgement = Judgement::new(Subject::LastingMargin(margin.place), value, needed, value - needed, "mm");
    judgement.terms = margin.needed.clone();
    judgement
        .at(margin.origin.clone(), format!("{} mm from the feather line", number(value, 1.0)))
        .lever(margin.origin.clone(), Moves::Up)
}
