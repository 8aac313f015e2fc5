//! # jaw/forefoot-stack
//!
//! What lies under the forefoot's row, insole, lining, midsole and whatever reaches there, goes under the foot of its machine.
//!
//! ## At the bench
//!
//! The through-seam is sewn with the last out and the upper hanging over the horn. A stack that is too tall there
//! can be neither turned nor clamped.
//!
//! ## Formula
//!
//! At the worst place along the row: insole + lining + midsole + every arch piece, shank, pad and filler that lies there
//! `<= sews` of the forefoot's machine. A layer lies where it covers, within its breadth; the joint line on which the row
//! starts belongs to a layer that ends there. Slip and outsole come after the row is sewn. Refused if the nominal fails;
//! tight if only the thick end does.
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

use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::tall;
use super::{Phrase, Rule};
use crate::build::{Build, ForefootBuilt, of};
use crate::finding::Subject;
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
        let help = "take a thinner insole or midsole, keep what else lies there clear of the row, or sew it on another machine";
        let tight = matches!(judgement.verdict, Verdict::Tight(_));
        Words { message, help: if tight { Vec::new() } else { vec![help.to_owned()] } }
    }
}

const SUBJECT: Subject = Subject::FOREFOOT_ROW;

fn judge(build: &Build<'_>, built: &ForefootBuilt) -> Result<Vec<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let machine = bottom.forefoot.as_ref().and_then(|forefoot| forefoot.on.as_ref());
    let Some(machine) = machine.filter(|_| built.hold == ForefootHold::Sewn) else { return Ok(Vec::new()) };
    let machine = of(machine)?;
    let sews = of(&machine.it.sews)?;
    let mut judgement = tall::judge(SUBJECT, (&built.layers, &built.thick), sews.it.nominal());
    if let Some([nominal, thick]) = built.places {
        let at = if judgement.verdict == Verdict::Refused { nominal } else { thick };
        judgement.place = Some(Phrase::of("{} mm along the row from its start on the outside", at));
    }
    Ok(vec![judgement.limit_at(sews.origin.clone(), "the machine sews").lever(machine.origin.clone(), Moves::Another)])
}
