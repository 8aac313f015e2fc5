//! Curves whose figures have a closed form: circles and stadia.
#![allow(
    clippy::cast_precision_loss,
    clippy::float_cmp,
    clippy::maybe_infinite_iter,
    reason = "counts of a few thousand, whole numbers as floats"
)]

use std::f64::consts::PI;

use hobnail::geometry::{ClosedCurve, Distance, Path, Profile, ProfileFault, Rail, Side, Straight};
use kurbo::{Point, Vec2};

/// A circle about (r, 0), its heel at the origin.
fn circle(r: f64, points: u32) -> ClosedCurve {
    let at = |i: u32| {
        let angle = PI + 2.0 * PI * f64::from(i) / f64::from(points);
        Point::new(r, 0.0) + Vec2::from_angle(angle) * r
    };
    ClosedCurve::through(&(0..points).map(at).collect::<Vec<_>>()).expect("points apart")
}

/// Two half circles of radius `r` about (r, 0) and (r + straight, 0), joined by straights.
fn stadium(r: f64, straight: f64, step: f64) -> ClosedCurve {
    let around = PI * r;
    let whole = 2.0 * (around + straight);
    let count = (whole / step).round();
    let points: Vec<Point> = (0..)
        .map(f64::from)
        .take_while(|&i| i < count)
        .map(|i| {
            let s = whole * i / count;
            let turned = |centre: f64, angle: f64| Point::new(centre, 0.0) + Vec2::from_angle(angle) * r;
            let quarter = 0.5 * around;
            if s < quarter {
                turned(r, PI + s / r)
            } else if s < quarter + straight {
                Point::new(r + s - quarter, -r)
            } else if s < quarter + straight + around {
                turned(r + straight, -0.5 * PI + (s - quarter - straight) / r)
            } else if s < quarter + 2.0 * straight + around {
                Point::new(r + straight - (s - quarter - straight - around), r)
            } else {
                turned(r, 0.5 * PI + (s - quarter - 2.0 * straight - around) / r)
            }
        })
        .collect();
    ClosedCurve::through(&points).expect("points apart")
}

#[track_caller]
fn near(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} is {:e} off {expected}", got - expected);
}

#[test]
fn a_circle_has_its_length_area_and_curvature() {
    let curve = circle(50.0, 720);
    near(curve.length(), 100.0 * PI, 1e-7);
    near(curve.area(), 2500.0 * PI, 1e-6);
    for i in 0..50 {
        let frame = curve.frame(curve.period() * f64::from(i) / 50.0);
        near(frame.curvature, 0.02, 1e-6);
        near(frame.normal.dot(frame.point - Point::new(50.0, 0.0)), 50.0, 1e-8);
        near(frame.normal.dot(frame.tangent), 0.0, 1e-15);
    }
    near(curve.point(curve.toe()).distance(Point::new(100.0, 0.0)), 0.0, 1e-9);
}

#[test]
fn offsets_of_a_circle_are_circles() {
    let curve = circle(50.0, 720);
    for d in [20.0, 8.0, -3.0, -49.0] {
        let rail = Rail::constant(&curve, d);
        near(rail.length(), 2.0 * PI * (50.0 + d), 1e-6);
        near(rail.area(), PI * (50.0 + d).powi(2), 1e-5);
        near(rail.tightest(0.0, rail.period()).factor, 1.0 + d / 50.0, 1e-4);
        near(rail.length_between(0.0, rail.toe()), PI * (50.0 + d), 1e-6);
    }
}

#[test]
fn a_ring_carried_in_past_the_middle_leaves_nothing() {
    let curve = circle(50.0, 90);
    for (d, left) in [(-49.0, true), (-51.0, false), (-80.0, false), (-120.0, false)] {
        let rail = Rail::constant(&curve, d);
        assert_eq!(rail.tightest(0.0, rail.period()).folds(), !left);
        assert_eq!(rail.runs_through(0.0, rail.period()), left, "at {d}");
        near(rail.length(), if left { 2.0 * PI } else { 0.0 }, 1e-3);
        assert_eq!(rail.crossings(&Straight::square_at(50.0)).len(), if left { 2 } else { 0 });
    }
}

#[test]
fn a_stadium_has_its_length_area_and_offsets() {
    let (r, straight) = (40.0, 150.0);
    let curve = stadium(r, straight, 1.0);
    for d in [0.0, 12.0, -10.0] {
        let rail = Rail::constant(&curve, d);
        near(rail.length(), 2.0 * PI * (r + d) + 2.0 * straight, 1e-4);
        near(rail.area(), PI * (r + d).powi(2) + 2.0 * straight * (r + d), 1e-2);
    }
}

#[test]
fn a_row_round_the_toe_of_a_stadium() {
    let (r, straight, d, start) = (40.0, 150.0, 9.0, 70.0);
    let rail = Rail::constant(&stadium(r, straight, 1.0), d);
    let line = Straight::square_at(start);
    let (from, to) = (rail.crossings_on(&line, Side::Outside), rail.crossings_on(&line, Side::Inside));
    assert_eq!((from.len(), to.len()), (1, 1));
    let length = rail.length_between(from[0], to[0]);
    near(length, 2.0 * (r + straight - start) + PI * (r + d), 1e-4);
    let holes = rail.evenly(from[0], to[0], 100);
    assert_eq!(holes.len(), 101);
    for pair in holes.windows(2) {
        near(rail.length_between(pair[0], pair[1]), length / 100.0, 1e-8);
    }
    near(rail.point(rail.t_at_length(from[0], 50.0)).distance(Point::new(start + 50.0, -r - d)), 0.0, 1e-6);
}

#[test]
fn a_taper_along_a_straight_is_a_slanted_line() {
    let curve = stadium(40.0, 150.0, 0.5);
    let taper = Profile::new(&[(60.0, 4.0), (100.0, 34.0)]).expect("ascending");
    let rail = Rail::along(&curve, &Distance { outside: taper.clone(), inside: taper }, 1.0).expect("the sides meet");
    let on = |x, side| rail.crossings_on(&Straight::square_at(x), side)[0];
    for side in [Side::Outside, Side::Inside] {
        near(rail.length_between(on(60.0, side), on(100.0, side)).abs(), 50.0, 1e-6);
        near(rail.point(on(80.0, side)).y.abs(), 40.0 + 20.0, 1e-6);
    }
}

#[test]
fn ranges_run_past_the_heel() {
    let curve = circle(50.0, 360);
    let p = curve.period();
    near(curve.length_between(0.75 * p, 1.25 * p), 50.0 * PI, 1e-6);
    near(curve.length_between(-0.25 * p, 0.25 * p), 50.0 * PI, 1e-6);
    near(curve.length_between(0.25 * p, -0.25 * p), -50.0 * PI, 1e-6);
    near(curve.t_at_length(0.75 * p, 50.0 * PI), 1.25 * p, 1e-6);
    near(curve.t_at_length(0.25 * p, -50.0 * PI), -0.25 * p, 1e-6);
    near(curve.point(1.25 * p).distance(Point::new(50.0, -50.0)), 0.0, 1e-9);
    let round_heel = curve.flatten(0.75 * p, 1.25 * p, 0.01);
    near(round_heel[0].distance(Point::new(50.0, 50.0)), 0.0, 1e-6);
    near(round_heel[round_heel.len() - 1].distance(Point::new(50.0, -50.0)), 0.0, 1e-6);
    let nearest = curve.nearest_between(Point::new(-7.0, 0.0), 0.75 * p, 1.25 * p);
    near(nearest.t, p, 1e-6);
    near(nearest.distance, 7.0, 1e-6);
    assert!(curve.flatten(1.0, 1.0, 0.01).is_empty());
}

#[test]
fn lines_cross_a_circle_where_they_must() {
    let curve = circle(50.0, 36);
    for x in [0.5, 10.0, 50.0, 75.3, 99.9] {
        let crossings = curve.crossings(&Straight::square_at(x));
        assert_eq!(crossings.len(), 2, "at {x}");
        for t in crossings {
            near(curve.point(t).x, x, 1e-10);
        }
    }
    assert!(curve.crossings(&Straight::square_at(100.5)).is_empty());
    let slanted = Straight::through(Point::new(60.0, 30.0), Point::new(30.0, -30.0)).expect("two points");
    let [outside, inside] = curve.crossings(&slanted)[..] else { panic!("two crossings") };
    assert!(outside < curve.toe() && inside > curve.toe());
    for t in [outside, inside] {
        near(slanted.signed(curve.point(t)), 0.0, 1e-10);
    }
    assert!(curve.stretches_beyond(&Straight::square_at(-1.0)) == vec![(0.0, curve.period())]);
    assert!(curve.stretches_before(&Straight::square_at(-1.0)).is_empty());
    near(curve.area_beyond(&Straight::square_at(50.0)), 0.5 * curve.area(), 1e-6);
    near(curve.area_beyond(&Straight::square_at(-1.0)), curve.area(), 1e-9);
}

#[test]
fn depth_in_a_circle() {
    let curve = circle(50.0, 360);
    near(curve.depth(Point::new(30.0, 0.0)), 30.0, 1e-6);
    near(curve.depth(Point::new(-4.0, 0.0)), -4.0, 1e-6);
    near(curve.depth(Point::new(50.0, 49.0)), 1.0, 1e-6);
    assert!(curve.contains(Point::new(50.0, 3.0)) && !curve.contains(Point::new(101.0, 0.0)));
}

#[test]
fn a_flattened_rail_keeps_to_its_tolerance() {
    let rail = Rail::constant(&stadium(40.0, 150.0, 5.0), 10.0);
    for tolerance in [1.0, 0.1, 0.01, 0.001] {
        let chords = rail.flatten(0.0, rail.period(), tolerance);
        for ends in chords.windows(2) {
            let middle = ends[0].midpoint(ends[1]);
            assert!(rail.nearest(middle).distance <= tolerance * 1.001);
        }
        near(chords[0].distance(chords[chords.len() - 1]), 0.0, 1e-9);
    }
}

#[test]
fn sides_that_do_not_meet_are_refused() {
    let curve = circle(50.0, 36);
    let distance = Distance { outside: Profile::constant(4.0), inside: Profile::constant(5.0) };
    let jump = Rail::along(&curve, &distance, 1.0).expect_err("a jump");
    assert_eq!((jump.outside, jump.inside), (4.0, 5.0));
    assert_eq!(Profile::new(&[(1.0, 2.0), (0.0, 2.0)]), Err(ProfileFault::OutOfOrder(1)));
}
