//! What the station must beware of, boxed, always in the same place.

use super::super::paper::{Op, Paint, Pen, Point, Style, width_mm, wrap};
use super::super::station::Station;
use super::super::words;
use super::{MARGIN, SMALL, SMALL_LINE, Sheets, owned, tall};

impl Sheets<'_> {
    /// The station's cautions, at the foot of its first page.
    pub(super) fn cautions(&mut self, station: Station) {
        let title = self.word(words::CAUTION);
        let left = width_mm(title, Style::Bold, 11.0) + 8.0;
        let lines: Vec<String> = station
            .cautions()
            .iter()
            .flat_map(|caution| owned(wrap(self.word(*caution), Style::Condensed, SMALL, self.width() - left - 3.0)))
            .collect();
        let height = tall(lines.len(), SMALL_LINE) + 3.6;
        let top = self.bottom() - height;
        let at = Point::new(MARGIN + 0.35, top);
        let paint = Paint::stroke(Pen::black(0.7));
        self.push(Op::Rect { at, width: self.width() - 0.7, height, paint });
        self.text(MARGIN + 3.0, top + 5.2, 11.0, Style::Bold, title.to_owned());
        self.lines((MARGIN + left, top + 5.0), (SMALL, Style::Condensed, SMALL_LINE), &lines);
        self.floor = Some(top);
    }
}
