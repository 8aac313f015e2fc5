//! A section through the nail of the base that has the least to spare: the base as built, what lies over it up to the foot,
//! and the nail in it.

use super::{
    LABEL, LABEL_LINE, Pointed, Scale, TITLE, column, fitted, hatch, label, lifted, line, scale, short, title_within,
    upright,
};
use crate::build::{CutLayer, HeelNail, Stand, Zone};
use crate::finding::Piece;
use crate::sheets::paper::{Anchor, Ink, Op, Paint, Pen, Point, Style, width_mm};
use crate::sheets::values::mm;
use crate::sheets::words::{self, Lang};

/// As much of the heel as is shown, mm of paper.
const WIDE: f64 = 44.0;
/// What the dimensions take to its left, mm.
const BESIDE: f64 = 40.0;
/// Above for the place and the face, and below for the ground side, mm.
const ABOVE: f64 = TITLE + 2.0 * LABEL_LINE;
const BELOW: f64 = 2.0 * LABEL_LINE;
/// The most that the heel may take, mm of paper.
const ROOM: f64 = 120.0;
/// Half a nail's breadth, mm of paper, and what its point tapers over.
const HALF: f64 = 0.7;
const TAPER: f64 = 5.0;

/// What the drawing shows, and what it says as the sheet prints it.
pub(in crate::sheets) struct NailSection<'b> {
    pub nail: &'b HeelNail,
    pub stand: &'b Stand,
    pub lang: Lang,
    /// Its stage and place.
    pub place: String,
    /// Its length.
    pub length: String,
}

impl NailSection<'_> {
    fn tall(&self) -> f64 {
        self.nail.cut.height().max(self.nail.reach())
    }

    fn scale(&self) -> Scale {
        Scale::largest(&[scale(5.0, 1.0), scale(2.0, 1.0), scale(1.0, 1.0), scale(1.0, 2.0)], self.tall(), ROOM)
    }

    /// mm of paper.
    pub fn height(&self) -> f64 {
        ABOVE + self.tall() * self.scale().by() + BELOW
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let by = self.scale().by();
        let floor = at.y + ABOVE + self.tall() * by;
        let left = at.x + BESIDE;
        let name = words::of(words::NAIL_CUT, self.lang);
        let mut ops = vec![title_within(width, at, name, &self.scale().said(), self.lang)];
        let from_heel = words::of(words::FROM_HEEL, self.lang);
        let stands = format!("{}, {} {from_heel}", self.place, mm(self.stand.head.x, self.lang));
        ops.push(label(at.x, at.y + TITLE + 0.5, stands, Anchor::Left));
        let (layers, mut labels) = self.layers((left, width - BESIDE - WIDE - 8.0), floor, by);
        ops.extend(layers);
        let face = floor - self.nail.cut.height() * by;
        labels.extend(self.kept(&mut ops, left, face, by));
        ops.extend(column(labels, left + WIDE + 8.0, Anchor::Left, (at.y + TITLE, floor + 2.0)));
        ops.extend(self.face(left, face));
        let ground = words::of(words::GROUND_SIDE, self.lang);
        ops.push(label(left + WIDE / 2.0, floor + 4.6, ground, Anchor::Centre));
        ops.extend(self.driven(left, floor, by));
        ops
    }

    /// Every layer as thick as it is, from the ground up, and what each is called.
    fn layers(&self, (left, room): (f64, f64), floor: f64, by: f64) -> (Vec<Op>, Vec<Pointed>) {
        let (mut ops, mut labels, mut y) = (Vec::new(), Vec::new(), floor);
        let cut = &self.nail.cut;
        for layer in cut.base.iter().chain(&cut.over) {
            let hatch = hatch(&layer.what);
            let middle = y - layer.thickness * by / 2.0;
            labels.push(Pointed { at: Point::new(left + WIDE, middle), text: self.said(layer, room) });
            let one = layer.thickness * by / f64::from(layer.count.max(1));
            for _ in 0..layer.count.max(1) {
                let ring = vec![
                    Point::new(left, y - one),
                    Point::new(left + WIDE, y - one),
                    Point::new(left + WIDE, y),
                    Point::new(left, y),
                ];
                ops.push(Op::Hatched { rings: vec![ring], hatch, outline: Some(Pen::black(0.25)) });
                y -= one;
            }
        }
        (ops, labels)
    }

    fn said(&self, layer: &CutLayer, room: f64) -> String {
        let word = match &layer.what {
            Piece::Lifted(which) => words::of(lifted(*which), self.lang).to_owned(),
            what => short(what, self.lang),
        };
        let count = if layer.count > 1 { format!("{} \u{d7} ", layer.count) } else { String::new() };
        let thick = format!(" {}", mm(layer.thickness, self.lang));
        fitted(&format!("{count}{word}"), room - width_mm(&thick, Style::Condensed, LABEL)) + &thick
    }

    /// The line that the point must stay below.
    fn kept(&self, ops: &mut Vec<Op>, left: f64, face: f64, by: f64) -> Option<Pointed> {
        let kept = self.nail.cut.kept;
        let y = face + kept * by;
        (kept > 0.0).then(|| {
            let pen = Pen::black(0.5).dashed(2.4, 1.0);
            ops.push(line(Point::new(left - 3.0, y), Point::new(left + WIDE + 1.5, y), pen));
            let text = format!("{} {}", words::of(words::KEPT_CLEAR, self.lang), mm(kept, self.lang));
            Pointed { at: Point::new(left + WIDE + 1.5, y), text }
        })
    }

    /// What the section ends at.
    fn face(&self, left: f64, face: f64) -> Vec<Op> {
        let mut ops = vec![line(Point::new(left - 3.0, face), Point::new(left + WIDE, face), Pen::black(0.5))];
        let word = match self.stand.zone {
            Zone::Seat => words::FOOT_FACE,
            Zone::Ledge => words::LEDGE_FACE,
            Zone::Turn => return ops,
        };
        ops.push(label(left + WIDE / 2.0, face - 1.4, words::of(word, self.lang), Anchor::Centre));
        ops
    }

    /// The nail, the hole over its sunk head, and both as dimensions.
    fn driven(&self, left: f64, floor: f64, by: f64) -> Vec<Op> {
        let x = left + WIDE / 2.0;
        let (head, point) = (floor - self.nail.sunk * by, floor - self.nail.reach() * by);
        let tip = Point::new(x + self.nail.length * self.nail.leans.sin() * by, point);
        let neck = (TAPER / (head - point)).min(1.0);
        let shoulder = Point::new(tip.x + (x - tip.x) * neck, point + (head - point) * neck);
        let side = |p: Point, off: f64| Point::new(p.x + off, p.y);
        let foot = Point::new(x, head);
        let nail = vec![side(foot, -HALF), side(shoulder, -HALF), tip, side(shoulder, HALF), side(foot, HALF)];
        let hole = [(-2.0 * HALF, floor), (-2.0 * HALF, head), (2.0 * HALF, head), (2.0 * HALF, floor)];
        let hole = hole.map(|(off, y)| Point::new(x + off, y)).to_vec();
        let mut ops = vec![
            Op::Polygon { rings: vec![hole], paint: Paint::fill(Ink::WHITE) },
            Op::Polygon { rings: vec![nail], paint: Paint::fill(Ink::BLACK) },
            line(side(foot, -2.0 * HALF), side(foot, 2.0 * HALF), Pen::black(0.9)),
        ];
        let measured = left - 8.0;
        ops.extend(upright(measured, point, head));
        ops.extend(upright(measured, head, floor));
        ops.push(label(measured - 1.6, f64::midpoint(point, head) + 1.1, self.length.clone(), Anchor::Right));
        let sunk = format!("{} {}", words::of(words::NAIL_SUNK, self.lang), mm(self.nail.sunk, self.lang));
        ops.push(label(measured - 1.6, f64::midpoint(head, floor) + 1.1, sunk, Anchor::Right));
        ops
    }
}
