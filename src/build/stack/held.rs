//! What the sole's rows hold on: what is left of each part of the upper under them.

use super::{RowStack, SoleRows, place_on};
use crate::build::lines::Lines;
use crate::build::pieces::{part_at, parts_at};
use crate::finding::Sum;
use crate::geometry::Side;
use crate::measure::Spread;
use std::sync::Arc;

/// The least that is left of a part of the upper under the sole's rows.
#[derive(Clone, Debug)]
pub struct Held {
    /// The part.
    pub part: Arc<str>,
    /// Where its nominal is least.
    pub nominal: Thin,
    /// Where its thin end is least.
    pub lo: Thin,
}

/// A place where a part is thin.
#[derive(Clone, Debug)]
pub struct Thin {
    /// The row, from 0.
    pub row: usize,
    /// mm along the row from its start on the outside.
    pub s: f64,
    /// The side.
    pub side: Side,
    /// The station, share of the bottom.
    pub station: f64,
    /// What is left there.
    pub left: Sum,
}

/// A place on a piece of a row.
#[derive(Clone, Copy)]
struct Spot {
    value: f64,
    row: usize,
    piece: usize,
    s: f64,
}

/// The thinnest places of each part, heel to toe; a part that no row meets has none. Between the ends of a piece every
/// part is straight, so it is thinnest at one of them.
pub(super) fn held(names: &[Arc<str>], lines: &Lines, rows: &SoleRows, stacks: &[RowStack]) -> Vec<Held> {
    let least = |part: usize, value: fn(&Spread) -> f64| {
        let mut spots = stacks.iter().enumerate().flat_map(|(row, stack)| {
            stack.pieces.iter().enumerate().flat_map(move |(n, piece)| {
                [piece.from, piece.to].into_iter().flat_map(move |s| {
                    let of_part = parts_at(piece, s, lines).filter(move |(laid, _)| *laid == part);
                    of_part.map(move |(_, left)| Spot { value: value(&left), row, piece: n, s })
                })
            })
        });
        let first = spots.next()?;
        Some(spots.fold(first, |best, spot| if spot.value < best.value - SAME { spot } else { best }))
    };
    let thin = |part: usize, spot: Spot| {
        let (side, station) = place_on(&rows.rows[spot.row], spot.s, lines);
        let left = Sum { terms: part_at(&stacks[spot.row].pieces[spot.piece], part, spot.s, lines) };
        Thin { row: spot.row, s: spot.s, side, station, left: left.settled() }
    };
    let of_part = |(part, name): (usize, &Arc<str>)| {
        let (nominal, lo) = (least(part, |left| left.nominal)?, least(part, |left| left.lo)?);
        Some(Held { part: Arc::clone(name), nominal: thin(part, nominal), lo: thin(part, lo) })
    };
    names.iter().enumerate().filter_map(of_part).collect()
}

/// Of places so alike the first counts, mm.
const SAME: f64 = 1e-9;
