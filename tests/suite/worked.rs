//! The boot that docs/computation.md works by hand, against the tool: each number that is told there is the figure's.

use crate::common::memory::{Memory, Only};
use hobnail::build::{Datum, Figures};
use hobnail::geometry::{ClosedCurve, Rail};
use kurbo::{Point, Vec2};
use std::f64::consts::PI;

/// What the document says, with the figure's number at each mark, and the figure. A mark is a number of decimals;
/// `<` and `>` before it ask for the thin and the thick end.
const TOLD: &[(&str, &[&str])] = &[
    ("Edge guide 3.5 + 1 = {1}", &["sole.guide"]),
    ("| in the jaw | {<3} | {3} | {>3} |", &["stack.jaw", "stack.jaw", "stack.jaw"]),
    ("2.580 + 6.350 + 7.500 = {3}", &["stack.off-the-lap"]),
    ("The outer row is {2} long", &["sole.row-1.length"]),
    ("so {0} stitches of {3}", &["sole.row-1.stitches", "sole.row-1.pitch"]),
    ("from the needle: {2} m", &["sole.row-1.needle-thread"]),
    ("The second row is {2} long, {0}", &["sole.row-2.length", "sole.row-2.stitches"]),
    ("= {1} m. A bobbin holds", &["sole.thread-pair"]),
    ("1.14 / 350 = {2} m", &["sole.bobbin"]),
    ("0.7)) = {3}", &["sole.thread-diameter"]),
    ("249 / 5.076 = {1} N/mm", &["sole.strength"]),
    ("12.303 + 1.5 = {<2} to 11.046 + 5 =\n{>2}", &["waist.window", "waist.window"]),
    ("4.5/8 in = {2}", &["waist.length"]),
    ("Window {<2} to {>2}: 5.5/8 in = {2}", &["seat.window", "seat.window", "seat.length"]),
    ("{2} / (25.4 / 4.5)", &["forefoot.length"]),
    ("so {0} stitches of {3}; chainstitch", &["forefoot.stitches", "forefoot.true-pitch"]),
    ("+ 0.15 of tails = {2} m", &["forefoot.thread-used"]),
    ("Block at the back 20 + 7.5 - 2.580 = {2}", &["heel.block"]),
    ("base of {2} is needed", &["heel.needed"]),
    ("12 iron give {2}: {2} to sand", &["heel.given", "heel.sand-back"]),
    ("tan 3 deg = {2}", &["heel.drop"]),
    ("6.35 - 3.76 =\n{2} at the breast", &["heel.wedge-breast"]),
    ("24.92 + 6.35 = {2}, 1 1/4 in; at the breast {2}", &["heel.visible-back", "heel.visible-breast"]),
    ("Sink 2.13 + 1 = {2}", &["heel-nails.sink"]),
    ("+ 5 - 3.13 = {<2} at least", &["heel-nails.base-back-serves"]),
    ("2 - 3.13 = {>2} at most", &["heel-nails.base-back-serves"]),
    ("2.66 less each, {<2} to {>2} at the breast", &["heel-nails.base-breast-serves", "heel-nails.base-breast-serves"]),
    ("3.34 - 0.5 + 12.44 - 2 - 3.13 = {>2} at most", &["heel-nails.base-breast-serves"]),
    ("The breast takes 6.5/8 in = {2}", &["heel-nails.base-breast"]),
    (
        "{<2} to {>2}: 7/8 in = {2}",
        &["heel-nails.base-sides-serves", "heel-nails.base-sides-serves", "heel-nails.base-sides"],
    ),
    ("8.3 + 5 = {<2} to the block", &["heel-nails.cap-serves"]),
    ("0.70 = {>2}: 5/8 in = {2}", &["heel-nails.cap-serves", "heel-nails.cap-length"]),
    ("is {2} long: {0} nails, {2} apart", &["heel-nails.way", "heel-nails.count", "heel-nails.spacing"]),
    ("11 + 1 + 4 = {2} of its 24", &["lasting.margin-toe-needed"]),
    (
        "the heel {2} of 22; {2} and {2} are\nfree",
        &["lasting.margin-heel-needed", "lasting.margin-toe-free", "lasting.margin-heel-free"],
    ),
];

fn number(figures: &Figures, key: &str, mark: &str) -> String {
    let figure = figures.get(key).unwrap_or_else(|| panic!("there is no figure {key}"));
    let end = mark.trim_end_matches(|c: char| c.is_ascii_digit());
    let decimals: usize = mark.trim_start_matches(['<', '>']).parse().expect("a mark is a number of decimals");
    let value = match (&figure.datum, end) {
        (Datum::Number(value), "") => *value,
        (Datum::Count(count), "") => return count.to_string(),
        (Datum::Spread(spread), "") => spread.nominal,
        (Datum::Spread(spread), "<") => spread.lo,
        (Datum::Spread(spread), ">") => spread.hi,
        (Datum::Window(window), "<") => window.lo,
        (Datum::Window(window), ">") => window.hi,
        (datum, mark) => panic!("{key} has no `{mark}`: {datum:?}"),
    };
    format!("{value:.decimals$}")
}

fn filled(template: &str, keys: &[&str], figures: &Figures) -> String {
    let mut text = String::new();
    let mut keys = keys.iter();
    for (n, part) in template.split(['{', '}']).enumerate() {
        if n % 2 == 0 {
            text.push_str(part);
        } else {
            text.push_str(&number(figures, keys.next().expect("a figure for each mark"), part));
        }
    }
    text
}

/// One line, one space between words: how the document is wrapped says nothing.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_boot_worked_by_hand_is_the_tool_s() {
    let text =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/computation.md")).expect("it is there");
    let worked = flat(text.split("## A boot worked by hand").nth(1).expect("the section is there"));
    let (_, checked) = Memory::demo().check(&["specs/models/scree-8.hob"], &Only("9 D"));
    let sizes = checked.figured(&checked.models[0]);
    let mut missing = Vec::new();
    for (template, keys) in TOLD {
        let told = flat(&filled(template, keys, &sizes[0].figures));
        if !worked.contains(&told) {
            missing.push(told);
        }
    }
    assert_eq!(missing, Vec::<String>::new(), "the tool says so, the document does not");
}

/// Straight flanks that lean in by `lean` on both sides of an arc of radius `r`: a notch in the inside of a long block.
fn notched(r: f64, lean: f64) -> ClosedCurve {
    let (length, half) = (300.0, 45.0);
    let (middle, low) = (150.0, 20.0);
    // The arc turns from one flank to the other about (middle, low + r) and leaves it where it is as steep as they are.
    let knee = Vec2::new(r * lean.sin(), r * (1.0 - lean.cos()));
    let run = (half - low - knee.y) / lean.tan();
    let corners = [
        Point::new(0.0, 0.0),
        Point::new(0.0, -half),
        Point::new(length, -half),
        Point::new(length, half),
        Point::new(middle + knee.x + run, half),
        Point::new(middle + knee.x, low + knee.y),
    ];
    let mirrored =
        [Point::new(middle - knee.x, low + knee.y), Point::new(middle - knee.x - run, half), Point::new(0.0, half)];
    let mut points = Vec::new();
    let mut straight = |a: Point, b: Point| {
        let steps = (a.distance(b) / 0.05).ceil();
        points.extend((0..).map(f64::from).take_while(|i| *i < steps).map(|i| a.lerp(b, i / steps)));
    };
    corners.windows(2).for_each(|ends| straight(ends[0], ends[1]));
    let arc = |i: u32| {
        let angle = lean - 2.0 * lean * f64::from(i) / 200.0;
        Point::new(middle + r * angle.sin(), low + r * (1.0 - angle.cos()))
    };
    let round: Vec<Point> = (0..200).map(arc).collect();
    round.windows(2).for_each(|ends| straight(ends[0], ends[1]));
    straight(round[199], mirrored[0]);
    mirrored.windows(2).for_each(|ends| straight(ends[0], ends[1]));
    straight(mirrored[2], corners[0]);
    ClosedCurve::through(&points).expect("points apart")
}

/// Worked in the document by hand; here the tool's own line, on the normals of a curve through the same flanks and arc.
#[test]
fn the_row_at_a_notch_worked_by_hand_is_the_tool_s() {
    let text =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/computation.md")).expect("it is there");
    let worked = flat(text.split("**A row at a notch, by hand.**").nth(1).expect("the section is there"));
    let (r, lean, d) = (8.0, PI / 6.0, 11.171);
    let rail = Rail::constant(&notched(r, lean), d);
    let at_the_notch: Vec<_> = rail.cuts().iter().filter(|cut| (cut.point.x - 150.0).abs() < 1.0).collect();
    let [cut] = at_the_notch[..] else { panic!("{:?}", rail.cuts()) };
    // Where the flanks' own lines would meet: r / cos lean - r under the lowest place of the arc, which is at 20.
    let meet = Point::new(150.0, 20.0 + r - r / lean.cos());
    // The spline rounds the ends of the arc over a few hundredths, where it turns back by that much less.
    let by_hand = 2.0 * (d - r) * lean.tan() + (d - r) * 2.0 * lean;
    assert!((cut.length - by_hand).abs() < 0.03, "{} and {by_hand}", cut.length);
    let told = [
        format!("= {by_hand:.2} of it are cut off"),
        format!("turns by {:.0} degrees at once", cut.turn.abs().to_degrees()),
        format!("11.171 / cos 30 = {:.2} from where", cut.point.distance(meet)),
        format!("3.171 * tan 30 = {:.3}", (d - r) * lean.tan()),
        format!("that is {:.3}", (d - r) * 2.0 * lean),
    ];
    for told in told {
        assert!(worked.contains(&told), "the tool says `{told}`, the document does not");
    }
}
