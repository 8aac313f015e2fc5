//! Arguments in, exit code out, nothing else.

use std::process::ExitCode;

fn main() -> ExitCode {
    hobnail::cli::run(std::env::args_os())
}
