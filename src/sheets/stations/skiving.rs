//! The skiving machine.

use super::cell;
use crate::build::{FigureId as F, Identity, Slot};
use crate::finding::SeamName;
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn skiving(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let set = sheets.listed(
        words::STIFFENERS,
        &[
            F::StiffenerOf.of([Slot::Word("counter")]),
            F::StiffenerThickness.of([Slot::Word("counter")]),
            F::StiffenerSkived.of([Slot::Word("counter")]),
            F::StiffenerReaches.of([Slot::Word("counter")]),
            F::StiffenerOf.of([Slot::Word("puff")]),
            F::StiffenerThickness.of([Slot::Word("puff")]),
            F::StiffenerSkived.of([Slot::Word("puff")]),
            F::StiffenerReaches.of([Slot::Word("puff")]),
        ],
    );
    sheets.set_and_do(&set, &[]);
    let mut rows = Vec::new();
    for skive in skives(job) {
        rows.extend(taper(job, sheets, &skive));
        rows.extend(flat(job, sheets, &skive));
    }
    let columns = [
        (words::PART, 2.8),
        (words::LAP, 3.6),
        (words::HOW_SKIVED, 2.2),
        (words::EDGE_WIDE, 1.7),
        (words::SKIVED_TO, 2.2),
        (words::GAUGE_AT, 2.6),
        (words::SIDE_SKIVED, 2.0),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
    let measures: Vec<Measure> = skives(job)
        .iter()
        .flat_map(|skive| {
            [F::SkiveEdge, F::SkiveFlat].map(|id| {
                let measure = sheets.measure_of(id.of(skive.slots()), words::GAUGE)?;
                Some(Measure { what: format!("{}: {}", skive.lap, measure.what), ..measure })
            })
        })
        .flatten()
        .collect();
    sheets.measures(&measures);
    drawing(job, sheets);
}

/// Every skive cut across.
fn drawing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut skives = Vec::new();
    for lap in &job.build.upper.laps {
        let Ok(section) = &lap.section else { continue };
        for side in [&section.top, &section.under] {
            let of = |id: F| id.of([Slot::Seam(SeamName::Lap(lap.name.clone())), Slot::typed(&*side.part)]);
            let mut said = |of: Identity| cell(job, sheets, of);
            if let Some(wide) = side.taper {
                let (wide, left) = ((wide, said(of(F::SkiveWide))), (side.at(0.0), said(of(F::SkiveEdge))));
                let name = format!("{}, {}", side.part, words::of(words::TAPER, job.lang));
                skives.push(drawings::Skive { name, wide, left, full: side.full(), flat: false });
            }
            if let Some(flat) = side.flat {
                let (wide, left) = (
                    (section.wide, said(F::LapWide.of_seam(&SeamName::Lap(lap.name.clone())))),
                    (flat, said(of(F::SkiveFlat))),
                );
                let name = format!("{}, {}", side.part, words::of(words::FLAT, job.lang));
                skives.push(drawings::Skive { name, wide, left, full: side.full(), flat: true });
            }
        }
    }
    let drawing = drawings::Skives { skives, lang: job.lang };
    if let Some(height) = drawing.height(sheets.width()) {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// A part of a lap that may be skived.
struct Skived {
    part: Slot,
    /// `vamp / quarter`
    lap: String,
    seam: Slot,
}

impl Skived {
    fn slots(&self) -> [Slot; 2] {
        [self.seam.clone(), self.part.clone()]
    }

    /// A row of the table: how, how wide, to what, where it is gauged.
    fn row(&self, how: &str, [wide, to]: [String; 2], at: &str) -> Vec<String> {
        vec![self.part.to_string(), self.lap.clone(), how.to_owned(), wide, to, at.to_owned(), String::new()]
    }
}

/// Both parts of every lap, the top one first.
fn skives(job: &Job<'_>) -> Vec<Skived> {
    let mut all = Vec::new();
    for lap in &job.build.upper.laps {
        let (top, under) = (&lap.name.top, &lap.name.under);
        for part in [top, under] {
            let (part, lap_of) = (Slot::typed(&**part), format!("{top} / {under}"));
            all.push(Skived { part, lap: lap_of, seam: Slot::Seam(SeamName::Lap(lap.name.clone())) });
        }
    }
    all
}

fn taper(job: &Job<'_>, sheets: &mut Sheets<'_>, skive: &Skived) -> Option<Vec<String>> {
    job.figures.of(&F::SkiveEdge.of(skive.slots()))?;
    let said = [F::SkiveWide, F::SkiveEdge].map(|id| cell(job, sheets, id.of(skive.slots())));
    Some(skive.row(sheets.word(words::TAPER), said, sheets.word(words::AT_THE_EDGE)))
}

/// Over the whole lap, where it lies in the turnout: a line of its own.
fn flat(job: &Job<'_>, sheets: &mut Sheets<'_>, skive: &Skived) -> Option<Vec<String>> {
    job.figures.of(&F::SkiveFlat.of(skive.slots()))?;
    let said = [F::LapWide.of([skive.seam.clone()]), F::SkiveFlat.of(skive.slots())].map(|of| cell(job, sheets, of));
    Some(skive.row(sheets.word(words::FLAT), said, sheets.word(words::MID_FLAT)))
}
