//! # heel/wedges
//!
//! What the wedges leave of the seat's slope is little enough to sand.
//!
//! ## At the bench
//!
//! A seat slopes; lifts are flat. What the wedges don't take up is sanded off the breast, through the front of
//! every lift, and the front row of nails stands in what is left.
//!
//! ## Formula
//!
//! Wedges take up `wedges * (thickness - least at the breast)` of the drop, which is heel length * tan(slope). What
//! they leave is sanded at the breast on top of what is sanded at the back; a note if both together come to half of
//! the thickest lift.
//!
//! ## Fails
//!
//! ```text
//! wedges 1 of lift-leather 12 iron      # on the drover: of 9.56 mm of drop one wedge takes 5.35
//! ```
//!
//! ## Mended
//!
//! ```text
//! wedges 2 of lift-leather 12 iron
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the least at the breast is a house rule.

use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, HeelBuilt, of};
use crate::finding::Subject;
use crate::language::Hole;
use crate::measure::fits;

/// The rule.
pub(super) struct HeelWedges;

impl Rule for HeelWedges {
    fn name(&self) -> &'static str {
        "heel/wedges"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_wedges.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(heel) = &build.heel else { return Vec::new() };
        judged(SUBJECT, heel, |heel| vec![judge(build, heel).unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole))])
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "{} mm of the base are sanded away at the breast, where the wedges leave some of the slope; half of the \
             thickest lift is {} mm: {} mm over it",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["add a wedge, or take a thicker one".to_owned()] }
    }
}

const SUBJECT: Subject = Subject::Wedges;

fn judge(build: &Build<'_>, heel: &HeelBuilt) -> Result<Judgement, Hole> {
    let (sanded, half) = (heel.sand_breast, heel.thickest_lift / 2.0);
    let mut judgement = Judgement::new(SUBJECT, sanded, half, half - sanded, "mm");
    let left = !fits(heel.drop_left, 0.0);
    judgement.verdict = if left && fits(half, sanded) { Verdict::Noted } else { Verdict::Passes };
    judgement.facts.push(Phrase::Numbers(
        "the seat falls {} mm to the breast, the wedges take {} mm",
        [heel.drop, heel.drop - heel.drop_left],
    ));
    let slope = of(&of(&build.model.last)?.it.slope)?;
    judgement = judgement.at(slope.origin.clone(), Phrase::of("slope {} deg", slope.it.nominal()));
    if let Some(wedges) = build.model.heel.as_ref().and_then(|heel| heel.wedges.as_ref()) {
        judgement = judgement.lever(of(&wedges.count)?.origin.clone(), Moves::Up);
    }
    Ok(judgement)
}
