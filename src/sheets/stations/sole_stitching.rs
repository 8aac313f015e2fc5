//! The sole stitcher.

use super::subjects;
use crate::sheets::page::{Row, Sheets};
use crate::sheets::paper::Point;
use crate::sheets::words;
use crate::sheets::{Job, drawing};

pub(super) fn sole_stitching(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("sole.guide", None),
        ("sole.pitch", None),
        ("sole.needle", None),
        ("sole.rows", None),
        ("sole.row-1.stitches", Some(words::OUTER_STITCHES)),
    ]);
    sheets.steps();
    sheets.group(
        sheets.word(words::SETTINGS),
        &[
            "sole.machine",
            "sole.thread",
            "sole.through",
            "sole.from-edge",
            "sole.apart",
            "sole.starts-behind",
            "sole.thread-diameter",
            "sole.strength",
        ],
    );
    sheets.group(
        sheets.word(words::STACK),
        &["stack.jaw", "stack.off-the-lap", "stack.along", "stack.side", "stack.row-1.laps", "stack.row-2.laps"],
    );
    let mut keys: Vec<String> = Vec::new();
    for row in subjects(job.figures, "sole.row-").into_iter().take(4) {
        keys.extend(["length", "stitches", "pitch", "wall"].map(|what| format!("sole.row-{row}.{what}")));
    }
    let rows: Vec<Row> = keys
        .iter()
        .filter_map(|key| {
            let row = key.split(['-', '.']).nth(2).unwrap_or_default();
            sheets.row(&format!("{} {row}", sheets.word(words::ROW)), key)
        })
        .collect();
    sheets.rows(sheets.word(words::ROWS_OF), &rows);
    sheets.group(
        sheets.word(words::THREAD_AND_BOBBIN),
        &[
            "sole.row-1.needle-thread",
            "sole.row-1.bobbin-thread",
            "sole.thread-pair",
            "sole.bobbin",
            "sole.rows-a-bobbin",
        ],
    );
    sheets.drawing(drawing::section_height(job.build), |at: Point, width| {
        drawing::section(job.build, job.lang, at, width)
    });
    sheets
        .drawing(drawing::bottom_height(job.build), |at: Point, width| drawing::bottom(job.build, job.lang, at, width));
}
