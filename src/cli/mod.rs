//! The command line: one file a command. The only room with files, clock, environment and printing.
#![allow(clippy::disallowed_methods, clippy::disallowed_types, reason = "this room is where they belong")]

mod args;
mod cards;
mod check;
mod disk;
mod explain;
mod figures;
mod judge;
mod mend;
mod new;
mod output;
mod pages;
mod progress;
mod reach;
mod rewrite;
mod rules;
mod sheets;
mod size;
mod stop;
mod targets;
mod templates;
mod usage;
mod verify;

pub use disk::Disk;
pub use stop::Stop;

use args::{Arguments, Command};
use clap::Parser;
use output::Output;
use std::ffi::OsString;
use std::process::ExitCode;

/// How a run ended that was not stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing is refused or at fault.
    Passed,
    /// Something is.
    Failed,
}

/// Runs the command that `arguments` give, the name of the program first.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let ended = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => command(arguments),
        Err(unparsed) => usage::answer(&unparsed),
    };
    match ended {
        Ok(Verdict::Passed) => ExitCode::SUCCESS,
        Ok(Verdict::Failed) => ExitCode::from(1),
        Err(stop) => {
            output::complain(&stop);
            ExitCode::from(2)
        }
    }
}

fn command(arguments: Arguments) -> Result<Verdict, Stop> {
    let output = Output::new(arguments.color);
    match arguments.command {
        Command::Check(args) => check::run(&args, &output),
        Command::Mend(args) => mend::run(&args, &output),
        Command::Reach(args) => reach::run(&args, &output),
        Command::Sheets(args) => sheets::run(&args, &output),
        Command::Templates(args) => templates::run(&args, &output),
        Command::Traveller(args) => cards::travellers(&args, &output),
        Command::LineCard(args) => cards::line_cards(&args, &output),
        Command::Figures(args) => figures::run(&args, &output),
        Command::Explain(args) => explain::run(&args, &output),
        Command::Verify(args) => verify::run(args, &output),
        Command::New(args) => new::run(&args, &output),
        Command::Rules => rules::run(&output),
    }
}
