//! `hobnail rules`: every name that a finding can have, with a line that says what it is.

use super::output::{Output, Stream};
use super::{Stop, Verdict};
use crate::finding::FaultName;
use crate::rules::{all, gist};
use std::io::{self, Write};

/// A name with what it is.
type Line = (&'static str, String);

pub(super) fn run(output: &Output) -> Result<Verdict, Stop> {
    let rules: Vec<Line> = all().iter().map(|rule| (rule.name(), gist(*rule))).collect();
    let faults: Vec<Line> = FaultName::FAULTS.iter().map(|(name, says)| (name.0, (*says).to_owned())).collect();
    output.write(Stream::Out, |out, look| {
        list(out, "Rules: what makes a build refused or tight", &rules, look.width)?;
        writeln!(out)?;
        list(out, "Faults: the text can't be understood as written", &faults, look.width)
    })?;
    Ok(Verdict::Passed)
}

fn list(out: &mut dyn Write, heading: &str, lines: &[Line], width: usize) -> io::Result<()> {
    let names = lines.iter().map(|(name, _)| name.len()).max().unwrap_or(0);
    let indent = " ".repeat(names + 4);
    let options = textwrap::Options::new(width).initial_indent(&indent).subsequent_indent(&indent);
    writeln!(out, "{heading}\n")?;
    for (name, says) in lines {
        let said = textwrap::fill(says, &options);
        writeln!(out, "  {name:names$}  {}", said.trim_start())?;
    }
    Ok(())
}
