//! Shares of boots and pairs, from the normal distribution. Estimates, and called so.

/// The share of a normal quantity (mean, sigma) that lies above `limit`, 0 to 1.
/// A sigma of zero gives 0 or 1.
#[must_use]
pub fn share_above(mean: f64, sigma: f64, limit: f64) -> f64 {
    if sigma <= 0.0 {
        return if super::fits(mean, limit) { 0.0 } else { 1.0 };
    }
    0.5 * libm::erfc((limit - mean) / (sigma * core::f64::consts::SQRT_2))
}

/// The share that lies below `limit`, 0 to 1.
#[must_use]
pub fn share_below(mean: f64, sigma: f64, limit: f64) -> f64 {
    share_above(-mean, sigma, -limit)
}

/// The share of pairs in which at least one boot fails, when a share `boots` of single boots
/// does: `1 - (1 - p)^2`.
#[must_use]
pub fn pairs_failing(boots: f64) -> f64 {
    1.0 - (1.0 - boots) * (1.0 - boots)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Abramowitz and Stegun, table 26.1 (from memory): Q(1.96) = 0.0249979, Q(0) = 0.5.
    #[test]
    fn normal_tail() {
        assert!((share_above(0.0, 1.0, 1.96) - 0.024_997_9).abs() < 1e-6);
        assert!((share_above(5.0, 2.0, 5.0) - 0.5).abs() < 1e-12);
        assert!((share_below(0.0, 1.0, -1.96) - 0.024_997_9).abs() < 1e-6);
        assert!((pairs_failing(0.1) - 0.19).abs() < 1e-12);
    }
}
