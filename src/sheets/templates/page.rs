//! Templates on paper: one page each where the paper holds it, tiles that overlap where it does not.
//!
//! Every page has its head, the key of its layers, 100 mm bars both ways and its foot outside the window in which the template
//! lies, so that no word lies in a drawing.

use super::super::paper::{
    Anchor, Heading, Ink, Op, Page, PageSize, Paint, Paper, Pen, Point, Style, Text, fit, width_mm, wrap,
};
use super::super::words::{self, templates as said};
use super::TemplateJob;
use super::shape::{Layer, Mark, Shape};
use kurbo::Rect;

const MARGIN: f64 = 12.0;
const SMALL: f64 = 9.0;
const LINE: f64 = 4.4;
/// What neighbouring tiles share, mm.
const OVERLAP: f64 = 10.0;
/// Room at the left for the upright bar, mm.
const BAR_ROOM: f64 = 12.0;
const BAR: Pen = Pen::black(0.45);
const HUNDRED: f64 = 100.0;
const FAINT: Ink = Ink(16);

/// A paper, its feet and the window in which templates lie.
struct Sheet<'j> {
    job: &'j TemplateJob<'j>,
    size: PageSize,
    foot: Vec<String>,
}

/// One tile of a shape: its letter, if there are more, and its top left corner in the shape's mm.
struct Tile {
    letter: Option<String>,
    x: f64,
    y: f64,
}

pub(super) fn pages(job: &TemplateJob<'_>, shapes: &[Shape]) -> Vec<Page> {
    let size = match job.paper {
        Paper::A3 | Paper::Tabloid => PageSize::landscape(job.paper),
        Paper::A4 | Paper::Letter => PageSize::portrait(job.paper),
    };
    let foot = foot_lines(job, size.width() - 2.0 * MARGIN - 36.0);
    let sheet = Sheet { job, size, foot };
    let mut pages: Vec<Page> = shapes.iter().flat_map(|shape| sheet.shape(shape)).collect();
    sheet.numbers(&mut pages);
    pages
}

fn foot_lines(job: &TemplateJob<'_>, room: f64) -> Vec<String> {
    let text = job.identity().join(" · ");
    wrap(&text, Style::Condensed, SMALL, room).into_iter().map(str::to_owned).collect()
}

fn rows(lines: usize) -> f64 {
    f64::from(u32::try_from(lines).unwrap_or_default()) * LINE
}

impl Sheet<'_> {
    fn width(&self) -> f64 {
        self.size.width() - 2.0 * MARGIN
    }

    fn text(&self, x: f64, y: f64, size: f64, style: Style, text: impl Into<String>) -> Op {
        Op::Text(Text::new(x, y, size, style, text))
    }

    fn foot_top(&self) -> f64 {
        self.size.height() - MARGIN - rows(self.foot.len()) - 1.6
    }

    /// All pages of a shape.
    fn shape(&self, shape: &Shape) -> Vec<Page> {
        let (head, top) = self.head(shape);
        // The level bar lies between the window and the foot.
        let window = Rect::new(MARGIN + BAR_ROOM, top, self.size.width() - MARGIN, self.foot_top() - 9.0);
        let bounds = shape.bounds().inset(1.0);
        let tiles = tiles(bounds, window);
        let several = tiles.len() > 1;
        tiles
            .iter()
            .enumerate()
            .map(|(n, tile)| {
                let mut ops = Vec::new();
                if self.job.refused {
                    ops.push(self.unreleased());
                }
                ops.extend(head.iter().cloned());
                if let Some(letter) = &tile.letter {
                    let last = tiles.last().and_then(|tile| tile.letter.as_ref()).unwrap_or(letter);
                    let text = format!("{} {letter} / A–{last}", said::TILE.say(self.job.lang));
                    let right = self.size.width() - MARGIN;
                    ops.push(Op::Text(
                        Text::new(right, MARGIN + 12.5, 14.0, Style::Bold, text).anchored(Anchor::Right),
                    ));
                }
                let place = |p: kurbo::Point| Point::new(window.x0 + p.x - tile.x, window.y0 + p.y - tile.y);
                let drawn = shape.layers.iter().flat_map(|layer| drawn(layer, &place)).collect();
                let at = Point::new(window.x0, window.y0);
                ops.push(Op::Clip { at, width: window.width(), height: window.height(), ops: drawn });
                ops.extend(shape.layers.iter().flat_map(|layer| said_there(layer, window, &place)));
                if several {
                    ops.extend(crosses(window));
                }
                ops.extend(self.bars(window));
                let headings = if n == 0 { vec![Heading::sheet(shape.title)] } else { Vec::new() };
                let label = tile.letter.as_ref().map_or(shape.id.to_owned(), |letter| format!("{} {letter}", shape.id));
                Page { size: self.size, ops, label, headings }
            })
            .collect()
    }

    /// Title, what to do before use, notes and the key of the layers; and where they end, mm from the top.
    fn head(&self, shape: &Shape) -> (Vec<Op>, f64) {
        let job = self.job;
        let title = format!("{} · {} · {}", shape.title, job.foot.say(job.lang), job.build.size);
        let mut ops = vec![self.text(MARGIN, MARGIN + 6.0, 18.0, Style::Bold, title.clone())];
        // The model stands in the corner, as large as the title leaves room.
        let room = self.width() - width_mm(&title, Style::Bold, 18.0) - 8.0;
        let model = &job.build.model.name;
        if let Some(points) = fit(model, Style::Bold, 18.0, SMALL, room) {
            let right = self.size.width() - MARGIN;
            ops.push(Op::Text(
                Text::new(right, MARGIN + 6.0, points, Style::Bold, model.clone()).anchored(Anchor::Right),
            ));
        }
        ops.push(self.text(MARGIN, MARGIN + 12.5, 11.0, Style::CondensedBold, said::FULL_SIZE.say(job.lang)));
        let mut y = MARGIN + 18.0;
        for line in wrap(&shape.notes.join(" · "), Style::Condensed, 10.0, self.width()) {
            ops.push(self.text(MARGIN, y, 10.0, Style::Condensed, line));
            y += LINE + 0.4;
        }
        if job.refused {
            let why = [vec![words::of(words::NOT_RELEASED, job.lang).to_owned()], job.reasons()].concat().join(" · ");
            for line in wrap(&why, Style::CondensedBold, 10.0, self.width()) {
                ops.push(self.text(MARGIN, y, 10.0, Style::CondensedBold, line));
                y += LINE + 0.4;
            }
        }
        let mut x = MARGIN;
        // What says itself where it lies needs no key.
        let keyed = |layer: &&Layer| !layer.marks.iter().any(|mark| matches!(mark, Mark::Word { .. }));
        for layer in shape.layers.iter().filter(keyed) {
            let room = width_mm(&layer.says, Style::Condensed, SMALL) + 15.0;
            if x > MARGIN && x + room > self.size.width() - MARGIN {
                (x, y) = (MARGIN, y + LINE);
            }
            let line = Op::Line { from: Point::new(x, y - 1.1), to: Point::new(x + 8.0, y - 1.1), pen: layer.pen };
            let dot = matches!(layer.marks.first(), Some(Mark::Dot { .. }));
            let centre = Point::new(x + 4.0, y - 1.1);
            ops.push(if dot { Op::Circle { centre, radius: 0.8, paint: Paint::stroke(layer.pen) } } else { line });
            ops.push(self.text(x + 9.5, y, SMALL, Style::Condensed, layer.says.clone()));
            x += room;
        }
        (ops, y + 3.0)
    }

    /// 100 mm upright at the left and level at the bottom, with ends square to them.
    fn bars(&self, window: Rect) -> Vec<Op> {
        let line = |x0: f64, y0: f64, x1: f64, y1: f64| Op::Line {
            from: Point::new(x0, y0),
            to: Point::new(x1, y1),
            pen: BAR,
        };
        let (x, y) = (MARGIN + 6.0, window.y0 + 2.0);
        let (left, low) = (window.x0, window.y1 + 6.0);
        let (foot, right) = (y + HUNDRED, left + HUNDRED);
        let label = |x: f64, y: f64| Text::new(x, y, SMALL, Style::Condensed, "100 mm");
        vec![
            line(x, y, x, foot),
            line(x - 1.5, y, x + 1.5, y),
            line(x - 1.5, foot, x + 1.5, foot),
            Op::Text(label(x - 1.6, y + 60.0).turned(90.0)),
            line(left, low, right, low),
            line(left, low - 1.5, left, low + 1.5),
            line(right, low - 1.5, right, low + 1.5),
            Op::Text(label(right + 3.0, low + 1.1)),
        ]
    }

    /// NOT RELEASED across the page, behind everything that follows.
    fn unreleased(&self) -> Op {
        let word = words::of(words::NOT_RELEASED, self.job.lang);
        let (width, height) = (self.size.width(), self.size.height());
        let turn = (height / width).atan();
        let points = (width.hypot(height) * 0.72 / width_mm(word, Style::Bold, 1.0) * 10.0).floor() / 10.0;
        let drop = points * 25.4 / 72.0 * Style::CAP_HEIGHT / 2.0;
        let at = (width / 2.0 + drop * turn.sin(), height / 2.0 + drop * turn.cos());
        let text = Text::new(at.0, at.1, points, Style::Bold, word).anchored(Anchor::Centre);
        Op::Text(text.turned(turn.to_degrees()).inked(FAINT))
    }

    /// The foot of every page, and page n of m.
    fn numbers(&self, pages: &mut [Page]) {
        let (count, top, right) = (pages.len(), self.foot_top(), self.size.width() - MARGIN);
        let (page, of) = (words::of(words::PAGE, self.job.lang), words::of(words::OF, self.job.lang));
        for (n, sheet) in pages.iter_mut().enumerate() {
            let (from, to) = (Point::new(MARGIN, top), Point::new(right, top));
            sheet.ops.push(Op::Line { from, to, pen: Pen::black(0.15) });
            for (k, line) in self.foot.iter().enumerate() {
                sheet.ops.push(self.text(MARGIN, top + rows(k + 1), SMALL, Style::Condensed, line.clone()));
            }
            let text = format!("{page} {} {of} {count}", n + 1);
            let number = Text::new(right, top + LINE, SMALL, Style::CondensedBold, text).anchored(Anchor::Right);
            sheet.ops.push(Op::Text(number));
        }
    }
}

fn drawn(layer: &Layer, place: &impl Fn(kurbo::Point) -> Point) -> Vec<Op> {
    let op = |mark: &Mark| match mark {
        Mark::Line(points) => Some(Op::Polyline { points: points.iter().map(|p| place(*p)).collect(), pen: layer.pen }),
        Mark::Dot { centre, radius } => {
            Some(Op::Circle { centre: place(*centre), radius: *radius, paint: Paint::stroke(layer.pen) })
        }
        Mark::Word { .. } => None,
    };
    layer.marks.iter().filter_map(op).collect()
}

/// Words stand whole on the tile on which they begin.
fn said_there(layer: &Layer, window: Rect, place: &impl Fn(kurbo::Point) -> Point) -> Vec<Op> {
    let word = |mark: &Mark| {
        let Mark::Word { at, says } = mark else { return None };
        let at = place(*at);
        let text = Text::new(at.x, at.y, SMALL, Style::Condensed, says.clone());
        window.contains(kurbo::Point::new(at.x, at.y)).then_some(Op::Text(text))
    };
    layer.marks.iter().filter_map(word).collect()
}

/// One tile in the middle of the window if that holds the shape, else as many as it takes, from the heel on.
fn tiles(bounds: Rect, window: Rect) -> Vec<Tile> {
    let starts = |from: f64, long: f64, room: f64| -> Vec<f64> {
        if long <= room {
            return vec![from - (room - long) / 2.0];
        }
        let mut starts = vec![from];
        while starts[starts.len() - 1] + room < from + long {
            starts.push(starts[starts.len() - 1] + room - OVERLAP);
        }
        starts
    };
    let across = starts(bounds.x0, bounds.width(), window.width());
    let down = starts(bounds.y0, bounds.height(), window.height());
    let several = across.len() * down.len() > 1;
    let places = down.iter().flat_map(|y| across.iter().map(|x| (*x, *y)));
    places.zip(letters()).map(|((x, y), letter)| Tile { letter: several.then_some(letter), x, y }).collect()
}

/// A to Z, then AA, AB and so on.
fn letters() -> impl Iterator<Item = String> {
    let first = ('A'..='Z').map(String::from);
    let further = ('A'..='Z').flat_map(|first| ('A'..='Z').map(move |second| format!("{first}{second}")));
    first.chain(further)
}

/// Crosses in the middle of what neighbours share: those of two tiles lie on each other.
fn crosses(window: Rect) -> Vec<Op> {
    let half = OVERLAP / 2.0;
    let pen = Pen::black(0.12);
    let mut ops = Vec::new();
    for x in [window.x0 + half, window.x1 - half] {
        for y in [window.y0 + half, window.y1 - half] {
            ops.push(Op::Line { from: Point::new(x - 4.0, y), to: Point::new(x + 4.0, y), pen });
            ops.push(Op::Line { from: Point::new(x, y - 4.0), to: Point::new(x, y + 4.0), pen });
        }
    }
    ops
}
