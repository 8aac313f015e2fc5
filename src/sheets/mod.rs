//! Builds to pages: places what was computed, derives nothing.
//!
//! `words` has every word that a sheet says; `station` knows what belongs to which bench, `stations` what stands there;
//! `page` is the page grammar; `drawings` draw to scale, `templates` at true size; `paper` turns pages into a PDF.

mod code;
mod drawings;
mod gather;
mod line_card;
mod page;
pub mod paper;
mod reach_page;
mod station;
mod stations;
mod templates;
mod traveller;
mod unprintable;
mod values;
mod words;

pub use code::CodeText;
pub use gather::{Gathering, gather, keep};
pub use line_card::{LineJob, line_card, machines, seams, shows};
pub use page::Printed;
pub use paper::{Error, Paper, Typefaces};
pub use reach_page::{ReachJob, reach_page};
pub use station::Station;
pub use templates::{Foot, TemplateJob, svgs, templates};
pub use traveller::{TravellerJob, traveller};
pub use unprintable::{unknown, unprintable};
pub use words::{CARDS, CAUTIONS, FIXED, Lang, STEP_WORDS, TEMPLATES, Word, has_rule, has_value, has_words};

use crate::build::{Build, Datum, Figures};
use crate::check::Notice;
use crate::spec::Shop;
use page::Sheets;
use paper::{Attachment, Document, Heading};
use std::collections::BTreeSet;
use values::Voice;

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

impl Job<'_> {
    fn voice(&self) -> Voice {
        Voice { lang: self.lang, units: self.units }
    }
}

/// The units that a shop's sheets print, the first one first; each figure keeps its own in the JSON. What has no unit of
/// the trade's stands in metric ones.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(missing_docs, reason = "they say themselves")]
pub enum Units {
    #[default]
    Metric,
    Trade,
    MetricTrade,
    TradeMetric,
}

impl Units {
    /// What the shop prints; both, if a fault took it.
    #[must_use]
    pub fn of(shop: &Shop) -> Units {
        let Ok(print) = &shop.print else { return Units::TradeMetric };
        match print.it.as_slice() {
            ["metric", "trade", ..] => Units::MetricTrade,
            ["metric", ..] => Units::Metric,
            ["trade", "metric", ..] => Units::TradeMetric,
            ["trade", ..] => Units::Trade,
            _ => Units::TradeMetric,
        }
    }
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
        pages,
        attachments: vec![figures_attached(job.lang, job.attachment.clone())],
        ..document(job.lang)
    };
    Some(Laid { document, printed })
}

/// A document of ours without pages.
fn document(lang: Lang) -> Document {
    let creator = format!("hobnail {}", env!("CARGO_PKG_VERSION"));
    Document { creator, language: lang.tag().to_owned(), ..Document::default() }
}

/// The figures that a document carries, as JSON.
fn figures_attached(lang: Lang, bytes: Vec<u8>) -> Attachment {
    Attachment {
        name: "figures.json".to_owned(),
        mime: "application/json".to_owned(),
        about: words::of(words::FIGURES_ATTACHED, lang).to_owned(),
        bytes,
    }
}

/// Every character that the sheets of a shop can show: their own words, and what the shop types.
fn characters<'a>(shop: &str, figures: impl Iterator<Item = &'a Figures>) -> BTreeSet<char> {
    let mut characters: BTreeSet<char> = (' '..='~').chain("·½¼¾⅛⅜⅝⅞±×°²³–→↔↕□…".chars()).collect();
    characters.extend(words::characters());
    characters.extend(shop.chars());
    for figure in figures.flat_map(Figures::iter) {
        match &figure.datum {
            Datum::Text(text) => characters.extend(text.chars()),
            Datum::Texts(texts) => characters.extend(texts.iter().flat_map(|text| text.chars())),
            _ => {}
        }
        characters.extend(figure.label.chars());
    }
    characters
}

/// The typefaces of a run: every character that its sheets can show.
///
/// # Errors
/// A typeface that cannot be cut, or that lacks a character.
pub fn typefaces<'a>(shop: &str, figures: impl Iterator<Item = &'a Figures>) -> Result<Typefaces, Error> {
    Typefaces::for_text(characters(shop, figures))
}

/// The characters of the sheets of a shop that a typeface of theirs lacks.
#[must_use]
pub fn lacking<'a>(shop: &str, figures: impl Iterator<Item = &'a Figures>) -> BTreeSet<char> {
    unknown(&characters(shop, figures).into_iter().collect::<String>())
}
