//! `hobnail explain`: the page of a rule; with files, how it comes to its verdict on them.

use super::args::ExplainArgs;
use super::judge::{Outcome, show_aside};
use super::output::{Output, Stream};
use super::{Stop, Verdict};
use crate::check::{ModelChecked, SizeFilter};
use crate::finding::FaultName;
use crate::measure::Size;
use crate::report;
use crate::rules::{Rule, all, page};

pub(super) fn run(args: &ExplainArgs, output: &Output) -> Result<Verdict, Stop> {
    let rule = all().iter().copied().find(|rule| rule.name() == args.rule);
    if args.files.is_empty() {
        let text = rule.map_or_else(|| fault(&args.rule), |rule| Ok(page(rule)))?;
        output.write(Stream::Out, |out, _| write!(out, "{text}"))?;
        return Ok(Verdict::Passed);
    }
    let Some(rule) = rule else {
        return Err(Stop::Usage(format!("`{}` is a fault of the text; only a rule is worked out", args.rule)));
    };
    derive(rule, args, output)
}

/// What there is to say of a fault's name.
fn fault(name: &str) -> Result<String, Stop> {
    let known = FaultName::FAULTS.iter().find(|(known, _)| known.0 == name);
    known.map(|(name, says)| format!("# {}\n\n{says}\n", name.0)).ok_or_else(|| unknown(name))
}

fn unknown(name: &str) -> Stop {
    let names = all().iter().map(|rule| rule.name()).chain(FaultName::FAULTS.iter().map(|(name, _)| name.0));
    let near = names.max_by(|a, b| strsim::jaro_winkler(a, name).total_cmp(&strsim::jaro_winkler(b, name)));
    Stop::Usage(format!("no rule is called `{name}`; the nearest is `{}`", near.unwrap_or_default()))
}

fn derive(rule: &dyn Rule, args: &ExplainArgs, output: &Output) -> Result<Verdict, Stop> {
    // Without a size the last's base size stands for all, and nothing else has to be judged.
    let outcome = if args.how.sizes.is_empty() {
        Outcome::of_sizes(&args.files, &args.how, &NoSize)?
    } else {
        Outcome::of(&args.files, &args.how)?
    };
    let run = outcome.report();
    let derived = outcome.checked.derived(rule, |model| {
        if args.how.sizes.is_empty() { base(&outcome, model) } else { model.sizes.iter().map(|it| it.size).collect() }
    });
    let format = args.how.format.format();
    output.write(Stream::Out, |out, look| report::explain(out, &run, rule, &derived, format, look))?;
    if run.counts().faults > 0 {
        show_aside(&run, &args.how, output)?;
        return Ok(Verdict::Failed);
    }
    Ok(Verdict::Passed)
}

/// The base size of a model's last, if it is in the run; else the first of the run.
fn base(outcome: &Outcome, model: &ModelChecked) -> Vec<Size> {
    let spec = &outcome.checked.worlds[model.place.0].models[model.place.1];
    let base = spec.last.as_ref().ok().and_then(|last| last.it.base.as_ref().ok()).map(|base| base.it);
    base.filter(|base| model.run.contains(base)).or(model.run.first().copied()).into_iter().collect()
}

struct NoSize;

impl SizeFilter for NoSize {
    fn wants(&self, _: &Size) -> bool {
        false
    }
}
