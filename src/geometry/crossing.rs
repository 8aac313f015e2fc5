//! Where a path crosses a straight line, and the stretches between.

use std::ops::Range;

use super::path::{Path, Side};
use super::root;
use super::straight::Straight;

/// Parts in which a span is looked through for changes of sign.
const PARTS: u32 = 8;

/// Distance from the line in mm, and its change, at a parameter.
#[derive(Clone, Copy)]
struct Sample {
    t: f64,
    off: f64,
    rate: f64,
}

/// All crossings, ascending in `0..period`. A path that only touches the line crosses it at most there.
pub(super) fn all<P: Path + ?Sized>(path: &P, line: &Straight) -> Vec<f64> {
    let mut found = Vec::new();
    look_through_all(path, line, 0..path.knots().spans(), &mut found);
    found
}

/// The crossings on one side of the foot, ascending.
pub(super) fn on<P: Path + ?Sized>(path: &P, line: &Straight, side: Side) -> Vec<f64> {
    let knots = path.knots();
    let switch = knots.locate(path.side_switch());
    // The span of the switch may belong to both sides.
    let spans = match side {
        Side::Outside => 0..switch.span + 1,
        Side::Inside => switch.span..knots.spans(),
    };
    let mut found = Vec::new();
    look_through_all(path, line, spans, &mut found);
    found.retain(|&t| path.side(t) == side);
    found
}

fn look_through_all<P: Path + ?Sized>(path: &P, line: &Straight, spans: Range<usize>, found: &mut Vec<f64>) {
    let knots = path.knots();
    let mut start = line.signed(knots.point(spans.start));
    for span in spans {
        let end = line.signed(knots.point(span + 1));
        // To touch the line on its way a span must be at least as long as its ends are off.
        if start.abs() + end.abs() <= knots.span_length(span) + 1e-9 {
            look_through(path, line, span, (start, end), found);
        }
        start = end;
    }
}

/// Looks through one span, its far end left to the next one. The ends come from the knots, so that two spans see the same
/// sign where they meet.
fn look_through<P: Path + ?Sized>(path: &P, line: &Straight, span: usize, ends: (f64, f64), found: &mut Vec<f64>) {
    let t = path.knots().parameters();
    let (from, to) = (t[span], t[span + 1]);
    let sample = |t: f64| {
        let motion = path.motion_on(span, t);
        Sample { t, off: line.signed(motion.point), rate: line.rate(motion.velocity) }
    };
    if path.goes_one_way(span, line) {
        let off = |t| {
            let Sample { off, rate, .. } = sample(t);
            (off, rate)
        };
        if ends.0 == 0.0 {
            found.push(from);
        } else if ends.0 * ends.1 < 0.0 {
            found.push(root::newton(off, (from, ends.0), (to, ends.1)));
        }
        return;
    }
    let mut left = Sample { off: ends.0, ..sample(from) };
    for part in 1..=PARTS {
        let right = if part == PARTS {
            Sample { off: ends.1, ..sample(to) }
        } else {
            sample(from + (to - from) * f64::from(part) / f64::from(PARTS))
        };
        crossings_in_part(sample, left, right, found);
        left = right;
    }
}

fn crossings_in_part(sample: impl Fn(f64) -> Sample + Copy, left: Sample, right: Sample, found: &mut Vec<f64>) {
    let off = |t| {
        let Sample { off, rate, .. } = sample(t);
        (off, rate)
    };
    if left.off == 0.0 {
        found.push(left.t);
    } else if left.off * right.off < 0.0 {
        found.push(root::newton(off, (left.t, left.off), (right.t, right.off)));
    } else if left.off * left.rate < 0.0 && right.off * right.rate > 0.0 {
        // Towards the line and away again: it may have been crossed twice.
        let turn = sample(root::between(|t| sample(t).rate, (left.t, left.rate), (right.t, right.rate)));
        if left.off * turn.off < 0.0 {
            found.push(root::newton(off, (left.t, left.off), (turn.t, turn.off)));
            found.push(root::newton(off, (turn.t, turn.off), (right.t, right.off)));
        }
    }
}

/// The ranges whose distance from the line has the sign of `sign`.
pub(super) fn stretches<P: Path + ?Sized>(path: &P, line: &Straight, sign: f64) -> Vec<(f64, f64)> {
    let period = path.period();
    let crossings = all(path, line);
    let Some(&first) = crossings.first() else {
        let whole = sign * line.signed(path.point(0.0)) > 0.0;
        return if whole { vec![(0.0, period)] } else { Vec::new() };
    };
    let ends = crossings.iter().skip(1).copied().chain(std::iter::once(first + period));
    let between = crossings.iter().copied().zip(ends);
    between.filter(|&(t0, t1)| sign * line.signed(path.point(0.5 * (t0 + t1))) > 0.0).collect()
}
