//! The heel bench.

use super::bottoming::adhesive_card;
use super::{NOTHING, cell, cells, count, text};
use crate::build::{HeelNail, HeelNailsBuilt};
use crate::sheets::page::{Item, Measure, Sheets, Table};
use crate::sheets::words::{self, Word};
use crate::sheets::{Job, drawings};

pub(super) fn heeling(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("heel.gauge-before", Some(words::GAUGE_BEFORE)),
        ("heel.gauge-after", Some(words::GAUGE_AFTER)),
        ("heel.sand-back", None),
        ("heel.wedge-breast", None),
        ("heel-nails.sink", Some(words::SINK)),
    ]);
    let mut set = sheets.listed(
        words::LEVEL,
        &[
            "heel.stop",
            "heel.stop-breast",
            "heel.sand-breast",
            "heel.drop",
            "heel.length",
            "heel.block",
            "heel.visible-inches",
        ],
    );
    let nails = [
        "heel-nails.inside-feather",
        "heel-nails.behind-breast",
        "heel-nails.count",
        "heel-nails.spacing",
        "heel-nails.across",
        "heel-nails.leans",
        "heel-nails.inside-edge",
        "heel-nails.cap-count",
        "heel-nails.cap-spacing",
    ];
    set.extend(sheets.listed(words::HEEL_NAILS, &nails));
    set.extend(stages(job, sheets));
    let mut first = vec![words::AT_FINISHED_EDGE, words::SINK_HEADS];
    if job.figures.get("heel.stop").is_some() {
        first.push(words::STOP_AT_HEADS);
    }
    sheets.set_and_do(&set, &first);
    base(job, sheets);
    let bond = sheets.word(words::BASE_AND_CAP).to_owned();
    adhesive_card(job, sheets, &[(bond, "heel".to_owned())]);
    nail_table(job, sheets);
    let gauged = [
        ("heel.gauge-before", "heel.gauge-within"),
        ("heel.gauge-before-breast", "heel.gauge-within"),
        ("heel.gauge-after", "heel.gauge-within"),
        ("heel.gauge-after-breast", "heel.gauge-within"),
    ];
    let mut measures: Vec<Measure> =
        gauged.iter().filter_map(|(key, within)| sheets.measure_within(key, within, words::HEIGHT_GAUGE)).collect();
    let seen = ["heel.visible-back", "heel.visible-breast"];
    measures.extend(seen.iter().filter_map(|key| sheets.measure_of(key, words::STEEL_RULE)));
    sheets.measures(&measures);
    drawing(job, sheets);
    plan(job, sheets);
    nail_section(job, sheets);
}

/// A section through the nail of the base that has the least to spare.
fn nail_section(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let Some(Ok(nails)) = &job.build.heel_nails else { return };
    let Some(nail) = nails.nails.iter().min_by(|a, b| a.cut.spare.total_cmp(&b.cut.spare)) else { return };
    let Some(stand) = nails.stands.get(nail.cut.stand) else { return };
    let prefix = nail.stage.map_or("base".to_owned(), |stage| format!("stage-{stage}"));
    let length = cell(job, sheets, &format!("heel-nails.{prefix}-{}", nail.place.name()));
    let mut place = words::role(nail.place.name(), job.lang);
    if let Some(stage) = nail.stage {
        place = format!("{} {stage}, {place}", sheets.word(words::STAGE));
    }
    let drawing = drawings::NailSection { nail, stand, lang: job.lang, place, length };
    sheets.drawing(drawing.height(), |at, width| drawing.draw(at, width));
}

/// Where the nails of the base stand.
fn plan(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let Some(Ok(nails)) = &job.build.heel_nails else { return };
    let [inside, length] = [inside_key(job), "heel.length"].map(|key| cell(job, sheets, key));
    let lengths = lengths(job, nails, sheets);
    let from_feather = inside_key(job) == FROM_FEATHER;
    let drawing = drawings::HeelPlan { build: job.build, lang: job.lang, inside, from_feather, length, lengths };
    if let Some(height) = drawing.height(sheets.width()) {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

const FROM_FEATHER: &str = "heel-nails.inside-feather";

/// The distance that the base's ring is set out by.
fn inside_key(job: &Job<'_>) -> &'static str {
    if job.figures.get(FROM_FEATHER).is_some() { FROM_FEATHER } else { "heel-nails.inside-edge" }
}

/// The lengths that each stage drives, longest first, and the cap's, each with the words of the legend.
fn lengths(job: &Job<'_>, nails: &HeelNailsBuilt, sheets: &mut Sheets<'_>) -> Vec<(Option<usize>, f64, String)> {
    let mut all: Vec<(Option<usize>, f64, String)> = Vec::new();
    for (n, ring) in nails.rings.iter().enumerate() {
        let mut of_stage: Vec<&HeelNail> = nails.nails.iter().filter(|nail| nail.stage == ring.stage).collect();
        of_stage.sort_by(|a, b| b.length.total_cmp(&a.length));
        of_stage.dedup_by(|a, b| a.length.total_cmp(&b.length).is_eq());
        for nail in of_stage {
            let prefix = nail.stage.map_or("base".to_owned(), |stage| format!("stage-{stage}"));
            let length = cell(job, sheets, &format!("heel-nails.{prefix}-{}", nail.place.name()));
            let stage = ring.stage.map_or(String::new(), |stage| format!("{} {stage}: ", sheets.word(words::STAGE)));
            all.push((Some(n), nail.length, format!("{stage}{length}")));
        }
    }
    if let Some(cap) = &nails.cap {
        let length = cell(job, sheets, "heel-nails.cap-length");
        all.push((None, cap.length, format!("{}: {length}", sheets.word(words::CAP))));
    }
    all
}

/// The heel from the side.
fn drawing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    if !matches!(job.build.heel, Some(Ok(_))) {
        return;
    }
    let mut said = |word: Word, key: &str| format!("{} {}", sheets.word(word), cell(job, sheets, key));
    let kinds = [("wedges", words::WEDGE), ("lifts", words::LIFT), ("thin-lifts", words::THIN_LIFT)];
    let present = kinds.iter().filter(|(what, _)| count(job.figures, &format!("heel.{what}")) > 0);
    // Labels stand at the breast, where a wedge is thin.
    let at_breast = |what: &str| match what {
        "wedges" => "heel.wedge-breast".to_owned(),
        _ => format!("heel.{what}-substance"),
    };
    let layers = present.map(|(what, word)| said(*word, &at_breast(what))).collect();
    let cap = said(words::CAP, "heel.cap-thickness");
    let ends =
        [["gauge-before", "gauge-after", "sand-back"], ["gauge-before-breast", "gauge-after-breast", "sand-breast"]];
    let ends = ends.map(|[before, after, sand]| {
        [(words::BEFORE, before), (words::LEVELLED, after), (words::SANDED, sand)]
            .map(|(word, key)| said(word, &format!("heel.{key}")))
    });
    let length = cell(job, sheets, "heel.length");
    let drawing = drawings::Heel { build: job.build, lang: job.lang, layers, cap, ends, length };
    if let Some(height) = drawing.height(sheets.width()) {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// What each stage nails: the next one's lifts go on when it is nailed.
fn stages(job: &Job<'_>, sheets: &mut Sheets<'_>) -> Vec<Item> {
    let of = |n: u32| ["wedges", "lifts", "across", "leans"].map(|what| format!("heel-nails.stage-{n}-{what}"));
    let there = |key: &String| job.figures.get(key).is_some() && text(job.figures, key) != "no";
    let keys: Vec<String> = (1..=9).flat_map(of).filter(there).collect();
    if keys.is_empty() {
        return Vec::new();
    }
    sheets.listed(words::STAGES, &keys.iter().map(String::as_str).collect::<Vec<_>>())
}

/// What lies on what, from the seat down: wedges, lifts, thin lifts, the cap.
fn base(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let layers: [(&str, Word); 3] =
        [("wedges", words::WEDGE), ("lifts", words::LIFT), ("thin-lifts", words::THIN_LIFT)];
    for (what, word) in layers {
        if count(job.figures, &format!("heel.{what}")) == 0 {
            continue;
        }
        let [pieces, of, thick] =
            ["", "-of", "-substance"].map(|part| cell(job, sheets, &format!("heel.{what}{part}")));
        let breast = if what == "wedges" { cell(job, sheets, "heel.wedge-breast") } else { thick.clone() };
        rows.push(vec![format!("{}  {}", rows.len() + 1, sheets.word(word)), pieces, of, thick, breast]);
    }
    let [cap, thick] = ["heel.cap", "heel.cap-thickness"].map(|key| cell(job, sheets, key));
    if cap != NOTHING {
        let name = format!("{}  {}", rows.len() + 1, sheets.word(words::CAP));
        rows.push(vec![name, "1".to_owned(), cap, thick.clone(), thick]);
    }
    if rows.is_empty() {
        return;
    }
    sheets.heading(sheets.word(words::BASE));
    let columns = [
        (words::LAYER, 2.0),
        (words::EACH, 1.0),
        (words::OF_STOCK, 2.4),
        (words::AT_BACK, 2.8),
        (words::AT_BREAST, 2.8),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// Nails by stage and place: how long, how many, which other lengths serve; then the cap's.
fn nail_table(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut rows = Vec::new();
    for key in nail_keys(job) {
        let place = key.rsplit('-').next().unwrap_or_default();
        let mut name = words::role(place, job.lang);
        if let Some(stage) = key.strip_prefix("heel-nails.stage-").and_then(|rest| rest.split('-').next()) {
            name = format!("{} {stage}, {name}", sheets.word(words::STAGE));
        }
        let mut row = vec![name, cell(job, sheets, "heel-nails.base"), cell(job, sheets, &key)];
        row.extend(["count", "serves"].map(|what| cell(job, sheets, &format!("{key}-{what}"))));
        rows.push(row);
    }
    if job.figures.get("heel-nails.cap-length").is_some() {
        let what = ["cap", "cap-length", "cap-count", "cap-serves"];
        rows.push(cells(job, sheets, sheets.word(words::CAP).to_owned(), "heel-nails", &[]));
        let cap = what.map(|what| cell(job, sheets, &format!("heel-nails.{what}")));
        if let Some(row) = rows.last_mut() {
            row.extend(cap);
        }
    }
    let columns = [
        (words::NAIL_LINES, 2.2),
        (words::OF_STOCK, 2.2),
        (words::LENGTH, 2.4),
        (words::COUNT, 1.2),
        (words::SERVES, 2.6),
    ];
    let table = Table::new(sheets, &columns, rows);
    sheets.table(&table);
}

/// The keys of the nails' lengths: `heel-nails.base-back`, `heel-nails.stage-2-sides`.
fn nail_keys(job: &Job<'_>) -> Vec<String> {
    let is_place = |key: &str| ["back", "sides", "breast"].iter().any(|place| key.ends_with(place));
    let keys = job.figures.iter().map(|figure| &*figure.key);
    let nails = keys
        .filter(|key| (key.starts_with("heel-nails.base-") || key.starts_with("heel-nails.stage-")) && is_place(key));
    nails.filter(|key| text(job.figures, key).is_empty()).map(str::to_owned).collect()
}
