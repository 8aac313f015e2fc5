//! The sizes that `--size` asks for, and whether any model is made in them.

use crate::check::{Checked, SizeFilter};
use crate::measure::{Exact, Size, System, Width, parse_number, parse_width};

/// Sizes that are asked for: a number or a range of them, perhaps in one width.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Wanted {
    from: Exact,
    to: Exact,
    width: Option<Width>,
    text: String,
}

impl Wanted {
    /// Reads `9`, `9 D`, `9..11 D`; numbers and widths as the language has them.
    pub fn parse(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let (low, high) = text.split_once("..").unwrap_or((text, text));
        let (from, low_width) = end(low).ok_or_else(|| no_size(text))?;
        let (to, width) = end(high).ok_or_else(|| no_size(text))?;
        if from > to {
            return Err(format!("`{text}` is upside down; write the smaller size first"));
        }
        if low_width.is_some() && low_width != width {
            return Err(format!("`{text}` has two widths; give each with a `--size` of its own"));
        }
        Ok(Self { from, to, width, text: text.to_owned() })
    }

    fn takes(&self, size: &Size) -> bool {
        self.from <= size.number && size.number <= self.to && self.width.is_none_or(|width| width == size.width)
    }

    /// How far a size is from what is wanted: in numbers, then in widths.
    fn distance(&self, size: &Size) -> (Exact, i32) {
        let zero = Exact::from_integer(0);
        let number = (self.from - size.number).max(size.number - self.to).max(zero);
        let rank = |width: Width| width.rank(size.system).unwrap_or(i32::MAX / 2);
        (number, self.width.map_or(0, |width| (rank(width) - rank(size.width)).abs()))
    }
}

/// A number with its width, if it has one.
fn end(text: &str) -> Option<(Exact, Option<Width>)> {
    let text = text.trim();
    if let Ok(number) = parse_number(text) {
        return Some((number.value, None));
    }
    // The system decides nothing about how a size is spelt.
    let size = Size::parse(text, System::UsMen)?;
    Some((size.number, Some(size.width)))
}

fn no_size(text: &str) -> String {
    let letters = text.trim_start_matches(|c: char| !c.is_alphabetic()).trim();
    if !letters.is_empty() && letters.len() < text.len() && parse_width(letters).is_none() {
        return format!("`{letters}` is no width; widths are such as D, EE or 2E");
    }
    format!("`{text}` is no size; write `9`, `9 D` or `9..11 D`")
}

/// All sizes that are asked for; none means every size.
#[derive(Clone, Copy, Debug)]
pub(super) struct Filter<'f>(pub &'f [Wanted]);

impl SizeFilter for Filter<'_> {
    fn wants(&self, size: &Size) -> bool {
        self.0.is_empty() || self.0.iter().any(|wanted| wanted.takes(size))
    }
}

impl Filter<'_> {
    /// Says which size no model is made in, with the nearest in which one is.
    ///
    /// # Errors
    /// The words for it. Where some model's run is not known, none can be said.
    pub fn all_made(&self, checked: &Checked) -> Result<(), String> {
        if checked.models.iter().any(|model| model.run.is_empty()) {
            return Ok(());
        }
        let made: Vec<&Size> = checked.models.iter().flat_map(|model| &model.run).collect();
        for wanted in self.0 {
            if made.iter().any(|size| wanted.takes(size)) {
                continue;
            }
            let Some(nearest) = made.iter().min_by_key(|size| wanted.distance(size)) else { continue };
            return Err(format!("no model given is made in {}; the nearest size is {nearest}", wanted.text));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn takes(wanted: &str, size: &str) -> bool {
        let wanted = Wanted::parse(wanted).expect("a size");
        wanted.takes(&Size::parse(size, System::UsMen).expect("a size"))
    }

    #[test]
    fn one_size_however_it_is_written() {
        for wanted in ["9½ EE", "9 1/2 ee", "9.5 2E", "9.5ee", "9½", "9..10 EE", "9 EE..10 2e"] {
            assert!(takes(wanted, "9.5 EE"), "{wanted}");
        }
        for wanted in ["9 EE", "9.5 E", "10..11", "9..10 D"] {
            assert!(!takes(wanted, "9.5 EE"), "{wanted}");
        }
    }

    #[test]
    fn what_is_no_size_is_said() {
        let said = |text| Wanted::parse(text).expect_err("no size");
        assert_eq!(said("nine"), "`nine` is no size; write `9`, `9 D` or `9..11 D`");
        assert_eq!(said("9 Q"), "`Q` is no width; widths are such as D, EE or 2E");
        assert_eq!(said("11..9"), "`11..9` is upside down; write the smaller size first");
        assert_eq!(said("9 D..11 E"), "`9 D..11 E` has two widths; give each with a `--size` of its own");
        assert_eq!(said(""), "`` is no size; write `9`, `9 D` or `9..11 D`");
    }
}
