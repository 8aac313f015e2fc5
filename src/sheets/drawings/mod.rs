//! Drawings to a stated scale, one file a drawing. Here is what they share: labels that never lie over each other, dimension
//! lines, the scale and its word, the hatch of a material.

mod bottom;
mod facing;
mod heel;
mod heel_plan;
mod lap;
mod lasting;
mod nail_section;
mod profile;
mod section;
mod skives;

pub(super) use bottom::{Bench, bottom, bottom_height};
pub(super) use facing::Facing;
pub(super) use heel::Heel;
pub(super) use heel_plan::HeelPlan;
pub(super) use lap::Lap;
pub(super) use lasting::Lasting;
pub(super) use nail_section::NailSection;
pub(super) use profile::Profile;
pub(super) use section::{section, section_height};
pub(super) use skives::{Skive, Skives};

use super::paper::{Anchor, Hatch, Op, Pen, Point, Style, Text, width_mm};
use super::words::{self, Lang, Word};
use crate::finding::{LayerPiece, Lifted, Material, Piece};

/// Points of a label.
const LABEL: f64 = 9.0;
/// From label to label in a column, mm.
const LABEL_LINE: f64 = 4.4;
/// What a drawing's title takes, mm.
const TITLE: f64 = 8.0;
/// Points of a drawing's title.
const TITLE_POINTS: f64 = 11.0;
const THIN: Pen = Pen::black(0.15);

/// A scale as it is said: paper and boot.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Scale {
    paper: f64,
    boot: f64,
}

impl Scale {
    /// Millimetres on paper for one on the boot.
    fn by(self) -> f64 {
        self.paper / self.boot
    }

    fn said(self) -> String {
        format!("{} : {}", self.paper, self.boot)
    }

    /// The first of some that shows `length` mm in `room` mm; the last, if none does.
    fn largest(scales: &[Scale], length: f64, room: f64) -> Scale {
        let fits = scales.iter().find(|scale| length * scale.by() <= room);
        fits.or(scales.last()).copied().unwrap_or(Scale { paper: 1.0, boot: 1.0 })
    }
}

const fn scale(paper: f64, boot: f64) -> Scale {
    Scale { paper, boot }
}

fn label(x: f64, y: f64, text: impl Into<String>, anchor: Anchor) -> Op {
    Op::Text(Text::new(x, y, LABEL, Style::Condensed, text).anchored(anchor))
}

fn line(from: Point, to: Point, pen: Pen) -> Op {
    Op::Line { from, to, pen }
}

/// A drawing's title with its scale.
fn title(at: Point, title: &str, scale: &str, lang: Lang) -> Op {
    Op::Text(Text::new(at.x, at.y + 3.6, TITLE_POINTS, Style::Bold, format!("{title}{}", scaled(scale, lang))))
}

/// A drawing's title of a name that may be long: cut so that the scale has room behind it.
fn title_within(width: f64, at: Point, name: &str, scale: &str, lang: Lang) -> Op {
    let room = width - width_mm(&scaled(scale, lang), Style::Bold, TITLE_POINTS);
    title(at, &cut(name, Style::Bold, TITLE_POINTS, room), scale, lang)
}

fn scaled(scale: &str, lang: Lang) -> String {
    format!(", {} {scale}", words::of(words::SCALE, lang))
}

/// Moves ascending places apart so that each has its `size` for itself and all stay between `from` and `to`, if they can.
fn apart(wanted: &[f64], sizes: &[f64], (from, to): (f64, f64)) -> Vec<f64> {
    let mut places = wanted.to_vec();
    let mut least = from;
    for (place, size) in places.iter_mut().zip(sizes) {
        *place = place.max(least + size / 2.0);
        least = *place + size / 2.0;
    }
    let mut most = to;
    for (place, size) in places.iter_mut().zip(sizes).rev() {
        *place = place.min(most - size / 2.0);
        most = *place - size / 2.0;
    }
    places
}

/// A label in a column or a row, and the place that its leader points to.
struct Pointed {
    at: Point,
    text: String,
}

/// Labels in a column beginning at `x`, each with a leader from its place; to the left of it they end there.
fn column(mut labels: Vec<Pointed>, x: f64, anchor: Anchor, between: (f64, f64)) -> Vec<Op> {
    labels.sort_by(|a, b| a.at.y.total_cmp(&b.at.y));
    let wanted: Vec<f64> = labels.iter().map(|label| label.at.y).collect();
    let places = apart(&wanted, &vec![LABEL_LINE; labels.len()], between);
    let back = if anchor == Anchor::Right { 1.0 } else { -1.0 };
    let mut ops = Vec::new();
    for (pointed, y) in labels.into_iter().zip(places) {
        let knee = Point::new(x + 5.0 * back, y);
        ops.push(Op::Polyline { points: vec![pointed.at, knee, Point::new(x + back, y)], pen: THIN });
        ops.push(label(x, y + 1.1, pointed.text, anchor));
    }
    ops
}

/// Labels in a row with their baseline at `y`, below what they point to.
fn row(labels: Vec<Pointed>, y: f64, between: (f64, f64)) -> Vec<Op> {
    let wanted: Vec<f64> = labels.iter().map(|label| label.at.x).collect();
    let sizes: Vec<f64> = labels.iter().map(|label| width_mm(&label.text, Style::Condensed, LABEL) + 2.0).collect();
    let mut ops = Vec::new();
    for (pointed, x) in labels.into_iter().zip(apart(&wanted, &sizes, between)) {
        ops.push(line(pointed.at, Point::new(x, y - 3.4), THIN));
        ops.push(label(x, y, pointed.text, Anchor::Centre));
    }
    ops
}

/// A dimension line upright at `x`, with ticks at its ends.
fn upright(x: f64, top: f64, bottom: f64) -> Vec<Op> {
    let tick = |y: f64| line(Point::new(x - 1.0, y), Point::new(x + 1.0, y), Pen::black(0.3));
    vec![line(Point::new(x, top), Point::new(x, bottom), THIN), tick(top), tick(bottom)]
}

/// A dimension line along `y`, with ticks at its ends.
fn level(y: f64, left: f64, right: f64) -> Vec<Op> {
    let tick = |x: f64| line(Point::new(x, y - 1.0), Point::new(x, y + 1.0), Pen::black(0.3));
    vec![line(Point::new(left, y), Point::new(right, y), THIN), tick(left), tick(right)]
}

/// A name as far as it has room: the whole of it stands in the tables.
fn fitted(name: &str, room: f64) -> String {
    cut(name, Style::Condensed, LABEL, room)
}

fn cut(name: &str, style: Style, points: f64, room: f64) -> String {
    let fits = |text: &str| width_mm(text, style, points) <= room;
    if fits(name) {
        return name.to_owned();
    }
    let mut kept: String = name.to_owned();
    while kept.pop().is_some() && !fits(&format!("{kept}…")) {}
    kept + "…"
}

/// What lies in a stack in the language of the sheet, without what it is made of.
fn short(what: &Piece, lang: Lang) -> String {
    words::short(what, lang)
}

/// One of some layers of the heel's base.
pub(super) fn lifted(which: Lifted) -> Word {
    match which {
        Lifted::Wedges => words::WEDGE,
        Lifted::Lifts => words::LIFT,
        Lifted::ThinLifts => words::THIN_LIFT,
    }
}

/// The hatch of what something is made of, whatever it is called. Stocked filler, a film of adhesive and a channel have no
/// strokes.
pub(super) fn hatch(what: &Piece) -> Hatch {
    match (what.material(), what.of_layer()) {
        (Some(Material::Rubber), Some(LayerPiece::Lug)) => Hatch::LugRubber,
        (Some(Material::Rubber), _) => Hatch::Rubber,
        (Some(Material::SoleLeather), _) => Hatch::SoleLeather,
        (Some(Material::UpperLeather), _) => Hatch::UpperLeather,
        (Some(Material::Filler | Material::Adhesive) | None, _) => Hatch::Plain,
    }
}
