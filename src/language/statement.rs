//! Typed statements: what the vocabulary makes of a tree. `spec` builds from these and from nothing else.

use super::vocabulary::{BlockDef, ClauseDef, Key, StatementDef};
use crate::measure::{Amount, Exact, Size, System, Width};
use crate::source::Span;

/// A place where a value is missing because of a fault; it remembers which.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hole {
    /// The fault's name.
    pub fault: &'static str,
    /// Where the fault stands.
    pub span: Span,
}

/// Something with the place where it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct At<T> {
    /// The thing.
    pub it: T,
    /// Where.
    pub span: Span,
}

/// `6..12 by 1/2`, or one size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SizeRange {
    /// The first number.
    pub from: Exact,
    /// The last number.
    pub to: Exact,
    /// The step, as written or 1.
    pub by: Exact,
}

/// What stands in a slot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// One of the words of a choice.
    Word(&'static str),
    /// Several of them.
    Words(Vec<At<&'static str>>),
    /// A name.
    Name(String),
    /// Names.
    Names(Vec<At<String>>),
    /// A value.
    Amount(Amount),
    /// A comma list of values.
    Amounts(Vec<At<Amount>>),
    /// Values by word.
    Pairs(Vec<(&'static str, At<Amount>)>),
    /// A whole number.
    Count(u32),
    /// A size with its width.
    Size(Size),
    /// A system and runs of numbers in it.
    Sizes(System, Vec<At<SizeRange>>),
    /// Widths.
    Widths(Vec<At<Width>>),
    /// A text, without its quotes.
    Text(String),
}

/// Whether a slot was filled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Given {
    /// It was.
    Value(Value),
    /// It was left out, and may be.
    Absent,
    /// A fault took it.
    Hole(Hole),
}

/// A slot with what was given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slot {
    /// What was given.
    pub given: Given,
    /// Where it stands, or would.
    pub span: Span,
}

/// A clause with its slots.
#[derive(Clone, Debug)]
pub struct Clause {
    /// Its line in the vocabulary.
    pub def: &'static ClauseDef,
    /// Its word.
    pub word: Span,
    /// What follows.
    pub slots: Vec<Slot>,
}

/// A statement with its slots, clauses and block.
#[derive(Clone, Debug)]
pub struct Statement {
    /// Its line in the vocabulary.
    pub def: &'static StatementDef,
    /// Its word.
    pub word: Span,
    /// From its word to its last token, its block included.
    pub span: Span,
    /// What follows the word, one for each slot of the definition.
    pub slots: Vec<Slot>,
    /// The clauses that were given.
    pub clauses: Vec<Clause>,
    /// A fault that took a clause's word or the block.
    pub hole: Option<Hole>,
    /// Its block.
    pub block: Option<Body>,
}

impl Statement {
    /// What tells it from others of its block.
    #[must_use]
    pub fn key(&self) -> StatementKey {
        let first = (self.def.key == Key::First).then(|| self.slots.first().and_then(first_text)).flatten();
        StatementKey { word: self.def.word, first }
    }

    /// The clause of that word, if it was given.
    #[must_use]
    pub fn clause(&self, word: &str) -> Option<&Clause> {
        self.clauses.iter().find(|clause| clause.def.word == word)
    }

    /// The name that it declares or starts with, if there is one.
    #[must_use]
    pub fn name(&self) -> Option<At<&str>> {
        let slot = self.slots.first()?;
        match &slot.given {
            Given::Value(Value::Name(name) | Value::Text(name)) => Some(At { it: name, span: slot.span }),
            _ => None,
        }
    }
}

/// The first slot as text, for keys.
fn first_text(slot: &Slot) -> Option<String> {
    match &slot.given {
        Given::Value(Value::Name(name) | Value::Text(name)) => Some(name.clone()),
        Given::Value(Value::Word(word)) => Some((*word).to_owned()),
        Given::Value(Value::Count(count)) => Some(count.to_string()),
        Given::Value(Value::Amount(amount)) => Some(amount.exact().to_string()),
        _ => None,
    }
}

/// Word and first name or number of a statement.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StatementKey {
    /// The word.
    pub word: &'static str,
    /// The first name or number, where that is part of the key.
    pub first: Option<String>,
}

impl std::fmt::Display for StatementKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.first {
            Some(first) => write!(f, "{} {first}", self.word),
            None => write!(f, "{}", self.word),
        }
    }
}

/// `without layer slip`
#[derive(Clone, Debug)]
pub struct Removal {
    /// What is removed.
    pub key: StatementKey,
    /// The whole line.
    pub span: Span,
}

/// The inside of a block.
#[derive(Clone, Debug)]
pub struct Body {
    /// Its kind.
    pub def: &'static BlockDef,
    /// From `{` to `}`.
    pub span: Span,
    /// The `{`.
    pub open: Span,
    /// What stands in it, in the order of the text.
    pub statements: Vec<Statement>,
    /// What is removed from what was inherited.
    pub removals: Vec<Removal>,
    /// Something stands here that could not be understood at all: it may have been any statement.
    pub unread: Option<Hole>,
}

impl Body {
    /// The first statement of that word.
    #[must_use]
    pub fn find(&self, word: &str) -> Option<&Statement> {
        self.statements.iter().find(|statement| statement.def.word == word)
    }

    /// All statements of that word.
    pub fn all<'b>(&'b self, word: &'b str) -> impl Iterator<Item = &'b Statement> {
        self.statements.iter().filter(move |statement| statement.def.word == word)
    }
}
