//! Words for a command line that means nothing. Help and version, too, come through here.

use super::output::print;
use super::{Stop, Verdict};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use std::error::Error as _;

/// What the parser of arguments has to say.
pub(super) fn answer(unparsed: &clap::Error) -> Result<Verdict, Stop> {
    match unparsed.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => {
            print(&format!("{}\n", unparsed.to_string().trim_end()))?;
            Ok(Verdict::Passed)
        }
        _ => Err(Stop::Usage(words(unparsed))),
    }
}

fn words(error: &clap::Error) -> String {
    let argument = one(error, ContextKind::InvalidArg).unwrap_or_default();
    let value = one(error, ContextKind::InvalidValue).unwrap_or_default();
    match error.kind() {
        ErrorKind::InvalidSubcommand => {
            let command = one(error, ContextKind::InvalidSubcommand).unwrap_or_default();
            format!("there is no command `{command}`{}", near(error, ContextKind::SuggestedSubcommand))
        }
        ErrorKind::UnknownArgument => {
            let kind = if argument.starts_with('-') { "option" } else { "place for" };
            format!("there is no {kind} `{argument}` here{}", near(error, ContextKind::SuggestedArg))
        }
        ErrorKind::InvalidValue if value.is_empty() => {
            format!("`{}` needs a value{}", flag(&argument), choices(error))
        }
        ErrorKind::InvalidValue => format!("`{}` can't be `{value}`{}", flag(&argument), choices(error)),
        ErrorKind::ValueValidation => {
            let why = error.source().map(ToString::to_string).unwrap_or_default();
            format!("`{}`: {why}", flag(&argument))
        }
        ErrorKind::MissingRequiredArgument => missing(error),
        ErrorKind::MissingSubcommand | ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => {
            "which command? `hobnail --help` lists them".to_owned()
        }
        ErrorKind::InvalidUtf8 => "an argument is not in UTF-8".to_owned(),
        _ => fallback(error),
    }
}

/// `FILE` and `--out DIR` are missing
fn missing(error: &clap::Error) -> String {
    let bare = |argument: String| format!("`{}`", argument.replace(['<', '>'], "").trim_end_matches("..."));
    let names: Vec<String> = all(error, ContextKind::InvalidArg).into_iter().map(bare).collect();
    format!("{} {} missing", names.join(" and "), if names.len() == 1 { "is" } else { "are" })
}

fn fallback(error: &clap::Error) -> String {
    let text = error.to_string();
    let line = text.lines().next().unwrap_or_default();
    line.strip_prefix("error: ").unwrap_or(line).to_owned()
}

/// `--format <FORMAT>` without what follows.
fn flag(argument: &str) -> &str {
    argument.split(' ').next().unwrap_or_default()
}

fn all(error: &clap::Error, kind: ContextKind) -> Vec<String> {
    match error.get(kind) {
        Some(ContextValue::String(text)) => vec![text.clone()],
        Some(ContextValue::Strings(texts)) => texts.clone(),
        _ => Vec::new(),
    }
}

fn one(error: &clap::Error, kind: ContextKind) -> Option<String> {
    all(error, kind).into_iter().next()
}

fn near(error: &clap::Error, kind: ContextKind) -> String {
    one(error, kind).map(|near| format!("; did you mean `{near}`?")).unwrap_or_default()
}

fn choices(error: &clap::Error) -> String {
    let names = all(error, ContextKind::ValidValue);
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    match names.as_slice() {
        [] => String::new(),
        [only] => format!("; it can be {only}"),
        [first @ .., last] => format!("; it can be {} or {last}", first.join(", ")),
    }
}
