//! Draws the operations of a page with printpdf: points for millimetres, y upwards.

use std::collections::BTreeSet;

use printpdf::{
    CurTransMat, Line, LineJoinStyle, Op as PdfOp, PaintMode, Point as PdfPoint, Pt, Rect, TextItem, TextMatrix,
    XObjectId, XObjectTransform,
};

use super::art::{self, Gallery};
use super::brush::Brush;
use super::curve::{self, Ring};
use super::face::printed;
use super::{Anchor, Drawing, Error, Hatch, Ink, Op, Paint, Pen, Point, Text, Typefaces, segments, width_mm};

/// The name under which pages call a shared drawing.
pub(super) fn drawing_id(drawing: usize) -> XObjectId {
    XObjectId(format!("D{drawing}"))
}

/// A page, or a shared drawing, as drawing operations; its size in points.
pub(super) struct Leaf {
    pub width: f32,
    pub height: f32,
    pub ops: Vec<PdfOp>,
}

/// What a page can call beside drawing itself.
pub(super) struct Shared<'a> {
    pub drawings: &'a [Drawing],
    pub gallery: &'a mut Gallery,
}

/// One page, or one shared drawing, in the making.
pub(super) struct Sheet<'a> {
    label: &'a str,
    width: f64,
    height: f64,
    faces: &'a Typefaces,
    /// A drawing calls nothing.
    shared: Option<Shared<'a>>,
    brush: Brush,
}

impl<'a> Sheet<'a> {
    pub fn new(label: &'a str, (width, height): (f64, f64), faces: &'a Typefaces) -> Self {
        Self { label, width, height, faces, shared: None, brush: Brush::default() }
    }

    pub fn calling(self, shared: Shared<'a>) -> Self {
        Self { shared: Some(shared), ..self }
    }

    /// Draws it all and hands over what is to be encoded.
    pub fn finish(mut self, ops: &[Op]) -> Result<Leaf, Error> {
        let width = self.brush.points(self.width);
        let height = self.brush.points(self.height);
        self.draw(ops)?;
        self.brush.leave_text();
        match self.brush.off_scale {
            None => Ok(Leaf { width, height, ops: self.brush.ops }),
            Some(value) => Err(Error::OffTheScale { page: self.label.into(), value }),
        }
    }

    /// Long runs of lines and areas become art, the rest is drawn on the page.
    fn draw(&mut self, ops: &[Op]) -> Result<(), Error> {
        for run in ops.chunk_by(|a, b| art::weight(a).is_some() == art::weight(b).is_some()) {
            if self.shared.is_some() && art::worth_it(run) {
                self.art(run)?;
            } else {
                run.iter().try_for_each(|op| self.op(op))?;
            }
        }
        Ok(())
    }

    fn art(&mut self, run: &[Op]) -> Result<(), Error> {
        let width = self.brush.points(self.width);
        let height = self.brush.points(self.height);
        let mut art = Sheet::new(self.label, (self.width, self.height), self.faces);
        art.draw(run)?;
        self.brush.off_scale = self.brush.off_scale.or(art.brush.off_scale);
        if let Some(shared) = &mut self.shared {
            let id = shared.gallery.keep(&art.brush.ops, width, height, self.faces)?;
            self.call(id, 0.0, 0.0);
        }
        Ok(())
    }

    fn call(&mut self, id: XObjectId, x: f32, y: f32) {
        self.brush.leave_text();
        let transform = XObjectTransform {
            translate_x: Some(Pt(x)),
            translate_y: Some(Pt(y)),
            no_auto_scale: true,
            ..XObjectTransform::default()
        };
        self.brush.push(PdfOp::UseXobject { id, transform });
    }

    fn op(&mut self, op: &Op) -> Result<(), Error> {
        match op {
            Op::Text(text) => return self.text(text),
            Op::Line { from, to, pen } => self.polyline(&[*from, *to], pen),
            Op::Polyline { points, pen } => self.polyline(points, pen),
            Op::Polygon { rings, paint } => {
                let rings = self.rings(rings);
                self.outline(rings, paint, LineJoinStyle::Miter);
            }
            Op::Rect { at, width, height, paint } => self.rect(*at, (*width, *height), paint),
            Op::Circle { centre, radius, paint } => self.circle(*centre, *radius, paint),
            Op::Path { path, paint } => {
                let rings = curve::parts(path, &mut |p| self.at(p));
                self.outline(rings, paint, LineJoinStyle::Round);
            }
            Op::Hatched { rings, hatch, outline } => self.hatched(rings, *hatch, outline.as_ref()),
            Op::Clip { at, width, height, ops } => return self.clip(*at, (*width, *height), ops),
            Op::Place { drawing, at } => return self.place(*drawing, *at),
        }
        Ok(())
    }

    fn at(&mut self, p: Point) -> PdfPoint {
        PdfPoint { x: Pt(self.brush.points(p.x)), y: Pt(self.brush.points(self.height - p.y)) }
    }

    fn rings(&mut self, rings: &[Vec<Point>]) -> Vec<Ring> {
        rings.iter().map(|ring| curve::straight(ring, true, &mut |p| self.at(p))).collect()
    }

    fn polyline(&mut self, points: &[Point], pen: &Pen) {
        let ring = curve::straight(points, false, &mut |p| self.at(p));
        self.outline(vec![ring], &Paint::stroke(*pen), LineJoinStyle::Round);
    }

    /// Several rings are filled together and drawn one by one: printpdf would close the
    /// last of them only.
    fn outline(&mut self, rings: Vec<Ring>, paint: &Paint, join: LineJoinStyle) {
        self.brush.leave_text();
        let points = |rings: Vec<Ring>| rings.into_iter().map(|ring| ring.points);
        let one = matches!(rings.as_slice(), [ring] if ring.closed);
        match (paint.fill, &paint.stroke) {
            (Some(_), Some(_)) if one => {
                self.brush.set(paint, join);
                self.brush.polygon(points(rings), PaintMode::FillStroke);
            }
            (Some(ink), Some(pen)) => {
                self.brush.fill(ink);
                let copy = rings.iter().map(|ring| ring.points.clone());
                self.brush.polygon(copy, PaintMode::Fill);
                self.brush.stroke(pen, join);
                self.lines(rings);
            }
            (Some(ink), None) => {
                self.brush.fill(ink);
                self.brush.polygon(points(rings), PaintMode::Fill);
            }
            (None, Some(pen)) => {
                self.brush.stroke(pen, join);
                self.lines(rings);
            }
            (None, None) => {}
        }
    }

    /// Every circle of a size is the same content around the origin, moved to its place:
    /// a row of stitches deflates to half.
    fn circle(&mut self, centre: Point, radius: f64, paint: &Paint) {
        let PdfPoint { x, y } = self.at(centre);
        let origin = Point::new(0.0, self.height);
        let ring = curve::circle(origin, radius, &mut |p| self.at(p));
        self.brush.set(paint, LineJoinStyle::Round);
        self.brush.save();
        let matrix = CurTransMat::Translate(x, y);
        self.brush.push(PdfOp::SetTransformationMatrix { matrix });
        self.outline(vec![ring], paint, LineJoinStyle::Round);
        self.brush.restore();
    }

    fn lines(&mut self, rings: Vec<Ring>) {
        for Ring { points, closed } in rings {
            let line = Line { points, is_closed: closed };
            self.brush.push(PdfOp::DrawLine { line });
        }
    }

    fn frame(&mut self, at: Point, (width, height): (f64, f64), mode: PaintMode) {
        let corner = self.at(Point::new(at.x, at.y + height));
        let rectangle = Rect {
            x: corner.x,
            y: corner.y,
            width: Pt(self.brush.points(width)),
            height: Pt(self.brush.points(height)),
            mode: Some(mode),
            winding_order: None,
        };
        self.brush.push(PdfOp::DrawRectangle { rectangle });
    }

    fn rect(&mut self, at: Point, size: (f64, f64), paint: &Paint) {
        let mode = match (paint.fill, &paint.stroke) {
            (Some(_), Some(_)) => PaintMode::FillStroke,
            (Some(_), None) => PaintMode::Fill,
            (None, Some(_)) => PaintMode::Stroke,
            (None, None) => return,
        };
        self.brush.leave_text();
        self.brush.set(paint, LineJoinStyle::Miter);
        self.frame(at, size, mode);
    }

    fn hatched(&mut self, rings: &[Vec<Point>], hatch: Hatch, outline: Option<&Pen>) {
        let edge = self.rings(rings);
        self.outline(edge, &Paint::fill(Ink::WHITE), LineJoinStyle::Miter);
        if self.brush.off_scale.is_none() {
            for strokes in hatch.strokes() {
                self.brush.stroke(&strokes.pen, LineJoinStyle::Miter);
                self.strokes(&segments(rings, strokes));
            }
        }
        if let Some(pen) = outline {
            let edge = self.rings(rings);
            self.outline(edge, &Paint::stroke(*pen), LineJoinStyle::Miter);
        }
    }

    /// All strokes in one path. printpdf closes the last of its rings, so that is a ring of
    /// one point, which draws nothing.
    fn strokes(&mut self, segments: &[(Point, Point)]) {
        let Some(&(from, _)) = segments.first() else {
            return;
        };
        let mut rings: Vec<_> =
            segments.iter().map(|&(from, to)| curve::straight(&[from, to], false, &mut |p| self.at(p))).collect();
        rings.push(curve::straight(&[from], false, &mut |p| self.at(p)));
        let rings = rings.into_iter().map(|ring| ring.points);
        self.brush.polygon(rings, PaintMode::Stroke);
    }

    fn clip(&mut self, at: Point, size: (f64, f64), ops: &[Op]) -> Result<(), Error> {
        self.brush.save();
        self.frame(at, size, PaintMode::Clip);
        self.draw(ops)?;
        self.brush.restore();
        Ok(())
    }

    fn place(&mut self, drawing: usize, at: Point) -> Result<(), Error> {
        let page = self.label.into();
        let Some(shared) = &self.shared else {
            return Err(Error::Nested { page });
        };
        let Some(frame) = shared.drawings.get(drawing) else {
            return Err(Error::NoDrawing { page, drawing });
        };
        let corner = Point::new(at.x, at.y + frame.height);
        let corner = self.at(corner);
        self.call(drawing_id(drawing), corner.x.0, corner.y.0);
        Ok(())
    }

    fn text(&mut self, text: &Text) -> Result<(), Error> {
        if text.content.is_empty() {
            return Ok(());
        }
        self.check_letters(text)?;
        self.brush.fill(text.ink);
        self.brush.enter_text();
        self.brush.face(text.style, text.size);
        let matrix = self.text_matrix(text);
        self.brush.push(PdfOp::SetTextMatrix { matrix });
        let content = text.content.chars().map(printed).collect();
        let items = vec![TextItem::Text(content)];
        self.brush.push(PdfOp::ShowText { items });
        Ok(())
    }

    fn text_matrix(&mut self, text: &Text) -> TextMatrix {
        let (sin, cos) = text.turn.to_radians().sin_cos();
        let width = width_mm(&text.content, text.style, text.size);
        let back = match text.anchor {
            Anchor::Left => 0.0,
            Anchor::Centre => width / 2.0,
            Anchor::Right => width,
        };
        let start = Point::new(text.at.x - back * cos, text.at.y + back * sin);
        let PdfPoint { x, y } = self.at(start);
        if text.turn == 0.0 {
            return TextMatrix::Translate(x, y);
        }
        let part = |value: f64| ((value * 1e6).round() / 1e6) as f32 + 0.0;
        TextMatrix::Raw([part(cos), part(sin), part(-sin), part(cos), x.0, y.0])
    }

    fn check_letters(&self, text: &Text) -> Result<(), Error> {
        let cut = self.faces.cut(text.style);
        let lacks = |c: &char| !cut.is_some_and(|cut| cut.has(*c));
        let letters = || text.content.chars().map(printed);
        if !letters().any(|c| lacks(&c)) {
            return Ok(());
        }
        let missing: BTreeSet<char> = letters().filter(lacks).collect();
        Err(Error::Missing { page: self.label.into(), style: text.style, characters: missing })
    }
}
