//! The skiving machine.

use super::{NOTHING, cell, subjects, text};
use crate::sheets::Job;
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::words;

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
