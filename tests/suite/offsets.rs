//! Boots whose lines have to be trimmed: one on a last with a notch in its waist, one with a pointed toe. What is right was
//! worked out with `SciPy` and Shapely (`reference/offsets.py`, on outlines of `reference/curves.py`).
#![allow(clippy::cast_precision_loss, reason = "stitches are counted in hundreds")]

use crate::common::case;
use crate::common::memory::{Memory, Only};
use crate::common::printed::{Wanted, print_of};
use hobnail::build::{Datum, Figures, Plan};
use hobnail::finding::{Finding, Severity};
use hobnail::sheets::Station;
use hobnail::sheets::paper::Op;
use kurbo::Point;
use std::fs;

const OUTLINES: &str = include_str!("../reference/curves.csv");
const LINES: &str = include_str!("../reference/offsets.csv");
const MODEL: &str = "specs/models/trimmed.hob";
const BOTTOM: f64 = 276.0;

/// An outline of the table, as stations are written.
fn stations(outline: &str) -> String {
    let stations = OUTLINES.lines().filter_map(|line| {
        let fields: Vec<&str> = line.split(',').collect();
        let number = |n: usize| fields[n].parse::<f64>().expect("a number");
        (fields[0] == outline && fields[1] == "station").then(|| {
            format!("    at {:.9} % inside {} mm outside {} mm\n", number(2) / BOTTOM * 100.0, number(3), number(4))
        })
    });
    stations.collect()
}

/// A scree on a last with an outline of the table, its forefoot row as far inside as is said.
fn boot(outline: &str, inside_feather: &str) -> String {
    let stations = stations(outline);
    format!(
        "use \"scree-8.hob\"\n
         last trimmed {{
           base us-men 9 D
           stick 283 mm;  bottom {BOTTOM} mm;  ball 248 mm
           joints inside 70 % outside 62 %
           breast 26 %
           seat 20 mm slope 3 deg;  spring 11 mm
           plate full
           made us-men 5..15 by 1/2 widths B, C, D, E, EE
           grade size  {{ stick 1/3 in;  ball 1/4 in;  tread 1/12 in;  seat-breadth 1/16 in }}
           grade width {{ ball 1/4 in;  tread 1/12 in;  seat-breadth 1/16 in }}
           outline {{\n{stations}}}
         }}
         model trimmed like scree-8 {{
           revision 1
           last trimmed
           bottom {{ forefoot sewn {{ inside-feather {inside_feather} }} }}
         }}\n"
    )
}

struct Line {
    name: &'static str,
    left: f64,
    looped: f64,
    stitches: u32,
}

fn lines_of(outline: &str) -> Vec<Line> {
    let of = |line: &'static str| {
        let fields: Vec<&'static str> = line.split(',').collect();
        let number = |n: usize| fields[n].parse::<f64>().expect("a number");
        let stitches = fields[5].parse().expect("a count");
        (fields[0] == outline).then(|| Line { name: fields[1], left: number(3), looped: number(4), stitches })
    };
    LINES.lines().filter_map(of).collect()
}

fn checked(outline: &str, inside_feather: &str) -> (Figures, Vec<Finding>) {
    let memory = Memory::demo().with(MODEL, boot(outline, inside_feather));
    let (_, checked) = memory.check(&[MODEL], &Only("9 D"));
    let faults: Vec<&Finding> = checked.findings.iter().filter(|found| found.severity == Severity::Fault).collect();
    assert!(faults.is_empty(), "{faults:?}");
    let model = checked.models.iter().find(|model| &*model.name == "trimmed").expect("the boot");
    (checked.figured(model).remove(0).figures, checked.findings.clone())
}

fn number(figures: &Figures, key: &str) -> f64 {
    match &figures.get(key).unwrap_or_else(|| panic!("no {key}")).datum {
        Datum::Number(value) => *value,
        Datum::Count(count) => *count as f64,
        other => panic!("{key} is {other:?}"),
    }
}

fn near(got: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: {got}, not {expected}");
}

#[test]
fn rows_are_as_long_as_shapely_leaves_them() {
    let mut trimmed = 0;
    for outline in ["notched", "pointed"] {
        for line in lines_of(outline) {
            let inset = line.name.strip_prefix("forefoot-");
            let (figures, findings) = checked(outline, &format!("{} mm", inset.unwrap_or("5")));
            let key = if inset.is_some() { "forefoot".to_owned() } else { format!("sole.{}", line.name) };
            let what = format!("{outline} {}", line.name);
            near(number(&figures, &format!("{key}.length")), line.left, 2e-5 * line.left, &what);
            near(number(&figures, &format!("{key}.stitches")), f64::from(line.stitches), 0.0, &what);
            let cut = line.looped - line.left;
            let subject = if inset.is_some() { "forefoot row" } else { line.name };
            let noted: Vec<&Finding> = findings
                .iter()
                .filter(|found| {
                    found.name == "rows/corner" && found.subject().replace("sole row ", "row-").contains(subject)
                })
                .collect();
            assert_eq!(noted.len(), usize::from(cut > 0.005), "{what}: {noted:?}");
            for found in noted {
                assert_eq!(found.severity, Severity::Note, "{what}");
                near(found.measured.as_ref().expect("a note has numbers").sum, cut, 0.01, &what);
                trimmed += 1;
            }
        }
    }
    assert_eq!(trimmed, 7);
}

#[test]
fn a_forefoot_row_farther_inside_is_never_longer_until_there_is_none() {
    let mut before = f64::INFINITY;
    for inset in [5, 8, 12, 16, 20, 24, 28] {
        let (figures, _) = checked("pointed", &format!("{inset} mm"));
        let length = number(&figures, "forefoot.length");
        assert!(length < before, "{inset}: {length} after {before}");
        before = length;
    }
    // No place is 50 mm inside a bottom that is 84 broad: nothing is left, and that is said.
    let (figures, findings) = checked("pointed", "50 mm");
    assert!(figures.get("forefoot.length").is_none());
    let said = |found: &&Finding| found.severity == Severity::Refused && found.name == "rows/no-line";
    assert_eq!(findings.iter().filter(said).count(), 1, "{findings:?}");
}

/// Chords of a drawn line that cross each other: neighbours share an end.
fn crossings(line: &[Point]) -> usize {
    let chords: Vec<&[Point]> = line.windows(2).filter(|ends| ends[0] != ends[1]).collect();
    // The end of a closed line is its start, but for rounding.
    let closed = line.first().zip(line.last()).is_some_and(|(a, b)| a.distance(*b) < 1e-6);
    let mut count = 0;
    for (i, a) in chords.iter().enumerate() {
        for (j, b) in chords.iter().enumerate().skip(i + 2) {
            if closed && i == 0 && j == chords.len() - 1 {
                continue;
            }
            let side = |p: &[Point], q: Point| (p[1] - p[0]).cross(q - p[0]);
            let parted = |p: &[Point], q: &[Point]| side(p, q[0]) * side(p, q[1]) < 0.0;
            count += usize::from(parted(a, b) && parted(b, a));
        }
    }
    count
}

#[test]
fn templates_show_no_loop() {
    for outline in ["notched", "pointed"] {
        let shop = case().demo().bytes(MODEL, boot(outline, "10 mm").as_bytes());
        let asked =
            ["templates", MODEL, "--size", "9 D", "--foot", "right", "--kind", "svg", "--out", "out", "--force"];
        let ran = shop.run(&asked);
        let names = fs::read_dir(shop.path("out")).unwrap_or_else(|_| panic!("{}", ran.error));
        let mut lines = 0;
        for path in names.map(|entry| entry.expect("an entry").path()) {
            let text = fs::read_to_string(&path).expect("the drawing");
            for drawn in text.lines().filter_map(|line| line.split(" d=\"M").nth(1)?.split('"').next()) {
                let place = |text: &str| {
                    let (x, y) = text.split_once(' ')?;
                    Some(Point::new(x.parse().ok()?, y.parse().ok()?))
                };
                let Some(points) = drawn.trim_end_matches('Z').split('L').map(place).collect::<Option<Vec<_>>>() else {
                    continue;
                };
                assert_eq!(crossings(&points), 0, "{}: {:?}", path.display(), points.first());
                lines += usize::from(points.len() > 50);
            }
        }
        assert!(lines >= 6, "{outline}: {lines} long lines");
    }
}

#[test]
fn drawings_show_no_loop() {
    let demo = Memory::demo();
    let (before, outline) = demo.text("specs/lasts/teller.hob").split_once("outline {").expect("its outline");
    let (_, after) = outline.split_once('}').expect("its end");
    for outline in ["notched", "pointed"] {
        let last = format!("{before}outline {{\n{}}}{after}", stations(outline));
        let shop = demo.with("specs/lasts/teller.hob", last);
        let at = [Station::Bottoming, Station::SoleStitching, Station::Heeling];
        let wanted = Wanted { stations: &at, ..Wanted::default() };
        let mut lines = 0;
        for printed in print_of(&shop, &Only("9 D"), &wanted).iter().filter(|printed| printed.name != "muster-10") {
            for op in printed.laid.document.pages.iter().flat_map(|page| &page.ops) {
                let Op::Polyline { points, .. } = op else { continue };
                // The bottom's lines are long; what has few points is a tick, a frame or a profile.
                if points.len() <= 50 {
                    continue;
                }
                let points: Vec<Point> = points.iter().map(|p| Point::new(p.x, p.y)).collect();
                assert_eq!(crossings(&points), 0, "{} on {outline}: {:?}", printed.name, points.first());
                lines += 1;
            }
        }
        assert!(lines >= 10, "{outline}: {lines} long lines");
    }
}

/// The edge's direction by chords of a hundredth of a mm: nowhere does it turn by more than the bend of the last allows.
#[test]
fn the_finished_edge_has_no_corner() {
    use hobnail::geometry::Path as _;
    let (memory, model) = (Memory::demo(), "specs/models/scree-8.hob");
    let (_, checked) = memory.check(&[model], &Only("9 D"));
    let model = &checked.models[0];
    let world = &checked.worlds[model.place.0];
    let plan = Plan::new(&world.models[model.place.1], world.shop.as_ref().expect("the demo has a shop"));
    let edge = plan.build(model.sizes[0].size).lines.expect("its lines").edge;
    let way = |t: f64| edge.motion(t).velocity.atan2();
    let step = 0.01;
    let mut most = 0.0_f64;
    let mut t = 0.0;
    while t < edge.period() {
        let turned = way(t + step) - way(t);
        let turned = (turned + std::f64::consts::PI).rem_euclid(2.0 * std::f64::consts::PI) - std::f64::consts::PI;
        most = most.max(turned.abs());
        t += step;
    }
    // The fair step bends by 6 * 7 / 25² a mm at most, the last itself by less; a straight blend turned by 0.27 at once.
    assert!(most < 0.12 * step, "{most}");
}
