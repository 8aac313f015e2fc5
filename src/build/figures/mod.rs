//! The figures of a build, by key: what sheets print, tables show and JSON carries, and what the fingerprint hashes.

mod bottom;
mod closing;
mod model;
mod sole;
mod takes;
mod upper;

use super::figure::{Datum, FigureUnit, Identity};
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
    fn number(&mut self, of: impl Into<Identity>, value: f64) {
        self.figures.push(of, Datum::Number(value));
    }

    fn numbers(&mut self, of: impl Into<Identity>, values: Vec<f64>) {
        self.figures.push(of, Datum::Numbers(values));
    }

    fn count(&mut self, of: impl Into<Identity>, value: impl Into<u64>) {
        self.figures.push(of, Datum::Count(value.into()));
    }

    fn text(&mut self, of: impl Into<Identity>, value: impl Into<String>) {
        self.figures.push(of, Datum::Text(value.into()));
    }

    fn texts(&mut self, of: impl Into<Identity>, values: Vec<String>) {
        self.figures.push(of, Datum::Texts(values));
    }

    /// A value as written: a number, or a spread if it has two ends.
    fn amount(&mut self, of: impl Into<Identity>, value: &Val<Amount>) {
        let Ok(value) = value else { return };
        let datum = match value.it.shape {
            Shape::Exact(_) => Datum::Number(value.it.nominal()),
            _ => Datum::Spread(value.it.spread()),
        };
        self.figures.push_in(of, FigureUnit::of(value.it.kind), datum);
    }

    fn maybe(&mut self, of: impl Into<Identity>, value: Option<&Val<Amount>>) {
        if let Some(value) = value {
            self.amount(of, value);
        }
    }

    fn window(&mut self, of: impl Into<Identity>, value: Option<&Val<Amount>>) {
        if let Some(Ok(value)) = value {
            self.figures.push_in(of, FigureUnit::of(value.it.kind), Datum::Window(value.it.window()));
        }
    }

    fn whole(&mut self, of: impl Into<Identity>, value: Option<&Val<u32>>) {
        if let Some(Ok(value)) = value {
            self.count(of, value.it);
        }
    }

    fn word(&mut self, of: impl Into<Identity>, value: Option<&Val<&'static str>>) {
        if let Some(Ok(value)) = value {
            self.text(of, value.it);
        }
    }

    fn string(&mut self, of: impl Into<Identity>, value: Option<&Val<String>>) {
        if let Some(Ok(value)) = value {
            self.text(of, value.it.clone());
        }
    }

    fn named<T>(&mut self, of: impl Into<Identity>, value: Option<&Val<T>>, name: impl Fn(&T) -> &str) {
        if let Some(Ok(value)) = value {
            self.text(of, name(&value.it));
        }
    }

    fn built(&mut self, of: impl Into<Identity>, value: &Built<f64>) {
        if let Ok(value) = value {
            self.number(of, *value);
        }
    }
}
