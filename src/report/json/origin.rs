//! Places, origins and terms, as both documents write them.

use crate::finding::{Sum, Term};
use crate::report::places::Places;
use crate::source::{Nature, Origin, Provenance, Span};
#[cfg(test)]
use schemars::JsonSchema;
use serde::Serialize;

/// A place in a text.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
pub(super) struct PlaceDoc<'d> {
    /// The path as the user would write it.
    pub path: &'d str,
    /// The line, from 1.
    pub line: usize,
    /// The column, from 1, in characters.
    pub column: usize,
    /// The first byte, from 0.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

impl<'d> PlaceDoc<'d> {
    pub fn of(span: Span, places: &Places<'d>) -> Self {
        let place = places.of(span);
        Self { path: place.path, line: place.line, column: place.column, start: span.start, end: span.end }
    }
}

/// How a value came into force.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub(super) enum ProvenanceDoc {
    /// Written where it is used.
    Written,
    /// Taken over through a `like`.
    Inherited,
    /// A house rule of the shop's file.
    House,
    /// Built in; no file says it.
    BuiltIn,
}

/// What a value is to the one who would change it.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub(super) enum NatureDoc {
    /// A fact: machine, stock, last.
    Fact,
    /// A choice of the model.
    Choice,
    /// A house rule.
    HouseRule,
}

/// Where a value came from.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
pub(super) struct OriginDoc<'d> {
    /// The way to it: `model scree-8 / bottom / layer midsole / of`.
    way: &'d str,
    /// Where it is written; for a built-in value, where it could be.
    place: PlaceDoc<'d>,
    /// What it is to the one who would change it.
    nature: NatureDoc,
    /// How it came into force.
    provenance: ProvenanceDoc,
    /// The `like` through which it was inherited.
    #[serde(skip_serializing_if = "Option::is_none")]
    inherited_at: Option<PlaceDoc<'d>>,
}

impl<'d> OriginDoc<'d> {
    pub fn of(origin: &'d Origin, places: &Places<'d>) -> Self {
        let (provenance, inherited) = match origin.provenance {
            Provenance::Written => (ProvenanceDoc::Written, None),
            Provenance::Inherited(like) => (ProvenanceDoc::Inherited, Some(like)),
            Provenance::House => (ProvenanceDoc::House, None),
            Provenance::BuiltIn => (ProvenanceDoc::BuiltIn, None),
        };
        let nature = match origin.nature {
            Nature::Fact => NatureDoc::Fact,
            Nature::Choice => NatureDoc::Choice,
            Nature::HouseRule => NatureDoc::HouseRule,
        };
        let place = PlaceDoc::of(origin.span, places);
        let inherited_at = inherited.map(|like| PlaceDoc::of(like, places));
        Self { way: &origin.path, place, nature, provenance, inherited_at }
    }
}

/// One summand: `coefficient` times what lies between `lo` and `hi`, in the unit of its sum.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
pub(super) struct TermDoc<'d> {
    /// What it is.
    what: String,
    /// How often it counts, and with which sign.
    coefficient: f64,
    /// The thin end.
    lo: f64,
    /// The middle.
    nominal: f64,
    /// The thick end.
    hi: f64,
    /// Terms of one source vary together; without one it varies with nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    source: Option<String>,
    /// Where it was written.
    origin: OriginDoc<'d>,
    /// Where its tolerance was written, if that is another place.
    #[serde(skip_serializing_if = "Option::is_none")]
    tolerance: Option<OriginDoc<'d>>,
}

impl<'d> TermDoc<'d> {
    fn of(term: &'d Term, places: &Places<'d>) -> Self {
        Self {
            what: term.what.to_string(),
            coefficient: term.coefficient,
            lo: term.spread.lo,
            nominal: term.spread.nominal,
            hi: term.spread.hi,
            source: term.source.as_ref().map(ToString::to_string),
            origin: OriginDoc::of(&term.origin, places),
            tolerance: term.tolerance.as_ref().map(|origin| OriginDoc::of(origin, places)),
        }
    }
}

/// The terms of a sum, in their order.
pub(super) fn terms<'d>(sum: &'d Sum, places: &Places<'d>) -> Vec<TermDoc<'d>> {
    sum.terms.iter().map(|term| TermDoc::of(term, places)).collect()
}
