//! The value that everything reports with. Rendering is elsewhere.

mod faults;
mod piece;
mod remedy;
mod subject;
mod sum;

pub use faults::FaultName;
pub use piece::{LayerPiece, Lifted, Material, PartPlace, Piece, Role, Variation};
pub use remedy::{Change, Kind, Reaches, Remedy, WaysOut};
pub use subject::{BesideHole, ClinchLine, Enters, Held, LapName, PartOfLap, RestAt, SeamName, SkiverFigure, Subject};
pub use sum::{Sum, Term};

use crate::measure::Size;
use crate::source::{Sources, Span};
use std::fmt;

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// The text cannot be understood as written.
    Fault,
    /// The build cannot be made.
    Refused,
    /// The nominal passes, an end of the tolerance does not.
    Tight,
    /// Worth knowing.
    Note,
}

impl Severity {
    /// As printed and in JSON.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Severity::Fault => "fault",
            Severity::Refused => "refused",
            Severity::Tight => "tight",
            Severity::Note => "note",
        }
    }
}

/// A place in a text with what is to be said there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What; may be empty for the primary place.
    pub text: String,
}

/// What a judged sum was held against, in the unit `unit`.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// What was judged (the worst size's), if it is a number.
    pub sum: f64,
    /// The limit.
    pub limit: f64,
    /// How much is left; negative is missing.
    pub margin: f64,
    /// `mm`, `Nm`, `tex`, `spi`, …
    pub unit: &'static str,
    /// The terms of the sum, empty where a single value was compared.
    pub terms: Sum,
}

/// The sizes that a finding holds for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sizes {
    /// The sizes, in the order of the run.
    pub holds: Vec<Size>,
    /// How many sizes were judged.
    pub of: usize,
    /// The size whose figures are shown.
    pub worst: Size,
}

/// What of which model a finding is about: `scree-8, sole row 1`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct About {
    /// The model.
    pub model: String,
    /// What of it.
    pub subject: Subject,
}

impl fmt::Display for About {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.model, self.subject)
    }
}

/// One thing found: the single value that all renderers show.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Plain name, `jaw/sole-stack`; never reused.
    pub name: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// What it is about; none for faults.
    pub about: Option<About>,
    /// What is wrong, with the numbers; lower-case start, no full stop.
    pub message: String,
    /// Where; the first is the primary place.
    pub labels: Vec<Label>,
    /// How to mend it.
    pub help: Vec<String>,
    /// Facts beside the message: the sum worked, the share, the place on the boot.
    pub notes: Vec<String>,
    /// The sizes that it holds for; `None` for what does not depend on size.
    pub sizes: Option<Sizes>,
    /// The numbers.
    pub measured: Option<Measured>,
    /// The files given that it concerns, where it stands in a file that several use.
    pub roots: Vec<String>,
    /// Ways out, if they were looked for.
    pub ways_out: Option<WaysOut>,
}

impl Finding {
    /// A fault at a place.
    #[must_use]
    pub fn fault(name: FaultName, span: Span, message: impl Into<String>) -> Self {
        Self {
            name: name.0,
            severity: Severity::Fault,
            about: None,
            message: message.into(),
            labels: vec![Label { span, text: String::new() }],
            help: Vec::new(),
            notes: Vec::new(),
            sizes: None,
            measured: None,
            roots: Vec::new(),
            ways_out: None,
        }
    }

    /// With a way to mend it.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help.push(help.into());
        self
    }

    /// With words at the primary place.
    #[must_use]
    pub fn says(mut self, text: impl Into<String>) -> Self {
        if let Some(first) = self.labels.first_mut() {
            first.text = text.into();
        }
        self
    }

    /// With a further place.
    #[must_use]
    pub fn also(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label { span, text: text.into() });
        self
    }

    /// The primary place.
    #[must_use]
    pub fn span(&self) -> Option<Span> {
        self.labels.first().map(|label| label.span)
    }

    /// What it is about in words: `scree-8, sole row 1`; empty for faults.
    #[must_use]
    pub fn subject(&self) -> String {
        self.about.as_ref().map(ToString::to_string).unwrap_or_default()
    }

    /// What tells the finding from others and stays when something else is edited: name and subject,
    /// for faults name and the text that they stand on.
    #[must_use]
    pub fn key(&self, sources: &Sources) -> String {
        if self.severity == Severity::Fault {
            let Some(span) = self.span() else { return self.name.to_owned() };
            let shown = &sources.get(span.source).shown;
            return format!("{}@{shown}:{}", self.name, sources.slice(span).trim());
        }
        format!("{}@{}", self.name, self.subject())
    }
}
