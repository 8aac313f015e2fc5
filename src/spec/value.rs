//! A value in force, with its origin; or the hole that a fault left.

use crate::language::{At, Hole};
use crate::measure::Amount;
use crate::source::{Origin, Span};

/// A value with where it came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Valued<T> {
    /// The value.
    pub it: T,
    /// Where it was written and how it came into force.
    pub origin: Origin,
}

/// A value, or the hole of a fault: what needs it is not judged.
pub type Val<T> = Result<Valued<T>, Hole>;

impl<T> Valued<T> {
    /// The same origin with another value.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Valued<U> {
        Valued { it: change(self.it), origin: self.origin }
    }

    /// Where it was written.
    #[must_use]
    pub fn span(&self) -> Span {
        self.origin.span
    }
}

/// A length that may differ by place. One length holds for all three; of several, a place that is not named takes that of
/// the place behind it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ByPlace {
    /// At the back.
    pub back: At<Amount>,
    /// At the sides.
    pub sides: At<Amount>,
    /// At the breast.
    pub breast: At<Amount>,
}
