//! Drawings to a stated scale: the section of the stack, the bottom seen from below.

use super::paper::{Anchor, Dash, Hatch, Ink, Op, Paint, Pen, Point, Style, Text, width_mm};
use super::words::{self, Lang};
use crate::build::{Build, Peak};
use crate::geometry::Path as _;
use kurbo::Point as Mm;

const LABEL: f64 = 9.0;
const SECTION_SCALE: f64 = 4.0;
const BOTTOM_SCALE: f64 = 0.5;

fn label(x: f64, y: f64, text: impl Into<String>, anchor: Anchor) -> Op {
    Op::Text(Text::new(x, y, LABEL, Style::Condensed, text).anchored(anchor))
}

fn line(from: Point, to: Point, pen: Pen) -> Op {
    Op::Line { from, to, pen }
}

/// Height of the section's drawing, mm.
pub(super) fn section_height(build: &Build<'_>) -> f64 {
    build.stack.as_ref().map_or(0.0, |stack| tallest(build, &stack.asked.hi) * SECTION_SCALE + 18.0)
}

fn tallest(build: &Build<'_>, peak: &Peak) -> f64 {
    let sews = build.model.bottom.as_ref().ok().and_then(|bottom| bottom.sole.as_ref().ok());
    let sews = sews
        .and_then(|sole| sole.on.as_ref().ok())
        .and_then(|on| on.it.sews.as_ref().ok())
        .map_or(0.0, |sews| sews.it.nominal());
    peak.sum.nominal().max(sews)
}

/// The stack where it is tallest, cut across the turnout, four times its size: every layer as thick as it is, the stitch
/// as deep as it goes, and beside it what the machine sews.
pub(super) fn section(build: &Build<'_>, lang: Lang, at: Point, width: f64) -> Vec<Op> {
    let (Ok(stack), Ok(lines), Ok(rows)) = (&build.stack, &build.lines, &build.rows) else { return Vec::new() };
    let peak = &stack.asked.hi;
    let scale = SECTION_SCALE;
    let row = &rows.rows[peak.row];
    let t = row.rail.t_at_length(row.from, peak.s);
    let turnout = lines.turnout_at(t);
    let (left, right) = (at.x + 38.0, at.x + 38.0 + turnout * scale);
    let floor = at.y + 10.0 + tallest(build, peak) * scale;
    let mut ops = vec![Op::Text(Text::new(at.x, at.y + 3.6, 11.0, Style::Bold, words::of(words::SECTION, lang)))];
    let mut y = floor;
    for term in peak.sum.terms.iter().rev() {
        let height = term.nominal() * scale;
        let rect = |x0: f64, x1: f64| {
            vec![vec![Point::new(x0, y - height), Point::new(x1, y - height), Point::new(x1, y), Point::new(x0, y)]]
        };
        ops.push(Op::Hatched { rings: rect(left, right), hatch: hatch(&term.what), outline: Some(Pen::black(0.3)) });
        let middle = y - height / 2.0 + 1.1;
        let (from, to) = (Point::new(right + 1.0, y - height / 2.0), Point::new(right + 6.0, y - height / 2.0));
        ops.push(line(from, to, Pen::black(0.15)));
        // The leather's name gives way where it has no room.
        let said = [&*term.what, term.what.split(" (").next().unwrap_or_default()];
        let said = said.map(|what| format!("{what} {:.2} mm", term.nominal()));
        let fits = |text: &&String| right + 7.0 + width_mm(text, Style::Condensed, LABEL) <= at.x + width;
        let said = said.iter().find(fits).unwrap_or(&said[1]);
        ops.push(label(right + 7.0, middle, said.clone(), Anchor::Left));
        y -= height;
    }
    let top = y;
    ops.push(wall(left, top, floor));
    for (n, row) in rows.rows.iter().enumerate() {
        let x = right - row.inset * scale;
        ops.push(line(Point::new(x, top - 1.2), Point::new(x, floor + 1.2), Pen::black(0.7)));
        ops.push(label(x, top - 2.2, (n + 1).to_string(), Anchor::Centre));
    }
    ops.extend(jaw(build, lang, at.x, left, floor));
    let total = format!("{:.2} mm", peak.sum.nominal());
    let x = at.x + width;
    ops.push(Op::Text(Text::new(x, at.y + 3.6, 11.0, Style::Bold, total).anchored(Anchor::Right)));
    ops
}

/// The upper's wall rises at the inner end of the turnout.
fn wall(x: f64, top: f64, floor: f64) -> Op {
    line(
        Point::new(x, floor + 2.0),
        Point::new(x, top - 6.0),
        Pen { dash: Dash::Chain { long: 3.0, gap: 1.0, short: 0.6 }, ..Pen::black(0.25) },
    )
}

/// What the machine sews, as a gauge beside the section.
fn jaw(build: &Build<'_>, lang: Lang, x: f64, left: f64, floor: f64) -> Vec<Op> {
    let Ok(bottom) = &build.model.bottom else { return Vec::new() };
    let Ok(sole) = &bottom.sole else { return Vec::new() };
    let Ok(sews) = crate::build::of(&sole.on).and_then(|on| crate::build::mm(&on.it.sews)) else { return Vec::new() };
    let top = floor - sews * SECTION_SCALE;
    let gauge = x + 30.0;
    let bracket = Pen::black(0.4);
    vec![
        line(Point::new(gauge, top), Point::new(gauge, floor), bracket),
        line(Point::new(gauge - 2.0, top), Point::new(left, top), bracket.dashed(1.0, 0.8)),
        line(Point::new(gauge - 2.0, floor), Point::new(left, floor), bracket),
        label(gauge - 2.0, top + 5.0, words::of(words::SEWS, lang), Anchor::Right),
        label(gauge - 2.0, top + 9.4, format!("{sews:.2} mm"), Anchor::Right),
    ]
}

pub(super) fn hatch(what: &str) -> Hatch {
    if what.contains(" lug ") {
        Hatch::LugRubber
    } else if what.starts_with("outsole") || what.starts_with("slip") {
        Hatch::Rubber
    } else if what.starts_with("midsole") {
        Hatch::SoleLeather
    } else {
        Hatch::UpperLeather
    }
}

/// Height of the bottom's drawing, mm.
pub(super) fn bottom_height(build: &Build<'_>) -> f64 {
    let Ok(lines) = &build.lines else { return 0.0 };
    let widest = lines.turnout.forepart.max(lines.turnout.waist_outside) + lines.lining + 8.0;
    (lines.last.tread + 2.0 * widest + 10.0) * BOTTOM_SCALE + 26.0
}

/// The right foot's bottom seen from below, half its size: feather line, wall, finished edge, rows, nails, forefoot row.
pub(super) fn bottom(build: &Build<'_>, lang: Lang, at: Point, width: f64) -> Vec<Op> {
    let (Ok(lines), Ok(rows)) = (&build.lines, &build.rows) else { return Vec::new() };
    let last = &lines.last;
    let centre = at.y + bottom_height(build) / 2.0 + 2.0;
    let origin = at.x + (width - (last.bottom + 40.0) * BOTTOM_SCALE) / 2.0 + 20.0 * BOTTOM_SCALE;
    // Seen from below, the inside of a right foot lies towards the reader.
    let place = |p: Mm| Point::new(origin + p.x * BOTTOM_SCALE, centre + p.y * BOTTOM_SCALE);
    let all = |points: Vec<Mm>| points.into_iter().map(place).collect::<Vec<_>>();
    let whole = |path: &dyn Flat, pen: Pen| Op::Polyline { points: all(path.flat(0.0, path.turn())), pen };
    let mut ops = vec![Op::Text(Text::new(at.x, at.y + 3.6, 11.0, Style::Bold, words::of(words::BELOW, lang)))];
    ops.push(whole(&lines.edge, Pen::black(0.6)));
    ops.push(whole(&last.feather, Pen::black(0.3)));
    ops.extend(lines.wall().map(|wall| whole(&wall, Pen::black(0.2).dashed(1.6, 0.8))));
    for row in &rows.rows {
        ops.push(Op::Polyline {
            points: all(row.rail.flatten(row.from, row.to, 0.05)),
            pen: Pen::black(0.35).dashed(0.9, 0.5),
        });
    }
    if let Some(Ok(forefoot)) = &build.forefoot {
        let points = all(forefoot.row.flatten(forefoot.from, forefoot.to, 0.05));
        ops.push(Op::Polyline { points, pen: Pen::black(0.3).dashed(0.5, 0.5) });
    }
    for nails in [&build.waist, &build.seat].into_iter().flatten().flatten() {
        for nail in &nails.places {
            ops.push(Op::Circle { centre: place(nail.point), radius: 0.55, paint: Paint::fill(Ink::BLACK) });
        }
    }
    ops.extend(across(lines, lang, &place));
    ops.extend(ends(lines, lang, at, width, &place));
    ops.extend(legend(lang, at, width, at.y + bottom_height(build) - 4.0));
    ops
}

/// Breast and joints as thin lines across, with their names.
fn across(lines: &crate::build::Lines, lang: Lang, place: &impl Fn(Mm) -> Point) -> Vec<Op> {
    let last = &lines.last;
    let reach = last.tread / 2.0 + 24.0;
    let thin = Pen::black(0.15);
    let breast = [place(Mm::new(last.breast, -reach)), place(Mm::new(last.breast, reach))];
    let joints = [place(Mm::new(last.joint_outside, -reach)), place(Mm::new(last.joint_inside, reach))];
    vec![
        line(breast[0], breast[1], thin),
        line(joints[0], joints[1], thin),
        label(breast[0].x, breast[0].y - 1.0, words::of(words::BREAST, lang), Anchor::Centre),
        label(joints[0].x, joints[0].y - 1.0, words::of(words::JOINTS, lang), Anchor::Centre),
        label(
            place(Mm::new(last.breast * 0.5, 0.0)).x,
            breast[0].y - 1.0,
            words::of(words::OUTSIDE, lang),
            Anchor::Centre,
        ),
        label(
            place(Mm::new(last.breast * 0.5, 0.0)).x,
            breast[1].y + 2.4,
            words::of(words::INSIDE, lang),
            Anchor::Centre,
        ),
    ]
}

/// Heel and toe at the ends, in the free corners.
fn ends(lines: &crate::build::Lines, lang: Lang, at: Point, width: f64, place: &impl Fn(Mm) -> Point) -> [Op; 2] {
    let reach = lines.last.tread / 2.0 + 24.0;
    let y = place(Mm::new(0.0, reach)).y.max(place(Mm::new(0.0, -reach)).y) + 2.4;
    let heel = label(at.x, y, words::of(words::HEEL, lang), Anchor::Left);
    [heel, label(at.x + width, y, words::of(words::TOE, lang), Anchor::Right)]
}

fn legend(lang: Lang, at: Point, width: f64, y: f64) -> Vec<Op> {
    let entries = [
        (words::FINISHED_EDGE, Pen::black(0.6)),
        (words::WALL, Pen::black(0.2).dashed(1.6, 0.8)),
        (words::FEATHER, Pen::black(0.3)),
        (words::ROW, Pen::black(0.35).dashed(0.9, 0.5)),
        (words::FOREFOOT, Pen::black(0.3).dashed(0.5, 0.5)),
    ];
    let mut ops = Vec::new();
    let mut x = at.x;
    for (word, pen) in entries {
        let text = words::of(word, lang);
        ops.push(line(Point::new(x, y - 1.1), Point::new(x + 8.0, y - 1.1), pen));
        ops.push(label(x + 9.5, y, text, Anchor::Left));
        x += 9.5 + width_mm(text, Style::Condensed, LABEL) + 5.0;
    }
    ops.push(Op::Circle { centre: Point::new(x + 1.0, y - 1.1), radius: 0.55, paint: Paint::fill(Ink::BLACK) });
    ops.push(label(x + 3.0, y, words::of(words::NAILS, lang), Anchor::Left));
    debug_assert!(x < at.x + width);
    ops
}

/// Curves and rails alike, to be flattened for the page.
trait Flat {
    fn flat(&self, from: f64, to: f64) -> Vec<Mm>;
    fn turn(&self) -> f64;
}

impl<P: crate::geometry::Path> Flat for P {
    fn flat(&self, from: f64, to: f64) -> Vec<Mm> {
        self.flatten(from, to, 0.05)
    }

    fn turn(&self) -> f64 {
        self.period()
    }
}
