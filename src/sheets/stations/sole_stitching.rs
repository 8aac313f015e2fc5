//! The sole stitcher.

use super::{cells, subjects};
use crate::build::{Datum, Figure, FigureId as F, Identity, Slot};
use crate::finding::SeamName;
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::paper::Point;
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn sole_stitching(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys([
        (F::SoleGuide.into(), Some(words::GUIDE_FIRST)),
        (F::SoleRowGuide.of([Slot::Number(2)]), Some(words::GUIDE_SECOND)),
        (F::SeamPitch.of_seam(&SeamName::Sole), None),
        (F::SeamNeedle.of_seam(&SeamName::Sole), None),
        (F::StackWorst.into(), Some(words::STACK_UNDER)),
    ]);
    let settings = [
        F::SeamMachine.of_seam(&SeamName::Sole),
        F::SeamRows.of_seam(&SeamName::Sole),
        F::SeamThread.of_seam(&SeamName::Sole),
        F::SoleThrough.into(),
        F::SoleAllRound.into(),
        F::SoleRowOverlap.of([Slot::Number(1)]),
        F::SeamThreadDiameter.of_seam(&SeamName::Sole),
    ];
    let mut set = sheets.listed(words::SETTINGS, &settings);
    let rough = [
        F::EdgeRoughForepart,
        F::EdgeRoughWaistOutside,
        F::EdgeRoughWaistInside,
        F::EdgeRoughHeel,
        F::EdgeBegins,
        F::EdgeHolds,
        F::EdgeOff,
    ];
    set.extend(sheets.listed(words::ROUGH_ROUND, rough));
    let stack = [F::StackOffTheLap, F::StackAlong, F::StackRow, F::StackSide, F::SoleSews];
    set.extend(sheets.listed(words::STACK, stack));
    let bobbin = [F::SoleRowsABobbin, F::SoleBobbin, F::SoleThreadPair];
    set.extend(sheets.listed(words::THREAD_AND_BOBBIN, bobbin));
    sheets.set_and_do(&set, &[words::OFFCUT, words::BOBBIN_FULL]);
    rows(job, sheets);
    let mut measures: Vec<Measure> = Vec::new();
    measures.extend(sheets.measure_of(F::StackJaw, words::GAUGE));
    measures.extend(sheets.measure_of(F::SeamOver50.of_seam(&SeamName::Sole), words::COUNTED));
    measures.extend(sheets.measure_of(F::SoleFromEdge, words::STEEL_RULE));
    measures.extend(sheets.measure_of(F::SoleApart, words::STEEL_RULE));
    measures.push(sheets.measure_blank(words::LOCK, Some(words::EYE)));
    sheets.measures(&measures);
    let lang = job.lang;
    sheets
        .drawing(drawings::section_height(job.build), |at: Point, width| drawings::section(job.build, lang, at, width));
    profile(job, sheets);
    sheets.drawing(drawings::bottom_height(job.build), |at: Point, width| {
        drawings::bottom(job.build, lang, drawings::Bench::SoleStitching, at, width)
    });
}

/// The stack along the row on which it is tallest.
fn profile(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let Ok(stack) = &job.build.stack else { return };
    let row = stack.asked.hi.row + 1;
    let row = Slot::Number(u32::try_from(row).unwrap_or(u32::MAX));
    let of = F::StackLaps.of([row.clone()]);
    let mut laps = Vec::new();
    for pair in super::numbers(job.figures, of.clone()).chunks(2) {
        let Some(figure) = job.figures.of(&of) else { continue };
        let said = sheets.voice().line(&Figure { datum: Datum::Numbers(pair.to_vec()), sum: None, ..figure.clone() });
        sheets.note(figure, &said);
        laps.push(said);
    }
    let mut said = |of: Identity| super::cell(job, sheets, of);
    let [worst, sews, margin] = [F::StackWorst, F::SoleSews, F::StackMargin].map(|id| said(id.into()));
    let length = said(F::SoleRowLength.of([row]));
    let drawing = drawings::Profile { build: job.build, lang: job.lang, worst, sews, margin, laps, length };
    if let Some(height) = drawing.height() {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// Each row: what the guide is set to for it, where it starts, how many stitches it has, where its laps come.
fn rows(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let named = sheets.word(words::ROW);
    let mut rows = Vec::new();
    for row in subjects(job.figures, F::SoleRowInset) {
        let what = [F::SoleRowGuide, F::SoleRowLength, F::SoleRowStitches, F::SoleRowPitch, F::SoleRowWall];
        let mut cells = cells(job, sheets, format!("{named} {row}"), std::slice::from_ref(&row), &what);
        cells.push(super::cell(job, sheets, F::StackLaps.of([row])));
        rows.push(cells);
    }
    if rows.is_empty() {
        return;
    }
    let starts = sheets.figure(F::SoleStartsBehind);
    let mut items = vec![crate::sheets::page::Item::Step(sheets.word(words::STARTS).to_owned())];
    items.extend(starts);
    sheets.grouped(words::ROWS_OF, &items);
    let columns = [
        (words::ROW, 1.1),
        (words::GUIDE, 1.5),
        (words::LENGTH, 1.6),
        (words::STITCHES, 1.2),
        (words::TRUE_PITCH, 1.5),
        (words::WALL_ROOM, 1.4),
        (words::LAPS, 4.0),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}
