//! Figures of the upper.

use super::List;
use crate::build::takes::upper_pitch;
use crate::build::{Build, Datum, FACINGS, SeamBuilt, of};
use crate::spec::{Facing, Lap, Stitching, Upper};

pub(super) fn upper(build: &Build<'_>, list: &mut List) {
    let Ok(upper) = &build.model.upper else { return };
    super::closing::shaft(build, list);
    parts(build, list);
    for lap in &upper.laps {
        one_lap(lap, list);
    }
    others(upper, list);
    if let Some(facing) = &upper.facing {
        hardware(facing, list);
        if facing.rows.is_some() {
            let part = upper.faced(facing).ok().flatten();
            list.text(
                "facing-rows.joins",
                "along the edge of",
                part.map_or_else(String::new, |part| part.it.name.clone()),
            );
            list.figures.push("facing-rows.sides".to_owned(), "sides of a boot", "", Datum::Count(FACINGS.into()));
        }
        if let Some(Ok(facing)) = &build.facing {
            super::closing::facing(facing, list);
        }
    }
    for seam in build.seams.iter().filter(|seam| !matches!(&*seam.key, "sole" | "forefoot")) {
        settings(build, seam, list);
    }
    edges(upper, list);
    if let Ok(parts) = &upper.turned_out {
        list.texts(
            "upper.turned-out",
            "turned out, heel to toe",
            parts.iter().map(|part| part.it.name.clone()).collect(),
        );
    }
    let linings: Vec<String> = upper
        .lasted_in
        .iter()
        .filter_map(|lining| lining.part.as_ref().ok())
        .map(|part| part.it.name.clone())
        .collect();
    if !linings.is_empty() {
        list.texts("upper.lasted-in", "lasted in", linings);
    }
    for lining in &upper.lasted_in {
        let Ok(part) = &lining.part else { continue };
        let key = |end: &str| format!("upper.lasted-in.{}.{end}", part.it.name);
        list.maybe(&key("from"), "lasted in, from", lining.from.as_ref());
        list.maybe(&key("to"), "lasted in, back to", lining.to.as_ref());
        list.named(&key("bonded"), "adhesive", lining.bonded.as_ref(), |adhesive| &adhesive.name);
        if let Some(Ok(adhesive)) = &lining.bonded {
            super::bottom::joining(&adhesive.it, &key, list);
        }
    }
    if let Some(mark) = &upper.mark {
        list.word("mark.how", "mark", Some(&mark.how));
        list.string("mark.says", "mark says", Some(&mark.says));
        list.named("mark.on", "mark on", Some(&mark.on), |part| &part.name);
    }
}

fn parts(build: &Build<'_>, list: &mut List) {
    for built in &build.parts {
        let part = &built.part;
        let key = |what: &str| format!("part.{}.{what}", part.name);
        list.named(&key("of"), "leather", Some(&part.of), |leather| &leather.name);
        if let Ok(leather) = of(&part.of) {
            list.amount(&key("substance"), "substance", &leather.it.substance);
        }
        list.word(&key("zone"), "zone of the hide", part.zone.as_ref());
        list.whole(&key("pieces"), "pieces a foot", Some(&part.pieces));
        list.built(&key("area"), "area of one piece", "dm2", &built.area);
        list.built(&key("pair"), "area for a pair", "dm2", &built.pair);
        list.word(&key("stretch"), "stretch", part.stretch.as_ref());
        list.string(&key("pattern"), "pattern", part.pattern.as_ref());
        list.maybe(&key("folded"), "folded edge", part.folded.as_ref());
    }
}

fn one_lap(lap: &Lap, list: &mut List) {
    let (Ok(top), Ok(under)) = (&lap.top, &lap.under) else { return };
    let key = |what: &str| format!("lap-{}.{what}", top.it.name);
    list.text(&key("over"), "laps over", under.it.name.clone());
    list.amount(&key("wide"), "width of the lap", &lap.wide);
    for (part, skive) in &lap.skives {
        if let Some((wide, to)) = &skive.edge {
            list.amount(&key(&format!("{part}-edge-wide")), &format!("skive {part}: taper wide"), wide);
            list.amount(&key(&format!("{part}-edge-to")), &format!("skive {part}: edge to"), to);
        }
        if let Some(flat) = &skive.flat {
            list.amount(&key(&format!("{part}-flat")), &format!("skive {part}: flat in the turnout to"), flat);
        }
    }
    list.maybe(&key("enters-outside"), "enters the turnout outside at", lap.enters_outside.as_ref());
    list.maybe(&key("enters-inside"), "enters the turnout inside at", lap.enters_inside.as_ref());
    list.maybe(&key("leans"), "leans", lap.leans.as_ref());
    list.maybe(&key("stops-above-feather"), "stops above the feather", lap.stops.as_ref());
}

fn others(upper: &Upper, list: &mut List) {
    for seam in &upper.seams {
        let key = |what: &str| format!("seam-{}.{what}", seam.name);
        if let Ok(parts) = &seam.joins {
            list.texts(&key("joins"), "joins", parts.iter().map(|part| part.it.name.clone()).collect());
        }
        list.amount(&key("allowance"), "allowance", &seam.allowance);
        list.text(&key("rubbed-flat"), "rubbed flat", if seam.rubbed_flat { "yes" } else { "no" });
        if seam.skived_out {
            list.text(&key("skived-at-feather"), "allowances skived out at the feather", "yes");
        }
    }
    for stay in &upper.stays {
        let key = |what: &str| format!("stay-{}.{what}", stay.name);
        list.named(&key("of"), "stay", Some(&stay.of), |part| &part.name);
        list.string(&key("covers"), "covers the seam", Some(&stay.covers));
        list.amount(&key("wide"), "width of the stay", &stay.wide);
        list.maybe(&key("stops-above-feather"), "stops above the feather", stay.stops.as_ref());
        list.maybe(&key("loop"), "loop", stay.loop_length.as_ref());
    }
    for gusset in &upper.gussets {
        let Ok(part) = &gusset.part else { continue };
        let key = |what: &str| format!("gusset-{}.{what}", part.it.name);
        list.named(&key("joins"), "sewn to", Some(&gusset.joins), |part| &part.name);
        list.amount(&key("to"), "sewn up to", &gusset.to);
    }
    if let Some(collar) = &upper.collar {
        list.named("collar.part", "collar", Some(&collar.part), |part| &part.name);
        list.named("collar.joins", "sewn to", Some(&collar.joins), |part| &part.name);
        list.maybe("collar.folded", "folded in", collar.folded.as_ref());
    }
    for (word, stiffened) in [("counter", &upper.counter), ("puff", &upper.puff)] {
        let Some(stiffened) = stiffened else { continue };
        let key = |what: &str| format!("{word}.{what}");
        list.named(&key("of"), word, Some(&stiffened.of), |of| &of.name);
        if let Ok(of) = of(&stiffened.of) {
            list.amount(&key("thickness"), &format!("{word}: thickness"), &of.it.thickness);
        }
        list.maybe(&key("skived"), &format!("{word}: edges skived"), stiffened.skived.as_ref());
        list.maybe(&key("reaches"), &format!("{word}: reaches"), stiffened.reaches.as_ref());
    }
}

/// Eyelets and hooks as stated; where they stand in this size follows from the build.
fn hardware(facing: &Facing, list: &mut List) {
    list.amount("facing.first", "highest centre from the top edge", &facing.first);
    list.amount("facing.from-edge", "centres from the facing's edge", &facing.from_edge);
    let rows = [("hooks", &facing.hooks), ("eyelets", &facing.eyelets)];
    for (word, (count, hardware, apart)) in rows.iter().filter_map(|(word, row)| row.as_ref().map(|row| (*word, row))) {
        let key = |what: &str| format!("facing.{word}{what}");
        list.whole(&key(""), &format!("{word} a side"), Some(count));
        list.named(&key("-of"), word, Some(hardware), |hardware| &hardware.name);
        list.amount(&key("-apart"), &format!("{word} apart"), apart);
        if let Ok(hardware) = of(hardware) {
            list.amount(&key("-punch"), &format!("{word}: punch"), &hardware.it.punch);
        }
    }
    if let Some(backing) = &facing.backing {
        list.text("facing.backed", "backed", "yes");
        list.named("facing.backing", "backing", backing.as_ref(), |part| &part.name);
    }
    list.string("facing.with", "setter", facing.with.as_ref());
}

/// What a machine is set to for a seam.
pub(super) fn settings(build: &Build<'_>, seam: &SeamBuilt, list: &mut List) {
    let key = |what: &str| format!("{}.{what}", seam.key);
    if let Ok(machine) = &seam.machine {
        list.text(&key("machine"), "machine", machine.clone());
    }
    if let Ok(thread) = &seam.thread_name {
        list.text(&key("thread"), "thread", thread.clone());
    }
    for (what, label, unit, sewn) in [
        ("thread-size", "thread size", "tex", &seam.thread),
        ("needle", "needle", "Nm", &seam.needle),
        ("pitch", "pitch", "spi", &seam.pitch),
    ] {
        if let Ok(sewn) = sewn {
            list.number(&key(what), label, unit, sewn.value);
        }
    }
    if let Ok(pitch) = &seam.pitch {
        list.number(&key("over-50"), "stitches over 50 mm", "", pitch.value * 50.0 / 25.4);
    }
    if let Ok(rows) = &seam.rows {
        list.count(&key("rows"), "rows", *rows);
    }
    list.built(&key("thread-diameter"), "thread diameter", "mm", &seam.diameter);
    if let Some(holds) = &seam.stitch_holds {
        let pitches = true_pitches(build, seam);
        // The weakest row has the longest stitch.
        if let Some(longest) = pitches.iter().copied().reduce(f64::max) {
            list.built(&key("strength"), "strength of one row, estimated", "N/mm", &holds.map(|holds| holds / longest));
        }
        let rows = if &*seam.key == "sole" { &pitches[..] } else { &[] };
        for (n, pitch) in (1..).zip(rows) {
            let of_row = holds.map(|holds| holds / pitch);
            list.built(&key(&format!("row-{n}.strength")), "strength of this row, estimated", "N/mm", &of_row);
        }
        let first = seam.leather_first.clone().unwrap_or_else(|| "thread".to_owned());
        list.text(&key("gives-way"), "gives way first, of what is stated", first);
    }
    for needle in build.needles.iter().filter(|needle| needle.key == seam.key) {
        list.built(&key("perforation"), "needle over stitch", "", &needle.perforation);
        list.built(&key("needle-over-thread"), "needle over thread", "", &needle.over_thread);
        if let Some(Ok((named, _))) = &needle.named {
            list.figures.push(key("needle-named"), "needles named by the thread's maker", "Nm", Datum::Window(*named));
        }
    }
}

/// The true pitch of each row of a seam, mm; the one that is asked for where its length is not said.
fn true_pitches(build: &Build<'_>, seam: &SeamBuilt) -> Vec<f64> {
    let known: Vec<f64> = match &*seam.key {
        "sole" => build.rows.as_ref().map(|rows| rows.rows.iter().map(|row| row.pitch).collect()).unwrap_or_default(),
        "forefoot" => {
            let forefoot = build.forefoot.as_ref().and_then(|forefoot| forefoot.as_ref().ok());
            forefoot.and_then(|forefoot| forefoot.stitches).map(|(_, pitch)| pitch).into_iter().collect()
        }
        key => upper_pitch(build, key).into_iter().collect(),
    };
    let asked = || seam.pitch.as_ref().map(|pitch| 25.4 / pitch.value).ok().into_iter().collect();
    if known.is_empty() { asked() } else { known }
}

fn edges(upper: &Upper, list: &mut List) {
    let mut rows = |key: String, stitching: &Stitching| {
        list.maybe(&format!("{key}.first"), "first row from the edge", stitching.first.as_ref());
        list.maybe(&format!("{key}.apart"), "rows apart", stitching.apart.as_ref());
        list.maybe(&format!("{key}.long"), "length of a row, base size", stitching.long.as_ref());
    };
    for lap in &upper.laps {
        if let Ok(top) = &lap.top {
            rows(format!("lap-{}", top.it.name), &lap.stitching);
        }
    }
    for seam in &upper.seams {
        rows(format!("seam-{}", seam.name), &seam.stitching);
    }
    for stay in &upper.stays {
        rows(format!("stay-{}", stay.name), &stay.stitching);
    }
    for gusset in &upper.gussets {
        if let Ok(part) = &gusset.part {
            rows(format!("gusset-{}", part.it.name), &gusset.stitching);
        }
    }
    if let Some(collar) = &upper.collar {
        rows("collar".to_owned(), &collar.stitching);
    }
    if let Some(stitching) = upper.facing.as_ref().and_then(|facing| facing.rows.as_ref()) {
        rows("facing-rows".to_owned(), stitching);
    }
}
