//! The shop: paper, machines, house rules.

use super::fields::{Field, Fields};
use super::value::Val;
use crate::finding::{FaultName, Finding};
use crate::language::vocabulary::Need;
use crate::measure::Amount;
use crate::source::{Nature, Span};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The stitch of a machine (ISO 4915).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stitch {
    /// Class 301.
    Lockstitch,
    /// Class 101.
    Chainstitch,
}

/// A bobbin's winding space.
#[derive(Clone, Debug)]
pub struct Bobbin {
    /// Outer diameter.
    pub across: Val<Amount>,
    /// Hub diameter.
    pub hub: Val<Amount>,
    /// Width between the flanges.
    pub wide: Val<Amount>,
    /// How full it winds; the house rule if the machine does not say.
    pub fill: Val<Amount>,
}

/// A sewing machine.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Machine {
    pub name: String,
    pub span: Span,
    pub stitch: Val<Stitch>,
    pub opens: Option<Val<Amount>>,
    pub sews: Val<Amount>,
    pub needle: Val<Amount>,
    pub thread: Val<Amount>,
    pub pitch: Val<Amount>,
    pub locks_through: Option<Val<Amount>>,
    pub edge_guide: Option<Val<Amount>>,
    pub wall: Option<Val<Amount>>,
    pub table_nose: Option<Val<Amount>>,
    pub lock: Val<Amount>,
    pub bobbin: Option<Bobbin>,
    pub shafts: Option<Val<Amount>>,
}

/// A skiving machine.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Skiver {
    pub name: String,
    pub edge: Option<Val<Amount>>,
    pub flat: Option<Val<Amount>>,
    pub wide: Option<Val<Amount>>,
    pub leather: Option<Val<Amount>>,
}

/// A setter of eyelets and hooks.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Setter {
    pub name: String,
    pub reach: Option<Val<Amount>>,
    pub through: Option<Val<Amount>>,
}

/// House rules by their word; every word of the vocabulary's `house` block has a value or a hole.
#[derive(Clone, Debug, Default)]
pub struct House {
    rules: BTreeMap<&'static str, Val<Amount>>,
}

impl House {
    /// The rule of that word.
    ///
    /// # Errors
    /// The hole, if a fault took it.
    ///
    /// # Panics
    /// If the vocabulary has no such house rule: a mistake in this program, found by any test that asks.
    pub fn rule(&self, word: &str) -> Val<Amount> {
        self.rules.get(word).cloned().unwrap_or_else(|| panic!("`{word}` is no house rule"))
    }

    /// All rules in the order of their words.
    pub fn rules(&self) -> impl Iterator<Item = (&'static str, &Val<Amount>)> {
        self.rules.iter().map(|(word, value)| (*word, value))
    }
}

/// A heel nailer.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the statement of that word")]
pub struct Nailer {
    pub name: String,
    pub lengths: Option<Val<Amount>>,
    pub nails: Option<Val<u32>>,
}

/// The shop.
#[derive(Clone, Debug)]
pub struct Shop {
    /// Its name.
    pub name: String,
    /// Its paper.
    pub paper: Val<&'static str>,
    /// The units that it prints, in their order.
    pub print: Val<Vec<&'static str>>,
    /// Machines by name.
    pub machines: BTreeMap<String, Arc<Machine>>,
    /// Heel nailers, in the order of the text.
    pub nailers: Vec<Nailer>,
    /// Names of its skivers, setters and nailers.
    pub tools: BTreeMap<&'static str, Vec<String>>,
    /// Skivers in the order of their names.
    pub skivers: Vec<Skiver>,
    /// Setters in the order of their names.
    pub setters: Vec<Setter>,
    /// House rules.
    pub house: House,
}

pub(super) fn shop(name: &str, fields: &Fields<'_>, findings: &mut Vec<Finding>) -> Shop {
    let house = house(fields, findings);
    let fill = house.rule("fill");
    let machines = fields.all("machine").into_iter().filter_map(|field| {
        let name = field.text(0).ok()?;
        let inner = field.inner()?;
        Some((name.it.clone(), Arc::new(machine(name.it, field.force.statement.word, &inner, &fill, findings))))
    });
    let machines = machines.collect();
    let tools = ["skiver", "setter", "nailer"].into_iter().map(|word| {
        let mut names: Vec<String> = fields.all(word).iter().filter_map(|field| Some(field.text(0).ok()?.it)).collect();
        names.sort();
        (word, names)
    });
    Shop {
        name: name.to_owned(),
        paper: fields.word("paper", findings),
        print: fields.words("print", findings),
        machines,
        nailers: fields.all("nailer").iter().filter_map(nailer).collect(),
        tools: tools.collect(),
        skivers: tools_of(fields, "skiver", skiver),
        setters: tools_of(fields, "setter", setter),
        house,
    }
}

fn nailer(field: &Field<'_>) -> Option<Nailer> {
    let (name, inner) = (field.text(0).ok()?, field.inner()?);
    let lengths = inner.maybe_amount("lengths");
    Some(Nailer { name: name.it, lengths, nails: inner.maybe_count("nails") })
}

/// Every tool of a word, in the order of their names.
fn tools_of<T>(fields: &Fields<'_>, word: &str, read: fn(String, &Fields<'_>) -> T) -> Vec<T> {
    let named = fields.all(word).into_iter().filter_map(|field| Some((field.text(0).ok()?.it, field.inner()?)));
    let named: BTreeMap<String, Fields<'_>> = named.collect();
    named.into_iter().map(|(name, inner)| read(name, &inner)).collect()
}

fn skiver(name: String, fields: &Fields<'_>) -> Skiver {
    Skiver {
        name,
        edge: fields.maybe_amount("edge"),
        flat: fields.maybe_amount("flat"),
        wide: fields.maybe_amount("wide"),
        leather: fields.maybe_amount("leather"),
    }
}

fn setter(name: String, fields: &Fields<'_>) -> Setter {
    Setter { name, reach: fields.maybe_amount("reach"), through: fields.maybe_amount("through") }
}

fn house(fields: &Fields<'_>, findings: &mut Vec<Finding>) -> House {
    let written = fields.inner("house");
    let carried = fields.block.def.statement("house").map(|statement| statement.carries);
    let Some(crate::language::vocabulary::Carries::Block(def)) = carried else { return House::default() };
    let empty =
        super::merge::Merged { def, open: fields.block.open, statements: Vec::new(), unread: fields.block.unread };
    let fields = written.unwrap_or_else(|| Fields::new(&empty, Nature::HouseRule, format!("{} / house", fields.path)));
    let fields = Fields { nature: Nature::HouseRule, ..fields };
    let rules = def.statements.iter().filter(|statement| matches!(statement.need, Need::Default(_)));
    House { rules: rules.map(|statement| (statement.word, house_rule(&fields, statement.word, findings))).collect() }
}

fn house_rule(fields: &Fields<'_>, word: &str, findings: &mut Vec<Finding>) -> Val<Amount> {
    let mut value = fields.amount(word, findings)?;
    if value.origin.provenance == crate::source::Provenance::Written {
        value.origin.provenance = crate::source::Provenance::House;
    }
    Ok(value)
}

fn machine(name: String, span: Span, fields: &Fields<'_>, fill: &Val<Amount>, findings: &mut Vec<Finding>) -> Machine {
    let stitch = fields
        .word("makes", findings)
        .map(|word| word.map(|word| if word == "chainstitch" { Stitch::Chainstitch } else { Stitch::Lockstitch }));
    let bobbin = fields.get("bobbin").map(|field| Bobbin {
        across: field.need_clause("across", 0),
        hub: field.need_clause("hub", 0),
        wide: field.need_clause("wide", 0),
        fill: field.clause_amount("fill").unwrap_or_else(|| fill.clone()),
    });
    if let Some(Bobbin { across: Ok(across), hub: Ok(hub), .. }) = &bobbin
        && hub.it.exact() >= across.it.exact()
    {
        let finding = Finding::fault(FaultName::VALUE_NONSENSE, hub.span(), "the hub is as wide as the whole bobbin");
        findings.push(finding.also(across.span(), "the whole bobbin"));
    }
    Machine {
        name,
        span,
        stitch,
        opens: fields.maybe_amount("opens"),
        sews: fields.amount("sews", findings),
        needle: fields.amount("needle", findings),
        thread: fields.amount("thread", findings),
        pitch: fields.amount("pitch", findings),
        locks_through: fields.maybe_amount("locks-through"),
        edge_guide: fields.maybe_amount("edge-guide"),
        wall: fields.maybe_amount("wall"),
        table_nose: fields.maybe_amount("table-nose"),
        lock: fields.amount("lock", findings),
        bobbin,
        shafts: fields.maybe_amount("shafts"),
    }
}
