//! What every closed path can be asked, whether fitted or carried along a fitted one.

use kurbo::{Point, Vec2};

use super::crossing;
use super::flatten;
use super::knots::{Knots, LENGTH_TOLERANCE};
use super::nearest::{self, Nearest};
use super::plane::length_of;
use super::quadrature::{gauss, integrate};
use super::region::{self, Breadth};
use super::straight::Straight;

/// Disagreement of the two quadrature rules that sends a span to be halved, mm².
const AREA_TOLERANCE: f64 = 1e-5;

/// Agreement of a sought length, mm.
const LENGTH_CLOSE: f64 = 1e-10;

/// The part of a span, at most, that a plain Gauss rule measures as well as the one that checks itself.
const SHORT: f64 = 0.01;

/// One side of a closed path, by the half of the feather curve on which its normal stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Heel to toe, `y < 0` (lateral).
    Outside,
    /// Toe to heel, `y > 0` (medial).
    Inside,
}

/// Where a path is at a parameter and how it moves there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// Place, mm.
    pub point: Point,
    /// Change of the place for each mm of parameter.
    pub velocity: Vec2,
}

/// A closed path of smooth spans: a fitted curve or a rail, and nothing else. Parameters, lengths and distances are mm, areas mm²; a parameter outside `0..period`
/// means the same place a turn earlier or later.
pub trait Path {
    /// The knots between the smooth spans.
    fn knots(&self) -> &Knots;

    /// Place and velocity at `t` of the first turn, which lies in `span`.
    fn motion_on(&self, span: usize, t: f64) -> Motion;

    /// mm run for each mm of parameter at `t` of the first turn, which lies in `span`.
    fn speed_on(&self, span: usize, t: f64) -> f64 {
        length_of(self.motion_on(span, t).velocity)
    }

    /// The parameter at which the normals change from the outside to the inside: the toe of the feather curve.
    fn side_switch(&self) -> f64;

    /// Whether the path stands still over the parameters of a span, because what ran there is cut off.
    fn stands_still(&self, _span: usize) -> bool {
        false
    }

    /// Whether a span is sure, at a glance, to go from one side of `line` to the other or back, and nowhere to turn.
    fn goes_one_way(&self, span: usize, line: &Straight) -> bool;

    /// Parameters of one turn.
    fn period(&self) -> f64 {
        self.knots().period()
    }

    /// Place and velocity at `t`.
    fn motion(&self, t: f64) -> Motion {
        let place = self.knots().locate(t);
        self.motion_on(place.span, place.t)
    }

    /// The point at `t`.
    fn point(&self, t: f64) -> Point {
        self.motion(t).point
    }

    /// The side on which `t` lies.
    fn side(&self, t: f64) -> Side {
        if self.knots().locate(t).t < self.side_switch() { Side::Outside } else { Side::Inside }
    }

    /// Where this path itself crosses the centre line at the toe: of all crossings the one with the greatest `x`. The
    /// switch of sides if it never crosses.
    fn toe(&self) -> f64 {
        let crossings = self.crossings(&Straight::centre());
        let toeward = crossings.into_iter().max_by(|&a, &b| self.point(a).x.total_cmp(&self.point(b).x));
        toeward.unwrap_or_else(|| self.side_switch())
    }

    /// Length of the whole path, mm, to 1e-6.
    fn length(&self) -> f64 {
        self.knots().total()
    }

    /// Length from `t0` to `t1`, mm, to 1e-6; negative if `t1 < t0`, more than one turn where the range is.
    fn length_between(&self, t0: f64, t1: f64) -> f64 {
        run_to(self, t1) - run_to(self, t0)
    }

    /// The parameter `length` mm along the path from `t0`; a negative length goes back.
    fn t_at_length(&self, t0: f64, length: f64) -> f64 {
        t_at_run(self, run_to(self, t0) + length)
    }

    /// The parameters of the `intervals + 1` evenly spaced places from `t0` to `t1`, both ends among them; `t0` alone for no
    /// interval.
    fn evenly(&self, t0: f64, t1: f64, intervals: usize) -> Vec<f64> {
        if intervals == 0 {
            return vec![t0];
        }
        let (start, end) = (run_to(self, t0), run_to(self, t1));
        #[expect(clippy::cast_precision_loss, reason = "holes and nails are counted in hundreds")]
        let inner = (1..intervals).map(|i| t_at_run(self, start + (end - start) * (i as f64 / intervals as f64)));
        std::iter::once(t0).chain(inner).chain(std::iter::once(t1)).collect()
    }

    /// Area enclosed, mm², by Green's formula; what a loop runs round the wrong way counts negative.
    fn area(&self) -> f64 {
        swept(self, Point::ORIGIN, 0.0, self.period())
    }

    /// The part of the enclosed area, mm², that lies beyond `line`.
    fn area_beyond(&self, line: &Straight) -> f64 {
        // Seen from a point on the line, the cut along the line sweeps nothing.
        self.stretches_beyond(line).into_iter().map(|(t0, t1)| swept(self, line.origin(), t0, t1)).sum()
    }

    /// The parameters at which the path crosses `line`, ascending in `0..period`.
    fn crossings(&self, line: &Straight) -> Vec<f64> {
        crossing::all(self, line)
    }

    /// The parameters on one side at which the path crosses `line`, ascending.
    fn crossings_on(&self, line: &Straight, side: Side) -> Vec<f64> {
        crossing::on(self, line, side)
    }

    /// The ranges of the path that lie beyond `line`, in order; one that runs through the heel ends past the period.
    fn stretches_beyond(&self, line: &Straight) -> Vec<(f64, f64)> {
        crossing::stretches(self, line, 1.0)
    }

    /// The ranges of the path that lie before `line`, in order; one that runs through the heel ends past the period.
    fn stretches_before(&self, line: &Straight) -> Vec<(f64, f64)> {
        crossing::stretches(self, line, -1.0)
    }

    /// Points from `t0` to `t1`, both ends among them, whose chords stay within `tolerance` mm of the path. A closed path
    /// from 0 to the period repeats its first point at the end. Empty if `t1 <= t0`.
    fn flatten(&self, t0: f64, t1: f64, tolerance: f64) -> Vec<Point> {
        flatten::points(self, t0, t1, tolerance)
    }

    /// The place of the whole path nearest to `p`.
    fn nearest(&self, p: Point) -> Nearest {
        nearest::between(self, p, 0.0, self.period())
    }

    /// The place from `t0` to `t1` nearest to `p`; that at `t0` if the range is empty.
    fn nearest_between(&self, p: Point, t0: f64, t1: f64) -> Nearest {
        nearest::between(self, p, t0, t1)
    }

    /// How deep `p` lies inside the path, mm: its distance from it, negative outside. The path must not cross itself.
    fn depth(&self, p: Point) -> f64 {
        region::depth(self, p)
    }

    /// Whether `p` lies inside the path or on it. The path must not cross itself.
    fn contains(&self, p: Point) -> bool {
        self.depth(p) >= 0.0
    }

    /// The least and greatest coordinates of what lies between two places along the centre line, mm; `None` if nothing
    /// does.
    fn extent(&self, from: f64, to: f64) -> Option<kurbo::Rect> {
        region::extent(self, from, to)
    }

    /// Half-breadths at `x` mm; `None` if the path has no place there on one side.
    fn breadth_at(&self, x: f64) -> Option<Breadth> {
        region::breadth_at(self, x)
    }

    /// The greatest breadth square to the centre line at or behind `x` mm; `None` if the path lies wholly toeward of it.
    fn greatest_breadth_behind(&self, x: f64) -> Option<Breadth> {
        region::greatest_breadth_behind(self, x)
    }
}

/// Length from the start to `t`, whole turns counted.
fn run_to<P: Path + ?Sized>(path: &P, t: f64) -> f64 {
    let knots = path.knots();
    let place = knots.locate(t);
    let from = knots.parameters()[place.span];
    place.turns * knots.total() + knots.run(place.span) + length_on(path, place.span, from, place.t)
}

fn length_on<P: Path + ?Sized>(path: &P, span: usize, from: f64, to: f64) -> f64 {
    if (to - from).abs() > 0.0 { integrate(|t| path.speed_on(span, t), from, to, LENGTH_TOLERANCE) } else { 0.0 }
}

/// The parameter at which the path has run `length`, 0 if nothing is left of it: Newton's steps, halving where one would leave what is known.
fn t_at_run<P: Path + ?Sized>(path: &P, length: f64) -> f64 {
    let knots = path.knots();
    if knots.total() == 0.0 {
        return 0.0;
    }
    let place = knots.locate_run(length);
    let (span, sought) = (place.span, place.t);
    let (mut low, mut high) = (knots.parameters()[span], knots.parameters()[span + 1]);
    let mut t = low + (high - low) * ((sought - knots.run(span)) / knots.span_length(span));
    let mut run = knots.run(span) + length_on(path, span, low, t);
    for _ in 0..60 {
        let gap = sought - run;
        if gap.abs() <= LENGTH_CLOSE {
            break;
        }
        if gap > 0.0 {
            low = t;
        } else {
            high = t;
        }
        let step = t + gap / path.speed_on(span, t);
        let next = if low <= step && step <= high { step } else { 0.5 * (low + high) };
        run += if (next - t).abs() < SHORT * (knots.parameters()[span + 1] - knots.parameters()[span]) {
            gauss(|t| path.speed_on(span, t), t, next)
        } else {
            length_on(path, span, t, next)
        };
        t = next;
    }
    t + place.turns * knots.period()
}

/// The area swept by the ray from `centre` to the path from `t0` to `t1`, positive to the left.
fn swept<P: Path + ?Sized>(path: &P, centre: Point, t0: f64, t1: f64) -> f64 {
    let double = |span, t| {
        let motion = path.motion_on(span, t);
        (motion.point - centre).cross(motion.velocity)
    };
    let pieces = path.knots().pieces(t0, t1).filter(|piece| !path.stands_still(piece.span));
    pieces.map(|piece| 0.5 * integrate(|t| double(piece.span, t), piece.from, piece.to, AREA_TOLERANCE)).sum()
}
