//! The place where a function changes sign.

use kurbo::common::solve_itp;

/// How close to the root the parameter is brought, mm.
const CLOSE: f64 = 1e-11;

/// The zero of `f` between `a` and `b`, where it has the values `fa` and `fb` of unlike signs, by the ITP method
/// (Oliveira and Takahashi, ACM TOMS 47, 2020): never slower than halving.
pub(super) fn between(f: impl Fn(f64) -> f64, (a, fa): (f64, f64), (b, fb): (f64, f64)) -> f64 {
    if fa == 0.0 {
        return a;
    }
    if fb == 0.0 {
        return b;
    }
    let sign = if fa < 0.0 { 1.0 } else { -1.0 };
    let close = CLOSE.max(4.0 * f64::EPSILON * a.abs().max(b.abs()));
    solve_itp(|t| sign * f(t), a, b, close, 1, 0.2 / (b - a), sign * fa, sign * fb)
}

/// The zero between `a` and `b` of a function whose value and slope `f` gives: Newton's steps, halving where one would
/// leave the bracket or is slow to close in.
pub(super) fn newton(f: impl Fn(f64) -> (f64, f64), (a, fa): (f64, f64), (b, fb): (f64, f64)) -> f64 {
    let (mut low, mut high, mut width) = (a, b, b - a);
    let mut at = a + (b - a) * fa / (fa - fb);
    for _ in 0..100 {
        let (value, slope) = f(at);
        let step = value / slope;
        if value == 0.0 || step.abs() <= CLOSE {
            return (at - step).clamp(low, high);
        }
        if (value < 0.0) == (fa < 0.0) {
            low = at;
        } else {
            high = at;
        }
        let next = at - step;
        let closing = step.abs() <= 0.5 * width;
        at = if closing && low < next && next < high { next } else { 0.5 * (low + high) };
        width = step.abs().min(high - low);
    }
    at
}

#[cfg(test)]
mod tests {
    use super::{between, newton};

    #[test]
    fn finds_rising_and_falling_zeros() {
        for sign in [1.0, -1.0] {
            let f = |x: f64| sign * (x * x - 2.0);
            let ends = ((0.0, f(0.0)), (3.0, f(3.0)));
            assert!((between(f, ends.0, ends.1) - 2_f64.sqrt()).abs() < 1e-10);
            let both = |x: f64| (f(x), sign * 2.0 * x);
            assert!((newton(both, ends.0, ends.1) - 2_f64.sqrt()).abs() < 1e-14);
        }
    }
}
