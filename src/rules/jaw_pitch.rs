//! # jaw/pitch
//!
//! The pitch of every seam lies within what its machine can be set to.
//!
//! ## At the bench
//!
//! A pitch finer than the feed can be set to is simply not sewn: the row comes out with the wrong count, and its
//! holes stand too close or too far for the leather.
//!
//! ## Formula
//!
//! `least <= pitch <= most`, in stitches per inch, for every seam.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { pitch 9 spi; on sole-stitcher }         # the machine sews 4..8
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { pitch 5 spi; on sole-stitcher }
//! ```
//!
//! ## Source
//!
//! The machine's own figures, as the shop states them.

use super::judgement::{Judgement, Moves, Words};
use super::{Rule, window};
use crate::build::Build;

/// The rule.
pub(super) struct JawPitch;

impl Rule for JawPitch {
    fn name(&self) -> &'static str {
        "jaw/pitch"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_pitch.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        window::judge(build, "spi", |seam| &seam.pitch, "the machine's pitches", Moves::Another)
    }

    fn words(&self, judgement: &Judgement) -> Words {
        window::words(judgement, "pitch", "set a pitch that the machine can be set to")
    }
}
