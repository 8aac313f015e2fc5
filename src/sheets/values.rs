//! Figures as a sheet prints them: the same number as everywhere, rounded to what a bench can use.

use crate::build::{Datum, Figure, Figures};
use crate::measure::inches;

/// A figure's value with its unit.
pub(super) fn with_unit(figure: &Figure) -> String {
    let value = bare(figure);
    match figure.unit {
        "" => value,
        "1/8 in" => format!("{value}/8 in"),
        unit => format!("{value} {unit}"),
    }
}

/// The value alone, for tables that name the unit in their head.
pub(super) fn bare(figure: &Figure) -> String {
    let places = places(figure.unit);
    let number = |value: f64| trimmed(value, places, figure.unit);
    match &figure.datum {
        Datum::Number(value) => number(*value),
        Datum::Count(count) => count.to_string(),
        Datum::Spread(spread) if spread.half() < 5e-7 => number(spread.nominal),
        Datum::Spread(spread) => format!("{} ±{}", number(spread.nominal), number(spread.half())),
        Datum::Window(window) => format!("{}..{}", number(window.lo), number(window.hi)),
        Datum::Text(text) => text.clone(),
        Datum::Texts(texts) => texts.join(", "),
        Datum::Numbers(values) if figure.label.contains("from and to") => {
            let pairs =
                values.chunks(2).map(|pair| pair.iter().map(|value| number(*value)).collect::<Vec<_>>().join(".."));
            pairs.collect::<Vec<_>>().join(", ")
        }
        Datum::Numbers(values) => values.iter().map(|value| number(*value)).collect::<Vec<_>>().join(", "),
    }
}

/// Decimals that a bench can use.
fn places(unit: &str) -> usize {
    match unit {
        "cm2" | "%" | "deg" | "spi" | "1/8 in" => 1,
        _ => 2, // mm, m, dm2, N/mm
    }
}

fn trimmed(value: f64, places: usize, unit: &str) -> String {
    if unit == "in" {
        return inches(value);
    }
    let text = format!("{value:.places$}");
    let whole = matches!(unit, "Nm" | "tex" | "spi" | "minutes" | "" | "1/8 in" | "%" | "deg")
        || text.ends_with(&"0".repeat(places));
    let text = if whole { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text };
    if text == "-0" { "0".to_owned() } else { text }
}

/// The value of a key, empty if there is none.
pub(super) fn cell(figures: &Figures, key: &str) -> String {
    figures.get(key).map(bare).unwrap_or_default()
}

/// Minutes in the largest unit that keeps them whole.
pub(super) fn times(figure: &Figure) -> String {
    let (scale, unit) = match &figure.datum {
        Datum::Window(window) if window.lo % 1440.0 == 0.0 && window.hi % 1440.0 == 0.0 && window.lo > 2880.0 => {
            (1440.0, "days")
        }
        Datum::Window(window) if window.lo % 60.0 == 0.0 && window.hi % 60.0 == 0.0 => (60.0, "hours"),
        Datum::Number(value) if value % 60.0 == 0.0 && *value >= 60.0 => (60.0, "hours"),
        _ => (1.0, "minutes"),
    };
    match &figure.datum {
        Datum::Window(window) => format!("{}..{} {unit}", window.lo / scale, window.hi / scale),
        Datum::Number(value) => format!("{} {unit}", value / scale),
        _ => with_unit(figure),
    }
}
