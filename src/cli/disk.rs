//! Files from the disk, and standard input under the path that it would have.

use super::stop::plain;
use crate::source::{MAX_BYTES, Opened, ReadFault, Reader};
use std::fs::File;
use std::io::{self, ErrorKind, Read};
use std::path::{Component, Path, PathBuf};

/// What stands for standard input among the files given.
pub(super) const STANDARD_INPUT: &str = "-";

/// Reads files relative to the current folder, or to the file that uses them.
#[derive(Debug)]
pub struct Disk {
    here: PathBuf,
    input: Option<Opened>,
}

impl Disk {
    /// A disk seen from the current folder.
    #[must_use]
    pub fn new() -> Self {
        let here = std::env::current_dir().and_then(|here| here.canonicalize());
        Self { here: here.unwrap_or_default(), input: None }
    }

    /// With the text `input` in place of the file at `path`, which need not be there; `-` names it, too.
    ///
    /// # Errors
    /// Too much of it, or what the system answers.
    pub fn with_input(mut self, input: impl Read, path: Option<&Path>) -> Result<Self, ReadFault> {
        let bytes = limited(input)?;
        let path = path.unwrap_or(Path::new("standard input"));
        let identity = utf8(&self.identity(path))?;
        self.input = Some(Opened { identity, shown: tidy(path), bytes });
        Ok(self)
    }

    /// The real path, as far as there is one.
    fn identity(&self, path: &Path) -> PathBuf {
        let whole = self.here.join(path);
        let (Some(folder), Some(name)) = (whole.parent(), whole.file_name()) else { return whole };
        let real = || folder.canonicalize().map(|folder| folder.join(name));
        whole.canonicalize().or_else(|_| real()).unwrap_or_else(|_| whole.clone())
    }

    /// A path as the user would write it from the current folder.
    fn shown(&self, real: &Path) -> String {
        let (mut from, mut to) = (self.here.components().peekable(), real.components().peekable());
        let mut shared = 0;
        while from.peek().is_some() && from.peek() == to.peek() {
            shared += usize::from(matches!(from.next(), Some(Component::Normal(_))));
            to.next();
        }
        if shared == 0 {
            return tidy(real);
        }
        let up = from.map(|_| Path::new(".."));
        tidy(&up.chain(to.map(|part| Path::new(part.as_os_str()))).collect::<PathBuf>())
    }
}

impl Default for Disk {
    fn default() -> Self {
        Self::new()
    }
}

impl Reader for Disk {
    fn open(&self, from: Option<&str>, path: &str) -> Result<Opened, ReadFault> {
        if let (None, STANDARD_INPUT, Some(input)) = (from, path, &self.input) {
            return Ok(input.clone());
        }
        let folder = from.map_or(Some(self.here.as_path()), |from| Path::new(from).parent());
        let whole = joined(folder.unwrap_or(&self.here), path);
        let real = self.identity(&whole);
        let identity = utf8(&real)?;
        if let Some(input) = self.input.as_ref().filter(|input| input.identity == identity) {
            return Ok(input.clone());
        }
        let bytes = regular(&whole)?;
        let shown = if from.is_none() { tidy(Path::new(path)) } else { self.shown(&real) };
        Ok(Opened { identity, shown, bytes })
    }
}

/// A path in a folder. Where the folder is not there yet, `..` is worked out on the words alone.
fn joined(folder: &Path, path: &str) -> PathBuf {
    if folder.is_dir() {
        return folder.join(path);
    }
    let mut whole = folder.to_owned();
    for part in Path::new(path).components() {
        match part {
            Component::ParentDir => _ = whole.pop(),
            Component::CurDir => {}
            part => whole.push(part),
        }
    }
    whole
}

/// The bytes of a regular file that is not too large; its size is asked before it is read.
fn regular(path: &Path) -> Result<Vec<u8>, ReadFault> {
    let about = std::fs::metadata(path).map_err(|why| fault(&why))?;
    if !about.is_file() {
        return Err(ReadFault::NotAFile);
    }
    if about.len() > MAX_BYTES {
        return Err(ReadFault::TooLarge(about.len()));
    }
    limited(File::open(path).map_err(|why| fault(&why))?)
}

fn limited(input: impl Read) -> Result<Vec<u8>, ReadFault> {
    let mut bytes = Vec::new();
    let read = input.take(MAX_BYTES + 1).read_to_end(&mut bytes).map_err(|why| fault(&why))?;
    let read = u64::try_from(read).unwrap_or(u64::MAX);
    if read > MAX_BYTES { Err(ReadFault::TooLarge(read)) } else { Ok(bytes) }
}

fn fault(why: &io::Error) -> ReadFault {
    match why.kind() {
        ErrorKind::NotFound | ErrorKind::NotADirectory | ErrorKind::InvalidInput => ReadFault::Missing,
        _ => ReadFault::Unreadable(plain(why)),
    }
}

fn utf8(path: &Path) -> Result<String, ReadFault> {
    path.to_str().map(ToOwned::to_owned).ok_or_else(|| ReadFault::Unreadable("its path is not in UTF-8".to_owned()))
}

/// A path with `/` between its parts and without needless `.` among them.
fn tidy(path: &Path) -> String {
    let text = path.components().collect::<PathBuf>().to_string_lossy().replace(std::path::MAIN_SEPARATOR, "/");
    text.strip_prefix("./").unwrap_or(&text).to_owned()
}
