//! First and final inspection.

use super::{cells, subjects};
use crate::sheets::Job;
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::words;

pub(super) fn inspection(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("sole.from-edge", Some(words::ROW_FROM_EDGE)),
        ("edge.forepart", None),
        ("heel.visible-inches", Some(words::HEEL_SEEN)),
        ("shaft.inside", None),
    ]);
    let claims = sheets.listed(words::CLAIMS, &["claims.height", "claims.measured", "claims.has", "claims.to"]);
    let looks = [words::FEEL, words::ROWS_CLEAN, words::UPPER_CLEAN, words::STANDS, words::SAME];
    sheets.set_and_do(&claims, &looks);
    let ruled = [
        "edge.forepart",
        "edge.waist-outside",
        "edge.waist-inside",
        "edge.heel",
        "sole.from-edge",
        "sole.apart",
        "heel.visible-back",
        "heel.visible-breast",
        "shaft.inside",
    ];
    let mut measures: Vec<Measure> = ruled.iter().filter_map(|key| sheets.measure_of(key, words::STEEL_RULE)).collect();
    measures.extend(sheets.measure_of("finish.square-within", words::SQUARE));
    measures.extend(sheets.measure_of("sole.over-50", words::COUNTED));
    sheets.measures(&measures);
    checks(job, sheets);
}

/// What the model itself asks to be looked at.
fn checks(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut rows = Vec::new();
    for name in subjects(job.figures, "check.") {
        let mut row = cells(job, sheets, name.clone(), &format!("check.{name}"), &["at", "with", "target", "else"]);
        row.push("□".to_owned());
        rows.push(row);
    }
    let columns = [
        (words::CHECKS, 2.0),
        (words::LOOK_AT, 4.4),
        (words::WITH, 1.7),
        (words::TARGET, 2.0),
        (words::IF_FAILS, 1.4),
        (words::DONE, 0.9),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}
