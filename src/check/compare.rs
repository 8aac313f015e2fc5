//! What was printed once against what is computed now.

use super::fingerprint::value;
use super::{Checked, Figured, ModelChecked};
use crate::build::{COMPUTATION, Datum, Figure};
use crate::measure::Size;
use std::collections::{BTreeMap, BTreeSet};

/// A figure as it was printed.
#[derive(Clone, Debug, PartialEq)]
pub struct RecordedFigure {
    /// Its key.
    pub key: String,
    /// What it is, in words.
    pub label: String,
    /// Its unit.
    pub unit: String,
    /// What it was.
    pub datum: Datum,
}

/// One model in one size as it was printed.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// The version of the computation that printed it; none if it doesn't say.
    pub computation: Option<u32>,
    /// Its figures are some of the build's: those of a card, which goes by them alone.
    pub part: bool,
    /// The model's name.
    pub model: String,
    /// Its revision, if it had one.
    pub revision: Option<u32>,
    /// The size system, as spelt in the language.
    pub system: String,
    /// The size: `9.5 EE`.
    pub size: String,
    /// What told it from other builds.
    pub fingerprint: String,
    /// Its figures; none where only the fingerprint is known.
    pub figures: Option<Vec<RecordedFigure>>,
}

/// A figure that is not what it was.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Its key.
    pub key: String,
    /// What it is, in words.
    pub label: String,
    /// Its unit when it was printed, and now.
    pub units: (String, String),
    /// What it was; none if there was no such figure.
    pub then: Option<Datum>,
    /// What it is; none if there is no such figure any more.
    pub now: Option<Datum>,
}

/// How something printed stands to the present sources.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// The same build under the same revision.
    Matches,
    /// Another one, with the figures that differ, in the order of the work.
    Differs(Vec<Difference>),
    /// No model of that name is in the files given.
    NoModel,
    /// The model is there, and not made in that size.
    NoSize,
    /// A fault in the sources took what had to be compared.
    Lost,
}

/// Something printed, compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// How it stands.
    pub standing: Standing,
    /// The present fingerprint, if there is a build.
    pub fingerprint: Option<String>,
    /// The present revision, if there is a model and it has one.
    pub revision: Option<u32>,
    /// The version of the computation, if what was printed came from another one than the present.
    pub other_computation: Option<u32>,
    /// Some rule refuses the present build.
    pub refused: bool,
}

impl Checked {
    /// Holds what was printed against the builds of this run, each in turn.
    #[must_use]
    pub fn compare(&self, all: &[Recorded]) -> Vec<Compared> {
        let names: BTreeSet<&str> = all.iter().map(|it| it.model.as_str()).collect();
        let wanted = |model: &&ModelChecked| names.contains(model.name.as_str());
        let mut known: BTreeMap<&str, Vec<(&ModelChecked, Vec<Figured>)>> = BTreeMap::new();
        for model in self.models.iter().filter(wanted) {
            known.entry(&model.name).or_default().push((model, self.figured(model)));
        }
        all.iter().map(|it| best(it, known.get(it.model.as_str()).map_or(&[], Vec::as_slice))).collect()
    }

    /// The builds of this run that have a fingerprint.
    #[must_use]
    pub fn having(&self, fingerprint: &str) -> Vec<(&ModelChecked, Figured)> {
        let all = self.models.iter().flat_map(|model| self.figured(model).into_iter().map(move |size| (model, size)));
        all.filter(|(_, size)| size.fingerprint == fingerprint).collect()
    }
}

/// Against the model of that name; where files given have several, against the one that matches, or the first.
fn best(recorded: &Recorded, models: &[(&ModelChecked, Vec<Figured>)]) -> Compared {
    let mut all: Vec<Compared> = models.iter().map(|(model, sizes)| one(recorded, model, sizes)).collect();
    let matching = all.iter().position(|it| it.standing == Standing::Matches);
    if all.is_empty() { standing(recorded, Standing::NoModel) } else { all.swap_remove(matching.unwrap_or(0)) }
}

fn standing(recorded: &Recorded, standing: Standing) -> Compared {
    let other_computation = recorded.computation.filter(|version| *version != COMPUTATION);
    Compared { standing, fingerprint: None, revision: None, other_computation, refused: false }
}

fn one(recorded: &Recorded, model: &ModelChecked, sizes: &[Figured]) -> Compared {
    let is = |size: &Size| size.system.name() == recorded.system && size.to_string() == recorded.size;
    let Some(size) = sizes.iter().find(|it| is(&it.checked.size)) else {
        let lost = model.run.is_empty() || model.run.iter().any(is);
        return Compared {
            revision: model.revision,
            ..standing(recorded, if lost { Standing::Lost } else { Standing::NoSize })
        };
    };
    let differences = recorded.figures.as_ref().map_or(Vec::new(), |then| differences(then, size, recorded.part));
    // What stands at the head of a sheet counts as much as its figures.
    let same_revision = recorded.revision == model.revision;
    let same_build = recorded.part || recorded.fingerprint == size.fingerprint;
    let same = differences.is_empty() && same_build && same_revision;
    let stands = match (same, model.faulty) {
        (true, _) => Standing::Matches,
        (false, true) => Standing::Lost,
        (false, false) => Standing::Differs(differences),
    };
    Compared {
        fingerprint: Some(size.fingerprint.clone()),
        revision: model.revision,
        refused: size.checked.refused,
        ..standing(recorded, stands)
    }
}

/// Figures that are not what they were, as finely as a fingerprint tells them apart: first those that were printed, in
/// their order, then those that are new, unless only a part of them was printed.
fn differences(then: &[RecordedFigure], now: &Figured, part: bool) -> Vec<Difference> {
    let present: BTreeMap<&str, &Figure> = now.figures.iter().map(|it| (&*it.key, it)).collect();
    let printed: BTreeSet<&str> = then.iter().map(|it| it.key.as_str()).collect();
    let changed = then.iter().filter_map(|was| {
        let is = present.get(was.key.as_str());
        let same = is.is_some_and(|is| is.unit.name() == was.unit && value(&is.datum) == value(&was.datum));
        (!same).then(|| Difference {
            key: was.key.clone(),
            label: was.label.clone(),
            units: (was.unit.clone(), is.map_or(String::new(), |is| is.unit.name().to_owned())),
            then: Some(was.datum.clone()),
            now: is.map(|is| is.datum.clone()),
        })
    });
    let unknown = |is: &&Figure| !part && !printed.contains(&*is.key);
    let new = now.figures.iter().filter(unknown).map(|is| Difference {
        key: is.key.to_string(),
        label: is.label.to_string(),
        units: (String::new(), is.unit.name().to_owned()),
        then: None,
        now: Some(is.datum.clone()),
    });
    changed.chain(new).collect()
}
