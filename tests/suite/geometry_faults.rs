//! Tables of stations that make no outline.
#![allow(
    clippy::cast_precision_loss,
    clippy::float_cmp,
    clippy::maybe_infinite_iter,
    reason = "counts of a few thousand, whole numbers as floats"
)]

use hobnail::geometry::{ClosedCurve, CurveFault, Outline, OutlineFault, Path, Rail, Side, Station, Straight, Stretch};
use kurbo::Point;

const SOUND: [(f64, f64, f64); 7] = [
    (0.0, 0.0, 0.0),
    (15.0, 28.0, 28.0),
    (70.0, 31.0, 32.0),
    (120.0, 28.0, 36.0),
    (190.0, 40.0, 44.0),
    (255.0, 26.0, 25.0),
    (276.0, 0.0, 0.0),
];

fn fit(stations: &[(f64, f64, f64)]) -> Result<Outline, OutlineFault> {
    let stations = stations.iter().map(|&(x, inside, outside)| Station { x, inside, outside });
    Outline::fit(&stations.collect::<Vec<_>>())
}

fn fault(change: impl FnOnce(&mut Vec<(f64, f64, f64)>)) -> OutlineFault {
    let mut stations = SOUND.to_vec();
    change(&mut stations);
    fit(&stations).expect_err("a fault")
}

#[test]
fn a_sound_table_fits() {
    assert!(fit(&SOUND).is_ok());
}

#[test]
fn faults_of_the_table_name_the_station() {
    use OutlineFault as F;
    assert_eq!(fault(|s| s.truncate(3)), F::TooFew { stations: 3 });
    assert_eq!(fault(|s| s[3].0 = 60.0), F::OutOfOrder { station: 3 });
    assert_eq!(fault(|s| s[3].0 = s[2].0), F::OutOfOrder { station: 3 });
    assert_eq!(fault(|s| s[3] = s[2]), F::Repeated { station: 3 });
    assert_eq!(fault(|s| s[4].1 = -0.1), F::Negative { station: 4, side: Side::Inside });
    assert_eq!(fault(|s| s[4].2 = -0.1), F::Negative { station: 4, side: Side::Outside });
    assert_eq!(fault(|s| s[0].1 = 3.0), F::OffCentre { station: 0 });
    assert_eq!(fault(|s| s[6].2 = 3.0), F::OffCentre { station: 6 });
    assert_eq!(fault(|s| s[3] = (120.0, 0.0, 0.0)), F::Repeated { station: 3 });
    assert_eq!(fault(|s| s[3].0 = f64::NAN), F::NotFinite { station: 3 });
    assert_eq!(fault(|s| s[3].1 = f64::INFINITY), F::NotFinite { station: 3 });
}

#[test]
fn sizes_beyond_all_measure_come_to_an_end() {
    for scale in [1e-3, 1e3, 1e6, 1e9, 1e15, 1e100] {
        let huge: Vec<_> = SOUND.iter().map(|&(x, i, o)| (x * scale, i * scale, o * scale)).collect();
        let length = fit(&huge).expect("a sound outline").curve().length();
        let unit = fit(&SOUND).expect("a sound outline").curve().length();
        assert!((length / (unit * scale) - 1.0).abs() < 1e-9, "{scale}: {length}");
    }
    let endless: Vec<_> = SOUND.iter().map(|&(x, i, o)| (x * 1e200, i * 1e200, o * 1e200)).collect();
    assert_eq!(fit(&endless).err(), Some(OutlineFault::NotFinite { station: 6 }));
}

#[test]
fn numbers_that_are_none_come_to_an_end() {
    let curve = fit(&SOUND).expect("a sound outline").into_curve();
    let rail = Rail::constant(&curve, f64::NAN);
    assert!(rail.length().is_nan() && rail.crossings(&Straight::square_at(50.0)).is_empty());
    assert!(curve.flatten(0.0, f64::INFINITY, 0.01).is_empty() && curve.flatten(f64::NAN, 9.0, 0.01).is_empty());
    assert!(curve.crossings(&Straight::square_at(f64::NAN)).is_empty());
    assert!(curve.t_at_length(f64::NAN, 1.0).is_nan());
}

#[test]
fn a_spike_is_a_cusp() {
    let found = fault(|s| s[3] = (71.0, 31.0, 400.0));
    assert_eq!(found, OutlineFault::Cusp { station: 3, side: Side::Outside });
    let found = fault(|s| s[3] = (71.0, 400.0, 32.0));
    assert_eq!(found, OutlineFault::Cusp { station: 3, side: Side::Inside });
}

#[test]
fn a_curve_that_swings_across_itself_is_found_between_its_stations() {
    // The points keep apart, the curve between them does not.
    let found = fault(|s| {
        s[2] = (70.0, 0.5, 0.5);
        s[3] = (120.0, 0.5, 0.5);
    });
    let OutlineFault::Crosses { point, one, other } = found else { panic!("{found:?}") };
    assert!((70.0..=120.0).contains(&point.x), "{point:?}");
    assert_eq!(one, Stretch { side: Side::Outside, from: 2, to: 3 });
    assert_eq!(other, Stretch { side: Side::Inside, from: 2, to: 3 });
    let said = found.to_string();
    assert_eq!(said, "the curve crosses itself: outside between stations 3 and 4 and inside between stations 3 and 4");
}

#[test]
fn points_that_make_no_curve() {
    let p = Point::new;
    let fault = |points: &[Point]| ClosedCurve::through(points).expect_err("a fault");
    assert_eq!(fault(&[p(0.0, 0.0), p(1.0, 0.0)]), CurveFault::TooFew(2));
    assert_eq!(fault(&[p(0.0, 0.0), p(1.0, 0.0), p(1.0, 0.0)]), CurveFault::Repeated(2));
    assert_eq!(fault(&[p(0.0, 0.0), p(1.0, 0.0), p(0.0, 0.0)]), CurveFault::Repeated(0));
    assert_eq!(fault(&[p(0.0, 0.0), p(1.0, f64::NAN), p(0.0, 1.0)]), CurveFault::NotFinite(1));
}
