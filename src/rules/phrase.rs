//! What a judgement says beside its numbers, put into words only for those who read it: most judgements of a run pass, and
//! nobody does.

use super::words::{derivation, number};
use crate::finding::{Piece, Sum};
use std::fmt;

/// Words of a judgement.
#[derive(Clone, Debug, PartialEq)]
pub enum Phrase {
    /// As they are.
    Said(String),
    /// With a number in the place of each `{}`.
    Numbers(&'static str, [f64; 2]),
    /// The terms of a sum after these words.
    Terms(&'static str, Sum),
    /// A number of mm of what a term is.
    Term(Piece, f64),
}

impl Phrase {
    /// Words with one number in them.
    #[must_use]
    pub fn of(words: &'static str, value: f64) -> Self {
        Phrase::Numbers(words, [value, 0.0])
    }

    /// What it speaks of, if that is what a term is.
    #[must_use]
    pub fn piece(&self) -> Option<&Piece> {
        if let Phrase::Term(piece, _) = self { Some(piece) } else { None }
    }
}

impl From<String> for Phrase {
    fn from(said: String) -> Self {
        Phrase::Said(said)
    }
}

impl From<&str> for Phrase {
    fn from(said: &str) -> Self {
        Phrase::Said(said.to_owned())
    }
}

impl fmt::Display for Phrase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Phrase::Said(said) => f.write_str(said),
            Phrase::Numbers(words, values) => {
                let mut values = values.iter();
                let mut parts = words.split("{}");
                f.write_str(parts.next().unwrap_or_default())?;
                parts.try_for_each(|part| {
                    let value = values.next().map_or_else(String::new, |value| number(*value, 1.0));
                    write!(f, "{value}{part}")
                })
            }
            Phrase::Terms(words, sum) => write!(f, "{words}{}", derivation(&sum.settled(), 1.0)),
            Phrase::Term(what, mm) => write!(f, "{what} {} mm", number(*mm, 1.0)),
        }
    }
}

/// All of them in one line.
pub(super) fn joined(phrases: &[Phrase]) -> String {
    phrases.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
mod tests {
    use super::Phrase;

    #[test]
    fn each_place_takes_its_number() {
        assert_eq!(Phrase::of("{} mm long", 22.225).to_string(), "22.23 mm long");
        assert_eq!(Phrase::Numbers("{} of {} mm", [2.0, 3.5]).to_string(), "2 of 3.5 mm");
        assert_eq!(Phrase::from("as it is {}").to_string(), "as it is {}");
    }
}
