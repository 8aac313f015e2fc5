//! # heel/filler
//!
//! The seat is level inside the outer that is lasted in: a filler as thick as the outer, with shank and pad let into it.
//!
//! ## At the bench
//!
//! The outer lasted in at the seat is a ring; inside it the seat is hollow. Left hollow, the midsole bridges it, the base's
//! nails pull it down, and the heel stands on its rim. What stands above the filler at the breast, a shank mostly, makes the
//! midsole rock: its flesh side is relieved for it.
//!
//! ## Formula
//!
//! A note, never a refusal: no filler that covers the seat, where an outer is lasted in; a filler whose nominal thickness
//! differs from the outer's by more than `filler-level` (house); shank, pad and arch piece on the breast line together
//! standing above the filler by more than `midsole-relieved` (house). Up to that the bottoming sheet says how much.
//!
//! ## Fails
//!
//! ```text
//! without layer filler                                  # the seat stays hollow by 2.58 mm
//! ```
//!
//! ## Mended
//!
//! ```text
//! layer filler { of oil-tan;  covers seat }             # offcuts of the outer
//! ```
//!
//! ## Source
//!
//! Common practice, no source; what may differ is a house rule.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::words::number;
use crate::build::{Build, Hollow};
use crate::finding::Subject;

/// The rule.
pub(super) struct HeelFiller;

const HOLLOW: Subject = Subject::HollowSeat;
const LEVEL: Subject = Subject::FillerAndOuter;
const ABOVE: Subject = Subject::OverFiller;

impl Rule for HeelFiller {
    fn name(&self) -> &'static str {
        "heel/filler"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_filler.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        if build.model.heel.is_none() {
            return Vec::new();
        }
        judged(HOLLOW, &build.hollow, |hollow| hollow.iter().flat_map(|hollow| judge(build, hollow)).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let [sum, limit] = [*sum, *limit].map(|value| number(value, *margin));
        let (message, help) = match judgement.subject {
            HOLLOW => (
                format!("the seat stays hollow by {sum} mm inside the outer that is lasted in"),
                "lay a filler in: `layer filler { of …;  covers seat }`, offcuts of the outer will do",
            ),
            LEVEL => (
                format!("filler and outer differ by {sum} mm, {limit} mm are not felt"),
                "take offcuts of the outer, or a filler as thick as it",
            ),
            _ => (
                format!(
                    "shank and pad stand {sum} mm above the filler at the breast, the midsole is relieved for {limit} mm"
                ),
                "skive their back ends over more, or let them end farther under the heel",
            ),
        };
        Words { message, help: vec![help.to_owned()] }
    }
}

fn judge(build: &Build<'_>, hollow: &Hollow) -> Vec<Judgement> {
    let noted = |subject: Subject, sum: f64, limit: f64| {
        let mut judgement = Judgement::new(subject, sum, limit, limit - sum, "mm");
        if judgement.verdict == Verdict::Refused {
            judgement.verdict = Verdict::Noted;
        }
        judgement
    };
    let (outer, outer_origin) = &hollow.outer;
    let Some((filler, origin)) = &hollow.filler else {
        return vec![noted(HOLLOW, *outer, 0.0).at(outer_origin.clone(), "the outer")];
    };
    let mut all = Vec::new();
    if let Ok(rule) = build.house.rule("filler-level") {
        let differ =
            noted(LEVEL, (filler - outer).abs(), rule.it.nominal()).limit_at(rule.origin, "house rule: not felt");
        all.push(
            differ
                .at(origin.clone(), "the filler")
                .at(outer_origin.clone(), "the outer")
                .lever(origin.clone(), Moves::Another),
        );
    }
    if let (Some((above, first)), Ok(rule)) = (&hollow.above, build.house.rule("midsole-relieved")) {
        let above = noted(ABOVE, *above, rule.it.nominal()).limit_at(rule.origin, "house rule: relieved at most");
        all.push(above.at(first.clone(), "let into the filler").at(origin.clone(), "the filler"));
    }
    all
}
