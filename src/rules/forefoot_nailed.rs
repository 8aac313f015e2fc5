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
//! both along the centre line from the heel.
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
use crate::build::{Build, NailsBuilt, of};
use crate::geometry::Side;
use crate::language::Hole;
use crate::measure::fits;
use crate::spec::ForefootHold;

/// The rule.
pub(super) struct ForefootNailed;

const FOREFOOT: &str = "forefoot";
const WAIST: &str = "waist nails";

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
        }
        all
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        if &*judgement.subject == FOREFOOT {
            let message = "the forefoot is nailed: it flexes, and no hand gets in to flatten a point".to_owned();
            return Words { message, help: vec!["sew it: `forefoot sewn { … }`".to_owned()] };
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
