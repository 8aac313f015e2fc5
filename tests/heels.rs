//! The heel's choices worked out again, plainly: the next thinner lift, and what the bottom's layers are sorted to.

#[path = "common/memory.rs"]
mod memory;
#[path = "common/trial.rs"]
mod trial;

use hobnail::build::{Build, Datum, Plan};
use hobnail::finding::Severity;
use memory::{Memory, Only};
use trial::{check, figures, number, trial};

const IRON: f64 = 25.4 / 48.0;

fn built<T>(memory: &Memory, look: impl FnOnce(&Build<'_>) -> T) -> T {
    let (_, checked) = check(memory, &Only("9 D"));
    let world = &checked.worlds[0];
    let shop = world.shop.as_ref().expect("the demo has a shop");
    let model = checked.models.iter().find(|model| model.name == "trial").expect("it is there");
    let plan = Plan::new(&world.models[model.place.1], shop);
    look(&plan.build(model.sizes[0].size))
}

/// Lifts and thin lifts by iron, each of a stock of its own.
struct Base {
    lifts: (u32, f64, &'static [f64]),
    thin: (u32, f64, &'static [f64]),
}

impl Base {
    fn memory(&self) -> Memory {
        let stock = |name: &str, substances: &[f64]| {
            let said: Vec<String> = substances.iter().map(f64::to_string).collect();
            format!("lift {name} {{ substances {} iron }}\n", said.join(", "))
        };
        let (lifts, thin) = (self.lifts, self.thin);
        let declared = stock("slab", lifts.2) + &stock("shim", thin.2);
        let mut heel = format!("    lifts {} of slab {} iron\n", lifts.0, lifts.1);
        if thin.0 > 0 {
            heel += &format!("    thin-lifts {} of shim {} iron\n", thin.0, thin.1);
        }
        trial(&declared, &format!("  heel {{\n{heel}  }}"))
    }

    /// What the cheapest step down saves: each kind that is used, down to the greatest stocked that is thinner.
    fn saves(&self) -> Option<(f64, f64)> {
        let kinds = [self.lifts, self.thin].into_iter().filter(|(count, ..)| *count > 0);
        let steps = kinds.filter_map(|(_, from, stocked)| {
            let below = stocked.iter().copied().filter(|iron| *iron < from).fold(0.0, f64::max);
            (below > 0.0).then_some((from, below))
        });
        steps.min_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)))
    }
}

#[test]
fn the_next_thinner_lift_is_the_one_that_saves_least_and_may_go_if_the_thin_end_still_reaches() {
    let bases = [
        Base { lifts: (2, 12.0, &[12.0, 9.0, 6.0]), thin: (0, 3.0, &[3.0]) },
        Base { lifts: (2, 12.0, &[12.0, 9.0, 6.0]), thin: (1, 6.0, &[6.0, 5.0, 4.0]) },
        Base { lifts: (2, 12.0, &[12.0, 11.0]), thin: (1, 8.0, &[8.0, 4.0]) },
        Base { lifts: (2, 12.0, &[12.0]), thin: (1, 4.0, &[4.0, 2.0]) },
        Base { lifts: (2, 12.0, &[12.0]), thin: (0, 4.0, &[4.0]) },
        Base { lifts: (3, 10.0, &[14.0, 10.0, 9.5]), thin: (0, 4.0, &[4.0]) },
        Base { lifts: (3, 9.0, &[9.0, 8.0]), thin: (1, 9.0, &[9.0, 7.5, 3.0]) },
    ];
    let (mut reach, mut miss) = (0, 0);
    for base in bases {
        built(&base.memory(), |build| {
            let heel = build.heel.as_ref().expect("a heel").as_ref().expect("built");
            let found = heel.thinner.map(|thinner| (thinner.from, thinner.to));
            let Some((from, to)) = base.saves() else { return assert_eq!(found, None) };
            let (found_from, found_to) = found.expect("one is thinner");
            assert!((found_from - from * IRON).abs() < 1e-9, "from {from} iron, not {found_from} mm");
            assert!((found_to - to * IRON).abs() < 1e-9, "to {to} iron, not {found_to} mm");
            // Built to the gauge: half a mm either way, and the block and the cap as thick as they come.
            let over = heel.given.spread().lo - heel.needed.spread().hi;
            let reaches = (from - to) * IRON <= over + 1e-9;
            assert_eq!(heel.thinner.expect("one").reaches, reaches, "{over} over");
            if reaches { reach += 1 } else { miss += 1 }
        });
    }
    assert!(reach > 0 && miss > 0, "{reach} reach, {miss} do not");
}

#[test]
fn layers_are_sorted_to_what_the_upper_s_thick_end_leaves() {
    let mut sorted = 0;
    for tenths in 40..80 {
        // A midsole from where everything passes to where nothing does.
        let midsole = f64::from(tenths) / 10.0;
        let stock = format!("sole-leather card {{ substances {midsole} mm; tolerance 0.3 mm }}");
        let memory = trial(&stock, &format!("  bottom {{ layer midsole {{ of card {midsole} mm }} }}"));
        let found = figures(&memory, "9 D");
        let worst = found.get("stack.worst").and_then(|figure| figure.sum.as_ref()).expect("a sum");
        let sews = number(&found, "sole.sews");
        let of = |upper: bool| {
            let terms = worst.terms.iter();
            terms.filter(move |term| ["vamp", "quarter"].iter().any(|part| term.what.starts_with(part)) == upper)
        };
        let most = sews - of(true).map(|term| term.spread.hi).sum::<f64>();
        let least: f64 = of(false).map(|term| term.spread.lo).sum();
        let tight = worst.nominal() <= sews + 1e-9 && worst.spread().hi > sews + 1e-9;
        let said = found.get("stack.sort-to").map(|_| number(&found, "stack.sort-to"));
        if !tight || least > most {
            assert_eq!(said, None, "{midsole} mm");
            continue;
        }
        sorted += 1;
        assert!((said.expect("it is tight") - most).abs() < 1e-9, "{midsole} mm: {said:?}, not {most}");
        let Some(Datum::Texts(what)) = found.get("stack.sort").map(|figure| &figure.datum) else { panic!("no list") };
        assert_eq!(what, &["midsole", "outsole"], "{midsole} mm");
        let (_, checked) = check(&memory, &Only("9 D"));
        let jaw = checked.findings.iter().find(|it| it.name == "jaw/sole-stack").expect("it is said");
        // Where almost no boot fails it is a note. What is sorted to is said in tenths, none too many.
        assert!(matches!(jaw.severity, Severity::Tight | Severity::Note), "{midsole} mm");
        let sort = format!("midsole and outsole together at most {}", (most * 10.0).floor() / 10.0);
        assert!(jaw.notes.iter().any(|note| note.contains(&sort)), "{midsole} mm: {sort} in {:?}", jaw.notes);
    }
    assert!(sorted >= 5, "{sorted} are sorted");
}
