//! One model in one size: every figure, margins included.

mod figure;

pub use figure::{Datum, Figure, Figures};
