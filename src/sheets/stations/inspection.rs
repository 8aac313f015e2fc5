//! First and final inspection.

use super::{cells, subjects};
use crate::build::FigureId as F;
use crate::finding::SeamName;
use crate::sheets::Job;
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::words;

pub(super) fn inspection(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys([
        (F::SoleFromEdge, Some(words::ROW_FROM_EDGE)),
        (F::EdgeForepart, None),
        (F::HeelVisibleInches, Some(words::HEEL_SEEN)),
        (F::ShaftInside, None),
    ]);
    let claims = sheets.listed(words::CLAIMS, [F::ClaimHeight, F::ClaimMeasured, F::ClaimHas, F::ClaimTo]);
    let looks = [words::FEEL, words::ROWS_CLEAN, words::UPPER_CLEAN, words::STANDS, words::SAME];
    sheets.set_and_do(&claims, &looks);
    let ruled = [
        F::EdgeForepart,
        F::EdgeWaistOutside,
        F::EdgeWaistInside,
        F::EdgeHeel,
        F::SoleFromEdge,
        F::SoleApart,
        F::HeelVisibleBack,
        F::HeelVisibleBreast,
        F::ShaftInside,
    ];
    let mut measures: Vec<Measure> = ruled.iter().filter_map(|of| sheets.measure_of(of, words::STEEL_RULE)).collect();
    measures.extend(sheets.measure_of(F::FinishSquareWithin, words::SQUARE));
    measures.extend(sheets.measure_of(F::SeamOver50.of_seam(&SeamName::Sole), words::COUNTED));
    sheets.measures(&measures);
    checks(job, sheets);
}

/// What the model itself asks to be looked at.
fn checks(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut rows = Vec::new();
    for name in subjects(job.figures, F::CheckAt) {
        let mut row =
            cells(job, sheets, name.to_string(), &[name], &[F::CheckAt, F::CheckWith, F::CheckTarget, F::CheckElse]);
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
