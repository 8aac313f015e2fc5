//! Reads typed values out of a block in force.

use super::merge::{InForce, Merged};
use super::value::{ByPlace, Val, Valued};
use crate::finding::{FaultName, Finding};
use crate::language::vocabulary::{Need, SlotKind, Thing};
use crate::language::{At, Given, Hole, Slot, Value, nearest, or_list, read_as};
use crate::measure::Amount;
use crate::source::{Nature, Origin, Provenance, Span};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The things of one kind that a name may refer to.
pub(super) struct Named<'n, T> {
    pub thing: Thing,
    pub known: &'n BTreeMap<String, T>,
    /// A fault because of which names may be unknown through no fault of their own.
    pub broken: Option<Hole>,
}

/// A block in force with what is needed to read it.
#[derive(Clone)]
pub(super) struct Fields<'b> {
    pub block: &'b Merged,
    pub nature: Nature,
    pub path: Arc<str>,
}

/// One statement of it.
#[derive(Clone)]
pub(super) struct Field<'b> {
    pub force: &'b InForce,
    nature: Nature,
    path: Arc<str>,
}

pub(super) fn hole_of(finding: &Finding, at: Span) -> Hole {
    Hole { fault: finding.name, span: finding.span().unwrap_or(at) }
}

impl<'b> Fields<'b> {
    pub fn new(block: &'b Merged, nature: Nature, path: impl Into<Arc<str>>) -> Self {
        Self { block, nature, path: path.into() }
    }

    pub fn get(&self, word: &str) -> Option<Field<'b>> {
        self.block.find(word).map(|force| self.field(force))
    }

    pub fn all(&self, word: &str) -> Vec<Field<'b>> {
        self.block
            .statements
            .iter()
            .filter(|known| known.statement.def.word == word)
            .map(|known| self.field(known))
            .collect()
    }

    fn field(&self, force: &'b InForce) -> Field<'b> {
        let path = format!("{} / {}", self.path, force.statement.key()).into();
        Field { force, nature: self.nature, path }
    }

    /// A statement that must be there; a fault at the block's `{` if it isn't.
    pub fn need(&self, word: &str, findings: &mut Vec<Finding>) -> Result<Field<'b>, Hole> {
        self.get(word).ok_or_else(|| self.lacks(word, findings))
    }

    /// Reports a statement that is not there, unless it may be one that could not be understood.
    pub fn lacks(&self, word: &str, findings: &mut Vec<Finding>) -> Hole {
        if let Some(unread) = self.block.unread {
            return unread;
        }
        let lacking = format!("{} has no ", self.path.rsplit(" / ").next().unwrap_or(&self.path));
        let same = |known: &&mut Finding| {
            known.name == FaultName::STATEMENT_MISSING.0
                && known.span() == Some(self.block.open)
                && known.message.starts_with(&lacking)
        };
        let help = self.block.def.statement(word).map(|def| format!("such as `{}`", def.example));
        if let Some(known) = findings.iter_mut().find(same) {
            // Everything that one block lacks is said in one finding.
            known.message = format!("{}, `{word}`", known.message);
            known.help.extend(help);
            return hole_of(known, self.block.open);
        }
        let mut finding = Finding::fault(FaultName::STATEMENT_MISSING, self.block.open, format!("{lacking}`{word}`"));
        finding.help.extend(help.map(|help| format!("add one, {help}")));
        let hole = hole_of(&finding, self.block.open);
        findings.push(finding);
        hole
    }

    /// The statement, or what the vocabulary says holds without it.
    fn value_or_default(&self, word: &str, findings: &mut Vec<Finding>) -> Val<Value> {
        if let Some(field) = self.get(word) {
            return field.value(0);
        }
        let Some(Need::Default(text)) = self.block.def.statement(word).map(|def| def.need) else {
            return Err(self.lacks(word, findings));
        };
        let reading = read_as(&format!("{word} {text}"), self.block.open.source, self.block.def);
        let value = reading.body.statements.first().and_then(|statement| statement.slots.first()).and_then(Slot::value);
        // A test of the vocabulary reads every default, so there is a value.
        let value = value.cloned().unwrap_or(Value::Count(0));
        let origin = Origin {
            span: self.block.open,
            provenance: Provenance::BuiltIn,
            nature: self.nature,
            path: format!("{} / {word}", self.path).into(),
        };
        Ok(Valued { it: value, origin })
    }

    pub fn amount(&self, word: &str, findings: &mut Vec<Finding>) -> Val<Amount> {
        self.value_or_default(word, findings).map(amount_of)
    }

    pub fn word(&self, word: &str, findings: &mut Vec<Finding>) -> Val<&'static str> {
        self.value_or_default(word, findings)
            .map(|value| value.map(|value| if let Value::Word(word) = value { word } else { "" }))
    }

    pub fn words(&self, word: &str, findings: &mut Vec<Finding>) -> Val<Vec<&'static str>> {
        self.value_or_default(word, findings).map(|value| value.map(words_of))
    }

    pub fn count(&self, word: &str, findings: &mut Vec<Finding>) -> Val<u32> {
        self.need(word, findings).and_then(|field| field.count(0))
    }

    pub fn maybe_amount(&self, word: &str) -> Option<Val<Amount>> {
        self.get(word).map(|field| field.amount(0))
    }

    pub fn maybe_word(&self, word: &str) -> Option<Val<&'static str>> {
        self.get(word).map(|field| field.word(0))
    }

    pub fn maybe_words(&self, word: &str) -> Option<Val<Vec<&'static str>>> {
        self.get(word).map(|field| field.value(0).map(|value| value.map(words_of)))
    }

    pub fn maybe_count(&self, word: &str) -> Option<Val<u32>> {
        self.get(word).map(|field| field.count(0))
    }

    pub fn maybe_text(&self, word: &str) -> Option<Val<String>> {
        self.get(word).map(|field| field.text(0))
    }

    /// A statement without slots.
    pub fn flag(&self, word: &str) -> bool {
        self.get(word).is_some()
    }

    pub fn named<T: Clone>(&self, word: &str, named: &Named<'_, T>, findings: &mut Vec<Finding>) -> Val<T> {
        self.need(word, findings)?.named(0, named, findings)
    }

    pub fn maybe_named<T: Clone>(
        &self,
        word: &str,
        named: &Named<'_, T>,
        findings: &mut Vec<Finding>,
    ) -> Option<Val<T>> {
        self.get(word).map(|field| field.named(0, named, findings))
    }

    /// The block of the statement `word`, if there is one.
    pub fn inner(&self, word: &str) -> Option<Fields<'b>> {
        self.get(word)?.inner()
    }

    pub fn need_inner(&self, word: &str, findings: &mut Vec<Finding>) -> Result<Fields<'b>, Hole> {
        let field = self.need(word, findings)?;
        field.inner().ok_or_else(|| field.lost())
    }
}

impl<'b> Field<'b> {
    pub fn inner(&self) -> Option<Fields<'b>> {
        let block = self.force.block.as_ref()?;
        Some(Fields { block, nature: self.nature, path: Arc::clone(&self.path) })
    }

    /// The hole of a statement that a fault damaged.
    pub fn lost(&self) -> Hole {
        self.force.statement.hole.unwrap_or(Hole { fault: FaultName::VALUE_MISSING.0, span: self.force.statement.word })
    }

    pub fn origin(&self, span: Span) -> Origin {
        Origin { span, provenance: self.force.provenance, nature: self.nature, path: Arc::clone(&self.path) }
    }

    fn slot_value(&self, slot: Option<&Slot>) -> Option<Val<Value>> {
        let Some(slot) = slot else { return Some(Err(self.lost())) };
        match &slot.given {
            Given::Value(value) => Some(Ok(Valued { it: value.clone(), origin: self.origin(slot.span) })),
            Given::Hole(hole) => Some(Err(*hole)),
            Given::Absent => None,
        }
    }

    /// A slot that must be there (the reader saw to it, so that only a hole can be missing).
    pub fn value(&self, slot: usize) -> Val<Value> {
        self.slot_value(self.force.statement.slots.get(slot)).unwrap_or_else(|| Err(self.lost()))
    }

    pub fn maybe_value(&self, slot: usize) -> Option<Val<Value>> {
        self.slot_value(self.force.statement.slots.get(slot))
    }

    pub fn amount(&self, slot: usize) -> Val<Amount> {
        self.value(slot).map(amount_of)
    }

    pub fn maybe_amount(&self, slot: usize) -> Option<Val<Amount>> {
        self.maybe_value(slot).map(|value| value.map(amount_of))
    }

    pub fn amounts(&self, slot: usize) -> Val<Vec<At<Amount>>> {
        self.value(slot)
            .map(|value| value.map(|value| if let Value::Amounts(list) = value { list } else { Vec::new() }))
    }

    /// Values by word.
    pub fn pairs(&self, slot: usize) -> Val<Vec<(&'static str, At<Amount>)>> {
        self.value(slot)
            .map(|value| value.map(|value| if let Value::Pairs(pairs) = value { pairs } else { Vec::new() }))
    }

    pub fn count(&self, slot: usize) -> Val<u32> {
        self.value(slot).map(|value| value.map(|value| if let Value::Count(count) = value { count } else { 0 }))
    }

    pub fn word(&self, slot: usize) -> Val<&'static str> {
        self.value(slot).map(|value| value.map(|value| if let Value::Word(word) = value { word } else { "" }))
    }

    pub fn text(&self, slot: usize) -> Val<String> {
        self.value(slot).map(|value| value.map(text_of))
    }

    pub fn maybe_text(&self, slot: usize) -> Option<Val<String>> {
        self.maybe_value(slot).map(|value| value.map(|value| value.map(text_of)))
    }

    /// A length for all places, or by place: the back's must be there.
    pub fn by_place(&self, slot: usize, findings: &mut Vec<Finding>) -> Option<Val<ByPlace>> {
        self.maybe_value(slot).map(|value| {
            let value = value?;
            let Some(places) = places_of(&value) else {
                let finding = Finding::fault(FaultName::VALUE_MISSING, value.span(), "the back has no length")
                    .help("write one length for all, or begin at the back, such as `back 7/8 in, breast 6/8 in`");
                let hole = hole_of(&finding, value.span());
                findings.push(finding);
                return Err(hole);
            };
            Ok(value.map(|_| places))
        })
    }

    /// A value by word; one without a word is the first word's.
    pub fn length_or_pairs(&self, slot: usize) -> Result<Vec<(&'static str, Valued<Amount>)>, Hole> {
        let value = self.value(slot)?;
        let first = match self.force.statement.def.slots.get(slot).map(|slot| slot.kind) {
            Some(SlotKind::ValueOrPairs([first, ..], _)) => *first,
            _ => return Err(self.lost()),
        };
        match &value.it {
            Value::Amount(one) => Ok(vec![(first, Valued { it: *one, origin: value.origin.clone() })]),
            Value::Pairs(pairs) => {
                Ok(pairs.iter().map(|(word, at)| (*word, Valued { it: at.it, origin: self.origin(at.span) })).collect())
            }
            _ => Err(self.lost()),
        }
    }

    pub fn named<T: Clone>(&self, slot: usize, named: &Named<'_, T>, findings: &mut Vec<Finding>) -> Val<T> {
        let name = self.text(slot)?;
        let thing = named.resolve(&name.it, name.span(), findings)?;
        Ok(name.map(|_| thing))
    }

    pub fn names<T: Clone>(
        &self,
        slot: usize,
        named: &Named<'_, T>,
        findings: &mut Vec<Finding>,
    ) -> Result<Vec<Valued<T>>, Hole> {
        let Value::Names(names) = self.value(slot)?.it else { return Err(self.lost()) };
        names
            .into_iter()
            .map(|At { it, span }| Ok(Valued { it: named.resolve(&it, span, findings)?, origin: self.origin(span) }))
            .collect()
    }

    fn clause_slot(&self, word: &str, slot: usize) -> Option<Val<Value>> {
        let clause = self.force.statement.clause(word)?;
        self.slot_value(clause.slots.get(slot))
    }

    pub fn clause_amount(&self, word: &str) -> Option<Val<Amount>> {
        self.clause_slot(word, 0).map(|value| value.map(amount_of))
    }

    /// An amount of a clause that the statement needs.
    pub fn need_clause(&self, word: &str, slot: usize) -> Val<Amount> {
        self.clause_slot(word, slot).unwrap_or_else(|| Err(self.lost())).map(amount_of)
    }

    pub fn clause_word(&self, word: &str) -> Option<Val<&'static str>> {
        let value = self.clause_slot(word, 0)?;
        Some(value.map(|value| value.map(|value| if let Value::Word(word) = value { word } else { "" })))
    }

    pub fn clause_text(&self, word: &str) -> Option<Val<String>> {
        self.clause_slot(word, 0).map(|value| value.map(|value| value.map(text_of)))
    }

    pub fn clause_named<T: Clone>(&self, word: &str, named: &Named<'_, T>, findings: &mut Vec<Finding>) -> Val<T> {
        let name = self.clause_slot(word, 0).unwrap_or_else(|| Err(self.lost()))?.map(text_of);
        let thing = named.resolve(&name.it, name.span(), findings)?;
        Ok(name.map(|_| thing))
    }

    pub fn clause_widths(&self, word: &str) -> Result<Vec<At<crate::measure::Width>>, Hole> {
        match self.clause_slot(word, 0).unwrap_or_else(|| Err(self.lost()))?.it {
            Value::Widths(widths) => Ok(widths),
            _ => Err(self.lost()),
        }
    }

    pub fn has_clause(&self, word: &str) -> bool {
        self.force.statement.clause(word).is_some()
    }
}

fn amount_of(value: Valued<Value>) -> Valued<Amount> {
    value.map(|value| if let Value::Amount(amount) = value { amount } else { Amount::number(0) })
}

fn text_of(value: Value) -> String {
    match value {
        Value::Text(text) | Value::Name(text) => text,
        _ => String::new(),
    }
}

fn words_of(value: Value) -> Vec<&'static str> {
    match value {
        Value::Words(words) => words.into_iter().map(|word| word.it).collect(),
        _ => Vec::new(),
    }
}

/// One length everywhere, or by place.
fn places_of(value: &Valued<Value>) -> Option<ByPlace> {
    match &value.it {
        Value::Amount(one) => {
            let all = At { it: *one, span: value.span() };
            Some(ByPlace { back: all.clone(), sides: all.clone(), breast: all })
        }
        Value::Pairs(pairs) => {
            let of = |place: &str| pairs.iter().find(|(word, _)| *word == place).map(|(_, amount)| amount.clone());
            // A place that is left out takes the length of the place behind it.
            let back = of("back")?;
            let sides = of("sides").unwrap_or_else(|| back.clone());
            let breast = of("breast").unwrap_or_else(|| sides.clone());
            Some(ByPlace { back, sides, breast })
        }
        _ => None,
    }
}

impl<T: Clone> Named<'_, T> {
    /// The thing of that name; an unknown name near a known one is reported and taken as that one.
    pub fn resolve(&self, name: &str, span: Span, findings: &mut Vec<Finding>) -> Result<T, Hole> {
        if let Some(thing) = self.known.get(name) {
            return Ok(thing.clone());
        }
        if let Some(hole) = self.broken {
            return Err(hole);
        }
        let message = format!("no {} is named `{name}`", self.thing.word());
        let finding = Finding::fault(FaultName::NAME_UNKNOWN, span, message);
        let near = nearest(name, self.known.keys().map(String::as_str));
        if let Some((near, thing)) = near.and_then(|near| Some((near, self.known.get(near)?))) {
            findings.push(finding.says(format!("taken as `{near}`")).help(format!("write `{near}`")));
            return Ok(thing.clone());
        }
        let known: Vec<&str> = self.known.keys().map(String::as_str).take(12).collect();
        let finding = if known.is_empty() {
            finding.help(format!("declare it: `{} {name} {{ … }}`, or `use` the file that does", self.thing.word()))
        } else {
            finding.help(format!("there is {}", or_list(&known)))
        };
        let hole = hole_of(&finding, span);
        findings.push(finding);
        Err(hole)
    }
}
