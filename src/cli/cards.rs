//! `hobnail traveller` and `hobnail line-card`: cards that go with the boots, and cards that hang at the machines.
//!
//! A model that a rule refuses prints no card, as it prints no sheet.

use super::args::{LineCardArgs, On, TravellerArgs};
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::sheets::{make_folder, paper_of, plural, prints, replace};
use super::{Stop, Verdict};
use crate::check::{Figured, ModelChecked};
use crate::report;
use crate::sheets::{LineJob, TravellerJob, Typefaces, Units, line_card, machines, paper, seams, shows, traveller};
use crate::spec::Shop;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

pub(super) fn travellers(args: &TravellerArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let mut written = Written::default();
    for (model, shop) in printable(&outcome) {
        let sizes = outcome.checked.figured(model);
        let document = traveller(&TravellerJob {
            shop: &shop.name,
            model,
            sizes: &sizes,
            pairs: args.pairs,
            batch: args.batch.as_deref(),
            attachment: attached(model, report::attachment_of(&[(model, sizes.iter().collect())]))?,
            paper: paper_of(args.on.paper, shop),
            lang: args.on.lang.lang(),
            units: Units::of(shop),
        });
        let batch = args.batch.as_ref().map(|batch| format!("_{}", of_file(batch))).unwrap_or_default();
        written.take(document, &args.on, &format!("{}_traveller{batch}.pdf", model.name))?;
    }
    written.said(&args.on.out, output)?;
    Ok(verdict(&run, &args.judged.how))
}

pub(super) fn line_cards(args: &LineCardArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let printable = printable(&outcome);
    let sizes: Vec<Vec<Figured>> = printable.iter().map(|(model, _)| outcome.checked.figured(model)).collect();
    let models: Vec<(&ModelChecked, Vec<&Figured>)> =
        printable.iter().zip(&sizes).map(|((model, _), sizes)| (*model, sizes.iter().collect())).collect();
    let known = machines(&models);
    let mut written = Written::default();
    for machine in wanted(&args.machines, &known, models.is_empty())? {
        let Some((_, shop)) = printable.first() else { continue };
        let document = line_card(&LineJob {
            shop: &shop.name,
            machine: &machine,
            models: &models,
            attachment: attached(models[0].0, part(&models, &machine))?,
            paper: paper_of(args.on.paper, shop),
            lang: args.on.lang.lang(),
            units: Units::of(shop),
        });
        written.take(document, &args.on, &format!("line-card_{}.pdf", of_file(&machine)))?;
    }
    written.said(&args.on.out, output)?;
    Ok(verdict(&run, &args.judged.how))
}

/// The models that print, each with its shop.
fn printable(outcome: &Outcome) -> Vec<(&ModelChecked, &Shop)> {
    let models = outcome.checked.models.iter().filter(|model| prints(model));
    models.filter_map(|model| Some((model, outcome.checked.worlds[model.place.0].shop.as_deref()?))).collect()
}

/// The machines asked for; all that sew, if none is.
fn wanted(asked: &[String], known: &BTreeSet<String>, nothing: bool) -> Result<Vec<String>, Stop> {
    if asked.is_empty() || nothing {
        return Ok(known.iter().cloned().collect());
    }
    match asked.iter().find(|machine| !known.contains(*machine)) {
        None => Ok(asked.to_vec()),
        Some(machine) => {
            let all: Vec<&str> = known.iter().map(String::as_str).collect();
            Err(Stop::Usage(format!(
                "no seam of the models given is sewn on `{machine}`; there are {}",
                all.join(", ")
            )))
        }
    }
}

/// The figures that a machine's card shows, as JSON.
fn part(models: &[(&ModelChecked, Vec<&Figured>)], machine: &str) -> std::io::Result<Vec<u8>> {
    let sewn = |sizes: &[&Figured]| seams(sizes, machine);
    let seams: BTreeMap<&str, BTreeSet<String>> =
        models.iter().map(|(model, sizes)| (model.name.as_str(), sewn(sizes))).collect();
    let with: Vec<_> = models.iter().filter(|(model, _)| !seams[model.name.as_str()].is_empty()).cloned().collect();
    report::attachment_of_part(&with, &|model, key| shows(&seams[model.name.as_str()], key))
}

fn attached(model: &ModelChecked, written: std::io::Result<Vec<u8>>) -> Result<Vec<u8>, Stop> {
    written.map_err(|why| Stop::unwritten(model.name.clone(), &why))
}

/// A name as a file can have it: letters, digits, `.`, `-`, `_`; anything else becomes `-`.
fn of_file(name: &str) -> String {
    let kept = |c: char| if c.is_alphanumeric() || matches!(c, '.' | '-' | '_') { c } else { '-' };
    let name: String = name.chars().map(kept).collect();
    name.trim_start_matches('.').to_owned()
}

/// Files and pages so far.
#[derive(Default)]
struct Written {
    files: usize,
    pages: usize,
}

impl Written {
    /// Writes a document, if there is one, under its name.
    fn take(&mut self, document: Option<paper::Document>, on: &On, name: &str) -> Result<(), Stop> {
        let Some(document) = document else { return Ok(()) };
        let unlaid = |why: paper::Error| Stop::Unwritten(name.to_owned(), why.to_string());
        let faces = Typefaces::for_text(document.characters()).map_err(unlaid)?;
        let bytes = paper::write(&document, &faces).map_err(unlaid)?;
        make_folder(&on.out)?;
        let path = on.out.join(name);
        replace(&path, &bytes).map_err(|why| Stop::unwritten(path.display().to_string(), &why))?;
        self.files += 1;
        self.pages += document.pages.len();
        Ok(())
    }

    /// Says how much there is, if there is anything.
    fn said(&self, out: &Path, output: &Output) -> Result<(), Stop> {
        if self.files == 0 {
            return Ok(());
        }
        output.write(Stream::Out, |to, _| {
            writeln!(to, "{}, {} in {}", plural(self.files, "file"), plural(self.pages, "page"), out.display())
        })
    }
}
