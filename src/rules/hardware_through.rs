//! # hardware/through
//!
//! Facing and backing are as thick as setter and hardware are made for.
//!
//! ## At the bench
//!
//! A barrel too short for the leather does not roll over and falls out; one too long folds and cuts the lace. A setter out
//! of its range crushes the one and leaves the other loose.
//!
//! ## Formula
//!
//! facing + backing within `through` of the setter, of the eyelet and of the hook. The facing is the part that it names, or
//! the first that is turned out; a backing without a name is that part turned in. Refused if the nominal fails; tight if
//! only an end does.
//!
//! ## Fails
//!
//! ```text
//! facing { backing stay-strip }        # 2.58 + 2.58 = 5.16 mm, the eyelet closes on 2..5
//! ```
//!
//! ## Mended
//!
//! ```text
//! facing { backing vamp-lining }       # 3.67 mm
//! ```
//!
//! ## Source
//!
//! Arithmetic; the windows are those of the stock and of the setter, as the shop states them.

use super::Rule;
use super::ends::{at_end, at_least, at_most};
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Build, FacingBuilt, Through};
use crate::finding::Subject;
use crate::measure::fits;
use std::sync::Arc;

/// The rule.
pub(super) struct HardwareThrough;

impl Rule for HardwareThrough {
    fn name(&self) -> &'static str {
        "hardware/through"
    }

    fn source(&self) -> &'static str {
        include_str!("hardware_through.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(facing) = &build.facing else { return Vec::new() };
        judged(Subject::FACING, facing, |facing| facing.through.iter().map(|through| judge(facing, through)).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let (end, most, thick) =
            if sum > limit { ("thick", "at most", "too thick") } else { ("thin", "at least", "too thin") };
        let message = format!(
            "the facing is {} mm{}, this is made for {most} {} mm: {} mm {thick}",
            number(*sum, *margin),
            at_end(judgement, end),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["take another backing, or hardware with another barrel".to_owned()] }
    }
}

fn judge(facing: &FacingBuilt, through: &Through) -> Judgement {
    let subject = Subject::FacingThrough(Arc::clone(&through.name));
    let window = through.window;
    let most = at_most(subject.clone(), &facing.stack, window.hi);
    let least = at_least(subject, &facing.stack, window.lo);
    // The end that fails at nominal, else the one that is nearer.
    let judgement = match (fits(facing.stack.nominal(), window.hi), fits(window.lo, facing.stack.nominal())) {
        (false, _) => most,
        (_, false) => least,
        _ if most.margin <= least.margin => most,
        _ => least,
    };
    judgement.lever(through.named.clone(), Moves::Another).limit_at(through.origin.clone(), "made for")
}
