//! Times one size's worth of curves: `cargo bench`.

use std::hint::black_box;
use std::time::Instant;

use hobnail::geometry::{ClosedCurve, Distance, Outline, Path, Profile, Rail, Side, Station, Straight};
use kurbo::Point;

const PERCENT: [f64; 17] =
    [0.0, 2.0, 5.0, 10.0, 16.0, 26.0, 36.0, 45.0, 54.0, 62.0, 70.0, 78.0, 86.0, 92.0, 96.0, 98.5, 100.0];
const INSIDE: [f64; 17] =
    [0.0, 17.6, 25.2, 30.2, 31.7, 31.2, 28.6, 27.6, 30.2, 35.4, 40.2, 40.6, 36.8, 30.2, 23.0, 14.9, 0.0];
const OUTSIDE: [f64; 17] =
    [0.0, 17.6, 25.4, 30.6, 32.0, 32.4, 33.4, 35.6, 39.4, 43.0, 44.0, 41.2, 35.4, 28.8, 21.8, 14.3, 0.0];

fn main() {
    let stations: Vec<Station> =
        (0..PERCENT.len()).map(|i| Station { x: 2.76 * PERCENT[i], inside: INSIDE[i], outside: OUTSIDE[i] }).collect();
    let points = Outline::points(&stations).expect("a sound outline");
    let curve = ClosedCurve::through(&points).expect("points apart");
    let turnout = Profile::new(&[(31.76, 4.0), (56.76, 11.0)]).expect("ascending");
    let turnout = Distance { outside: turnout.clone(), inside: turnout };
    let line = Straight::square_at(59.76);
    let row = Rail::along(&curve, &turnout, 0.171).expect("the sides meet");
    let (from, to) = (row.crossings_on(&line, Side::Outside)[0], row.crossings_on(&line, Side::Inside)[0]);

    time("one size: outline, 4 tapered rails, ends, lengths", || one_size(&stations, &turnout, &line));
    time("fit the curve (without looking for faults)", || ClosedCurve::through(&points));
    time("fit the outline (with its faults)", || Outline::fit(&stations));
    time("constant rail", || Rail::constant(&curve, 11.0));
    time("tapered rail", || Rail::along(&curve, &turnout, 0.171));
    time("a rail beside another", || row.beside(-3.5));
    time("crossings of a line", || row.crossings(&line));
    time("length between", || row.length_between(from, to));
    time("parameter at a length", || row.t_at_length(from, black_box(123.4)));
    time("101 holes", || row.evenly(from, to, 100));
    time("area", || row.area());
    time("area beyond a line", || row.area_beyond(&line));
    time("tightest place", || row.tightest(from, to));
    time("nearest place", || curve.nearest(black_box(Point::new(150.0, 20.0))));
    time("greatest breadth", || curve.greatest_breadth_behind(71.76));
    time("flatten to 0.01", || row.flatten(from, to, 0.01));
    time("a rail that is trimmed", || Rail::constant(&curve, -29.0));
}

fn one_size(stations: &[Station], turnout: &Distance, line: &Straight) -> f64 {
    let outline = Outline::fit(stations).expect("a sound outline");
    let edge = Rail::along(outline.curve(), turnout, 3.671).expect("the sides meet");
    let rows = [3.5, 7.0, 10.5].map(|inset| edge.beside(-inset));
    let lengths = std::iter::once(&edge).chain(&rows).map(|rail| {
        let crossings = rail.crossings(line);
        rail.length_between(crossings[0], crossings[1])
    });
    lengths.sum()
}

fn time<T>(what: &str, work: impl Fn() -> T) {
    let runs = 2000;
    let mut best = f64::MAX;
    for _ in 0..10 {
        let start = Instant::now();
        for _ in 0..runs {
            black_box(work());
        }
        best = best.min(start.elapsed().as_secs_f64() * 1e6 / f64::from(runs));
    }
    println!("{best:8.2} µs  {what}");
}
