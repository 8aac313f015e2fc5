//! Standard output and standard error: what they can show, and what happens when they close.

use super::Stop;
use super::args::Colour;
use crate::report::Look;
use std::io::{self, BufWriter, ErrorKind, IsTerminal, Write};

/// Columns where there is no terminal to ask.
const WIDTH: usize = 100;

/// The widest that lines become, however wide the terminal.
const WIDEST: usize = 120;

/// The narrowest terminal that lines are fitted to.
const NARROWEST: usize = 40;

/// One of the two streams.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stream {
    Out,
    Error,
}

/// Both streams, with what the user wants of colours.
#[derive(Debug)]
pub(super) struct Output {
    colour: Colour,
}

impl Output {
    pub fn new(colour: Colour) -> Self {
        Self { colour }
    }

    /// Has `body` write to a stream. A reader that went away ends it quietly.
    pub fn write(&self, stream: Stream, body: impl FnOnce(&mut dyn Write, Look) -> io::Result<()>) -> Result<(), Stop> {
        let written = match stream {
            Stream::Out => to(io::stdout().lock(), self.look(stream), body),
            Stream::Error => to(io::stderr().lock(), self.look(stream), body),
        };
        match written {
            Err(why) if why.kind() != ErrorKind::BrokenPipe => Err(Stop::unwritten(stream.name(), &why)),
            _ => Ok(()),
        }
    }

    fn look(&self, stream: Stream) -> Look {
        let terminal = match stream {
            Stream::Out => io::stdout().is_terminal(),
            Stream::Error => io::stderr().is_terminal(),
        };
        let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        let colour = paints(self.colour, terminal, set("NO_COLOR") || dumb);
        Look { colour, width: if terminal { columns() } else { WIDTH } }
    }
}

impl Stream {
    fn name(self) -> &'static str {
        match self {
            Stream::Out => "standard output",
            Stream::Error => "standard error",
        }
    }
}

fn to(stream: impl Write, look: Look, body: impl FnOnce(&mut dyn Write, Look) -> io::Result<()>) -> io::Result<()> {
    let mut out = BufWriter::new(stream);
    body(&mut out, look)?;
    out.flush()
}

/// Whether output is painted: as it is told; left to itself, on a terminal that nobody wants plain.
fn paints(colour: Colour, terminal: bool, plain: bool) -> bool {
    match colour {
        Colour::Always => true,
        Colour::Never => false,
        Colour::Auto => terminal && !plain,
    }
}

/// Whether a variable is set to anything but nothing.
fn set(name: &str) -> bool {
    std::env::var_os(name).is_some_and(|value| !value.is_empty())
}

fn columns() -> usize {
    let columns = terminal_size::terminal_size().map(|(width, _)| usize::from(width.0));
    columns.unwrap_or(WIDTH).clamp(NARROWEST, WIDEST)
}

/// Prints a text as it is on standard output.
pub(super) fn print(text: &str) -> Result<(), Stop> {
    Output::new(Colour::Never).write(Stream::Out, |out, _| out.write_all(text.as_bytes()))
}

/// Says why a command could not be run. Where even that can't be written, the exit code says it alone.
pub(super) fn complain(stop: &Stop) {
    let said = Output::new(Colour::Never).write(Stream::Error, |out, _| writeln!(out, "hobnail: {stop}"));
    drop(said);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_said_outweighs_what_is_set() {
        assert!(paints(Colour::Auto, true, false));
        assert!(!paints(Colour::Auto, true, true));
        assert!(!paints(Colour::Auto, false, false));
        assert!(paints(Colour::Always, false, true));
        assert!(!paints(Colour::Never, true, false));
    }
}
