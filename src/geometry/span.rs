//! A stretch of a rail along which nothing changes its formula.

use kurbo::Vec2;

use super::cubic::Cubic;
use super::path::Motion;
use super::plane::length_of;
use super::profile::Course;
use super::rail::Tightest;
use super::root;
use super::straight::Straight;

/// Parts of a span in which the tightest place is looked for.
const PARTS: u32 = 8;

/// Halvings of a span until it is looked at closely whether it folds.
const HALVINGS: u32 = 3;

/// A stretch on which both the feather curve is one cubic and the distance one course in `x`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    pub(super) feather: Cubic,
    pub(super) origin: f64,
    pub(super) course: Course,
}

impl Span {
    #[inline]
    pub(super) fn distance(&self, x: f64) -> f64 {
        self.course.at(x)
    }

    /// The same span `added` mm farther out.
    pub(super) fn farther(&self, added: f64) -> Self {
        Self { course: self.course.farther(added), ..*self }
    }

    /// With `P' = s T` and `n' = k s T` the rail moves by `s (1 + k d) T + d' n`.
    #[inline]
    pub(super) fn motion(&self, t: f64) -> Motion {
        let u = t - self.origin;
        let (foot, velocity, acceleration) =
            (self.feather.point(u), self.feather.velocity(u), self.feather.acceleration(u));
        let inverse = length_of(velocity).recip();
        let normal = Vec2::new(velocity.y, -velocity.x) * inverse;
        let curvature = velocity.cross(acceleration) * (inverse * inverse * inverse);
        let distance = self.distance(foot.x);
        Motion {
            point: foot + normal * distance,
            velocity: velocity * (1.0 + curvature * distance) + normal * (self.course.slope(foot.x) * velocity.x),
        }
    }

    /// The length of the same velocity: the square root of `(s (1 + k d))² + d'²`, with less to work out.
    #[inline]
    pub(super) fn speed(&self, t: f64) -> f64 {
        let u = t - self.origin;
        let (foot, velocity, acceleration) =
            (self.feather.point(u), self.feather.velocity(u), self.feather.acceleration(u));
        let square = velocity.hypot2();
        let along = square.sqrt() + self.distance(foot.x) * velocity.cross(acceleration) / square;
        if self.course.is_level() {
            return along.abs();
        }
        let away = self.course.slope(foot.x) * velocity.x;
        (along * along + away * away).sqrt()
    }

    /// The length from `from` to `to`, where a line at the distance `beside` of the same normals has `length`: parallel
    /// lines differ by their distance times the angle that they turn. `None` if this one is not parallel, or too far out
    /// to be sure at a glance that it doesn't fold.
    pub(super) fn parallel(&self, from: f64, to: f64, length: f64, beside: f64) -> Option<f64> {
        let farthest = self.course.start().abs().max(beside.abs());
        let turn = || self.feather.turn(from - self.origin, to - self.origin);
        self.keeps_way(from, to, farthest).then(|| length + (self.course.start() - beside) * turn())
    }

    /// Whether it runs parallel to its feather line, and surely doesn't fold up to so far out or in.
    fn keeps_way(&self, from: f64, to: f64, farthest: f64) -> bool {
        let sharpest = || self.feather.sharpest(from - self.origin, to - self.origin);
        self.course.is_level() && sharpest().is_some_and(|sharpest| sharpest * farthest < 1.0)
    }

    /// Whether it is sure, at a glance, to go from one side of `line` to the other or back, and nowhere to turn.
    pub(super) fn goes_one_way(&self, from: f64, to: f64, line: &Straight) -> bool {
        // A parallel that doesn't fold goes where its feather line goes.
        self.feather_goes_one_way(from, to, line) && self.keeps_way(from, to, self.course.start().abs())
    }

    /// Whether its feather line is sure to.
    pub(super) fn feather_goes_one_way(&self, from: f64, to: f64, line: &Straight) -> bool {
        self.feather.goes_one_way(from - self.origin, to - self.origin, line)
    }

    /// Whether it folds anywhere: by bounds of curvature and distance where they will do.
    pub(super) fn folds(&self, from: f64, to: f64) -> bool {
        self.folds_within(from, to, HALVINGS)
    }

    fn folds_within(&self, from: f64, to: f64, halvings: u32) -> bool {
        let (start, end) = (from - self.origin, to - self.origin);
        let surely_not = self.feather.bends(start, end).is_some_and(|bends| {
            let distances = if self.course.is_level() {
                (self.course.start(), self.course.start())
            } else {
                let (low, high) = self.feather.along(start, end);
                self.course.bounds(low, high)
            };
            let products = [bends.0 * distances.0, bends.0 * distances.1, bends.1 * distances.0, bends.1 * distances.1];
            products.iter().all(|product| *product > -1.0)
        });
        if surely_not {
            return false;
        }
        if halvings == 0 {
            return self.tightest(from, to).folds();
        }
        let middle = 0.5 * (from + to);
        self.folds_within(from, middle, halvings - 1) || self.folds_within(middle, to, halvings - 1)
    }

    pub(super) fn factor(&self, t: f64) -> f64 {
        let u = t - self.origin;
        1.0 + self.feather.curvature(u) * self.distance(self.feather.point(u).x)
    }

    fn factor_rate(&self, t: f64) -> f64 {
        let u = t - self.origin;
        let x = self.feather.point(u).x;
        let widening = self.course.slope(x) * self.feather.velocity(u).x;
        self.feather.curvature_rate(u) * self.distance(x) + self.feather.curvature(u) * widening
    }

    pub(super) fn tightest(&self, from: f64, to: f64) -> Tightest {
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
