//! What can be said on the command line.

use super::size::Wanted;
use crate::report::Format;
use crate::sheets::{Lang, Station};
use clap::builder::styling::Styles;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Works out what a stitch-down boot becomes in every size and width, refuses what cannot be built, and prints
/// the sheets that the stations work from.
#[derive(Debug, Parser)]
#[command(
    name = "hobnail",
    version,
    styles = Styles::plain(),
    args_override_self = true,
    disable_help_subcommand = true,
    after_help = "Exit code: 0 if nothing is refused or at fault, 1 if something is, 2 if the command could not be run."
)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub command: Command,

    /// Whether to paint what is written; `auto` paints on a terminal, unless `NO_COLOR` is set
    #[arg(long, global = true, value_enum, value_name = "WHEN", default_value_t = Colour::Auto)]
    pub color: Colour,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Find everything wrong with the models in FILE, across all sizes and widths
    Check(CheckArgs),
    /// Print the sheets of the models in FILE that can be built
    Sheets(SheetsArgs),
    /// Show every figure that is computed of the models in FILE
    Figures(FiguresArgs),
    /// Start a shop: a folder with a shop, its stock, a last and a model
    New(NewArgs),
    /// List every rule and every fault by name
    Rules,
    /// Show the page of RULE; with FILE, how it comes to its verdict on the models in it, passing or not
    Explain(ExplainArgs),
}

/// What is judged, and how what is found is shown.
#[derive(Debug, Args)]
pub(super) struct Judged {
    /// Files with models; `-` is standard input
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,

    #[command(flatten)]
    pub how: How,
}

/// Which sizes are judged, and how what is found is shown.
#[derive(Debug, Args)]
pub(super) struct How {
    /// The path that standard input would have: its `use` lines are relative to it
    #[arg(long = "as", value_name = "PATH")]
    pub as_path: Option<PathBuf>,

    /// Only these sizes: `9`, `"9 D"`, `"9..11 D"`; may be given more than once
    #[arg(long = "size", value_name = "SIZE", value_parser = Wanted::parse)]
    pub sizes: Vec<Wanted>,

    /// What else makes the exit code 1
    #[arg(long, value_enum, value_name = "WHAT")]
    pub deny: Option<Deny>,

    /// How findings and figures are written
    #[arg(long, value_enum, value_name = "FORMAT", default_value_t = FormatName::Human)]
    pub format: FormatName,
}

#[derive(Debug, Args)]
pub(super) struct CheckArgs {
    #[command(flatten)]
    pub judged: Judged,
}

#[derive(Debug, Args)]
pub(super) struct FiguresArgs {
    #[command(flatten)]
    pub judged: Judged,
}

#[derive(Debug, Args)]
pub(super) struct SheetsArgs {
    #[command(flatten)]
    pub judged: Judged,

    /// The folder that sheets are written to
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,

    /// Only the sheets of this station; may be given more than once
    #[arg(long = "station", value_name = "STATION", value_parser = station())]
    pub stations: Vec<Station>,

    /// The paper, if not the shop's
    #[arg(long, value_enum, value_name = "PAPER")]
    pub paper: Option<Paper>,

    /// The language of the sheets
    #[arg(long, value_enum, value_name = "LANG", default_value_t = LangName::En)]
    pub lang: LangName,

    /// How many pairs this batch has: said at the foot of every page
    #[arg(long, value_name = "COUNT", value_parser = clap::value_parser!(u64).range(1..))]
    pub pairs: Option<u64>,

    /// Print what is refused too: every page then says that it is not released, and why
    #[arg(long)]
    pub force: bool,
}

/// Reads the name of a station.
fn station() -> impl TypedValueParser<Value = Station> {
    PossibleValuesParser::new(Station::ALL.iter().map(|station| station.name()))
        .map(|name| Station::ALL.iter().copied().find(|station| station.name() == name).unwrap_or(Station::Cutting))
}

#[derive(Debug, Args)]
pub(super) struct ExplainArgs {
    /// The name of a rule or of a fault, as `hobnail rules` lists them
    #[arg(value_name = "RULE")]
    pub rule: String,

    /// Files with models, on which the rule is worked out; in the last's base size, if no size is given
    #[arg(value_name = "FILE")]
    pub files: Vec<String>,

    #[command(flatten)]
    pub how: How,
}

#[derive(Debug, Args)]
pub(super) struct NewArgs {
    /// The folder to make
    #[arg(value_name = "NAME")]
    pub name: PathBuf,
}

/// When output is painted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Colour {
    Auto,
    Always,
    Never,
}

/// What can be denied.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Deny {
    /// Builds that pass at nominal only
    Tight,
}

/// The names of the formats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum FormatName {
    /// For people
    Human,
    /// One line each
    Short,
    /// One JSON document
    Json,
}

impl FormatName {
    pub fn format(self) -> Format {
        match self {
            FormatName::Human => Format::Human,
            FormatName::Short => Format::Short,
            FormatName::Json => Format::Json,
        }
    }
}

/// The papers that sheets are printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Paper {
    /// 210 by 297 mm
    A4,
    /// 8 1/2 by 11 in
    Letter,
}

/// The languages of sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum LangName {
    /// English
    En,
    /// Spanish
    Es,
}

impl LangName {
    pub fn lang(self) -> Lang {
        match self {
            LangName::En => Lang::En,
            LangName::Es => Lang::Es,
        }
    }
}
