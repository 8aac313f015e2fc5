//! The vocabulary: which statements, slots and clauses each kind of block has.
//!
//! One table. It alone turns trees into typed statements; the language reference, near words and messages
//! are read from it, too. It tests itself (see `tests.rs`).

mod bottom;
mod cost;
mod last;
mod model;
mod shop;
mod stock;
#[cfg(test)]
mod tests;
mod upper;

pub use cost::{Mark, Toward, Usual};
pub use model::STEPS;

use crate::finding::Kind as Cost;
use crate::measure::Kind;

/// A kind of thing that has names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[expect(missing_docs, reason = "named after the statement that declares it")]
pub enum Thing {
    Machine,
    Skiver,
    Setter,
    Nailer,
    UpperLeather,
    SoleLeather,
    Outsole,
    Rubber,
    Filler,
    Cap,
    Stiffener,
    Thread,
    Lift,
    Nail,
    Eyelet,
    Hook,
    Adhesive,
    Last,
    Model,
    Part,
    Seam,
    Stay,
    Check,
}

impl Thing {
    /// The statement word that declares such a thing; also its name in messages.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Thing::Machine => "machine",
            Thing::Skiver => "skiver",
            Thing::Setter => "setter",
            Thing::Nailer => "nailer",
            Thing::UpperLeather => "upper-leather",
            Thing::SoleLeather => "sole-leather",
            Thing::Outsole => "outsole",
            Thing::Rubber => "rubber",
            Thing::Filler => "filler",
            Thing::Cap => "cap",
            Thing::Stiffener => "stiffener",
            Thing::Thread => "thread",
            Thing::Lift => "lift",
            Thing::Nail => "nail",
            Thing::Eyelet => "eyelet",
            Thing::Hook => "hook",
            Thing::Adhesive => "adhesive",
            Thing::Last => "last",
            Thing::Model => "model",
            Thing::Part => "part",
            Thing::Seam => "seam",
            Thing::Stay => "stay",
            Thing::Check => "check",
        }
    }
}

/// How many ends or members an amount may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arity {
    /// One exact value.
    One,
    /// What is delivered: exact, a range, or toleranced.
    Spread,
    /// What is allowed: a range (or one value, a window of no width).
    Window,
}

/// What may stand in a slot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlotKind {
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A comma list of these words.
    Choices(&'static [&'static str]),
    /// A new name.
    New(Thing),
    /// The name of a thing declared elsewhere, of one of these kinds.
    Name(&'static [Thing]),
    /// A comma list of such names.
    Names(Thing),
    /// A name that refers to nothing: a colour, a wax.
    Free,
    /// A value of a kind.
    Amount(Kind, Arity),
    /// A comma list of exact values.
    List(Kind),
    /// A comma list of word and value.
    Pairs(&'static [&'static str], Kind),
    /// One exact value, or pairs by place.
    ValueOrPairs(&'static [&'static str], Kind),
    /// A whole bare number.
    Count,
    /// `us-men 9 D`
    Size,
    /// `us-men 6..12 by 1/2, 13, 14`
    Sizes,
    /// `C, D, E`
    Widths,
    /// `"…"`
    Text,
}

/// The least and the most that a value may be, in the base unit of its kind. What lies outside is no boot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
}

/// A slot of a statement or clause.
#[derive(Clone, Copy, Debug)]
pub struct SlotDef {
    /// What may stand there.
    pub kind: SlotKind,
    /// Whether it may be left out.
    pub optional: bool,
    /// What a value of it is held to, if that is narrower than what its kind is held to.
    pub bounds: Option<Bounds>,
    /// Within what it usually is.
    pub usual: Option<Usual>,
    /// The marks that it is set by, one for each unit that the trade sets it in.
    pub marks: &'static [Mark],
    /// The way that it is never moved first.
    pub never_first: Option<Toward>,
}

impl SlotDef {
    const fn within(mut self, least: f64, most: f64) -> Self {
        self.bounds = Some(Bounds { least, most });
        self
    }
}

/// A word inside a statement, with its own slots.
#[derive(Clone, Copy, Debug)]
pub struct ClauseDef {
    /// The word.
    pub word: &'static str,
    /// What follows it.
    pub slots: &'static [SlotDef],
    /// Whether the statement needs it.
    pub needed: bool,
    /// One line for the reference.
    pub says: &'static str,
}

/// What makes two statements of a block the same statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// The word alone: it stands once in a block.
    Word,
    /// The word and its first slot.
    First,
}

/// Whether a statement must be there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// May be left out.
    Optional,
    /// A fault if it is not there.
    Needed,
    /// Left out, this holds (written as the statement's slots).
    Default(&'static str),
}

/// The block that a statement carries.
#[derive(Clone, Copy, Debug)]
pub enum Carries {
    /// None.
    Nothing,
    /// It may carry this one.
    Maybe(&'static BlockDef),
    /// It must carry this one.
    Block(&'static BlockDef),
}

/// A statement of a block.
#[derive(Clone, Copy, Debug)]
pub struct StatementDef {
    /// The word that starts it.
    pub word: &'static str,
    /// What it says, for the reference.
    pub says: &'static str,
    /// What follows the word.
    pub slots: &'static [SlotDef],
    /// Words inside, in any order, each once.
    pub clauses: &'static [ClauseDef],
    /// Its block.
    pub carries: Carries,
    /// What makes it the same as another.
    pub key: Key,
    /// Whether it must be there.
    pub need: Need,
    /// What a change of it costs.
    pub cost: Cost,
    /// An example that passes.
    pub example: &'static str,
    /// An example that is one fault.
    pub fails: &'static str,
}

/// A kind of block.
#[derive(Debug)]
pub struct BlockDef {
    /// Its name: the word of the statement that carries it.
    pub name: &'static str,
    /// What it is for.
    pub says: &'static str,
    /// What may stand in it.
    pub statements: &'static [StatementDef],
    /// Whether `without` may remove from it (blocks of models).
    pub removable: bool,
}

impl BlockDef {
    /// The statement of that word.
    #[must_use]
    pub fn statement(&self, word: &str) -> Option<&'static StatementDef> {
        let statements: &'static [StatementDef] = self.statements;
        statements.iter().find(|statement| statement.word == word)
    }
}

/// The word that removes an inherited statement.
pub const WITHOUT: &str = "without";

/// What may stand at the top of a file.
pub static FILE: BlockDef = BlockDef {
    name: "file",
    says: "A file is a row of `use` lines and declarations. One language for everything: a shop, its stock, its lasts and its models.",
    removable: false,
    statements: &[
        word(
            "use",
            "Makes everything that another file declares or uses known here. The path is relative to this file.",
        )
        .slots(&[TEXT])
        .key(Key::First)
        .example("use \"../shop.hob\"", "use shop"),
        word("shop", "The shop: its machines and house rules. One shop can be seen from a model.")
            .slots(&[TEXT])
            .carries(Carries::Block(&shop::SHOP))
            .key(Key::First)
            .example("shop \"Tarnbeck Bootyard\" { paper a4 }", "shop { paper a4 }"),
        stock::UPPER_LEATHER_WORD,
        stock::SOLE_LEATHER_WORD,
        stock::OUTSOLE_WORD,
        stock::RUBBER_WORD,
        stock::FILLER_WORD,
        stock::CAP_WORD,
        stock::STIFFENER_WORD,
        stock::THREAD_WORD,
        stock::LIFT_WORD,
        stock::NAIL_WORD,
        stock::EYELET_WORD,
        stock::HOOK_WORD,
        stock::ADHESIVE_WORD,
        word("last", "A last, measured in its base size and graded to the others.")
            .slots(&[slot(SlotKind::New(Thing::Last)), OPTIONAL_TEXT])
            .carries(Carries::Block(&last::LAST))
            .key(Key::First)
            .example("last teller \"Teller, plain toe\" { stick 283 mm }", "last { stick 283 mm }"),
        word("model", "A model: what is built. `like` another model, it says only what differs.")
            .slots(&[slot(SlotKind::New(Thing::Model)), OPTIONAL_TEXT])
            .clauses(&[ClauseDef {
                word: "like",
                slots: &[slot(SlotKind::Name(&[Thing::Model]))],
                needed: false,
                says: "the model that this one is a variant of",
            }])
            .carries(Carries::Block(&model::MODEL))
            .key(Key::First)
            .example("model scree-8-slim like scree-8 { revision 1 }", "model scree-8-slim like { revision 1 }"),
    ],
};

/// Every kind of block, each once, in the order of the reference.
#[must_use]
pub fn blocks() -> Vec<&'static BlockDef> {
    fn visit(block: &'static BlockDef, seen: &mut Vec<&'static BlockDef>) {
        if seen.iter().any(|known| std::ptr::eq(*known, block)) {
            return;
        }
        seen.push(block);
        for statement in block.statements {
            if let Carries::Block(inner) | Carries::Maybe(inner) = statement.carries {
                visit(inner, seen);
            }
        }
    }
    let mut seen = Vec::new();
    visit(&FILE, &mut seen);
    seen
}

// Builders, so that a line of the table reads like a line of the reference.

const fn word(word: &'static str, says: &'static str) -> StatementDef {
    StatementDef {
        word,
        says,
        slots: &[],
        clauses: &[],
        carries: Carries::Nothing,
        key: Key::Word,
        need: Need::Optional,
        cost: Cost::Pattern,
        example: "",
        fails: "",
    }
}

const fn clause(word: &'static str, slots: &'static [SlotDef], says: &'static str) -> ClauseDef {
    ClauseDef { word, slots, needed: false, says }
}

const fn needed(word: &'static str, slots: &'static [SlotDef], says: &'static str) -> ClauseDef {
    ClauseDef { word, slots, needed: true, says }
}

const fn slot(kind: SlotKind) -> SlotDef {
    SlotDef { kind, optional: false, bounds: None, usual: None, marks: cost::marks(kind), never_first: None }
}

const fn optional(kind: SlotKind) -> SlotDef {
    SlotDef { optional: true, ..slot(kind) }
}

const fn one(kind: Kind) -> SlotDef {
    slot(SlotKind::Amount(kind, Arity::One))
}

const fn spread(kind: Kind) -> SlotDef {
    slot(SlotKind::Amount(kind, Arity::Spread))
}

const fn window(kind: Kind) -> SlotDef {
    slot(SlotKind::Amount(kind, Arity::Window))
}

const TEXT: SlotDef = slot(SlotKind::Text);
const OPTIONAL_TEXT: SlotDef = optional(SlotKind::Text);
const LENGTH: SlotDef = one(Kind::Length);
const COUNT: SlotDef = slot(SlotKind::Count);

impl StatementDef {
    const fn slots(mut self, slots: &'static [SlotDef]) -> Self {
        self.slots = slots;
        self
    }
    const fn clauses(mut self, clauses: &'static [ClauseDef]) -> Self {
        self.clauses = clauses;
        self
    }
    const fn carries(mut self, carries: Carries) -> Self {
        self.carries = carries;
        self
    }
    const fn key(mut self, key: Key) -> Self {
        self.key = key;
        self
    }
    const fn needed(mut self) -> Self {
        self.need = Need::Needed;
        self
    }
    const fn default(mut self, text: &'static str) -> Self {
        self.need = Need::Default(text);
        self
    }
    const fn example(mut self, passes: &'static str, fails: &'static str) -> Self {
        self.example = passes;
        self.fails = fails;
        self
    }

    /// The clause of that word.
    #[must_use]
    pub fn clause(&self, word: &str) -> Option<&'static ClauseDef> {
        let clauses: &'static [ClauseDef] = self.clauses;
        clauses.iter().find(|clause| clause.word == word)
    }
}
