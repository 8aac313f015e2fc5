//! `hobnail templates`: what is laid on the leather, at true size, left and right.
//!
//! What a rule refuses prints no template unless it is forced, and then every page says that it is not released.

use super::args::{Drawn, FootName, TemplatePaper, TemplatesArgs};
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::sheets::{make_folder, plural, prints, replace, stem};
use super::targets::{free, one_of_each_name};
use super::{Stop, Verdict};
use crate::build::Plan;
use crate::check::{Figured, ModelChecked};
use crate::sheets::{Foot, TemplateJob, Typefaces, paper, svgs, templates};
use std::path::PathBuf;

pub(super) fn run(args: &TemplatesArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let printable = |model: &&ModelChecked| prints(model) || (args.force && !model.sizes.is_empty());
    let models: Vec<&ModelChecked> = outcome.checked.models.iter().filter(printable).collect();
    one_of_each_name(&models, &outcome.loaded.sources)?;
    let mut all = Vec::new();
    for model in &models {
        let files = print(&outcome, model, args)?;
        if !args.replace {
            let paths: Vec<PathBuf> = files.iter().map(|(path, _)| path.clone()).collect();
            free(&paths, &[&model.name])?;
        }
        all.extend(files);
    }
    if all.is_empty() {
        return Ok(verdict(&run, &args.judged.how));
    }
    make_folder(&args.out)?;
    for (path, bytes) in &all {
        replace(path, bytes).map_err(|why| Stop::unwritten(path.display().to_string(), &why))?;
    }
    output.write(Stream::Out, |out, _| writeln!(out, "{} in {}", plural(all.len(), "file"), args.out.display()))?;
    Ok(verdict(&run, &args.judged.how))
}

/// A file to be written: which drawings there are is not known before they are made.
type Ready = (PathBuf, Vec<u8>);

/// Makes the files of all sizes of one model.
fn print(outcome: &Outcome, model: &ModelChecked, args: &TemplatesArgs) -> Result<Vec<Ready>, Stop> {
    let world = &outcome.checked.worlds[model.place.0];
    let Some(shop) = &world.shop else { return Ok(Vec::new()) };
    let plan = Plan::new(&world.models[model.place.1], shop);
    let mut files = Vec::new();
    for size in outcome.checked.figured(model) {
        let build = plan.build(size.checked.size);
        let notices = outcome.checked.notices(model, size.checked.size);
        let refused = model.faulty || notices.iter().any(|notice| notice.refused);
        for foot in feet(args.foot) {
            let job = TemplateJob {
                build: &build,
                shop: &shop.name,
                fingerprint: &size.fingerprint,
                paper: paper_of(args.paper),
                lang: args.lang.lang(),
                foot,
                refused,
                notices: &notices,
            };
            files.extend(made(&job, &size, model, args)?);
        }
    }
    Ok(files)
}

/// Makes the templates of one size and foot.
fn made(job: &TemplateJob<'_>, size: &Figured, model: &ModelChecked, args: &TemplatesArgs) -> Result<Vec<Ready>, Stop> {
    let name = format!("{}_templates_{}", stem(&model.name, size.checked.size), job.foot.name());
    if args.kind == Drawn::Svg {
        let path = |shape: &str| args.out.join(format!("{name}_{shape}.svg"));
        return Ok(svgs(job).into_iter().map(|(shape, drawing)| (path(shape), drawing.into_bytes())).collect());
    }
    let Some(document) = templates(job) else { return Ok(Vec::new()) };
    let unlaid = |why: paper::Error| Stop::Unwritten(format!("the templates of {}", model.name), why.to_string());
    let faces = Typefaces::for_text(document.characters()).map_err(unlaid)?;
    let bytes = paper::write(&document, &faces).map_err(unlaid)?;
    Ok(vec![(args.out.join(format!("{name}.pdf")), bytes)])
}

fn feet(foot: FootName) -> Vec<Foot> {
    match foot {
        FootName::Left => vec![Foot::Left],
        FootName::Right => vec![Foot::Right],
        FootName::Both => vec![Foot::Left, Foot::Right],
    }
}

fn paper_of(asked: TemplatePaper) -> paper::Paper {
    match asked {
        TemplatePaper::A3 => paper::Paper::A3,
        TemplatePaper::Tabloid => paper::Paper::Tabloid,
        TemplatePaper::A4 => paper::Paper::A4,
        TemplatePaper::Letter => paper::Paper::Letter,
    }
}
