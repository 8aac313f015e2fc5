//! The line card: what one machine is set to for every seam that it sews, in all sizes of all models, in one table a seam.
//!
//! What is the same in all sizes stands once above the table; within it a value stands where it changes.

use super::Units;
use super::paper::{self, Anchor, Document, Heading, Ink, Op, Page, PageSize, Paper, Pen, Point, Style, Text, wrap};
use super::values::{Said, Voice};
use super::words::{self, Lang, Word, cards};
use crate::build::{Datum, Figure, FigureId as F, Figures, Identity, Slot};
use crate::check::{Figured, ModelChecked};
use crate::finding::SeamName;
use std::collections::BTreeSet;

const MARGIN: f64 = 12.0;
const SMALL: f64 = 9.0;
/// Points of a seam's title.
const TITLE: f64 = 14.0;
const LINE: f64 = 4.0;
const ROW: f64 = 5.0;
const SIZES: f64 = 34.0;

/// What a seam's machine is set to, in the order in which a bench sets and checks.
const SET: &[F] = &[F::SeamNeedle, F::SeamThread, F::SeamPitch, F::SeamRows];

/// What stands on the card for a seam.
fn figures_of(seam: &SeamName) -> Vec<Identity> {
    let set = SET.iter().map(|id| id.of_seam(seam));
    let further: Vec<Identity> = match seam {
        SeamName::Sole => {
            let rows = (1..=4).map(|row| F::SoleRowStitches.of([Slot::Number(row)]));
            let of_rows = [F::SoleGuide, F::SoleStartsBehind, F::SoleFromEdge, F::SoleApart];
            let stack = [F::StackWorst, F::StackOffTheLap, F::SoleBobbin, F::SoleRowsABobbin];
            of_rows.into_iter().map(Identity::from).chain(rows).chain(stack.into_iter().map(Identity::from)).collect()
        }
        SeamName::Forefoot => {
            [F::ForefootInset, F::ForefootApart, F::ForefootStitches, F::ForefootLayers].map(Identity::from).to_vec()
        }
        seam => [F::SeamFirst, F::SeamApart, F::SeamThickest, F::TakenSeamStitches].map(|id| id.of_seam(seam)).to_vec(),
    };
    set.chain(further).collect()
}

/// The card of one machine.
#[derive(Debug)]
pub struct LineJob<'a> {
    /// The shop's name.
    pub shop: &'a str,
    /// The machine's name.
    pub machine: &'a str,
    /// Models with the sizes wanted.
    pub models: &'a [(&'a ModelChecked, Vec<&'a Figured>)],
    /// The figures shown as JSON, to be attached.
    pub attachment: Vec<u8>,
    /// The paper.
    pub paper: Paper,
    /// The language.
    pub lang: Lang,
    /// The shop's units.
    pub units: Units,
}

/// The machines that sew anything of these models, each once, by name.
#[must_use]
pub fn machines(models: &[(&ModelChecked, Vec<&Figured>)]) -> BTreeSet<String> {
    let sizes = models.iter().flat_map(|(_, sizes)| sizes.iter());
    sizes.flat_map(|size| size.figures.iter()).filter_map(machine_of).map(|(_, machine)| machine.to_owned()).collect()
}

/// The seam and the machine that a figure names, if it is one of those.
fn machine_of(figure: &Figure) -> Option<(&SeamName, &str)> {
    match (figure.of.id, &*figure.of.slots, &figure.datum) {
        (F::SeamMachine, [Slot::Seam(seam)], Datum::Text(machine)) => Some((seam, machine)),
        _ => None,
    }
}

/// Whether the card of a machine shows a figure of a build; its seams are those that the machine sews.
#[must_use]
pub fn shows(seams: &BTreeSet<SeamName>, figure: &Figure) -> bool {
    let of = &figure.of;
    seams.iter().any(|seam| *of == F::SeamMachine.of_seam(seam) || figures_of(seam).contains(of))
}

/// The seams that a machine sews in some size.
#[must_use]
pub fn seams(sizes: &[&Figured], machine: &str) -> BTreeSet<SeamName> {
    let figures = sizes.iter().flat_map(|size| size.figures.iter());
    let named = figures.filter_map(machine_of).filter(|(_, named)| *named == machine);
    named.map(|(seam, _)| seam.clone()).collect()
}

/// A column: what it is, its values by size, and its width.
struct Column {
    label: String,
    values: Vec<Option<Said>>,
    width: f64,
}

/// Lays the card out; `None` if the machine sews nothing.
#[must_use]
pub fn line_card(job: &LineJob<'_>) -> Option<Document> {
    let mut card = Card { job, size: PageSize::portrait(job.paper), pages: Vec::new(), y: 0.0 };
    for (model, sizes) in job.models {
        for seam in in_order(sizes, job.machine) {
            card.seam(model, sizes, &seam);
        }
    }
    card.feet();
    let mut pages = card.pages;
    let title = format!("{} {}", cards::LINE_CARD.say(job.lang), job.machine);
    pages.first_mut()?.headings.insert(0, Heading::part(title.clone()));
    let models = job.models.iter().map(|(model, _)| model.name.clone());
    Some(Document {
        title,
        author: job.shop.to_owned(),
        subject: cards::LINE_CARD.say(job.lang).to_owned(),
        keywords: std::iter::once(job.machine.to_owned()).chain(models).collect(),
        pages,
        attachments: vec![super::figures_attached(job.lang, job.attachment.clone())],
        ..super::document(job.lang)
    })
}

/// The seams that a machine sews, in the order of the work.
fn in_order(sizes: &[&Figured], machine: &str) -> Vec<SeamName> {
    let mut seams: Vec<SeamName> = Vec::new();
    for (seam, named) in sizes.iter().flat_map(|size| size.figures.iter()).filter_map(machine_of) {
        if named == machine && !seams.iter().any(|known| known == seam) {
            seams.push(seam.clone());
        }
    }
    seams
}

/// What a column says above its values, and the values; nothing if no size has the figure.
fn column(sizes: &[&Figured], of: &Identity, voice: Voice) -> Option<Column> {
    let first = sizes.iter().find_map(|size| size.figures.of(of))?;
    let label = match (of.id, &*of.slots) {
        (F::SoleRowStitches, [row]) => {
            format!("{} {row}: {}", words::of(words::ROW, voice.lang), words::figure(first, voice.lang))
        }
        // The seam's name stands above the table.
        _ => words::figure_unnamed(first, voice.lang),
    };
    let value = |figures: &Figures| figures.of(of).map(|figure| voice.said(figure));
    Some(Column { label, values: sizes.iter().map(|size| value(&size.figures)).collect(), width: 0.0 })
}

/// A value as large as fits, up to `wanted` points: in both units if the shop asks for both and there is room.
fn fitted(value: Option<&Said>, style: Style, wanted: f64, room: f64) -> (f64, String) {
    let Some(said) = value else { return (SMALL, "–".to_owned()) };
    let whole = said.whole();
    if let Some(points) = paper::fit(&whole, style, wanted, SMALL, room) {
        return (points, whole);
    }
    (paper::fit(&said.first, style, wanted, SMALL, room).unwrap_or(SMALL), said.first.clone())
}

/// The card under way.
struct Card<'j> {
    job: &'j LineJob<'j>,
    size: PageSize,
    pages: Vec<Page>,
    y: f64,
}

impl Card<'_> {
    fn width(&self) -> f64 {
        self.size.width() - 2.0 * MARGIN
    }

    fn bottom(&self) -> f64 {
        self.size.height() - MARGIN - 8.0
    }

    fn say(&self, word: Word) -> &'static str {
        word.say(self.job.lang)
    }

    fn push(&mut self, op: Op) {
        if let Some(page) = self.pages.last_mut() {
            page.ops.push(op);
        }
    }

    fn text(&mut self, x: f64, y: f64, points: f64, style: Style, text: impl Into<String>) {
        self.push(Op::Text(Text::new(x, y, points, style, text)));
    }

    fn rule(&mut self, from: f64, to: f64, pen: Pen) {
        let y = self.y;
        self.push(Op::Line { from: Point::new(from, y), to: Point::new(to, y), pen });
    }

    /// A page with the machine at its head, to be read from two metres.
    fn page(&mut self) {
        let number = self.pages.len() + 1;
        let label = format!("{} {number}", self.job.machine);
        self.pages.push(Page { size: self.size, ops: Vec::new(), label, headings: Vec::new() });
        self.y = MARGIN;
        let (machine, right) = (self.job.machine.to_owned(), self.size.width() - MARGIN);
        let word = self.say(cards::LINE_CARD);
        let room = self.width() - paper::width_mm(word, Style::Condensed, 16.0) - 6.0;
        let points = paper::fit(&machine, Style::Bold, 34.0, 14.0, room).unwrap_or(14.0);
        self.text(MARGIN, self.y + 11.0, points, Style::Bold, machine);
        self.push(Op::Text(Text::new(right, MARGIN + 11.0, 16.0, Style::Condensed, word).anchored(Anchor::Right)));
        self.y += 15.0;
        self.rule(MARGIN, right, Pen::black(0.8));
        self.y += 5.0;
    }

    /// Makes sure of `height` mm; whether that took a new page.
    fn room(&mut self, height: f64) -> bool {
        let new = self.pages.is_empty() || self.y + height > self.bottom();
        if new {
            self.page();
        }
        new
    }

    /// One seam of one model: what is the same in all sizes, then what changes.
    fn seam(&mut self, model: &ModelChecked, sizes: &[&Figured], seam: &SeamName) {
        let sizes: Vec<&Figured> = sizes
            .iter()
            .copied()
            .filter(|size| size.figures.iter().filter_map(machine_of).any(|it| it == (seam, self.job.machine)))
            .collect();
        let voice = Voice { lang: self.job.lang, units: self.job.units };
        let mut same: Vec<(String, Option<Said>)> = Vec::new();
        let mut changing: Vec<Column> = Vec::new();
        for of in figures_of(seam) {
            let Some(column) = column(&sizes, &of, voice) else { continue };
            if column.values.iter().all(|value| *value == column.values[0]) {
                same.push((column.label, column.values.into_iter().flatten().next()));
            } else {
                changing.push(column);
            }
        }
        // Head, what is the same, and a first few rows stay together.
        self.room(40.0 + up(same.len().div_ceil(4)) * 15.4);
        let title = format!("{} · {}", model.name, self.called(seam));
        if let Some(page) = self.pages.last_mut() {
            page.headings.push(Heading::sheet(title.clone()));
        }
        let revision = model.revision.map(|it| format!(" · {} {it}", self.say(words::REVISION))).unwrap_or_default();
        self.titled(&format!("{title}{revision}"));
        self.same(&same, &span(&sizes));
        self.table(changing, &sizes);
        self.y += 6.0;
    }

    /// A seam's title, on as many lines as its name wants.
    fn titled(&mut self, title: &str) {
        for line in paper::wrap(title, Style::Bold, TITLE, self.width()) {
            self.text(MARGIN, self.y + 4.5, TITLE, Style::Bold, line.to_owned());
            self.y += 6.0;
        }
        self.y += 2.0;
    }

    /// What a seam is called; those of the upper by their own names.
    fn called(&self, seam: &SeamName) -> String {
        match seam {
            SeamName::Sole => self.say(words::SOLE_STITCHING).to_owned(),
            SeamName::Forefoot => self.say(words::FOREFOOT).to_owned(),
            seam => words::seam(seam, self.job.lang),
        }
    }

    /// What all sizes share, large: four to a line.
    fn same(&mut self, same: &[(String, Option<Said>)], span: &str) {
        if same.is_empty() {
            return;
        }
        self.text(MARGIN, self.y + 3.2, SMALL, Style::Condensed, format!("{} ({span})", self.say(cards::ALL_SIZES)));
        self.y += 5.0;
        let width = self.width() / 4.0;
        for four in same.chunks(4) {
            let heads: Vec<Vec<String>> = four.iter().map(|(head, _)| lines(head, width - 3.0)).collect();
            let most = heads.iter().map(Vec::len).max().unwrap_or(1);
            let height = 7.4 + up(most) * LINE;
            self.room(height);
            for ((x, (_, value)), head) in (0_u32..).map(|n| MARGIN + f64::from(n) * width).zip(four).zip(heads) {
                let (points, value) = fitted(value.as_ref(), Style::CondensedBold, 16.0, width - 3.0);
                self.text(x, self.y + 5.6, points, Style::CondensedBold, value);
                for (n, line) in (0_u32..).zip(head) {
                    self.text(x, self.y + 10.0 + f64::from(n) * LINE, SMALL, Style::Condensed, line);
                }
            }
            self.y += height;
        }
        self.y += 2.0;
    }

    fn table(&mut self, mut columns: Vec<Column>, sizes: &[&Figured]) {
        if columns.is_empty() {
            return;
        }
        let width = (self.width() - SIZES) / up(columns.len());
        for column in &mut columns {
            column.width = width.min(40.0);
        }
        self.room(30.0);
        self.table_head(&columns);
        let groups = groups(&columns, sizes.len());
        let mut fresh = true;
        for (n, (from, to)) in groups.iter().copied().enumerate() {
            if self.y + ROW > self.bottom() {
                self.page();
                self.table_head(&columns);
                fresh = true;
            }
            let before = if fresh || n == 0 { None } else { Some(groups[n - 1].0) };
            self.row(&columns, &named(sizes, from, to, self.say(cards::UNTIL)), from, before);
            fresh = false;
        }
        let right = MARGIN + SIZES + columns.iter().map(|column| column.width).sum::<f64>();
        self.rule(MARGIN, right, Pen::black(0.3));
    }

    fn table_head(&mut self, columns: &[Column]) {
        let heads: Vec<Vec<String>> = columns.iter().map(|column| lines(&column.label, column.width - 2.0)).collect();
        let most = heads.iter().map(Vec::len).max().unwrap_or(1);
        let base = self.y + up(most) * LINE;
        self.text(MARGIN, base - 0.8, SMALL, Style::Condensed, self.say(cards::IN_SIZES));
        let mut x = MARGIN + SIZES;
        for (head, column) in heads.into_iter().zip(columns) {
            let top = base - up(head.len() - 1) * LINE - 0.8;
            for (n, line) in (0_u32..).zip(head) {
                self.text(x, top + f64::from(n) * LINE, SMALL, Style::Condensed, line);
            }
            x += column.width;
        }
        self.y = base + 0.6;
        self.rule(MARGIN, x, Pen::black(0.5));
    }

    /// A row: a value is said where it changes, and no line parts it from the rows below that share it.
    fn row(&mut self, columns: &[Column], sizes: &str, at: usize, before: Option<usize>) {
        let pen = Pen::black(0.12).inked(Ink(55));
        if before.is_some() {
            self.rule(MARGIN, MARGIN + SIZES - 1.0, pen);
        }
        let y = self.y + 3.8;
        self.text(MARGIN, y, 10.0, Style::CondensedBold, sizes);
        let mut x = MARGIN + SIZES;
        for column in columns {
            let value = &column.values[at];
            if before.is_none_or(|before| column.values[before] != *value) {
                if before.is_some() {
                    self.rule(x, x + column.width - 1.0, pen);
                }
                let (points, value) = fitted(value.as_ref(), Style::Condensed, 10.0, column.width - 2.0);
                self.text(x, y, points, Style::Condensed, value);
            }
            x += column.width;
        }
        self.y += ROW;
    }

    /// Shop, machine, page n of m.
    fn feet(&mut self) {
        let (count, y) = (self.pages.len(), self.size.height() - MARGIN);
        let said = format!("{} · {}", self.job.shop, self.job.machine);
        let (page, of) = (self.say(words::PAGE), self.say(words::OF));
        for (n, it) in self.pages.iter_mut().enumerate() {
            let to = Point::new(self.size.width() - MARGIN, y - 5.0);
            it.ops.push(Op::Line { from: Point::new(MARGIN, y - 5.0), to, pen: Pen::black(0.15) });
            it.ops.push(Op::Text(Text::new(MARGIN, y, SMALL, Style::Condensed, said.clone())));
            let number = format!("{page} {} {of} {count}", n + 1);
            let number = Text::new(self.size.width() - MARGIN, y, SMALL, Style::Condensed, number);
            it.ops.push(Op::Text(number.anchored(Anchor::Right)));
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "lines and columns are few")]
fn up(count: usize) -> f64 {
    count as f64
}

fn lines(text: &str, width: f64) -> Vec<String> {
    wrap(text, Style::Condensed, SMALL, width).into_iter().map(str::to_owned).collect()
}

/// Runs of neighbouring sizes in which no column changes: first and last of each.
fn groups(columns: &[Column], count: usize) -> Vec<(usize, usize)> {
    let same = |a: usize, b: usize| columns.iter().all(|column| column.values[a] == column.values[b]);
    let mut groups: Vec<(usize, usize)> = Vec::new();
    for n in 0..count {
        match groups.last_mut() {
            Some(group) if same(group.0, n) => group.1 = n,
            _ => groups.push((n, n)),
        }
    }
    groups
}

/// `9 D`, `9 C, 9 D`, or `9 C to 9 EE`
fn named(sizes: &[&Figured], from: usize, to: usize, until: &str) -> String {
    let size = |n: usize| sizes[n].checked.size.to_string();
    match to - from {
        0 => size(from),
        1 => format!("{}, {}", size(from), size(to)),
        _ => format!("{} {until} {}", size(from), size(to)),
    }
}

/// The first and the last of the sizes.
fn span(sizes: &[&Figured]) -> String {
    named(sizes, 0, sizes.len().saturating_sub(1), "–")
}
