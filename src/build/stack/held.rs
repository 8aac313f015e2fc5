//! What the sole's rows hold on: what is left of each part of the upper under them.

use super::{RowStack, SoleRows, place_on};
use crate::build::lines::Lines;
use crate::build::pieces::{part_at, parts_at};
use crate::finding::Sum;
use crate::geometry::Side;
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
    row: usize,
    piece: usize,
    s: f64,
}

/// The least of what is offered, and where it is; of equal ones the first.
#[derive(Clone, Copy, Default)]
struct Least(Option<(f64, Spot)>);

impl Least {
    fn offer(&mut self, value: f64, spot: Spot) {
        if self.0.is_none_or(|(known, _)| value < known - SAME) {
            self.0 = Some((value, spot));
        }
    }
}

/// The thinnest places of each part, heel to toe; a part that no row meets has none. Between the ends of a piece every
/// part is straight, so it is thinnest at one of them.
pub(super) fn held(names: &[Arc<str>], lines: &Lines, rows: &SoleRows, stacks: &[RowStack]) -> Vec<Held> {
    let mut least = vec![[Least::default(); 2]; names.len()];
    for (row, stack) in stacks.iter().enumerate() {
        for (n, piece) in stack.pieces.iter().enumerate() {
            for s in [piece.from, piece.to] {
                for (part, left) in parts_at(piece, s, lines) {
                    let [nominal, lo] = &mut least[part];
                    nominal.offer(left.nominal, Spot { row, piece: n, s });
                    lo.offer(left.lo, Spot { row, piece: n, s });
                }
            }
        }
    }
    let thin = |part: usize, least: Least| {
        let (_, spot) = least.0?;
        let (side, station) = place_on(&rows.rows[spot.row], spot.s, lines);
        let left = Sum { terms: part_at(&stacks[spot.row].pieces[spot.piece], part, spot.s, lines) };
        Some(Thin { row: spot.row, s: spot.s, side, station, left: left.settled() })
    };
    let of_part = |(part, (name, [nominal, lo])): (usize, (&Arc<str>, [Least; 2]))| {
        Some(Held { part: Arc::clone(name), nominal: thin(part, nominal)?, lo: thin(part, lo)? })
    };
    names.iter().zip(least).enumerate().filter_map(of_part).collect()
}

/// Of places so alike the first counts, mm.
const SAME: f64 = 1e-9;
