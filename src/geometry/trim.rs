//! Rails without the loops that they make where they fold.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;
use kurbo::Point;

use super::flatten::on_chord;
use super::path::Path;
use super::plane::apart;
use super::rail::Rail;
use super::spline::ClosedCurve;

/// How far the chords of a trimmed rail stray from it, mm.
pub const TRIM_TOLERANCE: f64 = 0.01;

/// A closed chain of straight chords: the last point is joined to the first.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    points: Vec<Point>,
}

/// A rail flattened to [`TRIM_TOLERANCE`] with its loops cut off: what bounds the places at least the distance away from
/// the feather curve (going in) or at most (going out).
#[derive(Clone, Debug, PartialEq)]
pub struct Trimmed {
    contours: Vec<Contour>,
}

impl Trimmed {
    /// Trims `rail`, which was carried along `curve`. No contour is left of a rail that lies too far in for its curve.
    ///
    /// On a counter-clockwise curve a loop of a rail going out winds twice round what it encloses, and a loop of one going
    /// in winds the other way; so both vanish from the bounds of what is wound round at least once.
    #[must_use]
    pub fn of(rail: &Rail, curve: &ClosedCurve) -> Self {
        let mut points = rail.flatten(0.0, rail.period(), TRIM_TOLERANCE);
        points.pop();
        let path: Vec<[f64; 2]> = points.iter().map(|p| [p.x, p.y]).collect();
        let shapes = path.simplify_shape(FillRule::Positive);
        let contours = shapes
            .into_iter()
            .flatten()
            .map(|path| Contour { points: path.into_iter().map(|[x, y]| Point::new(x, y)).collect() });
        // A rail carried in beyond the middle comes out turned inside out and wound the right way again.
        let least = rail.least_distance() - 2.0 * TRIM_TOLERANCE;
        let clear = |contour: &Contour| contour.points.iter().step_by(16).all(|&p| curve.nearest(p).distance >= least);
        Self { contours: contours.filter(clear).collect() }
    }

    /// All contours: counter-clockwise ones enclose, clockwise ones are holes.
    #[must_use]
    pub fn contours(&self) -> &[Contour] {
        &self.contours
    }

    /// The contour that encloses most; `None` if nothing is left.
    #[must_use]
    pub fn largest(&self) -> Option<&Contour> {
        self.contours.iter().max_by(|a, b| a.area().total_cmp(&b.area()))
    }

    /// Length of all contours, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.contours.iter().map(Contour::length).sum()
    }

    /// Area enclosed, less holes, mm².
    #[must_use]
    pub fn area(&self) -> f64 {
        self.contours.iter().map(Contour::area).sum()
    }
}

impl Contour {
    /// The corners in order, mm.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Length all round, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.chords().map(|(a, b)| apart(a, b)).sum()
    }

    /// Area enclosed, mm², negative if it runs clockwise.
    #[must_use]
    pub fn area(&self) -> f64 {
        0.5 * self.chords().map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>()
    }

    /// Length, mm, of the way along the contour from the place nearest to `from` on to the place nearest to `to`.
    #[must_use]
    pub fn length_between(&self, from: Point, to: Point) -> f64 {
        let way = self.run_at(to) - self.run_at(from);
        if way < 0.0 { way + self.length() } else { way }
    }

    /// Length from the first corner to the place nearest to `p`, mm.
    fn run_at(&self, p: Point) -> f64 {
        let (mut run, mut found, mut least) = (0.0, 0.0, f64::INFINITY);
        for (a, b) in self.chords() {
            let (fraction, place) = on_chord(p, a, b);
            let (chord, distance) = (apart(a, b), apart(place, p));
            if distance < least {
                least = distance;
                found = run + fraction * chord;
            }
            run += chord;
        }
        found
    }

    fn chords(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.points.iter().copied().cycle().skip(1);
        self.points.iter().copied().zip(next)
    }
}
