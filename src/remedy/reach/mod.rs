//! How far one can go: what else of the stock the model could be built with, each tried in all its sizes.
//!
//! Nothing here has a formula of its own: a piece of stock is written into the model's text in memory, the model is built
//! and judged, and what is left is read from the sums of the build.

mod lifts;
mod nails;
mod stitches;

pub use lifts::LiftsLevel;
pub use nails::NailServes;
pub use stitches::{Limit, Serves, Stitches};

use super::place::Way;
use super::trial::{Bench, Trial};
use super::write::{Act, Draft};
use crate::build::{Build, Plan};
use crate::language::StatementKey;
use crate::measure::{Amount, Shape, Size, Unit};
use crate::rules::{Judgement, Verdict, all};
use crate::source::SourceId;
use crate::spec::Loaded;
use rayon::prelude::*;

/// How far one model can go.
#[derive(Clone, Debug)]
pub struct Reach {
    /// The model.
    pub model: String,
    /// How many sizes everything was tried in.
    pub sizes: usize,
    /// What still sews through, for each machine, midsole, outer, with the slip sole and without.
    pub stitches: Vec<Stitches>,
    /// Nails by length and place.
    pub nails: Vec<NailServes>,
    /// Lifts and caps.
    pub lifts: Vec<LiftsLevel>,
    /// How many drafts were tried.
    pub trials: usize,
}

impl Reach {
    /// Every name in it, to be printed.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        fn of(it: &Stitches) -> [&str; 4] {
            [&it.machine, &it.midsole, &it.outer, it.slip.as_deref().unwrap_or_default()]
        }
        let above = self.stitches.iter().flat_map(|it| it.above.terms.iter().flat_map(|term| term.what.names()));
        std::iter::once(self.model.as_str()).chain(self.stitches.iter().flat_map(of)).chain(above)
    }
}

/// In how many sizes something does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// With every tolerance.
    pub passes: usize,
    /// At nominal only.
    pub tight: usize,
    /// Not.
    pub refused: usize,
}

impl Tally {
    /// Whether it does in every size with every tolerance.
    #[must_use]
    pub fn everywhere(&self) -> bool {
        self.tight + self.refused == 0
    }

    fn take(&mut self, judgements: &[Judgement]) {
        let refused = |it: &Judgement| matches!(it.verdict, Verdict::Refused | Verdict::NotJudged(_));
        if judgements.iter().any(refused) {
            self.refused += 1;
        } else if judgements.iter().any(|it| matches!(it.verdict, Verdict::Tight(_))) {
            self.tight += 1;
        } else {
            self.passes += 1;
        }
    }
}

/// How far the model `name` of the file `root` can go in the sizes `run`; `None` if it is not there or at fault.
#[must_use]
pub fn reach(loaded: &Loaded, root: SourceId, name: &str, run: &[Size]) -> Option<Reach> {
    let bench = Bench::new(loaded, root, name)?;
    let start = bench.trial(&Draft::new())?;
    let rig = Rig { bench: &bench, start: &start, run };
    let (stitches, nails, lifts) = (rig.stitches(), rig.nails(), rig.lifts());
    Some(Reach { model: name.to_owned(), sizes: run.len(), stitches, nails, lifts, trials: bench.tried() })
}

/// A model on which stock is tried.
struct Rig<'r> {
    bench: &'r Bench<'r>,
    start: &'r Trial,
    run: &'r [Size],
}

impl Rig<'_> {
    /// Every size of a draft, in the order of the run; `None` if the texts are at fault then.
    fn each<T: Send>(&self, draft: &Draft, look: impl Fn(&Build<'_>) -> T + Sync) -> Option<Vec<T>> {
        let trial = self.bench.trial(draft)?;
        let plan = Plan::new(trial.model(), trial.world.shop.as_deref()?);
        Some(self.run.par_iter().map(|size| look(&plan.build(*size))).collect())
    }
}

/// What some rules say of a build.
fn judged(build: &Build<'_>, rules: &[&str]) -> Vec<Judgement> {
    let wanted = all().iter().filter(|rule| rules.contains(&rule.name()));
    wanted.flat_map(|rule| rule.judge(build)).collect()
}

fn key(word: &'static str, first: Option<&str>) -> StatementKey {
    StatementKey { word, first: first.map(str::to_owned) }
}

fn way<const N: usize>(keys: [(&'static str, Option<&str>); N]) -> Way {
    keys.into_iter().map(|(word, first)| key(word, first)).collect()
}

fn say(text: impl Into<String>) -> Act {
    Act::Say(text.into())
}

/// A stocked measure as its shelf says it.
fn said(amount: &Amount) -> String {
    match amount.shape {
        Shape::Exact(own) | Shape::Toleranced(own, _) | Shape::Range(own, _) => {
            let unit = own.unit.map_or("", Unit::name);
            format!("{} {unit}", own.number.written_alike(own.number.value)).trim_end().to_owned()
        }
    }
}
