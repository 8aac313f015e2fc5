//! Layers where they lie: what a breadth, a zone or an end leaves under a row, by sums done by hand.
//!
//! Substances of the demo's stock, mm: vamp 6..7 oz (2.5797 in the middle, 2.7781 at most), quarter skived flat 1.0 (1.25 at
//! most), midsole 12 iron (6.35 +- 0.2646), outsole base 4.5 +- 0.3 and lugs 3.0 +- 0.2, insole 8 iron (4.2333 +- 0.2646),
//! lining 2.5..3 oz (1.0914 +- 0.0992), slip sheet 3.0 +- 0.2. An ounce is 1/64 in, an iron 1/48 in (the trade's units).

use crate::common::memory::Memory;
use crate::common::trial::{built, figures, judged, number, refused, spread, trial};
use hobnail::finding::Subject;
use hobnail::rules::Verdict;

const OZ: f64 = 25.4 / 64.0;
const IRON: f64 = 25.4 / 48.0;
const VAMP: f64 = 6.5 * OZ;
const MIDSOLE: f64 = 12.0 * IRON;
const INSOLE: f64 = 8.0 * IRON;
const LINING: f64 = 2.75 * OZ;

fn near(value: f64, by_hand: f64) {
    assert!((value - by_hand).abs() < 1e-6, "{value}, by hand {by_hand}");
}

fn bottom(text: &str) -> Memory {
    trial("", &format!("  bottom {{ {text} }}"))
}

/// An outsole said to be 200 mm broad lies under every place of every row, as one does that says no breadth.
#[test]
fn a_layer_as_broad_as_the_bottom_counts_like_one_without_a_breadth() {
    let broad = figures(&bottom("layer outsole { breadth 200 mm }"), "9 D");
    let jaw = spread(&broad, "stack.jaw");
    near(jaw.nominal, VAMP + 1.0 + MIDSOLE + 7.5);
    near(jaw.hi, 7.0 * OZ + 1.25 + 12.5 * IRON + 8.0);
    assert_eq!(jaw, spread(&figures(&bottom(""), "9 D"), "stack.jaw"));
}

/// One of 60 mm lies under the toe's round alone, where no lap is: there the stack is tallest, and under the lap lies no
/// outsole.
#[test]
fn a_narrow_layer_counts_within_its_breadth() {
    let narrow = figures(&bottom("layer outsole { breadth 60 mm }"), "9 D");
    near(number(&narrow, "stack.jaw"), VAMP + MIDSOLE + 7.5);
    assert!(number(&narrow, "stack.station") > 80.0, "it is the toe");
    let midsole = figures(&bottom("layer midsole { breadth 60 mm }"), "9 D");
    near(number(&midsole, "stack.jaw"), (VAMP + MIDSOLE + 7.5).max(VAMP + 1.0 + 7.5));
}

/// Insole, shank and pad end at the feather line, whatever they cover.
#[test]
fn no_sole_row_meets_what_ends_at_the_feather() {
    let all = "layer pad { covers all; breadth 200 mm }; layer shank { covers all; breadth 200 mm }";
    near(number(&figures(&bottom(all), "9 D"), "stack.jaw"), VAMP + 1.0 + MIDSOLE + 7.5);
}

#[test]
fn the_forefoot_row_counts_all_that_lies_under_it() {
    let bare = INSOLE + LINING + MIDSOLE;
    near(number(&figures(&bottom(""), "9 D"), "forefoot.layers"), bare);
    for (layer, more) in [
        ("layer filler { of slip-sheet; covers forepart }", 3.0),
        // Only under the row's round at the toe.
        ("layer pad { covers all; breadth 30 mm; without front }", 1.0),
        // It ends on the joint line, where the row's first stitch stands.
        ("layer arch { of slip-sheet; covers waist }", 3.0),
        // Thirty of it do not reach the row's ends, and ahead of the joints there is none.
        ("layer arch { of slip-sheet; covers waist; breadth 30 mm }", 0.0),
        ("layer filler { of slip-sheet; covers seat }", 0.0),
    ] {
        let found = figures(&bottom(layer), "9 D");
        near(number(&found, "forefoot.layers"), bare + more);
    }
}

/// The horn stitcher sews 16: a pad that reaches under the toe is what it can't take.
#[test]
fn a_pad_under_the_toe_is_refused_there() {
    let pad = "rubber thick-pad { thickness 4.4 mm +- 0.1 mm }";
    let memory = trial(pad, "  bottom { layer pad { of thick-pad; covers all; breadth 30 mm; without front } }");
    let judgements = built(&memory, "9 D", |build| judged(build, "jaw/forefoot-stack"));
    near(judgements[0].sum, INSOLE + LINING + MIDSOLE + 4.4);
    assert_eq!(judgements[0].verdict, Verdict::Refused);
    let place = judgements[0].place.as_ref().expect("it says where").to_string();
    let along: f64 = place.split(' ').next().and_then(|mm| mm.parse().ok()).expect("mm");
    let length = number(&figures(&memory, "9 D"), "forefoot.length");
    assert!(length * 0.3 < along && along < length * 0.7, "{place} of {length}");
}

/// Class 101 takes 3p + 2t a stitch (textile calculation teaching texts): with 3 mm of filler all along, 6 mm more a stitch.
#[test]
fn thread_of_the_forefoot_goes_through_what_lies_there() {
    let used = |memory: &Memory| {
        let found = figures(memory, "9 D");
        let stitches = crate::common::trial::count(&found, "forefoot.stitches");
        (number(&found, "forefoot.thread-used"), f64::from(u32::try_from(stitches).expect("few")))
    };
    let (bare, stitches) = used(&bottom(""));
    near(used(&bottom("layer filler { of slip-sheet; covers forepart }")).0, bare + stitches * 6.0 / 1000.0);
    let narrow = used(&bottom("layer filler { of slip-sheet; covers forepart; breadth 30 mm }")).0;
    assert!(bare < narrow && narrow < bare + stitches * 3.0 / 1000.0, "{narrow}: fewer than half stand in it");
}

#[test]
fn rows_meet_what_they_go_through() {
    let missed = |text: &str| refused(&bottom(text), "9 D", "rows/through");
    assert!(!missed(""));
    assert!(!missed("layer outsole { breadth 200 mm }"));
    assert!(missed("layer outsole { breadth 80 mm }"), "both rows run beside it in the waist");
    assert!(missed("layer midsole { breadth 80 mm }"), "the rows go through the midsole, too");
    let slip = |covers: &str, through: &str| {
        format!("layer slip {{ of slip-sheet; covers {covers}; bonded neoprene }}; sole sewn {{ through {through} }}")
    };
    assert!(missed(&slip("waist", "slip")), "nothing of it lies under the forepart");
    assert!(missed(&slip("seat", "slip")));
    assert!(!missed(&slip("forepart", "slip")), "a half slip ends at the joints, and says so");
    assert!(!missed(&slip("all; ends at-breast", "slip")));
    assert!(!missed(&slip("waist", "outsole")), "the rows end in the outsole");
}

#[test]
fn the_forefoot_row_meets_insole_and_midsole() {
    let missed = |text: &str| {
        let judgements = built(&bottom(text), "9 D", |build| judged(build, "rows/through"));
        let of = judgements.iter().find(|judgement| judgement.subject == Subject::FOREFOOT_ROW).expect("it is judged");
        of.verdict == Verdict::Refused
    };
    assert!(!missed(""));
    assert!(missed("layer insole { breadth 60 mm }"));
    assert!(missed("layer midsole { covers waist }"));
    assert!(!missed("layer midsole { covers forepart }"));
}

fn lap(enters: &str) -> Memory {
    trial("", &format!("  upper {{ lap vamp over quarter {{ enters-turnout {enters} }} }}"))
}

/// Breast 26 % of 276 mm; the turnout begins 15 + 25 behind it, at 11.507 %.
#[test]
fn a_lap_enters_where_there_is_a_turnout() {
    let astray = |enters: &str| refused(&lap(enters), "9 D", "upper/enters-turnout");
    assert!(!astray("outside 38 % inside 44 %"));
    assert!(astray("outside 10 % inside 44 %"), "a typo for 38");
    assert!(astray("outside 38 % inside 11.4 %"));
    assert!(!astray("outside 11.6 % inside 12 %"));
    // 1.2 times 38 are 45.6.
    assert!(!astray("outside 38 % inside 45.6 %"));
    assert!(astray("outside 38 % inside 45.7 %"));
    assert!(astray("outside 45.7 % inside 38 %"));
    // Swapped by less than that: no lap is lost.
    assert!(!astray("outside 44 % inside 38 %"));
}

/// Rows all round have a turnout all round: there is no release cut.
#[test]
fn where_the_rows_run_all_round_a_lap_may_enter_behind_the_breast() {
    let memory = trial(
        "",
        "  upper { lap vamp over quarter { enters-turnout outside 8 % inside 9 % } }\n  bottom { sole sewn { all-round } }",
    );
    assert!(!refused(&memory, "9 D", "upper/enters-turnout"));
}

fn three(first: &str, second: &str) -> Memory {
    let lap = |name: &str, enters: &str| {
        format!(
            "    lap {name} {{ wide 12 mm; rows 1 first 2 mm; pitch 8 spi; thread bonded-138; needle 130 Nm; on post-bed; enters-turnout {enters} }}\n"
        )
    };
    let parts =
        "    part wing { of oil-tan; pieces 2; area 2 dm2 }\n    part cap { of oil-tan; pieces 1; area 1 dm2 }\n";
    let laps = lap("wing over quarter", first) + &lap("cap over wing", second);
    trial("", &format!("  upper {{\n    without lap vamp\n{parts}{laps}    turned-out quarter, wing, cap\n  }}"))
}

#[test]
fn laps_enter_in_the_order_of_their_parts() {
    let astray = |first: &str, second: &str| refused(&three(first, second), "9 D", "upper/enters-turnout");
    assert!(!astray("outside 38 % inside 40 %", "outside 70 % inside 72 %"));
    assert!(astray("outside 70 % inside 72 %", "outside 38 % inside 40 %"), "the second behind the first");
    assert!(astray("outside 38 % inside 44 %", "outside 40 % inside 43 %"), "on one side is enough");
}

/// A lap that says where it enters, of parts that aren't turned out beside each other, is in no sum.
#[test]
fn a_lap_of_parts_that_are_not_turned_out_is_told() {
    let text = "  upper {\n    part cap { of oil-tan; pieces 1; area 1 dm2 }\n    lap cap over vamp { wide 12 mm; rows 1 first 2 mm; \
                pitch 8 spi; thread bonded-138; needle 130 Nm; on post-bed; enters-turnout outside 80 % inside 82 % }\n  }";
    assert!(refused(&trial("", text), "9 D", "upper/enters-turnout"));
}

fn skived(quarter: &str) -> Memory {
    trial("", &format!("  upper {{ lap vamp over quarter {{ skive quarter {{ {quarter} }} }} }}"))
}

/// The house wants 1.0 nominally and 0.7 at the thin end of what holds the rows (common practice, no source).
#[test]
fn what_the_rows_hang_on_is_thick_enough() {
    let thin = |quarter: &str| refused(&skived(quarter), "9 D", "rows/least-in-turnout");
    assert!(!thin("in-turnout flat to 1.0 mm +- 0.3 mm"));
    assert!(thin("in-turnout flat to 1.0 mm +- 0.31 mm"));
    assert!(thin("in-turnout flat to 0.95 mm +- 0.1 mm"));
    assert!(thin("in-turnout flat to 0.3 mm"));
    // The edge itself lies in the turnout.
    assert!(thin("edge wide 12 mm to 0.5 mm"));
}

/// Where nothing is skived the leather itself counts.
#[test]
fn thin_leather_holds_no_rows() {
    let thin = "  upper { part vamp { of glove }; lap vamp over quarter { without skive vamp } }";
    let memory = trial("upper-leather glove { substance 0.9..1.0 mm }", thin);
    let judgements = built(&memory, "9 D", |build| judged(build, "rows/least-in-turnout"));
    let vamp = judgements
        .iter()
        .find(|judgement| matches!(&judgement.subject, Subject::UnderSoleRows(part) if &**part == "vamp"))
        .expect("it is judged");
    assert_eq!(vamp.verdict, Verdict::Refused);
    near(vamp.sum, 0.95);
}

/// Films lie over midsole and outsole alone, hammering leaves 95 of a hundred: 0.2 +- 0.1 twice, and 0.95 of 12 iron.
#[test]
fn joints_add_their_film_and_a_hammered_midsole_is_thinner() {
    let said = "adhesive gum { film 0.2 mm +- 0.1 mm; coats 1 }";
    let bonded = "layer midsole { bonded gum; hammered 5 % }; layer outsole { bonded gum }";
    let found = figures(&trial(said, &format!("  bottom {{ {bonded} }}")), "9 D");
    for key in ["stack.jaw", "stack.stitch"] {
        let stack = spread(&found, key);
        near(stack.nominal, VAMP + 1.0 + 0.95 * MIDSOLE + 7.5 + 0.4);
        near(stack.hi, 7.0 * OZ + 1.25 + 0.95 * 12.5 * IRON + 8.0 + 0.6);
    }
    near(number(&found, "stack.through-midsole"), VAMP + 1.0 + 0.95 * MIDSOLE + 0.2);
    near(number(&found, "forefoot.layers"), INSOLE + LINING + 0.95 * MIDSOLE + 0.2);
    near(number(&found, "layer.midsole.thickness"), 0.95 * MIDSOLE);
}

/// What the outsole may be is what the films leave, too: they are no part of it.
#[test]
fn a_film_is_no_part_of_the_outsole() {
    let bonded = "layer midsole { bonded gum }; layer outsole { bonded gum }";
    let memory = trial("adhesive gum { film 0.2 mm; coats 1 }", &format!("  bottom {{ {bonded} }}"));
    let room = built(&memory, "9 D", |build| build.stack.as_ref().expect("a stack").asked.room_for_outsole(19.0));
    near(room.nominal, 19.0 - VAMP - 1.0 - MIDSOLE - 0.4);
}

#[test]
fn rubber_is_not_hammered_thinner() {
    let memory = trial("", "  bottom { layer pad { hammered 5 % } }");
    let (_, checked) = memory.check(&[crate::common::trial::TRIAL], &crate::common::memory::Only("9 D"));
    assert!(checked.findings.iter().any(|it| it.message.contains("`squeak-pad` is no leather")));
}
