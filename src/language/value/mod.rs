//! Reads what stands in a slot: values with their units, names, choices, sizes.

mod amount;
mod run;

use super::near::{nearest, or_list};
use super::read::{Context, Reader};
use super::statement::{At, SizeRange, Value};
use super::token::Row;
use super::tree::Leaf;
use super::vocabulary::{Arity, SlotDef, SlotKind, Thing};
use crate::finding::{FaultName, Finding};
use crate::measure::{Amount, Kind, System};
use crate::source::Span;
use amount::{amount, amounts, count, number};
use run::{size, sizes, width};

/// What a slot gives: a value with its place, nothing, or a fault.
pub(super) enum Taken {
    Value(Value, Span),
    Nothing,
    Fault(Box<Finding>),
}

type Read<T> = Result<Option<(T, Span)>, Box<Finding>>;

fn fault<T>(name: FaultName, span: Span, message: impl Into<String>) -> Result<T, Box<Finding>> {
    Err(Box::new(Finding::fault(name, span, message)))
}

impl<'t> Reader<'t> {
    /// Reads one slot at the cursor. Nothing means that no token there can belong to it.
    pub(super) fn slot(&mut self, row: &mut Row<'t>, def: &SlotDef, context: &Context<'_>) -> Taken {
        let read = match def.kind {
            SlotKind::Choice(words) => self.choice(row, words, context).map(wrap(Value::Word)),
            SlotKind::Choices(words) => {
                commas(row, context, |row| list(row, |row| self.choice(row, words, context))).map(wrap(Value::Words))
            }
            SlotKind::New(_) => name(row, None).map(wrap(Value::Name)),
            SlotKind::Free | SlotKind::Name(_) => one_name(row, context).map(wrap(Value::Name)),
            SlotKind::Names(_) => {
                commas(row, context, |row| list(row, |row| name(row, Some(context)))).map(wrap(Value::Names))
            }
            SlotKind::Amount(kind, arity) => amount(row, kind, arity, context).map(wrap(Value::Amount)),
            SlotKind::List(kind) => amounts(row, kind, context).map(wrap(Value::Amounts)),
            SlotKind::Pairs(words, kind) => self.pairs(row, words, kind, context).map(wrap(Value::Pairs)),
            SlotKind::ValueOrPairs(words, kind) => match row.word() {
                Some(word) if words.contains(&word) => self.pairs(row, words, kind, context).map(wrap(Value::Pairs)),
                _ => amount(row, kind, Arity::One, context).map(wrap(Value::Amount)),
            },
            SlotKind::Count => count(row, context).map(wrap(Value::Count)),
            SlotKind::Size => size(row).map(wrap(Value::Size)),
            SlotKind::Sizes => {
                sizes(row).map(|sizes| sizes.map(|((system, runs), span)| (Value::Sizes(system, runs), span)))
            }
            SlotKind::Widths => commas(row, context, |row| list(row, width)).map(wrap(Value::Widths)),
            SlotKind::Text => self.text_slot(row).map(wrap(Value::Text)),
        };
        match read {
            Ok(Some((value, span))) => Taken::Value(value, span),
            Ok(None) => Taken::Nothing,
            Err(finding) => Taken::Fault(finding),
        }
    }

    fn choice(
        &mut self,
        row: &mut Row<'t>,
        words: &'static [&'static str],
        context: &Context<'_>,
    ) -> Read<&'static str> {
        let Some(token) = row.peek().filter(|token| token.leaf == Leaf::Word) else { return Ok(None) };
        if let Some(word) = words.iter().find(|word| **word == token.text) {
            row.at += 1;
            return Ok(Some((word, token.span)));
        }
        if context.starts(token.text) {
            return Ok(None);
        }
        row.at += 1;
        let message = format!("`{}` must be {}, not `{}`", context.word, or_list(words), token.text);
        let Some(near) = nearest(token.text, words.iter().copied()) else {
            return fault(FaultName::WORD_CHOICE, token.span, message);
        };
        self.findings.push(
            Finding::fault(FaultName::WORD_CHOICE, token.span, message)
                .says(format!("taken as `{near}`"))
                .help(format!("write `{near}`")),
        );
        Ok(words.iter().find(|word| **word == near).map(|word| (*word, token.span)))
    }

    fn pairs(
        &mut self,
        row: &mut Row<'t>,
        words: &'static [&'static str],
        kind: Kind,
        context: &Context<'_>,
    ) -> Read<Vec<(&'static str, At<Amount>)>> {
        let mut pairs: Vec<(&'static str, At<Amount>)> = Vec::new();
        let mut whole: Option<Span> = None;
        loop {
            let Some((word, word_span)) = self.choice(row, words, context)? else {
                return Ok(whole.map(|span| (pairs, span)));
            };
            let context = Context { word, ..*context };
            let Some((value, span)) = amount(row, kind, Arity::One, &context)? else {
                return Err(Box::new(missing_amount(kind, word, word_span)));
            };
            if pairs.iter().any(|(known, _)| *known == word) {
                return fault(FaultName::STATEMENT_TWICE, word_span, format!("`{word}` stands twice here"));
            }
            pairs.push((word, At { it: value, span }));
            whole = Some(whole.unwrap_or(word_span).to(span));
            if row.next_if(Leaf::Comma).is_none() {
                return Ok(whole.map(|span| (pairs, span)));
            }
        }
    }

    fn text_slot(&mut self, row: &mut Row<'t>) -> Read<String> {
        let Some(token) = row.peek() else { return Ok(None) };
        let inner = match token.leaf {
            Leaf::Text => &token.text[1..token.text.len() - 1],
            Leaf::OpenText => {
                self.findings.push(
                    Finding::fault(FaultName::SHAPE_UNCLOSED_TEXT, token.span, "the text has no closing quote")
                        .says("it ends at the line's end")
                        .help("close it with `\"` on the same line"),
                );
                token.text[1..].trim_end()
            }
            _ => return Ok(None),
        };
        row.at += 1;
        if let Some(at) = inner.char_indices().find(|(_, c)| c.is_control() && *c != '\t').map(|(at, _)| at) {
            let start = token.span.start + 1 + u32::try_from(at).unwrap_or(0);
            let span = Span { start, end: start + 1, ..token.span };
            let finding = Finding::fault(FaultName::FILE_CONTROL, span, "a control character stands in the text");
            return Err(Box::new(finding.help("delete it")));
        }
        Ok(Some((inner.replace('\t', " "), token.span)))
    }
}

fn wrap<T>(into: impl Fn(T) -> Value) -> impl Fn(Option<(T, Span)>) -> Option<(Value, Span)> {
    move |read| read.map(|(value, span)| (into(value), span))
}

fn list<'t, T>(row: &mut Row<'t>, mut member: impl FnMut(&mut Row<'t>) -> Read<T>) -> Read<Vec<At<T>>> {
    let mut members = Vec::new();
    let mut whole: Option<Span> = None;
    let mut comma: Option<Span> = None;
    loop {
        let Some((it, span)) = member(row)? else { break };
        members.push(At { it, span });
        whole = Some(whole.map_or(span, |whole| whole.to(span)));
        comma = row.next_if(Leaf::Comma).map(|token| token.span);
        if comma.is_none() {
            break;
        }
    }
    match comma {
        Some(comma) => fault(FaultName::VALUE_MISSING, comma, "nothing of the list follows the comma"),
        None => Ok(whole.map(|span| (members, span))),
    }
}

/// A list of words, and nothing like a further member behind it.
fn commas<'t, T>(
    row: &mut Row<'t>,
    context: &Context<'_>,
    read: impl FnOnce(&mut Row<'t>) -> Read<Vec<At<T>>>,
) -> Read<Vec<At<T>>> {
    let found = read(row)?;
    let Some((_, span)) = &found else { return Ok(found) };
    let Some(next) = row.peek().filter(|next| next.leaf == Leaf::Word && !context.starts(next.text)) else {
        return Ok(found);
    };
    row.at += 1;
    let last = &row.tokens[row.at - 2];
    let finding =
        Finding::fault(FaultName::VALUE_SHAPE, span.to(next.span), "the members of a list have commas between them");
    Err(Box::new(finding.help(format!("write `{}, {}`", last.text, next.text))))
}

/// A name, with no number behind it that was meant as a part of it.
fn one_name(row: &mut Row<'_>, context: &Context<'_>) -> Read<String> {
    let Some((text, span)) = name(row, Some(context))? else { return Ok(None) };
    let Some(number) = row.peek().filter(|next| next.leaf == Leaf::Number && context.last) else {
        return Ok(Some((text, span)));
    };
    row.at += 1;
    let finding = Finding::fault(FaultName::NAME_SHAPE, span.to(number.span), "a name has no space in it");
    Err(Box::new(finding.help(format!("write `{text}-{}`", number.text))))
}

/// A name: small letter, then small letters, digits, hyphens. A name that refers to something is no word
/// that starts something in `context`; a new one may be.
fn name(row: &mut Row<'_>, context: Option<&Context<'_>>) -> Read<String> {
    let Some(token) = row.peek() else { return Ok(None) };
    if token.leaf != Leaf::Word {
        return Ok(None);
    }
    let numbered = row.peek_at(1).is_some_and(|next| next.leaf == Leaf::Number);
    let follows = |context: &Context<'_>| numbered && context.next.contains(&token.text);
    if context.is_some_and(|context| context.starts(token.text) || follows(context)) {
        return Ok(None);
    }
    row.at += 1;
    let shaped = token.text.starts_with(|c: char| c.is_ascii_lowercase())
        && token.text.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
    if !shaped {
        let mut finding = Finding::fault(FaultName::NAME_SHAPE, token.span, format!("`{}` is no name", token.text));
        finding = finding.help("a name starts with a small letter and has small letters, digits and hyphens");
        return Err(Box::new(finding));
    }
    Ok(Some((token.text.to_owned(), token.span)))
}

type Runs = (System, Vec<At<SizeRange>>);

/// "`wide` needs a length, such as `12 mm`"
pub(super) fn missing_amount(kind: Kind, word: &str, at: Span) -> Finding {
    let message = format!("`{word}` needs {}", kind.words());
    Finding::fault(FaultName::VALUE_MISSING, at, message).help(format!("such as `{word} {}`", kind.example()))
}

/// The fault of a slot that nothing fills.
pub(super) fn missing(def: &SlotDef, word: &str, at: Span) -> Finding {
    let says = |what: String| Finding::fault(FaultName::VALUE_MISSING, at, format!("`{word}` needs {what}"));
    match def.kind {
        SlotKind::Amount(kind, _) | SlotKind::List(kind) | SlotKind::ValueOrPairs(_, kind) => {
            missing_amount(kind, word, at)
        }
        SlotKind::Choice(words) | SlotKind::Choices(words) => says(or_list(words)),
        SlotKind::New(thing) => {
            Finding::fault(FaultName::NAME_MISSING, at, format!("the {} has no name", thing.word()))
        }
        SlotKind::Name(things) => {
            let words: Vec<&str> = things.iter().copied().map(Thing::word).collect();
            Finding::fault(
                FaultName::NAME_MISSING,
                at,
                format!("`{word}` needs the name of a {}", words.join(" or a ")),
            )
        }
        SlotKind::Names(thing) => {
            Finding::fault(FaultName::NAME_MISSING, at, format!("`{word}` needs the names of {}s", thing.word()))
        }
        SlotKind::Free => Finding::fault(FaultName::NAME_MISSING, at, format!("`{word}` needs a name")),
        SlotKind::Pairs(words, kind) => says(format!("{} by {}", kind.words(), or_list(words))),
        SlotKind::Count => says("a whole number".to_owned()),
        SlotKind::Size => says("a size, such as `us-men 9 D`".to_owned()),
        SlotKind::Sizes => says("a system and sizes, such as `us-men 6..12 by 1/2`".to_owned()),
        SlotKind::Widths => says("widths, such as `C, D, E`".to_owned()),
        SlotKind::Text => says("a text in quotes".to_owned()),
    }
}
