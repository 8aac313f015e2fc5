//! What a pair takes: leather, blanks, thread, nails, lifts, adhesive, hardware. Nothing is rounded here: that is done
//! once, up, in the unit in which it is bought, when an order is summed.

mod blanks;
mod bottom;
mod nails;
mod pieces;
mod thread;
mod upper;

pub use blanks::{BlankBuilt, blanks};
pub use bottom::{Bonded, Held, LayerTaken, adhesives, layers};
pub use nails::{NailsTaken, nails};
pub use pieces::{PieceTaken, pieces};
pub use thread::{RowTaken, ThreadTaken, threads, upper_pitch, upper_rows};
pub use upper::{LeatherTaken, ZoneTaken, leathers};

/// Boots of a pair.
const BOOTS: f64 = 2.0;

/// mm2 in a dm2.
const DM2: f64 = 10_000.0;
