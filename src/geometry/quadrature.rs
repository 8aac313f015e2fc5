//! Integrals of smooth functions, with a check on their own error.

use kurbo::common::GAUSS_LEGENDRE_COEFFS_3;

/// Nodes and weights of the 7-point Gauss rule and its 15-point Kronrod extension on -1..1: (node, Kronrod weight, Gauss
/// weight), one row for each pair of nodes at ± the node. The middle stands in [`MIDDLE`].
///
/// Source: R. Piessens et al., QUADPACK, Springer 1983, routine QK15.
const PAIRS: [(f64, f64, f64); 7] = [
    (0.991_455_371_120_812_6, 0.022_935_322_010_529_224, 0.0),
    (0.949_107_912_342_758_5, 0.063_092_092_629_978_56, 0.129_484_966_168_869_7),
    (0.864_864_423_359_769_1, 0.104_790_010_322_250_18, 0.0),
    (0.741_531_185_599_394_4, 0.140_653_259_715_525_92, 0.279_705_391_489_276_64),
    (0.586_087_235_467_691_1, 0.169_004_726_639_267_9, 0.0),
    (0.405_845_151_377_397_2, 0.190_350_578_064_785_42, 0.381_830_050_505_118_9),
    (0.207_784_955_007_898_47, 0.204_432_940_075_298_9, 0.0),
];
const MIDDLE: (f64, f64) = (0.209_482_141_084_727_82, 0.417_959_183_673_469_4);

/// Halvings before an integrand is taken as it comes: enough for a kink, and no endless work on a pole.
const DEPTH: u32 = 24;

/// The part of an integral that its own rounding may amount to.
const ROUNDING: f64 = 1e-13;

/// The integral of `f` from `a` to `b`, halved until the Gauss rule inside the Kronrod rule agrees with it to
/// `tolerance` (in the unit of the integral). The Kronrod value given back is far closer than that where `f` is smooth.
pub(super) fn integrate(f: impl Fn(f64) -> f64, a: f64, b: f64, tolerance: f64) -> f64 {
    halving(&f, a, b, tolerance, DEPTH)
}

fn halving(f: &impl Fn(f64) -> f64, a: f64, b: f64, tolerance: f64, depth: u32) -> f64 {
    let (kronrod, gauss) = gauss_kronrod(f, a, b);
    let off = (kronrod - gauss).abs();
    if depth == 0 || off.is_nan() || off <= tolerance.max(ROUNDING * kronrod.abs()) {
        return kronrod;
    }
    let middle = 0.5 * (a + b);
    halving(f, a, middle, 0.5 * tolerance, depth - 1) + halving(f, middle, b, 0.5 * tolerance, depth - 1)
}

/// The integral of `f` over so short a way from `a` to `b` that it is nearly a straight line there, by Gauss' rule of 3.
pub(super) fn gauss(f: impl Fn(f64) -> f64, a: f64, b: f64) -> f64 {
    let (middle, half) = (0.5 * (a + b), 0.5 * (b - a));
    half * GAUSS_LEGENDRE_COEFFS_3.iter().map(|&(weight, node)| weight * f(middle + half * node)).sum::<f64>()
}

fn gauss_kronrod(f: &impl Fn(f64) -> f64, a: f64, b: f64) -> (f64, f64) {
    let (middle, half) = (0.5 * (a + b), 0.5 * (b - a));
    let at_middle = f(middle);
    let (mut kronrod, mut gauss) = (MIDDLE.0 * at_middle, MIDDLE.1 * at_middle);
    for (node, kronrod_weight, gauss_weight) in PAIRS {
        let pair = f(middle - half * node) + f(middle + half * node);
        kronrod += kronrod_weight * pair;
        gauss += gauss_weight * pair;
    }
    (kronrod * half, gauss * half)
}

#[cfg(test)]
mod tests {
    use super::integrate;

    #[test]
    fn polynomials_up_to_degree_13_are_exact() {
        for degree in 0..=13 {
            let exact = 2_f64.powi(degree + 1) / f64::from(degree + 1);
            let got = integrate(|x| x.powi(degree), 0.0, 2.0, 1e-9);
            assert!((got - exact).abs() < 1e-12 * exact, "degree {degree}: {got} is not {exact}");
        }
    }

    #[test]
    fn a_kink_is_halved_away() {
        let got = integrate(|x| (x - 0.3).abs(), 0.0, 1.0, 1e-8);
        assert!((got - 0.29).abs() < 1e-8);
    }
}
