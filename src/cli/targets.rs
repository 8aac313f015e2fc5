//! Files that a command is about to write: each of one model alone, and none in the place of something else.
//!
//! All of it is asked before the first is written.

use super::Stop;
use crate::check::ModelChecked;
use crate::sheets::paper;
use crate::source::Sources;
use rayon::prelude::*;
use std::fs::{self, File};
use std::io::Read as _;
use std::path::{Path, PathBuf};

/// No file that is asked what it is is larger, in bytes.
const LARGEST: u64 = 512 << 20;

/// Refuses models of one name that two files declare: the files that they print would have one name, too.
pub(super) fn one_of_each_name(models: &[&ModelChecked], sources: &Sources) -> Result<(), Stop> {
    for (n, model) in models.iter().enumerate() {
        let Some(other) = models[..n].iter().find(|other| other.name == model.name) else { continue };
        let [first, second] = [other, model].map(|model| &sources.get(model.root).shown);
        return Err(Stop::Usage(format!(
            "{first} and {second} both have a model `{}`, and what they print would have one name; print them into \
             folders of their own, one after the other, or call one otherwise",
            model.name
        )));
    }
    Ok(())
}

/// Refuses to write over a file that is no print of `models`, and of no other model.
pub(super) fn free(paths: &[PathBuf], models: &[&str]) -> Result<(), Stop> {
    let taken = paths.par_iter().filter(|path| !may_be_replaced(path, models)).min();
    let Some(path) = taken else { return Ok(()) };
    Err(Stop::Unwritten(
        path.display().to_string(),
        format!(
            "what is there was not printed of {} alone; move it, print into another folder, or say `--replace`",
            models.join(", ")
        ),
    ))
}

/// Whether nothing is at a place, or a print of some of `models`.
fn may_be_replaced(path: &Path, models: &[&str]) -> bool {
    let Ok(about) = fs::symlink_metadata(path) else { return true };
    if !about.is_file() || about.len() > LARGEST {
        return false;
    }
    let mut bytes = Vec::new();
    let read = File::open(path).and_then(|file| file.take(LARGEST).read_to_end(&mut bytes));
    read.is_ok() && (printed_of(&bytes, models) || drawn_of(&bytes, models))
}

/// Whether a PDF is ours and says that it is of `models`: the title of sheets, templates and travellers begins with the
/// model, the keywords of pages that show several have them all.
fn printed_of(bytes: &[u8], models: &[&str]) -> bool {
    let Ok(about) = paper::about(bytes) else { return false };
    let ours = about.creator.split(' ').next() == Some(env!("CARGO_PKG_NAME"));
    let of_one = about.title.split(' ').next().is_some_and(|first| models.contains(&first));
    // A line card's first keyword is its machine, which is the last word of its title.
    let shown = match &*about.keywords {
        [machine, rest @ ..] if !rest.is_empty() && about.title.ends_with(&format!(" {machine}")) => rest,
        all => all,
    };
    let of_all = !shown.is_empty() && shown.iter().all(|word| models.contains(&word.as_str()));
    ours && (of_one || of_all)
}

/// Whether a drawing is a template of one of `models`: the second part of its title but one is model and size.
fn drawn_of(bytes: &[u8], models: &[&str]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else { return false };
    let title = text.split_once("<title>").and_then(|(_, rest)| Some(rest.split_once("</title>")?.0));
    let of = |title: &str| models.iter().any(|model| title.contains(&format!(" · {model} ")));
    text.starts_with("<svg ") && title.is_some_and(of)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_is_of_the_model_that_its_title_says() {
        let drawing = "<svg xmlns=\"x\">\n<title>Bottom · Tarnbeck · scree-8 us-men 9 D · left</title>";
        assert!(drawn_of(drawing.as_bytes(), &["scree-8"]));
        assert!(!drawn_of(drawing.as_bytes(), &["scree"]));
        assert!(!drawn_of(b"<svg ><title>scree-8</title>", &["scree-8"]));
    }
}
