//! `hobnail mend`: writes a way out into the files that it edits, and checks again.

use super::args::{FormatName, How, MendArgs};
use super::disk::STANDARD_INPUT;
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::rewrite::{Replacement, replace_all};
use super::{Stop, Verdict};
use crate::check::AllSizes;
use crate::finding::{Finding, Remedy, WaysOut};
use crate::remedy::{Rewritten, mended, promised, remedies, weighing};
use crate::report;
use crate::source::{EditFault, Source};
use std::collections::BTreeSet;
use std::path::Path;

pub(super) fn run(args: &MendArgs, output: &Output) -> Result<Verdict, Stop> {
    let how = How { as_path: args.as_path.clone(), sizes: Vec::new(), deny: None, format: FormatName::Human };
    let mut outcome = Outcome::of_sizes(&args.files, &how, &AllSizes)?;
    remedies(&outcome.loaded, &mut outcome.checked);
    let Some((finding, remedy)) = chosen(&outcome, args)? else {
        let run = outcome.report();
        show_aside(&run, &how, output)?;
        output.write(Stream::Out, |out, _| writeln!(out, "nothing was mended: {}", without(&outcome)))?;
        return Ok(verdict(&run, &how));
    };
    let overlap = |_: EditFault| Stop::Usage("the edits of this way out can't be made together".to_owned());
    let texts = mended(&outcome.loaded.sources, remedy).map_err(overlap)?;
    if args.dry_run || texts.iter().any(|text| is_input(args, outcome.loaded.sources.get(text.id))) {
        return shown(&outcome, args, &texts, output);
    }
    replace(&outcome, &texts)?;
    again(&outcome, args, &how, (finding, remedy), output)
}

/// The finding and the way out of it that are meant; `None` if nothing has one.
fn chosen<'o>(outcome: &'o Outcome, args: &MendArgs) -> Result<Option<(&'o Finding, &'o Remedy)>, Stop> {
    let sources = &outcome.loaded.sources;
    let ways = |finding: &'o Finding| finding.ways_out.as_ref();
    let has = |ways: &&WaysOut| !ways.remedies.is_empty();
    let mut mendable = outcome.checked.findings.iter().filter(|finding| ways(finding).as_ref().is_some_and(has));
    let finding = match &args.finding {
        None => mendable.next(),
        Some(key) => {
            let all: Vec<&Finding> = mendable.collect();
            let found = all.iter().find(|finding| finding.key(sources) == *key);
            Some(*found.ok_or_else(|| Stop::Usage(unknown(key, all.iter().map(|finding| finding.key(sources)))))?)
        }
    };
    let Some(finding) = finding else { return Ok(None) };
    let remedies = ways(finding).map(|ways| &*ways.remedies).unwrap_or_default();
    let most = remedies.len();
    let remedy = remedies.get(args.remedy.get() - 1).ok_or_else(|| {
        let key = finding.key(sources);
        Stop::Usage(format!("`{key}` has {}, not {}", super::sheets::plural(most, "way") + " out", args.remedy))
    })?;
    Ok(Some((finding, remedy)))
}

fn unknown(key: &str, known: impl Iterator<Item = String>) -> String {
    let known: Vec<String> = known.map(|key| format!("`{key}`")).collect();
    if known.is_empty() {
        return format!("no finding `{key}` has a way out; none has one");
    }
    format!("no finding `{key}` has a way out; these have: {}", known.join(", "))
}

/// Why there is nothing to mend.
fn without(outcome: &Outcome) -> &'static str {
    let findings = &outcome.checked.findings;
    if findings.iter().any(|finding| finding.ways_out.is_some()) {
        "what was found has no way out"
    } else if weighing(&outcome.checked, &outcome.loaded.sources).is_empty() {
        "nothing is refused or tight"
    } else {
        "ways out are not looked for until the texts can be understood"
    }
}

/// Whether a text came from standard input.
fn is_input(args: &MendArgs, source: &Source) -> bool {
    let path = args.as_path.as_deref().unwrap_or(Path::new("standard input"));
    args.files.iter().any(|file| file == STANDARD_INPUT) && Path::new(&source.shown) == path
}

/// What would be written: a diff, or the mended text of standard input itself.
fn shown(outcome: &Outcome, args: &MendArgs, texts: &[Rewritten], output: &Output) -> Result<Verdict, Stop> {
    output.write(Stream::Out, |out, _| {
        for text in texts {
            let source = outcome.loaded.sources.get(text.id);
            if args.dry_run {
                report::diff(out, &source.shown, &source.text, &text.new)?;
            } else {
                out.write_all(text.new.as_bytes())?;
            }
        }
        Ok(())
    })?;
    Ok(Verdict::Passed)
}

fn replace(outcome: &Outcome, texts: &[Rewritten]) -> Result<(), Stop> {
    let replacement = |text: &'_ Rewritten| {
        let source = outcome.loaded.sources.get(text.id);
        (Path::new(&source.identity).to_owned(), source.shown.clone(), source.text.clone(), text.new.clone())
    };
    let all: Vec<_> = texts.iter().map(replacement).collect();
    let all: Vec<Replacement<'_>> =
        all.iter().map(|(path, shown, old, new)| Replacement { path, shown, old, new }).collect();
    replace_all(&all)
}

/// Reads and judges the files once more, and says what became of what was found.
fn again(
    before: &Outcome,
    args: &MendArgs,
    how: &How,
    (finding, remedy): (&Finding, &Remedy),
    output: &Output,
) -> Result<Verdict, Stop> {
    let after = Outcome::of_sizes(&args.files, how, &AllSizes)?;
    let wanted = promised(&before.checked, &before.loaded.sources, remedy);
    let found = weighing(&after.checked, &after.loaded.sources);
    let run = after.report();
    show_aside(&run, how, output)?;
    output.write(Stream::Out, |out, _| {
        report::mended(out, remedy, &before.loaded.sources)?;
        let gone: BTreeSet<String> =
            weighing(&before.checked, &before.loaded.sources).difference(&found).cloned().collect();
        for key in gone {
            writeln!(out, "mended {key}")?;
        }
        if found.contains(&finding.key(&before.loaded.sources)) {
            writeln!(out, "now tight {}", finding.key(&before.loaded.sources))?;
        }
        if found != wanted {
            let others: Vec<&str> = found.symmetric_difference(&wanted).map(String::as_str).collect();
            writeln!(out, "not as promised, other files were changed since: {}", others.join(", "))?;
        }
        report::summary(out, &run)
    })?;
    Ok(verdict(&run, how))
}
