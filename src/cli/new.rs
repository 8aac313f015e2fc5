//! `hobnail new`: a folder with a small shop to start from.

use super::args::NewArgs;
use super::output::{Output, Stream};
use super::{Stop, Verdict};
use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

/// The files of a new shop.
const FILES: &[(&str, &str)] = &[
    ("shop.hob", include_str!("new/shop.hob")),
    ("stock.hob", include_str!("new/stock.hob")),
    ("lasts/plain.hob", include_str!("new/lasts/plain.hob")),
    ("models/first.hob", include_str!("new/models/first.hob")),
];

pub(super) fn run(args: &NewArgs, output: &Output) -> Result<Verdict, Stop> {
    let folder = &args.name;
    let shown = folder.display();
    fs::create_dir(folder).map_err(|why| match why.kind() {
        ErrorKind::AlreadyExists => Stop::Usage(format!("{shown} is there already; give a name that is free")),
        _ => Stop::unwritten(shown.to_string(), &why),
    })?;
    for (path, text) in FILES {
        let path = folder.join(path);
        file(&path, text).map_err(|why| Stop::unwritten(path.display().to_string(), &why))?;
    }
    output.write(Stream::Out, |out, _| {
        for (path, _) in FILES {
            writeln!(out, "{}", folder.join(path).display())?;
        }
        writeln!(out, "\nnext: hobnail check {}", folder.join("models/first.hob").display())
    })?;
    Ok(Verdict::Passed)
}

fn file(path: &Path, text: &str) -> io::Result<()> {
    path.parent().map_or(Ok(()), fs::create_dir_all)?;
    fs::write(path, text)
}
