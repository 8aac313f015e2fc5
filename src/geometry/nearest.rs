//! The place of a path that is nearest to a point.

use kurbo::Point;

use super::path::{Motion, Path};
use super::plane::apart;
use super::root;

/// Parts in which each span is looked through.
const PARTS: u32 = 8;

/// The place of a path nearest to a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Parameter of the place, in the range that was asked.
    pub t: f64,
    /// The place, mm.
    pub point: Point,
    /// Its distance from the point, mm.
    pub distance: f64,
}

/// What lengths and knots may be off by, mm.
const SLACK: f64 = 1e-6;

/// Looks at the knots, and solves for the foot of the perpendicular wherever the path comes nearer and then leaves. Spans that are
/// too far away as a whole are passed over.
pub(super) fn between<P: Path + ?Sized>(path: &P, p: Point, t0: f64, t1: f64) -> Nearest {
    let knots = path.knots();
    let mut best = nearest_at(p, t0, path.point(t0));
    // The start of every span but a cut one is in the range.
    let starts = knots.pieces(t0, t1).filter(|piece| piece.from <= knots.parameters()[piece.span]);
    let bar = starts.map(|piece| apart(knots.point(piece.span), p)).fold(best.distance, f64::min) + SLACK;
    for piece in knots.pieces(t0, t1).filter(|piece| knots.least_to(piece.span, p) <= bar) {
        let motion = |t| path.motion_on(piece.span, t);
        let mut left = (piece.from, leaving(p, motion(piece.from)));
        for part in 1..=PARTS {
            let t = piece.from + (piece.to - piece.from) * f64::from(part) / f64::from(PARTS);
            let here = motion(t);
            let right = (t, leaving(p, here));
            keep(&mut best, nearest_at(p, t + piece.shift, here.point));
            if left.1 < 0.0 && right.1 > 0.0 {
                let foot = root::between(|t| leaving(p, motion(t)), left, right);
                keep(&mut best, nearest_at(p, foot + piece.shift, motion(foot).point));
            }
            left = right;
        }
    }
    best
}

/// How fast the path leaves `p`: negative while it comes nearer.
fn leaving(p: Point, motion: Motion) -> f64 {
    (motion.point - p).dot(motion.velocity)
}

fn nearest_at(p: Point, t: f64, point: Point) -> Nearest {
    Nearest { t, point, distance: apart(point, p) }
}

fn keep(best: &mut Nearest, other: Nearest) {
    if other.distance < best.distance {
        *best = other;
    }
}
