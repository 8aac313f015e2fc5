//! Shoe sizes: system, number, width. Exact, never floats.

use super::exact::{Exact, exact};
use super::number::parse_number;

/// A size system. Lengths: ISO/TS 19407:2015 introduction (barleycorn 1/3 in, Paris point 20/3 mm, Mondopoint in mm).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum System {
    /// US men's, 1/3 in a size.
    UsMen,
    /// US women's, 1/3 in a size.
    UsWomen,
    /// UK adult, 1/3 in a size.
    Uk,
    /// Paris points, 20/3 mm a size.
    Eu,
    /// Mondopoint, numbered in mm.
    Mondo,
}

impl System {
    /// All systems, in the order of the reference.
    pub const ALL: &'static [System] = &[System::UsMen, System::UsWomen, System::Uk, System::Eu, System::Mondo];

    /// As spelt in the language.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            System::UsMen => "us-men",
            System::UsWomen => "us-women",
            System::Uk => "uk",
            System::Eu => "eu",
            System::Mondo => "mondo",
        }
    }

    /// Reads the spelling of the language.
    #[must_use]
    pub fn parse(text: &str) -> Option<System> {
        Self::ALL.iter().copied().find(|system| system.name() == text)
    }

    /// How much longer a last gets per unit of the size number, mm.
    #[must_use]
    pub fn length_step(self) -> Exact {
        match self {
            System::UsMen | System::UsWomen | System::Uk => exact(127, 15),
            System::Eu => exact(20, 3),
            System::Mondo => exact(1, 1),
        }
    }
}

/// A width letter. Two ladders share the letters: the American runs AAA to EEEE, the British A to H.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the letters say themselves")]
pub enum Width {
    Aaa,
    Aa,
    A,
    B,
    C,
    D,
    E,
    Ee,
    Eee,
    Eeee,
    F,
    G,
    H,
}

impl Width {
    /// All widths, narrowest first within a ladder.
    pub const ALL: &'static [Width] = &[
        Width::Aaa,
        Width::Aa,
        Width::A,
        Width::B,
        Width::C,
        Width::D,
        Width::E,
        Width::Ee,
        Width::Eee,
        Width::Eeee,
        Width::F,
        Width::G,
        Width::H,
    ];

    /// As printed, in capitals.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Width::Aaa => "AAA",
            Width::Aa => "AA",
            Width::A => "A",
            Width::B => "B",
            Width::C => "C",
            Width::D => "D",
            Width::E => "E",
            Width::Ee => "EE",
            Width::Eee => "EEE",
            Width::Eeee => "EEEE",
            Width::F => "F",
            Width::G => "G",
            Width::H => "H",
        }
    }

    /// Place on the width ladder of `system`; `None` if that system has no such width.
    #[must_use]
    pub fn rank(self, system: System) -> Option<i32> {
        use Width::{A, Aa, Aaa, B, C, D, E, Ee, Eee, Eeee, F, G, H};
        let ladder: &[Width] = match system {
            System::UsMen | System::UsWomen => &[Aaa, Aa, A, B, C, D, E, Ee, Eee, Eeee],
            System::Uk | System::Eu | System::Mondo => &[A, B, C, D, E, F, G, H],
        };
        let place = ladder.iter().position(|width| *width == self)?;
        i32::try_from(place).ok()
    }
}

/// Reads `D`, `ee`, `2E`, `EEE`; capitals or not.
#[must_use]
pub fn parse_width(text: &str) -> Option<Width> {
    let upper = text.to_ascii_uppercase();
    let spelt = match upper.as_str() {
        "2E" => "EE",
        "3E" => "EEE",
        "4E" => "EEEE",
        other => other,
    };
    Width::ALL.iter().copied().find(|width| width.name() == spelt)
}

/// A size with its width.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Size {
    /// The system.
    pub system: System,
    /// The number, exact.
    pub number: Exact,
    /// The width.
    pub width: Width,
}

impl Size {
    /// The number as printed: `9`, `9.5`, `10 1/3`.
    #[must_use]
    pub fn number_text(number: Exact) -> String {
        if number.is_integer() {
            return number.to_integer().to_string();
        }
        let doubled = number * exact(2, 1);
        if doubled.is_integer() {
            return format!("{}.5", number.to_integer());
        }
        let rest = number - number.trunc();
        format!("{} {}/{}", number.to_integer(), rest.numer(), rest.denom())
    }

    /// Reads `9 D`, `9.5 ee`, `10½ D`, `9D` in `system`.
    #[must_use]
    pub fn parse(text: &str, system: System) -> Option<Size> {
        let text = text.trim();
        let cut = text.char_indices().rev().take_while(|(_, c)| c.is_ascii_alphabetic()).last()?.0;
        let (mut number, mut width) = (text[..cut].trim_end(), text[cut..].to_owned());
        if width.eq_ignore_ascii_case("e")
            && let Some((rest, digit)) = number.rsplit_once(' ')
            && matches!(digit, "2" | "3" | "4")
        {
            width = format!("{digit}E");
            number = rest;
        }
        Some(Size { system, number: parse_number(number).ok()?.value, width: parse_width(&width)? })
    }
}

impl std::fmt::Display for Size {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {}", Self::number_text(self.number), self.width.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_size_however_it_is_written() {
        let of = |text| Size::parse(text, System::UsMen).map(|size| size.to_string());
        for text in ["9.5 EE", "9 1/2 ee", "9½ 2E", "9.5EE"] {
            assert_eq!(of(text).as_deref(), Some("9.5 EE"), "{text}");
        }
        assert_eq!(of("9"), None);
        assert_eq!(of("nine D"), None);
    }

    #[test]
    fn ladders() {
        assert_eq!(Width::Ee.rank(System::UsMen).zip(Width::D.rank(System::UsMen)).map(|(a, b)| a - b), Some(2));
        assert_eq!(Width::F.rank(System::UsMen), None);
        assert_eq!(Width::F.rank(System::Uk).zip(Width::E.rank(System::Uk)).map(|(a, b)| a - b), Some(1));
    }
}
