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
use crate::build::{Datum, FigureId, Figures, Identity, Slot};

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

/// The first name of every figure of an identity, each once, in order.
fn subjects(figures: &Figures, id: FigureId) -> Vec<Slot> {
    let mut names: Vec<Slot> = Vec::new();
    for name in figures.all_of(id).filter_map(|figure| figure.of.slots.first()) {
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    names
}

/// What stands in a cell that has nothing to say.
const NOTHING: &str = "–";

/// A figure as a cell, noted as printed.
fn cell(job: &Job<'_>, sheets: &mut Sheets<'_>, of: impl Into<Identity>) -> String {
    let Some(figure) = job.figures.of(&of.into()) else { return NOTHING.to_owned() };
    let text = sheets.voice().line(figure);
    sheets.note(figure, &text);
    text
}

/// A name, and figures of the same names.
fn cells(job: &Job<'_>, sheets: &mut Sheets<'_>, first: String, slots: &[Slot], what: &[FigureId]) -> Vec<String> {
    let mut row = vec![first];
    row.extend(what.iter().map(|what| cell(job, sheets, what.of(slots.iter().cloned()))));
    row
}

/// The text of a figure, empty if there is none.
fn text(figures: &Figures, of: impl Into<Identity>) -> &str {
    match figures.of(&of.into()).map(|figure| &figure.datum) {
        Some(Datum::Text(text)) => text,
        _ => "",
    }
}

/// The texts of a figure.
fn listed(figures: &Figures, of: impl Into<Identity>) -> &[String] {
    match figures.of(&of.into()).map(|figure| &figure.datum) {
        Some(Datum::Texts(texts)) => texts,
        _ => &[],
    }
}

/// The numbers of a figure.
fn numbers(figures: &Figures, of: impl Into<Identity>) -> &[f64] {
    match figures.of(&of.into()).map(|figure| &figure.datum) {
        Some(Datum::Numbers(numbers)) => numbers,
        _ => &[],
    }
}

/// The count of a figure.
fn count(figures: &Figures, of: impl Into<Identity>) -> usize {
    match figures.of(&of.into()).map(|figure| &figure.datum) {
        Some(Datum::Count(count)) => usize::try_from(*count).unwrap_or(0),
        _ => 0,
    }
}

/// Whether a figure is there.
fn is_there(figures: &Figures, of: impl Into<Identity>) -> bool {
    figures.of(&of.into()).is_some()
}
