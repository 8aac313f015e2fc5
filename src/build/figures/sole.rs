//! Figures of the bottom's lines, the sole's rows and the stack.

use super::List;
use super::upper::settings;
use crate::build::figure::Datum;
use crate::build::{Build, Lines, Lying, SoleRows, Stack, of};
use crate::geometry::{Path, Side};
use crate::measure::Spread;

pub(super) fn sole(build: &Build<'_>, list: &mut List) {
    if let Ok(lines) = &build.lines {
        edge(build, lines, list);
    }
    let Ok(bottom) = &build.model.bottom else { return };
    if let Ok(sole) = &bottom.sole {
        list.named("sole.through", "sewn through the", Some(&sole.through), |role| role.name());
        list.amount("sole.from-edge", "outer row from the finished edge", &sole.from_edge);
        list.maybe("sole.apart", "rows apart", sole.apart.as_ref());
        if let Ok(machine) = of(&sole.on) {
            list.amount("sole.sews", "the machine sews", &machine.it.sews);
            list.maybe("sole.opens", "the machine opens", machine.it.opens.as_ref());
            list.maybe("sole.locks-through", "the machine locks through", machine.it.locks_through.as_ref());
            list.window("sole.guide-range", "settings of the edge guide", machine.it.edge_guide.as_ref());
        }
    }
    if let Some(seam) = build.seams.iter().find(|seam| &*seam.key == "sole") {
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
    for (key, label, value) in [
        ("edge.forepart", "turnout, forepart", turnout.forepart),
        ("edge.waist-outside", "turnout, waist outside", turnout.waist_outside),
        ("edge.waist-inside", "turnout, waist inside", turnout.waist_inside),
        ("edge.heel", "turnout, heel", turnout.heel),
        ("edge.off", "trimming and sanding take", lines.off_the_edge),
        ("edge.cut", "rough-rounding cuts away", lines.cut),
        ("edge.wall", "wall outside the feather line at the toe", lines.wall_at(lines.last.feather.toe())),
        ("edge.length", "finished edge, all round", lines.edge.length()),
        ("edge.rough-length", "rough edge, all round", lines.rough().length()),
        ("edge.holds", "turnout full from, from the heel", lines.turnout_holds),
    ] {
        list.number(key, label, "mm", value);
    }
    for (key, label, value) in [
        ("edge.rough-forepart", "rough turnout, forepart", turnout.forepart),
        ("edge.rough-waist-outside", "rough turnout, waist outside", turnout.waist_outside),
        ("edge.rough-waist-inside", "rough turnout, waist inside", turnout.waist_inside),
        ("edge.rough-heel", "rough turnout, heel", turnout.heel),
    ] {
        list.number(key, label, "mm", value + lines.off_the_edge);
    }
    list.number("edge.begins", "turnout begins to grow, from the heel", "mm", lines.turnout_begins);
    list.amount("edge.row-least", "no nearer the outer row than", &build.house.rule("edge-after-sanding"));
}

fn sole_rows(rows: &SoleRows, lines: &Lines, list: &mut List) {
    list.number("sole.guide", "edge guide, from the rough edge", "mm", rows.guide);
    list.number("sole.starts-behind", "rows start behind the breast", "mm", lines.last.breast - rows.starts_at);
    if rows.starts_in_full_turnout.is_none() {
        list.text("sole.all-round", "the rows", "close on themselves");
    }
    let mut pair = 0.0;
    for (n, row) in rows.rows.iter().enumerate() {
        let key = |what: &str| format!("sole.row-{}.{what}", n + 1);
        list.number(&key("inset"), "from the finished edge", "mm", row.inset);
        list.number(&key("guide"), "edge guide, from the rough edge", "mm", row.inset + lines.off_the_edge);
        list.number(&key("length"), "length", "mm", row.length);
        list.count(&key("stitches"), "stitches", row.stitches);
        if row.overlap > 0 {
            list.count(&key("overlap"), "stitches over its own start", row.overlap);
        }
        list.number(&key("pitch"), "true pitch", "mm", row.pitch);
        list.number(&key("wall"), "least distance to the wall", "mm", row.wall_clearance);
        if let Some(thread) = &row.thread {
            list.number(&key("needle-thread"), "needle thread", "m", thread.needle);
            if thread.bobbin > 0.0 {
                list.number(&key("bobbin-thread"), "bobbin thread", "m", thread.bobbin);
            }
            pair += 2.0 * thread.total();
        }
    }
    if pair > 0.0 {
        list.number("sole.thread-pair", "thread for a pair, tails included", "m", pair);
    }
    if let Some(metres) = rows.bobbin {
        list.number("sole.bobbin", "a full bobbin holds", "m", metres);
    }
    if let Some(whole) = rows.rows_a_bobbin {
        list.count("sole.rows-a-bobbin", "whole rows on one bobbin", whole);
    }
}

fn stacks(stack: &Stack, rows: &SoleRows, list: &mut List) {
    let asked = &stack.asked;
    list.figures.push_sum("stack.worst", "stack where it is tallest", "mm", asked.hi.sum.clone());
    list.figures.push("stack.jaw", "in the jaw", "mm", Datum::Spread(spread(asked)));
    list.figures.push("stack.stitch", "in the stitch", "mm", Datum::Spread(spread(&stack.stitch)));
    list.number("stack.off-the-lap", "stack off the lap", "mm", asked.off_the_lap);
    list.text("stack.side", "tallest on the", if asked.hi.side == Side::Outside { "outside" } else { "inside" });
    list.number("stack.station", "tallest at, share of the bottom", "%", asked.hi.station * 100.0);
    list.count("stack.row", "tallest on row", asked.hi.row as u64 + 1);
    list.numbers(
        "stack.along",
        "tallest from and to, from the row's start",
        "mm",
        vec![asked.hi.plateau.0, asked.hi.plateau.1],
    );
    for other in &stack.others {
        let key = format!("stack.through-{}", other.mode.name());
        list.figures.push(
            key,
            format!("through the {} instead", other.mode.name()),
            "mm",
            Datum::Spread(spread(other)),
        );
    }
    for n in 0..rows.rows.len() {
        let laps = stack.laps(n).into_iter().flat_map(|(from, to)| [from, to]).collect();
        list.numbers(&format!("stack.row-{}.laps", n + 1), "laps from and to, from the row's start", "mm", laps);
    }
}

/// What the machine could still sew over the tallest place.
fn margin(build: &Build<'_>, stack: &Stack, list: &mut List) {
    let Some(sews) = build.sole_sews() else { return };
    let (nominal, thick) = (stack.asked.hi.sum.nominal(), stack.asked.hi.sum.spread().hi);
    list.number("stack.margin", "left under what the machine sews", "mm", sews - nominal);
    list.number("stack.margin-least", "left at the thick end", "mm", sews - thick);
}

/// What the layers may be together where the thick end of the stack does not fit, and can be sorted to fit.
fn sort(build: &Build<'_>, stack: &Stack, list: &mut List) {
    let Some(limit) = build.sole_sews() else { return };
    let fits = |sum: f64| crate::measure::fits(sum, limit);
    if !fits(stack.asked.nominal.sum.nominal()) || fits(stack.asked.hi.sum.spread().hi) {
        return;
    }
    let Some(sort) = stack.asked.sort_to(limit) else { return };
    list.texts("stack.sort", "sort by thickness", sort.what);
    list.number("stack.sort-to", "sorted: together at most", "mm", sort.most);
}

fn spread(lying: &Lying) -> Spread {
    Spread { lo: lying.lo, nominal: lying.nominal.sum.nominal(), hi: lying.hi.sum.spread().hi }
}
