//! The bottom of a right foot seen from below: its lines, rows and nails.

use super::{LABEL, label, line};
use crate::build::Build;
use crate::geometry::Path as _;
use crate::sheets::paper::{Anchor, Ink, Op, Paint, Pen, Point, Style, width_mm};
use crate::sheets::words::{self, Lang};
use kurbo::Point as Mm;

const BOTTOM_SCALE: f64 = 0.5;

/// Height of the bottom's drawing, mm.
pub(in crate::sheets) fn bottom_height(build: &Build<'_>) -> f64 {
    let Ok(lines) = &build.lines else { return 0.0 };
    let widest = lines.turnout.forepart.max(lines.turnout.waist_outside) + lines.lining + 8.0;
    (lines.last.tread + 2.0 * widest + 10.0) * BOTTOM_SCALE + 26.0
}

/// The right foot's bottom seen from below, half its size: feather line, wall, finished edge, rows, nails, forefoot row.
pub(in crate::sheets) fn bottom(build: &Build<'_>, lang: Lang, at: Point, width: f64) -> Vec<Op> {
    let (Ok(lines), Ok(rows)) = (&build.lines, &build.rows) else { return Vec::new() };
    let last = &lines.last;
    let centre = at.y + bottom_height(build) / 2.0 + 2.0;
    let origin = at.x + (width - (last.bottom + 40.0) * BOTTOM_SCALE) / 2.0 + 20.0 * BOTTOM_SCALE;
    // Seen from below, the inside of a right foot lies towards the reader.
    let place = |p: Mm| Point::new(origin + p.x * BOTTOM_SCALE, centre + p.y * BOTTOM_SCALE);
    let all = |points: Vec<Mm>| points.into_iter().map(place).collect::<Vec<_>>();
    let whole = |path: &dyn Flat, pen: Pen| Op::Polyline { points: all(path.flat(0.0, path.turn())), pen };
    let mut ops = vec![super::title(at, words::of(words::BELOW, lang), "1 : 2", lang)];
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
