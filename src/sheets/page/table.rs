//! Tables, their heads repeated on every page.

use super::super::paper::{Pen, Style, wrap};
use super::super::words::Word;
use super::{BODY, HAIR, LINE, MARGIN, SMALL, SMALL_LINE, Sheets, owned, tall};

/// A table: widths in parts of the whole, heads, cells.
pub(in crate::sheets) struct Table {
    pub widths: Vec<f64>,
    pub heads: Vec<&'static str>,
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// Columns as pairs of a head and a width in parts of the whole.
    pub fn new(sheets: &Sheets<'_>, columns: &[(Word, f64)], rows: Vec<Vec<String>>) -> Self {
        let heads = columns.iter().map(|(head, _)| sheets.word(*head)).collect();
        Self { widths: columns.iter().map(|(_, width)| *width).collect(), heads, rows }
    }
}

impl Sheets<'_> {
    /// Lays a table; nothing if it has no rows.
    pub(in crate::sheets) fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let whole: f64 = table.widths.iter().sum();
        let widths: Vec<f64> = table.widths.iter().map(|part| part / whole * self.width()).collect();
        self.room(24.0);
        self.table_head(&table.heads, &widths);
        for row in &table.rows {
            let cell = |(n, (cell, width)): (usize, (&String, &f64))| {
                owned(wrap(cell, if n == 0 { Style::CondensedBold } else { Style::Condensed }, BODY, width - 2.0))
            };
            let cells: Vec<Vec<String>> = row.iter().zip(&widths).enumerate().map(cell).collect();
            let height = tall(cells.iter().map(Vec::len).max().unwrap_or(1), LINE) + 2.0;
            if self.y + height > self.bottom() {
                self.page(true);
                self.table_head(&table.heads, &widths);
            }
            let mut x = MARGIN;
            for (n, (lines, width)) in cells.iter().zip(&widths).enumerate() {
                let style = if n == 0 { Style::CondensedBold } else { Style::Condensed };
                self.lines((x, self.y + 4.3), (BODY, style, LINE), lines);
                x += width;
            }
            self.y += height;
            self.across(self.y, HAIR);
        }
        self.y += 4.4;
    }

    fn table_head(&mut self, heads: &[&'static str], widths: &[f64]) {
        let heads: Vec<Vec<String>> = heads
            .iter()
            .zip(widths)
            .map(|(head, width)| owned(wrap(head, Style::Condensed, SMALL, width - 2.0)))
            .collect();
        let most = heads.iter().map(Vec::len).max().unwrap_or(1);
        let mut x = MARGIN;
        for (lines, width) in heads.iter().zip(widths) {
            self.lines((x, self.y + 3.4), (SMALL, Style::Condensed, SMALL_LINE), lines);
            x += width;
        }
        self.y += tall(most, SMALL_LINE) + 0.8;
        self.across(self.y, Pen::black(0.5));
        self.y += 0.4;
    }
}
