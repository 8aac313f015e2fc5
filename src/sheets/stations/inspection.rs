//! First and final inspection.

use super::{cells, subjects};
use crate::sheets::Job;
use crate::sheets::page::{Sheets, Table};
use crate::sheets::words;

pub(super) fn inspection(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("sole.from-edge", Some(words::ROW_FROM_EDGE)),
        ("edge.forepart", None),
        ("heel.visible-inches", Some(words::HEEL_SEEN)),
        ("shaft.inside", None),
    ]);
    sheets.steps();
    sheets.group(
        sheets.word(words::MEASURE),
        &[
            "edge.forepart",
            "edge.waist-outside",
            "edge.waist-inside",
            "edge.heel",
            "sole.from-edge",
            "sole.apart",
            "sole.row-1.stitches",
            "heel.visible-back",
            "heel.visible-breast",
            "finish.square-within",
        ],
    );
    let mut rows = Vec::new();
    for name in subjects(job.figures, "check.") {
        let keys: Vec<String> =
            ["at", "with", "target", "else"].iter().map(|what| format!("check.{name}.{what}")).collect();
        let mut row = cells(job, sheets, name, &keys);
        row.push("□".to_owned());
        rows.push(row);
    }
    let heads = [words::CHECKS, words::LOOK_AT, words::WITH, words::TARGET, words::IF_FAILS, words::DONE];
    sheets.table(&Table {
        widths: vec![2.2, 4.6, 1.6, 1.8, 1.4, 1.0],
        heads: heads.map(|head| sheets.word(head)).to_vec(),
        rows,
    });
    sheets.group(sheets.word(words::CLAIMS), &["claims.height", "claims.measured", "claims.to"]);
}
