//! Trial boots: a demo model with what differs, and figures read from it.

use super::memory::{Memory, Only};
use hobnail::build::{Build, Datum, Figures, Plan};
use hobnail::check::{Checked, SizeFilter};
use hobnail::finding::Severity;
use hobnail::measure::Spread;
use hobnail::rules::{Judgement, all};
use hobnail::spec::Loaded;

pub const TRIAL: &str = "specs/models/trial.hob";

/// The demo with one file more: `declared` (lasts, stock), and the model `trial` like the scree with `differs`.
pub fn trial(declared: &str, differs: &str) -> Memory {
    let uses = "use \"scree-8.hob\"\n";
    Memory::demo().with(TRIAL, format!("{uses}{declared}\nmodel trial like scree-8 {{\n  revision 1\n{differs}\n}}\n"))
}

pub fn check(memory: &Memory, sizes: &dyn SizeFilter) -> (Loaded, Checked) {
    let (loaded, checked) = memory.check(&[TRIAL], sizes);
    let faults: Vec<_> = checked.findings.iter().filter(|it| it.severity == Severity::Fault).cloned().collect();
    assert_eq!(super::memory::lines(&loaded, &faults), "", "{}", memory.text(TRIAL));
    (loaded, checked)
}

/// Every figure of the trial in one size.
pub fn figures(memory: &Memory, size: &'static str) -> Figures {
    let (_, checked) = check(memory, &Only(size));
    let model = checked.models.iter().find(|model| model.name == "trial").expect("the trial is there");
    let mut sizes = checked.figured(model);
    assert_eq!(sizes.len(), 1, "{size} in {}", memory.text(TRIAL));
    sizes.remove(0).figures
}

/// Looks at the trial as it is built in one size.
pub fn built<T>(memory: &Memory, size: &'static str, look: impl FnOnce(&Build<'_>) -> T) -> T {
    let (_, checked) = check(memory, &Only(size));
    let model = checked.models.iter().find(|model| model.name == "trial").expect("the trial is there");
    let world = &checked.worlds[model.place.0];
    let plan = Plan::new(&world.models[model.place.1], world.shop.as_ref().expect("the demo has a shop"));
    look(&plan.build(model.sizes[0].size))
}

/// What one rule says of a build.
pub fn judged(build: &Build<'_>, rule: &str) -> Vec<Judgement> {
    all().iter().find(|known| known.name() == rule).expect("it is a rule").judge(build)
}

/// Whether a rule refuses the trial in one size.
pub fn refused(memory: &Memory, size: &'static str, rule: &str) -> bool {
    let (_, checked) = check(memory, &Only(size));
    checked.findings.iter().any(|it| it.severity == Severity::Refused && it.name == rule)
}

pub fn spread(figures: &Figures, key: &str) -> Spread {
    match &figures.get(key).unwrap_or_else(|| panic!("there is no figure {key}")).datum {
        Datum::Number(number) => Spread::exactly(*number),
        Datum::Spread(spread) => *spread,
        other => panic!("{key} is {other:?}"),
    }
}

pub fn number(figures: &Figures, key: &str) -> f64 {
    spread(figures, key).nominal
}

pub fn count(figures: &Figures, key: &str) -> u64 {
    match &figures.get(key).unwrap_or_else(|| panic!("there is no figure {key}")).datum {
        Datum::Count(count) => *count,
        other => panic!("{key} is {other:?}"),
    }
}

/// A last with the teller's outline and the measures given.
pub struct LastText<'t> {
    pub name: &'t str,
    pub base: &'t str,
    pub stick: &'t str,
    pub bottom: &'t str,
    pub ball: &'t str,
    /// Statements of its own: `tread 2 3/4 in` and so on.
    pub more: &'t str,
    pub joints: &'t str,
    pub breast: &'t str,
    pub seat: &'t str,
    pub made: &'t str,
    pub by_size: &'t str,
}

impl Default for LastText<'_> {
    fn default() -> Self {
        Self {
            name: "other",
            base: "us-men 9 D",
            stick: "283 mm",
            bottom: "276 mm",
            ball: "248 mm",
            more: "",
            joints: "inside 70 % outside 62 %",
            breast: "26 %",
            seat: "20 mm slope 3 deg",
            made: "us-men 5..15 by 1/2 widths B, C, D, E, EE",
            by_size: "ball 1/4 in; tread 1/12 in; seat-breadth 1/16 in",
        }
    }
}

impl LastText<'_> {
    pub fn text(&self) -> String {
        let teller = Memory::demo().text("specs/lasts/teller.hob").to_owned();
        let outline = &teller[teller.find("  outline {").expect("it has an outline")..];
        let Self { name, base, stick, bottom, ball, more, joints, breast, seat, made, by_size } = self;
        format!(
            "last {name} {{\n  base {base}\n  stick {stick};  bottom {bottom};  ball {ball}\n  {more}\n  joints {joints}\n  \
             breast {breast}\n  seat {seat};  spring 11 mm;  plate full\n  made {made}\n  grade size {{ {by_size} }}\n  \
             grade width {{ ball 1/4 in; tread 1/12 in; seat-breadth 1/16 in }}\n{outline}"
        )
    }

    /// The trial on this last, in the sizes of `run`.
    pub fn boot(&self, run: &str) -> Memory {
        trial(&self.text(), &format!("  last {}\n  run {run}", self.name))
    }
}
