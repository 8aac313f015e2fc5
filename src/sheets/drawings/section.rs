//! The section through the turnout where the stack is tallest, what the machine sews beside it.

use super::{LABEL, Pointed, fitted, hatch, label, level, line, row as labels, short};
use crate::build::{Build, Peak};
use crate::geometry::Path as _;
use crate::sheets::paper::{Anchor, Dash, Op, Pen, Point, Style, Text, width_mm};
use crate::sheets::values::mm;
use crate::sheets::words::{self, Lang};

const SECTION_SCALE: f64 = 4.0;

/// Height of the section's drawing, mm.
pub(in crate::sheets) fn section_height(build: &Build<'_>) -> f64 {
    build.stack.as_ref().map_or(0.0, |stack| tallest(build, &stack.asked.hi) * SECTION_SCALE + 26.0)
}

fn tallest(build: &Build<'_>, peak: &Peak) -> f64 {
    peak.sum.nominal().max(build.sole_sews().unwrap_or(0.0))
}

/// The stack where it is tallest, cut across the turnout, four times its size: every layer as thick as it is, the stitch
/// as deep as it goes, and beside it what the machine sews.
pub(in crate::sheets) fn section(build: &Build<'_>, lang: Lang, at: Point, width: f64) -> Vec<Op> {
    let (Ok(stack), Ok(lines), Ok(rows)) = (&build.stack, &build.lines, &build.rows) else { return Vec::new() };
    let peak = &stack.asked.hi;
    let scale = SECTION_SCALE;
    let row = &rows.rows[peak.row];
    let t = row.rail.t_at_length(row.from, peak.s);
    let turnout = lines.turnout_at(t);
    let (left, right) = (at.x + 38.0, at.x + 38.0 + turnout * scale);
    let floor = at.y + 10.0 + tallest(build, peak) * scale;
    let mut ops = vec![super::title(at, words::of(words::SECTION, lang), "4 : 1", lang)];
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
        let said = [words::piece(&term.what, lang), short(&term.what, lang)];
        let thick = format!(" {}", mm(term.nominal(), lang));
        let wide = |text: &str| width_mm(text, Style::Condensed, LABEL);
        let room = at.x + width - right - 7.0 - wide(&thick);
        let what = said.iter().find(|what| wide(what) <= room).cloned().unwrap_or_else(|| fitted(&said[1], room));
        ops.push(label(right + 7.0, middle, what + &thick, Anchor::Left));
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
    // From the finished edge to each row, and to the wall.
    let places = [turnout].into_iter().chain(rows.rows.iter().rev().map(|row| row.inset));
    let measured =
        places.map(|inset| Pointed { at: Point::new(right - inset * scale, floor + 4.6), text: mm(inset, lang) });
    ops.extend(level(floor + 4.6, left, right));
    ops.extend(labels(measured.collect(), floor + 11.0, (at.x, right)));
    ops.push(label(right + 7.0, floor + 5.7, words::of(words::FROM_FINISHED_EDGE, lang), Anchor::Left));
    let total = mm(peak.sum.nominal(), lang);
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
    let Some(sews) = build.sole_sews() else { return Vec::new() };
    let top = floor - sews * SECTION_SCALE;
    let gauge = x + 30.0;
    let bracket = Pen::black(0.4);
    vec![
        line(Point::new(gauge, top), Point::new(gauge, floor), bracket),
        line(Point::new(gauge - 2.0, top), Point::new(left, top), bracket.dashed(1.0, 0.8)),
        line(Point::new(gauge - 2.0, floor), Point::new(left, floor), bracket),
        label(gauge - 2.0, top + 5.0, words::of(words::SEWS, lang), Anchor::Right),
        label(gauge - 2.0, top + 9.4, mm(sews, lang), Anchor::Right),
    ]
}
