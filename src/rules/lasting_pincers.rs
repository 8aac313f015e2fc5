//! # lasting/pincers
//!
//! Everywhere the lasting pincers find free leather.
//!
//! ## At the bench
//!
//! Pincers that grip less than their jaw slip, and what slips is pulled again from a mark that will show.
//!
//! ## Formula
//!
//! `margin - insole - lining >= pincers` (house), at toe, joints and heel, nominal.
//!
//! ## Fails
//!
//! ```text
//! lasting { margin at-toe 24 mm at-joints 24 mm at-heel 16 mm }      # 10.68 mm free
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
pub(super) struct LastingPincers;

impl Rule for LastingPincers {
    fn name(&self) -> &'static str {
        "lasting/pincers"
    }

    fn source(&self) -> &'static str {
        include_str!("lasting_pincers.rs")
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
            "the {subject} leaves {} mm free, the pincers need {} mm: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["cut the margin wider".to_owned()] }
    }
}

fn judge(margin: &Margin) -> Judgement {
    let (free, needed) = (margin.free.nominal(), margin.pincers.0);
    let mut judgement = Judgement::new(Subject::LastingMargin(margin.place), free, needed, free - needed, "mm");
    judgement.terms = margin.free.clone();
    judgement
        .limit_at(margin.pincers.1.clone(), "house rule: what the pincers need")
        .lever(margin.origin.clone(), Moves::Up)
}
