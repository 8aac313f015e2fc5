//! The heel bench.

use crate::sheets::Job;
use crate::sheets::page::Sheets;
use crate::sheets::words;

pub(super) fn heeling(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("heel.wedges", None),
        ("heel.lifts", None),
        ("heel.gauge-before", Some(words::GAUGE_BEFORE)),
        ("heel.gauge-after", Some(words::GAUGE_AFTER)),
        ("heel.sand-back", None),
    ]);
    sheets.steps();
    sheets.group(
        sheets.word(words::LIFTS),
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
        sheets.word(words::LEVEL),
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
    sheets.group(sheets.word(words::HEEL_NAILS), &nails);
}
