//! The page grammar: one head, key numbers, *set*, *do*, *measure*, drawings, cautions and one foot, the same at every
//! station.
//!
//! Blocks flow down the page; what does not fit goes on to a further page under the same head. One file a block.

mod cautions;
mod flow;
mod foot;
mod head;
mod keys;
mod measure;
mod notices;
mod rows;
mod steps;

pub(in crate::sheets) use steps::rests_at;
mod table;

pub(super) use flow::Item;
pub(super) use measure::Measure;
pub(super) use notices::reason;
pub(super) use table::Table;

use super::Job;
use super::paper::{Heading, Ink, Op, Page, PageSize, Pen, Point, Style, Text, wrap};
use super::station::Station;
use super::values::Voice;
use super::words::{self, Word};
use crate::build::{Datum, Figure, FigureId, Figures};

/// Millimetres round every page.
const MARGIN: f64 = 12.0;
/// Between columns, mm.
const GUTTER: f64 = 8.0;
const RULE: Pen = Pen::black(1.0);
const HAIR: Pen = Pen::black(0.15).inked(Ink(60));
/// Points of body text, of what is small, and of headings.
const BODY: f64 = 10.5;
const SMALL: f64 = 9.0;
const HEADING: f64 = 12.0;
/// From line to line of body and of small text, mm.
const LINE: f64 = 4.9;
const SMALL_LINE: f64 = 4.2;
/// What a heading across the page keeps under it, mm: the head of a table and a row.
const UNDER_HEADING: f64 = 22.0;

/// A figure as it was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The figure's key.
    pub key: String,
    /// What stands on the sheet.
    pub text: String,
}

/// All sheets of one size-width under way.
pub(super) struct Sheets<'j> {
    job: &'j Job<'j>,
    size: PageSize,
    pages: Vec<Page>,
    printed: Vec<Printed>,
    station: Option<Station>,
    foot: Vec<String>,
    code: Vec<Op>,
    /// Where the cautions begin, on the first page of a station.
    floor: Option<f64>,
    y: f64,
}

impl<'j> Sheets<'j> {
    pub fn new(job: &'j Job<'j>) -> Self {
        let size = PageSize::portrait(job.paper);
        let foot = foot::lines(job, size.width() - 2.0 * MARGIN);
        let code = head::square(job, size.width());
        let (pages, printed) = (Vec::new(), Vec::new());
        Self { job, size, pages, printed, station: None, foot, code, floor: None, y: 0.0 }
    }

    /// Width between the margins, mm.
    pub fn width(&self) -> f64 {
        self.size.width() - 2.0 * MARGIN
    }

    /// Where blocks must end, mm from the top.
    fn bottom(&self) -> f64 {
        self.floor.unwrap_or(self.size.height() - MARGIN - foot::height(&self.foot)) - 2.0
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

    /// A further page under the same head.
    fn page(&mut self, continued: bool) {
        let Some(station) = self.station else { return };
        let label = if continued { format!("{} +", station.name()) } else { station.name().to_owned() };
        let headings = if continued { Vec::new() } else { vec![Heading::sheet(station.title(self.job.lang))] };
        self.pages.push(Page { size: self.size, ops: Vec::new(), label, headings });
        (self.y, self.floor) = (MARGIN, None);
        self.unreleased();
        if !continued {
            self.cautions(station);
        }
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

    fn across(&mut self, y: f64, pen: Pen) {
        let (from, to) = (Point::new(MARGIN, y), Point::new(self.size.width() - MARGIN, y));
        self.push(Op::Line { from, to, pen });
    }

    /// Makes sure that `height` mm are free, on a further page if need be.
    fn room(&mut self, height: f64) {
        if self.y + height > self.bottom() {
            self.page(true);
        }
    }

    /// Lines of text from `x`, the first with its baseline at `y`.
    fn lines(&mut self, (x, y): (f64, f64), style: (f64, Style, f64), lines: &[String]) {
        let (points, face, apart) = style;
        for (n, line) in (0_u32..).zip(lines) {
            self.text(x, y + f64::from(n) * apart, points, face, line.clone());
        }
    }

    /// A heading across the page, with room for something below it.
    pub fn heading(&mut self, heading: &str) {
        let lines = owned(wrap(heading, Style::Bold, HEADING, self.width()));
        let height = 2.0 + tall(lines.len(), 5.4);
        self.room(height + UNDER_HEADING);
        self.across(self.y, Pen::black(0.5));
        self.lines((MARGIN, self.y + 5.4), (HEADING, Style::Bold, 5.4), &lines);
        self.y += height;
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

    /// How numbers are said on these sheets.
    pub fn voice(&self) -> Voice {
        self.job.voice()
    }

    /// A fixed word in the language of the sheets.
    pub fn word(&self, word: Word) -> &'static str {
        words::of(word, self.job.lang)
    }

    /// The pages, with their feet.
    pub fn finish(mut self) -> (Vec<Page>, Vec<Printed>) {
        foot::add(&mut self);
        (self.pages, self.printed)
    }
}

/// The texts of a figure.
fn texts(figures: &Figures, id: FigureId) -> &[String] {
    match figures.of(&id.into()).map(|figure| &figure.datum) {
        Some(Datum::Texts(texts)) => texts,
        _ => &[],
    }
}

fn owned(lines: Vec<&str>) -> Vec<String> {
    lines.into_iter().map(str::to_owned).collect()
}

/// So many lines, `apart` mm from one to the next; one at least.
#[expect(clippy::cast_precision_loss, reason = "a few lines")]
fn tall(lines: usize, apart: f64) -> f64 {
    lines.max(1) as f64 * apart
}
