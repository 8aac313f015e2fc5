//! What stands on each station's sheet.

use super::page::{Row, Sheets, Table};
use super::paper::Point;
use super::station::Station;
use super::values::{bare, cell, times};
use super::words::{self, of};
use super::{Job, drawing};
use crate::build::Figures;

/// Lays one station's sheet.
pub(super) fn lay(station: Station, job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.start(station);
    match station {
        Station::Cutting => cutting(job, sheets),
        Station::Skiving => skiving(job, sheets),
        Station::Closing => closing(job, sheets),
        Station::Hardware => hardware(sheets),
        Station::Lasting => lasting(sheets),
        Station::Bottoming => bottoming(job, sheets),
        Station::SoleStitching => sole_stitching(job, sheets),
        Station::Heeling => heeling(job, sheets),
        Station::Edge => edge(sheets),
        Station::Finishing => finishing(sheets),
        Station::Inspection => inspection(job, sheets),
    }
    sheets.cautions();
}

/// The second part of every key that starts with `prefix`, each once, in order.
fn subjects(figures: &Figures, prefix: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for figure in figures.iter() {
        let Some(rest) = figure.key.strip_prefix(prefix) else { continue };
        let name = rest.split('.').next().unwrap_or(rest).to_owned();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// Cells of one subject, noted as printed.
fn cells(job: &Job<'_>, sheets: &mut Sheets<'_>, first: String, keys: &[String]) -> Vec<String> {
    let mut row = vec![first];
    for key in keys {
        let text = job.figures.get(key).map(|figure| {
            let text = if figure.unit == "minutes" { times(figure) } else { bare(figure) };
            sheets.note(figure, &text);
            text
        });
        row.push(text.unwrap_or_else(|| "–".to_owned()));
    }
    row
}

fn cutting(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.steps();
    let names = subjects(job.figures, "part.");
    let columns = ["pattern", "of", "substance", "zone", "pieces", "stretch", "area", "folded"];
    let rows = names.iter().map(|name| {
        let keys: Vec<String> = columns.iter().map(|column| format!("part.{name}.{column}")).collect();
        cells(job, sheets, name.clone(), &keys)
    });
    let rows = rows.collect();
    let heads = [
        words::PART,
        words::PATTERN,
        words::LEATHER,
        words::SUBSTANCE,
        words::ZONE,
        words::PIECES,
        words::STRETCH,
        words::AREA,
        words::FOLDED,
    ];
    sheets.table(&Table {
        widths: vec![3.4, 2.0, 3.2, 2.6, 1.8, 1.3, 1.8, 1.9, 1.6],
        heads: heads.map(of).to_vec(),
        rows,
    });
}

fn skiving(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.steps();
    let mut rows = Vec::new();
    for top in subjects(job.figures, "lap-") {
        let under = cell(job.figures, &format!("lap-{top}.over"));
        for part in [top.clone(), under.clone()] {
            let keys: Vec<String> =
                ["edge-wide", "edge-to", "flat"].iter().map(|what| format!("lap-{top}.{part}-{what}")).collect();
            if keys.iter().any(|key| job.figures.get(key).is_some()) {
                let mut row = cells(job, sheets, part, &keys);
                row.insert(1, format!("{top} over {under}"));
                row.insert(2, cell(job.figures, &format!("lap-{top}.wide")));
                rows.push(row);
            }
        }
    }
    let heads = [words::PART, words::LAP, words::WIDE, words::TAPER_WIDE, words::TAPER_TO, words::FLAT_TO];
    sheets.table(&Table { widths: vec![3.0, 4.6, 1.6, 1.8, 2.0, 2.6], heads: heads.map(of).to_vec(), rows });
    let stiffeners = [
        "counter.of",
        "counter.thickness",
        "counter.skived",
        "counter.reaches",
        "puff.of",
        "puff.thickness",
        "puff.skived",
        "puff.reaches",
    ];
    sheets.group(of(words::STIFFENERS), &stiffeners);
}

/// What a seam was judged by, and nobody at the bench sets or measures.
fn judged_only(what: &str) -> bool {
    let starts = ["row-", "alone-", "beyond-"];
    let is = [
        "thickest",
        "sews",
        "step",
        "covered",
        "clear",
        "from-seam",
        "fold-needed",
        "gives-way",
        "perforation",
        "needle-over-thread",
        "needle-named",
    ];
    starts.iter().any(|start| what.starts_with(start)) || is.contains(&what) || what.contains("-skiver")
}

fn closing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.steps();
    let names: Vec<(String, String)> = job
        .build
        .seams
        .iter()
        .filter(|seam| !matches!(&*seam.key, "sole" | "forefoot"))
        .map(|seam| (seam.name.to_string(), seam.key.to_string()))
        .collect();
    let columns = ["machine", "thread", "needle", "pitch", "rows", "first", "apart"];
    let rows = names.iter().map(|(name, key)| {
        let keys: Vec<String> = columns.iter().map(|column| format!("{key}.{column}")).collect();
        cells(job, sheets, name.clone(), &keys)
    });
    let rows = rows.collect();
    let heads = [
        words::SEAM,
        words::MACHINE,
        words::THREAD,
        words::NEEDLE,
        words::PITCH,
        words::ROWS,
        words::FIRST,
        words::APART,
    ];
    sheets.table(&Table { widths: vec![4.6, 2.2, 2.4, 1.1, 1.0, 1.1, 1.2, 1.3], heads: heads.map(of).to_vec(), rows });
    let mut rows = Vec::new();
    for (name, key) in &names {
        let told = |what: &str| {
            columns.contains(&what)
                || what.contains("-edge-")
                || what.ends_with("-flat")
                || judged_only(what)
                || matches!(what, "thread-size" | "thread-diameter" | "over" | "of" | "joins" | "covers")
        };
        let start = format!("{key}.");
        let rest =
            job.figures.iter().filter(|figure| figure.key.starts_with(&start) && !told(&figure.key[start.len()..]));
        let rest: Vec<String> = rest.map(|figure| figure.key.to_string()).collect();
        rows.extend(rest.iter().filter_map(|key| sheets.row(name, key)));
    }
    sheets.rows(of(words::MEASURE), &rows);
    let joined: Vec<Row> = names
        .iter()
        .flat_map(|(name, key)| ["of", "joins", "covers"].map(|what| (name, format!("{key}.{what}"))))
        .filter_map(|(name, key)| sheets.row(name, &key))
        .collect();
    sheets.rows(of(words::PARTS_JOINED), &joined);
    sheets.group(of(words::MARK), &["mark.how", "mark.says", "mark.on"]);
    sheets.group(of(words::UPPER), &["shaft.inside", "upper.turned-out", "upper.lasted-in"]);
}

fn hardware(sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("facing.eyelets", None),
        ("facing.hooks", None),
        ("facing.first", None),
        ("facing.from-edge", None),
    ]);
    sheets.steps();
    sheets.group(
        of(words::FACING),
        &[
            "facing.eyelets-of",
            "facing.eyelets-punch",
            "facing.eyelets-apart",
            "facing.hooks-of",
            "facing.hooks-punch",
            "facing.hooks-apart",
            "facing.backed",
            "facing.backing",
            "facing.with",
            "facing.long",
            "facing.rows",
            "facing.centres",
            "facing.gaps",
        ],
    );
}

fn lasting(sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("last.stick", None),
        ("last.ball", None),
        ("lasting.insole-nails", None),
        ("lasting.back-height", None),
    ]);
    sheets.steps();
    sheets.group(
        of(words::MARGIN),
        &["lasting.order", "lasting.margin-toe", "lasting.margin-joints", "lasting.margin-heel", "lasting.tacks"],
    );
    sheets.group(of(words::STIFFENERS), &["counter.of", "counter.reaches", "puff.of", "puff.reaches"]);
    sheets.group(
        of(words::THE_LAST),
        &[
            "last.name",
            "last.bottom",
            "last.plate",
            "last.spring",
            "last.seat",
            "last.slope",
            "last.tread",
            "last.seat-breadth",
        ],
    );
    let rough = ["edge.rough-forepart", "edge.rough-waist-outside", "edge.rough-waist-inside", "edge.rough-heel"];
    sheets.group(of(words::TURNOUT), &rough);
}

fn bottoming(job: &Job<'_>, sheets: &mut Sheets<'_>) {
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
            row[5] = format!("{}{behind}", of(words::BREAST));
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
    sheets.table(&Table { widths: vec![1.7, 2.2, 3.4, 1.6, 1.5, 1.7, 1.3, 2.2], heads: heads.map(of).to_vec(), rows });
    let bonded: Vec<String> = subjects(job.figures, "layer.");
    if let Some(role) = bonded.iter().find(|role| job.figures.get(&format!("layer.{role}.coats")).is_some()) {
        let keys = ["bonded", "coats", "coverage", "open", "reactivated", "press", "set"]
            .map(|what| format!("layer.{role}.{what}"));
        sheets.group(of(words::ADHESIVE), &keys.each_ref().map(String::as_str));
    }
    nail_groups(sheets);
    sheets.group(
        of(words::FOREFOOT),
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
        sheets.group(of(word), &keys);
    }
}

fn sole_stitching(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("sole.guide", None),
        ("sole.pitch", None),
        ("sole.needle", None),
        ("sole.rows", None),
        ("sole.row-1.stitches", Some(words::OUTER_STITCHES)),
    ]);
    sheets.steps();
    sheets.group(
        of(words::SETTINGS),
        &[
            "sole.machine",
            "sole.thread",
            "sole.through",
            "sole.from-edge",
            "sole.apart",
            "sole.starts-behind",
            "sole.thread-diameter",
            "sole.strength",
        ],
    );
    sheets.group(
        of(words::STACK),
        &["stack.jaw", "stack.off-the-lap", "stack.along", "stack.side", "stack.row-1.laps", "stack.row-2.laps"],
    );
    let mut keys: Vec<String> = Vec::new();
    for row in subjects(job.figures, "sole.row-").into_iter().take(4) {
        keys.extend(["length", "stitches", "pitch", "wall"].map(|what| format!("sole.row-{row}.{what}")));
    }
    let rows: Vec<Row> = keys
        .iter()
        .filter_map(|key| {
            let row = key.split(['-', '.']).nth(2).unwrap_or_default();
            sheets.row(&format!("{} {row}", of(words::ROW)), key)
        })
        .collect();
    sheets.rows(of(words::ROWS_OF), &rows);
    sheets.group(
        of(words::THREAD_AND_BOBBIN),
        &[
            "sole.row-1.needle-thread",
            "sole.row-1.bobbin-thread",
            "sole.thread-pair",
            "sole.bobbin",
            "sole.rows-a-bobbin",
        ],
    );
    sheets.drawing(drawing::section_height(job.build), |at: Point, width| drawing::section(job.build, at, width));
    sheets.drawing(drawing::bottom_height(job.build), |at: Point, width| drawing::bottom(job.build, at, width));
}

fn heeling(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("heel.wedges", None),
        ("heel.lifts", None),
        ("heel.gauge-before", Some(words::GAUGE_BEFORE)),
        ("heel.gauge-after", Some(words::GAUGE_AFTER)),
        ("heel.sand-back", None),
    ]);
    sheets.steps();
    sheets.group(
        of(words::LIFTS),
        &[
            "heel.wedges-of",
            "heel.wedges-substance",
            "heel.wedge-breast",
            "heel.lifts-of",
            "heel.lifts-substance",
            "heel.thin-lifts",
            "heel.thin-lifts-of",
            "heel.thin-lifts-substance",
            "heel.cap",
            "heel.cap-thickness",
        ],
    );
    sheets.group(
        of(words::LEVEL),
        &[
            "heel.block",
            "heel.needed",
            "heel.given",
            "heel.gauge-after-breast",
            "heel.drop",
            "heel.sand-breast",
            "heel.length",
            "heel.visible-back",
            "heel.visible-inches",
            "heel.visible-breast",
        ],
    );
    let nails: Vec<String> = job
        .figures
        .iter()
        .filter(|figure| figure.key.starts_with("heel-nails."))
        .map(|figure| figure.key.to_string())
        .collect();
    let nails: Vec<&str> = nails.iter().map(String::as_str).collect();
    sheets.group(of(words::HEEL_NAILS), &nails);
}

fn edge(sheets: &mut Sheets<'_>) {
    sheets.keys(&[("edge.off", None), ("edge.forepart", None), ("edge.waist-outside", None), ("edge.heel", None)]);
    sheets.steps();
    sheets.group(
        of(words::TURNOUT),
        &[
            "edge.forepart",
            "edge.waist-outside",
            "edge.waist-inside",
            "edge.heel",
            "edge.length",
            "edge.rough-length",
            "edge.cut",
            "edge.wall",
        ],
    );
    sheets.group(of(words::MEASURE), &["sole.from-edge", "finish.square-within"]);
}

fn finishing(sheets: &mut Sheets<'_>) {
    sheets.steps();
    sheets.group(
        of(words::SOCK),
        &[
            "finish.edge",
            "finish.edge-colour",
            "finish.sock-lining",
            "finish.sock-leather",
            "finish.dress",
            "finish.laces",
            "finish.laces-length",
        ],
    );
}

fn inspection(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("sole.from-edge", Some(words::ROW_FROM_EDGE)),
        ("edge.forepart", None),
        ("heel.visible-inches", Some(words::HEEL_SEEN)),
        ("shaft.inside", None),
    ]);
    sheets.steps();
    sheets.group(
        of(words::MEASURE),
        &[
            "edge.forepart",
            "edge.waist-outside",
            "edge.waist-inside",
            "edge.heel",
            "sole.from-edge",
            "sole.apart",
            "sole.row-1.stitches",
            "heel.visible-back",
            "heel.visible-breast",
            "finish.square-within",
        ],
    );
    let mut rows = Vec::new();
    for name in subjects(job.figures, "check.") {
        let keys: Vec<String> =
            ["at", "with", "target", "else"].iter().map(|what| format!("check.{name}.{what}")).collect();
        let mut row = cells(job, sheets, name, &keys);
        row.push("□".to_owned());
        rows.push(row);
    }
    let heads = [words::CHECKS, words::LOOK_AT, words::WITH, words::TARGET, words::IF_FAILS, words::DONE];
    sheets.table(&Table { widths: vec![2.2, 4.6, 1.6, 1.8, 1.4, 1.0], heads: heads.map(of).to_vec(), rows });
    sheets.group(of(words::CLAIMS), &["claims.height", "claims.measured", "claims.to"]);
}
