//! What is hatched alike is of one material: a layer's hatch in every drawing goes by the stock that it is of, not by what it is
//! called.
//!
//! Which material each layer is of is listed here by hand from the texts of the models; the drawings are read back from the
//! pages.

use crate::common::memory::{Memory, Only};
use crate::common::printed::{Printed, Wanted, print_of};
use hobnail::sheets::paper::{Hatch, Op, Point, Style};
use std::collections::BTreeMap;

const SCREE: &str = "specs/models/scree-8.hob";
const STOCK: &str = "specs/stock.hob";
const MIDSOLE: &str = "layer midsole { of bend 12 iron;";
const OUTSOLE: &str = "layer outsole { of lug-low;          ends at-breast;";

const SECTION: &str = "Section where the stack is tallest";
const NAIL: &str = "Nail with least to spare";
const HEEL: &str = "Heel from the side";

/// The everyday boot with other texts in it, of a stock that has sheet rubber for treads.
fn edited(edits: &[(&str, &str)]) -> Printed {
    let demo = Memory::demo();
    let stock = format!("{}\nrubber tread {{ thickness 6 mm }}\n", demo.text(STOCK));
    let mut text = demo.text(SCREE).to_owned();
    for (old, new) in edits {
        assert!(text.contains(old), "the demo is written otherwise");
        text = text.replace(old, new);
    }
    let shop = demo.with(STOCK, stock).with(SCREE, text);
    let printed = print_of(&shop, &Only("9 D"), &Wanted::default());
    printed.into_iter().find(|printed| printed.name == "scree-8").expect("the boot is printed")
}

fn boot(midsole: &str, outsole: &str) -> Printed {
    edited(&[(MIDSOLE, midsole), (OUTSOLE, outsole)])
}

/// What is drawn from a title on, up to the next one.
fn drawing<'p>(printed: &'p Printed, title: &str) -> Vec<&'p Op> {
    let titled = |op: &Op| match op {
        Op::Text(text) if text.style == Style::Bold && text.content.contains(" : ") => Some(text.content.clone()),
        _ => None,
    };
    let starts = |op: &Op| titled(op).is_some_and(|said| said.starts_with(title));
    let page = printed.laid.document.pages.iter().find(|page| page.ops.iter().any(starts));
    let ops = page.unwrap_or_else(|| panic!("no drawing {title}")).ops.iter().skip_while(|op| !starts(op));
    let mut ops = ops.peekable();
    let first: Vec<&Op> = ops.next().into_iter().collect();
    first.into_iter().chain(ops.take_while(|op| titled(op).is_none())).collect()
}

fn near(a: Point, b: Point, by: f64) -> bool {
    (a.x - b.x).abs() < by && (a.y - b.y).abs() < 0.01
}

/// The label of each hatched piece that has one, and its hatch: a leader runs from the middle of a side to the words.
fn labelled(printed: &Printed, title: &str) -> BTreeMap<String, Hatch> {
    let ops = drawing(printed, title);
    let leaders = ops.iter().filter_map(|op| match op {
        Op::Line { from, to, .. } => Some((*from, *to)),
        Op::Polyline { points, .. } => Some((points[0], points[points.len() - 1])),
        _ => None,
    });
    let leaders: Vec<(Point, Point)> = leaders.collect();
    let said = |side: Point| {
        let mut ends = leaders.iter().filter(|(from, _)| near(*from, side, 1.2)).map(|(_, to)| *to);
        let texts = |end: Point| {
            ops.iter().find_map(|op| match op {
                Op::Text(text) if near(text.at, Point::new(end.x, end.y + 1.1), 1.2) => Some(text.content.clone()),
                _ => None,
            })
        };
        ends.find_map(texts)
    };
    let middle = |a: Point, b: Point| Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y));
    let of_piece = |op: &&Op| {
        let Op::Hatched { rings, hatch, .. } = op else { return None };
        let [ring] = &rings[..] else { return None };
        let [a, b, c, d] = ring[..] else { return None };
        Some((said(middle(b, c)).or_else(|| said(middle(a, d)))?, *hatch))
    };
    ops.iter().filter_map(of_piece).collect()
}

/// The hatch of the piece whose label begins with a word.
fn hatch_of(labelled: &BTreeMap<String, Hatch>, word: &str) -> Option<Hatch> {
    let of = |said: &str| said == word || said.strip_prefix(word).is_some_and(|rest| rest.starts_with([' ', '…']));
    labelled.iter().find(|(said, _)| of(said)).map(|(_, hatch)| *hatch)
}

/// What the boot has in all cases: shoulder, bend, sheet rubber, oil-tan in parts and filler, lifts of leather, a cap of rubber.
const ALWAYS: [(&str, Hatch); 8] = [
    ("insole", Hatch::SoleLeather),
    ("shank", Hatch::SoleLeather),
    ("pad", Hatch::Rubber),
    ("filler", Hatch::UpperLeather),
    ("vamp", Hatch::UpperLeather),
    ("quarter", Hatch::UpperLeather),
    ("wedge", Hatch::SoleLeather),
    ("cap", Hatch::Rubber),
];

/// Checks all three drawings against a list; each word of it is found in those that are named.
fn check(printed: &Printed, list: &[(&str, Hatch, &[&str])]) {
    let drawn = [SECTION, NAIL, HEEL].map(|title| (title, labelled(printed, title)));
    for (title, labelled) in &drawn {
        for (word, hatch) in ALWAYS {
            let found = hatch_of(labelled, word);
            assert!(found.is_none_or(|found| found == hatch), "{title}: {word} is {found:?} in {labelled:?}");
        }
        for (word, hatch, wanted) in list {
            let found = hatch_of(labelled, word);
            let right =
                if wanted.contains(title) { found == Some(*hatch) } else { found.is_none_or(|it| it == *hatch) };
            assert!(right, "{title}: {word} is {found:?}, not {hatch:?}, in {labelled:?}");
        }
    }
    // The same layer looks the same wherever it is cut.
    let [(_, stack), (_, nail), (_, heel)] = &drawn;
    let mut compared = 0;
    for (word, ..) in list {
        for other in [nail, heel] {
            let both = (hatch_of(stack, word), hatch_of(other, word));
            if let (Some(one), Some(other)) = both {
                assert_eq!(one, other, "{word}");
                compared += 1;
            }
        }
    }
    assert!(compared >= 2, "only {compared} layers are in the stack and in the heel");
}

#[test]
fn a_moulded_outsole_is_hatched_as_rubber_and_lugs() {
    let printed = boot(MIDSOLE, OUTSOLE);
    check(
        &printed,
        &[
            ("midsole", Hatch::SoleLeather, &[SECTION, NAIL, HEEL]),
            ("outsole base", Hatch::Rubber, &[SECTION]),
            ("outsole lug", Hatch::LugRubber, &[SECTION]),
        ],
    );
    let labelled = labelled(&printed, NAIL);
    assert_eq!(hatch_of(&labelled, "insole"), Some(Hatch::SoleLeather), "{labelled:?}");
}

#[test]
fn a_leather_outsole_is_hatched_as_leather() {
    check(
        &boot(MIDSOLE, "layer outsole { of bend 10 iron;"),
        &[
            ("midsole", Hatch::SoleLeather, &[SECTION, NAIL, HEEL]),
            ("outsole", Hatch::SoleLeather, &[SECTION, NAIL, HEEL]),
        ],
    );
}

#[test]
fn an_outsole_of_sheet_rubber_is_hatched_as_rubber() {
    check(
        &boot(MIDSOLE, "layer outsole { of tread;"),
        &[("midsole", Hatch::SoleLeather, &[SECTION, NAIL, HEEL]), ("outsole", Hatch::Rubber, &[SECTION, NAIL, HEEL])],
    );
}

#[test]
fn a_rubber_midsole_is_hatched_as_rubber() {
    check(
        &boot("layer midsole { of slip-sheet;", "layer outsole { of bend 10 iron;"),
        &[("midsole", Hatch::Rubber, &[SECTION, NAIL, HEEL]), ("outsole", Hatch::SoleLeather, &[SECTION, NAIL, HEEL])],
    );
}

/// An outsole that runs to the back has the nail with least to spare where shank and pad are, which nobody calls soles.
#[test]
fn a_shank_is_hatched_by_its_stock_too() {
    let tread = "layer outsole { of tread;";
    let leather = labelled(&boot(MIDSOLE, tread), NAIL);
    assert_eq!(hatch_of(&leather, "shank"), Some(Hatch::SoleLeather), "{leather:?}");
    assert_eq!(hatch_of(&leather, "pad"), Some(Hatch::Rubber), "{leather:?}");
    let rubber = labelled(
        &edited(&[(OUTSOLE, tread), ("of bend 10 iron;  covers waist", "of squeak-pad;  covers waist")]),
        NAIL,
    );
    assert_eq!(hatch_of(&rubber, "shank"), Some(Hatch::Rubber), "{rubber:?}");
}
