//! Figures as a sheet prints them: the same number as everywhere, rounded to what a bench can use, in the units and the
//! language that the shop asks for. A unit stands once with each number.

use super::Units;
use super::words::{self, Lang};
use crate::build::{Datum, Figure, FigureUnit as U, Manner};
use std::fmt::Write as _;

/// How numbers are said.
#[derive(Clone, Copy, Debug)]
pub(super) struct Voice {
    pub lang: Lang,
    pub units: Units,
}

/// A figure's value as it stands on the sheet, and behind it the same in the other unit, if the shop asks for both.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Said {
    pub first: String,
    pub other: Option<String>,
}

impl Said {
    /// Both in one line.
    pub fn whole(&self) -> String {
        match &self.other {
            Some(other) => format!("{} ({other})", self.first),
            None => self.first.clone(),
        }
    }
}

/// A unit that numbers are turned into before they are written.
#[derive(Clone, Copy)]
struct Unit {
    /// The unit, as its word.
    name: &'static str,
    /// How many of the figure's own unit it has.
    of: f64,
    /// How it is rounded.
    places: Places,
}

#[derive(Clone, Copy)]
enum Places {
    /// Two decimals below 30, one above.
    Length,
    /// So many decimals.
    At(usize),
    /// Mixed numbers in sixteenths.
    Sixteenths,
    /// A stitch's length for so many stitches an inch.
    Pitch,
}

impl Voice {
    /// A figure with its unit, in the shop's units.
    pub fn said(self, figure: &Figure) -> Said {
        let own = own(figure);
        let (metric, trade) = match other(figure) {
            Some(other) if figure.unit == U::Spi => (Some(other), Some(own)),
            Some(other) => (Some(own), Some(other)),
            None => (Some(own), None),
        };
        let say = |unit: Option<Unit>| unit.map(|unit| self.value(figure, unit));
        let (first, second) = match self.units {
            Units::Metric => (metric, None),
            Units::Trade => (trade, None),
            Units::MetricTrade => (metric, trade),
            Units::TradeMetric => (trade, metric),
        };
        match (say(first), say(second)) {
            (Some(first), other) => Said { first, other },
            (None, _) => Said { first: self.value(figure, own), other: None },
        }
    }

    /// A figure with its unit, in one line.
    pub fn line(self, figure: &Figure) -> String {
        self.said(figure).whole()
    }

    /// Nominal and tolerance apart: `12 mm`, `±0.5 mm`.
    pub fn target(self, figure: &Figure) -> (String, String) {
        match &figure.datum {
            Datum::Spread(spread) if spread.half() >= 5e-7 => {
                let with = |value: f64| {
                    let datum = Datum::Number(value);
                    self.said(&Figure { datum, sum: None, ..figure.clone() }).first
                };
                (with(spread.nominal), format!("±{}", with(spread.half())))
            }
            _ => (self.said(figure).first, String::new()),
        }
    }

    fn value(self, figure: &Figure, unit: Unit) -> String {
        let number = |value: f64| self.number(value, unit);
        let joined = |texts: &[String]| texts.join(if self.lang == Lang::Es { "; " } else { ", " });
        let text = match &figure.datum {
            Datum::Text(text) => return self.word(figure, text),
            Datum::Texts(texts) => {
                return texts.iter().map(|text| self.word(figure, text)).collect::<Vec<_>>().join(", ");
            }
            Datum::Number(value) => number(*value),
            Datum::Count(count) => count.to_string(),
            Datum::Spread(spread) if spread.half() < 5e-7 => number(spread.nominal),
            Datum::Spread(spread) => format!("{}\u{a0}±{}", number(spread.nominal), number(spread.half())),
            Datum::Window(window) if (window.lo - window.hi).abs() < 1e-9 => number(window.lo),
            Datum::Window(window) => format!("{}–{}", number(window.lo), number(window.hi)),
            Datum::Numbers(values) if figure.of.id.definition().manner == Manner::Stretches => {
                let pair = |pair: &[f64]| pair.iter().map(|value| number(*value)).collect::<Vec<_>>().join("–");
                joined(&values.chunks(2).map(pair).collect::<Vec<_>>())
            }
            Datum::Numbers(values) => joined(&values.iter().map(|value| number(*value)).collect::<Vec<_>>()),
        };
        let unit = words::unit(unit.name, self.lang);
        match unit {
            "" => text,
            "°" => format!("{text}°"),
            // A unit stays on the line of its number.
            unit => format!("{text}\u{a0}{unit}"),
        }
    }

    /// A word of the language in the language of the sheet; a name that the shop types stays.
    fn word(self, figure: &Figure, text: &str) -> String {
        words::value(figure.of.id, text, self.lang).to_owned()
    }

    fn number(self, value: f64, unit: Unit) -> String {
        let text = match unit.places {
            Places::Sixteenths => return mixed(value / unit.of),
            Places::Pitch => plain(unit.of / value, 2),
            Places::At(places) => plain(value / unit.of, places),
            Places::Length => length(value / unit.of),
        };
        self.decimals(text)
    }

    /// With the decimal sign of the language.
    fn decimals(self, text: String) -> String {
        decimals(text, self.lang)
    }

    /// A bare number in the language.
    pub fn bare(self, value: f64, places: usize) -> String {
        self.decimals(plain(value, places))
    }
}

/// A number with the decimal sign of the language.
pub(super) fn decimals(text: String, lang: Lang) -> String {
    if lang == Lang::Es { text.replace('.', ",") } else { text }
}

/// A length: two decimals below 30, one above.
fn length(value: f64) -> String {
    plain(value, if value.abs() < 30.0 { 2 } else { 1 })
}

/// A length in mm where no figure has it, as figures are said; its unit stays on its line.
pub(super) fn mm(value: f64, lang: Lang) -> String {
    format!("{}\u{a0}mm", decimals(length(value), lang))
}

/// The unit that a figure has.
fn own(figure: &Figure) -> Unit {
    let (name, of, places) = match figure.unit {
        U::Minutes => minutes(figure),
        U::Eighths => ("in", 8.0, Places::Sixteenths),
        U::Inch => ("in", 1.0, Places::Sixteenths),
        U::Mm => ("mm", 1.0, Places::Length),
        unit @ (U::Cm2 | U::Percent | U::Degree | U::Spi | U::Bare | U::Written) => (unit.name(), 1.0, Places::At(1)),
        unit => (unit.name(), 1.0, Places::At(2)),
    };
    Unit { name, of, places }
}

/// The same in the trade's unit, or in the metric one for what is in the trade's.
fn other(figure: &Figure) -> Option<Unit> {
    let unit = |name, of, places| Some(Unit { name, of, places });
    match (figure.unit, figure.of.id.definition().manner) {
        (U::Spi, _) => unit("mm", 25.4, Places::Pitch),
        (U::Dm2, _) => unit("ft2", 9.290_304, Places::At(2)),
        (U::Mm, Manner::Ounces) => unit("oz", 25.4 / 64.0, Places::At(1)),
        (U::Mm, Manner::Irons) => unit("iron", 25.4 / 48.0, Places::At(1)),
        (U::Mm, Manner::Inches) if sixteenths(figure) => unit("in", 25.4, Places::Sixteenths),
        _ => None,
    }
}

/// A length that is a mixed number of inches, as nails and heels are.
fn sixteenths(figure: &Figure) -> bool {
    let whole = |value: &f64| {
        let sixteenths = value / 25.4 * 16.0;
        *value > 0.0 && (sixteenths - sixteenths.round()).abs() < 1e-6
    };
    match &figure.datum {
        Datum::Number(value) => whole(value),
        Datum::Numbers(values) => values.iter().all(whole),
        _ => false,
    }
}

/// Minutes in the largest unit that keeps them whole.
fn minutes(figure: &Figure) -> (&'static str, f64, Places) {
    let (lo, hi) = match &figure.datum {
        Datum::Window(window) => (window.lo, window.hi),
        Datum::Number(value) => (*value, *value),
        _ => return ("min", 1.0, Places::At(1)),
    };
    let whole = |of: f64| lo % of == 0.0 && hi % of == 0.0;
    if whole(1440.0) && lo > 2880.0 {
        ("days", 1440.0, Places::At(1))
    } else if whole(60.0) && hi >= 60.0 {
        ("hours", 60.0, Places::At(1))
    } else {
        ("min", 1.0, Places::At(1))
    }
}

/// With so many decimals at most.
fn plain(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// `1 1/4`, `9/16`: inches as a rule shows them.
fn mixed(inches: f64) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "no boot is a million inches tall")]
    let all = (inches * 16.0).round().clamp(-1e6, 1e6) as i64;
    let (whole, mut rest, mut of) = (all / 16, (all % 16).abs(), 16);
    while rest != 0 && rest % 2 == 0 {
        (rest, of) = (rest / 2, of / 2);
    }
    let mut text = String::new();
    if whole != 0 || rest == 0 {
        text.push_str(&whole.to_string());
    }
    if rest != 0 {
        // Writing to a string cannot fail.
        _ = write!(text, "{}{rest}/{of}", if whole == 0 { "" } else { " " });
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::{FigureId as F, Figures, Identity, Slot};
    use crate::finding::SeamName;

    #[test]
    fn inches_are_mixed_numbers() {
        for (inches, said) in
            [(1.25, "1 1/4"), (0.5625, "9/16"), (1.0, "1"), (0.0, "0"), (0.875, "7/8"), (2.5, "2 1/2")]
        {
            assert_eq!(mixed(inches), said);
        }
    }

    fn figure(of: impl Into<Identity>, datum: Datum) -> Figure {
        let mut figures = Figures::default();
        figures.push(of, datum);
        figures.iter().next().expect("it was pushed").clone()
    }

    #[test]
    fn units_and_signs_are_as_asked() {
        let voice = |lang, units| Voice { lang, units };
        let nail = figure(F::BaseNail.of([Slot::Word("back")]), Datum::Number(25.4 * 0.75));
        let leather = figure(F::PartSubstance.of([Slot::typed("vamp")]), Datum::Number(25.4 * 7.5 / 64.0));
        let pitch = figure(F::SeamPitch.of_seam(&SeamName::Sole), Datum::Number(5.0));
        let gauge = figure(F::SoleGuide, Datum::Number(4.5));
        for (figure, units, lang, said) in [
            (&nail, Units::Metric, Lang::En, "19.05 mm"),
            (&nail, Units::Trade, Lang::En, "3/4 in"),
            (&nail, Units::TradeMetric, Lang::Es, "3/4 in (19,05 mm)"),
            (&leather, Units::MetricTrade, Lang::En, "2.98 mm (7.5 oz)"),
            (&pitch, Units::Metric, Lang::En, "5.08 mm"),
            (&pitch, Units::TradeMetric, Lang::En, "5 spi (5.08 mm)"),
            (&gauge, Units::Trade, Lang::En, "4.5 mm"),
            (&gauge, Units::TradeMetric, Lang::Es, "4,5 mm"),
        ] {
            assert_eq!(voice(lang, units).line(figure).replace('\u{a0}', " "), said);
        }
    }
}
