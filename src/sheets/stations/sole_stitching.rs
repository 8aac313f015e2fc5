//! The sole stitcher.

use super::{cells, subjects};
use crate::build::{Datum, Figure};
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::paper::Point;
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn sole_stitching(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("sole.guide", Some(words::GUIDE_FIRST)),
        ("sole.row-2.guide", Some(words::GUIDE_SECOND)),
        ("sole.pitch", None),
        ("sole.needle", None),
        ("stack.worst", Some(words::STACK_UNDER)),
    ]);
    let settings = [
        "sole.machine",
        "sole.rows",
        "sole.thread",
        "sole.through",
        "sole.all-round",
        "sole.row-1.overlap",
        "sole.thread-diameter",
    ];
    let mut set = sheets.listed(words::SETTINGS, &settings);
    let rough = [
        "edge.rough-forepart",
        "edge.rough-waist-outside",
        "edge.rough-waist-inside",
        "edge.rough-heel",
        "edge.begins",
        "edge.holds",
        "edge.off",
    ];
    set.extend(sheets.listed(words::ROUGH_ROUND, &rough));
    let stack = ["stack.off-the-lap", "stack.along", "stack.row", "stack.side", "sole.sews"];
    set.extend(sheets.listed(words::STACK, &stack));
    let bobbin = ["sole.rows-a-bobbin", "sole.bobbin", "sole.thread-pair"];
    set.extend(sheets.listed(words::THREAD_AND_BOBBIN, &bobbin));
    sheets.set_and_do(&set, &[words::OFFCUT, words::BOBBIN_FULL]);
    rows(job, sheets);
    let mut measures: Vec<Measure> = Vec::new();
    measures.extend(sheets.measure_of("stack.jaw", words::GAUGE));
    measures.extend(sheets.measure_of("sole.over-50", words::COUNTED));
    measures.extend(sheets.measure_of("sole.from-edge", words::STEEL_RULE));
    measures.extend(sheets.measure_of("sole.apart", words::STEEL_RULE));
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
    let key = format!("stack.row-{row}.laps");
    let mut laps = Vec::new();
    for pair in super::numbers(job.figures, &key).chunks(2) {
        let Some(figure) = job.figures.get(&key) else { continue };
        let said = sheets.voice().line(&Figure { datum: Datum::Numbers(pair.to_vec()), sum: None, ..figure.clone() });
        sheets.note(figure, &said);
        laps.push(said);
    }
    let mut said = |key: &str| super::cell(job, sheets, key);
    let [worst, sews, margin] = ["stack.worst", "sole.sews", "stack.margin"].map(&mut said);
    let length = said(&format!("sole.row-{row}.length"));
    let drawing = drawings::Profile { build: job.build, lang: job.lang, worst, sews, margin, laps, length };
    if let Some(height) = drawing.height() {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// Each row: what the guide is set to for it, where it starts, how many stitches it has, where its laps come.
fn rows(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let named = sheets.word(words::ROW);
    let mut rows = Vec::new();
    for row in subjects(job.figures, "sole.row-") {
        let what = ["guide", "length", "stitches", "pitch", "wall"];
        let mut cells = cells(job, sheets, format!("{named} {row}"), &format!("sole.row-{row}"), &what);
        cells.push(super::cell(job, sheets, &format!("stack.row-{row}.laps")));
        rows.push(cells);
    }
    if rows.is_empty() {
        return;
    }
    let starts = sheets.figure("sole.starts-behind");
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
