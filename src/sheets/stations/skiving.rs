//! The skiving machine.

use super::{NOTHING, cell, subjects, text};
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn skiving(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let set = sheets.listed(
        words::STIFFENERS,
        &[
            "counter.of",
            "counter.thickness",
            "counter.skived",
            "counter.reaches",
            "puff.of",
            "puff.thickness",
            "puff.skived",
            "puff.reaches",
        ],
    );
    sheets.set_and_do(&set, &[]);
    let mut rows = Vec::new();
    for (part, lap, key) in skives(job) {
        rows.extend(taper(job, sheets, &part, &lap, &key));
        rows.extend(flat(job, sheets, &part, &lap, &key));
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
        .flat_map(|(part, lap, key)| {
            ["edge-to", "flat"].map(|what| {
                let measure = sheets.measure_of(&format!("{key}.{part}-{what}"), words::GAUGE)?;
                Some(Measure { what: format!("{lap}: {}", measure.what), ..measure })
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
            let key = |what: &str| format!("{}.{}-{what}", lap.key, side.part);
            let mut said = |key: String| cell(job, sheets, &key);
            if let Some(wide) = side.taper {
                let (wide, left) = ((wide, said(key("edge-wide"))), (side.at(0.0), said(key("edge-to"))));
                let name = format!("{}, {}", side.part, words::of(words::TAPER, job.lang));
                skives.push(drawings::Skive { name, wide, left, full: side.full(), flat: false });
            }
            if let Some(flat) = side.flat {
                let (wide, left) = ((section.wide, said(format!("{}.wide", lap.key))), (flat, said(key("flat"))));
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

/// Part, lap and key of every lap's skives: top part first.
fn skives(job: &Job<'_>) -> Vec<(String, String, String)> {
    let mut all = Vec::new();
    for top in subjects(job.figures, "lap-") {
        let key = format!("lap-{top}");
        let under = text(job.figures, &format!("{key}.over")).to_owned();
        for part in [&top, &under] {
            all.push((part.clone(), format!("{top} / {under}"), key.clone()));
        }
    }
    all
}

fn taper(job: &Job<'_>, sheets: &mut Sheets<'_>, part: &str, lap: &str, key: &str) -> Option<Vec<String>> {
    job.figures.get(&format!("{key}.{part}-edge-to"))?;
    let [wide, to] = ["wide", "to"].map(|what| cell(job, sheets, &format!("{key}.{part}-edge-{what}")));
    let how = sheets.word(words::TAPER).to_owned();
    let at = sheets.word(words::AT_THE_EDGE).to_owned();
    Some(vec![part.to_owned(), lap.to_owned(), how, wide, to, at, String::new()])
}

/// Over the whole lap, where it lies in the turnout: a line of its own.
fn flat(job: &Job<'_>, sheets: &mut Sheets<'_>, part: &str, lap: &str, key: &str) -> Option<Vec<String>> {
    job.figures.get(&format!("{key}.{part}-flat"))?;
    let wide = cell(job, sheets, &format!("{key}.wide"));
    let to = cell(job, sheets, &format!("{key}.{part}-flat"));
    debug_assert_ne!(to, NOTHING);
    let how = sheets.word(words::FLAT).to_owned();
    let at = sheets.word(words::MID_FLAT).to_owned();
    Some(vec![part.to_owned(), lap.to_owned(), how, wide, to, at, String::new()])
}
