//! What the station must beware of, boxed, always in the same place.

use super::super::paper::{Op, Paint, Pen, Point, Style, wrap};
use super::super::words;
use super::{MARGIN, Sheets};

impl Sheets<'_> {
    /// The station's cautions, boxed.
    pub(in crate::sheets) fn cautions(&mut self) {
        let Some(station) = self.station else { return };
        let inner = self.width() - 30.0;
        let lines: Vec<String> = station
            .cautions()
            .iter()
            .flat_map(|caution| {
                wrap(caution.say(self.job.lang), Style::Condensed, 9.0, inner)
                    .into_iter()
                    .map(str::to_owned)
                    .collect::<Vec<_>>()
            })
            .collect();
        #[expect(clippy::cast_precision_loss, reason = "a few lines")]
        let height = lines.len() as f64 * 4.4 + 4.0;
        self.room(height);
        // At the foot of the page, always in the same place.
        self.y = self.bottom() - height;
        let paint = Paint::stroke(Pen::black(0.5));
        self.push(Op::Rect { at: Point::new(MARGIN, self.y), width: self.width(), height, paint });
        self.text(MARGIN + 3.0, self.y + 5.4, 10.0, Style::Bold, self.word(words::CAUTION).to_owned());
        for (n, line) in (0_u32..).zip(lines) {
            self.text(MARGIN + 27.0, self.y + 5.4 + f64::from(n) * 4.4, 9.0, Style::Condensed, line);
        }
        self.y += height;
    }
}
