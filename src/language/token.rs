//! The tokens of one row, without trivia, and a cursor over them.

use super::tree::{Branch, Element, Leaf, Node};
use crate::source::{SourceId, Span};

/// A token with its text.
#[derive(Clone, Copy, Debug)]
pub(super) struct Token<'t> {
    pub leaf: Leaf,
    pub span: Span,
    pub text: &'t str,
    /// Nothing stands between it and the token before.
    pub touches: bool,
}

/// A row: its tokens, its block, its comment.
#[derive(Clone, Debug)]
pub(super) struct Row<'t> {
    pub tokens: Vec<Token<'t>>,
    pub block: Option<&'t Node>,
    pub comment: Option<Token<'t>>,
    /// How many of the tokens were used up by statements before a hoist.
    pub at: usize,
}

impl<'t> Row<'t> {
    pub fn new(node: &'t Node, source: SourceId, text: &'t str) -> Self {
        let mut row = Row { tokens: Vec::new(), block: None, comment: None, at: 0 };
        let mut gap = true;
        for child in &node.children {
            match child {
                Element::Node(block) => row.block = Some(block),
                Element::Leaf(leaf, range) => {
                    let span = Span { source, start: range.start, end: range.end };
                    let token = Token { leaf: *leaf, span, text: &text[span.range()], touches: !gap };
                    gap = leaf.is_trivia();
                    match leaf {
                        Leaf::Comment => row.comment = row.comment.or(Some(token)),
                        Leaf::Junk if is_odd(token.text) => gap = true,
                        _ if leaf.is_trivia() => {}
                        _ => row.tokens.push(token),
                    }
                }
            }
        }
        row
    }

    pub fn peek(&self) -> Option<Token<'t>> {
        self.tokens.get(self.at).copied()
    }

    pub fn peek_at(&self, ahead: usize) -> Option<Token<'t>> {
        self.tokens.get(self.at + ahead).copied()
    }

    pub fn next_if(&mut self, leaf: Leaf) -> Option<Token<'t>> {
        let token = self.peek().filter(|token| token.leaf == leaf)?;
        self.at += 1;
        Some(token)
    }

    pub fn word(&self) -> Option<&'t str> {
        self.peek().filter(|token| token.leaf == Leaf::Word).map(|token| token.text)
    }

    /// The span of the last token used, or of the first token of the row.
    pub fn last(&self) -> Option<Span> {
        let token = self.tokens.get(self.at.saturating_sub(1)).or(self.tokens.first())?;
        Some(token.span)
    }
}

/// Control characters and spaces that are none of the language: reported once, and passed over like a space.
fn is_odd(text: &str) -> bool {
    text.chars().all(|c| c.is_control() || c.is_whitespace() || matches!(c, '\u{feff}' | '\u{200b}'..='\u{200f}'))
}

/// Every run of odd characters in the text.
pub(super) fn odd(node: &Node, source: SourceId, text: &str, out: &mut Vec<Span>) {
    for child in &node.children {
        match child {
            Element::Node(inner) => odd(inner, source, text, out),
            Element::Leaf(Leaf::Junk, range) => {
                let span = Span { source, start: range.start, end: range.end };
                if is_odd(&text[span.range()]) {
                    out.push(span);
                }
            }
            Element::Leaf(..) => {}
        }
    }
}

/// The `{` of a block, its whole span and its rows.
pub(super) struct BlockParts<'t> {
    pub open: Span,
    pub span: Span,
    pub rows: Vec<Row<'t>>,
}

pub(super) fn block_parts<'t>(node: &'t Node, source: SourceId, text: &'t str) -> BlockParts<'t> {
    let span = Span { source, start: node.range.start, end: node.range.end };
    let open = Span { end: span.start + 1, ..span };
    BlockParts { open, span, rows: rows(node, source, text) }
}

pub(super) fn rows<'t>(node: &'t Node, source: SourceId, text: &'t str) -> Vec<Row<'t>> {
    node.children
        .iter()
        .filter_map(|child| match child {
            Element::Node(row) if row.branch == Branch::Row => Some(Row::new(row, source, text)),
            _ => None,
        })
        .collect()
}

/// Leaves that stand directly in the file or in no row: stray closes.
pub(super) fn strays(node: &Node, source: SourceId) -> Vec<Span> {
    node.children
        .iter()
        .filter_map(|child| match child {
            Element::Leaf(Leaf::Close, range) => Some(Span { source, start: range.start, end: range.end }),
            _ => None,
        })
        .collect()
}

/// How many blocks of the tree were never closed.
pub(super) fn unclosed(node: &Node) -> usize {
    let mine = node.branch == Branch::Block && !matches!(node.children.last(), Some(Element::Leaf(Leaf::Close, _)));
    let inner = node.children.iter().map(|child| if let Element::Node(node) = child { unclosed(node) } else { 0 });
    usize::from(mine) + inner.sum::<usize>()
}
