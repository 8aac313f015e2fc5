//! # forefoot/misses-insole
//!
//! Through-seams and clinch nails stand far enough inside the feather line to go through the insole.
//!
//! ## At the bench
//!
//! A row or a nail too near to the feather misses the insole or tears out of its edge: the upper lets go of the
//! bottom the first time that the boot is wet. It guards a foot: there is no tight.
//!
//! ## Formula
//!
//! `inside-feather >= inside-feather` of the house, for the forefoot's row, the waist's and the seat's nails.
//!
//! ## Fails
//!
//! ```text
//! forefoot sewn { inside-feather 2 mm }
//! ```
//!
//! ## Mended
//!
//! ```text
//! forefoot sewn { inside-feather 10 mm }
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::{Build, of};
use crate::finding::{ClinchLine, Subject};
use crate::language::Hole;
use crate::measure::Amount;
use crate::spec::Val;

/// The rule.
pub(super) struct ForefootMissesInsole;

impl Rule for ForefootMissesInsole {
    fn name(&self) -> &'static str {
        "forefoot/misses-insole"
    }

    fn source(&self) -> &'static str {
        include_str!("forefoot_misses_insole.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Ok(bottom) = &build.model.bottom else { return Vec::new() };
        let lines = [
            (Subject::FOREFOOT_ROW, bottom.forefoot.as_ref().map(|forefoot| &forefoot.inside_feather)),
            (Subject::WAIST_NAILS, bottom.waist.as_ref().map(|line| &line.inside_feather)),
            (Subject::Clinched(ClinchLine::Seat), bottom.seat.as_ref().map(|line| &line.inside_feather)),
        ];
        let tacks = build.model.lasting.tacks_left.as_ref().and_then(|left| left.inside_feather.as_ref());
        let stated =
            lines.into_iter().chain([(Subject::TACKS, tacks)]).filter_map(|(subject, inset)| Some((subject, inset?)));
        stated
            .map(|(subject, inset)| judge(build, &subject, inset).unwrap_or_else(|hole| Judgement::lost(subject, hole)))
            .collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let stands = if *subject == Subject::FOREFOOT_ROW { "runs" } else { "stand" };
        let message = format!(
            "the {subject} {stands} {} mm inside the feather line, {} mm are needed to hold the insole: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["move it farther in".to_owned()] }
    }
}

fn judge(build: &Build<'_>, subject: &Subject, inset: &Val<Amount>) -> Result<Judgement, Hole> {
    let (inset, rule) = (of(inset)?, build.house.rule("inside-feather")?);
    let (value, limit) = (inset.it.nominal(), rule.it.nominal());
    Ok(Judgement::new(subject.clone(), value, limit, value - limit, "mm")
        .at(inset.origin.clone(), format!("{} mm inside the feather", number(value, 1.0)))
        .limit_at(rule.origin, "house rule: least distance inside the feather")
        .lever(inset.origin.clone(), Moves::Up))
}
