//! What there is to report of one run: its findings as far as they are shown, and their counts.

use super::places::Places;
use crate::check::{Checked, ModelChecked};
use crate::finding::{FaultName, Finding, Severity};
use crate::measure::Size;
use crate::source::Sources;

/// The most faults that are shown.
pub const MAX_FAULTS: usize = 1_000;

/// How many findings there are of each weight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(missing_docs, reason = "each field counts the severity of that name")]
pub struct Counts {
    pub faults: usize,
    pub refused: usize,
    pub tight: usize,
    pub notes: usize,
}

impl Counts {
    fn of(findings: &[Finding]) -> Self {
        let count = |severity| findings.iter().filter(|finding| finding.severity == severity).count();
        Self {
            faults: count(Severity::Fault),
            refused: count(Severity::Refused),
            tight: count(Severity::Tight),
            notes: count(Severity::Note),
        }
    }

    /// How many there are at all.
    #[must_use]
    pub fn total(&self) -> usize {
        self.faults + self.refused + self.tight + self.notes
    }
}

/// One run, ready to be written out.
#[derive(Debug)]
pub struct Run<'r> {
    pub(super) checked: &'r Checked,
    pub(super) places: Places<'r>,
    /// Every way out is shown, however many there are.
    pub(super) all_ways: bool,
    counts: Counts,
    unshown: Option<Finding>,
}

impl<'r> Run<'r> {
    /// Prepares what was checked for being written out.
    #[must_use]
    pub fn new(sources: &'r Sources, checked: &'r Checked) -> Self {
        let counts = Counts::of(&checked.findings);
        let unshown = (counts.faults > MAX_FAULTS).then(|| unshown(counts.faults - MAX_FAULTS));
        Self { checked, places: Places::new(sources), all_ways: false, counts, unshown }
    }

    /// With every way out, or with the first few of them.
    #[must_use]
    pub fn with_all_ways(self, all_ways: bool) -> Self {
        Self { all_ways, ..self }
    }

    /// How many findings there are, shown or not.
    #[must_use]
    pub fn counts(&self) -> Counts {
        self.counts
    }

    /// The findings that are shown, in their order, and behind the faults how many of them are not.
    pub(super) fn findings(&self) -> impl Iterator<Item = &Finding> {
        let is_fault = |finding: &&Finding| finding.severity == Severity::Fault;
        let all = &self.checked.findings;
        let faults = all.iter().filter(is_fault).take(MAX_FAULTS);
        faults.chain(&self.unshown).chain(all.iter().filter(move |finding| !is_fault(finding)))
    }

    pub(super) fn sources(&self) -> &'r Sources {
        self.places.sources
    }

    pub(super) fn sizes_judged(&self) -> usize {
        self.checked.models.iter().map(|model| model.sizes.len()).sum()
    }

    /// All sizes that stand between those of a finding: of the model that it is about, else of all.
    pub(super) fn run_around(&self, finding: &Finding) -> Vec<Size> {
        let about = finding.about.as_ref().map(|about| about.model.as_str());
        let of = |model: &&ModelChecked| Some(model.name.as_str()) == about;
        let named: Vec<&ModelChecked> = self.checked.models.iter().filter(of).collect();
        let models = if named.is_empty() { self.checked.models.iter().collect() } else { named };
        models.iter().flat_map(|model| model.run.iter().copied()).collect()
    }
}

fn unshown(count: usize) -> Finding {
    Finding {
        name: FaultName::LIMIT_FAULTS.0,
        severity: Severity::Fault,
        about: None,
        message: format!("{count} more {} not shown", if count == 1 { "fault is" } else { "faults are" }),
        labels: Vec::new(),
        help: vec!["mend the first ones and check again".to_owned()],
        notes: Vec::new(),
        sizes: None,
        measured: None,
        roots: Vec::new(),
        ways_out: None,
    }
}
