//! The heel from the side, built: wedges, lifts and cap, what is sanded off, and the nails with their points and their sink.

use super::{LABEL_LINE, Pointed, Scale, TITLE, column, fitted, hatch, label, line, scale, short, title, upright};
use crate::build::{Build, Gauged, HeelBuilt, HeelNail, Lines, Place};
use crate::finding::{Lifted, Role};
use crate::sheets::paper::{Anchor, Hatch, Op, Pen, Point};
use crate::sheets::words::{self, Lang};

const SCALES: [Scale; 3] = [scale(2.0, 1.0), scale(1.0, 1.0), scale(1.0, 2.0)];
/// What is kept free on each side for labels, mm.
const BESIDE: f64 = 47.0;
/// From the heel to a column of labels: the gauges' dimension lines and the leaders stand there, mm.
const ASIDE: f64 = 9.5;
/// What a column of labels needs, mm.
const COLUMN: f64 = 8.5 * LABEL_LINE;
const UNDER: f64 = 8.0;

/// What the drawing says beside its lines, as the sheet prints it.
pub(in crate::sheets) struct Heel<'b> {
    pub build: &'b Build<'b>,
    pub lang: Lang,
    /// Each kind of layer with its thickness, in the order of the build's.
    pub layers: Vec<String>,
    /// The cap with its thickness.
    pub cap: String,
    /// At the back, then at the breast: gauge before, gauge after, what is sanded.
    pub ends: [[String; 3]; 2],
    /// The length from back to breast.
    pub length: String,
}

/// Where the drawing stands on the page; y runs down from the seat at the back.
struct Frame<'h> {
    heel: &'h HeelBuilt,
    /// Where the heel point of the feather line is drawn.
    left: f64,
    /// The finished edge at the back, as a share of the length: it lies behind the heel point.
    back: f64,
    seat: f64,
    by: f64,
    /// What a column of labels has on its side, mm.
    aside: f64,
}

impl Frame<'_> {
    /// A place `down` mm below the seat's back, at a share of the length.
    fn at(&self, along: f64, down: f64) -> Point {
        Point::new(self.left + along * self.heel.length * self.by, self.seat + down * self.by)
    }

    /// How far the seat has fallen there.
    fn fallen(&self, along: f64) -> f64 {
        self.heel.drop * along
    }
}

impl Heel<'_> {
    fn built(&self) -> Option<&HeelBuilt> {
        self.build.heel.as_ref()?.as_ref().ok()
    }

    /// How far the finished edge stands behind the heel point, mm.
    fn behind(&self) -> Option<f64> {
        self.build.lines.as_ref().ok().map(Lines::behind_the_heel)
    }

    fn scale(long: f64, width: f64) -> Scale {
        Scale::largest(&SCALES, long, width - 2.0 * BESIDE)
    }

    fn deepest(heel: &HeelBuilt) -> f64 {
        heel.block.nominal().max(heel.given.nominal() + heel.drop_left)
    }

    /// mm of paper on `width`; `None` without a heel.
    pub fn height(&self, width: f64) -> Option<f64> {
        let (heel, behind) = (self.built()?, self.behind()?);
        let tall = heel.under_seat.nominal() + Self::deepest(heel);
        Some(TITLE + (tall * Self::scale(heel.length + behind, width).by()).max(COLUMN) + UNDER)
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let (Some(heel), Some(behind)) = (self.built(), self.behind()) else { return Vec::new() };
        let scale = Self::scale(heel.length + behind, width);
        let by = scale.by();
        let edge = at.x + (width - (heel.length + behind) * by) / 2.0;
        let seat = at.y + TITLE + heel.under_seat.nominal() * by;
        let (left, back) = (edge + behind * by, -behind / heel.length);
        let frame = Frame { heel, left, back, seat, by, aside: edge - at.x - ASIDE };
        let mut ops = vec![title(at, words::of(words::HEEL_SIDE, self.lang), &scale.said(), self.lang)];
        let top = at.y + TITLE;
        let between = (top, (frame.at(0.0, Self::deepest(heel)).y + 2.0).max(top + COLUMN));
        let mut left = self.over_the_seat(&frame, &mut ops);
        let mut right = self.layers(&frame, &mut ops);
        right.extend(self.cap(&frame, &mut ops));
        ops.extend(nails(self.build, &frame));
        ops.extend(self.gauged(&frame, &mut left, &mut right));
        ops.extend(column(left, edge - ASIDE, Anchor::Right, between));
        ops.extend(column(right, frame.at(1.0, 0.0).x + ASIDE, Anchor::Left, between));
        let y = frame.at(0.0, Self::deepest(heel)).y + 6.0;
        ops.push(label(edge, y, words::of(words::HEEL_BACK, self.lang), Anchor::Left));
        ops.push(label(frame.at(1.0, 0.0).x, y, words::of(words::BREAST, self.lang), Anchor::Right));
        // The length counts from the heel point, which lies inside the edge.
        let [from, to] = [0.0, 1.0].map(|along| Point::new(frame.at(along, 0.0).x, y - 4.0));
        ops.push(line(from, to, Pen::black(0.15)));
        ops.push(label(frame.at(0.5, 0.0).x, y, self.length.clone(), Anchor::Centre));
        ops
    }

    /// What lies between the foot and the base, as it lies.
    fn over_the_seat(&self, frame: &Frame<'_>, ops: &mut Vec<Op>) -> Vec<Pointed> {
        let heel = frame.heel;
        let mut down = -heel.under_seat.nominal();
        let mut labels = Vec::new();
        for term in &heel.under_seat.terms {
            let next = down + term.nominal();
            // Insole and outer end at the feather line; what lies below them is cut to the edge.
            let to_edge = matches!(term.what.role(), Some(Role::Midsole | Role::Slip | Role::Outsole));
            let end = if to_edge { frame.back } else { 0.0 };
            let at = |along: f64, down: f64| (along, down + frame.fallen(along));
            ops.push(hatched(frame, &[at(end, down), at(1.0, down), at(1.0, next), at(end, next)], hatch(&term.what)));
            let at = frame.at(end, f64::midpoint(down, next) + frame.fallen(end));
            labels.push(Pointed { at, text: fitted(&short(&term.what, self.lang), frame.aside - 2.0) });
            down = next;
        }
        labels
    }

    /// Wedges and lifts from the seat down, cut where they are levelled.
    fn layers(&self, frame: &Frame<'_>, ops: &mut Vec<Op>) -> Vec<Pointed> {
        let heel = frame.heel;
        let mut labels = Vec::new();
        let (mut back, mut breast) = (frame.fallen(frame.back), heel.drop);
        let mut said = self.layers.iter();
        for (which, count, thick) in heel.stack.iter().filter(|(_, count, _)| *count > 0) {
            let at_breast = if *which == Lifted::Wedges { heel.wedge_at_breast.unwrap_or(*thick) } else { *thick };
            // What tapers to the breast is thicker at the edge than at the heel point.
            let at_edge = thick - (thick - at_breast) * frame.back;
            for n in 0..*count {
                let next = (back + at_edge, breast + at_breast);
                ops.extend(levelled(frame, (back, breast), next, hatch(&(*which).into())));
                if n == 0 {
                    let place = frame.at(1.0, f64::midpoint(breast, next.1).min(heel.needed.nominal()));
                    labels.extend(said.next().map(|text| Pointed { at: place, text: text.clone() }));
                }
                (back, breast) = next;
            }
        }
        labels
    }

    fn cap(&self, frame: &Frame<'_>, ops: &mut Vec<Op>) -> Option<Pointed> {
        let (level, table) = (frame.heel.needed.nominal(), frame.heel.block.nominal());
        let back = frame.back;
        ops.push(hatched(
            frame,
            &[(back, level), (1.0, level), (1.0, table), (back, table)],
            hatch(&frame.heel.cap.what),
        ));
        Some(Pointed { at: frame.at(1.0, f64::midpoint(level, table)), text: self.cap.clone() })
    }

    /// The base as built, dashed, with its gauges and what is sanded at both ends.
    fn gauged(&self, frame: &Frame<'_>, left: &mut Vec<Pointed>, right: &mut Vec<Pointed>) -> Vec<Op> {
        let heel = frame.heel;
        let Gauged { before, after } = heel.gauged(-frame.back * heel.length);
        let built = [frame.fallen(frame.back) + before[0], heel.drop + before[1]];
        let pen = Pen::black(0.5).dashed(1.6, 0.8);
        let mut ops = vec![line(frame.at(frame.back, built[0]), frame.at(1.0, built[1]), pen)];
        for (end, (along, out)) in [(frame.back, -1.0), (1.0, 1.0)].into_iter().enumerate() {
            let (seat, edge) = (frame.at(along, frame.fallen(along)).y, frame.at(along, 0.0).x);
            let level = |gauge: f64| seat + gauge * frame.by;
            let gauges = [(level(before[end]), edge + 5.0 * out), (level(after[end]), edge + 2.5 * out)];
            let mut places: Vec<Point> = Vec::new();
            for (bottom, x) in gauges {
                ops.extend(upright(x, seat, bottom));
                places.push(Point::new(x, f64::midpoint(seat, bottom)));
            }
            places.push(Point::new(edge, f64::midpoint(gauges[0].0, gauges[1].0)));
            let labels = if end == 0 { &mut *left } else { &mut *right };
            let said = self.ends[end].iter().cloned();
            labels.extend(places.into_iter().zip(said).map(|(at, text)| Pointed { at, text }));
        }
        ops
    }
}

/// A ring of places: share of the length, mm below the seat's back.
fn hatched(frame: &Frame<'_>, ring: &[(f64, f64)], hatch: Hatch) -> Op {
    let ring = ring.iter().map(|(along, down)| frame.at(*along, *down)).collect();
    Op::Hatched { rings: vec![ring], hatch, outline: Some(Pen::black(0.3)) }
}

/// What is left of a layer above the level: its upper and lower face at back and breast.
fn levelled(frame: &Frame<'_>, top: (f64, f64), bottom: (f64, f64), hatch: Hatch) -> Option<Op> {
    let (level, edge) = (frame.heel.needed.nominal(), frame.back);
    let face = |(back, breast): (f64, f64)| {
        let at = |down: f64| edge + (1.0 - edge) * (down - back) / (breast - back);
        match (back < level, breast < level) {
            (true, false) => vec![(edge, back), (at(level), level), (1.0, level)],
            (false, true) => vec![(edge, level), (at(level), level), (1.0, breast)],
            _ => vec![(edge, back.min(level)), (1.0, breast.min(level))],
        }
    };
    if top.0 >= level && top.1 >= level {
        return None;
    }
    let ring: Vec<(f64, f64)> = face(top).into_iter().chain(face(bottom).into_iter().rev()).collect();
    Some(hatched(frame, &ring, hatch))
}

/// One nail of each stage and place, from its head to its point, and one of the cap's.
fn nails(build: &Build<'_>, frame: &Frame<'_>) -> Vec<Op> {
    let Some(Ok(nails)) = &build.heel_nails else { return Vec::new() };
    let mut ops: Vec<Op> = Vec::new();
    for nail in &nails.nails {
        let along = share(nail, nail.stage.map_or(0, |stage| stage.saturating_sub(1)));
        let base = nail.base[0] + (nail.base[1] - nail.base[0]) * along;
        let head = frame.fallen(along) + base - nail.sunk;
        ops.extend(one(frame, along, head, nail.length));
    }
    if let Some(cap) = &nails.cap {
        ops.extend(one(frame, 0.3, frame.heel.block.nominal() - cap.sunk, cap.length));
    }
    ops
}

/// Where a place's nail is shown; a later stage's stands beside it.
fn share(nail: &HeelNail, stage: u32) -> f64 {
    let place = match nail.place {
        Place::Back => 0.08,
        Place::Sides => 0.5,
        Place::Breast => 0.86,
    };
    place + 0.06 * f64::from(stage)
}

fn one(frame: &Frame<'_>, along: f64, head: f64, length: f64) -> [Op; 2] {
    let (head, point) = (frame.at(along, head), frame.at(along, head - length));
    let under = [Point::new(head.x - 1.2, head.y), Point::new(head.x + 1.2, head.y)];
    [line(head, point, Pen::black(0.6)), line(under[0], under[1], Pen::black(0.8))]
}
