//! Name tables: what a name slot may refer to in one world, and in one model.

use super::fields::{Fields, Named};
use super::shop::{Machine, Shop};
use super::stock::{
    Adhesive, Cap, Filler, Hardware, Lift, Nail, Outsole, Rubber, SoleLeather, Stiffener, Stock, Thread, UpperLeather,
};
use super::upper::Part;
use crate::finding::{FaultName, Finding};
use crate::language::vocabulary::Thing;
use crate::language::{Hole, nearest, or_list};
use crate::source::Span;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Faults because of which a name may be unknown: a file that could not be read, a declaration that lost its name.
#[derive(Clone, Debug, Default)]
pub(super) struct Broken {
    /// Concerns every kind of thing.
    pub all: Option<Hole>,
    /// Concerns one kind.
    pub of: BTreeMap<Thing, Hole>,
}

impl Broken {
    pub fn hole(&self, thing: Thing) -> Option<Hole> {
        self.of.get(&thing).copied().or(self.all)
    }
}

/// What a bottom layer may be made of.
pub(super) enum AnyMaterial {
    Leather(Arc<SoleLeather>),
    Outsole(Arc<Outsole>),
    Rubber(Arc<Rubber>),
    Filler(Arc<Filler>),
    Upper(Arc<UpperLeather>),
}

/// The names of a world: its stock and its shop's machines.
pub(super) struct StockNames<'w> {
    pub stock: &'w Stock,
    pub machines: &'w BTreeMap<String, Arc<Machine>>,
    pub tools: BTreeMap<&'static str, BTreeMap<String, String>>,
    pub broken: &'w Broken,
}

macro_rules! tables {
    ($($method:ident $thing:ident $type:ty = $($place:ident).+;)+) => {
        $(pub fn $method(&self) -> Named<'_, Arc<$type>> {
            Named { thing: Thing::$thing, known: &self.$($place).+, broken: self.broken.hole(Thing::$thing) }
        })+
    };
}

impl<'w> StockNames<'w> {
    pub fn new(
        stock: &'w Stock,
        shop: Option<&'w Shop>,
        none: &'w BTreeMap<String, Arc<Machine>>,
        broken: &'w Broken,
    ) -> Self {
        let tools = shop.map(|shop| {
            let named = |names: &Vec<String>| names.iter().map(|name| (name.clone(), name.clone())).collect();
            shop.tools.iter().map(|(word, names)| (*word, named(names))).collect()
        });
        Self { stock, machines: shop.map_or(none, |shop| &shop.machines), tools: tools.unwrap_or_default(), broken }
    }

    tables! {
        machines Machine Machine = machines;
        upper_leathers UpperLeather UpperLeather = stock.upper_leathers;
        threads Thread Thread = stock.threads;
        nails Nail Nail = stock.nails;
        lifts Lift Lift = stock.lifts;
        caps Cap Cap = stock.caps;
        stiffeners Stiffener Stiffener = stock.stiffeners;
        eyelets Eyelet Hardware = stock.eyelets;
        hooks Hook Hardware = stock.hooks;
        adhesives Adhesive Adhesive = stock.adhesives;
    }

    pub fn tools(&self, thing: Thing) -> Named<'_, String> {
        static NONE: BTreeMap<String, String> = BTreeMap::new();
        let known = self.tools.get(thing.word()).unwrap_or(&NONE);
        Named { thing, known, broken: self.broken.hole(thing) }
    }

    fn exact_material(&self, name: &str) -> Option<AnyMaterial> {
        let stock = self.stock;
        let leather = stock.sole_leathers.get(name).map(|it| AnyMaterial::Leather(Arc::clone(it)));
        let outsole = || stock.outsoles.get(name).map(|it| AnyMaterial::Outsole(Arc::clone(it)));
        let rubber = || stock.rubbers.get(name).map(|it| AnyMaterial::Rubber(Arc::clone(it)));
        let filler = || stock.fillers.get(name).map(|it| AnyMaterial::Filler(Arc::clone(it)));
        let upper = || stock.upper_leathers.get(name).map(|it| AnyMaterial::Upper(Arc::clone(it)));
        leather.or_else(outsole).or_else(rubber).or_else(filler).or_else(upper)
    }

    /// What a bottom layer of that name is made of, as [`Named::resolve`] over the kinds of stock that may lie there.
    pub fn material(&self, name: &str, span: Span, findings: &mut Vec<Finding>) -> Result<AnyMaterial, Hole> {
        if let Some(found) = self.exact_material(name) {
            return Ok(found);
        }
        let kinds = [Thing::SoleLeather, Thing::Outsole, Thing::Rubber, Thing::Filler, Thing::UpperLeather];
        if let Some(hole) = kinds.into_iter().find_map(|thing| self.broken.hole(thing)) {
            return Err(hole);
        }
        let stock = self.stock;
        let known: Vec<&str> = stock
            .sole_leathers
            .keys()
            .chain(stock.outsoles.keys())
            .chain(stock.rubbers.keys())
            .chain(stock.fillers.keys())
            .map(String::as_str)
            .collect();
        let message = format!("no sole-leather, outsole or rubber is named `{name}`");
        let finding = Finding::fault(FaultName::NAME_UNKNOWN, span, message);
        if let Some(near) = nearest(name, known.iter().copied())
            && let Some(found) = self.exact_material(near)
        {
            findings.push(finding.says(format!("taken as `{near}`")).help(format!("write `{near}`")));
            return Ok(found);
        }
        let hole = Hole { fault: finding.name, span };
        findings.push(if known.is_empty() { finding } else { finding.help(format!("there is {}", or_list(&known))) });
        Err(hole)
    }
}

/// The names of a model's upper.
pub(super) struct ModelNames<'m> {
    parts: &'m BTreeMap<String, Arc<Part>>,
    seams: &'m BTreeMap<String, String>,
    lost_part: Option<Hole>,
    lost_seam: Option<Hole>,
}

impl<'m> ModelNames<'m> {
    pub fn new(
        fields: &Fields<'_>,
        parts: &'m BTreeMap<String, Arc<Part>>,
        seams: &'m BTreeMap<String, String>,
    ) -> Self {
        // A part that lost its name or its block is known under no name.
        let lost = |word: &str| {
            let lost = fields.all(word).into_iter().find(|field| field.text(0).is_err() || field.inner().is_none());
            lost.map(|field| field.text(0).err().unwrap_or_else(|| field.lost())).or(fields.block.unread)
        };
        Self { parts, seams, lost_part: lost("part"), lost_seam: lost("seam") }
    }

    pub fn parts(&self) -> Named<'_, Arc<Part>> {
        Named { thing: Thing::Part, known: self.parts, broken: self.lost_part }
    }

    pub fn seams(&self) -> Named<'_, String> {
        Named { thing: Thing::Seam, known: self.seams, broken: self.lost_seam }
    }
}
