//! Where a value in force came from.

use super::text::Span;
use serde::Serialize;
use std::sync::Arc;

/// How a value came into force, strongest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Provenance {
    /// Written where it is used.
    Written,
    /// Inherited through the `like` at this span.
    Inherited(Span),
    /// A house rule written in the shop's file.
    House,
    /// Built in; no file says it.
    BuiltIn,
}

/// What a value is to the one who would change it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Nature {
    /// A fact: machine, stock, last.
    Fact,
    /// A choice of the model.
    Choice,
    /// A house rule.
    HouseRule,
}

/// Where a value was written, how it came into force and what it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// Where it is written; for a built-in value, where it could be written.
    pub span: Span,
    /// How it came into force.
    pub provenance: Provenance,
    /// Fact, choice or house rule.
    pub nature: Nature,
    /// The way to it: `model scree-8 / bottom / layer midsole / of`.
    pub path: Arc<str>,
}
