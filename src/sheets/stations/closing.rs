//! The closing room.

use super::{cell, cells, is_there, text};
use crate::build::{FigureId as F, Identity, Slot};
use crate::finding::SeamName;
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn closing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let seams = in_order(job);
    let mut set = sheets.listed(words::UPPER, [F::ShaftInside, F::UpperTurnedOut, F::UpperLastedIn]);
    set.extend(sheets.listed(words::MARK, [F::MarkHow, F::MarkSays, F::MarkOn]));
    sheets.set_and_do(&set, &[]);
    settings(job, sheets, &seams);
    joins(job, sheets, &seams);
    let measures = counted(job, sheets, &seams);
    sheets.measures(&measures);
    laps(job, sheets);
}

/// Every lap cut across, in the order of the model.
fn laps(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let upper = &job.build.upper;
    for lap in &upper.laps {
        let seam = upper.seams.iter().find(|seam| seam.name == SeamName::Lap(lap.name.clone()));
        let rows = seam.and_then(|seam| seam.rows.as_ref().ok()).map_or(&[][..], Vec::as_slice);
        let wide = cell(job, sheets, F::LapWide.of_seam(&SeamName::Lap(lap.name.clone())));
        let drawing = drawings::Lap { built: lap, rows, lang: job.lang, wide };
        if let Some(height) = drawing.height(sheets.width()) {
            sheets.drawing(height, |at, width| drawing.draw(at, width));
        }
    }
}

/// Stitches over 50 mm, once for all seams that have as many.
fn counted(job: &Job<'_>, sheets: &mut Sheets<'_>, seams: &[Seam]) -> Vec<Measure> {
    let mut measures: Vec<(Measure, Vec<String>)> = Vec::new();
    for (n, (_, key)) in (1..).zip(seams) {
        let Some(measure) = sheets.measure_of(F::SeamOver50.of_seam(key), words::COUNTED) else { continue };
        match measures.iter_mut().find(|(known, _)| known.target == measure.target) {
            Some((_, numbers)) => numbers.push(n.to_string()),
            None => measures.push((measure, vec![n.to_string()])),
        }
    }
    let named = |(measure, numbers): (Measure, Vec<String>)| {
        let what = format!("{} {}: {}", words::of(words::SEAM, job.lang), numbers.join(", "), measure.what);
        Measure { what, ..measure }
    };
    measures.into_iter().map(named).collect()
}

/// A seam's name, and which it is.
type Seam = (String, SeamName);

/// The seams in the order in which their steps stand in the route; the machine's order of the model otherwise.
fn in_order(job: &Job<'_>) -> Vec<Seam> {
    let closed = job.build.seams.iter().filter(|seam| seam.name.is_of_the_upper());
    let named = |name: &SeamName| words::seam(name, job.lang);
    let mut seams: Vec<Seam> = closed.map(|seam| (named(&seam.name), seam.name.clone())).collect();
    let steps = super::listed(job.figures, F::RouteSteps);
    seams.sort_by_key(|(_, key)| steps.iter().position(|step| step == step_of(job, key)));
    seams
}

/// The step of the route in which a seam is sewn.
fn step_of(job: &Job<'_>, key: &SeamName) -> &'static str {
    let enters = |id: F| is_there(job.figures, id.of_seam(key));
    match key {
        SeamName::Seam(_) => "close-back",
        SeamName::Stay(_) => "stay",
        SeamName::Gusset(_) => "gusset",
        SeamName::Collar => "collar",
        SeamName::Facing => "facing-rows",
        _ if enters(F::LapEntersInside) || enters(F::LapEntersOutside) => "close-vamp",
        _ => "counter-cover",
    }
}

/// What the machine is set to, in the order of the seams.
fn settings(job: &Job<'_>, sheets: &mut Sheets<'_>, seams: &[Seam]) {
    let columns = [
        F::SeamMachine,
        F::SeamThread,
        F::SeamNeedle,
        F::SeamPitch,
        F::SeamOver50,
        F::SeamRows,
        F::SeamFirst,
        F::SeamApart,
    ];
    let rows = (1..)
        .zip(seams)
        .map(|(n, (name, key))| cells(job, sheets, format!("{n}  {name}"), &[Slot::Seam(key.clone())], &columns));
    let rows = rows.collect();
    let columns = [
        (words::SEAM, 3.6),
        (words::MACHINE, 2.0),
        (words::THREAD, 2.2),
        (words::NEEDLE, 1.5),
        (words::PITCH, 2.1),
        (words::OVER_50, 1.1),
        (words::ROWS, 0.9),
        (words::FIRST, 1.6),
        (words::APART, 1.6),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// What lies under each seam and how it is laid; where to start and stop is for the bench to write.
fn joins(job: &Job<'_>, sheets: &mut Sheets<'_>, seams: &[Seam]) {
    let mut rows = Vec::new();
    for (n, (name, key)) in (1..).zip(seams) {
        let mut of = |what: &[F]| {
            let there = what.iter().map(|id| id.of_seam(key)).filter(|of| is_there(job.figures, of.clone()));
            let there: Vec<Identity> = there.collect();
            there.into_iter().map(|of| cell(job, sheets, of)).collect::<Vec<_>>().join(", ")
        };
        let parts = of(&[F::SeamJoins, F::SewnTo, F::FacingRowsJoin, F::LapOver, F::StayOf]);
        let wide = of(&[F::LapWide, F::StayWide, F::SeamAllowance]);
        let further = further(job, sheets, key);
        rows.push(vec![format!("{n}  {name}"), parts, wide, further, "______________".to_owned()]);
    }
    let columns = [
        (words::SEAM, 3.2),
        (words::JOINS, 1.6),
        (words::LAP_OR_ALLOWANCE, 1.5),
        (words::FURTHER, 4.2),
        (words::START_STOP, 2.8),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// Rubbed flat, loop, fold, how high, where it enters: each with its label, where the seam has it.
fn further(job: &Job<'_>, sheets: &mut Sheets<'_>, key: &SeamName) -> String {
    let mut said = Vec::new();
    for what in [
        F::StayCovers,
        F::StayLoop,
        F::GussetTo,
        F::CollarFolded,
        F::FacingRowsSides,
        F::LapEntersOutside,
        F::LapEntersInside,
        F::SeamRubbedFlat,
    ] {
        let of = what.of_seam(key);
        let Some(figure) = job.figures.of(&of).filter(|_| text(job.figures, of.clone()) != "no") else { continue };
        let value = cell(job, sheets, of);
        let label = words::figure(figure, job.lang);
        // What is done or not is said by its label.
        said.push(if what == F::SeamRubbedFlat { label } else { format!("{label} {value}") });
    }
    said.join("; ")
}
