//! The order of work against a plain list of what must come before what, written by hand from how a boot is made.

use crate::common::chance::Chance;
use crate::common::memory::{Memory, Only};
use crate::common::trial;
use hobnail::build::Datum;
use hobnail::check::Checked;
use hobnail::finding::Severity;
use hobnail::measure::Window;
use rayon::prelude::*;

/// The order of the everyday boot: rows through the outsole.
const SCREE: &[&str] = &[
    "cut",
    "skive",
    "close-back",
    "rub-flat",
    "stay",
    "gusset",
    "counter-cover",
    "close-vamp",
    "collar",
    "facing-rows",
    "mark",
    "hardware",
    "mull",
    "fix-insole",
    "stiffen",
    "wet-last",
    "set-wet",
    "last",
    "cement-lining",
    "flatten-bottom",
    "draw-insole-nails",
    "pull-tacks",
    "release-cut",
    "turn-out",
    "fill",
    "shank",
    "ink-midsole",
    "midsole",
    "nail-waist",
    "pull-last",
    "hammer-points",
    "sew-forefoot",
    "prime-rubber",
    "cement-sole",
    "press",
    "rough-round",
    "sew-sole",
    "trim",
    "build-heel",
    "level",
    "cap",
    "sand-edge",
    "inspect-inside",
    "sock",
    "ink",
    "first-inspection",
    "final-inspection",
];

/// What a boot with all its rows through the slip does besides: the outsole is cemented when the rows are sewn and trimmed.
const CEMENTED: &[&str] = &["cement-outsole", "press-outsole"];

/// The first must come before the second.
const BEFORE: &[(&str, &str)] = &[
    // Nothing is worked that is not cut; nothing is sewn that is still to be skived.
    ("cut", "skive"),
    ("cut", "close-back"),
    ("cut", "gusset"),
    ("cut", "close-vamp"),
    ("cut", "mark"),
    ("cut", "hardware"),
    ("cut", "fix-insole"),
    ("cut", "ink-midsole"),
    ("skive", "close-back"),
    ("skive", "gusset"),
    ("skive", "counter-cover"),
    ("skive", "close-vamp"),
    ("skive", "stiffen"),
    // A seam is rubbed flat before anything lies over it.
    ("close-back", "rub-flat"),
    ("rub-flat", "stay"),
    ("rub-flat", "counter-cover"),
    ("rub-flat", "collar"),
    // The tongue's foot is caught under the vamp.
    ("gusset", "close-vamp"),
    // The upper is closed before it is mulled and lasted.
    ("stay", "mull"),
    ("counter-cover", "mull"),
    ("close-vamp", "mull"),
    ("collar", "mull"),
    ("facing-rows", "mull"),
    ("stay", "wet-last"),
    ("collar", "wet-last"),
    ("mull", "wet-last"),
    ("counter-cover", "stiffen"),
    ("close-vamp", "stiffen"),
    // Stamped and punched while it lies flat.
    ("facing-rows", "wet-last"),
    // A row behind the holes can't be sewn beside hooks.
    ("facing-rows", "hardware"),
    ("cut", "facing-rows"),
    ("mark", "wet-last"),
    ("hardware", "wet-last"),
    // Insole and stiffeners are there before the upper comes over them.
    ("fix-insole", "wet-last"),
    ("stiffen", "wet-last"),
    ("wet-last", "set-wet"),
    ("set-wet", "last"),
    ("last", "cement-lining"),
    ("cement-lining", "flatten-bottom"),
    ("cement-lining", "pull-tacks"),
    ("last", "release-cut"),
    ("pull-tacks", "turn-out"),
    ("release-cut", "turn-out"),
    // The lasted upper holds the insole by then. No pincers get under what is laid over a nail, and a nailed insole holds
    // the last.
    ("last", "draw-insole-nails"),
    ("draw-insole-nails", "fill"),
    ("draw-insole-nails", "shank"),
    ("draw-insole-nails", "midsole"),
    ("draw-insole-nails", "pull-last"),
    // What the midsole covers.
    ("pull-tacks", "midsole"),
    ("flatten-bottom", "fill"),
    ("fill", "midsole"),
    ("flatten-bottom", "shank"),
    ("shank", "midsole"),
    ("turn-out", "midsole"),
    ("ink-midsole", "midsole"),
    // The last is in for the clinches, out for hands and horns; points are flat before a horn.
    ("midsole", "nail-waist"),
    ("nail-waist", "pull-last"),
    ("pull-last", "hammer-points"),
    ("hammer-points", "sew-forefoot"),
    // Nailed and sewn before it is covered; primed, cemented, pressed before it is rounded and sewn.
    ("sew-forefoot", "cement-sole"),
    ("prime-rubber", "cement-sole"),
    ("cement-sole", "press"),
    ("press", "rough-round"),
    ("rough-round", "sew-sole"),
    ("sew-sole", "trim"),
    ("trim", "cement-outsole"),
    ("cement-outsole", "press-outsole"),
    ("press-outsole", "build-heel"),
    // The rows' ends lie under the base; the base is level before its cap.
    ("sew-sole", "build-heel"),
    ("build-heel", "level"),
    ("level", "cap"),
    ("cap", "sand-edge"),
    ("trim", "sand-edge"),
    ("sand-edge", "ink"),
    // Felt inside when all nails are in, and before the sock covers them.
    ("cap", "inspect-inside"),
    ("inspect-inside", "sock"),
    ("sock", "final-inspection"),
    ("ink", "final-inspection"),
    ("sand-edge", "first-inspection"),
    ("first-inspection", "final-inspection"),
];

/// What a boot can do without.
const CAN_BE_SKIPPED: &[&str] =
    &["mark", "hardware", "set-wet", "ink-midsole", "sock", "ink", "first-inspection", "final-inspection"];

fn default_of(model: &str) -> Vec<&'static str> {
    let mut steps = SCREE.to_vec();
    if model == "cairn-10" {
        let at = 1 + steps.iter().position(|step| *step == "trim").expect("it is trimmed");
        steps.splice(at..at, CEMENTED.iter().copied());
    }
    steps
}

fn broken(steps: &[&str]) -> bool {
    let at = |name: &str| steps.iter().position(|step| *step == name);
    BEFORE
        .iter()
        .any(|(first, second)| matches!((at(first), at(second)), (Some(first), Some(second)) if first > second))
}

fn with_route(demo: &Memory, model: &str, route: &str) -> Checked {
    let path = "specs/refused/routed.hob";
    let text =
        format!("use \"../models/{model}.hob\"\nmodel routed like {model} {{ revision 1; route {{ {route} }} }}\n");
    demo.with(path, text).check(&[path], &Only("9 D")).1
}

fn named<'c>(checked: &'c Checked, rule: &str) -> Vec<&'c str> {
    let refused = checked.findings.iter().filter(|finding| finding.severity <= Severity::Refused);
    refused.filter(|finding| finding.name == rule).map(|finding| finding.message.as_str()).collect()
}

fn texts(checked: &Checked, key: &str) -> Vec<String> {
    let model = checked.models.iter().find(|model| model.name == "routed").expect("the model is checked");
    let figures = checked.figured(model).into_iter().next().expect("it is built in 9 D").figures;
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Texts(texts)) => texts.clone(),
        other => panic!("{key} is {other:?}"),
    }
}

#[test]
fn the_default_is_the_one_written_here() {
    let demo = Memory::demo();
    for model in ["scree-8", "cairn-10"] {
        let checked = with_route(&demo, model, "");
        assert_eq!(texts(&checked, "route.steps"), default_of(model));
        assert_eq!(texts(&checked, "route.stations").len(), default_of(model).len());
        assert!(!broken(&default_of(model)));
    }
}

#[test]
fn any_one_move_is_refused_exactly_where_an_order_is_broken() {
    let demo = Memory::demo();
    let mut counts = [0, 0];
    for (seed, model) in [(1, "scree-8"), (2, "cairn-10")] {
        let default = default_of(model);
        let mut chance = Chance::new(seed);
        // Every other move is a short one: those are often harmless.
        let mut to = |step: usize, n: usize| match n % 2 {
            0 => chance.below(default.len()),
            _ => (step + chance.below(7)).saturating_sub(3).min(default.len() - 1),
        };
        let moves: Vec<(usize, usize, bool)> = (0..160)
            .map(|n| (n * 11 % default.len(), to(n * 11 % default.len(), n), n % 3 == 0))
            .filter(|(step, other, _)| step != other)
            .collect();
        let judged: Vec<bool> = moves
            .par_iter()
            .map(|&(step, other, after)| {
                let (step, other) = (default[step], default[other]);
                let mut steps = default.clone();
                steps.retain(|known| *known != step);
                let at = steps.iter().position(|known| *known == other).expect("it is another");
                steps.insert(if after { at + 1 } else { at }, step);
                let edit = format!("step {step} {} {other}", if after { "after" } else { "before" });
                let checked = with_route(&demo, model, &edit);
                assert_eq!(texts(&checked, "route.steps"), steps, "{model}: {edit}");
                let found = named(&checked, "route/order");
                assert_eq!(!found.is_empty(), broken(&steps), "{model}: {edit}: {found:?}");
                broken(&steps)
            })
            .collect();
        for broken in judged {
            counts[usize::from(broken)] += 1;
        }
    }
    // Both happen often, or the test says nothing.
    assert!(counts.iter().all(|count| *count > 50), "{counts:?}");
}

#[test]
fn a_step_left_out_is_refused_where_something_needs_it() {
    let demo = Memory::demo();
    default_of("cairn-10").par_iter().for_each(|step| {
        let checked = with_route(&demo, "cairn-10", &format!("skip {step}"));
        let found = named(&checked, "route/skipped");
        assert_eq!(found.is_empty(), CAN_BE_SKIPPED.contains(step), "{step}: {found:?}");
        assert_eq!(named(&checked, "route/order"), [""; 0], "{step}");
    });
}

#[test]
fn a_finding_names_who_took_it_and_who_comes_too_late() {
    let demo = Memory::demo();
    let says = |route: &str, rule: &str, said: &str| {
        let checked = with_route(&demo, "scree-8", route);
        let found = named(&checked, rule);
        assert!(found.iter().any(|message| message.contains(said)), "{route}: {found:?}");
    };
    says(
        "step nail-waist after pull-last",
        "route/order",
        "`nail-waist` needs the last in the boot: `pull-last` has taken that away",
    );
    says(
        "step stay before rub-flat",
        "route/order",
        "`stay` needs the back seam rubbed flat: `rub-flat` comes too late",
    );
    says(
        "step hardware after last",
        "route/order",
        "`hardware` needs the parts still lying flat: `wet-last` has taken that away",
    );
    says("step sock before inspect-inside", "route/order", "`inspect-inside` comes too late");
    says(
        "step hammer-points after sew-forefoot",
        "route/order",
        "`sew-forefoot` needs no nail points standing up inside: `nail-waist` has taken that away and `hammer-points` comes too late",
    );
    says(
        "step pull-tacks after midsole",
        "route/order",
        "`midsole` needs the lasting tacks drawn: `pull-tacks` comes too late",
    );
    says("step draw-insole-nails after midsole", "route/order", "`midsole` needs the insole nails drawn");
    says("skip draw-insole-nails", "route/skipped", "`pull-last` needs the insole nails drawn");
    says("skip press", "route/skipped", "`rough-round` needs the bond pressed and set: `press` is left out");
}

#[test]
fn a_machine_with_a_horn_wants_points_flat_and_the_last_out() {
    let demo = Memory::demo();
    let shop = demo.text("specs/shop.hob").replace("table-nose 8 mm", "table-nose 8 mm; shafts 300 mm");
    let model = demo.text("specs/models/scree-8.hob");
    let start = model.find("    forefoot sewn {").expect("it has a forefoot");
    let end = start + model[start..].find("    }\n").expect("it ends") + 6;
    let unsewn = format!("{}{}", &model[..start], &model[end..]);
    let demo = demo.with("specs/models/scree-8.hob", unsewn);
    let route = "step pull-last after trim; step hammer-points after pull-last";
    assert_eq!(named(&with_route(&demo, "scree-8", route), "route/order"), [""; 0]);
    let found = with_route(&demo.with("specs/shop.hob", shop), "scree-8", route);
    let found = named(&found, "route/order");
    assert!(found.iter().any(|message| message.contains("`sew-sole` needs the last out of the boot")), "{found:?}");
}

#[test]
fn steps_of_the_shop_stand_where_they_are_put() {
    let demo = Memory::demo();
    let checked =
        with_route(&demo, "scree-8", "add \"oil the tongue\" after gusset; add \"weigh it\" before final-inspection");
    let (steps, benches) = (texts(&checked, "route.steps"), texts(&checked, "route.stations"));
    let at = |name: &str| steps.iter().position(|step| step == name).expect("the step is there");
    assert_eq!(at("oil the tongue"), at("gusset") + 1);
    assert_eq!(at("weigh it") + 1, at("final-inspection"));
    assert_eq!(benches[at("oil the tongue")], "closing");
    assert_eq!(named(&checked, "route/order"), [""; 0]);
}

#[test]
fn light_leather_is_not_mulled_unless_the_model_says_so() {
    let demo = Memory::demo();
    let path = "specs/models/scree-8.hob";
    let unsaid = demo.with(path, demo.text(path).replace("    mulled 8..16 hours\n", ""));
    let steps = texts(&with_route(&unsaid, "scree-8", ""), "route.steps");
    assert!(!steps.iter().any(|step| step == "mull"));
    let stock = demo.text("specs/stock.hob").replace("substance 6..7 oz", "substance 6.5..7.5 oz");
    let steps = texts(&with_route(&unsaid.with("specs/stock.hob", stock), "scree-8", ""), "route.steps");
    assert!(steps.iter().any(|step| step == "mull"), "7 oz is mulled");
}

#[test]
fn the_least_rest_refuses_and_the_most_of_a_sole_bond() {
    let demo = Memory::demo();
    let verdicts = |route: &str| {
        let checked = with_route(&demo, "cairn-10", route);
        let of = |severity: Severity| {
            checked.findings.iter().filter(|it| it.severity == severity && it.name == "route/dwell").count()
        };
        (of(Severity::Refused), of(Severity::Note))
    };
    assert_eq!(verdicts(""), (0, 0));
    assert_eq!(verdicts("dwell cement-outsole 15..40 minutes; dwell press-outsole 24 hours"), (0, 0));
    assert_eq!(verdicts("dwell cement-outsole 14..40 minutes"), (1, 0));
    // A skin has formed on the film: nothing else holds this outsole. A shank is between insole and midsole.
    assert_eq!(verdicts("dwell cement-outsole 15..41 minutes"), (1, 0));
    assert_eq!(verdicts("dwell cement-sole 15..41 minutes; dwell midsole 15..41 minutes"), (2, 0));
    assert_eq!(verdicts("dwell shank 15..41 minutes"), (0, 1));
    assert_eq!(verdicts("dwell press-outsole 23 hours"), (1, 0));
    assert_eq!(verdicts("dwell press 23 hours; dwell press-outsole 30 hours"), (1, 0));
}

#[test]
fn what_was_wet_dries_on_the_last_mulled_or_not() {
    let demo = Memory::demo();
    let path = "specs/models/scree-8.hob";
    let refused = |spread: &str, mulled: bool, hours: &str, route: &str| {
        let stock = demo.text("specs/stock.hob").replace("substance 6..7 oz", &format!("substance {spread}"));
        let mut model = demo.text(path).replace("on-the-last 24..72 hours", &format!("on-the-last {hours} hours"));
        if !mulled {
            model = model.replace("    mulled 8..16 hours\n", "");
        }
        let shop = demo.clone().with("specs/stock.hob", stock).with(path, model);
        !named(&with_route(&shop, "scree-8", route), "route/dwell").is_empty()
    };
    // 24 hours for whatever is wet-lasted, 48 from 7 oz: common practice, no source.
    for mulled in [true, false] {
        for (spread, least) in [("6..7 oz", 24), ("6.5..7.49 oz", 24), ("6.5..7.5 oz", 48), ("7..8 oz", 48)] {
            assert!(!refused(spread, mulled, &format!("{least}..96"), ""), "{spread}, {mulled}: {least}");
            let short = f64::from(least) - 0.5;
            assert!(refused(spread, mulled, &format!("{short}..96"), ""), "{spread}, {mulled}: {short}");
        }
    }
    // Leather that nothing has wetted has nothing to dry; what is mulled is wet.
    assert!(!refused("6..7 oz", false, "2..96", "skip wet-last; skip set-wet"));
    assert!(refused("6..7 oz", true, "2..96", "skip wet-last; skip set-wet"));
}

#[test]
fn a_step_is_there_if_the_model_has_what_it_does() {
    let steps = |differs: &str| match &trial::figures(&trial::trial("", differs), "9 D")
        .get("route.steps")
        .expect("steps")
        .datum
    {
        Datum::Texts(steps) => steps.clone(),
        other => panic!("{other:?}"),
    };
    let whole = steps("");
    let bare = "lap vamp over quarter { without skive quarter; without skive vamp }; lap counter-cover over quarter { without skive \
                quarter; without skive counter-cover }";
    let bare_laps = format!("upper {{ {bare} }}");
    let nothing_skived = format!("upper {{ {bare}; counter {{ without skived }}; puff {{ without skived }} }}");
    // What differs, and the steps that go with it.
    let cases: [(&str, &[&str]); 15] = [
        ("finish { edge natural }", &["ink", "ink-midsole"]),
        ("finish { sock-lining none }", &["sock"]),
        ("upper { facing { without hooks } }", &[]),
        ("upper { facing { without eyelets } }", &[]),
        ("upper { facing { without eyelets; without hooks } }", &["hardware"]),
        ("upper { facing { without rows } }", &["facing-rows"]),
        ("upper { without mark }", &["mark"]),
        ("upper { without collar }", &["collar"]),
        ("upper { without lap counter-cover }", &["counter-cover"]),
        ("upper { without stay back-stay }", &["stay"]),
        (&bare_laps, &[]),
        ("upper { counter { without skived }; puff { without skived } }", &[]),
        (&nothing_skived, &["skive"]),
        ("bottom { without waist; seat nailed { with clinching; inside-feather 10 mm; apart 12 mm } }", &[]),
        ("upper { lap counter-cover over quarter { enters-turnout outside 30 % } }", &["counter-cover"]),
    ];
    for (differs, gone) in cases {
        let wanted: Vec<String> = whole.iter().filter(|step| !gone.contains(&step.as_str())).cloned().collect();
        assert_eq!(steps(&format!("  {differs}")), wanted, "{differs}");
    }
    // Cemented before the rows are sewn, or after, or some of each.
    let slip = "layer slip { of slip-sheet; covers all; bonded neoprene }";
    for (through, before, after) in [("outsole", true, false), ("slip", true, true), ("midsole", false, true)] {
        let found = steps(&format!("  bottom {{ {slip}; sole sewn {{ through {through} }} }}"));
        let has = |step: &str| found.iter().any(|known| known == step);
        assert_eq!(has("cement-sole") && has("press"), before, "{through}: {found:?}");
        assert_eq!(has("cement-outsole") && has("press-outsole"), after, "{through}: {found:?}");
    }
}

#[test]
fn a_rest_of_one_length_is_a_number_and_one_of_two_a_window() {
    let rest = |differs: &str| {
        let found = trial::figures(&trial::trial("", differs), "9 D");
        found.get("route.dwell.mull.rest").expect("it is mulled").datum.clone()
    };
    assert_eq!(rest(""), Datum::Window(Window { lo: 480.0, hi: 960.0 }));
    for said in ["10 hours", "10..10 hours"] {
        assert_eq!(rest(&format!("  lasting {{ mulled {said} }}")), Datum::Number(600.0), "{said}");
    }
}

#[test]
fn what_is_critical_is_what_there_is_of_the_bond() {
    let critical = |differs: &str| {
        let found = trial::figures(&trial::trial("", differs), "9 D");
        match found.get("route.critical").map(|figure| &figure.datum) {
            Some(Datum::Texts(steps)) => steps.clone(),
            _ => Vec::new(),
        }
    };
    let leather = "layer outsole { of bend 10 iron; ends full; bonded neoprene }";
    assert!(critical("").is_empty(), "the rows hold the outsole");
    assert_eq!(
        critical("  bottom { sole sewn { through midsole } }"),
        ["prime-rubber", "cement-outsole", "press-outsole"]
    );
    let found = critical(&format!("  bottom {{ without layer pad; {leather}; sole sewn {{ through midsole }} }}"));
    assert_eq!(found, ["cement-outsole", "press-outsole"]);
}

#[test]
fn the_inside_is_felt_by_hand_after_every_step_that_may_leave_a_point() {
    let felt = |differs: &str| {
        let found = trial::figures(&trial::trial("", differs), "9 D");
        match found.get("route.felt").map(|figure| &figure.datum) {
            Some(Datum::Texts(steps)) => steps.clone(),
            _ => Vec::new(),
        }
    };
    // After clinching, the forefoot row, the base and the cap: common practice, no source.
    assert_eq!(felt(""), ["hammer-points", "sew-forefoot", "build-heel", "cap"]);
    assert_eq!(felt("  heel { without nailed }"), ["hammer-points", "sew-forefoot", "build-heel", "cap"]);
    assert_eq!(felt("  bottom { without waist }"), ["build-heel", "cap"]);
}
