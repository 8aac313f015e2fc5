//! Judgements of all sizes to findings: one for each rule and subject, the worst size shown.

use crate::finding::{About, FaultName, Finding, Label, Measured, Severity, Sizes, Subject};
use crate::measure::{Size, pairs_failing};
use crate::rules::{Judgement, Verdict, all, derivation, number, times};
use crate::source::{Origin, Provenance};
use crate::spec::Model;
use std::collections::BTreeMap;

/// A judgement with the rule (by its place in the registry) and the size that it was made for.
#[derive(Clone, Debug)]
pub(super) struct Judged {
    pub rule: usize,
    pub size: Size,
    pub judgement: Judgement,
}

/// The findings of one model. In a world that is `sound` no fault explains what could not be judged.
pub(super) fn findings(model: &Model, sizes: &[Size], judged: Vec<Vec<Judged>>, sound: bool) -> Vec<Finding> {
    let mut subjects: BTreeMap<(usize, Subject), Vec<Judged>> = BTreeMap::new();
    for judged in judged.into_iter().flatten() {
        subjects.entry((judged.rule, judged.judgement.subject.clone())).or_default().push(judged);
    }
    let base = model.last.as_ref().ok().and_then(|last| last.it.base.as_ref().ok()).map(|base| base.it);
    let mut findings = if sound { not_laid_out(model, sizes.len(), subjects.values().flatten()) } else { Vec::new() };
    if findings.is_empty() {
        findings = not_judged(model, subjects.values().flatten());
    }
    for judged in subjects.into_values() {
        for severity in [Severity::Refused, Severity::Tight, Severity::Note] {
            let of: Vec<&Judged> =
                judged.iter().filter(|judged| severity_of(&judged.judgement) == Some(severity)).collect();
            if let Some(worst) = worst(&of, base) {
                findings.push(finding(model, severity, worst, &of, sizes.len()));
            }
        }
    }
    findings
}

/// What could not be judged, one note for each fault (or refusal) that took what the rules need.
fn not_judged<'j>(model: &Model, judged: impl Iterator<Item = &'j Judged>) -> Vec<Finding> {
    let mut holes: BTreeMap<(crate::source::Span, &'static str), Vec<&'static str>> = BTreeMap::new();
    for judged in judged {
        let Verdict::NotJudged(hole) = judged.judgement.verdict else { continue };
        let rules = holes.entry((hole.span, hole.fault)).or_default();
        let name = all()[judged.rule].name();
        if !rules.contains(&name) {
            rules.push(name);
        }
    }
    let note = |((span, fault), rules): ((crate::source::Span, &'static str), Vec<&'static str>)| Finding {
        severity: Severity::Note,
        about: Some(About { model: model.name.clone(), subject: Subject::NotJudged(fault) }),
        labels: vec![Label { span, text: format!("because of this: {fault}") }],
        ..Finding::fault(FaultName::NOT_JUDGED, span, format!("{} not judged: {}", model.name, rules.join(", ")))
    };
    holes.into_iter().map(note).collect()
}

/// What can't be laid out although nothing that was written is at fault by itself: a row that finds no way on its
/// last, an outline that crosses itself when it is graded.
fn not_laid_out<'j>(model: &Model, sizes: usize, judged: impl Iterator<Item = &'j Judged>) -> Vec<Finding> {
    let mut holes: BTreeMap<(crate::source::Span, &'static str), Vec<Size>> = BTreeMap::new();
    for judged in judged {
        let Verdict::NotJudged(hole) = judged.judgement.verdict else { continue };
        if all().iter().any(|rule| rule.name() == hole.fault) {
            continue;
        }
        let lost = holes.entry((hole.span, hole.fault)).or_default();
        if !lost.contains(&judged.size) {
            lost.push(judged.size);
        }
    }
    let fault = |((span, fault), mut holds): ((crate::source::Span, &'static str), Vec<Size>)| {
        holds.sort_unstable();
        let message = format!("{}: this can't be laid out in {} of {sizes} sizes", model.name, holds.len());
        let worst = holds.first().copied();
        Finding {
            sizes: worst.map(|worst| Sizes { holds, of: sizes, worst }),
            ..Finding::fault(FaultName(fault), span, message)
                .help("one of its measures is too large or too small for the last")
        }
    };
    holes.into_iter().map(fault).collect()
}

/// How much a judgement weighs; `None` if it has nothing to say.
#[must_use]
pub fn severity_of(judgement: &Judgement) -> Option<Severity> {
    match judgement.verdict {
        Verdict::Refused => Some(Severity::Refused),
        ref tight if tight.is_tight() => Some(Severity::Tight),
        Verdict::Tight(_) | Verdict::Noted => Some(Severity::Note),
        Verdict::Passes | Verdict::NotJudged(_) => None,
    }
}

/// The size with the least margin; of equal ones the last's base size, else the first.
fn worst<'j>(of: &[&'j Judged], base: Option<Size>) -> Option<&'j Judged> {
    let least = of.iter().map(|judged| judged.judgement.margin).fold(f64::INFINITY, f64::min);
    let mut equal = of.iter().filter(|judged| judged.judgement.margin <= least + crate::measure::SLACK);
    let first = equal.clone().next();
    equal.find(|judged| Some(judged.size) == base).or(first).copied()
}

fn finding(model: &Model, severity: Severity, worst: &Judged, of: &[&Judged], sizes: usize) -> Finding {
    let rule = all()[worst.rule];
    let judgement = &worst.judgement;
    let words = rule.words(judgement);
    // What the message says is no note beside it.
    let notes = notes(judgement).into_iter().filter(|note| !words.message.contains(note.as_str())).collect();
    let mut finding = Finding {
        name: rule.name(),
        severity,
        about: Some(About { model: model.name.clone(), subject: judgement.subject.clone() }),
        message: words.message,
        labels: labels(judgement),
        help: words.help,
        notes,
        sizes: Some(Sizes { holds: of.iter().map(|judged| judged.size).collect(), of: sizes, worst: worst.size }),
        measured: None,
        roots: Vec::new(),
        ways_out: None,
    };
    if !judgement.unit.is_empty() {
        finding.measured = Some(Measured {
            sum: judgement.sum,
            limit: judgement.limit,
            margin: judgement.margin,
            unit: judgement.unit,
            terms: judgement.terms.clone(),
        });
    }
    if finding.labels.is_empty() {
        finding.labels.push(Label { span: model.span, text: String::new() });
    }
    finding
}

/// Every number that went into it, labelled where it is written: first what the rule names, then the terms, then
/// the limit, then the `like`s through which values were inherited.
fn labels(judgement: &Judgement) -> Vec<Label> {
    let mut labels: Vec<Label> = Vec::new();
    let mut add = |origin: &Origin, text: String| {
        let text = match origin.provenance {
            Provenance::BuiltIn => format!("{text}; built in, can be written here"),
            _ => text,
        };
        match labels.iter_mut().find(|label| label.span == origin.span) {
            Some(label) if label.text == text => {}
            Some(label) => label.text = format!("{}; {text}", label.text),
            None => labels.push(Label { span: origin.span, text }),
        }
    };
    // The choice that moves it comes first: that is where the model is edited.
    if let Some(lever) = judgement.levers.first() {
        let said = judgement.further.iter().find(|(origin, _)| origin.span == lever.origin.span);
        add(&lever.origin, said.map_or("asked for here".to_owned(), |(_, text)| text.to_string()));
    }
    for (origin, text) in &judgement.further {
        add(origin, text.to_string());
    }
    for term in &judgement.terms.terms {
        let times = times(term.coefficient);
        let value = number(term.spread.nominal, 1.0);
        let half = term.spread.half();
        let text = if half > 0.0 && term.spread.nominal == 0.0 {
            format!("{} +- {} mm", term.what, number(half, 1.0))
        } else if half > 0.0 {
            format!("{} {times}{value} +- {} mm", term.what, number(half, 1.0))
        } else {
            format!("{} {times}{value} mm", term.what)
        };
        add(&term.origin, text);
        if let Some(tolerance) = &term.tolerance {
            add(tolerance, format!("{} varies by {} mm", term.what, number(half, 1.0)));
        }
    }
    if let Some((origin, what)) = &judgement.limit_origin {
        add(origin, (*what).to_owned());
    }
    let inherited =
        judgement.further.iter().map(|(origin, _)| origin).chain(judgement.terms.terms.iter().map(|term| &term.origin));
    let mut likes: Vec<_> = inherited
        .filter_map(|origin| if let Provenance::Inherited(like) = origin.provenance { Some(like) } else { None })
        .collect();
    likes.sort_unstable();
    likes.dedup();
    for span in likes {
        if labels.iter().all(|label| label.span != span) {
            labels.push(Label { span, text: "inherited through this".to_owned() });
        }
    }
    labels
}

fn notes(judgement: &Judgement) -> Vec<String> {
    let mut notes = Vec::new();
    if judgement.terms.terms.len() > 1 {
        let nominal = judgement.terms.nominal();
        let spread = judgement.terms.spread();
        notes.push(format!(
            "{} = {} mm ({} to {})",
            derivation(&judgement.terms, judgement.margin),
            number(nominal, judgement.margin),
            number(spread.lo, 1.0),
            number(spread.hi, 1.0)
        ));
    }
    if let Verdict::Tight(share) = judgement.verdict {
        let pairs = pairs_failing(share);
        notes.push(format!("estimate: {} of boots and {} of pairs fail", percent(share), percent(pairs)));
    }
    notes.extend(judgement.place.iter().map(ToString::to_string));
    notes.extend(judgement.facts.iter().map(ToString::to_string));
    notes
}

fn percent(share: f64) -> String {
    if share < 0.001 { "less than 0.1 %".to_owned() } else { format!("{:.1} %", share * 100.0) }
}
