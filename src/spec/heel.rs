//! The heel of a model.

use super::declared::StockNames;
use super::fields::{Field, Fields};
use super::stock::{Adhesive, Cap, Lift, Nail, on_the_shelf, stocked_length};
use super::value::{ByPlace, Val, Valued};
use crate::finding::{FaultName, Finding};
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
    pub across: Option<Val<u32>>,
    pub leans: Option<Val<Amount>>,
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
    pub inside_feather: Option<Val<Amount>>,
    pub inside_edge: Option<Val<Amount>>,
    pub behind_breast: Option<Val<Amount>>,
    /// Nails across the heel, of a base that is nailed at once.
    pub across: Option<Val<u32>>,
    /// How far the points lean inward, of a base that is nailed at once.
    pub leans: Option<Val<Amount>>,
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
    /// What holds the base to the sole, the lifts to each other and the cap.
    pub bonded: Option<Val<Arc<Adhesive>>>,
    pub nails: Option<HeelNails>,
}

pub(super) fn heel(fields: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Heel {
    let mut lifts = |word: &str| fields.get(word).map(|field| lifts(&field, stock, findings));
    let (wedges, whole, thin) = (lifts("wedges"), lifts("lifts"), lifts("thin-lifts"));
    let heel = Heel {
        span: fields.block.open,
        wedges,
        lifts: whole,
        thin_lifts: thin,
        cap: fields.named("cap", &stock.caps(), findings),
        bonded: fields.maybe_named("bonded", &stock.adhesives(), findings),
        nails: fields.inner("nailed").map(|inner| nails(&inner, stock, findings)),
    };
    all_staged(&heel, findings);
    heel
}

fn lifts(field: &Field<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Lifts {
    let lift = field.clause_named("of", &stock.lifts(), findings);
    let substance = field.need_clause("of", 1).and_then(|substance| {
        if let Ok(lift) = &lift {
            let what = (lift.it.name.as_str(), "substance");
            on_the_shelf(what, &lift.it.substances, &substance.it, substance.span(), findings)?;
        }
        Ok(substance)
    });
    Lifts { count: field.count(0), lift, substance }
}

/// Lengths in which the nail is stocked.
fn stocked(nail: &Val<Arc<Nail>>, lengths: Val<ByPlace>, findings: &mut Vec<Finding>) -> Val<ByPlace> {
    let lengths = lengths?;
    let Ok(nail) = nail else { return Ok(lengths) };
    let mut seen = Vec::new();
    for at in [&lengths.it.back, &lengths.it.sides, &lengths.it.breast] {
        // One length for all places is said once.
        if !seen.contains(&at.span) {
            seen.push(at.span);
            on_the_shelf((&nail.it.name, "length"), &nail.it.lengths, &at.it, at.span, findings)?;
        }
    }
    Ok(lengths)
}

/// Every wedge and lift is nailed in some stage, and none in two.
fn all_staged(heel: &Heel, findings: &mut Vec<Finding>) {
    let Some(nails) = heel.nails.as_ref().filter(|nails| !nails.stages.is_empty()) else { return };
    let first = nails.stages[0].number.as_ref().map_or(heel.span, Valued::span);
    let whole = heel.lifts.as_ref().map_or(Some(0), |lifts| lifts.count.as_ref().ok().map(|count| count.it));
    let counted: Option<u32> = nails
        .stages
        .iter()
        .map(|stage| stage.lifts.as_ref().map_or(Some(0), |lifts| lifts.as_ref().ok().map(|lifts| lifts.it)))
        .sum();
    if let (Some(lifts), Some(counted)) = (whole, counted)
        && lifts != counted
    {
        let message = format!("the stages nail {counted} lifts, the heel has {lifts}");
        let at = heel.lifts.as_ref().and_then(|lifts| lifts.count.as_ref().ok()).map(Valued::span);
        let finding = Finding::fault(FaultName::VALUE_NONSENSE, first, message);
        let finding = at.into_iter().fold(finding, |finding, span| finding.also(span, "the heel's lifts"));
        findings.push(finding.help("let each stage say how many of the lifts it nails"));
    }
    let wedged = nails.stages.iter().filter(|stage| stage.wedges).count();
    if heel.wedges.is_some() != (wedged == 1) {
        let message = match (heel.wedges.is_some(), wedged) {
            (false, _) => "a stage nails wedges, and the heel has none",
            (true, 0) => "no stage nails the wedges",
            (true, _) => "two stages nail the wedges",
        };
        let finding = Finding::fault(FaultName::VALUE_NONSENSE, first, message);
        findings.push(finding.help("write `wedges` in the stage that nails them, usually the first"));
    }
}

fn nails(inner: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> HeelNails {
    let base = inner.get("base").map(|field| {
        let nail = field.named(0, &stock.nails(), findings);
        (nail, field.by_place(1, findings))
    });
    let base = base.map(|(nail, lengths)| {
        let lengths = lengths.map(|lengths| stocked(&nail, lengths, findings));
        (nail, lengths)
    });
    let cap = inner.get("cap").map(|field| {
        let nail = field.named(0, &stock.nails(), findings);
        let length = field.maybe_amount(1).map(|length| stocked_length(length, &nail, findings));
        (nail, length)
    });
    let of_base = base.as_ref().map(|(nail, _)| nail);
    let mut stages: Vec<Stage> = inner
        .all("stage")
        .into_iter()
        .filter_map(|field| {
            let stage = field.inner()?;
            Some(Stage {
                number: field.count(0),
                wedges: stage.flag("wedges"),
                lifts: stage.maybe_count("lifts"),
                across: stage.maybe_count("across"),
                leans: stage.maybe_amount("leans"),
                lengths: stage.get("lengths").and_then(|lengths| lengths.by_place(0, findings)).map(|lengths| {
                    match of_base {
                        Some(nail) => stocked(nail, lengths, findings),
                        None => lengths,
                    }
                }),
            })
        })
        .collect();
    stages.sort_by_key(|stage| stage.number.as_ref().map_or(u32::MAX, |number| number.it));
    HeelNails {
        base,
        cap,
        stages,
        inside_feather: inner.maybe_amount("inside-feather"),
        inside_edge: inner.maybe_amount("inside-edge"),
        behind_breast: inner.maybe_amount("behind-breast"),
        across: inner.maybe_count("across"),
        leans: inner.maybe_amount("leans"),
        apart: inner.maybe_amount("apart"),
    }
}
