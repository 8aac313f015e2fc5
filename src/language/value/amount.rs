//! Reads amounts: numbers with their units, ranges and tolerances, and what people write in their place.

use super::{Read, fault, list};
use crate::finding::{FaultName, Finding};
use crate::language::near::{all_nearest, or_list};
use crate::language::read::Context;
use crate::language::statement::At;
use crate::language::token::{Row, Token};
use crate::language::tree::Leaf;
use crate::language::vocabulary::Arity;
use crate::measure::{
    Amount, AmountFault, Kind, MAX_DIGITS, Number, NumberFault, Quantity, Shape, Unit, parse_number, to_f64,
};
use crate::source::Span;

/// A number token as a number.
pub(super) fn number(token: Token<'_>) -> Result<Number, Box<Finding>> {
    parse_number(token.text).map_err(|why| {
        let message = match why {
            NumberFault::TooLong => format!("a number has at most {MAX_DIGITS} digits before and after its point"),
            NumberFault::ZeroBelow => format!("`{}` divides by nothing", token.text),
            NumberFault::NotANumber => format!("`{}` is no number", token.text),
        };
        Box::new(Finding::fault(FaultName::VALUE_NUMBER, token.span, message))
    })
}

/// A number with its unit, as far as there is one.
fn quantity(row: &mut Row<'_>, kind: Kind, context: &Context<'_>) -> Read<Quantity> {
    let Some(token) = row.next_if(Leaf::Number) else { return Ok(None) };
    let number_read = number(token)?;
    if let Some(mark) = row.next_if(Leaf::InchMark) {
        let finding = Finding::fault(FaultName::VALUE_SHAPE, token.span.to(mark.span), "inches are written `in`")
            .help(format!("write `{} in`", token.text));
        return Err(Box::new(finding));
    }
    let Some(word) = row.peek().filter(|word| word.leaf == Leaf::Word) else {
        return Ok(Some((Quantity { number: number_read, unit: None }, token.span)));
    };
    if let Some(unit) = Unit::parse(word.text) {
        row.at += 1;
        return Ok(Some((Quantity { number: number_read, unit: Some(unit) }, token.span.to(word.span))));
    }
    let range = word.text == "to" && row.peek_at(1).is_some_and(|next| next.leaf == Leaf::Number);
    if kind == Kind::Number && !word.touches || context.starts(word.text) || range {
        return Ok(Some((Quantity { number: number_read, unit: None }, token.span)));
    }
    row.at += 1;
    let units = kind.units();
    let mut finding = Finding::fault(FaultName::VALUE_UNIT, word.span, format!("`{}` is no unit", word.text));
    let taken = Unit::ALL.iter().filter(|unit| kind.takes(**unit)).flat_map(|unit| unit.spellings().iter().copied());
    finding = match all_nearest(word.text, taken)[..] {
        [near] => finding.help(format!("write `{} {near}`", token.text)),
        _ if units.is_empty() => finding.help("no unit is wanted here"),
        _ => finding.help(format!("{} is written in {}", kind.words(), or_list(&units))),
    };
    Err(Box::new(finding))
}

/// A value of a kind: exact, a range, or toleranced, as the slot's arity allows.
pub(super) fn amount(row: &mut Row<'_>, kind: Kind, arity: Arity, context: &Context<'_>) -> Read<Amount> {
    before_number(row, kind, context)?;
    let Some((first, first_span)) = quantity(row, kind, context)? else { return Ok(None) };
    odd_spellings(row, kind, first, first_span, context)?;
    let (shape, span) = if row.next_if(Leaf::Dots).is_some() {
        let Some((second, span)) = quantity(row, kind, context)? else {
            return fault(FaultName::VALUE_MISSING, first_span, "the range has no upper end");
        };
        let first = Quantity { unit: first.unit.or(second.unit), ..first };
        (Shape::Range(first, second), first_span.to(span))
    } else if let Some(sign) = row.next_if(Leaf::PlusMinus) {
        let Some((second, span)) = quantity(row, kind, context)? else {
            return fault(FaultName::VALUE_MISSING, first_span.to(sign.span), "no tolerance follows the `+-`");
        };
        let first = Quantity { unit: first.unit.or(second.unit), ..first };
        (Shape::Toleranced(first, second), first_span.to(span))
    } else {
        (Shape::Exact(first), first_span)
    };
    let amount = judged(kind, shape, span, context)?;
    let allowed = match arity {
        Arity::One => matches!(shape, Shape::Exact(_)),
        Arity::Spread => true,
        Arity::Window => !matches!(shape, Shape::Toleranced(..)),
    };
    if !allowed {
        let wanted = if arity == Arity::One { "one exact value" } else { "a range, such as `4..8`," };
        return fault(FaultName::VALUE_SHAPE, span, format!("`{}` takes {wanted} and no tolerance", context.word));
    }
    Ok(Some((amount, span)))
}

/// Kinds of both ends, then what the ends say of each other.
fn judged(kind: Kind, shape: Shape, span: Span, context: &Context<'_>) -> Result<Amount, Box<Finding>> {
    let (a, b) = match shape {
        Shape::Exact(a) => (a, None),
        Shape::Range(a, b) | Shape::Toleranced(a, b) => (a, Some(b)),
    };
    right_kind(kind, a, span, context)?;
    if let Some(b) = b
        && !(matches!(shape, Shape::Toleranced(..)) && b.unit == Some(Unit::Percent))
    {
        right_kind(kind, b, span, context)?;
    }
    let amount = Amount::new(kind, shape).map_err(|why| {
        let message = match why {
            AmountFault::UpsideDown => "the range is upside down: the smaller end comes first",
            AmountFault::ToleranceTooLarge => "the tolerance is larger than the value",
            AmountFault::OverHundred => "a share is at most 100 %",
            AmountFault::Zero => "the value can't be nothing",
        };
        Box::new(Finding::fault(FaultName::VALUE_RANGE, span, message))
    })?;
    within(&amount, span, context)?;
    Ok(amount)
}

/// A value that no boot, machine or last can have is refused where it stands.
fn within(amount: &Amount, span: Span, context: &Context<'_>) -> Result<(), Box<Finding>> {
    let (lo, _, hi) = amount.ends();
    let (lo, hi) = (to_f64(lo), to_f64(hi));
    let (least, most) = amount.kind.bounds();
    let (below, least, most) = match context.bounds {
        Some(bounds) => (lo < bounds.least, bounds.least, bounds.most),
        None => (lo < least && lo != 0.0, least, most),
    };
    if !below && hi <= most {
        return Ok(());
    }
    let unit = amount.kind.base_unit();
    let message = format!("`{}` must be between {least} and {most} {unit}", context.word);
    fault(FaultName::VALUE_NONSENSE, span, message.trim_end())
}

fn right_kind(kind: Kind, quantity: Quantity, span: Span, context: &Context<'_>) -> Result<(), Box<Finding>> {
    let word = context.word;
    match quantity.unit {
        Some(unit) if kind.takes(unit) => Ok(()),
        None if kind == Kind::Number => Ok(()),
        Some(unit) => {
            let message =
                format!("`{word}` needs {}; a number in `{}` is {}", kind.words(), unit.name(), unit.kind().words());
            let help = if kind == Kind::Number {
                "leave the unit out".to_owned()
            } else {
                format!("write it in {}, such as `{}`", or_list(&kind.units()), kind.example())
            };
            Err(Box::new(Finding::fault(FaultName::VALUE_KIND, span, message).help(help)))
        }
        None => {
            let message = format!("`{word}` needs {}; the number has no unit", kind.words());
            let help = format!("add {}", or_list(&kind.units()));
            Err(Box::new(Finding::fault(FaultName::VALUE_NO_UNIT, span, message).help(help)))
        }
    }
}

/// What people put before a number: a sign, the unit, a `#`.
fn before_number(row: &mut Row<'_>, kind: Kind, context: &Context<'_>) -> Result<(), Box<Finding>> {
    let (Some(first), Some(second)) = (row.peek(), row.peek_at(1)) else { return Ok(()) };
    if second.leaf != Leaf::Number {
        return Ok(());
    }
    if first.leaf == Leaf::Word
        && Unit::parse(first.text).is_some_and(|unit| kind.takes(unit))
        && !context.starts(first.text)
    {
        row.at += 2;
        let message = "the unit comes after the number";
        let help = format!("write `{} {}`", second.text, first.text);
        return Err(Box::new(Finding::fault(FaultName::VALUE_SHAPE, first.span.to(second.span), message).help(help)));
    }
    if first.leaf == Leaf::Junk && matches!(first.text, "-" | "+" | "−") {
        let rest = skip_quantity(row, 1);
        let finding = Finding::fault(FaultName::VALUE_SHAPE, first.span.to(rest), "a number has no sign here");
        return Err(Box::new(finding.help("leave the sign out")));
    }
    Ok(())
}

/// Passes a number and its unit, `ahead` tokens on, and says where they end.
fn skip_quantity(row: &mut Row<'_>, ahead: usize) -> Span {
    row.at += ahead;
    let mut last = row.last();
    while let Some(token) = row.peek() {
        let passes = token.leaf == Leaf::Number || (token.leaf == Leaf::Word && Unit::parse(token.text).is_some());
        if !passes {
            break;
        }
        row.at += 1;
        last = Some(token.span);
    }
    last.unwrap_or_else(|| row.tokens[0].span)
}

/// Ways of writing that the language does not have, each with its mending.
fn odd_spellings(
    row: &mut Row<'_>,
    kind: Kind,
    first: Quantity,
    span: Span,
    context: &Context<'_>,
) -> Result<(), Box<Finding>> {
    let (Some(sign), Some(second)) = (row.peek(), row.peek_at(1)) else { return Ok(()) };
    if second.leaf != Leaf::Number {
        return Ok(());
    }
    let shown = first.number.written_alike(first.number.value);
    let (message, glue) = if sign.leaf == Leaf::Junk && matches!(sign.text, "-" | "–" | "—" | "−" | "…") {
        if sign.text != "…" && second.text.contains('/') && first.unit.is_none() {
            ("a mixed number is written with a space", " ")
        } else {
            ("a range is written with two points", "..")
        }
    } else if sign.leaf == Leaf::Word
        && sign.text == "to"
        && first.unit.is_none()
        && kind != Kind::Number
        && !context.starts("to")
    {
        ("a range is written with two points", "..")
    } else if sign.leaf == Leaf::Comma && sign.touches && second.touches && first.unit.is_none() && context.single {
        ("a decimal is written with a point", ".")
    } else {
        return Ok(());
    };
    row.at += 1;
    let from = row.at;
    let rest = skip_quantity(row, 0);
    let behind: Vec<&str> = row.tokens[from..row.at].iter().map(|token| token.text).collect();
    let help = format!("write `{shown}{glue}{}`", behind.join(" "));
    Err(Box::new(Finding::fault(FaultName::VALUE_SHAPE, span.to(rest), message).help(help)))
}

/// A comma list of exact values; the last carries the unit for those that have none.
pub(super) fn amounts(row: &mut Row<'_>, kind: Kind, context: &Context<'_>) -> Read<Vec<At<Amount>>> {
    let context = &Context { single: false, ..*context };
    let Some((quantities, span)) = list(row, |row| quantity(row, kind, context))? else { return Ok(None) };
    let unit = quantities.last().and_then(|last| last.it.unit);
    let mut amounts = Vec::with_capacity(quantities.len());
    for At { it, span } in quantities {
        let shape = Shape::Exact(Quantity { unit: it.unit.or(unit), ..it });
        let it = judged(kind, shape, span, context)?;
        if amounts.iter().any(|known: &At<Amount>| known.it.exact() == it.exact()) {
            return fault(FaultName::STATEMENT_TWICE, span, "this value stands twice in the list");
        }
        amounts.push(At { it, span });
    }
    Ok(Some((amounts, span)))
}

pub(super) fn count(row: &mut Row<'_>, context: &Context<'_>) -> Read<u32> {
    let Some((amount, span)) = amount(row, Kind::Number, Arity::One, context)? else { return Ok(None) };
    let value = amount.exact();
    match u32::try_from(value.to_integer()) {
        Ok(whole) if value.is_integer() => Ok(Some((whole, span))),
        _ => fault(FaultName::VALUE_SHAPE, span, format!("`{}` needs a whole number", context.word)),
    }
}
