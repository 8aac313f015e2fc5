//! Lines of clinch nails: tacks that are left in and the nails that are driven down on them; lines that are too far inside.

use crate::common::memory::{Memory, Only};
use crate::common::trial::{self, built, trial};
use hobnail::build::{Built, Meets, NailsBuilt};
use hobnail::finding::Severity;
use hobnail::geometry::Path;

fn refusals(memory: &Memory, rule: &str) -> Vec<String> {
    let (_, checked) = trial::check(memory, &Only("9 D"));
    let wrong = checked.findings.iter().filter(|it| it.severity == Severity::Refused && it.name == rule);
    wrong.map(|it| it.message.clone()).collect()
}

fn line(built: Option<&Built<NailsBuilt>>) -> &NailsBuilt {
    built.expect("it is nailed").as_ref().expect("it is built")
}

/// The clinch nails of the seat are driven down on tacks that are left in: 4 mm from each other, as the house wants it of
/// heel nails. Worked out by Pythagoras from the places of both.
#[test]
fn tacks_left_in_and_seat_nails_stand_clear_of_each_other() {
    let (mut short, mut clear) = (0, 0);
    for tacks in ["", " inside-feather 8 mm", " inside-feather 10 mm", " inside-feather 12 mm", " inside-feather 14 mm"]
    {
        for seat in [10, 12] {
            let seat = format!("seat nailed {{ with clinching;  inside-feather {seat} mm;  apart 11 mm }}");
            let differs = format!("  bottom {{ {seat} }}\n  lasting {{ tacks 10 mm left 3.5/8 in{tacks} }}");
            let memory = trial("", &differs);
            let nearest = built(&memory, "9 D", |build| {
                let mut nearest = f64::INFINITY;
                for tack in &line(build.tacks.as_ref()).nails {
                    for nail in &line(build.seat.as_ref()).nails {
                        let (x, y) = (tack.point.x - nail.point.x, tack.point.y - nail.point.y);
                        nearest = nearest.min((x * x + y * y).sqrt());
                    }
                }
                nearest
            });
            let said = refusals(&memory, "heel/nail-place");
            let said: Vec<&String> = said.iter().filter(|it| it.contains("tacks left in and seat nails")).collect();
            let wanted = nearest < 4.0 - 1e-6;
            assert_eq!(said.len(), usize::from(wanted), "{differs}: {nearest} mm, {said:?}");
            for words in said {
                let number = words.split_once(" stand ").and_then(|it| it.1.split_once(" mm")).expect("it is said").0;
                let number: f64 = number.parse().expect("a number");
                assert!((number - nearest).abs() <= 0.05, "{nearest}: {words}");
            }
            if wanted { short += 1 } else { clear += 1 }
        }
    }
    assert!(short >= 4 && clear >= 1, "{short} short, {clear} clear");
}

/// Half of what the bottom measures across, in its waist or at its seat: farther in there is no line on both sides. What is
/// left is in two pieces, or nothing, and that is said as it is of a row.
#[test]
fn a_line_of_nails_that_is_cut_in_two_is_said() {
    let narrowest = built(&trial("", ""), "9 D", |build| {
        let last = build.last.as_ref().expect("last");
        let to = last.joint_inside.min(last.joint_outside) - 10.0;
        let steps = (0..=100).map(|n| last.breast + (to - last.breast) * f64::from(n) / 100.0);
        let across = steps.filter_map(|x| last.feather.breadth_at(x)).map(|at| at.inside + at.outside);
        across.fold(f64::INFINITY, f64::min)
    });
    assert!(narrowest > 40.0 && narrowest < 90.0, "{narrowest}");
    let mut lost = 0;
    for inset in [12, 20, 28, 32, 36, 40, 44, 48, 50] {
        let waist = format!("waist nailed {{ with clinching;  inside-feather {inset} mm;  apart 12 mm }}");
        let seat = format!("seat nailed {{ with clinching;  inside-feather {inset} mm;  apart 11 mm }}");
        for (subject, nailed) in [("waist nails", waist), ("seat nails", seat)] {
            let memory = trial("", &format!("  bottom {{ {nailed} }}"));
            let there = built(&memory, "9 D", |build| {
                let line = if subject == "waist nails" { &build.waist } else { &build.seat };
                line.as_ref().expect("it is nailed").is_ok()
            });
            let said = refusals(&memory, "rows/no-line");
            let said = said.iter().filter(|it| it.contains(subject)).count();
            assert_eq!(said, usize::from(!there), "{subject} {inset} mm inside");
            lost += said;
            if subject == "waist nails" && 2.0 * f64::from(inset) > narrowest {
                assert!(!there, "nothing is {inset} mm inside a waist of {narrowest}");
            }
        }
    }
    assert!(lost >= 4, "{lost}");
}

/// A ring that is set out from the edge comes nearer to it where the turnout grows: the distance is to the edge itself, here
/// to the chords of its line.
#[test]
fn a_ring_inside_the_edge_tells_how_near_the_edge_is() {
    let mut nearer = 0;
    for inset in [5.0, 6.0, 8.0, 10.0] {
        let memory = trial("", &format!("  heel {{ nailed {{ inside-edge {inset} mm; behind-breast 12 mm }} }}"));
        let (told, worked_out) = built(&memory, "9 D", |build| {
            let nails = build.heel_nails.as_ref().expect("nailed").as_ref().expect("built");
            let (edge, last) = (&build.lines.as_ref().expect("lines").edge, build.last.as_ref().expect("last"));
            let line = edge.flatten(0.0, edge.period(), 0.0005);
            let to_chord = |at: kurbo::Point, ends: &[kurbo::Point]| {
                let (along, to) = (ends[1] - ends[0], at - ends[0]);
                let share = (along.dot(to) / along.hypot2().max(1e-12)).clamp(0.0, 1.0);
                at.distance(ends[0] + along * share)
            };
            let away = |at: kurbo::Point| {
                let round = line.windows(2).map(|ends| to_chord(at, ends)).fold(f64::INFINITY, f64::min);
                round.min(last.breast - at.x)
            };
            let near = nails.near.iter().find(|near| near.meets == Meets::Edge).expect("it is told");
            (near.distance, nails.stands.iter().map(|stand| away(stand.head)).fold(f64::INFINITY, f64::min))
        });
        assert!((told - worked_out).abs() < 0.002, "{inset}: {told}, worked out {worked_out}");
        nearer += i32::from(told < inset - 0.005);
    }
    assert!(nearer >= 2, "{nearer} come nearer than their inset");
}
