//! Every word that a sheet says, in every language, in one place.
//!
//! A word holds all of its languages, so that none can lack one. Fixed words stand in `fixed`, steps of the route in
//! `steps`, cautions in `cautions`, what rules find in `rules`, units and words that stand as values in `values`; what
//! figures are called in `figures`, layers, seams and places in `names`. Names that the shop types stay as they are.
//!
//! The decimal sign is a point in English and a comma in Spanish; the JSON keeps the point.

pub(super) mod cards;
pub(super) mod cautions;
mod figures;
mod fixed;
mod names;
mod rules;
mod steps;
pub(super) mod templates;
mod values;

pub use cards::CARDS;
pub use cautions::CAUTIONS;
pub use figures::has_words;
pub(super) use figures::{figure, figure_unnamed};
pub use fixed::FIXED;
pub(super) use fixed::*;
pub(super) use names::{piece, role, seam, short};
pub use rules::has_rule;
pub(super) use rules::{concerns, first, refusal};
pub use steps::STEP_WORDS;
pub use templates::TEMPLATES;
pub use values::has_value;
pub(super) use values::{unit, value};

/// A language that sheets speak.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Lang {
    /// English.
    #[default]
    En,
    /// Spanish.
    Es,
}

impl Lang {
    /// All languages.
    pub const ALL: [Lang; 2] = [Lang::En, Lang::Es];

    /// Its tag: `en`, `es`.
    #[must_use]
    pub fn tag(self) -> &'static str {
        match self {
            Lang::En => "en",
            Lang::Es => "es",
        }
    }
}

/// A word in every language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    en: &'static str,
    es: &'static str,
}

impl Word {
    pub(super) const fn new(en: &'static str, es: &'static str) -> Self {
        Self { en, es }
    }

    /// The word in a language.
    #[must_use]
    pub const fn say(self, lang: Lang) -> &'static str {
        match lang {
            Lang::En => self.en,
            Lang::Es => self.es,
        }
    }
}

/// A table of words: each becomes a constant and a line of the table's list.
macro_rules! words {
    ($all:ident $($ident:ident $en:literal $es:literal;)+) => {
        $(pub(in crate::sheets) const $ident: Word = Word::new($en, $es);)+
        /// Every word of this table.
        pub const $all: &[Word] = &[$($ident),+];
    };
}
pub(super) use words;

/// A word in a language.
pub(super) fn of(word: Word, lang: Lang) -> &'static str {
    word.say(lang)
}

/// The words for a step.
pub(super) fn step(name: &str, lang: Lang) -> &str {
    STEP_WORDS.iter().find(|(known, _)| *known == name).map_or(name, |(_, word)| word.say(lang))
}

/// Every character of every word.
pub(super) fn characters() -> impl Iterator<Item = char> {
    let words = FIXED.iter().chain(CAUTIONS).chain(STEP_WORDS.iter().map(|(_, word)| word));
    let words = words.chain(rules::words()).flat_map(|word| Lang::ALL.map(|lang| word.say(lang)));
    words.chain(names::texts()).chain(figures::texts()).chain(values::texts()).flat_map(str::chars)
}
