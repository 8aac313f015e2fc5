//! The closing room.

use super::{cells, text};
use crate::sheets::Job;
use crate::sheets::page::{Item, Measure, Sheets, Table};
use crate::sheets::words;

pub(super) fn closing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let seams = in_order(job);
    sheets.set_and_do(&[], &[]);
    settings(job, sheets, &seams);
    joins(job, sheets, &seams);
    let measures: Vec<Measure> = seams.iter().flat_map(|seam| to_measure(sheets, seam)).collect();
    sheets.measures(&measures);
    let mut others = sheets.listed(words::MARK, &["mark.how", "mark.says", "mark.on"]);
    others.extend(sheets.listed(words::UPPER, &["shaft.inside", "upper.turned-out", "upper.lasted-in"]));
    sheets.balanced(&others);
}

/// A seam's name and key.
type Seam = (String, String);

/// The seams in the order in which their steps stand in the route; the machine's order of the model otherwise.
fn in_order(job: &Job<'_>) -> Vec<Seam> {
    let closed = job.build.seams.iter().filter(|seam| !matches!(&*seam.key, "sole" | "forefoot"));
    let mut seams: Vec<Seam> = closed.map(|seam| (seam.name.to_string(), seam.key.to_string())).collect();
    let steps = super::listed(job.figures, "route.steps");
    seams.sort_by_key(|(_, key)| steps.iter().position(|step| step == step_of(job, key)));
    seams
}

/// The step of the route in which a seam is sewn.
fn step_of(job: &Job<'_>, key: &str) -> &'static str {
    let enters = |side: &str| job.figures.get(&format!("{key}.enters-{side}")).is_some();
    match key.split('-').next() {
        Some("seam") => "close-back",
        Some("stay") => "stay",
        Some("gusset") => "gusset",
        Some("collar") => "collar",
        _ if enters("inside") || enters("outside") => "close-vamp",
        _ => "counter-cover",
    }
}

/// What the machine is set to, in the order of the seams.
fn settings(job: &Job<'_>, sheets: &mut Sheets<'_>, seams: &[Seam]) {
    let columns = ["machine", "thread", "needle", "pitch", "over-50", "rows", "first", "apart"];
    let rows = (1..).zip(seams).map(|(n, (name, key))| cells(job, sheets, format!("{n}  {name}"), key, &columns));
    let rows = rows.collect();
    let columns = [
        (words::SEAM, 3.6),
        (words::MACHINE, 2.0),
        (words::THREAD, 2.2),
        (words::NEEDLE, 1.5),
        (words::PITCH, 2.1),
        (words::OVER_50, 1.1),
        (words::ROWS, 0.9),
        (words::FIRST, 1.6),
        (words::APART, 1.6),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// What lies under each seam and how it is laid: lap, stay, gusset, fold; where to start and stop is for the bench to say.
fn joins(job: &Job<'_>, sheets: &mut Sheets<'_>, seams: &[Seam]) {
    let mut items = Vec::new();
    for (name, key) in seams {
        for what in ["joins", "over", "of", "covers", "wide", "allowance", "rubbed-flat", "loop", "to", "folded"] {
            let key = format!("{key}.{what}");
            if text(job.figures, &key) != "no" {
                items.extend(sheets.figure_of(name, &key));
            }
        }
        for what in ["enters-outside", "enters-inside"] {
            items.extend(sheets.figure_of(name, &format!("{key}.{what}")));
        }
        items.push(Item::Blank(format!("{name}: {}", sheets.word(words::START_STOP))));
    }
    sheets.grouped(words::PARTS_JOINED, &items);
}

/// Stitches over 50 mm and the first row's gauge.
fn to_measure(sheets: &mut Sheets<'_>, (name, key): &Seam) -> Vec<Measure> {
    let named = |measure: Measure| Measure { what: format!("{name}: {}", measure.what), ..measure };
    let counted = sheets.to_measure(&format!("{key}.over-50"), words::COUNTED);
    let first = sheets.to_measure(&format!("{key}.first"), words::STEEL_RULE);
    counted.into_iter().chain(first).map(named).collect()
}
