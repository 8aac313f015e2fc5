//! Laps worked out again, plainly: random laps by changing the demo's text, each row's place, stack and what is left of
//! each part against the printed figures, and each verdict against plain arithmetic.

use crate::common::memory::{Memory, Only};
use crate::common::trial;
use hobnail::build::{Datum, Figures};
use hobnail::finding::Severity;
use hobnail::measure::Spread;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// A lap in hundredths of a mm: whole numbers, so that the text says exactly what is meant.
#[derive(Clone, Debug)]
struct Lap {
    wide: u32,
    rows: u32,
    first: u32,
    apart: u32,
    /// Width, what is left, tolerance: of the top part and of the one underneath.
    top: (u32, u32, u32),
    under: (u32, u32, u32),
}

fn laps() -> impl Strategy<Value = Lap> {
    let skive = || (100_u32..2_900, 30_u32..200, 0_u32..25);
    (600_u32..3_000, 1_u32..6, 50_u32..500, 100_u32..600, skive(), skive())
        .prop_map(|(wide, rows, first, apart, top, under)| Lap { wide, rows, first, apart, top, under })
}

fn mm(hundredths: u32) -> f64 {
    f64::from(hundredths) / 100.0
}

fn text(lap: &Lap) -> String {
    let skive = |name: &str, (wide, to, tolerance): (u32, u32, u32)| {
        format!("skive {name} {{ edge wide {} mm to {} mm +- {} mm }}", mm(wide), mm(to), mm(tolerance))
    };
    format!(
        "use \"../models/scree-8.hob\"\nupper-leather slab {{ substance 9..11 oz }}\nmodel lapped like scree-8 {{\n  revision 1\n  upper {{ part counter-cover {{ of slab }}; lap counter-cover over quarter {{ on flat-bed\n    \
         wide {} mm\n    {}\n    {}\n    rows {} first {} mm apart {} mm\n  }} }}\n}}\n",
        mm(lap.wide),
        skive("counter-cover", lap.top),
        skive("quarter", lap.under),
        lap.rows,
        mm(lap.first),
        mm(lap.apart),
    )
}

/// 6..7 oz, by 1/64 in: what the quarter is cut from.
const QUARTER: (f64, f64) = (6.0 * 25.4 / 64.0, 7.0 * 25.4 / 64.0);
/// 9..11 oz: the counter cover, thick enough for seams that the flat-bed does not sew.
const COVER: (f64, f64) = (9.0 * 25.4 / 64.0, 11.0 * 25.4 / 64.0);

/// Thin and thick end of a part at `x` from its own edge: a straight line from what is left there to the leather.
fn part(leather: (f64, f64), (wide, to, tolerance): (u32, u32, u32), x: f64) -> (f64, f64) {
    let (wide, to, tolerance) = (mm(wide), mm(to), mm(tolerance));
    if x >= wide {
        return leather;
    }
    let at = |edge: f64, leather: f64| edge + (leather - edge) * x / wide;
    (at(to - tolerance, leather.0), at(to + tolerance, leather.1))
}

fn spread(figures: &Figures, key: &str) -> Option<Spread> {
    figures.get(key).and_then(|figure| if let Datum::Spread(spread) = figure.datum { Some(spread) } else { None })
}

fn near(spread: Spread, (lo, hi): (f64, f64)) -> bool {
    let ends = [(spread.lo, lo), (spread.hi, hi), (spread.nominal, f64::midpoint(lo, hi))];
    ends.iter().all(|(a, b)| (a - b).abs() < 1e-9)
}

/// The rules that must refuse, by plain arithmetic.
fn plainly(lap: &Lap) -> BTreeSet<&'static str> {
    let mut refused = BTreeSet::new();
    let mut unless = |passes: bool, rule: &'static str| {
        if !passes {
            refused.insert(rule);
        }
    };
    let within = |value: f64, limit: f64| value <= limit + 1e-9;
    unless(within(mm(lap.under.1 + lap.under.2), 1.2), "upper/step");
    for k in 0..lap.rows {
        let x = mm(lap.first + k * lap.apart);
        let from_under = mm(lap.wide) - x;
        unless(within(2.0, x) && within(2.0, from_under), "upper/row-edge");
        let mut stack = part(COVER, lap.top, x);
        unless(x >= mm(lap.top.0) || within(1.0, stack.0), "upper/least-substance");
        if from_under > -1e-9 {
            let under = part(QUARTER, lap.under, from_under);
            unless(from_under >= mm(lap.under.0) || within(1.0, under.0), "upper/least-substance");
            stack = (stack.0 + under.0, stack.1 + under.1);
        }
        unless(within(f64::midpoint(stack.0, stack.1), 6.0), "upper/sews");
    }
    for (leather, skive) in [(COVER, lap.top), (QUARTER, lap.under)] {
        unless(skive.0 <= lap.wide || within(1.5, part(leather, skive, mm(lap.wide)).0), "upper/weakened");
    }
    refused
}

const RULES: [&str; 5] = ["upper/row-edge", "upper/sews", "upper/least-substance", "upper/step", "upper/weakened"];

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn each_row_is_where_it_is_and_as_thick_as_plain_arithmetic_says(lap in laps()) {
        let path = "specs/models/lapped.hob";
        let (_, checked) = Memory::demo().with(path, text(&lap)).check(&[path], &Only("9 D"));
        let lapped = checked.models.iter().find(|model| model.name == "lapped").expect("it is built");
        let figures = &checked.figured(lapped)[0].figures;
        for k in 0..lap.rows {
            let x = mm(lap.first + k * lap.apart);
            let from_under = mm(lap.wide) - x;
            let key = |what: &str| format!("lap.counter-cover.quarter.row-{}.{what}", k + 1);
            let (top, under) = (part(COVER, lap.top, x), part(QUARTER, lap.under, from_under.max(0.0)));
            let under = if from_under < -1e-9 { (0.0, 0.0) } else { under };
            let stack = spread(figures, &key("stack")).expect("a row has a stack");
            prop_assert!(near(stack, (top.0 + under.0, top.1 + under.1)), "row {}: {stack:?}, {top:?} {under:?}", k + 1);
            if let Some(left) = spread(figures, &key("left-counter-cover")) {
                prop_assert!(near(left, top));
            }
            if let Some(left) = spread(figures, &key("left-quarter")) {
                prop_assert!(near(left, under));
            }
        }
    }

    #[test]
    fn each_rule_refuses_what_plain_arithmetic_refuses(lap in laps()) {
        let path = "specs/models/lapped.hob";
        let (_, checked) = Memory::demo().with(path, text(&lap)).check(&[path], &Only("9 D"));
        let refuses = |rule: &&str| {
            checked.findings.iter().any(|finding| finding.name == *rule && finding.severity == Severity::Refused)
        };
        let found: BTreeSet<&str> = RULES.into_iter().filter(refuses).collect();
        prop_assert_eq!(found, plainly(&lap), "{:?}", lap);
    }
}

/// The place that is shown is that of the sum that is shown: at nominal where it refuses, else at the thick end.
#[test]
fn where_the_stack_is_tallest_depends_on_which_end_is_asked() {
    // Off the lap 2.58 + 1.1 of slip, which lies in the forepart only; in the lap 2.58 + 1.0 +- 0.25.
    for (midsole, verdict, in_lap) in [(7.5, "tight", true), (8.5, "refused", false)] {
        let stock = format!("sole-leather card {{ substances {midsole} mm }}\nrubber film {{ thickness 1.1 mm }}");
        let bottom = format!(
            "layer midsole {{ of card {midsole} mm }}; layer slip {{ of film; covers forepart; bonded neoprene }}"
        );
        let memory = trial::trial(&stock, &format!("  bottom {{ {bottom} }}"));
        let judgements = trial::built(&memory, "9 D", |build| trial::judged(build, "jaw/sole-stack"));
        let judged = &judgements[0];
        assert_eq!(judged.verdict.name(), verdict, "{midsole} mm");
        let place = judged.place.as_ref().expect("a place").to_string();
        assert_eq!(place.contains("laps"), in_lap, "{midsole} mm: {place}");
    }
}
