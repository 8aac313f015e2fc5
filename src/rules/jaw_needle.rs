//! # jaw/needle
//!
//! The needle of every seam lies within what its machine takes.
//!
//! ## At the bench
//!
//! A needle outside the machine's range doesn't fit its bar, its plate or its hook's timing: it bends, breaks, or
//! the machine drops stitches in the middle of a row.
//!
//! ## Formula
//!
//! `least <= needle <= most`, in Nm (hundredths of a mm of blade), for every seam.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { needle 280 Nm; on sole-stitcher }       # the machine takes 200..250
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { needle 230 Nm; on sole-stitcher }
//! ```
//!
//! ## Source
//!
//! The machine's own figures, as the shop states them.

use super::judgement::{Judgement, Moves, Words};
use super::{Rule, window};
use crate::build::Build;

/// The rule.
pub(super) struct JawNeedle;

impl Rule for JawNeedle {
    fn name(&self) -> &'static str {
        "jaw/needle"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_needle.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        window::judge(build, "Nm", |seam| &seam.needle, "the machine's needles", Moves::Another)
    }

    fn words(&self, judgement: &Judgement) -> Words {
        window::words(
            judgement,
            "needle",
            "take a needle that the machine takes; the thread's maker names one for each thread",
        )
    }
}
