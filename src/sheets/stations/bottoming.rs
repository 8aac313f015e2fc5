//! Layers, adhesive, nails, the forefoot.

use super::{cells, subjects};
use crate::sheets::Job;
use crate::sheets::page::{Sheets, Table};
use crate::sheets::words;

pub(super) fn bottoming(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("waist.eighths", Some(words::WAIST_NAIL)),
        ("waist.nails", Some(words::WAIST_COUNT)),
        ("seat.eighths", Some(words::SEAT_NAIL)),
        ("seat.nails", Some(words::SEAT_COUNT)),
        ("forefoot.stitches", Some(words::FOREFOOT_STITCHES)),
    ]);
    sheets.steps();
    let mut rows = Vec::new();
    for role in subjects(job.figures, "layer.") {
        let keys: Vec<String> = ["of", "thickness", "covers", "breadth", "ends", "grain", "bonded"]
            .iter()
            .map(|what| format!("layer.{role}.{what}"))
            .collect();
        let mut row = cells(job, sheets, role.clone(), &keys);
        if row[2] == "–" {
            let parts = ["thickness-base", "thickness-lug"].map(|what| format!("layer.{role}.{what}"));
            let shown = cells(job, sheets, String::new(), &parts);
            row[2] = shown[1..].iter().filter(|text| *text != "–").cloned().collect::<Vec<_>>().join(" + ");
        }
        if row[5].parse::<f64>().is_ok() {
            let behind = if row[5] == "0" { String::new() } else { format!(" - {} mm", row[5]) };
            row[5] = format!("{}{behind}", sheets.word(words::BREAST));
        }
        rows.push(row);
    }
    let heads = [
        words::LAYER,
        words::OF_STOCK,
        words::THICK,
        words::COVERS,
        words::BREADTH,
        words::HEEL,
        words::GRAIN,
        words::ADHESIVE,
    ];
    sheets.table(&Table {
        widths: vec![1.7, 2.2, 3.4, 1.6, 1.5, 1.7, 1.3, 2.2],
        heads: heads.map(|head| sheets.word(head)).to_vec(),
        rows,
    });
    let bonded: Vec<String> = subjects(job.figures, "layer.");
    if let Some(role) = bonded.iter().find(|role| job.figures.get(&format!("layer.{role}.coats")).is_some()) {
        let keys = ["bonded", "coats", "coverage", "open", "reactivated", "press", "set"]
            .map(|what| format!("layer.{role}.{what}"));
        sheets.group(sheets.word(words::ADHESIVE), &keys.each_ref().map(String::as_str));
    }
    nail_groups(sheets);
    sheets.group(
        sheets.word(words::FOREFOOT),
        &[
            "forefoot.machine",
            "forefoot.thread",
            "forefoot.needle",
            "forefoot.pitch",
            "forefoot.inset",
            "forefoot.length",
            "forefoot.stitches",
            "forefoot.true-pitch",
            "forefoot.layers",
            "forefoot.thread-used",
        ],
    );
}

fn nail_groups(sheets: &mut Sheets<'_>) {
    for (word, line) in [(words::WAIST_NAILS, "waist"), (words::SEAT_NAILS, "seat")] {
        let what = [
            "with",
            "eighths",
            "length",
            "window",
            "layers",
            "inset",
            "apart",
            "outside",
            "inside",
            "spacing-outside",
            "spacing-inside",
            "spacing",
            "to",
        ];
        let keys: Vec<String> = what.iter().map(|what| format!("{line}.{what}")).collect();
        let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
        sheets.group(sheets.word(word), &keys);
    }
}
