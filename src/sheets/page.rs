//! The page grammar: one head, big numbers, tables, rows, drawings, cautions and one foot, the same at every station.
//!
//! Blocks flow down the page; what does not fit goes on to a further page under the same head.

use super::paper::{Anchor, Heading, Ink, Op, Page, PageSize, Paint, Pen, Point, Style, Text, width_mm, wrap};
use super::station::Station;
use super::values::{times, with_unit};
use super::words::{self, Word};
use super::{Job, paper};
use crate::build::{Datum, Figure, Figures};

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

    fn bottom(&self) -> f64 {
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

    fn page(&mut self, continued: bool) {
        let Some(station) = self.station else { return };
        let label = if continued { format!("{} +", station.name()) } else { station.name().to_owned() };
        let headings = if continued { Vec::new() } else { vec![Heading::sheet(station.title())] };
        self.pages.push(Page { size: self.size, ops: Vec::new(), label, headings });
        self.y = MARGIN;
        self.head(station, continued);
    }

    /// Station and size to be read from two metres, model, revision and last below.
    fn head(&mut self, station: Station, continued: bool) {
        let (left, right) = (MARGIN, self.size.width() - MARGIN);
        let build = self.job.build;
        let size = build.size.to_string();
        let size_width = width_mm(&size, Style::Bold, 40.0);
        let title = if continued {
            format!("{} ({})", station.title(), words::of(words::CONTINUED))
        } else {
            station.title().to_owned()
        };
        let room = self.width() - size_width - 8.0;
        let points = paper::fit(&title, Style::Bold, 30.0, 14.0, room).unwrap_or(14.0);
        self.text(left, self.y + 11.0, points, Style::Bold, title);
        self.push(Op::Text(Text::new(right, self.y + 14.0, 40.0, Style::Bold, size).anchored(Anchor::Right)));
        let model = if build.model.title.is_empty() { build.model.name.clone() } else { build.model.title.clone() };
        let revision = build
            .model
            .revision
            .as_ref()
            .map_or_else(|_| String::new(), |revision| format!(" · {} {}", words::of(words::REVISION), revision.it));
        let last = build
            .model
            .last
            .as_ref()
            .map_or_else(|_| String::new(), |last| format!(" · {} {}", words::of(words::LAST), last.it.name));
        let line = format!("{model}{revision}{last}");
        let points = paper::fit(&line, Style::Condensed, 13.0, 9.0, room).unwrap_or(9.0);
        for (n, part) in wrap(&line, Style::Condensed, points, room).into_iter().take(2).enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "at most two lines")]
            let down = n as f64 * 5.0;
            self.text(left, self.y + 17.5 + down, points, Style::Condensed, part.to_owned());
        }
        self.y += 24.0;
        self.push(Op::Line { from: Point::new(left, self.y), to: Point::new(right, self.y), pen: RULE });
        self.y += 5.0;
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
    fn room(&mut self, height: f64) {
        if self.y + height > self.bottom() {
            self.page(true);
        }
    }

    /// Three to five key numbers, large, each under words of its own (or its figure's label).
    pub fn keys(&mut self, keys: &[(&str, Option<Word>)]) {
        let figures: &'j crate::build::Figures = self.job.figures;
        let shown: Vec<(&'j Figure, String, &'j str)> = keys
            .iter()
            .filter_map(|(key, word)| figures.get(key).map(|figure| (figure, *word)))
            .map(|(figure, word)| {
                let label: &'j str = match word {
                    Some(word) => words::of(word),
                    None => words::label(&figure.label),
                };
                (figure, value_of(figure), label)
            })
            .collect();
        if shown.is_empty() {
            return;
        }
        self.room(24.0);
        #[expect(clippy::cast_precision_loss, reason = "at most five numbers")]
        let width = self.width() / shown.len() as f64;
        let mut x = MARGIN;
        for (figure, value, label) in shown {
            self.note(figure, &value);
            let points = paper::fit(&value, Style::CondensedBold, BIG, 14.0, width - 5.0).unwrap_or(14.0);
            self.text(x, self.y + 8.6, points, Style::CondensedBold, value);
            for (line, y) in wrap(label, Style::Condensed, 9.0, width - 4.0).into_iter().take(2).zip([13.6, 17.6]) {
                self.text(x, self.y + y, 9.0, Style::Condensed, line.to_owned());
            }
            x += width;
        }
        self.y += 20.0;
        self.rule();
    }

    fn rule(&mut self) {
        let (from, to) = (Point::new(MARGIN, self.y), Point::new(self.size.width() - MARGIN, self.y));
        self.push(Op::Line { from, to, pen: HAIR });
        self.y += 4.0;
    }

    pub fn heading(&mut self, heading: &str) {
        self.room(LINE * 3.0);
        self.text(MARGIN, self.y + 3.6, 11.0, Style::Bold, heading.to_owned());
        self.y += 6.4;
    }

    /// Figures as rows in two columns under a heading.
    pub fn group(&mut self, heading: &str, keys: &[&str]) {
        let rows: Vec<Row> = keys.iter().filter_map(|key| self.row("", key)).collect();
        self.rows(heading, &rows);
    }

    /// A figure as a row, its label behind a name of what it belongs to.
    pub fn row(&mut self, of: &str, key: &str) -> Option<Row> {
        let figure = self.job.figures.get(key)?;
        let value = value_of(figure);
        self.note(figure, &value);
        let label = words::label(&figure.label);
        Some(Row { label: if of.is_empty() { label.to_owned() } else { format!("{of}: {label}") }, value })
    }

    /// Rows in two columns under a heading; the left column first.
    pub fn rows(&mut self, heading: &str, rows: &[Row]) {
        if rows.is_empty() {
            return;
        }
        self.heading(heading);
        let gap = 8.0;
        let width = (self.width() - gap) / 2.0;
        for pair in rows.chunks(2) {
            let height = pair.iter().map(|row| row_height(row, width)).fold(0.0, f64::max);
            self.room(height);
            for (row, x) in pair.iter().zip([MARGIN, MARGIN + width + gap]) {
                self.one_row(row, x, width, height);
            }
            self.y += height;
        }
        self.y += 3.0;
    }

    fn one_row(&mut self, row: &Row, x: f64, width: f64, height: f64) {
        let (label_room, value_room) = split(row, width);
        for (line, text) in (0_u32..).zip(wrap(&row.label, Style::Condensed, BODY, label_room)) {
            self.text(x, self.y + 3.8 + f64::from(line) * LINE, BODY, Style::Condensed, text.to_owned());
        }
        for (line, text) in (0_u32..).zip(wrap(&row.value, Style::CondensedBold, BODY, value_room)) {
            let at = Text::new(
                x + width,
                self.y + 3.8 + f64::from(line) * LINE,
                BODY,
                Style::CondensedBold,
                text.to_owned(),
            );
            self.push(Op::Text(at.anchored(Anchor::Right)));
        }
        let y = self.y + height - 0.6;
        let pen = Pen::black(0.1).inked(Ink(45));
        self.push(Op::Line { from: Point::new(x, y), to: Point::new(x + width, y), pen });
    }

    /// A table with its head repeated on every page.
    pub fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let whole: f64 = table.widths.iter().sum();
        let widths: Vec<f64> = table.widths.iter().map(|part| part / whole * self.width()).collect();
        self.table_head(&table.heads, &widths);
        for row in &table.rows {
            let lines = |(cell, width): (&String, &f64)| wrap(cell, Style::CondensedBold, BODY, width - 2.0).len();
            let most = row.iter().zip(&widths).map(lines).max().unwrap_or(1).max(1);
            #[expect(clippy::cast_precision_loss, reason = "a few lines")]
            let height = most as f64 * (LINE - 0.4) + 2.2;
            if self.y + height > self.bottom() {
                self.page(true);
                self.table_head(&table.heads, &widths);
            }
            let mut x = MARGIN;
            for (n, (cell, width)) in row.iter().zip(&widths).enumerate() {
                let style = if n == 0 { Style::CondensedBold } else { Style::Condensed };
                for (line, text) in (0_u32..).zip(wrap(cell, style, BODY, width - 2.0)) {
                    self.text(x, self.y + 4.2 + f64::from(line) * (LINE - 0.4), BODY, style, text.to_owned());
                }
                x += width;
            }
            self.y += height;
            let pen = Pen::black(0.1).inked(Ink(45));
            let (from, to) = (Point::new(MARGIN, self.y), Point::new(MARGIN + self.width(), self.y));
            self.push(Op::Line { from, to, pen });
        }
        self.y += 5.0;
    }

    fn table_head(&mut self, heads: &[&'static str], widths: &[f64]) {
        self.room(18.0);
        let mut x = MARGIN;
        for (head, width) in heads.iter().zip(widths) {
            for (line, text) in (0_u32..).zip(wrap(head, Style::Condensed, 9.0, width - 2.0).into_iter().take(2)) {
                self.text(x, self.y + 3.0 + f64::from(line) * 4.0, 9.0, Style::Condensed, text.to_owned());
            }
            x += width;
        }
        let two =
            heads.iter().zip(widths).any(|(head, width)| wrap(head, Style::Condensed, 9.0, width - 2.0).len() > 1);
        self.y += if two { 8.6 } else { 4.8 };
        let (from, to) = (Point::new(MARGIN, self.y), Point::new(MARGIN + self.width(), self.y));
        self.push(Op::Line { from, to, pen: Pen::black(0.4) });
        self.y += 0.6;
    }

    /// This station's steps of the route, in order, each with a box to tick; then how long the boot rests with them.
    pub fn steps(&mut self) {
        let Some(station) = self.station else { return };
        let figures = self.job.figures;
        let (steps, benches) = (texts(figures, "route.steps"), texts(figures, "route.stations"));
        let here = steps.iter().zip(benches).filter(|(_, bench)| *bench == station.name());
        let steps: Vec<&str> = here.map(|(step, _)| step.as_str()).collect();
        if steps.is_empty() {
            return;
        }
        self.heading(words::of(words::DO));
        let column = (self.width() - 8.0) / 2.0;
        let lines: Vec<(f64, Vec<String>)> =
            steps.iter().enumerate().map(|(n, step)| step_lines(n, step, column - 6.0)).collect();
        for pair in lines.chunks(2) {
            let most = pair.iter().map(|(_, lines)| lines.len()).max().unwrap_or(1).max(1);
            #[expect(clippy::cast_precision_loss, reason = "a few lines")]
            let height = most as f64 * LINE;
            self.room(height + 1.0);
            for ((points, lines), x) in pair.iter().zip([MARGIN, MARGIN + column + 8.0]) {
                let paint = Paint::stroke(Pen::black(0.25));
                self.push(Op::Rect { at: Point::new(x, self.y + 0.6), width: 3.4, height: 3.4, paint });
                for (line, text) in (0_u32..).zip(lines) {
                    let y = self.y + 3.8 + f64::from(line) * LINE;
                    self.text(x + 5.4, y, *points, Style::Condensed, text.clone());
                }
            }
            self.y += height + 0.6;
        }
        self.y += 3.0;
        self.rests(&steps);
    }

    /// How long the boot rests with each of these steps. The bond that alone holds the outsole has a place of its own.
    fn rests(&mut self, steps: &[&str]) {
        let critical = texts(self.job.figures, "route.critical");
        let (alone, others): (Vec<&str>, Vec<&str>) =
            steps.iter().partition(|step| critical.iter().any(|c| c == *step));
        for (heading, steps) in [(words::TIMES, others), (words::CRITICAL, alone)] {
            let mut rows = Vec::new();
            for step in &steps {
                let prefix = format!("route.dwell.{step}.");
                let keys = self.job.figures.iter().filter(|figure| figure.key.starts_with(&prefix));
                let keys: Vec<String> = keys.map(|figure| figure.key.to_string()).collect();
                rows.extend(keys.iter().filter_map(|key| self.row(step, key)));
            }
            if heading == words::CRITICAL && !steps.is_empty() {
                rows.extend(self.row("", "route.peel-samples"));
            }
            self.rows(words::of(heading), &rows);
        }
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

    /// The station's cautions, boxed.
    pub fn cautions(&mut self) {
        let Some(station) = self.station else { return };
        let inner = self.width() - 30.0;
        let lines: Vec<String> = station
            .cautions()
            .iter()
            .flat_map(|caution| {
                wrap(caution, Style::Condensed, 9.0, inner).into_iter().map(str::to_owned).collect::<Vec<_>>()
            })
            .collect();
        #[expect(clippy::cast_precision_loss, reason = "a few lines")]
        let height = lines.len() as f64 * 4.4 + 4.0;
        self.room(height);
        // At the foot of the page, always in the same place.
        self.y = self.bottom() - height;
        let paint = Paint::stroke(Pen::black(0.5));
        self.push(Op::Rect { at: Point::new(MARGIN, self.y), width: self.width(), height, paint });
        self.text(MARGIN + 3.0, self.y + 5.4, 10.0, Style::Bold, words::of(words::CAUTION).to_owned());
        for (n, line) in (0_u32..).zip(lines) {
            self.text(MARGIN + 27.0, self.y + 5.4 + f64::from(n) * 4.4, 9.0, Style::Condensed, line);
        }
        self.y += height;
    }

    /// The pages, with their feet.
    pub fn finish(mut self) -> (Vec<Page>, Vec<Printed>) {
        let count = self.pages.len();
        let y = self.size.height() - MARGIN;
        let model = &self.job.build.model.name;
        let left = format!("{} · {} {} · {}", self.job.shop.name, model, self.job.build.size, self.job.fingerprint);
        let room = self.width() - 40.0;
        let points = paper::fit(&left, Style::Condensed, 9.0, 7.0, room).unwrap_or(7.0);
        for (n, page) in self.pages.iter_mut().enumerate() {
            let (from, to) = (Point::new(MARGIN, y - 5.0), Point::new(self.size.width() - MARGIN, y - 5.0));
            page.ops.push(Op::Line { from, to, pen: HAIR });
            page.ops.push(Op::Text(Text::new(MARGIN, y, points, Style::Condensed, left.clone())));
            let number = format!("{} {} {} {count}", words::of(words::PAGE), n + 1, words::of(words::OF));
            let at = Text::new(self.size.width() - MARGIN, y, 9.0, Style::Condensed, number);
            page.ops.push(Op::Text(at.anchored(Anchor::Right)));
        }
        (self.pages, self.printed)
    }
}

/// The texts of a figure.
fn texts<'f>(figures: &'f Figures, key: &str) -> &'f [String] {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Texts(texts)) => texts,
        _ => &[],
    }
}

/// A step as it is printed: numbered, in one line as large as fits, else in several.
fn step_lines(n: usize, step: &str, width: f64) -> (f64, Vec<String>) {
    let text = format!("{} {}", n + 1, words::step(step));
    if let Some(points) = paper::fit(&text, Style::Condensed, BODY, 9.0, width) {
        return (points, vec![text]);
    }
    (9.0, wrap(&text, Style::Condensed, 9.0, width).into_iter().map(str::to_owned).collect())
}

fn value_of(figure: &Figure) -> String {
    if figure.unit == "minutes" { times(figure) } else { with_unit(figure) }
}

/// Room for label and value: the value gets what it needs, up to half.
fn split(row: &Row, width: f64) -> (f64, f64) {
    let value = (width_mm(&row.value, Style::CondensedBold, BODY) + 0.5).min(width * 0.55);
    (width - value - 3.0, value)
}

fn row_height(row: &Row, width: f64) -> f64 {
    let (label, value) = split(row, width);
    let lines = wrap(&row.label, Style::Condensed, BODY, label)
        .len()
        .max(wrap(&row.value, Style::CondensedBold, BODY, value).len());
    #[expect(clippy::cast_precision_loss, reason = "a few lines")]
    let lines = lines.max(1) as f64;
    lines * LINE + 1.0
}
