//! What changes in a text, as a unified diff.

use similar::TextDiff;
use std::io::{self, Write};

/// Writes what `new` changes of `old`, as `patch` takes it.
///
/// # Errors
/// What `out` answers.
pub fn diff(out: &mut dyn Write, path: &str, old: &str, new: &str) -> io::Result<()> {
    let diff = TextDiff::from_lines(old, new);
    let mut unified = diff.unified_diff();
    unified.context_radius(3).header(path, path).to_writer(out)
}
