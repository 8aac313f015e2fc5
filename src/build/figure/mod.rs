//! A figure: one thing that was computed. What it is, is a value: an identity with its names; key and label are rendered from
//! them, for tables, JSON and people, and read by nobody.

mod definitions;
mod unit;

pub use definitions::FigureId;
pub use unit::FigureUnit;

use crate::finding::{LapName, SeamName, Sum};
use crate::measure::{Spread, Window};
use std::fmt;
use std::sync::Arc;

/// What a figure is.
#[derive(Clone, Debug, PartialEq)]
pub enum Datum {
    /// One number in a unit.
    Number(f64),
    /// A whole number.
    Count(u64),
    /// What varies: thin end, nominal, thick end.
    Spread(Spread),
    /// What is allowed.
    Window(Window),
    /// A name or a word.
    Text(String),
    /// Names or words in order.
    Texts(Vec<String>),
    /// Numbers in order, in the unit.
    Numbers(Vec<f64>),
}

/// How a sheet says a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// As it is: a number in its unit, a name that stays in every language.
    Plain,
    /// A word of the language, which turns.
    Word,
    /// A thickness of leather that is bought by the ounce.
    Ounces,
    /// A thickness that is bought by the iron.
    Irons,
    /// A length that is bought and set by the inch.
    Inches,
    /// Numbers in pairs: from and to.
    Stretches,
}

/// What is known of all figures of one identity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Definition {
    /// The key, `{0}` its first name: `sole.row-{0}.stitches`.
    pub key: &'static str,
    /// What it is, in English words.
    pub label: &'static str,
    /// The unit of its numbers.
    pub unit: FigureUnit,
    /// How a sheet says it.
    pub manner: Manner,
}

/// What tells figures of one identity apart.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slot {
    /// A name that the shop typed; it stays in every language.
    Typed(Arc<str>),
    /// A word of this program: a role, a place, a step. It turns.
    Word(&'static str),
    /// A number: of a row, of a stage.
    Number(u32),
    /// A seam.
    Seam(SeamName),
    /// A bond.
    Bond(BondOf),
}

/// What a bond holds.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BondOf {
    /// A layer of the bottom, by its role.
    Layer(&'static str),
    /// A lining that is lasted in, by its part.
    Lining(Arc<str>),
    /// Wedges, lifts and cap of the heel.
    Heel,
}

/// The beginning of the keys of a seam's figures: `lap.vamp.quarter`. Names hold no dots.
#[must_use]
pub fn key_of_seam(seam: &SeamName) -> String {
    match seam {
        SeamName::Lap(LapName { top, under }) => format!("lap.{top}.{under}"),
        SeamName::Seam(name) => format!("seam.{name}"),
        SeamName::Stay(name) => format!("stay.{name}"),
        SeamName::Gusset(part) => format!("gusset.{part}"),
        SeamName::Collar => "collar".to_owned(),
        SeamName::Facing => "facing-rows".to_owned(),
        SeamName::Forefoot => "forefoot".to_owned(),
        SeamName::Sole => "sole".to_owned(),
    }
}

impl Slot {
    /// A name that the shop typed.
    #[must_use]
    pub fn typed(name: impl Into<Arc<str>>) -> Slot {
        Slot::Typed(name.into())
    }
}

impl Slot {
    /// As a label says it: a seam by its name, all others as in keys.
    #[must_use]
    pub fn said(&self) -> String {
        match self {
            Slot::Seam(seam) => seam.to_string(),
            other => other.to_string(),
        }
    }
}

impl fmt::Display for Slot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Slot::Typed(name) => f.write_str(name),
            Slot::Seam(seam) => f.write_str(&key_of_seam(seam)),
            Slot::Word(word) => f.write_str(word),
            Slot::Number(number) => write!(f, "{number}"),
            Slot::Bond(BondOf::Layer(role)) => write!(f, "layer.{role}"),
            Slot::Bond(BondOf::Lining(part)) => write!(f, "upper.lasted-in.{part}"),
            Slot::Bond(BondOf::Heel) => f.write_str("heel"),
        }
    }
}

/// A figure's identity with its names.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Identity {
    /// What it is.
    pub id: FigureId,
    /// Its names, as its definition counts them.
    pub slots: Vec<Slot>,
}

impl From<FigureId> for Identity {
    fn from(id: FigureId) -> Identity {
        Identity { id, slots: Vec::new() }
    }
}

impl From<&FigureId> for Identity {
    fn from(id: &FigureId) -> Identity {
        Identity::from(*id)
    }
}

impl From<&Identity> for Identity {
    fn from(of: &Identity) -> Identity {
        of.clone()
    }
}

impl FigureId {
    /// The figure of these names.
    #[must_use]
    pub fn of(self, slots: impl IntoIterator<Item = Slot>) -> Identity {
        Identity { id: self, slots: slots.into_iter().collect() }
    }

    /// The figure of one seam.
    #[must_use]
    pub fn of_seam(self, seam: &SeamName) -> Identity {
        self.of([Slot::Seam(seam.clone())])
    }

    /// How many names its key has; a label may have more.
    fn names(self) -> usize {
        self.definition().key.matches('{').count()
    }
}

impl Identity {
    /// `sole.row-1.stitches`
    #[must_use]
    pub fn key(&self) -> String {
        filled(self.id.definition().key, &self.slots, &Slot::to_string)
    }

    /// What it is, in English words.
    #[must_use]
    pub fn label(&self) -> String {
        filled(self.id.definition().label, &self.slots, &Slot::said)
    }

    /// Whether it is this figure: names that only its label has are left aside.
    fn is(&self, id: FigureId, slots: &[Slot]) -> bool {
        let names = id.names();
        self.id == id && self.slots.get(..names) == slots.get(..names)
    }
}

/// A pattern with its names, each said by `say`.
#[must_use]
pub fn filled(pattern: &str, slots: &[Slot], say: &dyn Fn(&Slot) -> String) -> String {
    let mut text = String::with_capacity(pattern.len() + 16);
    let mut rest = pattern;
    while let Some((before, behind)) = rest.split_once('{') {
        let (number, after) = behind.split_once('}').unwrap_or((behind, ""));
        text.push_str(before);
        let slot = number.parse().ok().and_then(|n: usize| slots.get(n));
        debug_assert!(slot.is_some(), "{pattern} lacks a name");
        text.push_str(&slot.map(say).unwrap_or_default());
        rest = after;
    }
    text.push_str(rest);
    text
}

/// One thing that was computed.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it is.
    pub of: Identity,
    /// `sole.row-1.stitches`: stable, the same in every output.
    pub key: Arc<str>,
    /// What it is, in words.
    pub label: Arc<str>,
    /// The unit of its numbers.
    pub unit: FigureUnit,
    /// What it is.
    pub datum: Datum,
    /// The terms, where it is a sum.
    pub sum: Option<Sum>,
}

/// All figures of one model in one size, in the order of the work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figures {
    list: Vec<Figure>,
}

impl Figures {
    /// Adds a figure in the unit of its definition.
    pub fn push(&mut self, of: impl Into<Identity>, datum: Datum) {
        let of = of.into();
        let unit = of.id.definition().unit;
        self.put(of, unit, datum, None);
    }

    /// Adds a figure in the unit in which it is written, which is that of its definition if that has one.
    pub fn push_in(&mut self, of: impl Into<Identity>, unit: FigureUnit, datum: Datum) {
        let of = of.into();
        let defined = of.id.definition().unit;
        debug_assert!(defined == unit || defined == FigureUnit::Written, "{:?} is in {unit}", of.id);
        self.put(of, unit, datum, None);
    }

    /// Adds a sum with its terms.
    pub fn push_sum(&mut self, of: impl Into<Identity>, sum: Sum) {
        let of = of.into();
        let unit = of.id.definition().unit;
        let datum = Datum::Spread(sum.spread());
        self.put(of, unit, datum, Some(sum));
    }

    fn put(&mut self, of: Identity, unit: FigureUnit, datum: Datum, sum: Option<Sum>) {
        let (key, label) = (of.key().into(), of.label().into());
        self.list.push(Figure { of, key, label, unit, datum, sum });
    }

    /// The figure of that key, for those who have only text: the command line, a printed sheet.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Figure> {
        self.list.iter().find(|figure| &*figure.key == key)
    }

    /// The figure of an identity and its names.
    #[must_use]
    pub fn of(&self, of: &Identity) -> Option<&Figure> {
        self.list.iter().find(|figure| figure.of.is(of.id, &of.slots))
    }

    /// Every figure of an identity, in order.
    pub fn all_of(&self, id: FigureId) -> impl Iterator<Item = &Figure> {
        self.list.iter().filter(move |figure| figure.of.id == id)
    }

    /// All figures in order.
    pub fn iter(&self) -> impl Iterator<Item = &Figure> {
        self.list.iter()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_definition_counts_its_names_from_the_first() {
        for id in FigureId::ALL {
            let Definition { key, label, .. } = id.definition();
            let names = |text: &str| -> BTreeSet<char> {
                text.match_indices('{').map(|(at, _)| text[at..].chars().nth(1).expect("a number follows")).collect()
            };
            let in_key: String = names(key).into_iter().collect();
            assert!("0123".starts_with(&in_key), "{key}");
            let all: String = names(key).union(&names(label)).copied().collect();
            assert!("0123".starts_with(&all), "{label}");
        }
    }

    #[test]
    fn no_label_stands_for_two_things_of_one_key() {
        let all: BTreeSet<(&str, &str)> =
            FigureId::ALL.iter().map(|id| (id.definition().key, id.definition().label)).collect();
        let same = FigureId::ALL.len() - all.len();
        // A last's overhang is a number, or said to be taken as upright.
        assert_eq!(same, 1);
    }
}
