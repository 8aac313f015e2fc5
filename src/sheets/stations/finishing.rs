//! The finishing bench.

use crate::build::FigureId as F;
use crate::sheets::page::Sheets;
use crate::sheets::words;

pub(super) fn finishing(sheets: &mut Sheets<'_>) {
    let set = sheets.listed(
        words::SOCK,
        [
            F::FinishEdge,
            F::FinishEdgeColour,
            F::FinishSockLining,
            F::FinishSockLeather,
            F::FinishDress,
            F::FinishLaces,
            F::FinishLacesLength,
        ],
    );
    sheets.set_and_do(&set, &[]);
}
