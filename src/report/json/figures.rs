//! The document of figures: every model in every size, no number rounded.

use super::origin::{TermDoc, terms};
use crate::build::{BondOf, COMPUTATION, Datum, Figure, Slot, key_of_seam};
use crate::check::{Figured, ModelChecked};
use crate::report::places::Places;
use crate::report::run::Run;
#[cfg(test)]
use schemars::{JsonSchema, Schema, schema_for};
use serde::{Serialize, Serializer};
#[cfg(test)]
use std::collections::BTreeMap;
use std::io::{self, Write};

/// All figures of one run.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields, title = "hobnail/figures/2"))]
struct FiguresDoc<'d> {
    /// The version of this shape: `hobnail/figures/2`.
    version: &'static str,
    /// The version of the computation: a fingerprint changes with it.
    computation: u32,
    /// Only some figures of each build are here: those of a card. Absent where all are.
    #[serde(skip_serializing_if = "Option::is_none")]
    part: Option<bool>,
    /// The models of the files given.
    models: Vec<ModelDoc<'d>>,
}

/// A model.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct ModelDoc<'d> {
    /// Its name.
    name: &'d str,
    /// Its title, perhaps empty.
    title: &'d str,
    /// Its revision, if it has one.
    revision: Option<u32>,
    /// The file that declares it.
    path: &'d str,
    /// Its sizes, in the order of its run.
    sizes: Vec<SizeDoc<'d>>,
}

/// A model in one size.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct SizeDoc<'d> {
    /// The size system: `us-men`, `eu`, …
    system: &'static str,
    /// The size: `9.5 EE`
    size: String,
    /// Whether some rule refuses it in this size.
    refused: bool,
    /// What tells this build from any other.
    fingerprint: &'d str,
    /// The figures by their keys, in the order of the work.
    #[cfg_attr(test, schemars(with = "BTreeMap<String, FigureDoc<'d>>"))]
    figures: Rows<'d>,
}

/// A map in the order of the work.
#[derive(Debug)]
struct Rows<'d>(Vec<(&'d str, FigureDoc<'d>)>);

impl Serialize for Rows<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(key, figure)| (key, figure)))
    }
}

/// One figure: what it is, its unit, and its value in one of five shapes.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct FigureDoc<'d> {
    /// What it is, by its definition: `sole-row-stitches`. Of one definition there may be many, told apart by their names.
    definition: String,
    /// The names that tell it apart, in the order of the key; absent where there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    names: Option<Vec<NameDoc<'d>>>,
    /// What it is, in words.
    label: &'d str,
    /// The unit; empty for counts and words.
    unit: &'static str,
    /// The value.
    #[serde(flatten)]
    value: ValueDoc<'d>,
    /// The terms, where it is a sum.
    #[serde(skip_serializing_if = "Option::is_none")]
    terms: Option<Vec<TermDoc<'d>>>,
}

/// What tells a figure from others of its definition.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum NameDoc<'d> {
    /// A name that the shop typed.
    Typed(&'d str),
    /// A word of the program: a role, a place, a step.
    Word(&'d str),
    /// The number of a row or a stage.
    Number(u32),
    /// A seam.
    Seam(String),
    /// What a bond holds: a layer, by its role.
    Layer(&'d str),
    /// What a bond holds: a lining, by its part.
    Lining(&'d str),
    /// What a bond holds: wedges, lifts and cap of the heel.
    Heel(bool),
}

impl<'d> NameDoc<'d> {
    fn of(slot: &'d Slot) -> Self {
        match slot {
            Slot::Typed(name) => NameDoc::Typed(name),
            Slot::Word(word) => NameDoc::Word(word),
            Slot::Number(number) => NameDoc::Number(*number),
            Slot::Seam(seam) => NameDoc::Seam(key_of_seam(seam)),
            Slot::Bond(BondOf::Layer(role)) => NameDoc::Layer(role),
            Slot::Bond(BondOf::Lining(part)) => NameDoc::Lining(part),
            Slot::Bond(BondOf::Heel) => NameDoc::Heel(true),
        }
    }
}

impl<'d> FigureDoc<'d> {
    fn of(figure: &'d Figure, terms: Option<Vec<TermDoc<'d>>>) -> Self {
        let names: Vec<NameDoc<'d>> = figure.of.slots.iter().map(NameDoc::of).collect();
        FigureDoc {
            definition: figure.of.id.name(),
            names: (!names.is_empty()).then_some(names),
            label: &figure.label,
            unit: figure.unit.name(),
            value: value(&figure.datum),
            terms,
        }
    }
}

/// The shapes of a value.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(untagged)]
pub(super) enum ValueDoc<'d> {
    /// One number.
    Number {
        /// The number.
        value: f64,
    },
    /// A whole number.
    Count {
        /// The number.
        value: u64,
    },
    /// What varies.
    Spread {
        /// The thin end.
        lo: f64,
        /// The middle.
        nominal: f64,
        /// The thick end.
        hi: f64,
    },
    /// What is allowed.
    Window {
        /// The least.
        lo: f64,
        /// The most.
        hi: f64,
    },
    /// A name or a word.
    Text {
        /// The words.
        text: &'d str,
    },
    /// Names or words in order.
    Texts {
        /// The words.
        list: &'d [String],
    },
    /// Numbers in order.
    Numbers {
        /// The numbers.
        list: &'d [f64],
    },
}

#[cfg(test)]
pub(super) fn schema() -> Schema {
    schema_for!(FiguresDoc<'static>)
}

/// Writes the document.
pub(in crate::report) fn write(out: &mut dyn Write, run: &Run<'_>, figured: &[Vec<Figured>]) -> io::Result<()> {
    let models = run.checked.models.iter().zip(figured).map(|(it, sizes)| model(it, sizes, run)).collect();
    super::document(out, &FiguresDoc { version: super::FIGURES_SCHEMA, computation: COMPUTATION, part: None, models })
}

/// Whether a card shows a figure of a model.
pub(in crate::report) type Shown<'s> = &'s dyn Fn(&ModelChecked, &Figure) -> bool;

/// Models in some sizes, compact, for what travels with a printed sheet: it says nothing of where it was written,
/// so that the same build gives the same bytes wherever its files lie. `shown` picks the figures of a card.
pub(in crate::report) fn attached(
    models: &[(&ModelChecked, Vec<&Figured>)],
    shown: Option<Shown<'_>>,
) -> serde_json::Result<Vec<u8>> {
    let models = models.iter().map(|(model, sizes)| ModelDoc {
        name: &model.name,
        title: &model.title,
        revision: model.revision,
        path: "",
        sizes: sizes.iter().map(|size| bare(size, &|figure| shown.is_none_or(|shown| shown(model, figure)))).collect(),
    });
    let (version, part) = (super::FIGURES_SCHEMA, shown.map(|_| true));
    serde_json::to_vec(&FiguresDoc { version, computation: COMPUTATION, part, models: models.collect() })
}

/// A size with its figures, without their terms.
fn bare<'d>(size: &'d Figured, shown: &dyn Fn(&Figure) -> bool) -> SizeDoc<'d> {
    let figures = size.figures.iter().filter(|it| shown(it)).map(|it| (&*it.key, FigureDoc::of(it, None)));
    SizeDoc {
        system: size.checked.size.system.name(),
        size: size.checked.size.to_string(),
        refused: size.checked.refused,
        fingerprint: &size.fingerprint,
        figures: Rows(figures.collect()),
    }
}

fn model<'d>(model: &'d ModelChecked, sizes: &'d [Figured], run: &'d Run<'d>) -> ModelDoc<'d> {
    ModelDoc {
        name: &model.name,
        title: &model.title,
        revision: model.revision,
        path: &run.sources().get(model.root).shown,
        sizes: sizes.iter().map(|it| size(it, &run.places)).collect(),
    }
}

fn size<'d>(size: &'d Figured, places: &Places<'d>) -> SizeDoc<'d> {
    SizeDoc {
        system: size.checked.size.system.name(),
        size: size.checked.size.to_string(),
        refused: size.checked.refused,
        fingerprint: &size.fingerprint,
        figures: Rows(size.figures.iter().map(|it| (&*it.key, figure(it, places))).collect()),
    }
}

fn figure<'d>(figure: &'d Figure, places: &Places<'d>) -> FigureDoc<'d> {
    FigureDoc::of(figure, figure.sum.as_ref().map(|sum| terms(sum, places)))
}

pub(super) fn value(datum: &Datum) -> ValueDoc<'_> {
    match datum {
        Datum::Number(value) => ValueDoc::Number { value: *value },
        Datum::Count(value) => ValueDoc::Count { value: *value },
        Datum::Spread(it) => ValueDoc::Spread { lo: it.lo, nominal: it.nominal, hi: it.hi },
        Datum::Window(it) => ValueDoc::Window { lo: it.lo, hi: it.hi },
        Datum::Text(text) => ValueDoc::Text { text },
        Datum::Texts(list) => ValueDoc::Texts { list },
        Datum::Numbers(list) => ValueDoc::Numbers { list },
    }
}
