//! Figures of the upper.

use super::List;
use crate::build::figure::{BondOf, FigureId as F, Slot};
use crate::build::takes::upper_pitch;
use crate::build::{Build, Datum, FACINGS, SeamBuilt, of};
use crate::finding::{LapName, SeamName};
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
            let joins = part.map_or_else(String::new, |part| part.it.name.clone());
            list.text(F::FacingRowsJoin.of_seam(&SeamName::Facing), joins);
            list.count(F::FacingRowsSides.of_seam(&SeamName::Facing), FACINGS);
        }
        if let Some(Ok(facing)) = &build.facing {
            super::closing::facing(facing, list);
        }
    }
    for seam in build.seams.iter().filter(|seam| seam.name.is_of_the_upper()) {
        settings(build, seam, list);
    }
    edges(upper, list);
    if let Ok(parts) = &upper.turned_out {
        list.texts(F::UpperTurnedOut, parts.iter().map(|part| part.it.name.clone()).collect());
    }
    let linings: Vec<String> = upper
        .lasted_in
        .iter()
        .filter_map(|lining| lining.part.as_ref().ok())
        .map(|part| part.it.name.clone())
        .collect();
    if !linings.is_empty() {
        list.texts(F::UpperLastedIn, linings);
    }
    for lining in &upper.lasted_in {
        let Ok(part) = &lining.part else { continue };
        let name = &part.it.name;
        list.maybe(F::LiningFrom.of([Slot::typed(&**name)]), lining.from.as_ref());
        list.maybe(F::LiningTo.of([Slot::typed(&**name)]), lining.to.as_ref());
        super::bottom::bond(&BondOf::Lining(name.as_str().into()), lining.bonded.as_ref(), list);
    }
    if let Some(mark) = &upper.mark {
        list.word(F::MarkHow, Some(&mark.how));
        list.string(F::MarkSays, Some(&mark.says));
        list.named(F::MarkOn, Some(&mark.on), |part| &part.name);
    }
}

fn parts(build: &Build<'_>, list: &mut List) {
    for built in &build.parts {
        let part = &built.part;
        let of_part = |id: F| id.of([Slot::typed(&*part.name)]);
        list.named(of_part(F::PartOf), Some(&part.of), |leather| &leather.name);
        if let Ok(leather) = of(&part.of) {
            list.amount(of_part(F::PartSubstance), &leather.it.substance);
        }
        list.word(of_part(F::PartZone), part.zone.as_ref());
        list.whole(of_part(F::PartPieces), Some(&part.pieces));
        list.built(of_part(F::PartArea), &built.area);
        list.built(of_part(F::PartPair), &built.pair);
        list.word(of_part(F::PartStretch), part.stretch.as_ref());
        list.string(of_part(F::PartPattern), part.pattern.as_ref());
        list.maybe(of_part(F::PartFolded), part.folded.as_ref());
    }
}

fn one_lap(lap: &Lap, list: &mut List) {
    let (Ok(top), Ok(under)) = (&lap.top, &lap.under) else { return };
    let seam = Slot::Seam(SeamName::Lap(LapName::of(&top.it.name, &under.it.name)));
    let of_lap = |id: F| id.of([seam.clone()]);
    list.text(of_lap(F::LapOver), under.it.name.clone());
    list.amount(of_lap(F::LapWide), &lap.wide);
    for (part, skive) in &lap.skives {
        let of_skive = |id: F| id.of([seam.clone(), Slot::typed(&**part)]);
        if let Some((wide, to)) = &skive.edge {
            list.amount(of_skive(F::SkiveWide), wide);
            list.amount(of_skive(F::SkiveEdge), to);
        }
        if let Some(flat) = &skive.flat {
            list.amount(of_skive(F::SkiveFlat), flat);
        }
    }
    list.maybe(of_lap(F::LapEntersOutside), lap.enters_outside.as_ref());
    list.maybe(of_lap(F::LapEntersInside), lap.enters_inside.as_ref());
    list.maybe(of_lap(F::LapLeans), lap.leans.as_ref());
    list.maybe(of_lap(F::StopsAboveFeather), lap.stops.as_ref());
}

fn others(upper: &Upper, list: &mut List) {
    for seam in &upper.seams {
        let of_seam = |id: F| id.of_seam(&SeamName::Seam(seam.name.as_str().into()));
        if let Ok(parts) = &seam.joins {
            list.texts(of_seam(F::SeamJoins), parts.iter().map(|part| part.it.name.clone()).collect());
        }
        list.amount(of_seam(F::SeamAllowance), &seam.allowance);
        list.text(of_seam(F::SeamRubbedFlat), if seam.rubbed_flat { "yes" } else { "no" });
        if seam.skived_out {
            list.text(of_seam(F::SeamSkivedOut), "yes");
        }
    }
    for stay in &upper.stays {
        let of_stay = |id: F| id.of_seam(&SeamName::Stay(stay.name.as_str().into()));
        list.named(of_stay(F::StayOf), Some(&stay.of), |part| &part.name);
        list.string(of_stay(F::StayCovers), Some(&stay.covers));
        list.amount(of_stay(F::StayWide), &stay.wide);
        list.maybe(of_stay(F::StopsAboveFeather), stay.stops.as_ref());
        list.maybe(of_stay(F::StayLoop), stay.loop_length.as_ref());
    }
    for gusset in &upper.gussets {
        let Ok(part) = &gusset.part else { continue };
        let of_gusset = |id: F| id.of_seam(&SeamName::Gusset(part.it.name.as_str().into()));
        list.named(of_gusset(F::SewnTo), Some(&gusset.joins), |part| &part.name);
        list.amount(of_gusset(F::GussetTo), &gusset.to);
    }
    if let Some(collar) = &upper.collar {
        list.named(F::CollarPart, Some(&collar.part), |part| &part.name);
        list.named(F::SewnTo.of_seam(&SeamName::Collar), Some(&collar.joins), |part| &part.name);
        list.maybe(F::CollarFolded.of_seam(&SeamName::Collar), collar.folded.as_ref());
    }
    for (word, stiffened) in [("counter", &upper.counter), ("puff", &upper.puff)] {
        let Some(stiffened) = stiffened else { continue };
        let of_word = |id: F| id.of([Slot::Word(word)]);
        list.named(of_word(F::StiffenerOf), Some(&stiffened.of), |of| &of.name);
        if let Ok(of) = of(&stiffened.of) {
            list.amount(of_word(F::StiffenerThickness), &of.it.thickness);
        }
        list.maybe(of_word(F::StiffenerSkived), stiffened.skived.as_ref());
        list.maybe(of_word(F::StiffenerReaches), stiffened.reaches.as_ref());
    }
}

/// Eyelets and hooks as stated; where they stand in this size follows from the build.
fn hardware(facing: &Facing, list: &mut List) {
    list.amount(F::FacingFirst, &facing.first);
    list.amount(F::FacingFromEdge, &facing.from_edge);
    let rows = [("hooks", &facing.hooks), ("eyelets", &facing.eyelets)];
    for (word, (count, hardware, apart)) in rows.iter().filter_map(|(word, row)| row.as_ref().map(|row| (*word, row))) {
        let of_word = |id: F| id.of([Slot::Word(word)]);
        list.whole(of_word(F::HardwareCount), Some(count));
        list.named(of_word(F::HardwareOf), Some(hardware), |hardware| &hardware.name);
        list.amount(of_word(F::HardwareApart), apart);
        if let Ok(hardware) = of(hardware) {
            list.amount(of_word(F::HardwarePunch), &hardware.it.punch);
        }
    }
    if let Some(backing) = &facing.backing {
        list.text(F::FacingBacked, "yes");
        list.named(F::FacingBacking, backing.as_ref(), |part| &part.name);
    }
    list.string(F::FacingWith, facing.with.as_ref());
}

/// What a machine is set to for a seam.
pub(super) fn settings(build: &Build<'_>, seam: &SeamBuilt, list: &mut List) {
    let of_seam = |id: F| id.of_seam(&seam.name);
    if let Ok(machine) = &seam.machine {
        list.text(of_seam(F::SeamMachine), machine.clone());
    }
    if let Ok(thread) = &seam.thread_name {
        list.text(of_seam(F::SeamThread), thread.clone());
    }
    let sewn = [(F::SeamThreadSize, &seam.thread), (F::SeamNeedle, &seam.needle), (F::SeamPitch, &seam.pitch)];
    for (id, sewn) in sewn {
        if let Ok(sewn) = sewn {
            list.number(of_seam(id), sewn.value);
        }
    }
    if let Ok(pitch) = &seam.pitch {
        list.number(of_seam(F::SeamOver50), pitch.value * 50.0 / 25.4);
    }
    if let Ok(rows) = &seam.rows {
        list.count(of_seam(F::SeamRows), *rows);
    }
    list.built(of_seam(F::SeamThreadDiameter), &seam.diameter);
    if let Some(holds) = &seam.stitch_holds {
        let pitches = true_pitches(build, seam);
        // The weakest row has the longest stitch.
        if let Some(longest) = pitches.iter().copied().reduce(f64::max) {
            list.built(of_seam(F::SeamStrength), &holds.map(|holds| holds / longest));
        }
        let rows = if seam.name == SeamName::Sole { &pitches[..] } else { &[] };
        for (n, pitch) in (1..).zip(rows) {
            let of_row = holds.map(|holds| holds / pitch);
            list.built(F::SeamRowStrength.of([Slot::Seam(seam.name.clone()), Slot::Number(n)]), &of_row);
        }
        let first = seam.leather_first.clone().unwrap_or_else(|| "thread".to_owned());
        list.text(of_seam(F::SeamGivesWay), first);
    }
    for needle in build.needles.iter().filter(|needle| needle.name == seam.name) {
        list.built(of_seam(F::SeamPerforation), &needle.perforation);
        list.built(of_seam(F::SeamNeedleOverThread), &needle.over_thread);
        if let Some(Ok((named, _))) = &needle.named {
            list.figures.push(of_seam(F::SeamNeedleNamed), Datum::Window(*named));
        }
    }
}

/// The true pitch of each row of a seam, mm; the one that is asked for where its length is not said.
fn true_pitches(build: &Build<'_>, seam: &SeamBuilt) -> Vec<f64> {
    let known: Vec<f64> = match &seam.name {
        SeamName::Sole => {
            build.rows.as_ref().map(|rows| rows.rows.iter().map(|row| row.pitch).collect()).unwrap_or_default()
        }
        SeamName::Forefoot => {
            let forefoot = build.forefoot.as_ref().and_then(|forefoot| forefoot.as_ref().ok());
            forefoot.and_then(|forefoot| forefoot.stitches).map(|(_, pitch)| pitch).into_iter().collect()
        }
        of => upper_pitch(build, of).into_iter().collect(),
    };
    let asked = || seam.pitch.as_ref().map(|pitch| 25.4 / pitch.value).ok().into_iter().collect();
    if known.is_empty() { asked() } else { known }
}

fn edges(upper: &Upper, list: &mut List) {
    let mut rows = |seam: &SeamName, stitching: &Stitching| {
        list.maybe(F::SeamFirst.of_seam(seam), stitching.first.as_ref());
        list.maybe(F::SeamApart.of_seam(seam), stitching.apart.as_ref());
        list.maybe(F::SeamLong.of_seam(seam), stitching.long.as_ref());
    };
    for lap in &upper.laps {
        if let (Ok(top), Ok(under)) = (&lap.top, &lap.under) {
            rows(&SeamName::Lap(LapName::of(&top.it.name, &under.it.name)), &lap.stitching);
        }
    }
    for seam in &upper.seams {
        rows(&SeamName::Seam(seam.name.as_str().into()), &seam.stitching);
    }
    for stay in &upper.stays {
        rows(&SeamName::Stay(stay.name.as_str().into()), &stay.stitching);
    }
    for gusset in &upper.gussets {
        if let Ok(part) = &gusset.part {
            rows(&SeamName::Gusset(part.it.name.as_str().into()), &gusset.stitching);
        }
    }
    if let Some(collar) = &upper.collar {
        rows(&SeamName::Collar, &collar.stitching);
    }
    if let Some(stitching) = upper.facing.as_ref().and_then(|facing| facing.rows.as_ref()) {
        rows(&SeamName::Facing, stitching);
    }
}
