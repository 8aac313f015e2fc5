//! Eyelets and hooks.

use super::{NOTHING, count, numbers};
use crate::build::{Datum, Figure, FigureId as F, Slot};
use crate::sheets::page::{Measure, Sheets, Table};
use crate::sheets::values::Voice;
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn hardware(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys([
        (F::HardwareCount.of([Slot::Word("hooks")]), None),
        (F::HardwareCount.of([Slot::Word("eyelets")]), None),
        (F::FacingFirst.into(), None),
        (F::FacingFromEdge.into(), None),
    ]);
    let set = sheets.listed(
        words::SETTINGS,
        &[
            F::FacingWith.into(),
            F::HardwareOf.of([Slot::Word("hooks")]),
            F::HardwarePunch.of([Slot::Word("hooks")]),
            F::HardwareOf.of([Slot::Word("eyelets")]),
            F::HardwarePunch.of([Slot::Word("eyelets")]),
            F::FacingStack.into(),
            F::FacingBacked.into(),
            F::FacingBacking.into(),
            F::FacingLong.into(),
            F::FacingRows.into(),
        ],
    );
    sheets.set_and_do(&set, &[]);
    centres(job, sheets);
    let measures: Vec<Measure> = [F::FacingFirst, F::FacingLast, F::FacingFromEdge]
        .iter()
        .filter_map(|id| sheets.measure_of(id, words::STEEL_RULE))
        .collect();
    sheets.measures(&measures);
    drawing(job, sheets);
}

/// The facing laid flat.
fn drawing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let voice = sheets.voice();
    let centres = numbers(job.figures, F::FacingCentres).iter();
    // The title has their unit.
    let bare = |said: String| said.trim_end_matches("mm").trim_end().to_owned();
    let centres = centres.map(|centre| bare(one_of(job, sheets, F::FacingCentres, Some(centre), voice))).collect();
    let from_edge = super::cell(job, sheets, F::FacingFromEdge);
    let drawing = drawings::Facing { build: job.build, lang: job.lang, from_edge, centres };
    if let Some(height) = drawing.height(sheets.width()) {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// Every hole from the top down, hooks above, eyelets below: in two halves beside each other.
fn centres(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let (hooks, centres) =
        (count(job.figures, F::HardwareCount.of([Slot::Word("hooks")])), numbers(job.figures, F::FacingCentres));
    let gaps = numbers(job.figures, F::FacingGaps);
    let voice = sheets.voice();
    let [hook, eyelet] = [words::HOOK, words::EYELET].map(|word| sheets.word(word));
    let mut rows = Vec::new();
    for (n, centre) in centres.iter().enumerate() {
        let what = if n < hooks { hook } else { eyelet };
        let mut row = vec![format!("{}", n + 1), what.to_owned()];
        for (id, value) in [(F::FacingCentres, Some(centre)), (F::FacingGaps, gaps.get(n))] {
            row.push(one_of(job, sheets, id, value, voice));
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
fn one_of(job: &Job<'_>, sheets: &mut Sheets<'_>, id: F, value: Option<&f64>, voice: Voice) -> String {
    let (Some(figure), Some(value)) = (job.figures.of(&id.into()), value) else { return NOTHING.to_owned() };
    let text = voice.line(&Figure { datum: Datum::Number(*value), sum: None, ..figure.clone() });
    sheets.note(figure, &text);
    text
}
