//! The finishing bench.

use crate::sheets::page::Sheets;
use crate::sheets::words;

pub(super) fn finishing(sheets: &mut Sheets<'_>) {
    sheets.steps();
    sheets.group(
        sheets.word(words::SOCK),
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
