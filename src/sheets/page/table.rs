//! Tables, their heads repeated on every page.

use super::super::paper::{Ink, Op, Pen, Point, Style, wrap};
use super::{BODY, LINE, MARGIN, Sheets, Table};

impl Sheets<'_> {
    /// A table with its head repeated on every page.
    pub(in crate::sheets) fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let whole: f64 = table.widths.iter().sum();
        let widths: Vec<f64> = table.widths.iter().map(|part| part / whole * self.width()).collect();
        self.table_head(&table.heads, &widths);
        for row in &table.rows {
            let lines = |(cell, width): (&String, &f64)| wrap(cell, Style::CondensedBold, BODY, width - 2.0).len();
            let most = row.iter().zip(&widths).map(lines).max().unwrap_or(1).max(1);
            #[expect(clippy::cast_precision_loss, reason = "a few lines")]
            let height = most as f64 * (LINE - 0.4) + 2.2;
            if self.y + height > self.bottom() {
                self.page(true);
                self.table_head(&table.heads, &widths);
            }
            let mut x = MARGIN;
            for (n, (cell, width)) in row.iter().zip(&widths).enumerate() {
                let style = if n == 0 { Style::CondensedBold } else { Style::Condensed };
                for (line, text) in (0_u32..).zip(wrap(cell, style, BODY, width - 2.0)) {
                    self.text(x, self.y + 4.2 + f64::from(line) * (LINE - 0.4), BODY, style, text.to_owned());
                }
                x += width;
            }
            self.y += height;
            let pen = Pen::black(0.1).inked(Ink(45));
            let (from, to) = (Point::new(MARGIN, self.y), Point::new(MARGIN + self.width(), self.y));
            self.push(Op::Line { from, to, pen });
        }
        self.y += 5.0;
    }

    pub(super) fn table_head(&mut self, heads: &[&'static str], widths: &[f64]) {
        self.room(18.0);
        let mut x = MARGIN;
        for (head, width) in heads.iter().zip(widths) {
            for (line, text) in (0_u32..).zip(wrap(head, Style::Condensed, 9.0, width - 2.0).into_iter().take(2)) {
                self.text(x, self.y + 3.0 + f64::from(line) * 4.0, 9.0, Style::Condensed, text.to_owned());
            }
            x += width;
        }
        let two =
            heads.iter().zip(widths).any(|(head, width)| wrap(head, Style::Condensed, 9.0, width - 2.0).len() > 1);
        self.y += if two { 8.6 } else { 4.8 };
        let (from, to) = (Point::new(MARGIN, self.y), Point::new(MARGIN + self.width(), self.y));
        self.push(Op::Line { from, to, pen: Pen::black(0.4) });
        self.y += 0.6;
    }
}
