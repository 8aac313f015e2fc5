//! The skiving machine.

use super::{cells, subjects};
use crate::sheets::Job;
use crate::sheets::page::{Sheets, Table};
use crate::sheets::values::cell;
use crate::sheets::words;

pub(super) fn skiving(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.steps();
    let mut rows = Vec::new();
    for top in subjects(job.figures, "lap-") {
        let under = cell(job.figures, &format!("lap-{top}.over"));
        for part in [top.clone(), under.clone()] {
            let keys: Vec<String> =
                ["edge-wide", "edge-to", "flat"].iter().map(|what| format!("lap-{top}.{part}-{what}")).collect();
            if keys.iter().any(|key| job.figures.get(key).is_some()) {
                let mut row = cells(job, sheets, part, &keys);
                row.insert(1, format!("{top} over {under}"));
                row.insert(2, cell(job.figures, &format!("lap-{top}.wide")));
                rows.push(row);
            }
        }
    }
    let heads = [words::PART, words::LAP, words::WIDE, words::TAPER_WIDE, words::TAPER_TO, words::FLAT_TO];
    sheets.table(&Table {
        widths: vec![3.0, 4.6, 1.6, 1.8, 2.0, 2.6],
        heads: heads.map(|head| sheets.word(head)).to_vec(),
        rows,
    });
    let stiffeners = [
        "counter.of",
        "counter.thickness",
        "counter.skived",
        "counter.reaches",
        "puff.of",
        "puff.thickness",
        "puff.skived",
        "puff.reaches",
    ];
    sheets.group(sheets.word(words::STIFFENERS), &stiffeners);
}
