//! The demo lasts: feather lines, areas and outer rows as worked out by hand for the demo shop.
#![allow(
    clippy::cast_precision_loss,
    clippy::float_cmp,
    clippy::maybe_infinite_iter,
    reason = "counts of a few thousand, whole numbers as floats"
)]

use hobnail::geometry::{ClosedCurve, Distance, Outline, Path, Profile, Rail, Side, Station, Straight};

const PERCENT: [f64; 17] =
    [0.0, 2.0, 5.0, 10.0, 16.0, 26.0, 36.0, 45.0, 54.0, 62.0, 70.0, 78.0, 86.0, 92.0, 96.0, 98.5, 100.0];

/// Inside and outside half-breadths, mm.
const TELLER: [(f64, f64); 17] = [
    (0.0, 0.0),
    (17.6, 17.6),
    (25.2, 25.4),
    (30.2, 30.6),
    (31.7, 32.0),
    (31.2, 32.4),
    (28.6, 33.4),
    (27.6, 35.6),
    (30.2, 39.4),
    (35.4, 43.0),
    (40.2, 44.0),
    (40.6, 41.2),
    (36.8, 35.4),
    (30.2, 28.8),
    (23.0, 21.8),
    (14.9, 14.3),
    (0.0, 0.0),
];
const DROVER: [(f64, f64); 17] = [
    (0.0, 0.0),
    (17.2, 17.2),
    (24.6, 24.8),
    (29.6, 30.0),
    (31.0, 31.4),
    (29.8, 31.4),
    (26.2, 32.0),
    (25.0, 34.4),
    (28.2, 38.6),
    (34.0, 42.4),
    (39.4, 43.2),
    (39.6, 40.2),
    (35.2, 34.2),
    (28.6, 27.4),
    (21.6, 20.6),
    (13.9, 13.4),
    (0.0, 0.0),
];

const OIL_TAN: f64 = 1.091 + 2.580;
const OIL_TAN_HEAVY: f64 = 1.091 + 2.977;

fn last(bottom: f64, half_breadths: &[(f64, f64)]) -> ClosedCurve {
    let stations: Vec<Station> = PERCENT
        .iter()
        .zip(half_breadths)
        .map(|(percent, &(inside, outside))| Station { x: bottom * percent / 100.0, inside, outside })
        .collect();
    Outline::fit(&stations).expect("a sound outline").into_curve()
}

fn teller() -> ClosedCurve {
    last(276.0, &TELLER)
}

fn drover() -> ClosedCurve {
    last(272.0, &DROVER)
}

/// The rail 3.5 inside an edge that stands 11 off the wall to 15 behind the breast, and falls to 4 over 25 behind that.
fn outer_row(curve: &ClosedCurve, wall: f64, breast: f64) -> Rail {
    let turnout = Profile::fair(&[(breast - 40.0, 4.0), (breast - 15.0, 11.0)]).expect("ascending");
    let turnout = Distance { outside: turnout.clone(), inside: turnout };
    Rail::along(curve, &turnout, wall - 3.5).expect("the sides meet")
}

fn row_ends(row: &Rail, breast: f64) -> (f64, f64) {
    let line = Straight::square_at(breast - 12.0);
    let outside = row.crossings_on(&line, Side::Outside);
    let inside = row.crossings_on(&line, Side::Inside);
    assert_eq!((outside.len(), inside.len()), (1, 1));
    (outside[0], inside[0])
}

#[track_caller]
fn reads(got: f64, printed: f64) {
    assert!((got - printed).abs() <= 0.05 + 1e-9, "{got} doesn't read {printed}");
}

#[test]
fn feather_lines_and_areas_read_as_printed() {
    reads(teller().length(), 626.8);
    reads(teller().area() / 100.0, 180.2);
    reads(drover().length(), 616.5);
    reads(drover().area() / 100.0, 171.1);
}

#[test]
fn outer_rows_are_as_long_as_printed() {
    let rows = [
        (teller(), OIL_TAN, 0.26 * 276.0, 507.6),
        (teller(), OIL_TAN_HEAVY, 0.26 * 276.0, 508.8),
        (drover(), OIL_TAN, 0.25 * 272.0, 505.7),
    ];
    for (curve, wall, breast, printed) in rows {
        let row = outer_row(&curve, wall, breast);
        let (start, end) = row_ends(&row, breast);
        let length = row.length_between(start, end);
        reads(length, printed);
        assert_eq!((length / (25.4 / 5.0)).round(), 100.0);
    }
}

#[test]
fn no_rail_of_the_demo_boots_folds() {
    for curve in [teller(), drover()] {
        for distance in [OIL_TAN_HEAVY + 11.0, -6.0] {
            let rail = Rail::constant(&curve, distance);
            let tightest = rail.tightest(0.0, rail.period());
            assert!(!tightest.folds(), "{tightest:?}");
        }
    }
}

#[test]
fn the_edge_stands_proud_of_the_wall_by_the_profile() {
    let (curve, breast) = (teller(), 0.26 * 276.0);
    let row = outer_row(&curve, OIL_TAN, breast);
    for i in 0..200 {
        let t = row.period() * f64::from(i) / 200.0;
        let x = row.foot(t).point.x;
        let u = ((x - (breast - 40.0)) / 25.0).clamp(0.0, 1.0);
        let turnout = 4.0 + 7.0 * (3.0 * u * u - 2.0 * u * u * u);
        let distance = turnout + OIL_TAN - 3.5;
        assert!((row.distance(t) - distance).abs() < 1e-9);
        assert!((row.point(t).distance(row.foot(t).point) - distance).abs() < 1e-9);
    }
}

#[test]
fn a_tapered_rail_is_as_long_as_its_chords() {
    let curve = drover();
    let row = outer_row(&curve, OIL_TAN, 68.0);
    let chords: f64 = row.flatten(0.0, row.period(), 1e-7).windows(2).map(|ends| ends[0].distance(ends[1])).sum();
    assert!((row.length() - chords).abs() < 1e-4, "{} and {chords}", row.length());
}

#[test]
fn seat_and_tread_are_read_off_the_curve() {
    let curve = teller();
    let breast = 0.26 * 276.0;
    let seat = curve.greatest_breadth_behind(breast).expect("a seat");
    let fine = (0..=7200).filter_map(|i| curve.breadth_at(breast * f64::from(i) / 7200.0));
    let searched = fine.map(|breadth| breadth.total()).fold(0.0, f64::max);
    assert!(seat.total() >= searched - 1e-12 && seat.total() - searched < 1e-4, "{seat:?}, {searched}");
    let tread = curve.breadth_at(0.7 * 276.0).expect("a tread");
    assert!((tread.inside - 40.2).abs() < 1e-9 && (tread.outside - 44.0).abs() < 1e-9);
}

#[test]
fn zones_share_the_area() {
    let curve = teller();
    let joint = |x, side| curve.point(curve.crossings_on(&Straight::square_at(x), side)[0]);
    let line = Straight::through(joint(0.7 * 276.0, Side::Inside), joint(0.62 * 276.0, Side::Outside));
    let line = line.expect("two joints");
    let forefoot = curve.area_beyond(&line);
    let behind: f64 = curve.area() - forefoot;
    assert!(forefoot > 5500.0 && behind > 9000.0, "{forefoot} and {behind}");
    let [(from, to)] = curve.stretches_beyond(&line)[..] else { panic!("one stretch") };
    assert!(curve.side(from) == Side::Outside && curve.side(to) == Side::Inside);
    let [(back_from, back_to)] = curve.stretches_before(&line)[..] else { panic!("one stretch") };
    assert!((back_from - to).abs() < 1e-12 && (back_to - from - curve.period()).abs() < 1e-9);
    let whole = curve.length_between(from, to) + curve.length_between(back_from, back_to);
    assert!((whole - curve.length()).abs() < 1e-9);
    let polygon = curve.flatten(from, to, 1e-5);
    let chords = polygon.iter().zip(polygon.iter().cycle().skip(1));
    let area: f64 = chords.map(|(a, b)| 0.5 * a.to_vec2().cross(b.to_vec2())).sum();
    assert!((area - forefoot).abs() < 0.01, "{area} and {forefoot}");
}
