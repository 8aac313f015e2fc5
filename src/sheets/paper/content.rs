//! The content of a page or a form: drawing operations as the bytes that PDF has for them.

use std::collections::BTreeSet;

use printpdf::{
    Color, Line, LinePoint, Op as PdfOp, PaintMode, PdfFontHandle, Polygon, Rect, TextItem, XObjectId, XObjectTransform,
};

use super::face::Cut;
use super::{Style, Typefaces};

/// Encodes drawing operations; only what [`super::draw`] makes occurs. Adds the typefaces that it uses to `styles`.
pub(super) fn encoded(ops: &[PdfOp], faces: &Typefaces, styles: &mut BTreeSet<Style>) -> Vec<u8> {
    let mut content = Content(Vec::with_capacity(ops.len() * 64));
    let mut cut: Option<&Cut> = None;
    for op in ops {
        match op {
            PdfOp::SetFont { font: PdfFontHandle::External(id), size } => {
                cut = faces.cuts().iter().find(|cut| cut.style.resource() == id.0);
                styles.extend(cut.map(|cut| cut.style));
                content.0.push(b'/');
                content.0.extend_from_slice(id.0.as_bytes());
                content.0.push(b' ');
                content.numbers(&[size.0], "Tf");
            }
            PdfOp::ShowText { items } => content.show(items, cut),
            op => content.op(op),
        }
    }
    content.0
}

struct Content(Vec<u8>);

impl Content {
    fn op(&mut self, op: &PdfOp) {
        match op {
            PdfOp::SaveGraphicsState => self.operator("q"),
            PdfOp::RestoreGraphicsState => self.operator("Q"),
            PdfOp::SetFillColor { col } => self.colour(col, "g"),
            PdfOp::SetOutlineColor { col } => self.colour(col, "G"),
            PdfOp::SetOutlineThickness { pt } => self.numbers(&[pt.0], "w"),
            PdfOp::SetLineJoinStyle { join } => self.numbers(&[join.id() as f32], "j"),
            PdfOp::SetLineDashPattern { dash } => self.dash(&dash.pattern, dash.offset),
            PdfOp::SetTransformationMatrix { matrix } => self.numbers(&matrix.as_array(), "cm"),
            PdfOp::DrawLine { line } => self.line(line),
            PdfOp::DrawPolygon { polygon } => self.polygon(polygon),
            PdfOp::DrawRectangle { rectangle } => self.rectangle(rectangle),
            PdfOp::StartTextSection => self.operator("BT"),
            PdfOp::EndTextSection => self.operator("ET"),
            PdfOp::SetTextMatrix { matrix } => self.numbers(&matrix.as_array(), "Tm"),
            PdfOp::UseXobject { id, transform } => self.call(id, transform),
            other => debug_assert!(false, "{other:?} is nothing that a page has"),
        }
    }

    /// Glyphs by their numbers, in four digits each.
    fn show(&mut self, items: &[TextItem], cut: Option<&Cut>) {
        let texts = items.iter().filter_map(|item| match item {
            TextItem::Text(text) => Some(text),
            _ => None,
        });
        self.0.push(b'<');
        for glyph in texts.flat_map(|text| text.chars()).filter_map(|letter| cut?.glyph(letter)) {
            for shift in [12, 8, 4, 0] {
                self.0.push(b"0123456789abcdef"[usize::from(glyph >> shift & 15)]);
            }
        }
        self.operator("> Tj");
    }

    fn call(&mut self, id: &XObjectId, transform: &XObjectTransform) {
        let shift = [transform.translate_x, transform.translate_y].map(|shift| shift.map_or(0.0, |shift| shift.0));
        self.operator("q");
        if shift != [0.0, 0.0] {
            self.numbers(&[1.0, 0.0, 0.0, 1.0, shift[0], shift[1]], "cm");
        }
        self.0.push(b'/');
        self.0.extend_from_slice(id.0.as_bytes());
        self.operator(" Do");
        self.operator("Q");
    }

    fn colour(&mut self, colour: &Color, operator: &str) {
        if let Color::Greyscale(grey) = colour {
            self.numbers(&[grey.percent], operator);
        }
    }

    fn dash(&mut self, lengths: &[f32], offset: f32) {
        self.0.push(b'[');
        for &length in lengths {
            self.number(length);
        }
        self.0.push(b']');
        self.numbers(&[offset], "d");
    }

    fn line(&mut self, line: &Line) {
        self.outline(&line.points);
        self.operator(if line.is_closed { "h S" } else { "S" });
    }

    /// Closes the last ring only; [`super::draw`] counts on it.
    fn polygon(&mut self, polygon: &Polygon) {
        for ring in &polygon.rings {
            self.outline(&ring.points);
        }
        self.operator(match polygon.mode {
            PaintMode::Clip => "h W* n",
            PaintMode::Fill => "h f*",
            PaintMode::Stroke => "h S",
            PaintMode::FillStroke => "h b*",
        });
    }

    fn rectangle(&mut self, rectangle: &Rect) {
        let Rect { x, y, width, height, .. } = rectangle;
        self.numbers(&[x.0, y.0, width.0, height.0], "re");
        self.operator(match rectangle.mode {
            Some(PaintMode::Clip) => "W n",
            Some(PaintMode::Fill) => "f",
            Some(PaintMode::Stroke) => "S",
            Some(PaintMode::FillStroke) => "B",
            None => "n",
        });
    }

    /// A move, then lines, and curves where two handles and a point follow each other.
    fn outline(&mut self, points: &[LinePoint]) {
        let Some((first, mut rest)) = points.split_first() else {
            return;
        };
        self.point(first);
        self.operator("m");
        while let Some((next, after)) = rest.split_first() {
            rest = match after {
                [second, end, after @ ..] if next.bezier && second.bezier => {
                    self.point(next);
                    self.point(second);
                    self.point(end);
                    self.operator("c");
                    after
                }
                _ => {
                    self.point(next);
                    self.operator("l");
                    after
                }
            };
        }
    }

    fn point(&mut self, point: &LinePoint) {
        self.number(point.p.x.0);
        self.number(point.p.y.0);
    }

    fn numbers(&mut self, numbers: &[f32], operator: &str) {
        for &number in numbers {
            self.number(number);
        }
        self.operator(operator);
    }

    fn operator(&mut self, operator: &str) {
        self.0.extend_from_slice(operator.as_bytes());
        self.0.push(b'\n');
    }

    /// A number to a thousandth, without nought at the end, and a space.
    fn number(&mut self, number: f32) {
        let thousandths = (f64::from(number) * 1000.0).round() as i64;
        let size = thousandths.unsigned_abs();
        let mut digits = [0; 24];
        let mut at = digits.len();
        let mut put = |byte: u8| {
            at -= 1;
            digits[at] = byte;
        };
        put(b' ');
        let (mut whole, fraction) = (size / 1000, size % 1000);
        if fraction > 0 {
            fraction_digits(fraction, &mut put);
        }
        while whole > 0 {
            put(b'0' + (whole % 10) as u8);
            whole /= 10;
        }
        if size == 0 {
            put(b'0');
        }
        if thousandths < 0 {
            put(b'-');
        }
        self.0.extend_from_slice(&digits[at..]);
    }
}

/// The point and up to three digits, from the last one that isn't nought.
fn fraction_digits(fraction: u64, put: &mut impl FnMut(u8)) {
    let mut rest = fraction;
    let mut place = 3;
    while rest.is_multiple_of(10) {
        rest /= 10;
        place -= 1;
    }
    for _ in 0..place {
        put(b'0' + (rest % 10) as u8);
        rest /= 10;
    }
    put(b'.');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_as_short_as_they_can_be() {
        let cases = [
            (0.0, "0 "),
            (7.0, "7 "),
            (100.0, "100 "),
            (-0.25, "-.25 "),
            (0.001, ".001 "),
            (283.465, "283.465 "),
            (-12.5, "-12.5 "),
            (10.05, "10.05 "),
            (0.0004, "0 "),
            (-0.0004, "0 "),
        ];
        for (number, written) in cases {
            let mut content = Content(Vec::new());
            content.number(number);
            assert_eq!(String::from_utf8(content.0).unwrap(), written);
        }
    }
}
