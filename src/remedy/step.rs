//! What the trade can set: the steps of a value, and a value one step on in the form that its author used.

use crate::language::Value;
use crate::language::vocabulary::Mark;
use crate::measure::{Amount, Exact, Form, Number, Quantity, Shape, Unit, exact};

/// Which end of an amount is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// An exact value, or the nominal of a toleranced one.
    Value,
    /// The lower end of a range.
    Low,
    /// The upper end of a range.
    High,
    /// The tolerance.
    Tolerance,
}

/// A number in a slot that can be set: its text with what stands before and behind it in the slot.
#[derive(Clone, Debug)]
pub struct Setting {
    quantity: Quantity,
    step: Exact,
    before: String,
    after: String,
}

/// A step of the trade in the unit that was written.
fn step(marks: &[Mark], unit: Option<Unit>) -> Option<Exact> {
    marks.iter().find(|(of, _)| *of == unit).map(|(_, (above, below))| exact(*above, *below))
}

/// The numbers of a value that can be set, given the text of its slot and the marks that it is set by.
pub fn settings(value: &Value, text: &str, marks: &[Mark]) -> Vec<(End, Setting)> {
    match value {
        Value::Amount(amount) => of_amount(amount, text, marks),
        Value::Count(count) => {
            let quantity = Quantity { number: Number::whole(i64::from(*count)), unit: None };
            let whole = |step| Setting { quantity, step, before: String::new(), after: String::new() };
            step(marks, None).map(|step| (End::Value, whole(step))).into_iter().collect()
        }
        _ => Vec::new(),
    }
}

fn of_amount(amount: &Amount, text: &str, marks: &[Mark]) -> Vec<(End, Setting)> {
    let set = |end, quantity, part: &str| Setting::of(marks, quantity, text, part).map(|setting| (end, setting));
    match amount.shape {
        Shape::Exact(quantity) => set(End::Value, quantity, text).into_iter().collect(),
        Shape::Range(low, high) => {
            let Some((first, second)) = text.split_once("..") else { return Vec::new() };
            [set(End::Low, low, first), set(End::High, high, second)].into_iter().flatten().collect()
        }
        Shape::Toleranced(value, tolerance) => {
            let sign = if text.contains('\u{b1}') { "\u{b1}" } else { "+-" };
            let Some((first, second)) = text.split_once(sign) else { return Vec::new() };
            let both = [set(End::Value, value, first), set(End::Tolerance, tolerance, second)];
            both.into_iter().flatten().collect()
        }
    }
}

impl Setting {
    /// The number of `part`, which is a part of the slot's `text`.
    fn of(marks: &[Mark], quantity: Quantity, text: &str, part: &str) -> Option<Setting> {
        let step = step(marks, quantity.unit)?;
        let start = part.as_ptr() as usize - text.as_ptr() as usize + (part.len() - part.trim_start().len());
        let numeral = |c: char| {
            c.is_ascii_digit() || "./ \u{bd}\u{bc}\u{be}\u{215b}\u{215c}\u{215d}\u{215e}\u{2153}\u{2154}".contains(c)
        };
        let rest = part.trim_start();
        let length = rest.find(|c| !numeral(c)).unwrap_or(rest.len());
        let end = start + rest[..length].trim_end().len();
        Some(Setting { quantity, step, before: text[..start].to_owned(), after: text[end..].to_owned() })
    }

    /// The slot's text with the number `steps` settings higher (lower if negative), on a mark of the ladder; `None`
    /// below nothing.
    pub fn moved(&self, steps: i64) -> Option<String> {
        let value = self.value(steps);
        if value < exact(0, 1) {
            return None;
        }
        Some(format!("{}{}{}", self.before, written(&self.quantity.number, value), self.after))
    }

    fn value(&self, steps: i64) -> Exact {
        let marks = self.quantity.number.value / self.step;
        let steps = Exact::from_integer(i128::from(steps));
        // The first mark above or below, then mark by mark.
        let from = if steps > exact(0, 1) { marks.floor() } else { marks.ceil() };
        (from + steps) * self.step
    }
}

/// A number in the form of another; a fraction that the form can't hold is written in its own terms.
fn written(like: &Number, value: Exact) -> String {
    let (Form::Fraction(below) | Form::Mixed(below)) = like.form else { return like.written_alike(value) };
    let parts = Exact::from_integer(i128::from(below));
    if (value * parts * exact(2, 1)).is_integer() {
        return like.written_alike(value);
    }
    let whole = value.to_integer();
    let rest = value - Exact::from_integer(whole);
    match whole {
        0 => format!("{}/{}", rest.numer(), rest.denom()),
        whole => format!("{whole} {}/{}", rest.numer(), rest.denom()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::vocabulary::FILE;
    use crate::language::vocabulary::blocks;
    use crate::language::{Given, read_as};
    use crate::source::SourceId;

    /// The first slot of a statement of some block, moved.
    fn moved(block: &str, statement: &str, end: End, steps: i64) -> Option<String> {
        let def = blocks().into_iter().find(|known| known.name == block).unwrap_or(&FILE);
        let reading = read_as(statement, SourceId(0), def);
        let said = reading.body.statements.first()?;
        let (slot, marks) = (said.slots.first()?.clone(), said.def.slots.first()?.marks);
        let Given::Value(value) = &slot.given else { return None };
        let all = settings(value, &statement[slot.span.range()], marks);
        all.into_iter().find(|(known, _)| *known == end)?.1.moved(steps)
    }

    #[test]
    fn a_step_keeps_unit_and_form() {
        let cases = [
            ("sole", "from-edge 1.5 mm", End::Value, 2, "2.0 mm"),
            ("sole", "from-edge 1.6 mm", End::Value, 1, "1.75 mm"),
            ("sole", "from-edge 1.6 mm", End::Value, -1, "1.5 mm"),
            ("sole", "pitch 9 spi", End::Value, -4, "8 spi"),
            ("sole", "needle 280 Nm", End::Value, -3, "250 Nm"),
            ("sole", "rows 2", End::Value, -1, "1"),
            ("nailed", "inside-edge 1/4 in", End::Value, 1, "5/16 in"),
            ("nailed", "inside-edge 1/4 in", End::Value, 4, "2/4 in"),
            ("nailed", "inside-edge 1 1/2 in", End::Value, 8, "2 in"),
            ("lasting", "on-the-last 20..72 hours", End::Low, 4, "24..72 hours"),
            ("lasting", "on-the-last 20..72 hours", End::High, -1, "20..71 hours"),
        ];
        for (block, statement, end, steps, expected) in cases {
            assert_eq!(moved(block, statement, end, steps).as_deref(), Some(expected), "{statement}");
        }
        assert_eq!(moved("sole", "from-edge 0.25 mm", End::Value, -2), None);
    }
}
