//! Quantities as the trade writes them, kept exact until the last step.
//!
//! The room knows numbers, units, two-ended values and sizes; it knows no boots
//! and no texts. Everything that leaves it is finite.

mod amount;
mod exact;
mod fits;
mod number;
mod share;
mod size;
mod spread;
mod unit;

pub use amount::{Amount, AmountFault, Quantity, Shape};
pub use exact::{Exact, exact, to_f64};
pub use fits::{SLACK, fits};
pub use number::{Form, MAX_DIGITS, Number, NumberFault, inches, parse_number};
pub use share::{pairs_failing, share_above, share_below};
pub use size::{Size, System, Width, parse_width};
pub use spread::{Spread, Window};
pub use unit::{Kind, Unit};
