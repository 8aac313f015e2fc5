//! Ways out below a finding: the edited lines, old and new, in the author's own unit and form.

use super::Look;
use super::places::clean;
use super::run::Run;
use super::theme::Theme;
use super::words::count;
use crate::finding::{Change, Finding, Reaches, Remedy, WaysOut};
use crate::source::Sources;
use owo_colors::OwoColorize;
use std::io::{self, Write};

/// How many are shown unless all are asked for.
pub(super) const SHOWN: usize = 3;

/// What was shown of a run so far: findings of one model often have the same ways out.
#[derive(Default)]
pub(super) struct Ways<'r> {
    shown: Vec<(String, &'r [Remedy])>,
}

impl<'r> Ways<'r> {
    /// Writes the ways out of a finding, if they were looked for.
    pub fn write(
        &mut self,
        out: &mut dyn Write,
        finding: &'r Finding,
        run: &Run<'_>,
        theme: Theme,
        look: Look,
    ) -> io::Result<()> {
        let Some(ways) = &finding.ways_out else { return Ok(()) };
        let key = finding.key(run.sources());
        write!(out, "  {}", "ways out: ".style(theme.word()))?;
        if let Some((before, _)) = self.shown.iter().find(|(_, known)| *known == ways.remedies && !known.is_empty()) {
            return writeln!(out, "the same as of {}", clean(before));
        }
        if let Some(why) = &ways.none_because {
            let said = format!("none in {}: {why}", count(ways.trials, "trial"));
            let options =
                textwrap::Options::new(look.width).initial_indent("            ").subsequent_indent("            ");
            return writeln!(out, "{}", textwrap::fill(&clean(&said), options).trim_start());
        }
        writeln!(out, "{}", found(ways))?;
        self.shown.push((key.clone(), &ways.remedies));
        for (n, remedy) in (1..).zip(shown(ways, run)) {
            one(out, n, remedy, &key, run, theme, look)?;
        }
        let more = ways.remedies.len().saturating_sub(SHOWN);
        if more > 0 && !run.all_ways {
            writeln!(out, "    {}", format!("{more} more with --all-ways").style(theme.faint()))?;
        }
        Ok(())
    }
}

/// The remedies that are shown.
pub(super) fn shown<'w>(ways: &'w WaysOut, run: &Run<'_>) -> &'w [Remedy] {
    let most = if run.all_ways { ways.remedies.len() } else { ways.remedies.len().min(SHOWN) };
    &ways.remedies[..most]
}

/// `6 found in 190 trials`
fn found(ways: &WaysOut) -> String {
    format!("{} found in {}", ways.remedies.len(), count(ways.trials, "trial"))
}

/// How far it gets, in words.
pub(super) fn reaches(remedy: &Remedy) -> &'static str {
    match remedy.reaches {
        Reaches::Passes => "passes",
        Reaches::Tight => "only reaches tight",
    }
}

fn one(
    out: &mut dyn Write,
    n: usize,
    remedy: &Remedy,
    key: &str,
    run: &Run<'_>,
    theme: Theme,
    look: Look,
) -> io::Result<()> {
    let number = format!("{n}");
    write!(out, "  {} {}, {}", number.style(theme.word()), remedy.kind.name(), reaches(remedy))?;
    if remedy.changes.len() > 1 {
        write!(out, ": {} that belong together", count(remedy.changes.len(), "edit"))?;
    }
    writeln!(out)?;
    for change in &remedy.changes {
        let place = run.places.of(change.edit.span);
        let at = format!("{}:{}", place.path, place.line);
        writeln!(out, "    {}", clean(&format!("{at}  {}", place_in(change))).style(theme.faint()))?;
        for (sign, said) in signed(change) {
            let lead = format!("    {sign} ");
            let options = textwrap::Options::new(look.width).initial_indent(&lead).subsequent_indent("      ");
            writeln!(out, "{}", textwrap::fill(&clean(said), options))?;
        }
    }
    let others: Vec<&str> = remedy.cures.iter().map(String::as_str).filter(|cured| *cured != key).collect();
    facts(out, "mends too", &others, look)?;
    let unseen: Vec<&str> = remedy.unseen.iter().map(String::as_str).collect();
    facts(out, "uses the edited text and was not looked at", &unseen, look)
}

fn facts(out: &mut dyn Write, word: &str, list: &[&str], look: Look) -> io::Result<()> {
    if list.is_empty() {
        return Ok(());
    }
    let said = format!("{word}: {}", list.join("; "));
    let options = textwrap::Options::new(look.width).initial_indent("    ").subsequent_indent("      ");
    writeln!(out, "{}", textwrap::fill(&clean(&said), options))
}

/// The way to what a change is of, without the model: `bottom / sole / through`.
fn place_in(change: &Change) -> &str {
    change.path.split_once(" / ").map_or(&*change.path, |(_, rest)| rest)
}

/// The lines that go and come.
fn signed(change: &Change) -> impl Iterator<Item = (char, &str)> {
    [('-', change.old.as_str()), ('+', change.new.as_str())].into_iter().filter(|(_, said)| !said.is_empty())
}

/// One line for each way out: `path:line:column: way 1 of KEY (kind, passes): old -> new; …`
pub(super) fn short(out: &mut dyn Write, finding: &Finding, run: &Run<'_>) -> io::Result<()> {
    let Some(ways) = &finding.ways_out else { return Ok(()) };
    let key = finding.key(run.sources());
    for (n, remedy) in (1..).zip(shown(ways, run)) {
        let Some(first) = remedy.changes.first() else { continue };
        let place = run.places.of(first.edit.span);
        let edits: Vec<String> = remedy.changes.iter().map(edited).collect();
        let (kind, reaches, edits) = (remedy.kind.name(), reaches(remedy), edits.join("; "));
        let line =
            format!("{}:{}:{}: way {n} of {key} ({kind}, {reaches}): {edits}", place.path, place.line, place.column);
        writeln!(out, "{}", clean(&line))?;
    }
    Ok(())
}

fn edited(change: &Change) -> String {
    match (change.old.as_str(), change.new.as_str()) {
        ("", new) => format!("add {new}"),
        (old, "") => format!("delete {old}"),
        (old, new) => format!("{old} -> {new}"),
    }
}

/// What `mend` did: each change of a remedy in a line, with its place as it was.
///
/// # Errors
/// What `out` answers.
pub fn mended(out: &mut dyn Write, remedy: &Remedy, sources: &Sources) -> io::Result<()> {
    for change in &remedy.changes {
        writeln!(out, "{}", clean(&format!("{}: {}", sources.place(change.edit.span), edited(change))))?;
    }
    Ok(())
}
