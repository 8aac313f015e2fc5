//! How a verdict was reached: each term and where it was written, the sum, the limit, the margin.

use super::Look;
use super::places::clean;
use super::run::Run;
use super::theme::Theme;
use crate::check::Derived;
use crate::finding::{Sum, Term};
use crate::measure::pairs_failing;
use crate::rules::{Judgement, Rule, Verdict, section, times};
use crate::source::{Origin, Provenance};
use owo_colors::OwoColorize;
use std::io::{self, Write};

/// Writes the formula once, then one derivation for each model, size and subject.
pub(super) fn write(
    out: &mut dyn Write,
    run: &Run<'_>,
    rule: &dyn Rule,
    derived: &[Derived<'_>],
    look: Look,
) -> io::Result<()> {
    let theme = Theme::new(look);
    writeln!(out, "{}\n", rule.name().style(theme.word()))?;
    writeln!(out, "{}", formula(rule, look.width))?;
    if derived.is_empty() {
        writeln!(out, "\n  nothing in these models is judged by it")?;
    }
    for one in derived {
        writeln!(out)?;
        for line in lines(one, run, theme) {
            writeln!(out, "{line}")?;
        }
    }
    Ok(())
}

/// The formula, its paragraphs and items wrapped anew.
fn formula(rule: &dyn Rule, width: usize) -> String {
    let mut paragraphs: Vec<String> = vec![String::new()];
    for line in section(rule, "Formula").lines() {
        if line.is_empty() || line.starts_with("- ") {
            paragraphs.push(String::new());
        }
        if let Some(last) = paragraphs.last_mut() {
            last.push_str(if last.is_empty() { "" } else { " " });
            last.push_str(line.trim_start());
        }
    }
    let wrapped = paragraphs.iter().filter(|paragraph| !paragraph.is_empty()).map(|paragraph| {
        let further = if paragraph.starts_with("- ") { "    " } else { "  " };
        textwrap::fill(paragraph, textwrap::Options::new(width).initial_indent("  ").subsequent_indent(further))
    });
    wrapped.collect::<Vec<_>>().join("\n")
}

/// One line each: `model, size, subject: verdict, margin`
pub(super) fn short(out: &mut dyn Write, rule: &dyn Rule, derived: &[Derived<'_>]) -> io::Result<()> {
    for Derived { model, size, judgement } in derived {
        let Judgement { sum, limit, margin, unit, subject, verdict, .. } = judgement;
        let about = format!("{}, {size}, {subject}", model.name);
        let amounts = if unit.is_empty() {
            String::new()
        } else {
            format!("; {} against {}, margin {} {unit}", fine(*sum), fine(*limit), fine(*margin))
        };
        writeln!(out, "{}", clean(&format!("{} {}: {about}{amounts}", verdict.name(), rule.name())))?;
    }
    Ok(())
}

fn lines(one: &Derived<'_>, run: &Run<'_>, theme: Theme) -> Vec<String> {
    let Derived { model, size, judgement } = one;
    let head = format!("{}, {}, in {size}: {}", model.name, judgement.subject, judgement.verdict.name());
    let mut lines = vec![clean(&head).style(theme.word()).to_string()];
    let rows = rows(judgement, run);
    let wide = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let (amount, what) = (wide(0), wide(1));
    for [value, name, place] in &rows {
        let (value, name, place) = (clean(value), clean(name), clean(place));
        lines.push(format!("  {value:>amount$}  {name:what$}  {}", place.style(theme.faint())).trim_end().to_owned());
    }
    let told = judgement.place.iter().chain(&judgement.facts).map(|fact| format!("  {}", clean(&fact.to_string())));
    lines.extend(told);
    lines
}

/// Amount, what it is, and where it was written.
fn rows(judgement: &Judgement, run: &Run<'_>) -> Vec<[String; 3]> {
    if let Verdict::NotJudged(hole) = judgement.verdict {
        return vec![[String::new(), format!("because of {}", hole.fault), place(hole.span, run)]];
    }
    let mut rows: Vec<[String; 3]> = judgement.terms.terms.iter().map(|term| row(term, run)).collect();
    for (origin, what) in &judgement.further {
        let known = rows.iter().any(|row| row[2] == written(origin, run));
        if !known {
            rows.push([String::new(), what.to_string(), written(origin, run)]);
        }
    }
    if judgement.unit.is_empty() {
        return rows;
    }
    if judgement.terms.terms.len() > 1 {
        rows.push([total(&judgement.terms), "together, with its ends".to_owned(), String::new()]);
    }
    let unit = judgement.unit;
    rows.push([format!("{} {unit}", fine(judgement.sum)), "is judged".to_owned(), String::new()]);
    let (limit, place) = match &judgement.limit_origin {
        Some((origin, what)) => ((*what).to_owned(), written(origin, run)),
        None => ("the limit".to_owned(), String::new()),
    };
    rows.push([format!("{} {unit}", fine(judgement.limit)), limit, place]);
    rows.push([format!("{} {unit}", fine(judgement.margin)), "margin".to_owned(), String::new()]);
    if let Verdict::Tight(share) = judgement.verdict {
        let pairs = pairs_failing(share) * 100.0;
        rows.push([format!("{:.2} %", share * 100.0), "of boots fail, an estimate".to_owned(), String::new()]);
        rows.push([format!("{pairs:.2} %"), "of pairs".to_owned(), String::new()]);
    }
    rows
}

fn row(term: &Term, run: &Run<'_>) -> [String; 3] {
    let sign = if term.coefficient < 0.0 { "- " } else { "" };
    let half = if term.spread.half() > 0.0 { format!(" +- {}", fine(term.spread.half())) } else { String::new() };
    let value = format!("{sign}{}{}{half}", times(term.coefficient), fine(term.spread.nominal));
    let place = match &term.tolerance {
        Some(tolerance) => format!("{}; varies by {}", written(&term.origin, run), place(tolerance.span, run)),
        None => written(&term.origin, run),
    };
    [value, term.what.to_string(), place]
}

fn total(sum: &Sum) -> String {
    let spread = sum.spread();
    format!("{} / {} / {}", fine(spread.lo), fine(spread.nominal), fine(spread.hi))
}

fn place(span: crate::source::Span, run: &Run<'_>) -> String {
    let place = run.places.of(span);
    format!("{}:{}:{}", place.path, place.line, place.column)
}

/// Where a value was written, and how it came here.
fn written(origin: &Origin, run: &Run<'_>) -> String {
    let how = match origin.provenance {
        Provenance::Written => "",
        Provenance::Inherited(_) => ", inherited",
        Provenance::House => ", house rule",
        Provenance::BuiltIn => ", built in; can be written here",
    };
    format!("{}{how}", place(origin.span, run))
}

/// To a ten-thousandth: finer than any gauge, so that sums can be followed.
fn fine(value: f64) -> String {
    let text = format!("{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
