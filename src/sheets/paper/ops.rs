//! A page as plain data: what stands where, in millimetres from the top left corner.
//!
//! x runs to the right and y runs down, as one reads. Nothing here draws; [`super::write`]
//! does.

use super::{Hatch, Style};

/// A place on the page.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    pub x: f64,
    pub y: f64,
}

impl Point {
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
}

/// The paper that is in the tray.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Paper {
    #[default]
    A4,
    Letter,
    A3,
    Tabloid,
}

/// A paper, upright or turned on its side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct PageSize {
    pub paper: Paper,
    pub landscape: bool,
}

impl PageSize {
    pub const fn portrait(paper: Paper) -> Self {
        Self { paper, landscape: false }
    }

    pub const fn landscape(paper: Paper) -> Self {
        Self { paper, landscape: true }
    }

    /// Width in mm.
    pub const fn width(self) -> f64 {
        let (short, long) = self.sides();
        if self.landscape { long } else { short }
    }

    /// Height in mm.
    pub const fn height(self) -> f64 {
        let (short, long) = self.sides();
        if self.landscape { short } else { long }
    }

    const fn sides(self) -> (f64, f64) {
        match self.paper {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
            Paper::A3 => (297.0, 420.0),
            Paper::Tabloid => (279.4, 431.8),
        }
    }
}

/// How dark, in per cent of black.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ink(pub u8);

impl Ink {
    pub const BLACK: Ink = Ink(100);
    pub const WHITE: Ink = Ink(0);
}

/// How a line is broken, in mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Dash {
    #[default]
    Solid,
    Dashed {
        on: f64,
        off: f64,
    },
    /// Long, gap, short, gap: centre lines.
    Chain {
        long: f64,
        gap: f64,
        short: f64,
    },
}

/// What a line is drawn with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    pub width: f64,
    pub ink: Ink,
    pub dash: Dash,
}

impl Pen {
    /// A solid black line, `width` mm wide.
    pub const fn black(width: f64) -> Self {
        Self { width, ink: Ink::BLACK, dash: Dash::Solid }
    }

    pub const fn dashed(self, on: f64, off: f64) -> Self {
        Self { dash: Dash::Dashed { on, off }, ..self }
    }

    pub const fn inked(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }
}

/// What happens to an outline: filled, drawn, or first the one and then the other.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Paint {
    pub fill: Option<Ink>,
    pub stroke: Option<Pen>,
}

impl Paint {
    pub const fn fill(ink: Ink) -> Self {
        Self { fill: Some(ink), stroke: None }
    }

    pub const fn stroke(pen: Pen) -> Self {
        Self { fill: None, stroke: Some(pen) }
    }

    pub const fn both(ink: Ink, pen: Pen) -> Self {
        Self { fill: Some(ink), stroke: Some(pen) }
    }
}

/// Which point of a text stands at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Anchor {
    #[default]
    Left,
    Centre,
    Right,
}

/// A line of text. `at` is on the baseline, `size` in points, `turn` in degrees
/// counter-clockwise: 90 reads upwards.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    pub at: Point,
    pub size: f64,
    pub style: Style,
    pub anchor: Anchor,
    pub turn: f64,
    pub ink: Ink,
    pub content: String,
}

impl Text {
    /// Black, level, starting at its place.
    pub fn new(x: f64, y: f64, size: f64, style: Style, content: impl Into<String>) -> Self {
        Self {
            at: Point::new(x, y),
            size,
            style,
            anchor: Anchor::Left,
            turn: 0.0,
            ink: Ink::BLACK,
            content: content.into(),
        }
    }

    pub fn anchored(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    pub fn turned(self, turn: f64) -> Self {
        Self { turn, ..self }
    }

    pub fn inked(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }
}

/// One step along an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step {
    Move(Point),
    Line(Point),
    /// Two handles and the end of a cubic curve.
    Curve(Point, Point, Point),
    Close,
}

/// An outline of lines and cubic curves; several parts make holes (even-odd).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Path(pub Vec<Step>);

/// What a page shows, in the order in which it is laid down.
#[derive(Debug, Clone, PartialEq)]
pub enum Op {
    Text(Text),
    Line {
        from: Point,
        to: Point,
        pen: Pen,
    },
    Polyline {
        points: Vec<Point>,
        pen: Pen,
    },
    /// Closed rings; a ring within a ring is a hole.
    Polygon {
        rings: Vec<Vec<Point>>,
        paint: Paint,
    },
    Rect {
        at: Point,
        width: f64,
        height: f64,
        paint: Paint,
    },
    Circle {
        centre: Point,
        radius: f64,
        paint: Paint,
    },
    Path {
        path: Path,
        paint: Paint,
    },
    /// Closed rings, hatched for what they are made of, over white.
    Hatched {
        rings: Vec<Vec<Point>>,
        hatch: Hatch,
        outline: Option<Pen>,
    },
    /// What is drawn within a rectangle only.
    Clip {
        at: Point,
        width: f64,
        height: f64,
        ops: Vec<Op>,
    },
    /// A drawing of the document, its top left corner at `at`, at its own scale.
    Place {
        drawing: usize,
        at: Point,
    },
}

/// A drawing that several pages share; what lies outside its frame is cut off.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    pub width: f64,
    pub height: f64,
    pub ops: Vec<Op>,
}

/// How high a heading stands in the outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// At the left edge of the outline.
    Part,
    /// Under the part that came last; at the left edge if there was none.
    Sheet,
}

/// An entry of the outline that leads to the page that holds it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heading {
    pub level: Level,
    pub title: String,
}

impl Heading {
    pub fn part(title: impl Into<String>) -> Self {
        Self { level: Level::Part, title: title.into() }
    }

    pub fn sheet(title: impl Into<String>) -> Self {
        Self { level: Level::Sheet, title: title.into() }
    }
}

/// A page: its paper, what stands on it, the label that viewers show for its number, and
/// the headings of the outline that begin here.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    pub size: PageSize,
    pub ops: Vec<Op>,
    pub label: String,
    pub headings: Vec<Heading>,
}

/// Walks through all texts, those in clipped groups too.
pub(super) fn each_text<'a>(ops: &'a [Op], visit: &mut impl FnMut(&'a Text)) {
    for op in ops {
        match op {
            Op::Text(text) => visit(text),
            Op::Clip { ops, .. } => each_text(ops, visit),
            _ => {}
        }
    }
}
