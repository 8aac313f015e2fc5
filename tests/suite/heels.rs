//! The heel's choices worked out again, plainly: the next thinner lift, and what the bottom's layers are sorted to.

use crate::common::case;
use crate::common::chance::Chance;
use crate::common::memory::{Memory, Only};
use crate::common::trial::{TRIAL, built, check, figures, judged, number, trial};
use hobnail::build::{Datum, Figures, Place};
use hobnail::check::{AllSizes, Notice};
use hobnail::finding::{Measured, Piece, Remedy, Severity};
use hobnail::remedy::remedies;
use hobnail::rules::Judgement;

const IRON: f64 = 25.4 / 48.0;

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

    /// The thickest kind of which one may be left out.
    fn fewer(&self, over: f64) -> Option<&'static str> {
        let kinds = [("lifts", self.lifts), ("thin-lifts", self.thin)].into_iter();
        let may = kinds.filter(|(_, (count, iron, _))| *count > 0 && iron * IRON <= over + 1e-9);
        may.max_by(|a, b| a.1.1.total_cmp(&b.1.1)).map(|(word, _)| word)
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
        // A step that saves less in mm and more by its share; a step that may just go.
        Base { lifts: (2, 12.0, &[12.0, 9.0]), thin: (1, 6.0, &[6.0, 3.2]) },
        Base { lifts: (2, 12.0, &[12.0, 11.0]), thin: (0, 4.0, &[4.0]) },
        // Much to sand, and nothing thinner, or nothing that is thin enough to go, or that saves less by its share.
        Base { lifts: (2, 18.0, &[18.0]), thin: (0, 4.0, &[4.0]) },
        Base { lifts: (2, 18.0, &[18.0, 3.0]), thin: (0, 4.0, &[4.0]) },
        Base { lifts: (2, 20.0, &[20.0, 17.0]), thin: (1, 4.0, &[4.0, 2.0]) },
        // The thinnest that there is, and twenty of it; one lift too many, and one thin lift.
        Base { lifts: (20, 6.0, &[6.0]), thin: (0, 4.0, &[4.0]) },
        Base { lifts: (3, 12.0, &[12.0]), thin: (0, 4.0, &[4.0]) },
        Base { lifts: (2, 12.0, &[12.0]), thin: (2, 6.0, &[6.0]) },
    ];
    let (mut reach, mut miss) = (0, 0);
    // Nothing to say, a note, a refusal.
    let mut said = [0; 3];
    for base in bases {
        let memory = base.memory();
        let (_, checked) = check(&memory, &Only("9 D"));
        let sanding = checked.findings.iter().find(|it| it.name == "heel/sanding").map(|it| it.severity);
        built(&memory, "9 D", |build| {
            let heel = build.heel.as_ref().expect("a heel").as_ref().expect("built");
            let found = heel.thinner.map(|thinner| (thinner.from, thinner.to));
            // From half of the thickest lift on; the wedge is of 12 iron. What is over is at the base's thin end, built
            // to half a mm of its gauge, with block and cap as they come.
            let thickest = base.lifts.1.max(12.0) * IRON;
            let much = heel.given.nominal() - heel.needed.nominal() >= thickest / 2.0 - 1e-9;
            let over = heel.given.spread().lo - heel.needed.spread().hi;
            let goes = base.saves().is_some_and(|(from, to)| (from - to) * IRON <= over + 1e-9);
            let fewer = base.fewer(over);
            assert_eq!(heel.too_many.map(|spare| spare.word), fewer, "{over} over");
            let expected = much.then_some(if goes || fewer.is_some() { Severity::Refused } else { Severity::Note });
            assert_eq!(sanding, expected, "{} given", heel.given.nominal());
            said[expected.map_or(0, |it| if it == Severity::Note { 1 } else { 2 })] += 1;
            let Some((from, to)) = base.saves() else { return assert_eq!(found, None) };
            let (found_from, found_to) = found.expect("one is thinner");
            assert!((found_from - from * IRON).abs() < 1e-9, "from {from} iron, not {found_from} mm");
            assert!((found_to - to * IRON).abs() < 1e-9, "to {to} iron, not {found_to} mm");
            assert_eq!(heel.thinner.expect("one").reaches, goes, "{over} over");
            if goes { reach += 1 } else { miss += 1 }
        });
    }
    assert!(reach > 0 && miss > 0, "{reach} reach, {miss} do not");
    assert!(said.iter().all(|times| *times > 0), "{said:?}");
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
            terms.filter(move |term| matches!(term.what, Piece::Part { .. }) == upper)
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

/// A heel of wedges, lifts and thin lifts by iron, nailed in stages: how many lifts each stage nails. The wedges go in the
/// stage that is said, thin lifts with the last.
#[derive(Debug)]
struct Staged {
    wedges: (u32, f64),
    wedged_in: usize,
    lifts: Vec<u32>,
    thin: (u32, f64),
    slip: bool,
}

/// What stands in a stage, or in all up to it.
#[derive(Clone, Copy)]
struct Stood {
    thick: f64,
    wedges: bool,
}

impl Staged {
    fn random(chance: &mut Chance) -> Self {
        let iron = |chance: &mut Chance| [6.0, 9.0, 12.0][chance.below(3)];
        let few = |chance: &mut Chance, from: u32, to: usize| from + u32::try_from(chance.below(to)).expect("few");
        let stages = 1 + chance.below(3);
        let lifts: Vec<u32> = (0..stages).map(|_| few(chance, 1, 3)).collect();
        let wedges = (few(chance, 0, 4), iron(chance));
        let thin = (few(chance, 0, 3), 6.0);
        Self { wedges, wedged_in: chance.below(stages), lifts, thin, slip: chance.below(2) == 0 }
    }

    fn memory(&self) -> Memory {
        let all: u32 = self.lifts.iter().sum();
        let mut heel = format!("lifts {all} of lift-leather 12 iron; cap cap-low");
        heel += &match self.wedges {
            (0, _) => "; without wedges".to_owned(),
            (count, iron) => format!("; wedges {count} of lift-leather {iron} iron"),
        };
        if self.thin.0 > 0 {
            heel += &format!("; thin-lifts {} of lift-leather {} iron", self.thin.0, self.thin.1);
        }
        let mut nailed = "base heel-nail; cap cap-nail; inside-edge 1/4 in; apart 1/2 in; without across".to_owned();
        for (n, lifts) in self.lifts.iter().enumerate().filter(|_| self.lifts.len() > 1) {
            let wedges = if self.wedges.0 > 0 && n == self.wedged_in { "wedges; " } else { "" };
            nailed += &format!("; stage {} {{ {wedges}lifts {lifts} }}", n + 1);
        }
        let slip = if self.slip { "bottom { layer slip { of slip-sheet; bonded neoprene } }" } else { "" };
        let model = format!("  last drover\n  heel {{ {heel}; nailed {{ {nailed} }} }}\n  {slip}");
        trial("use \"../lasts/drover.hob\"\n", &model)
    }

    /// What lies in one stage.
    fn own(&self, stage: usize) -> Stood {
        let last = stage + 1 == self.lifts.len();
        let wedges = self.wedges.0 > 0 && (stage == self.wedged_in || self.lifts.len() == 1);
        let lifts = f64::from(self.lifts[stage]) * 12.0;
        let split = if wedges { f64::from(self.wedges.0) * self.wedges.1 } else { 0.0 };
        let thin = if last { f64::from(self.thin.0) * self.thin.1 } else { 0.0 };
        Stood { thick: (lifts + split + thin) * IRON, wedges }
    }

    fn so_far(&self, stage: usize) -> Stood {
        let all = (0..=stage).map(|n| self.own(n));
        all.reduce(|a, b| Stood { thick: a.thick + b.thick, wedges: a.wedges || b.wedges }).expect("a stage")
    }
}

fn window(figures: &Figures, key: &str) -> (f64, f64) {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Window(window)) => (window.lo, window.hi),
        other => panic!("{key} is {other:?}"),
    }
}

#[test]
fn nails_of_each_stage_hold_what_it_adds_and_stay_clear_through_all_that_stands() {
    // The demo house: built to 0.5 mm of the gauge; 5 mm bite in leather; 2 mm are kept clear of the foot; heads 0.5 mm
    // deep in a stage that is built over, else 1 mm below the sander; a wedge is split to no less than 1 mm.
    const GAUGE: f64 = 0.5;
    let mut chance = Chance::new(23);
    let (mut sloping, mut stages) = (0, 0);
    for _ in 0..60 {
        let staged = Staged::random(&mut chance);
        let found = figures(&staged.memory(), "9 D");
        if found.get("heel-nails.sink").is_none() {
            // Too low to be nailed: the base does not reach its height.
            let given = staged.so_far(staged.lifts.len() - 1).thick;
            assert!(given < number(&found, "heel.needed"), "{staged:?}");
            continue;
        }
        let near = |what: &str, found: f64, expected: f64| {
            assert!((found - expected).abs() < 1e-6, "{what}: {found}, worked out {expected} of {staged:?}");
        };
        let length = number(&found, "heel.length");
        let stands = built(&staged.memory(), "9 D", |build| {
            build.heel_nails.as_ref().expect("nailed").as_ref().expect("built").stands.clone()
        });
        let drop = length * 8.0_f64.to_radians().tan();
        let (count, thick) = (f64::from(staged.wedges.0), staged.wedges.1 * IRON);
        let taken = drop.min(count * (thick - 1.0));
        sloping += u32::from(taken < drop && staged.wedges.0 > 0);
        let given = staged.so_far(staged.lifts.len() - 1).thick;
        let sanded = given - number(&found, "heel.needed");
        near("given", number(&found, "heel.given"), given);
        // A gauge stands at the finished edge. The trial is the scree on the drover: lining 2.5 to 3 oz, outer 6 to 7 oz and
        // a turnout of 4 mm lie behind the heel point. Two lines that meet the heel point go on behind it as they run.
        let behind = (2.75 + 6.5) * 25.4 / 64.0 + 4.0;
        let there = |falls: f64| falls * behind / length;
        near("sanded at the back", number(&found, "heel.sand-back"), sanded + there(taken) - there(drop));
        near("sanded at the breast", number(&found, "heel.sand-breast"), sanded + drop - taken);
        near("level before", number(&found, "heel.gauge-before"), given + there(taken));
        near("level before at the breast", number(&found, "heel.gauge-before-breast"), given - taken);
        near("level after", number(&found, "heel.gauge-after"), given - sanded + there(drop));
        near("level after at the breast", number(&found, "heel.gauge-after-breast"), given - sanded - drop);
        assert_eq!(found.get("heel.wedge-breast").is_some(), staged.wedges.0 > 0, "{staged:?}");
        if staged.wedges.0 > 0 {
            near("a wedge at the breast", number(&found, "heel.wedge-breast"), thick - taken / count);
        }
        let sink = sanded + drop - taken + 1.0;
        near("sink", number(&found, "heel-nails.sink"), sink);
        // Insole 8, midsole 12 iron +- 0.5; the lasted-in outer 6 to 7 oz, the lining 2.5 to 3; the slip 3 +- 0.2.
        let oz = 25.4 / 64.0;
        let over_the_base = (7.5 + 11.5) * IRON + (6.0 + 2.5) * oz + if staged.slip { 2.8 } else { 0.0 };
        for stage in 0..staged.lifts.len() {
            stages += 1;
            let last = stage + 1 == staged.lifts.len();
            let sunk = if last { sink } else { 0.5 };
            let name = if staged.lifts.len() == 1 { "base".to_owned() } else { format!("stage-{}", stage + 1) };
            let (own, so_far) = (staged.own(stage), staged.so_far(stage));
            let less = |stood: Stood, x: f64| if stood.wedges { taken * x / length } else { 0.0 };
            let through = if stage == 0 && staged.slip { 3.2 } else { 0.0 };
            for place in Place::ALL {
                let here = stands.iter().filter(|stand| stand.stage == Some(stage) && stand.place == place);
                let xs: Vec<f64> = here.map(|stand| stand.head.x).collect();
                let Some(hindmost) = xs.iter().copied().reduce(f64::min) else { continue };
                let foremost = xs.iter().copied().fold(0.0, f64::max);
                // The base is highest at the back, where a nail must reach farthest, and lowest at the breast.
                let hold = own.thick + GAUGE - less(own, hindmost) + through + 5.0;
                let clear = so_far.thick - GAUGE - less(so_far, foremost) + over_the_base - 2.0;
                let place = place.name();
                let (least, most) = window(&found, &format!("heel-nails.{name}-{place}-serves"));
                near(&format!("{name} {place}, least"), least, hold - sunk);
                near(&format!("{name} {place}, most"), most, clear - sunk);
            }
        }
    }
    assert!(sloping > 5 && stages > 60, "{sloping} leave a slope, {stages} stages");
}

/// What is written with a count of none lies nowhere: in no sum, in no choice.
#[test]
fn lifts_and_wedges_of_none_are_not_there() {
    let none = "wedges 0 of slab 30 iron; thin-lifts 0 of slab 30 iron";
    let without = "without wedges";
    let [written, left_out] = [none, without].map(|said| {
        let memory = trial("lift slab { substances 30, 29 iron }\n", &format!("  heel {{ {said} }}"));
        built(&memory, "9 D", |build| {
            let heel = build.heel.as_ref().expect("a heel").as_ref().expect("built");
            assert!(heel.wedge_at_breast.is_none(), "{said}");
            assert!(heel.given.terms.iter().all(|term| term.coefficient.abs() > 0.5), "{said}: {:?}", heel.given);
            (heel.thickest_lift, heel.given.nominal(), heel.thinner.map(|it| (it.from, it.to)))
        })
    });
    assert_eq!(written, left_out);
    assert!((written.0 - 12.0 * IRON).abs() < 1e-9);
}

/// The ways out of what `rule` says of a model, each as the words that it changes.
fn ways_out(memory: &Memory, path: &str, rule: &str) -> Vec<String> {
    let (loaded, mut checked) = memory.check(&[path], &AllSizes);
    remedies(&loaded, &mut checked);
    let finding = checked.findings.iter().find(|finding| finding.name == rule).expect("it is found");
    assert_eq!(finding.severity, Severity::Refused, "{}", finding.message);
    let ways = finding.ways_out.as_ref().expect("ways out were looked for");
    let said = |remedy: &Remedy| {
        let changes: Vec<String> =
            remedy.changes.iter().map(|change| format!("{} -> {}", change.old, change.new)).collect();
        changes.join("; ")
    };
    ways.remedies.iter().map(said).collect()
}

#[test]
fn the_lift_that_is_too_many_is_the_first_way_out() {
    // 12 iron are 6.35 mm: three of them and the wedge leave 8.48 mm to sand, and 6.98 mm are over at the thin end.
    let three = trial("", "  heel { lifts 3 of lift-leather 12 iron }");
    let ways = ways_out(&three, TRIAL, "heel/sanding");
    assert!(ways[0].starts_with("lifts 3") && ways[0].contains("lifts 2"), "{ways:?}");
    // 20 of 6 iron are 63.5 mm where four were enough: 16.9 less the wedge's 6.35 is 10.6 mm.
    let twenty = trial("", "  heel { lifts 20 of lift-leather 6 iron }");
    let ways = ways_out(&twenty, TRIAL, "heel/sanding");
    assert!(ways[0].contains("lifts 20") && ways[0].contains("lifts 4"), "{ways:?}");
}

#[test]
fn a_lift_that_is_too_many_leaves_the_stage_that_nails_it_too() {
    let path = "specs/models/muster-10.hob";
    let demo = Memory::demo();
    let five = demo.text(path).replacen("lifts  4 of", "lifts  5 of", 1).replacen(
        "stage 2 { lifts 3;",
        "stage 2 { lifts 4;",
        1,
    );
    let ways = ways_out(&demo.with(path, five), path, "heel/sanding");
    assert!(ways[0].contains("lifts  4 of") && ways[0].contains("lifts 3"), "{ways:?}");
}

/// The scree on a cap so thick, by what is found of its height, by `explain` and by its sheets.
fn low(cap: f64) -> (Severity, Measured, String, Judgement, Vec<Notice>) {
    let stock = format!("cap low {{ thickness {cap} mm +- 0.3 mm; blanks us-men 5..14 }}");
    let memory = trial(&stock, "  heel { cap low }");
    let (_, checked) = check(&memory, &Only("9 D"));
    let finding = checked.findings.iter().find(|finding| finding.name == "heel/height").expect("it is short").clone();
    let judgement = built(&memory, "9 D", |build| judged(build, "heel/height").remove(0));
    let model = checked.models.iter().find(|model| model.name == "trial").expect("the trial is there");
    let notices = checked.notices(model, model.sizes[0].size);
    let of_height = notices.into_iter().filter(|notice| notice.rule == "heel/height").collect();
    (finding.severity, finding.measured.expect("in mm"), finding.message, judgement, of_height)
}

#[test]
fn a_base_that_is_short_at_its_thin_end_has_one_word_and_one_number_everywhere() {
    // Three of 12 iron, less the gauge. Needed: seat 20, outsole 4.5 and 3.0 less the outer of 6.5 oz and the cap; with its
    // thick end, by 0.3 and 0.2 of the outsole, half an ounce of the outer's spread, and 0.3 of the cap.
    let thin = 36.0 * IRON - 0.5;
    let ounce = 25.4 / 64.0;
    let most = |cap: f64| 27.5 - 6.5 * ounce - cap + 0.5 + 0.5 * ounce + 0.3;
    // Sigma is a third of the root of 0.5, 0.3, 0.3, 0.2 and 0.198 squared, 0.238: 0.9 over at nominal are 3.8 of them,
    // 0.3 are 1.3.
    for (cap, severity, word) in [(6.77, Severity::Note, "note"), (6.17, Severity::Tight, "tight")] {
        let (found, measured, message, judgement, notices) = low(cap);
        assert_eq!((found, judgement.verdict.name()), (severity, word), "{message}");
        for (sum, limit, margin) in
            [(measured.sum, measured.limit, measured.margin), (judgement.sum, judgement.limit, judgement.margin)]
        {
            assert!((sum - thin).abs() < 1e-9, "{sum}, by hand {thin}");
            assert!((limit - most(cap)).abs() < 1e-9, "{limit}, by hand {}", most(cap));
            assert!((margin - (thin - most(cap))).abs() < 1e-9, "{margin}");
        }
        assert!(message.contains("at the thin end 18.55 mm, up to "), "{message}");
        let numbers: Vec<_> = notices.iter().filter_map(|notice| notice.numbers).collect();
        let said = if word == "tight" { vec![(judgement.sum, judgement.limit, "mm")] } else { Vec::new() };
        assert_eq!(numbers, said, "the sheet says it where it is tight");
    }
}

#[test]
fn explain_says_the_word_that_check_says() {
    let text = |cap: &str| {
        format!(
            "use \"models/scree-8.hob\"\ncap low {{ thickness {cap} mm +- 0.3 mm; blanks us-men 5..14 }}\n\
             model low like scree-8 {{ revision 1; heel {{ cap low }} }}\n"
        )
    };
    for (cap, word) in [("6.77", "note"), ("6.17", "tight")] {
        let case = case().demo().file("specs/low.hob", &text(cap));
        let verdict =
            |format: &str| case.run(&["explain", "heel/height", "specs/low.hob", "--size", "9 D", "--format", format]);
        let line = format!("{word} heel/height: low, 9 D, heel base");
        assert!(verdict("short").out.starts_with(&line), "{}", verdict("short"));
        assert!(verdict("human").out.contains(&format!("in 9 D: {word}")), "{}", verdict("human"));
        assert!(verdict("json").out.contains(&format!("\"verdict\": \"{word}\"")), "{}", verdict("json"));
        let checked = case.run(&["check", "specs/low.hob", "--size", "9 D", "--format", "short"]);
        assert!(checked.out.contains(&format!(": {word} heel/height")), "{checked}");
    }
}

/// The scree: 19.05 given at 0.5 of the gauge, 2.1297 to sand at nominal, heads 1 mm below that. Where the base is as thick as
/// its gauge lets it be, its heads lie half a mm below the level, at the back and at the breast alike.
#[test]
fn levelling_stops_where_the_heads_may_be_reached() {
    let found = figures(&trial("", ""), "9 D");
    for end in ["", "-breast"] {
        let (stop, level) =
            (number(&found, &format!("heel.stop{end}")), number(&found, &format!("heel.gauge-after{end}")));
        assert!((stop - (level - 1.0 + 0.5)).abs() < 1e-9, "{end}: {stop} of {level}");
    }
    // The base may be 0.5 over, the outsole under the ball 0.5, quarter and cap 0.1984 and 0.3 under: 1.498 more than nominal.
    // With an outsole that is true and a cap as true as the gauge 0.9984: less than the heads are sunk.
    let sorted = "outsole lug-true { base 4.5 mm;  lug 3.0 mm;  blanks us-men 5..14 }\n";
    let found = figures(&trial(sorted, "  bottom { layer outsole { of lug-true } }"), "9 D");
    assert!(found.get("heel.stop").is_none() && found.get("heel.stop-breast").is_none());
}

/// What holds base and cap: nails, adhesive or both; nails without adhesive are no worse than they were.
#[test]
fn a_heel_is_held_by_nails_or_adhesive() {
    let base = "nothing holds the base of the heel";
    let cap = "nothing holds the cap of the heel";
    for (heel, refused, noted) in [
        ("", vec![], 0),
        ("without bonded", vec![], 0),
        ("without nailed", vec![], 2),
        ("nailed { without cap }", vec![], 1),
        ("without bonded; nailed { without cap }", vec![cap], 0),
        ("without bonded; nailed { without base }", vec![base], 0),
        ("without bonded; without nailed", vec![base, cap], 0),
    ] {
        let (_, checked) = check(&trial("", &format!("  heel {{ {heel} }}")), &Only("9 D"));
        let of = |severity: Severity| {
            checked.findings.iter().filter(move |it| it.name == "heel/held" && it.severity == severity)
        };
        let messages: Vec<&str> = of(Severity::Refused).map(|it| it.message.as_str()).collect();
        assert_eq!(messages.len(), refused.len(), "{heel}: {messages:?}");
        for (message, starts) in messages.iter().zip(refused) {
            assert!(message.starts_with(starts), "{heel}: {message}");
        }
        assert_eq!(of(Severity::Note).count(), noted, "{heel}");
    }
}

/// Under the ball 4.5 of the outsole's base and 3.0 of its lugs; run full, its base alone and the quarter of 6.5 oz lie under the
/// seat where the lugs are buffed off: 20 + 7.5 - 4.5 - 2.5797 = 20.4203. With the lugs left on they would cancel as well.
#[test]
fn lugs_that_are_buffed_off_do_not_lie_under_the_seat() {
    for (ends, block) in [
        ("ends full; lugs-off", 20.0 + 7.5 - 4.5 - 6.5 * 25.4 / 64.0),
        ("ends full", 20.0 - 6.5 * 25.4 / 64.0),
        ("ends at-breast", 20.0 + 7.5 - 6.5 * 25.4 / 64.0),
    ] {
        let found = figures(&trial("", &format!("  bottom {{ layer outsole {{ {ends} }} }}")), "9 D");
        assert!((number(&found, "heel.block") - block).abs() < 1e-9, "{ends}: {}", number(&found, "heel.block"));
    }
}
