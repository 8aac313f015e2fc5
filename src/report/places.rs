//! Where spans stand: lines and columns found fast, and texts made safe for a terminal.

use crate::source::{SourceId, Sources, Span};
use std::borrow::Cow;

/// The texts of a run with the starts of their lines.
#[derive(Debug)]
pub(super) struct Places<'s> {
    pub sources: &'s Sources,
    texts: Vec<Lines<'s>>,
}

/// One text with the starts of its lines, and as a terminal may have it.
#[derive(Debug)]
pub(super) struct Lines<'s> {
    pub shown: &'s str,
    text: &'s str,
    starts: Vec<usize>,
    clean: Cow<'s, str>,
}

/// A place as people count: from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Place<'s> {
    pub path: &'s str,
    pub line: usize,
    pub column: usize,
}

impl<'s> Places<'s> {
    pub fn new(sources: &'s Sources) -> Self {
        let texts = sources.iter().map(|(_, source)| Lines::new(&source.shown, &source.text)).collect();
        Self { sources, texts }
    }

    pub fn lines(&self, id: SourceId) -> &Lines<'s> {
        &self.texts[id.0 as usize]
    }

    /// Where a span starts.
    pub fn of(&self, span: Span) -> Place<'s> {
        let lines = self.lines(span.source);
        let (line, column) = lines.line_column(span.start as usize);
        Place { path: lines.shown, line: line + 1, column: column + 1 }
    }
}

impl<'s> Lines<'s> {
    pub fn new(shown: &'s str, text: &'s str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { shown, text, starts, clean: clean_in_place(text) }
    }

    /// The line that holds a byte, from 0.
    pub fn line_of(&self, byte: usize) -> usize {
        self.starts.partition_point(|start| *start <= byte) - 1
    }

    /// Line and column of a byte, both from 0; columns in characters.
    pub fn line_column(&self, byte: usize) -> (usize, usize) {
        let line = self.line_of(byte);
        let start = self.starts[line];
        (line, self.text[start..byte.min(self.text.len())].chars().count())
    }

    /// The bytes of a line, without its end.
    pub fn line_range(&self, line: usize) -> std::ops::Range<usize> {
        let start = self.starts[line];
        let end = self.starts.get(line + 1).map_or(self.text.len(), |next| next - 1);
        start..end - usize::from(self.text[start..end].ends_with('\r'))
    }

    /// The text, each byte where it was, without anything that a terminal would act on.
    pub fn clean(&self) -> &str {
        &self.clean
    }
}

/// Replaces what a terminal would act on by signs of as many bytes, so that spans still hold.
fn clean_in_place(text: &str) -> Cow<'_, str> {
    let kept = |(at, c): (usize, char)| match c {
        '\n' | '\t' => true,
        '\r' => text[at..].starts_with("\r\n"),
        '\u{FEFF}' => at == 0,
        c => !acts(c),
    };
    if text.char_indices().all(kept) {
        return Cow::Borrowed(text);
    }
    let stand_in = |c: char| match c.len_utf8() {
        1 => '?',
        2 => '¿',
        3 => '\u{FFFD}',
        _ => '\u{1F9F5}',
    };
    Cow::Owned(text.char_indices().map(|(at, c)| if kept((at, c)) { c } else { stand_in(c) }).collect())
}

/// Whether a terminal may act on a character instead of showing it, or show others in another order.
fn acts(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{2069}' | '\u{FEFF}')
        || matches!(c, '\u{E0000}'..='\u{E007F}')
}

/// Words for a terminal, on one line and without anything that it would act on.
pub(super) fn clean(words: &str) -> Cow<'_, str> {
    if !words.chars().any(acts) {
        return Cow::Borrowed(words);
    }
    Cow::Owned(words.chars().map(|c| if acts(c) { '\u{FFFD}' } else { c }).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_end_at_either_line_end() {
        let lines = Lines::new("a.hob", "one\r\ntwo\n\nfo\u{fc}r");
        assert_eq!(lines.line_range(0), 0..3);
        assert_eq!(lines.line_range(1), 5..8);
        assert_eq!(lines.line_range(2), 9..9);
        assert_eq!(lines.line_column(14), (3, 3));
        assert_eq!(lines.line_of(9), 2);
    }

    #[test]
    fn what_a_terminal_would_act_on_is_replaced_byte_for_byte() {
        let text = "shop \u{1b}[31m\u{202e}\u{85}\r\tx\r\n";
        let clean = clean_in_place(text);
        assert_eq!(clean.len(), text.len());
        assert_eq!(clean, "shop ?[31m\u{fffd}\u{bf}?\tx\r\n");
        assert_eq!(super::clean("a\u{1b}b"), "a\u{fffd}b");
    }
}
