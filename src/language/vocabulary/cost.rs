//! What a change of a value costs, by what marks it is set, and which way it is never offered first: the columns of the
//! table that ways out are read from.
//!
//! | cost | what is changed |
//! |---|---|
//! | `setting` | what is set at a bench: pitch, needle, machine, a skive in the turnout, a time |
//! | `stock` | what is taken from the shelf: a substance, an outsole, a nail |
//! | `construction` | how the boot is built: its layers, how far its rows go |
//! | `pattern` | what is cut: a measure of a part, which wants a new pattern; of all that say nothing else |

use super::{SlotDef, SlotKind, StatementDef};
use crate::finding::Kind as Cost;
use crate::measure::{Kind, Unit};

/// Within what a value usually is, in the base unit of its kind. What lies outside is worth a word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usual {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// Who says so, or that it is common practice.
    pub note: &'static str,
}

/// A direction that no maker of boots would be told to go first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward {
    /// Less of it.
    Less,
    /// More of it.
    More,
}

/// The mark that a value is set by in a unit, as a fraction of that; a count has no unit.
pub type Mark = (Option<Unit>, (i128, i128));

const LENGTH: &[Mark] = &[(Some(Unit::Mm), (1, 4)), (Some(Unit::Cm), (1, 40)), (Some(Unit::Inch), (1, 16))];
const THICKNESS: &[Mark] = &[
    (Some(Unit::Mm), (1, 4)),
    (Some(Unit::Cm), (1, 40)),
    (Some(Unit::Inch), (1, 16)),
    (Some(Unit::Iron), (1, 2)),
    (Some(Unit::Ounce), (1, 4)),
];
const PITCH: &[Mark] = &[(Some(Unit::Spi), (1, 4)), (Some(Unit::Mm), (1, 4))];
const NEEDLE: &[Mark] = &[(Some(Unit::Nm), (10, 1))];
const SHARE: &[Mark] = &[(Some(Unit::Percent), (1, 2))];
const ANGLE: &[Mark] = &[(Some(Unit::Degree), (1, 1))];
const TIME: &[Mark] = &[(Some(Unit::Minute), (5, 1)), (Some(Unit::Hour), (1, 1)), (Some(Unit::Day), (1, 1))];
const COUNT: &[Mark] = &[(None, (1, 1))];

/// What the trade sets a value by: a quarter of a mm, half an iron, a quarter stitch. Nothing for what is not set, but
/// taken as it is.
pub(super) const fn marks(slot: SlotKind) -> &'static [Mark] {
    match slot {
        SlotKind::Count => COUNT,
        SlotKind::Amount(kind, _) | SlotKind::ValueOrPairs(_, kind) => match kind {
            Kind::Length => LENGTH,
            Kind::Thickness => THICKNESS,
            Kind::Pitch => PITCH,
            Kind::NeedleSize => NEEDLE,
            Kind::Share => SHARE,
            Kind::Angle => ANGLE,
            Kind::Time => TIME,
            _ => &[],
        },
        _ => &[],
    }
}

impl SlotDef {
    /// Never offered first, if it is moved so.
    pub(super) const fn never_first(mut self, toward: Toward) -> Self {
        self.never_first = Some(toward);
        self
    }
}

impl StatementDef {
    pub(super) const fn setting(mut self) -> Self {
        self.cost = Cost::Setting;
        self
    }

    pub(super) const fn stock(mut self) -> Self {
        self.cost = Cost::Stock;
        self
    }

    pub(super) const fn construction(mut self) -> Self {
        self.cost = Cost::Construction;
        self
    }

    pub(super) const fn pattern(mut self) -> Self {
        self.cost = Cost::Pattern;
        self
    }
}
