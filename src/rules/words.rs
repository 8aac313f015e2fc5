//! Numbers in words.

use crate::finding::Sum;
use std::fmt::Write as _;

/// `2 x 6.35 lifts + 8 cap - 3 slip`: the terms of a sum that have a nominal.
#[must_use]
pub fn derivation(sum: &Sum, margin: f64) -> String {
    let mut text = String::new();
    for term in sum.terms.iter().filter(|term| term.spread.nominal != 0.0) {
        let sign = match (term.coefficient < 0.0, text.is_empty()) {
            (true, true) => "-",
            (true, false) => " - ",
            (false, true) => "",
            (false, false) => " + ",
        };
        let value = number(term.spread.nominal, margin);
        // Writing to a string cannot fail.
        _ = write!(text, "{sign}{}{value} {}", times(term.coefficient), term.what);
    }
    text
}

/// `2 x `, nothing for once.
#[must_use]
pub fn times(coefficient: f64) -> String {
    let times = coefficient.abs();
    if (times - 1.0).abs() < 1e-12 { String::new() } else { format!("{} x ", number(times, 1.0)) }
}

/// A number with as many decimals as its margin needs: two, more where that would hide what is wrong.
#[must_use]
pub fn number(value: f64, margin: f64) -> String {
    let places = if margin.abs() >= 0.01 || margin == 0.0 { 2 } else { 6 };
    let text = format!("{value:.places$}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
