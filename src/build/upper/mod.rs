//! The upper as it is closed: every seam row by row, skives, facing, shaft. Outside the turnout; what lies under the
//! sole's rows is the stack's business.

mod claim;
mod facing;
mod joined;
mod lap;
mod row;
mod section;
mod skive;
mod thinned;

pub use claim::{ClaimBuilt, GussetBuilt, ShaftBuilt};
pub use facing::{Centre, FacingBuilt, Through, Web};
pub use joined::{FoldBuilt, StayBuilt};
pub use lap::{Beyond, LapBuilt};
pub use row::{EdgeOf, Left, UpperRow, UpperSeam};
pub use section::{LapSection, LapSide};
pub use skive::{SkiveBuilt, SkiverLimit};

pub(super) use claim::{back_height, claim, shaft};
pub(super) use facing::facing;

use crate::spec::{Model, Part, Shop, Val};
use std::sync::Arc;

/// What of the upper does not depend on the size.
#[derive(Debug, Default)]
pub struct UpperBuilt {
    /// Every seam with its rows: laps, closed seams, stays, gussets, the collar.
    pub seams: Vec<UpperSeam>,
    /// What is special to laps.
    pub laps: Vec<LapBuilt>,
    /// What is special to stays.
    pub stays: Vec<StayBuilt>,
    /// The collar's fold.
    pub fold: Option<FoldBuilt>,
    /// Every skive against the skiver that does it best.
    pub skives: Vec<SkiveBuilt>,
}

pub(super) fn upper(model: &Model, shop: &Shop) -> UpperBuilt {
    let Ok(upper) = &model.upper else { return UpperBuilt::default() };
    let house = &shop.house;
    let laps: Vec<_> = upper.laps.iter().map(|lap| lap::lap(lap, upper)).collect();
    let mut seams: Vec<UpperSeam> = Vec::new();
    seams.extend(upper.laps.iter().map(|lap| lap::seam(lap, house)));
    seams.extend(upper.seams.iter().map(|seam| joined::seam(seam, house)));
    seams.extend(upper.stays.iter().map(|stay| joined::stay_seam(stay, upper, house)));
    seams.extend(upper.gussets.iter().map(|gusset| joined::gusset(gusset, house)));
    seams.extend(upper.collar.iter().map(|collar| joined::collar(collar, house)));
    seams.extend(facing::seam(upper, house));
    UpperBuilt {
        seams,
        laps,
        stays: upper.stays.iter().map(|stay| joined::stay(stay, upper, house)).collect(),
        fold: upper.collar.as_ref().and_then(|collar| joined::fold(collar, house)),
        skives: upper.laps.iter().flat_map(|lap| skive::skives(lap, &shop.skivers)).collect(),
    }
}

/// The name of a part; empty, if a fault took it.
fn name_of(part: &Val<Arc<Part>>) -> &str {
    part.as_ref().map_or("", |part| part.it.name.as_str())
}
