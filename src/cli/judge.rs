//! What `check`, `figures` and `sheets` share: read the files, judge them, show what was found.

use super::args::{Deny, How};
use super::disk::{Disk, STANDARD_INPUT};
use super::output::{Output, Stream};
use super::size::Filter;
use super::{Stop, Verdict};
use crate::check::{Checked, SizeFilter, check};
use crate::report::{self, Run};
use crate::source::ReadFault;
use crate::spec::{Loaded, load};
use std::path::Path;

/// Files read and judged.
#[derive(Debug)]
pub(super) struct Outcome {
    pub loaded: Loaded,
    pub checked: Checked,
}

impl Outcome {
    /// Reads and judges what the arguments name.
    pub fn of(files: &[String], how: &How) -> Result<Self, Stop> {
        let filter = Filter(&how.sizes);
        let outcome = Self::of_sizes(files, how, &filter)?;
        filter.all_made(&outcome.checked).map_err(Stop::Usage)?;
        Ok(outcome)
    }

    /// Reads what the arguments name and judges it in the sizes that `filter` wants.
    pub fn of_sizes(files: &[String], how: &How, filter: &dyn SizeFilter) -> Result<Self, Stop> {
        let disk = disk(files, how)?;
        let loaded = load(&disk, files).map_err(unread)?;
        let checked = check(&loaded, filter);
        Ok(Self { loaded, checked })
    }

    pub fn report(&self) -> Run<'_> {
        Run::new(&self.loaded.sources, &self.checked)
    }
}

/// Whether a run passes.
pub(super) fn verdict(run: &Run<'_>, how: &How) -> Verdict {
    let counts = run.counts();
    let denied = if how.deny == Some(Deny::Tight) { counts.tight } else { 0 };
    if counts.faults + counts.refused + denied > 0 { Verdict::Failed } else { Verdict::Passed }
}

/// Shows on standard error what was found, if anything was.
pub(super) fn show_aside(run: &Run<'_>, how: &How, output: &Output) -> Result<(), Stop> {
    if run.counts().total() == 0 {
        return Ok(());
    }
    output.write(Stream::Error, |out, look| report::findings(out, run, how.format.format(), look))
}

fn disk(files: &[String], how: &How) -> Result<Disk, Stop> {
    let disk = Disk::new();
    let wants_input = files.iter().any(|file| file == STANDARD_INPUT);
    match (&how.as_path, wants_input) {
        (Some(_), false) => Err(Stop::Usage("`--as` is the path of standard input; give `-` as a file".to_owned())),
        (_, false) => Ok(disk),
        (path, true) => disk
            .with_input(std::io::stdin().lock(), path.as_deref())
            .map_err(|why| Stop::Unread("standard input".to_owned(), why)),
    }
}

fn unread((path, why): (String, ReadFault)) -> Stop {
    if why == ReadFault::NotAFile && Path::new(&path).is_dir() { Stop::Folder(path) } else { Stop::Unread(path, why) }
}
