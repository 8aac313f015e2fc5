//! How wide a text is, where it breaks, and how large it can be.

use std::collections::BTreeSet;

use super::Style;
use super::face::printed;

const MM_PER_POINT: f64 = 25.4 / 72.0;

/// The width of a line of text in mm, as a viewer sets it. What the face lacks counts as
/// nothing.
pub fn width_mm(text: &str, style: Style, size: f64) -> f64 {
    let metrics = style.metrics();
    let thousandths: u64 =
        text.chars().filter_map(|c| metrics.glyph(printed(c))).map(|glyph| u64::from(glyph.advance)).sum();
    thousandths as f64 / 1000.0 * size * MM_PER_POINT
}

/// The characters of a text that a face doesn't have.
pub fn lacks(text: &str, style: Style) -> BTreeSet<char> {
    let metrics = style.metrics();
    text.chars().filter(|&c| metrics.glyph(printed(c)).is_none()).collect()
}

/// The largest size, in tenths of a point, up to `wanted` at which a line of text fits
/// into `width` mm; none if it doesn't fit at `least`.
pub fn fit(text: &str, style: Style, wanted: f64, least: f64, width: f64) -> Option<f64> {
    let at_one = width_mm(text, style, 1.0);
    if at_one * wanted <= width {
        return Some(wanted);
    }
    let size = (width / at_one * 10.0).floor() / 10.0;
    if size >= least {
        return Some(size);
    }
    (at_one * least <= width).then_some(least)
}

/// Breaks a text into lines of at most `width` mm: at spaces, behind hyphens, at `\n`, and within a word
/// only if the word alone is too wide. A no-break space doesn't break.
pub fn wrap(text: &str, style: Style, size: f64, width: f64) -> Vec<&str> {
    let room = Room { style, size, width };
    text.split('\n').flat_map(|paragraph| room.paragraph(paragraph)).collect()
}

/// How many lines a text takes.
pub fn lines_in(text: &str, style: Style, size: f64, width: f64) -> usize {
    wrap(text, style, size, width).len()
}

struct Room {
    style: Style,
    size: f64,
    width: f64,
}

impl Room {
    fn holds(&self, text: &str) -> bool {
        width_mm(text, self.style, self.size) <= self.width + 1e-9
    }

    fn paragraph<'a>(&self, text: &'a str) -> Vec<&'a str> {
        let mut lines = Vec::new();
        let mut rest = text.trim_matches(' ');
        while !self.holds(rest) {
            let end = self.break_of(rest);
            lines.push(rest[..end].trim_end_matches(' '));
            rest = rest[end..].trim_start_matches(' ');
        }
        if !rest.is_empty() || lines.is_empty() {
            lines.push(rest);
        }
        lines
    }

    /// Where the first line of a text ends that is too long for one.
    fn break_of(&self, text: &str) -> usize {
        let mut end = 0;
        // At a space, or behind the hyphen of a name.
        for (at, found) in text.match_indices([' ', '-']) {
            let at = if found == "-" { at + 1 } else { at };
            let line = text[..at].trim_end_matches(' ');
            if !self.holds(line) {
                break;
            }
            end = at;
        }
        if end > 0 { end } else { self.break_word(text) }
    }

    /// As many letters as fit, and at least one.
    fn break_word(&self, text: &str) -> usize {
        let ends = text.char_indices().map(|(at, c)| at + c.len_utf8());
        let first = text.chars().next().map_or(0, char::len_utf8);
        ends.take_while(|&end| self.holds(&text[..end])).last().unwrap_or(first)
    }
}
