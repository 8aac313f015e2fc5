//! The heel of a model.

use super::declared::StockNames;
use super::fields::{Field, Fields};
use super::stock::{Cap, Lift, Nail};
use super::value::{ByPlace, Val};
use crate::finding::Finding;
use crate::measure::Amount;
use crate::source::Span;
use std::sync::Arc;

/// Some lifts of one substance.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "count, stock and substance of the statement")]
pub struct Lifts {
    pub count: Val<u32>,
    pub lift: Val<Arc<Lift>>,
    pub substance: Val<Amount>,
}

/// A stage of nailing.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Stage {
    pub number: Val<u32>,
    pub wedges: bool,
    pub lifts: Option<Val<u32>>,
    pub lengths: Option<Val<ByPlace>>,
}

/// A nail with its length, if that is stated.
pub type NailOf<L> = (Val<Arc<Nail>>, Option<Val<L>>);

/// The heel's nails.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct HeelNails {
    pub base: Option<NailOf<ByPlace>>,
    pub cap: Option<NailOf<Amount>>,
    /// In the order of their numbers.
    pub stages: Vec<Stage>,
    pub inside_edge: Option<Val<Amount>>,
    pub apart: Option<Val<Amount>>,
}

/// The heel.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Heel {
    pub span: Span,
    pub wedges: Option<Lifts>,
    pub lifts: Option<Lifts>,
    pub thin_lifts: Option<Lifts>,
    pub cap: Val<Arc<Cap>>,
    pub nails: Option<HeelNails>,
}

pub(super) fn heel(fields: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Heel {
    let mut lifts = |word: &str| fields.get(word).map(|field| lifts(&field, stock, findings));
    let (wedges, whole, thin) = (lifts("wedges"), lifts("lifts"), lifts("thin-lifts"));
    Heel {
        span: fields.block.open,
        wedges,
        lifts: whole,
        thin_lifts: thin,
        cap: fields.named("cap", &stock.caps(), findings),
        nails: fields.inner("nailed").map(|inner| nails(&inner, stock, findings)),
    }
}

fn lifts(field: &Field<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Lifts {
    Lifts {
        count: field.count(0),
        lift: field.clause_named("of", &stock.lifts(), findings),
        substance: field.need_clause("of", 1),
    }
}

fn nails(inner: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> HeelNails {
    let base = inner.get("base").map(|field| (field.named(0, &stock.nails(), findings), field.by_place(1)));
    let cap = inner.get("cap").map(|field| (field.named(0, &stock.nails(), findings), field.maybe_amount(1)));
    let mut stages: Vec<Stage> = inner
        .all("stage")
        .into_iter()
        .filter_map(|field| {
            let stage = field.inner()?;
            Some(Stage {
                number: field.count(0),
                wedges: stage.flag("wedges"),
                lifts: stage.maybe_count("lifts"),
                lengths: stage.get("lengths").and_then(|lengths| lengths.by_place(0)),
            })
        })
        .collect();
    stages.sort_by_key(|stage| stage.number.as_ref().map_or(u32::MAX, |number| number.it));
    HeelNails { base, cap, stages, inside_edge: inner.maybe_amount("inside-edge"), apart: inner.maybe_amount("apart") }
}
