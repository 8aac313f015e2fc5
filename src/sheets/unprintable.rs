//! Characters that the typefaces of the sheets lack: found where they are written, before anything is printed.

use super::paper::{self, Style};
use crate::finding::{FaultName, Finding};
use crate::source::{Sources, Span};
use std::collections::BTreeSet;

/// The styles that what a shop types is printed in.
const STYLES: [Style; 3] = [Style::Bold, Style::Condensed, Style::CondensedBold];

/// The characters of a text that a typeface of the sheets lacks.
#[must_use]
pub fn unknown(text: &str) -> BTreeSet<char> {
    let printed: String = text.chars().filter(|c| !c.is_control()).collect();
    STYLES.into_iter().flat_map(|style| paper::lacks(&printed, style)).collect()
}

/// A fault at every place, comments apart, where one of these characters stands.
#[must_use]
pub fn unprintable(sources: &Sources, lacking: &BTreeSet<char>) -> Vec<Finding> {
    let mut faults = Vec::new();
    for (id, source) in sources.iter() {
        let mut quoted = false;
        let mut comment = false;
        for (at, c) in source.text.char_indices() {
            match c {
                '\n' => (quoted, comment) = (false, false),
                '"' if !comment => quoted = !quoted,
                '#' if !quoted => comment = true,
                _ => {}
            }
            let ends = [at, at + c.len_utf8()].map(u32::try_from);
            if let (false, true, [Ok(start), Ok(end)]) = (comment, lacking.contains(&c), ends) {
                faults.push(fault(Span { source: id, start, end }, c));
            }
        }
    }
    faults
}

fn fault(span: Span, c: char) -> Finding {
    let message = format!("the typefaces of the sheets have no `{c}` (U+{:04X})", u32::from(c));
    let help =
        "write it with letters that they have, which are Latin, Greek and Cyrillic; nothing is printed until then";
    Finding::fault(FaultName::TEXT_UNPRINTABLE, span, message).help(help)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Source;

    #[test]
    fn each_place_outside_comments_is_found() {
        let text = "model a \"靴 boot\" # 靴 again\nmodel b \"# 靴\"\n";
        assert_eq!(unknown(text).into_iter().collect::<String>(), "靴");
        let mut sources = Sources::new();
        sources.add(Source::decode("a.hob".to_owned(), "a.hob".to_owned(), text.as_bytes()));
        let places: Vec<String> = unprintable(&sources, &unknown(text))
            .iter()
            .map(|fault| sources.place(fault.span().expect("it has a place")))
            .collect();
        assert_eq!(places, ["a.hob:1:10", "a.hob:2:12"]);
    }
}
