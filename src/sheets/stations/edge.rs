//! The edge sander.

use crate::sheets::page::{Measure, Sheets};
use crate::sheets::words;

const TURNOUT: [&str; 4] = ["edge.forepart", "edge.waist-outside", "edge.waist-inside", "edge.heel"];

pub(super) fn edge(sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("edge.off", None),
        ("edge.forepart", None),
        ("edge.heel", None),
        ("edge.row-least", None),
        ("finish.square-within", None),
    ]);
    let mut set = sheets.listed(words::COMES_OFF, &["edge.off", "edge.length", "edge.rough-length"]);
    set.extend(sheets.listed(words::KEEP_ROW, &["edge.row-least", "sole.from-edge"]));
    sheets.set_and_do(&set, &[]);
    let mut measures: Vec<Measure> =
        TURNOUT.iter().filter_map(|key| sheets.measure_of(key, words::STEEL_RULE)).collect();
    measures.extend(sheets.measure_of("sole.from-edge", words::STEEL_RULE));
    measures.extend(sheets.measure_of("finish.square-within", words::SQUARE));
    sheets.measures(&measures);
}
