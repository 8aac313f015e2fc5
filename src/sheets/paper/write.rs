//! Documents to bytes: printpdf lays them out as PDF objects, [`super::catalog`] adds and
//! mends what it leaves out, and the streams are deflated here.
//!
//! The same document gives the same bytes, whenever and in whatever thread.

use std::collections::BTreeSet;
use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Object, Stream, StringFormat};
use printpdf::{PdfDocument, PdfDocumentInfo, PdfFont, PdfPage, PdfParseErrorSeverity, PdfSaveOptions};
use rayon::prelude::*;

use super::art::Gallery;
use super::catalog;
use super::draw::{Shared, Sheet};
use super::ops::each_text;
use super::{Drawing, Error, Page, Typefaces};

/// A file that travels within the document.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Attachment {
    pub name: String,
    /// Its media type, as `application/json`.
    pub mime: String,
    /// One line that viewers show beside the name.
    pub about: String,
    pub bytes: Vec<u8>,
}

/// A document: who says what, its pages, what they share, and what is attached.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Document {
    pub title: String,
    /// The shop.
    pub author: String,
    pub subject: String,
    pub keywords: Vec<String>,
    /// The program and its version.
    pub creator: String,
    /// A language tag, as `en`.
    pub language: String,
    pub pages: Vec<Page>,
    /// Drawings that pages place by their number.
    pub drawings: Vec<Drawing>,
    pub attachments: Vec<Attachment>,
}

impl Document {
    /// Every character that a page or a shared drawing shows.
    pub fn characters(&self) -> BTreeSet<char> {
        let mut all = BTreeSet::new();
        let pages = self.pages.iter().map(|page| &page.ops);
        let drawings = self.drawings.iter().map(|drawing| &drawing.ops);
        for ops in pages.chain(drawings) {
            each_text(ops, &mut |text| all.extend(text.content.chars()));
        }
        all
    }
}

/// The bytes of one document.
///
/// # Errors
/// What can't be written, in [`Error`].
pub fn write(document: &Document, faces: &Typefaces) -> Result<Vec<u8>, Error> {
    if document.pages.is_empty() {
        return Err(Error::NoPages);
    }
    let mut pdf = objects(document, faces)?;
    catalog::mend(&mut pdf, document, faces)?;
    pack(&mut pdf)?;
    identify(&mut pdf)?;
    saved(&mut pdf)
}

/// The bytes of many documents, written side by side, in the order given.
pub fn write_all(documents: &[Document], faces: &Typefaces) -> Vec<Result<Vec<u8>, Error>> {
    documents.par_iter().map(|document| write(document, faces)).collect()
}

/// The document as printpdf sees it; shared drawings follow the pages as pages of their own.
fn objects(document: &Document, faces: &Typefaces) -> Result<lopdf::Document, Error> {
    let mut pdf = PdfDocument::new(&document.title);
    pdf.metadata.info = PdfDocumentInfo {
        document_title: document.title.clone(),
        author: document.author.clone(),
        subject: document.subject.clone(),
        keywords: document.keywords.clone(),
        creator: document.creator.clone(),
        ..PdfDocumentInfo::default()
    };
    for cut in faces.cuts() {
        let font = PdfFont::new(cut.font.clone());
        pdf.resources.fonts.map.insert(cut.style.font_id(), font);
    }
    let mut gallery = Gallery::default();
    pdf.pages = leaves(document, faces, &mut gallery)?;
    pdf.resources.xobjects.map.extend(gallery.into_objects());
    let mut warnings = Vec::new();
    let objects = pdf.to_lopdf_document(&PdfSaveOptions::default(), &mut warnings);
    let fault = warnings.into_iter().find(|warning| warning.severity == PdfParseErrorSeverity::Error);
    match fault {
        Some(warning) => Err(Error::Writer(warning.msg)),
        None => Ok(objects),
    }
}

fn leaves(document: &Document, faces: &Typefaces, gallery: &mut Gallery) -> Result<Vec<PdfPage>, Error> {
    let mut leaves = Vec::new();
    for page in &document.pages {
        let size = (page.size.width(), page.size.height());
        let shared = Shared { drawings: &document.drawings, gallery };
        let sheet = Sheet::new(&page.label, size, faces).calling(shared);
        leaves.push(sheet.finish(&page.ops)?);
    }
    for (number, drawing) in document.drawings.iter().enumerate() {
        let label = format!("of drawing {number}");
        let sheet = Sheet::new(&label, (drawing.width, drawing.height), faces);
        leaves.push(sheet.finish(&drawing.ops)?);
    }
    Ok(leaves)
}

/// Deflates what isn't deflated yet.
fn pack(pdf: &mut lopdf::Document) -> Result<(), Error> {
    pdf.objects
        .values_mut()
        .filter_map(|object| object.as_stream_mut().ok())
        .filter(|stream| !stream.dict.has(b"Filter"))
        .try_for_each(|stream| {
            let packed = deflate(&stream.content)?;
            set_packed(stream, packed);
            Ok(())
        })
}

/// Puts deflated content into a stream.
pub(super) fn set_packed(stream: &mut Stream, packed: Vec<u8>) {
    stream.dict.set("Filter", "FlateDecode");
    stream.set_content(packed);
}

/// Deflates at the level that all of our streams have.
pub(super) fn deflate(bytes: &[u8]) -> Result<Vec<u8>, Error> {
    let room = Vec::with_capacity(bytes.len() / 3 + 64);
    let mut encoder = ZlibEncoder::new(room, Compression::new(6));
    encoder.write_all(bytes)?;
    Ok(encoder.finish()?)
}

/// Names the document by the hash of its content: printpdf counts within the process.
fn identify(pdf: &mut lopdf::Document) -> Result<(), Error> {
    pdf.trailer.remove(b"ID");
    let hash = blake3::hash(&saved(pdf)?);
    let id = Object::String(hash.as_bytes()[..16].to_vec(), StringFormat::Hexadecimal);
    pdf.trailer.set("ID", vec![id.clone(), id]);
    Ok(())
}

fn saved(pdf: &mut lopdf::Document) -> Result<Vec<u8>, Error> {
    let mut bytes = Vec::new();
    pdf.save_to(&mut bytes)?;
    Ok(bytes)
}
