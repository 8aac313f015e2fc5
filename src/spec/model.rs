//! A model: one construction for all its sizes.

use super::bottom::{Bottom, bottom};
use super::declared::StockNames;
use super::fields::{Fields, Named};
use super::heel::{Heel, heel};
use super::last::Last;
use super::route::{RouteWritten, route};
use super::sizes::Made;
use super::stock::UpperLeather;
use super::upper::{Upper, upper};
use super::value::{Val, Valued};
use crate::finding::Finding;
use crate::language::Hole;
use crate::measure::{Amount, Size};
use crate::source::Span;
use std::sync::Arc;

/// How a model is lasted.
#[derive(Clone, Debug, Default)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Lasting {
    pub mulled: Option<Val<Amount>>,
    pub insole_nails: Option<Val<u32>>,
    pub order: Option<Val<Vec<&'static str>>>,
    pub on_the_last: Option<Val<Amount>>,
    /// At the toe, the joints and the heel.
    pub margin: Option<[Val<Amount>; 3]>,
    pub tacks: Option<Val<Amount>>,
    /// Tacks that are left in behind the release cut.
    pub tacks_left: Option<TacksLeft>,
    pub back_height: Option<Val<Amount>>,
}

/// Tacks that are left in: they clinch on the last's plate.
#[derive(Clone, Debug)]
pub struct TacksLeft {
    /// Their length.
    pub length: Val<Amount>,
    /// How far inside the feather line they stand; as the waist's nails where it isn't said.
    pub inside_feather: Option<Val<Amount>>,
}

/// How far it reaches, and its leather.
pub type SockLining = (Val<&'static str>, Option<Val<Arc<UpperLeather>>>);

/// How a model is finished.
#[derive(Clone, Debug, Default)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Finish {
    pub edge: Option<(Val<&'static str>, Option<Val<String>>)>,
    pub sock_lining: Option<SockLining>,
    pub dress: Option<Val<String>>,
    pub laces: Option<(Val<String>, Option<Val<Amount>>)>,
    pub square_within: Option<Val<Amount>>,
}

/// A check of the shop's own.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Check {
    pub name: String,
    pub at: Val<String>,
    pub with: Option<Val<String>>,
    pub target: Option<Val<Amount>>,
    pub otherwise: Option<Val<&'static str>>,
}

/// A claim of a least height.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the slot or clause of that name")]
pub struct Claim {
    pub height: Val<Amount>,
    pub measured: Val<&'static str>,
    pub to: Option<Val<String>>,
}

/// A model.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Model {
    pub name: String,
    pub title: String,
    pub span: Span,
    pub like: Option<Span>,
    pub revision: Val<u32>,
    pub last: Val<Arc<Last>>,
    pub sizes: Result<Vec<Size>, Hole>,
    pub upper: Result<Upper, Hole>,
    pub lasting: Lasting,
    pub bottom: Result<Bottom, Hole>,
    pub heel: Option<Heel>,
    pub finish: Finish,
    pub checks: Vec<Check>,
    pub route: RouteWritten,
    pub claim: Option<Claim>,
}

/// How a model is known: its name, its title, where it is declared and what it is like.
pub(super) struct Head<'m> {
    pub name: &'m str,
    pub title: &'m str,
    pub span: Span,
    pub like: Option<Span>,
}

pub(super) fn model(
    head: &Head<'_>,
    fields: &Fields<'_>,
    stock: &StockNames<'_>,
    lasts: &Named<'_, Arc<Last>>,
    findings: &mut Vec<Finding>,
) -> Model {
    let revision = fields.count("revision", findings);
    let last = fields.named("last", lasts, findings);
    let run = fields.need("run", findings).and_then(|field| Made::read(&field, findings));
    let sizes = run.and_then(|run| {
        let last = last.as_ref().map_err(|hole| *hole)?;
        let made = last.it.made.as_ref().map_err(|hole| *hole)?;
        run.on(made, &last.it.name, findings)
    });
    let upper = fields.need_inner("upper", findings).map(|inner| upper(&inner, stock, findings));
    let bottom = fields.need_inner("bottom", findings).map(|inner| bottom(&inner, stock, findings));
    let claim = fields.inner("claims").and_then(|inner| claim(&inner));
    if let Some(claim) = &claim {
        claimable(claim, fields, findings);
    }
    let heel = fields.inner("heel").map(|inner| heel(&inner, stock, findings));
    Model {
        name: head.name.to_owned(),
        title: head.title.to_owned(),
        span: head.span,
        like: head.like,
        revision,
        last,
        sizes,
        upper,
        lasting: fields.inner("lasting").map(|inner| lasting(&inner)).unwrap_or_default(),
        bottom,
        heel,
        finish: fields.inner("finish").map(|inner| finish(&inner, stock, findings)).unwrap_or_default(),
        checks: fields.inner("inspect").map(|inner| checks(&inner, findings)).unwrap_or_default(),
        route: fields.inner("route").map(|inner| route(&inner, findings)).unwrap_or_default(),
        claim,
    }
}

fn lasting(inner: &Fields<'_>) -> Lasting {
    let order = inner.get("order").map(|field| {
        field.value(0).map(|value| {
            value.map(|value| match value {
                crate::language::Value::Words(words) => words.into_iter().map(|word| word.it).collect(),
                _ => Vec::new(),
            })
        })
    });
    Lasting {
        mulled: inner.maybe_amount("mulled"),
        insole_nails: inner.maybe_count("insole-nails"),
        order,
        on_the_last: inner.maybe_amount("on-the-last"),
        margin: inner
            .get("margin")
            .map(|field| ["at-toe", "at-joints", "at-heel"].map(|word| field.need_clause(word, 0))),
        tacks: inner.maybe_amount("tacks"),
        tacks_left: inner.get("tacks").and_then(|field| {
            let inside_feather = field.clause_amount("inside-feather");
            field.clause_amount("left").map(|length| TacksLeft { length, inside_feather })
        }),
        back_height: inner.maybe_amount("back-height"),
    }
}

fn finish(inner: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Finish {
    let sock_lining = inner.get("sock-lining").map(|field| {
        let of = field.has_clause("of").then(|| field.clause_named("of", &stock.upper_leathers(), findings));
        (field.word(0), of)
    });
    Finish {
        edge: inner.get("edge").map(|field| (field.word(0), field.maybe_text(1))),
        sock_lining,
        dress: inner.maybe_text("dress"),
        laces: inner.get("laces").map(|field| (field.text(0), field.maybe_amount(1))),
        square_within: inner.maybe_amount("square-within"),
    }
}

fn checks(inner: &Fields<'_>, findings: &mut Vec<Finding>) -> Vec<Check> {
    let mut all = inner.all("check");
    all.sort_by_key(|field| field.force.statement.key());
    all.iter()
        .filter_map(|field| {
            let name = field.text(0).ok()?.it;
            let block = field.inner()?;
            Some(Check {
                name,
                at: block.need("at", findings).and_then(|at| at.text(0)),
                with: block.maybe_text("with"),
                target: block.maybe_amount("target"),
                otherwise: block.maybe_word("else"),
            })
        })
        .collect()
}

fn claim(inner: &Fields<'_>) -> Option<Claim> {
    let field = inner.get("height")?;
    Some(Claim {
        height: field.amount(0),
        measured: field.clause_word("measured").unwrap_or_else(|| Err(field.lost())),
        to: field.clause_text("to"),
    })
}

/// A height can be claimed of a boot that says how high it is: its shaft, and from the heel's bottom its heel.
fn claimable(claim: &Claim, fields: &Fields<'_>, findings: &mut Vec<Finding>) {
    if let Some(upper) = fields.inner("upper") {
        // The fault is reported there; nothing else hangs on it.
        upper.need("shaft", findings).ok();
    }
    if claim.measured.as_ref().is_ok_and(|measured| measured.it == "from-heel") {
        fields.need("heel", findings).ok();
    }
}

impl Model {
    /// The part whose thickness is the outer at the seat: the first that is turned out.
    ///
    /// # Errors
    /// The hole of a fault in the upper.
    pub fn seat_part(&self) -> Result<Option<Valued<Arc<super::upper::Part>>>, Hole> {
        let upper = self.upper.as_ref().map_err(|hole| *hole)?;
        let parts = upper.turned_out.as_ref().map_err(|hole| *hole)?;
        Ok(parts.first().cloned())
    }
}
