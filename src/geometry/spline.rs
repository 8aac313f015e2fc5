//! The smooth closed curve through measured points.

use std::fmt;

use kurbo::{Point, Vec2};

use super::crossing;
use super::cubic::Cubic;
use super::knots::{Knots, LENGTH_TOLERANCE};
use super::path::{Motion, Path};
use super::plane::{apart, length_of};
use super::quadrature::integrate;
use super::straight::Straight;

/// Neighbours nearer than this, mm, are one point.
pub(super) const SAME_POINT: f64 = 1e-6;

/// A closed curve of cubic pieces, continuous to the second derivative, through given points. Its parameter is the length
/// of the chords so far, mm; it starts at the first point, the heel.
#[derive(Clone, Debug)]
pub struct ClosedCurve {
    pieces: Vec<Cubic>,
    knots: Knots,
    toe: f64,
}

/// Why no curve goes through the points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurveFault {
    /// There are only this many points; three are needed.
    TooFew(usize),
    /// The point of this index is not finite.
    NotFinite(usize),
    /// The point of this index lies on the one before (the first: on the last).
    Repeated(usize),
    /// The points lie so far apart that their distances are no longer finite.
    TooLarge,
}

impl fmt::Display for CurveFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew(count) => write!(f, "a closed curve needs 3 points, not {count}"),
            Self::NotFinite(i) => write!(f, "point {i} is not finite"),
            Self::Repeated(i) => write!(f, "point {i} lies on the one before"),
            Self::TooLarge => write!(f, "the points lie too far apart"),
        }
    }
}

impl std::error::Error for CurveFault {}

/// A place on a curve with its directions.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// The place, mm.
    pub point: Point,
    /// Unit tangent, in the sense of ascending parameters.
    pub tangent: Vec2,
    /// Unit normal, outward on a counter-clockwise curve.
    pub normal: Vec2,
    /// mm run for each mm of parameter.
    pub speed: f64,
    /// Signed curvature, 1/mm, positive where a counter-clockwise curve bulges out.
    pub curvature: f64,
}

impl ClosedCurve {
    /// The C2 periodic cubic through all `points`, each standing once, with chord lengths as parameters.
    ///
    /// Source: C. de Boor, A Practical Guide to Splines, chapter IV (periodic end conditions), solved for the second
    /// derivatives.
    ///
    /// # Errors
    ///
    /// The first [`CurveFault`].
    pub fn through(points: &[Point]) -> Result<Self, CurveFault> {
        check(points)?;
        let n = points.len();
        let chords: Vec<f64> = (0..n).map(|i| apart(points[i], points[(i + 1) % n])).collect();
        let bends = second_derivatives(points, &chords);
        let pieces: Vec<Cubic> = (0..n).map(|i| piece(points, &chords, &bends, i)).collect();
        let mut t = Vec::with_capacity(n + 1);
        t.push(0.0);
        t.extend(chords.iter().scan(0.0, |sum, chord| {
            *sum += chord;
            Some(*sum)
        }));
        let starts = t.clone();
        let knots = Knots::measure(
            t,
            |span, _| pieces[span].point(0.0),
            |span, from, to| {
                let speed = |t| length_of(pieces[span].velocity(t - starts[span]));
                integrate(speed, from, to, LENGTH_TOLERANCE)
            },
        );
        if !knots.total().is_finite() {
            return Err(CurveFault::TooLarge);
        }
        let mut curve = Self { pieces, knots, toe: 0.0 };
        curve.toe = curve.find_toe();
        Ok(curve)
    }

    /// Place, directions and curvature at `t`.
    #[must_use]
    pub fn frame(&self, t: f64) -> Frame {
        let (cubic, u) = self.cubic_at(t);
        frame_of(cubic, u)
    }

    /// The parameters of the points that the curve goes through, and at the end the period.
    #[must_use]
    pub fn parameters(&self) -> &[f64] {
        self.knots.parameters()
    }

    pub(super) fn pieces(&self) -> &[Cubic] {
        &self.pieces
    }

    /// The piece that holds `t`, and how far into it that is.
    fn cubic_at(&self, t: f64) -> (&Cubic, f64) {
        let place = self.knots.locate(t);
        (&self.pieces[place.span], place.t - self.knots.parameters()[place.span])
    }

    /// Of all crossings of the centre line after the heel the most toeward; half-way if there is none.
    fn find_toe(&self) -> f64 {
        let crossings = crossing::all(self, &Straight::centre());
        let after_heel = crossings.into_iter().filter(|&t| t > 0.0);
        let toe = after_heel.max_by(|&a, &b| self.point(a).x.total_cmp(&self.point(b).x));
        toe.unwrap_or(0.5 * self.knots.period())
    }
}

impl Path for ClosedCurve {
    fn knots(&self) -> &Knots {
        &self.knots
    }

    #[inline]
    fn motion_on(&self, span: usize, t: f64) -> Motion {
        let (cubic, u) = (&self.pieces[span], t - self.knots.parameters()[span]);
        Motion { point: cubic.point(u), velocity: cubic.velocity(u) }
    }

    fn side_switch(&self) -> f64 {
        self.toe
    }

    fn goes_one_way(&self, span: usize, line: &Straight) -> bool {
        let t = self.knots.parameters();
        self.pieces[span].goes_one_way(0.0, t[span + 1] - t[span], line)
    }

    fn toe(&self) -> f64 {
        self.toe
    }
}

fn check(points: &[Point]) -> Result<(), CurveFault> {
    let n = points.len();
    if n < 3 {
        return Err(CurveFault::TooFew(n));
    }
    if let Some(i) = points.iter().position(|p| !p.is_finite()) {
        return Err(CurveFault::NotFinite(i));
    }
    let repeated = (0..n).find(|&i| apart(points[i], points[(i + n - 1) % n]) < SAME_POINT);
    repeated.map_or(Ok(()), |i| Err(CurveFault::Repeated(i)))
}

/// Second derivatives at the points, from `h[i-1] m[i-1] + 2 (h[i-1] + h[i]) m[i] + h[i] m[i+1] = 6 (s[i] - s[i-1])` with
/// the chords' slopes `s`, round the circle. The two corners of the cyclic matrix are taken off as a product of two
/// vectors and put back by the formula of Sherman and Morrison.
fn second_derivatives(points: &[Point], h: &[f64]) -> Vec<Vec2> {
    let n = points.len();
    let slope = |i: usize| (points[(i + 1) % n] - points[i]) / h[i];
    let corner = h[n - 1];
    let diagonal = |i: usize| 2.0 * (h[(i + n - 1) % n] + h[i]);
    let spare = diagonal(0);
    // Thomas' sweep, with the right side and the corner's vector (spare, 0, .., 0, corner) at once.
    let mut upper = vec![0.0; n];
    let mut bend = vec![Vec2::ZERO; n];
    let mut echo = vec![0.0; n];
    for i in 0..n {
        let right = (slope(i) - slope((i + n - 1) % n)) * 6.0;
        let (own, vector) = match i {
            0 => (diagonal(0) + spare, -spare),
            _ if i == n - 1 => (diagonal(i) + corner * corner / spare, corner),
            _ => (diagonal(i), 0.0),
        };
        let (lower, bend_before, echo_before, upper_before) =
            if i == 0 { (0.0, Vec2::ZERO, 0.0, 0.0) } else { (h[i - 1], bend[i - 1], echo[i - 1], upper[i - 1]) };
        let pivot = (own - lower * upper_before).recip();
        upper[i] = h[i] * pivot;
        bend[i] = (right - bend_before * lower) * pivot;
        echo[i] = (vector - echo_before * lower) * pivot;
    }
    for i in (0..n - 1).rev() {
        bend[i] = bend[i] - bend[i + 1] * upper[i];
        echo[i] -= echo[i + 1] * upper[i];
    }
    let tail = -corner / spare;
    let closing = (bend[0] + bend[n - 1] * tail) / (1.0 + echo[0] + echo[n - 1] * tail);
    bend.iter().zip(&echo).map(|(&bend, &echo)| bend - closing * echo).collect()
}

fn piece(points: &[Point], chords: &[f64], bends: &[Vec2], i: usize) -> Cubic {
    let next = (i + 1) % points.len();
    let h = chords[i];
    Cubic {
        c0: points[i].to_vec2(),
        c1: (points[next] - points[i]) / h - (bends[i] * 2.0 + bends[next]) * (h / 6.0),
        c2: bends[i] * 0.5,
        c3: (bends[next] - bends[i]) / (6.0 * h),
    }
}

pub(super) fn frame_of(cubic: &Cubic, u: f64) -> Frame {
    let velocity = cubic.velocity(u);
    let speed = length_of(velocity);
    let tangent = velocity / speed;
    Frame {
        point: cubic.point(u),
        tangent,
        normal: Vec2::new(tangent.y, -tangent.x),
        speed,
        curvature: cubic.curvature(u),
    }
}
