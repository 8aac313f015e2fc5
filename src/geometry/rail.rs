//! Rails: lines carried along the normals of a feather curve at a distance that may change on the way.

use std::fmt;

use kurbo::Point;

use super::folds;
use super::knots::{Knots, LENGTH_TOLERANCE};
use super::path::{Motion, Path, Side};
use super::profile::{Course, Distance};
use super::quadrature::integrate;
use super::span::Span;
use super::spline::{ClosedCurve, Frame, frame_of};
use super::straight::Straight;
use super::trim::{self, Cut};

/// Parameters nearer than this, mm, are one knot.
const SAME_KNOT: f64 = 1e-9;

/// Difference of the sides' distances, mm, from which a rail jumps at the heel or toe.
const JUMP: f64 = 1e-6;

/// `P(t) + d(t) n(t)`: the feather curve `P` carried along its outward normal `n`. The distance `d` follows the profile
/// of the foot's side in the foot's `x`, plus a constant. A rail has its feather curve's parameters.
///
/// Where it would cross itself the loop is cut off ([`Cut`]): over the parameters of the loop it stands still at the
/// corner, which has no length, so that lengths, areas and what is spaced evenly pass over it.
#[derive(Clone, Debug)]
pub struct Rail {
    spans: Vec<Span>,
    knots: Knots,
    side_switch: f64,
    trim: Option<Box<Trim>>,
}

/// What is kept of a rail from which something was cut off.
#[derive(Clone, Debug)]
struct Trim {
    /// The rail with its loops, from which others are carried.
    whole: Rail,
    /// By span: where it stands still, and the way that it turns to there.
    stops: Vec<Option<Motion>>,
    cuts: Vec<Cut>,
}

/// The two sides of a distance don't meet at the heel or the toe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jump {
    /// Where, mm along the centre line.
    pub x: f64,
    /// The outside's distance there, mm.
    pub outside: f64,
    /// The inside's distance there, mm.
    pub inside: f64,
}

impl fmt::Display for Jump {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { x, outside, inside } = self;
        write!(f, "the distance is {outside} outside and {inside} inside at {x}, where the sides meet")
    }
}

impl std::error::Error for Jump {}

/// The place of a rail, with its loops, that is nearest to folding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tightest {
    /// Parameter of the place.
    pub t: f64,
    /// `1 + k d` there: the rail's radius over the feather curve's. At 0 or below the rail folds back.
    pub factor: f64,
}

impl Tightest {
    /// Whether the rail folds back there.
    #[must_use]
    pub fn folds(&self) -> bool {
        self.factor <= 0.0
    }
}

impl Rail {
    /// The rail at `distance` plus `added` mm (an inset is negative) from `curve`.
    ///
    /// # Errors
    ///
    /// A [`Jump`] if the sides' distances differ where they meet.
    pub fn along(curve: &ClosedCurve, distance: &Distance, added: f64) -> Result<Self, Jump> {
        for t in [0.0, curve.toe()] {
            let x = curve.point(t).x;
            let (outside, inside) = (distance.outside.at(x), distance.inside.at(x));
            if (outside - inside).abs() > JUMP {
                return Err(Jump { x, outside, inside });
            }
        }
        Ok(Self::carry(curve, distance, added))
    }

    /// The rail at `distance` mm all round, positive outward.
    #[must_use]
    pub fn constant(curve: &ClosedCurve, distance: f64) -> Self {
        let (feather, t) = (curve.knots(), curve.parameters().to_vec());
        let spans = curve.pieces().iter().zip(&t);
        let spans = spans.map(|(feather, origin)| Span {
            feather: *feather,
            origin: *origin,
            course: Course::level(0.0, distance),
        });
        let known = |span: &Span, n: usize, from: f64, to: f64| span.parallel(from, to, feather.span_length(n), 0.0);
        Self::measure(spans.collect(), t, curve.toe(), known).trimmed()
    }

    fn carry(curve: &ClosedCurve, distance: &Distance, added: f64) -> Self {
        let t = breaks(curve, distance);
        let spans: Vec<Span> = t.windows(2).map(|ends| span_between(curve, distance, added, ends)).collect();
        let feather = curve.knots();
        let known = |span: &Span, _, from: f64, to: f64| {
            let place = feather.locate(0.5 * (from + to)).span;
            let ends = (feather.parameters()[place], feather.parameters()[place + 1]);
            (ends == (from, to)).then(|| span.parallel(from, to, feather.span_length(place), 0.0)).flatten()
        };
        Self::measure(spans, t, curve.toe(), known).trimmed()
    }

    /// The rail `added` mm farther out than this one along the same normals.
    #[must_use]
    pub fn beside(&self, added: f64) -> Self {
        let whole = self.whole();
        let spans = whole.spans.iter().map(|span| span.farther(added)).collect();
        let known = |span: &Span, n: usize, from: f64, to: f64| {
            span.parallel(from, to, whole.knots.span_length(n), whole.spans[n].course.start())
        };
        Self::measure(spans, whole.knots.parameters().to_vec(), self.side_switch, known).trimmed()
    }

    /// Takes the lengths that are `known`, and measures the others.
    fn measure(
        spans: Vec<Span>,
        t: Vec<f64>,
        side_switch: f64,
        known: impl Fn(&Span, usize, f64, f64) -> Option<f64>,
    ) -> Self {
        let at = |span: usize, t: f64| spans[span].motion(t).point;
        let length = |span: usize, from: f64, to: f64| {
            let (n, span) = (span, &spans[span]);
            known(span, n, from, to).unwrap_or_else(|| integrate(|t| span.speed(t), from, to, LENGTH_TOLERANCE))
        };
        let knots = Knots::measure(t, at, length);
        Self { spans, knots, side_switch, trim: None }
    }

    /// Without its loops. What neither folds nor meets itself stays as it is, to the last bit.
    fn trimmed(self) -> Self {
        if !folds::may_cross(&self.spans, &self.knots, self.side_switch) {
            return self;
        }
        let cuts = trim::cuts(&self);
        if cuts.is_empty() { self } else { self.without(cuts) }
    }

    /// Without what is cut off: each span parted where a cut begins or ends in it.
    fn without(self, cuts: Vec<Cut>) -> Self {
        let period = self.period();
        let mut parted = Parted { t: vec![0.0], spans: Vec::new(), stops: Vec::new() };
        for (n, span) in self.spans.iter().enumerate() {
            let (from, to) = (self.knots.parameters()[n], self.knots.parameters()[n + 1]);
            let ends = cuts.iter().flat_map(Cut::knots).flat_map(|t| [t, t - period]);
            let mut ends: Vec<f64> = ends.filter(|t| from < *t && *t < to).chain([to]).collect();
            ends.sort_by(f64::total_cmp);
            let mut start = from;
            for end in ends {
                let middle = 0.5 * (start + end);
                parted.stops.push(cuts.iter().find_map(|cut| cut.stop(middle, period)));
                parted.spans.push(*span);
                parted.t.push(end);
                start = end;
            }
        }
        let Parted { t, spans, stops } = parted;
        let at = |n: usize, t: f64| match (&stops[n], &stops[(n + stops.len() - 1) % stops.len()]) {
            (Some(stop), _) | (None, Some(stop)) => stop.point,
            (None, None) => spans[n].motion(t).point,
        };
        let length = |n: usize, from: f64, to: f64| {
            let measured = || integrate(|t| spans[n].speed(t), from, to, LENGTH_TOLERANCE);
            let same = self.knots.parameters().binary_search_by(|t| t.total_cmp(&from)).ok();
            let whole = same.filter(|n| self.knots.parameters().get(n + 1) == Some(&to));
            if stops[n].is_some() { 0.0 } else { whole.map_or_else(measured, |n| self.knots.span_length(n)) }
        };
        let knots = Knots::measure(t, at, length);
        let side_switch = self.side_switch;
        Self { spans, knots, side_switch, trim: Some(Box::new(Trim { whole: self, stops, cuts })) }
    }

    /// The rail with its loops.
    fn whole(&self) -> &Self {
        self.trim.as_ref().map_or(self, |trim| &trim.whole)
    }

    /// What was cut off, in order.
    #[must_use]
    pub fn cuts(&self) -> &[Cut] {
        self.trim.as_ref().map_or(&[], |trim| &trim.cuts)
    }

    /// The cuts that lie between `t0` and `t1`, at parameters of that range.
    #[must_use]
    pub fn cuts_between(&self, t0: f64, t1: f64) -> Vec<Cut> {
        let period = self.period();
        let turns = |cut: &Cut| ((t0 - cut.from) / period).ceil();
        let moved = self.cuts().iter().map(|cut| cut.moved(turns(cut) * period));
        let mut found: Vec<Cut> = moved.filter(|cut| t0 <= cut.from && cut.to <= t1).collect();
        found.sort_by(|a, b| a.from.total_cmp(&b.from));
        found
    }

    /// Whether the rail runs in one piece from `t0` to `t1`: something is left of it there, and no more than corners are
    /// cut off.
    #[must_use]
    pub fn runs_through(&self, t0: f64, t1: f64) -> bool {
        self.knots.total() > 0.0 && !self.cuts_between(t0, t1).iter().any(|cut| cut.parts)
    }

    /// The foot of the normal at `t` on the feather curve.
    #[must_use]
    pub fn foot(&self, t: f64) -> Frame {
        let place = self.knots.locate(t);
        let span = &self.spans[place.span];
        frame_of(&span.feather, place.t - span.origin)
    }

    /// The distance from the feather curve at `t`, mm, positive outward.
    #[must_use]
    pub fn distance(&self, t: f64) -> f64 {
        let place = self.knots.locate(t);
        let span = &self.spans[place.span];
        span.distance(span.feather.point(place.t - span.origin).x)
    }

    /// The least of `1 + k d` from `t0` to `t1`; that at `t0` if the range is empty.
    ///
    /// Where it is 0 or less, an inward curve is tighter than the distance going out, or an outward one tighter than the
    /// distance going in, and the rail folds back on itself.
    #[must_use]
    pub fn tightest(&self, t0: f64, t1: f64) -> Tightest {
        let start = self.knots.locate(t0);
        let mut best = Tightest { t: t0, factor: self.spans[start.span].factor(start.t) };
        for piece in self.knots.pieces(t0, t1) {
            let found = self.spans[piece.span].tightest(piece.from, piece.to);
            if found.factor < best.factor {
                best = Tightest { t: found.t + piece.shift, ..found };
            }
        }
        best
    }

    /// How far inside the feather curve it lies at least, mm; 0 or less if it lies outside anywhere.
    pub(super) fn least_inset(&self) -> f64 {
        let ends = self.knots.parameters().iter().map(|&t| -self.distance(t));
        ends.fold(f64::INFINITY, f64::min)
    }
}

impl Path for Rail {
    fn knots(&self) -> &Knots {
        &self.knots
    }

    #[inline]
    fn motion_on(&self, span: usize, t: f64) -> Motion {
        match self.stop(span) {
            Some(stop) => *stop,
            None => self.spans[span].motion(t),
        }
    }

    #[inline]
    fn speed_on(&self, span: usize, t: f64) -> f64 {
        if self.stands_still(span) { 0.0 } else { self.spans[span].speed(t) }
    }

    fn side_switch(&self) -> f64 {
        self.side_switch
    }

    #[inline]
    fn stands_still(&self, span: usize) -> bool {
        self.stop(span).is_some()
    }

    fn goes_one_way(&self, span: usize, line: &Straight) -> bool {
        let t = self.knots.parameters();
        self.stands_still(span) || self.spans[span].goes_one_way(t[span], t[span + 1], line)
    }
}

impl Rail {
    #[inline]
    fn stop(&self, span: usize) -> Option<&Motion> {
        self.trim.as_ref()?.stops[span].as_ref()
    }
}

/// The spans of a rail as they are put together anew.
struct Parted {
    t: Vec<f64>,
    spans: Vec<Span>,
    stops: Vec<Option<Motion>>,
}

/// The parameters of the curve's knots and of the places where a profile changes its slope.
fn breaks(curve: &ClosedCurve, distance: &Distance) -> Vec<f64> {
    let own = curve.parameters();
    let mut t = own.to_vec();
    for (profile, side) in [(&distance.outside, Side::Outside), (&distance.inside, Side::Inside)] {
        for x in profile.places() {
            t.extend(curve.crossings_on(&Straight::square_at(x), side));
        }
        // The sides may change over between two knots.
        if profile.places().next().is_some() {
            t.push(curve.toe());
        }
    }
    t.sort_by(f64::total_cmp);
    t.dedup_by(|later, earlier| *later - *earlier < SAME_KNOT);
    // Should a break have swallowed the end, the period comes back.
    if let (Some(last), Some(&period)) = (t.last_mut(), own.last()) {
        *last = period;
    }
    t
}

fn span_between(curve: &ClosedCurve, distance: &Distance, added: f64, ends: &[f64]) -> Span {
    let middle = 0.5 * (ends[0] + ends[1]);
    let place = curve.knots().locate(middle);
    let foot: Point = curve.point(middle);
    let profile = match curve.side(middle) {
        Side::Outside => &distance.outside,
        Side::Inside => &distance.inside,
    };
    Span {
        feather: curve.pieces()[place.span],
        origin: curve.parameters()[place.span],
        course: profile.course_at(foot.x).farther(added),
    }
}
