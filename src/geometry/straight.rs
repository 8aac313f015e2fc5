//! Straight lines that cut curves into zones.

use kurbo::{Point, Vec2};

use super::plane::length_of;

/// An endless straight line with a direction. What lies to its left is *beyond* it; the lines of a bottom run from the
/// inside to the outside, so that beyond is toeward.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Straight {
    through: Point,
    along: Vec2,
}

impl Straight {
    /// The line square to the centre line at `x` mm. Beyond it is toeward.
    #[must_use]
    pub fn square_at(x: f64) -> Self {
        Self { through: Point::new(x, 0.0), along: Vec2::new(0.0, -1.0) }
    }

    /// The centre line. Beyond it is the inside.
    #[must_use]
    pub fn centre() -> Self {
        Self { through: Point::ORIGIN, along: Vec2::new(1.0, 0.0) }
    }

    /// The line from `inside` to `outside`, such as a joint line; beyond it is to the left on the way. `None` if the two
    /// points are one or not finite.
    #[must_use]
    pub fn through(inside: Point, outside: Point) -> Option<Self> {
        let way = outside - inside;
        let length = length_of(way);
        (length > 0.0 && length.is_finite()).then(|| Self { through: inside, along: way / length })
    }

    /// Distance of `p` from the line in mm, positive beyond it.
    #[inline]
    #[must_use]
    pub fn signed(&self, p: Point) -> f64 {
        self.along.cross(p - self.through)
    }

    /// x mm at which it crosses the line parallel to the centre line at `y` mm; `None` if it runs along it.
    #[must_use]
    pub fn x_at(&self, y: f64) -> Option<f64> {
        let x = self.through.x + (y - self.through.y) * self.along.x / self.along.y;
        x.is_finite().then_some(x)
    }

    /// How fast something that moves by `velocity` leaves the line, positive towards beyond.
    #[inline]
    pub(super) fn rate(&self, velocity: Vec2) -> f64 {
        self.along.cross(velocity)
    }

    /// A point on the line.
    pub(super) fn origin(&self) -> Point {
        self.through
    }
}

#[cfg(test)]
mod tests {
    use super::Straight;
    use kurbo::Point;

    #[test]
    fn beyond_is_toeward() {
        assert!((Straight::square_at(10.0).signed(Point::new(12.5, 40.0)) - 2.5).abs() < 1e-12);
        let joint = Straight::through(Point::new(190.0, 40.0), Point::new(170.0, -43.0)).expect("two points");
        assert!(joint.signed(Point::new(270.0, 0.0)) > 0.0);
        assert!(joint.signed(Point::ORIGIN) < 0.0);
        assert_eq!(Straight::through(Point::ORIGIN, Point::ORIGIN), None);
    }
}
