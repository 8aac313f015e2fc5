//! The heel bench.

use super::bottoming::adhesive_card;
use super::{NOTHING, cell, count, is_there, text};
use crate::build::{BondOf, FigureId as F, HeelNail, HeelNailsBuilt, Identity, Slot};
use crate::sheets::page::{Item, Measure, Sheets, Table};
use crate::sheets::words::{self, Word};
use crate::sheets::{Job, drawings};

pub(super) fn heeling(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys([
        (F::HeelGaugeBefore, Some(words::GAUGE_BEFORE)),
        (F::HeelGaugeAfter, Some(words::GAUGE_AFTER)),
        (F::HeelSandBack, None),
        (F::HeelWedgeBreast, None),
        (F::HeelNailsSink, Some(words::SINK)),
    ]);
    let mut set = sheets.listed(
        words::LEVEL,
        [
            F::HeelStop,
            F::HeelStopBreast,
            F::HeelSandBreast,
            F::HeelDrop,
            F::HeelLength,
            F::HeelBlock,
            F::HeelVisibleInches,
        ],
    );
    let nails = [
        F::HeelNailsInsideFeather,
        F::HeelNailsBehindBreast,
        F::HeelNailsCount,
        F::HeelNailsSpacing,
        F::HeelNailsAcross,
        F::HeelNailsLeans,
        F::HeelNailsInsideEdge,
        F::HeelNailsCapCount,
        F::HeelNailsCapSpacing,
    ];
    set.extend(sheets.listed(words::HEEL_NAILS, nails));
    set.extend(stages(job, sheets));
    let mut first = vec![words::AT_FINISHED_EDGE];
    // An adhesive alone may hold the heel: then there is no head to sink.
    if is_there(job.figures, F::HeelNailsSink) {
        first.push(words::SINK_HEADS);
    }
    if is_there(job.figures, F::HeelStop) {
        first.push(words::STOP_AT_HEADS);
    }
    sheets.set_and_do(&set, &first);
    base(job, sheets);
    let bond = sheets.word(words::BASE_AND_CAP).to_owned();
    adhesive_card(job, sheets, &[(bond, BondOf::Heel)]);
    nail_table(job, sheets);
    let gauged = [
        (F::HeelGaugeBefore, F::HeelGaugeWithin),
        (F::HeelGaugeBeforeBreast, F::HeelGaugeWithin),
        (F::HeelGaugeAfter, F::HeelGaugeWithin),
        (F::HeelGaugeAfterBreast, F::HeelGaugeWithin),
    ];
    let mut measures: Vec<Measure> =
        gauged.iter().filter_map(|(of, within)| sheets.measure_within(*of, *within, words::HEIGHT_GAUGE)).collect();
    let seen = [F::HeelVisibleBack, F::HeelVisibleBreast];
    measures.extend(seen.iter().filter_map(|of| sheets.measure_of(of, words::STEEL_RULE)));
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
    let length = cell(job, sheets, nail_of(nail));
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
    let [inside, length] = [set_out_by(job), F::HeelLength].map(|id| cell(job, sheets, id));
    let lengths = lengths(job, nails, sheets);
    let from_feather = set_out_by(job) == FROM_FEATHER;
    let drawing = drawings::HeelPlan { build: job.build, lang: job.lang, inside, from_feather, length, lengths };
    if let Some(height) = drawing.height(sheets.width()) {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

const FROM_FEATHER: F = F::HeelNailsInsideFeather;

/// The distance that the base's ring is set out by.
fn set_out_by(job: &Job<'_>) -> F {
    if is_there(job.figures, FROM_FEATHER) { FROM_FEATHER } else { F::HeelNailsInsideEdge }
}

/// The lengths that each stage drives, longest first, and the cap's, each with the words of the legend.
fn lengths(job: &Job<'_>, nails: &HeelNailsBuilt, sheets: &mut Sheets<'_>) -> Vec<(Option<usize>, f64, String)> {
    let mut all: Vec<(Option<usize>, f64, String)> = Vec::new();
    for (n, ring) in nails.rings.iter().enumerate() {
        let mut of_stage: Vec<&HeelNail> = nails.nails.iter().filter(|nail| nail.stage == ring.stage).collect();
        of_stage.sort_by(|a, b| b.length.total_cmp(&a.length));
        of_stage.dedup_by(|a, b| a.length.total_cmp(&b.length).is_eq());
        for nail in of_stage {
            let length = cell(job, sheets, nail_of(nail));
            let stage = ring.stage.map_or(String::new(), |stage| format!("{} {stage}: ", sheets.word(words::STAGE)));
            all.push((Some(n), nail.length, format!("{stage}{length}")));
        }
    }
    if let Some(cap) = &nails.cap {
        let length = cell(job, sheets, F::HeelNailsCapLength);
        all.push((None, cap.length, format!("{}: {length}", sheets.word(words::CAP))));
    }
    all
}

/// The heel from the side.
fn drawing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    if !matches!(job.build.heel, Some(Ok(_))) {
        return;
    }
    let mut said = |word: Word, of: Identity| format!("{} {}", sheets.word(word), cell(job, sheets, of));
    let kinds = [("wedges", words::WEDGE), ("lifts", words::LIFT), ("thin-lifts", words::THIN_LIFT)];
    let present = kinds.iter().filter(|(what, _)| count(job.figures, F::LiftsCount.of([Slot::Word(what)])) > 0);
    // Labels stand at the breast, where a wedge is thin.
    let at_breast = |what: &'static str| match what {
        "wedges" => F::HeelWedgeBreast.into(),
        _ => F::LiftsSubstance.of([Slot::Word(what)]),
    };
    let layers = present.map(|(what, word)| said(*word, at_breast(what))).collect();
    let cap = said(words::CAP, F::HeelCapThickness.into());
    let ends = [
        [F::HeelGaugeBefore, F::HeelGaugeAfter, F::HeelSandBack],
        [F::HeelGaugeBeforeBreast, F::HeelGaugeAfterBreast, F::HeelSandBreast],
    ];
    let ends = ends.map(|[before, after, sand]| {
        [(words::BEFORE, before), (words::LEVELLED, after), (words::SANDED, sand)]
            .map(|(word, id)| said(word, id.into()))
    });
    let length = cell(job, sheets, F::HeelLength);
    let drawing = drawings::Heel { build: job.build, lang: job.lang, layers, cap, ends, length };
    if let Some(height) = drawing.height(sheets.width()) {
        sheets.drawing(height, |at, width| drawing.draw(at, width));
    }
}

/// What each stage nails: the next one's lifts go on when it is nailed.
fn stages(job: &Job<'_>, sheets: &mut Sheets<'_>) -> Vec<Item> {
    let what = [F::StageWedges, F::StageLifts, F::StageAcross, F::StageLeans];
    let of = |n: u32| what.map(|id| id.of([Slot::Number(n)]));
    let there = |of: &Identity| is_there(job.figures, of.clone()) && text(job.figures, of.clone()) != "no";
    let all: Vec<Identity> = (1..=9).flat_map(of).filter(there).collect();
    if all.is_empty() {
        return Vec::new();
    }
    sheets.listed(words::STAGES, all)
}

/// What lies on what, from the seat down: wedges, lifts, thin lifts, the cap.
fn base(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let layers: [(&'static str, Word); 3] =
        [("wedges", words::WEDGE), ("lifts", words::LIFT), ("thin-lifts", words::THIN_LIFT)];
    for (what, word) in layers {
        if count(job.figures, F::LiftsCount.of([Slot::Word(what)])) == 0 {
            continue;
        }
        let [pieces, of, thick] =
            [F::LiftsCount, F::LiftsOf, F::LiftsSubstance].map(|id| cell(job, sheets, id.of([Slot::Word(what)])));
        let breast = if what == "wedges" { cell(job, sheets, F::HeelWedgeBreast) } else { thick.clone() };
        rows.push(vec![format!("{}  {}", rows.len() + 1, sheets.word(word)), pieces, of, thick, breast]);
    }
    let [cap, thick] = [F::HeelCap, F::HeelCapThickness].map(|key| cell(job, sheets, key));
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
    for figure in job.figures.iter() {
        let (name, count, serves) = match (figure.of.id, &*figure.of.slots) {
            (F::BaseNail, [Slot::Word(place)]) => (words::role(place, job.lang), F::BaseNailCount, F::BaseNailServes),
            (F::StageNail, [stage, Slot::Word(place)]) => {
                let name = format!("{} {stage}, {}", sheets.word(words::STAGE), words::role(place, job.lang));
                (name, F::StageNailCount, F::StageNailServes)
            }
            _ => continue,
        };
        let mut row = vec![name, cell(job, sheets, F::HeelNailsBase), cell(job, sheets, figure.of.clone())];
        row.extend([count, serves].map(|id| cell(job, sheets, id.of(figure.of.slots.clone()))));
        rows.push(row);
    }
    if is_there(job.figures, F::HeelNailsCapLength) {
        let mut row = vec![sheets.word(words::CAP).to_owned()];
        let cap = [F::HeelNailsCap, F::HeelNailsCapLength, F::HeelNailsCapCount, F::HeelNailsCapServes];
        row.extend(cap.map(|id| cell(job, sheets, id)));
        rows.push(row);
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

/// The figure of a nail's length.
fn nail_of(nail: &HeelNail) -> Identity {
    let place = Slot::Word(nail.place.name());
    match nail.stage {
        Some(stage) => F::StageNail.of([Slot::Number(stage), place]),
        None => F::BaseNail.of([place]),
    }
}
