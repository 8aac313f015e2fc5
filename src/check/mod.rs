//! The page that walks it all: sources in, everything judged out. Pure.
//!
//! | step | takes | gives |
//! |---|---|---|
//! | `spec::load` | a reader, paths | texts, trees, who uses whom |
//! | `spec::worlds` | those | shop, stock, lasts and models of each file given, and every fault |
//! | `build` | a model in a size | every figure |
//! | `rules` | a build | judgements |
//! | `group` | judgements of all sizes | one finding for each rule and subject |

mod compare;
mod fingerprint;
mod group;
mod notices;

pub use compare::{Compared, Difference, Recorded, RecordedFigure, Standing};
pub use fingerprint::fingerprint;
pub use group::severity_of;
pub use notices::Notice;

use crate::build::{Build, Figures, Plan, figures};
use crate::finding::{Finding, Severity};
use crate::measure::Size;
use crate::rules::{Judgement, Rule, Verdict, all};
use crate::source::SourceId;
use crate::spec::{Loaded, Model, Shop, World, worlds};
use group::Judged;
use rayon::prelude::*;

/// One model in one size, judged.
#[derive(Clone, Copy, Debug)]
pub struct SizeChecked {
    /// The size.
    pub size: Size,
    /// Some rule refuses it in this size.
    pub refused: bool,
}

/// One model in one size with all that is computed of it.
#[derive(Debug)]
pub struct Figured {
    /// The size, as it was judged.
    pub checked: SizeChecked,
    /// Every figure.
    pub figures: Figures,
    /// What tells this build from any other: a hash of its resolved values and figures.
    pub fingerprint: String,
}

/// A model of a file given.
#[derive(Debug)]
pub struct ModelChecked {
    /// The file that declares it.
    pub root: SourceId,
    /// Which world it belongs to, by its place in [`Checked::worlds`], and which of its models it is.
    pub place: (usize, usize),
    /// Its name.
    pub name: String,
    /// Its title, perhaps empty.
    pub title: String,
    /// Its revision, if it has one.
    pub revision: Option<u32>,
    /// Its sizes that were asked for, in the order of its run; empty if a fault took its run or its last.
    pub sizes: Vec<SizeChecked>,
    /// Every size of its run, asked for or not.
    pub run: Vec<Size>,
    /// Something of it was lost to a fault, so that not everything could be judged.
    pub faulty: bool,
}

/// Everything that a run found.
#[derive(Debug)]
pub struct Checked {
    /// Faults first, then what was judged, each in a fixed order.
    pub findings: Vec<Finding>,
    /// The models that the files given declare.
    pub models: Vec<ModelChecked>,
    /// The worlds of the files given.
    pub worlds: Vec<World>,
}

impl Checked {
    /// Every figure of a model of this run in its sizes. Judging needs few of them, so that they are worked out for
    /// those who show them.
    #[must_use]
    pub fn figured(&self, model: &ModelChecked) -> Vec<Figured> {
        let world = &self.worlds[model.place.0];
        let Some(shop) = &world.shop else { return Vec::new() };
        let plan = Plan::new(&world.models[model.place.1], shop);
        let one = |checked: &SizeChecked| {
            let figures = figures(&plan.build(checked.size));
            let fingerprint = fingerprint(&model.name, checked.size, &figures);
            Figured { checked: *checked, figures, fingerprint }
        };
        model.sizes.par_iter().map(one).collect()
    }
}

/// A judgement with what it was made of.
#[derive(Debug)]
pub struct Derived<'c> {
    /// The model.
    pub model: &'c ModelChecked,
    /// The size.
    pub size: Size,
    /// What the rule says, whether it passes or not.
    pub judgement: Judgement,
}

impl Checked {
    /// Everything that one rule says of the models of this run in the sizes that are wanted of each.
    pub fn derived(&self, rule: &dyn Rule, sizes: impl Fn(&ModelChecked) -> Vec<Size>) -> Vec<Derived<'_>> {
        let mut all = Vec::new();
        for model in &self.models {
            let world = &self.worlds[model.place.0];
            let Some(shop) = &world.shop else { continue };
            let plan = Plan::new(&world.models[model.place.1], shop);
            for size in sizes(model) {
                let judged = rule.judge(&plan.build(size));
                all.extend(judged.into_iter().map(|judgement| Derived { model, size, judgement }));
            }
        }
        all
    }
}

/// Which sizes are asked for.
pub trait SizeFilter: Sync {
    /// Whether a size is asked for.
    fn wants(&self, size: &Size) -> bool;
}

/// Every size.
#[derive(Clone, Copy, Debug, Default)]
pub struct AllSizes;

impl SizeFilter for AllSizes {
    fn wants(&self, _: &Size) -> bool {
        true
    }
}

/// Judges all models of the files given, in the sizes asked for.
#[must_use]
pub fn check(loaded: &Loaded, sizes: &dyn SizeFilter) -> Checked {
    let worlds = worlds(loaded);
    let mut findings = faults(loaded, &worlds);
    let mut models = Vec::new();
    for (w, world) in worlds.iter().enumerate() {
        let Some(shop) = &world.shop else {
            models.extend(world.models.iter().enumerate().map(|(m, model)| unbuilt(world, model, (w, m))));
            continue;
        };
        for (m, model) in world.models.iter().enumerate() {
            let (checked, found) = check_model(world, shop, model, (w, m), sizes);
            findings.extend(found);
            models.push(checked);
        }
    }
    Checked { findings, models, worlds }
}

/// A model of a world without a shop: known, not built.
fn unbuilt(world: &World, model: &Model, place: (usize, usize)) -> ModelChecked {
    ModelChecked {
        root: world.root,
        place,
        name: model.name.clone(),
        title: model.title.clone(),
        revision: model.revision.as_ref().ok().map(|revision| revision.it),
        sizes: Vec::new(),
        run: model.sizes.clone().unwrap_or_default(),
        faulty: true,
    }
}

fn check_model(
    world: &World,
    shop: &Shop,
    model: &Model,
    place: (usize, usize),
    sizes: &dyn SizeFilter,
) -> (ModelChecked, Vec<Finding>) {
    let mut checked = unbuilt(world, model, place);
    let plan = Plan::new(model, shop);
    let wanted: Vec<Size> = checked.run.iter().copied().filter(|size| sizes.wants(size)).collect();
    let alike = wanted.first().map(|size| said(&plan.build(*size), |rule| rule.alike())).unwrap_or_default();
    let judge = |size: &Size| {
        let mut judged = said(&plan.build(*size), |rule| !rule.alike());
        judged.extend(alike.iter().map(|judged| Judged { size: *size, ..judged.clone() }));
        judged
    };
    let judged: Vec<Vec<Judged>> = wanted.par_iter().map(judge).collect();
    let refused = |judged: &Vec<Judged>| judged.iter().any(|judged| judged.judgement.verdict == Verdict::Refused);
    checked.sizes = wanted
        .iter()
        .zip(&judged)
        .map(|(size, judged)| SizeChecked { size: *size, refused: refused(judged) })
        .collect();
    checked.faulty = model.sizes.is_err()
        || judged.iter().flatten().any(|judged| matches!(judged.judgement.verdict, Verdict::NotJudged(_)));
    let findings = group::findings(model, &wanted, judged, world.findings.is_empty());
    (checked, findings)
}

/// What those rules that are wanted have to say of a build: what passes has nothing to say, and most does.
fn said(build: &Build<'_>, wanted: impl Fn(&dyn Rule) -> bool) -> Vec<Judged> {
    let mut judged = Vec::new();
    for (rule, of) in all().iter().enumerate().filter(|(_, of)| wanted(**of)) {
        let said = of.judge(build).into_iter().filter(|judgement| judgement.verdict != Verdict::Passes);
        judged.extend(said.map(|judgement| Judged { rule, size: build.size, judgement }));
    }
    judged
}

/// Faults of all worlds, each once, in the order of the texts; one that stands in a file that several roots use
/// says which.
fn faults(loaded: &Loaded, worlds: &[World]) -> Vec<Finding> {
    let mut faults: Vec<Finding> = Vec::new();
    for world in worlds {
        let root = &loaded.sources.get(world.root).shown;
        for finding in &world.findings {
            let same = |known: &&mut Finding| known.name == finding.name && known.labels == finding.labels;
            match faults.iter_mut().find(same) {
                Some(known) if known.roots.contains(root) => {}
                Some(known) => known.roots.push(root.clone()),
                None => faults.push(Finding { roots: vec![root.clone()], ..finding.clone() }),
            }
        }
    }
    for fault in &mut faults {
        let alone = fault.span().is_some_and(|span| fault.roots == [loaded.sources.get(span.source).shown.clone()]);
        if alone || worlds.len() == 1 {
            fault.roots.clear();
        }
    }
    faults.sort_by_key(|finding| (finding.severity != Severity::Fault, finding.span()));
    faults
}
