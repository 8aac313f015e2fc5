//! The cutting table.

use super::{cells, subjects};
use crate::sheets::Job;
use crate::sheets::page::{Sheets, Table};
use crate::sheets::words;

pub(super) fn cutting(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.steps();
    let names = subjects(job.figures, "part.");
    let columns = ["pattern", "of", "substance", "zone", "pieces", "stretch", "area", "folded"];
    let rows = names.iter().map(|name| {
        let keys: Vec<String> = columns.iter().map(|column| format!("part.{name}.{column}")).collect();
        cells(job, sheets, name.clone(), &keys)
    });
    let rows = rows.collect();
    let heads = [
        words::PART,
        words::PATTERN,
        words::LEATHER,
        words::SUBSTANCE,
        words::ZONE,
        words::PIECES,
        words::STRETCH,
        words::AREA,
        words::FOLDED,
    ];
    sheets.table(&Table {
        widths: vec![3.4, 2.0, 3.2, 2.6, 1.8, 1.3, 1.8, 1.9, 1.6],
        heads: heads.map(|head| sheets.word(head)).to_vec(),
        rows,
    });
}
