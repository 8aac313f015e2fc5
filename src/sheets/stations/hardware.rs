//! Eyelets and hooks.

use crate::sheets::page::Sheets;
use crate::sheets::words;

pub(super) fn hardware(sheets: &mut Sheets<'_>) {
    sheets.keys(&[
        ("facing.eyelets", None),
        ("facing.hooks", None),
        ("facing.first", None),
        ("facing.from-edge", None),
    ]);
    sheets.steps();
    sheets.group(
        sheets.word(words::FACING),
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
