//! The finishing bench.

use crate::sheets::page::Sheets;
use crate::sheets::words;

pub(super) fn finishing(sheets: &mut Sheets<'_>) {
    let set = sheets.listed(
        words::SOCK,
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
    sheets.set_and_do(&set, &[]);
}
