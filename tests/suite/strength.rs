//! The strength of every row against the weaker of thread and leather, leather by leather.
//!
//! Source: sewing handbooks' `1.5 x loop strength x stitches per inch`, here for an inch and for the thread's own figure; what
//! a leather's hole holds is the shop's own test. Common practice, no source.

use crate::common::memory::Memory;
use crate::common::trial;
use crate::common::trial::number;
use hobnail::build::{Datum, Figures};
use std::collections::BTreeSet;

/// The parts that each seam holds, as the model's own text says them.
const HELD: [(&str, &[&str]); 8] = [
    ("lap.counter-cover.quarter", &["counter-cover", "quarter"]),
    ("lap.vamp.quarter", &["vamp", "quarter"]),
    ("seam.back", &["quarter"]),
    ("stay.back-stay", &["stay-strip"]),
    ("gusset.tongue", &["tongue", "quarter"]),
    ("collar", &["collar-band", "quarter"]),
    ("facing-rows", &["quarter"]),
    ("sole", &["vamp", "quarter"]),
];

fn texts(figures: &Figures, key: &str) -> Option<String> {
    match &figures.get(key)?.datum {
        Datum::Text(text) => Some(text.clone()),
        _ => None,
    }
}

/// The scree with a strong thread in every seam, and a leather of its own for one part, whose stitch holes hold `newtons`.
fn with(part: Option<&str>, newtons: u32) -> Memory {
    let thread = "thread firm { size 138 tex; density 1.14 g/cm3; packing 0.7; strength 300 N }";
    let stock = format!("{thread}\nupper-leather weak {{ substance 6..7 oz; holds {newtons} N }}");
    let heads = [
        "seam back",
        "stay back-stay",
        "gusset tongue",
        "lap counter-cover over quarter",
        "lap vamp over quarter",
        "collar collar-band",
    ];
    let mut upper: String = heads.iter().map(|head| format!("    {head} {{ thread firm }}\n")).collect();
    upper += "    facing { rows 2 at 3 mm apart 18 mm pitch 8 spi thread firm needle 130 Nm sewn-on post-bed }\n";
    if let Some(part) = part {
        upper += &format!("    part {part} {{ of weak }}\n");
    }
    trial::trial(&stock, &format!("  upper {{\n{upper}  }}"))
}

/// The longest stitch of a seam's rows, mm: length over whole stitches.
fn true_pitch(figures: &Figures, seam: &str) -> f64 {
    if seam == "sole" {
        let of_row = |row: u32| {
            let of = |what: &str| &figures.get(&format!("sole.row-{row}.{what}")).expect("two rows").datum;
            let (Datum::Number(length), Datum::Count(stitches)) = (of("length"), of("stitches")) else {
                panic!("{row}")
            };
            length / f64::from(u32::try_from(*stitches).expect("a few"))
        };
        return of_row(1).max(of_row(2));
    }
    let long = if seam == "facing-rows" { "facing.long".to_owned() } else { format!("{seam}.long") };
    let stitches = trial::count(figures, &format!("takes.seam.{seam}.stitches"));
    number(figures, &long) / f64::from(u32::try_from(stitches).expect("a few"))
}

#[test]
fn a_row_is_as_strong_as_its_weakest_leather_where_that_is_weaker_than_its_thread() {
    let plain = trial::figures(&with(None, 0), "9 D");
    let seams: BTreeSet<&str> = HELD.iter().map(|(seam, _)| *seam).collect();
    let strong: BTreeSet<&str> = plain
        .iter()
        .filter_map(|figure| figure.key.strip_suffix(".strength"))
        .filter(|key| *key != "forefoot" && !key.contains(".row-"))
        .collect();
    assert_eq!(strong, seams, "every seam has its strength");
    let parts: BTreeSet<&str> = HELD.iter().flat_map(|(_, parts)| parts.iter().copied()).collect();
    for part in parts {
        for newtons in [20, 100_000] {
            let memory = with(Some(part), newtons);
            let weak = trial::figures(&memory, "9 D");
            for (seam, held) in HELD {
                let of = |figures: &Figures| number(figures, &format!("{seam}.strength"));
                let first = texts(&weak, &format!("{seam}.gives-way"));
                if held.contains(&part) && newtons == 20 {
                    // Whole stitches on the row's length, of 20 N each.
                    let plainly = f64::from(newtons) / true_pitch(&weak, seam);
                    assert!((of(&weak) - plainly).abs() < 1e-6, "{part} in {seam}: {} not {plainly}", of(&weak));
                    assert_eq!(first.as_deref(), Some("weak"), "{part} in {seam}");
                } else {
                    assert!((of(&weak) - of(&plain)).abs() < 1e-9, "{part} is not in {seam}, {newtons} N");
                    assert_eq!(first.as_deref(), Some("thread"), "{part}, {newtons} N in {seam}");
                }
            }
        }
    }
}

#[test]
fn of_two_leathers_the_weaker_gives_way() {
    for (vamp, quarter, first) in [(50, 30, "soft"), (30, 50, "hard"), (40, 40, "hard")] {
        let stock = format!(
            "upper-leather hard {{ substance 6..7 oz; holds {vamp} N }}\nupper-leather soft {{ substance 6..7 oz; holds {quarter} N }}\n\
             thread firm {{ size 138 tex; density 1.14 g/cm3; packing 0.7; strength 300 N }}"
        );
        let upper = "part vamp { of hard }; part quarter { of soft }; lap vamp over quarter { thread firm }";
        let found = trial::figures(&trial::trial(&stock, &format!("  upper {{ {upper} }}")), "9 D");
        // 320 mm at eight stitches an inch are 100.8, so 101 whole ones.
        let plainly = f64::from(vamp.min(quarter)) * 101.0 / 320.0;
        let strength = number(&found, "lap.vamp.quarter.strength");
        assert!((strength - plainly).abs() < 1e-6, "{vamp} and {quarter} N: {strength} not {plainly}");
        assert_eq!(texts(&found, "lap.vamp.quarter.gives-way").as_deref(), Some(first), "{vamp} and {quarter} N");
    }
}
