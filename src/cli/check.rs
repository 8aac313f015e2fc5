//! `hobnail check`: everything wrong with the models given. What is found is its result.

use super::args::CheckArgs;
use super::judge::{Outcome, verdict};
use super::output::{Output, Stream};
use super::{Stop, Verdict};
use crate::remedy::remedies;
use crate::report;

pub(super) fn run(args: &CheckArgs, output: &Output) -> Result<Verdict, Stop> {
    let mut outcome = Outcome::of(&args.judged.files, &args.judged.how)?;
    remedies(&outcome.loaded, &mut outcome.checked);
    let run = outcome.report().with_all_ways(args.all_ways);
    let format = args.judged.how.format.format();
    output.write(Stream::Out, |out, look| report::findings(out, &run, format, look))?;
    Ok(verdict(&run, &args.judged.how))
}
