//! Where the texts of a page stand: what a test asks so that nothing overlaps or leaves the margins.

use super::{Anchor, Document, Ink, Op, Page, Point, Text, width_mm};

/// How far letters reach above and below the baseline, in parts of the size.
const REACH: (f64, f64) = (0.76, 0.24);

const MM_PER_POINT: f64 = 25.4 / 72.0;

/// The box of a line of text, mm from the top left corner of its page.
#[derive(Debug, Clone, PartialEq)]
pub struct TextBox {
    pub content: String,
    /// In points.
    pub size: f64,
    pub ink: Ink,
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl TextBox {
    fn of(text: &Text, from: Point) -> Self {
        let long = width_mm(&text.content, text.style, text.size);
        let start = match text.anchor {
            Anchor::Left => 0.0,
            Anchor::Centre => -long / 2.0,
            Anchor::Right => -long,
        };
        let high = text.size * MM_PER_POINT;
        let (sin, cos) = text.turn.to_radians().sin_cos();
        let corner = |x: f64, y: f64| (from.x + text.at.x + x * cos + y * sin, from.y + text.at.y - x * sin + y * cos);
        let (up, down) = (-REACH.0 * high, REACH.1 * high);
        let corners = [corner(start, up), corner(start + long, up), corner(start, down), corner(start + long, down)];
        let of = |pick: fn(f64, f64) -> f64, first: f64, y: bool| {
            corners.iter().map(|corner| if y { corner.1 } else { corner.0 }).fold(first, pick)
        };
        Self {
            content: text.content.clone(),
            size: text.size,
            ink: text.ink,
            left: of(f64::min, f64::INFINITY, false),
            top: of(f64::min, f64::INFINITY, true),
            right: of(f64::max, f64::NEG_INFINITY, false),
            bottom: of(f64::max, f64::NEG_INFINITY, true),
        }
    }

    /// Whether two boxes share more than `slack` mm both ways.
    pub fn overlaps(&self, other: &TextBox, slack: f64) -> bool {
        let across = self.right.min(other.right) - self.left.max(other.left);
        let down = self.bottom.min(other.bottom) - self.top.max(other.top);
        across > slack && down > slack
    }
}

/// The boxes of all texts of a page, those of the drawings that it places too.
pub fn text_boxes(document: &Document, page: &Page) -> Vec<TextBox> {
    let mut boxes = Vec::new();
    gather(document, &page.ops, Point::default(), &mut boxes);
    boxes.retain(|text| !text.content.trim().is_empty());
    boxes
}

fn gather(document: &Document, ops: &[Op], from: Point, boxes: &mut Vec<TextBox>) {
    for op in ops {
        match op {
            Op::Text(text) => boxes.push(TextBox::of(text, from)),
            Op::Clip { ops, .. } => gather(document, ops, from, boxes),
            Op::Place { drawing, at } => {
                if let Some(drawing) = document.drawings.get(*drawing) {
                    gather(document, &drawing.ops, Point::new(from.x + at.x, from.y + at.y), boxes);
                }
            }
            _ => {}
        }
    }
}
