//! # jaw/sole-stack
//!
//! What lies between the foot and the table of the sole stitcher is no taller than the stack that it sews.
//!
//! ## At the bench
//!
//! A stack too tall for the jaw is found when the boot already carries ten hours of work. It is thickest where the
//! vamp laps the quarter inside the turnout, not where it is easiest to measure.
//!
//! ## Formula
//!
//! At every place of every row: outer (both parts, as skived, in a lap) + midsole + slip + outsole base and lugs, as far
//! down as the rows go, `<= sews`. The sum is piecewise linear along the row; its maximum is found at the corners.
//! Refused if the nominal fails; tight if only the thick end does.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { through outsole }     # 22.77 mm under the lap, where the stitcher sews 19
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { through slip }        # 12.27 mm; the outsole is cemented afterwards
//! ```
//!
//! ## Source
//!
//! Arithmetic on the stock's figures; what the machine sews is the shop's own measurement.

use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::tall;
use super::{Phrase, Rule};
use crate::build::{Build, Lying, Peak, of};
use crate::finding::Subject;
use crate::geometry::Side;
use crate::language::Hole;
use crate::measure::fits;
use crate::spec::{Machine, Sole};

/// The rule.
pub(super) struct JawSoleStack;

impl Rule for JawSoleStack {
    fn name(&self) -> &'static str {
        "jaw/sole-stack"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_sole_stack.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(Subject::SOLE_ROWS, &build.stack, |stack| {
            let others: Vec<&Lying> = stack.others.iter().collect();
            match sewn(build).and_then(|(sole, machine)| judge(&stack.asked, &others, sole, machine)) {
                Ok(judgement) => vec![judgement],
                Err(hole) => vec![Judgement::lost(Subject::SOLE_ROWS, hole)],
            }
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let message = tall::words(judgement, "the stack", "the stitcher sews", "too tall");
        let help = "take a thinner midsole or outsole, thin the lap inside the turnout, or sew through fewer layers";
        Words { message, help: vec![help.to_owned()] }
    }
}

fn sewn<'b>(build: &Build<'b>) -> Result<(&'b Sole, &'b Machine), Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    Ok((sole, &of(&sole.on)?.it))
}

fn judge(lying: &Lying, others: &[&Lying], sole: &Sole, machine: &Machine) -> Result<Judgement, Hole> {
    let sews = of(&machine.sews)?;
    let limit = sews.it.nominal();
    let mut judgement = tall::judge(Subject::SOLE_ROWS, (&lying.nominal.sum, &lying.hi.sum), limit);
    let peak = if judgement.verdict == Verdict::Refused { &lying.nominal } else { &lying.hi };
    judgement.place = Some(place(peak).into());
    judgement.facts = others.iter().filter_map(|other| passes(other, limit)).map(Phrase::from).collect();
    if let (Verdict::Tight(_), Some(sort)) = (&judgement.verdict, lying.sort_to(limit)) {
        judgement
            .facts
            .push(format!("sort to: {} together at most {} mm", sort.what.join(" and "), floor(sort.most)).into());
    }
    let through = of(&sole.through)?;
    Ok(judgement.limit_at(sews.origin.clone(), "the machine sews").lever(through.origin.clone(), Moves::Another))
}

/// To a tenth of a mm, on the safe side: what a gauge at the bench shows.
fn floor(mm: f64) -> String {
    format!("{:.1}", (mm * 10.0 + 1e-6).floor() / 10.0)
}

fn place(peak: &Peak) -> String {
    let side = if peak.side == Side::Outside { "outside" } else { "inside" };
    let lap = peak.lap.as_ref().map(|lap| format!(", where {lap} laps")).unwrap_or_default();
    let (from, to) = peak.plateau;
    let along = if to - from > 0.5 { format!("{from:.0} to {to:.0} mm") } else { format!("{from:.0} mm") };
    format!(
        "at {:.0} % of the bottom on the {side}, {along} along row {} from its start{lap}",
        peak.station * 100.0,
        peak.row + 1
    )
}

/// A mode that would pass with every thickness in tolerance, in words.
fn passes(other: &Lying, limit: f64) -> Option<String> {
    let hi = other.hi.sum.spread().hi;
    let sum = other.nominal.sum.nominal();
    fits(hi, limit).then(|| format!("through the {} it would pass: {sum:.2} mm", other.mode.name()))
}
