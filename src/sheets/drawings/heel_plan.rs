//! The heel from below at true size: its edge, the feather line, and where each nail of the base stands by its place.

use super::{LABEL, LABEL_LINE, THIN, TITLE, label, level, line, title};
use crate::build::takes::nail_at;
use crate::build::{Build, HeelNailsBuilt, Lines, Place, Ring};
use crate::geometry::Path as _;
use crate::sheets::paper::{Anchor, Ink, Op, Paint, Pen, Point, Style, width_mm};
use crate::sheets::words::{self, Lang};
use kurbo::Point as Mm;

/// Above and below the outline, mm.
const ABOUT: f64 = 4.0;
/// For the dimension of the heel's length and the legend, mm.
const UNDER: f64 = 9.0 + LABEL_LINE;

/// What the drawing says beside its lines, as the sheet prints it.
pub(in crate::sheets) struct HeelPlan<'b> {
    pub build: &'b Build<'b>,
    pub lang: Lang,
    /// How far the nails stand inside the heel's edge.
    pub inside: String,
    /// The length from the feather line's back to the breast.
    pub length: String,
    /// Each place that has nails, with its word.
    pub places: Vec<(Place, String)>,
}

impl HeelPlan<'_> {
    fn built(&self) -> Option<(&Lines, &HeelNailsBuilt, &Ring)> {
        let nails = self.build.heel_nails.as_ref()?.as_ref().ok()?;
        Some((self.build.lines.as_ref().ok()?, nails, nails.ring.as_ref()?))
    }

    fn outline(lines: &Lines) -> Option<Vec<Mm>> {
        let (from, to) = lines.round_the_heel()?;
        Some(lines.edge.flatten(from, to, 0.05))
    }

    /// The outline's reach across the foot, mm: outside, inside.
    fn across(outline: &[Mm]) -> (f64, f64) {
        outline.iter().fold((0.0_f64, 0.0_f64), |(least, most), p| (least.min(p.y), most.max(p.y)))
    }

    /// mm of paper; `None` without a ring of nails.
    pub fn height(&self) -> Option<f64> {
        let (lines, ..) = self.built()?;
        let (outside, inside) = Self::across(&Self::outline(lines)?);
        Some(TITLE + 2.0 * ABOUT + inside - outside + UNDER)
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let Some((lines, nails, ring)) = self.built() else { return Vec::new() };
        let Some(outline) = Self::outline(lines) else { return Vec::new() };
        let (outside, inside) = Self::across(&outline);
        let breast = lines.last.breast;
        let left = at.x + (width - breast) / 2.0;
        let place = |p: Mm| Point::new(left + p.x, at.y + TITLE + ABOUT + p.y - outside);
        let mut ops = vec![title(at, words::of(words::HEEL_PLAN, self.lang), "1 : 1", self.lang)];
        let ends = [outline[0], outline[outline.len() - 1]].map(place);
        ops.push(Op::Polyline { points: outline.into_iter().map(place).collect(), pen: Pen::black(0.6) });
        ops.push(line(ends[0], ends[1], Pen::black(0.6)));
        if let Some((from, to)) = lines.round_the_heel() {
            let feather = lines.last.feather.flatten(from, to, 0.05);
            let behind = feather.into_iter().filter(|p| p.x <= breast).map(place).collect();
            ops.push(Op::Polyline { points: behind, pen: Pen::black(0.25).dashed(1.6, 0.8) });
        }
        let stage = nails.nails.first().and_then(|nail| nail.stage);
        for (spot, share) in ring.places.iter().zip(&ring.along) {
            let of = nail_at(nails, stage, *share).map(|nail| nail.place);
            ops.extend(sign(place(*spot), of));
        }
        ops.extend(self.inside_edge(lines, ring, &place));
        let y = place(Mm::new(0.0, inside)).y + ABOUT + 2.0;
        let (back, front) = (place(Mm::ORIGIN).x, place(Mm::new(breast, 0.0)).x);
        ops.extend(level(y, back, front));
        ops.push(label(f64::midpoint(back, front), y - 1.0, self.length.clone(), Anchor::Centre));
        ops.push(label(front + 3.0, place(Mm::ORIGIN).y + 1.1, words::of(words::BREAST, self.lang), Anchor::Left));
        ops.extend(self.legend(at.x, y + 6.4));
        ops
    }

    /// From the heel's edge to the nails, at the nail that stands nearest to the back.
    fn inside_edge(&self, lines: &Lines, ring: &Ring, place: &dyn Fn(Mm) -> Point) -> Vec<Op> {
        let Some(nail) = ring.places.iter().min_by(|a, b| a.x.total_cmp(&b.x)) else { return Vec::new() };
        let edge = lines.edge.point(0.0);
        let (from, to) = (place(Mm::new(edge.x, nail.y)), place(*nail));
        let knee = Point::new(from.x - 4.0, from.y);
        vec![line(knee, to, THIN), label(knee.x - 1.0, knee.y + 1.1, self.inside.clone(), Anchor::Right)]
    }

    fn legend(&self, left: f64, y: f64) -> Vec<Op> {
        let mut ops = Vec::new();
        let mut x = left;
        for (place, word) in &self.places {
            ops.extend(sign(Point::new(x + 1.5, y - 1.1), Some(*place)));
            ops.push(label(x + 4.5, y, word.clone(), Anchor::Left));
            x += 4.5 + width_mm(word, Style::Condensed, LABEL) + 7.0;
        }
        let feather = words::of(words::FEATHER, self.lang);
        ops.push(line(Point::new(x, y - 1.1), Point::new(x + 8.0, y - 1.1), Pen::black(0.25).dashed(1.6, 0.8)));
        ops.push(label(x + 9.5, y, feather, Anchor::Left));
        ops
    }
}

/// A nail by its place: a dot at the back, a ring at the breast, a ring with a dot at the sides.
fn sign(at: Point, place: Option<Place>) -> Vec<Op> {
    let ring = Op::Circle { centre: at, radius: 1.3, paint: Paint::stroke(Pen::black(0.3)) };
    let dot = |radius: f64| Op::Circle { centre: at, radius, paint: Paint::fill(Ink::BLACK) };
    match place {
        Some(Place::Back) => vec![dot(1.3)],
        Some(Place::Sides) => vec![ring, dot(0.5)],
        _ => vec![ring],
    }
}
