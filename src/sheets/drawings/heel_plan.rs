//! The heel from below at true size: its edge, wall and feather line, rows, the release cut, the clinch nails, and where each
//! nail of the base and the cap stands, with a mark by its length.

use super::{LABEL, LABEL_LINE, TITLE, label, level, line, title};
use crate::build::{Build, HeelNailsBuilt, Lines, Stand};
use crate::geometry::{Path, Side, Straight};
use crate::sheets::paper::{Anchor, Ink, Op, Paint, Pen, Point, Style, width_mm};
use crate::sheets::words::{self, Lang};
use kurbo::Point as Mm;

/// Above and below the outline, mm.
const ABOUT: f64 = 4.0;
/// For the dimension of the heel's length and the legend, mm.
const UNDER: f64 = 9.0 + 4.0 * LABEL_LINE;

/// What the drawing says beside its lines, as the sheet prints it.
pub(in crate::sheets) struct HeelPlan<'b> {
    pub build: &'b Build<'b>,
    pub lang: Lang,
    /// How far the nails stand inside the feather line or the heel's edge.
    pub inside: String,
    /// It is the feather line that they are measured from.
    pub from_feather: bool,
    /// The length from the feather line's back to the breast.
    pub length: String,
    /// Each length that a stage drives, with its words: the stage from 0, none for the cap, and mm.
    pub lengths: Vec<(Option<usize>, f64, String)>,
}

/// What marks a nail: its stage by the shape, its length by how much of it is filled.
#[derive(Clone, Copy)]
struct Sign {
    stage: Option<usize>,
    filled: usize,
}

impl HeelPlan<'_> {
    fn built(&self) -> Option<(&Lines, &HeelNailsBuilt)> {
        let nails = self.build.heel_nails.as_ref()?.as_ref().ok()?;
        Some((self.build.lines.as_ref().ok()?, nails)).filter(|(_, nails)| !nails.stands.is_empty())
    }

    fn outline(lines: &Lines) -> Option<Vec<Mm>> {
        let (from, to) = lines.round_the_heel()?;
        Some(lines.edge.flatten(from, to, 0.05))
    }

    /// The outline's reach across the foot, mm: outside, inside.
    fn across(outline: &[Mm]) -> (f64, f64) {
        outline.iter().fold((0.0_f64, 0.0_f64), |(least, most), p| (least.min(p.y), most.max(p.y)))
    }

    /// mm of paper on `width`; `None` without nails.
    pub fn height(&self, width: f64) -> Option<f64> {
        let (lines, ..) = self.built()?;
        let (outside, inside) = Self::across(&Self::outline(lines)?);
        // Room for a row of nails and one of lines is there; each row more that they wrap to needs its own.
        let beyond = (self.legend(0.0, width, 0.0).1 - 2.6 * LABEL_LINE).max(0.0);
        Some(TITLE + 2.0 * ABOUT + inside - outside + UNDER + beyond)
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let Some((lines, nails)) = self.built() else { return Vec::new() };
        let Some(outline) = Self::outline(lines) else { return Vec::new() };
        let (outside, inside) = Self::across(&outline);
        let breast = lines.last.breast;
        let left = at.x + (width - breast) / 2.0;
        let place = |p: Mm| Point::new(left + p.x, at.y + TITLE + ABOUT + p.y - outside);
        let mut ops = vec![title(at, words::of(words::HEEL_PLAN, self.lang), "1 : 1", self.lang)];
        let ends = [outline[0], outline[outline.len() - 1]].map(place);
        ops.push(Op::Polyline { points: outline.into_iter().map(place).collect(), pen: Pen::black(0.6) });
        ops.push(line(ends[0], ends[1], Pen::black(0.6)));
        ops.extend(self.beneath(lines, &place));
        for stand in &nails.stands {
            ops.extend(sign(place(stand.head), self.sign_of(nails, stand)));
        }
        ops.extend(self.inside_line(lines, nails, &place));
        let y = place(Mm::new(0.0, inside)).y + ABOUT + 2.0;
        let (back, front) = (place(Mm::ORIGIN).x, place(Mm::new(breast, 0.0)).x);
        ops.extend(level(y, back, front));
        ops.push(label(f64::midpoint(back, front), y - 1.0, self.length.clone(), Anchor::Centre));
        ops.push(label(front + 3.0, place(Mm::ORIGIN).y + 1.1, words::of(words::BREAST, self.lang), Anchor::Left));
        ops.extend(self.legend(at.x, width, y + 6.4).0);
        ops
    }

    /// What the nails must not meet: wall and feather line, rows, the release cut, clinch nails.
    fn beneath(&self, lines: &Lines, place: &dyn Fn(Mm) -> Point) -> Vec<Op> {
        let breast = lines.last.breast;
        let ends = Straight::square_at(breast);
        let shown = |path: &dyn Path, (from, to): (f64, f64)| -> Vec<Point> {
            path.flatten(from, to, 0.05).into_iter().map(place).collect()
        };
        let round = |path: &dyn Path, pen: Pen| {
            let behind = path.stretches_before(&ends);
            behind.into_iter().map(|stretch| Op::Polyline { points: shown(path, stretch), pen }).collect::<Vec<_>>()
        };
        let mut ops = round(&lines.last.feather, FEATHER);
        ops.extend(lines.wall().map(|wall| round(&wall, WALL)).unwrap_or_default());
        for row in self.build.rows.iter().flat_map(|rows| &rows.rows) {
            let outside = row.rail.crossings_on(&ends, Side::Outside).first().map(|t| (row.from, *t));
            let inside = row.rail.crossings_on(&ends, Side::Inside).last().map(|t| (*t, row.to));
            for stretch in [outside, inside].into_iter().flatten().filter(|(from, to)| from < to) {
                ops.push(Op::Polyline { points: shown(&row.rail, stretch), pen: ROW });
            }
        }
        let release = Straight::square_at(lines.release());
        let ends = lines.last.feather.crossings(&release);
        if let (Some(from), Some(to)) = (ends.first(), ends.last()) {
            ops.push(line(place(lines.last.feather.point(*from)), place(lines.last.feather.point(*to)), RELEASE));
        }
        for nail in [&self.build.waist, &self.build.seat].into_iter().flatten().flatten().flat_map(|line| &line.nails) {
            if nail.point.x <= breast {
                ops.push(Op::Circle { centre: place(nail.point), radius: 0.5, paint: Paint::fill(Ink::BLACK) });
            }
        }
        ops
    }

    fn sign_of(&self, nails: &HeelNailsBuilt, stand: &Stand) -> Sign {
        let length = nails.nail_of(stand).map(|nail| nail.length);
        let of_stage = self.lengths.iter().filter(|(stage, ..)| *stage == stand.stage);
        let filled =
            of_stage.take_while(|(_, known, _)| length.is_some_and(|length| length.total_cmp(known).is_ne())).count();
        Sign { stage: stand.stage, filled }
    }

    /// From the line that the ring is measured from to the nail that stands nearest to the back.
    fn inside_line(&self, lines: &Lines, nails: &HeelNailsBuilt, place: &dyn Fn(Mm) -> Point) -> Vec<Op> {
        let base = nails.stands.iter().filter(|stand| stand.stage.is_some());
        let Some(nail) = base.min_by(|a, b| a.head.x.total_cmp(&b.head.x)) else { return Vec::new() };
        let edge = lines.edge.point(0.0);
        let start = if self.from_feather { lines.last.feather.point(0.0) } else { edge };
        let (from, to) = (place(Mm::new(start.x, nail.head.y)), place(nail.head));
        let beside = place(edge).x - 3.0;
        vec![line(from, to, Pen::black(0.5)), label(beside, from.y + 1.1, self.inside.clone(), Anchor::Right)]
    }

    fn legend(&self, left: f64, width: f64, y: f64) -> (Vec<Op>, f64) {
        let mut ops = Vec::new();
        let (mut x, mut y) = (left, y);
        for (n, (stage, _, word)) in self.lengths.iter().enumerate() {
            if x + 4.5 + width_mm(word, Style::Condensed, LABEL) > left + width {
                (x, y) = (left, y + 1.3 * LABEL_LINE);
            }
            let filled = self.lengths[..n].iter().filter(|(other, ..)| other == stage).count();
            ops.extend(sign(Point::new(x + 1.5, y - 1.1), Sign { stage: *stage, filled }));
            ops.push(label(x + 4.5, y, word.clone(), Anchor::Left));
            x += 4.5 + width_mm(word, Style::Condensed, LABEL) + 6.0;
        }
        (x, y) = (left, y + 1.3 * LABEL_LINE);
        let pens = [(words::FEATHER, FEATHER), (words::WALL, WALL), (words::ROW, ROW), (words::RELEASE_LINE, RELEASE)];
        let lines = pens.into_iter().map(|(word, pen)| (word, Some(pen)));
        for (word, pen) in lines.chain([(words::CLINCHED, None)]) {
            let word = words::of(word, self.lang);
            let (mark, long) = (if pen.is_some() { 9.5 } else { 3.0 }, width_mm(word, Style::Condensed, LABEL));
            if x + mark + long > left + width {
                (x, y) = (left, y + 1.3 * LABEL_LINE);
            }
            ops.push(match pen {
                Some(pen) => line(Point::new(x, y - 1.1), Point::new(x + 8.0, y - 1.1), pen),
                None => {
                    Op::Circle { centre: Point::new(x + 1.0, y - 1.1), radius: 0.5, paint: Paint::fill(Ink::BLACK) }
                }
            });
            ops.push(label(x + mark, y, word, Anchor::Left));
            x += mark + long + 6.0;
        }
        (ops, y)
    }
}

const FEATHER: Pen = Pen::black(0.25).dashed(1.6, 0.8);
const WALL: Pen = Pen::black(0.2);
const ROW: Pen = Pen::black(0.35).dashed(0.9, 0.5);
const RELEASE: Pen = Pen::black(0.25).dashed(4.0, 1.0);

/// A nail's mark: a circle in the first stage, a square in the second, a triangle after that, a cross for the cap; full for
/// the longest of its stage, with a dot for the next, open for the others.
fn sign(at: Point, sign: Sign) -> Vec<Op> {
    const R: f64 = 1.3;
    let pen = Pen::black(0.3);
    let ring = |paint: Paint| match sign.stage {
        Some(0) => vec![Op::Circle { centre: at, radius: R, paint }],
        Some(1) => vec![Op::Rect { at: Point::new(at.x - R, at.y - R), width: 2.0 * R, height: 2.0 * R, paint }],
        Some(_) => {
            let ring = [(0.0, -R), (R, R), (-R, R)].map(|(x, y)| Point::new(at.x + x, at.y + y)).to_vec();
            vec![Op::Polygon { rings: vec![ring], paint }]
        }
        None => [(R, R), (R, -R)]
            .map(|(x, y)| line(Point::new(at.x - x, at.y - y), Point::new(at.x + x, at.y + y), pen))
            .to_vec(),
    };
    match (sign.stage, sign.filled) {
        (Some(_), 0) => ring(Paint::fill(Ink::BLACK)),
        (Some(_), 1) => {
            let dot = Op::Circle { centre: at, radius: 0.5, paint: Paint::fill(Ink::BLACK) };
            ring(Paint::stroke(pen)).into_iter().chain([dot]).collect()
        }
        _ => ring(Paint::stroke(pen)),
    }
}
