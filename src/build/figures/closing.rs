//! Figures of the upper's seams row by row, of skives, shaft, claim and facing.

use super::List;
use crate::build::{Build, FacingBuilt, LapBuilt, SkiveBuilt, StayBuilt, UpperRow, UpperSeam};
use crate::finding::Sum;

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
        sum("collar.fold-needed", "the fold needs", needed, list);
    }
}

fn sum(key: &str, label: &str, sum: &Sum, list: &mut List) {
    list.figures.push_sum(key, label, "mm", sum.clone());
}

fn rows_of(seam: &UpperSeam, rows: &[UpperRow], list: &mut List) {
    for row in rows {
        let key = |what: &str| format!("{}.row-{}.{what}", seam.key, row.number);
        let label = |what: &str| format!("row {}: {what}", row.number);
        list.number(&key("place"), &label("from the edge"), "mm", row.place);
        list.number(&key("inside"), &label(&format!("inside the {}", row.edge_of)), "mm", row.inside);
        sum(&key("stack"), &label("goes through"), &row.stack, list);
        for left in &row.left {
            sum(&key(&format!("left-{}", left.part)), &label(&format!("left of the {}", left.part)), &left.sum, list);
        }
    }
    if let Some(row) = UpperSeam::thickest(rows, |sum| sum.spread().hi) {
        sum(&format!("{}.thickest", seam.key), "thickest row goes through", &row.stack, list);
    }
    if let Ok((sews, _)) = &seam.sews {
        list.number(&format!("{}.sews", seam.key), "the machine sews", "mm", *sews);
    }
}

fn of_lap(lap: &LapBuilt, list: &mut List) {
    let key = |what: &str| format!("{}.{what}", lap.key);
    if let Ok(step) = &lap.step {
        sum(&key("step"), &format!("step at the edge of the {}", lap.name.under), step, list);
        list.text(&key("covered"), "lining covers it inside", if lap.covered { "yes" } else { "no" });
    }
    for beyond in lap.beyond.iter().flatten() {
        let label = format!("left of the {} alone", beyond.part);
        sum(&key(&format!("alone-{}", beyond.part)), &label, &beyond.sum, list);
        list.number(&key(&format!("beyond-{}", beyond.part)), "skive beyond the lap", "mm", beyond.reaches);
    }
}

fn of_stay(stay: &StayBuilt, list: &mut List) {
    let (Ok((row, distance)), Ok((allowance, _))) = (&stay.nearest, &stay.allowance) else { return };
    list.number(&format!("{}.from-seam", stay.key), &format!("row {row} from the seam"), "mm", *distance);
    list.number(&format!("{}.clear", stay.key), "clear of the allowance", "mm", distance - allowance);
}

fn of_skive(skive: &SkiveBuilt, list: &mut List) {
    let Ok(limits) = &skive.limits else { return };
    list.text(&format!("{}-skiver", skive.key), &format!("skiver for {}", skive.name), skive.skiver.to_string());
    for limit in limits {
        list.number(
            &format!("{}-skiver-{}", skive.key, limit.what),
            &format!("{}: left", limit.what),
            "mm",
            limit.margin,
        );
    }
}

/// The shaft by both datums, and what is claimed of it.
pub(super) fn shaft(build: &Build<'_>, list: &mut List) {
    let Some(Ok(shaft)) = &build.shaft else { return };
    list.number("shaft.inside", "shaft inside at the back", "mm", shaft.inside.nominal());
    if let Some(Ok(from_heel)) = &shaft.from_heel {
        sum("shaft.from-heel", "from the heel's bottom to the top at the back", from_heel, list);
    }
    if let Some(Ok((horn, _))) = &shaft.horn {
        list.number("shaft.horn", "goes over the horn up to", "mm", *horn);
    }
}

/// What the boot has of the height that is claimed.
pub(super) fn claim(build: &Build<'_>, list: &mut List) {
    let Some(Ok(claim)) = &build.claim else { return };
    sum("claims.has", "height there, as the claim measures it", &claim.has, list);
    list.number("claims.over", "over the claim, nominal", "mm", claim.has.nominal() - claim.height);
    for gusset in &claim.gussets {
        let part = &gusset.part;
        if let Ok(sewn) = &gusset.sewn {
            sum(&format!("claims.gusset-{part}"), &format!("gusset of {part}, as the claim measures"), sewn, list);
        }
    }
    let certified = "an accredited laboratory's business; nothing is certified here";
    list.text("claims.certification", "certification", certified);
}

/// Eyelets and hooks of one side in this size.
pub(super) fn facing(facing: &FacingBuilt, list: &mut List) {
    if let Some((long, _)) = &facing.long {
        list.number("facing.long", "length of the facing", "mm", *long);
    }
    let centres: Vec<f64> = facing.centres.iter().map(|centre| centre.at).collect();
    let gaps: Vec<f64> = centres.windows(2).map(|pair| pair[1] - pair[0]).collect();
    if let Some(last) = centres.last() {
        list.number("facing.last", "lowest centre from the top edge", "mm", *last);
    }
    list.numbers("facing.centres", "centres from the top edge", "mm", centres);
    list.numbers("facing.gaps", "from centre to centre", "mm", gaps);
    list.numbers("facing.rows", "rows from the facing's edge", "mm", facing.rows.clone());
    for web in &facing.webs {
        list.number(
            &format!("facing.web-{}", web.what.name()),
            &format!("least leather: {}", web.what),
            "mm",
            web.leather,
        );
    }
    sum("facing.stack", "set through", &facing.stack, list);
}
