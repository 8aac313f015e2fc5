//! The lasting bench, and turning out.

use crate::sheets::page::{Item, Measure, Sheets};
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn lasting(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("last.stick", None),
        ("last.ball", None),
        ("lasting.insole-nails", None),
        ("lasting.back-height", Some(words::BACK_HEIGHT)),
        ("lasting.tacks", None),
    ]);
    let mut set =
        sheets.listed(words::SETTINGS, &["lasting.order", "counter.of", "counter.reaches", "puff.of", "puff.reaches"]);
    let last = ["last.name", "last.bottom", "last.plate", "last.seat", "last.tread", "last.seat-breadth"];
    set.extend(sheets.listed(words::THE_LAST, &last));
    let cemented = cemented(job, sheets);
    let out = turning_out(sheets);
    set.extend(cemented.into_iter().chain(out));
    let blanks = [words::HOUR_ON, words::HOUR_OFF].map(|word| Item::Blank(sheets.word(word).to_owned()));
    set.extend(blanks);
    sheets.set_and_do(&set, &[]);
    let measured = ["lasting.back-height", "lasting.margin-toe", "lasting.margin-joints", "lasting.margin-heel"];
    let rough = ["edge.rough-forepart", "edge.rough-waist-outside", "edge.rough-waist-inside", "edge.rough-heel"];
    let measures: Vec<Measure> =
        measured.iter().chain(&rough).filter_map(|key| sheets.measure_of(key, words::STEEL_RULE)).collect();
    sheets.measures(&measures);
    drawing(job, sheets);
}

/// The drafting order and the margins, seen from below.
fn drawing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let order = super::listed(job.figures, "lasting.order");
    let order = order.iter().map(|word| (word.clone(), words::role(word, job.lang))).collect();
    let mut margins = Vec::new();
    for margin in job.build.margins.iter().flat_map(|margins| margins.iter()) {
        let said = super::cell(job, sheets, &format!("lasting.margin-{}", margin.place));
        margins.push((margin.place, margin.stated, said));
    }
    let drawing = drawings::Lasting { build: job.build, lang: job.lang, order, margins };
    if let Some(height) = drawing.height() {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// What each lining is cemented in with, where the model says so.
fn cemented(job: &Job<'_>, sheets: &mut Sheets<'_>) -> Vec<Item> {
    let mut items = Vec::new();
    for part in super::listed(job.figures, "upper.lasted-in") {
        if job.figures.get(&format!("upper.lasted-in.{part}.bonded")).is_none() {
            continue;
        }
        for what in ["bonded", "coats", "open", "press", "set", "reactivated"] {
            items.extend(sheets.figure_of(part, &format!("upper.lasted-in.{part}.{what}")));
        }
    }
    sheets.headed(words::ADHESIVE_CARD, items)
}

/// Where the release cut goes and where the turnout is full.
fn turning_out(sheets: &mut Sheets<'_>) -> Vec<Item> {
    let cut = Item::Step(sheets.word(words::RELEASE_AT).to_owned());
    let mut items = vec![cut];
    items.extend(["edge.begins", "edge.holds"].iter().filter_map(|key| sheets.figure(key)));
    sheets.headed(words::RELEASE, items)
}
