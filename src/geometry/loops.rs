//! Whether a fitted curve crosses itself.

use kurbo::{Point, Vec2};

use super::cubic::Cubic;
use super::spline::ClosedCurve;

/// Chords for each piece where a crossing can't be ruled out at sight.
const CHORDS: u32 = 16;

/// Where a curve crosses itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SelfCrossing {
    /// The two pieces that cross, by the index of the point at which each starts; twice the same for a loop in one piece.
    pub pieces: [usize; 2],
    /// Where, mm, to a tenth or so.
    pub point: Point,
}

/// The first place at which `curve` crosses itself. Loops smaller than a sixteenth of a piece go unseen.
#[must_use]
pub fn self_crossing(curve: &ClosedCurve) -> Option<SelfCrossing> {
    let pieces: Vec<Piece> = curve.parameters().windows(2).zip(curve.pieces()).map(Piece::of).collect();
    let n = pieces.len();
    for i in 0..n {
        for j in i..n {
            let ruled_out = match j - i {
                0 => pieces[i].keeps_direction(pieces[i].chord()),
                1 => keep_apart(&pieces[i], &pieces[j]),
                _ if j - i == n - 1 => keep_apart(&pieces[j], &pieces[i]),
                _ => !pieces[i].box_meets(&pieces[j]),
            };
            if ruled_out {
                continue;
            }
            if let Some(point) = crossing_of_chords(&pieces[i], &pieces[j]) {
                return Some(SelfCrossing { pieces: [i, j], point });
            }
        }
    }
    None
}

/// A cubic piece with its control points, which hold it as a hull does.
struct Piece<'a> {
    cubic: &'a Cubic,
    length: f64,
    controls: [Point; 4],
}

impl<'a> Piece<'a> {
    fn of((ends, cubic): (&[f64], &'a Cubic)) -> Self {
        let h = ends[1] - ends[0];
        let start = cubic.c0.to_point();
        let first = start + cubic.c1 * (h / 3.0);
        let second = first + (cubic.c1 + cubic.c2 * h) * (h / 3.0);
        Self { cubic, length: h, controls: [start, first, second, cubic.point(h)] }
    }

    fn chord(&self) -> Vec2 {
        self.controls[3] - self.controls[0]
    }

    /// Whether the piece moves along `direction` all the way, for certain: so it can't meet itself.
    fn keeps_direction(&self, direction: Vec2) -> bool {
        self.controls.windows(2).all(|leg| (leg[1] - leg[0]).dot(direction) > 0.0)
    }

    fn box_meets(&self, other: &Self) -> bool {
        let (a, b) = (self.bounds(), other.bounds());
        a.0.x <= b.1.x && b.0.x <= a.1.x && a.0.y <= b.1.y && b.0.y <= a.1.y
    }

    fn bounds(&self) -> (Point, Point) {
        let [first, rest @ ..] = self.controls;
        rest.iter().fold((first, first), |(low, high), p| {
            (Point::new(low.x.min(p.x), low.y.min(p.y)), Point::new(high.x.max(p.x), high.y.max(p.y)))
        })
    }

    fn chords(&self) -> [Point; CHORDS as usize + 1] {
        let mut points = [self.controls[0]; CHORDS as usize + 1];
        for (i, point) in (0..=CHORDS).zip(points.iter_mut()) {
            *point = self.cubic.point(self.length * f64::from(i) / f64::from(CHORDS));
        }
        points
    }
}

/// Two pieces that follow on each other meet nowhere else if both keep the direction of the joint.
fn keep_apart(before: &Piece, after: &Piece) -> bool {
    let joint = after.cubic.c1;
    before.keeps_direction(joint) && after.keeps_direction(joint)
}

/// The first crossing of the chords of two pieces; for one piece, of its own.
fn crossing_of_chords(one: &Piece, other: &Piece) -> Option<Point> {
    let (a, b) = (one.chords(), other.chords());
    for one in a.windows(2) {
        for other in b.windows(2) {
            // Chords that share an end are neighbours or the same.
            let neighbours = one.iter().any(|p| other.contains(p));
            if !neighbours && let Some(point) = chords_cross(one, other) {
                return Some(point);
            }
        }
    }
    None
}

fn chords_cross(a: &[Point], b: &[Point]) -> Option<Point> {
    shares_at_crossing([a[0], a[1]], [b[0], b[1]]).map(|(on_a, _)| a[0] + (a[1] - a[0]) * on_a)
}

/// Where two chords cross, as a share of each.
pub(super) fn shares_at_crossing(a: [Point; 2], b: [Point; 2]) -> Option<(f64, f64)> {
    let (way_a, way_b) = (a[1] - a[0], b[1] - b[0]);
    let turn = way_a.cross(way_b);
    let gap = b[0] - a[0];
    let (on_a, on_b) = (gap.cross(way_b) / turn, gap.cross(way_a) / turn);
    let within = 0.0..=1.0;
    (within.contains(&on_a) && within.contains(&on_b)).then_some((on_a, on_b))
}
