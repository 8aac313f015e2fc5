//! The bottom of a right foot seen from below: its lines, rows and nails.

use super::{LABEL, LABEL_LINE, TITLE, label, line};
use crate::build::{Build, Lines, RowBuilt, mm};
use crate::geometry::Path as _;
use crate::sheets::paper::{Anchor, Hatch, Ink, Op, Paint, Pen, Point, Style, width_mm};
use crate::sheets::words::{self, Lang};
use crate::spec::Role;
use kurbo::Point as Mm;

const BOTTOM_SCALE: f64 = 0.5;
/// Two lines of legend below the drawing, mm.
const LEGEND: f64 = 9.4;

/// Whose sheet it is: the sole stitcher has no use for what others have nailed, sewn and laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::sheets) enum Bench {
    Bottoming,
    SoleStitching,
}

/// Over the outline for the title and the words above it, under it for heel and toe, mm.
const OVER: f64 = TITLE + 4.0;
const UNDER: f64 = 3.6;

/// How far breast and joints are drawn from the centre line, mm of the boot: past the turnout.
fn reach(lines: &Lines) -> f64 {
    lines.last.tread / 2.0 + lines.turnout.forepart.max(lines.turnout.waist_outside) + lines.lining + 5.0
}

/// Height of the bottom's drawing, mm.
pub(in crate::sheets) fn bottom_height(build: &Build<'_>) -> f64 {
    let Ok(lines) = &build.lines else { return 0.0 };
    OVER + 2.0 * reach(lines) * BOTTOM_SCALE + UNDER + LEGEND
}

/// The right foot's bottom seen from below, half its size: feather line, wall, finished edge, rows, nails, forefoot row.
pub(in crate::sheets) fn bottom(build: &Build<'_>, lang: Lang, bench: Bench, at: Point, width: f64) -> Vec<Op> {
    let (Ok(lines), Ok(rows)) = (&build.lines, &build.rows) else { return Vec::new() };
    let last = &lines.last;
    let centre = at.y + OVER + reach(lines) * BOTTOM_SCALE;
    let origin = at.x + (width - (last.bottom + 40.0) * BOTTOM_SCALE) / 2.0 + 20.0 * BOTTOM_SCALE;
    // Seen from below, the inside of a right foot lies towards the reader.
    let place = |p: Mm| Point::new(origin + p.x * BOTTOM_SCALE, centre + p.y * BOTTOM_SCALE);
    let all = |points: Vec<Mm>| points.into_iter().map(place).collect::<Vec<_>>();
    let whole = |path: &dyn Flat, pen: Pen| Op::Polyline { points: all(path.flat(0.0, path.turn())), pen };
    let mut ops = vec![super::title(at, words::of(words::BELOW, lang), "1 : 2", lang)];
    ops.extend(laps(build, lines).into_iter().map(|ring| Op::Hatched {
        rings: vec![all(ring)],
        hatch: Hatch::UpperLeather,
        outline: Some(Pen::black(0.15)),
    }));
    let shank = shank(build, lines).map(|mut ring| {
        ring.push(ring[0]);
        Op::Polyline { points: all(ring), pen: SHANK }
    });
    ops.extend(shank.filter(|_| bench == Bench::Bottoming));
    ops.push(whole(&lines.edge, Pen::black(0.6)));
    ops.push(whole(&last.feather, Pen::black(0.3)));
    ops.extend(lines.wall().map(|wall| whole(&wall, Pen::black(0.2).dashed(1.6, 0.8))));
    for row in &rows.rows {
        let centre = place(row.rail.point(row.from));
        ops.push(Op::Circle { centre, radius: 0.9, paint: Paint::stroke(Pen::black(0.35)) });
        ops.push(Op::Polyline {
            points: all(row.rail.flatten(row.from, row.to, 0.05)),
            pen: Pen::black(0.35).dashed(0.9, 0.5),
        });
    }
    if bench == Bench::SoleStitching {
        ops.extend(rows.rows.first().map(|row| way(row, &place)));
    }
    if let Some(Ok(forefoot)) = build.forefoot.as_ref().filter(|_| bench == Bench::Bottoming) {
        let points = all(forefoot.row.flatten(forefoot.from, forefoot.to, 0.05));
        ops.push(Op::Polyline { points, pen: Pen::black(0.3).dashed(0.5, 0.5) });
    }
    let nails = [&build.waist, &build.seat].into_iter().filter(|_| bench == Bench::Bottoming);
    for nails in nails.flatten().flatten() {
        for nail in &nails.nails {
            ops.push(Op::Circle { centre: place(nail.point), radius: 0.55, paint: Paint::fill(Ink::BLACK) });
        }
    }
    ops.extend(across(lines, lang, &place));
    ops.extend(ends(lines, lang, at, width, &place));
    ops.extend(legend((lang, bench), at, width, at.y + bottom_height(build) - LEGEND + 4.4));
    ops
}

/// Which way a row is sewn: an arrowhead on it, some way from its start.
fn way(row: &RowBuilt, place: &impl Fn(Mm) -> Point) -> Op {
    const FROM_START: f64 = 24.0;
    const LONG: f64 = 5.0;
    let [tail, tip] = [FROM_START, FROM_START + LONG].map(|s| row.rail.point(row.rail.t_at_length(row.from, s)));
    let across = kurbo::Vec2::new(tip.y - tail.y, tail.x - tip.x) * 0.4;
    let ring = [tip, tail + across, tail - across].map(place);
    Op::Polygon { rings: vec![ring.to_vec()], paint: Paint::fill(Ink::BLACK) }
}

/// Where laps lie in the turnout, from the feather line to the finished edge: as far as the outermost row crosses them.
fn laps(build: &Build<'_>, lines: &Lines) -> Vec<Vec<Mm>> {
    let (Ok(stack), Ok(rows)) = (&build.stack, &build.rows) else { return Vec::new() };
    let Some(row) = rows.rows.first() else { return Vec::new() };
    let ring = |(from, to): (f64, f64)| {
        let [from, to] = [from, to].map(|s| row.rail.t_at_length(row.from, s));
        let outer = lines.edge.flatten(from, to, 0.05);
        let inner = lines.last.feather.flatten(from, to, 0.05);
        outer.into_iter().chain(inner.into_iter().rev()).collect()
    };
    stack.laps(0).into_iter().map(ring).collect()
}

/// The shank, where one of a stated breadth lies in the waist.
fn shank(build: &Build<'_>, lines: &Lines) -> Option<Vec<Mm>> {
    let layer = build.model.bottom.as_ref().ok()?.layer(Role::Shank)?;
    let broad = mm(layer.breadth.as_ref()?).ok()?;
    Some(lines.on_the_waist(broad)?.to_vec())
}

const SHANK: Pen = Pen::black(0.2).dashed(2.4, 0.5);

/// Breast and joints as thin lines across, with their names.
fn across(lines: &Lines, lang: Lang, place: &impl Fn(Mm) -> Point) -> Vec<Op> {
    let last = &lines.last;
    let reach = reach(lines);
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
fn ends(lines: &Lines, lang: Lang, at: Point, width: f64, place: &impl Fn(Mm) -> Point) -> [Op; 2] {
    let reach = reach(lines);
    let y = place(Mm::new(0.0, reach)).y.max(place(Mm::new(0.0, -reach)).y) + 2.4;
    let heel = label(at.x, y, words::of(words::HEEL, lang), Anchor::Left);
    [heel, label(at.x + width, y, words::of(words::TOE, lang), Anchor::Right)]
}

fn legend((lang, bench): (Lang, Bench), at: Point, width: f64, y: f64) -> Vec<Op> {
    let entries = [
        (words::FINISHED_EDGE, Pen::black(0.6)),
        (words::WALL, Pen::black(0.2).dashed(1.6, 0.8)),
        (words::FEATHER, Pen::black(0.3)),
        (words::ROW, Pen::black(0.35).dashed(0.9, 0.5)),
        (words::FOREFOOT, Pen::black(0.3).dashed(0.5, 0.5)),
    ];
    let signs = entries.map(|(word, pen)| (word, 8.0, Sign::Line(pen)));
    let more = [
        (words::SHANK, 8.0, Sign::Line(SHANK)),
        (words::LAP_HERE, 8.0, Sign::Hatched),
        (words::ROW_STARTS, 2.0, Sign::Round(0.9, Paint::stroke(Pen::black(0.35)))),
        (words::NAILS, 2.0, Sign::Round(0.55, Paint::fill(Ink::BLACK))),
    ];
    let mut ops = Vec::new();
    let (mut x, mut y) = (at.x, y);
    let others = [words::FOREFOOT, words::SHANK, words::NAILS];
    let shown = signs.into_iter().chain(more).filter(|(word, ..)| bench == Bench::Bottoming || !others.contains(word));
    for (word, wide, sign) in shown {
        let text = words::of(word, lang);
        let long = wide + 1.5 + width_mm(text, Style::Condensed, LABEL);
        if x + long > at.x + width {
            (x, y) = (at.x, y + LABEL_LINE);
        }
        let middle = y - 1.1;
        ops.push(match sign {
            Sign::Line(pen) => line(Point::new(x, middle), Point::new(x + wide, middle), pen),
            Sign::Round(radius, paint) => Op::Circle { centre: Point::new(x + 1.0, middle), radius, paint },
            Sign::Hatched => {
                let (top, bottom) = (middle - 1.2, middle + 1.2);
                let ring = [(x, top), (x + wide, top), (x + wide, bottom), (x, bottom)].map(|(x, y)| Point::new(x, y));
                let outline = Some(Pen::black(0.15));
                Op::Hatched { rings: vec![ring.to_vec()], hatch: Hatch::UpperLeather, outline }
            }
        });
        ops.push(label(x + wide + 1.5, y, text, Anchor::Left));
        x += long + 5.0;
    }
    ops
}

/// How something looks in the legend.
enum Sign {
    Line(Pen),
    Round(f64, Paint),
    Hatched,
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
