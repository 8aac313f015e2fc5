//! How far a long print run is, on a terminal only.

use std::io::{IsTerminal as _, Write as _};
use std::sync::atomic::{AtomicUsize, Ordering};

/// Counts what is done; on a terminal the count is shown on standard error and wiped away at the end.
#[derive(Debug)]
pub(super) struct Progress {
    all: usize,
    done: AtomicUsize,
    shown: bool,
}

/// Fewer than this are printed before anybody could read a count.
const WORTH_SHOWING: usize = 20;

impl Progress {
    pub fn new(all: usize) -> Self {
        Self { all, done: AtomicUsize::new(0), shown: all >= WORTH_SHOWING && std::io::stderr().is_terminal() }
    }

    pub fn one_more(&self) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        if self.shown && done.is_multiple_of(5) {
            Self::say(&format!("\rprinting {done} of {}", self.all));
        }
    }

    pub fn done(&self) {
        if self.shown {
            Self::say("\r\x1b[K");
        }
    }

    /// A count that can't be shown stops nothing.
    fn say(text: &str) {
        let mut error = std::io::stderr().lock();
        let _ = error.write_all(text.as_bytes()).and_then(|()| error.flush());
    }
}
