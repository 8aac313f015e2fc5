//! Layers, adhesive, nails, the forefoot.

use super::{NOTHING, cell, cells, subjects, text};
use crate::sheets::page::{Item, Sheets, Table};
use crate::sheets::words;
use crate::sheets::{Job, drawings};

pub(super) fn bottoming(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    // Where a filler runs out the first nails are longer than most: the large figure must not pass for all of them.
    let several = job.figures.get("waist.outside-runs").is_some();
    sheets.keys(&[
        ("waist.eighths", Some(if several { words::WAIST_MOST } else { words::WAIST_NAIL })),
        ("waist.nails", Some(words::WAIST_COUNT)),
        ("seat.eighths", Some(words::SEAT_NAIL)),
        ("seat.nails", Some(words::SEAT_COUNT)),
        ("forefoot.stitches", Some(words::FOREFOOT_STITCHES)),
    ]);
    let mut set = sheets.listed(
        words::FOREFOOT_HEAD,
        &[
            "forefoot.machine",
            "forefoot.thread",
            "forefoot.needle",
            "forefoot.pitch",
            "forefoot.over-50",
            "forefoot.inset",
            "forefoot.length",
            "forefoot.layers",
            "forefoot.thread-used",
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
fn nail_line(sheets: &mut Sheets<'_>, line: &str) -> Vec<Item> {
    let what = [
        "with",
        "length",
        "outside-runs",
        "outside-lengths",
        "inside-runs",
        "inside-lengths",
        "window",
        "clinch",
        "layers",
        "inset",
        "outside",
        "spacing-outside",
        "inside",
        "spacing-inside",
        "spacing",
        "to-forefoot-outside",
        "to-forefoot-inside",
        "to",
        "hollow",
        "relieved",
    ];
    what.iter().filter_map(|what| sheets.figure(&format!("{line}.{what}"))).collect()
}

/// Every layer, from the foot down.
fn layers(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut rows = Vec::new();
    for role in subjects(job.figures, "layer.") {
        let key = format!("layer.{role}");
        let name = words::role(&role, job.lang);
        let mut row =
            cells(job, sheets, name, &key, &["of", "thickness", "covers", "breadth", "ends", "grain", "bonded"]);
        if row[2] == NOTHING {
            let parts = ["thickness-base", "thickness-lug"].map(|what| cell(job, sheets, &format!("{key}.{what}")));
            let known: Vec<String> = parts.into_iter().filter(|text| *text != NOTHING).collect();
            row[2] = known.join(" +\n");
        }
        if job.figures.get(&format!("{key}.ends")).is_some_and(|figure| figure.unit == crate::build::FigureUnit::Mm) {
            let behind = if row[5].starts_with("0\u{a0}") { String::new() } else { format!(" – {}", row[5]) };
            row[5] = format!("{}{behind}", sheets.word(words::BREAST));
        }
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
    let layers = subjects(job.figures, "layer.").into_iter();
    let bonds: Vec<(String, String)> =
        layers.map(|role| (words::role(&role, job.lang), format!("layer.{role}"))).collect();
    adhesive_card(job, sheets, &bonds);
}

/// What is bonded, in the words of the sheet, with the beginning of its figures' keys.
pub(super) fn adhesive_card(job: &Job<'_>, sheets: &mut Sheets<'_>, bonds: &[(String, String)]) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for (name, key) in bonds {
        if text(job.figures, &format!("{key}.bonded")).is_empty() {
            continue;
        }
        let what = ["bonded", "coats", "open", "press", "set", "reactivated"];
        let mut row = cells(job, sheets, name.clone(), key, &what);
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
