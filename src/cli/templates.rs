//! `hobnail templates`: what is laid on the leather, at true size, left and right.
//!
//! What a rule refuses prints no template unless it is forced, and then every page says that it is not released.

use super::args::{Drawn, FootName, TemplatePaper, TemplatesArgs};
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::sheets::{make_folder, plural, prints, replace, stem};
use super::{Stop, Verdict};
use crate::build::Plan;
use crate::check::{Figured, ModelChecked};
use crate::sheets::{Foot, TemplateJob, Typefaces, paper, svgs, templates};

pub(super) fn run(args: &TemplatesArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    show_aside(&run, &args.judged.how, output)?;
    let mut files = 0;
    for model in &outcome.checked.models {
        if prints(model) || (args.force && !model.sizes.is_empty()) {
            files += print(&outcome, model, args)?;
        }
    }
    if files > 0 {
        output.write(Stream::Out, |out, _| writeln!(out, "{} in {}", plural(files, "file"), args.out.display()))?;
    }
    Ok(verdict(&run, &args.judged.how))
}

/// Prints all sizes of one model; how many files that made.
fn print(outcome: &Outcome, model: &ModelChecked, args: &TemplatesArgs) -> Result<usize, Stop> {
    let world = &outcome.checked.worlds[model.place.0];
    let Some(shop) = &world.shop else { return Ok(0) };
    make_folder(&args.out)?;
    let plan = Plan::new(&world.models[model.place.1], shop);
    let mut files = 0;
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
            files += write(&job, &size, model, args)?;
        }
    }
    Ok(files)
}

/// Writes the templates of one size and foot; how many files that made.
fn write(job: &TemplateJob<'_>, size: &Figured, model: &ModelChecked, args: &TemplatesArgs) -> Result<usize, Stop> {
    let name = format!("{}_templates_{}", stem(&model.name, size.checked.size), job.foot.name());
    let put = |name: &str, bytes: &[u8]| {
        let path = args.out.join(name);
        replace(&path, bytes).map_err(|why| Stop::unwritten(path.display().to_string(), &why))
    };
    if args.kind == Drawn::Svg {
        let drawings = svgs(job);
        for (shape, drawing) in &drawings {
            put(&format!("{name}_{shape}.svg"), drawing.as_bytes())?;
        }
        return Ok(drawings.len());
    }
    let Some(document) = templates(job) else { return Ok(0) };
    let unlaid = |why: paper::Error| Stop::Unwritten(format!("the templates of {}", model.name), why.to_string());
    let faces = Typefaces::for_text(document.characters()).map_err(unlaid)?;
    put(&format!("{name}.pdf"), &paper::write(&document, &faces).map_err(unlaid)?)?;
    Ok(1)
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
