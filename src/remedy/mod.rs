//! Ways out of what is refused or tight: edits that were computed, tried and found to pass.
//!
//! | file | takes | gives |
//! |---|---|---|
//! | `place` | a model in force | its statements with the ways to them |
//! | `step`, `stocked` | a value | the next that can be set, or that is on the shelf; marks and cost stand in the vocabulary |
//! | `candidate`, `lengths`, `added` | what is wrong | the choices that may move it, each with its rungs |
//! | `write` | a draft | edits of the text |
//! | `trial` | a draft | what its texts come to in some sizes |
//! | `search` | what must go | drafts that leave nothing open |
//! | `proof` | a draft | what its texts come to in all sizes, for all files given that use them |
//! | `mended` | a remedy | the texts as it leaves them, and what was promised of them |
//!
//! A draft is what is said of some statements of one model; it becomes text only to be tried.

mod added;
mod candidate;
mod lengths;
mod mended;
mod place;
mod proof;
pub mod reach;
mod search;
mod step;
mod stocked;
mod trial;
mod write;

pub use mended::{Rewritten, mended, promised, weighing};
pub use search::MOST_TRIALS;

use crate::check::Checked;
use crate::finding::{Finding, Reaches, Remedy, Severity, WaysOut};
use crate::measure::Size;
use crate::rules::all;
use crate::source::SourceId;
use crate::spec::Loaded;
use proof::Before;
use search::{Found, Goal, Search};
use std::collections::BTreeSet;
use trial::{About, Bench};

/// Looks for ways out of every finding that refuses or is tight, and puts them beside it. Whatever sizes were asked
/// for, a way out holds in every size of the run.
pub fn remedies(loaded: &Loaded, checked: &mut Checked) {
    if checked.findings.iter().any(|finding| finding.severity == Severity::Fault) {
        return;
    }
    let models: Vec<(SourceId, String, Vec<Size>)> =
        checked.models.iter().map(|model| (model.root, model.name.clone(), model.run.clone())).collect();
    for (root, name, run) in models {
        let mine = |finding: &&Finding| weighs(finding) && about(finding, &name).is_some();
        if checked.findings.iter().any(|finding| mine(&finding)) {
            let whole = checked.models.iter().all(|model| model.sizes.len() == model.run.len());
            let before = Before::of(loaded, root, whole.then_some(checked));
            let ways = Ways { loaded, root, name: &name, run: &run, before: &before };
            ways.put(&mut checked.findings);
        }
    }
}

/// Whether a finding wants a way out.
fn weighs(finding: &Finding) -> bool {
    matches!(finding.severity, Severity::Refused | Severity::Tight)
}

/// What a finding of a model is about, as the search knows it.
fn about(finding: &Finding, model: &str) -> Option<About> {
    let about = finding.about.as_ref().filter(|about| about.model == model)?;
    let rule = all().iter().position(|rule| rule.name() == finding.name)?;
    Some((rule, about.subject.clone()))
}

/// The ways out of what is wrong with one model.
struct Ways<'w> {
    loaded: &'w Loaded,
    root: SourceId,
    name: &'w str,
    run: &'w [Size],
    before: &'w Before,
}

impl Ways<'_> {
    fn put(&self, findings: &mut [Finding]) {
        let (remedies, trials) = self.together();
        let alone = remedies.is_empty() && self.of(Severity::Refused).len() > 1;
        for finding in findings.iter_mut().filter(|finding| weighs(finding)) {
            let Some(about) = about(finding, self.name) else { continue };
            let key = key_of(finding);
            let refused = finding.severity == Severity::Refused;
            let (found, tried) =
                if alone && refused { self.search(&BTreeSet::from([about])) } else { (remedies.clone(), trials) };
            // What only gets a refusal to tight cures it, too, but does not make it go away.
            let cures = |remedy: &Remedy| remedy.cures.contains(&key) || refused && remedy.reaches == Reaches::Tight;
            let remedies: Vec<Remedy> = found.into_iter().filter(cures).collect();
            let none_because = remedies.is_empty().then(|| because(finding));
            finding.ways_out = Some(WaysOut { remedies, trials: tried, none_because });
        }
    }

    fn of(&self, severity: Severity) -> BTreeSet<About> {
        let of = self.before.findings.iter().filter(|finding| finding.severity == severity);
        of.filter_map(|finding| about(finding, self.name)).collect()
    }

    /// One set for everything that is refused; if nothing is, for everything that is tight.
    fn together(&self) -> (Vec<Remedy>, usize) {
        let refused = self.of(Severity::Refused);
        self.search(&if refused.is_empty() { self.of(Severity::Tight) } else { refused })
    }

    fn search(&self, cure: &BTreeSet<About>) -> (Vec<Remedy>, usize) {
        let Some(bench) = Bench::new(self.loaded, self.root, self.name) else { return (Vec::new(), 0) };
        let leave = self.of(Severity::Refused).difference(cure).cloned().collect();
        let goal = Goal { cure: cure.clone(), leave, tight: self.of(Severity::Tight) };
        let found = Search::new(&bench, &goal, self.sizes(cure)).run(|draft| self.before.prove(&bench, draft, cure));
        let remedies = ranked(found).iter().map(|found| self.remedy(&bench, found)).collect();
        (remedies, bench.tried())
    }

    /// The worst size of each finding, and both ends of the run.
    fn sizes(&self, cure: &BTreeSet<About>) -> Vec<Size> {
        let worst =
            self.before.findings.iter().filter(|finding| {
                about(finding, self.name).is_some_and(|about| cure.contains(&about)) && weighs(finding)
            });
        let worst = worst.filter_map(|finding| finding.sizes.as_ref().map(|sizes| sizes.worst));
        let ends = self.run.iter().min().into_iter().chain(self.run.iter().max());
        let sizes: BTreeSet<Size> = worst.take(3).chain(ends.copied()).collect();
        sizes.into_iter().collect()
    }

    fn remedy(&self, bench: &Bench<'_>, found: &Found) -> Remedy {
        let changes = bench.changes(&found.draft);
        let edited: BTreeSet<SourceId> = changes.iter().map(|change| change.edit.span.source).collect();
        let users: BTreeSet<SourceId> = edited.iter().flat_map(|id| self.loaded.users(*id)).collect();
        let unseen = users.iter().filter(|id| !self.loaded.roots.contains(id) && !edited.contains(id));
        Remedy {
            kind: found.kind,
            reaches: if found.tight { Reaches::Tight } else { Reaches::Passes },
            cures: found.cures.clone(),
            unseen: unseen.map(|id| self.loaded.sources.get(*id).shown.clone()).collect(),
            changes,
        }
    }
}

/// Name and subject: what a finding is known by.
fn key_of(finding: &Finding) -> String {
    format!("{}@{}", finding.name, finding.subject())
}

/// The limit that makes it so that there is no way out.
fn because(finding: &Finding) -> String {
    let limit = finding
        .measured
        .as_ref()
        .map(|measured| format!("{} {}", crate::rules::number(measured.limit, 1.0), measured.unit));
    match limit {
        Some(limit) => format!(
            "no choice of the model, within the steps that can be set and what is stocked, meets the limit of {limit}"
        ),
        None => format!("no choice of the model changes it: {}", finding.message),
    }
}

/// Passing before tight; then what takes away that which is too many, then by kind, then the smaller change; the
/// first three of two kinds, if there are two.
fn ranked(mut found: Vec<Found>) -> Vec<Found> {
    let order = |found: &Found| {
        (found.last, found.tight, !found.cause, found.kind, found.draft.len(), found.far, found.name.clone())
    };
    found.sort_by_cached_key(order);
    if found.first().is_some_and(|first| first.last) {
        return Vec::new();
    }
    if found.len() > 3 && found[..3].iter().all(|other| other.kind == found[0].kind) {
        let other = found.iter().position(|other| other.kind != found[0].kind && !other.last);
        if let Some(at) = other {
            let other = found.remove(at);
            found.insert(2, other);
        }
    }
    found
}
