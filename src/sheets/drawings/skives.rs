//! Every skive cut across, two beside each other: how far it reaches from the edge, what it leaves.

use super::{LABEL, Scale, TITLE, fitted, label, level, line, scale, title};
use crate::sheets::paper::{Anchor, Hatch, Op, Pen, Point, Style, width_mm};
use crate::sheets::words::{self, Lang};

const SCALES: [Scale; 4] = [scale(4.0, 1.0), scale(3.0, 1.0), scale(2.0, 1.0), scale(1.0, 1.0)];
const GUTTER: f64 = 6.0;
/// What is shown of the part beyond the skive, mm of the boot.
const BEYOND: f64 = 6.0;
/// To the left of the edge, between it and what is left there, mm.
const LEFT: f64 = 4.0;
/// Over the part for its name, under it for the dimension, mm.
const OVER: f64 = 6.0;
const UNDER: f64 = 11.0;

/// One skive, as the sheet prints it.
pub(in crate::sheets) struct Skive {
    /// The part and how it is skived.
    pub name: String,
    /// From the edge, mm and as printed.
    pub wide: (f64, String),
    /// What is left there, mm and as printed.
    pub left: (f64, String),
    /// Full thickness, mm.
    pub full: f64,
    /// One thickness over the whole width.
    pub flat: bool,
}

/// All of them.
pub(in crate::sheets) struct Skives {
    pub skives: Vec<Skive>,
    pub lang: Lang,
}

impl Skives {
    fn cell(width: f64) -> f64 {
        (width - GUTTER) / 2.0
    }

    fn scale(&self, width: f64) -> Scale {
        let longest = self.skives.iter().map(|skive| skive.wide.0).fold(0.0, f64::max);
        Scale::largest(&SCALES, longest + BEYOND, Self::cell(width) - self.left())
    }

    /// What is kept free to the left of the edges, mm.
    fn left(&self) -> f64 {
        let wide = self.skives.iter().map(|skive| width_mm(&skive.left.1, Style::Condensed, LABEL));
        wide.fold(0.0, f64::max) + LEFT
    }

    fn tall(&self) -> f64 {
        self.skives.iter().map(|skive| skive.full).fold(0.0, f64::max)
    }

    fn line_height(&self, width: f64) -> f64 {
        OVER + self.tall() * self.scale(width).by() + UNDER
    }

    /// mm of paper on `width`; `None` without skives.
    pub fn height(&self, width: f64) -> Option<f64> {
        let lines: f64 = self.skives.chunks(2).map(|_| self.line_height(width)).sum();
        (!self.skives.is_empty()).then_some(TITLE + lines)
    }

    /// Draws them.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let scale = self.scale(width);
        let mut ops = vec![title(at, words::of(words::SKIVES_ACROSS, self.lang), &scale.said(), self.lang)];
        let mut y = at.y + TITLE;
        for pair in self.skives.chunks(2) {
            let floor = y + OVER + self.tall() * scale.by();
            for (skive, x) in pair.iter().zip([at.x, at.x + Self::cell(width) + GUTTER]) {
                ops.push(label(x, y + 3.4, fitted(&skive.name, Self::cell(width)), Anchor::Left));
                ops.extend(one(skive, (x + self.left(), floor), scale.by()));
            }
            y += self.line_height(width);
        }
        ops
    }
}

/// One skive with its edge at `left` and its lower face at `floor`.
fn one(skive: &Skive, (left, floor): (f64, f64), by: f64) -> Vec<Op> {
    let place = |x: f64, up: f64| Point::new(left + x * by, floor - up * by);
    let (wide, to) = (skive.wide.0, skive.left.0);
    let mut ring = vec![place(0.0, 0.0), place(0.0, to)];
    if skive.flat {
        ring.push(place(wide, to));
    }
    ring.extend([place(wide, skive.full), place(wide + BEYOND, skive.full), place(wide + BEYOND, 0.0)]);
    let mut ops = vec![Op::Hatched { rings: vec![ring], hatch: Hatch::UpperLeather, outline: Some(Pen::black(0.35)) }];
    let edge = place(0.0, to / 2.0);
    ops.push(line(edge, Point::new(left - 2.0, edge.y), Pen::black(0.15)));
    ops.push(label(left - 3.0, edge.y + 1.1, skive.left.1.clone(), Anchor::Right));
    ops.extend(level(floor + 3.0, left, place(wide, 0.0).x));
    ops.push(label(left, floor + 7.6, skive.wide.1.clone(), Anchor::Left));
    ops
}
