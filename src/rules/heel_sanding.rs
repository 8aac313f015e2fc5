//! # heel/sanding
//!
//! Levelling takes no more off the base than one lift less, or a thinner one, would have left out.
//!
//! ## At the bench
//!
//! Whatever stands over the level is leather that was paid for, nailed and then sanded to dust, with the heads of
//! the nails coming nearer at every stroke.
//!
//! ## Formula
//!
//! Sanding at the back = base given - base needed, nominal; a note from half of the thickest lift. Refused from there if,
//! with one lift left out, or replaced by the next thinner stocked one, the base would still reach its height at the thin
//! end. What the wedges can't take of the slope is sanded at the breast on top.
//!
//! ## Fails
//!
//! ```text
//! lifts 3 of lift-leather 12 iron        # 8.48 mm to sand; two lifts would still reach
//! ```
//!
//! ## Mended
//!
//! ```text
//! lifts 2 of lift-leather 12 iron        # 2.13 mm to sand
//! ```
//!
//! ## Source
//!
//! Common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::words::number;
use crate::build::{Build, HeelBuilt, of};
use crate::finding::Subject;
use crate::language::Hole;
use crate::measure::fits;

/// The rule.
pub(super) struct HeelSanding;

impl Rule for HeelSanding {
    fn name(&self) -> &'static str {
        "heel/sanding"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_sanding.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(heel) = &build.heel else { return Vec::new() };
        judged(SUBJECT, heel, |heel| vec![judge(build, heel).unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole))])
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "{} mm of the base are sanded away at the back, half of the thickest lift is {} mm: {} mm over it",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        let help = "leave one lift out, or take one thinner";
        Words { message, help: if judgement.verdict == Verdict::Refused { vec![help.to_owned()] } else { Vec::new() } }
    }
}

const SUBJECT: Subject = Subject::SandingBase;

fn judge(build: &Build<'_>, heel: &HeelBuilt) -> Result<Judgement, Hole> {
    let Some(spec) = &build.model.heel else { return Ok(Judgement::yes_no(SUBJECT, true)) };
    if heel.lugs_under {
        return Ok(Judgement::lost(SUBJECT, Hole { fault: "heel/lugs-under-base", span: spec.span }));
    }
    let half = heel.thickest_lift / 2.0;
    let sanded = heel.sand_back;
    let mut judgement = Judgement::new(SUBJECT, sanded, half, half - sanded, "mm");
    judgement.terms = heel.given.clone().less(&heel.needed);
    let spared = heel.too_many.is_some() || heel.thinner.is_some_and(|thinner| thinner.reaches);
    // From half a lift, equality included.
    judgement.verdict = match (fits(half, sanded), spared) {
        (false, _) => Verdict::Passes,
        (true, true) => Verdict::Refused,
        (true, false) => Verdict::Noted,
    };
    if let Some(spare) = heel.too_many {
        let thick = number(spare.thick, 1.0);
        judgement.facts.push(format!("without one lift of {thick} mm the base would still reach").into());
    }
    if let Some(thinner) = &heel.thinner {
        let reaches = if thinner.reaches { "would still reach" } else { "would not reach" };
        let (of, to) = (number(thinner.from, 1.0), number(thinner.to, 1.0));
        judgement.facts.push(format!("with one lift of {to} mm for one of {of} mm the base {reaches}").into());
    }
    // Of what there is one too many comes first: that is where the model is edited.
    let thin = heel.too_many.is_some_and(|spare| spare.word == "thin-lifts");
    if let Some(lifts) = spec.thin_lifts.as_ref().filter(|_| thin).or(spec.lifts.as_ref()).or(spec.thin_lifts.as_ref())
    {
        let (count, substance) = (of(&lifts.count)?.origin.clone(), of(&lifts.substance)?.origin.clone());
        let first = if heel.too_many.is_some() { [count, substance] } else { [substance, count] };
        judgement = first.into_iter().fold(judgement, |judgement, origin| judgement.lever(origin, Moves::Down));
    }
    Ok(judgement)
}
