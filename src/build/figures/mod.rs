//! The figures of a build, by key: what sheets print, tables show and JSON carries, and what the fingerprint hashes.

mod bottom;
mod closing;
mod model;
mod sole;
mod takes;
mod upper;

use super::figure::Datum;
use super::{Build, Built, Figures};
use crate::measure::{Amount, Shape};
use crate::spec::Val;

/// All figures of a build, in the order of the work.
#[must_use]
pub fn figures(build: &Build<'_>) -> Figures {
    let mut list = List { figures: Figures::default() };
    model::model(build, &mut list);
    upper::upper(build, &mut list);
    closing::closing(build, &mut list);
    model::lasting(build, &mut list);
    bottom::bottom(build, &mut list);
    sole::sole(build, &mut list);
    bottom::heel(build, &mut list);
    model::finish(build, &mut list);
    takes::takes(build, &mut list);
    list.figures
}

/// Figures under way; what a fault took is left out.
struct List {
    figures: Figures,
}

impl List {
    fn number(&mut self, key: &str, label: &str, unit: &'static str, value: f64) {
        self.figures.push(key, label, unit, Datum::Number(value));
    }

    fn numbers(&mut self, key: &str, label: &str, unit: &'static str, values: Vec<f64>) {
        self.figures.push(key, label, unit, Datum::Numbers(values));
    }

    fn count(&mut self, key: &str, label: &str, value: impl Into<u64>) {
        self.figures.push(key, label, "", Datum::Count(value.into()));
    }

    fn text(&mut self, key: &str, label: &str, value: impl Into<String>) {
        self.figures.push(key, label, "", Datum::Text(value.into()));
    }

    fn texts(&mut self, key: &str, label: &str, values: Vec<String>) {
        self.figures.push(key, label, "", Datum::Texts(values));
    }

    /// A value as written: a number, or a spread if it has two ends.
    fn amount(&mut self, key: &str, label: &str, value: &Val<Amount>) {
        let Ok(value) = value else { return };
        let datum = match value.it.shape {
            Shape::Exact(_) => Datum::Number(value.it.nominal()),
            _ => Datum::Spread(value.it.spread()),
        };
        self.figures.push(key, label, value.it.kind.base_unit(), datum);
    }

    fn maybe(&mut self, key: &str, label: &str, value: Option<&Val<Amount>>) {
        if let Some(value) = value {
            self.amount(key, label, value);
        }
    }

    fn window(&mut self, key: &str, label: &str, value: Option<&Val<Amount>>) {
        if let Some(Ok(value)) = value {
            self.figures.push(key, label, value.it.kind.base_unit(), Datum::Window(value.it.window()));
        }
    }

    fn whole(&mut self, key: &str, label: &str, value: Option<&Val<u32>>) {
        if let Some(Ok(value)) = value {
            self.count(key, label, value.it);
        }
    }

    fn word(&mut self, key: &str, label: &str, value: Option<&Val<&'static str>>) {
        if let Some(Ok(value)) = value {
            self.text(key, label, value.it);
        }
    }

    fn string(&mut self, key: &str, label: &str, value: Option<&Val<String>>) {
        if let Some(Ok(value)) = value {
            self.text(key, label, value.it.clone());
        }
    }

    fn named<T>(&mut self, key: &str, label: &str, value: Option<&Val<T>>, name: impl Fn(&T) -> &str) {
        if let Some(Ok(value)) = value {
            self.text(key, label, name(&value.it));
        }
    }

    fn built(&mut self, key: &str, label: &str, unit: &'static str, value: &Built<f64>) {
        if let Ok(value) = value {
            self.number(key, label, unit, *value);
        }
    }
}
