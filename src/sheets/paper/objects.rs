//! Documents as PDF objects: pages with their content, what they share, what viewers are told of the document.
//!
//! Everything that a page shows is encoded by ourselves; printpdf gave the typefaces their objects, once for a run.

use std::collections::{BTreeMap, BTreeSet};

use lopdf::{Dictionary, Document as Pdf, Object, ObjectId, Stream, StringFormat, dictionary};
use rayon::prelude::*;

use super::art::Gallery;
use super::content::encoded;
use super::draw::{Leaf, Shared, Sheet, drawing_id};
use super::write::{deflate, set_packed};
use super::{Document, Error, Style, Typefaces};

/// The document's objects, and those of its pages in order.
pub(super) fn objects(document: &Document, faces: &Typefaces) -> Result<(Pdf, Vec<ObjectId>), Error> {
    let mut gallery = Gallery::default();
    let mut styles = BTreeSet::new();
    let leaves = leaves(document, faces, &mut gallery)?;
    let contents: Vec<Vec<u8>> = leaves.iter().map(|leaf| encoded(&leaf.ops, faces, &mut styles)).collect();
    let packed: Result<Vec<Vec<u8>>, Error> = contents.par_iter().map(|content| deflate(content)).collect();
    let mut packed = packed?;
    drop(contents);

    // Attachments and their relations came with this version.
    let mut pdf = Pdf::with_version("1.7");
    let fonts = fonts(&mut pdf, faces, &styles);
    let fonts = pdf.add_object(fonts);
    let mut forms = gallery.forms(&mut pdf);
    let drawn = packed.split_off(document.pages.len());
    for ((n, content), leaf) in (0..).zip(drawn).zip(&leaves[document.pages.len()..]) {
        let form = form(leaf, content, fonts);
        forms.set(drawing_id(n).0, pdf.add_object(form));
    }
    let forms = pdf.add_object(forms);
    let shared = pdf.add_object(dictionary! { "Font" => fonts, "XObject" => forms });
    let tree = pdf.new_object_id();
    let pages: Vec<ObjectId> =
        leaves.iter().zip(packed).map(|(leaf, content)| page(&mut pdf, leaf, content, tree, shared)).collect();
    let kids: Vec<Object> = pages.iter().map(|page| (*page).into()).collect();
    pdf.set_object(tree, dictionary! { "Type" => "Pages", "Count" => pages.len() as i64, "Kids" => kids });
    let catalog = pdf.add_object(dictionary! { "Type" => "Catalog", "Pages" => tree });
    pdf.trailer.set("Root", catalog);
    let info = pdf.add_object(info(document));
    pdf.trailer.set("Info", info);
    Ok((pdf, pages))
}

/// Pages, then the shared drawings.
fn leaves(document: &Document, faces: &Typefaces, gallery: &mut Gallery) -> Result<Vec<Leaf>, Error> {
    let mut leaves = Vec::new();
    for page in &document.pages {
        let size = (page.size.width(), page.size.height());
        let shared = Shared { drawings: &document.drawings, gallery };
        leaves.push(Sheet::new(&page.label, size, faces).calling(shared).finish(&page.ops)?);
    }
    for (number, drawing) in document.drawings.iter().enumerate() {
        let label = format!("of drawing {number}");
        leaves.push(Sheet::new(&label, (drawing.width, drawing.height), faces).finish(&drawing.ops)?);
    }
    Ok(leaves)
}

/// The fonts that some page uses.
fn fonts(pdf: &mut Pdf, faces: &Typefaces, styles: &BTreeSet<Style>) -> Dictionary {
    let mut fonts = Dictionary::new();
    for cut in faces.cuts().iter().filter(|cut| styles.contains(&cut.style)) {
        fonts.set(cut.style.resource(), cut.objects.add(pdf));
    }
    fonts
}

fn frame(leaf: &Leaf) -> Vec<Object> {
    vec![0.into(), 0.into(), Object::Real(leaf.width), Object::Real(leaf.height)]
}

fn page(pdf: &mut Pdf, leaf: &Leaf, content: Vec<u8>, tree: ObjectId, resources: ObjectId) -> ObjectId {
    let mut stream = Stream::new(Dictionary::new(), Vec::new());
    set_packed(&mut stream, content);
    let content = pdf.add_object(stream);
    pdf.add_object(dictionary! {
        "Type" => "Page",
        "Parent" => tree,
        "MediaBox" => frame(leaf),
        "Contents" => content,
        "Resources" => resources,
    })
}

fn form(leaf: &Leaf, content: Vec<u8>, fonts: ObjectId) -> Stream {
    let dict = dictionary! {
        "Type" => "XObject",
        "Subtype" => "Form",
        "BBox" => frame(leaf),
        "Resources" => dictionary! { "Font" => fonts },
    };
    let mut stream = Stream::new(dict, Vec::new());
    set_packed(&mut stream, content);
    stream
}

/// What the document says of itself: no dates, nothing empty.
fn info(document: &Document) -> Dictionary {
    let said = BTreeMap::from([
        ("Title", document.title.clone()),
        ("Author", document.author.clone()),
        ("Subject", document.subject.clone()),
        ("Keywords", document.keywords.join(",")),
        ("Creator", document.creator.clone()),
    ]);
    let mut info = Dictionary::new();
    for (key, value) in said.into_iter().filter(|(_, value)| !value.is_empty()) {
        info.set(key, text(&value));
    }
    info
}

/// Text of a document's own, outside its pages: ASCII as it is, all else as UTF-16.
pub(super) fn text(value: &str) -> Object {
    if value.bytes().all(|byte| (b' '..=b'~').contains(&byte)) {
        return Object::String(value.into(), StringFormat::Literal);
    }
    let units = std::iter::once(0xFEFF).chain(value.encode_utf16());
    let bytes = units.flat_map(u16::to_be_bytes).collect();
    Object::String(bytes, StringFormat::Hexadecimal)
}
