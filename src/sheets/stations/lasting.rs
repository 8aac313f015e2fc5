//! The lasting bench, and turning out.

use crate::build::{BondOf, FigureId as F, Slot};
use crate::sheets::page::{Item, Measure, Sheets};
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn lasting(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys([
        (F::LastStick, None),
        (F::LastBall, None),
        (F::LastingInsoleNails, None),
        (F::LastingBackHeight, Some(words::BACK_HEIGHT)),
        (F::LastingTacks, None),
    ]);
    let mut set = sheets.listed(
        words::SETTINGS,
        &[
            F::LastingOrder.into(),
            F::StiffenerOf.of([Slot::Word("counter")]),
            F::StiffenerReaches.of([Slot::Word("counter")]),
            F::StiffenerOf.of([Slot::Word("puff")]),
            F::StiffenerReaches.of([Slot::Word("puff")]),
        ],
    );
    let last = [F::LastName, F::LastBottom, F::LastPlate, F::LastSeat, F::LastTread, F::LastSeatBreadth];
    set.extend(sheets.listed(words::THE_LAST, last));
    let cemented = cemented(job, sheets);
    let out = turning_out(sheets);
    set.extend(cemented.into_iter().chain(out));
    let blanks = [words::HOUR_ON, words::HOUR_OFF].map(|word| Item::Blank(sheets.word(word).to_owned()));
    set.extend(blanks);
    sheets.set_and_do(&set, &[]);
    let measured = [
        F::LastingBackHeight.into(),
        F::LastingMargin.of([Slot::Word("toe")]),
        F::LastingMargin.of([Slot::Word("joints")]),
        F::LastingMargin.of([Slot::Word("heel")]),
    ];
    let rough = [F::EdgeRoughForepart, F::EdgeRoughWaistOutside, F::EdgeRoughWaistInside, F::EdgeRoughHeel];
    let measures: Vec<Measure> = measured
        .into_iter()
        .chain(rough.map(Into::into))
        .filter_map(|of| sheets.measure_of(of, words::STEEL_RULE))
        .collect();
    sheets.measures(&measures);
    drawing(job, sheets);
}

/// The drafting order and the margins, seen from below.
fn drawing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let order = super::listed(job.figures, F::LastingOrder);
    let order = order.iter().map(|word| (word.clone(), words::role(word, job.lang))).collect();
    let mut margins = Vec::new();
    for margin in job.build.margins.iter().flat_map(|margins| margins.iter()) {
        let said = super::cell(job, sheets, F::LastingMargin.of([Slot::Word(margin.place)]));
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
    for part in super::listed(job.figures, F::UpperLastedIn) {
        let of_bond = |id: F| id.of([Slot::Bond(BondOf::Lining(part.as_str().into()))]);
        if !super::is_there(job.figures, of_bond(F::BondWith)) {
            continue;
        }
        for what in [F::BondWith, F::BondCoats, F::BondOpen, F::BondPress, F::BondSet, F::BondReactivated] {
            items.extend(sheets.figure_of(part, of_bond(what)));
        }
    }
    sheets.headed(words::ADHESIVE_CARD, items)
}

/// Where the release cut goes and where the turnout is full.
fn turning_out(sheets: &mut Sheets<'_>) -> Vec<Item> {
    let cut = Item::Step(sheets.word(words::RELEASE_AT).to_owned());
    let mut items = vec![cut];
    items.extend([F::EdgeBegins, F::EdgeHolds].iter().filter_map(|of| sheets.figure(of)));
    sheets.headed(words::RELEASE, items)
}
