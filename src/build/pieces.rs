//! What of the upper lies along a row: pieces on which everything is linear, each with its parts and what their skives
//! leave of them.

use super::lines::Lines;
use super::outer::{Thinned, TurnedLap};
use super::rows::RowBuilt;
use crate::finding::Term;
use crate::geometry::{Path, Side, Straight};
use crate::measure::Spread;

/// A stretch of a row on which one arrangement of the outer lies, linear from end to end.
#[derive(Clone, Debug)]
pub(super) struct RowPiece {
    pub from: f64,
    pub to: f64,
    /// The parts that lie there: one, or two in a lap, or three where one lap reaches into the next.
    pub outer: Vec<Laid>,
    /// Nominal thickness of the outer at both ends.
    pub nominal: (f64, f64),
}

impl RowPiece {
    /// `s` as a share of the way from end to end.
    fn share(&self, s: f64) -> f64 {
        if self.to > self.from { (s - self.from) / (self.to - self.from) } else { 0.0 }
    }

    /// The same `by` mm farther along the row.
    pub fn moved(&self, by: f64) -> Self {
        Self { from: self.from + by, to: self.to + by, ..self.clone() }
    }

    pub fn in_a_lap(&self) -> bool {
        self.outer.len() > 1
    }

    pub fn nominal_at(&self, s: f64) -> f64 {
        let f = self.share(s);
        self.nominal.0 + (self.nominal.1 - self.nominal.0) * f
    }
}

/// A part that lies on a piece.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    part: usize,
    /// The laps in which it lies, none where it lies alone: the distance from the top part's edge at both ends.
    pub within: Vec<(usize, f64, f64)>,
}

pub(super) fn clipped(pieces: Vec<RowPiece>, from: f64, to: f64) -> Vec<RowPiece> {
    let cut = |piece: RowPiece| {
        let (a, b) = (piece.from.max(from), piece.to.min(to));
        let (f, g) = (piece.share(a), piece.share(b));
        let mut outer = piece.outer;
        for (_, x0, x1) in outer.iter_mut().flat_map(|laid| &mut laid.within) {
            (*x0, *x1) = (*x0 + (*x1 - *x0) * f, *x0 + (*x1 - *x0) * g);
        }
        RowPiece { from: a, to: b, outer, nominal: (0.0, 0.0) }
    };
    pieces
        .into_iter()
        .filter(|piece| piece.to > from && piece.from < to)
        .map(cut)
        .filter(|piece| piece.from < piece.to)
        .collect()
}

/// A lap on one side of a row.
struct Marked<'l> {
    lap: &'l TurnedLap,
    /// Where the top part's edge lies, mm along the row, and where the part underneath ends.
    mark: f64,
    other: f64,
}

impl Marked<'_> {
    /// Distance from the top part's edge.
    fn x(&self, s: f64) -> f64 {
        self.lap.wide * (s - self.mark) / (self.other - self.mark)
    }

    fn s(&self, x: f64) -> f64 {
        self.mark + (self.other - self.mark) * x / self.lap.wide
    }

    fn holds(&self, s: f64) -> bool {
        (0.0..=self.lap.wide).contains(&self.x(s))
    }
}

/// The outer along one side, in the order of the row. A part lies from the heelward end of the lap behind it to the
/// toeward end of the lap ahead; where one lap reaches into the next, three lie on each other.
pub(super) fn pieces_of_side(lines: &Lines, row: &RowBuilt, side: Side) -> Vec<RowPiece> {
    let far = row.length * 2.0;
    // `way` is +1 where the row runs toeward.
    let way = if side == Side::Outside { 1.0 } else { -1.0 };
    let marked = |lap| {
        let mark = mark_on_row(lines, row, lap, side);
        Marked { lap, mark, other: mark + if lap.toeward { way } else { -way } * lap.run() }
    };
    let laps: Vec<Marked<'_>> = lines.turned.laps.iter().map(marked).collect();
    let mut cuts = vec![-far, far];
    for lap in &laps {
        cuts.extend(lap.lap.breaks().into_iter().map(|x| lap.s(x)));
    }
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let pieces = cuts.windows(2).map(|ends| piece_between(&laps, way, (ends[0], ends[1])));
    pieces.flat_map(|piece| cut_where_thinner(piece, lines)).collect()
}

fn piece_between(laps: &[Marked<'_>], way: f64, (from, to): (f64, f64)) -> RowPiece {
    let middle = f64::midpoint(from, to);
    let lies = |part: usize| {
        let behind = part.checked_sub(1).map(|n| &laps[n]);
        let begun = |lap: &Marked<'_>| (middle - lap.mark) * way >= 0.0 || (middle - lap.other) * way >= 0.0;
        let ended = |lap: &Marked<'_>| (middle - lap.mark) * way > 0.0 && (middle - lap.other) * way > 0.0;
        behind.is_none_or(begun) && !laps.get(part).is_some_and(ended)
    };
    let laid = |part: usize| {
        let around = part.saturating_sub(1)..(part + 1).min(laps.len());
        let within = around.filter(|n| laps[*n].holds(middle)).map(|n| (n, laps[n].x(from), laps[n].x(to)));
        Laid { part, within: within.collect() }
    };
    let mut outer: Vec<Laid> = (0..=laps.len()).filter(|part| lies(*part)).map(laid).collect();
    // The top part first.
    if outer[0].within.first().is_some_and(|(n, ..)| laps[*n].lap.toeward) {
        outer.reverse();
    }
    RowPiece { from, to, outer, nominal: (0.0, 0.0) }
}

/// A part in two laps is as thin as the thinner of its skives: the piece cut where that changes.
fn cut_where_thinner(piece: RowPiece, lines: &Lines) -> Vec<RowPiece> {
    let crossing = piece.outer.iter().filter(|laid| laid.within.len() == 2).find_map(|laid| {
        let apart = |f: f64| {
            let [a, b] = [0, 1].map(|n| thinned_at(laid, laid.within[n], f, lines).spread().nominal);
            a - b
        };
        let (start, end) = (apart(0.0), apart(1.0));
        (start * end < 0.0).then(|| piece.from + (piece.to - piece.from) * start / (start - end))
    });
    let Some(at) = crossing else { return vec![piece] };
    [(piece.from, at), (at, piece.to)].into_iter().flat_map(|(a, b)| clipped(vec![piece.clone()], a, b)).collect()
}

/// Where the top part's edge meets a row: on the normal at the mark, or where its leaning line crosses the row.
fn mark_on_row(lines: &Lines, row: &RowBuilt, lap: &TurnedLap, side: Side) -> f64 {
    let x = lap.mark(side) * lines.last.bottom;
    let t = lines.feather_at(x, side).unwrap_or(row.from);
    let frame = lines.last.feather.frame(t);
    let square = (lap.lean - std::f64::consts::FRAC_PI_2).abs() < 1e-9;
    if square {
        return row.rail.length_between(row.from, t);
    }
    let toeward = if side == Side::Outside { frame.tangent } else { -frame.tangent };
    let along = toeward * lap.lean.cos() + frame.normal * lap.lean.sin();
    let crossing = Straight::through(frame.point, frame.point + along).and_then(|edge| {
        let crossings = row.rail.crossings_on(&edge, side);
        crossings.into_iter().min_by(|a, b| (a - t).abs().total_cmp(&(b - t).abs()))
    });
    row.rail.length_between(row.from, crossing.unwrap_or(t))
}

/// A part in one of its laps, at a share of the way along the piece.
struct InLap<'l> {
    thinned: &'l Thinned,
    /// From the part's own edge: here, and in the middle of the piece, which says what skive counts.
    x: f64,
    middle: f64,
}

impl InLap<'_> {
    fn spread(&self) -> Spread {
        self.thinned.at(self.x, self.middle)
    }
}

fn thinned_at<'l>(laid: &Laid, (n, x0, x1): (usize, f64, f64), f: f64, lines: &'l Lines) -> InLap<'l> {
    let lap = &lines.turned.laps[n];
    let own = |f: f64| {
        let x = (x0 + (x1 - x0) * f).clamp(0.0, lap.wide);
        if lap.on_top(n, laid.part) { x } else { lap.wide - x }
    };
    InLap { thinned: lap.thinned(n, laid.part), x: own(f), middle: own(0.5) }
}

/// What is left of a part at a share of the way along the piece; none where it lies in no lap. Of two laps' skives the
/// thinner counts, as it does in the middle of the piece; of equally thin ones that of the wider tolerance.
fn left_at<'l>(laid: &Laid, f: f64, lines: &'l Lines) -> Option<InLap<'l>> {
    let middle = |within: &(usize, f64, f64)| thinned_at(laid, *within, 0.5, lines).spread();
    let thinner = laid.within.iter().min_by(|a, b| {
        let (a, b) = (middle(a), middle(b));
        let same = (a.nominal - b.nominal).abs() < 1e-9;
        if same { b.half().total_cmp(&a.half()) } else { a.nominal.total_cmp(&b.nominal) }
    });
    thinner.map(|within| thinned_at(laid, *within, f, lines))
}

/// Thickness of the outer at `s` on a piece: the parts that lie there.
pub(super) fn outer_at(piece: &RowPiece, s: f64, lines: &Lines) -> Vec<Term> {
    piece.outer.iter().flat_map(|laid| terms_of(laid, piece.share(s), lines)).collect()
}

fn terms_of(laid: &Laid, f: f64, lines: &Lines) -> Vec<Term> {
    match left_at(laid, f, lines) {
        Some(left) => left.thinned.terms(left.x, left.middle),
        None => vec![lines.turned.parts[laid.part].term()],
    }
}

/// One of the parts that lie at `s` on a piece.
pub(super) fn part_at(piece: &RowPiece, part: usize, s: f64, lines: &Lines) -> Vec<Term> {
    let of_part = piece.outer.iter().filter(|laid| laid.part == part);
    of_part.flat_map(|laid| terms_of(laid, piece.share(s), lines)).collect()
}

/// The parts that lie at `s` on a piece and what is left of each, without building terms.
pub(super) fn parts_at<'l>(
    piece: &'l RowPiece,
    s: f64,
    lines: &'l Lines,
) -> impl Iterator<Item = (usize, Spread)> + 'l {
    let left = move |laid: &Laid| match left_at(laid, piece.share(s), lines) {
        Some(left) => left.spread(),
        None => lines.turned.parts[laid.part].spread,
    };
    piece.outer.iter().map(move |laid| (laid.part, left(laid)))
}

/// The thickness of the outer alone.
pub(super) fn outer_spread(piece: &RowPiece, s: f64, lines: &Lines) -> Spread {
    let add = |a: Spread, b: Spread| Spread { lo: a.lo + b.lo, nominal: a.nominal + b.nominal, hi: a.hi + b.hi };
    parts_at(piece, s, lines).map(|(_, spread)| spread).fold(Spread::exactly(0.0), add)
}
