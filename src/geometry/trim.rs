//! What is cut off a rail: the loops that it makes where it folds, and what is left over where its sides meet.
//!
//! Every place where the rail crosses itself is found on short chords and then solved for. Between two of them the rail
//! winds everywhere equally often round what lies to its left; it bounds what it encloses where that is once, and there
//! alone. On a counter-clockwise curve a loop of a rail going out winds twice round what it encloses, and a loop of one
//! going in winds the other way: both are cut off.

use kurbo::{Point, Vec2};

use super::chain::{Chain, Meeting};
use super::path::{Motion, Path};
use super::plane::{apart, length_of};
use super::rail::Rail;

/// Ends of a cut that are farther apart than this, mm, are two places.
const SAME_POINT: f64 = 1e-4;

/// What was found on chords is this exact, mm.
const EXACT: f64 = 0.03;

/// A stretch of a rail that is cut off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Parameter at which the stretch begins, in the first turn.
    pub from: f64,
    /// Parameter at which it ends; past the period if it runs through the heel.
    pub to: f64,
    /// Where the rail ends that leads up to it, mm.
    pub point: Point,
    /// How much is cut off, mm along the rail.
    pub length: f64,
    /// By how much the rail turns there at once, radians, positive to the left.
    pub turn: f64,
    /// Whether the rail doesn't go on from the same place: its sides have met, and nothing is left between.
    pub parts: bool,
    onward: Point,
    way: Vec2,
}

impl Cut {
    fn between(rail: &Rail, from: f64, to: f64) -> Self {
        let (before, after) = (rail.motion(from), rail.motion(to));
        let unit = |way: Vec2| way / length_of(way);
        let (arrives, leaves) = (unit(before.velocity), unit(after.velocity));
        let parts = apart(before.point, after.point) > SAME_POINT;
        let corner = before.point.midpoint(after.point);
        let middle = arrives + leaves;
        Self {
            from,
            to,
            point: if parts { before.point } else { corner },
            onward: if parts { after.point } else { corner },
            length: rail.length_between(from, to),
            turn: libm::atan2(arrives.cross(leaves), arrives.dot(leaves)),
            parts,
            way: if length_of(middle) > 0.0 { unit(middle) } else { arrives },
        }
    }

    /// All of a rail of which nothing is left.
    fn whole(rail: &Rail) -> Self {
        Self { length: rail.length(), parts: true, ..Self::between(rail, 0.0, rail.period()) }
    }

    /// The same cut at parameters that are `by` greater.
    pub(super) fn moved(&self, by: f64) -> Self {
        Self { from: self.from + by, to: self.to + by, ..*self }
    }

    /// The parameters at which spans are parted: where it begins and ends, and in the middle, where its end leads on.
    pub(super) fn knots(&self) -> [f64; 3] {
        [self.from, self.middle(), self.to]
    }

    fn middle(&self) -> f64 {
        0.5 * (self.from + self.to)
    }

    /// Where the rail stands still over `t` of the first turn, if that is cut off.
    pub(super) fn stop(&self, t: f64, period: f64) -> Option<Motion> {
        let t = [t, t + period].into_iter().find(|t| self.from < *t && *t < self.to)?;
        let point = if t < self.middle() { self.point } else { self.onward };
        Some(Motion { point, velocity: self.way })
    }
}

/// What has to be cut off `rail`, which has its loops yet, in order.
pub(super) fn cuts(rail: &Rail) -> Vec<Cut> {
    let chain = Chain::of(rail);
    let arcs = Arcs::of(rail, &chain);
    let mut kept = vec![false; arcs.count()];
    for contour in arcs.contours() {
        let points = arcs.points(&chain, &contour);
        if encloses(&points) && clear(rail, &points) {
            for arc in contour {
                kept[arc] = true;
            }
        }
    }
    let kept: Vec<(f64, f64)> = (0..arcs.count()).filter(|arc| kept[*arc]).map(|arc| arcs.ends(arc)).collect();
    let Some(&(first, _)) = kept.first() else { return vec![Cut::whole(rail)] };
    let nexts = kept.iter().skip(1).map(|arc| arc.0).chain([first + rail.period()]);
    let gaps = kept.iter().zip(nexts).filter(|((_, end), next)| *next > *end);
    let mut cuts: Vec<Cut> = gaps
        .map(|(&(_, end), next)| {
            let back = if end >= rail.period() { rail.period() } else { 0.0 };
            Cut::between(rail, end - back, next - back)
        })
        .collect();
    cuts.sort_by(|a, b| a.from.total_cmp(&b.from));
    cuts
}

/// The stretches of a rail between the places where it crosses itself.
struct Arcs {
    period: f64,
    /// Where each begins, ascending, with the other arc that begins at the same crossing.
    starts: Vec<(f64, usize)>,
    /// How often the rail winds round what lies to the left of each.
    winds: Vec<i32>,
}

impl Arcs {
    fn of(rail: &Rail, chain: &Chain) -> Self {
        let meetings = chain.meetings(rail);
        let (at, winds) = chain.winds(&meetings);
        if meetings.is_empty() {
            return Self { period: rail.period(), starts: vec![(0.0, 0)], winds: vec![winds] };
        }
        let mut starts: Vec<(f64, usize, i32)> = Vec::with_capacity(2 * meetings.len());
        for (n, Meeting { first, second, left }) in meetings.into_iter().enumerate() {
            // What comes from the right to the left is wound round once less ahead of it.
            let change = if left { -1 } else { 1 };
            starts.extend([(first, n, change), (second, n, -change)]);
        }
        starts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let count = starts.len();
        let partner = |arc: usize| (0..count).find(|other| *other != arc && starts[*other].1 == starts[arc].1);
        let known = (starts.partition_point(|start| start.0 <= at) + count - 1) % count;
        let mut all = vec![winds; count];
        for step in 1..count {
            let arc = (known + step) % count;
            all[arc] = all[(arc + count - 1) % count] + starts[arc].2;
        }
        let paired = (0..count).map(|arc| (starts[arc].0, partner(arc).unwrap_or(arc))).collect();
        Self { period: rail.period(), starts: paired, winds: all }
    }

    fn count(&self) -> usize {
        self.starts.len()
    }

    /// The parameters at which an arc begins and ends.
    fn ends(&self, arc: usize) -> (f64, f64) {
        let end = self.starts.get(arc + 1).map_or(self.starts[0].0 + self.period, |next| next.0);
        (self.starts[arc].0, end)
    }

    /// The arcs that bound what is enclosed, each contour in its order: where it arrives at a crossing, it goes on along the
    /// other branch.
    fn contours(&self) -> Vec<Vec<usize>> {
        let mut left: Vec<bool> = self.winds.iter().map(|winds| *winds == 1).collect();
        let mut contours = Vec::new();
        while let Some(first) = left.iter().position(|left| *left) {
            let mut contour = Vec::new();
            let mut arc = first;
            while std::mem::take(&mut left[arc]) {
                contour.push(arc);
                arc = self.starts[(arc + 1) % self.count()].1;
            }
            contours.push(contour);
        }
        contours
    }

    fn points(&self, chain: &Chain, contour: &[usize]) -> Vec<Point> {
        contour.iter().flat_map(|arc| chain.points(self.ends(*arc))).collect()
    }
}

/// Whether a contour runs counter-clockwise: what runs the other way is a hole that the rail leaves, and no line of a boot.
fn encloses(points: &[Point]) -> bool {
    let next = points.iter().skip(1).chain(points.first());
    points.iter().zip(next).map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>() > 0.0
}

/// Whether a contour lies as deep as the rail does: one that is carried in beyond the middle comes out turned inside out and
/// wound the right way again.
fn clear(rail: &Rail, points: &[Point]) -> bool {
    const LOOKED_AT: usize = 24;
    let least = rail.least_inset() - EXACT;
    if least <= 0.0 {
        return true;
    }
    let feather = super::chain::feather(rail);
    let off = |p: Point| {
        let chords = feather.windows(2).map(|ends| super::flatten::off_chord(p, ends[0], ends[1]));
        chords.fold(f64::INFINITY, f64::min)
    };
    points.iter().step_by(points.len().div_ceil(LOOKED_AT).max(1)).all(|&p| off(p) >= least)
}
