//! Sentences that more than one renderer uses.

use super::run::Run;
use super::sizes::compact;
use crate::finding::{Finding, Severity, Sizes};

/// `1 model`, `3 models`
pub(super) fn count(number: usize, what: &str) -> String {
    format!("{number} {what}{}", if number == 1 { "" } else { "s" })
}

/// `holds in 40 of 60 sizes, worst in 9 D: 8 to 10 C D E`
pub(super) fn sizes(sizes: &Sizes, finding: &Finding, run: &Run<'_>) -> String {
    let held = sizes.holds.len();
    if sizes.of == 1 && held == 1 {
        return format!("judged in {}", sizes.worst);
    }
    if held == sizes.of {
        return format!("in all {held} sizes, worst in {}", sizes.worst);
    }
    let which = compact(&sizes.holds, &run.run_around(finding));
    if held == 1 {
        return format!("in 1 of {} sizes: {which}", sizes.of);
    }
    format!("in {held} of {} sizes, worst in {}: {which}", sizes.of, sizes.worst)
}

/// What a finding is about, with the worst size: `scree-8, sole row 1; 9 D`.
pub(super) fn about(finding: &Finding) -> String {
    let worst = finding.sizes.as_ref().map(|sizes| sizes.worst.to_string());
    let subject = finding.about.as_ref().map(ToString::to_string);
    subject.into_iter().chain(worst).collect::<Vec<_>>().join("; ")
}

/// `3 models, 180 sizes: nothing refused`
pub(super) fn summary(run: &Run<'_>) -> String {
    let models = run.checked.models.len();
    let judged = match models {
        0 => "no models".to_owned(),
        _ => format!("{}, {}", count(models, "model"), count(run.sizes_judged(), "size")),
    };
    format!("{judged}: {}", verdict(run))
}

fn verdict(run: &Run<'_>) -> String {
    let counts = run.counts();
    let mut parts = Vec::new();
    if counts.faults > 0 {
        parts.push(count(counts.faults, Severity::Fault.name()));
    }
    match (counts.refused, counts.faults) {
        (0, 0) => parts.push("nothing refused".to_owned()),
        (0, _) => {}
        (refused, _) => parts.push(format!("{refused} refused")),
    }
    if counts.tight > 0 {
        parts.push(format!("{} tight", counts.tight));
    }
    if counts.notes > 0 {
        parts.push(count(counts.notes, Severity::Note.name()));
    }
    parts.join(", ")
}
