//! Exact ratios, so that 12 iron is 6.35 mm and not 6.349999.

use num_rational::Ratio;

/// An exact ratio. Numerators and denominators stay far inside 128 bits because
/// [`crate::measure::parse_number`] bounds what can be written.
pub type Exact = Ratio<i128>;

/// The ratio `numerator / denominator`; the denominator must not be zero.
#[must_use]
pub fn exact(numerator: i128, denominator: i128) -> Exact {
    Exact::new(numerator, denominator)
}

/// The nearest floating-point number. Always finite.
#[must_use]
pub fn to_f64(value: Exact) -> f64 {
    // Both parts are below 2^120, so the quotient of the two conversions is finite.
    #[expect(clippy::cast_precision_loss, reason = "the last step, where ratios become floats")]
    let quotient = *value.numer() as f64 / *value.denom() as f64;
    quotient
}
