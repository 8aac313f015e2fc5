//! Shaft, facing and strength of the demo in three sizes, worked by hand.

use crate::common::memory::{Memory, Only, faults};
use hobnail::build::{Datum, Figures};
use hobnail::finding::{FaultName, Severity};

fn figures(demo: &Memory, path: &str, name: &str, size: &'static str) -> Figures {
    let (_, checked) = demo.check(&[path], &Only(size));
    let model = checked.models.iter().find(|model| model.name == name).expect("the model is built");
    checked.figured(model)[0].figures.clone()
}

fn numbers(figures: &Figures, key: &str) -> Vec<f64> {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Number(number)) => vec![*number],
        Some(Datum::Numbers(numbers)) => numbers.clone(),
        Some(Datum::Spread(spread)) => vec![spread.lo, spread.nominal, spread.hi],
        other => panic!("{key} is {other:?}"),
    }
}

fn assert_near(found: &[f64], wanted: &[f64], what: &str) {
    let near = found.len() == wanted.len() && found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-6);
    assert!(near, "{what}: {found:?}, by hand {wanted:?}");
}

const SCREE: &str = "specs/models/scree-8.hob";

#[test]
fn the_shaft_by_both_datums() {
    // Insole 8 iron and midsole 12 iron, each +- 0.5 iron; outsole 4.5 +- 0.3 and 3.0 +- 0.2; seat height 20.
    let (iron, seat) = (25.4 / 48.0, 20.0);
    let under = seat + 20.0 * iron + 7.5;
    let half = iron + 0.5;
    for (size, inside) in [("6 D", 159.0), ("9 D", 165.0), ("9.5 D", 166.0), ("14 D", 175.0)] {
        let figures = figures(&Memory::demo(), SCREE, "scree-8", size);
        assert_near(&numbers(&figures, "shaft.inside"), &[inside], size);
        // On the last the back is drafted to the shaft's height, and grows with it.
        assert_near(&numbers(&figures, "lasting.back-height"), &[inside], size);
        let high = inside + under;
        assert_near(&numbers(&figures, "shaft.from-heel"), &[high - half, high, high + half], size);
    }
}

#[test]
fn what_the_facing_grows_by_is_shared_out() {
    // Hooks 4 by 20 and eyelets 5 by 18 from 12 on: 12 + 3 * 20 + 5 * 18 = 162 in the base size.
    for (size, grown) in [("6 D", -6.0), ("9 D", 0.0), ("14 D", 10.0)] {
        let figures = figures(&Memory::demo(), SCREE, "scree-8", size);
        let factor = (150.0 + grown) / 150.0;
        let gaps: Vec<f64> = [20.0, 20.0, 20.0, 18.0, 18.0, 18.0, 18.0, 18.0].iter().map(|gap| gap * factor).collect();
        assert_near(&numbers(&figures, "facing.gaps"), &gaps, size);
        assert_near(&numbers(&figures, "facing.long"), &[175.0 + grown], size);
        assert_near(&numbers(&figures, "facing.last"), &[162.0 + grown], size);
        // Half of an eyelet's hole is 2.5; the least is between two of them.
        assert_near(&numbers(&figures, "facing.web-holes"), &[18.0 * factor - 5.0], size);
        assert_near(&numbers(&figures, "facing.web-edge"), &[13.0 - 2.5], size);
        assert_near(&numbers(&figures, "facing.web-row"), &[21.0 - 13.0 - 2.5], size);
        // The top hook has a hole of 4 and stands 12 from the top: 10. The end is 13 from the last eyelet: 10.5.
        assert_near(&numbers(&figures, "facing.web-ends"), &[10.0], size);
    }
}

#[test]
fn the_weaker_of_thread_and_leather_is_the_strength_of_a_row() {
    let variant = |holds: &str| {
        format!(
            "use \"scree-8.hob\"\nupper-leather weak {{ substance 6..7 oz;  holds {holds} N }}\n\
             model torn like scree-8 {{\n  revision 1\n  upper {{ part vamp {{ of weak }} }}\n}}\n"
        )
    };
    // A stitch of bonded-346 holds 1.5 * 249 = 373.5 N.
    for (holds, newtons, gives_way) in [("180", 180.0, "weak"), ("400", 373.5, "thread")] {
        let path = "specs/models/torn.hob";
        let figures = figures(&Memory::demo().with(path, variant(holds)), path, "torn", "9 D");
        // Each row by its own stitch: 100 on the outer, 98 on the inner row, asked for at 5 to the inch.
        let mut weakest = f64::MAX;
        for (row, stitches) in [(1, 100.0), (2, 98.0)] {
            let pitch = numbers(&figures, &format!("sole.row-{row}.length"))[0] / stitches;
            assert!((pitch - 5.08).abs() > 0.004, "it is not what was asked for");
            assert_near(&numbers(&figures, &format!("sole.row-{row}.strength")), &[newtons / pitch], holds);
            weakest = weakest.min(newtons / pitch);
        }
        assert_near(&numbers(&figures, "sole.strength"), &[weakest], holds);
        let text = figures.get("sole.gives-way").map(|figure| figure.datum.clone());
        assert_eq!(text, Some(Datum::Text(gives_way.to_owned())));
    }
}

#[test]
fn a_height_is_not_claimed_of_a_boot_that_does_not_say_how_high_it_is() {
    let text = Memory::demo().text(SCREE).replace("    shaft 165 mm grade 2 mm ", "    ");
    let loaded = Memory::demo().with(SCREE, text).load(&[SCREE]);
    let found = faults(&loaded);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!((found[0].severity, found[0].name), (Severity::Fault, FaultName::STATEMENT_MISSING.0));
    assert!(found[0].message.contains("`shaft`"), "{}", found[0].message);
}
