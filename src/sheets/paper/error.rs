//! What can be wrong with a document before or while it is written.

use std::collections::BTreeSet;
use std::fmt;

use super::Style;

/// Why a document can't become a PDF. Pages are named by their label, shared drawings by
/// their number.
#[derive(Debug)]
pub enum Error {
    /// A document needs a page.
    NoPages,
    /// The typefaces at hand don't carry these characters.
    Missing { page: String, style: Style, characters: BTreeSet<char> },
    /// A coordinate, size or width is no number, or lies far outside any page.
    OffTheScale { page: String, value: f64 },
    /// A page places a shared drawing that the document doesn't have.
    NoDrawing { page: String, drawing: usize },
    /// A shared drawing places another one.
    Nested { page: String },
    /// Two attachments have the same name.
    Attachment(String),
    /// A typeface couldn't be read or cut down to its characters.
    Typeface { style: Style, reason: String },
    /// The writer refused or its output lacks what it should have.
    Writer(String),
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Error::NoPages => write!(f, "a document needs at least one page"),
            Error::Missing { page, style, characters } => {
                let shown: String = characters.iter().collect();
                write!(f, "page {page}: {style:?} lacks {shown:?}")
            }
            Error::OffTheScale { page, value } => {
                write!(f, "page {page}: {value} is no length on paper")
            }
            Error::NoDrawing { page, drawing } => {
                write!(f, "page {page}: no shared drawing {drawing}")
            }
            Error::Nested { page } => write!(f, "page {page}: places another drawing"),
            Error::Attachment(name) => write!(f, "two attachments are called {name:?}"),
            Error::Typeface { style, reason } => write!(f, "typeface {style:?}: {reason}"),
            Error::Writer(reason) => write!(f, "PDF writer: {reason}"),
        }
    }
}

impl std::error::Error for Error {}

impl From<lopdf::Error> for Error {
    fn from(error: lopdf::Error) -> Self {
        Error::Writer(error.to_string())
    }
}

impl From<std::io::Error> for Error {
    fn from(error: std::io::Error) -> Self {
        Error::Writer(error.to_string())
    }
}
