//! The stack along a row: its thickness against the way from the row's start, what the machine sews, laps and joints.

use super::{LABEL, Pointed, Scale, THIN, TITLE, label, level, line, row, scale, title};
use crate::build::{Build, Stack};
use crate::sheets::paper::{Anchor, Ink, Op, Paint, Pen, Point, Style, width_mm};
use crate::sheets::words::{self, Lang};

/// Paper for thickness.
const UP: Scale = scale(2.0, 1.0);
/// Paper for the way, the largest first.
const ALONG: [Scale; 4] = [scale(1.0, 2.0), scale(1.0, 4.0), scale(1.0, 5.0), scale(1.0, 10.0)];
/// From the top of the title to what the machine sews, and below the table, mm.
const OVER: f64 = TITLE + 6.0;
const UNDER: f64 = 17.0;

/// What the drawing says beside its lines, as the sheet prints it.
pub(in crate::sheets) struct Profile<'b> {
    pub build: &'b Build<'b>,
    pub lang: Lang,
    /// The stack where it is tallest.
    pub worst: String,
    /// What the machine sews.
    pub sews: String,
    /// What it could still sew over the tallest place.
    pub margin: String,
    /// Each lap of the row, from and to.
    pub laps: Vec<String>,
    /// The row's length.
    pub length: String,
}

impl Profile<'_> {
    /// mm of paper; `None` without a stack.
    pub fn height(&self) -> Option<f64> {
        let stack = self.build.stack.as_ref().ok()?;
        Some(OVER + self.tallest(stack) * UP.by() + UNDER)
    }

    fn tallest(&self, stack: &Stack) -> f64 {
        stack.asked.hi.sum.nominal().max(self.build.sole_sews().unwrap_or(0.0))
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let (Ok(stack), Ok(rows)) = (&self.build.stack, &self.build.rows) else { return Vec::new() };
        let peak = &stack.asked.hi;
        let built = &rows.rows[peak.row];
        let along = Scale::largest(&ALONG, built.length, width - 4.0);
        let frame = Frame {
            left: at.x + 2.0,
            right: at.x + 2.0 + built.length * along.by(),
            table: at.y + OVER + self.tallest(stack) * UP.by(),
            along: along.by(),
        };
        let named =
            format!("{}, {} {}", words::of(words::PROFILE, self.lang), words::of(words::ROW, self.lang), peak.row + 1);
        let said = format!(
            "{} ({}), {} ({})",
            along.said(),
            words::of(words::WAY, self.lang),
            UP.said(),
            words::of(words::THICK, self.lang)
        );
        let mut ops = vec![title(at, &named, &said, self.lang)];
        ops.extend(self.laps(stack, peak.row, &frame, (at.x, at.x + width)));
        let profile = stack.profile(peak.row);
        // The stack stands on the table: its ends and the ends of laps go down to it.
        let ends = [profile.first(), profile.last()].into_iter().flatten().copied();
        let laps = stack.laps(peak.row).into_iter().flat_map(|(from, to)| [from, to]);
        let laps = laps.map(|s| (s, stack.asked.off_the_lap));
        ops.extend(
            ends.map(|end| (end, Pen::black(0.3)))
                .chain(laps.map(|end| (end, THIN)))
                .map(|((s, thick), pen)| line(frame.at(s, 0.0), frame.at(s, thick), pen)),
        );
        let curve = profile.into_iter().map(|(s, thick)| frame.at(s, thick)).collect();
        ops.push(Op::Polyline { points: straightened(curve), pen: Pen::black(0.6) });
        ops.push(line(frame.at(0.0, 0.0), frame.at(built.length, 0.0), Pen::black(0.3)));
        ops.extend(self.limit(&frame, built.length));
        ops.extend(self.called_out(&frame, peak.s, peak.sum.nominal(), (at.x, at.x + width)));
        if let Ok(lines) = &self.build.lines {
            ops.extend(built.joints(&lines.last).into_iter().flatten().flat_map(|s| self.joint(&frame, s)));
        }
        let y = frame.table + UNDER - 2.0;
        ops.push(label(frame.left, y, words::of(words::START, self.lang), Anchor::Left));
        ops.push(label(frame.right, y, self.length.clone(), Anchor::Right));
        ops.extend(level(y - 4.6, frame.left, frame.right));
        ops
    }

    /// What the machine sews, as a line over the whole way.
    fn limit(&self, frame: &Frame, length: f64) -> Vec<Op> {
        let Some(sews) = self.build.sole_sews() else { return Vec::new() };
        vec![line(frame.at(0.0, sews), frame.at(length, sews), Pen::black(0.4).dashed(2.0, 1.0))]
    }

    /// The tallest place, with what the machine sews: what lies between the two is the least margin.
    fn called_out(&self, frame: &Frame, s: f64, thick: f64, (left, right): (f64, f64)) -> Vec<Op> {
        let place = frame.at(s, thick);
        let [sews, left_over] = [words::SEWS, words::LEFT_OVER].map(|word| words::of(word, self.lang));
        let text = format!("{}; {sews} {}; {left_over} {}", self.worst, self.sews, self.margin);
        let half = width_mm(&text, Style::Condensed, LABEL) / 2.0;
        let x = place.x.clamp(left + half, (right - half).max(left + half));
        let top = frame.at(s, thick.max(self.build.sole_sews().unwrap_or(0.0)));
        vec![
            line(place, Point::new(place.x, top.y - 2.0), Pen::black(0.3)),
            Op::Circle { centre: place, radius: 0.8, paint: Paint::fill(Ink::BLACK) },
            label(x, top.y - 3.0, text, Anchor::Centre),
        ]
    }

    /// Laps as bands on the table, each with its from and to below it.
    fn laps(&self, stack: &Stack, k: usize, frame: &Frame, between: (f64, f64)) -> Vec<Op> {
        let mut ops = Vec::new();
        let mut labels = Vec::new();
        for ((from, to), said) in stack.laps(k).into_iter().zip(&self.laps) {
            let (left, right) = (frame.at(from, 0.0), frame.at(to, 0.0));
            let corner = Point::new(left.x, left.y);
            ops.push(Op::Rect { at: corner, width: right.x - left.x, height: 1.6, paint: Paint::fill(Ink::BLACK) });
            labels.push(Pointed { at: Point::new(f64::midpoint(left.x, right.x), left.y + 1.6), text: said.clone() });
        }
        ops.extend(row(labels, frame.table + 8.0, between));
        ops
    }

    fn joint(&self, frame: &Frame, s: f64) -> [Op; 2] {
        let foot = frame.at(s, 0.0);
        let pen = Pen::black(0.2).dashed(0.8, 0.8);
        let word = words::of(words::JOINT, self.lang);
        [line(foot, frame.at(s, 5.0), pen), label(foot.x + 1.0, foot.y - 1.2, word, Anchor::Left)]
    }
}

/// Where the drawing stands on the page.
struct Frame {
    left: f64,
    right: f64,
    table: f64,
    along: f64,
}

impl Frame {
    fn at(&self, s: f64, thick: f64) -> Point {
        Point::new(self.left + s * self.along, self.table - thick * UP.by())
    }
}

/// Without the points that lie on the straight line between their neighbours, to a hundredth of a millimetre of paper.
fn straightened(points: Vec<Point>) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for point in points {
        if let [.., a, b] = kept[..] {
            let (along, reach) = (point.x - a.x, b.x - a.x);
            let straight = along > 0.0 && (a.y + (point.y - a.y) * reach / along - b.y).abs() < 0.01;
            if straight {
                kept.pop();
            }
        }
        kept.push(point);
    }
    kept
}
