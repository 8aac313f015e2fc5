//! # waist/clinch
//!
//! The clinch nails of waist and seat, and tacks that are left in, are long enough to turn over on the last's plate, and not so long that they curl
//! back into the foot.
//!
//! ## At the bench
//!
//! A nail too short never reaches the plate and pulls; one too long folds back through the insole. Nails come in half
//! eighths because with whole eighths only one build in several finds a length. It guards a foot: there is no tight, the
//! worst case decides.
//!
//! ## Formula
//!
//! Each nail is judged where it stands. A length L sunk s deep at its head stands out `L + s - layers`; it serves in every
//! boot if `layers at their thick end + least clinch - s <= L <= layers at their thin end + most clinch - s`. Layers: midsole,
//! filler, the outer where it is lasted in, lining, shank, pad and insole, each only where it really is; a nail within its own
//! radius of an edge is judged both ways. Where the model leaves the length out, each nail takes the shortest stocked one that
//! serves it, so that several lengths on a line are normal where a filler runs out. Lasting tacks that are left in behind the
//! release cut clinch through outer, lining and insole, and are judged in the same way. The last must be plated in full for a
//! waist that is nailed; whether a nail clinches is asked where it is named.
//!
//! ## Fails
//!
//! ```text
//! waist nailed { with whole-eighths }    # 16.58..18.43 mm at the seat; 5/8 is 15.88, 6/8 is 19.05
//! ```
//!
//! ## Mended
//!
//! ```text
//! waist nailed { with clinching }        # has 5.5/8: 17.46 mm
//! ```
//!
//! ## Source
//!
//! Arithmetic; the clinch's least and most are house rules, common practice, no source.

use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use super::{Case, Phrase, Rule};
use crate::build::{Build, Built, NailsBuilt, of};
use crate::finding::{ClinchLine, Subject};
use crate::geometry::Side;
use crate::language::Hole;
use crate::measure::fits;
use crate::spec::NailLine;

/// The rule.
pub(super) struct WaistClinch;

impl Rule for WaistClinch {
    fn name(&self) -> &'static str {
        "waist/clinch"
    }

    fn source(&self) -> &'static str {
        include_str!("waist_clinch.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Ok(bottom) = &build.model.bottom else { return Vec::new() };
        let mut all = Vec::new();
        for (which, nails, line) in
            [(ClinchLine::Waist, &build.waist, &bottom.waist), (ClinchLine::Seat, &build.seat, &bottom.seat)]
        {
            let (Some(nails), Some(line)) = (nails, line) else { continue };
            all.push(length(which, nails, line).unwrap_or_else(|hole| Judgement::lost(Subject::Clinched(which), hole)));
        }
        if let Some(nails) = &build.tacks {
            all.push(tacks(nails).unwrap_or_else(|hole| Judgement::lost(Subject::TACKS, hole)));
        }
        if let Some(line) = &bottom.waist {
            all.push(plate(build, line).unwrap_or_else(|hole| Judgement::lost(PLATE, hole)));
        }
        all
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let (long, which) = if sum > limit { ("too long", "at most") } else { ("too short", "at least") };
        let Case::Clinch { stated, serves } = judgement.case else { return plate_words() };
        let head = if stated { format!("the {subject}") } else { format!("no length serves the {subject}") };
        let message = format!(
            "{head}: {} mm is {} mm {long}, {which} {} mm clinches in every boot",
            number(*sum, *margin),
            number(margin.abs(), *margin),
            number(*limit, *margin),
        );
        let help = if serves {
            "write a length that serves, or leave `length` out: the shortest that serves is then taken"
        } else {
            "stock a length inside the window, or change a layer that they go through"
        };
        Words { message, help: vec![help.to_owned()] }
    }
}

fn plate_words() -> Words {
    let message = "the waist is nailed, and its nails have nothing to clinch on".to_owned();
    Words { message, help: vec!["take a last that is plated in full".to_owned()] }
}

/// What the place of a length that the model states is called.
const STATED: &str = "the length stated";

const PLATE: Subject = Subject::ClinchingInWaist;

fn tacks(nails: &Built<NailsBuilt>) -> Result<Judgement, Hole> {
    let nails = nails.as_ref().map_err(|hole| *hole)?;
    Ok(window(ClinchLine::Tacks, nails, true)
        .at(nails.length_origin.clone(), STATED)
        .limit_at(nails.clinch.1.clone(), "house rule: how much clinches")
        .lever(nails.length_origin.clone(), Moves::Another))
}

/// The worst nail of a line against the lengths that serve it.
fn window(line: ClinchLine, nails: &NailsBuilt, stated: bool) -> Judgement {
    let nail = &nails.nails[nails.worst];
    let serves = nail.window;
    let margin_of = |length: f64| nail.margin(length);
    let nearest = nails.stocked.iter().copied().max_by(|a, b| margin_of(*a).total_cmp(&margin_of(*b)));
    let length = nail.length.or(nearest).unwrap_or(0.0);
    let margin = margin_of(length);
    let limit = if length - serves.lo < serves.hi - length { serves.lo } else { serves.hi };
    let mut judgement = Judgement::new(Subject::Clinched(line), length, limit, margin, "mm");
    judgement.terms = if limit <= serves.lo { nails.thickest.clone() } else { nails.thinnest.clone() };
    let side = if nail.side == Side::Outside { "outside" } else { "inside" };
    judgement.place = Some(format!("{:.1} mm from the heel on the {side}", nail.point.x).into());
    judgement.facts.push(format!("window {:.2}..{:.2} mm", serves.lo, serves.hi).into());
    let eighths = |mm: f64| format!("{}/8 in = {mm:.2} mm", number(mm / 3.175, 1.0));
    let serving: Vec<String> =
        nails.stocked.iter().filter(|it| fits(0.0, margin_of(**it))).map(|it| eighths(*it)).collect();
    judgement.case = Case::Clinch { stated, serves: !serving.is_empty() };
    if !serving.is_empty() {
        judgement.facts.push(format!("stocked and serving: {}", serving.join(", ")).into());
    }
    let below = nails.stocked.iter().rev().find(|length| **length < serves.lo);
    let above = nails.stocked.iter().find(|length| **length > serves.hi);
    let near: Vec<String> = below.into_iter().chain(above).map(|length| eighths(*length)).collect();
    if !near.is_empty() && serving.is_empty() {
        judgement.facts.push(format!("nearest stocked: {}", near.join(", ")).into());
    }
    judgement
}

fn length(which: ClinchLine, nails: &Built<NailsBuilt>, line: &NailLine) -> Result<Judgement, Hole> {
    let nails = nails.as_ref().map_err(|hole| *hole)?;
    let mut judgement = window(which, nails, nails.stated.is_some());
    let with = of(&line.with)?;
    if let Some(sunk) = &with.it.sunk {
        let sunk = of(sunk)?;
        judgement = judgement.at(sunk.origin.clone(), Phrase::of("head sunk {} mm", sunk.it.nominal()));
    }
    Ok(judgement
        .at(with.origin.clone(), "this nail")
        .at(nails.length_origin.clone(), if nails.stated.is_some() { STATED } else { "the lengths stocked" })
        .limit_at(nails.clinch.1.clone(), "house rule: how much clinches")
        .lever(with.origin.clone(), Moves::Another))
}

fn plate(build: &Build<'_>, line: &NailLine) -> Result<Judgement, Hole> {
    let (nail, last) = (of(&line.with)?, of(&build.model.last)?);
    let plate = of(&last.it.plate)?;
    // That the nail clinches was seen where it is named.
    Ok(Judgement::yes_no(PLATE, plate.it == "full")
        .at(nail.origin.clone(), "this nail clinches")
        .at(plate.origin.clone(), format!("the last's plate: {}", plate.it)))
}
