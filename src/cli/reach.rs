//! `hobnail reach`: how far the models of a file can go with what the shop has.

use super::args::{How, ReachArgs};
use super::judge::{Outcome, show_aside};
use super::output::{Output, Stream};
use super::sheets::{make_folder, paper_of, replace};
use super::targets::free;
use super::{Stop, Verdict};
use crate::check::ModelChecked;
use crate::remedy::reach::{Reach, reach};
use crate::report;
use crate::sheets::{ReachJob, paper, reach_page, typefaces};
use std::path::Path;

pub(super) fn run(args: &ReachArgs, output: &Output) -> Result<Verdict, Stop> {
    let how = How { as_path: args.as_path.clone(), sizes: Vec::new(), deny: None, format: args.format };
    let outcome = Outcome::of(&args.files, &how)?;
    let run = outcome.report();
    let models = wanted(&outcome, args)?;
    let tried = models.iter().map(|model| (*model, reach(&outcome.loaded, model.root, &model.name, &model.run)));
    let found: Vec<(&ModelChecked, Reach)> = tried.filter_map(|(model, reach)| Some((model, reach?))).collect();
    let all: Vec<Reach> = found.iter().map(|(_, reach)| reach.clone()).collect();
    if run.counts().faults > 0 {
        show_aside(&run, &how, output)?;
    }
    output.write(Stream::Out, |out, look| report::reach(out, &run, &all, args.format.format(), look))?;
    if let Some(path) = &args.out {
        plot(&outcome, &found, args, path)?;
    }
    Ok(if run.counts().faults > 0 { Verdict::Failed } else { Verdict::Passed })
}

/// The models asked for, or all.
fn wanted<'o>(outcome: &'o Outcome, args: &ReachArgs) -> Result<Vec<&'o ModelChecked>, Stop> {
    let all = &outcome.checked.models;
    let Some(name) = &args.model else { return Ok(all.iter().collect()) };
    let named: Vec<&ModelChecked> = all.iter().filter(|model| model.name == *name).collect();
    if named.is_empty() {
        let known: Vec<&str> = all.iter().map(|model| model.name.as_str()).collect();
        return Err(Stop::Usage(format!("no model is called `{name}`; there are: {}", known.join(", "))));
    }
    Ok(named)
}

/// Writes a page for each model as one PDF.
fn plot(outcome: &Outcome, found: &[(&ModelChecked, Reach)], args: &ReachArgs, path: &Path) -> Result<(), Stop> {
    let shop = found.iter().find_map(|(model, _)| outcome.checked.worlds[model.place.0].shop.as_deref());
    let Some(shop) = shop else { return Ok(()) };
    let reaches: Vec<&Reach> = found.iter().map(|(_, reach)| reach).collect();
    let job =
        ReachJob { shop: &shop.name, reaches: &reaches, paper: paper_of(args.paper, shop), lang: args.lang.lang() };
    let Some(document) = reach_page(&job) else { return Ok(()) };
    let unlaid = |why: &paper::Error| Stop::Unwritten(path.display().to_string(), why.to_string());
    let names = reaches.iter().flat_map(|reach| reach.names()).collect::<Vec<_>>().join(" ");
    let faces = typefaces(&format!("{} {names}", shop.name), std::iter::empty()).map_err(|why| unlaid(&why))?;
    let bytes = paper::write(&document, &faces).map_err(|why| unlaid(&why))?;
    if !args.replace {
        let models: Vec<&str> = reaches.iter().map(|reach| reach.model.as_str()).collect();
        free(&[path.to_owned()], &models)?;
    }
    if let Some(folder) = path.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        make_folder(folder)?;
    }
    replace(path, &bytes).map_err(|why| Stop::unwritten(path.display().to_string(), &why))
}
