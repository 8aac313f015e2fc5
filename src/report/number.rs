//! Numbers as people read them: as many decimals as their unit deserves.

use crate::build::Datum;
use crate::measure::{Spread, Window, inches};

/// Decimals that a unit is shown with.
fn decimals(unit: &str) -> usize {
    match unit {
        "Nm" | "tex" | "N" | "minutes" | "g/m2" => 0,
        "spi" | "%" | "cm2" | "deg" | "1/8 in" => 1,
        "" => 3,
        _ => 2,
    }
}

/// One number in a unit, without the unit.
fn number(value: f64, unit: &str) -> String {
    if unit == "in" {
        return inches(value);
    }
    let places = decimals(unit);
    let text = format!("{value:.places$}");
    let text = if unit.is_empty() { trimmed(&text).to_owned() } else { text };
    // A negative that rounds to nothing is nothing.
    if text.starts_with('-') && !text.contains(|c: char| matches!(c, '1'..='9')) { text[1..].to_owned() } else { text }
}

fn trimmed(text: &str) -> &str {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text }
}

/// One number with its unit.
fn quantity(value: f64, unit: &str) -> String {
    with_unit(number(value, unit), unit)
}

/// `16.22 / 17.43 / 18.64 mm`; a spread of no width is one number.
fn spread(spread: &Spread, unit: &str) -> String {
    let ends = [spread.lo, spread.nominal, spread.hi].map(|end| number(end, unit));
    let text = if ends[0] == ends[2] { ends[1].clone() } else { ends.join(" / ") };
    with_unit(text, unit)
}

/// `13.80..16.05 mm`
fn window(window: &Window, unit: &str) -> String {
    with_unit(format!("{}..{}", number(window.lo, unit), number(window.hi, unit)), unit)
}

/// What a figure is, in words.
pub(super) fn datum(datum: &Datum, unit: &str) -> String {
    match datum {
        Datum::Number(value) => quantity(*value, unit),
        Datum::Count(count) => with_unit(count.to_string(), unit),
        Datum::Spread(it) => spread(it, unit),
        Datum::Window(it) => window(it, unit),
        Datum::Text(text) => with_unit(text.clone(), unit),
        Datum::Texts(texts) => with_unit(texts.join(", "), unit),
        Datum::Numbers(numbers) => {
            let texts: Vec<String> = numbers.iter().map(|value| number(*value, unit)).collect();
            with_unit(texts.join(", "), unit)
        }
    }
}

fn with_unit(text: String, unit: &str) -> String {
    match (text.as_str(), unit) {
        ("", _) | (_, "") => text,
        _ => format!("{text} {unit}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_shape_with_the_decimals_of_its_unit() {
        let it = Spread { lo: 16.217, nominal: 17.43, hi: 18.643 };
        assert_eq!(datum(&Datum::Spread(it), "mm"), "16.22 / 17.43 / 18.64 mm");
        assert_eq!(datum(&Datum::Spread(Spread::exactly(5.0)), "mm"), "5.00 mm");
        assert_eq!(datum(&Datum::Window(Window { lo: 13.8, hi: 16.05 }), "mm"), "13.80..16.05 mm");
        assert_eq!(datum(&Datum::Count(186), ""), "186");
        assert_eq!(datum(&Datum::Number(230.0), "Nm"), "230 Nm");
        assert_eq!(datum(&Datum::Number(0.7), ""), "0.7");
        assert_eq!(datum(&Datum::Number(-0.001), "mm"), "0.00 mm");
        assert_eq!(datum(&Datum::Numbers(vec![12.7, 15.875]), "mm"), "12.70, 15.88 mm");
        assert_eq!(datum(&Datum::Texts(Vec::new()), ""), "");
    }
}
