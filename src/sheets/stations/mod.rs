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
use super::values::{bare, times};
use crate::build::Figures;

/// Lays one station's sheet.
pub(super) fn lay(station: Station, job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.start(station);
    match station {
        Station::Cutting => cutting::cutting(job, sheets),
        Station::Skiving => skiving::skiving(job, sheets),
        Station::Closing => closing::closing(job, sheets),
        Station::Hardware => hardware::hardware(sheets),
        Station::Lasting => lasting::lasting(sheets),
        Station::Bottoming => bottoming::bottoming(job, sheets),
        Station::SoleStitching => sole_stitching::sole_stitching(job, sheets),
        Station::Heeling => heeling::heeling(job, sheets),
        Station::Edge => edge::edge(sheets),
        Station::Finishing => finishing::finishing(sheets),
        Station::Inspection => inspection::inspection(job, sheets),
    }
    sheets.cautions();
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

/// Cells of one subject, noted as printed.
fn cells(job: &Job<'_>, sheets: &mut Sheets<'_>, first: String, keys: &[String]) -> Vec<String> {
    let mut row = vec![first];
    for key in keys {
        let text = job.figures.get(key).map(|figure| {
            let text = if figure.unit == "minutes" { times(figure) } else { bare(figure) };
            sheets.note(figure, &text);
            text
        });
        row.push(text.unwrap_or_else(|| "–".to_owned()));
    }
    row
}
