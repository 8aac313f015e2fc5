//! Tries a draft: the texts are edited in memory, read again, built and judged.

use super::place::Place;
use super::place::places;
use super::write::{Draft, Page};
use crate::build::Plan;
use crate::check::severity_of;
use crate::finding::{Change, Severity, Subject};
use crate::language::{Body, Given, Value};
use crate::measure::Size;
use crate::rules::{Judgement, Verdict, all};
use crate::source::{Edit, SourceId};
use crate::spec::{Loaded, Merged, Model, World, in_force, remade, world};
use std::ops::RangeInclusive;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What is judged: a rule by its place in the registry, and its subject.
pub type About = (usize, Subject);

/// One judgement that does not pass.
#[derive(Clone, Debug)]
pub struct Wrong {
    /// What it is about.
    pub about: About,
    /// Refused, tight, or tight in so few pairs that it is only worth a note.
    pub severity: Severity,
    /// In which size.
    pub size: Size,
    /// What the rule says.
    pub judgement: Judgement,
}

impl Wrong {
    /// How far it is from passing: refused is farther than tight, then what is missing.
    pub fn missing(&self) -> (bool, f64) {
        (self.severity == Severity::Refused, -self.judgement.margin)
    }
}

/// What some sizes of a model come to.
#[derive(Clone, Debug, Default)]
pub struct Outcome {
    /// What is refused or tight, in the order of the rules.
    pub wrong: Vec<Wrong>,
    /// Something could not be understood, laid out or judged.
    pub faulty: bool,
}

/// A model as it was given, on which drafts are tried.
pub struct Bench<'b> {
    loaded: &'b Loaded,
    /// The file that declares it.
    pub root: SourceId,
    /// Its name.
    pub model: &'b str,
    own: &'b Body,
    merged: Merged,
    under: Option<Merged>,
    world: World,
    tried: AtomicUsize,
}

/// A draft in the texts, and what they say then.
pub struct Trial {
    /// The texts.
    pub loaded: Loaded,
    /// What they declare.
    pub world: World,
    merged: Merged,
}

impl<'b> Bench<'b> {
    /// A model of the file `root`.
    pub fn new(loaded: &'b Loaded, root: SourceId, model: &'b str) -> Option<Self> {
        let statements = loaded.reading(root).body.all("model");
        let declared = statements.into_iter().find(|known| known.name().is_some_and(|name| name.it == model))?;
        let like = declared.clause("like").and_then(|like| match like.slots.first().map(|slot| &slot.given) {
            Some(Given::Value(Value::Name(name))) => Some(name.clone()),
            _ => None,
        });
        let merged = in_force(loaded, root, model)?;
        let under = like.and_then(|like| in_force(loaded, root, &like));
        let world = world(loaded, root);
        Some(Self {
            loaded,
            root,
            model,
            own: declared.block.as_ref()?,
            merged,
            under,
            world,
            tried: AtomicUsize::new(0),
        })
    }

    /// How many drafts were tried so far.
    pub fn tried(&self) -> usize {
        self.tried.load(Ordering::Relaxed)
    }

    /// The edits that make a draft.
    pub fn changes(&self, draft: &Draft) -> Vec<Change> {
        let Self { own, merged, model, .. } = self;
        Page { sources: &self.loaded.sources, model, own, merged, under: self.under.as_ref() }.changes(draft)
    }

    /// The texts with a draft made, of which `roots` are to be judged.
    pub fn edited(&self, draft: &Draft, roots: Vec<SourceId>) -> Option<Loaded> {
        let edits: Vec<Edit> = self.changes(draft).into_iter().map(|change| change.edit).collect();
        Some(self.loaded.with(self.loaded.sources.apply(&edits).ok()?, roots))
    }

    /// A draft, read again; nothing is built yet. `None` if the texts are at fault then.
    pub fn trial(&self, draft: &Draft) -> Option<Trial> {
        self.tried.fetch_add(1, Ordering::Relaxed);
        let loaded = self.edited(draft, vec![self.root])?;
        let (world, merged) = remade(&loaded, &self.world, self.model)?;
        if world.findings.iter().any(|finding| finding.severity == Severity::Fault) {
            return None;
        }
        Some(Trial { loaded, world, merged })
    }
}

impl Trial {
    /// The model.
    pub fn model(&self) -> &Model {
        &self.world.models[0]
    }

    /// Its statements in force.
    pub fn places(&self) -> Vec<Place<'_>> {
        places(&self.merged)
    }

    /// Builds one size and asks one rule alone; what else is wrong is seen when the whole is judged.
    pub fn asked(&self, rule: usize, size: Size) -> Outcome {
        self.judged_by(rule..=rule, &[size])
    }

    /// Builds and judges some sizes.
    pub fn judged(&self, sizes: &[Size]) -> Outcome {
        self.judged_by(0..=all().len() - 1, sizes)
    }

    fn judged_by(&self, rules: RangeInclusive<usize>, sizes: &[Size]) -> Outcome {
        let Some(shop) = &self.world.shop else { return Outcome { wrong: Vec::new(), faulty: true } };
        let plan = Plan::new(self.model(), shop);
        let mut outcome = Outcome::default();
        for size in sizes {
            let build = plan.build(*size);
            for rule in rules.clone() {
                for judgement in all()[rule].judge(&build) {
                    outcome.take(rule, *size, judgement);
                }
            }
        }
        outcome.wrong.sort_by(|a, b| (&a.about, a.severity, a.size).cmp(&(&b.about, b.severity, b.size)));
        outcome
    }
}

impl Outcome {
    fn take(&mut self, rule: usize, size: Size, judgement: Judgement) {
        if let Verdict::NotJudged(hole) = judgement.verdict {
            // What another rule refuses is known to be wrong; anything else is lost.
            self.faulty |= all().iter().all(|rule| rule.name() != hole.fault);
        }
        let severity = match judgement.verdict {
            Verdict::Refused | Verdict::Tight(_) => severity_of(&judgement),
            _ => None,
        };
        let Some(severity) = severity else { return };
        self.wrong.push(Wrong { about: (rule, judgement.subject.clone()), severity, size, judgement });
    }

    /// The worst of what is said about something.
    pub fn about(&self, about: &About) -> Option<&Wrong> {
        let of = self.wrong.iter().filter(|wrong| wrong.about == *about);
        of.max_by(|a, b| {
            let (a, b) = (a.missing(), b.missing());
            a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
        })
    }
}
