//! How long a boot rests where several adhesives are joined in one step: the longest of what is needed, the shortest of what
//! is allowed, by the layers that are joined there.

use crate::common::trial::{figures, trial};
use hobnail::build::{Datum, Figures};

/// Open from and to, press, set, in minutes.
const ADHESIVES: [(&str, f64, f64, f64, f64); 3] =
    [("quick", 5.0, 25.0, 3.0, 600.0), ("slow", 20.0, 50.0, 1.0, 1800.0), ("even", 10.0, 30.0, 2.0, 1200.0)];

fn declared() -> String {
    let said = ADHESIVES.map(|(name, from, to, press, set)| {
        format!(
            "adhesive {name} {{ for soles; coats 2; coverage 180 g/m2; open {from}..{to} minutes; press {press} minutes; set {set} minutes }}\n"
        )
    });
    said.concat()
}

/// A figure as it stands, least and most; `None` where there is none.
fn window(figures: &Figures, key: &str) -> Option<(f64, f64)> {
    Some(match &figures.get(key)?.datum {
        Datum::Window(window) => (window.lo, window.hi),
        Datum::Number(number) => (*number, *number),
        other => panic!("{key} is {other:?}"),
    })
}

#[test]
fn each_step_rests_as_all_of_its_adhesives_ask() {
    for n in 0..27 {
        let pick = |layer: usize| ADHESIVES[(n / [1, 3, 9][layer % 3] + layer) % 3];
        let (shank, pad, midsole, slip, outsole) = (pick(0), pick(1), pick(2), pick(3), pick(4));
        for through in ["midsole", "slip", "outsole"] {
            let bottom = format!(
                "  bottom {{ layer shank {{ bonded {} }}; layer pad {{ bonded {} }}; layer midsole {{ bonded {} }}\n    \
                 layer slip {{ of slip-sheet; covers all; bonded {} }}; layer outsole {{ bonded {} }}\n    \
                 sole sewn {{ through {through} }} }}",
                shank.0, pad.0, midsole.0, slip.0, outsole.0
            );
            let found = figures(&trial(&declared(), &bottom), "9 D");
            let (first, after) = match through {
                "midsole" => (vec![], vec![slip, outsole]),
                "slip" => (vec![slip], vec![outsole]),
                _ => (vec![slip, outsole], vec![]),
            };
            let steps = [("shank", vec![shank, pad]), ("midsole", vec![midsole])];
            let open = [("cement-sole", first.clone()), ("cement-outsole", after.clone())];
            for (step, joined) in steps.into_iter().chain(open) {
                let least = joined.iter().map(|it| it.1).fold(0.0, f64::max);
                let most = joined.iter().map(|it| it.2).fold(f64::MAX, f64::min);
                let asked = (!joined.is_empty()).then_some((least, most));
                let said = window(&found, &format!("route.dwell.{step}.open"));
                assert_eq!(said, asked, "{step} through the {through}, {n}");
            }
            for (step, joined) in [("press", first), ("press-outsole", after)] {
                let longest = |of: fn(&(&str, f64, f64, f64, f64)) -> f64| joined.iter().map(of).reduce(f64::max);
                let once = |value: f64| (value, value);
                let set = longest(|it| it.4).map(once);
                assert_eq!(
                    window(&found, &format!("route.dwell.{step}.set")),
                    set,
                    "{step} through the {through}, {n}"
                );
                let press = longest(|it| it.3).map(once);
                assert_eq!(
                    window(&found, &format!("route.dwell.{step}.press")),
                    press,
                    "{step} through the {through}, {n}"
                );
            }
        }
    }
}
