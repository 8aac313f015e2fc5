//! Typed statements to what was declared: shop, stock, lasts, models, with names resolved.
//!
//! Each value keeps how and where it was written; what a fault took is a hole that remembers the fault.

mod blanks;
mod bottom;
mod declared;
mod fields;
mod heel;
mod last;
mod load;
mod merge;
mod model;
mod route;
mod shop;
mod sizes;
mod stock;
mod upper;
mod value;
mod world;

pub use crate::finding::Role;
pub use blanks::{BlankMeasured, Blanks};
pub use bottom::{Bottom, Ends, Extent, Forefoot, ForefootHold, Layer, LayerStock, NailLine, Sole, Turnout};
pub use heel::{Heel, HeelNails, Lifts, NailOf, Stage};
pub use last::{Grade, Last, Station, stations_mm};
pub use load::{Loaded, load};
pub use merge::{InForce, Merged};
pub use model::{Check, Claim, Finish, Lasting, Model, TacksLeft};
pub use route::{Change, DwellWritten, Put, RouteEdit, RouteWritten};
pub use shop::{Bobbin, House, Machine, Nailer, Setter, Shop, Skiver, Stitch};
pub use sizes::{MAX_SIZES, Made};
pub use stock::{
    Adhesive, Cap, Channel, Filler, Hardware, Lift, Nail, Outsole, Rubber, Shares, SoleLeather, Stiffener, Stock,
    Thread, UpperLeather,
};
pub use upper::{
    Collar, Facing, Gusset, Lap, LastedIn, Mark, Part, RowOf, Seam, Skive, Stay, Stiffened, Stitching, Upper,
};
pub use value::{ByPlace, Val, Valued};
pub use world::{World, in_force, remade, world, worlds};
