//! Items in two columns: each column runs down on its own and goes on to the next page on its own.

use super::super::paper::{Anchor, Op, Paint, Pen, Point, Style, Text, width_mm, wrap};
use super::{BODY, GUTTER, HAIR, HEADING, LINE, MARGIN, Sheets, owned, tall};

/// Something of a column.
#[derive(Clone, Debug)]
pub(in crate::sheets) enum Item {
    /// A heading; it stays with what follows.
    Heading(String),
    /// A label and a value.
    Row {
        /// What it is.
        label: String,
        /// How much.
        value: String,
    },
    /// A thing to do, with a box to tick.
    Step(String),
    /// A line to write on, behind its label.
    Blank(String),
}

/// Room for the box of a step, mm.
const TICK: f64 = 6.2;
/// Above the heading of an item, mm.
const ABOVE: f64 = 2.0;

impl Item {
    fn height(&self, width: f64) -> f64 {
        match self {
            Item::Heading(text) => ABOVE + 2.6 + tall(wrap(text, Style::Bold, HEADING, width).len(), 5.2),
            Item::Row { label, value } => {
                let (label, value) = row_lines(label, value, width);
                tall(label.len().max(value.len()), LINE) + 1.4
            }
            Item::Step(text) => tall(wrap(text, Style::Condensed, BODY, width - TICK).len(), LINE) + 1.2,
            Item::Blank(_) => LINE + 3.0,
        }
    }
}

/// Label and value broken into lines: the value gets what it needs, up to a little over half.
fn row_lines(label: &str, value: &str, width: f64) -> (Vec<String>, Vec<String>) {
    let room = (width_mm(value, Style::CondensedBold, BODY) + 0.5).min(width * 0.58);
    let label = owned(wrap(label, Style::Condensed, BODY, width - room - 3.0));
    (label, owned(wrap(value, Style::CondensedBold, BODY, room)))
}

impl Sheets<'_> {
    /// Width of one of two columns, mm.
    pub(super) fn column(&self) -> f64 {
        (self.width() - GUTTER) / 2.0
    }

    /// Two columns side by side.
    pub(in crate::sheets) fn columns(&mut self, left: &[Item], right: &[Item]) {
        let width = self.column();
        let (mut left, mut right) = (left, right);
        while !(left.is_empty() && right.is_empty()) {
            let heads = [left, right].map(|items| need(items, width));
            self.room(heads[0].max(heads[1]));
            let top = self.y;
            let mut lowest = top;
            for (items, x) in [(&mut left, MARGIN), (&mut right, MARGIN + width + GUTTER)] {
                let mut y = top;
                while let Some((item, rest)) = items.split_first() {
                    if y + need(items, width) > self.bottom() {
                        break;
                    }
                    self.item(item, x, y, width);
                    y += item.height(width);
                    *items = rest;
                }
                lowest = lowest.max(y);
            }
            self.y = lowest;
            if !(left.is_empty() && right.is_empty()) {
                self.page(true);
            }
        }
        self.y += 3.4;
    }

    /// Items in two columns of like height, in their order: the left one first.
    pub(in crate::sheets) fn balanced(&mut self, items: &[Item]) {
        let width = self.column();
        let heights: Vec<f64> = items.iter().map(|item| item.height(width)).collect();
        let whole: f64 = heights.iter().sum();
        let mut split = 0;
        let mut above = 0.0;
        while split < items.len() && above + heights[split] / 2.0 < whole / 2.0 {
            above += heights[split];
            split += 1;
        }
        // A heading does not stand alone at the end of a column.
        if split > 0 && matches!(items[split - 1], Item::Heading(_)) {
            split -= 1;
        }
        self.columns(&items[..split], &items[split..]);
    }

    fn item(&mut self, item: &Item, x: f64, y: f64, width: f64) {
        match item {
            Item::Heading(text) => {
                let y = y + ABOVE;
                let (from, to) = (Point::new(x, y), Point::new(x + width, y));
                self.push(Op::Line { from, to, pen: Pen::black(0.5) });
                let lines = owned(wrap(text, Style::Bold, HEADING, width));
                self.lines((x, y + 5.4), (HEADING, Style::Bold, 5.2), &lines);
            }
            Item::Row { label, value } => self.row(label, value, (x, y), width),
            Item::Step(text) => {
                let paint = Paint::stroke(Pen::black(0.35));
                self.push(Op::Rect { at: Point::new(x + 0.2, y + 0.7), width: 3.8, height: 3.8, paint });
                let lines = owned(wrap(text, Style::Condensed, BODY, width - TICK));
                self.lines((x + TICK, y + 3.9), (BODY, Style::Condensed, LINE), &lines);
            }
            Item::Blank(label) => {
                self.text(x, y + 5.4, BODY, Style::Condensed, label.clone());
                let from = x + width_mm(label, Style::Condensed, BODY) + 2.0;
                let line = (Point::new(from.min(x + width - 12.0), y + 5.8), Point::new(x + width, y + 5.8));
                self.push(Op::Line { from: line.0, to: line.1, pen: Pen::black(0.25) });
            }
        }
    }

    fn row(&mut self, label: &str, value: &str, (x, y): (f64, f64), width: f64) {
        let (label, value) = row_lines(label, value, width);
        self.lines((x, y + 3.9), (BODY, Style::Condensed, LINE), &label);
        for (n, line) in (0_u32..).zip(&value) {
            let at = Text::new(x + width, y + 3.9 + f64::from(n) * LINE, BODY, Style::CondensedBold, line.clone());
            self.push(Op::Text(at.anchored(Anchor::Right)));
        }
        let below = y + tall(label.len().max(value.len()), LINE) + 0.7;
        self.push(Op::Line { from: Point::new(x, below), to: Point::new(x + width, below), pen: HAIR });
    }
}

/// Moves groups from the end of the left column under the right one, as long as that makes the page shorter.
pub(super) fn evened(left: &mut Vec<Item>, right: &mut Vec<Item>, width: f64) {
    let height = |items: &[Item]| items.iter().map(|item| item.height(width)).sum::<f64>();
    loop {
        let last = left.iter().rposition(|item| matches!(item, Item::Heading(_)));
        let Some(last) = last.filter(|last| *last > 0) else { return };
        if height(right) + height(&left[last..]) >= height(left) {
            return;
        }
        right.extend(left.drain(last..));
    }
}

/// What the first of these needs, with what a heading keeps under it.
fn need(items: &[Item], width: f64) -> f64 {
    let Some(first) = items.first() else { return 0.0 };
    let kept = items.get(1).filter(|_| matches!(first, Item::Heading(_)));
    first.height(width) + kept.map_or(0.0, |item| item.height(width))
}
