//! The proof: a draft in the texts, and everything judged again, in all sizes, for all files given that use them.

use super::search::Proof;
use super::trial::{About, Bench};
use super::write::Draft;
use super::{about, key_of};
use crate::check::{AllSizes, Checked, check};
use crate::finding::{Finding, Severity};
use crate::source::SourceId;
use crate::spec::Loaded;
use std::collections::{BTreeMap, BTreeSet};

/// What was found before anything is edited, in all sizes of the files given that see one file.
pub struct Before {
    /// The files.
    pub roots: Vec<SourceId>,
    /// What was found.
    pub findings: Vec<Finding>,
}

impl Before {
    /// Of the files given that see `edited`; `known` is what is known of all files in all sizes, if that is so.
    pub fn of(loaded: &Loaded, edited: SourceId, known: Option<&Checked>) -> Self {
        let roots: Vec<SourceId> =
            loaded.roots.iter().copied().filter(|root| loaded.visible(*root).contains(&edited)).collect();
        let findings = match known {
            Some(checked) if roots.len() == loaded.roots.len() => checked.findings.clone(),
            _ => check(&loaded.with(loaded.sources.clone(), roots.clone()), &AllSizes).findings,
        };
        Self { roots, findings }
    }

    fn after(&self, bench: &Bench<'_>, draft: &Draft) -> Option<Vec<Finding>> {
        bench.edited(draft, self.roots.clone()).map(|loaded| check(&loaded, &AllSizes).findings)
    }

    /// Whether a draft cures what it is for, and does no harm.
    pub fn prove(&self, bench: &Bench<'_>, draft: &Draft, cure: &BTreeSet<About>) -> Proof {
        let Some(after) = self.after(bench, draft) else { return Proof::Fails(None) };
        let mut before: BTreeMap<String, Severity> = BTreeMap::new();
        for finding in &self.findings {
            let worst = before.entry(key_of(finding)).or_insert(finding.severity);
            *worst = (*worst).min(finding.severity);
        }
        let mut tight = false;
        for finding in after.iter().filter(|finding| finding.severity < Severity::Note) {
            let was = before.get(&key_of(finding)).copied();
            let goal = about(finding, bench.model).is_some_and(|about| cure.contains(&about));
            let stays = match (finding.severity, was) {
                (Severity::Refused, Some(Severity::Refused)) => !goal,
                (Severity::Tight, Some(Severity::Refused)) => true,
                (Severity::Tight, Some(Severity::Tight)) => !goal,
                _ => false,
            };
            if !stays {
                return Proof::Fails(finding.sizes.as_ref().map(|sizes| sizes.worst));
            }
            tight |= goal && finding.severity == Severity::Tight;
        }
        Proof::Holds { tight, cures: cures(before, &after) }
    }
}

/// The keys of what is gone. What was wrong is gone if no more than a note is left of it.
fn cures(before: BTreeMap<String, Severity>, after: &[Finding]) -> Vec<String> {
    let left = |key: &str, was: Severity| {
        let same = |finding: &&Finding| key_of(finding) == key;
        after.iter().filter(same).any(|finding| finding.severity < Severity::Note || was == Severity::Note)
    };
    before.into_iter().filter(|(key, was)| !left(key, *was)).map(|(key, _)| key).collect()
}
