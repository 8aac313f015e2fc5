//! Whether a rail may cross itself, at a glance: nearly all don't, and are left as they are.

use super::knots::Knots;
use super::span::Span;
use super::straight::Straight;

/// Whether a rail may fold, or its sides meet. `false` is certain for an outline of two sides that run from heel to toe.
///
/// A rail that doesn't fold goes everywhere the way that its feather line goes. Then neither side crosses itself as long as
/// that leads on along the centre line, and the sides don't meet as long as each stays on its own half; round heel and toe
/// the way across the centre line will do.
pub(super) fn may_cross(spans: &[Span], knots: &Knots, side_switch: f64) -> bool {
    if !knots.total().is_finite() {
        return false;
    }
    let t = knots.parameters();
    let folds = spans.iter().zip(t.windows(2)).any(|(span, ends)| span.folds(ends[0], ends[1]));
    folds || !(0..spans.len()).all(|n| keeps_to_its_side(spans, knots, side_switch, n))
}

fn keeps_to_its_side(spans: &[Span], knots: &Knots, side_switch: f64, n: usize) -> bool {
    let (from, to) = (knots.parameters()[n], knots.parameters()[n + 1]);
    let at_an_end = n == 0 || n + 1 == spans.len() || (from <= side_switch && side_switch <= to);
    if at_an_end {
        return spans[n].feather_goes_one_way(from, to, &Straight::centre());
    }
    let own = if to < side_switch { -1.0 } else { 1.0 };
    let (a, b, length) = (knots.point(n), knots.point(n + 1), knots.span_length(n));
    // A way of this length from one end to the other stays within an ellipse about them, half so high.
    let height = (length * length - (b.x - a.x) * (b.x - a.x)).max(0.0).sqrt();
    own * (a.y + b.y) > height && spans[n].feather_goes_one_way(from, to, &Straight::square_at(0.0))
}
