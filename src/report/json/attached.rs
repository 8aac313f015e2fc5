//! Figures that travel with a printed sheet, read back.

use crate::build::Datum;
use crate::check::{Recorded, RecordedFigure};
use crate::measure::{Spread, Window};
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer};
use serde_json::{Number, Value};
use std::fmt;

#[derive(Deserialize)]
struct Versioned {
    version: String,
}

#[derive(Deserialize)]
struct Attached {
    computation: Option<u32>,
    #[serde(default)]
    part: bool,
    models: Vec<Model>,
}

#[derive(Deserialize)]
struct Model {
    name: String,
    revision: Option<u32>,
    sizes: Vec<Build>,
}

#[derive(Deserialize)]
struct Build {
    system: String,
    size: String,
    fingerprint: String,
    figures: Rows,
}

/// A map in the order in which it is written.
struct Rows(Vec<(String, Figure)>);

#[derive(Deserialize)]
struct Figure {
    label: String,
    unit: String,
    value: Option<Number>,
    lo: Option<f64>,
    nominal: Option<f64>,
    hi: Option<f64>,
    text: Option<String>,
    list: Option<Vec<Value>>,
}

impl<'de> Deserialize<'de> for Rows {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(InOrder)
    }
}

struct InOrder;

impl<'de> Visitor<'de> for InOrder {
    type Value = Rows;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("figures by their keys")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Rows, A::Error> {
        let mut rows = Vec::new();
        while let Some(row) = map.next_entry()? {
            rows.push(row);
        }
        Ok(Rows(rows))
    }
}

/// Reads what was attached; the words say why it can't be read.
pub(in crate::report) fn read(bytes: &[u8]) -> Result<Vec<Recorded>, String> {
    let damaged = |_| "the figures that it carries are damaged".to_owned();
    let Versioned { version } = serde_json::from_slice(bytes).map_err(damaged)?;
    if version != super::FIGURES_SCHEMA && !super::EARLIER_FIGURES.contains(&&*version) {
        return Err(format!("its figures have the shape `{version}`, which this program does not read"));
    }
    let attached: Attached = serde_json::from_slice(bytes).map_err(damaged)?;
    let (computation, part) = (attached.computation, attached.part);
    let sizes = attached.models.into_iter().flat_map(|model| {
        let Model { name, revision, sizes } = model;
        sizes.into_iter().map(move |size| (name.clone(), revision, size))
    });
    sizes
        .map(|(model, revision, size)| {
            let Build { system, size, fingerprint, figures } = size;
            let figures: Option<Vec<_>> = figures.0.into_iter().map(recorded).collect();
            let figures = Some(figures.ok_or("the figures that it carries are damaged")?);
            Ok(Recorded { computation, part, model, revision, system, size, fingerprint, figures })
        })
        .collect()
}

fn recorded((key, figure): (String, Figure)) -> Option<RecordedFigure> {
    let datum = datum(&figure)?;
    Some(RecordedFigure { key, label: figure.label, unit: figure.unit, datum })
}

/// The one shape that a figure has.
fn datum(figure: &Figure) -> Option<Datum> {
    match figure {
        Figure { value: Some(value), .. } => value.as_u64().map(Datum::Count).or(value.as_f64().map(Datum::Number)),
        Figure { lo: Some(lo), nominal: Some(nominal), hi: Some(hi), .. } => {
            Some(Datum::Spread(Spread { lo: *lo, nominal: *nominal, hi: *hi }))
        }
        Figure { lo: Some(lo), hi: Some(hi), .. } => Some(Datum::Window(Window { lo: *lo, hi: *hi })),
        Figure { text: Some(text), .. } => Some(Datum::Text(text.clone())),
        Figure { list: Some(list), .. } => {
            let texts: Option<Vec<String>> = list.iter().map(|it| it.as_str().map(str::to_owned)).collect();
            let numbers = || list.iter().map(Value::as_f64).collect::<Option<Vec<f64>>>().map(Datum::Numbers);
            texts.map(Datum::Texts).or_else(numbers)
        }
        _ => None,
    }
}
