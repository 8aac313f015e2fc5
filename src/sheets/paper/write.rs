//! Documents to bytes: [`super::objects`] makes PDF objects of them, [`super::catalog`] adds what a document has
//! beside its pages, and here they become one file.
//!
//! The same document gives the same bytes, whenever and in whatever thread.

use std::collections::BTreeSet;
use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Object, Stream, StringFormat};
use rayon::prelude::*;

use super::catalog;
use super::objects::objects;
use super::ops::each_text;
use super::{Drawing, Error, Page, Typefaces};

/// Bytes of a document's name.
const HASH: usize = 16;

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
    let (mut pdf, pages) = objects(document, faces)?;
    catalog::complete(&mut pdf, document, &pages)?;
    identified(&mut pdf)
}

/// The bytes of many documents, written side by side, in the order given.
pub fn write_all(documents: &[Document], faces: &Typefaces) -> Vec<Result<Vec<u8>, Error>> {
    documents.par_iter().map(|document| write(document, faces)).collect()
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

/// The bytes, with the hash of all the others as the document's name.
fn identified(pdf: &mut lopdf::Document) -> Result<Vec<u8>, Error> {
    let id = Object::String(vec![0; HASH], StringFormat::Hexadecimal);
    pdf.trailer.set("ID", vec![id.clone(), id]);
    let mut bytes = Vec::new();
    pdf.save_to(&mut bytes)?;
    let (unnamed, name) = ("0".repeat(2 * HASH), blake3::hash(&bytes).to_hex());
    // The trailer stands behind everything else.
    for _ in 0..2 {
        let place = bytes.windows(unnamed.len()).rposition(|window| window == unnamed.as_bytes());
        let place = place.ok_or_else(|| Error::Writer("a trailer without a name".into()))?;
        bytes[place..place + unnamed.len()].copy_from_slice(&name.as_bytes()[..unnamed.len()]);
    }
    Ok(bytes)
}
