//! The three to five numbers of a station, large. They never shrink: long labels wrap, and a row that cannot hold all of
//! them is split.

use super::super::paper::{Op, Pen, Point, Style, width_mm, wrap};
use super::super::values::Said;
use super::super::words::{self, Word};
use super::{BODY, MARGIN, Sheets, owned, tall};
use crate::build::Identity;

/// Points of a key number.
const LARGE: (f64, f64) = (28.0, 20.0);
/// Points of its unit, and the space before it, mm.
const UNIT: f64 = 14.0;
const BEFORE_UNIT: f64 = 1.2;
/// From line to line of a number that takes several, and of labels, mm.
const LARGE_LINE: f64 = 10.4;
const LABEL_LINE: f64 = 4.4;

struct Key {
    number: String,
    unit: String,
    label: String,
}

impl Key {
    /// Width in one line, mm.
    fn width(&self, points: f64) -> f64 {
        width_mm(&self.number, Style::CondensedBold, points) + self.unit_width()
    }

    fn unit_width(&self) -> f64 {
        if self.unit.is_empty() { 0.0 } else { BEFORE_UNIT + width_mm(&self.unit, Style::CondensedBold, UNIT) }
    }
}

impl Sheets<'_> {
    /// Three to five key numbers, each over words of its own (or its figure's label).
    pub(in crate::sheets) fn keys<I: Into<Identity>>(&mut self, keys: impl IntoIterator<Item = (I, Option<Word>)>) {
        let keys: Vec<Key> = keys.into_iter().filter_map(|(of, word)| self.key(&of.into(), word)).collect();
        if keys.is_empty() {
            return;
        }
        let (columns, points) = self.columns_of(&keys);
        for row in keys.chunks(columns) {
            self.key_row(row, columns, points);
        }
        self.y += 0.4;
    }

    fn key(&mut self, of: &Identity, word: Option<Word>) -> Option<Key> {
        let figure = self.job.figures.of(of)?;
        let Said { other, .. } = self.voice().said(figure);
        let (value, within) = self.voice().target(figure);
        let label = match word {
            Some(word) => self.word(word).to_owned(),
            None => words::figure(figure, self.job.lang),
        };
        self.note(figure, &value);
        let further = if within.is_empty() { other } else { Some(within) };
        let label = further.map_or(label.clone(), |further| format!("{label}, {further}"));
        let (number, unit) = value.rsplit_once('\u{a0}').unwrap_or((&value, ""));
        Some(Key { number: number.to_owned(), unit: unit.to_owned(), label })
    }

    /// How many stand side by side, and how large: as many as fit at the least size, then as large as fits.
    fn columns_of(&self, keys: &[Key]) -> (usize, f64) {
        let widest = |points: f64| keys.iter().map(|key| key.width(points)).fold(0.0, f64::max);
        let room = |columns: usize| self.width() / tall(columns, 1.0) - 5.0;
        let columns = (1..=keys.len()).rev().find(|columns| widest(LARGE.1) <= room(*columns)).unwrap_or(1);
        let columns = keys.len().div_ceil(keys.len().div_ceil(columns));
        let sizes = (0..=8).map(|step| LARGE.0 - f64::from(step));
        let points = sizes.into_iter().find(|points| widest(*points) <= room(columns)).unwrap_or(LARGE.1);
        (columns, points)
    }

    fn key_row(&mut self, keys: &[Key], columns: usize, points: f64) {
        let width = self.width() / tall(columns, 1.0);
        let cells: Vec<[Vec<String>; 2]> = keys
            .iter()
            .map(|key| {
                let room = width - 4.0 - key.unit_width();
                let value = owned(wrap(&key.number, Style::CondensedBold, points, room));
                [value, owned(wrap(&key.label, Style::Condensed, BODY, width - 4.0))]
            })
            .collect();
        let most = |part: usize| cells.iter().map(|cell| cell[part].len()).max().unwrap_or(1);
        let values = tall(most(0), LARGE_LINE);
        let height = values + tall(most(1), LABEL_LINE) + 4.2;
        self.room(height);
        for ((n, key), [value, label]) in (0_u32..).zip(keys).zip(&cells) {
            let x = MARGIN + f64::from(n) * width;
            if n > 0 {
                let (from, to) = (Point::new(x - 2.6, self.y), Point::new(x - 2.6, self.y + height - 3.0));
                self.push(Op::Line { from, to, pen: Pen::black(0.3) });
            }
            self.lines((x, self.y + 8.4), (points, Style::CondensedBold, LARGE_LINE), value);
            if let Some(last) = value.last().filter(|_| !key.unit.is_empty()) {
                let x = x + width_mm(last, Style::CondensedBold, points) + BEFORE_UNIT;
                let y = self.y + 8.4 + tall(value.len(), LARGE_LINE) - LARGE_LINE;
                self.text(x, y, UNIT, Style::CondensedBold, key.unit.clone());
            }
            self.lines((x, self.y + values + 3.7), (BODY, Style::Condensed, LABEL_LINE), label);
        }
        self.y += height;
    }
}
