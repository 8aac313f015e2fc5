//! The edge sander.

use crate::sheets::page::Sheets;
use crate::sheets::words;

pub(super) fn edge(sheets: &mut Sheets<'_>) {
    sheets.keys(&[("edge.off", None), ("edge.forepart", None), ("edge.waist-outside", None), ("edge.heel", None)]);
    sheets.steps();
    sheets.group(
        sheets.word(words::TURNOUT),
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
    sheets.group(sheets.word(words::MEASURE), &["sole.from-edge", "finish.square-within"]);
}
