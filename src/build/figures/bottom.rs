//! Figures of layers, nails, forefoot and heel.

use super::List;
use super::upper::settings;
use crate::build::figure::Datum;
use crate::build::{Build, Gauged, HeelNailsBuilt, NailsBuilt, Ply, of};
use crate::finding::LayerPiece;
use crate::geometry::Side;
use crate::measure::{Amount, Window};
use crate::spec::{Adhesive, Ends, Extent, HeelNails, Layer, Val};
use std::sync::Arc;

pub(super) fn bottom(build: &Build<'_>, list: &mut List) {
    let Ok(bottom) = &build.model.bottom else { return };
    for layer in &bottom.layers {
        one_layer(layer, list);
    }
    if let Ok(Some(hollow)) = &build.hollow {
        list.number("seat.hollow", "hollow of the seat inside the outer", "mm", hollow.outer.0);
        if let Some((above, _)) = hollow.above.as_ref().filter(|(above, _)| *above > 0.0) {
            list.number("seat.relieved", "relieve the midsole for shank and pad, at the breast", "mm", *above);
        }
    }
    forefoot(build, list);
    for (key, nails, line) in [("waist", &build.waist, &bottom.waist), ("seat", &build.seat, &bottom.seat)] {
        if let Some(line) = line {
            list.named(&format!("{key}.with"), "nail", Some(&line.with), |nail| &nail.name);
            list.amount(&format!("{key}.apart"), "apart, at least", &line.apart);
            list.maybe(&format!("{key}.to"), "carried to", line.to.as_ref());
        }
        if let Some(Ok(nails)) = nails {
            line_of_nails(key, nails, list);
            if let (Some(Ok(forefoot)), "waist") = (&build.forefoot, key)
                && let Some((outside, inside)) = nails.to_forefoot(forefoot)
            {
                list.number("waist.to-forefoot-outside", "last nail to the forefoot row, outside", "mm", outside);
                list.number("waist.to-forefoot-inside", "last nail to the forefoot row, inside", "mm", inside);
            }
        }
    }
}

fn one_layer(layer: &Layer, list: &mut List) {
    let key = |what: &str| format!("layer.{}.{what}", layer.role.name());
    list.named(&key("of"), layer.role.name(), Some(&layer.of), |of| of.name());
    for ply in Ply::of_layer(layer).unwrap_or_default() {
        let part = ply.what.of_layer().and_then(LayerPiece::name);
        let what = part.map_or("thickness".to_owned(), |part| format!("thickness-{part}"));
        list.figures.push(key(&what), format!("{}: thickness", ply.what), "mm", Datum::Spread(ply.spread));
    }
    if let Ok(covers) = &layer.covers {
        let word = match covers.it {
            Extent::All => "all",
            Extent::Forepart => "forepart",
            Extent::Waist => "waist",
            Extent::Seat => "seat",
        };
        list.text(&key("covers"), "covers", word);
    }
    list.maybe(&key("breadth"), "breadth", layer.breadth.as_ref());
    match of(&layer.ends).map(|ends| ends.it) {
        Ok(Ends::BehindBreast(behind)) => list.number(&key("ends"), "ends behind the breast", "mm", behind),
        Ok(Ends::Full) => list.text(&key("ends"), "ends", "full"),
        Err(_) => {}
    }
    list.word(&key("grain"), "grain", layer.grain.as_ref());
    list.maybe(&key("hammered"), "hammered thinner by", layer.hammered.as_ref());
    list.named(&key("bonded"), "adhesive", layer.bonded.as_ref(), |adhesive| &adhesive.name);
    list.maybe(&key("front"), "ends behind the joint", layer.front.as_ref());
    list.maybe(&key("back"), "ends under the heel", layer.back.as_ref());
    list.maybe(&key("skived-ends"), "skived at its ends over", layer.skived.ends.as_ref());
    list.maybe(&key("skived-sides"), "skived at its sides over", layer.skived.sides.as_ref());
    if layer.lugs_off {
        list.text(&key("lugs-off"), "lugs buffed off under the heel", "yes");
    }
    if layer.rigid {
        list.text(&key("rigid"), "rigid", "yes");
    }
    bond(&format!("layer.{}", layer.role.name()), layer.bonded.as_ref(), list);
}

/// What the bench sets of an adhesive.
fn bond(of: &str, bonded: Option<&Val<Arc<Adhesive>>>, list: &mut List) {
    let Some(Ok(adhesive)) = bonded else { return };
    joining(&adhesive.it, &|what| format!("{of}.{what}"), list);
}

/// How a bond is made.
pub(super) fn joining(adhesive: &Adhesive, key: &dyn Fn(&str) -> String, list: &mut List) {
    list.whole(&key("coats"), "coats on each face", adhesive.coats.as_ref());
    list.maybe(&key("coverage"), "coverage of one coat", adhesive.coverage.as_ref());
    list.window(&key("open"), "join after", adhesive.open.as_ref());
    list.maybe(&key("film"), "film of the joint", adhesive.film.as_ref());
    list.maybe(&key("press"), "press for", adhesive.press.as_ref());
    list.maybe(&key("set"), "leave to set", adhesive.set.as_ref());
    if adhesive.reactivated {
        list.text(&key("reactivated"), "warm the film before joining", "yes");
    }
}

fn forefoot(build: &Build<'_>, list: &mut List) {
    let Some(Ok(forefoot)) = &build.forefoot else { return };
    if let Some(seam) = build.seams.iter().find(|seam| &*seam.key == "forefoot") {
        settings(build, seam, list);
    }
    list.number("forefoot.inset", "inside the feather line", "mm", forefoot.inset);
    list.number("forefoot.length", "length", "mm", forefoot.length);
    if let Some((stitches, pitch)) = forefoot.stitches {
        list.count("forefoot.stitches", "stitches", stitches);
        list.number("forefoot.true-pitch", "true pitch", "mm", pitch);
    }
    list.figures.push_sum("forefoot.layers", "layers, where they are thickest", "mm", forefoot.layers.clone());
    if let Some(thread) = &forefoot.thread {
        list.number("forefoot.thread-used", "thread for a boot", "m", thread.total());
    }
    if let Ok(bottom) = &build.model.bottom
        && let Some(spec) = &bottom.forefoot
    {
        list.named("forefoot.with", "nail", spec.with.as_ref(), |nail| &nail.name);
        list.maybe("forefoot.apart", "apart", spec.apart.as_ref());
    }
}

fn line_of_nails(line: &str, nails: &NailsBuilt, list: &mut List) {
    let key = |what: &str| format!("{line}.{what}");
    list.number(&key("inset"), "inside the feather line", "mm", nails.inset);
    list.figures.push_sum(key("layers"), "layers, where they are thickest", "mm", nails.thickest.clone());
    list.figures.push(key("window"), "lengths that clinch", "mm", Datum::Window(nails.window));
    if let Some(length) = nails.length {
        list.number(&key("length"), "nail length", "mm", length);
        list.number(&key("eighths"), "nail length in eighths of an inch", "1/8 in", length / 3.175);
    }
    list.count(&key("nails"), "nails a boot", nails.nails.len() as u64);
    if let Some(clinches) = nails.clinches {
        list.figures.push(key("clinch"), "stands out to clinch", "mm", Datum::Window(clinches));
    }
    runs(nails, &key, list);
    if nails.counts.1 > 0 {
        list.count(&key("outside"), "on the outside", nails.counts.0 as u64);
        list.count(&key("inside"), "on the inside", nails.counts.1 as u64);
        list.number(&key("spacing-outside"), "spacing outside", "mm", nails.spacing.0);
        list.number(&key("spacing-inside"), "spacing inside", "mm", nails.spacing.1);
    } else {
        list.number(&key("spacing"), "spacing", "mm", nails.spacing.0);
    }
}

/// Where a line has nails of several lengths: how many of which follow each other, from the heel to the toe.
fn runs(nails: &NailsBuilt, key: &dyn Fn(&str) -> String, list: &mut List) {
    let several = nails.nails.iter().any(|nail| nail.length != nails.nails[0].length);
    if !several || nails.clinches.is_none() {
        return;
    }
    for (side, word) in [(Side::Outside, "outside"), (Side::Inside, "inside")] {
        let runs = nails.runs(side);
        if runs.is_empty() {
            continue;
        }
        #[expect(clippy::cast_precision_loss, reason = "nails are counted in hundreds")]
        let counts = runs.iter().map(|run| run.count as f64).collect();
        let lengths = runs.iter().filter_map(|run| run.length).collect();
        list.numbers(&key(&format!("{word}-runs")), &format!("nails of one length, {word}, from the heel"), "", counts);
        list.numbers(&key(&format!("{word}-lengths")), &format!("their lengths, {word}, from the heel"), "mm", lengths);
    }
}

pub(super) fn heel(build: &Build<'_>, list: &mut List) {
    let Some(spec) = &build.model.heel else { return };
    list.named("heel.cap", "cap", Some(&spec.cap), |cap| &cap.name);
    for (word, lifts) in [("wedges", &spec.wedges), ("lifts", &spec.lifts), ("thin-lifts", &spec.thin_lifts)] {
        let Some(lifts) = lifts else { continue };
        list.whole(&format!("heel.{word}"), word, Some(&lifts.count));
        list.named(&format!("heel.{word}-of"), word, Some(&lifts.lift), |lift| &lift.name);
        list.amount(&format!("heel.{word}-substance"), &format!("{word}: thickness"), &lifts.substance);
    }
    list.named("heel.bonded", "adhesive", spec.bonded.as_ref(), |adhesive| &adhesive.name);
    bond("heel", spec.bonded.as_ref(), list);
    if let Some(nails) = &spec.nails {
        heel_nails(build, nails, list);
    }
    if let Some(Ok(nails)) = &build.heel_nails {
        nails_built(nails, list);
    }
    let Some(Ok(heel)) = &build.heel else { return };
    list.amount("heel.gauge-within", "gauge true within, either way", &build.house.rule("gauge"));
    list.figures.push_sum("heel.block", "block at the back: base and cap", "mm", heel.block.clone());
    list.figures.push_sum("heel.needed", "base needed at the back", "mm", heel.needed.clone());
    list.figures.push_sum("heel.given", "base given by lifts and wedges", "mm", heel.given.clone());
    list.figures.push("heel.cap-thickness", "cap: thickness", "mm", Datum::Spread(heel.cap.spread));
    for (key, label, value) in [
        ("heel.length", "heel length, from the feather line to the breast", heel.length),
        ("heel.drop", "drop of the seat to the breast", heel.drop),
        ("heel.visible-back", "heel seen at the back", heel.visible_back),
        ("heel.visible-breast", "heel seen at the breast", heel.visible_breast),
        (
            "heel.visible-inches",
            "heel seen at the back, nearest eighth of an inch",
            (heel.visible_back / 3.175).round() / 8.0,
        ),
    ] {
        let unit = if key.ends_with("inches") { "in" } else { "mm" };
        list.number(key, label, unit, value);
    }
    if let Some(wedge) = heel.wedge_at_breast {
        list.number("heel.wedge-breast", "each wedge at the breast", "mm", wedge);
    }
    if let Ok(lines) = &build.lines {
        let heights = heel.gauged(lines.behind_the_heel());
        gauged(&heights, list);
        stop(build, &heights, list);
    }
}

/// What a gauge shows of the base at its finished edge, and what is sanded there.
fn gauged(gauged: &Gauged, list: &mut List) {
    let ([before, before_breast], [after, after_breast]) = (gauged.before, gauged.after);
    let [sand, sand_breast] = gauged.sanded();
    for (key, label, value) in [
        ("heel.sand-back", "to sand at the back", sand),
        ("heel.sand-breast", "to sand at the breast", sand_breast),
        ("heel.gauge-before", "gauge of the base before levelling, back", before),
        ("heel.gauge-before-breast", "gauge of the base before levelling, breast", before_breast),
        ("heel.gauge-after", "gauge of the base when level, back", after),
        ("heel.gauge-after-breast", "gauge of the base when level, breast", after_breast),
    ] {
        list.number(key, label, "mm", value);
    }
}

/// At what gauge of the level base to stop, where the most that may be sanded reaches the heads of its nails.
fn stop(build: &Build<'_>, heights: &Gauged, list: &mut List) {
    let Some(Ok(nails)) = &build.heel_nails else { return };
    let Ok(gauge) = build.house.rule("gauge") else { return };
    let over = nails.heads_over_level(gauge.it.nominal()).filter(|_| nails.heads_reached());
    if let Some(over) = over {
        let [back, breast] = heights.after.map(|level| level + over);
        list.number("heel.stop", "stop and drive heads deeper at a gauge of, back", "mm", back);
        list.number("heel.stop-breast", "stop and drive heads deeper at a gauge of, breast", "mm", breast);
    }
}

fn heel_nails(build: &Build<'_>, nails: &HeelNails, list: &mut List) {
    if let Some((nail, _)) = &nails.base {
        list.named("heel-nails.base", "nails of the base", Some(nail), |nail| &nail.name);
    }
    if let Some((nail, _)) = &nails.cap {
        list.named("heel-nails.cap", "nails of the cap", Some(nail), |nail| &nail.name);
    }
    for stage in &nails.stages {
        let Ok(number) = &stage.number else { continue };
        let key = format!("heel-nails.stage-{}", number.it);
        list.text(
            &format!("{key}-wedges"),
            &format!("stage {}: wedges", number.it),
            if stage.wedges { "yes" } else { "no" },
        );
        list.whole(&format!("{key}-lifts"), &format!("stage {}: lifts", number.it), stage.lifts.as_ref());
        list.whole(&format!("{key}-across"), &format!("stage {}: nails across", number.it), stage.across.as_ref());
        list.maybe(&format!("{key}-leans"), &format!("stage {}: points lean inward", number.it), stage.leans.as_ref());
    }
    let house = &build.house;
    let ruled = |stated: Option<&Val<Amount>>, rule: &str| stated.cloned().unwrap_or_else(|| house.rule(rule));
    if nails.inside_feather.is_some() || nails.inside_edge.is_none() {
        let inset = ruled(nails.inside_feather.as_ref(), "ring-inside-feather");
        list.amount("heel-nails.inside-feather", "nails of the base inside the feather line", &inset);
    }
    let edge = ruled(nails.inside_edge.as_ref(), "cap-inside-edge");
    list.amount("heel-nails.inside-edge", "nails from the heel's edge", &edge);
    let breast = ruled(nails.behind_breast.as_ref(), "ring-behind-breast");
    list.amount("heel-nails.behind-breast", "nails begin behind the breast", &breast);
    list.amount("heel-nails.apart", "nails apart, at least", &ruled(nails.apart.as_ref(), "ring-apart"));
    list.whole("heel-nails.across", "nails across the heel", nails.across.as_ref());
    list.maybe("heel-nails.leans", "points lean inward", nails.leans.as_ref());
}

/// Nails by stage and place, each with the lengths that serve there.
fn nails_built(nails: &HeelNailsBuilt, list: &mut List) {
    list.number("heel-nails.sink", "heads below the base as built", "mm", nails.sink);
    for nail in &nails.nails {
        let place = nail.place.name();
        let key = match nail.stage {
            Some(stage) => format!("heel-nails.stage-{stage}-{place}"),
            None => format!("heel-nails.base-{place}"),
        };
        list.number(&key, &format!("nail at the {place}"), "mm", nail.length);
        list.count(&format!("{key}-count"), &format!("nails at the {place}, a boot"), nail.count as u64);
        let serves = Datum::Window(nail.serves());
        list.figures.push(format!("{key}-serves"), format!("lengths that serve at the {place}"), "mm", serves);
    }
    if let Some(cap) = &nails.cap {
        list.number("heel-nails.cap-length", "cap nails", "mm", cap.length);
        list.count("heel-nails.cap-count", "cap nails, a boot", cap.count as u64);
        let serves = Window { lo: cap.hold.spread().hi - cap.sunk, hi: cap.room.spread().lo - cap.sunk };
        list.figures.push("heel-nails.cap-serves", "cap nails that serve", "mm", Datum::Window(serves));
    }
    if let Some(ring) = nails.rings.first() {
        list.count("heel-nails.count", "nails round the heel", ring.count);
        list.number("heel-nails.spacing", "nails apart, evened", "mm", ring.apart);
        list.number("heel-nails.way", "from end to end round the back", "mm", ring.length);
    }
    if let Some(ring) = &nails.cap_ring {
        list.number("heel-nails.cap-spacing", "cap nails apart, evened", "mm", ring.apart);
        list.number("heel-nails.cap-way", "the cap's line from end to end round the back", "mm", ring.length);
    }
}
