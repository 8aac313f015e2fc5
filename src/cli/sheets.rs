//! `hobnail sheets`: the sheets of every build that can be made, into a folder.
//!
//! A model that a rule refuses in a size that was asked for prints none of its sizes, unless it is forced: then every page
//! of a refused size says that it is not released, and why. Other models still print. A file
//! comes into being whole or not at all: it is written beside its place under a temporary name, then renamed.

use super::args::{By, Paper, SheetsArgs};
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::pages::Pages;
use super::progress::Progress;
use super::targets::{free, one_of_each_name};
use super::{Stop, Verdict};
use crate::build::Plan;
use crate::check::{Checked, Figured, ModelChecked, Notice};
use crate::finding::{FaultName, Finding};
use crate::measure::Size;
use crate::report;
use crate::sheets::paper::Document;
use crate::sheets::{
    Gathering, Job, Lang, Station, Typefaces, Units, gather, keep, lacking, lay, paper, typefaces, unknown, unprintable,
};
use crate::spec::Shop;
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(super) fn run(args: &SheetsArgs, output: &Output) -> Result<Verdict, Stop> {
    let mut outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let faults = unprinted(&outcome, args);
    let unprintable = !faults.is_empty();
    outcome.checked.findings.splice(0..0, faults);
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let verdict = verdict(&run, &args.judged.how);
    let printable: Vec<&ModelChecked> = printable(&outcome, args).collect();
    if unprintable || printable.is_empty() {
        return Ok(verdict);
    }
    one_of_each_name(&printable, &outcome.loaded.sources)?;
    if !args.replace {
        printable.iter().try_for_each(|model| free(&places(model, args), &[&model.name]))?;
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
    if pages == 0 && args.pages.is_some() {
        return Err(Stop::Usage("no file has the pages that `--pages` asks for".to_owned()));
    }
    output.write(Stream::Out, |out, _| {
        let (files, sheets) = (plural(documents, "file"), plural(pages, "page"));
        writeln!(out, "{files}, {sheets} in {}", args.out.display())
    })?;
    Ok(verdict)
}

/// Where the sheets of a model go.
fn places(model: &ModelChecked, args: &SheetsArgs) -> Vec<PathBuf> {
    let name = &model.name;
    let names: Vec<String> = match args.by {
        By::Size => model.sizes.iter().map(|size| stem(name, size.size)).collect(),
        By::Station => stations(args).map(|station| format!("{name}_{}", station.name())).collect(),
        By::One => vec![name.clone()],
    };
    names.into_iter().map(|name| args.out.join(format!("{name}.pdf"))).collect()
}

/// The stations asked for, or all.
fn stations(args: &SheetsArgs) -> impl Iterator<Item = Station> {
    Station::ALL.iter().copied().filter(|station| args.stations.is_empty() || args.stations.contains(station))
}

/// The models that print: with `--force`, those that are refused too.
fn printable<'o>(outcome: &'o Outcome, args: &SheetsArgs) -> impl Iterator<Item = &'o ModelChecked> {
    let force = args.force;
    outcome.checked.models.iter().filter(move |model| prints(model) || (force && !model.sizes.is_empty()))
}

/// A fault for every character that the sheets would show and their typefaces lack.
fn unprinted(outcome: &Outcome, args: &SheetsArgs) -> Vec<Finding> {
    let sources = &outcome.loaded.sources;
    // Nearly every text has none, and its figures need not be worked out here.
    if sources.iter().all(|(_, source)| unknown(&source.text).is_empty()) {
        return Vec::new();
    }
    let mut lack = BTreeSet::new();
    for model in printable(outcome, args) {
        let Some(shop) = &outcome.checked.worlds[model.place.0].shop else { continue };
        let sizes = outcome.checked.figured(model);
        lack.extend(lacking(&shop.name, sizes.iter().take(1).map(|size| &size.figures)));
    }
    unprintable(sources, &lack)
}

/// Whether a model prints: nothing of it is refused, and no fault took what its sheets need.
pub(super) fn prints(model: &ModelChecked) -> bool {
    !model.sizes.is_empty() && !model.faulty && model.sizes.iter().all(|size| !size.refused)
}

pub(super) fn plural(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

pub(super) fn make_folder(folder: &Path) -> Result<(), Stop> {
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
        checked: &outcome.checked,
        pairs: args.pairs,
        plan: &plan,
        shop,
        model,
        faces: &faces,
        paper: paper_of(args.paper, shop),
        lang: args.lang.lang(),
        stations: &args.stations,
        pages: args.pages.as_ref(),
        out: &args.out,
    };
    let printed: Vec<usize> = match args.by {
        By::Size => {
            let printed = sizes.par_iter().map(|size| {
                let pages = printer.print(size)?;
                progress.one_more();
                Ok(pages)
            });
            printed.collect::<Result<_, Stop>>()?
        }
        By::Station => {
            let stations: Vec<Station> = stations(args).collect();
            stations.par_iter().map(|station| printer.station(&sizes, *station)).collect::<Result<_, Stop>>()?
        }
        By::One => vec![printer.all(&sizes)?],
    };
    Ok((printed.iter().filter(|pages| **pages > 0).count(), printed.iter().sum()))
}

/// The paper asked for, or the shop's.
pub(super) fn paper_of(asked: Option<Paper>, shop: &Shop) -> paper::Paper {
    let letter = match asked {
        Some(asked) => asked == Paper::Letter,
        None => shop.paper.as_ref().is_ok_and(|paper| paper.it == "letter"),
    };
    if letter { paper::Paper::Letter } else { paper::Paper::A4 }
}

fn unlaid(model: &ModelChecked, why: &paper::Error) -> Stop {
    Stop::Unwritten(format!("the sheets of {}", model.name), why.to_string())
}

struct Printer<'p> {
    checked: &'p Checked,
    pairs: Option<u64>,
    plan: &'p Plan<'p>,
    shop: &'p Shop,
    model: &'p ModelChecked,
    faces: &'p Typefaces,
    paper: paper::Paper,
    lang: Lang,
    stations: &'p [Station],
    pages: Option<&'p Pages>,
    out: &'p Path,
}

impl Printer<'_> {
    /// Prints one size; how many pages that made.
    fn print(&self, size: &Figured) -> Result<usize, Stop> {
        let attachment = self.attachment(&[size])?;
        let Some(document) = self.lay(size, self.stations, attachment) else { return Ok(0) };
        self.write(document, &self.path(size.checked.size))
    }

    /// Prints one station in all sizes; how many pages that made.
    fn station(&self, sizes: &[Figured], station: Station) -> Result<usize, Stop> {
        let by = Gathering::Station(station.name().to_owned(), station.title(self.lang).to_owned());
        let title = format!("{} {}", self.model.name, station.title(self.lang));
        let name = format!("{}_{}.pdf", self.model.name, station.name());
        self.gathered(sizes, &[station], title, &by, &name)
    }

    /// Prints everything as one file; how many pages that made.
    fn all(&self, sizes: &[Figured]) -> Result<usize, Stop> {
        let name = format!("{}.pdf", self.model.name);
        self.gathered(sizes, self.stations, self.model.name.clone(), &Gathering::All, &name)
    }

    fn gathered(
        &self,
        sizes: &[Figured],
        stations: &[Station],
        title: String,
        by: &Gathering,
        name: &str,
    ) -> Result<usize, Stop> {
        let laid = sizes.par_iter().filter_map(|size| {
            let document = self.lay(size, stations, Vec::new())?;
            Some((size.checked.size.to_string(), document))
        });
        let Some(mut whole) = gather(title, laid.collect(), by) else { return Ok(0) };
        let attachment = self.attachment(&sizes.iter().collect::<Vec<_>>())?;
        for carried in &mut whole.attachments {
            carried.bytes.clone_from(&attachment);
        }
        self.write(whole, &self.out.join(name))
    }

    fn attachment(&self, sizes: &[&Figured]) -> Result<Vec<u8>, Stop> {
        let attachment = report::attachment_of(&[(self.model, sizes.to_vec())]);
        attachment.map_err(|why| Stop::unwritten(self.model.name.clone(), &why))
    }

    fn lay(&self, size: &Figured, stations: &[Station], attachment: Vec<u8>) -> Option<Document> {
        let build = self.plan.build(size.checked.size);
        let notices = self.notices(size.checked.size);
        let job = Job {
            build: &build,
            shop: self.shop,
            figures: &size.figures,
            fingerprint: &size.fingerprint,
            attachment,
            paper: self.paper,
            lang: self.lang,
            units: Units::of(self.shop),
            pairs: self.pairs,
            notices: &notices,
            stations,
        };
        lay(&job).map(|laid| laid.document)
    }

    /// Writes a document, or those of its pages that are wanted; how many there are. None of them, no file.
    fn write(&self, mut document: Document, path: &Path) -> Result<usize, Stop> {
        if let Some(pages) = self.pages {
            keep(&mut document, |page| pages.wants(page));
        }
        if document.pages.is_empty() {
            return Ok(0);
        }
        let bytes = paper::write(&document, self.faces).map_err(|why| unlaid(self.model, &why))?;
        replace(path, &bytes).map_err(|why| Stop::unwritten(path.display().to_string(), &why))?;
        Ok(document.pages.len())
    }

    /// What a bench must know of a size; what could not be judged is not released.
    fn notices(&self, size: Size) -> Vec<Notice> {
        let mut notices = self.checked.notices(self.model, size);
        if self.model.faulty {
            notices.push(Notice { rule: FaultName::NOT_JUDGED.0, subjects: Vec::new(), refused: true, numbers: None });
        }
        notices
    }

    fn path(&self, size: Size) -> PathBuf {
        self.out.join(format!("{}.pdf", stem(&self.model.name, size)))
    }
}

/// `scree-8_us-men_09.5_EE`: files of a folder stand in the order of the sizes.
pub(super) fn stem(model: &str, size: Size) -> String {
    let text = size.to_string();
    let (number, width) = text.rsplit_once(' ').unwrap_or((&text, ""));
    let whole = number.split(['.', ' ']).next().unwrap_or_default().len();
    let padded = format!("{}{}", "0".repeat(2_usize.saturating_sub(whole)), number.replace([' ', '/'], "-"));
    format!("{model}_{}_{padded}_{width}", size.system.name())
}

/// Writes beside the place and renames, so that nobody ever finds half a file.
pub(super) fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
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
