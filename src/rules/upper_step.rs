//! # upper/step
//!
//! The under part's edge makes no step that the foot feels.
//!
//! ## At the bench
//!
//! Inside a boot the edge of the under part is a ridge, unless a lining lies over it. A ridge that a thumb finds, a foot
//! finds in an hour. It guards a foot: there is no tight, the thick end decides.
//!
//! ## Formula
//!
//! What is left at the under part's edge, `<= step` of the house, in every lap that the lasted-in lining does not cover. It
//! covers the laps that say where they enter the turnout: they reach down to where it is lasted in.
//!
//! ## Fails
//!
//! ```text
//! lap counter-cover over quarter { skive quarter { edge wide 10 mm to 1.5 mm } }
//! ```
//!
//! ## Mended
//!
//! ```text
//! lap counter-cover over quarter { skive quarter { edge wide 10 mm to 1.0 mm } }
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::ends::thick_end;
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::{Build, LapBuilt};
use crate::finding::{SeamName, Subject};
use crate::language::Hole;

/// The rule.
pub(super) struct UpperStep;

impl Rule for UpperStep {
    fn name(&self) -> &'static str {
        "upper/step"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_step.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let open = build.upper.laps.iter().filter(|lap| !lap.covered);
        open.map(|lap| judge(build, lap).unwrap_or_else(|hole| Judgement::lost(subject(lap), hole))).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the under part's edge makes a step of {} mm inside, the house allows {} mm: {} mm too much",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["skive the under part's edge thinner, or let a lining cover it".to_owned()] }
    }
}

fn subject(lap: &LapBuilt) -> Subject {
    Subject::Seam(SeamName::Lap(lap.name.clone()))
}

fn judge(build: &Build<'_>, lap: &LapBuilt) -> Result<Judgement, Hole> {
    let step = lap.step.as_ref().map_err(|hole| *hole)?;
    let rule = build.house.rule("step")?;
    let mut judgement = thick_end(subject(lap), step, rule.it.nominal())
        .lever(lap.step_origin.clone()?, Moves::Down)
        .limit_at(rule.origin, "house rule: the highest step felt inside");
    judgement.place = Some(format!("at the edge of the {}", lap.name.under).into());
    Ok(judgement)
}
