//! Figures as rows of a label and a value, in two columns.

use super::super::paper::{Anchor, Ink, Op, Pen, Point, Style, Text, width_mm, wrap};
use super::super::values::{times, with_unit};
use super::super::words;
use super::{BODY, LINE, MARGIN, Row, Sheets};
use crate::build::Figure;

impl Sheets<'_> {
    /// Figures as rows in two columns under a heading.
    pub(in crate::sheets) fn group(&mut self, heading: &str, keys: &[&str]) {
        let rows: Vec<Row> = keys.iter().filter_map(|key| self.row("", key)).collect();
        self.rows(heading, &rows);
    }

    /// A figure as a row, its label behind a name of what it belongs to.
    pub(in crate::sheets) fn row(&mut self, of: &str, key: &str) -> Option<Row> {
        let figure = self.job.figures.get(key)?;
        let value = value_of(figure);
        self.note(figure, &value);
        let label = words::label(&figure.label, self.job.lang);
        Some(Row { label: if of.is_empty() { label.to_owned() } else { format!("{of}: {label}") }, value })
    }

    /// Rows in two columns under a heading; the left column first.
    pub(in crate::sheets) fn rows(&mut self, heading: &str, rows: &[Row]) {
        if rows.is_empty() {
            return;
        }
        self.heading(heading);
        let gap = 8.0;
        let width = (self.width() - gap) / 2.0;
        for pair in rows.chunks(2) {
            let height = pair.iter().map(|row| row_height(row, width)).fold(0.0, f64::max);
            self.room(height);
            for (row, x) in pair.iter().zip([MARGIN, MARGIN + width + gap]) {
                self.one_row(row, x, width, height);
            }
            self.y += height;
        }
        self.y += 3.0;
    }

    pub(super) fn one_row(&mut self, row: &Row, x: f64, width: f64, height: f64) {
        let (label_room, value_room) = split(row, width);
        for (line, text) in (0_u32..).zip(wrap(&row.label, Style::Condensed, BODY, label_room)) {
            self.text(x, self.y + 3.8 + f64::from(line) * LINE, BODY, Style::Condensed, text.to_owned());
        }
        for (line, text) in (0_u32..).zip(wrap(&row.value, Style::CondensedBold, BODY, value_room)) {
            let at = Text::new(
                x + width,
                self.y + 3.8 + f64::from(line) * LINE,
                BODY,
                Style::CondensedBold,
                text.to_owned(),
            );
            self.push(Op::Text(at.anchored(Anchor::Right)));
        }
        let y = self.y + height - 0.6;
        let pen = Pen::black(0.1).inked(Ink(45));
        self.push(Op::Line { from: Point::new(x, y), to: Point::new(x + width, y), pen });
    }
}

pub(super) fn value_of(figure: &Figure) -> String {
    if figure.unit == "minutes" { times(figure) } else { with_unit(figure) }
}

/// Room for label and value: the value gets what it needs, up to half.
fn split(row: &Row, width: f64) -> (f64, f64) {
    let value = (width_mm(&row.value, Style::CondensedBold, BODY) + 0.5).min(width * 0.55);
    (width - value - 3.0, value)
}

fn row_height(row: &Row, width: f64) -> f64 {
    let (label, value) = split(row, width);
    let lines = wrap(&row.label, Style::Condensed, BODY, label)
        .len()
        .max(wrap(&row.value, Style::CondensedBold, BODY, value).len());
    #[expect(clippy::cast_precision_loss, reason = "a few lines")]
    let lines = lines.max(1) as f64;
    lines * LINE + 1.0
}
