//! # heel/lugs-under-base
//!
//! No lugs lie under a stacked heel.
//!
//! ## At the bench
//!
//! A stacked base stands on a flat face. Lugs under it leave it standing on points: it rocks, lets water in and works its
//! nails loose.
//!
//! ## Formula
//!
//! Yes or no: an outsole with lugs ends at the breast, or is tucked a little behind it; it does not run full under a heel.
//!
//! ## Fails
//!
//! ```text
//! layer outsole { of lug-low; ends full }
//! ```
//!
//! ## Mended
//!
//! ```text
//! layer outsole { of lug-low; ends at-breast }
//! ```
//!
//! ## Source
//!
//! Common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use crate::build::{Build, of};
use crate::finding::Subject;
use crate::spec::Role;

/// The rule.
pub(super) struct HeelLugsUnderBase;

const SUBJECT: Subject = Subject::OutsoleAtHeel;

impl Rule for HeelLugsUnderBase {
    fn name(&self) -> &'static str {
        "heel/lugs-under-base"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_lugs_under_base.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(heel) = &build.heel else { return Vec::new() };
        judged(SUBJECT, heel, |heel| {
            let judgement = Judgement::yes_no(SUBJECT, !heel.lugs_under);
            let outsole = build.model.bottom.as_ref().ok().and_then(|bottom| bottom.layer(Role::Outsole));
            let Some(ends) = outsole.and_then(|outsole| of(&outsole.ends).ok()) else { return vec![judgement] };
            let judgement = judgement.at(ends.origin.clone(), "the outsole runs under the heel");
            vec![judgement.lever(ends.origin.clone(), Moves::Another)]
        })
    }

    fn words(&self, _: &Judgement) -> Words {
        let message = "lugs lie under the base of the heel".to_owned();
        Words { message, help: vec!["end the outsole at the breast: `ends at-breast`".to_owned()] }
    }
}
