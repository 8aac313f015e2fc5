//! `hobnail rules`: every name that a finding can have, with a line that says what it is.

use super::output::{Output, Stream};
use super::{Stop, Verdict};
use crate::finding::FAULTS;
use std::io::{self, Write};

pub(super) fn run(output: &Output) -> Result<Verdict, Stop> {
    let faults: Vec<(&str, &str)> = FAULTS.iter().map(|(name, says)| (name.0, *says)).collect();
    output.write(Stream::Out, |out, _| list(out, "Faults: the text can't be understood as written", &faults))?;
    Ok(Verdict::Passed)
}

fn list(out: &mut dyn Write, heading: &str, lines: &[(&str, &str)]) -> io::Result<()> {
    let width = lines.iter().map(|(name, _)| name.len()).max().unwrap_or(0);
    writeln!(out, "{heading}\n")?;
    for (name, says) in lines {
        writeln!(out, "  {name:width$}  {says}")?;
    }
    Ok(())
}
