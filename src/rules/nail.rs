//! What the rules on heel nails share.

use crate::build::HeelNail;
use crate::rules::words::number;

/// `heel nail at the back`, `heel nail of stage 1 at the breast`
pub(super) fn subject(nail: &HeelNail) -> String {
    let stage = nail.stage.map(|stage| format!(" of stage {stage}")).unwrap_or_default();
    format!("heel nail{stage} at the {}", nail.place.name())
}

/// `22.23 mm long, its head sunk 3.13 mm`
pub(super) fn lengthy(nail: &HeelNail) -> String {
    format!("{} mm long, its head sunk {} mm", number(nail.length, 1.0), number(nail.sunk, 1.0))
}
