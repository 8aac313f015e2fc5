//! Findings for people: what is wrong, the places drawn, the facts beside it, how to mend it.

use super::places::clean;
use super::run::Run;
use super::theme::Theme;
use super::ways::Ways;
use super::{Look, snippet, words};
use crate::finding::{Finding, Label};
use crate::source::SourceId;
use owo_colors::OwoColorize;
use std::io::{self, Write};

/// Writes every finding, and a line that sums up.
pub(super) fn write(out: &mut dyn Write, run: &Run<'_>, look: Look) -> io::Result<()> {
    let theme = Theme::new(look);
    let mut ways = Ways::default();
    for finding in run.findings() {
        one(out, finding, run, theme, look)?;
        ways.write(out, finding, run, theme, look)?;
        writeln!(out)?;
    }
    writeln!(out, "{}", words::summary(run))
}

fn one(out: &mut dyn Write, finding: &Finding, run: &Run<'_>, theme: Theme, look: Look) -> io::Result<()> {
    head(out, finding, theme)?;
    para(out, "", &finding.message, theme, look)?;
    for (id, labels) in by_text(&finding.labels) {
        writeln!(out, "{}", snippet::draw(&theme.handler(), run.places.lines(id), &labels, look.width))?;
    }
    for (word, said) in facts(finding, run) {
        para(out, word, &said, theme, look)?;
    }
    Ok(())
}

/// `refused jaw/sole-stack: scree-8, sole row 1`
fn head(out: &mut dyn Write, finding: &Finding, theme: Theme) -> io::Result<()> {
    let style = theme.head(finding.severity);
    write!(out, "{} {}", finding.severity.name().style(style), finding.name.style(style))?;
    if let Some(about) = &finding.about {
        write!(out, ": {}", clean(&about.to_string()))?;
    }
    writeln!(out)
}

/// What stands below the places, each with the word before it.
fn facts(finding: &Finding, run: &Run<'_>) -> Vec<(&'static str, String)> {
    let mut facts = Vec::new();
    facts.extend(finding.notes.iter().map(|note| ("note", note.clone())));
    facts.extend(finding.sizes.as_ref().map(|sizes| ("sizes", words::sizes(sizes, finding, run))));
    if finding.roots.len() > 1 {
        facts.push(("concerns", finding.roots.join(", ")));
    }
    facts.extend(finding.help.iter().map(|help| ("help", help.clone())));
    facts
}

/// The labels by text, in the order in which the finding names the texts.
fn by_text(labels: &[Label]) -> Vec<(SourceId, Vec<&Label>)> {
    let mut texts: Vec<(SourceId, Vec<&Label>)> = Vec::new();
    for label in labels {
        match texts.iter_mut().find(|(id, _)| *id == label.span.source) {
            Some((_, known)) => known.push(label),
            None => texts.push((label.span.source, vec![label])),
        }
    }
    texts
}

/// Words in the width of the terminal, indented, with a word before them.
fn para(out: &mut dyn Write, word: &str, said: &str, theme: Theme, look: Look) -> io::Result<()> {
    let lead = if word.is_empty() { "  ".to_owned() } else { format!("  {word}: ") };
    let indent = " ".repeat(lead.len());
    let options = textwrap::Options::new(look.width).initial_indent(&indent).subsequent_indent(&indent);
    let wrapped = textwrap::fill(&tied(&clean(said)), options).replace(TIE, " ");
    let rest = wrapped.get(lead.len()..).unwrap_or_default();
    writeln!(out, "{}{rest}", lead.style(if word.is_empty() { owo_colors::Style::new() } else { theme.word() }))
}

/// A space at which no line is broken.
const TIE: char = '\u{a0}';

/// Numbers tied to the units behind them.
fn tied(said: &str) -> String {
    let mut tied = String::with_capacity(said.len());
    for word in said.split(' ') {
        let after_number = tied.ends_with(|c: char| c.is_ascii_digit());
        let unit = word.trim_end_matches(|c: char| ",.:;)`".contains(c));
        if !tied.is_empty() {
            tied.push(if after_number && UNITS.contains(&unit) { TIE } else { ' ' });
        }
        tied.push_str(word);
    }
    tied
}

/// The units that stand behind numbers in findings.
const UNITS: &[&str] = &["mm", "cm", "m", "in", "iron", "oz", "spi", "tex", "Nm", "N", "deg", "%", "dm2", "cm2"];
