//! Eyelets and hooks.

use super::{NOTHING, cell, count, numbers};
use crate::sheets::Job;
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::words;

pub(super) fn hardware(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("facing.hooks", None),
        ("facing.eyelets", None),
        ("facing.first", None),
        ("facing.from-edge", None),
    ]);
    let set = sheets.listed(
        words::SETTINGS,
        &[
            "facing.with",
            "facing.hooks-of",
            "facing.hooks-punch",
            "facing.eyelets-of",
            "facing.eyelets-punch",
            "facing.stack",
            "facing.backed",
            "facing.backing",
            "facing.long",
            "facing.rows",
        ],
    );
    sheets.set_and_do(&set, &[]);
    centres(job, sheets);
    let measures: Vec<Measure> = ["facing.first", "facing.last", "facing.from-edge"]
        .iter()
        .filter_map(|key| sheets.to_measure(key, words::STEEL_RULE))
        .collect();
    sheets.measures(&measures);
}

/// Every hole from the top down: hooks above, eyelets below.
fn centres(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let (hooks, centres) = (count(job.figures, "facing.hooks"), numbers(job.figures, "facing.centres"));
    let gaps = numbers(job.figures, "facing.gaps");
    // Both lists are noted as what they are: figures of the JSON.
    let all = ["facing.centres", "facing.gaps"].map(|key| cell(job, sheets, key));
    if all[0] == NOTHING {
        return;
    }
    let voice = sheets.voice();
    let mm = |value: f64| format!("{} mm", voice.bare(value, 2));
    let [hook, eyelet] = [words::HOOK, words::EYELET].map(|word| sheets.word(word));
    let rows = centres.iter().enumerate().map(|(n, centre)| {
        let what = if n < hooks { hook } else { eyelet };
        let gap = gaps.get(n).map_or_else(|| NOTHING.to_owned(), |gap| mm(*gap));
        vec![format!("{}", n + 1), what.to_owned(), mm(*centre), gap]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let columns = [(words::NUMBER, 1.0), (words::HOLE, 2.0), (words::FROM_TOP, 3.0), (words::TO_NEXT, 3.0)];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}
