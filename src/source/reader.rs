//! What the library needs of the outside to read a file.

/// The largest file that is read, bytes.
pub const MAX_BYTES: u64 = 16 * 1024 * 1024;

/// A file that was opened.
#[derive(Clone, Debug)]
pub struct Opened {
    /// What tells the file from another, however its path was written.
    pub identity: String,
    /// The path to show.
    pub shown: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Why a file could not be opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReadFault {
    /// No such file.
    Missing,
    /// A folder, a device, a pipe: anything but a regular file.
    NotAFile,
    /// More than [`MAX_BYTES`].
    TooLarge(u64),
    /// The system's own words.
    Unreadable(String),
}

impl std::fmt::Display for ReadFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            ReadFault::Missing => write!(f, "there is no such file"),
            ReadFault::NotAFile => write!(f, "it is not a regular file"),
            ReadFault::TooLarge(bytes) => {
                write!(f, "it has {bytes} bytes; the limit is {MAX_BYTES} (16 MiB)")
            }
            ReadFault::Unreadable(why) => write!(f, "{why}"),
        }
    }
}

/// Brings files. The command line reads the disk; tests and editors read memory.
pub trait Reader {
    /// Opens `path`, which stands in the file of identity `from` (or on the command line).
    ///
    /// # Errors
    /// The reason, in [`ReadFault`].
    fn open(&self, from: Option<&str>, path: &str) -> Result<Opened, ReadFault>;
}
