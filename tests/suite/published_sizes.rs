//! Published values of units, sizes and grades, each with its source, against figures of boots written for it.
//!
//! Two have nothing in the tool to be held against: U7, as every thickness is taken as it was measured, whatever the gauge
//! pressed with; the instep girths of S6, as no figure of the bottom or of the order depends on one and a last states none.

use crate::common::memory;
use crate::common::published::published;
use crate::common::trial::{LastText, figures, number, trial};
use hobnail::build::Figures;
use hobnail::measure::{System, Unit, to_f64};
use std::process::Command;

const IN: f64 = 25.4;
const FTMS: &str = "Federal Test Method Standard 311 (15 Jan 1969), def. 3.2.114; GNU Units `shoeiron`";
const GNU: &str = "GNU Units";
const GOLDING: &str = "F. Y. Golding, The Manufacture of Boots and Shoes (Chapman & Hall, 1902)";

/// A thickness as a counter, a sole leather and an upper leather give it, mm.
fn thickness(written: &str) -> f64 {
    let stock = format!("stiffener board {{ thickness {written} }}");
    number(&figures(&trial(&stock, "  upper { counter { of board } }"), "9 D"), "counter.thickness")
}

fn thread_size(written: &str) -> f64 {
    let stock = format!("thread other {{ size {written}; density 1.14 g/cm3; packing 0.7 }}");
    number(&figures(&trial(&stock, "  bottom { sole sewn { thread other } }"), "9 D"), "sole.thread-size")
}

#[test]
fn irons_and_ounces() {
    published("U1", "an iron is 1/48 in", 1.0 / 48.0 * IN, 0.0, FTMS).is(thickness("1 iron"));
    published("U1", "an iron", 0.529_167, 5e-7, FTMS).is(thickness("1 iron"));
    published("U1", "12 iron", 6.350, 0.0, FTMS).is(thickness("12 iron"));
    published("U1", "9 iron", 4.7625, 0.0, FTMS).is(thickness("9 iron"));
    published("U2", "an ounce is 1/64 in", 0.396_875, 0.0, "GNU Units `shoeounce`").is(thickness("1 oz"));
    published("U2", "8 oz", 3.175, 0.0, "GNU Units `shoeounce`").is(thickness("8 oz"));
    let charts = "derived from U1 and U2; leather-trade conversion charts, second-hand";
    published("U3", "16 oz are 12 iron", thickness("12 iron"), 0.0, charts).is(thickness("16 oz"));
    published("U3", "16 oz are a quarter inch", IN / 4.0, 0.0, charts).is(thickness("16 oz"));
    published("U3", "6 oz are 4.5 iron", thickness("4.5 iron"), 0.0, charts).is(thickness("6 oz"));
}

#[test]
fn thread_sizes() {
    published("U4", "a denier is a ninth of a tex", 40.0, 0.0, "ISO 1144").is(thread_size("360 denier"));
    let boot = trial(
        "thread other { size 40 tex; density 1.14 g/cm3; packing 0.7 }",
        "  bottom { sole sewn { thread other } }",
    );
    // What the bobbin's room holds weighs the same, however fine the thread is: metres of 40 tex, 40 g the kilometre.
    let room = std::f64::consts::FRAC_PI_4 * (36.0_f64.powi(2) - 9.0_f64.powi(2)) * 12.0 / 1000.0;
    let grams = number(&figures(&boot, "9 D"), "sole.bobbin") * 40.0 / 1000.0;
    published("U4", "Tex 40: 1000 m weigh 40 g", room * 0.6 * 1.14, 0.0, "ISO 1144; bulletin of a thread maker")
        .is(grams);
    // Count and ply as metres a gram; a denier is a gram on 9000 m.
    for (count, ply, ticket) in [(80.0, 2.0, 120.0), (80.0, 4.0, 60.0), (60.0, 1.0, 180.0), (60.0, 2.0, 90.0)] {
        let tex = thread_size(&format!("{} denier", 9000.0 / count * ply));
        let what = format!("Nm {count}/{ply} as metric ticket, 3000 / tex");
        published("U5", what, ticket, 0.5, "garment-trade teaching texts, second-hand").is(3000.0 / tex);
    }
}

#[test]
fn needles_in_hundredths() {
    for (needle, blade) in [(110, 1.1), (90, 0.9)] {
        let boot = trial("", &format!("  bottom {{ sole sewn {{ needle {needle} Nm }} }}"));
        let found = number(&figures(&boot, "9 D"), "sole.needle") / 100.0;
        published("U6", format!("Nm {needle}"), blade, 0.0, "needle-system teaching text, second-hand").is(found);
    }
}

/// GNU Units has its own table; where the program is installed, it is asked.
#[test]
fn gnu_units_agrees() {
    let asks = [
        ("shoeiron", "mm", Unit::Iron),
        ("shoeounce", "mm", Unit::Ounce),
        ("inch", "mm", Unit::Inch),
        ("foot", "mm", Unit::Foot),
        ("lbf", "newton", Unit::PoundForce),
        ("denier", "tex", Unit::Denier),
        ("ft^2", "dm^2", Unit::SquareFoot),
    ];
    for (have, want, unit) in asks {
        let Ok(ran) = Command::new("units").args(["-t", "-o", "%.12g", have, want]).output() else {
            println!("skipped: GNU Units is not installed");
            return;
        };
        let said = String::from_utf8_lossy(&ran.stdout);
        let found: f64 = said.trim().parse().unwrap_or_else(|_| panic!("units says `{said}` of {have}"));
        let off = (found / to_f64(unit.factor()) - 1.0).abs();
        assert!(off < 1e-9, "U1..U4, {have}: {found} by {GNU}, {} here", to_f64(unit.factor()));
    }
}

#[test]
fn steps_of_length() {
    let source = "GNU Units `shoesize_delta`, `europeshoesize`; PD ISO/TS 19407:2015, introduction";
    let step = |system: System| to_f64(system.length_step());
    published("S1", "a barleycorn", 8.4667, 5e-5, source).is(step(System::Uk));
    published("S1", "a Paris point", 6.6667, 5e-5, source).is(step(System::Eu));
    published("S1", "a third of an inch", IN / 3.0, 0.0, source).is(step(System::UsMen));
    published("S1", "two thirds of a centimetre", 20.0 / 3.0, 0.0, source).is(step(System::Eu));
}

fn stick(boot: &memory::Memory, size: &'static str) -> f64 {
    number(&figures(boot, size), "last.stick")
}

const UK: [(f64, &str); 4] = [(1.0, "1 D"), (4.0, "4 D"), (8.0, "8 D"), (12.0, "12 D")];

#[test]
fn uk_lasts_count_from_twenty_five_thirds() {
    // Measured as a 4: 29/3 in.
    let made = "uk 1..13 by 1/2 widths C, D, E";
    let last = LastText { base: "uk 4 D", stick: "29/3 in", bottom: "238 mm", made, ..LastText::default() };
    let boot = last.boot("uk 1..12 widths D");
    let source = "three independent pages; Golding 1902 for the children's scale";
    for (n, size) in UK {
        published("S2", format!("last of a UK {n}"), (25.0 + n) / 3.0 * IN, 0.0, source).is(stick(&boot, size));
    }
    published("S2", "UK 1 is 8 2/3 in", (8.0 + 2.0 / 3.0) * IN, 0.0, source).is(stick(&boot, "1 D"));
    published("S2", "UK 8 is 11 in", 279.40, 0.0, source).is(stick(&boot, "8 D"));
}

const US: [(f64, &str); 4] = [(8.0, "8 D"), (9.0, "9 D"), (12.0, "12 D"), (6.0, "6 D")];

#[test]
fn us_lasts_have_two_conventions_and_state_their_base() {
    let source = "one page; GNU Units has 8 1/4 in + n/3: a quarter inch longer";
    let (short, long) = ("11 in", "11 1/4 in");
    for (base, added) in [(short, 0.0), (long, 0.25)] {
        let boot = LastText { stick: base, bottom: "272 mm", ..LastText::default() }.boot("us-men 6..12 widths D");
        for (n, size) in US {
            let value = ((24.0 + n) / 3.0 + added) * IN;
            published("S3", format!("last of a US {n} on a base of {base}"), value, 0.0, source).is(stick(&boot, size));
        }
        let value = (8.25 + 9.0 / 3.0) * IN;
        if added > 0.0 {
            published("S3", "8 1/4 in + n/3", value, 0.0, GNU).is(stick(&boot, "9 D"));
        }
    }
}

/// The size of a foot is 3 F - 22; on a last of (24 + n)/3 in every foot has the same 2/3 in before its toes.
#[test]
fn a_us_size_is_read_from_the_foot() {
    let boot = LastText { stick: "11 in", bottom: "272 mm", ..LastText::default() }.boot("us-men 5..12 widths D");
    let source = "measuring-device convention; five rows of a retail chart";
    for (foot, size) in [(10.0, "8 D"), (9.0, "5 D"), (34.0 / 3.0, "12 D")] {
        let found = number(&figures(&boot, size), "size.foot");
        published("S4", format!("the foot of a {size}"), foot * IN, 0.0, source).is(found);
    }
    for (foot, n, size) in [(10.0, 8.0, "8 D"), (9.0, 5.0, "5 D"), (34.0 / 3.0, 12.0, "12 D")] {
        let last = stick(&boot, size) / IN;
        published("S4", format!("size of a foot of {foot} in"), n, 0.0, source).is(3.0 * foot - 22.0);
        published("S4", format!("size of that last of {last} in"), n, 0.0, source).is(3.0 * last - 24.0);
        published("S4", format!("room before a foot of {foot} in"), 2.0 / 3.0, 0.0, source).is(last - foot);
    }
}

/// Two readings of one number: the last that carries it, and the foot that it is for.
#[test]
fn paris_points_of_last_and_foot() {
    let made = "eu 36..48 widths C, D, E";
    let last = LastText { base: "eu 40 D", stick: "800/3 mm", bottom: "260 mm", made, ..LastText::default() };
    let boot = last.boot("eu 38..46 widths D");
    let source = "ISO 19407:2015 as restated, second-hand";
    for (n, size) in [(38.0, "38 D"), (42.0, "42 D"), (46.0, "46 D")] {
        published("S5", format!("last of an EU {n}"), n * 20.0 / 3.0, 0.0, source).is(stick(&boot, size));
    }
    published("S5", "last of an EU 42", 280.00, 0.0, source).is(stick(&boot, "42 D"));
    let foot = stick(&boot, "42 D") - 2.0 * to_f64(System::Eu.length_step());
    published("S5", "foot of an EU 42", 266.67, 0.005, source).is(foot);
    published("S5", "foot of an EU 42", 266.67, 0.005, source).is(number(&figures(&boot, "42 D"), "size.foot"));
    // That foot is 10 1/2 in: by S4 a US 9 1/2.
    let found = figures(&boot, "42 D");
    published("S4", "an EU 42 as US men's", 9.5, 0.005, source).is(number(&found, "size.us-men"));
    published("S4", "an EU 42 as US men's, rounded", 9.5, 0.0, source).is(number(&found, "size.us-men-rounded"));
}

/// Mondopoint is numbered in mm of foot: a size is the step in which the last is made, and girths grow by it.
#[test]
fn mondopoint_is_the_foot_in_mm() {
    let made = "mondo 240..290 by 5 widths C, D, E";
    let last = LastText { base: "mondo 265 D", stick: "283 mm", bottom: "272 mm", made, ..LastText::default() };
    let boot = last.boot("mondo 245..285 by 5 widths D");
    let source = "ISO 9407, from memory: the length of the foot, in steps of 5 mm";
    let base = figures(&boot, "265 D");
    for (n, size) in [(245.0, "245 D"), (265.0, "265 D"), (270.0, "270 D"), (285.0, "285 D")] {
        let found = figures(&boot, size);
        published("S5", format!("foot of a {size}"), n, 0.0, source).is(number(&found, "size.foot"));
        published("S5", format!("last of a {size}"), 283.0 + n - 265.0, 0.0, source).is(stick(&boot, size));
        // The grade of the ball is for a size: for 5 mm of Mondopoint.
        let grown = number(&found, "last.ball") - number(&base, "last.ball");
        published("S5", format!("ball of a {size}"), (n - 265.0) / 5.0 * IN / 4.0, 0.0, source).is(grown);
    }
}

/// Graded from the 1, not read off.
#[test]
fn the_table_of_1902() {
    let last = LastText {
        base: "uk 1 D",
        stick: "26/3 in",
        bottom: "214 mm",
        ball: "7 1/4 in",
        more: "tread 2 3/4 in;  seat-breadth 2 in",
        made: "uk 1..6 by 1/2 widths C, D, E",
        ..LastText::default()
    };
    let boot = last.boot("uk 1..6 widths D");
    let rows = [
        ("1 D", 7.25, 2.75, 2.0),
        ("2 D", 7.5, 2.0 + 5.0 / 6.0, 2.0 + 1.0 / 16.0),
        ("4 D", 8.0, 3.0, 2.0 + 3.0 / 16.0),
    ];
    for (size, ball, tread, seat) in rows {
        let figures = figures(&boot, size);
        for (key, value) in [("last.ball", ball), ("last.tread", tread), ("last.seat-breadth", seat)] {
            published("S6", format!("{key} of a {size}"), value * IN, 0.0, GOLDING).is(number(&figures, key));
        }
    }
}

#[test]
fn a_size_and_a_width() {
    let boot = trial("", "");
    let [base, longer, wider] = ["9 D", "10 D", "9 E"].map(|size| figures(&boot, size));
    let source = "US patent 1,948,547 (1934), text as quoted";
    let grown = |figures: &Figures, key: &str| number(figures, key) - number(&base, key);
    published("S7", "a size in length", IN / 3.0, 0.0, source).is(grown(&longer, "last.stick"));
    published("S7", "a size in girth", IN / 4.0, 0.0, source).is(grown(&longer, "last.ball"));
    published("S7", "a width in girth", IN / 4.0, 0.0, source).is(grown(&wider, "last.ball"));
    published("S7", "a width in length", 0.0, 0.0, source).is(grown(&wider, "last.stick"));
}

/// A point at a third of the length from the pivot moves a third of the grade; at a sixth, a sixth.
#[test]
fn what_a_shift_moves() {
    let last = LastText { joints: "inside 66 2/3 % outside 62 %", breast: "16 2/3 %", ..LastText::default() };
    let boot = last.boot("us-men 8..10 widths D");
    let [base, longer] = ["9 D", "10 D"].map(|size| figures(&boot, size));
    let from_toe = |figures: &Figures| number(figures, "last.bottom") - number(figures, "last.joint-inside");
    published("S8", "tread, from the toe", IN / 9.0, 0.0, GOLDING).is(from_toe(&longer) - from_toe(&base));
    let seat = number(&longer, "last.breast") - number(&base, "last.breast");
    published("S8", "seat, from the heel", IN / 18.0, 0.0, GOLDING).is(seat);
}

/// Layers that make 16 under the tread and 10 under the seat, on a seat of 25.
const LEVEL: &str = "
upper-leather two { substance 2 mm }
sole-leather four { substances 4 mm }
outsole eight { base 8 mm; blanks us-men 5..14 }";

#[test]
fn the_heel_that_makes_it_level() {
    let differs = "  last other
  upper { part quarter { of two; pieces 2; area 3.5 dm2 } }
  bottom { layer insole { of four 4 mm }; layer midsole { of four 4 mm }; layer outsole { of eight } }";
    for (seat, block) in [(25.0, 31.0), (12.0, 18.0), (38.5, 44.5)] {
        let last = LastText { seat: &format!("{seat} mm slope 3 deg"), ..LastText::default() };
        let found = number(&figures(&trial(&(last.text() + LEVEL), differs), "9 D"), "heel.block");
        published("S10", format!("{seat} + 16 - 10"), block, 0.0, "geometry, derived; agrees with Golding 1902")
            .is(found);
        // What stands under the last at the heel, block and seat's layers, is the heel wanted at the last.
        let what = "height of the seat, the heel wanted less the forepart's substance";
        published("S9", what, seat, 0.0, "Golding 1902, Constructing a standard from a forme").is(found + 10.0 - 16.0);
    }
}

/// Mean and standard deviation of men's feet, and means of the feet nearest two sizes.
#[test]
fn the_demo_lasts_lie_among_feet() {
    let source = "ANSUR II (Natick/TR-15/007), computed from its public data";
    let (girth, heel_to_ball) = (12.94, 10.47);
    for last in ["teller", "drover"] {
        let uses = format!("use \"../lasts/{last}.hob\"");
        let boot = trial(&uses, &format!("  last {last}\n  run us-men 6..14 by 1/2 widths D"));
        for (size, girth) in [("9 D", 247.4), ("11 D", 256.1)] {
            // The feet nearest a US 9 by the device are 10 1/3 in, 262.47 long: a third of a mm shorter than their mean.
            let found = number(&figures(&boot, size), "size.foot-girth");
            published("S12", format!("ball girth of feet of a {size}"), girth, 0.2, source).is(found);
        }
        for (size, foot, to_ball, ball) in [("9 D", 262.8, 194.7, 247.4), ("11 D", 279.4, 207.3, 256.1)] {
            let figures = figures(&boot, size);
            // A last is longer than its foot by the room before the toes, 1 to 3 cm, and as large round the joints.
            let room = number(&figures, "last.stick") - foot;
            published("S12", format!("{last} {size}, room before the toes"), 20.0, 10.0, source).is(room);
            let found = number(&figures, "last.ball");
            published("S12", format!("{last} {size}, round the joints"), ball, girth, source).is(found);
            let found = number(&figures, "last.joint-inside");
            published("S12", format!("{last} {size}, heel to ball"), to_ball, heel_to_ball, source).is(found);
        }
        // The 1st and 99th percentile of feet are 242 and 302 long: by S4 a 6 1/2 and a 13 1/2, with the same room.
        let (small, large) = (stick(&boot, "6.5 D"), stick(&boot, "13.5 D"));
        published("S11", format!("{last} 6 1/2, for the shortest feet"), 242.0, 10.0, source).is(small - 20.0);
        published("S11", format!("{last} 13 1/2, for the longest feet"), 302.0, 10.0, source).is(large - 20.0);
    }
}
