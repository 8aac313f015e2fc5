//! The bottom of a model.

use super::declared::StockNames;
use super::fields::Fields;
use super::shop::Machine;
use super::stock::{
    Adhesive, Filler, Nail, Outsole, Rubber, SoleLeather, Thread, UpperLeather, on_the_shelf, stocked_length,
};
use super::value::{Val, Valued};
use crate::finding::{FaultName, Finding, Material, Role};
use crate::language::Hole;
use crate::measure::Amount;
use crate::source::Span;
use std::sync::Arc;

/// The stock that a layer is of.
#[derive(Clone, Debug)]
pub enum LayerStock {
    /// Sole leather of a substance.
    Leather(Arc<SoleLeather>, Box<Valued<Amount>>),
    /// A moulded outsole.
    Outsole(Arc<Outsole>),
    /// Sheet rubber.
    Rubber(Arc<Rubber>),
    /// Stocked filler.
    Filler(Arc<Filler>),
    /// Offcuts of an upper leather, which fill.
    Offcuts(Arc<UpperLeather>),
}

impl LayerStock {
    /// The stock's name.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            LayerStock::Leather(stock, _) => &stock.name,
            LayerStock::Outsole(stock) => &stock.name,
            LayerStock::Rubber(stock) => &stock.name,
            LayerStock::Filler(stock) => &stock.name,
            LayerStock::Offcuts(stock) => &stock.name,
        }
    }

    /// What the stock is made of. Moulded outsoles are of rubber: common practice, no source.
    #[must_use]
    pub fn material(&self) -> Material {
        match self {
            LayerStock::Leather(..) => Material::SoleLeather,
            LayerStock::Outsole(_) | LayerStock::Rubber(_) => Material::Rubber,
            LayerStock::Filler(_) => Material::Filler,
            LayerStock::Offcuts(_) => Material::UpperLeather,
        }
    }

    /// Whether a nail holds in it: leather holds, rubber and filler don't.
    #[must_use]
    pub fn holds_nails(&self) -> bool {
        matches!(self, LayerStock::Leather(..))
    }
}

/// Which part of the bottom a layer covers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the words of the vocabulary")]
pub enum Extent {
    All,
    Forepart,
    Waist,
    Seat,
}

/// Where a layer ends at the heel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ends {
    /// It runs to the back.
    Full,
    /// It ends this many mm behind the breast line.
    BehindBreast(f64),
}

/// A layer of the bottom.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Layer {
    pub role: Role,
    pub span: Span,
    pub of: Val<LayerStock>,
    pub covers: Val<Extent>,
    pub breadth: Option<Val<Amount>>,
    pub ends: Val<Ends>,
    pub grain: Option<Val<&'static str>>,
    pub bonded: Option<Val<Arc<Adhesive>>>,
    pub hammered: Option<Val<Amount>>,
    pub rigid: bool,
    /// How far behind the joint it ends in front.
    pub front: Option<Val<Amount>>,
    /// How far behind the breast it ends.
    pub back: Option<Val<Amount>>,
    pub skived: Skived,
    /// The lugs are buffed off under the heel's base.
    pub lugs_off: bool,
}

/// Over what length a layer is skived to nothing.
#[derive(Clone, Debug, Default)]
pub struct Skived {
    /// At its ends; a filler, ahead of the breast.
    pub ends: Option<Val<Amount>>,
    /// At its sides.
    pub sides: Option<Val<Amount>>,
}

/// Turnout by zone.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the clause of that word")]
pub struct Turnout {
    pub forepart: Val<Amount>,
    pub waist_outside: Val<Amount>,
    pub waist_inside: Val<Amount>,
    pub heel: Val<Amount>,
}

/// How the forefoot is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ForefootHold {
    /// A through-seam, last out.
    Sewn,
    /// Nails.
    Nailed,
}

/// The forefoot.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Forefoot {
    pub hold: Val<ForefootHold>,
    pub on: Option<Val<Arc<Machine>>>,
    pub inside_feather: Val<Amount>,
    pub pitch: Option<Val<Amount>>,
    pub thread: Option<Val<Arc<Thread>>>,
    pub needle: Option<Val<Amount>>,
    pub with: Option<Val<Arc<Nail>>>,
    pub apart: Option<Val<Amount>>,
}

/// A line of clinch nails.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct NailLine {
    pub span: Span,
    pub with: Val<Arc<Nail>>,
    pub inside_feather: Val<Amount>,
    pub apart: Val<Amount>,
    pub length: Option<Val<Amount>>,
    pub to: Option<Val<Amount>>,
}

/// The rows that hold the sole.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Sole {
    pub span: Span,
    pub through: Val<Role>,
    pub on: Val<Arc<Machine>>,
    pub rows: Val<u32>,
    pub from_edge: Val<Amount>,
    pub apart: Option<Val<Amount>>,
    pub pitch: Val<Amount>,
    pub thread: Val<Arc<Thread>>,
    pub needle: Val<Amount>,
    /// The rows close on themselves.
    pub all_round: bool,
}

/// The bottom.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Bottom {
    pub turnout: Result<Turnout, Hole>,
    /// From the foot down.
    pub layers: Vec<Layer>,
    pub forefoot: Option<Forefoot>,
    pub waist: Option<NailLine>,
    pub seat: Option<NailLine>,
    pub sole: Result<Sole, Hole>,
}

impl Bottom {
    /// The layer of a role.
    #[must_use]
    pub fn layer(&self, role: Role) -> Option<&Layer> {
        self.layers.iter().find(|layer| layer.role == role)
    }
}

pub(super) fn bottom(fields: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Bottom {
    let mut layers: Vec<Layer> = fields
        .all("layer")
        .into_iter()
        .filter_map(|field| {
            let role = field.word(0).ok()?;
            let role_found = Role::ALL.iter().copied().find(|known| known.name() == role.it)?;
            Some(layer(role_found, role.span(), &field.inner()?, stock, findings))
        })
        .collect();
    layers.sort_by_key(|layer| layer.role);
    if layers.is_empty() && fields.all("layer").is_empty() {
        findings.push(
            Finding::fault(FaultName::STATEMENT_MISSING, fields.block.open, "the bottom has no layers")
                .help("add at least an insole, a midsole and an outsole, such as `layer midsole { of bend 12 iron }`"),
        );
    }
    let turnout = fields.need("turnout", findings).map(|field| {
        let waist = field.need_clause("at-waist", 0);
        Turnout {
            forepart: field.need_clause("at-forepart", 0),
            waist_inside: field.clause_amount("at-waist-inside").unwrap_or_else(|| waist.clone()),
            waist_outside: waist,
            heel: field.need_clause("at-heel", 0),
        }
    });
    let waist = fields.inner("waist").map(|inner| nail_line(&inner, None, stock, findings));
    let seat = match (fields.inner("seat"), &waist) {
        (Some(inner), waist) => Some(nail_line(&inner, waist.as_ref(), stock, findings)),
        (None, Some(waist)) => Some(NailLine { to: None, ..waist.clone() }),
        (None, None) => None,
    };
    let sole = sole(fields, stock, findings);
    held(sole.as_ref().ok(), &layers, findings);
    Bottom { turnout, layers, forefoot: forefoot(fields, stock, findings), waist, seat, sole }
}

/// What lies below the layer that the rows end in is held by its adhesive alone, so it needs one.
fn held(sole: Option<&Sole>, layers: &[Layer], findings: &mut Vec<Finding>) {
    let Some(through) = sole.and_then(|sole| sole.through.as_ref().ok()) else { return };
    let below = |role: Role| match through.it {
        Role::Midsole => matches!(role, Role::Slip | Role::Outsole),
        Role::Slip => role == Role::Outsole,
        _ => false,
    };
    for layer in layers.iter().filter(|layer| below(layer.role) && layer.bonded.is_none()) {
        let message = format!("nothing holds the {}: the rows end above it, and it has no `bonded`", layer.role.name());
        findings.push(
            Finding::fault(FaultName::STATEMENT_MISSING, layer.span, message)
                .also(through.span(), "the rows end in this")
                .help("say which adhesive holds it, such as `bonded neoprene`"),
        );
    }
}

fn layer(role: Role, span: Span, inner: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Layer {
    let covers = inner.word("covers", findings).map(|word| {
        word.map(|word| match word {
            "forepart" => Extent::Forepart,
            "waist" => Extent::Waist,
            "seat" => Extent::Seat,
            _ => Extent::All,
        })
    });
    let of = material(role, inner, stock, findings);
    let hammered = inner.maybe_amount("hammered").map(|share| hammered(share, &of, findings));
    Layer {
        role,
        span,
        of,
        hammered,
        covers,
        breadth: inner.maybe_amount("breadth"),
        ends: ends(inner, findings),
        grain: inner.maybe_word("grain"),
        bonded: inner.maybe_named("bonded", &stock.adhesives(), findings),
        rigid: inner.flag("rigid"),
        front: inner.maybe_amount("front"),
        back: inner.maybe_amount("back"),
        skived: skived(inner),
        lugs_off: inner.flag("lugs-off"),
    }
}

/// One length for ends and sides, or each its own.
fn skived(inner: &Fields<'_>) -> Skived {
    let Some(field) = inner.get("skived") else { return Skived::default() };
    match field.length_or_pairs(0) {
        Ok(pairs) => {
            let of = |word: &str| pairs.iter().find(|(known, _)| *known == word).map(|(_, value)| Ok(value.clone()));
            Skived { ends: of("ends"), sides: of("sides") }
        }
        Err(hole) => Skived { ends: Some(Err(hole)), sides: Some(Err(hole)) },
    }
}

/// Only leather gets thinner under the hammer.
fn hammered(share: Val<Amount>, of: &Val<LayerStock>, findings: &mut Vec<Finding>) -> Val<Amount> {
    let share = share?;
    let Ok(of) = of else { return Ok(share) };
    if matches!(of.it, LayerStock::Leather(..)) {
        return Ok(share);
    }
    let message = format!("`{}` is no leather; hammering does not make it thinner", of.it.name());
    let finding = Finding::fault(FaultName::VALUE_NONSENSE, share.span(), message).also(of.span(), "made of this");
    let hole = Hole { fault: finding.name, span: share.span() };
    findings.push(finding.help("take `hammered` out"));
    Err(hole)
}

fn ends(inner: &Fields<'_>, findings: &mut Vec<Finding>) -> Val<Ends> {
    let word = inner.word("ends", findings)?;
    let tucked = inner.get("ends").and_then(|field| field.maybe_amount(1)).transpose()?;
    let tucked = tucked.map_or(0.0, |amount| amount.it.nominal());
    Ok(word.map(|word| match word {
        "full" => Ends::Full,
        "tucked" => Ends::BehindBreast(tucked),
        _ => Ends::BehindBreast(0.0),
    }))
}

/// The stock of a layer; sole leather needs one of the substances that it is stocked in.
fn material(role: Role, inner: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Val<LayerStock> {
    let field = inner.need("of", findings)?;
    let name = field.text(0)?;
    let substance = field.maybe_amount(1);
    let found = stock.material(&name.it, name.span(), findings)?;
    let wrong = |finding: Finding, findings: &mut Vec<Finding>| {
        let hole = Hole { fault: finding.name, span: name.span() };
        findings.push(finding);
        Err(hole)
    };
    let of = match (found, substance) {
        (super::declared::AnyMaterial::Leather(leather), Some(substance)) => {
            let substance = substance?;
            let what = (leather.name.as_str(), "substance");
            on_the_shelf(what, &leather.substances, &substance.it, substance.span(), findings)?;
            LayerStock::Leather(leather, Box::new(substance))
        }
        (super::declared::AnyMaterial::Leather(leather), None) => {
            let message = format!("`{}` is stocked in substances and this says none", leather.name);
            let finding = Finding::fault(FaultName::VALUE_MISSING, name.span(), message)
                .help(format!("write it behind the name, such as `of {} 10 iron`", leather.name));
            return wrong(finding, findings);
        }
        (super::declared::AnyMaterial::Upper(leather), None) if role == Role::Filler => LayerStock::Offcuts(leather),
        (super::declared::AnyMaterial::Filler(filler), None) if role == Role::Filler => LayerStock::Filler(filler),
        (super::declared::AnyMaterial::Upper(_) | super::declared::AnyMaterial::Filler(_), None) => {
            let message = format!("`{}` fills a hollow, and {} is no filler", name.it, role.name());
            let finding = Finding::fault(FaultName::VALUE_NONSENSE, name.span(), message)
                .help("take sole leather, an outsole or rubber for it");
            return wrong(finding, findings);
        }
        (_, Some(Ok(substance))) => {
            let message = format!("`{}` has one thickness; none is chosen here", name.it);
            return wrong(Finding::fault(FaultName::SHAPE_UNEXPECTED, substance.span(), message), findings);
        }
        (_, Some(Err(hole))) => return Err(hole),
        (super::declared::AnyMaterial::Outsole(outsole), None) => LayerStock::Outsole(outsole),
        (super::declared::AnyMaterial::Rubber(rubber), None) => LayerStock::Rubber(rubber),
    };
    Ok(name.map(|_| of))
}

fn forefoot(fields: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Option<Forefoot> {
    let field = fields.get("forefoot")?;
    let inner = field.inner()?;
    let hold = field
        .word(0)
        .map(|word| word.map(|word| if word == "nailed" { ForefootHold::Nailed } else { ForefootHold::Sewn }));
    if hold.as_ref().is_ok_and(|hold| hold.it == ForefootHold::Sewn) {
        for word in ["on", "pitch", "thread", "needle"] {
            if !inner.flag(word) {
                inner.lacks(word, findings);
            }
        }
    }
    Some(Forefoot {
        hold,
        on: inner.maybe_named("on", &stock.machines(), findings),
        inside_feather: inner.amount("inside-feather", findings),
        pitch: inner.maybe_amount("pitch"),
        thread: inner.maybe_named("thread", &stock.threads(), findings),
        needle: inner.maybe_amount("needle"),
        with: inner.maybe_named("with", &stock.nails(), findings),
        apart: inner.maybe_amount("apart"),
    })
}

/// The rows can only go through a layer that there is.
fn layered(fields: &Fields<'_>, through: Valued<Role>, findings: &mut Vec<Finding>) -> Val<Role> {
    let layers = fields.all("layer");
    let (mut there, mut lost) = (layers.is_empty(), fields.block.unread);
    for layer in &layers {
        match layer.word(0) {
            Ok(word) => there |= word.it == through.it.name(),
            Err(hole) => lost = lost.or(Some(hole)),
        }
    }
    if there {
        return Ok(through);
    }
    if let Some(lost) = lost {
        return Err(lost);
    }
    let name = through.it.name();
    let message = format!("the rows go through the {name}, and the bottom has no `layer {name}`");
    let finding = Finding::fault(FaultName::STATEMENT_MISSING, through.span(), message);
    let hole = Hole { fault: finding.name, span: through.span() };
    findings.push(finding.help("add the layer, or sew through one that is there"));
    Err(hole)
}

/// A nail of the waist or the seat turns over on the last's plate.
fn clinching(nail: Val<Arc<Nail>>, findings: &mut Vec<Finding>) -> Val<Arc<Nail>> {
    let nail = nail?;
    if nail.it.clinches {
        return Ok(nail);
    }
    let message = format!("`{}` does not clinch", nail.it.name);
    let finding = Finding::fault(FaultName::VALUE_NONSENSE, nail.span(), message);
    let hole = Hole { fault: finding.name, span: nail.span() };
    findings.push(finding.also(nail.it.span, "stocked without `clinches`").help("take a nail that clinches"));
    Err(hole)
}

/// A line of nails; what it leaves out is as in `like`.
fn nail_line(
    inner: &Fields<'_>,
    like: Option<&NailLine>,
    stock: &StockNames<'_>,
    findings: &mut Vec<Finding>,
) -> NailLine {
    let amount = |word: &str, of: fn(&NailLine) -> &Val<Amount>, findings: &mut Vec<Finding>| match (
        inner.maybe_amount(word),
        like,
    ) {
        (Some(value), _) => value,
        (None, Some(like)) => of(like).clone(),
        (None, None) => Err(inner.lacks(word, findings)),
    };
    let with = match (inner.maybe_named("with", &stock.nails(), findings), like) {
        (Some(nail), _) => clinching(nail, findings),
        (None, Some(like)) => like.with.clone(),
        (None, None) => Err(inner.lacks("with", findings)),
    };
    NailLine {
        span: inner.block.open,
        inside_feather: amount("inside-feather", |line| &line.inside_feather, findings),
        apart: amount("apart", |line| &line.apart, findings),
        length: inner.maybe_amount("length").map(|length| stocked_length(length, &with, findings)),
        with,
        to: inner.maybe_amount("to"),
    }
}

fn sole(fields: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Result<Sole, Hole> {
    let field = fields.need("sole", findings)?;
    let inner = field.inner().ok_or_else(|| field.lost())?;
    let through = inner.word("through", findings).map(|word| {
        word.map(|word| match word {
            "midsole" => Role::Midsole,
            "slip" => Role::Slip,
            _ => Role::Outsole,
        })
    });
    let rows = inner.count("rows", findings);
    let apart = inner.maybe_amount("apart");
    if apart.is_none() && rows.as_ref().is_ok_and(|rows| rows.it > 1) {
        inner.lacks("apart", findings);
    }
    let through = through.and_then(|through| layered(fields, through, findings));
    Ok(Sole {
        span: field.force.statement.word,
        through,
        on: inner.named("on", &stock.machines(), findings),
        rows,
        from_edge: inner.amount("from-edge", findings),
        apart,
        pitch: inner.amount("pitch", findings),
        thread: inner.named("thread", &stock.threads(), findings),
        needle: inner.amount("needle", findings),
        all_round: inner.flag("all-round"),
    })
}
