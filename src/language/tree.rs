//! Text to lossless tree. Total: any text has a tree, and its leaves joined are the text.

use pest::Parser;
use pest::error::InputLocation;
use pest::iterators::Pair;
use std::ops::Range;

/// How deep blocks may be nested.
pub const MAX_DEPTH: usize = 64;

mod shape {
    //! What pest derives from the grammar: a parser and a rule for each of its lines.
    #![allow(missing_docs, reason = "derived")]

    #[derive(pest_derive::Parser)]
    #[grammar = "../grammar/hobnail.pest"]
    pub struct Shape;
}

use shape::{Rule, Shape};

/// What a leaf is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "named after the grammar's rules")]
pub enum Leaf {
    Bom,
    Space,
    Newline,
    Comment,
    Semicolon,
    Comma,
    Open,
    Close,
    Dots,
    PlusMinus,
    InchMark,
    Hash,
    Number,
    Word,
    Text,
    OpenText,
    Junk,
    /// A whole text that was too deep to be read.
    Unread,
}

impl Leaf {
    /// White space, comments and the like: kept, and without meaning.
    #[must_use]
    pub fn is_trivia(self) -> bool {
        matches!(self, Leaf::Bom | Leaf::Space | Leaf::Newline | Leaf::Comment | Leaf::Semicolon)
    }
}

/// What an inner node is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Branch {
    /// The whole text.
    File,
    /// The tokens of one line or less, with the block that they open.
    Row,
    /// `{ … }`
    Block,
}

/// A node with its children, or a leaf with its bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Element {
    /// An inner node.
    Node(Node),
    /// A leaf.
    Leaf(Leaf, Range<u32>),
}

/// An inner node of the tree.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// What it is.
    pub branch: Branch,
    /// The bytes that it covers.
    pub range: Range<u32>,
    /// In the order of the text.
    pub children: Vec<Element>,
}

impl Node {
    /// All leaves below, in the order of the text.
    pub fn leaves(&self, out: &mut Vec<(Leaf, Range<u32>)>) {
        for child in &self.children {
            match child {
                Element::Node(node) => node.leaves(out),
                Element::Leaf(leaf, range) => out.push((*leaf, range.clone())),
            }
        }
    }
}

/// A parsed text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parsed {
    /// The tree.
    pub tree: Node,
    /// The `{` that lies deeper than [`MAX_DEPTH`]; the tree is then one leaf, [`Leaf::Unread`].
    pub too_deep: Option<u32>,
}

/// Parses any text.
#[must_use]
pub fn parse(text: &str) -> Parsed {
    let mut children = Vec::new();
    let too_deep = match Shape::parse(Rule::file, text) {
        Ok(mut pairs) => pairs.next().and_then(|file| gather(file, 0, &mut children).err()),
        // The grammar matches every text, so the only error left is pest's own limit of depth.
        // Where it strikes depends on the machine's stack, so the place is found by counting braces.
        Err(error) => Some(deepest(text).unwrap_or_else(|| match error.location {
            InputLocation::Pos(at) | InputLocation::Span((at, _)) => offset(at),
        })),
    };
    let all = 0..offset(text.len());
    if too_deep.is_some() {
        children = vec![Element::Leaf(Leaf::Unread, all.clone())];
    }
    Parsed { tree: Node { branch: Branch::File, range: all, children }, too_deep }
}

/// The first `{` deeper than [`MAX_DEPTH`], by counting braces alone.
fn deepest(text: &str) -> Option<u32> {
    let mut depth = 0_usize;
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            b'{' if depth == MAX_DEPTH => return Some(offset(at)),
            b'{' => depth += 1,
            b'}' => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    None
}

fn offset(at: usize) -> u32 {
    // Texts are bounded to 16 MiB where they are read.
    u32::try_from(at).unwrap_or(u32::MAX)
}

/// Moves pest's pairs into nodes; the error is the place of a `{` that lies too deep.
fn gather(pair: Pair<'_, Rule>, depth: usize, out: &mut Vec<Element>) -> Result<(), u32> {
    for inner in pair.into_inner() {
        let span = inner.as_span();
        let range = offset(span.start())..offset(span.end());
        let Some(branch) = branch(inner.as_rule()) else {
            if let Some(leaf) = leaf(inner.as_rule()) {
                push_leaf(out, leaf, range);
            }
            continue;
        };
        let depth = depth + usize::from(branch == Branch::Block);
        if depth > MAX_DEPTH {
            return Err(range.start);
        }
        let mut children = Vec::new();
        gather(inner, depth, &mut children)?;
        out.push(Element::Node(Node { branch, range, children }));
    }
    Ok(())
}

fn push_leaf(out: &mut Vec<Element>, leaf: Leaf, range: Range<u32>) {
    if let (Leaf::Junk, Some(Element::Leaf(Leaf::Junk, last))) = (leaf, out.last_mut()) {
        last.end = range.end;
        return;
    }
    out.push(Element::Leaf(leaf, range));
}

fn branch(rule: Rule) -> Option<Branch> {
    match rule {
        Rule::row => Some(Branch::Row),
        Rule::block => Some(Branch::Block),
        _ => None,
    }
}

fn leaf(rule: Rule) -> Option<Leaf> {
    Some(match rule {
        Rule::bom => Leaf::Bom,
        Rule::space => Leaf::Space,
        Rule::newline => Leaf::Newline,
        Rule::comment => Leaf::Comment,
        Rule::semicolon => Leaf::Semicolon,
        Rule::comma => Leaf::Comma,
        Rule::open => Leaf::Open,
        Rule::close => Leaf::Close,
        Rule::dots => Leaf::Dots,
        Rule::plus_minus => Leaf::PlusMinus,
        Rule::inch_mark => Leaf::InchMark,
        Rule::hash => Leaf::Hash,
        Rule::number => Leaf::Number,
        Rule::word => Leaf::Word,
        Rule::text => Leaf::Text,
        Rule::open_text => Leaf::OpenText,
        Rule::junk => Leaf::Junk,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn joined(text: &str) -> String {
        let mut leaves = Vec::new();
        parse(text).tree.leaves(&mut leaves);
        leaves.iter().map(|(_, range)| &text[range.start as usize..range.end as usize]).collect()
    }

    #[test]
    fn leaves_joined_are_the_text() {
        for text in [
            "",
            "\u{FEFF}shop \"x\" {\r\n\tpaper a4; print trade,\r\n metric # both\n}\n",
            "a { b { } } } c",
            "part \"vamp {\n",
            "3/8\" 1-1/2 in ± +- .. ... 10½ d\0",
            "thread #138\nlayer#x",
        ] {
            assert_eq!(joined(text), text);
        }
    }

    #[test]
    fn depth_is_bounded_whatever_the_nesting() {
        assert_eq!(parse(&"a {\n".repeat(MAX_DEPTH)).too_deep, None);
        for levels in [MAX_DEPTH + 1, 1_000, 100_000] {
            let deep = "a {\n".repeat(levels);
            assert!(parse(&deep).too_deep.is_some(), "{levels}");
            assert_eq!(joined(&deep), deep);
        }
        assert_eq!(parse(&"part x { of y }\n".repeat(1000)).too_deep, None);
    }
}
