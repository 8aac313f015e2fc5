//! # heel/nail-place
//!
//! Heel nails stand clear of sole rows, clinch nails, each other's heads and the heel's edge, and come up nowhere in the turn
//! of the upper; clinch nails stand clear of tacks that are left in.
//!
//! ## At the bench
//!
//! A heel nail driven through a row cuts the thread that holds the sole; one that meets a clinch nail turns aside, nobody
//! sees where to. On a stitch-down the heel's edge stands 7 to 18 mm outside the feather line: a ring set out from the edge
//! comes up where the upper turns, in the wall or under the wearer's heel bone.
//!
//! ## Formula
//!
//! In plan, centre to centre, head and point: for nails whose point passes the base's face at least `nail-to-row` to a sole
//! row and `nail-to-clinch` to a clinch nail; for all at least `heads-apart` between heads of one stage, of the stage before
//! and of the cap, and `nail-to-edge` to the heel's own edge, the breast's among it. A nail whose point passes
//! the base's face stands at least `turn-inside` inside the feather line, or more than `turn-outside` outside the wall. Worst
//! case decides. The clinch nails of waist and seat are driven down on tacks that are left in: they too stand at least
//! `nail-to-clinch` from each other.
//!
//! ## Fails
//!
//! ```text
//! nailed { base heel-nail 7/8 in;  inside-edge 1/4 in }      # 1.3 mm outside the feather line at the back
//! ```
//!
//! ## Mended
//!
//! ```text
//! nailed { base heel-nail 7/8 in;  inside-feather 6 mm }
//! ```
//!
//! ## Source
//!
//! Common practice, no source; the distances are house rules.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use super::nail::{at, standing};
use super::words::number;
use crate::build::{Build, HeelNailsBuilt, Meets, Near, TacksNear, of};
use crate::finding::{ClinchLine, Subject};

/// The rule.
pub(super) struct HeelNailPlace;

impl Rule for HeelNailPlace {
    fn name(&self) -> &'static str {
        "heel/nail-place"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_nail_place.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let tacks = match &build.tacks_near {
            Ok(all) => all.iter().map(|near| tacks(build, near)).collect(),
            Err(hole) => vec![Judgement::lost(Subject::TacksAndClinched, *hole)],
        };
        let Some(nails) = &build.heel_nails else { return tacks };
        let heel =
            judged(Subject::HeelNails, nails, |nails| nails.near.iter().map(|near| judge(nails, near)).collect());
        heel.into_iter().chain(tacks).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let numbers = [*sum, *limit, margin.abs()].map(|value| number(value, *margin));
        let [sum, limit, margin] = numbers;
        if *subject == Subject::HeelNailsAtTurn {
            let message = format!(
                "a heel nail passes the base's face {sum} mm inside the feather line, from {limit} mm on it may: it comes up where the upper turns"
            );
            let help = "set the ring out from the feather line: `inside-feather 6 mm`";
            return Words { message, help: vec![help.to_owned()] };
        }
        let message =
            format!("the {subject} stand {sum} mm from each other, at least {limit} mm is wanted: {margin} mm short");
        let help = "move the line of nails, or set them farther apart; a plan of them is on the heel's sheet";
        Words { message, help: vec![help.to_owned()] }
    }
}

fn subject(meets: Meets) -> Subject {
    match meets {
        Meets::Row => Subject::HeelNailsAndRows,
        Meets::Clinch => Subject::HeelNailsAndClinched,
        Meets::Head => Subject::HeelNailHeads,
        Meets::Edge => Subject::HeelNailsAndEdge,
        Meets::Turn => Subject::HeelNailsAtTurn,
    }
}

fn judge(nails: &HeelNailsBuilt, near: &Near) -> Judgement {
    let mut judgement = Judgement::new(subject(near.meets), near.distance, near.limit, near.margin(), "mm");
    judgement.place = Some(standing(&nails.stands[near.stand]).into());
    let which = match (near.cap, near.stage) {
        (true, _) => "a cap nail".to_owned(),
        (false, Some(stage)) => format!("a nail of stage {stage}"),
        (false, None) => "a nail of the base".to_owned(),
    };
    judgement.facts.push(which.into());
    let moves = if near.more_is_farther { Moves::Up } else { Moves::Down };
    let limit = if near.meets == Meets::Turn { "house rule: where the upper turns" } else { "house rule: how near" };
    let judgement = judgement.limit_at(near.limit_origin.clone(), limit);
    judgement.at(near.origin.clone(), "the line that it stands on").lever(near.origin.clone(), moves)
}

/// Tacks left in against the clinch nails of a line: whichever stands farther inside goes farther in.
fn tacks(build: &Build<'_>, near: &TacksNear) -> Judgement {
    let subject = Subject::TacksAnd(if near.seat { ClinchLine::Seat } else { ClinchLine::Waist });
    let mut judgement = Judgement::new(subject, near.distance, near.limit, near.distance - near.limit, "mm");
    judgement.place = Some(at(near.at).into());
    let mut judgement = judgement.limit_at(near.limit_origin.clone(), "house rule: how near");
    let line = build.model.bottom.as_ref().ok().and_then(|bottom| {
        let line = if near.seat { &bottom.seat } else { &bottom.waist };
        line.as_ref().map(|line| &line.inside_feather)
    });
    let stated = build.model.lasting.tacks_left.as_ref().and_then(|left| left.inside_feather.as_ref());
    let inward = [(stated, near.deeper, "the tacks' line"), (line, !near.deeper, "the nails' line")];
    for (inset, deeper, what) in inward {
        let Some(Ok(inset)) = inset.map(of) else { continue };
        let moves = if deeper { Moves::Up } else { Moves::Down };
        judgement = judgement.at(inset.origin.clone(), what).lever(inset.origin.clone(), moves);
    }
    judgement
}
