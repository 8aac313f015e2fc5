//! Lengths in the plane by square roots alone, which every machine rounds alike; `hypot` is left to each system's library.

use kurbo::{Point, Vec2};

/// The length of `v`.
#[inline]
pub(super) fn length_of(v: Vec2) -> f64 {
    v.hypot2().sqrt()
}

/// How far `a` and `b` are apart, mm.
#[inline]
pub(super) fn apart(a: Point, b: Point) -> f64 {
    length_of(a - b)
}
