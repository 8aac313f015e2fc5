//! Placeholder.
use super::{Build, Figures};

/// All figures of a build.
#[must_use]
pub fn figures(_: &Build<'_>) -> Figures {
    Figures::default()
}
