//! Sizes and widths, runs of them, and the systems that they are counted in.

use super::{Read, Runs, fault, list, number};
use crate::finding::{FaultName, Finding};
use crate::language::near::or_list;
use crate::language::statement::SizeRange;
use crate::language::token::{Row, Token};
use crate::language::tree::Leaf;
use crate::measure::{Exact, Size, System, Width, parse_width};

pub(super) fn system(row: &mut Row<'_>) -> Read<System> {
    let Some(token) = row.peek() else { return Ok(None) };
    if token.leaf == Leaf::Number {
        let names: Vec<&str> = System::ALL.iter().map(|system| system.name()).collect();
        row.at += 1;
        let finding = Finding::fault(FaultName::VALUE_MISSING, token.span, "the size has no system")
            .help(format!("write one of {} before it", or_list(&names)));
        return Err(Box::new(finding));
    }
    if token.leaf != Leaf::Word {
        return Ok(None);
    }
    row.at += 1;
    if let Some(system) = System::parse(token.text) {
        return Ok(Some((system, token.span)));
    }
    let names: Vec<&str> = System::ALL.iter().map(|system| system.name()).collect();
    let message = format!("a size system is {}, not `{}`", or_list(&names), token.text);
    fault(FaultName::WORD_CHOICE, token.span, message)
}

pub(super) fn size(row: &mut Row<'_>) -> Read<Size> {
    let Some((system, system_span)) = system(row)? else { return Ok(None) };
    let Some(token) = row.next_if(Leaf::Number) else {
        return fault(FaultName::VALUE_MISSING, system_span, "the size has no number");
    };
    let number = size_number(token)?;
    let Some((width, span)) = width(row)? else {
        return fault(FaultName::VALUE_MISSING, system_span.to(token.span), "the size has no width");
    };
    Ok(Some((Size { system, number, width }, system_span.to(span))))
}

/// A number of a size, or a step between sizes: no larger than any foot in mm, no finer than a twelfth.
pub(super) fn size_number(token: Token<'_>) -> Result<Exact, Box<Finding>> {
    let value = number(token)?.value;
    if *value.denom() <= 12 && value < Exact::from_integer(1000) {
        return Ok(value);
    }
    let message = format!("there is no shoe size `{}`", token.text);
    let finding = Finding::fault(FaultName::VALUE_NONSENSE, token.span, message);
    Err(Box::new(finding.help("sizes are below 1000, whole or in parts no finer than a twelfth")))
}

pub(super) fn sizes(row: &mut Row<'_>) -> Read<Runs> {
    let Some((system, system_span)) = system(row)? else { return Ok(None) };
    let Some((runs, span)) = list(row, size_range)? else {
        return fault(FaultName::VALUE_MISSING, system_span, "no sizes follow the system");
    };
    if let Some(letter) = row.peek().filter(|next| parse_width(next.text).is_some()) {
        row.at += 1;
        let finding = Finding::fault(FaultName::VALUE_SHAPE, letter.span, "widths stand behind the word `widths`");
        return Err(Box::new(finding.help(format!("write `widths {}`", letter.text.to_uppercase()))));
    }
    Ok(Some(((system, runs), system_span.to(span))))
}

pub(super) fn size_range(row: &mut Row<'_>) -> Read<SizeRange> {
    let Some(first) = row.next_if(Leaf::Number) else { return Ok(None) };
    let from = size_number(first)?;
    let one = Exact::from_integer(1);
    if let (Some(sign), Some(end)) = (row.peek(), row.peek_at(1))
        && end.leaf == Leaf::Number
        && matches!(sign.text, "-" | "–" | "—" | "−" | "to" | "…")
    {
        row.at += 2;
        let span = first.span.to(end.span);
        let finding = Finding::fault(FaultName::VALUE_SHAPE, span, "a run of sizes is written with two points");
        return Err(Box::new(finding.help(format!("write `{}..{}`", first.text, end.text))));
    }
    if row.next_if(Leaf::Dots).is_none() {
        return Ok(Some((SizeRange { from, to: from, by: one }, first.span)));
    }
    let Some(second) = row.next_if(Leaf::Number) else {
        return fault(FaultName::VALUE_MISSING, first.span, "the run of sizes has no end");
    };
    let to = size_number(second)?;
    let mut span = first.span.to(second.span);
    let mut by = one;
    if row.word() == Some("by") {
        let word = row.tokens[row.at].span;
        row.at += 1;
        let Some(step) = row.next_if(Leaf::Number) else {
            return fault(FaultName::VALUE_MISSING, word, "`by` needs the step between sizes, such as `1/2`");
        };
        by = size_number(step)?;
        span = span.to(step.span);
    }
    if by <= Exact::from_integer(0) {
        return fault(FaultName::SIZE_STEP, span, "the step between sizes can't be nothing");
    }
    if from > to {
        return fault(FaultName::VALUE_RANGE, span, "the run of sizes is upside down: the smaller comes first");
    }
    Ok(Some((SizeRange { from, to, by }, span)))
}

/// `D`, `ee`, or `2E` (a number that touches its letter).
pub(super) fn width(row: &mut Row<'_>) -> Read<Width> {
    let Some(token) = row.peek() else { return Ok(None) };
    let (text, span) = match (token.leaf, row.peek_at(1)) {
        (Leaf::Number, Some(letter)) if letter.leaf == Leaf::Word && letter.touches => {
            row.at += 2;
            (format!("{}{}", token.text, letter.text), token.span.to(letter.span))
        }
        (Leaf::Word, _) => {
            row.at += 1;
            (token.text.to_owned(), token.span)
        }
        _ => return Ok(None),
    };
    if let Some(width) = parse_width(&text) {
        return Ok(Some((width, span)));
    }
    let names: Vec<&str> = Width::ALL.iter().map(|width| width.name()).collect();
    fault(FaultName::WORD_CHOICE, span, format!("`{text}` is no width; widths are {}", or_list(&names)))
}
