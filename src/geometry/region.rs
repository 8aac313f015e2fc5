//! What lies inside a path, and how broad it is.

use kurbo::{Point, Rect, Vec2};

use super::path::{Path, Side};
use super::root;
use super::straight::Straight;

/// Steps between two knots in which the greatest breadth is looked for.
const STEPS: u32 = 4;

/// Places nearer than this along the centre line, mm, are one.
const SAME_PLACE: f64 = 1e-6;

/// Half-breadths square to the centre line, mm, each positive on its own side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breadth {
    /// Where it was measured, mm along the centre line.
    pub x: f64,
    /// From the centre line to the inside.
    pub inside: f64,
    /// From the centre line to the outside.
    pub outside: f64,
}

impl Breadth {
    /// Both sides together, mm.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.inside + self.outside
    }
}

/// The least and greatest coordinates of what a path has between two places along the centre line, mm; `None` if it has
/// nothing there.
pub(super) fn extent<P: Path + ?Sized>(path: &P, from: f64, to: f64) -> Option<Rect> {
    let knots = path.knots();
    let mut all = Extent { from: from - SAME_PLACE, to: to + SAME_PLACE, rect: None };
    (0..knots.spans()).for_each(|span| all.take(knots.point(span)));
    for x in [from, to].into_iter().filter(|x| x.is_finite()) {
        path.crossings(&Straight::square_at(x)).into_iter().for_each(|t| all.take(path.point(t)));
    }
    for span in 0..knots.spans() {
        if all.may_grow(knots.point(span), knots.point(span + 1), knots.span_length(span)) {
            for point in turns(path, span) {
                all.take(point);
            }
        }
    }
    all.rect
}

/// What is known so far of an extent.
struct Extent {
    from: f64,
    to: f64,
    rect: Option<Rect>,
}

impl Extent {
    fn take(&mut self, point: Point) {
        if self.from <= point.x && point.x <= self.to {
            let point = Rect::from_points(point, point);
            self.rect = Some(self.rect.map_or(point, |rect| rect.union(point)));
        }
    }

    /// Whether a way of this length between two points can lead beyond what is known: past the farther of its ends it
    /// has half of what it doesn't need to get from one to the other.
    fn may_grow(&self, a: Point, b: Point, length: f64) -> bool {
        let Some(rect) = self.rect else { return true };
        let reach = |a: f64, b: f64| {
            let spare = (length - (a - b).abs()).max(0.0) / 2.0 + SAME_PLACE;
            (a.min(b) - spare, a.max(b) + spare)
        };
        let (x, y) = (reach(a.x, b.x), reach(a.y, b.y));
        let within = x.1 >= self.from && x.0 <= self.to;
        within && (x.0 < rect.x0 || x.1 > rect.x1 || y.0 < rect.y0 || y.1 > rect.y1)
    }
}

/// Where a span runs along one of the axes.
fn turns<P: Path + ?Sized>(path: &P, span: usize) -> Vec<Point> {
    let parameters = path.knots().parameters();
    let (start, step) = (parameters[span], (parameters[span + 1] - parameters[span]) / f64::from(STEPS));
    let mut points = Vec::new();
    for axis in [|velocity: Vec2| velocity.x, |velocity: Vec2| velocity.y] {
        let rate = |t: f64| axis(path.motion_on(span, t).velocity);
        let mut left = (start, rate(start));
        for part in 1..=STEPS {
            let t = start + step * f64::from(part);
            let right = (t, rate(t));
            if left.1 * right.1 < 0.0 {
                points.push(path.motion_on(span, root::between(rate, left, right)).point);
            }
            left = right;
        }
    }
    points
}

pub(super) fn depth<P: Path + ?Sized>(path: &P, p: Point) -> f64 {
    let nearest = path.nearest(p);
    let velocity = path.motion(nearest.t).velocity;
    let outward = Vec2::new(velocity.y, -velocity.x);
    if (p - nearest.point).dot(outward) > 0.0 { -nearest.distance } else { nearest.distance }
}

pub(super) fn breadth_at<P: Path + ?Sized>(path: &P, x: f64) -> Option<Breadth> {
    let (inside, outside) = extremes(path, x)?;
    Some(Breadth { x, inside: path.point(inside).y, outside: -path.point(outside).y })
}

/// The parameters of the outermost crossings of the line square at `x`, inside and outside.
fn extremes<P: Path + ?Sized>(path: &P, x: f64) -> Option<(f64, f64)> {
    let y = |t: f64| path.point(t).y;
    let crossings = path.crossings(&Straight::square_at(x));
    let on = |side| crossings.iter().copied().filter(move |&t| path.side(t) == side);
    let inside = on(Side::Inside).max_by(|&a, &b| y(a).total_cmp(&y(b)))?;
    let outside = on(Side::Outside).min_by(|&a, &b| y(a).total_cmp(&y(b)))?;
    Some((inside, outside))
}

pub(super) fn greatest_breadth_behind<P: Path + ?Sized>(path: &P, x: f64) -> Option<Breadth> {
    let steps: Vec<Breadth> = steps_behind(path, x).into_iter().filter_map(|x| breadth_at(path, x)).collect();
    let best = (0..steps.len()).max_by(|&a, &b| steps[a].total().total_cmp(&steps[b].total()))?;
    let before = steps[best.saturating_sub(1)].x;
    let after = steps[(best + 1).min(steps.len() - 1)].x;
    let crest = crest_between(path, before, after).and_then(|x| breadth_at(path, x));
    Some(crest.filter(|crest| crest.total() > steps[best].total()).unwrap_or(steps[best]))
}

/// Places along the centre line up to `x`, ascending: the knots' own and some between them.
fn steps_behind<P: Path + ?Sized>(path: &P, x: f64) -> Vec<f64> {
    let knots = path.knots();
    let mut own: Vec<f64> = (0..knots.spans()).map(|i| knots.point(i).x).filter(|&own| own < x).collect();
    own.push(x);
    own.sort_by(f64::total_cmp);
    own.dedup_by(|later, earlier| *later - *earlier < SAME_PLACE);
    let between = own.windows(2).flat_map(|pair| {
        let step = (pair[1] - pair[0]) / f64::from(STEPS);
        let start = pair[0];
        (0..STEPS).map(move |i| start + step * f64::from(i))
    });
    between.chain(own.last().copied()).collect()
}

/// Where the breadth has its crest between `low` and `high`, if it rises at the one and falls at the other.
fn crest_between<P: Path + ?Sized>(path: &P, low: f64, high: f64) -> Option<f64> {
    let slope = |x: f64| breadth_slope(path, x).unwrap_or(0.0);
    let (at_low, at_high) = (slope(low), slope(high));
    (at_low > 0.0 && at_high < 0.0).then(|| root::between(slope, (low, at_low), (high, at_high)))
}

/// Change of the breadth for each mm along the centre line.
fn breadth_slope<P: Path + ?Sized>(path: &P, x: f64) -> Option<f64> {
    let (inside, outside) = extremes(path, x)?;
    let slope = |t: f64| {
        let velocity = path.motion(t).velocity;
        velocity.y / velocity.x
    };
    Some(slope(inside) - slope(outside)).filter(|slope| slope.is_finite())
}
