//! Curves, offsets and zones in plain millimetres.
//!
//! The room fits a smooth closed curve through measured points, carries rails along its normals at a distance that may
//! change on the way, and answers what can be asked of either: lengths, areas, crossings with straight lines, evenly
//! spaced places, breadths, distances. It knows no boots, no files and no spans.
//!
//! Coordinates: `x` runs along the centre line from the heel to the toe, `y` is positive on the inside (medial). Closed
//! curves run heel, outside (`y < 0`), toe, inside, heel: counter-clockwise. The outward normal of the unit tangent
//! `(tx, ty)` is `(ty, -tx)`, so a positive distance lies outside the curve. All lengths are mm, all areas mm².
//!
//! A place on a closed path is named by its parameter `t`, from 0 at the heel to [`Path::period`]. Parameters go on past
//! either end (`t` and `t + period` are one place), so that a stretch round the heel is simply a range. A rail shares the
//! parameter of its feather curve: equal `t` lie on one normal. Where a rail would fold or its sides would meet, what is
//! no line any more is cut off ([`Cut`]); over those parameters it stands still at the corner.

mod chain;
mod crossing;
mod cubic;
mod flatten;
mod folds;
mod knots;
mod loops;
mod nearest;
mod outline;
mod path;
mod plane;
mod profile;
mod quadrature;
mod rail;
mod region;
mod root;
mod span;
mod spline;
mod straight;
mod svg;
mod trim;

pub use loops::{SelfCrossing, self_crossing};
pub use nearest::Nearest;
pub use outline::{Outline, OutlineFault, Station, Stretch};
pub use path::{Motion, Path, Side};
pub use profile::{Distance, Profile, ProfileFault};
pub use rail::{Jump, Rail, Tightest};
pub use region::Breadth;
pub use spline::{ClosedCurve, CurveFault, Frame};
pub use straight::Straight;
pub use svg::{SvgFault, half_breadths};
pub use trim::Cut;
