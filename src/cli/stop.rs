//! Why a command could not be run.

use crate::source::ReadFault;
use std::fmt;
use std::io;

/// What stopped a command. Each is shown on one line and makes the exit code 2.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stop {
    /// It was called in a way that means nothing.
    Usage(String),
    /// A file given could not be read.
    Unread(String, ReadFault),
    /// A folder stands where a file is needed.
    Folder(String),
    /// A sheet could not be read, with words for why.
    UnreadSheet(String, String),
    /// Something could not be written, with the system's own words.
    Unwritten(String, String),
}

impl Stop {
    /// Something that could not be written.
    #[must_use]
    pub fn unwritten(what: impl Into<String>, why: &io::Error) -> Self {
        Stop::Unwritten(what.into(), plain(why))
    }
}

impl fmt::Display for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Stop::Usage(what) => write!(f, "{what}"),
            Stop::Unread(path, why) => write!(f, "{path} can't be read: {why}"),
            Stop::Folder(path) => write!(f, "{path} is a folder; name the files in it"),
            Stop::UnreadSheet(path, why) => write!(f, "{path} can't be read: {why}"),
            Stop::Unwritten(what, why) => write!(f, "{what} can't be written: {why}"),
        }
    }
}

/// The system's words, without the number and with a small first letter.
pub(super) fn plain(why: &io::Error) -> String {
    let text = why.to_string();
    let text = text.split(" (os error").next().unwrap_or_default();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
