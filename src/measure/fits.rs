//! The one comparison that every verdict uses.

/// How far a value may stand beyond its limit and still fit, in mm (or in the
/// unit compared): a thousandth of a micrometre, there only for rounding of floats.
pub const SLACK: f64 = 1e-6;

/// Whether `value` is at most `limit`. Equal passes.
#[must_use]
pub fn fits(value: f64, limit: f64) -> bool {
    value <= limit + SLACK
}

#[cfg(test)]
mod tests {
    use super::fits;

    #[test]
    fn equal_passes_and_a_micrometre_beyond_does_not() {
        assert!(fits(19.0, 19.0));
        assert!(fits(0.1 + 0.2, 0.3));
        assert!(!fits(19.001, 19.0));
    }
}
