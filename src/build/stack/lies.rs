//! Where along a row a layer of the bottom lies.

use crate::build::Built;
use crate::build::amounts::{maybe, of};
use crate::build::lines::Lines;
use crate::geometry::{Path, Rail, Side, Straight};
use crate::spec::{Ends, Extent, Layer, Role};
use kurbo::Point;

/// Stretches of a row, from and to, mm from its start.
pub(in crate::build) type Stretches = Vec<(f64, f64)>;

/// A row beside the feather line: its line, the parameter at which it starts on the outside, and its length in mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::build) struct Along<'r> {
    pub rail: &'r Rail,
    pub from: f64,
    pub length: f64,
}

impl Along<'_> {
    /// The whole turn of the row's line, heel to heel, in mm along the row. A row starts inside it; one that runs all
    /// round ends in the next.
    pub fn turn(&self) -> (f64, f64) {
        let heel = self.rail.length_between(self.from, 0.0);
        (heel, heel + self.rail.length())
    }

    /// Where the row crosses a line, mm from its start, outside and inside; the turn's ends where it doesn't.
    fn across(&self, line: &Straight) -> (f64, f64) {
        let (heel, back) = self.turn();
        let at = |side: Side, default: f64| {
            let crossings = self.rail.crossings_on(line, side);
            crossings.first().map_or(default, |t| self.rail.length_between(self.from, *t))
        };
        (at(Side::Outside, heel), at(Side::Inside, back))
    }

    /// Stretches of the turn that lie no farther than `half` mm from the centre line.
    fn within(&self, half: f64) -> Stretches {
        let beside = |y: f64| Straight::through(Point::new(0.0, y), Point::new(1.0, y));
        let lines = [beside(half), beside(-half)].into_iter().flatten();
        let mut cuts: Vec<f64> = lines.flat_map(|line| self.rail.crossings(&line)).collect();
        cuts.extend([0.0, self.rail.period()]);
        cuts.sort_by(f64::total_cmp);
        let inside = |ends: &&[f64]| self.rail.point(f64::midpoint(ends[0], ends[1])).y.abs() <= half;
        let s = |t: f64| self.rail.length_between(self.from, t);
        cuts.windows(2).filter(inside).map(|ends| (s(ends[0]), s(ends[1]))).collect()
    }
}

/// What a layer says of where it lies.
#[derive(Clone, Copy, Debug)]
pub(in crate::build) struct Lies {
    ends: Ends,
    covers: Extent,
    breadth: Option<f64>,
    /// How far behind the joint, and behind the breast, a piece ends that says so.
    front: Option<f64>,
    back: Option<f64>,
}

impl Lies {
    pub fn of(layer: &Layer) -> Built<Self> {
        Ok(Self {
            ends: of(&layer.ends)?.it,
            covers: of(&layer.covers)?.it,
            breadth: maybe(layer.breadth.as_ref())?,
            front: maybe(layer.front.as_ref())?,
            back: maybe(layer.back.as_ref())?,
        })
    }

    /// Everything ahead of the place where the layer says that it ends, as broad as the bottom.
    fn ahead(self) -> Self {
        let (covers, ends) = match self.covers {
            Extent::Forepart => (Extent::Forepart, self.ends),
            Extent::Waist => (Extent::All, Ends::BehindBreast(0.0)),
            Extent::All | Extent::Seat => (Extent::All, self.ends),
        };
        Self { ends, covers, breadth: None, front: None, back: None }
    }

    /// Where along the row the layer lies: one stretch round the toe, or one on each side, and only what is within its
    /// breadth, which is centred on the centre line. The line where it ends belongs to it.
    pub fn along(self, lines: &Lines, row: Along<'_>) -> Stretches {
        self.between(lines, row, (0.0, row.length))
    }

    /// The same, and what only touches an end of the row: its first or last stitch goes through that.
    pub fn touching(self, lines: &Lines, row: Along<'_>) -> Stretches {
        self.between(lines, row, (-HAIR, row.length + HAIR))
    }

    fn between(self, lines: &Lines, row: Along<'_>, ends: (f64, f64)) -> Stretches {
        let (heel, back) = row.turn();
        let last = &lines.last;
        let (breast, joint) = (Straight::square_at(last.breast), last.joint_line);
        let end = match self.ends {
            Ends::Full => (heel, back),
            Ends::BehindBreast(behind) => row.across(&Straight::square_at(last.breast - behind)),
        };
        let covered = match self.covers {
            Extent::All => vec![(heel, back)],
            Extent::Forepart => vec![row.across(&joint)],
            Extent::Waist => {
                let half = self.breadth.map_or(f64::INFINITY, |breadth| breadth / 2.0);
                let front = self.front.map_or(joint, |behind| Straight::square_at(last.joint_met(half) - behind));
                let back = self.back.map_or(breast, |behind| Straight::square_at(last.breast - behind));
                let ((breast_out, breast_in), (joint_out, joint_in)) = (row.across(&back), row.across(&front));
                vec![(breast_out, joint_out), (joint_in, breast_in)]
            }
            Extent::Seat => {
                let (outside, inside) = row.across(&breast);
                vec![(heel, outside), (inside, back)]
            }
        };
        let in_turn = common(&covered, &[end]);
        let in_turn = match self.breadth {
            Some(breadth) => common(&in_turn, &row.within(breadth / 2.0)),
            None => in_turn,
        };
        let again = in_turn.iter().map(|(from, to)| (from + back - heel, to + back - heel));
        let both: Stretches = in_turn.iter().copied().chain(again).collect();
        common(&both, &[ends])
    }

    /// Ahead of the place where the layer says that it ends: how much of the row misses it, mm, and where it first does,
    /// mm from its start.
    fn missed(self, lines: &Lines, row: Along<'_>) -> (f64, f64) {
        if self.breadth.is_none() && matches!(self.covers, Extent::All | Extent::Forepart) {
            return (0.0, 0.0);
        }
        let length = |stretches: &Stretches| stretches.iter().map(|(from, to)| to - from).sum::<f64>();
        let (ahead, there) = (self.ahead().along(lines, row), self.along(lines, row));
        let first = ahead.iter().find_map(|(from, to)| {
            let on = |reached: f64, it: &(f64, f64)| if it.0 <= reached + HAIR { reached.max(it.1) } else { reached };
            let reached = there.iter().fold(*from, on);
            (reached < to - HAIR).then_some(reached)
        });
        (length(&ahead) - length(&there), first.unwrap_or(0.0))
    }
}

/// What a row misses of a layer that it must go through.
#[derive(Clone, Copy, Debug)]
pub struct Missed {
    /// The layer.
    pub role: Role,
    /// The row, from 0.
    pub row: usize,
    /// How much of the row lies beside it ahead of the place where the layer says that it ends, mm; 0 where it is met all
    /// along.
    pub length: f64,
    /// Where the row first misses it, mm from its start, and on which side that is.
    pub first: (f64, Side),
}

/// What a row misses of a layer.
pub(in crate::build) fn missed(layer: &Layer, lines: &Lines, (row, along): (usize, Along<'_>)) -> Built<Missed> {
    let (length, first) = Lies::of(layer)?.missed(lines, along);
    let side = along.rail.side(along.rail.t_at_length(along.from, first));
    Ok(Missed { role: layer.role, row, length: if length > HAIR { length } else { 0.0 }, first: (first, side) })
}

/// Two places so near are one, mm.
const HAIR: f64 = 1e-6;

/// What lies in both.
fn common(some: &[(f64, f64)], others: &[(f64, f64)]) -> Stretches {
    let pairs = some.iter().flat_map(|a| others.iter().map(move |b| (a.0.max(b.0), a.1.min(b.1))));
    pairs.filter(|(from, to)| from < to).collect()
}
