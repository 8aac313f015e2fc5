//! The sole stitcher.

use super::{cells, subjects};
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::paper::Point;
use crate::sheets::words;
use crate::sheets::{Job, drawing};

pub(super) fn sole_stitching(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("sole.guide", Some(words::GUIDE_FIRST)),
        ("sole.pitch", None),
        ("sole.needle", None),
        ("sole.rows", None),
        ("stack.worst", Some(words::STACK_UNDER)),
    ]);
    let settings =
        ["sole.machine", "sole.thread", "sole.through", "sole.all-round", "sole.row-1.overlap", "sole.thread-diameter"];
    let mut set = sheets.listed(words::SETTINGS, &settings);
    let rough = ["edge.rough-forepart", "edge.rough-waist-outside", "edge.rough-waist-inside", "edge.rough-heel"];
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
    sheets.drawing(drawing::section_height(job.build), |at: Point, width| drawing::section(job.build, lang, at, width));
    sheets.drawing(drawing::bottom_height(job.build), |at: Point, width| drawing::bottom(job.build, lang, at, width));
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
