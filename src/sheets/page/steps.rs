//! What the station does, in order, and how long the boot rests with it.

use super::super::paper::{self, Op, Paint, Pen, Point, Style, wrap};
use super::super::words::{self, Lang};
use super::{BODY, LINE, MARGIN, Sheets};
use crate::build::{Datum, Figures};

impl Sheets<'_> {
    /// This station's steps of the route, in order, each with a box to tick; then how long the boot rests with them.
    pub(in crate::sheets) fn steps(&mut self) {
        let Some(station) = self.station else { return };
        let figures = self.job.figures;
        let (steps, benches) = (texts(figures, "route.steps"), texts(figures, "route.stations"));
        let here = steps.iter().zip(benches).filter(|(_, bench)| *bench == station.name());
        let steps: Vec<&str> = here.map(|(step, _)| step.as_str()).collect();
        if steps.is_empty() {
            return;
        }
        self.heading(self.word(words::DO));
        let column = (self.width() - 8.0) / 2.0;
        let lines: Vec<(f64, Vec<String>)> =
            steps.iter().enumerate().map(|(n, step)| step_lines(n, step, self.job.lang, column - 6.0)).collect();
        for pair in lines.chunks(2) {
            let most = pair.iter().map(|(_, lines)| lines.len()).max().unwrap_or(1).max(1);
            #[expect(clippy::cast_precision_loss, reason = "a few lines")]
            let height = most as f64 * LINE;
            self.room(height + 1.0);
            for ((points, lines), x) in pair.iter().zip([MARGIN, MARGIN + column + 8.0]) {
                let paint = Paint::stroke(Pen::black(0.25));
                self.push(Op::Rect { at: Point::new(x, self.y + 0.6), width: 3.4, height: 3.4, paint });
                for (line, text) in (0_u32..).zip(lines) {
                    let y = self.y + 3.8 + f64::from(line) * LINE;
                    self.text(x + 5.4, y, *points, Style::Condensed, text.clone());
                }
            }
            self.y += height + 0.6;
        }
        self.y += 3.0;
        self.rests(&steps);
    }

    /// How long the boot rests with each of these steps. The bond that alone holds the outsole has a place of its own.
    pub(super) fn rests(&mut self, steps: &[&str]) {
        let critical = texts(self.job.figures, "route.critical");
        let (alone, others): (Vec<&str>, Vec<&str>) =
            steps.iter().partition(|step| critical.iter().any(|c| c == *step));
        for (heading, steps) in [(words::TIMES, others), (words::CRITICAL, alone)] {
            let mut rows = Vec::new();
            for step in &steps {
                let prefix = format!("route.dwell.{step}.");
                let keys = self.job.figures.iter().filter(|figure| figure.key.starts_with(&prefix));
                let keys: Vec<String> = keys.map(|figure| figure.key.to_string()).collect();
                rows.extend(keys.iter().filter_map(|key| self.row(step, key)));
            }
            if heading == words::CRITICAL && !steps.is_empty() {
                rows.extend(self.row("", "route.peel-samples"));
            }
            self.rows(self.word(heading), &rows);
        }
    }
}

/// The texts of a figure.
fn texts<'f>(figures: &'f Figures, key: &str) -> &'f [String] {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Texts(texts)) => texts,
        _ => &[],
    }
}

/// A step as it is printed: numbered, in one line as large as fits, else in several.
fn step_lines(n: usize, step: &str, lang: Lang, width: f64) -> (f64, Vec<String>) {
    let text = format!("{} {}", n + 1, words::step(step, lang));
    if let Some(points) = paper::fit(&text, Style::Condensed, BODY, 9.0, width) {
        return (points, vec![text]);
    }
    (9.0, wrap(&text, Style::Condensed, 9.0, width).into_iter().map(str::to_owned).collect())
}
