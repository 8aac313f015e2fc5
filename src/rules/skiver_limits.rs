//! # skiver/limits
//!
//! Every skive is one that a skiver of the shop can do.
//!
//! ## At the bench
//!
//! A skive wider than the machine's roller is done in two passes that leave a ridge; leather too thick for it jams; a flat
//! skive is only as true as the machine that cuts it, whatever the pattern says.
//!
//! ## Formula
//!
//! Against the skiver that leaves most: the edge left at its thin end `>=` its `edge`; the width `<=` its `wide`; the
//! leather's thick end `<=` its `leather`; the stated tolerance of a flat skive `>=` its `flat`. The worst case decides.
//! What a skiver does not say is not judged, and nothing is where the shop has no skiver: then it is done by hand.
//!
//! ## Fails
//!
//! ```text
//! skive quarter { edge wide 32 mm to 1.0 mm }       # the bell skiver goes to 30
//! ```
//!
//! ## Mended
//!
//! ```text
//! skive quarter { edge wide 12 mm to 1.0 mm }
//! ```
//!
//! ## Source
//!
//! The skiver's own figures, as the shop states them.

use super::Rule;
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::{Build, SkiveBuilt, SkiverLimit};
use crate::finding::{SkiverFigure, Subject};

/// The rule.
pub(super) struct SkiverLimits;

impl Rule for SkiverLimits {
    fn name(&self) -> &'static str {
        "skiver/limits"
    }

    fn source(&self) -> &'static str {
        include_str!("skiver_limits.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let of_skive = |skive: &SkiveBuilt| match &skive.limits {
            Ok(limits) => limits.iter().map(|limit| judge(skive, limit)).collect(),
            Err(hole) => vec![Judgement::lost(Subject::Skive(skive.name.clone()), *hole)],
        };
        build.upper.skives.iter().flat_map(of_skive).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let (sum, limit) = (number(*sum, *margin), number(*limit, *margin));
        let figure = if let Subject::SkiveFigure(figure, _) = subject { *figure } else { SkiverFigure::Flat };
        let (message, help) = match figure {
            SkiverFigure::Edge => {
                (format!("an edge of {sum} mm is asked for, the skiver leaves {limit} mm"), "leave more at the edge")
            }
            SkiverFigure::Width => {
                (format!("a skive {sum} mm wide is asked for, the skiver goes to {limit} mm"), "skive narrower")
            }
            SkiverFigure::Leather => (
                format!("the leather is up to {sum} mm, the skiver takes {limit} mm"),
                "split the leather, or skive by hand",
            ),
            SkiverFigure::Flat => (
                format!("a flat skive within {sum} mm is asked for, the skiver is true to {limit} mm"),
                "state the tolerance that the skiver keeps",
            ),
        };
        Words { message, help: vec![help.to_owned()] }
    }
}

fn judge(skive: &SkiveBuilt, limit: &SkiverLimit) -> Judgement {
    let subject = Subject::SkiveFigure(limit.what, skive.name.clone());
    let moves = if limit.asked > limit.limit { Moves::Down } else { Moves::Up };
    let mut judgement = Judgement::new(subject, limit.asked, limit.limit, limit.margin, "mm")
        .lever(limit.origin.clone(), moves)
        .limit_at(limit.limit_origin.clone(), "the skiver's figure");
    judgement.place = Some(format!("on the {}", skive.skiver).into());
    judgement
}
