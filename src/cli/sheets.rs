//! `hobnail sheets`: the sheets of every build that can be made, into a folder.
//!
//! A model that a rule refuses in a size that was asked for prints none of its sizes; other models still print. A file
//! comes into being whole or not at all: it is written beside its place under a temporary name, then renamed.

use super::args::{Paper, SheetsArgs};
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::progress::Progress;
use super::{Stop, Verdict};
use crate::build::Plan;
use crate::check::{Figured, ModelChecked};
use crate::measure::Size;
use crate::report;
use crate::sheets::{Job, Lang, Station, Typefaces, Units, lay, paper, typefaces};
use crate::spec::Shop;
use rayon::prelude::*;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(super) fn run(args: &SheetsArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let verdict = verdict(&run, &args.judged.how);
    let printable: Vec<&ModelChecked> = outcome.checked.models.iter().filter(|model| prints(model)).collect();
    if printable.is_empty() {
        return Ok(verdict);
    }
    make_folder(&args.out)?;
    let progress = Progress::new(printable.iter().map(|model| model.sizes.len()).sum());
    let mut pages = 0;
    let mut documents = 0;
    for model in &printable {
        let (files, sheets) = print(&outcome, model, args, &progress)?;
        documents += files;
        pages += sheets;
    }
    progress.done();
    output.write(Stream::Out, |out, _| {
        let (files, sheets) = (plural(documents, "file"), plural(pages, "page"));
        writeln!(out, "{files}, {sheets} in {}", args.out.display())
    })?;
    Ok(verdict)
}

/// Whether a model prints: nothing of it is refused, and no fault took what its sheets need.
fn prints(model: &ModelChecked) -> bool {
    !model.sizes.is_empty() && !model.faulty && model.sizes.iter().all(|size| !size.refused)
}

fn plural(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

fn make_folder(folder: &Path) -> Result<(), Stop> {
    fs::create_dir_all(folder).map_err(|why| Stop::unwritten(folder.display().to_string(), &why))
}

/// Prints all sizes of one model; how many files and pages that made.
fn print(
    outcome: &Outcome,
    model: &ModelChecked,
    args: &SheetsArgs,
    progress: &Progress,
) -> Result<(usize, usize), Stop> {
    let world = &outcome.checked.worlds[model.place.0];
    let Some(shop) = &world.shop else { return Ok((0, 0)) };
    let spec = &world.models[model.place.1];
    let sizes = outcome.checked.figured(model);
    let faces = typefaces(&shop.name, sizes.iter().map(|size| &size.figures)).map_err(|why| unlaid(model, &why))?;
    let plan = Plan::new(spec, shop);
    let printer = Printer {
        plan: &plan,
        shop,
        model,
        faces: &faces,
        paper: paper_of(args, shop),
        lang: args.lang.lang(),
        stations: &args.stations,
        out: &args.out,
    };
    let printed = sizes.par_iter().map(|size| {
        let pages = printer.print(size)?;
        progress.one_more();
        Ok(pages)
    });
    let printed: Vec<usize> = printed.collect::<Result<_, Stop>>()?;
    Ok((printed.iter().filter(|pages| **pages > 0).count(), printed.iter().sum()))
}

/// The paper asked for, or the shop's.
fn paper_of(args: &SheetsArgs, shop: &Shop) -> paper::Paper {
    let letter = match args.paper {
        Some(asked) => asked == Paper::Letter,
        None => shop.paper.as_ref().is_ok_and(|paper| paper.it == "letter"),
    };
    if letter { paper::Paper::Letter } else { paper::Paper::A4 }
}

fn unlaid(model: &ModelChecked, why: &paper::Error) -> Stop {
    Stop::Unwritten(format!("the sheets of {}", model.name), why.to_string())
}

struct Printer<'p> {
    plan: &'p Plan<'p>,
    shop: &'p Shop,
    model: &'p ModelChecked,
    faces: &'p Typefaces,
    paper: paper::Paper,
    lang: Lang,
    stations: &'p [Station],
    out: &'p Path,
}

impl Printer<'_> {
    /// Prints one size; how many pages that made.
    fn print(&self, size: &Figured) -> Result<usize, Stop> {
        let build = self.plan.build(size.checked.size);
        let attachment =
            report::attachment(self.model, size).map_err(|why| Stop::unwritten(self.model.name.clone(), &why))?;
        let job = Job {
            build: &build,
            shop: self.shop,
            figures: &size.figures,
            fingerprint: &size.fingerprint,
            attachment,
            paper: self.paper,
            lang: self.lang,
            units: Units::Metric,
            pairs: None,
            notices: &[],
            stations: self.stations,
        };
        let Some(laid) = lay(&job) else { return Ok(0) };
        let bytes = paper::write(&laid.document, self.faces).map_err(|why| unlaid(self.model, &why))?;
        let path = self.path(size.checked.size);
        replace(&path, &bytes).map_err(|why| Stop::unwritten(path.display().to_string(), &why))?;
        Ok(laid.document.pages.len())
    }

    /// `scree-8_us-men_09.5_EE.pdf`: files of a folder stand in the order of the sizes.
    fn path(&self, size: Size) -> PathBuf {
        let text = size.to_string();
        let (number, width) = text.rsplit_once(' ').unwrap_or((&text, ""));
        let whole = number.split(['.', ' ']).next().unwrap_or_default().len();
        let padded = format!("{}{}", "0".repeat(2_usize.saturating_sub(whole)), number.replace([' ', '/'], "-"));
        self.out.join(format!("{}_{}_{padded}_{width}.pdf", self.model.name, size.system.name()))
    }
}

/// Writes beside the place and renames, so that nobody ever finds half a file.
fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = tempfile::Builder::new().prefix(".hobnail-").tempfile_in(folder)?;
    file.write_all(bytes)?;
    readable(file.as_file())?;
    file.persist(path).map_err(|failed| failed.error)?;
    Ok(())
}

/// A temporary file is the owner's alone; a sheet is for the shop.
#[cfg(unix)]
fn readable(file: &fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn readable(_: &fs::File) -> io::Result<()> {
    Ok(())
}
