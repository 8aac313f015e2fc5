//! # forefoot/nailed
//!
//! No clinch nail stands in the forefoot: it is sewn, and the waist's nails end behind the joints.
//!
//! ## At the bench
//!
//! The forefoot flexes. Clinches there work loose and are felt, and no hand gets into the toe to flatten a point. It
//! guards a foot: there is no tight.
//!
//! ## Formula
//!
//! The forefoot is `sewn`. On each side: x of the foremost nail `<=` x of that side's own joint - `behind-joint` (house),
//! both along the centre line from the heel. And every nail stands at least `clinch-to-forefoot` (house) from the forefoot's row.
//!
//! ## Fails
//!
//! ```text
//! waist nailed { with clinching; inside-feather 10 mm; apart 12 mm; to 75 % }
//! ```
//!
//! ## Mended
//!
//! ```text
//! waist nailed { with clinching; inside-feather 10 mm; apart 12 mm }
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Build, ForefootBuilt, NailsBuilt, of};
use crate::finding::Subject;
use crate::geometry::Side;
use crate::language::Hole;
use crate::measure::fits;
use crate::spec::ForefootHold;

/// The rule.
pub(super) struct ForefootNailed;

const FOREFOOT: Subject = Subject::Forefoot;
const WAIST: Subject = Subject::WAIST_NAILS;
const ROW: Subject = Subject::WaistAndForefoot;

impl Rule for ForefootNailed {
    fn name(&self) -> &'static str {
        "forefoot/nailed"
    }

    fn source(&self) -> &'static str {
        include_str!("forefoot_nailed.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let mut all = Vec::new();
        if let Some(forefoot) = build.model.bottom.as_ref().ok().and_then(|bottom| bottom.forefoot.as_ref()) {
            all.push(match of(&forefoot.hold) {
                Ok(hold) => Judgement::yes_no(FOREFOOT, hold.it == ForefootHold::Sewn)
                    .at(hold.origin.clone(), "nailed")
                    .lever(hold.origin.clone(), Moves::Another),
                Err(hole) => Judgement::lost(FOREFOOT, hole),
            });
        }
        if let Some(waist) = &build.waist {
            all.extend(judged(WAIST, waist, |waist| {
                vec![waist_line(build, waist).unwrap_or_else(|hole| Judgement::lost(WAIST, hole))]
            }));
            if let (Ok(waist), Some(Ok(forefoot))) = (waist, &build.forefoot) {
                all.extend(to_row(build, waist, forefoot));
            }
        }
        all
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        if judgement.subject == FOREFOOT {
            let message = "the forefoot is nailed: it flexes, and no hand gets in to flatten a point".to_owned();
            return Words { message, help: vec!["sew it: `forefoot sewn { … }`".to_owned()] };
        }
        if judgement.subject == ROW {
            let message = format!(
                "a clinch nail stands {} mm from the forefoot's row, at least {} mm is wanted: {} mm too near",
                number(*sum, *margin),
                number(*limit, *margin),
                number(margin.abs(), *margin),
            );
            let help = "end the line farther back, or move row or nails farther inside the feather";
            return Words { message, help: vec![help.to_owned()] };
        }
        let message = format!(
            "a clinch nail stands {} mm from the heel, {} mm past the last place behind its joint ({} mm)",
            number(*sum, *margin),
            number(margin.abs(), *margin),
            number(*limit, *margin),
        );
        Words { message, help: vec!["end the line farther back, or leave `to` out".to_owned()] }
    }
}

/// A nail beside the row cuts its thread, or is cut by its needle.
fn to_row(build: &Build<'_>, waist: &NailsBuilt, forefoot: &ForefootBuilt) -> Option<Judgement> {
    let (outside, inside) = waist.to_forefoot(forefoot)?;
    let (near, side) = if outside < inside { (outside, "outside") } else { (inside, "inside") };
    let (Ok(rule), Ok(bottom)) = (build.house.rule("clinch-to-forefoot"), &build.model.bottom) else { return None };
    let mut judgement = Judgement::new(ROW, near, rule.it.nominal(), near - rule.it.nominal(), "mm");
    judgement.place = Some(format!("on the {side}").into());
    if let Some(Ok(to)) = bottom.waist.as_ref().and_then(|line| line.to.as_ref()) {
        judgement =
            judgement.at(to.origin.clone(), "the line is carried on to here").lever(to.origin.clone(), Moves::Down);
    }
    if let Some(Ok(inset)) = bottom.forefoot.as_ref().map(|forefoot| &forefoot.inside_feather) {
        judgement = judgement.at(inset.origin.clone(), "the row").lever(inset.origin.clone(), Moves::Up);
    }
    Some(judgement.limit_at(rule.origin, "house rule: how near a clinch nail may be"))
}

/// The side whose foremost nail is worst placed.
fn waist_line(build: &Build<'_>, waist: &NailsBuilt) -> Result<Judgement, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let worst = waist.limits.iter().max_by(|a, b| (a.foremost - a.limit).total_cmp(&(b.foremost - b.limit)));
    let Some(worst) = worst else { return Ok(Judgement::yes_no(WAIST, true)) };
    let rule = build.house.rule("behind-joint")?;
    let mut judgement = Judgement::new(WAIST, worst.foremost, worst.limit, worst.limit - worst.foremost, "mm");
    let side = if worst.side == Side::Outside { "outside" } else { "inside" };
    judgement.place = Some(format!("on the {side}").into());
    if !fits(worst.foremost, worst.limit) {
        judgement.facts.push(format!("{} mm behind the {side} joint", number(rule.it.nominal(), 1.0)).into());
    }
    let joint = of(&build.model.last)?;
    let joint = if worst.side == Side::Outside { &joint.it.joint_outside } else { &joint.it.joint_inside };
    judgement = judgement.at(of(joint)?.origin.clone(), format!("the {side} joint"));
    if let Some(to) = bottom.waist.as_ref().and_then(|line| line.to.as_ref()) {
        let to = of(to)?;
        judgement =
            judgement.at(to.origin.clone(), "the line is carried on to here").lever(to.origin.clone(), Moves::Down);
    }
    // Where the line is carried on, that is what is wrong; it comes first.
    judgement.further.reverse();
    Ok(judgement.limit_at(rule.origin, "house rule: how far behind the joint"))
}
