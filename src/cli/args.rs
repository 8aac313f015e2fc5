//! What can be said on the command line.

use super::pages::Pages;
use super::size::Wanted;
use crate::report::Format;
use crate::sheets::{Lang, Station};
use clap::builder::styling::Styles;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::num::NonZeroUsize;
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
    /// Write a way out of what is refused or tight into the files, and check again
    Mend(MendArgs),
    /// Show how far the models in FILE can go with what the shop has: outsoles, nails, lifts
    Reach(ReachArgs),
    /// Print the sheets of the models in FILE that can be built
    Sheets(SheetsArgs),
    /// Print the true-size templates of the models in FILE: bottom, insole, heel, gauge strips
    Templates(TemplatesArgs),
    /// Print the cards that go with the pairs, or with a batch, from bench to bench
    Traveller(TravellerArgs),
    /// Print the cards of the machines: what each is set to, in all sizes of the models in FILE
    LineCard(LineCardArgs),
    /// Show every figure that is computed of the models in FILE
    Figures(FiguresArgs),
    /// Say whether sheets, or their fingerprints, are those of the models in FILE, and what differs
    Verify(VerifyArgs),
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

    /// Show every way out that was found, not only the first three
    #[arg(long)]
    pub all_ways: bool,
}

#[derive(Debug, Args)]
pub(super) struct MendArgs {
    /// Files with models; `-` is standard input, whose mended text is printed
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,

    /// The finding to mend, by its key, as `check --format json` and `short` say it; the first that has a way out, if none
    /// is named
    #[arg(long, value_name = "KEY")]
    pub finding: Option<String>,

    /// Which of its ways out, in the order in which `check --all-ways` shows them
    #[arg(long, value_name = "K", default_value = "1")]
    pub remedy: NonZeroUsize,

    /// Print what would change, as a unified diff, and write nothing
    #[arg(long)]
    pub dry_run: bool,

    /// The path that standard input would have: its `use` lines are relative to it
    #[arg(long = "as", value_name = "PATH")]
    pub as_path: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct ReachArgs {
    /// Files with models; `-` is standard input
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,

    /// Only this model
    #[arg(long, value_name = "NAME")]
    pub model: Option<String>,

    /// A PDF to draw it into as well
    #[arg(long, value_name = "PDF")]
    pub out: Option<PathBuf>,

    /// The paper of the PDF, if not the shop's
    #[arg(long, value_enum, value_name = "PAPER")]
    pub paper: Option<Paper>,

    /// The language of the PDF
    #[arg(long, value_enum, value_name = "LANG", default_value_t = LangName::En)]
    pub lang: LangName,

    /// Write over a file that was not printed of these models, too
    #[arg(long)]
    pub replace: bool,

    /// The path that standard input would have: its `use` lines are relative to it
    #[arg(long = "as", value_name = "PATH")]
    pub as_path: Option<PathBuf>,

    /// How it is written
    #[arg(long, value_enum, value_name = "FORMAT", default_value_t = FormatName::Human)]
    pub format: FormatName,
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

    /// What makes a file: a size, a station over all sizes, or a model with everything
    #[arg(long, value_enum, value_name = "WHAT", default_value_t = By::Size)]
    pub by: By,

    /// Only these pages of each file: `7`, `1-3,7` or `5-`
    #[arg(long, value_name = "PAGES", value_parser = Pages::parse)]
    pub pages: Option<Pages>,

    /// How many pairs this batch has: said at the foot of every page
    #[arg(long, value_name = "COUNT", value_parser = clap::value_parser!(u64).range(1..))]
    pub pairs: Option<u64>,

    /// Print what is refused too: every page then says that it is not released, and why
    #[arg(long)]
    pub force: bool,

    /// Write over files that were not printed of these models, too
    #[arg(long)]
    pub replace: bool,
}

/// What makes a file of sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum By {
    /// One file a size, all its stations in it
    Size,
    /// One file a station, all sizes in it
    Station,
    /// One file a model
    One,
}

/// Where cards go, and on what.
#[derive(Debug, Args)]
pub(super) struct On {
    /// The folder that cards are written to
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,

    /// The paper, if not the shop's
    #[arg(long, value_enum, value_name = "PAPER")]
    pub paper: Option<Paper>,

    /// The language of the cards
    #[arg(long, value_enum, value_name = "LANG", default_value_t = LangName::En)]
    pub lang: LangName,

    /// Write over files that were not printed of these models, too
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub(super) struct TemplatesArgs {
    #[command(flatten)]
    pub judged: Judged,

    /// The folder that templates are written to
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,

    /// The paper: what a sheet does not hold is tiled
    #[arg(long, value_enum, value_name = "PAPER", default_value_t = TemplatePaper::A3)]
    pub paper: TemplatePaper,

    /// What is written: pages, or drawings in mm
    #[arg(long, value_enum, value_name = "KIND", default_value_t = Drawn::Pdf)]
    pub kind: Drawn,

    /// Which foot
    #[arg(long, value_enum, value_name = "FOOT", default_value_t = FootName::Both)]
    pub foot: FootName,

    /// The language of the templates
    #[arg(long, value_enum, value_name = "LANG", default_value_t = LangName::En)]
    pub lang: LangName,

    /// Print what is refused too: every page then says that it is not released
    #[arg(long)]
    pub force: bool,

    /// Write over files that were not printed of these models, too
    #[arg(long)]
    pub replace: bool,
}

/// The papers that templates are printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum TemplatePaper {
    /// 297 by 420 mm
    A3,
    /// 11 by 17 in
    Tabloid,
    /// 210 by 297 mm, tiled
    A4,
    /// 8 1/2 by 11 in, tiled
    Letter,
}

/// What templates are written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Drawn {
    /// Pages, one file a size and foot
    Pdf,
    /// Drawings in mm, one file a template
    Svg,
}

/// Which foot templates are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum FootName {
    /// The left
    Left,
    /// The right
    Right,
    /// Left and right
    Both,
}

#[derive(Debug, Args)]
pub(super) struct TravellerArgs {
    #[command(flatten)]
    pub judged: Judged,

    #[command(flatten)]
    pub on: On,

    /// How many pairs of each size: a card for each
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=999))]
    pub pairs: u32,

    /// The name of a batch: one card of each size goes with all of its pairs
    #[arg(long, value_name = "NAME", value_parser = batch)]
    pub batch: Option<String>,
}

/// The name of a batch is for paper: one line that a card holds.
fn batch(text: &str) -> Result<String, String> {
    let text = text.trim();
    match text.chars().count() {
        0 => Err("a batch needs a name".to_owned()),
        1..=40 if !text.chars().any(char::is_control) => Ok(text.to_owned()),
        1..=40 => Err("the name of a batch stands on one line".to_owned()),
        _ => Err("the name of a batch has up to 40 letters".to_owned()),
    }
}

#[derive(Debug, Args)]
pub(super) struct LineCardArgs {
    #[command(flatten)]
    pub judged: Judged,

    #[command(flatten)]
    pub on: On,

    /// Only the card of this machine; may be given more than once
    #[arg(long = "machine", value_name = "NAME")]
    pub machines: Vec<String>,
}

#[derive(Debug, Args)]
pub(super) struct VerifyArgs {
    /// Sheets that were printed (PDF), and the files with their models; `-` is standard input, with models
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,

    /// A fingerprint, or all that the code of a sheet says; may be given more than once
    #[arg(long = "fingerprint", value_name = "FINGERPRINT")]
    pub fingerprints: Vec<String>,

    /// The path that standard input would have: its `use` lines are relative to it
    #[arg(long = "as", value_name = "PATH")]
    pub as_path: Option<PathBuf>,

    /// How what was found is written
    #[arg(long, value_enum, value_name = "FORMAT", default_value_t = FormatName::Human)]
    pub format: FormatName,
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
