//! Paths as chains of short chords.

use kurbo::Point;

use super::path::Path;
use super::plane::apart;

/// Halvings of one span at most: a chord of a thousandth of a mm on the longest.
const DEPTH: u32 = 16;

pub(super) fn points<P: Path + ?Sized>(path: &P, t0: f64, t1: f64, tolerance: f64) -> Vec<Point> {
    let mut points = Vec::new();
    for piece in path.knots().pieces(t0, t1).filter(|piece| !path.stands_still(piece.span)) {
        let at = |t| path.motion_on(piece.span, t).point;
        let (start, end) = (at(piece.from), at(piece.to));
        if points.is_empty() {
            points.push(start);
        }
        halve(&at, (piece.from, start), (piece.to, end), tolerance, DEPTH, &mut points);
    }
    points
}

/// Adds what is needed after `left` up to and with `right`.
fn halve(
    at: &impl Fn(f64) -> Point,
    left: (f64, Point),
    right: (f64, Point),
    tolerance: f64,
    depth: u32,
    points: &mut Vec<Point>,
) {
    let middle = 0.5 * (left.0 + right.0);
    let (before, halfway, after) = (at(0.5 * (left.0 + middle)), at(middle), at(0.5 * (middle + right.0)));
    // Quarters as well as the middle: an S has its middle on the chord.
    let strays = [before, halfway, after].iter().any(|&p| off_chord(p, left.1, right.1) > tolerance);
    if strays && depth > 0 {
        halve(at, left, (middle, halfway), tolerance, depth - 1, points);
        halve(at, (middle, halfway), right, tolerance, depth - 1, points);
    } else {
        points.push(right.1);
    }
}

/// Distance of `p` from the chord from `a` to `b`, mm.
pub(super) fn off_chord(p: Point, a: Point, b: Point) -> f64 {
    apart(p, on_chord(p, a, b).1)
}

/// The place on the chord from `a` to `b` nearest to `p`: as a fraction of the chord, and the point.
pub(super) fn on_chord(p: Point, a: Point, b: Point) -> (f64, Point) {
    let chord = b - a;
    let square = chord.hypot2();
    let fraction = if square > 0.0 { ((p - a).dot(chord) / square).clamp(0.0, 1.0) } else { 0.0 };
    (fraction, a + chord * fraction)
}
