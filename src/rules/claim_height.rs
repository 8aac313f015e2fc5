//! # claim/height
//!
//! A height that is claimed is there in every size, measured as the claim says.
//!
//! ## At the bench
//!
//! Two rules for one boot measure from two places: inside from the insole, or from the heel's bottom to the top. The same
//! boot can pass one and fail the other, and the small sizes fail first. Whoever claims a height must say which is meant.
//!
//! ## Formula
//!
//! Inside at the back: shaft + grade * whole sizes from the base. From the heel's bottom: that + block + what lies under
//! the seat, which is seat height + insole + midsole + slip + outsole under the ball; the lining and its filler are left
//! out. The height `>=` the claim. Refused if the nominal fails; tight if only the thin end does. Hobnail certifies nothing:
//! certification is an accredited laboratory's business.
//!
//! ## Fails
//!
//! ```text
//! claims { height 203 mm measured inside }        # the shaft stands 165 mm inside
//! ```
//!
//! ## Mended
//!
//! ```text
//! claims { height 150 mm measured inside }
//! ```
//!
//! ## Source
//!
//! Geometry. That both datums are in use: an equipment list citing NFPA 1977 for wildland fire boots (at least 8 in), and an
//! agency's minimum, as restated.

use super::Rule;
use super::ends::{at_end, at_least};
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::Build;
use crate::finding::Subject;

/// The rule.
pub(super) struct ClaimHeight;

impl Rule for ClaimHeight {
    fn name(&self) -> &'static str {
        "claim/height"
    }

    fn source(&self) -> &'static str {
        include_str!("claim_height.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let claim = build.claim.iter();
        claim
            .flat_map(|claim| {
                judged(Subject::ClaimedHeight, claim, |claim| {
                    let datum = if claim.from_heel { Subject::HeightFromHeel } else { Subject::HeightInside };
                    let judgement = at_least(datum, &claim.has, claim.height);
                    vec![judgement.lever(claim.origin.clone(), Moves::Down).limit_at(claim.origin.clone(), "claimed")]
                })
            })
            .collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let datum = if *subject == Subject::HeightFromHeel { "from the heel's bottom" } else { "inside" };
        let message = format!(
            "the boot is {} mm high{}, measured {datum}, and {} mm are claimed: {} mm short",
            number(*sum, *margin),
            at_end(judgement, "thin"),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        let certified = "Hobnail certifies nothing: certification is an accredited laboratory's business";
        Words { message, help: vec!["claim less, or raise the shaft".to_owned(), certified.to_owned()] }
    }
}
