//! Builds to pages: places what was computed, derives nothing.
//!
//! `words` has every word that a sheet says; `station` knows what belongs to which bench, `stations` what stands there;
//! `page` is the page grammar; `drawing` draws to scale; `paper` turns pages into a PDF.

mod code;
mod drawing;
mod gather;
mod line_card;
mod page;
pub mod paper;
mod station;
mod stations;
mod traveller;
mod values;
mod words;

pub use code::CodeText;
pub use gather::{Gathering, gather, keep};
pub use line_card::{LineJob, line_card, machines, seams, shows};
pub use page::Printed;
pub use paper::{Error, Paper, Typefaces};
pub use station::Station;
pub use traveller::{TravellerJob, traveller};
pub use words::{CARDS, CAUTIONS, FIXED, Lang, STEP_WORDS, Word};

use crate::build::{Build, Datum, Figures};
use crate::spec::Shop;
use page::Sheets;
use paper::{Attachment, Document, Heading};

/// One size-width to be printed.
#[derive(Debug)]
pub struct Job<'a> {
    /// What was built.
    pub build: &'a Build<'a>,
    /// The shop.
    pub shop: &'a Shop,
    /// Its figures.
    pub figures: &'a Figures,
    /// Its fingerprint.
    pub fingerprint: &'a str,
    /// The figures as JSON, to be attached.
    pub attachment: Vec<u8>,
    /// The paper.
    pub paper: Paper,
    /// The language.
    pub lang: Lang,
    /// The units that lengths are said in.
    pub units: Units,
    /// How many pairs this batch has, if it is known.
    pub pairs: Option<u64>,
    /// What was found of this size that a bench must know.
    pub notices: &'a [Notice],
    /// The stations wanted; all that have work if empty.
    pub stations: &'a [Station],
}

/// The units that lengths are said in on the sheets; each figure keeps its own in the JSON.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Millimetres.
    #[default]
    Metric,
    /// Inches, irons, ounces.
    Trade,
    /// Millimetres, and the trade's unit behind them.
    Both,
}

/// What was found of a size that a bench must know: why it is not released, what to measure or sort first.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// The rule that found it.
    pub rule: &'static str,
    /// It cannot be built; else it is tight.
    pub refused: bool,
    /// What it is, in numbers: sum, limit, unit; none for yes or no.
    pub numbers: Option<(f64, f64, &'static str)>,
    /// Further facts of a tight one.
    pub facts: Vec<String>,
}

/// Pages, and every figure that stands on them as it was printed.
#[derive(Debug)]
pub struct Laid {
    /// The document, ready to be written.
    pub document: Document,
    /// The figures printed.
    pub printed: Vec<Printed>,
}

/// Lays one size-width out; `None` if no station asked for has work.
#[must_use]
pub fn lay(job: &Job<'_>) -> Option<Laid> {
    let wanted = |station: &&Station| job.stations.is_empty() || job.stations.contains(station);
    let mut sheets = Sheets::new(job);
    for station in Station::ALL.iter().filter(wanted).filter(|station| station.has_work(job.figures)) {
        stations::lay(*station, job, &mut sheets);
    }
    let (mut pages, printed) = sheets.finish();
    let first = pages.first_mut()?;
    let title = format!("{} {}", job.build.model.name, job.build.size);
    first.headings.insert(0, Heading::part(title.clone()));
    let document = Document {
        title,
        author: job.shop.name.clone(),
        subject: words::of(words::BUILD_SHEETS, job.lang).to_owned(),
        keywords: vec![job.build.model.name.clone(), job.build.size.to_string(), job.fingerprint.to_owned()],
        creator: format!("hobnail {}", env!("CARGO_PKG_VERSION")),
        language: job.lang.tag().to_owned(),
        pages,
        drawings: Vec::new(),
        attachments: vec![Attachment {
            name: "figures.json".to_owned(),
            mime: "application/json".to_owned(),
            about: words::of(words::FIGURES_ATTACHED, job.lang).to_owned(),
            bytes: job.attachment.clone(),
        }],
    };
    Some(Laid { document, printed })
}

/// The typefaces of a run: every character that its sheets can show.
///
/// # Errors
/// A typeface that cannot be cut.
pub fn typefaces<'a>(shop: &str, figures: impl Iterator<Item = &'a Figures>) -> Result<Typefaces, Error> {
    let mut characters: std::collections::BTreeSet<char> = (' '..='~').chain("·½¼¾⅛⅜⅝⅞±×°²³–→□".chars()).collect();
    characters.extend(shop.chars());
    for figures in figures {
        for figure in figures.iter() {
            match &figure.datum {
                Datum::Text(text) => characters.extend(text.chars()),
                Datum::Texts(texts) => characters.extend(texts.iter().flat_map(|text| text.chars())),
                _ => {}
            }
        }
    }
    Typefaces::for_text(characters)
}
