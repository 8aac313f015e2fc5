//! The lasting bench.

use crate::sheets::page::Sheets;
use crate::sheets::words;

pub(super) fn lasting(sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("last.stick", None),
        ("last.ball", None),
        ("lasting.insole-nails", None),
        ("lasting.back-height", None),
    ]);
    sheets.steps();
    sheets.group(
        sheets.word(words::MARGIN),
        &["lasting.order", "lasting.margin-toe", "lasting.margin-joints", "lasting.margin-heel", "lasting.tacks"],
    );
    sheets.group(sheets.word(words::STIFFENERS), &["counter.of", "counter.reaches", "puff.of", "puff.reaches"]);
    sheets.group(
        sheets.word(words::THE_LAST),
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
    sheets.group(sheets.word(words::TURNOUT), &rough);
}
