//! The edge sander.

use crate::build::FigureId as F;
use crate::sheets::page::{Measure, Sheets};
use crate::sheets::words;

const TURNOUT: [F; 4] = [F::EdgeForepart, F::EdgeWaistOutside, F::EdgeWaistInside, F::EdgeHeel];

pub(super) fn edge(sheets: &mut Sheets<'_>) {
    sheets.keys([
        (F::EdgeOff, None),
        (F::EdgeForepart, None),
        (F::EdgeHeel, None),
        (F::EdgeRowLeast, None),
        (F::FinishSquareWithin, None),
    ]);
    let mut set = sheets.listed(words::COMES_OFF, [F::EdgeOff, F::EdgeLength, F::EdgeRoughLength]);
    set.extend(sheets.listed(words::KEEP_ROW, [F::EdgeRowLeast, F::SoleFromEdge]));
    sheets.set_and_do(&set, &[]);
    let mut measures: Vec<Measure> = TURNOUT.iter().filter_map(|of| sheets.measure_of(of, words::STEEL_RULE)).collect();
    measures.extend(sheets.measure_of(F::SoleFromEdge, words::STEEL_RULE));
    measures.extend(sheets.measure_of(F::FinishSquareWithin, words::SQUARE));
    sheets.measures(&measures);
}
