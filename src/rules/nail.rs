//! What the rules on heel nails share.

use crate::build::{HeelNail, Stand};
use crate::finding::Subject;
use crate::rules::Phrase;

/// A nail of the heel by its stage and place.
pub(super) fn subject(nail: &HeelNail) -> Subject {
    Subject::HeelNail(nail.stage, nail.place.name())
}

/// `22.23 mm long, its head sunk 3.13 mm`
pub(super) fn lengthy(nail: &HeelNail) -> Phrase {
    Phrase::Numbers("{} mm long, its head sunk {} mm", [nail.length, nail.sunk])
}

/// Where a nail stands: `63.8 mm from the heel, 22.1 mm to the outside`
pub(super) fn standing(stand: &Stand) -> String {
    at(stand.head)
}

/// The same of any place of the bottom.
pub(super) fn at(place: kurbo::Point) -> String {
    let side = if place.y < 0.0 { "outside" } else { "inside" };
    format!("{:.1} mm from the heel, {:.1} mm to the {side}", place.x, place.y.abs())
}
