//! Figures of the upper's seams row by row, of skives, shaft, claim and facing.

use super::List;
use crate::build::figure::{FigureId as F, Identity, Slot};
use crate::build::{Build, EdgeOf, FacingBuilt, LapBuilt, SkiveBuilt, StayBuilt, UpperRow, UpperSeam};
use crate::finding::{BesideHole, SeamName, Sum};

/// Everything that closing asks for.
pub(super) fn closing(build: &Build<'_>, list: &mut List) {
    for seam in &build.upper.seams {
        if let Ok(rows) = &seam.rows {
            rows_of(seam, rows, list);
        }
    }
    build.upper.laps.iter().for_each(|lap| of_lap(lap, list));
    build.upper.stays.iter().for_each(|stay| of_stay(stay, list));
    build.upper.skives.iter().for_each(|skive| of_skive(skive, list));
    if let Some(fold) = &build.upper.fold
        && let Ok(needed) = &fold.needed
    {
        sum(F::CollarFoldNeeds.of_seam(&SeamName::Collar), needed, list);
    }
}

fn sum(of: impl Into<Identity>, sum: &Sum, list: &mut List) {
    list.figures.push_sum(of, sum.clone());
}

fn rows_of(seam: &UpperSeam, rows: &[UpperRow], list: &mut List) {
    for row in rows {
        let row_slots = [Slot::Seam(seam.name.clone()), Slot::Number(row.number)];
        let of = |id: F| id.of(row_slots.clone());
        let and = |id: F, part: &str| id.of(row_slots.iter().cloned().chain([Slot::typed(part)]));
        list.number(of(F::RowPlace), row.place);
        match &row.edge_of {
            EdgeOf::Part(part) => list.number(and(F::RowInside, part), row.inside),
            EdgeOf::Allowance => list.number(of(F::RowInsideAllowance), row.inside),
        }
        sum(of(F::RowStack), &row.stack, list);
        for left in &row.left {
            sum(and(F::RowLeft, &left.part), &left.sum, list);
        }
    }
    if let Some(row) = UpperSeam::thickest(rows, |sum| sum.spread().hi) {
        sum(F::SeamThickest.of_seam(&seam.name), &row.stack, list);
    }
    if let Ok((sews, _)) = &seam.sews {
        list.number(F::SeamSews.of_seam(&seam.name), *sews);
    }
}

fn of_lap(lap: &LapBuilt, list: &mut List) {
    let and = |id: F, part: &str| id.of([Slot::Seam(SeamName::Lap(lap.name.clone())), Slot::typed(part)]);
    if let Ok(step) = &lap.step {
        sum(and(F::LapStep, &lap.name.under), step, list);
        list.text(F::LapCovered.of_seam(&SeamName::Lap(lap.name.clone())), if lap.covered { "yes" } else { "no" });
    }
    for beyond in lap.beyond.iter().flatten() {
        sum(and(F::LapAlone, &beyond.part), &beyond.sum, list);
        list.number(and(F::LapBeyond, &beyond.part), beyond.reaches);
    }
}

fn of_stay(stay: &StayBuilt, list: &mut List) {
    let (Ok((row, distance)), Ok((allowance, _))) = (&stay.nearest, &stay.allowance) else { return };
    list.number(F::StayFromSeam.of([Slot::Seam(SeamName::Stay(stay.name.clone())), Slot::Number(*row)]), *distance);
    list.number(F::StayClear.of_seam(&SeamName::Stay(stay.name.clone())), distance - allowance);
}

fn of_skive(skive: &SkiveBuilt, list: &mut List) {
    let Ok(limits) = &skive.limits else { return };
    let at = |part: &str| [Slot::Seam(SeamName::Lap(skive.name.lap.clone())), Slot::typed(part)];
    list.text(F::SkiverFor.of(at(&skive.name.part)), skive.skiver.to_string());
    for limit in limits {
        let of = at(&skive.name.part).into_iter().chain([Slot::Word(limit.what.name())]);
        list.number(F::SkiverLeft.of(of), limit.margin);
    }
}

/// The shaft by both datums, and what is claimed of it.
pub(super) fn shaft(build: &Build<'_>, list: &mut List) {
    let Some(Ok(shaft)) = &build.shaft else { return };
    list.number(F::ShaftInside, shaft.inside.nominal());
    if let Some(Ok(from_heel)) = &shaft.from_heel {
        sum(F::ShaftFromHeel, from_heel, list);
    }
    if let Some(Ok((horn, _))) = &shaft.horn {
        list.number(F::ShaftHorn, *horn);
    }
}

/// What the boot has of the height that is claimed.
pub(super) fn claim(build: &Build<'_>, list: &mut List) {
    let Some(Ok(claim)) = &build.claim else { return };
    sum(F::ClaimHas, &claim.has, list);
    list.number(F::ClaimOver, claim.has.nominal() - claim.height);
    for gusset in &claim.gussets {
        let part = &gusset.part;
        if let Ok(sewn) = &gusset.sewn {
            sum(F::ClaimGusset.of([Slot::typed(&**part)]), sewn, list);
        }
    }
    let certified = "an accredited laboratory's business; nothing is certified here";
    list.text(F::ClaimCertification, certified);
}

/// Eyelets and hooks of one side in this size.
pub(super) fn facing(facing: &FacingBuilt, list: &mut List) {
    if let Some((long, _)) = &facing.long {
        list.number(F::FacingLong, *long);
    }
    let centres: Vec<f64> = facing.centres.iter().map(|centre| centre.at).collect();
    let gaps: Vec<f64> = centres.windows(2).map(|pair| pair[1] - pair[0]).collect();
    if let Some(last) = centres.last() {
        list.number(F::FacingLast, *last);
    }
    list.numbers(F::FacingCentres, centres);
    list.numbers(F::FacingGaps, gaps);
    list.numbers(F::FacingRows, facing.rows.clone());
    for web in &facing.webs {
        let id = match web.what {
            BesideHole::Holes => F::FacingWebHoles,
            BesideHole::Edge => F::FacingWebEdge,
            BesideHole::Row => F::FacingWebRow,
            BesideHole::Ends => F::FacingWebEnds,
        };
        list.number(id, web.leather);
    }
    sum(F::FacingStack, &facing.stack, list);
}
