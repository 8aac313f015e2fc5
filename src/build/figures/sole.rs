//! Figures of the bottom's lines, the sole's rows and the stack.

use super::List;
use super::upper::settings;
use crate::build::figure::{Datum, FigureId as F, Slot};
use crate::build::{Build, Lines, Lying, SoleRows, Stack, of};
use crate::finding::SeamName;
use crate::geometry::{Path, Side};
use crate::measure::Spread;

pub(super) fn sole(build: &Build<'_>, list: &mut List) {
    if let Ok(lines) = &build.lines {
        edge(build, lines, list);
    }
    let Ok(bottom) = &build.model.bottom else { return };
    if let Ok(sole) = &bottom.sole {
        list.named(F::SoleThrough, Some(&sole.through), |role| role.name());
        list.amount(F::SoleFromEdge, &sole.from_edge);
        list.maybe(F::SoleApart, sole.apart.as_ref());
        if let Ok(machine) = of(&sole.on) {
            list.amount(F::SoleSews, &machine.it.sews);
            list.maybe(F::SoleOpens, machine.it.opens.as_ref());
            list.maybe(F::SoleLocksThrough, machine.it.locks_through.as_ref());
            list.window(F::SoleGuideRange, machine.it.edge_guide.as_ref());
        }
    }
    if let Some(seam) = build.seams.iter().find(|seam| seam.name == SeamName::Sole) {
        settings(build, seam, list);
    }
    if let (Ok(rows), Ok(lines)) = (&build.rows, &build.lines) {
        sole_rows(rows, lines, list);
    }
    if let (Ok(stack), Ok(rows)) = (&build.stack, &build.rows) {
        stacks(stack, rows, list);
        margin(build, stack, list);
        sort(build, stack, list);
    }
}

fn edge(build: &Build<'_>, lines: &Lines, list: &mut List) {
    let turnout = &lines.turnout;
    for (id, value) in [
        (F::EdgeForepart, turnout.forepart),
        (F::EdgeWaistOutside, turnout.waist_outside),
        (F::EdgeWaistInside, turnout.waist_inside),
        (F::EdgeHeel, turnout.heel),
        (F::EdgeOff, lines.off_the_edge),
        (F::EdgeCut, lines.cut),
        (F::EdgeWall, lines.wall_at(lines.last.feather.toe())),
        (F::EdgeLength, lines.edge.length()),
        (F::EdgeRoughLength, lines.rough().length()),
        (F::EdgeHolds, lines.turnout_holds),
    ] {
        list.number(id, value);
    }
    for (id, value) in [
        (F::EdgeRoughForepart, turnout.forepart),
        (F::EdgeRoughWaistOutside, turnout.waist_outside),
        (F::EdgeRoughWaistInside, turnout.waist_inside),
        (F::EdgeRoughHeel, turnout.heel),
    ] {
        list.number(id, value + lines.off_the_edge);
    }
    list.number(F::EdgeBegins, lines.turnout_begins);
    list.amount(F::EdgeRowLeast, &build.house.rule("edge-after-sanding"));
}

fn sole_rows(rows: &SoleRows, lines: &Lines, list: &mut List) {
    list.number(F::SoleGuide, rows.guide);
    list.number(F::SoleStartsBehind, lines.last.breast - rows.starts_at);
    if rows.starts_in_full_turnout.is_none() {
        list.text(F::SoleAllRound, "close on themselves");
    }
    let mut pair = 0.0;
    for (n, row) in rows.rows.iter().enumerate() {
        let of = |id: F| id.of([number(n)]);
        list.number(of(F::SoleRowInset), row.inset);
        list.number(of(F::SoleRowGuide), row.inset + lines.off_the_edge);
        list.number(of(F::SoleRowLength), row.length);
        list.count(of(F::SoleRowStitches), row.stitches);
        if row.overlap > 0 {
            list.count(of(F::SoleRowOverlap), row.overlap);
        }
        list.number(of(F::SoleRowPitch), row.pitch);
        list.number(of(F::SoleRowWall), row.wall_clearance);
        if let Some(thread) = &row.thread {
            list.number(of(F::SoleRowNeedleThread), thread.needle);
            if thread.bobbin > 0.0 {
                list.number(of(F::SoleRowBobbinThread), thread.bobbin);
            }
            pair += 2.0 * thread.total();
        }
    }
    if pair > 0.0 {
        list.number(F::SoleThreadPair, pair);
    }
    if let Some(metres) = rows.bobbin {
        list.number(F::SoleBobbin, metres);
    }
    if let Some(whole) = rows.rows_a_bobbin {
        list.count(F::SoleRowsABobbin, whole);
    }
}

fn stacks(stack: &Stack, rows: &SoleRows, list: &mut List) {
    let asked = &stack.asked;
    list.figures.push_sum(F::StackWorst, asked.hi.sum.clone());
    list.figures.push(F::StackJaw, Datum::Spread(spread(asked)));
    list.figures.push(F::StackStitch, Datum::Spread(spread(&stack.stitch)));
    list.number(F::StackOffTheLap, asked.off_the_lap);
    list.text(F::StackSide, if asked.hi.side == Side::Outside { "outside" } else { "inside" });
    list.number(F::StackStation, asked.hi.station * 100.0);
    list.count(F::StackRow, asked.hi.row as u64 + 1);
    list.numbers(F::StackAlong, vec![asked.hi.plateau.0, asked.hi.plateau.1]);
    for other in &stack.others {
        let through = F::StackThrough.of([Slot::Word(other.mode.name())]);
        list.figures.push(through, Datum::Spread(spread(other)));
    }
    for n in 0..rows.rows.len() {
        let laps = stack.laps(n).into_iter().flat_map(|(from, to)| [from, to]).collect();
        list.numbers(F::StackLaps.of([number(n)]), laps);
    }
}

/// What the machine could still sew over the tallest place.
fn margin(build: &Build<'_>, stack: &Stack, list: &mut List) {
    let Some(sews) = build.sole_sews() else { return };
    let (nominal, thick) = (stack.asked.hi.sum.nominal(), stack.asked.hi.sum.spread().hi);
    list.number(F::StackMargin, sews - nominal);
    list.number(F::StackMarginLeast, sews - thick);
}

/// What the layers may be together where the thick end of the stack does not fit, and can be sorted to fit.
fn sort(build: &Build<'_>, stack: &Stack, list: &mut List) {
    let Some(limit) = build.sole_sews() else { return };
    let fits = |sum: f64| crate::measure::fits(sum, limit);
    if !fits(stack.asked.nominal.sum.nominal()) || fits(stack.asked.hi.sum.spread().hi) {
        return;
    }
    let Some(sort) = stack.asked.sort_to(limit) else { return };
    list.texts(F::StackSort, sort.what);
    list.number(F::StackSortTo, sort.most);
}

/// A row by its number, from 1.
fn number(row: usize) -> Slot {
    Slot::Number(u32::try_from(row + 1).unwrap_or(u32::MAX))
}

fn spread(lying: &Lying) -> Spread {
    Spread { lo: lying.lo, nominal: lying.nominal.sum.nominal(), hi: lying.hi.sum.spread().hi }
}
