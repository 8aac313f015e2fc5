//! What holds for every smooth outline.
#![allow(
    clippy::cast_precision_loss,
    clippy::float_cmp,
    clippy::maybe_infinite_iter,
    reason = "counts of a few thousand, whole numbers as floats"
)]

use std::f64::consts::PI;

use hobnail::geometry::{ClosedCurve, Distance, Path, Profile, Rail, Side, Straight};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;
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
    let taper = |from: f64, to: f64| Profile::new(&[(30.0, from), (70.0, to)]).expect("ascending");
    (2.0..6.0, 6.0..14.0, 2.0..15.0).prop_map(move |(heel, fore, waist)| {
        let inside = vec![(30.0, heel), (60.0, waist), (90.0, fore)];
        Distance { outside: taper(heel, fore), inside: Profile::new(&inside).expect("ascending") }
    })
}

/// Outlines with a notch in the inside of the waist, a narrow toe, or both.
fn rough_outlines() -> impl Strategy<Value = ClosedCurve> {
    let shapes = (160.0..300.0, 34.0_f64..50.0, 0.0..0.75, 6.0..20.0, 0.35..0.6, 0.6..1.7);
    shapes.prop_map(|(length, half, depth, width, place, toe)| {
        let inside = |way: f64| {
            let off = length * (way - place) / width;
            1.0 - depth * libm::exp(-0.5 * off * off)
        };
        let breadth = |way: f64| half * libm::sqrt(libm::sin(PI * way)) * libm::pow(1.0 - way * way, 0.25 * toe);
        let ways: Vec<f64> = (1..40).map(|i| 0.5 - 0.5 * libm::cos(PI * f64::from(i) / 40.0)).collect();
        let outside = ways.iter().map(|&way| Point::new(length * way, -breadth(way)));
        let back = ways.iter().rev().map(|&way| Point::new(length * way, breadth(way) * inside(way)));
        let points = std::iter::once(Point::ORIGIN).chain(outside).chain([Point::new(length, 0.0)]).chain(back);
        ClosedCurve::through(&points.collect::<Vec<_>>()).expect("points apart")
    })
}

/// Length and area of what is wound round once or more by the same normals in short chords, by the overlay library, which
/// knows no more of it than these points; what lies nearer to the outline than `least` is left out.
fn overlaid(curve: &ClosedCurve, d: f64, least: f64) -> (f64, f64) {
    let at = |i: u32| {
        let frame = curve.frame(curve.period() * f64::from(i) / 12_000.0);
        frame.point + frame.normal * d
    };
    let points: Vec<[f64; 2]> = (0..12_000).map(at).map(|p| [p.x, p.y]).collect();
    let (mut length, mut area) = (0.0, 0.0);
    for contour in points.simplify_shape(FillRule::Positive).into_iter().flatten() {
        let points: Vec<Point> = contour.into_iter().map(|[x, y]| Point::new(x, y)).collect();
        let chords: Vec<_> = points.iter().zip(points.iter().cycle().skip(1)).collect();
        let own: f64 = chords.iter().map(|(a, b)| 0.5 * a.to_vec2().cross(b.to_vec2())).sum();
        if own > 0.0 && points.iter().step_by(16).all(|p| curve.nearest(*p).distance >= least) {
            length += chords.iter().map(|(a, b)| a.distance(**b)).sum::<f64>();
            area += own;
        }
    }
    (length, area)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_trimmed_rail_bounds_what_an_overlay_leaves(curve in rough_outlines(), d in -24.0_f64..24.0) {
        let rail = Rail::constant(&curve, d);
        let (length, area) = overlaid(&curve, d, if d < 0.0 { -d - 0.03 } else { 0.0 });
        prop_assert!((rail.length() - length).abs() < 1e-3 * length + 0.05, "{} and {length}", rail.length());
        prop_assert!((rail.area() - area).abs() < 1e-3 * area + 0.5, "{} and {area}", rail.area());
    }

    /// What is carried in farther is not longer: of each part that is left the length falls by 2 pi and more for each mm.
    #[test]
    fn a_line_farther_in_is_never_longer(curve in rough_outlines(), a in 0.0_f64..60.0, b in 0.0_f64..60.0) {
        let [near, far] = [a.min(b), a.max(b)].map(|d| Rail::constant(&curve, -d));
        prop_assert!(far.length() <= near.length() + 1e-6, "{} and {}", far.length(), near.length());
        prop_assert!(far.area() <= near.area() + 1e-6, "{} and {}", far.area(), near.area());
    }

    #[test]
    fn places_on_a_trimmed_rail_are_found_again(curve in rough_outlines(), d in -20.0_f64..20.0, a in 0.0..1.0, b in 0.0..1.0) {
        let rail = Rail::constant(&curve, d);
        let (t0, t1) = (a * rail.period(), (a + b) * rail.period());
        let length = rail.length_between(t0, t1);
        prop_assert!(length >= 0.0);
        let found = rail.t_at_length(t0, length);
        prop_assert!((rail.length_between(t0, found) - length).abs() < 1e-7);
        prop_assert!((rail.length_between(t0, t0 + rail.period()) - rail.length()).abs() < 1e-6);
        prop_assert!(rail.beside(-d).length() > rail.length() - 2.0 * PI * d.max(0.0) - 60.0);
        prop_assert!((rail.beside(-d).length() - curve.length()).abs() < 1e-6);
    }
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
        prop_assert!(rail.cuts().is_empty());
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
