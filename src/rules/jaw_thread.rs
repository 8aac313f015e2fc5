//! # jaw/thread
//!
//! The thread of every seam lies within what its machine takes.
//!
//! ## At the bench
//!
//! A thread too heavy for the hook, the tension discs or the eye shreds or skips; one too light for them won't hold
//! a balanced lock. It is found out on the boot, not before.
//!
//! ## Formula
//!
//! `least <= size <= most`, in tex, for sole rows, forefoot row and every seam of the upper.
//!
//! ## Fails
//!
//! ```text
//! sole sewn { thread heavy-700; on sole-stitcher }    # 700 tex where the machine takes 210..600
//! ```
//!
//! ## Mended
//!
//! ```text
//! sole sewn { thread bonded-346; on sole-stitcher }
//! ```
//!
//! ## Source
//!
//! The machine's own figures, as the shop states them.

use super::judgement::{Judgement, Moves, Words};
use super::{Rule, window};
use crate::build::Build;

/// The rule.
pub(super) struct JawThread;

impl Rule for JawThread {
    fn name(&self) -> &'static str {
        "jaw/thread"
    }

    fn source(&self) -> &'static str {
        include_str!("jaw_thread.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        window::judge(build, "tex", |seam| &seam.thread, "the machine's thread sizes", Moves::Another)
    }

    fn words(&self, judgement: &Judgement) -> Words {
        window::words(judgement, "thread", "take a thread that the machine takes, or a machine that takes this thread")
    }
}
