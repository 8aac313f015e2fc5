//! What holds for every smooth outline.
#![allow(
    clippy::cast_precision_loss,
    clippy::float_cmp,
    clippy::maybe_infinite_iter,
    reason = "counts of a few thousand, whole numbers as floats"
)]

use std::f64::consts::PI;

use hobnail::geometry::{ClosedCurve, Distance, Path, Profile, Rail, Side, Straight, TRIM_TOLERANCE, Trimmed};
use kurbo::{Point, Vec2};
use proptest::prelude::*;

/// Egg-shaped outlines: an ellipse from the origin along the centre line with its breadth swelling and its axis bent.
fn smooth_outlines() -> impl Strategy<Value = ClosedCurve> {
    (120.0..320.0, 30.0..55.0, -0.25..0.25, -8.0..8.0, 24_u32..64).prop_map(|(length, half, swell, bend, count)| {
        let at = |i: u32| {
            let angle = PI + 2.0 * PI * f64::from(i) / f64::from(count);
            let way = 0.5 * (1.0 + angle.cos());
            let breadth = half * (1.0 + swell * angle.cos());
            Point::new(length * way, breadth * angle.sin() + bend * (PI * way).sin())
        };
        ClosedCurve::through(&(0..count).map(at).collect::<Vec<_>>()).expect("points apart")
    })
}

fn tapers() -> impl Strategy<Value = Distance> {
    let taper = |from: f64, to: f64| Profile::new(vec![(30.0, from), (70.0, to)]).expect("ascending");
    (2.0..6.0, 6.0..14.0, 2.0..15.0).prop_map(move |(heel, fore, waist)| {
        let inside = vec![(30.0, heel), (60.0, waist), (90.0, fore)];
        Distance { outside: taper(heel, fore), inside: Profile::new(inside).expect("ascending") }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    /// J. Steiner, 1840: a smooth outline offset by d is longer by 2 pi d and encloses L d + pi d² more, as long as
    /// nothing folds.
    #[test]
    fn steiner(curve in smooth_outlines(), d in -4.0..25.0) {
        let rail = Rail::constant(&curve, d);
        prop_assume!(!rail.tightest(0.0, rail.period()).folds());
        let (length, area) = (curve.length() + 2.0 * PI * d, curve.area() + curve.length() * d + PI * d * d);
        prop_assert!((rail.length() - length).abs() < 1e-6, "{} and {length}", rail.length());
        prop_assert!((rail.area() - area).abs() < 1e-5, "{} and {area}", rail.area());
        let trimmed = Trimmed::of(&rail, &curve);
        prop_assert!((trimmed.area() - area).abs() < TRIM_TOLERANCE * length);
    }

    #[test]
    fn lengths_add_up_and_turn_back(curve in smooth_outlines(), distance in tapers(), a in 0.0..1.0, b in -1.5..1.5) {
        let Ok(rail) = Rail::along(&curve, &distance, -1.5) else { return Ok(()) };
        let (t0, t1) = (a * rail.period(), (a + b) * rail.period());
        let length = rail.length_between(t0, t1);
        prop_assert!((rail.t_at_length(t0, length) - t1).abs() < 1e-8);
        let middle = 0.5 * (t0 + t1);
        prop_assert!((rail.length_between(t0, middle) + rail.length_between(middle, t1) - length).abs() < 1e-6);
        prop_assert!((rail.length_between(t0, t0 + rail.period()) - rail.length()).abs() < 1e-6);
    }

    #[test]
    fn a_rail_is_as_long_as_very_short_chords(curve in smooth_outlines(), distance in tapers()) {
        let Ok(rail) = Rail::along(&curve, &distance, 0.0) else { return Ok(()) };
        let count = 20_000; // each kink is cut short by up to a twentieth of a chord
        let at = |i: u32| rail.point(rail.period() * f64::from(i) / f64::from(count));
        let chords: f64 = (0..count).map(|i| at(i).distance(at(i + 1))).sum();
        prop_assert!((rail.length() - chords).abs() < 3e-3, "{} and {chords}", rail.length());
    }

    #[test]
    fn crossings_lie_on_the_line_and_part_the_path(
        curve in smooth_outlines(), d in -3.0..12.0, x in 5.0..110.0, lean in -20.0..20.0,
    ) {
        let rail = Rail::constant(&curve, d);
        let line = Straight::through(Point::new(x + lean, 60.0), Point::new(x - lean, -60.0)).expect("two points");
        let crossings = rail.crossings(&line);
        prop_assert_eq!(crossings.len() % 2, 0);
        prop_assert!(crossings.is_sorted());
        for t in crossings {
            prop_assert!(line.signed(rail.point(t)).abs() < 1e-9);
        }
        let beyond: f64 = rail.stretches_beyond(&line).iter().map(|&(a, b)| rail.length_between(a, b)).sum();
        let before: f64 = rail.stretches_before(&line).iter().map(|&(a, b)| rail.length_between(a, b)).sum();
        prop_assert!((beyond + before - rail.length()).abs() < 1e-6);
        let fine = (0..4000).map(|i| rail.period() * f64::from(i) / 4000.0);
        let share = fine.filter(|&t| line.signed(rail.point(t)) > 0.0).count();
        let ranges: f64 = rail.stretches_beyond(&line).iter().map(|&(a, b)| b - a).sum();
        prop_assert!((share as f64 / 4000.0 - ranges / rail.period()).abs() < 2e-3);
    }

    #[test]
    fn the_nearest_place_is_nearest(curve in smooth_outlines(), x in -20.0..340.0, y in -80.0..80.0) {
        let p = Point::new(x, y);
        let nearest = curve.nearest(p);
        let searched = (0..5000).map(|i| curve.point(curve.period() * f64::from(i) / 5000.0).distance(p));
        let least = searched.fold(f64::MAX, f64::min);
        prop_assert!(nearest.distance <= least + 1e-9, "{nearest:?} and {least}");
        prop_assert!(least - nearest.distance < 0.1);
    }

    #[test]
    fn what_is_carried_in_is_as_deep(curve in smooth_outlines(), t in 0.0..1.0, d in 0.5_f64..10.0) {
        let t = t * curve.period();
        let frame = curve.frame(t);
        let reach = 0.5 * curve.breadth_at(frame.point.x).map_or(0.0, |b| b.total()).min(60.0);
        let rail = Rail::constant(&curve, -d);
        prop_assume!(d < reach && !rail.tightest(0.0, rail.period()).folds());
        let depth = curve.depth(rail.point(t));
        prop_assert!(depth <= d + 1e-9 && depth > 0.0);
        prop_assert!((curve.depth(frame.point + frame.normal * 5.0) + 5.0).abs() < 1e-6);
    }

    #[test]
    fn the_tightest_place_is_tightest(curve in smooth_outlines(), distance in tapers()) {
        let Ok(rail) = Rail::along(&curve, &distance, 0.0) else { return Ok(()) };
        let tightest = rail.tightest(0.0, rail.period());
        let factor = |t: f64| 1.0 + curve.frame(t).curvature * rail.distance(t);
        prop_assert!((factor(tightest.t) - tightest.factor).abs() < 1e-9);
        for i in 0..3000 {
            let t = rail.period() * f64::from(i) / 3000.0;
            prop_assert!(factor(t) >= tightest.factor - 1e-9);
        }
    }

    #[test]
    fn the_velocity_is_the_derivative(curve in smooth_outlines(), distance in tapers(), t in 0.0..1.0) {
        let Ok(rail) = Rail::along(&curve, &distance, 0.5) else { return Ok(()) };
        let (t, h) = (t * rail.period(), 1e-5);
        let chord: Vec2 = (rail.point(t + h) - rail.point(t - h)) / (2.0 * h);
        // A knot of the profile within h of t leaves a kink of at most the slopes' difference.
        prop_assume!(rail.side(t - h) == rail.side(t + h));
        let kink = [30.0, 60.0, 70.0, 90.0].iter().any(|x| (rail.foot(t).point.x - x).abs() < 1e-4);
        prop_assume!(!kink);
        prop_assert!((chord - rail.motion(t).velocity).hypot() < 1e-6);
    }

    #[test]
    fn sides_follow_the_normals(curve in smooth_outlines(), d in 0.0..12.0, t in 0.0..1.0) {
        let rail = Rail::constant(&curve, d);
        let t = t * rail.period();
        let expected = if t < curve.toe() { Side::Outside } else { Side::Inside };
        prop_assert_eq!(rail.side(t), expected);
        prop_assert_eq!(rail.side(t + rail.period()), expected);
    }
}
