//! # jaw/forefoot-stack
//!
//! Insole, lining and midsole go under the foot of the machine that sews the forefoot.
//!
//! ## At the bench
//!
//! The through-seam is sewn with the last out and the upper hanging over the horn. A stack that is too tall there
//! can be neither turned nor clamped.
//!
//! ## Formula
//!
//! `insole + lining + midsole <= sews` of the forefoot's machine. Refused if the nominal fails; tight if only the
//! thick end does.
//!
//! ## Fails
//!
//! ```text
//! layer insole { of double-shoulder 17 iron }      # 16.44 mm, the horn stitcher sews 16
//! ```
//!
//! ## Mended
//!
//! ```text
//! layer insole { of shoulder 8 iron }              # 11.67 mm
//! ```
//!
//! ## Source
//!
//! Arithmetic on the stock's figures; what the machine sews is the shop's own measurement.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::tall;
use crate::build::{Build, ForefootBuilt, of};
use crate::language::Hole;
use crate::spec::ForefootHold;

/// The rule.
pub(super) struct JawForefootStack;

impl Rule for JawForefootStack {
    fn name(&self) -> &'static str {
        "jaw/forefoot-stack"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_forefoot_stack.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(forefoot) = &build.forefoot else { return Vec::new() };
        judged(SUBJECT, forefoot, |forefoot| {
            judge(build, forefoot).unwrap_or_else(|hole| vec![Judgement::lost(SUBJECT, hole)])
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let message = tall::words(judgement, "the forefoot", "its machine sews", "too tall");
        let help = "take a thinner insole or midsole, or sew it on another machine";
        let tight = matches!(judgement.verdict, Verdict::Tight(_));
        Words { message, help: if tight { Vec::new() } else { vec![help.to_owned()] } }
    }
}

const SUBJECT: &str = "forefoot row";

fn judge(build: &Build<'_>, built: &ForefootBuilt) -> Result<Vec<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let machine = bottom.forefoot.as_ref().and_then(|forefoot| forefoot.on.as_ref());
    let Some(machine) = machine.filter(|_| built.hold == ForefootHold::Sewn) else { return Ok(Vec::new()) };
    let machine = of(machine)?;
    let sews = of(&machine.it.sews)?;
    let judgement = tall::judge(SUBJECT, (&built.layers, &built.layers), sews.it.nominal());
    Ok(vec![judgement.limit_at(sews.origin.clone(), "the machine sews").lever(machine.origin.clone(), Moves::Another)])
}
