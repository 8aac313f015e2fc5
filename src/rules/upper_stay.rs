//! # upper/stay
//!
//! The rows of a stay run clear of the seam under it, and the seam is rubbed flat before it is covered.
//!
//! ## At the bench
//!
//! A stay's rows belong beside the seam, through stay and part. A row that stands on the seam's allowances climbs a ridge
//! and cuts the closing thread under it; a seam that was not rubbed flat is a ridge along the heel for good.
//!
//! ## Formula
//!
//! A stay lies with its middle on the seam. The distance of its nearest row from the middle `>= allowance` of the seam
//! that it covers. The seam says `rubbed-flat`.
//!
//! ## Fails
//!
//! ```text
//! stay back-stay { covers-seam back;  wide 26 mm;  rows 4 first 4 mm apart 6 mm }    # the inner rows 3, the outer 9 off
//! seam back { allowance 4 mm }
//! ```
//!
//! ## Mended
//!
//! ```text
//! seam back { allowance 3 mm;  rubbed-flat }
//! ```
//!
//! ## Source
//!
//! Common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::{Build, StayBuilt};
use crate::finding::{SeamName, Subject};
use crate::language::Hole;
use std::sync::Arc;

/// The rule.
pub(super) struct UpperStay;

impl Rule for UpperStay {
    fn name(&self) -> &'static str {
        "upper/stay"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_stay.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let of_stay = |stay: &StayBuilt| {
            [
                clear(stay).unwrap_or_else(|hole| Judgement::lost(over(stay), hole)),
                rubbed(stay).unwrap_or_else(|hole| Judgement::lost(under(stay), hole)),
            ]
        };
        build.upper.stays.iter().flat_map(of_stay).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        if matches!(judgement.subject, Subject::SeamUnderStay(..)) {
            let message = "a stay covers a seam that is not rubbed flat".to_owned();
            return Words { message, help: vec!["write `rubbed-flat` in the seam, and do it".to_owned()] };
        }
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "a row runs {} mm from the seam under the stay, whose allowance reaches {} mm: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["move the rows out, or trim the allowance".to_owned()] }
    }
}

fn over(stay: &StayBuilt) -> Subject {
    Subject::Seam(SeamName::Stay(Arc::clone(&stay.name)))
}

fn under(stay: &StayBuilt) -> Subject {
    Subject::SeamUnderStay(Arc::clone(&stay.seam), Arc::clone(&stay.name))
}

fn clear(stay: &StayBuilt) -> Result<Judgement, Hole> {
    let ((row, distance), (allowance, origin)) = (stay.nearest?, stay.allowance.clone()?);
    let mut judgement = Judgement::new(over(stay), distance, allowance, distance - allowance, "mm")
        .lever(stay.rows_origin.clone()?, Moves::Another)
        .limit_at(origin, "the seam's allowance");
    judgement.place = Some(format!("row {row} of the stay").into());
    Ok(judgement)
}

fn rubbed(stay: &StayBuilt) -> Result<Judgement, Hole> {
    Ok(Judgement::yes_no(under(stay), stay.rubbed_flat?).at(stay.covers.clone()?, "covered here"))
}
