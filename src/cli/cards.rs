//! `hobnail traveller` and `hobnail line-card`: cards that go with the boots, and cards that hang at the machines.
//!
//! A model that a rule refuses prints no card, as it prints no sheet.

use super::args::{LineCardArgs, On, TravellerArgs};
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::sheets::{make_folder, paper_of, plural, prints, replace};
use super::targets::{free, one_of_each_name};
use super::{Stop, Verdict};
use crate::check::{Figured, ModelChecked};
use crate::finding::SeamName;
use crate::report;
use crate::sheets::{LineJob, TravellerJob, Typefaces, Units, line_card, machines, paper, seams, shows, traveller};
use crate::spec::Shop;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

pub(super) fn travellers(args: &TravellerArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let mut cards = Cards::default();
    for (model, shop) in printable(&outcome)? {
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
        cards.take(document, &format!("{}_traveller{batch}.pdf", model.name), &[&model.name], &args.on)?;
    }
    cards.write(&args.on.out, output)?;
    Ok(verdict(&run, &args.judged.how))
}

pub(super) fn line_cards(args: &LineCardArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let printable = printable(&outcome)?;
    let sizes: Vec<Vec<Figured>> = printable.iter().map(|(model, _)| outcome.checked.figured(model)).collect();
    let models: Vec<(&ModelChecked, Vec<&Figured>)> =
        printable.iter().zip(&sizes).map(|((model, _), sizes)| (*model, sizes.iter().collect())).collect();
    let names: Vec<&str> = models.iter().map(|(model, _)| model.name.as_str()).collect();
    let known = machines(&models);
    let mut cards = Cards::default();
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
        cards.take(document, &format!("line-card_{}.pdf", of_file(&machine)), &names, &args.on)?;
    }
    cards.write(&args.on.out, output)?;
    Ok(verdict(&run, &args.judged.how))
}

/// The models that print, each with its shop.
fn printable(outcome: &Outcome) -> Result<Vec<(&ModelChecked, &Shop)>, Stop> {
    let models: Vec<&ModelChecked> = outcome.checked.models.iter().filter(|model| prints(model)).collect();
    one_of_each_name(&models, &outcome.loaded.sources)?;
    let shop = |model: &ModelChecked| outcome.checked.worlds[model.place.0].shop.as_deref();
    Ok(models.into_iter().filter_map(|model| Some((model, shop(model)?))).collect())
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
    let seams: BTreeMap<&str, BTreeSet<SeamName>> =
        models.iter().map(|(model, sizes)| (model.name.as_str(), sewn(sizes))).collect();
    let with: Vec<_> = models.iter().filter(|(model, _)| !seams[model.name.as_str()].is_empty()).cloned().collect();
    report::attachment_of_part(&with, &|model, figure| shows(&seams[model.name.as_str()], figure))
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

/// Cards so far, each with its place; none is written before all of them are made.
#[derive(Default)]
struct Cards {
    files: Vec<(PathBuf, Vec<u8>)>,
    pages: usize,
}

impl Cards {
    /// Takes a document of some models, if there is one, under its name.
    fn take(&mut self, document: Option<paper::Document>, name: &str, models: &[&str], on: &On) -> Result<(), Stop> {
        let Some(document) = document else { return Ok(()) };
        let unlaid = |why: paper::Error| Stop::Unwritten(name.to_owned(), why.to_string());
        let faces = Typefaces::for_text(document.characters()).map_err(unlaid)?;
        let bytes = paper::write(&document, &faces).map_err(unlaid)?;
        let path = on.out.join(name);
        if !on.replace {
            free(std::slice::from_ref(&path), models)?;
        }
        self.files.push((path, bytes));
        self.pages += document.pages.len();
        Ok(())
    }

    /// Writes them all, and says how much there is, if there is anything.
    fn write(&self, out: &Path, output: &Output) -> Result<(), Stop> {
        if self.files.is_empty() {
            return Ok(());
        }
        make_folder(out)?;
        for (path, bytes) in &self.files {
            replace(path, bytes).map_err(|why| Stop::unwritten(path.display().to_string(), &why))?;
        }
        output.write(Stream::Out, |to, _| {
            writeln!(to, "{}, {} in {}", plural(self.files.len(), "file"), plural(self.pages, "page"), out.display())
        })
    }
}
