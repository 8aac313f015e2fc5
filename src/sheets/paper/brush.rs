//! The brush that a page is drawn with: what it is set to, and what it has put down.
//!
//! Colours, widths and faces are set when they change only. Lines end flat at their points,
//! so that what is drawn 100 mm long measures 100 mm.

use printpdf::{
    Color, Greyscale, LineDashPattern, LineJoinStyle, LinePoint, Op as PdfOp, PaintMode, PdfFontHandle, Polygon,
    PolygonRing, Pt, WindingOrder,
};

use super::{Dash, Ink, Paint, Pen, Style};

const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// No length on paper is longer, in mm.
const LONGEST: f64 = 10_000.0;

/// Nothing is taken for granted at the start of a page.
#[derive(Clone, Copy, Default)]
struct Settings {
    fill: Option<Ink>,
    stroke: Option<Ink>,
    width: Option<f64>,
    dash: Option<Dash>,
    join: Option<LineJoinStyle>,
    face: Option<(Style, f32)>,
}

#[derive(Default)]
pub(super) struct Brush {
    pub ops: Vec<PdfOp>,
    now: Settings,
    before: Vec<Settings>,
    in_text: bool,
    /// The first length that was none.
    pub off_scale: Option<f64>,
}

impl Brush {
    /// Thousandths of a point are fine enough for paper and half the size of the file.
    pub fn points(&mut self, mm: f64) -> f32 {
        if mm.is_nan() || mm.abs() > LONGEST {
            self.off_scale.get_or_insert(mm);
        }
        rounded(mm * POINTS_PER_MM)
    }

    pub fn push(&mut self, op: PdfOp) {
        self.ops.push(op);
    }

    pub fn enter_text(&mut self) {
        if !self.in_text {
            self.in_text = true;
            self.push(PdfOp::StartTextSection);
        }
    }

    pub fn leave_text(&mut self) {
        if self.in_text {
            self.in_text = false;
            self.push(PdfOp::EndTextSection);
        }
    }

    pub fn save(&mut self) {
        self.leave_text();
        self.before.push(self.now);
        self.push(PdfOp::SaveGraphicsState);
    }

    pub fn restore(&mut self) {
        self.leave_text();
        self.now = self.before.pop().unwrap_or_default();
        self.push(PdfOp::RestoreGraphicsState);
    }

    pub fn face(&mut self, style: Style, size: f64) {
        let size = self.points(size / POINTS_PER_MM);
        if self.now.face != Some((style, size)) {
            self.now.face = Some((style, size));
            self.push(PdfOp::SetFont { font: PdfFontHandle::External(style.font_id()), size: Pt(size) });
        }
    }

    pub fn fill(&mut self, ink: Ink) {
        if self.now.fill != Some(ink) {
            self.now.fill = Some(ink);
            self.push(PdfOp::SetFillColor { col: grey(ink) });
        }
    }

    pub fn stroke(&mut self, pen: &Pen, join: LineJoinStyle) {
        if self.now.stroke != Some(pen.ink) {
            self.now.stroke = Some(pen.ink);
            self.push(PdfOp::SetOutlineColor { col: grey(pen.ink) });
        }
        if self.now.width != Some(pen.width) {
            self.now.width = Some(pen.width);
            let pt = Pt(self.points(pen.width));
            self.push(PdfOp::SetOutlineThickness { pt });
        }
        if self.now.dash != Some(pen.dash) {
            self.now.dash = Some(pen.dash);
            let dash = self.dash(pen.dash);
            self.push(PdfOp::SetLineDashPattern { dash });
        }
        if self.now.join != Some(join) {
            self.now.join = Some(join);
            self.push(PdfOp::SetLineJoinStyle { join });
        }
    }

    pub fn set(&mut self, paint: &Paint, join: LineJoinStyle) {
        if let Some(ink) = paint.fill {
            self.fill(ink);
        }
        if let Some(pen) = &paint.stroke {
            self.stroke(pen, join);
        }
    }

    fn dash(&mut self, dash: Dash) -> LineDashPattern {
        let lengths = match dash {
            Dash::Solid => vec![],
            Dash::Dashed { on, off } => vec![on, off],
            Dash::Chain { long, gap, short } => vec![long, gap, short, gap],
        };
        let lengths: Vec<f32> = lengths.into_iter().map(|mm| self.points(mm)).collect();
        LineDashPattern::new(0.0, &lengths)
    }

    /// Rings in one path (even-odd).
    pub fn polygon(&mut self, rings: impl Iterator<Item = Vec<LinePoint>>, mode: PaintMode) {
        let rings = rings.filter(|points| !points.is_empty());
        let rings: Vec<_> = rings.map(|points| PolygonRing { points }).collect();
        if !rings.is_empty() {
            let polygon = Polygon { rings, mode, winding_order: WindingOrder::EvenOdd };
            self.push(PdfOp::DrawPolygon { polygon });
        }
    }
}

/// To a thousandth, and never minus nought.
fn rounded(value: f64) -> f32 {
    ((value * 1000.0).round() / 1000.0) as f32 + 0.0
}

fn grey(ink: Ink) -> Color {
    let light = f32::from(100 - ink.0.min(100)) / 100.0;
    Color::Greyscale(Greyscale::new(light, None))
}
