//! Corners of rows: where a line was trimmed, a row of stitches turns at once.

use super::GradedLast;
use crate::geometry::{Path, Rail, Side};
use crate::language::Hole;
use crate::source::Span;

/// What a row is lost to that has no line to run on: the rule that says so.
pub const NO_LINE: &str = "rows/no-line";

/// Why a row is lost whose line doesn't lead from one of its ends to the other: nothing is left of it, or else the fault of
/// what asks for a place that the bottom doesn't have.
pub(super) fn lost(row: &Rail, span: Span) -> Hole {
    let nonsense = crate::finding::FaultName::VALUE_NONSENSE.0;
    Hole { fault: if row.cuts().is_empty() { nonsense } else { NO_LINE }, span }
}

/// A corner of a row.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// The side.
    pub side: Side,
    /// The station, share of the bottom.
    pub station: f64,
    /// mm along the row from its start.
    pub along: f64,
    /// What was cut off there, mm of the line.
    pub cut: f64,
    /// By how much the row turns at once, degrees.
    pub turn: f64,
}

/// The corners of a row from one parameter to another, in order.
pub(super) fn corners(row: &Rail, (from, to): (f64, f64), last: &GradedLast) -> Vec<Corner> {
    let corner = |cut: crate::geometry::Cut| Corner {
        side: if cut.point.y < 0.0 { Side::Outside } else { Side::Inside },
        station: cut.point.x / last.bottom,
        along: row.length_between(from, cut.from),
        cut: cut.length,
        turn: cut.turn.abs().to_degrees(),
    };
    row.cuts_between(from, to).into_iter().map(corner).collect()
}
