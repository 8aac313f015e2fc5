//! Two-ended values in base units: what is delivered, and what is allowed.

use serde::Serialize;

/// What is delivered: a nominal with its thin and thick end. Half the width is `(hi - lo) / 2`
/// on both sides, because the nominal of a spread is its middle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Spread {
    /// The thin end.
    pub lo: f64,
    /// The middle.
    pub nominal: f64,
    /// The thick end.
    pub hi: f64,
}

impl Spread {
    /// A value without tolerance.
    #[must_use]
    pub fn exactly(value: f64) -> Self {
        Self { lo: value, nominal: value, hi: value }
    }

    /// A nominal with the same tolerance both ways.
    #[must_use]
    pub fn around(nominal: f64, half: f64) -> Self {
        Self { lo: nominal - half, nominal, hi: nominal + half }
    }

    /// Half of the width between the ends.
    #[must_use]
    pub fn half(&self) -> f64 {
        (self.hi - self.lo) / 2.0
    }

    /// This spread with weight `1 - f` and `other` with weight `f`: a place on a slope.
    #[must_use]
    pub fn blend(&self, other: &Spread, f: f64) -> Spread {
        let mix = |a: f64, b: f64| a * (1.0 - f) + b * f;
        Spread { lo: mix(self.lo, other.lo), nominal: mix(self.nominal, other.nominal), hi: mix(self.hi, other.hi) }
    }
}

/// What is allowed: from `lo` to `hi`, both included. A window never enters a sum.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Window {
    /// The least allowed.
    pub lo: f64,
    /// The most allowed.
    pub hi: f64,
}

impl Window {
    /// Whether `value` lies in the window, ends included.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        super::fits(self.lo, value) && super::fits(value, self.hi)
    }

    /// The end that `value` is nearest to failing, or fails the most.
    #[must_use]
    pub fn nearer_end(&self, value: f64) -> f64 {
        if value - self.lo < self.hi - value { self.lo } else { self.hi }
    }
}
