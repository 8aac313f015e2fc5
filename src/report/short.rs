//! One line for each finding, one line for each figure.

use super::number::datum;
use super::places::clean;
use super::run::Run;
use super::ways;
use super::words::about;
use crate::check::Figured;
use crate::finding::Finding;
use std::io::{self, Write};

/// `path:line:column: severity name: message [subject; worst size]`
pub(super) fn findings(out: &mut dyn Write, run: &Run<'_>) -> io::Result<()> {
    for finding in run.findings() {
        writeln!(out, "{}", clean(&line(finding, run)))?;
        ways::short(out, finding, run)?;
    }
    Ok(())
}

fn line(finding: &Finding, run: &Run<'_>) -> String {
    let place = finding.span().map(|span| {
        let place = run.places.of(span);
        format!("{}:{}:{}: ", place.path, place.line, place.column)
    });
    let about = about(finding);
    let about = if about.is_empty() { about } else { format!(" [{about}]") };
    let place = place.unwrap_or_default();
    format!("{place}{} {}: {}{about}", finding.severity.name(), finding.name, finding.message)
}

/// `model, size: key = value`
pub(super) fn figures(out: &mut dyn Write, run: &Run<'_>, figured: &[Vec<Figured>]) -> io::Result<()> {
    for (model, sizes) in run.checked.models.iter().zip(figured) {
        for size in sizes {
            for figure in size.figures.iter() {
                let said = datum(&figure.datum, figure.unit.name());
                let line = format!("{}, {}: {} = {said}", model.name, size.checked.size, figure.key);
                writeln!(out, "{}", clean(&line))?;
            }
        }
    }
    Ok(())
}
