//! What stands on each station's sheet: one file a station.

mod bottoming;
mod closing;
mod cutting;
mod edge;
mod finishing;
mod hardware;
mod heeling;
mod inspection;
mod lasting;
mod skiving;
mod sole_stitching;

use super::Job;
use super::page::Sheets;
use super::station::Station;
use crate::build::{Datum, Figures};

/// Lays one station's sheet.
pub(super) fn lay(station: Station, job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.start(station);
    match station {
        Station::Cutting => cutting::cutting(job, sheets),
        Station::Skiving => skiving::skiving(job, sheets),
        Station::Closing => closing::closing(job, sheets),
        Station::Hardware => hardware::hardware(job, sheets),
        Station::Lasting => lasting::lasting(job, sheets),
        Station::Bottoming => bottoming::bottoming(job, sheets),
        Station::SoleStitching => sole_stitching::sole_stitching(job, sheets),
        Station::Heeling => heeling::heeling(job, sheets),
        Station::Edge => edge::edge(sheets),
        Station::Finishing => finishing::finishing(sheets),
        Station::Inspection => inspection::inspection(job, sheets),
    }
}

/// The second part of every key that starts with `prefix`, each once, in order.
fn subjects(figures: &Figures, prefix: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for figure in figures.iter() {
        let Some(rest) = figure.key.strip_prefix(prefix) else { continue };
        let name = rest.split('.').next().unwrap_or(rest).to_owned();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// What stands in a cell that has nothing to say.
const NOTHING: &str = "–";

/// A figure as a cell, noted as printed.
fn cell(job: &Job<'_>, sheets: &mut Sheets<'_>, key: &str) -> String {
    let Some(figure) = job.figures.get(key) else { return NOTHING.to_owned() };
    let text = sheets.voice().line(figure);
    sheets.note(figure, &text);
    text
}

/// A name and the figures of its key.
fn cells(job: &Job<'_>, sheets: &mut Sheets<'_>, first: String, prefix: &str, what: &[&str]) -> Vec<String> {
    let mut row = vec![first];
    row.extend(what.iter().map(|what| cell(job, sheets, &format!("{prefix}.{what}"))));
    row
}

/// The text of a figure, empty if there is none.
fn text<'f>(figures: &'f Figures, key: &str) -> &'f str {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Text(text)) => text,
        _ => "",
    }
}

/// The texts of a figure.
fn listed<'f>(figures: &'f Figures, key: &str) -> &'f [String] {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Texts(texts)) => texts,
        _ => &[],
    }
}

/// The numbers of a figure.
fn numbers<'f>(figures: &'f Figures, key: &str) -> &'f [f64] {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Numbers(numbers)) => numbers,
        _ => &[],
    }
}

/// The count of a figure.
fn count(figures: &Figures, key: &str) -> usize {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Count(count)) => usize::try_from(*count).unwrap_or(0),
        _ => 0,
    }
}
