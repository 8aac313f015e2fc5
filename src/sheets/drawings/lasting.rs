//! The bottom of a right foot on the last: in what order it is drafted, and the margin from the feather line.

use super::{label, level, line, upright};
use crate::build::{Build, GradedLast};
use crate::geometry::{Path as _, Side, Straight};
use crate::sheets::paper::{Anchor, Op, Paint, Pen, Point, Style, Text};
use crate::sheets::words::{self, Lang};
use kurbo::Point as Mm;

const BY: f64 = 0.5;
/// Above and below the margins, mm.
const ABOUT: f64 = 6.0;

/// What the drawing says beside its lines, as the sheet prints it.
pub(in crate::sheets) struct Lasting<'b> {
    pub build: &'b Build<'b>,
    pub lang: Lang,
    /// The places in the order in which they are drafted: the word of the language, as it is printed.
    pub order: Vec<(String, String)>,
    /// `toe`, `joints`, `heel`: the margin there, mm and as printed.
    pub margins: Vec<(&'static str, f64, String)>,
}

impl Lasting<'_> {
    fn last(&self) -> Option<&GradedLast> {
        let drawn = !self.order.is_empty() || !self.margins.is_empty();
        self.build.last.as_ref().ok().filter(|_| drawn)
    }

    fn margin(&self) -> f64 {
        self.margins.iter().map(|(_, margin, _)| *margin).fold(0.0, f64::max)
    }

    /// mm of paper; `None` where there is nothing to show.
    pub fn height(&self) -> Option<f64> {
        let last = self.last()?;
        Some(super::TITLE + (last.tread + 2.0 * self.margin()) * BY + ABOUT)
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let (Some(last), Some(height)) = (self.last(), self.height()) else { return Vec::new() };
        let centre = at.y + super::TITLE + (height - super::TITLE) / 2.0;
        let left = at.x + (width - last.bottom * BY) / 2.0;
        let place = |p: Mm| Point::new(left + p.x * BY, centre + p.y * BY);
        let mut ops = vec![super::title(at, words::of(words::LASTING_BELOW, self.lang), "1 : 2", self.lang)];
        let feather = last.feather.flatten(0.0, last.feather.period(), 0.05);
        ops.push(Op::Polyline { points: feather.into_iter().map(place).collect(), pen: Pen::black(0.5) });
        for (n, (word, said)) in self.order.iter().enumerate() {
            for (k, spot) in drafted(last, word).into_iter().enumerate() {
                ops.extend(numbered(place(spot), n + 1));
                // On both sides of the foot the name stands once.
                if k == 0 {
                    let p = place(spot);
                    let (x, anchor) =
                        if word == "toe" { (p.x - 4.5, Anchor::Right) } else { (p.x + 4.5, Anchor::Left) };
                    ops.push(label(x, p.y + 1.1, said.clone(), anchor));
                }
            }
        }
        for (word, margin, said) in &self.margins {
            ops.extend(margined(last, word, *margin, said, &place));
        }
        ops
    }
}

/// Where pulling begins, a little inside the feather line: on both sides in the waist.
fn drafted(last: &GradedLast, word: &str) -> Vec<Mm> {
    const INSIDE: f64 = 14.0;
    match word {
        "toe" => vec![Mm::new(last.bottom - INSIDE, 0.0)],
        "heel" => vec![Mm::new(INSIDE, 0.0)],
        _ => {
            let x = f64::midpoint(last.breast, last.joint_inside.min(last.joint_outside));
            let line = Straight::square_at(x);
            let y = |side: Side| last.feather.crossings_on(&line, side).first().map(|t| last.feather.point(*t).y);
            [y(Side::Inside).map(|y| y - INSIDE), y(Side::Outside).map(|y| y + INSIDE)]
                .into_iter()
                .flatten()
                .map(|y| Mm::new(x, y))
                .collect()
        }
    }
}

fn numbered(at: Point, n: usize) -> [Op; 2] {
    let text = Text::new(at.x, at.y + 1.5, 12.0, Style::Bold, n.to_string());
    [
        Op::Circle { centre: at, radius: 3.4, paint: Paint::stroke(Pen::black(0.4)) },
        Op::Text(text.anchored(Anchor::Centre)),
    ]
}

/// The margin at one place, from the feather line outwards.
fn margined(last: &GradedLast, word: &str, margin: f64, said: &str, place: &dyn Fn(Mm) -> Point) -> Vec<Op> {
    let by = margin * BY;
    match word {
        "toe" | "heel" => {
            let (at, out) =
                if word == "toe" { (place(Mm::new(last.bottom, 0.0)), 1.0) } else { (place(Mm::ORIGIN), -1.0) };
            let end = at.x + by * out;
            let mut ops = level(at.y, at.x.min(end), at.x.max(end));
            ops.push(label(f64::midpoint(at.x, end), at.y - 1.6, said.to_owned(), Anchor::Centre));
            ops
        }
        _ => {
            let (a, b) = (Mm::new(last.joint_outside, 0.0), Mm::new(last.joint_inside, 0.0));
            let spot = |x: f64, side: Side| {
                let crossings = last.feather.crossings_on(&Straight::square_at(x), side);
                crossings.first().map(|t| place(last.feather.point(*t)))
            };
            let mut ops = Vec::new();
            for (spot, out) in [(spot(a.x, Side::Outside), -1.0), (spot(b.x, Side::Inside), 1.0)] {
                let Some(spot) = spot else { continue };
                let end = spot.y + by * out;
                ops.extend(upright(spot.x, spot.y.min(end), spot.y.max(end)));
                ops.push(label(spot.x + 2.0, end + if out > 0.0 { 0.0 } else { 2.2 }, said.to_owned(), Anchor::Left));
            }
            if let (Some(a), Some(b)) = (spot(a.x, Side::Outside), spot(b.x, Side::Inside)) {
                ops.push(line(a, b, Pen::black(0.15).dashed(1.6, 0.8)));
            }
            ops
        }
    }
}
