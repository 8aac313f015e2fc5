//! The curves against `SciPy` and Shapely; `reference/curves.py` makes the table.
#![allow(
    clippy::cast_precision_loss,
    clippy::float_cmp,
    clippy::maybe_infinite_iter,
    reason = "counts of a few thousand, whole numbers as floats"
)]

use std::collections::BTreeMap;

use hobnail::geometry::{ClosedCurve, Outline, Path, Rail, Side, Station};
use kurbo::{Point, Vec2};

const TABLE: &str = include_str!("../reference/curves.csv");

/// Shapely drops corners of what it offsets where a hundredth of the distance allows: with chords of 0.02 mm its line lies off
/// by so much of the distance.
const SHAPELY: f64 = 2e-5;

#[derive(Default)]
struct Reference {
    stations: Vec<Station>,
    knots: Vec<[f64; 3]>,
    samples: Vec<[f64; 7]>,
    length: f64,
    area: f64,
    offsets: Vec<Offset>,
}

struct Offset {
    distance: f64,
    folds: bool,
    length: f64,
    area: f64,
    parts: u8,
}

impl Reference {
    fn add(&mut self, kind: &str, figures: &[f64]) {
        match (kind, figures) {
            ("station", &[x, inside, outside]) => self.stations.push(Station { x, inside, outside }),
            ("knot", &[t, x, y]) => self.knots.push([t, x, y]),
            ("sample", figures) => self.samples.push(figures.try_into().expect("seven figures")),
            ("whole", &[length, area]) => (self.length, self.area) = (length, area),
            ("offset", &[distance, folds, length, area, parts]) => {
                self.offsets.push(Offset {
                    distance,
                    folds: folds != 0.0,
                    length,
                    area,
                    parts: [0, 1, 2].into_iter().find(|n| f64::from(*n) == parts).expect("two at most"),
                });
            }
            _ => panic!("no such row: {kind} {figures:?}"),
        }
    }

    fn curve(&self) -> ClosedCurve {
        Outline::fit(&self.stations).expect("a sound outline").into_curve()
    }
}

fn references() -> BTreeMap<&'static str, Reference> {
    let mut all = BTreeMap::<_, Reference>::new();
    for row in TABLE.lines() {
        let mut fields = row.split(',');
        let (Some(name), Some(kind)) = (fields.next(), fields.next()) else { panic!("a short row: {row}") };
        let figures: Vec<f64> = fields.map(|field| field.parse().expect("a number")).collect();
        all.entry(name).or_default().add(kind, &figures);
    }
    assert_eq!(all.len(), 7);
    all
}

fn near(got: f64, expected: f64, tolerance: f64, what: &str) {
    let off = (got - expected).abs();
    assert!(off <= tolerance, "{what}: {got} is {off:e} off {expected}");
}

#[test]
fn the_curve_is_that_of_scipy() {
    for (name, reference) in references() {
        let curve = reference.curve();
        for (&t, &[t_reference, x, y]) in curve.parameters().iter().zip(&reference.knots) {
            near(t, t_reference, 1e-9, name);
            near(curve.point(t).distance(Point::new(x, y)), 0.0, 1e-9, name);
        }
        for &[t, x, y, dx, dy, ddx, ddy] in &reference.samples {
            let (frame, first, second) = (curve.frame(t), Vec2::new(dx, dy), Vec2::new(ddx, ddy));
            near(frame.point.distance(Point::new(x, y)), 0.0, 1e-9, name);
            near(frame.speed, first.hypot(), 1e-9, name);
            near((frame.tangent - first.normalize()).hypot(), 0.0, 1e-9, name);
            near(frame.curvature, first.cross(second) / first.hypot().powi(3), 1e-9, name);
            near((frame.normal - Vec2::new(dy, -dx).normalize()).hypot(), 0.0, 1e-9, name);
        }
    }
}

#[test]
fn length_and_area_are_those_of_a_fine_quadrature() {
    for (name, reference) in references() {
        let curve = reference.curve();
        near(curve.length(), reference.length, 1e-8, name);
        near(curve.area(), reference.area, 1e-8, name);
    }
}

#[test]
fn a_rail_folds_where_scipy_says_so() {
    for (name, reference) in references() {
        let curve = reference.curve();
        for offset in &reference.offsets {
            let rail = Rail::constant(&curve, offset.distance);
            let tightest = rail.tightest(0.0, rail.period());
            assert_eq!(tightest.folds(), offset.folds, "{name} at {}: {tightest:?}", offset.distance);
        }
    }
}

#[test]
fn smooth_offsets_are_those_of_shapely() {
    for (name, reference) in references() {
        let curve = reference.curve();
        for offset in reference.offsets.iter().filter(|offset| !offset.folds) {
            let rail = Rail::constant(&curve, offset.distance);
            let what = format!("{name} at {}", offset.distance);
            near(rail.length(), offset.length, 5e-6 * offset.length, &what);
            near(rail.area(), offset.area, SHAPELY * offset.distance.abs() * offset.length, &what);
        }
    }
}

#[test]
fn trimmed_offsets_are_those_of_shapely() {
    let mut trimmed = 0;
    for (name, reference) in references() {
        let curve = reference.curve();
        for offset in &reference.offsets {
            let rail = Rail::constant(&curve, offset.distance);
            let what = format!("{name} at {}", offset.distance);
            near(rail.area(), offset.area, SHAPELY * offset.distance.abs() * offset.length + 1e-9, &what);
            near(rail.length(), offset.length, 5e-5 * offset.length + 1e-9, &what);
            // What is in one piece has corners alone cut off; what is gone or in two runs from nowhere to nowhere.
            assert_eq!(rail.runs_through(0.0, rail.period()), offset.parts == 1, "{what}: {:?}", rail.cuts());
            trimmed += usize::from(!rail.cuts().is_empty());
            assert!(rail.cuts().is_empty() || offset.folds, "{what}");
        }
    }
    assert!(trimmed >= 40, "{trimmed} offsets were trimmed");
}

#[test]
fn what_is_cut_off_has_no_length_and_meets_in_a_corner() {
    for (name, reference) in references() {
        let curve = reference.curve();
        for offset in reference.offsets.iter().filter(|offset| offset.parts == 1) {
            let rail = Rail::constant(&curve, offset.distance);
            for cut in rail.cuts() {
                let what = format!("{name} at {}: {cut:?}", offset.distance);
                near(rail.length_between(cut.from, cut.to), 0.0, 1e-12, &what);
                for share in [0.0, 0.3, 0.5, 0.8, 1.0] {
                    let t = cut.from + (cut.to - cut.from) * share;
                    near(rail.point(t).distance(cut.point), 0.0, 1e-9, &what);
                }
                // The corner is as far from the feather line as the rest of the rail, on two sides of it.
                near(curve.nearest(cut.point).distance, offset.distance.abs(), 1e-6, &what);
                for t in [cut.from, cut.to] {
                    near(curve.point(t).distance(cut.point), offset.distance.abs(), 1e-6, &what);
                }
                assert!(cut.length > 0.0 && cut.turn.abs() > 0.0, "{what}");
            }
            let holes = rail.evenly(0.0, rail.period(), 50);
            for pair in holes.windows(2) {
                near(rail.length_between(pair[0], pair[1]), rail.length() / 50.0, 1e-8, name);
            }
            let chords: f64 =
                rail.flatten(0.0, rail.period(), 1e-5).windows(2).map(|ends| ends[0].distance(ends[1])).sum();
            near(chords, rail.length(), 1e-2, name);
        }
    }
}

#[test]
fn stations_are_found_again() {
    for (name, reference) in references() {
        let outline = Outline::fit(&reference.stations).expect("a sound outline");
        for (i, station) in reference.stations.iter().enumerate() {
            for (side, y) in [(Side::Outside, -station.outside), (Side::Inside, station.inside)] {
                let t = outline.t_at_station(i, side).expect("a station of it");
                near(outline.curve().point(t).distance(Point::new(station.x, y)), 0.0, 1e-9, name);
            }
        }
        assert_eq!(outline.t_at_station(reference.stations.len(), Side::Inside), None);
    }
}
