//! A rail as a closed chain of short chords that keep their parameters, and where it meets itself.

use kurbo::{Point, Vec2};

use super::loops::shares_at_crossing;
use super::path::{Motion, Path};
use super::plane::{apart, length_of};
use super::rail::Rail;

/// How far chords stray from the rail, mm.
const TOLERANCE: f64 = 0.01;

/// Halvings of one span at most.
const DEPTH: u32 = 12;

/// Cosine of the greatest turn over a chord: 60 degrees.
const TURN: f64 = 0.5;

/// Parameters nearer than this, mm, are one.
const SAME: f64 = 1e-7;

/// Passages nearer to each other than this, mm, meet.
const MET: f64 = 1e-8;

/// Newton's steps at most, and how far from its chords a meeting may be, in chords: passages that meet at a small angle do so
/// well beside the place where chords cross.
const STEPS: u32 = 40;
const ABOUT: f64 = 8.0;

/// How far beside a chord it is looked how often the chain winds round, mm.
const ASIDE: f64 = 1e-6;

/// Chords for each span of the feather line.
const FEATHER: u32 = 16;

/// The corners of a closed chain; the last is the first, a turn later.
pub(super) struct Chain {
    links: Vec<(f64, Point)>,
}

/// Where a rail crosses itself: the parameters, ascending.
#[derive(Clone, Copy, Debug)]
pub(super) struct Meeting {
    pub(super) first: f64,
    pub(super) second: f64,
    /// Whether the second passage leads from the right of the first to its left.
    pub(super) left: bool,
}

impl Chain {
    pub(super) fn of(rail: &Rail) -> Self {
        let parameters = rail.knots().parameters();
        let mut links = vec![(0.0, rail.knots().point(0))];
        for (span, ends) in parameters.windows(2).enumerate() {
            let at = |t: f64| rail.motion_on(span, t);
            halve(&at, (ends[0], at(ends[0])), (ends[1], at(ends[1])), DEPTH, &mut links);
        }
        Self { links }
    }

    /// How often the chain winds round what lies to its left, at the middle of its longest chord on which it meets nothing;
    /// with the parameter there.
    pub(super) fn winds(&self, meetings: &[Meeting]) -> (f64, i32) {
        let met = |from: f64, to: f64| {
            let within = |t: f64| from <= t && t <= to;
            meetings.iter().any(|meeting| within(meeting.first) || within(meeting.second))
        };
        let chords = self.links.windows(2).filter(|ends| !met(ends[0].0, ends[1].0));
        let longest = chords.max_by(|a, b| apart(a[0].1, a[1].1).total_cmp(&apart(b[0].1, b[1].1)));
        let ends = longest.unwrap_or(&self.links[..2]);
        let (start, way) = (ends[0].1, ends[1].1 - ends[0].1);
        let left = start + way * 0.5 + Vec2::new(-way.y, way.x) * (ASIDE / length_of(way));
        (0.5 * (ends[0].0 + ends[1].0), self.winds_round(left))
    }

    /// How often the chain winds round `p`, counter-clockwise: the chords that pass it toeward, by their way.
    fn winds_round(&self, p: Point) -> i32 {
        let passes = |ends: &[(f64, Point)]| {
            let (a, b) = (ends[0].1, ends[1].1);
            let on_the_left = (b - a).cross(p - a) > 0.0;
            i32::from(a.y <= p.y && p.y < b.y && on_the_left) - i32::from(b.y <= p.y && p.y < a.y && !on_the_left)
        };
        self.links.windows(2).map(passes).sum()
    }

    /// The corners from one parameter to another, which may lie in the next turn.
    pub(super) fn points(&self, (from, to): (f64, f64)) -> Vec<Point> {
        let period = self.links[self.links.len() - 1].0;
        let turns = [0.0, period].into_iter();
        let within = turns.flat_map(|turn| {
            let links = self.links[1..].iter();
            links.filter(move |(t, _)| from <= t + turn && t + turn <= to).map(|(_, point)| *point)
        });
        within.collect()
    }

    /// All places where the rail crosses itself.
    pub(super) fn meetings(&self, rail: &Rail) -> Vec<Meeting> {
        let mut found: Vec<Meeting> = Vec::new();
        for (i, j) in self.near_pairs() {
            let [a, b] = [i, j].map(|n| [self.links[n], self.links[n + 1]]);
            let Some(shares) = shares_at_crossing([a[0].1, a[1].1], [b[0].1, b[1].1]) else { continue };
            let at = |ends: [(f64, Point); 2], share: f64| ends[0].0 + (ends[1].0 - ends[0].0) * share;
            let start = (at(a, shares.0), at(b, shares.1));
            let Some((first, second)) = solved(rail, start, [a, b].map(|ends| (ends[0].0, ends[1].0))) else {
                continue;
            };
            let known = |other: &Meeting| (other.first - first).abs() < SAME && (other.second - second).abs() < SAME;
            if !found.iter().any(known) {
                let way = |t: f64| rail.motion(t).velocity;
                found.push(Meeting { first, second, left: way(first).cross(way(second)) > 0.0 });
            }
        }
        found
    }

    /// Chords that are no neighbours and overlap along the centre line, each pair once.
    fn near_pairs(&self) -> Vec<(usize, usize)> {
        let chords = self.links.len() - 1;
        let reach = |n: usize| {
            let (a, b) = (self.links[n].1.x, self.links[n + 1].1.x);
            (a.min(b), a.max(b))
        };
        let mut order: Vec<(f64, f64, usize)> = (0..chords).map(|n| (reach(n).0, reach(n).1, n)).collect();
        order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.2.cmp(&b.2)));
        let mut pairs = Vec::new();
        for (n, &(_, most, i)) in order.iter().enumerate() {
            for &(_, _, j) in order[n + 1..].iter().take_while(|other| other.0 <= most) {
                let (i, j) = (i.min(j), i.max(j));
                if j - i > 1 && !(i == 0 && j == chords - 1) {
                    pairs.push((i, j));
                }
            }
        }
        pairs.sort_unstable();
        pairs
    }
}

/// The feather line of a rail as points whose chords stray little from it.
pub(super) fn feather(rail: &Rail) -> Vec<Point> {
    let ends = rail.knots().parameters().windows(2);
    let parts = ends.flat_map(|ends| {
        let (from, to) = (ends[0], ends[1]);
        (0..FEATHER).map(move |part| from + (to - from) * f64::from(part) / f64::from(FEATHER))
    });
    parts.chain([rail.period()]).map(|t| rail.foot(t).point).collect()
}

/// Adds what is needed after `left` up to and with `right`.
fn halve(
    at: &impl Fn(f64) -> Motion,
    left: (f64, Motion),
    right: (f64, Motion),
    depth: u32,
    links: &mut Vec<(f64, Point)>,
) {
    let middle = 0.5 * (left.0 + right.0);
    let halfway = at(middle);
    let quarters = [0.5 * (left.0 + middle), 0.5 * (middle + right.0)].map(|t| at(t).point);
    let strays = [quarters[0], halfway.point, quarters[1]]
        .iter()
        .any(|&p| super::flatten::off_chord(p, left.1.point, right.1.point) > TOLERANCE);
    let turns = |a: Vec2, b: Vec2| a.dot(b) < TURN * length_of(a) * length_of(b);
    let bent = turns(left.1.velocity, halfway.velocity) || turns(halfway.velocity, right.1.velocity);
    if (strays || bent) && depth > 0 {
        halve(at, left, (middle, halfway), depth - 1, links);
        halve(at, (middle, halfway), right, depth - 1, links);
    } else {
        links.push((right.0, right.1.point));
    }
}

/// The parameters at which two passages are at one place, from those at which their chords cross, by Newton's steps that
/// stay about the chords. `None` where the chords cross and the rail does not.
fn solved(rail: &Rail, start: (f64, f64), chords: [(f64, f64); 2]) -> Option<(f64, f64)> {
    let longer = chords.iter().map(|(from, to)| to - from).fold(0.0, f64::max);
    let about = |t: f64, (from, to): (f64, f64)| t.clamp(from - ABOUT * longer, to + ABOUT * longer);
    let (mut a, mut b) = start;
    for _ in 0..STEPS {
        let (one, other) = (rail.motion(a), rail.motion(b));
        let gap = one.point - other.point;
        let turn = one.velocity.cross(other.velocity);
        let (step_a, step_b) = (-gap.cross(other.velocity) / turn, -gap.cross(one.velocity) / turn);
        if !(step_a.is_finite() && step_b.is_finite()) {
            return None;
        }
        (a, b) = (about(a + step_a, chords[0]), about(b + step_b, chords[1]));
        if step_a.abs().max(step_b.abs()) < 1e-12 {
            break;
        }
    }
    (b - a > SAME && apart(rail.point(a), rail.point(b)) < MET).then_some((a, b))
}
