//! Published values of stitches, threads and construction, each with its source, against boots written for it.
//!
//! Two have nothing in the tool to be held against: C6, as heads are sunk here and none is left proud of its lift for the cap
//! to be pressed on; C10, as where worn pairs fail is no figure of a build.

use crate::common::memory;
use crate::common::published::published;
use crate::common::trial::{check, count, figures, number, spread, trial};
use hobnail::build::{Datum, Figures};
use hobnail::check::AllSizes;
use hobnail::measure::Window;

const IN: f64 = 25.4;
/// By definition.
const LBF: f64 = 4.448_221_615_260_5;

/// Sole rows with a thread of that strength at that pitch.
fn strong(strength: &str, spi: f64) -> Figures {
    let thread =
        format!("thread other {{ size 350 tex; needle 230 Nm; strength {strength}; density 1.14 g/cm3; packing 0.7 }}");
    figures(&trial(&thread, &format!("  bottom {{ sole sewn {{ thread other; pitch {spi} spi }} }}")), "9 D")
}

/// The longest stitch of the sole's two rows, mm: the row with it is the weaker.
fn longest(figures: &Figures) -> f64 {
    number(figures, "sole.row-1.pitch").max(number(figures, "sole.row-2.pitch"))
}

#[test]
fn strength_of_a_row() {
    let source = "thread maker's technical bulletin, Stitches per inch: what you should know";
    // Stitches are whole, so that a row has not quite as many to the inch as are asked for.
    let pounds = |figures: &Figures, spi: f64| number(figures, "sole.strength") * longest(figures) * spi / LBF;
    let worked = strong("4.0 lbf", 10.0);
    published("T1", "4 lb at 10 spi, lb per inch", 60.0, 0.0, source).is(pounds(&worked, 10.0));
    for (spi, value) in [(6.0, 23.4), (8.0, 31.2), (10.0, 39.0), (12.0, 46.8)] {
        let found = pounds(&strong("2.6 lbf", spi), spi);
        published("T2", format!("2.6 lb at {spi} spi"), value, 0.0, source).is(found);
    }
    let label = &worked.get("sole.strength").expect("it is there").label;
    assert!(label.contains("estimated"), "T3: made for woven seams, so an estimate ({source}), not `{label}`");
}

#[test]
fn strengths_of_nylon() {
    let source = "V-T-295 by FAA-H-8083-17 (2005), fig. 3-40";
    for (size, pounds, newton) in [("FF", 16, 71.2), ("3-cord", 24, 106.8), ("5-cord", 40, 177.9)] {
        let figures = strong(&format!("{pounds} lbf"), 5.0);
        let found = number(&figures, "sole.strength") * longest(&figures) / 1.5;
        published("T9", format!("{size}, {pounds} lb"), newton, 0.05, source).is(found);
    }
}

/// A sole whose rows cross `outer` and `midsole` mm of leather everywhere, and nothing else.
fn even(outer: f64, midsole: f64, spi: f64) -> Figures {
    let stock = format!(
        "upper-leather cloth {{ substance {outer} mm }}
         sole-leather card {{ substances {midsole} mm }}"
    );
    let differs = format!(
        "  upper {{
            part whole {{ of cloth; pieces 1; area 7 dm2 }}
            turned-out whole
          }}
          bottom {{
            layer midsole {{ of card {midsole} mm }}
            sole sewn {{ through midsole; pitch {spi} spi }}
          }}"
    );
    figures(&trial(&stock, &differs), "9 D")
}

/// Thread of row 1 by its length.
fn ratio(figures: &Figures) -> f64 {
    let thread = number(figures, "sole.row-1.needle-thread") + number(figures, "sole.row-1.bobbin-thread");
    thread * 1000.0 / number(figures, "sole.row-1.length")
}

const TEXTILE: &str = "textile calculation teaching texts (three agree), second-hand";

#[test]
fn thread_of_a_lockstitch() {
    // 0.01 in of cloth.
    let figures = even(0.1, 0.154, 10.0);
    let stitches = IN / number(&figures, "sole.row-1.pitch");
    published("T4", "2 + 2 T S, in whole stitches", 2.0 + 0.02 * stitches, 0.0, TEXTILE).is(ratio(&figures));
    published("T4", "0.01 in at 10 stitches per inch", 2.2, 0.001, TEXTILE).is(ratio(&figures));
    let (needle, bobbin) = (number(&figures, "sole.row-1.needle-thread"), number(&figures, "sole.row-1.bobbin-thread"));
    published("T6", "needle to bobbin", 1.0, 0.0, "thread maker's stitch guide after ISO 4915").is(needle / bobbin);
}

#[test]
fn a_flat_ratio_holds_for_cloth_only() {
    // A quarter of a stitch thick.
    for (outer, midsole, spi, value) in [(0.3, 0.49375, 8.0, 2.5), (2.0, 2.5, 8.0, 4.83), (3.0, 7.0, 5.0, 5.94)] {
        let what = format!("{} mm at {spi} spi", outer + midsole);
        published("T7", what, value, 0.012, "derived from T4").is(ratio(&even(outer, midsole, spi)));
    }
}

#[test]
fn thread_of_a_chainstitch() {
    // No two leathers are thinner than 0.2 mm together: at 5.715 spi they are to a stitch what 0.005 in are at 9.
    let stock = "sole-leather card { substances 0.1 mm }";
    let differs = "  upper { without lasted-in vamp-lining; without lasted-in quarter-lining }
        bottom {
          layer insole { of card 0.1 mm }
          layer midsole { of card 0.1 mm }
          forefoot sewn { pitch 5.715 spi }
        }";
    let figures = figures(&trial(stock, differs), "9 D");
    // Less its tails, which no text counts.
    let used = (number(&figures, "forefoot.thread-used") * 1000.0 - 150.0) / number(&figures, "forefoot.length");
    let stitches = IN / number(&figures, "forefoot.true-pitch");
    published("T5", "3 + 2 T S, in whole stitches", 3.0 + 2.0 * 0.2 / IN * stitches, 0.0, TEXTILE).is(used);
    published("T5", "0.005 in at 9 stitches per inch", 3.09, 0.001, TEXTILE).is(used);
}

#[test]
fn waste_is_among_what_makers_say() {
    let demo = memory::Memory::demo();
    let bought = demo.text("specs/shop.hob").contains("thread-waste");
    assert!(!bought, "the demo shop leaves the waste as it is");
    let page =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/house-rules.md")).expect("it is there");
    let line = page.lines().find(|line| line.contains("thread-waste")).expect("it has a default");
    let percent = line.split(" %").next().and_then(|start| start.rsplit(|c: char| !c.is_ascii_digit()).next());
    let percent: f64 = percent.and_then(|text| text.parse().ok()).unwrap_or_else(|| panic!("no share in {line}"));
    published("T8", "waste, 10 to 20 %", 15.0, 5.0, "two thread makers' bulletins").is(percent);
}

const MERCHANTS: &str = "thread merchants' tables, second-hand, the upper half from memory";

#[test]
fn sizes_of_the_demo_threads() {
    let table = [("69", 70.0), ("138", 135.0), ("207", 210.0), ("277", 270.0), ("346", 350.0), ("415", 400.0)];
    for (name, tex) in table {
        let boot = trial("", &format!("  bottom {{ sole sewn {{ thread bonded-{name} }} }}"));
        published("T10", format!("size {name}"), tex, 0.0, MERCHANTS)
            .is(number(&figures(&boot, "9 D"), "sole.thread-size"));
    }
}

/// Which needles the demo stock names for each thread.
#[test]
fn needles_of_the_demo_threads() {
    let source = "V. Desgrange, Thread for saddle work (2002), second-hand";
    let table = [
        ("69", 90.0, 110.0),
        ("138", 130.0, 150.0),
        ("207", 160.0, 180.0),
        ("277", 200.0, 200.0),
        ("346", 230.0, 230.0),
        ("415", 250.0, 250.0),
    ];
    let demo = memory::Memory::demo();
    for (name, least, most) in table {
        let start = format!("thread bonded-{name} ");
        let line = demo.text("specs/stock.hob").lines().find(|line| line.starts_with(&start)).expect("it is stocked");
        let (_, rest) = line.split_once("needle ").expect("it names its needle");
        let (range, _) = rest.split_once(" Nm").expect("in Nm");
        let window = Window { lo: least, hi: most };
        for end in range.split("..") {
            let needle: f64 = end.parse().expect("a number");
            assert!(window.holds(needle), "T11, size {name}: Nm {needle}, published {least} to {most} ({source})");
        }
    }
}

#[test]
fn diameters_of_threads() {
    for (name, value) in [("138", 0.464), ("277", 0.656)] {
        let boot = trial("", &format!("  bottom {{ sole sewn {{ thread bonded-{name} }} }}"));
        let found = number(&figures(&boot, "9 D"), "sole.thread-diameter");
        published("T12", format!("size {name}, nylon"), value, 0.0005, "geometry, derived").is(found);
    }
}

/// Whether a rule says anything of the trial in any size.
fn says(boot: &memory::Memory, rule: &str, subject: &str) -> bool {
    let (_, checked) = check(boot, &AllSizes);
    checked.findings.iter().any(|finding| finding.name == rule && finding.subject().contains(subject))
}

#[test]
fn pitches_that_services_asked_for() {
    let seam = |spi: &str| {
        trial(
            "",
            &format!(
                "  run us-men 9 widths D\n  upper {{ seam back {{ joins quarter; rows 3; pitch {spi} spi; thread bonded-69; needle 100 Nm; on flat-bed }} }}"
            ),
        )
    };
    let shoe = "early-1900s US government shoe specification";
    assert!(!says(&seam("14"), "jaw/pitch", "back"), "T13: 14 spi in three rows was sewn ({shoe})");
    assert!(says(&seam("14.25"), "jaw/pitch", "back"), "the flat-bed ends at 14");
    let heavy = Window { lo: 5.0, hi: 8.0 };
    let found = number(&figures(&trial("", ""), "9 D"), "sole.pitch");
    assert!(heavy.holds(found), "T14: heavy nylon at 5 to 8 spi (US Army TM 10-1670-298-20&P, table 2-3), not {found}");
}

#[test]
fn a_line_that_closes_on_itself() {
    let source = "MIL-DTL-44105C para 3.7.3.1";
    for spi in [4.0, 5.0, 6.5, 8.0] {
        let figures = figures(&trial("", &format!("  bottom {{ sole sewn {{ all-round; pitch {spi} spi }} }}")), "9 D");
        let (pitch, over) = (number(&figures, "sole.row-1.pitch"), count(&figures, "sole.row-1.overlap"));
        #[expect(clippy::cast_precision_loss, reason = "a few")]
        let (sewn, one_less) = (over as f64 * pitch, (over as f64 - 1.0) * pitch);
        assert!(
            sewn >= IN / 2.0 - 1e-6 && one_less < IN / 2.0,
            "T15: {over} stitches of {pitch} at {spi} spi ({source})"
        );
    }
    let open = figures(&trial("", ""), "9 D");
    assert!(open.get("sole.row-1.overlap").is_none(), "rows that start and stop lie over nothing");
}

#[test]
fn a_bond_is_peeled_where_it_holds_alone() {
    let source = "ISO 17708:2018, abstract, note 2";
    let samples = |through: &str| {
        let boot = trial("", &format!("  bottom {{ sole sewn {{ through {through} }} }}"));
        figures(&boot, "9 D").get("route.peel-samples").is_some()
    };
    assert!(!samples("outsole"), "C3: not asked for where the sole is stitched on ({source})");
    assert!(samples("midsole"), "C3: asked for where it is not ({source})");
}

/// A lap of the widths that are taught, its under edge skived to nothing and its top edge to half.
#[test]
fn a_lap_as_it_is_taught() {
    let source =
        "footwear-technology notes; a shoemaking course; Golding 1902 (under part to a feather edge), second-hand";
    let leather = "upper-leather two { substance 2 mm }";
    let lap = |under: &str, top: &str| {
        let skives = format!("skive vamp {{ edge wide 5 mm to {top} }}; skive quarter {{ edge wide 5 mm to {under} }}");
        let differs = format!(
            "  run us-men 9 widths D
  upper {{
    part vamp {{ of two; pieces 1; area 6 dm2 }}
    part quarter {{ of two; pieces 2; area 3.5 dm2 }}
    lap vamp over quarter {{ wide 7 mm; rows 1 first 2.5 mm; {skives} }}
  }}"
        );
        trial(leather, &differs)
    };
    let taught = lap("0 mm", "1 mm");
    for rule in ["upper/row-edge", "upper/least-substance", "upper/weakened", "upper/step", "upper/sews"] {
        assert!(!says(&taught, rule, "vamp over quarter"), "C4: {rule} refuses it ({source})");
    }
    // 2.5 from the top edge the vamp is half-way up from 1 to 2; there the quarter, 4.5 from its own edge, is 1.8 of 2.
    let found = figures(&taught, "9 D");
    published("C4", "leather under its row", 1.5 + 1.8, 0.0, source)
        .is(spread(&found, "lap.vamp.quarter.thickest").nominal);
}

/// Whether the claim of 8 inches fails, and in which of the sizes 6, 9, 12.
fn short_of_eight_inches(shaft: &str, measured: &str) -> Vec<bool> {
    let differs = format!(
        "  run us-men 6..12 by 3 widths D
  upper {{ shaft {shaft} grade 2 mm }}
  claims {{ height 203.2 mm measured {measured} }}"
    );
    let (_, checked) = check(&trial("", &differs), &AllSizes);
    let found =
        checked.findings.iter().find(|finding| finding.name == "claim/height" && finding.subject().contains("trial"));
    let short = found.and_then(|finding| finding.sizes.as_ref()).map(|sizes| sizes.holds.clone()).unwrap_or_default();
    let short: Vec<String> = short.iter().map(ToString::to_string).collect();
    ["6 D", "9 D", "12 D"].iter().map(|size| short.iter().any(|known| known == size)).collect()
}

#[test]
fn eight_inches_by_both_datums() {
    let source = "equipment list 01WF-01-BOOT citing NFPA 1977; agency minimum, second-hand";
    published("C9", "8 in", 203.0, 0.2, source).is(203.2);
    // The same shaft stands on what lies under the foot: one datum passes what the other fails, and small sizes fail first.
    assert_eq!(short_of_eight_inches("199 mm", "inside"), [true, true, false], "C9 inside ({source})");
    assert_eq!(short_of_eight_inches("199 mm", "from-heel"), [false; 3], "C9 from the heel ({source})");
    assert_eq!(short_of_eight_inches("166 mm", "from-heel"), [true, false, false], "C9 from the heel ({source})");
    assert_eq!(short_of_eight_inches("209.2 mm", "inside"), [false; 3], "C9 inside, the 6 exactly ({source})");
}

/// A part of that leather, and its substance in the figures.
fn part_of(substance: &str) -> f64 {
    let stock = format!("upper-leather other {{ substance {substance} }}");
    let boot = trial(&stock, "  upper { part front { of other; pieces 1; area 3 dm2 } }");
    number(&figures(&boot, "9 D"), "part.front.substance")
}

#[test]
fn leathers_of_a_government_boot() {
    let source = "A-A-59530A (22 May 2000) 3.1.1, 3.1.2";
    // The ends as ounces and as they are printed in mm.
    let upper = Window { lo: part_of("4 1/2 oz"), hi: part_of("6 oz") };
    published("C1", "4 1/2 oz", 1.79, 0.005, source).is(upper.lo);
    published("C1", "6 oz", 2.38, 0.005, source).is(upper.hi);
    for (ounces, inside) in [("4 oz", false), ("5 oz", true), ("7 oz", false)] {
        assert_eq!(upper.holds(part_of(ounces)), inside, "C1: {ounces} in {upper:?} ({source})");
    }
    // The demo's tongue, lining and collar are leathers that it allows, at both ends.
    let demo = figures(&trial("", ""), "9 D");
    for (part, least, most) in
        [("tongue", "2 1/4 oz", "3 1/2 oz"), ("vamp-lining", "2 oz", "3 1/2 oz"), ("collar-band", "2 oz", "3 oz")]
    {
        let window = Window { lo: part_of(least), hi: part_of(most) };
        let delivered = spread(&demo, &format!("part.{part}.substance"));
        let fits = window.holds(delivered.lo) && window.holds(delivered.hi);
        assert!(fits, "C2, {part}: {delivered:?} in {window:?} ({source})");
    }
}

/// The inset is sought at which the way of the nails is 144.5 mm.
#[test]
fn the_ring_of_heel_nails() {
    let source = "notes on J. Ducker, heel building, second-hand, derived";
    let ring = |inset: f64| {
        let differs = format!("  heel {{ nailed {{ inside-feather {inset:.4} mm; apart 1/2 in }} }}");
        figures(&trial("", &differs), "9 D")
    };
    let (mut near, mut far) = (1.0, 25.0);
    assert!(number(&ring(near), "heel-nails.way") > 144.5 && number(&ring(far), "heel-nails.way") < 144.5);
    for _ in 0..14 {
        let middle = f64::midpoint(near, far);
        if number(&ring(middle), "heel-nails.way") > 144.5 { near = middle } else { far = middle }
    }
    let found = ring(far);
    published("C5", "the way", 144.5, 0.01, source).is(number(&found, "heel-nails.way"));
    #[expect(clippy::cast_precision_loss, reason = "a dozen")]
    published("C5", "nails on it", 12.0, 0.0, source).is(count(&found, "heel-nails.count") as f64);
    published("C5", "1/4 in", 6.35, 0.0, source).is(number(&figures(&trial("", ""), "9 D"), "heel-nails.inside-edge"));
}

/// The steps named, in the order of work of the demo model.
fn in_order(steps: &[&str]) -> bool {
    let figures = figures(&trial("", ""), "9 D");
    let Datum::Texts(order) = &figures.get("route.steps").expect("it has an order").datum else { return false };
    let places: Vec<usize> =
        steps.iter().map(|step| order.iter().position(|known| known == step).expect("a step")).collect();
    places.is_sorted()
}

#[test]
fn the_order_of_work() {
    let through = ["fix-insole", "last", "pull-last", "sew-forefoot", "sew-sole"];
    assert!(in_order(&through), "C7: the last is pulled before a seam goes through (W. H. Dooley, 1912)");
    let bottoming = ["rough-round", "sew-sole", "build-heel", "level", "sand-edge"];
    assert!(in_order(&bottoming), "C8: US War Department TM 10-227 (1941) sec. 16");
}

#[test]
fn lengths_of_nails_and_tacks() {
    let nail = |inches: &str| {
        let stock = format!("nail published {{ lengths {inches} in;  shank 1.8 mm }}\n");
        let differs = format!("  heel {{ nailed {{ base published {inches} in }} }}");
        number(&figures(&trial(&stock, &differs), "9 D"), "heel-nails.base-back")
    };
    for eighths in 4..=8 {
        let value = f64::from(eighths) * 3.175;
        let source = "trade usage, from memory; the conversion is exact";
        published("C11", format!("{eighths}/8"), value, 0.0, source).is(nail(&format!("{eighths}/8")));
    }
    let tacks = [
        (2, "1/4", 4),
        (3, "3/8", 6),
        (4, "7/16", 7),
        (6, "1/2", 8),
        (8, "9/16", 9),
        (10, "5/8", 10),
        (12, "11/16", 11),
        (14, "3/4", 12),
        (16, "13/16", 13),
    ];
    for (number, inches, sixteenths) in tacks {
        let value = f64::from(sixteenths) * 1.5875;
        published("C12", format!("{number} oz"), value, 0.0, "US tack schedule, from memory").is(nail(inches));
    }
}
