//! Where the choices of a model stand: every statement in force with the way to it and its text.

use crate::language::vocabulary::BlockDef;
use crate::language::{Clause, Given, Slot, Statement, StatementKey, Value};
use crate::source::Span;
use crate::spec::Merged;

/// The way from a model's block to a statement: `bottom`, `layer midsole`, `of`.
pub type Way = Vec<StatementKey>;

/// One slot of a statement, by its place; with the word of its clause, if it is one's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SlotAt {
    /// The clause, or none for a slot of the statement itself.
    pub clause: Option<&'static str>,
    /// Which of them.
    pub slot: usize,
}

/// A statement in force.
#[derive(Clone, Debug)]
pub struct Place<'m> {
    /// The way to it.
    pub way: Way,
    /// The statement; its block is elsewhere.
    pub statement: &'m Statement,
    /// The block that it stands in.
    pub block: &'static BlockDef,
}

/// A way in words: `model scree-8 / bottom / layer midsole / of`.
pub fn path(model: &str, way: &[StatementKey]) -> String {
    way.iter().fold(format!("model {model}"), |path, key| format!("{path} / {key}"))
}

/// Every statement of a model, outer ones before what is in their blocks.
pub fn places(merged: &Merged) -> Vec<Place<'_>> {
    let mut all = Vec::new();
    gather(merged, &[], &mut all);
    all
}

fn gather<'m>(merged: &'m Merged, way: &[StatementKey], all: &mut Vec<Place<'m>>) {
    let mut statements: Vec<_> = merged.statements.iter().collect();
    statements.sort_by_key(|force| force.statement.key());
    for force in statements {
        let mut way = way.to_vec();
        way.push(force.statement.key());
        if let Some(block) = &force.block {
            all.push(Place { way: way.clone(), statement: &force.statement, block: merged.def });
            gather(block, &way, all);
        } else {
            all.push(Place { way, statement: &force.statement, block: merged.def });
        }
    }
}

impl<'m> Place<'m> {
    /// The block's name and the statement's word.
    pub fn kind(&self) -> (&'static str, &'static str) {
        (self.block.name, self.statement.def.word)
    }

    /// Every slot that was filled, with its definition's place.
    pub fn slots(&self) -> Vec<(SlotAt, &'m Slot)> {
        let own = self.statement.slots.iter().enumerate().map(|(slot, it)| (SlotAt { clause: None, slot }, it));
        let of = |clause: &'m Clause| {
            let word = clause.def.word;
            clause.slots.iter().enumerate().map(move |(slot, it)| (SlotAt { clause: Some(word), slot }, it))
        };
        let all = own.chain(self.statement.clauses.iter().flat_map(of));
        all.filter(|(_, slot)| matches!(slot.given, Given::Value(_))).collect()
    }

    /// One slot.
    pub fn slot(&self, at: SlotAt) -> Option<&'m Slot> {
        self.slots().into_iter().find(|(known, _)| *known == at).map(|(_, slot)| slot)
    }

    /// The name in a slot.
    pub fn name(&self, at: SlotAt) -> Option<&'m str> {
        match &self.slot(at)?.given {
            Given::Value(Value::Name(name)) => Some(name),
            _ => None,
        }
    }

    /// From its word to its last slot or clause, without its block.
    pub fn head(&self) -> Span {
        head_of(self.statement)
    }
}

/// From a statement's word to its last slot or clause, without its block.
pub fn head_of(statement: &Statement) -> Span {
    let filled = |slot: &&Slot| matches!(slot.given, Given::Value(_));
    let slots = statement.slots.iter().filter(filled).map(|slot| slot.span);
    let clauses = statement
        .clauses
        .iter()
        .flat_map(|clause| [clause.word].into_iter().chain(clause.slots.iter().filter(filled).map(|slot| slot.span)));
    slots.chain(clauses).fold(statement.word, Span::to)
}

/// On one line, without comments.
pub fn collapsed(text: &str) -> String {
    let bare = |line: &str| {
        let mut quoted = false;
        let end = line.char_indices().find(|(_, c)| {
            quoted ^= *c == '"';
            *c == '#' && !quoted
        });
        line[..end.map_or(line.len(), |(at, _)| at)].trim().to_owned()
    };
    let lines: Vec<String> = text.lines().map(bare).filter(|line| !line.is_empty()).collect();
    lines.join(" ")
}
