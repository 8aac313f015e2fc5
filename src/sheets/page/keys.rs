//! The three to five numbers of a station, large. They never shrink: long labels wrap, and a row that cannot hold all of
//! them is split.

use super::super::paper::{Op, Pen, Point, Style, width_mm, wrap};
use super::super::values::Said;
use super::super::words::{self, Word};
use super::{BODY, MARGIN, Sheets, owned, tall};

/// Points of a key number.
const LARGE: (f64, f64) = (28.0, 20.0);
/// From line to line of a number that takes several, and of labels, mm.
const LARGE_LINE: f64 = 9.6;
const LABEL_LINE: f64 = 4.4;

struct Key {
    value: String,
    label: String,
}

impl Sheets<'_> {
    /// Three to five key numbers, each over words of its own (or its figure's label).
    pub(in crate::sheets) fn keys(&mut self, keys: &[(&str, Option<Word>)]) {
        let keys: Vec<Key> = keys.iter().filter_map(|(key, word)| self.key(key, *word)).collect();
        if keys.is_empty() {
            return;
        }
        let (columns, points) = self.columns_of(&keys);
        for row in keys.chunks(columns) {
            self.key_row(row, columns, points);
        }
        self.y += 2.0;
    }

    fn key(&mut self, key: &str, word: Option<Word>) -> Option<Key> {
        let figure = self.job.figures.get(key)?;
        let Said { first, other } = self.voice().said(figure);
        let label = match word {
            Some(word) => self.word(word).to_owned(),
            None => words::label(&figure.label, self.job.lang).into_owned(),
        };
        self.note(figure, &first);
        let label = other.map_or(label.clone(), |other| format!("{label}, {other}"));
        Some(Key { value: first, label })
    }

    /// How many stand side by side, and how large: as many as fit at the least size, then as large as fits.
    fn columns_of(&self, keys: &[Key]) -> (usize, f64) {
        let widest = keys.iter().map(|key| width_mm(&key.value, Style::CondensedBold, 1.0)).fold(0.0, f64::max);
        let room = |columns: usize| self.width() / tall(columns, 1.0) - 5.0;
        let columns = (1..=keys.len()).rev().find(|columns| widest * LARGE.1 <= room(*columns)).unwrap_or(1);
        let columns = keys.len().div_ceil(keys.len().div_ceil(columns));
        let points = (room(columns) / widest.max(0.01) * 10.0).floor() / 10.0;
        (columns, points.clamp(LARGE.1, LARGE.0))
    }

    fn key_row(&mut self, keys: &[Key], columns: usize, points: f64) {
        let width = self.width() / tall(columns, 1.0);
        let cells: Vec<[Vec<String>; 2]> = keys
            .iter()
            .map(|key| {
                let value = owned(wrap(&key.value, Style::CondensedBold, points, width - 4.0));
                [value, owned(wrap(&key.label, Style::Condensed, BODY, width - 4.0))]
            })
            .collect();
        let most = |part: usize| cells.iter().map(|cell| cell[part].len()).max().unwrap_or(1);
        let values = tall(most(0), LARGE_LINE);
        let height = values + tall(most(1), LABEL_LINE) + 4.4;
        self.room(height);
        for (n, [value, label]) in (0_u32..).zip(&cells) {
            let x = MARGIN + f64::from(n) * width;
            if n > 0 {
                let (from, to) = (Point::new(x - 2.6, self.y), Point::new(x - 2.6, self.y + height - 3.0));
                self.push(Op::Line { from, to, pen: Pen::black(0.3) });
            }
            self.lines((x, self.y + 8.4), (points, Style::CondensedBold, LARGE_LINE), value);
            self.lines((x, self.y + values + 3.6), (BODY, Style::Condensed, LABEL_LINE), label);
        }
        self.y += height;
    }
}
