//! Hatches: the strokes that tell materials apart on paper, clipped to an outline.
//!
//! The strokes of a hatch lie on a grid of the whole page, so that two pieces of one
//! material run on into each other and a piece looks the same wherever the outline begins.

use super::{Dash, Pen, Point};

/// What a hatched piece is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hatch {
    /// No strokes, white.
    Plain,
    UpperLeather,
    SoleLeather,
    Rubber,
    LugRubber,
    Thread,
}

/// One family of parallel strokes: degrees counter-clockwise, mm from stroke to stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strokes {
    pub angle: f64,
    pub spacing: f64,
    pub shift: f64,
    pub pen: Pen,
}

const HAIR: Pen = Pen::black(0.12);
const FINE: Pen = Pen::black(0.18);

const fn strokes(angle: f64, spacing: f64, pen: Pen) -> Strokes {
    Strokes { angle, spacing, shift: 0.0, pen }
}

const fn shifted(strokes: Strokes, shift: f64) -> Strokes {
    Strokes { shift, ..strokes }
}

const fn broken(pen: Pen, on: f64, off: f64) -> Pen {
    Pen { dash: Dash::Dashed { on, off }, ..pen }
}

impl Hatch {
    pub const ALL: [Hatch; 6] =
        [Hatch::Plain, Hatch::UpperLeather, Hatch::SoleLeather, Hatch::Rubber, Hatch::LugRubber, Hatch::Thread];

    /// The families of strokes that make up the hatch.
    pub fn strokes(self) -> &'static [Strokes] {
        const UPPER: [Strokes; 1] = [strokes(45.0, 1.4, HAIR)];
        const SOLE: [Strokes; 2] =
            [strokes(135.0, 2.4, FINE), shifted(strokes(135.0, 2.4, broken(HAIR, 1.6, 0.8)), 1.2)];
        const RUBBER: [Strokes; 2] = [strokes(45.0, 1.8, HAIR), strokes(135.0, 1.8, HAIR)];
        const LUG: [Strokes; 3] = [strokes(0.0, 1.6, FINE), strokes(90.0, 1.6, FINE), strokes(45.0, 2.26, HAIR)];
        const THREAD: [Strokes; 1] = [strokes(70.0, 0.55, FINE)];
        match self {
            Hatch::Plain => &[],
            Hatch::UpperLeather => &UPPER,
            Hatch::SoleLeather => &SOLE,
            Hatch::Rubber => &RUBBER,
            Hatch::LugRubber => &LUG,
            Hatch::Thread => &THREAD,
        }
    }
}

/// The strokes within closed rings (even-odd), in a fixed order.
pub fn segments(rings: &[Vec<Point>], strokes: &Strokes) -> Vec<(Point, Point)> {
    let grid = Grid::new(strokes);
    let mut crossings = Vec::new();
    for ring in rings {
        for (index, &from) in ring.iter().enumerate() {
            let to = ring[(index + 1) % ring.len()];
            grid.cross(from, to, &mut crossings);
        }
    }
    crossings.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let pairs = crossings.chunks_exact(2);
    pairs
        .filter(|pair| pair[1].1 - pair[0].1 > SHORTEST)
        .map(|pair| (grid.point(pair[0]), grid.point(pair[1])))
        .collect()
}

/// Shorter strokes are dust on a sheet.
const SHORTEST: f64 = 0.02;

/// The lines of one family, numbered; a crossing is a line and how far along it.
struct Grid {
    along: Point,
    across: Point,
    spacing: f64,
    shift: f64,
}

impl Grid {
    fn new(strokes: &Strokes) -> Self {
        let (sin, cos) = strokes.angle.to_radians().sin_cos();
        Self {
            along: Point::new(cos, -sin),
            across: Point::new(sin, cos),
            spacing: strokes.spacing.max(0.1),
            shift: strokes.shift,
        }
    }

    /// The lines that an edge crosses. Half open, so that a corner on a line counts once.
    fn cross(&self, from: Point, to: Point, crossings: &mut Vec<(i64, f64)>) {
        let (u, v) = self.turned(from);
        let (to_u, to_v) = self.turned(to);
        let first = u.min(to_u).ceil();
        let end = u.max(to_u).ceil();
        for line in first as i64..end as i64 {
            let part = (line as f64 - u) / (to_u - u);
            crossings.push((line, v + (to_v - v) * part));
        }
    }

    /// A point by line number and way along.
    fn turned(&self, p: Point) -> (f64, f64) {
        let across = p.x * self.across.x + p.y * self.across.y;
        let along = p.x * self.along.x + p.y * self.along.y;
        ((across - self.shift) / self.spacing, along)
    }

    fn point(&self, (line, v): (i64, f64)) -> Point {
        let u = line as f64 * self.spacing + self.shift;
        Point::new(u * self.across.x + v * self.along.x, u * self.across.y + v * self.along.y)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(side: f64) -> Vec<Point> {
        let corners = [(0.5, 0.5), (0.5 + side, 0.5), (0.5 + side, 0.5 + side), (0.5, 0.5 + side)];
        corners.map(|(x, y)| Point::new(x, y)).to_vec()
    }

    fn length(segments: &[(Point, Point)]) -> f64 {
        let lengths = segments.iter().map(|(a, b)| (b.x - a.x).hypot(b.y - a.y));
        lengths.sum()
    }

    #[test]
    fn strokes_of_any_angle_cover_the_area_at_their_spacing() {
        for angle in [0.0, 30.0, 45.0, 90.0, 135.0, 211.0] {
            let found = segments(&[square(40.0)], &strokes(angle, 0.5, HAIR));
            let area = length(&found) * 0.5;
            assert!((area - 1600.0).abs() < 25.0, "{angle}: {area}");
        }
    }

    #[test]
    fn a_hole_stays_empty() {
        let hole: Vec<Point> = square(10.0).iter().map(|p| Point::new(p.x + 5.0, p.y + 5.0)).collect();
        let found = segments(&[square(20.0), hole], &strokes(0.0, 1.0, HAIR));
        let inside = |p: &Point| p.x > 5.6 && p.x < 15.4 && p.y > 5.6 && p.y < 15.4;
        for (a, b) in &found {
            let middle = Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y));
            assert!(!inside(&middle), "{middle:?}");
        }
        assert!((length(&found) - 300.0).abs() < 21.0);
    }

    #[test]
    fn a_corner_on_a_line_counts_once() {
        let diamond = [(5.0, 0.0), (10.0, 5.0), (5.0, 10.0), (0.0, 5.0)];
        let diamond = diamond.map(|(x, y)| Point::new(x, y)).to_vec();
        let found = segments(&[diamond], &strokes(0.0, 5.0, HAIR));
        assert_eq!(found.len(), 1);
        assert!((length(&found) - 10.0).abs() < 1e-9);
    }

    #[test]
    fn neighbours_run_on_into_each_other() {
        let left = vec![Point::new(0.0, 0.0), Point::new(7.0, 0.0), Point::new(7.0, 20.0), Point::new(0.0, 20.0)];
        let right: Vec<Point> = left.iter().map(|p| Point::new(p.x + 7.0, p.y)).collect();
        let upper = Hatch::UpperLeather.strokes()[0];
        let ends: Vec<Point> =
            segments(&[left], &upper).iter().flat_map(|s| [s.0, s.1]).filter(|p| (p.x - 7.0).abs() < 1e-9).collect();
        let starts: Vec<Point> =
            segments(&[right], &upper).iter().flat_map(|s| [s.0, s.1]).filter(|p| (p.x - 7.0).abs() < 1e-9).collect();
        assert!(!ends.is_empty());
        for end in ends {
            assert!(starts.iter().any(|s| (s.y - end.y).abs() < 1e-9));
        }
    }
}
