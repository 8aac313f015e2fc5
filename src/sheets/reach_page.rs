//! How far the rows get, drawn: for each machine, outer and midsole what lies above the outsole, and what is left for it
//! until the machine sews no more.

use super::drawings::hatch;
use super::paper::{self, Anchor, Document, Heading, Op, Page, PageSize, Paper, Pen, Point, Style, Text};
use super::values::{decimals, mm};
use super::words::{self, Lang, Word, cards};
use crate::finding::Term;
use crate::remedy::reach::{Limit, Reach, Stitches};

const MARGIN: f64 = 12.0;
const SMALL: f64 = 9.0;
/// mm on the paper for a mm of the stack.
const SCALE: f64 = 5.0;
/// Where the bars start.
const LEFT: f64 = MARGIN + 62.0;
/// What a bar takes, with its words.
const ROW: f64 = 19.0;

/// The page of how far some models can go.
#[derive(Debug)]
pub struct ReachJob<'a> {
    /// The shop's name.
    pub shop: &'a str,
    /// The models.
    pub reaches: &'a [&'a Reach],
    /// The paper.
    pub paper: Paper,
    /// The language.
    pub lang: Lang,
}

/// Lays it out; `None` if no model has rows that could go through an outsole.
#[must_use]
pub fn reach_page(job: &ReachJob<'_>) -> Option<Document> {
    let mut plot = Plot { job, size: PageSize::landscape(job.paper), pages: Vec::new(), y: 0.0 };
    for reach in job.reaches.iter().filter(|reach| !reach.stitches.is_empty()) {
        plot.model(reach);
    }
    plot.feet();
    if plot.pages.is_empty() {
        return None;
    }
    let models = job.reaches.iter().map(|reach| reach.model.clone());
    Some(Document {
        title: format!("{} {}", plot.say(cards::REACH), models.clone().collect::<Vec<_>>().join(", ")),
        author: job.shop.to_owned(),
        subject: plot.say(cards::REACH).to_owned(),
        keywords: models.collect(),
        pages: plot.pages,
        ..super::document(job.lang)
    })
}

struct Plot<'j> {
    job: &'j ReachJob<'j>,
    size: PageSize,
    pages: Vec<Page>,
    y: f64,
}

impl Plot<'_> {
    fn say(&self, word: Word) -> &'static str {
        word.say(self.job.lang)
    }

    fn right(&self) -> f64 {
        self.size.width() - MARGIN
    }

    fn push(&mut self, op: Op) {
        if let Some(page) = self.pages.last_mut() {
            page.ops.push(op);
        }
    }

    fn text(&mut self, at: (f64, f64), points: f64, style: Style, text: impl Into<String>) {
        self.push(Op::Text(Text::new(at.0, at.1, points, style, text)));
    }

    fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: Pen) {
        self.push(Op::Line { from: Point::new(from.0, from.1), to: Point::new(to.0, to.1), pen });
    }

    /// A page with the model at its head.
    fn page(&mut self, reach: &Reach) {
        let number = self.pages.len() + 1;
        let label = format!("{} {number}", reach.model);
        let headings = vec![Heading::sheet(reach.model.clone())];
        self.pages.push(Page { size: self.size, ops: Vec::new(), label, headings });
        let title = self.say(cards::REACH);
        let word = paper::width_mm(title, Style::Condensed, 16.0);
        let room = self.right() - MARGIN - word - 6.0;
        let points = paper::fit(&reach.model, Style::Bold, 30.0, 12.0, room).unwrap_or(12.0);
        self.text((MARGIN, MARGIN + 10.0), points, Style::Bold, reach.model.clone());
        let title = Text::new(self.right(), MARGIN + 10.0, 16.0, Style::Condensed, title).anchored(Anchor::Right);
        self.push(Op::Text(title));
        self.y = MARGIN + 14.0;
        self.line((MARGIN, self.y), (self.right(), self.y), Pen::black(0.8));
        let said = format!("{} 5 : 1", self.say(cards::REACH_SAYS));
        self.text((MARGIN, self.y + 5.0), 10.0, Style::Condensed, said);
        self.y += 12.0;
    }

    fn model(&mut self, reach: &Reach) {
        self.page(reach);
        for it in &reach.stitches {
            if self.y + ROW > self.size.height() - MARGIN - 8.0 {
                self.page(reach);
            }
            self.bar(it);
            self.y += ROW;
        }
    }

    /// One machine with one outer and midsole.
    fn bar(&mut self, it: &Stitches) {
        let (top, bottom) = (self.y, self.y + 9.0);
        self.label(it);
        let mut x = LEFT;
        for term in &it.above.terms {
            let to = x + term.nominal() * SCALE;
            self.rect((x, to), (top, bottom), term);
            x = to;
        }
        let end = LEFT + it.takes() * SCALE;
        if end > x {
            let ring = vec![Point::new(x, top), Point::new(end, top), Point::new(end, bottom), Point::new(x, bottom)];
            self.push(Op::Polygon {
                rings: vec![ring],
                paint: paper::Paint { fill: None, stroke: Some(Pen::black(0.3).dashed(1.0, 1.0)) },
            });
        }
        self.line((end, top - 2.0), (end, bottom), Pen::black(1.0));
        let left = if it.passes > 0.0 {
            decimals(format!("{:.2} / {:.2} mm", it.passes, it.nominal), self.job.lang)
        } else {
            "–".to_owned()
        };
        self.text((end.max(x) + 2.0, top + 6.4), 13.0, Style::CondensedBold, left);
        let terms: Vec<String> = it.above.terms.iter().map(|term| said(term, self.job.lang)).collect();
        let words = paper::wrap(&terms.join(" · "), Style::Condensed, SMALL, self.right() - LEFT)
            .first()
            .map(|line| (*line).to_owned());
        self.text((LEFT, bottom + 4.2), SMALL, Style::Condensed, words.unwrap_or_default());
    }

    /// What the bar is of, in three lines.
    fn label(&mut self, it: &Stitches) {
        let slip = it.slip.as_ref().map_or_else(|| self.say(cards::NO_SLIP).to_owned(), |slip| format!("+ {slip}"));
        let takes = if it.limit == Limit::Locks { cards::LOCKS } else { cards::SEWS };
        let lines = [
            (Style::CondensedBold, format!("{}, {} {}", it.machine, self.say(takes), mm(it.takes(), self.job.lang))),
            (Style::Condensed, it.outer.clone()),
            (Style::Condensed, format!("{} {slip}", it.midsole)),
        ];
        for (y, (style, text)) in [3.4, 7.4, 11.4].into_iter().zip(lines) {
            let points = paper::fit(&text, style, 10.0, SMALL, LEFT - MARGIN - 3.0);
            let shown = if points.is_some() {
                text
            } else {
                paper::wrap(&text, style, SMALL, LEFT - MARGIN - 3.0)[0].to_owned()
            };
            self.text((MARGIN, self.y + y), points.unwrap_or(SMALL), style, shown);
        }
    }

    fn rect(&mut self, (left, right): (f64, f64), (top, bottom): (f64, f64), term: &Term) {
        let ring =
            vec![Point::new(left, top), Point::new(right, top), Point::new(right, bottom), Point::new(left, bottom)];
        self.push(Op::Hatched { rings: vec![ring], hatch: hatch(&term.what), outline: Some(Pen::black(0.3)) });
    }

    /// Shop and page n of m.
    fn feet(&mut self) {
        let (count, y, right) = (self.pages.len(), self.size.height() - MARGIN, self.right());
        let (page, of) = (self.say(words::PAGE), self.say(words::OF));
        for (n, it) in self.pages.iter_mut().enumerate() {
            let pen = Pen::black(0.15);
            it.ops.push(Op::Line { from: Point::new(MARGIN, y - 5.0), to: Point::new(right, y - 5.0), pen });
            it.ops.push(Op::Text(Text::new(MARGIN, y, SMALL, Style::Condensed, self.job.shop)));
            let number = Text::new(right, y, SMALL, Style::Condensed, format!("{page} {} {of} {count}", n + 1));
            it.ops.push(Op::Text(number.anchored(Anchor::Right)));
        }
    }
}

/// `vamp (oil-tan) 2.58`
fn said(term: &Term, lang: Lang) -> String {
    decimals(format!("{} {:.2}", term.what, term.nominal()), lang)
}
