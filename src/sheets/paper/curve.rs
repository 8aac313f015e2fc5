//! Outlines as printpdf takes them: rings of points, the handles of curves marked.

use printpdf::{LinePoint, Point as PdfPoint};

use super::{Path, Point, Step};

/// A ring of points and whether it is closed.
pub(super) struct Ring {
    pub points: Vec<LinePoint>,
    pub closed: bool,
}

/// How far the handles of a quarter circle stand out.
const QUARTER: f64 = 0.552_284_749_8;

fn corner(p: PdfPoint) -> LinePoint {
    LinePoint { p, bezier: false }
}

fn handle(p: PdfPoint) -> LinePoint {
    LinePoint { p, bezier: true }
}

/// A ring of straight edges.
pub(super) fn straight(points: &[Point], closed: bool, at: &mut impl FnMut(Point) -> PdfPoint) -> Ring {
    Ring { points: points.iter().map(|&p| corner(at(p))).collect(), closed }
}

/// A circle of four curves.
pub(super) fn circle(centre: Point, radius: f64, at: &mut impl FnMut(Point) -> PdfPoint) -> Ring {
    let out = radius * QUARTER;
    let mut place = |dx: f64, dy: f64| at(Point::new(centre.x + dx, centre.y + dy));
    let mut points = vec![corner(place(radius, 0.0))];
    let (mut x, mut y) = (1.0, 0.0);
    for _ in 0..4 {
        let (next_x, next_y): (f64, f64) = (-y, x);
        points.push(handle(place(x * radius + next_x * out, y * radius + next_y * out)));
        points.push(handle(place(next_x * radius + x * out, next_y * radius + y * out)));
        points.push(corner(place(next_x * radius, next_y * radius)));
        (x, y) = (next_x, next_y);
    }
    Ring { points, closed: true }
}

/// The parts of a path, each begun by a move.
pub(super) fn parts(path: &Path, at: &mut impl FnMut(Point) -> PdfPoint) -> Vec<Ring> {
    let mut rings: Vec<Ring> = Vec::new();
    for step in &path.0 {
        match (*step, rings.last_mut()) {
            (Step::Move(p), _) => rings.push(Ring { points: vec![corner(at(p))], closed: false }),
            (Step::Line(p), Some(ring)) => ring.points.push(corner(at(p))),
            (Step::Curve(a, b, p), Some(ring)) => {
                ring.points.extend([handle(at(a)), handle(at(b)), corner(at(p))]);
            }
            (Step::Close, Some(ring)) => ring.closed = true,
            (_, None) => {}
        }
    }
    rings
}
