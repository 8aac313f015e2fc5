//! The set of texts under judgement, and spans into them.

use super::edit::{Edit, EditFault, apply};
use std::sync::Arc;

/// One text of a [`Sources`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SourceId(pub u32);

/// A run of bytes in one text; `start..end` lie on character boundaries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Span {
    /// Which text.
    pub source: SourceId,
    /// First byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

impl Span {
    /// The smallest span over both; `other` must lie in the same text.
    #[must_use]
    pub fn to(self, other: Span) -> Span {
        Span { source: self.source, start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// The empty span behind this one.
    #[must_use]
    pub fn after(self) -> Span {
        Span { start: self.end, ..self }
    }

    /// Whether `other` lies inside this span.
    #[must_use]
    pub fn contains(self, other: Span) -> bool {
        self.source == other.source && self.start <= other.start && other.end <= self.end
    }

    /// The bytes as a range of the text.
    #[must_use]
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// What was wrong with the bytes before they became a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Damage {
    /// Bytes that are not UTF-8, first at this byte of the text kept (each run became U+FFFD).
    NotUtf8(u32),
    /// The file looks like UTF-16; nothing of it was kept.
    Utf16,
}

/// One text with the name that people know it by.
#[derive(Clone, Debug)]
pub struct Source {
    /// The path to show, as the user would write it.
    pub shown: String,
    /// What tells this file from another, however the path was written.
    pub identity: String,
    /// The text; a byte-order mark stays in it.
    pub text: Arc<str>,
    /// What was wrong with the bytes.
    pub damage: Option<Damage>,
}

impl Source {
    /// Decodes `bytes`; nothing is ever refused, damage is remembered.
    #[must_use]
    pub fn decode(shown: String, identity: String, bytes: &[u8]) -> Source {
        let (text, damage) = match std::str::from_utf8(bytes) {
            Ok(text) => (text.to_owned(), None),
            Err(_) if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) => {
                (String::new(), Some(Damage::Utf16))
            }
            Err(fault) => {
                let place = u32::try_from(fault.valid_up_to()).unwrap_or(u32::MAX);
                (String::from_utf8_lossy(bytes).into_owned(), Some(Damage::NotUtf8(place)))
            }
        };
        Source { shown, identity, text: text.into(), damage }
    }

    /// Line and column of a byte, both from 1; the column counts characters.
    #[must_use]
    pub fn line_column(&self, byte: u32) -> (usize, usize) {
        let before = &self.text[..(byte as usize).min(self.text.len())];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }
}

/// All texts of one run, in the order in which they were first opened.
#[derive(Clone, Debug, Default)]
pub struct Sources {
    list: Vec<Source>,
}

impl Sources {
    /// An empty set.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a text, or finds the one of the same identity.
    ///
    /// # Panics
    /// Never in practice: more than `u32::MAX` texts do not fit into memory.
    pub fn add(&mut self, source: Source) -> SourceId {
        if let Some(id) = self.find(&source.identity) {
            return id;
        }
        let id = SourceId(u32::try_from(self.list.len()).expect("fewer texts than u32 holds"));
        self.list.push(source);
        id
    }

    /// The text of that identity, if it was opened.
    #[must_use]
    pub fn find(&self, identity: &str) -> Option<SourceId> {
        let at = self.list.iter().position(|source| source.identity == identity)?;
        u32::try_from(at).ok().map(SourceId)
    }

    /// One text.
    #[must_use]
    pub fn get(&self, id: SourceId) -> &Source {
        &self.list[id.0 as usize]
    }

    /// All texts with their ids.
    pub fn iter(&self) -> impl Iterator<Item = (SourceId, &Source)> {
        (0_u32..).map(SourceId).zip(&self.list)
    }

    /// What stands under a span.
    #[must_use]
    pub fn slice(&self, span: Span) -> &str {
        &self.get(span.source).text[span.range()]
    }

    /// `path:line:column` of the start of a span.
    #[must_use]
    pub fn place(&self, span: Span) -> String {
        let source = self.get(span.source);
        let (line, column) = source.line_column(span.start);
        format!("{}:{line}:{column}", source.shown)
    }

    /// The same texts with the edits made.
    ///
    /// # Errors
    /// Edits that overlap, or that lie outside their text.
    pub fn apply(&self, edits: &[Edit]) -> Result<Sources, EditFault> {
        let mut changed = self.clone();
        for (id, source) in self.iter() {
            let mine: Vec<&Edit> = edits.iter().filter(|edit| edit.span.source == id).collect();
            if !mine.is_empty() {
                changed.list[id.0 as usize].text = apply(&source.text, &mine)?.into();
            }
        }
        Ok(changed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn source(text: &str) -> Source {
        Source::decode("a.hob".into(), "a.hob".into(), text.as_bytes())
    }

    #[test]
    fn lines_and_columns_count_from_one_in_characters() {
        let source = source("shop \"é\" {\r\n  paper a4\r\n}");
        assert_eq!(source.line_column(0), (1, 1));
        assert_eq!(source.line_column(9), (1, 9));
        assert_eq!(source.line_column(15), (2, 3));
    }

    #[test]
    fn damage_is_remembered_and_the_rest_kept() {
        let latin = Source::decode("a".into(), "a".into(), b"shop \"\xe9\"");
        assert_eq!(latin.damage, Some(Damage::NotUtf8(6)));
        assert!(latin.text.starts_with("shop \"\u{FFFD}"));
        let wide = Source::decode("a".into(), "a".into(), b"\xff\xfes\0h\0");
        assert_eq!(wide.damage, Some(Damage::Utf16));
    }

    #[test]
    fn edits_apply_in_any_order_and_refuse_to_overlap() {
        let mut sources = Sources::new();
        let id = sources.add(source("turnout 11 mm; rows 2"));
        let span = |start, end| Span { source: id, start, end };
        let edits = [Edit { span: span(20, 21), text: "1".into() }, Edit { span: span(8, 10), text: "12.5".into() }];
        let changed = sources.apply(&edits).expect("edits lie apart");
        assert_eq!(&*changed.get(id).text, "turnout 12.5 mm; rows 1");
        let clash = [edits[0].clone(), Edit { span: span(19, 21), text: String::new() }];
        assert_eq!(sources.apply(&clash).err(), Some(EditFault::Overlap));
        let outside = [Edit { span: span(20, 99), text: String::new() }];
        assert_eq!(sources.apply(&outside).err(), Some(EditFault::Outside));
    }
}
