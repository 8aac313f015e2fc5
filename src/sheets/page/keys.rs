//! The three to five numbers of a station, large.

use super::super::paper::{self, Op, Point, Style, wrap};
use super::super::words::{self, Word};
use super::rows::value_of;
use super::{BIG, HAIR, MARGIN, Sheets};
use crate::build::Figure;

impl<'j> Sheets<'j> {
    /// Three to five key numbers, large, each under words of its own (or its figure's label).
    pub(in crate::sheets) fn keys(&mut self, keys: &[(&str, Option<Word>)]) {
        let figures: &'j crate::build::Figures = self.job.figures;
        let shown: Vec<(&'j Figure, String, &'j str)> = keys
            .iter()
            .filter_map(|(key, word)| figures.get(key).map(|figure| (figure, *word)))
            .map(|(figure, word)| {
                let label: &'j str = match word {
                    Some(word) => self.word(word),
                    None => words::label(&figure.label, self.job.lang),
                };
                (figure, value_of(figure), label)
            })
            .collect();
        if shown.is_empty() {
            return;
        }
        self.room(24.0);
        #[expect(clippy::cast_precision_loss, reason = "at most five numbers")]
        let width = self.width() / shown.len() as f64;
        let mut x = MARGIN;
        for (figure, value, label) in shown {
            self.note(figure, &value);
            let points = paper::fit(&value, Style::CondensedBold, BIG, 14.0, width - 5.0).unwrap_or(14.0);
            self.text(x, self.y + 8.6, points, Style::CondensedBold, value);
            for (line, y) in wrap(label, Style::Condensed, 9.0, width - 4.0).into_iter().take(2).zip([13.6, 17.6]) {
                self.text(x, self.y + y, 9.0, Style::Condensed, line.to_owned());
            }
            x += width;
        }
        self.y += 20.0;
        self.rule();
    }

    pub(super) fn rule(&mut self) {
        let (from, to) = (Point::new(MARGIN, self.y), Point::new(self.size.width() - MARGIN, self.y));
        self.push(Op::Line { from, to, pen: HAIR });
        self.y += 4.0;
    }
}
