//! A figure: one thing that was computed, with the key by which sheets, tables and JSON know it.

use crate::finding::Sum;
use crate::measure::{Spread, Window};
use std::sync::Arc;

/// What a figure is.
#[derive(Clone, Debug, PartialEq)]
pub enum Datum {
    /// One number in a unit.
    Number(f64),
    /// A whole number.
    Count(u64),
    /// What varies: thin end, nominal, thick end.
    Spread(Spread),
    /// What is allowed.
    Window(Window),
    /// A name or a word.
    Text(String),
    /// Names or words in order.
    Texts(Vec<String>),
    /// Numbers in order, in the unit.
    Numbers(Vec<f64>),
}

/// One thing that was computed.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// `sole.row-1.stitches`: stable, the same in every output.
    pub key: Arc<str>,
    /// What it is, in words.
    pub label: Arc<str>,
    /// The unit: `mm`, `m`, `cm2`, `dm2`, `spi`, `Nm`, `tex`, `N`, `%`, `deg`, `minutes`; empty for counts and words.
    pub unit: &'static str,
    /// What it is.
    pub datum: Datum,
    /// The terms, where it is a sum.
    pub sum: Option<Sum>,
}

/// All figures of one model in one size, in the order of the work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figures {
    list: Vec<Figure>,
}

impl Figures {
    /// Adds a figure.
    pub fn push(&mut self, key: impl Into<Arc<str>>, label: impl Into<Arc<str>>, unit: &'static str, datum: Datum) {
        self.list.push(Figure { key: key.into(), label: label.into(), unit, datum, sum: None });
    }

    /// Adds a sum with its terms.
    pub fn push_sum(&mut self, key: impl Into<Arc<str>>, label: impl Into<Arc<str>>, unit: &'static str, sum: Sum) {
        let datum = Datum::Spread(sum.spread());
        self.list.push(Figure { key: key.into(), label: label.into(), unit, datum, sum: Some(sum) });
    }

    /// The figure of that key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Figure> {
        self.list.iter().find(|figure| &*figure.key == key)
    }

    /// All figures in order.
    pub fn iter(&self) -> impl Iterator<Item = &Figure> {
        self.list.iter()
    }
}
