//! The cutting table.

use super::{cells, count, subjects};
use crate::build::{FigureId as F, Slot};
use crate::sheets::Job;
use crate::sheets::page::{Item, Sheets, Table};
use crate::sheets::words;

pub(super) fn cutting(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let hides = from_a_hide(job, sheets);
    let hides = sheets.headed(words::FROM_A_HIDE, hides);
    sheets.set_and_do(&hides, &[]);
    let names = subjects(job.figures, F::PartPieces);
    let columns = [
        F::PartPattern,
        F::PartOf,
        F::PartSubstance,
        F::PartZone,
        F::PartPieces,
        F::PartStretch,
        F::PartArea,
        F::PartFolded,
    ];
    let rows = names.iter().map(|name| {
        let mut row = cells(job, sheets, name.to_string(), std::slice::from_ref(name), &columns);
        let arrow = arrow(job, name);
        if !arrow.is_empty() {
            row[6] = format!("{arrow} {}", row[6]);
        }
        row
    });
    let rows = rows.collect();
    let columns = [
        (words::PART, 2.8),
        (words::PATTERN, 1.7),
        (words::LEATHER, 2.6),
        (words::BOUGHT, 3.0),
        (words::ZONE, 1.5),
        (words::PIECES, 1.0),
        (words::ARROWS, 2.0),
        (words::AREA, 2.0),
        (words::FOLDED, 1.5),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// The way in which the leather stretches, as the arrow on the pattern lies.
fn arrow(job: &Job<'_>, part: &Slot) -> &'static str {
    match super::text(job.figures, F::PartStretch.of([part.clone()])) {
        "along" => "↕",
        "across" => "↔",
        _ => "",
    }
}

/// What one hide of each leather gives: whole pairs; hides for a pair where one is not enough.
fn from_a_hide(job: &Job<'_>, sheets: &mut Sheets<'_>) -> Vec<Item> {
    let mut items = Vec::new();
    for leather in subjects(job.figures, F::LeatherHides) {
        let [pairs, hides] = [F::LeatherPairs, F::LeatherHides].map(|id| id.of([leather.clone()]));
        let less_than_one = count(job.figures, &pairs) == 0;
        items.extend(sheets.figure(if less_than_one { hides } else { pairs }));
    }
    items
}
