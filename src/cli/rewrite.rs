//! Texts replaced in place: all of them or none, each only if it is still what was read.
//!
//! An original stays beside its file, as `NAME.before-mend`, until all new texts are in place. New texts and originals come
//! into being whole: each is written under a temporary name, brought to the disk, and then named. Whoever kills the program
//! in the middle finds some files old, some new, each whole, and the originals of all beside them. What fails is undone:
//! originals go back to their places, and nothing is left beside them.

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
        let new = written(of, of.new).map_err(unwritten)?;
        ready.push(Ready { of, new, original: beside(of.path) });
    }
    keep(&ready)?;
    let mut replaced = 0;
    let placed = ready.into_iter().try_for_each(|one| put(one).inspect(|()| replaced += 1));
    if let Err(stop) = placed {
        return Err(undone(all, replaced).err().unwrap_or(stop));
    }
    for of in all {
        fs::remove_file(beside(of.path)).map_err(|why| Stop::unwritten(of.shown, &why))?;
    }
    Ok(())
}

/// Puts the originals of the first files back, and takes those of all others away.
fn undone(all: &[Replacement<'_>], replaced: usize) -> Result<(), Stop> {
    let (new, old) = all.split_at(replaced);
    for of in old {
        drop(fs::remove_file(beside(of.path)));
    }
    for of in new {
        let back = |why: io::Error| {
            let name = name_of(&beside(of.path));
            let why = Stop::unwritten(of.shown, &why);
            Stop::Unwritten(of.shown.to_owned(), format!("it is new, others are not; put {name} back ({why})"))
        };
        fs::rename(beside(of.path), of.path).map_err(back)?;
    }
    Ok(())
}

/// `NAME.before-mend` beside a file.
fn beside(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".before-mend");
    path.with_file_name(name)
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

/// A text in a temporary file in the folder of a file, with its permissions, all of it on the disk. Dropped, it is gone.
fn written(of: &Replacement<'_>, text: &str) -> io::Result<NamedTempFile> {
    let permissions = fs::metadata(of.path)?.permissions();
    if permissions.readonly() {
        return Err(io::Error::new(ErrorKind::PermissionDenied, "it is read-only"));
    }
    let mut file = tempfile::Builder::new().prefix(".hobnail-").tempfile_in(folder(of.path))?;
    file.write_all(text.as_bytes())?;
    file.as_file().set_permissions(permissions)?;
    file.as_file().sync_all()?;
    Ok(file)
}

fn folder(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
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
    let unwritten = |why: &io::Error| Stop::unwritten(one.of.shown, why);
    let file = written(one.of, one.of.old).map_err(|why| unwritten(&why))?;
    file.persist_noclobber(&one.original).map_err(|failed| match failed.error.kind() {
        ErrorKind::AlreadyExists => in_the_way(one),
        _ => unwritten(&failed.error),
    })?;
    let ready = named(folder(one.of.path)).map_err(|why| unwritten(&why)).and_then(|()| unchanged(one));
    ready.inspect_err(|_| drop(fs::remove_file(&one.original)))
}

/// What to do with an original that lies there. One that only begins as its file does was cut off while it was written,
/// which is before its file is replaced: putting it back would lose the rest.
fn in_the_way(one: &Ready<'_>) -> Stop {
    let name = name_of(&one.original);
    let whole = fs::read(&one.original).is_ok_and(|original| !one.of.old.as_bytes().starts_with(&original));
    let what = if whole {
        format!("{name} lies beside it since a mending that was interrupted; put it back or delete it")
    } else {
        format!(
            "{name} lies beside it since a mending that was interrupted, and holds nothing that it lacks; delete it"
        )
    };
    Stop::Unwritten(one.of.shown.to_owned(), what)
}

/// Brings the names in a folder to the disk, where the system can.
#[cfg(unix)]
fn named(folder: &Path) -> io::Result<()> {
    fs::File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
fn named(_: &Path) -> io::Result<()> {
    Ok(())
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

    #[test]
    fn an_original_that_is_not_whole_is_said_to_be_so() {
        let folder = tempfile::TempDir::new().expect("a temporary folder");
        let a = file(folder.path(), "a.hob", "the original");
        for cut in ["", "the orig", "the original"] {
            file(folder.path(), "a.hob.before-mend", cut);
            let refused = replace_all(&[Replacement { path: &a, shown: "a.hob", old: "the original", new: "new" }]);
            let said = said(refused);
            assert!(said.ends_with("holds nothing that it lacks; delete it"), "{said}");
            assert!(!said.contains("put it back"), "{said}");
            assert_eq!(names(folder.path()), ["a.hob", "a.hob.before-mend"]);
        }
    }

    #[test]
    fn what_was_replaced_before_one_failed_goes_back() {
        let folder = tempfile::TempDir::new().expect("a temporary folder");
        let (a, b) = (file(folder.path(), "a.hob", "old a"), file(folder.path(), "b.hob", "old b"));
        let one = |path, old, new| Replacement { path, shown: "x", old, new };
        let all = [one(&a, "old a", "new a"), one(&b, "old b", "new b")];
        // As far as a run comes whose second file can't be put in place.
        file(folder.path(), "a.hob", "new a");
        file(folder.path(), "a.hob.before-mend", "old a");
        file(folder.path(), "b.hob.before-mend", "old b");
        undone(&all, 1).expect("it can be undone");
        assert_eq!(fs::read_to_string(&a).expect("it is there"), "old a");
        assert_eq!(fs::read_to_string(&b).expect("it is there"), "old b");
        assert_eq!(names(folder.path()), ["a.hob", "b.hob"]);
    }

    #[test]
    fn a_file_whose_folder_is_gone_leaves_nothing() {
        let folder = tempfile::TempDir::new().expect("a temporary folder");
        let a = file(folder.path(), "a.hob", "old a");
        let gone = folder.path().join("gone/b.hob");
        let one = |path, old| Replacement { path, shown: "x", old, new: "new" };
        let refused = replace_all(&[one(&a, "old a"), one(&gone, "old b")]);
        assert_eq!(said(refused), "x can't be written: no such file or directory");
        assert_eq!(fs::read_to_string(&a).expect("it is there"), "old a");
        assert_eq!(names(folder.path()), ["a.hob"]);
    }
}
