//! Numbers as written: decimals, fractions, mixed numbers, vulgar fraction signs.

use super::exact::{Exact, exact};

/// The most digits that a whole part, a decimal part, a numerator or a denominator may have.
pub const MAX_DIGITS: usize = 9;

/// The largest denominator: as fine as the longest decimal, so that sums of values stay exact.
const FINEST: i128 = 1_000_000_000;

/// How a number was written, so that a value put in its place can look the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Form {
    /// `12` or `1.50`: the digits after the point.
    Decimal(u8),
    /// `3/8`, `4.5/8`: the denominator.
    Fraction(u32),
    /// `1 1/2`: the denominator.
    Mixed(u32),
}

/// An exact number with the form in which it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Number {
    /// The value.
    pub value: Exact,
    /// How it was written.
    pub form: Form,
}

/// Why a run of digits is not a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NumberFault {
    /// More digits than [`MAX_DIGITS`] in one part.
    TooLong,
    /// A denominator of zero.
    ZeroBelow,
    /// Not a number at all.
    NotANumber,
}

/// Reads `12`, `1.5`, `3/8`, `4.5/8`, `1 1/2`, `9½`.
///
/// # Errors
/// [`NumberFault`] says which of the three ways it failed in.
pub fn parse_number(text: &str) -> Result<Number, NumberFault> {
    if let Some((whole, sign)) = split_vulgar(text) {
        let (above, below) = sign;
        let whole = if whole.is_empty() { Exact::from_integer(0) } else { decimal(whole)?.0 };
        let form = if whole == Exact::from_integer(0) { Form::Fraction(below) } else { Form::Mixed(below) };
        return Ok(Number { value: whole + exact(i128::from(above), i128::from(below)), form });
    }
    let Some((above, below)) = text.split_once('/') else {
        let (value, places) = decimal(text)?;
        return Ok(Number { value, form: Form::Decimal(places) });
    };
    let (whole, above) = match above.trim_end().rsplit_once(' ') {
        Some((whole, above)) => (Some(decimal(whole.trim())?.0), above),
        None => (None, above),
    };
    let (above, below) = (decimal(above.trim())?.0, decimal(below.trim())?.0);
    if below == Exact::from_integer(0) {
        return Err(NumberFault::ZeroBelow);
    }
    let denominator = u32::try_from(below.to_integer()).unwrap_or(u32::MAX).max(1);
    let (value, form) = match whole {
        Some(whole) => (whole + above / below, Form::Mixed(denominator)),
        None => (above / below, Form::Fraction(denominator)),
    };
    if *value.denom() > FINEST || value.to_integer() >= FINEST {
        return Err(NumberFault::TooLong);
    }
    Ok(Number { value, form })
}

fn split_vulgar(text: &str) -> Option<(&str, (u32, u32))> {
    let last = text.chars().next_back()?;
    let sign = match last {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        _ => return None,
    };
    Some((text[..text.len() - last.len_utf8()].trim_end(), sign))
}

fn decimal(text: &str) -> Result<(Exact, u8), NumberFault> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    if whole.len() > MAX_DIGITS || part.len() > MAX_DIGITS {
        return Err(NumberFault::TooLong);
    }
    let digits = |run: &str| -> Result<i128, NumberFault> {
        if run.is_empty() { Ok(0) } else { run.parse().map_err(|_| NumberFault::NotANumber) }
    };
    if whole.is_empty() {
        return Err(NumberFault::NotANumber);
    }
    let places = u8::try_from(part.len()).map_err(|_| NumberFault::TooLong)?;
    let scale = 10_i128.pow(u32::from(places));
    Ok((exact(digits(whole)? * scale + digits(part)?, scale), places))
}

impl Number {
    /// A whole number.
    #[must_use]
    pub fn whole(value: i64) -> Self {
        Self { value: Exact::from_integer(i128::from(value)), form: Form::Decimal(0) }
    }

    /// Writes `value` the way this number was written, with more digits where that form
    /// could not hold it.
    #[must_use]
    pub fn written_alike(&self, value: Exact) -> String {
        match self.form {
            Form::Decimal(places) => decimal_text(value, usize::from(places)),
            Form::Fraction(below) => {
                let above = value * Exact::from_integer(i128::from(below));
                format!("{}/{below}", decimal_text(above, 0))
            }
            Form::Mixed(below) => {
                let whole = value.to_integer();
                let rest = (value - Exact::from_integer(whole)) * Exact::from_integer(i128::from(below));
                if rest == Exact::from_integer(0) {
                    whole.to_string()
                } else {
                    format!("{whole} {}/{below}", decimal_text(rest, 0))
                }
            }
        }
    }
}

/// A decimal with at least `places` digits after the point, more (up to six) if the value needs them.
fn decimal_text(value: Exact, places: usize) -> String {
    let mut places = places;
    while places < 6 && !(value * Exact::from_integer(10_i128.pow(u32::try_from(places).unwrap_or(6)))).is_integer() {
        places += 1;
    }
    format!("{:.places$}", super::exact::to_f64(value))
}

/// Inches to the nearest eighth, as a rule shows them: `1 1/4`, `7/8`, `2`.
#[must_use]
pub fn inches(value: f64) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "no boot is a million inches tall")]
    let eighths = (value * 8.0).round().clamp(-8e6, 8e6) as i64;
    let (whole, rest) = (eighths / 8, (eighths % 8).abs());
    let shared = [4, 2, 1].into_iter().find(|shared| rest % shared == 0).unwrap_or(1);
    match (whole, rest) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{}/{}", rest / shared, 8 / shared),
        (whole, rest) => format!("{whole} {}/{}", rest / shared, 8 / shared),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_each_form() {
        for (text, above, below) in
            [("12", 12, 1), ("1.5", 3, 2), ("3/8", 3, 8), ("4.5/8", 9, 16), ("1 1/2", 3, 2), ("9½", 19, 2), ("½", 1, 2)]
        {
            assert_eq!(parse_number(text).map(|n| n.value), Ok(exact(above, below)), "{text}");
        }
    }

    #[test]
    fn refuses_what_cannot_be_held() {
        assert_eq!(parse_number("1/0"), Err(NumberFault::ZeroBelow));
        assert_eq!(parse_number("1.123456789/987654321.1"), Err(NumberFault::TooLong));
        assert_eq!(parse_number("999999999/0.000000001"), Err(NumberFault::TooLong));
        assert_eq!(parse_number(&"9".repeat(400)), Err(NumberFault::TooLong));
        assert_eq!(parse_number(""), Err(NumberFault::NotANumber));
    }

    #[test]
    fn writes_a_new_value_in_the_old_form() {
        let alike = |old: &str, above, below| parse_number(old).map(|n| n.written_alike(exact(above, below)));
        assert_eq!(alike("4.5/8", 11, 16), Ok("5.5/8".to_owned()));
        assert_eq!(alike("1.0", 5, 4), Ok("1.25".to_owned()));
        assert_eq!(alike("1 1/2", 9, 4), Ok("2 0.5/2".to_owned()));
        assert_eq!(alike("12", 10, 1), Ok("10".to_owned()));
    }

    #[test]
    fn inches_are_read_off_a_rule() {
        for (value, said) in [(1.25, "1 1/4"), (0.875, "7/8"), (2.0, "2"), (1.9, "1 7/8"), (0.5, "1/2"), (0.0, "0")] {
            assert_eq!(inches(value), said);
        }
    }
}
