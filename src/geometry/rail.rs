//! Rails: lines carried along the normals of a feather curve at a distance that may change on the way.

use std::fmt;

use kurbo::{Point, Vec2};

use super::cubic::Cubic;
use super::knots::{Knots, LENGTH_TOLERANCE};
use super::path::{Motion, Path, Side};
use super::plane::length_of;
use super::profile::Distance;
use super::quadrature::integrate;
use super::root;
use super::spline::{ClosedCurve, Frame, frame_of};
use super::straight::Straight;

/// Parameters nearer than this, mm, are one knot.
const SAME_KNOT: f64 = 1e-9;

/// Difference of the sides' distances, mm, from which a rail jumps at the heel or toe.
const JUMP: f64 = 1e-6;

/// Parts of a span in which the tightest place is looked for.
const PARTS: u32 = 8;

/// `P(t) + d(t) n(t)`: the feather curve `P` carried along its outward normal `n`. The distance `d` follows the profile
/// of the foot's side in the foot's `x`, plus a constant. A rail has its feather curve's parameters.
#[derive(Clone, Debug)]
pub struct Rail {
    spans: Vec<Span>,
    knots: Knots,
    side_switch: f64,
}

/// A stretch on which both the feather curve is one cubic and the distance one straight line in `x`.
#[derive(Clone, Copy, Debug)]
struct Span {
    feather: Cubic,
    origin: f64,
    at_zero: f64,
    slope: f64,
}

/// The two sides of a distance don't meet at the heel or the toe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jump {
    /// Where, mm along the centre line.
    pub x: f64,
    /// The outside's distance there, mm.
    pub outside: f64,
    /// The inside's distance there, mm.
    pub inside: f64,
}

impl fmt::Display for Jump {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { x, outside, inside } = self;
        write!(f, "the distance is {outside} outside and {inside} inside at {x}, where the sides meet")
    }
}

impl std::error::Error for Jump {}

/// The place of a rail that is nearest to folding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tightest {
    /// Parameter of the place.
    pub t: f64,
    /// `1 + k d` there: the rail's radius over the feather curve's. At 0 or below the rail folds back.
    pub factor: f64,
}

impl Tightest {
    /// Whether the rail folds back there.
    #[must_use]
    pub fn folds(&self) -> bool {
        self.factor <= 0.0
    }
}

impl Rail {
    /// The rail at `distance` plus `added` mm (an inset is negative) from `curve`.
    ///
    /// # Errors
    ///
    /// A [`Jump`] if the sides' distances differ where they meet.
    pub fn along(curve: &ClosedCurve, distance: &Distance, added: f64) -> Result<Self, Jump> {
        for t in [0.0, curve.toe()] {
            let x = curve.point(t).x;
            let (outside, inside) = (distance.outside.at(x), distance.inside.at(x));
            if (outside - inside).abs() > JUMP {
                return Err(Jump { x, outside, inside });
            }
        }
        Ok(Self::carry(curve, distance, added))
    }

    /// The rail at `distance` mm all round, positive outward.
    #[must_use]
    pub fn constant(curve: &ClosedCurve, distance: f64) -> Self {
        let (feather, t) = (curve.knots(), curve.parameters().to_vec());
        let spans = curve.pieces().iter().zip(&t);
        let spans =
            spans.map(|(feather, origin)| Span { feather: *feather, origin: *origin, at_zero: distance, slope: 0.0 });
        let known = |span: &Span, n: usize, from: f64, to: f64| span.parallel(from, to, feather.span_length(n), 0.0);
        Self::measure(spans.collect(), t, curve.toe(), known)
    }

    fn carry(curve: &ClosedCurve, distance: &Distance, added: f64) -> Self {
        let t = breaks(curve, distance);
        let spans: Vec<Span> = t.windows(2).map(|ends| span_between(curve, distance, added, ends)).collect();
        let feather = curve.knots();
        let known = |span: &Span, _, from: f64, to: f64| {
            let place = feather.locate(0.5 * (from + to)).span;
            let ends = (feather.parameters()[place], feather.parameters()[place + 1]);
            (ends == (from, to)).then(|| span.parallel(from, to, feather.span_length(place), 0.0)).flatten()
        };
        Self::measure(spans, t, curve.toe(), known)
    }

    /// The rail `added` mm farther out than this one along the same normals.
    #[must_use]
    pub fn beside(&self, added: f64) -> Self {
        let farther = |span: &Span| Span { at_zero: span.at_zero + added, ..*span };
        let spans = self.spans.iter().map(farther).collect();
        let known = |span: &Span, n: usize, from: f64, to: f64| {
            span.parallel(from, to, self.knots.span_length(n), self.spans[n].at_zero)
        };
        Self::measure(spans, self.knots.parameters().to_vec(), self.side_switch, known)
    }

    /// Takes the lengths that are `known`, and measures the others.
    fn measure(
        spans: Vec<Span>,
        t: Vec<f64>,
        side_switch: f64,
        known: impl Fn(&Span, usize, f64, f64) -> Option<f64>,
    ) -> Self {
        let at = |span: usize, t: f64| spans[span].motion(t).point;
        let length = |span: usize, from: f64, to: f64| {
            let (n, span) = (span, &spans[span]);
            known(span, n, from, to).unwrap_or_else(|| integrate(|t| span.speed(t), from, to, LENGTH_TOLERANCE))
        };
        let knots = Knots::measure(t, at, length);
        Self { spans, knots, side_switch }
    }

    /// The foot of the normal at `t` on the feather curve.
    #[must_use]
    pub fn foot(&self, t: f64) -> Frame {
        let place = self.knots.locate(t);
        let span = &self.spans[place.span];
        frame_of(&span.feather, place.t - span.origin)
    }

    /// The distance from the feather curve at `t`, mm, positive outward.
    #[must_use]
    pub fn distance(&self, t: f64) -> f64 {
        let place = self.knots.locate(t);
        let span = &self.spans[place.span];
        span.distance(span.feather.point(place.t - span.origin).x)
    }

    /// The least of `1 + k d` from `t0` to `t1`; that at `t0` if the range is empty.
    ///
    /// Where it is 0 or less, an inward curve is tighter than the distance going out, or an outward one tighter than the
    /// distance going in, and the rail folds back on itself.
    #[must_use]
    pub fn tightest(&self, t0: f64, t1: f64) -> Tightest {
        let start = self.knots.locate(t0);
        let mut best = Tightest { t: t0, factor: self.spans[start.span].factor(start.t) };
        for piece in self.knots.pieces(t0, t1) {
            let found = self.spans[piece.span].tightest(piece.from, piece.to);
            if found.factor < best.factor {
                best = Tightest { t: found.t + piece.shift, ..found };
            }
        }
        best
    }

    /// The least distance from the feather curve, without its sign, mm; 0 if the rail crosses the curve.
    pub(super) fn least_distance(&self) -> f64 {
        let ends = self.knots.parameters().iter().map(|&t| self.distance(t));
        let (low, high) = ends.fold((f64::MAX, f64::MIN), |(low, high), d| (low.min(d), high.max(d)));
        if low > 0.0 { low } else { (-high).max(0.0) }
    }
}

impl Path for Rail {
    fn knots(&self) -> &Knots {
        &self.knots
    }

    #[inline]
    fn motion_on(&self, span: usize, t: f64) -> Motion {
        self.spans[span].motion(t)
    }

    #[inline]
    fn speed_on(&self, span: usize, t: f64) -> f64 {
        self.spans[span].speed(t)
    }

    fn side_switch(&self) -> f64 {
        self.side_switch
    }

    fn goes_one_way(&self, span: usize, line: &Straight) -> bool {
        let t = self.knots.parameters();
        let (from, to, span) = (t[span], t[span + 1], &self.spans[span]);
        // A parallel that doesn't fold goes where its feather line goes.
        span.feather.goes_one_way(from - span.origin, to - span.origin, line)
            && span.keeps_way(from, to, span.at_zero.abs())
    }
}

impl Span {
    #[inline]
    fn distance(&self, x: f64) -> f64 {
        self.at_zero + self.slope * x
    }

    /// With `P' = s T` and `n' = k s T` the rail moves by `s (1 + k d) T + d' n`.
    #[inline]
    fn motion(&self, t: f64) -> Motion {
        let u = t - self.origin;
        let (foot, velocity, acceleration) =
            (self.feather.point(u), self.feather.velocity(u), self.feather.acceleration(u));
        let inverse = length_of(velocity).recip();
        let normal = Vec2::new(velocity.y, -velocity.x) * inverse;
        let curvature = velocity.cross(acceleration) * (inverse * inverse * inverse);
        let distance = self.distance(foot.x);
        Motion {
            point: foot + normal * distance,
            velocity: velocity * (1.0 + curvature * distance) + normal * (self.slope * velocity.x),
        }
    }

    /// The length of the same velocity: the square root of `(s (1 + k d))² + d'²`, with less to work out.
    #[inline]
    fn speed(&self, t: f64) -> f64 {
        let u = t - self.origin;
        let (foot, velocity, acceleration) =
            (self.feather.point(u), self.feather.velocity(u), self.feather.acceleration(u));
        let square = velocity.hypot2();
        let along = square.sqrt() + self.distance(foot.x) * velocity.cross(acceleration) / square;
        if self.slope == 0.0 {
            return along.abs();
        }
        let away = self.slope * velocity.x;
        (along * along + away * away).sqrt()
    }

    /// The length from `from` to `to`, where a line at the distance `beside` of the same normals has `length`: parallel
    /// lines differ by their distance times the angle that they turn. `None` if this one is not parallel, or too far out
    /// to be sure at a glance that it doesn't fold.
    fn parallel(&self, from: f64, to: f64, length: f64, beside: f64) -> Option<f64> {
        let farthest = self.at_zero.abs().max(beside.abs());
        let turn = || self.feather.turn(from - self.origin, to - self.origin);
        self.keeps_way(from, to, farthest).then(|| length + (self.at_zero - beside) * turn())
    }

    /// Whether it runs parallel to its feather line, and surely doesn't fold up to so far out or in.
    fn keeps_way(&self, from: f64, to: f64, farthest: f64) -> bool {
        let sharpest = || self.feather.sharpest(from - self.origin, to - self.origin);
        self.slope == 0.0 && sharpest().is_some_and(|sharpest| sharpest * farthest < 1.0)
    }

    fn factor(&self, t: f64) -> f64 {
        let u = t - self.origin;
        1.0 + self.feather.curvature(u) * self.distance(self.feather.point(u).x)
    }

    fn factor_rate(&self, t: f64) -> f64 {
        let u = t - self.origin;
        let widening = self.slope * self.feather.velocity(u).x;
        self.feather.curvature_rate(u) * self.distance(self.feather.point(u).x) + self.feather.curvature(u) * widening
    }

    fn tightest(&self, from: f64, to: f64) -> Tightest {
        let at = |t| Tightest { t, factor: self.factor(t) };
        let mut best = at(from);
        let mut left = (from, self.factor_rate(from));
        for part in 1..=PARTS {
            let t = from + (to - from) * f64::from(part) / f64::from(PARTS);
            let right = (t, self.factor_rate(t));
            let trough = left.1 < 0.0 && right.1 > 0.0;
            let lowest = if trough { root::between(|t| self.factor_rate(t), left, right) } else { t };
            for found in [at(lowest), at(t)] {
                if found.factor < best.factor {
                    best = found;
                }
            }
            left = right;
        }
        best
    }
}

/// The parameters of the curve's knots and of the places where a profile changes its slope.
fn breaks(curve: &ClosedCurve, distance: &Distance) -> Vec<f64> {
    let own = curve.parameters();
    let mut t = own.to_vec();
    for (profile, side) in [(&distance.outside, Side::Outside), (&distance.inside, Side::Inside)] {
        for x in profile.places() {
            t.extend(curve.crossings_on(&Straight::square_at(x), side));
        }
        // The sides may change over between two knots.
        if profile.places().next().is_some() {
            t.push(curve.toe());
        }
    }
    t.sort_by(f64::total_cmp);
    t.dedup_by(|later, earlier| *later - *earlier < SAME_KNOT);
    // Should a break have swallowed the end, the period comes back.
    if let (Some(last), Some(&period)) = (t.last_mut(), own.last()) {
        *last = period;
    }
    t
}

fn span_between(curve: &ClosedCurve, distance: &Distance, added: f64, ends: &[f64]) -> Span {
    let middle = 0.5 * (ends[0] + ends[1]);
    let place = curve.knots().locate(middle);
    let foot: Point = curve.point(middle);
    let profile = match curve.side(middle) {
        Side::Outside => &distance.outside,
        Side::Inside => &distance.inside,
    };
    let (at_zero, slope) = profile.line_at(foot.x);
    Span {
        feather: curve.pieces()[place.span],
        origin: curve.parameters()[place.span],
        at_zero: at_zero + added,
        slope,
    }
}
