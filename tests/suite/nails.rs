//! Nails worked out again, plainly: what each one goes through on random layers, which length that asks for, and how many
//! stand round the heel.
//!
//! The oracle knows where the nails stand and the feather line, and nothing of how the tool finds their stacks.

use crate::common::chance::Chance;
use crate::common::memory::{Memory, Only};
use crate::common::trial;
use crate::common::trial::{built, check, judged, trial};
use hobnail::build::{GradedLast, NailsBuilt};
use hobnail::finding::Severity;
use hobnail::geometry::{Path, Rail, Side, Straight};
use hobnail::measure::Spread;

/// Nails that a hair decides are left out of the comparison, mm.
const HAIR: f64 = 0.02;
/// The demo house: 1.5 to 5 mm of a clinch nail stand beyond what it holds.
const CLINCH: (f64, f64) = (1.5, 5.0);
const EIGHTH: f64 = 25.4 / 8.0;
const CLINCHING: [f64; 6] = [4.0 * EIGHTH, 4.5 * EIGHTH, 5.0 * EIGHTH, 5.5 * EIGHTH, 6.0 * EIGHTH, 7.0 * EIGHTH];

/// A layer that is laid between insole and midsole, where nails may or may not stand in it.
#[derive(Clone, Debug)]
struct Wad {
    covers: &'static str,
    breadth: Option<f64>,
    tucked: Option<f64>,
    thick: f64,
    tolerance: f64,
    rigid: bool,
}

impl Wad {
    fn random(chance: &mut Chance) -> Self {
        let numbers = |chance: &mut Chance, from: f64, step: f64, many: usize| {
            ((from + step * f64::from(u32::try_from(chance.below(many)).expect("few"))) * 10.0).round() / 10.0
        };
        Self {
            covers: ["all", "forepart", "waist", "seat"][chance.below(4)],
            breadth: (chance.below(2) == 0).then(|| numbers(chance, 16.0, 1.0, 50)),
            tucked: (chance.below(3) == 0).then(|| numbers(chance, 0.0, 4.0, 12)),
            thick: numbers(chance, 0.6, 0.2, 10),
            tolerance: numbers(chance, 0.0, 0.1, 4),
            rigid: chance.below(4) == 0,
        }
    }

    fn memory(&self) -> Memory {
        let stock = format!("rubber wadding {{ thickness {} mm +- {} mm }}", self.thick, self.tolerance);
        let breadth = self.breadth.map(|breadth| format!("; breadth {breadth} mm")).unwrap_or_default();
        let ends = self.tucked.map(|behind| format!("; ends tucked {behind} mm")).unwrap_or_default();
        let rigid = if self.rigid { "; rigid" } else { "" };
        let layer =
            format!("layer filler {{ of wadding; covers {}{breadth}{ends}{rigid}; bonded neoprene }}", self.covers);
        let seat = "seat nailed { with clinching;  inside-feather 9 mm;  apart 11 mm }";
        trial(&stock, &format!("  bottom {{ {layer}; {seat} }}"))
    }

    /// Whether a nail stands in it, and how near that was to being otherwise, mm.
    fn holds(&self, last: &Measured, (x, y): (f64, f64)) -> (bool, f64) {
        let ahead = last.before_joint(x, y);
        // Both lines of the waist begin on the breast: what stands on it stands in waist and seat.
        let from_breast = if (x - last.breast).abs() < 1e-6 { 1.0 } else { x - last.breast };
        let to_breast = if (x - last.breast).abs() < 1e-6 { 1.0 } else { last.breast - x };
        let mut near = f64::MAX;
        let mut asks = |left: f64| {
            near = near.min(left.abs());
            left >= 0.0
        };
        let zone = match self.covers {
            "forepart" => !asks(ahead),
            "waist" => asks(from_breast) & asks(ahead),
            "seat" => asks(to_breast),
            _ => true,
        };
        let ends = self.tucked.is_none_or(|behind| asks(x - (last.breast - behind)));
        let within = self.breadth.is_none_or(|breadth| asks(breadth / 2.0 - (y - last.middle(x)).abs()));
        // What stands on the breast or on the end of a layer stands in it.
        (zone && ends && within, near)
    }
}

/// The bottom of a last, measured on a fine polyline.
struct Measured {
    points: Vec<(f64, f64, Side)>,
    breast: f64,
    joints: [(f64, f64); 2],
}

impl Measured {
    fn of(last: &GradedLast) -> Self {
        let feather = &last.feather;
        let at = |n: u32| feather.period() * f64::from(n) / 4_000.0;
        let point = |t: f64| (feather.point(t).x, feather.point(t).y, feather.side(t));
        let points: Vec<_> = (0..4_000).map(|n| point(at(n))).collect();
        let mut measured = Self { points, breast: last.breast, joints: [(0.0, 0.0); 2] };
        let (inside, outside) = (last.joint_inside, last.joint_outside);
        let ends = [(inside, Side::Inside), (outside, Side::Outside)];
        measured.joints = ends.map(|(x, side)| (x, measured.across(x, side)));
        measured
    }

    fn across(&self, x: f64, side: Side) -> f64 {
        let pairs = self.points.windows(2).filter(|pair| pair[0].2 == side && pair[1].2 == side);
        let mut over =
            pairs.filter(|pair| (pair[0].0 - x) * (pair[1].0 - x) <= 0.0 && (pair[0].0 - pair[1].0).abs() > 0.0);
        let pair = over.next().expect("the feather line passes it");
        pair[0].1 + (pair[1].1 - pair[0].1) * (x - pair[0].0) / (pair[1].0 - pair[0].0)
    }

    fn middle(&self, x: f64) -> f64 {
        f64::midpoint(self.across(x, Side::Inside), self.across(x, Side::Outside))
    }

    /// How far a place lies behind the line of the joints, mm along the foot.
    fn before_joint(&self, x: f64, y: f64) -> f64 {
        let [a, b] = self.joints;
        a.0 + (b.0 - a.0) * (y - a.1) / (b.1 - a.1) - x
    }
}

/// A nail's layers where nothing is rigid or narrow: lining, insole, midsole, in the seat the quarter; in mm.
fn always(seat: bool) -> Spread {
    let iron = 25.4 / 48.0;
    let ounce = 25.4 / 64.0;
    let spreads = [
        Spread { lo: 2.5 * ounce, nominal: 2.75 * ounce, hi: 3.0 * ounce },
        Spread::around(8.0 * iron, 0.5 * iron),
        Spread::around(12.0 * iron, 0.5 * iron),
        if seat { Spread { lo: 6.0 * ounce, nominal: 6.5 * ounce, hi: 7.0 * ounce } } else { Spread::exactly(0.0) },
    ];
    spreads.into_iter().fold(Spread::exactly(0.0), |a, b| Spread {
        lo: a.lo + b.lo,
        nominal: a.nominal + b.nominal,
        hi: a.hi + b.hi,
    })
}

/// One line of nails against the oracle; `None` where a hair decides.
fn line(wad: &Wad, last: &Measured, nails: &NailsBuilt, seat: bool) -> Option<Vec<String>> {
    let mut wrong = Vec::new();
    let (mut thin, mut thick, mut rigid) = (f64::MAX, 0.0_f64, 0);
    let shank = Wad {
        covers: "waist",
        breadth: Some(30.0),
        tucked: None,
        thick: 10.0 * 25.4 / 48.0,
        tolerance: 0.5 * 25.4 / 48.0,
        rigid: false,
    };
    let pad = Wad { thick: 1.0, tolerance: 0.0, ..shank.clone() };
    for place in &nails.places {
        let at = (place.point.x, place.point.y);
        let (mut lo, mut hi) = (always(seat).lo, always(seat).hi);
        for layer in [wad, &shank, &pad] {
            let (holds, near) = layer.holds(last, at);
            if near < HAIR {
                return None;
            }
            if holds && layer.rigid {
                rigid += 1;
            } else if holds {
                lo += layer.thick - layer.tolerance;
                hi += layer.thick + layer.tolerance;
            }
        }
        (thin, thick) = (thin.min(lo), thick.max(hi));
    }
    let mut same = |what: &str, tool: f64, plain: f64| {
        if (tool - plain).abs() > 1e-6 {
            wrong.push(format!("{what} is {tool}, plainly {plain}"));
        }
    };
    same("the thickest", nails.thickest.spread().hi, thick);
    same("the thinnest", nails.thinnest.spread().lo, thin);
    same("the shortest that serves", nails.window.lo, thick + CLINCH.0);
    same("the longest that serves", nails.window.hi, thin + CLINCH.1);
    let serves = |length: &&f64| **length >= thick + CLINCH.0 - 1e-9 && **length <= thin + CLINCH.1 + 1e-9;
    same("the length", nails.length.unwrap_or(0.0), CLINCHING.iter().find(serves).copied().unwrap_or(0.0));
    let counted: usize = nails.in_rigid.iter().map(|(_, count)| *count).sum();
    if counted != rigid {
        wrong.push(format!("{counted} stand in what is rigid, plainly {rigid}"));
    }
    Some(wrong)
}

#[test]
fn each_nail_goes_through_what_lies_where_it_stands() {
    let (mut compared, mut thicker, mut rigid) = ([0, 0], 0, 0);
    let mut wrong = Vec::new();
    for seed in 1..=140 {
        let mut chance = Chance::new(seed);
        let wad = Wad::random(&mut chance);
        let size = ["6 C", "9 D", "12 E"][chance.below(3)];
        built(&wad.memory(), size, |build| {
            let last = Measured::of(build.last.as_ref().expect("a last"));
            for (nails, seat) in [(&build.waist, false), (&build.seat, true)] {
                let nails = nails.as_ref().expect("it is nailed").as_ref().expect("it is built");
                let Some(found) = line(&wad, &last, nails, seat) else { continue };
                compared[usize::from(seat)] += 1;
                thicker += usize::from(nails.thickest.spread().hi > always(seat).hi + 0.1);
                rigid += usize::from(nails.in_rigid.iter().any(|(_, count)| *count > 0));
                wrong.extend(found.into_iter().map(|what| format!("seed {seed}, seat {seat}: {what}\n  {wad:?}")));
            }
        });
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(
        compared[0] >= 100 && compared[1] >= 100 && thicker >= 20 && rigid >= 8,
        "{compared:?} compared, {thicker} thicker, {rigid} rigid"
    );
}

/// Chords of a path between two parameters, summed.
fn chords(path: &impl Path, from: f64, to: f64) -> f64 {
    let at = |n: u32| path.point(from + (to - from) * f64::from(n) / 4_000.0);
    (0..4_000).map(|n| at(n).distance(at(n + 1))).sum()
}

#[test]
fn heel_nails_stand_round_the_heel_from_breast_to_breast() {
    for (inside, apart) in [(6.35, 12.7), (8.0, 10.0), (5.0, 15.5), (7.25, 11.3)] {
        let nailed = format!("  heel {{ nailed {{ inside-edge {inside} mm;  apart {apart} mm }} }}");
        for size in ["6 C", "9 D", "14 EE"] {
            built(&trial("", &nailed), size, |build| {
                let lines = build.lines.as_ref().expect("lines");
                let rail = lines.edge.beside(-inside);
                let last = &lines.last;
                // From the heel forwards on the outside, and back on the inside, to the breast: found by halving.
                let crossing = |mut back: f64, mut front: f64| {
                    for _ in 0..80 {
                        let middle = f64::midpoint(back, front);
                        if rail.point(middle).x < last.breast { back = middle } else { front = middle }
                    }
                    back
                };
                let toe = last.feather.side_switch();
                let outside = crossing(0.0, toe);
                let inside_from = crossing(rail.period(), toe);
                let length = chords(&rail, inside_from, rail.period() + outside);
                let ring = build.heel_nails.as_ref().expect("nailed").as_ref().expect("built").ring.as_ref();
                let ring = ring.expect("a ring");
                let gaps = (length / apart).floor();
                assert!((ring.length - length).abs() < 0.01, "{size}: {} round the heel, {length}", ring.length);
                assert!((f64::from(ring.count) - gaps - 1.0).abs() < 1e-9, "{size}: {} nails", ring.count);
                assert!((ring.apart - length / gaps).abs() < 0.001, "{size}: {} apart", ring.apart);
                // Evenly from breast to breast, the back in the middle: shares of the way from back to breast.
                let [first, .., last_one] = ring.along[..] else { panic!("nails") };
                assert!((first - 1.0).abs() < 1e-6 && (last_one - 1.0).abs() < 1e-6, "{first} {last_one}");
                let least = ring.along.iter().copied().fold(f64::MAX, f64::min);
                assert!(least < 0.12, "one stands near the back: {least}");
            });
        }
    }
}

#[test]
fn a_heel_nail_is_the_shortest_that_holds_and_stays_clear() {
    let mut seen = [0, 0, 0];
    for sunk in [0.0, 1.0, 2.0, 3.5] {
        for spread in ["3/8, 4/8, 5/8, 6/8, 7/8, 8/8, 9/8, 10/8", "4/8, 7/8, 9/8", "3/8, 6/8", "3/8", "12/8"] {
            let stock = format!("nail spike {{ lengths {spread} in; shank 1.8 mm; sunk {sunk} mm }}");
            let heel = "  heel { nailed { cap spike } }";
            built(&trial(&stock, heel), "9 D", |build| {
                let nails = build.heel_nails.as_ref().expect("nailed").as_ref().expect("built");
                let cap = nails.cap.as_ref().expect("a cap nail");
                let (least, most) = (cap.hold.spread().hi - cap.sunk, cap.room.spread().lo - cap.sunk);
                let stocked: Vec<f64> = spread
                    .split(", ")
                    .map(|length| {
                        length.split('/').next().and_then(|n| n.parse::<f64>().ok()).expect("eighths") * EIGHTH
                    })
                    .collect();
                let serves = stocked.iter().find(|length| **length >= least - 1e-9 && **length <= most + 1e-9);
                let clear = stocked.iter().rev().find(|length| **length <= most + 1e-9);
                let wanted = serves.or(clear).unwrap_or(&stocked[0]);
                seen[if serves.is_some() { 0 } else { 1 + usize::from(clear.is_none()) }] += 1;
                assert!((cap.length - wanted).abs() < 1e-9, "{spread}, sunk {sunk}: {} not {wanted}", cap.length);
            });
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "serves, only clear, neither: {seen:?}");
}

#[test]
fn a_sunk_head_asks_for_a_longer_nail() {
    let plain = built(&trial("", ""), "9 D", |build| build.waist.clone().expect("nailed").expect("built").window);
    for sunk in [0.25, 0.75, 1.5, 3.0] {
        let lengths = "4/8, 4.5/8, 5/8, 5.5/8, 6/8, 7/8 in";
        let stock = format!("nail sprig {{ lengths {lengths}; shank 1.8 mm; sunk {sunk} mm; clinches }}");
        built(&trial(&stock, "  bottom { waist nailed { with sprig } }"), "9 D", |build| {
            let nails = build.waist.as_ref().expect("nailed").as_ref().expect("built");
            let (least, most) = (plain.lo + sunk, plain.hi + sunk);
            assert!((nails.window.lo - least).abs() < 1e-9 && (nails.window.hi - most).abs() < 1e-9, "{sunk} mm");
            let wanted = CLINCHING.iter().find(|length| least <= **length && **length <= most);
            assert_eq!(nails.length.is_some(), wanted.is_some(), "{sunk} mm");
            nails.length.iter().zip(wanted).for_each(|(found, wanted)| assert!((found - wanted).abs() < 1e-9));
        });
    }
}

#[test]
fn each_end_of_a_line_has_a_nail_however_far_they_stand() {
    for apart in [12.0, 60.0, 150.0] {
        let line = format!("with clinching; inside-feather 10 mm; apart {apart} mm");
        let seat = "seat nailed { with clinching; inside-feather 10 mm; apart 12 mm }";
        built(&trial("", &format!("  bottom {{ waist nailed {{ {line} }}; {seat} }}")), "9 D", |build| {
            let nails = build.waist.as_ref().expect("nailed").as_ref().expect("built");
            assert_eq!(nails.places.len(), nails.counts.0 + nails.counts.1);
            let last = build.last.as_ref().expect("a last");
            let rail = Rail::constant(&last.feather, -10.0);
            for (side, joint, count, spacing) in [
                (Side::Outside, last.joint_outside, nails.counts.0, nails.spacing.0),
                (Side::Inside, last.joint_inside, nails.counts.1, nails.spacing.1),
            ] {
                let mut stations: Vec<f64> =
                    nails.places.iter().filter(|place| place.side == side).map(|place| place.point.x).collect();
                stations.sort_by(f64::total_cmp);
                // From the breast to 10 mm behind the joint.
                let (first, last_one) = (stations[0], *stations.last().expect("two"));
                assert!((first - last.breast).abs() < 1e-6 && (last_one - (joint - 10.0)).abs() < 1e-6, "{stations:?}");
                let at = |x: f64| rail.crossings_on(&Straight::square_at(x), side)[0];
                let (a, b) = (at(first), at(last_one));
                let way = chords(&rail, a.min(b), a.max(b));
                let gaps = (way / apart).floor().max(1.0);
                assert_eq!(count, stations.len());
                let nails = f64::from(u32::try_from(count).expect("few"));
                assert!((nails - gaps - 1.0).abs() < 1e-9, "{apart} mm on {way}: {count}");
                assert!((spacing - way / gaps).abs() < 0.01, "{apart} mm on {way}: {spacing} apart");
                for pair in stations.windows(2) {
                    let (a, b) = (at(pair[0]), at(pair[1]));
                    let gap = chords(&rail, a.min(b), a.max(b));
                    assert!((gap - spacing).abs() < 0.01, "{gap} between {pair:?}, {spacing} evenly");
                }
            }
        });
    }
}

#[test]
fn on_a_line_shorter_than_half_the_spacing_one_nail_stands_alone() {
    // The breast lies at 26 % of the bottom's 276 mm: to 27 % it is not 3 mm, to 30 % some 11, to 25 % nothing.
    for (to, each) in [("25 %", 1), ("26 %", 1), ("27 %", 1), ("30 %", 2)] {
        let line = format!("with clinching; inside-feather 10 mm; apart 12 mm; to {to}");
        built(&trial("", &format!("  bottom {{ waist nailed {{ {line} }} }}")), "9 D", |build| {
            let nails = build.waist.as_ref().expect("nailed").as_ref().expect("built");
            assert_eq!(nails.counts, (each, each), "to {to}");
            assert_eq!(nails.places.len(), 2 * each, "to {to}");
        });
    }
}

#[test]
fn waist_nails_need_a_plate_to_clinch_on() {
    for (plate, refused) in [("full", false), ("heel", true), ("none", true)] {
        let last = trial::LastText::default().text().replace("plate full", &format!("plate {plate}"));
        let (_, checked) = check(&trial(&last, "  last other\n  run us-men 9 widths D"), &Only("9 D"));
        let found = checked.findings.iter().any(|it| it.name == "waist/clinch" && it.severity == Severity::Refused);
        assert_eq!(found, refused, "plate {plate}");
    }
}

/// The side that is worse is named, whichever joint lies farther back.
#[test]
fn a_waist_line_past_a_joint_names_the_side() {
    for (joints, side) in [("inside 70 % outside 62 %", "outside"), ("inside 60 % outside 68 %", "inside")] {
        let last = trial::LastText { joints, ..trial::LastText::default() };
        let model = "  last other\n  run us-men 9 widths D\n  bottom { waist nailed { to 66 % } }";
        let (_, checked) = check(&trial(&last.text(), model), &Only("9 D"));
        let found = checked.findings.iter().find(|it| it.name == "forefoot/nailed").expect("it is refused");
        assert!(found.notes.iter().any(|note| note.contains(&format!("{side} joint"))), "{joints}: {:?}", found.notes);
    }
}

/// A stated length is held against the end of the window that is nearer, and the layers that make that end.
#[test]
fn a_stated_length_is_held_against_the_nearer_end() {
    let (mut least, mut most) = (0, 0);
    for step in 0..100 {
        let length = f64::from(1_250 + 5 * step) / 100.0;
        // A wad under some of the nails, so that the thickest layers are not the thinnest.
        let stock = format!(
            "nail sprig {{ lengths {length}, 40 mm; shank 1.8 mm; clinches }}\nrubber wadding {{ thickness 0.6 mm }}"
        );
        let wad = "layer filler { of wadding; covers waist; breadth 50 mm; bonded neoprene }";
        let memory = trial(&stock, &format!("  bottom {{ {wad}; waist nailed {{ with sprig; length {length} mm }} }}"));
        let loaded = memory.load(&[trial::TRIAL]);
        built(&memory, "9 D", |build| {
            let nails = build.waist.as_ref().expect("nailed").as_ref().expect("built");
            assert_eq!(loaded.sources.slice(nails.length_origin.span), format!("{length} mm"), "where it is stated");
            let judgements = judged(build, "waist/clinch");
            let judged = judgements.iter().find(|it| &*it.subject == "waist nails").expect("the waist is judged");
            let (over, under) = (length - nails.window.lo, nails.window.hi - length);
            let (limit, terms) =
                if over < under { (nails.window.lo, &nails.thickest) } else { (nails.window.hi, &nails.thinnest) };
            if over < under {
                least += 1;
            } else {
                most += 1;
            }
            assert!(nails.thickest.nominal() > nails.thinnest.nominal(), "some stand in the wad");
            assert!((judged.limit - limit).abs() < 1e-9, "{length} mm: {} not {limit}", judged.limit);
            assert_eq!(&judged.terms, terms, "{length} mm");
        });
    }
    assert!(least > 10 && most > 10, "{least} and {most}");
}

/// A rigid layer that no nail stands in is not spoken of.
#[test]
fn only_a_rigid_layer_that_nails_stand_in_is_named() {
    // The waist's nails stand 10 mm inside the feather: a shank of 30 mm lies clear of them, one of 60 does not.
    for (breadth, stand) in [("20 mm", false), ("60 mm", true)] {
        let shank = format!("layer shank {{ breadth {breadth}; rigid }}; layer pad {{ breadth {breadth} }}");
        built(&trial("", &format!("  bottom {{ {shank} }}")), "9 D", |build| {
            let all = judged(build, "waist/rigid-shank");
            let waist = all.iter().find(|it| &*it.subject == "waist nails").expect("it is judged");
            assert_eq!(waist.facts.is_empty(), !stand, "{breadth}: {:?}", waist.facts);
            assert_eq!(waist.levers.is_empty(), !stand, "{breadth}");
        });
    }
}
