//! The traveller: a card that goes with each pair, or with a batch, from bench to bench. Half a page, cut across.

use super::Units;
use super::code::{self, CodeText};
use super::page::rests_at;
use super::paper::{
    self, Anchor, Document, Heading, Ink, Op, Page, PageSize, Paint, Paper, Pen, Point, Style, Text, width_mm, wrap,
};
use super::station::Station;
use super::values::Voice;
use super::words::{self, Lang, Word, cards};
use crate::build::{Datum, FigureId as F, Figures};
use crate::check::{Figured, ModelChecked};

const MARGIN: f64 = 12.0;
/// Free above and below the cut, mm.
const CUT: f64 = 7.0;
const CODE: f64 = 15.0;
const HEAD: f64 = 23.5;
const FOOT: f64 = 5.0;
/// Columns from the left edge of the card, in parts of its width: box, bench, rests, not before, done, signed; with a
/// batch, how many pairs are passed on stands before the signature.
const OF_PAIR: &[f64] = &[0.0, 0.045, 0.235, 0.50, 0.66, 0.83, 1.0];
const OF_BATCH: &[f64] = &[0.0, 0.045, 0.235, 0.45, 0.59, 0.74, 0.85, 1.0];
const SMALL: f64 = 9.0;
const LINE: f64 = 3.8;
/// The least height of a row that can be written in, and the most that is of use, mm.
const LEAST: f64 = 6.2;
const MOST: f64 = 9.5;

/// The cards of one model.
#[derive(Debug)]
pub struct TravellerJob<'a> {
    /// The shop's name.
    pub shop: &'a str,
    /// The model.
    pub model: &'a ModelChecked,
    /// The sizes that cards are wanted of.
    pub sizes: &'a [Figured],
    /// How many pairs of each size.
    pub pairs: u32,
    /// The name of the batch: one card then goes with all of its pairs.
    pub batch: Option<&'a str>,
    /// The figures as JSON, to be attached.
    pub attachment: Vec<u8>,
    /// The paper.
    pub paper: Paper,
    /// The language.
    pub lang: Lang,
    /// The shop's units.
    pub units: Units,
}

/// A stay at a bench: what its steps rest afterwards, each as a line.
struct Stay {
    bench: String,
    rests: Vec<String>,
}

/// Which card of how many.
#[derive(Clone, Copy)]
enum Goes {
    WithPair(u32),
    WithBatch,
}

/// Lays the cards out, two a page; `None` if there is no size.
#[must_use]
pub fn traveller(job: &TravellerJob<'_>) -> Option<Document> {
    let mut cards = Cards { job, size: PageSize::portrait(job.paper), pages: Vec::new(), upper: false };
    for size in job.sizes {
        let stays = stays(&size.figures, Voice { lang: job.lang, units: job.units });
        let goes = match job.batch {
            Some(_) => vec![Goes::WithBatch],
            None => (1..=job.pairs).map(Goes::WithPair).collect(),
        };
        for (n, goes) in goes.into_iter().enumerate() {
            cards.card(size, goes, &stays, n == 0);
        }
    }
    let mut pages = cards.pages;
    let title = format!("{} {}", job.model.name, cards::TRAVELLER.say(job.lang));
    pages.first_mut()?.headings.insert(0, Heading::part(title.clone()));
    Some(document(job, title, pages))
}

fn document(job: &TravellerJob<'_>, title: String, pages: Vec<Page>) -> Document {
    let prints = job.sizes.iter().map(|size| size.fingerprint.clone());
    Document {
        title,
        author: job.shop.to_owned(),
        subject: cards::TRAVELLER.say(job.lang).to_owned(),
        keywords: std::iter::once(job.model.name.clone()).chain(prints).collect(),
        pages,
        attachments: vec![super::figures_attached(job.lang, job.attachment.clone())],
        ..super::document(job.lang)
    }
}

/// The route as stays at benches: a boot that comes back to a bench stays there twice.
fn stays(figures: &Figures, voice: Voice) -> Vec<Stay> {
    let mut stays: Vec<Stay> = Vec::new();
    for (step, bench) in texts(figures, F::RouteSteps).iter().zip(texts(figures, F::RouteStations)) {
        if stays.last().is_none_or(|stay| stay.bench != *bench) {
            stays.push(Stay { bench: bench.clone(), rests: Vec::new() });
        }
        if let Some(stay) = stays.last_mut() {
            stay.rests.extend(rests(figures, step, voice));
        }
    }
    stays
}

/// How long the boot rests with a step before it goes on; how soon glued faces are joined is for the bench alone.
fn rests(figures: &Figures, step: &str, voice: Voice) -> Vec<String> {
    let waits = rests_at(figures, step).filter(|figure| !matches!(figure.of.id, F::RestOpen | F::RestPressed));
    waits.map(|figure| format!("{} {}", words::figure(figure, voice.lang), voice.said(figure).first)).collect()
}

fn texts(figures: &Figures, id: F) -> &[String] {
    match figures.of(&id.into()).map(|figure| &figure.datum) {
        Some(Datum::Texts(texts)) => texts,
        _ => &[],
    }
}

/// Cards under way, the upper half of a page first.
struct Cards<'j> {
    job: &'j TravellerJob<'j>,
    size: PageSize,
    pages: Vec<Page>,
    /// The last page's upper half is taken, its lower one free.
    upper: bool,
}

impl Cards<'_> {
    fn width(&self) -> f64 {
        self.size.width() - 2.0 * MARGIN
    }

    fn say(&self, word: Word) -> &'static str {
        word.say(self.job.lang)
    }

    /// The top of the next half page, with the heading of a size that begins there.
    fn half(&mut self, label: &str, heading: Option<String>) -> f64 {
        let middle = self.size.height() / 2.0;
        let headings: Vec<Heading> = heading.into_iter().map(Heading::sheet).collect();
        self.upper = !self.upper;
        if !self.upper {
            if let Some(page) = self.pages.last_mut() {
                page.headings.extend(headings);
                let pen = Pen::black(0.2).dashed(2.0, 1.5);
                let to = Point::new(self.size.width(), middle);
                page.ops.push(Op::Line { from: Point::new(0.0, middle), to, pen });
            }
            return middle + CUT;
        }
        self.pages.push(Page { size: self.size, ops: Vec::new(), label: label.to_owned(), headings });
        MARGIN
    }

    fn push(&mut self, op: Op) {
        if let Some(page) = self.pages.last_mut() {
            page.ops.push(op);
        }
    }

    fn text(&mut self, x: f64, y: f64, points: f64, style: Style, text: impl Into<String>) {
        self.push(Op::Text(Text::new(x, y, points, style, text)));
    }

    /// One card; a route that is too long for half a page goes on upon the next half.
    fn card(&mut self, size: &Figured, goes: Goes, stays: &[Stay], first: bool) {
        let label = match goes {
            Goes::WithPair(n) => format!("{} {n}", size.checked.size),
            Goes::WithBatch => size.checked.size.to_string(),
        };
        let room = self.size.height() / 2.0 - MARGIN - CUT - HEAD - FOOT - 6.0;
        let mut rest = stays;
        let mut heading = first.then(|| size.checked.size.to_string());
        loop {
            let top = self.half(&label, heading.take());
            self.head(top, size, goes);
            let height = self.row_height(rest, room);
            let mut y = self.table_head(top + HEAD);
            let mut taken = 0;
            for stay in rest {
                let needs = height.max(self.stay_height(stay));
                if taken > 0 && y + needs > top + HEAD + 6.0 + room + 0.01 {
                    break;
                }
                self.stay(stay, y, needs);
                y += needs;
                taken += 1;
            }
            self.foot(top, size);
            rest = &rest[taken..];
            if rest.is_empty() {
                return;
            }
        }
    }

    /// Rows share the card evenly, as far as there is room to write in each; those with more to say take what they need.
    fn row_height(&self, stays: &[Stay], room: f64) -> f64 {
        let tall: Vec<f64> = stays.iter().map(|stay| self.stay_height(stay)).filter(|height| *height > LEAST).collect();
        #[expect(clippy::cast_precision_loss, reason = "a dozen benches")]
        let others = (stays.len() - tall.len()).max(1) as f64;
        ((room - tall.iter().sum::<f64>()) / others).clamp(LEAST, MOST)
    }

    fn lines<'s>(&self, stay: &'s Stay) -> Vec<&'s str> {
        let width = self.column(3) - self.column(2) - 2.0;
        stay.rests.iter().flat_map(|rest| wrap(rest, Style::Condensed, SMALL, width)).collect()
    }

    #[expect(clippy::cast_precision_loss, reason = "a few lines")]
    fn stay_height(&self, stay: &Stay) -> f64 {
        self.lines(stay).len() as f64 * LINE + 1.4
    }

    fn column(&self, n: usize) -> f64 {
        let columns = if self.job.batch.is_some() { OF_BATCH } else { OF_PAIR };
        MARGIN + columns.get(n).copied().unwrap_or(1.0) * self.width()
    }

    fn columns(&self) -> usize {
        if self.job.batch.is_some() { OF_BATCH.len() - 1 } else { OF_PAIR.len() - 1 }
    }

    /// Model and size to be read from two metres; what the card goes with; the serial.
    fn head(&mut self, top: f64, size: &Figured, goes: Goes) {
        let job = self.job;
        let right = MARGIN + self.width();
        let said = self.code(size, goes);
        for op in code::draw(&said, Point::new(right - CODE, top), CODE) {
            self.push(op);
        }
        let right = right - CODE - 4.0;
        let sized = size.checked.size.to_string();
        self.push(Op::Text(Text::new(right, top + 12.0, 34.0, Style::Bold, sized.clone()).anchored(Anchor::Right)));
        let room = right - MARGIN - width_mm(&sized, Style::Bold, 34.0) - 6.0;
        let title = if job.model.title.is_empty() { &job.model.name } else { &job.model.title };
        let points = paper::fit(title, Style::Bold, 24.0, SMALL, room).unwrap_or(SMALL);
        let first = wrap(title, Style::Bold, points, room).first().copied().unwrap_or_default().to_owned();
        self.text(MARGIN, top + 8.5, points, Style::Bold, first);
        let line = self.goes_with(goes);
        let points = paper::fit(&line, Style::Condensed, 13.0, SMALL, room).unwrap_or(SMALL);
        for (n, part) in (0_u32..).zip(wrap(&line, Style::Condensed, points, room).into_iter().take(2)) {
            self.text(MARGIN, top + 14.0 + f64::from(n) * 4.2, points, Style::Condensed, part);
        }
        self.serial(top, goes);
    }

    /// `Traveller · revision 3 · batch May · 12 pairs`
    fn goes_with(&self, goes: Goes) -> String {
        let job = self.job;
        let mut parts = vec![self.say(cards::TRAVELLER).to_owned()];
        parts.extend(job.model.revision.map(|revision| format!("{} {revision}", self.say(words::REVISION))));
        match goes {
            Goes::WithPair(n) if job.pairs > 1 => {
                parts.push(format!("{} {n} {} {}", self.say(cards::PAIR_OF), self.say(words::OF), job.pairs));
            }
            Goes::WithPair(_) => {}
            Goes::WithBatch => {
                parts.push(format!("{} {}", self.say(cards::BATCH), job.batch.unwrap_or_default()));
                parts.push(format!(
                    "{} {}",
                    job.pairs,
                    self.say(if job.pairs == 1 { cards::PAIR_OF } else { cards::PAIRS })
                ));
            }
        }
        parts.join(" · ")
    }

    fn code(&self, size: &Figured, goes: Goes) -> String {
        let more = match goes {
            Goes::WithPair(n) => vec![format!("pair {n}/{}", self.job.pairs)],
            Goes::WithBatch => {
                vec![format!("batch {}", self.job.batch.unwrap_or_default()), format!("pairs {}", self.job.pairs)]
            }
        };
        let text = CodeText {
            model: self.job.model.name.clone(),
            revision: self.job.model.revision,
            system: size.checked.size.system.name().to_owned(),
            size: size.checked.size.to_string(),
            fingerprint: size.fingerprint.clone(),
            more,
        };
        text.text()
    }

    /// A line to write the serial on.
    fn serial(&mut self, top: f64, goes: Goes) {
        let word = match goes {
            Goes::WithPair(_) => cards::SERIAL,
            Goes::WithBatch => cards::SERIALS,
        };
        let word = self.say(word);
        let (y, x) = (top + 21.5, MARGIN + width_mm(word, Style::Condensed, SMALL) + 2.0);
        self.text(MARGIN, y, SMALL, Style::Condensed, word);
        let to = Point::new(MARGIN + self.width() * 0.62, y + 0.6);
        self.push(Op::Line { from: Point::new(x, y + 0.6), to, pen: Pen::black(0.25) });
    }

    fn table_head(&mut self, y: f64) -> f64 {
        let passed = self.job.batch.is_some().then_some(cards::PASSED_ON);
        let heads = [cards::BENCH, cards::RESTS, cards::NOT_BEFORE, cards::DAY_AND_HOUR];
        for (n, word) in (1..).zip(heads.into_iter().chain(passed).chain([cards::SIGNED])) {
            let (x, word) = (self.column(n), self.say(word));
            self.text(x + 1.0, y + 3.6, SMALL, Style::Condensed, word);
        }
        let (from, to) = (Point::new(MARGIN, y + 5.0), Point::new(MARGIN + self.width(), y + 5.0));
        self.push(Op::Line { from, to, pen: Pen::black(0.5) });
        y + 5.0
    }

    /// A row: box, bench, rests, then room to write. Where nothing rests, nothing has to be waited for.
    fn stay(&mut self, stay: &Stay, y: f64, height: f64) {
        let middle = y + height / 2.0;
        let paint = Paint::stroke(Pen::black(0.3));
        self.push(Op::Rect { at: Point::new(MARGIN + 1.0, middle - 2.2), width: 4.4, height: 4.4, paint });
        let bench = Station::ALL.iter().find(|station| station.name() == stay.bench);
        let bench = bench.map_or(stay.bench.as_str(), |station| station.title(self.job.lang)).to_owned();
        let room = self.column(2) - self.column(1) - 2.0;
        let points = paper::fit(&bench, Style::CondensedBold, 12.0, SMALL, room).unwrap_or(SMALL);
        self.text(self.column(1) + 1.0, middle + 1.5, points, Style::CondensedBold, bench);
        let lines: Vec<String> = self.lines(stay).into_iter().map(str::to_owned).collect();
        #[expect(clippy::cast_precision_loss, reason = "a few lines")]
        let start = middle - (lines.len() as f64 - 1.0) * LINE / 2.0 + 1.2;
        for (n, line) in (0_u32..).zip(lines) {
            self.text(self.column(2) + 1.0, start + f64::from(n) * LINE, SMALL, Style::Condensed, line);
        }
        if stay.rests.is_empty() {
            let at = Point::new(self.column(3), y + 0.2);
            let paint = Paint::fill(Ink(12));
            let width = self.column(4) - self.column(3);
            self.push(Op::Rect { at, width, height: height - 0.4, paint });
        }
        for n in 3..self.columns() {
            let x = self.column(n);
            self.push(Op::Line { from: Point::new(x, y), to: Point::new(x, y + height), pen: Pen::black(0.15) });
        }
        let (from, to) = (Point::new(MARGIN, y + height), Point::new(MARGIN + self.width(), y + height));
        self.push(Op::Line { from, to, pen: Pen::black(0.15) });
    }

    fn foot(&mut self, top: f64, size: &Figured) {
        let y = top + self.size.height() / 2.0 - MARGIN - CUT;
        let job = self.job;
        let said = format!("{} · {} {} · {}", job.shop, job.model.name, size.checked.size, size.fingerprint);
        let points = paper::fit(&said, Style::Condensed, SMALL, 7.0, self.width()).unwrap_or(7.0);
        self.text(MARGIN, y, points, Style::Condensed, said);
    }
}
