//! Tables, their heads repeated on every page.

use super::super::paper::{Pen, Style, width_mm, wrap};
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

/// Widths of the columns, mm: in their parts of the whole, but none narrower than its longest word as far as the others
/// can give way.
fn widths(table: &Table, room: f64) -> Vec<f64> {
    let whole: f64 = table.widths.iter().sum();
    let asked: Vec<f64> = table.widths.iter().map(|part| part / whole * room).collect();
    let least: Vec<f64> = (0..asked.len()).map(|n| longest_word(table, n) + 2.2).collect();
    let lacking: f64 = asked.iter().zip(&least).map(|(asked, least)| (least - asked).max(0.0)).sum();
    let spare: f64 = asked.iter().zip(&least).map(|(asked, least)| (asked - least).max(0.0)).sum();
    let give = (lacking / spare.max(0.001)).min(1.0);
    let take = (spare / lacking.max(0.001)).min(1.0);
    let one = |(asked, least): (&f64, &f64)| {
        if asked > least { asked - (asked - least) * give } else { asked + (least - asked) * take }
    };
    asked.iter().zip(&least).map(one).collect()
}

/// The longest of what does not break in a column, mm.
fn longest_word(table: &Table, column: usize) -> f64 {
    let style = if column == 0 { Style::CondensedBold } else { Style::Condensed };
    let longest = |text: &str, style: Style, points: f64| {
        text.split_inclusive([' ', '-', '\n']).map(|word| width_mm(word.trim(), style, points)).fold(0.0, f64::max)
    };
    let cells = table.rows.iter().filter_map(|row| row.get(column)).map(|cell| longest(cell, style, BODY));
    cells.fold(longest(table.heads[column], Style::Condensed, SMALL), f64::max)
}

impl Sheets<'_> {
    /// Lays a table; nothing if it has no rows.
    pub(in crate::sheets) fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let widths = widths(table, self.width());
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
