//! Where the smooth spans of a closed path meet, with what is kept about each meeting.

use kurbo::Point;

use super::plane::apart;

/// Disagreement of the two quadrature rules that sends a span to be halved, mm. The value kept is some hundred times
/// closer.
pub(super) const LENGTH_TOLERANCE: f64 = 1e-7;

/// The knots of a closed path: parameters from 0 to the period, the points there, and the length run so far.
#[derive(Clone, Debug)]
pub struct Knots {
    t: Vec<f64>,
    at: Vec<Point>,
    run: Vec<f64>,
}

/// A parameter brought back into the first turn: `t + turns * period` is what was asked.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub(super) turns: f64,
    pub(super) span: usize,
    pub(super) t: f64,
}

/// The part of a span that a range covers, in the parameters of the first turn; `shift` leads back to those of the range.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub(super) span: usize,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) shift: f64,
}

impl Knots {
    /// The knots at the ascending parameters `t` (two or more, the first 0), where `at` gives the point at the start of
    /// a span and `length` the length of one between its ends.
    pub(super) fn measure(
        t: Vec<f64>,
        at: impl Fn(usize, f64) -> Point,
        length: impl Fn(usize, f64, f64) -> f64,
    ) -> Self {
        let spans = t.len() - 1;
        let mut points = Vec::with_capacity(spans + 1);
        let mut run = Vec::with_capacity(spans + 1);
        run.push(0.0);
        for span in 0..spans {
            let (from, to) = (t[span], t[span + 1]);
            points.push(at(span, from));
            run.push(run[span] + length(span, from, to));
        }
        points.push(points[0]);
        Self { t, at: points, run }
    }

    pub(super) fn spans(&self) -> usize {
        self.t.len() - 1
    }

    pub(super) fn period(&self) -> f64 {
        self.t[self.spans()]
    }

    /// Length of the whole path, mm.
    pub(super) fn total(&self) -> f64 {
        self.run[self.spans()]
    }

    /// Parameters of all knots, the first 0, the last the period.
    pub(super) fn parameters(&self) -> &[f64] {
        &self.t
    }

    /// The point at knot `i`; the last is the first.
    pub(super) fn point(&self, i: usize) -> Point {
        self.at[i]
    }

    /// Length from the start to knot `i`, mm.
    pub(super) fn run(&self, i: usize) -> f64 {
        self.run[i]
    }

    pub(super) fn span_length(&self, span: usize) -> f64 {
        self.run[span + 1] - self.run[span]
    }

    /// No place of a span is nearer to `p` than this, mm: its ways to both ends are together no longer than the span.
    pub(super) fn least_to(&self, span: usize, p: Point) -> f64 {
        (apart(self.at[span], p) + apart(self.at[span + 1], p) - self.span_length(span)) / 2.0
    }

    pub(super) fn locate(&self, t: f64) -> Place {
        let (turns, t) = unwind(t, self.period());
        Place { turns, span: span_of(&self.t, t), t }
    }

    /// The span in which the path has run `length` mm from its start, with whole turns taken off.
    pub(super) fn locate_run(&self, length: f64) -> Place {
        let (turns, rest) = unwind(length, self.total());
        Place { turns, span: span_of(&self.run, rest), t: rest }
    }

    /// The spans from `t0` to `t1` in order, the first and last cut; nothing if `t1 <= t0` or one is not finite.
    pub(super) fn pieces(&self, t0: f64, t1: f64) -> impl Iterator<Item = Piece> + '_ {
        let start = self.locate(t0);
        let runs = t0 < t1 && t0.is_finite() && t1.is_finite();
        let mut span = start.span;
        let mut shift = start.turns * self.period();
        std::iter::from_fn(move || {
            loop {
                let from = self.t[span].max(t0 - shift);
                let to = self.t[span + 1].min(t1 - shift);
                if !runs || t1 - shift <= self.t[span] {
                    return None;
                }
                let piece = Piece { span, from, to, shift };
                span += 1;
                if span == self.spans() {
                    span = 0;
                    shift += self.period();
                }
                if to > from {
                    return Some(piece);
                }
            }
        })
    }
}

fn unwind(value: f64, whole: f64) -> (f64, f64) {
    let turns = (value / whole).floor();
    let rest = value - turns * whole;
    if rest >= whole { (turns + 1.0, 0.0) } else { (turns, rest.max(0.0)) }
}

fn span_of(ascending: &[f64], value: f64) -> usize {
    ascending.partition_point(|&knot| knot <= value).clamp(1, ascending.len() - 1) - 1
}
