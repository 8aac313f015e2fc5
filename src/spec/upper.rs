//! The upper of a model.

use super::declared::{ModelNames, StockNames};
use super::fields::{Field, Fields};
use super::shop::Machine;
use super::stock::{Adhesive, Hardware, Stiffener, Thread, UpperLeather};
use super::value::{Val, Valued};
use crate::finding::{FaultName, Finding};
use crate::language::Hole;
use crate::language::vocabulary::Thing;
use crate::measure::Amount;
use crate::source::Span;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A part of the upper.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Part {
    pub name: String,
    pub span: Span,
    pub of: Val<Arc<UpperLeather>>,
    pub zone: Option<Val<&'static str>>,
    pub pieces: Val<u32>,
    pub area: Val<Amount>,
    pub stretch: Option<Val<&'static str>>,
    pub pattern: Option<Val<String>>,
    pub folded: Option<Val<Amount>>,
}

/// Rows of stitches: what every seam has.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement or clause of that word")]
pub struct Stitching {
    pub rows: Val<u32>,
    pub first: Option<Val<Amount>>,
    pub apart: Option<Val<Amount>>,
    pub long: Option<Val<Amount>>,
    pub pitch: Val<Amount>,
    pub thread: Val<Arc<Thread>>,
    pub needle: Val<Amount>,
    pub on: Val<Arc<Machine>>,
}

/// How one part is thinned at a lap.
#[derive(Clone, Debug, Default)]
pub struct Skive {
    /// Width of the edge taper and what is left at the edge.
    pub edge: Option<(Val<Amount>, Val<Amount>)>,
    /// What is left over the whole lap inside the turnout.
    pub flat: Option<Val<Amount>>,
}

/// A lap.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement or clause of that word")]
pub struct Lap {
    pub span: Span,
    pub top: Val<Arc<Part>>,
    pub under: Val<Arc<Part>>,
    pub wide: Val<Amount>,
    pub skives: BTreeMap<String, Skive>,
    pub enters_inside: Option<Val<Amount>>,
    pub enters_outside: Option<Val<Amount>>,
    pub leans: Option<Val<Amount>>,
    /// How far above the feather line the top part stops.
    pub stops: Option<Val<Amount>>,
    pub stitching: Stitching,
    /// A fault that took its names or its marks.
    pub lost: Option<Hole>,
}

/// A closed seam.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Seam {
    pub name: String,
    pub joins: Result<Vec<Valued<Arc<Part>>>, Hole>,
    pub allowance: Val<Amount>,
    pub rubbed_flat: bool,
    /// The allowances are skived out at the feather line.
    pub skived_out: bool,
    pub stitching: Stitching,
}

/// A stay.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Stay {
    pub name: String,
    pub of: Val<Arc<Part>>,
    pub covers: Val<String>,
    pub wide: Val<Amount>,
    pub loop_length: Option<Val<Amount>>,
    /// How far above the feather line it stops.
    pub stops: Option<Val<Amount>>,
    pub stitching: Stitching,
}

/// A gusseted tongue.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Gusset {
    pub part: Val<Arc<Part>>,
    pub joins: Val<Arc<Part>>,
    pub to: Val<Amount>,
    pub stitching: Stitching,
}

/// A collar.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Collar {
    pub part: Val<Arc<Part>>,
    pub joins: Val<Arc<Part>>,
    pub folded: Option<Val<Amount>>,
    pub stitching: Stitching,
}

/// A counter or a puff.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Stiffened {
    pub of: Val<Arc<Stiffener>>,
    pub skived: Option<Val<Amount>>,
    pub reaches: Option<Val<Amount>>,
}

/// How many on a side, of what, how far apart.
pub type RowOf = (Val<u32>, Val<Arc<Hardware>>, Val<Amount>);

/// Eyelets and hooks of one side.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Facing {
    pub eyelets: Option<RowOf>,
    pub hooks: Option<RowOf>,
    pub first: Val<Amount>,
    pub from_edge: Val<Amount>,
    /// The part whose edge it is; the first that is turned out, if left out.
    pub on: Option<Val<Arc<Part>>>,
    /// Its length from the top edge down, and how that grades.
    pub long: Option<(Val<Amount>, Option<Val<Amount>>)>,
    /// The rows of stitching along its edge, on each side. Their length is the facing's.
    pub rows: Option<Stitching>,
    pub backing: Option<Option<Val<Arc<Part>>>>,
    pub with: Option<Val<String>>,
}

/// The maker's mark.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the slot or clause of that name")]
pub struct Mark {
    pub how: Val<&'static str>,
    pub says: Val<String>,
    pub on: Val<Arc<Part>>,
}

/// A lining that is lasted in.
#[derive(Clone, Debug)]
pub struct LastedIn {
    /// Its name, for the order.
    name: String,
    /// The lining.
    pub part: Val<Arc<Part>>,
    /// The station from which it reaches back; from the toe if it doesn't say.
    pub from: Option<Val<Amount>>,
    /// The station to which it reaches back; all round the heel if it doesn't say.
    pub to: Option<Val<Amount>>,
    /// What it is cemented in with.
    pub bonded: Option<Val<Arc<Adhesive>>>,
}

/// The upper.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Upper {
    pub shaft: Option<(Val<Amount>, Option<Val<Amount>>)>,
    pub parts: BTreeMap<String, Arc<Part>>,
    pub turned_out: Result<Vec<Valued<Arc<Part>>>, Hole>,
    pub lasted_in: Vec<LastedIn>,
    pub laps: Vec<Lap>,
    pub seams: Vec<Seam>,
    pub stays: Vec<Stay>,
    pub gussets: Vec<Gusset>,
    pub collar: Option<Collar>,
    pub counter: Option<Stiffened>,
    pub puff: Option<Stiffened>,
    pub facing: Option<Facing>,
    pub mark: Option<Mark>,
}

impl Upper {
    /// The lap that joins two parts, whichever is on top.
    #[must_use]
    pub fn lap_between(&self, one: &Part, other: &Part) -> Option<&Lap> {
        let name = |part: &Val<Arc<Part>>| part.as_ref().map(|part| part.it.name.clone()).unwrap_or_default();
        self.laps.iter().find(|lap| {
            let (top, under) = (name(&lap.top), name(&lap.under));
            (top == one.name && under == other.name) || (top == other.name && under == one.name)
        })
    }

    /// The part whose edge the facing is: the first that is turned out, if none is named.
    ///
    /// # Errors
    /// The hole of a fault in what names it.
    pub fn faced<'u>(&'u self, facing: &'u Facing) -> Result<Option<&'u Valued<Arc<Part>>>, Hole> {
        match &facing.on {
            Some(part) => part.as_ref().map(Some).map_err(|hole| *hole),
            None => self.turned_out.as_ref().map(|parts| parts.first()).map_err(|hole| *hole),
        }
    }

    /// Between two neighbours of the turned-out parts there must be a lap that says on both sides where it enters.
    fn check_turned_out(&mut self, findings: &mut Vec<Finding>) {
        let Ok(parts) = &self.turned_out else { return };
        for pair in parts.windows(2) {
            let (one, other) = (&pair[0].it, &pair[1].it);
            let lap = self.lap_between(one, other);
            if lap.is_some_and(|lap| lap.enters_inside.is_some() && lap.enters_outside.is_some()) {
                continue;
            }
            // A lap that lost one of its names or marks to a fault has been reported already.
            let lost = self.laps.iter().find_map(|lap| lap.lost);
            let hole = lost.unwrap_or_else(|| report_unmarked(lap, one, other, pair[1].span(), findings));
            self.turned_out = Err(hole);
            return;
        }
    }
}

fn report_unmarked(lap: Option<&Lap>, one: &Part, other: &Part, span: Span, findings: &mut Vec<Finding>) -> Hole {
    let (behind, before) = (&one.name, &other.name);
    let finding = if let Some(lap) = lap {
        Finding::fault(
            FaultName::STATEMENT_MISSING,
            lap.span,
            "the lap does not say where it enters the turnout on both sides",
        )
        .also(span, "turned out as neighbours")
        .help("add `enters-turnout outside 38 % inside 44 %` with the pattern's stations")
    } else {
        let message = format!("`{behind}` and `{before}` are turned out side by side, and no lap joins them");
        Finding::fault(FaultName::STATEMENT_MISSING, span, message)
            .help(format!("add `lap {before} over {behind} {{ … }}` that says where it enters the turnout"))
    };
    let hole = Hole { fault: finding.name, span: finding.span().unwrap_or(span) };
    findings.push(finding);
    hole
}

/// Reads an upper; its parts and seams are names of their own.
pub(super) fn upper(fields: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Upper {
    let parts: BTreeMap<String, Arc<Part>> = fields
        .all("part")
        .into_iter()
        .filter_map(|field| {
            let part = part(&field, stock, findings)?;
            Some((part.name.clone(), Arc::new(part)))
        })
        .collect();
    let seams: BTreeMap<String, String> = fields
        .all("seam")
        .iter()
        .filter_map(|field| field.text(0).ok().map(|name| (name.it.clone(), name.it)))
        .collect();
    let names = ModelNames::new(fields, &parts, &seams);
    let shaft = fields.get("shaft").map(|field| (field.amount(0), field.clause_amount("grade")));
    let turned_out = fields.need("turned-out", findings).and_then(|field| field.names(0, &names.parts(), findings));
    let mut lasted_in: Vec<LastedIn> =
        fields.all("lasted-in").iter().map(|field| lasted_in(field, stock, &names, findings)).collect();
    lasted_in.sort_by(|a, b| a.name.cmp(&b.name));
    let laps = blocks(fields, "lap", |field, inner| lap(field, inner, stock, &names, findings));
    let seams = blocks(fields, "seam", |field, inner| seam(field, inner, stock, &names, findings));
    let stays = blocks(fields, "stay", |field, inner| stay(field, inner, stock, &names, findings));
    let gussets = blocks(fields, "gusset", |field, inner| gusset(field, inner, stock, &names, findings));
    let collar = blocks(fields, "collar", |field, inner| collar(field, inner, stock, &names, findings)).pop();
    let counter = fields.inner("counter").map(|inner| stiffened(&inner, stock, findings));
    let puff = fields.inner("puff").map(|inner| stiffened(&inner, stock, findings));
    let facing = fields.inner("facing").map(|inner| facing(&inner, stock, &names, findings));
    let mark = fields.get("mark").map(|field| Mark {
        how: field.word(0),
        says: field.text(1),
        on: field.clause_named("on", &names.parts(), findings),
    });
    let mut upper =
        Upper { shaft, parts, turned_out, lasted_in, laps, seams, stays, gussets, collar, counter, puff, facing, mark };
    upper.check_turned_out(findings);
    upper
}

fn lasted_in(
    field: &Field<'_>,
    stock: &StockNames<'_>,
    names: &ModelNames<'_>,
    findings: &mut Vec<Finding>,
) -> LastedIn {
    let bonded = field.has_clause("bonded").then(|| field.clause_named("bonded", &stock.adhesives(), findings));
    LastedIn {
        name: field.text(0).map_or(String::new(), |name| name.it),
        part: field.named(0, &names.parts(), findings),
        from: field.clause_amount("from"),
        to: field.clause_amount("to"),
        bonded,
    }
}

/// Every statement of a word that has its block, sorted by key so that the order of the text says nothing.
fn blocks<T>(fields: &Fields<'_>, word: &str, mut read: impl FnMut(&Field<'_>, &Fields<'_>) -> T) -> Vec<T> {
    let mut all = fields.all(word);
    all.sort_by_key(|field| field.force.statement.key());
    all.iter().filter_map(|field| field.inner().map(|inner| read(field, &inner))).collect()
}

fn part(field: &Field<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Option<Part> {
    let name = field.text(0).ok()?;
    let inner = field.inner()?;
    Some(Part {
        span: name.span(),
        name: name.it,
        of: inner.named("of", &stock.upper_leathers(), findings),
        zone: inner.maybe_word("zone"),
        pieces: inner.count("pieces", findings),
        area: inner.amount("area", findings),
        stretch: inner.maybe_word("stretch"),
        pattern: inner.maybe_text("pattern"),
        folded: inner.maybe_amount("folded"),
    })
}

fn stitching(inner: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Stitching {
    let rows = inner.need("rows", findings);
    let clause = |word: &str| rows.as_ref().ok().and_then(|field| field.clause_amount(word));
    Stitching {
        first: clause("first"),
        apart: clause("apart"),
        rows: rows.and_then(|field| field.count(0)),
        long: inner.maybe_amount("long"),
        pitch: inner.amount("pitch", findings),
        thread: inner.named("thread", &stock.threads(), findings),
        needle: inner.amount("needle", findings),
        on: inner.named("on", &stock.machines(), findings),
    }
}

fn lap(
    field: &Field<'_>,
    inner: &Fields<'_>,
    stock: &StockNames<'_>,
    names: &ModelNames<'_>,
    findings: &mut Vec<Finding>,
) -> Lap {
    let skives = inner.all("skive").into_iter().filter_map(|skive_field| {
        let part = skive_field.named(0, &names.parts(), findings).ok()?;
        let skive = skive(&skive_field.inner()?);
        let left = skive.edge.iter().map(|(_, to)| to).chain(&skive.flat);
        left.for_each(|to| thinner(to, &part.it, findings));
        Some((part.it.name.clone(), skive))
    });
    let skives = skives.collect();
    let enters = inner.get("enters-turnout");
    let (top, under) = (field.named(0, &names.parts(), findings), field.clause_named("over", &names.parts(), findings));
    let marks = enters.as_ref().and_then(|field| field.force.statement.hole);
    Lap {
        span: field.force.statement.word,
        lost: top.as_ref().err().copied().or(under.as_ref().err().copied()).or(marks),
        top,
        under,
        wide: inner.amount("wide", findings),
        skives,
        enters_inside: enters.as_ref().and_then(|field| field.clause_amount("inside")),
        enters_outside: enters.as_ref().and_then(|field| field.clause_amount("outside")),
        leans: inner.maybe_amount("leans"),
        stops: inner.maybe_amount("stops-above-feather"),
        stitching: stitching(inner, stock, findings),
    }
}

/// A skive leaves no more than there was.
fn thinner(to: &Val<Amount>, part: &Part, findings: &mut Vec<Finding>) {
    let (Ok(to), Ok(leather)) = (to, &part.of) else { return };
    let Ok(substance) = &leather.it.substance else { return };
    let (left, whole) = (to.it.nominal(), substance.it.spread().hi);
    if left > whole {
        let message = format!("a skive to {left} mm leaves more than the leather has");
        let finding = Finding::fault(FaultName::VALUE_NONSENSE, to.span(), message);
        findings.push(finding.also(substance.span(), format!("`{}` is delivered so", leather.it.name)));
    }
}

fn skive(inner: &Fields<'_>) -> Skive {
    Skive {
        edge: inner.get("edge").map(|field| (field.need_clause("wide", 0), field.need_clause("to", 0))),
        flat: inner.get("in-turnout").map(|field| field.need_clause("to", 0)),
    }
}

fn seam(
    field: &Field<'_>,
    inner: &Fields<'_>,
    stock: &StockNames<'_>,
    names: &ModelNames<'_>,
    findings: &mut Vec<Finding>,
) -> Seam {
    let joins = inner.need("joins", findings).and_then(|joins| joins.names(0, &names.parts(), findings));
    Seam {
        name: field.text(0).map(|name| name.it).unwrap_or_default(),
        joins,
        allowance: inner.amount("allowance", findings),
        rubbed_flat: inner.flag("rubbed-flat"),
        skived_out: inner.flag("skived-at-feather"),
        stitching: stitching(inner, stock, findings),
    }
}

fn stay(
    field: &Field<'_>,
    inner: &Fields<'_>,
    stock: &StockNames<'_>,
    names: &ModelNames<'_>,
    findings: &mut Vec<Finding>,
) -> Stay {
    Stay {
        name: field.text(0).map(|name| name.it).unwrap_or_default(),
        of: inner.named("of", &names.parts(), findings),
        covers: inner.named("covers-seam", &names.seams(), findings),
        wide: inner.amount("wide", findings),
        loop_length: inner.maybe_amount("loop"),
        stops: inner.maybe_amount("stops-above-feather"),
        stitching: stitching(inner, stock, findings),
    }
}

fn gusset(
    field: &Field<'_>,
    inner: &Fields<'_>,
    stock: &StockNames<'_>,
    names: &ModelNames<'_>,
    findings: &mut Vec<Finding>,
) -> Gusset {
    Gusset {
        part: field.named(0, &names.parts(), findings),
        joins: inner.named("joins", &names.parts(), findings),
        to: inner.amount("to", findings),
        stitching: stitching(inner, stock, findings),
    }
}

fn collar(
    field: &Field<'_>,
    inner: &Fields<'_>,
    stock: &StockNames<'_>,
    names: &ModelNames<'_>,
    findings: &mut Vec<Finding>,
) -> Collar {
    Collar {
        part: field.named(0, &names.parts(), findings),
        joins: inner.named("joins", &names.parts(), findings),
        folded: inner.maybe_amount("folded"),
        stitching: stitching(inner, stock, findings),
    }
}

fn stiffened(inner: &Fields<'_>, stock: &StockNames<'_>, findings: &mut Vec<Finding>) -> Stiffened {
    Stiffened {
        of: inner.named("of", &stock.stiffeners(), findings),
        skived: inner.maybe_amount("skived"),
        reaches: inner.maybe_amount("reaches"),
    }
}

fn facing(inner: &Fields<'_>, stock: &StockNames<'_>, names: &ModelNames<'_>, findings: &mut Vec<Finding>) -> Facing {
    let mut rows = |word: &str, named: super::fields::Named<'_, Arc<Hardware>>| {
        inner
            .get(word)
            .map(|field| (field.count(0), field.clause_named("of", &named, findings), field.need_clause("apart", 0)))
    };
    let eyelets = rows("eyelets", stock.eyelets());
    let hooks = rows("hooks", stock.hooks());
    let backing = inner
        .get("backing")
        .map(|field| field.maybe_value(0).map(|value| value.and_then(|_| field.named(0, &names.parts(), findings))));
    Facing {
        eyelets,
        hooks,
        first: inner.amount("first", findings),
        from_edge: inner.amount("from-edge", findings),
        on: inner.maybe_named("on", &names.parts(), findings),
        long: inner.get("long").map(|field| (field.amount(0), field.clause_amount("grade"))),
        rows: inner.get("rows").map(|field| Stitching {
            rows: field.count(0),
            first: field.clause_amount("at"),
            apart: field.clause_amount("apart"),
            long: inner.maybe_amount("long"),
            pitch: field.need_clause("pitch", 0),
            thread: field.clause_named("thread", &stock.threads(), findings),
            needle: field.need_clause("needle", 0),
            on: field.clause_named("sewn-on", &stock.machines(), findings),
        }),
        backing,
        with: inner.get("with").map(|field| field.named(0, &stock.tools(Thing::Setter), findings)),
    }
}
