//! `hobnail figures`: everything that is computed, as a table, as lines or as JSON.

use super::args::FiguresArgs;
use super::judge::{Outcome, show_aside, verdict};
use super::output::{Output, Stream};
use super::{Stop, Verdict};
use crate::report;

pub(super) fn run(args: &FiguresArgs, output: &Output) -> Result<Verdict, Stop> {
    let outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    let run = outcome.report();
    let format = args.judged.how.format.format();
    let figured: Vec<_> = outcome.checked.models.iter().map(|model| outcome.checked.figured(model)).collect();
    output.write(Stream::Out, |out, look| report::figures(out, &run, &figured, format, look))?;
    show_aside(&run, &args.judged.how, output)?;
    Ok(verdict(&run, &args.judged.how))
}
