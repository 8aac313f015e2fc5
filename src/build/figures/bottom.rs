//! Figures of layers, nails, forefoot and heel.

use super::List;
use super::upper::settings;
use crate::build::figure::{BondOf, Datum, FigureId as F, Identity, Slot};
use crate::build::{Build, Gauged, HeelNailsBuilt, NailsBuilt, Ply, base, of};
use crate::finding::SeamName;
use crate::geometry::Side;
use crate::measure::{Amount, Window};
use crate::spec::{Adhesive, Ends, Extent, HeelNails, Layer, LayerStock, Val};
use std::sync::Arc;

pub(super) fn bottom(build: &Build<'_>, list: &mut List) {
    let Ok(bottom) = &build.model.bottom else { return };
    for layer in &bottom.layers {
        one_layer(layer, list);
    }
    if let Ok(Some(hollow)) = &build.hollow {
        list.number(F::SeatHollow, hollow.outer.0);
        if let Some((above, _)) = hollow.above.as_ref().filter(|(above, _)| *above > 0.0) {
            list.number(F::SeatRelieved, *above);
        }
    }
    forefoot(build, list);
    for (word, nails, line) in [("waist", &build.waist, &bottom.waist), ("seat", &build.seat, &bottom.seat)] {
        let of_line = |id: F| id.of([Slot::Word(word)]);
        if let Some(line) = line {
            list.named(of_line(F::NailsWith), Some(&line.with), |nail| &nail.name);
            list.amount(of_line(F::NailsApart), &line.apart);
            list.maybe(of_line(F::NailsTo), line.to.as_ref());
        }
        if let Some(Ok(nails)) = nails {
            line_of_nails(&of_line, nails, list);
            if let (Some(Ok(forefoot)), "waist") = (&build.forefoot, word)
                && let Some((outside, inside)) = nails.to_forefoot(forefoot)
            {
                list.number(F::WaistToForefootOutside, outside);
                list.number(F::WaistToForefootInside, inside);
            }
        }
    }
}

fn one_layer(layer: &Layer, list: &mut List) {
    let role = layer.role.name();
    let (of_layer, bond_of) = (|id: F| id.of([Slot::Word(role)]), BondOf::Layer(role));
    list.named(of_layer(F::LayerOf), Some(&layer.of), |of| of.name());
    thickness(layer, list);
    if let Ok(covers) = &layer.covers {
        let word = match covers.it {
            Extent::All => "all",
            Extent::Forepart => "forepart",
            Extent::Waist => "waist",
            Extent::Seat => "seat",
        };
        list.text(of_layer(F::LayerCovers), word);
    }
    list.maybe(of_layer(F::LayerBreadth), layer.breadth.as_ref());
    match of(&layer.ends).map(|ends| ends.it) {
        Ok(Ends::BehindBreast(behind)) => list.number(of_layer(F::LayerEndsBehind), behind),
        Ok(Ends::Full) => list.text(of_layer(F::LayerEndsFull), "full"),
        Err(_) => {}
    }
    list.word(of_layer(F::LayerGrain), layer.grain.as_ref());
    list.maybe(of_layer(F::LayerHammered), layer.hammered.as_ref());
    list.named(bonded(&bond_of), layer.bonded.as_ref(), |adhesive| &adhesive.name);
    list.maybe(of_layer(F::LayerFront), layer.front.as_ref());
    list.maybe(of_layer(F::LayerBack), layer.back.as_ref());
    list.maybe(of_layer(F::LayerSkivedEnds), layer.skived.ends.as_ref());
    list.maybe(of_layer(F::LayerSkivedSides), layer.skived.sides.as_ref());
    if layer.lugs_off {
        list.text(of_layer(F::LayerLugsOff), "yes");
    }
    if layer.rigid {
        list.text(of_layer(F::LayerRigid), "yes");
    }
    settings_of(&bond_of, layer.bonded.as_ref(), list);
}

/// A layer's thickness; base and lugs of a moulded outsole each.
fn thickness(layer: &Layer, list: &mut List) {
    let Ok(stock) = of(&layer.of).map(|of| &of.it) else { return };
    let slots = [Slot::Word(layer.role.name()), Slot::typed(stock.name())];
    let hammered = layer.hammered.as_ref().and_then(|share| base(share).ok());
    let mut ids = match (stock, hammered) {
        (LayerStock::Outsole(_), _) => vec![F::LayerBaseThickness.of(slots.clone()), F::LayerLugThickness.of(slots)],
        (LayerStock::Leather(..), Some(share)) => {
            vec![F::LayerHammeredThickness.of(slots.into_iter().chain([Slot::typed(share.to_string())]))]
        }
        _ => vec![F::LayerThickness.of(slots)],
    }
    .into_iter();
    for (ply, id) in Ply::of_layer(layer).unwrap_or_default().iter().zip(&mut ids) {
        list.figures.push(id, Datum::Spread(ply.spread));
    }
}

fn bonded(of: &BondOf) -> Identity {
    F::BondWith.of([Slot::Bond(of.clone())])
}

/// What bonds something, and how the bond is made.
pub(super) fn bond(of: &BondOf, with: Option<&Val<Arc<Adhesive>>>, list: &mut List) {
    list.named(bonded(of), with, |adhesive| &adhesive.name);
    settings_of(of, with, list);
}

/// How a bond is made.
fn settings_of(bond: &BondOf, with: Option<&Val<Arc<Adhesive>>>, list: &mut List) {
    let Some(Ok(adhesive)) = with else { return };
    let (adhesive, of_bond) = (&adhesive.it, |id: F| id.of([Slot::Bond(bond.clone())]));
    list.whole(of_bond(F::BondCoats), adhesive.coats.as_ref());
    list.maybe(of_bond(F::BondCoverage), adhesive.coverage.as_ref());
    list.window(of_bond(F::BondOpen), adhesive.open.as_ref());
    list.maybe(of_bond(F::BondFilm), adhesive.film.as_ref());
    list.maybe(of_bond(F::BondPress), adhesive.press.as_ref());
    list.maybe(of_bond(F::BondSet), adhesive.set.as_ref());
    if adhesive.reactivated {
        list.text(of_bond(F::BondReactivated), "yes");
    }
}

fn forefoot(build: &Build<'_>, list: &mut List) {
    let Some(Ok(forefoot)) = &build.forefoot else { return };
    if let Some(seam) = build.seams.iter().find(|seam| seam.name == SeamName::Forefoot) {
        settings(build, seam, list);
    }
    list.number(F::ForefootInset, forefoot.inset);
    list.number(F::ForefootLength, forefoot.length);
    if let Some((stitches, pitch)) = forefoot.stitches {
        list.count(F::ForefootStitches, stitches);
        list.number(F::ForefootTruePitch, pitch);
    }
    list.figures.push_sum(F::ForefootLayers, forefoot.layers.clone());
    if let Some(thread) = &forefoot.thread {
        list.number(F::ForefootThreadUsed, thread.total());
    }
    if let Ok(bottom) = &build.model.bottom
        && let Some(spec) = &bottom.forefoot
    {
        list.named(F::ForefootWith, spec.with.as_ref(), |nail| &nail.name);
        list.maybe(F::ForefootApart, spec.apart.as_ref());
    }
}

fn line_of_nails(of_line: &dyn Fn(F) -> Identity, nails: &NailsBuilt, list: &mut List) {
    list.number(of_line(F::NailsInset), nails.inset);
    list.figures.push_sum(of_line(F::NailsLayers), nails.thickest.clone());
    list.figures.push(of_line(F::NailsWindow), Datum::Window(nails.window));
    if let Some(length) = nails.length {
        list.number(of_line(F::NailsLength), length);
        list.number(of_line(F::NailsEighths), length / 3.175);
    }
    list.count(of_line(F::NailsCount), nails.nails.len() as u64);
    if let Some(clinches) = nails.clinches {
        list.figures.push(of_line(F::NailsClinch), Datum::Window(clinches));
    }
    runs(nails, of_line, list);
    if nails.counts.1 > 0 {
        list.count(of_line(F::NailsOutside), nails.counts.0 as u64);
        list.count(of_line(F::NailsInside), nails.counts.1 as u64);
        list.number(of_line(F::NailsSpacingOutside), nails.spacing.0);
        list.number(of_line(F::NailsSpacingInside), nails.spacing.1);
    } else {
        list.number(of_line(F::NailsSpacing), nails.spacing.0);
    }
}

/// Where a line has nails of several lengths: how many of which follow each other, from the heel to the toe.
fn runs(nails: &NailsBuilt, of_line: &dyn Fn(F) -> Identity, list: &mut List) {
    let several = nails.nails.iter().any(|nail| nail.length != nails.nails[0].length);
    if !several || nails.clinches.is_none() {
        return;
    }
    for (side, how_many, how_long) in [
        (Side::Outside, F::NailsOutsideRuns, F::NailsOutsideLengths),
        (Side::Inside, F::NailsInsideRuns, F::NailsInsideLengths),
    ] {
        let runs = nails.runs(side);
        if runs.is_empty() {
            continue;
        }
        #[expect(clippy::cast_precision_loss, reason = "nails are counted in hundreds")]
        let counts = runs.iter().map(|run| run.count as f64).collect();
        let lengths = runs.iter().filter_map(|run| run.length).collect();
        list.numbers(of_line(how_many), counts);
        list.numbers(of_line(how_long), lengths);
    }
}

pub(super) fn heel(build: &Build<'_>, list: &mut List) {
    let Some(spec) = &build.model.heel else { return };
    list.named(F::HeelCap, Some(&spec.cap), |cap| &cap.name);
    for (word, lifts) in [("wedges", &spec.wedges), ("lifts", &spec.lifts), ("thin-lifts", &spec.thin_lifts)] {
        let Some(lifts) = lifts else { continue };
        let of_word = |id: F| id.of([Slot::Word(word)]);
        list.whole(of_word(F::LiftsCount), Some(&lifts.count));
        list.named(of_word(F::LiftsOf), Some(&lifts.lift), |lift| &lift.name);
        list.amount(of_word(F::LiftsSubstance), &lifts.substance);
    }
    bond(&BondOf::Heel, spec.bonded.as_ref(), list);
    if let Some(nails) = &spec.nails {
        heel_nails(build, nails, list);
    }
    if let Some(Ok(nails)) = &build.heel_nails {
        nails_built(nails, list);
    }
    let Some(Ok(heel)) = &build.heel else { return };
    list.amount(F::HeelGaugeWithin, &build.house.rule("gauge"));
    list.figures.push_sum(F::HeelBlock, heel.block.clone());
    list.figures.push_sum(F::HeelNeeded, heel.needed.clone());
    list.figures.push_sum(F::HeelGiven, heel.given.clone());
    list.figures.push(F::HeelCapThickness, Datum::Spread(heel.cap.spread));
    for (id, value) in [
        (F::HeelLength, heel.length),
        (F::HeelDrop, heel.drop),
        (F::HeelVisibleBack, heel.visible_back),
        (F::HeelVisibleBreast, heel.visible_breast),
        (F::HeelVisibleInches, (heel.visible_back / 3.175).round() / 8.0),
    ] {
        list.number(id, value);
    }
    if let Some(wedge) = heel.wedge_at_breast {
        list.number(F::HeelWedgeBreast, wedge);
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
    for (id, value) in [
        (F::HeelSandBack, sand),
        (F::HeelSandBreast, sand_breast),
        (F::HeelGaugeBefore, before),
        (F::HeelGaugeBeforeBreast, before_breast),
        (F::HeelGaugeAfter, after),
        (F::HeelGaugeAfterBreast, after_breast),
    ] {
        list.number(id, value);
    }
}

/// At what gauge of the level base to stop, where the most that may be sanded reaches the heads of its nails.
fn stop(build: &Build<'_>, heights: &Gauged, list: &mut List) {
    let Some(Ok(nails)) = &build.heel_nails else { return };
    let Ok(gauge) = build.house.rule("gauge") else { return };
    let over = nails.heads_over_level(gauge.it.nominal()).filter(|_| nails.heads_reached());
    if let Some(over) = over {
        let [back, breast] = heights.after.map(|level| level + over);
        list.number(F::HeelStop, back);
        list.number(F::HeelStopBreast, breast);
    }
}

fn heel_nails(build: &Build<'_>, nails: &HeelNails, list: &mut List) {
    if let Some((nail, _)) = &nails.base {
        list.named(F::HeelNailsBase, Some(nail), |nail| &nail.name);
    }
    if let Some((nail, _)) = &nails.cap {
        list.named(F::HeelNailsCap, Some(nail), |nail| &nail.name);
    }
    for stage in &nails.stages {
        let Ok(number) = &stage.number else { continue };
        let of_stage = |id: F| id.of([Slot::Number(number.it)]);
        list.text(of_stage(F::StageWedges), if stage.wedges { "yes" } else { "no" });
        list.whole(of_stage(F::StageLifts), stage.lifts.as_ref());
        list.whole(of_stage(F::StageAcross), stage.across.as_ref());
        list.maybe(of_stage(F::StageLeans), stage.leans.as_ref());
    }
    let house = &build.house;
    let ruled = |stated: Option<&Val<Amount>>, rule: &str| stated.cloned().unwrap_or_else(|| house.rule(rule));
    if nails.inside_feather.is_some() || nails.inside_edge.is_none() {
        let inset = ruled(nails.inside_feather.as_ref(), "ring-inside-feather");
        list.amount(F::HeelNailsInsideFeather, &inset);
    }
    let edge = ruled(nails.inside_edge.as_ref(), "cap-inside-edge");
    list.amount(F::HeelNailsInsideEdge, &edge);
    let breast = ruled(nails.behind_breast.as_ref(), "ring-behind-breast");
    list.amount(F::HeelNailsBehindBreast, &breast);
    list.amount(F::HeelNailsApart, &ruled(nails.apart.as_ref(), "ring-apart"));
    list.whole(F::HeelNailsAcross, nails.across.as_ref());
    list.maybe(F::HeelNailsLeans, nails.leans.as_ref());
}

/// Nails by stage and place, each with the lengths that serve there.
fn nails_built(nails: &HeelNailsBuilt, list: &mut List) {
    list.number(F::HeelNailsSink, nails.sink);
    for nail in &nails.nails {
        let place = nail.place.name();
        let place = Slot::Word(place);
        let ([long, count, serves], slots) = match nail.stage {
            Some(stage) => ([F::StageNail, F::StageNailCount, F::StageNailServes], vec![Slot::Number(stage), place]),
            None => ([F::BaseNail, F::BaseNailCount, F::BaseNailServes], vec![place]),
        };
        list.number(long.of(slots.clone()), nail.length);
        list.count(count.of(slots.clone()), nail.count as u64);
        list.figures.push(serves.of(slots), Datum::Window(nail.serves()));
    }
    if let Some(cap) = &nails.cap {
        list.number(F::HeelNailsCapLength, cap.length);
        list.count(F::HeelNailsCapCount, cap.count as u64);
        let serves = Window { lo: cap.hold.spread().hi - cap.sunk, hi: cap.room.spread().lo - cap.sunk };
        list.figures.push(F::HeelNailsCapServes, Datum::Window(serves));
    }
    if let Some(ring) = nails.rings.first() {
        list.count(F::HeelNailsCount, ring.count);
        list.number(F::HeelNailsSpacing, ring.apart);
        list.number(F::HeelNailsWay, ring.length);
    }
    if let Some(ring) = &nails.cap_ring {
        list.number(F::HeelNailsCapSpacing, ring.apart);
        list.number(F::HeelNailsCapWay, ring.length);
    }
}
