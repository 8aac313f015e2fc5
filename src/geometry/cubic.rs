//! One cubic piece of a curve, in power form.

use kurbo::{Point, Vec2};

use super::plane::length_of;

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
