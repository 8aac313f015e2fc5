//! The cutting table.

use super::{cell, cells, subjects};
use crate::sheets::Job;
use crate::sheets::page::{Item, Sheets, Table};
use crate::sheets::words;

pub(super) fn cutting(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let hides = from_a_hide(job, sheets);
    let hides = sheets.headed(words::FROM_A_HIDE, hides);
    sheets.set_and_do(&hides, &[]);
    let names = subjects(job.figures, "part.");
    let columns = ["pattern", "of", "substance", "zone", "pieces", "stretch", "area", "folded"];
    let rows = names.iter().map(|name| {
        let mut row = cells(job, sheets, name.clone(), &format!("part.{name}"), &columns);
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
fn arrow(job: &Job<'_>, part: &str) -> &'static str {
    match super::text(job.figures, &format!("part.{part}.stretch")) {
        "along" => "↕",
        "across" => "↔",
        _ => "",
    }
}

/// What one hide of each leather gives: whole pairs; hides for a pair where one is not enough.
fn from_a_hide(job: &Job<'_>, sheets: &mut Sheets<'_>) -> Vec<Item> {
    let leathers = subjects(job.figures, "takes.leather.");
    let mut items = Vec::new();
    for leather in leathers {
        let pairs = format!("takes.leather.{leather}.pairs");
        let hides = format!("takes.leather.{leather}.hides");
        let less_than_one = cell(job, sheets, &pairs) == "0";
        items.extend(sheets.figure(if less_than_one { &hides } else { &pairs }));
    }
    items
}
