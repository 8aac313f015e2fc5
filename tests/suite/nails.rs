//! Nails worked out again, plainly: what each one goes through on random layers, which length that asks for, and how many
//! stand round the heel.
//!
//! The oracle knows where the nails stand and the feather line, and nothing of how the tool finds their stacks.

use crate::common::chance::Chance;
use crate::common::memory::{Memory, Only};
use crate::common::trial;
use crate::common::trial::{built, check, judged, trial};
use hobnail::build::{GradedLast, NailsBuilt, Place, Stand};
use hobnail::finding::{Severity, Subject};
use hobnail::geometry::{Path, Rail, Side, Straight};
use hobnail::language::Hole;
use hobnail::measure::Spread;

/// Nails that stand within their radius of an edge are judged both ways and left out of the comparison, mm.
const AT_AN_EDGE: f64 = 0.95;
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
            format!("layer arch {{ of wadding; covers {}{breadth}{ends}{rigid}; bonded neoprene }}", self.covers);
        let seat = "seat nailed { with clinching;  inside-feather 9 mm;  apart 11 mm }";
        let without = "without layer filler; without layer shank; without layer pad";
        trial(&stock, &format!("  bottom {{ {without}; {layer}; {seat} }}"))
    }

    /// Whether a nail stands in it, and how near that was to being otherwise, mm.
    fn holds(&self, last: &Measured, (x, y): (f64, f64)) -> (bool, f64) {
        let ahead = last.before_joint(x, y);
        let mut near = f64::MAX;
        let mut asks = |left: f64| {
            near = near.min(left.abs());
            left >= 0.0
        };
        let zone = match self.covers {
            "forepart" => !asks(ahead),
            "waist" => asks(x - last.breast) & asks(ahead),
            "seat" => asks(last.breast - x),
            _ => true,
        };
        let ends = self.tucked.is_none_or(|behind| asks(x - (last.breast - behind)));
        let within = self.breadth.is_none_or(|breadth| asks(breadth / 2.0 - y.abs()));
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

    /// How far a place lies behind the line of the joints, mm along the foot.
    fn before_joint(&self, x: f64, y: f64) -> f64 {
        let [a, b] = self.joints;
        a.0 + (b.0 - a.0) * (y - a.1) / (b.1 - a.1) - x
    }
}

/// A nail's layers without the wad: lining, insole, midsole, and the quarter where it is lasted in; in mm. The release cut
/// is 15 + 25 mm behind the breast.
fn always(last: &Measured, x: f64) -> (Spread, f64) {
    let iron = 25.4 / 48.0;
    let ounce = 25.4 / 64.0;
    let released = x - (last.breast - 40.0);
    let quarter = Spread { lo: 6.0 * ounce, nominal: 6.5 * ounce, hi: 7.0 * ounce };
    let spreads = [
        Spread { lo: 2.5 * ounce, nominal: 2.75 * ounce, hi: 3.0 * ounce },
        Spread::around(8.0 * iron, 0.5 * iron),
        Spread::around(12.0 * iron, 0.5 * iron),
        if released <= 0.0 { quarter } else { Spread::exactly(0.0) },
    ];
    let add = |a: Spread, b: Spread| Spread { lo: a.lo + b.lo, nominal: a.nominal + b.nominal, hi: a.hi + b.hi };
    (spreads.into_iter().fold(Spread::exactly(0.0), add), released.abs())
}

/// What was seen of the nails that were compared.
#[derive(Default)]
struct Seen {
    compared: usize,
    left_out: usize,
    thicker: usize,
    rigid: usize,
}

/// One line of nails against the oracle.
fn line(wad: &Wad, last: &Measured, nails: &NailsBuilt, seen: &mut Seen) -> Vec<String> {
    let mut wrong = Vec::new();
    let (mut rigid, mut unsure) = (0, 0);
    for nail in &nails.nails {
        let (layers, to_release) = always(last, nail.point.x);
        let (within, to_edge) = wad.holds(last, (nail.point.x, nail.point.y));
        // The vamp lining gives way to the quarter's at 42 %: one or the other lies on both sides of that.
        if to_edge.min(to_release) < AT_AN_EDGE {
            (seen.left_out, unsure) = (seen.left_out + 1, unsure + 1);
            continue;
        }
        seen.compared += 1;
        rigid += usize::from(within && wad.rigid);
        let lies = within && !wad.rigid;
        seen.thicker += usize::from(lies);
        let by = if lies { (wad.thick - wad.tolerance, wad.thick + wad.tolerance) } else { (0.0, 0.0) };
        let window = (layers.hi + by.1 + CLINCH.0, layers.lo + by.0 + CLINCH.1);
        // A rigid layer is no layer to be nailed through: that rule refuses, and what clinches there is not compared.
        if within && wad.rigid {
            continue;
        }
        let mut same = |what: &str, tool: f64, plain: f64| {
            if (tool - plain).abs() > 1e-6 {
                wrong.push(format!("{what} at {:?} is {tool}, plainly {plain}", nail.point));
            }
        };
        same("the shortest that serves", nail.window.lo, window.0);
        same("the longest that serves", nail.window.hi, window.1);
        let serves = |length: &&f64| **length >= window.0 - 1e-9 && **length <= window.1 + 1e-9;
        same("the length", nail.length.unwrap_or(0.0), CLINCHING.iter().find(serves).copied().unwrap_or(0.0));
    }
    let counted: usize = nails.in_rigid.iter().map(|(_, count)| *count).sum();
    seen.rigid += rigid;
    if counted < rigid || counted > rigid + unsure {
        wrong.push(format!("{counted} stand in what is rigid, plainly {rigid}, and {unsure} near an edge"));
    }
    wrong
}

#[test]
fn each_nail_goes_through_what_lies_where_it_stands() {
    let mut seen = Seen::default();
    let mut wrong = Vec::new();
    for seed in 1..=140 {
        let mut chance = Chance::new(seed);
        let wad = Wad::random(&mut chance);
        let size = ["6 C", "9 D", "12 E"][chance.below(3)];
        built(&wad.memory(), size, |build| {
            let last = Measured::of(build.last.as_ref().expect("a last"));
            for nails in [&build.waist, &build.seat] {
                let nails = nails.as_ref().expect("it is nailed").as_ref().expect("it is built");
                let found = line(&wad, &last, nails, &mut seen);
                wrong.extend(found.into_iter().map(|what| format!("seed {seed}: {what}\n  {wad:?}")));
            }
        });
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let Seen { compared, left_out, thicker, rigid } = seen;
    assert!(
        compared >= 3_000 && left_out * 5 <= compared && thicker >= 500 && rigid >= 150,
        "{compared} compared, {left_out} left out, {thicker} thicker, {rigid} rigid"
    );
}

/// Chords of a path between two parameters, summed.
fn chords(path: &impl Path, from: f64, to: f64) -> f64 {
    let at = |n: u32| path.point(from + (to - from) * f64::from(n) / 4_000.0);
    (0..4_000).map(|n| at(n).distance(at(n + 1))).sum()
}

/// From the heel forwards on the outside, and back on the inside, to a line square at `x`: found by halving.
fn round_to(rail: &Rail, toe: f64, x: f64) -> f64 {
    let crossing = |mut back: f64, mut front: f64| {
        for _ in 0..80 {
            let middle = f64::midpoint(back, front);
            if rail.point(middle).x < x { back = middle } else { front = middle }
        }
        back
    };
    chords(rail, crossing(rail.period(), toe), rail.period() + crossing(0.0, toe))
}

/// The base's ring inside the feather line, the cap's inside the heel's edge; both end behind the breast.
#[test]
fn heel_nails_stand_round_the_heel() {
    for (inside, apart, behind) in [(6.35, 12.7, 8.0), (8.0, 10.0, 10.0), (5.0, 15.5, 6.5), (7.25, 11.3, 12.0)] {
        let stated = format!("inside-feather {inside} mm; inside-edge {inside} mm; apart {apart} mm");
        let nailed = format!("  heel {{ nailed {{ {stated}; behind-breast {behind} mm; across 3 }} }}");
        for size in ["6 C", "9 D", "14 EE"] {
            built(&trial("", &nailed), size, |build| {
                let lines = build.lines.as_ref().expect("lines");
                let (last, toe) = (&lines.last, lines.last.feather.side_switch());
                let nails = build.heel_nails.as_ref().expect("nailed").as_ref().expect("built");
                let base = (&nails.rings[0], Rail::constant(&last.feather, -inside), 1.0);
                let cap = (nails.cap_ring.as_ref().expect("a cap"), lines.edge.beside(-inside), 0.0);
                for (ring, rail, more) in [base, cap] {
                    let length = round_to(&rail, toe, last.breast - behind);
                    let gaps = (length / apart).floor();
                    assert!((ring.length - length).abs() < 0.01, "{size}: {} round the heel, {length}", ring.length);
                    assert!((f64::from(ring.count) - gaps - more).abs() < 1e-9, "{size}: {} nails", ring.count);
                    assert!((ring.apart - length / gaps).abs() < 0.001, "{size}: {} apart", ring.apart);
                }
                let (ring, across): (Vec<&Stand>, Vec<&Stand>) =
                    nails.stands.iter().filter(|stand| stand.stage == Some(0)).partition(|stand| !stand.across);
                let [first, .., last_one] = ring[..] else { panic!("nails") };
                let ends_at = last.breast - behind;
                for end in [first, last_one] {
                    assert!((end.head.x - ends_at).abs() < 1e-6, "{size}: it ends at {}", end.head.x);
                }
                // Three across, in quarters of the way between the ends.
                for (n, stand) in across.iter().enumerate() {
                    let share = f64::from(u32::try_from(n).expect("few") + 1) / 4.0;
                    let y = first.head.y + (last_one.head.y - first.head.y) * share;
                    assert!((stand.head.x - ends_at).abs() < 1e-9 && (stand.head.y - y).abs() < 1e-6, "{size}: {n}");
                }
                assert_eq!(across.len(), 3);
                let back = ring.iter().map(|stand| stand.head.x).fold(f64::MAX, f64::min);
                assert!(back < inside + 2.0, "one stands near the back: {back}");
            });
        }
    }
}

/// A later stage has one nail less, each in the middle between two of the stage before.
#[test]
fn a_later_stage_stands_in_the_middles() {
    let staged = "stage 1 { wedges; lifts 1; lengths 8/8 in }; stage 2 { lifts 1; lengths 8/8 in }";
    let heel = format!("  heel {{ nailed {{ {staged} }} }}");
    for size in ["6 C", "9 D", "14 EE"] {
        built(&trial("", &heel), size, |build| {
            let nails = build.heel_nails.as_ref().expect("nailed").as_ref().expect("built");
            let of = |stage: usize| -> Vec<&Stand> {
                let of_stage = nails.stands.iter().filter(|stand| stand.stage == Some(stage) && !stand.across);
                of_stage.collect()
            };
            let (first, second) = (of(0), of(1));
            assert_eq!(first.len(), second.len() + 1, "{size}");
            for (pair, middle) in first.windows(2).zip(&second) {
                let [a, b] = [0, 1].map(|n| pair[n].head.distance(middle.head));
                // Chords of a curve: the two differ as its halves bend differently.
                assert!((a - b).abs() < 0.05, "{size}: {a} and {b}");
            }
        });
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

/// `c = L + s - T`: a head that is sunk brings the point as much farther out, so that both ends of the window come down.
#[test]
fn a_sunk_head_asks_for_a_shorter_nail() {
    let windows = |memory: &Memory| {
        built(memory, "9 D", |build| {
            let waist = build.waist.as_ref().expect("nailed").as_ref().expect("built");
            waist.nails.iter().map(|nail| (nail.window, nail.length)).collect::<Vec<_>>()
        })
    };
    let plain = windows(&trial("", ""));
    for sunk in [0.25, 0.75, 1.5, 3.0] {
        let lengths = "4/8, 4.5/8, 5/8, 5.5/8, 6/8, 7/8 in";
        let stock = format!("nail sprig {{ lengths {lengths}; shank 1.8 mm; sunk {sunk} mm; clinches }}");
        let sunken = windows(&trial(&stock, "  bottom { waist nailed { with sprig } }"));
        assert_eq!(sunken.len(), plain.len());
        for ((window, length), (before, _)) in sunken.iter().zip(&plain) {
            let (least, most) = (before.lo - sunk, before.hi - sunk);
            assert!((window.lo - least).abs() < 1e-9 && (window.hi - most).abs() < 1e-9, "{sunk} mm");
            let wanted = CLINCHING.iter().find(|length| least <= **length && **length <= most);
            assert_eq!(length.is_some(), wanted.is_some(), "{sunk} mm");
            length.iter().zip(wanted).for_each(|(found, wanted)| assert!((found - wanted).abs() < 1e-9));
        }
    }
}

#[test]
fn each_end_of_a_line_has_a_nail_however_far_they_stand() {
    for apart in [12.0, 60.0, 150.0] {
        let line = format!("with clinching; inside-feather 10 mm; apart {apart} mm");
        let seat = "seat nailed { with clinching; inside-feather 10 mm; apart 12 mm }";
        built(&trial("", &format!("  bottom {{ waist nailed {{ {line} }}; {seat} }}")), "9 D", |build| {
            let nails = build.waist.as_ref().expect("nailed").as_ref().expect("built");
            assert_eq!(nails.nails.len(), nails.counts.0 + nails.counts.1);
            let last = build.last.as_ref().expect("a last");
            let rail = Rail::constant(&last.feather, -10.0);
            for (side, joint, count, spacing) in [
                (Side::Outside, last.joint_outside, nails.counts.0, nails.spacing.0),
                (Side::Inside, last.joint_inside, nails.counts.1, nails.spacing.1),
            ] {
                let mut stations: Vec<f64> =
                    nails.nails.iter().filter(|nail| nail.side == side).map(|nail| nail.point.x).collect();
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
            assert_eq!(nails.nails.len(), 2 * each, "to {to}");
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
        let stock = format!("nail sprig {{ lengths {length}, 40 mm; shank 1.8 mm; clinches }}");
        let memory = trial(&stock, &format!("  bottom {{ waist nailed {{ with sprig; length {length} mm }} }}"));
        let loaded = memory.load(&[trial::TRIAL]);
        built(&memory, "9 D", |build| {
            let nails = build.waist.as_ref().expect("nailed").as_ref().expect("built");
            assert_eq!(loaded.sources.slice(nails.length_origin.span), format!("{length} mm"), "where it is stated");
            let judgements = judged(build, "waist/clinch");
            let judged = judgements.iter().find(|it| it.subject == Subject::WAIST_NAILS).expect("the waist is judged");
            // The filler runs out under the first nails: one of them, or one of those ahead of it, is worst.
            let margins = nails.nails.iter().map(|nail| (length - nail.window.lo).min(nail.window.hi - length));
            let least_margin = margins.fold(f64::MAX, f64::min);
            let worst = &nails.nails[nails.worst];
            let (over, under) = (length - worst.window.lo, worst.window.hi - length);
            assert!((over.min(under) - least_margin).abs() < 1e-9, "{length} mm");
            assert!((judged.margin - least_margin).abs() < 1e-9, "{length} mm");
            let (limit, terms) =
                if over < under { (worst.window.lo, &nails.thickest) } else { (worst.window.hi, &nails.thinnest) };
            if over < under {
                least += 1;
            } else {
                most += 1;
            }
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
            let waist = all.iter().find(|it| it.subject == Subject::WAIST_NAILS).expect("it is judged");
            assert_eq!(waist.facts.is_empty(), !stand, "{breadth}: {:?}", waist.facts);
            assert_eq!(waist.levers.is_empty(), !stand, "{breadth}");
        });
    }
}

/// The findings of a trial by one rule, refused or tight.
fn refusals(memory: &Memory, rule: &str) -> Vec<String> {
    let (_, checked) = memory.check(&[trial::TRIAL], &Only("9 D"));
    let wrong = checked.findings.iter().filter(|it| it.severity == Severity::Refused && it.name == rule);
    wrong.map(|it| it.message.clone()).collect()
}

/// Rubber holds no nail: the bite is looked for in the leather above it.
#[test]
fn a_rubber_midsole_is_no_leather_to_bite_in() {
    let stock = "rubber sheet { thickness 6.35 mm +- 0.2646 mm }";
    let model = "  bottom { layer midsole { of sheet } }";
    // 19.05 of base less what the wedge takes, 6.35 of rubber, 5 of bite; the nail reaches 25.35.
    assert!(!refusals(&trial(stock, model), "heel/nail-hold").is_empty());
    assert!(refusals(&trial(stock, ""), "heel/nail-hold").is_empty());
}

/// Lugs lie under the base as soon as the outsole goes under it, however little; buffed off, they don't.
#[test]
fn lugs_are_under_the_base_when_the_outsole_is_tucked() {
    for (says, refused) in [
        ("ends tucked 25 mm", true),
        ("ends tucked 1 mm", true),
        ("ends tucked 0 mm", false),
        ("ends tucked 25 mm; lugs-off", false),
        ("ends full; lugs-off", false),
    ] {
        let found = refusals(&trial("", &format!("  bottom {{ layer outsole {{ {says} }} }}")), "heel/lugs-under-base");
        assert_eq!(!found.is_empty(), refused, "{says}: {found:?}");
    }
}

/// A length by place must begin at the back; a place that is left out takes the length of the place behind it.
#[test]
fn a_place_left_out_takes_the_length_behind_it() {
    let lengths = |said: &str| {
        built(&trial("", &format!("  heel {{ nailed {{ base heel-nail {said} }} }}")), "9 D", |build| {
            let nails = build.heel_nails.as_ref().expect("nailed").as_ref().expect("built");
            nails.nails.iter().map(|nail| (nail.place, (nail.length / EIGHTH * 1e6).round() / 1e6)).collect::<Vec<_>>()
        })
    };
    let all =
        |back: f64, sides: f64, breast: f64| vec![(Place::Back, back), (Place::Sides, sides), (Place::Breast, breast)];
    assert_eq!(lengths("back 8/8 in"), all(8.0, 8.0, 8.0));
    assert_eq!(lengths("back 8/8 in, breast 7/8 in"), all(8.0, 8.0, 7.0));
    assert_eq!(lengths("back 8/8 in, sides 7/8 in"), all(8.0, 7.0, 7.0));
    // Written for the back alone, an inch all round comes through at the breast.
    let back = trial("", "  heel { nailed { base heel-nail back 8/8 in } }");
    let whole = trial("", "  heel { nailed { base heel-nail 8/8 in } }");
    let refused = refusals(&back, "heel/nail-point");
    assert!(!refused.is_empty() && refused == refusals(&whole, "heel/nail-point"), "{refused:?}");
}

/// A half lining counts as far as it reaches: at the seat it is not there.
#[test]
fn a_half_lining_does_not_lie_at_the_seat() {
    let windows = |upper: &str| {
        built(&trial("", upper), "9 D", |build| {
            let of = |line: &Option<Result<NailsBuilt, Hole>>| {
                let line = line.as_ref().expect("nailed").as_ref().expect("built");
                line.nails.iter().map(|nail| nail.window).collect::<Vec<_>>()
            };
            (of(&build.waist), of(&build.seat))
        })
    };
    let whole = windows("");
    let half = windows("  upper { without lasted-in quarter-lining; lasted-in vamp-lining to 45 % }");
    let ounce = 25.4 / 64.0;
    for (with, without) in whole.1.iter().zip(&half.1) {
        assert!((with.lo - without.lo - 3.0 * ounce).abs() < 1e-9 && (with.hi - without.hi - 2.5 * ounce).abs() < 1e-9);
    }
    // The first waist nail stands behind 45 %, the last ahead of it.
    let (first, last) = (0, 7);
    assert!((whole.0[first].hi - half.0[first].hi - 2.5 * ounce).abs() < 1e-9);
    assert!((whole.0[last].hi - half.0[last].hi).abs() < 1e-9);
}
