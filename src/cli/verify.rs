//! `hobnail verify`: whether printed sheets are those of the present sources, and what differs.
//!
//! Every sheet is held against the sources before the first that can't be read ends the command.

use super::args::{How, VerifyArgs};
use super::judge::{Outcome, show_aside};
use super::output::{Output, Stream};
use super::stop::plain;
use super::{Stop, Verdict};
use crate::build::COMPUTATION;
use crate::check::{Checked, Compared, Figured, ModelChecked, Recorded, SizeFilter};
use crate::measure::Size;
use crate::report::{self, Verified, tally};
use crate::sheets::{CodeText, paper};
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::Read as _;
use std::path::Path;

/// No sheet is larger, in bytes.
const LARGEST: u64 = 512 << 20;

/// What a sheet, or a fingerprint, says of itself.
struct Given {
    name: String,
    says: Says,
}

enum Says {
    /// These builds.
    Builds(Vec<Recorded>),
    /// A fingerprint alone.
    Fingerprint(String),
    /// Nothing, with words for why.
    Nothing(String),
}

pub(super) fn run(args: VerifyArgs, output: &Output) -> Result<Verdict, Stop> {
    let (sheets, sources): (Vec<&String>, Vec<&String>) = args.files.iter().partition(|file| is_sheet(file));
    let sources: Vec<String> = sources.into_iter().cloned().collect();
    if sheets.is_empty() && args.fingerprints.is_empty() {
        return Err(Stop::Usage("no sheet is given; name a PDF, or `--fingerprint` what stands on one".to_owned()));
    }
    if sources.is_empty() {
        return Err(Stop::Usage("no models are given; name the files that the sheets were printed from".to_owned()));
    }
    let printed = sheets.into_iter().map(|path| Given { name: path.clone(), says: sheet(path) });
    let given: Vec<Given> = printed.chain(args.fingerprints.iter().map(|text| fingerprint(text))).collect();
    let how = How { as_path: args.as_path, sizes: Vec::new(), deny: None, format: args.format };
    let outcome = Outcome::of_sizes(&sources, &how, &Sizes::of(&given))?;
    let run = outcome.report();
    if run.counts().faults > 0 {
        show_aside(&run, &how, output)?;
    }
    let verified: Vec<Verified> = given.iter().map(|it| verified(it, &outcome.checked)).collect();
    let format = args.format.format();
    output.write(Stream::Out, |out, look| report::verified(out, &verified, format, look))?;
    ended(&verified)
}

fn ended(verified: &[Verified]) -> Result<Verdict, Stop> {
    let unread = verified.iter().find_map(|it| it.builds.as_ref().err().map(|why| (it.given.clone(), why.clone())));
    match unread {
        Some((path, why)) => Err(Stop::UnreadSheet(path, why)),
        None if tally(verified).differing > 0 => Ok(Verdict::Failed),
        None => Ok(Verdict::Passed),
    }
}

/// Sheets are known by their names, or by how they begin.
fn is_sheet(path: &str) -> bool {
    let named = Path::new(path).extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf"));
    named || begins_as_pdf(path)
}

fn begins_as_pdf(path: &str) -> bool {
    let regular = fs::metadata(path).is_ok_and(|about| about.is_file());
    let mut begins = Vec::new();
    let read = || File::open(path)?.take(1024).read_to_end(&mut begins);
    regular && { read }().is_ok() && paper::is_pdf(&begins)
}

/// What a printed sheet says of itself.
fn sheet(path: &str) -> Says {
    let read = bytes(path).and_then(|bytes| {
        let figures = paper::attached(&bytes, "figures.json").map_err(|why| why.to_string())?;
        report::recorded(&figures)
    });
    match read {
        Ok(builds) if builds.is_empty() => Says::Nothing("it carries the figures of no build".to_owned()),
        Ok(builds) => Says::Builds(builds),
        Err(why) => Says::Nothing(why),
    }
}

fn bytes(path: &str) -> Result<Vec<u8>, String> {
    let about = fs::metadata(path).map_err(|why| plain(&why))?;
    if !about.is_file() {
        return Err("it is not a file".to_owned());
    }
    if about.len() > LARGEST {
        return Err(format!("it is larger than {} MB", LARGEST >> 20));
    }
    fs::read(path).map_err(|why| plain(&why))
}

/// What a fingerprint says, alone or as a code has it.
fn fingerprint(text: &str) -> Given {
    let says = match CodeText::read(text) {
        Some(code) => Says::Builds(vec![coded(code)]),
        None => Says::Fingerprint(text.trim().to_lowercase()),
    };
    Given { name: text.to_owned(), says }
}

fn coded(code: CodeText) -> Recorded {
    let CodeText { model, revision, system, size, fingerprint, .. } = code;
    Recorded { computation: None, part: false, model, revision, system, size, fingerprint, figures: None }
}

fn verified(given: &Given, checked: &Checked) -> Verified {
    let builds = match &given.says {
        Says::Builds(builds) => Ok(builds.iter().cloned().zip(checked.compare(builds)).collect()),
        Says::Fingerprint(text) => {
            Ok(checked.having(text).iter().map(|(model, size)| found(model, size, checked)).collect())
        }
        Says::Nothing(why) => Err(why.clone()),
    };
    Verified { given: given.name.clone(), builds }
}

/// A build that was found by its fingerprint.
fn found(model: &ModelChecked, size: &Figured, checked: &Checked) -> (Recorded, Compared) {
    let recorded = Recorded {
        computation: Some(COMPUTATION),
        part: false,
        model: model.name.clone(),
        revision: model.revision,
        system: size.checked.size.system.name().to_owned(),
        size: size.checked.size.to_string(),
        fingerprint: size.fingerprint.clone(),
        figures: None,
    };
    let compared = checked.compare(std::slice::from_ref(&recorded)).swap_remove(0);
    (recorded, compared)
}

/// The sizes that something was printed in; all of them where only a fingerprint is known.
struct Sizes {
    all: bool,
    known: BTreeSet<(String, String)>,
}

impl Sizes {
    fn of(given: &[Given]) -> Self {
        let mut sizes = Sizes { all: false, known: BTreeSet::new() };
        for it in given {
            match &it.says {
                Says::Builds(builds) => {
                    sizes.known.extend(builds.iter().map(|build| (build.system.clone(), build.size.clone())));
                }
                Says::Fingerprint(_) => sizes.all = true,
                Says::Nothing(_) => {}
            }
        }
        sizes
    }
}

impl SizeFilter for Sizes {
    fn wants(&self, size: &Size) -> bool {
        self.all || self.known.contains(&(size.system.name().to_owned(), size.to_string()))
    }
}
