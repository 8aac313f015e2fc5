//! Eyelets and hooks.

use super::{NOTHING, count, numbers};
use crate::build::{Datum, Figure};
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::values::Voice;
use crate::sheets::words;
use crate::sheets::{Job, drawings};

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
        .filter_map(|key| sheets.measure_of(key, words::STEEL_RULE))
        .collect();
    sheets.measures(&measures);
    drawing(job, sheets);
}

/// The facing laid flat.
fn drawing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let voice = sheets.voice();
    let centres = numbers(job.figures, "facing.centres").iter();
    // The title has their unit.
    let bare = |said: String| said.trim_end_matches("mm").trim_end().to_owned();
    let centres = centres.map(|centre| bare(one_of(job, sheets, "facing.centres", Some(centre), voice))).collect();
    let from_edge = super::cell(job, sheets, "facing.from-edge");
    let drawing = drawings::Facing { build: job.build, lang: job.lang, from_edge, centres };
    if let Some(height) = drawing.height(sheets.width()) {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// Every hole from the top down, hooks above, eyelets below: in two halves beside each other.
fn centres(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let (hooks, centres) = (count(job.figures, "facing.hooks"), numbers(job.figures, "facing.centres"));
    let gaps = numbers(job.figures, "facing.gaps");
    let voice = sheets.voice();
    let [hook, eyelet] = [words::HOOK, words::EYELET].map(|word| sheets.word(word));
    let mut rows = Vec::new();
    for (n, centre) in centres.iter().enumerate() {
        let what = if n < hooks { hook } else { eyelet };
        let mut row = vec![format!("{}", n + 1), what.to_owned()];
        for (key, value) in [("facing.centres", Some(centre)), ("facing.gaps", gaps.get(n))] {
            row.push(one_of(job, sheets, key, value, voice));
        }
        rows.push(row);
    }
    let lower = rows.split_off(rows.len().div_ceil(2));
    let blank = || vec![String::new(); 4];
    let lower = lower.into_iter().map(Some).chain(std::iter::repeat_with(|| None));
    let rows =
        rows.into_iter().zip(lower).map(|(upper, lower)| [upper, lower.unwrap_or_else(blank)].concat()).collect();
    let half = [(words::NUMBER, 0.8), (words::HOLE, 1.6), (words::FROM_TOP, 2.4), (words::TO_NEXT, 2.2)];
    let columns = [half, half].concat();
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// One number of a list, noted as printed.
fn one_of(job: &Job<'_>, sheets: &mut Sheets<'_>, key: &str, value: Option<&f64>, voice: Voice) -> String {
    let (Some(figure), Some(value)) = (job.figures.get(key), value) else { return NOTHING.to_owned() };
    let text = voice.line(&Figure { datum: Datum::Number(*value), sum: None, ..figure.clone() });
    sheets.note(figure, &text);
    text
}
