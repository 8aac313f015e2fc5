//! Figures of what a pair takes.

use super::List;
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
        let key = |what: &str| format!("takes.leather.{}.{what}", leather.name);
        for zone in &leather.zones {
            let key = |what: &str| key(&format!("{}.{what}", zone.zone));
            list.number(&key("net"), &format!("{}, {}: net for a pair", leather.name, zone.zone), "dm2", zone.net);
            if let Some(gross) = zone.gross {
                list.number(&key("gross"), &format!("{}, {}: cut from", leather.name, zone.zone), "dm2", gross);
            }
            if let Some(hides) = zone.hides {
                list.number(&key("hides"), &format!("{}, {}: hides", leather.name, zone.zone), "hides", hides);
            }
        }
        if let Some(hides) = leather.hides {
            list.number(&key("hides"), &format!("{}: hides for a pair", leather.name), "hides", hides);
            if hides > 0.0 {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a hide gives some pairs, never a negative number of them"
                )]
                let pairs = (1.0 / hides + 1e-9).floor() as u64;
                list.count(&key("pairs"), &format!("{}: whole pairs from one hide", leather.name), pairs);
            }
        }
    }
}

fn bottom(build: &Build<'_>, list: &mut List) {
    for layer in layers(build).unwrap_or_default() {
        let role = layer.role.name();
        let key = |what: &str| format!("takes.layer.{role}.{what}");
        list.text(&key("of"), role, layer.stock);
        list.number(&key("net"), &format!("{role}: net for a pair"), "dm2", layer.net);
        if let Some(gross) = layer.gross {
            list.number(&key("gross"), &format!("{role}: pressed from"), "dm2", gross);
        }
    }
    for blank in blanks(build).unwrap_or_default() {
        let key = |what: &str| format!("takes.blank.{}.{what}", blank.what);
        list.text(&key("of"), blank.what, blank.stock);
        if let Some((long, wide)) = blank.needs {
            list.number(&key("long"), &format!("{}: blank at least long", blank.what), "mm", long);
            list.number(&key("wide"), &format!("{}: blank at least wide", blank.what), "mm", wide);
        }
        if let Some(chosen) = blank.chosen {
            list.text(&key("size"), &format!("{}: size of the blank", blank.what), Size::number_text(chosen));
        }
    }
}

fn bonds(build: &Build<'_>, list: &mut List) {
    let mut totals: BTreeMap<String, Option<f64>> = BTreeMap::new();
    for bond in adhesives(build).unwrap_or_default() {
        let key = |what: &str| format!("takes.adhesive.{}.{}.{what}", bond.adhesive, bond.held.key());
        let under = if matches!(bond.held, Held::Lining(_)) { "under the lining" } else { "on the" };
        let label = |what: &str| format!("{} {under} {}: {what}", bond.adhesive, bond.held.name());
        list.number(&key("faces"), &label("faces of a pair"), "dm2", bond.faces);
        let total = totals.entry(bond.adhesive.clone()).or_insert(Some(0.0));
        *total = total.zip(bond.grams).map(|(total, grams)| total + grams);
        if let Some(grams) = bond.grams {
            list.number(&key("weight"), &label("for a pair"), "g", grams);
        }
    }
    for (name, total) in totals {
        if let Some(total) = total {
            list.number(&format!("takes.adhesive.{name}.weight"), &format!("{name} for a pair"), "g", total);
        }
    }
}

fn thread(build: &Build<'_>, list: &mut List) {
    for seam in upper_rows(build).unwrap_or_default() {
        let Some((stitches, used)) = &seam.row else { continue };
        list.count(
            &format!("takes.seam.{}.stitches", seam.key),
            &format!("{}: stitches of a row", seam.key),
            *stitches,
        );
        let key = format!("takes.seam.{}.thread", seam.key);
        list.number(&key, &format!("{}: thread for a boot", seam.key), "m", used.total() * f64::from(seam.rows));
    }
    let waste = crate::build::base(&build.house.rule("thread-waste"));
    for thread in threads(build).unwrap_or_default() {
        let key = |what: &str| format!("takes.thread.{}.{what}", thread.name);
        if !thread.unknown.is_empty() {
            list.texts(&key("unknown"), &format!("{}: not known, no length is said of", thread.name), thread.unknown);
            continue;
        }
        for (what, label, metres) in [
            ("needle", "needle thread for a pair", thread.needle),
            ("bobbin", "bobbin thread for a pair", thread.bobbin),
            ("tails", "tails for a pair", thread.tails),
            ("total", "for a pair", thread.total()),
        ] {
            list.number(&key(what), &format!("{}: {label}", thread.name), "m", metres);
        }
        if let Ok(waste) = waste {
            let bought = thread.total() * (1.0 + waste / 100.0);
            list.number(&key("bought"), &format!("{}: to buy for a pair, waste included", thread.name), "m", bought);
        }
    }
}

fn by_count(build: &Build<'_>, list: &mut List) {
    for nails in nails(build).unwrap_or_default() {
        let length = nails.length.map_or("any".to_owned(), eighths);
        let key = |what: &str| format!("takes.nails.{}.{length}.{what}", nails.nail);
        list.count(&key("count"), &format!("{} {length}: for a pair", nails.nail), nails.count);
        if let Some(grams) = nails.grams {
            list.number(&key("weight"), &format!("{} {length}: weight for a pair", nails.nail), "g", grams);
        }
    }
    for piece in pieces(build).unwrap_or_default() {
        let key = |what: &str| format!("takes.pieces.{}.{what}", piece.what);
        list.text(&key("of"), piece.what, piece.stock);
        list.count(&key("count"), &format!("{}: for a pair", piece.what), piece.count);
    }
    if let Some((_, Some(length))) = &build.model.finish.laces
        && of(length).is_ok()
    {
        list.amount("takes.pieces.laces.long", "laces: length", length);
    }
    list.named("takes.last", "pairs of lasts: one, of", Some(&build.model.last), |last| &last.name);
}

/// A nail's length as its key says it: eighths of an inch where it is in whole tenths of them, else mm.
fn eighths(length: f64) -> String {
    let eighths = length / 3.175;
    let tenths = (eighths * 10.0).round();
    if (eighths * 10.0 - tenths).abs() < 1e-6 { format!("{}-8", tenths / 10.0) } else { format!("{length}mm") }
}
