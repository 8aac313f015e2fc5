//! *Measure*: what, how much, how true, with what, and empty boxes for what was measured and by whom.

use super::super::paper::{Op, Paint, Pen, Point, Style, wrap};
use super::super::words::{self, Word};
use super::{BODY, HAIR, LINE, MARGIN, SMALL, SMALL_LINE, Sheets, owned, tall};
use crate::build::{FigureId, Identity};

/// One thing to be measured.
#[derive(Clone, Debug, Default)]
pub(in crate::sheets) struct Measure {
    pub what: String,
    pub target: String,
    pub tolerance: String,
    pub with: String,
}

/// Widths of what, target, tolerance, instrument, in parts; then of the two boxes, mm.
const PARTS: [f64; 4] = [4.0, 1.7, 1.4, 1.8];
const BOXES: [f64; 2] = [24.0, 18.0];

impl Sheets<'_> {
    /// A figure to be measured; its tolerance if it carries one.
    pub(in crate::sheets) fn measure_of(&mut self, of: impl Into<Identity>, with: Word) -> Option<Measure> {
        let figure = self.job.figures.of(&of.into())?;
        let (target, tolerance) = self.voice().target(figure);
        self.note(figure, &target);
        let what = words::figure(figure, self.job.lang);
        Some(Measure { what, target, tolerance, with: self.word(with).to_owned() })
    }

    /// A figure to be measured, its tolerance another figure.
    pub(in crate::sheets) fn measure_within(&mut self, of: FigureId, within: FigureId, with: Word) -> Option<Measure> {
        let measure = self.measure_of(of, with)?;
        let Some(figure) = self.job.figures.of(&within.into()) else { return Some(measure) };
        let tolerance = self.voice().said(figure).first;
        self.note(figure, &tolerance);
        Some(Measure { tolerance: format!("±{tolerance}"), ..measure })
    }

    /// Something to be written down that has no target.
    pub(in crate::sheets) fn measure_blank(&self, what: Word, with: Option<Word>) -> Measure {
        let with = with.map_or_else(String::new, |with| self.word(with).to_owned());
        Measure { what: self.word(what).to_owned(), with, ..Measure::default() }
    }

    /// The table of what is to be measured.
    pub(in crate::sheets) fn measures(&mut self, measures: &[Measure]) {
        if measures.is_empty() {
            return;
        }
        // Three rows at least stay with the heading.
        self.room(if measures.len() > 2 { 40.0 } else { 32.0 });
        self.heading(self.word(words::MEASURE));
        self.measure_head();
        for measure in measures {
            let widths = self.measure_widths();
            let cells = [&measure.what, &measure.target, &measure.tolerance, &measure.with];
            let style = |n: usize| if n == 1 { Style::CondensedBold } else { Style::Condensed };
            let cells: Vec<Vec<String>> =
                (0..4).map(|n| owned(wrap(cells[n], style(n), BODY, widths[n] - 2.0))).collect();
            let height = (tall(cells.iter().map(Vec::len).max().unwrap_or(1), LINE) + 1.6).max(8.0);
            if self.y + height > self.bottom() {
                self.page(true);
                self.measure_head();
            }
            let mut x = MARGIN;
            for (n, lines) in cells.iter().enumerate() {
                self.lines((x, self.y + 5.0), (BODY, style(n), LINE), lines);
                x += widths[n];
            }
            for width in BOXES {
                let paint = Paint::stroke(Pen::black(0.35));
                self.push(Op::Rect { at: Point::new(x, self.y + 0.7), width: width - 1.5, height: 6.6, paint });
                x += width;
            }
            self.y += height;
            self.across(self.y, HAIR);
        }
        self.y += 4.4;
    }

    fn measure_widths(&self) -> Vec<f64> {
        let room = self.width() - BOXES.iter().sum::<f64>() + 1.5;
        let whole: f64 = PARTS.iter().sum();
        PARTS.iter().map(|part| part / whole * room).collect()
    }

    fn measure_head(&mut self) {
        let mut widths = self.measure_widths();
        widths.extend(BOXES);
        let heads = [words::WHAT, words::TARGET, words::TOLERANCE, words::WITH, words::MEASURED, words::BY];
        let heads: Vec<Vec<String>> = heads
            .iter()
            .zip(&widths)
            .map(|(head, width)| owned(wrap(self.word(*head), Style::Condensed, SMALL, width - 1.5)))
            .collect();
        let mut x = MARGIN;
        for (lines, width) in heads.iter().zip(&widths) {
            self.lines((x, self.y + 3.2), (SMALL, Style::Condensed, SMALL_LINE), lines);
            x += width;
        }
        self.y += tall(heads.iter().map(Vec::len).max().unwrap_or(1), SMALL_LINE) + 0.4;
    }
}
