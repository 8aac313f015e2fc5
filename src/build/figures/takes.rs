//! Figures of what a pair takes.

use super::List;
use crate::build::figure::{FigureId as F, Slot};
use crate::build::takes::{Held, adhesives, blanks, layers, leathers, nails, pieces, threads, upper_rows};
use crate::build::{Build, of};
use crate::measure::Size;
use std::collections::BTreeMap;

pub(super) fn takes(build: &Build<'_>, list: &mut List) {
    upper(build, list);
    bottom(build, list);
    bonds(build, list);
    thread(build, list);
    by_count(build, list);
}

fn upper(build: &Build<'_>, list: &mut List) {
    for leather in leathers(build).unwrap_or_default() {
        let name = Slot::typed(&*leather.name);
        for zone in &leather.zones {
            let of = |id: F| id.of([name.clone(), Slot::Word(zone.zone)]);
            list.number(of(F::LeatherZoneNet), zone.net);
            if let Some(gross) = zone.gross {
                list.number(of(F::LeatherZoneGross), gross);
            }
            if let Some(hides) = zone.hides {
                list.number(of(F::LeatherZoneHides), hides);
            }
        }
        if let Some(hides) = leather.hides {
            list.number(F::LeatherHides.of([name.clone()]), hides);
            if hides > 0.0 {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a hide gives some pairs, never a negative number of them"
                )]
                let pairs = (1.0 / hides + 1e-9).floor() as u64;
                list.count(F::LeatherPairs.of([name]), pairs);
            }
        }
    }
}

fn bottom(build: &Build<'_>, list: &mut List) {
    for layer in layers(build).unwrap_or_default() {
        let role = layer.role.name();
        let of = |id: F| id.of([Slot::Word(role)]);
        list.text(of(F::TakenLayerOf), layer.stock);
        list.number(of(F::TakenLayerNet), layer.net);
        if let Some(gross) = layer.gross {
            list.number(of(F::TakenLayerGross), gross);
        }
    }
    for blank in blanks(build).unwrap_or_default() {
        let of = |id: F| id.of([Slot::Word(blank.what)]);
        list.text(of(F::BlankOf), blank.stock);
        if let Some((long, wide)) = blank.needs {
            list.number(of(F::BlankLong), long);
            list.number(of(F::BlankWide), wide);
        }
        if let Some(chosen) = blank.chosen {
            list.text(of(F::BlankSize), Size::number_text(chosen));
        }
    }
}

fn bonds(build: &Build<'_>, list: &mut List) {
    let mut totals: BTreeMap<String, Option<f64>> = BTreeMap::new();
    for bond in adhesives(build).unwrap_or_default() {
        let (faces, weight, held) = match &bond.held {
            Held::Layer(role) => (F::AdhesiveFaces, F::AdhesiveWeight, Slot::Word(role.name())),
            Held::Heel => (F::AdhesiveFaces, F::AdhesiveWeight, Slot::Word("base")),
            Held::Lining(part) => (F::AdhesiveLiningFaces, F::AdhesiveLiningWeight, Slot::typed(&**part)),
        };
        let slots = [Slot::typed(&*bond.adhesive), held];
        list.number(faces.of(slots.clone()), bond.faces);
        let total = totals.entry(bond.adhesive.clone()).or_insert(Some(0.0));
        *total = total.zip(bond.grams).map(|(total, grams)| total + grams);
        if let Some(grams) = bond.grams {
            list.number(weight.of(slots), grams);
        }
    }
    for (name, total) in totals {
        if let Some(total) = total {
            list.number(F::AdhesivePair.of([Slot::typed(name)]), total);
        }
    }
}

fn thread(build: &Build<'_>, list: &mut List) {
    for seam in upper_rows(build).unwrap_or_default() {
        let Some((stitches, used)) = &seam.row else { continue };
        list.count(F::TakenSeamStitches.of_seam(&seam.of), *stitches);
        list.number(F::TakenSeamThread.of_seam(&seam.of), used.total() * f64::from(seam.rows));
    }
    let waste = crate::build::base(&build.house.rule("thread-waste"));
    for thread in threads(build).unwrap_or_default() {
        let of = |id: F| id.of([Slot::typed(&*thread.name)]);
        if !thread.unknown.is_empty() {
            list.texts(of(F::ThreadUnknown), thread.unknown);
            continue;
        }
        list.number(of(F::ThreadNeedle), thread.needle);
        list.number(of(F::ThreadBobbin), thread.bobbin);
        list.number(of(F::ThreadTails), thread.tails);
        list.number(of(F::ThreadTotal), thread.total());
        if let Ok(waste) = waste {
            let bought = thread.total() * (1.0 + waste / 100.0);
            list.number(of(F::ThreadBought), bought);
        }
    }
}

fn by_count(build: &Build<'_>, list: &mut List) {
    for nails in nails(build).unwrap_or_default() {
        let length = nails.length.map_or("any".to_owned(), eighths);
        let of = |id: F| id.of([Slot::typed(&*nails.nail), Slot::typed(&*length)]);
        list.count(of(F::TakenNails), nails.count);
        if let Some(grams) = nails.grams {
            list.number(of(F::TakenNailsWeight), grams);
        }
    }
    for piece in pieces(build).unwrap_or_default() {
        let of = |id: F| id.of([Slot::Word(piece.what)]);
        list.text(of(F::TakenPieceOf), piece.stock);
        list.count(of(F::TakenPieces), piece.count);
    }
    if let Some((_, Some(length))) = &build.model.finish.laces
        && of(length).is_ok()
    {
        list.amount(F::LacesLong, length);
    }
    list.named(F::LastsTaken, Some(&build.model.last), |last| &last.name);
}

/// A nail's length as its key says it: eighths of an inch where it is in whole tenths of them, else mm.
fn eighths(length: f64) -> String {
    let eighths = length / 3.175;
    let tenths = (eighths * 10.0).round();
    if (eighths * 10.0 - tenths).abs() < 1e-6 { format!("{}-8", tenths / 10.0) } else { format!("{length}mm") }
}
