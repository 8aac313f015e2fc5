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

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::words::number;
use crate::build::{Build, Lying, Peak, of};
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
        judged("sole rows", &build.stack, |stack| {
            let others: Vec<&Lying> = stack.others.iter().collect();
            match sewn(build).and_then(|(sole, machine)| judge(&stack.asked, &others, sole, machine)) {
                Ok(judgement) => vec![judgement],
                Err(hole) => vec![Judgement::lost("sole rows", hole)],
            }
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let end = if judgement.verdict == Verdict::Refused { "" } else { "at the thick end " };
        let message = format!(
            "the stack is {end}{} mm where the stitcher sews {} mm: {} mm too tall",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
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
    let (nominal, hi) = (lying.nominal.sum.nominal(), lying.hi.sum.spread().hi);
    let refused = !fits(nominal, limit);
    let (peak, sum) = if refused { (&lying.nominal, nominal) } else { (&lying.hi, hi) };
    let mut judgement = Judgement::new("sole rows", sum, limit, limit - sum, "mm");
    if !refused && !fits(hi, limit) {
        judgement.verdict = Verdict::Tight(lying.hi.sum.share_above(limit));
    }
    judgement.terms = peak.sum.clone();
    judgement.place = Some(place(peak));
    judgement.facts = others.iter().filter_map(|other| passes(other, limit)).collect();
    let through = of(&sole.through)?;
    Ok(judgement.limit_at(sews.origin.clone(), "the machine sews").lever(through.origin.clone(), Moves::Another))
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
