//! The document of derivations: what one rule says of each model in each size, passing or not.

use super::origin::{OriginDoc, TermDoc, terms};
use crate::check::Derived;
use crate::report::places::Places;
use crate::report::run::Run;
use crate::rules::{Rule, Verdict, section};
#[cfg(test)]
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;
use std::io::{self, Write};

/// What one rule says.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields, title = "hobnail/explain/1"))]
struct ExplainDoc<'d> {
    /// The version of this shape: `hobnail/explain/1`.
    version: &'static str,
    /// The rule.
    rule: &'static str,
    /// Its formula, in words.
    formula: String,
    /// One for each model, size and subject.
    judgements: Vec<JudgementDoc<'d>>,
}

/// One judgement.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct JudgementDoc<'d> {
    /// The model.
    model: &'d str,
    /// The size system.
    system: &'static str,
    /// The size: `9.5 EE`
    size: String,
    /// What was judged.
    subject: String,
    /// The verdict.
    verdict: VerdictDoc,
    /// The estimated share of boots that fail, where only an end of the tolerance does.
    #[serde(skip_serializing_if = "Option::is_none")]
    share_of_boots: Option<f64>,
    /// The fault or rule because of which it was not judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    because: Option<&'static str>,
    /// The terms of the sum.
    terms: Vec<TermDoc<'d>>,
    /// What was judged.
    sum: f64,
    /// What it was held against.
    limit: f64,
    /// Where the limit was written.
    #[serde(skip_serializing_if = "Option::is_none")]
    limit_at: Option<OriginDoc<'d>>,
    /// How much is left; negative is missing.
    margin: f64,
    /// The unit of the three and of the terms; empty for yes or no.
    unit: &'static str,
    /// Where on the boot.
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<String>,
    /// What else is worth knowing.
    facts: Vec<String>,
}

/// The verdicts.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum VerdictDoc {
    /// It passes with every thickness in tolerance.
    Passes,
    /// It passes, and is worth a word.
    Note,
    /// Nominal passes, an end of the tolerance does not.
    Tight,
    /// It can't be built.
    Refused,
    /// A fault or another refusal took what it needs.
    NotJudged,
}

#[cfg(test)]
pub(super) fn schema() -> Schema {
    schema_for!(ExplainDoc<'static>)
}

/// Writes the document.
pub(in crate::report) fn write(
    out: &mut dyn Write,
    run: &Run<'_>,
    rule: &dyn Rule,
    derived: &[Derived<'_>],
) -> io::Result<()> {
    let judgements = derived.iter().map(|one| judgement(one, &run.places)).collect();
    let formula = section(rule, "Formula");
    super::document(out, &ExplainDoc { version: super::EXPLAIN_SCHEMA, rule: rule.name(), formula, judgements })
}

fn judgement<'d>(one: &'d Derived<'d>, places: &Places<'d>) -> JudgementDoc<'d> {
    let judgement = &one.judgement;
    JudgementDoc {
        model: &one.model.name,
        system: one.size.system.name(),
        size: one.size.to_string(),
        subject: judgement.subject.to_string(),
        verdict: match judgement.verdict {
            Verdict::Passes => VerdictDoc::Passes,
            ref tight if tight.is_tight() => VerdictDoc::Tight,
            Verdict::Tight(_) | Verdict::Noted => VerdictDoc::Note,
            Verdict::Refused => VerdictDoc::Refused,
            Verdict::NotJudged(_) => VerdictDoc::NotJudged,
        },
        share_of_boots: if let Verdict::Tight(share) = judgement.verdict { Some(share) } else { None },
        because: if let Verdict::NotJudged(hole) = judgement.verdict { Some(hole.fault) } else { None },
        terms: terms(&judgement.terms, places),
        sum: judgement.sum,
        limit: judgement.limit,
        limit_at: judgement.limit_origin.as_ref().map(|(origin, _)| OriginDoc::of(origin, places)),
        margin: judgement.margin,
        unit: judgement.unit,
        place: judgement.place.as_ref().map(ToString::to_string),
        facts: judgement.facts.iter().map(ToString::to_string).collect(),
    }
}
