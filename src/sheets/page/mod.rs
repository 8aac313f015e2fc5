//! The page grammar: one head, big numbers, tables, rows, drawings, cautions and one foot, the same at every station.
//!
//! Blocks flow down the page; what does not fit goes on to a further page under the same head. One file a block.

mod cautions;
mod head;
mod keys;
mod rows;
mod steps;
mod table;

use super::Job;
use super::paper::{Heading, Op, Page, PageSize, Pen, Point, Style, Text};
use super::station::Station;
use super::words::{self, Word};
use crate::build::Figure;

const MARGIN: f64 = 12.0;
const RULE: Pen = Pen::black(0.8);
const HAIR: Pen = Pen::black(0.15);
/// Points of body text and of the big numbers.
const BODY: f64 = 10.0;
const BIG: f64 = 22.0;
const LINE: f64 = 5.2;

/// A figure as it was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The figure's key.
    pub key: String,
    /// What stands on the sheet.
    pub text: String,
}

/// A row of a label and a value.
pub(super) struct Row {
    pub label: String,
    pub value: String,
}

/// A table: widths in parts of the whole, heads, cells.
pub(super) struct Table {
    pub widths: Vec<f64>,
    pub heads: Vec<&'static str>,
    pub rows: Vec<Vec<String>>,
}

/// All sheets of one size-width under way.
pub(super) struct Sheets<'j> {
    job: &'j Job<'j>,
    size: PageSize,
    pages: Vec<Page>,
    printed: Vec<Printed>,
    station: Option<Station>,
    y: f64,
}

impl<'j> Sheets<'j> {
    pub fn new(job: &'j Job<'j>) -> Self {
        let size = PageSize::portrait(job.paper);
        Self { job, size, pages: Vec::new(), printed: Vec::new(), station: None, y: 0.0 }
    }

    pub fn width(&self) -> f64 {
        self.size.width() - 2.0 * MARGIN
    }

    pub(super) fn bottom(&self) -> f64 {
        self.size.height() - MARGIN - 8.0
    }

    /// Starts a station's sheet.
    pub fn start(&mut self, station: Station) {
        self.station = Some(station);
        self.page(false);
    }

    /// Notes that a figure stands on a sheet.
    pub fn note(&mut self, figure: &Figure, text: &str) {
        self.printed.push(Printed { key: figure.key.to_string(), text: text.to_owned() });
    }

    pub(super) fn page(&mut self, continued: bool) {
        let Some(station) = self.station else { return };
        let label = if continued { format!("{} +", station.name()) } else { station.name().to_owned() };
        let headings = if continued { Vec::new() } else { vec![Heading::sheet(station.title(self.job.lang))] };
        self.pages.push(Page { size: self.size, ops: Vec::new(), label, headings });
        self.y = MARGIN;
        self.head(station, continued);
    }

    pub fn push(&mut self, op: Op) {
        if let Some(page) = self.pages.last_mut() {
            page.ops.push(op);
        }
    }

    pub fn text(&mut self, x: f64, y: f64, size: f64, style: Style, text: String) {
        self.push(Op::Text(Text::new(x, y, size, style, text)));
    }

    /// Makes sure that `height` mm are free, on a further page if need be.
    pub(super) fn room(&mut self, height: f64) {
        if self.y + height > self.bottom() {
            self.page(true);
        }
    }

    pub fn heading(&mut self, heading: &str) {
        self.room(LINE * 3.0);
        self.text(MARGIN, self.y + 3.6, 11.0, Style::Bold, heading.to_owned());
        self.y += 6.4;
    }

    /// A drawing of `height` mm across the page, drawn at its top left corner.
    pub fn drawing(&mut self, height: f64, draw: impl FnOnce(Point, f64) -> Vec<Op>) {
        self.room(height);
        let ops = draw(Point::new(MARGIN, self.y), self.width());
        for op in ops {
            self.push(op);
        }
        self.y += height + 3.0;
    }

    /// A fixed word in the language of the sheets.
    pub fn word(&self, word: Word) -> &'static str {
        words::of(word, self.job.lang)
    }
}
