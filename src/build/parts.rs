//! What the parts of the upper take.

use super::Built;
use super::amounts::{base, of};
use super::last::GradedLast;
use crate::spec::{Model, Part};
use std::sync::Arc;

/// A part in one size.
#[derive(Clone, Debug)]
pub struct PartBuilt {
    /// The part.
    pub part: Arc<Part>,
    /// Net area of one piece, dm2: graded by length factor times girth factor.
    pub area: Built<f64>,
    /// Net area of a pair, dm2.
    pub pair: Built<f64>,
}

pub(super) fn parts(model: &Model, last: &GradedLast) -> Vec<PartBuilt> {
    let Ok(upper) = &model.upper else { return Vec::new() };
    let factor = last.length_factor * last.girth_factor;
    let built = upper.parts.values().map(|part| {
        let area = base(&part.area).map(|area| area * factor);
        let pair = area.and_then(|area| Ok(2.0 * area * f64::from(of(&part.pieces)?.it)));
        PartBuilt { part: Arc::clone(part), area, pair }
    });
    built.collect()
}
