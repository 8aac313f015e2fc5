//! Texts replaced in place: all of them or none, each only if it is still what was read.
//!
//! An original stays beside its file, as `NAME.before-mend`, until all new texts are in place. Whoever kills the program
//! in the middle finds some files old, some new, each whole, and the originals of all beside them.

use super::Stop;
use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// A file to be replaced.
#[derive(Debug)]
pub(super) struct Replacement<'r> {
    /// Where it lies.
    pub path: &'r Path,
    /// As the user knows it.
    pub shown: &'r str,
    /// What was read.
    pub old: &'r str,
    /// What is to stand there.
    pub new: &'r str,
}

/// A replacement on its way.
struct Ready<'r> {
    of: &'r Replacement<'r>,
    new: NamedTempFile,
    original: PathBuf,
}

/// Replaces all of them.
pub(super) fn replace_all(all: &[Replacement<'_>]) -> Result<(), Stop> {
    let mut ready = Vec::new();
    for of in all {
        let unwritten = |why: io::Error| Stop::unwritten(of.shown, &why);
        let new = written(of).map_err(unwritten)?;
        ready.push(Ready { of, new, original: beside(of.path) });
    }
    let kept = keep(&ready);
    let placed = kept.and_then(|()| ready.into_iter().try_for_each(put));
    placed?;
    for of in all {
        fs::remove_file(beside(of.path)).map_err(|why| Stop::unwritten(of.shown, &why))?;
    }
    Ok(())
}

/// `NAME.before-mend` beside a file.
fn beside(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".before-mend");
    path.with_file_name(name)
}

/// The new text in a temporary file beside its place, with the old one's permissions.
fn written(of: &Replacement<'_>) -> io::Result<NamedTempFile> {
    let permissions = fs::metadata(of.path)?.permissions();
    if permissions.readonly() {
        return Err(io::Error::new(ErrorKind::PermissionDenied, "it is read-only"));
    }
    let folder = of.path.parent().unwrap_or(Path::new("."));
    let mut file = tempfile::Builder::new().prefix(".hobnail-").tempfile_in(folder)?;
    file.write_all(of.new.as_bytes())?;
    file.as_file().set_permissions(permissions)?;
    file.as_file().sync_all()?;
    Ok(file)
}

/// Puts every original beside its file. What is there already belongs to somebody who was interrupted.
fn keep(ready: &[Ready<'_>]) -> Result<(), Stop> {
    for (n, one) in ready.iter().enumerate() {
        if let Err(stop) = kept(one) {
            // Nothing was replaced yet: no original is needed.
            ready[..n].iter().for_each(|before| drop(fs::remove_file(&before.original)));
            return Err(stop);
        }
    }
    Ok(())
}

fn kept(one: &Ready<'_>) -> Result<(), Stop> {
    let shown = one.of.shown;
    let file = fs::OpenOptions::new().write(true).create_new(true).open(&one.original);
    match file.and_then(|mut file| file.write_all(one.of.old.as_bytes())) {
        Err(why) if why.kind() == ErrorKind::AlreadyExists => {
            let name = one.original.file_name().unwrap_or_default().to_string_lossy().into_owned();
            Err(Stop::Unwritten(
                shown.to_owned(),
                format!("{name} lies beside it since a mending that was interrupted; put it back or delete it"),
            ))
        }
        Err(why) => Err(Stop::unwritten(shown, &why)),
        Ok(()) => unchanged(one).inspect_err(|_| drop(fs::remove_file(&one.original))),
    }
}

/// Whether a file is still what was read.
fn unchanged(one: &Ready<'_>) -> Result<(), Stop> {
    let shown = one.of.shown;
    let now = fs::read(one.of.path).map_err(|why| Stop::unwritten(shown, &why))?;
    if now == one.of.old.as_bytes() {
        return Ok(());
    }
    Err(Stop::Unwritten(shown.to_owned(), "it was changed since it was read; check it again".to_owned()))
}

fn put(one: Ready<'_>) -> Result<(), Stop> {
    unchanged(&one)?;
    let shown = one.of.shown;
    one.new.persist(one.of.path).map(drop).map_err(|failed| Stop::unwritten(shown, &failed.error))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(folder: &Path, name: &str, text: &str) -> PathBuf {
        let path = folder.join(name);
        fs::write(&path, text).expect("files can be written");
        path
    }

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).expect("the folder is there");
        let mut names: Vec<String> =
            entries.map(|entry| entry.expect("it is there").file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    fn said(result: Result<(), Stop>) -> String {
        result.expect_err("it is refused").to_string()
    }

    #[test]
    fn all_are_replaced_and_nothing_is_left_beside_them() {
        let folder = tempfile::TempDir::new().expect("a temporary folder");
        let (a, b) = (file(folder.path(), "a.hob", "old a"), file(folder.path(), "b.hob", "old b"));
        let one = |path, old, new| Replacement { path, shown: "x", old, new };
        replace_all(&[one(&a, "old a", "new a"), one(&b, "old b", "new b")]).expect("they can be replaced");
        assert_eq!(fs::read_to_string(&a).expect("it is there"), "new a");
        assert_eq!(fs::read_to_string(&b).expect("it is there"), "new b");
        assert_eq!(names(folder.path()), ["a.hob", "b.hob"]);
    }

    #[test]
    fn one_that_was_changed_since_keeps_all_as_they_are() {
        let folder = tempfile::TempDir::new().expect("a temporary folder");
        let (a, b) = (file(folder.path(), "a.hob", "old a"), file(folder.path(), "b.hob", "edited"));
        let one = |path, shown, old| Replacement { path, shown, old, new: "new" };
        let refused = replace_all(&[one(&a, "a.hob", "old a"), one(&b, "b.hob", "old b")]);
        assert_eq!(said(refused), "b.hob can't be written: it was changed since it was read; check it again");
        assert_eq!(fs::read_to_string(&a).expect("it is there"), "old a");
        assert_eq!(fs::read_to_string(&b).expect("it is there"), "edited");
        assert_eq!(names(folder.path()), ["a.hob", "b.hob"]);
    }

    #[test]
    fn an_original_that_lies_there_is_not_overwritten() {
        let folder = tempfile::TempDir::new().expect("a temporary folder");
        let a = file(folder.path(), "a.hob", "half");
        file(folder.path(), "a.hob.before-mend", "the original");
        let refused = replace_all(&[Replacement { path: &a, shown: "a.hob", old: "half", new: "new" }]);
        assert!(said(refused).contains("a.hob.before-mend lies beside it"));
        let original = fs::read_to_string(folder.path().join("a.hob.before-mend")).expect("it is there");
        assert_eq!(original, "the original");
        assert_eq!(fs::read_to_string(&a).expect("it is there"), "half");
    }
}
