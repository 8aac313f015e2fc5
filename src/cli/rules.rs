//! `hobnail rules`: every name that a finding can have, with a line that says what it is.

use super::output::{Output, Stream};
use super::{Stop, Verdict};
use crate::finding::FaultName;
use crate::rules;
use std::io::{self, Write};

pub(super) fn run(output: &Output) -> Result<Verdict, Stop> {
    let faults: Vec<(&str, String)> =
        FaultName::FAULTS.iter().map(|(name, says)| (name.0, (*says).to_owned())).collect();
    let rules: Vec<(&str, String)> = rules::all().iter().map(|rule| (rule.name(), rules::gist(*rule))).collect();
    output.write(Stream::Out, |out, _| {
        list(out, "Rules: what makes a build refused or tight", &rules)?;
        writeln!(out)?;
        list(out, "Faults: the text can't be understood as written", &faults)
    })?;
    Ok(Verdict::Passed)
}

fn list(out: &mut dyn Write, heading: &str, lines: &[(&str, String)]) -> io::Result<()> {
    let width = lines.iter().map(|(name, _)| name.len()).max().unwrap_or(0);
    writeln!(out, "{heading}\n")?;
    for (name, says) in lines {
        writeln!(out, "  {name:width$}  {says}")?;
    }
    Ok(())
}
