//! Layers, adhesive, nails, the forefoot.

use super::{NOTHING, cell, cells, is_there, subjects, text};
use crate::build::{BondOf, Datum, FigureId as F, Identity, Slot};
use crate::finding::SeamName;
use crate::sheets::page::{Item, Sheets, Table};
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn bottoming(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    // Where a filler runs out the first nails are longer than most: the large figure must not pass for all of them.
    let several = is_there(job.figures, F::NailsOutsideRuns.of([Slot::Word("waist")]));
    sheets.keys([
        (F::NailsEighths.of([Slot::Word("waist")]), Some(if several { words::WAIST_MOST } else { words::WAIST_NAIL })),
        (F::NailsCount.of([Slot::Word("waist")]), Some(words::WAIST_COUNT)),
        (F::NailsEighths.of([Slot::Word("seat")]), Some(words::SEAT_NAIL)),
        (F::NailsCount.of([Slot::Word("seat")]), Some(words::SEAT_COUNT)),
        (F::ForefootStitches.into(), Some(words::FOREFOOT_STITCHES)),
    ]);
    let mut set = sheets.listed(
        words::FOREFOOT_HEAD,
        &[
            F::SeamMachine.of_seam(&SeamName::Forefoot),
            F::SeamThread.of_seam(&SeamName::Forefoot),
            F::SeamNeedle.of_seam(&SeamName::Forefoot),
            F::SeamPitch.of_seam(&SeamName::Forefoot),
            F::SeamOver50.of_seam(&SeamName::Forefoot),
            F::ForefootInset.into(),
            F::ForefootLength.into(),
            F::ForefootLayers.into(),
            F::ForefootThreadUsed.into(),
        ],
    );
    for (heading, line) in [(words::WAIST_NAILS, "waist"), (words::SEAT_NAILS, "seat")] {
        let nails = nail_line(sheets, line);
        set.extend(sheets.headed(heading, nails));
    }
    sheets.set_and_do(&set, &[]);
    layers(job, sheets);
    adhesives(job, sheets);
    let nailed = [&job.build.waist, &job.build.seat].iter().any(|nails| matches!(nails, Some(Ok(_))));
    if nailed && job.build.rows.is_ok() {
        let height = drawings::bottom_height(job.build);
        sheets
            .drawing(height, |at, width| drawings::bottom(job.build, job.lang, drawings::Bench::Bottoming, at, width));
    }
}

/// What a line of nails needs at the bench: which nail, where, how far apart on each side.
fn nail_line(sheets: &mut Sheets<'_>, line: &'static str) -> Vec<Item> {
    let of_line = [
        F::NailsWith,
        F::NailsLength,
        F::NailsOutsideRuns,
        F::NailsOutsideLengths,
        F::NailsInsideRuns,
        F::NailsInsideLengths,
        F::NailsWindow,
        F::NailsClinch,
        F::NailsLayers,
        F::NailsInset,
        F::NailsOutside,
        F::NailsSpacingOutside,
        F::NailsInside,
        F::NailsSpacingInside,
        F::NailsSpacing,
    ];
    let of_this = |id: F| id.of([Slot::Word(line)]);
    let mut all: Vec<Identity> = of_line.into_iter().map(of_this).collect();
    all.extend(match line {
        "waist" => [F::WaistToForefootOutside.into(), F::WaistToForefootInside.into(), of_this(F::NailsTo)],
        _ => [of_this(F::NailsTo), F::SeatHollow.into(), F::SeatRelieved.into()],
    });
    all.into_iter().filter_map(|of| sheets.figure(of)).collect()
}

/// Every layer, from the foot down.
fn layers(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut rows = Vec::new();
    for role in roles(job) {
        let of_layer = |id: F| id.of([Slot::Word(role)]);
        let bond = F::BondWith.of([Slot::Bond(BondOf::Layer(role))]);
        let stock = cell(job, sheets, of_layer(F::LayerOf));
        let whole = [F::LayerThickness, F::LayerHammeredThickness].map(|id| cell(job, sheets, of_layer(id)));
        let parts = [F::LayerBaseThickness, F::LayerLugThickness].map(|id| cell(job, sheets, of_layer(id)));
        let known: Vec<String> = whole.into_iter().chain(parts).filter(|text| *text != NOTHING).collect();
        let mut row = vec![words::role(role, job.lang), stock, known.join(" +\n")];
        row.extend([F::LayerCovers, F::LayerBreadth].map(|id| cell(job, sheets, of_layer(id))));
        row.push(match job.figures.of(&of_layer(F::LayerEndsBehind)).map(|figure| &figure.datum) {
            Some(Datum::Number(behind)) => {
                let said = cell(job, sheets, of_layer(F::LayerEndsBehind));
                let behind = if *behind == 0.0 { String::new() } else { format!(" – {said}") };
                format!("{}{behind}", sheets.word(words::BREAST))
            }
            _ => cell(job, sheets, of_layer(F::LayerEndsFull)),
        });
        row.extend([of_layer(F::LayerGrain), bond].map(|of| cell(job, sheets, of)));
        rows.push(row);
    }
    let columns = [
        (words::LAYER, 1.8),
        (words::OF_STOCK, 2.0),
        (words::THICK, 3.6),
        (words::COVERS, 1.4),
        (words::BREADTH, 1.3),
        (words::HEEL_END, 1.9),
        (words::GRAIN, 1.1),
        (words::ADHESIVE, 1.8),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// One card a bond: coats, minutes from and to, press, set; temperatures are the bench's to write.
fn adhesives(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let named = |role: &'static str| (words::role(role, job.lang), BondOf::Layer(role));
    let bonds: Vec<(String, BondOf)> = roles(job).into_iter().map(named).collect();
    adhesive_card(job, sheets, &bonds);
}

/// The roles of the layers, from the foot down.
fn roles(job: &Job<'_>) -> Vec<&'static str> {
    let role = |slot| if let Slot::Word(role) = slot { Some(role) } else { None };
    subjects(job.figures, F::LayerOf).into_iter().filter_map(role).collect()
}

/// What is bonded, in the words of the sheet, with its bond.
pub(super) fn adhesive_card(job: &Job<'_>, sheets: &mut Sheets<'_>, bonds: &[(String, BondOf)]) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for (name, bond) in bonds {
        let slots = [Slot::Bond(bond.clone())];
        if text(job.figures, F::BondWith.of(slots.clone())).is_empty() {
            continue;
        }
        let what = [F::BondWith, F::BondCoats, F::BondOpen, F::BondPress, F::BondSet, F::BondReactivated];
        let mut row = cells(job, sheets, name.clone(), &slots, &what);
        row.push("____ °C".to_owned());
        rows.push(row);
    }
    if rows.is_empty() {
        return;
    }
    sheets.heading(sheets.word(words::ADHESIVE_CARD));
    let columns = [
        (words::LAYER, 1.8),
        (words::ADHESIVE, 2.0),
        (words::COATS, 1.0),
        (words::OPEN, 1.8),
        (words::PRESS, 1.3),
        (words::SET, 1.2),
        (words::WARMED, 1.2),
        (words::TEMPERATURE, 1.5),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}
