//! A draft to edits of the text: values are replaced where the model itself wrote them, and written into the model's
//! own block where it inherited them.

use super::place::{Way, collapsed, head_of, path};
use crate::finding::Change;
use crate::language::{Body, Statement, StatementKey};
use crate::source::{Edit, Sources, Span};
use crate::spec::{InForce, Merged};
use std::collections::BTreeMap;

/// What is done to one statement.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Act {
    /// It says this; its block, if it has one, stays. One that is not there yet comes with its block.
    Say(String),
    /// It is taken out.
    Drop,
}

/// Everything that is done to a model.
pub type Draft = BTreeMap<Way, Act>;

/// A model as it stands, to be edited.
pub struct Page<'p> {
    /// The texts.
    pub sources: &'p Sources,
    /// Its name.
    pub model: &'p str,
    /// What it says itself.
    pub own: &'p Body,
    /// What is in force.
    pub merged: &'p Merged,
    /// What it would say if it said nothing itself.
    pub under: Option<&'p Merged>,
}

/// A step of a draft, with what is left of its way.
type Entry<'d> = (&'d [StatementKey], &'d Way, &'d Act);

impl Page<'_> {
    /// The edits that make a draft, in the order of their ways. Those that insert at one place belong behind each
    /// other as they come.
    pub fn changes(&self, draft: &Draft) -> Vec<Change> {
        let entries: Vec<Entry<'_>> = draft.iter().map(|(way, act)| (way.as_slice(), way, act)).collect();
        let mut edits = Vec::new();
        self.block(self.own, &entries, &mut edits);
        edits.into_iter().map(|(way, edit)| self.change(way, edit, &draft[way])).collect()
    }

    fn change(&self, way: &Way, edit: Edit, act: &Act) -> Change {
        let old = find(self.merged, way).map(|force| self.text(&force.statement)).unwrap_or_default();
        let new = if let Act::Say(text) = act { collapsed(text) } else { String::new() };
        Change { edit, path: path(self.model, way).into(), old, new }
    }

    fn text(&self, statement: &Statement) -> String {
        collapsed(self.sources.slice(head_of(statement)))
    }

    fn block<'d>(&self, own: &Body, entries: &[Entry<'d>], edits: &mut Vec<(&'d Way, Edit)>) {
        for group in grouped(entries) {
            let here = own.statements.iter().find(|statement| statement.key() == group[0].0[0]);
            let Some(statement) = here else {
                self.insert(own, group, edits);
                continue;
            };
            // The shortest way comes first: the statement itself.
            let (itself, deeper) = group.split_at(usize::from(group[0].0.len() == 1));
            for (_, way, act) in itself {
                edits.push((way, self.in_place(own, statement, way, act)));
            }
            if let Some(body) = &statement.block {
                let inner: Vec<Entry<'d>> = deeper.iter().map(|(rest, way, act)| (&rest[1..], *way, *act)).collect();
                self.block(body, &inner, edits);
            }
        }
    }

    fn in_place(&self, own: &Body, statement: &Statement, way: &Way, act: &Act) -> Edit {
        match act {
            Act::Say(text) => self.differing(head_of(statement), text),
            Act::Drop if self.under.is_some_and(|under| find(under, way).is_some()) => {
                let key = &way[way.len() - 1];
                Edit { span: statement.span, text: format!("without {key}") }
            }
            Act::Drop => Edit { span: self.whole(own, statement.span), text: String::new() },
        }
    }

    /// Only the tokens that differ are replaced.
    fn differing(&self, head: Span, new: &str) -> Edit {
        let old = self.sources.slice(head);
        let blank = |text: &str, at: usize| text[..at].ends_with(char::is_whitespace) || at == 0;
        let mut start = old.bytes().zip(new.bytes()).take_while(|(a, b)| a == b).count();
        while !old.is_char_boundary(start) || !blank(old, start) {
            start -= 1;
        }
        let most = old.len().min(new.len()) - start;
        let mut end = old.bytes().rev().zip(new.bytes().rev()).take(most).take_while(|(a, b)| a == b).count();
        let starts = |text: &str, end: usize| {
            let at = text.len() - end;
            end == 0 || text.is_char_boundary(at) && text[at..].starts_with(|c: char| c.is_whitespace() || c == ',')
        };
        while !starts(old, end) || !starts(new, end) {
            end -= 1;
        }
        let span = Span { start: head.start + offset(start), end: head.end - offset(end), ..head };
        Edit { span, text: new[start..new.len() - end].to_owned() }
    }

    /// A statement with what parts it from its neighbours; a comment beside it stays.
    fn whole(&self, own: &Body, statement: Span) -> Span {
        let text = &self.sources.get(statement.source).text;
        let (mut start, mut end) = (statement.range().start, statement.range().end);
        let line = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let alone = text[line..start].trim().is_empty();
        let behind = text[end..].find('\n').map_or(text.len(), |at| end + at + 1);
        let after = text[end..].trim_start_matches([' ', '\t']);
        if alone && text[end..behind].trim().is_empty() && line > own.open.range().end.saturating_sub(1) {
            (start, end) = (line, behind);
        } else if let Some(next) = after.strip_prefix(';') {
            end = text.len() - next.trim_start_matches([' ', '\t']).len();
        } else if let Some(before) = text[..start].trim_end_matches([' ', '\t']).strip_suffix(';') {
            start = before.len();
        }
        Span { start: offset(start), end: offset(end), ..statement }
    }

    /// Statements that are not there are written behind the last one of the block, as its neighbours are.
    fn insert<'d>(&self, own: &Body, group: &[Entry<'d>], edits: &mut Vec<(&'d Way, Edit)>) {
        let (rest, way, act) = group[0];
        let removal = own.removals.iter().find(|removal| removal.key == rest[0]);
        if let (1, [_], Act::Say(text), Some(removal)) = (rest.len(), group, act, removal) {
            edits.push((way, Edit { span: removal.span, text: collapsed(text) }));
            return;
        }
        let mut pieces = self.nested(&way[..=way.len() - rest.len()], group);
        let (at, lead, trail) = self.spot(own);
        if let Some((_, first)) = pieces.first_mut() {
            first.insert_str(0, &lead);
        }
        if let Some((_, last)) = pieces.last_mut() {
            last.push_str(&trail);
        }
        let span = Span { start: at, end: at, ..own.span };
        edits.extend(pieces.into_iter().map(|(way, text)| (way, Edit { span, text })));
    }

    /// The texts that, one behind the other, are the statement at `at` with everything that the entries say of it.
    fn nested<'d>(&self, at: &[StatementKey], group: &[Entry<'d>]) -> Vec<(&'d Way, String)> {
        if let [(rest, way, act)] = group
            && rest.len() == 1
        {
            let said = match act {
                Act::Say(text) => collapsed(text),
                Act::Drop => format!("without {}", rest[0]),
            };
            return vec![(*way, said)];
        }
        let deeper = group.iter().filter(|entry| entry.0.len() > 1);
        let inner: Vec<Entry<'d>> = deeper.map(|(rest, way, act)| (&rest[1..], *way, *act)).collect();
        let mut pieces: Vec<(&'d Way, String)> = Vec::new();
        for group in grouped(&inner) {
            let mut at = at.to_vec();
            at.push(group[0].0[0].clone());
            let mut more = self.nested(&at, group);
            if !pieces.is_empty() {
                more[0].1.insert_str(0, ";  ");
            }
            pieces.extend(more);
        }
        // What stands there now, or what the draft makes of it.
        let said = group.iter().find(|entry| entry.0.len() == 1).and_then(|(_, _, act)| match act {
            Act::Say(text) => Some(collapsed(text)),
            Act::Drop => None,
        });
        let head = said.or_else(|| find(self.merged, at).map(|force| self.text(&force.statement))).unwrap_or_default();
        if let Some((_, first)) = pieces.first_mut() {
            first.insert_str(0, &format!("{head} {{ "));
        }
        if let Some((_, last)) = pieces.last_mut() {
            last.push_str(" }");
        }
        pieces
    }

    /// Where a further statement of a block goes, with what stands before and behind it.
    fn spot(&self, own: &Body) -> (u32, String, String) {
        let text = &self.sources.get(own.span.source).text;
        let close = own.span.range().end - 1;
        let line = text[..close].rfind('\n').map_or(0, |at| at + 1);
        let ends = own.statements.iter().map(|statement| statement.span.end);
        let last = ends.chain(own.removals.iter().map(|removal| removal.span.end)).max();
        if line > own.open.range().start && text[line..close].trim().is_empty() {
            let newline = if text[..line].ends_with("\r\n") { "\r\n" } else { "\n" };
            let closing = &text[line..close];
            let first = own.statements.iter().map(|statement| statement.word.start).min();
            let indent = first.map(|at| at as usize).and_then(|at| indent(&text[..at]));
            let lead = indent.unwrap_or_else(|| format!("{closing}  "));
            return (offset(line), lead, newline.to_owned());
        }
        if let Some(last) = last {
            return (last, ";  ".to_owned(), String::new());
        }
        let trail = if text[own.open.range().end..].starts_with('}') { " " } else { "" };
        (own.open.end, " ".to_owned(), trail.to_owned())
    }
}

/// The white space that a line starts with, if nothing else stands before its end.
fn indent(before: &str) -> Option<String> {
    let line = before.rfind('\n').map_or(0, |at| at + 1);
    before[line..].trim().is_empty().then(|| before[line..].to_owned())
}

fn offset(at: usize) -> u32 {
    // Texts are bounded to 16 MiB where they are read.
    u32::try_from(at).unwrap_or(u32::MAX)
}

/// Entries by the statement that they go through next.
fn grouped<'e, 'd>(entries: &'e [Entry<'d>]) -> impl Iterator<Item = &'e [Entry<'d>]> {
    entries.chunk_by(|a, b| a.0[0] == b.0[0])
}

/// The statement at the end of a way.
pub fn find<'m>(merged: &'m Merged, way: &[StatementKey]) -> Option<&'m InForce> {
    let (first, rest) = way.split_first()?;
    let force = merged.statements.iter().find(|force| force.statement.key() == *first)?;
    if rest.is_empty() { Some(force) } else { find(force.block.as_ref()?, rest) }
}
