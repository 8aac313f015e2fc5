//! One cubic piece of a curve, in power form.

use kurbo::{Point, Vec2};

use super::plane::length_of;
use super::straight::Straight;

/// `c0 + c1 u + c2 u² + c3 u³`, with `u` counted in mm of parameter from the start of the piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cubic {
    pub(super) c0: Vec2,
    pub(super) c1: Vec2,
    pub(super) c2: Vec2,
    pub(super) c3: Vec2,
}

impl Cubic {
    #[inline]
    pub(super) fn point(&self, u: f64) -> Point {
        (self.c0 + (self.c1 + (self.c2 + self.c3 * u) * u) * u).to_point()
    }

    #[inline]
    pub(super) fn velocity(&self, u: f64) -> Vec2 {
        self.c1 + (self.c2 * 2.0 + self.c3 * (3.0 * u)) * u
    }

    #[inline]
    pub(super) fn acceleration(&self, u: f64) -> Vec2 {
        self.c2 * 2.0 + self.c3 * (6.0 * u)
    }

    pub(super) fn jerk(&self) -> Vec2 {
        self.c3 * 6.0
    }

    /// Signed curvature in 1/mm, positive where the curve turns left.
    pub(super) fn curvature(&self, u: f64) -> f64 {
        let velocity = self.velocity(u);
        velocity.cross(self.acceleration(u)) / cube(length_of(velocity))
    }

    /// No curvature from `from` to `to` is more than this, 1/mm; `None` if the velocities don't all point one way.
    pub(super) fn sharpest(&self, from: f64, to: f64) -> Option<f64> {
        let [start, middle, end] = self.velocities(from, to);
        let way = start + end;
        let way = way / length_of(way);
        let slowest = [start, middle, end].into_iter().map(|velocity| velocity.dot(way)).fold(f64::INFINITY, f64::min);
        let push = length_of(self.acceleration(from)).max(length_of(self.acceleration(to)));
        (slowest > 0.0).then(|| push / (slowest * slowest))
    }

    /// The curvature from `from` to `to` is surely within these two, 1/mm, of which one is 0 where it turns one way only;
    /// `None` if the velocities don't all point one way.
    pub(super) fn bends(&self, from: f64, to: f64) -> Option<(f64, f64)> {
        let [start, middle, end] = self.velocities(from, to);
        let way = start + end;
        let way = way / length_of(way);
        let slowest = start.dot(way).min(middle.dot(way)).min(end.dot(way));
        // Of the velocity's product with the acceleration the cubes cancel: it is a quadratic, held by three controls.
        let turning = |u: f64| self.velocity(u).cross(self.acceleration(u));
        let at_start = turning(from);
        let between = at_start + 0.5 * (to - from) * self.velocity(from).cross(self.jerk());
        let controls = [at_start, between, turning(to)];
        let (least, most) = controls.iter().fold((0.0, 0.0), |(a, b): (f64, f64), &c| (a.min(c), b.max(c)));
        (slowest > 0.0).then(|| (least / cube(slowest), most / cube(slowest)))
    }

    /// Places along the centre line, mm, between which it surely stays from `from` to `to`.
    pub(super) fn along(&self, from: f64, to: f64) -> (f64, f64) {
        let third = (to - from) / 3.0;
        let (start, end) = (self.point(from).x, self.point(to).x);
        let controls = [start + self.velocity(from).x * third, end - self.velocity(to).x * third, end];
        controls.iter().fold((start, start), |(least, most), &x| (least.min(x), most.max(x)))
    }

    /// From its direction at `from` to that at `to`, radians, positive to the left, if it turns by less than half round.
    pub(super) fn turn(&self, from: f64, to: f64) -> f64 {
        let (start, end) = (self.velocity(from), self.velocity(to));
        libm::atan2(start.cross(end), start.dot(end))
    }

    /// The velocity is a quadratic, and stays within these three control points.
    fn velocities(&self, from: f64, to: f64) -> [Vec2; 3] {
        let start = self.velocity(from);
        [start, start + self.acceleration(from) * (0.5 * (to - from)), self.velocity(to)]
    }

    /// Whether all velocities lead to one side of `line`.
    pub(super) fn goes_one_way(&self, from: f64, to: f64, line: &Straight) -> bool {
        let rates = self.velocities(from, to).map(|velocity| line.rate(velocity));
        rates.iter().all(|rate| *rate > 0.0) || rates.iter().all(|rate| *rate < 0.0)
    }

    /// Change of the signed curvature for each mm of parameter.
    pub(super) fn curvature_rate(&self, u: f64) -> f64 {
        let (velocity, acceleration) = (self.velocity(u), self.acceleration(u));
        let speed = length_of(velocity);
        let turning = velocity.cross(acceleration);
        (velocity.cross(self.jerk()) - 3.0 * turning * velocity.dot(acceleration) / (speed * speed)) / cube(speed)
    }
}

fn cube(value: f64) -> f64 {
    value * value * value
}
