//! # upper/gusset
//!
//! The gusset of a tongue is sewn as high as the boot is claimed to be.
//!
//! ## At the bench
//!
//! Water, sand and embers come in where the gusset ends. A boot sold for a height is open below it if its gusset stops
//! short.
//!
//! ## Formula
//!
//! `to`, inside from the seat, `>=` the claimed height measured inside; for a claim from the heel's bottom what lies between
//! foot and ground at the back is added. A claim that the shaft itself does not reach is claim/height's, and is not judged
//! here.
//!
//! ## Fails
//!
//! ```text
//! gusset tongue { to 145 mm }     # claims { height 150 mm measured inside }
//! ```
//!
//! ## Mended
//!
//! ```text
//! gusset tongue { to 150 mm }
//! ```
//!
//! ## Source
//!
//! Common practice, no source.

use super::Rule;
use super::ends::{at_end, at_least};
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::{Build, ClaimBuilt, GussetBuilt};
use crate::finding::{SeamName, Subject};
use crate::measure::fits;
use std::sync::Arc;

/// The rule.
pub(super) struct UpperGusset;

impl Rule for UpperGusset {
    fn name(&self) -> &'static str {
        "upper/gusset"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_gusset.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        match &build.claim {
            Some(Ok(claim)) if fits(claim.height, claim.has.nominal()) => judge(claim),
            Some(Err(hole)) => vec![Judgement::lost(Subject::Gussets, *hole)],
            _ => Vec::new(),
        }
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the gusset is sewn up to {} mm{}, and {} mm are claimed: {} mm short",
            number(*sum, *margin),
            at_end(judgement, "thin"),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["sew the gusset higher, or claim less".to_owned()] }
    }
}

fn judge(claim: &ClaimBuilt) -> Vec<Judgement> {
    let of_gusset = |gusset: &GussetBuilt| {
        let subject = Subject::Seam(SeamName::Gusset(Arc::clone(&gusset.part)));
        let sum = match &gusset.sewn {
            Ok(sum) => sum,
            Err(hole) => return Judgement::lost(subject, *hole),
        };
        let judgement = at_least(subject, sum, claim.height).limit_at(claim.origin.clone(), "claimed");
        match sum.terms.first() {
            Some(term) => judgement.lever(term.origin.clone(), Moves::Up),
            None => judgement,
        }
    };
    claim.gussets.iter().map(of_gusset).collect()
}
