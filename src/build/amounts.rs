//! From values in force to numbers.

use super::Built;
use crate::language::Hole;
use crate::measure::Amount;
use crate::spec::{Val, Valued};

/// A value, or its hole.
///
/// # Errors
/// The hole.
pub fn of<T>(value: &Val<T>) -> Built<&Valued<T>> {
    value.as_ref().map_err(|hole| *hole)
}

/// The nominal of a length or thickness, mm.
///
/// # Errors
/// The hole.
pub fn mm(value: &Val<Amount>) -> Built<f64> {
    base(value)
}

/// The nominal in the base unit of its kind.
///
/// # Errors
/// The hole.
pub fn base(value: &Val<Amount>) -> Built<f64> {
    of(value).map(|value| value.it.nominal())
}

/// The value alone.
///
/// # Errors
/// The hole.
pub fn plain<T: Clone>(value: &Val<T>) -> Built<T> {
    of(value).map(|value| value.it.clone())
}

/// The nominal of a value that may be absent, in its base unit.
pub(super) fn maybe(value: Option<&Val<Amount>>) -> Result<Option<f64>, Hole> {
    value.map(base).transpose()
}
