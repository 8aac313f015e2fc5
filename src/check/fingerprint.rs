//! What tells one build from any other.

use crate::build::{COMPUTATION, Datum, Figures};
use crate::measure::Size;
use std::fmt::Write as _;

/// A short hash over model, size, every figure and the version of the computation; never over the text, so that
/// a comment or another order of the same statements changes nothing. Twelve hexadecimal digits in three groups.
#[must_use]
pub fn fingerprint(model: &str, size: Size, figures: &Figures) -> String {
    let mut text = format!("hobnail computation {COMPUTATION}\n{model}\n{} {size}\n", size.system.name());
    for figure in figures.iter() {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "{} {} {}", figure.key, figure.unit, value(&figure.datum));
    }
    let hash = blake3::hash(text.as_bytes()).to_hex();
    format!("{}-{}-{}", &hash[0..4], &hash[4..8], &hash[8..12])
}

/// A value to a millionth: far finer than any bench, coarse enough for the last bits of floats not to count.
pub(super) fn value(datum: &Datum) -> String {
    let number = |value: f64| format!("{:.6}", value + 0.0);
    match datum {
        Datum::Number(value) => number(*value),
        Datum::Count(count) => count.to_string(),
        Datum::Spread(spread) => format!("{} {} {}", number(spread.lo), number(spread.nominal), number(spread.hi)),
        Datum::Window(window) => format!("{} {}", number(window.lo), number(window.hi)),
        Datum::Text(text) => text.clone(),
        Datum::Texts(texts) => texts.join("\u{1f}"),
        Datum::Numbers(values) => values.iter().map(|value| number(*value)).collect::<Vec<_>>().join(" "),
    }
}
