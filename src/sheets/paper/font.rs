//! The objects of a font: printpdf makes them once for a run, every document takes copies.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document as Pdf, Object, ObjectId, Stream};
use printpdf::{
    Op as PdfOp, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, PdfParseErrorSeverity, PdfSaveOptions, Pt,
    TextItem,
};

use super::write::{deflate, set_packed};
use super::{Error, Style};

/// A font, what it says of its letters, its program and what its glyphs mean.
pub(super) struct FontObjects {
    font: Dictionary,
    descriptor: Dictionary,
    program: Stream,
    meanings: Stream,
}

impl FontObjects {
    /// Has printpdf write a page that shows every letter of a font, and keeps the font's objects of it. Puts the
    /// deflated program in, and the height of capitals, which printpdf guesses.
    pub fn of(style: Style, font: ParsedFont, packed: Vec<u8>) -> Result<Self, Error> {
        let pdf = specimen(style, font)?;
        let lost = |_| style.fault(&"the font lost its objects");
        let dictionary = |id: ObjectId| pdf.get_dictionary(id).cloned().map_err(lost);
        let stream = |id: ObjectId| pdf.get_object(id).and_then(Object::as_stream).cloned().map_err(lost);
        let (_, page) = pdf.get_pages().into_iter().next().ok_or_else(|| style.fault(&"no specimen"))?;
        let fonts = pdf.get_page_fonts(page).map_err(lost)?;
        let font: BTreeMap<_, _> = fonts.into_iter().collect();
        let font = font.get(style.resource().as_bytes()).ok_or_else(|| style.fault(&"no font in the specimen"))?;
        let mut descriptor = dictionary(described(font).map_err(lost)?)?;
        let mut program = stream(descriptor.get(b"FontFile2").and_then(Object::as_reference).map_err(lost)?)?;
        let mut meanings = stream(font.get(b"ToUnicode").and_then(Object::as_reference).map_err(lost)?)?;
        descriptor.set("CapHeight", (Style::CAP_HEIGHT * 1000.0) as i64);
        set_packed(&mut program, packed);
        if !meanings.dict.has(b"Filter") {
            let packed = deflate(&meanings.content)?;
            set_packed(&mut meanings, packed);
        }
        Ok(Self { font: (*font).clone(), descriptor, program, meanings })
    }

    /// Adds copies to a document.
    pub fn add(&self, pdf: &mut Pdf) -> ObjectId {
        let (mut font, mut descriptor) = (self.font.clone(), self.descriptor.clone());
        descriptor.set("FontFile2", pdf.add_object(self.program.clone()));
        let descriptor = pdf.add_object(descriptor);
        font.set("ToUnicode", pdf.add_object(self.meanings.clone()));
        let descendants = font.get_mut(b"DescendantFonts").and_then(Object::as_array_mut);
        if let Some(descendant) = descendants.ok().and_then(|all| all.first_mut()?.as_dict_mut().ok()) {
            descendant.set("FontDescriptor", descriptor);
        }
        pdf.add_object(font)
    }
}

fn described(font: &Dictionary) -> lopdf::Result<ObjectId> {
    let descendants = font.get(b"DescendantFonts")?.as_array()?;
    let descendant = descendants.first().ok_or(lopdf::Error::DictKey("DescendantFonts".into()))?;
    descendant.as_dict()?.get(b"FontDescriptor")?.as_reference()
}

/// A page that shows every letter.
fn specimen(style: Style, font: ParsedFont) -> Result<Pdf, Error> {
    let letters: String = font.codepoint_to_glyph.keys().filter_map(|code| char::from_u32(*code)).collect();
    let mut pdf = PdfDocument::new("");
    pdf.resources.fonts.map.insert(style.font_id(), PdfFont::new(font));
    let size = Pt(10.0);
    let ops = vec![
        PdfOp::StartTextSection,
        PdfOp::SetFont { font: PdfFontHandle::External(style.font_id()), size },
        PdfOp::ShowText { items: vec![TextItem::Text(letters)] },
        PdfOp::EndTextSection,
    ];
    pdf.pages = vec![PdfPage::new(size.into(), size.into(), ops)];
    let mut warnings = Vec::new();
    let written = pdf.to_lopdf_document(&PdfSaveOptions::default(), &mut warnings);
    match warnings.into_iter().find(|warning| warning.severity == PdfParseErrorSeverity::Error) {
        Some(warning) => Err(style.fault(&warning.msg)),
        None => Ok(written),
    }
}
