//! The facing laid flat: its edge, its rows, and the centre of every hole from the top edge.

use super::{Pointed, Scale, THIN, TITLE, label, line, row, scale, title, upright};
use crate::build::{Build, FacingBuilt};
use crate::sheets::paper::{Anchor, Op, Paint, Pen, Point};
use crate::sheets::words::{self, Lang};

const SCALES: [Scale; 3] = [scale(1.0, 1.0), scale(1.0, 2.0), scale(1.0, 4.0)];
/// What is kept free to the left, for the distance from the edge, mm.
const LEFT: f64 = 30.0;
/// Past the last hole, mm of the boot.
const BEYOND: f64 = 12.0;
const UNDER: f64 = 12.0;

/// What the drawing says beside its lines, as the sheet prints it.
pub(in crate::sheets) struct Facing<'b> {
    pub build: &'b Build<'b>,
    pub lang: Lang,
    /// From the edge to the centres.
    pub from_edge: String,
    /// Each centre from the top edge.
    pub centres: Vec<String>,
}

impl Facing<'_> {
    fn built(&self) -> Option<&FacingBuilt> {
        let built = self.build.facing.as_ref()?.as_ref().ok()?;
        (!built.centres.is_empty()).then_some(built)
    }

    /// How far the drawing reaches from the facing's edge, mm of the boot.
    fn deep(built: &FacingBuilt) -> f64 {
        let rows = built.rows.iter().copied();
        rows.chain([built.from_edge.0 + 6.0]).fold(0.0, f64::max) + 3.0
    }

    fn long(built: &FacingBuilt) -> f64 {
        let last = built.centres.last().map_or(0.0, |centre| centre.at);
        built.long.as_ref().map_or(last + BEYOND, |(long, _)| *long)
    }

    fn scale(built: &FacingBuilt, width: f64) -> Scale {
        Scale::largest(&SCALES, Self::long(built), width - LEFT - 4.0)
    }

    /// mm of paper on `width`; `None` without holes.
    pub fn height(&self, width: f64) -> Option<f64> {
        let built = self.built()?;
        Some(TITLE + Self::deep(built) * Self::scale(built, width).by() + UNDER)
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let Some(built) = self.built() else { return Vec::new() };
        let scale = Self::scale(built, width);
        let by = scale.by();
        let (left, top) = (at.x + LEFT, at.y + TITLE);
        let place = |along: f64, deep: f64| Point::new(left + along * by, top + deep * by);
        let (long, deep) = (Self::long(built), Self::deep(built));
        let mut ops = vec![title(at, words::of(words::FACING_FLAT, self.lang), &scale.said(), self.lang)];
        ops.push(Op::Polyline {
            points: vec![place(long, 0.0), place(0.0, 0.0), place(0.0, deep)],
            pen: Pen::black(0.6),
        });
        for row in &built.rows {
            ops.push(line(place(0.0, *row), place(long, *row), Pen::black(0.3).dashed(0.9, 0.5)));
        }
        let across = built.from_edge.0;
        ops.push(line(place(0.0, across), place(long, across), THIN));
        for centre in &built.centres {
            let paint = Paint::stroke(Pen::black(0.35));
            ops.push(Op::Circle { centre: place(centre.at, across), radius: centre.punch / 2.0 * by, paint });
        }
        ops.extend(upright(left - 4.0, top, place(0.0, across).y));
        ops.push(label(left - 6.0, place(0.0, across / 2.0).y + 1.1, self.from_edge.clone(), Anchor::Right));
        let labels = built.centres.iter().zip(&self.centres).map(|(centre, said)| Pointed {
            at: Point::new(place(centre.at, 0.0).x, place(0.0, across).y + centre.punch / 2.0 * by),
            text: said.clone(),
        });
        ops.extend(row(labels.collect(), place(0.0, deep).y + 7.0, (at.x, at.x + width)));
        ops
    }
}
