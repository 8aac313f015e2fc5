//! What a document has beside its pages: outline, labels, attachments, what viewers are to
//! do with it. Mends what printpdf writes wrongly or not at all.

use std::collections::BTreeSet;

use lopdf::{Dictionary, Document as Pdf, Object, ObjectId, Stream, StringFormat, dictionary};

use super::draw::drawing_id;
use super::write::{deflate, set_packed};
use super::{Attachment, Document, Error, Heading, Level, Typefaces};

/// Turns printpdf's objects into the document that was asked for.
pub(super) fn mend(pdf: &mut Pdf, document: &Document, faces: &Typefaces) -> Result<(), Error> {
    // Attachments and their relations came with this version.
    pdf.version = "1.7".into();
    let leaves = split_leaves(pdf, document.pages.len())?;
    resources(pdf, &leaves)?;
    fonts(pdf, &leaves, faces)?;
    info(pdf)?;
    let mut entries = Dictionary::new();
    outline(pdf, document, &leaves.pages, &mut entries);
    labels(document, &mut entries);
    attachments(pdf, &document.attachments, &mut entries)?;
    viewing(document, &mut entries);
    let catalog = pdf.catalog_mut()?;
    for (key, value) in entries {
        catalog.set(key, value);
    }
    Ok(())
}

/// Pages of the document, and the drawings that printpdf took for pages.
struct Leaves {
    pages: Vec<ObjectId>,
    drawings: Vec<ObjectId>,
}

/// Takes the drawings out of the page tree.
fn split_leaves(pdf: &mut Pdf, pages: usize) -> Result<Leaves, Error> {
    let tree = pdf.catalog()?.get(b"Pages")?.as_reference()?;
    let tree = pdf.get_dictionary_mut(tree)?;
    let kids = tree.get_mut(b"Kids")?.as_array_mut()?;
    let drawings = kids.split_off(pages);
    let kids = kids.clone();
    tree.set("Count", pages as i64);
    let ids = |kids: Vec<Object>| {
        let ids: Result<Vec<_>, _> = kids.iter().map(Object::as_reference).collect();
        ids
    };
    Ok(Leaves { pages: ids(kids)?, drawings: ids(drawings)? })
}

/// One dictionary of resources for all pages and drawings, without the empty ones.
fn resources(pdf: &mut Pdf, leaves: &Leaves) -> Result<(), Error> {
    let first = pdf.get_dictionary(leaves.pages[0])?.get(b"Resources")?;
    let first = pdf.get_dictionary(first.as_reference()?)?.clone();
    let fonts = first.get(b"Font")?.as_reference()?;
    let forms = first.get(b"XObject")?.as_reference()?;
    for unused in [b"ExtGState".as_slice(), b"Shading"] {
        pdf.objects.remove(&first.get(unused)?.as_reference()?);
    }
    for (index, &leaf) in leaves.drawings.iter().enumerate() {
        let form = form(pdf, leaf, fonts)?;
        pdf.get_dictionary_mut(forms)?.set(drawing_id(index).0, form);
    }
    let shared = dictionary! { "Font" => fonts, "XObject" => forms };
    let shared = pdf.add_object(shared);
    for &page in &leaves.pages {
        let page = pdf.get_dictionary_mut(page)?;
        let own = page.get(b"Resources")?.as_reference()?;
        page.set("Resources", shared);
        for needless in [b"TrimBox".as_slice(), b"CropBox", b"Annots"] {
            page.remove(needless);
        }
        pdf.objects.remove(&own);
    }
    Ok(())
}

/// Makes a form of a page: its content becomes the form, the page goes.
fn form(pdf: &mut Pdf, leaf: ObjectId, fonts: ObjectId) -> Result<ObjectId, Error> {
    let page = pdf.get_dictionary(leaf)?.clone();
    let content = page.get(b"Contents")?.as_reference()?;
    let own = page.get(b"Resources")?.as_reference()?;
    let dict = &mut pdf.get_object_mut(content)?.as_stream_mut()?.dict;
    dict.set("Type", "XObject");
    dict.set("Subtype", "Form");
    dict.set("BBox", page.get(b"MediaBox")?.clone());
    dict.set("Resources", dictionary! { "Font" => fonts });
    pdf.objects.remove(&leaf);
    pdf.objects.remove(&own);
    Ok(content)
}

/// Puts the deflated programs in, and the height of capitals, which printpdf guesses.
fn fonts(pdf: &mut Pdf, leaves: &Leaves, faces: &Typefaces) -> Result<(), Error> {
    let shared = pdf.get_dictionary(leaves.pages[0])?.get(b"Resources")?;
    let shared = pdf.get_dictionary(shared.as_reference()?)?;
    let fonts = pdf.get_dictionary(shared.get(b"Font")?.as_reference()?)?.clone();
    for cut in faces.cuts() {
        let Ok(font) = fonts.get(cut.style.resource().as_bytes()) else {
            continue;
        };
        let font = pdf.get_dictionary(font.as_reference()?)?;
        let descendants = font.get(b"DescendantFonts")?.as_array()?;
        let descendant = descendants.first().ok_or_else(no_font)?.as_dict()?;
        let descriptor = descendant.get(b"FontDescriptor")?.as_reference()?;
        let descriptor = pdf.get_dictionary_mut(descriptor)?;
        descriptor.set("CapHeight", (super::Style::CAP_HEIGHT * 1000.0) as i64);
        let program = descriptor.get(b"FontFile2")?.as_reference()?;
        let program = pdf.get_object_mut(program)?.as_stream_mut()?;
        set_packed(program, cut.packed.clone());
    }
    Ok(())
}

fn no_font() -> Error {
    Error::Writer("a font without a descendant".into())
}

/// Takes out what we don't say: dates above all.
fn info(pdf: &mut Pdf) -> Result<(), Error> {
    let info = pdf.trailer.get(b"Info")?.as_reference()?;
    let info = pdf.get_dictionary_mut(info)?;
    let unsaid = [b"CreationDate".as_slice(), b"ModDate", b"GTS_PDFXVersion"];
    for key in unsaid.into_iter().chain([b"Identifier".as_slice(), b"Trapped"]) {
        info.remove(key);
    }
    let said = |value: &Object| value.as_str().is_ok_and(|text| !text.is_empty());
    let empty: Vec<Vec<u8>> = info.iter().filter(|(_, value)| !said(value)).map(|(key, _)| key.clone()).collect();
    for key in empty {
        info.remove(&key);
    }
    Ok(())
}

/// Text of a document's own, outside its pages: ASCII as it is, all else as UTF-16.
fn text(value: &str) -> Object {
    if value.bytes().all(|byte| (b' '..=b'~').contains(&byte)) {
        return Object::String(value.into(), StringFormat::Literal);
    }
    let units = std::iter::once(0xFEFF).chain(value.encode_utf16());
    let bytes = units.flat_map(u16::to_be_bytes).collect();
    Object::String(bytes, StringFormat::Hexadecimal)
}

/// An entry of the outline with those under it.
struct Branch<'a> {
    heading: &'a Heading,
    page: ObjectId,
    twigs: Vec<Branch<'a>>,
}

fn branches<'a>(document: &'a Document, pages: &[ObjectId]) -> Vec<Branch<'a>> {
    let mut all: Vec<Branch<'a>> = Vec::new();
    for (sheet, &page) in document.pages.iter().zip(pages) {
        for heading in &sheet.headings {
            let branch = Branch { heading, page, twigs: Vec::new() };
            let part = all.last_mut().filter(|b| b.heading.level == Level::Part);
            match (heading.level, part) {
                (Level::Sheet, Some(part)) => part.twigs.push(branch),
                _ => all.push(branch),
            }
        }
    }
    all
}

fn outline(pdf: &mut Pdf, document: &Document, pages: &[ObjectId], entries: &mut Dictionary) {
    let branches = branches(document, pages);
    if branches.is_empty() {
        entries.set("PageMode", "UseNone");
        return;
    }
    let root = pdf.new_object_id();
    let mut tree = dictionary! { "Type" => "Outlines" };
    hang(pdf, root, &branches, &mut tree);
    pdf.set_object(root, tree);
    entries.set("Outlines", root);
    entries.set("PageMode", "UseOutlines");
}

/// Hangs entries under `parent`, all of them open.
fn hang(pdf: &mut Pdf, parent: ObjectId, branches: &[Branch<'_>], under: &mut Dictionary) {
    let ids: Vec<ObjectId> = branches.iter().map(|_| pdf.new_object_id()).collect();
    for (index, branch) in branches.iter().enumerate() {
        let top = vec![branch.page.into(), "XYZ".into(), Object::Null, Object::Null, Object::Null];
        let mut entry = dictionary! {
            "Title" => text(&branch.heading.title),
            "Parent" => parent,
            "Dest" => top,
        };
        if index > 0 {
            entry.set("Prev", ids[index - 1]);
        }
        if let Some(&next) = ids.get(index + 1) {
            entry.set("Next", next);
        }
        hang(pdf, ids[index], &branch.twigs, &mut entry);
        pdf.set_object(ids[index], entry);
    }
    if let (Some(&first), Some(&last)) = (ids.first(), ids.last()) {
        let open: usize = branches.iter().map(|branch| 1 + branch.twigs.len()).sum();
        under.set("First", first);
        under.set("Last", last);
        under.set("Count", open as i64);
    }
}

/// The label of each page as viewers show it; they count where there is none.
fn labels(document: &Document, entries: &mut Dictionary) {
    if document.pages.iter().all(|page| page.label.is_empty()) {
        return;
    }
    let mut numbers = Vec::new();
    for (index, page) in document.pages.iter().enumerate() {
        let label = match page.label.as_str() {
            "" => dictionary! { "S" => "D", "St" => index as i64 + 1 },
            label => dictionary! { "P" => text(label) },
        };
        numbers.extend([Object::from(index as i64), label.into()]);
    }
    entries.set("PageLabels", dictionary! { "Nums" => numbers });
}

fn attachments(pdf: &mut Pdf, attachments: &[Attachment], entries: &mut Dictionary) -> Result<(), Error> {
    if attachments.is_empty() {
        return Ok(());
    }
    let mut known = BTreeSet::new();
    if let Some(twice) = attachments.iter().find(|a| !known.insert(&a.name)) {
        return Err(Error::Attachment(twice.name.clone()));
    }
    let mut named = Vec::new();
    for attachment in attachments {
        named.push((text(&attachment.name), attach(pdf, attachment)?));
    }
    let specs: Vec<Object> = named.iter().map(|(_, spec)| (*spec).into()).collect();
    entries.set("AF", specs);
    named.sort_by(|(a, _), (b, _)| a.as_str().ok().cmp(&b.as_str().ok()));
    let names: Vec<Object> = named.into_iter().flat_map(|(name, spec)| [name, spec.into()]).collect();
    let files = dictionary! { "Names" => names };
    entries.set("Names", dictionary! { "EmbeddedFiles" => files });
    Ok(())
}

fn attach(pdf: &mut Pdf, attachment: &Attachment) -> Result<ObjectId, Error> {
    let dict = dictionary! {
        "Type" => "EmbeddedFile",
        "Subtype" => attachment.mime.clone(),
        "Params" => dictionary! { "Size" => attachment.bytes.len() as i64 },
    };
    let mut file = Stream::new(dict, Vec::new());
    set_packed(&mut file, deflate(&attachment.bytes)?);
    let file = pdf.add_object(file);
    Ok(pdf.add_object(dictionary! {
        "Type" => "Filespec",
        "F" => text(&attachment.name),
        "UF" => text(&attachment.name),
        "Desc" => text(&attachment.about),
        "EF" => dictionary! { "F" => file, "UF" => file },
        "AFRelationship" => "Data",
    }))
}

/// One page at a time, the title in the window, and printed at its own size: a sheet with
/// a 100 mm bar must not be shrunk to fit.
fn viewing(document: &Document, entries: &mut Dictionary) {
    entries.set("PageLayout", "SinglePage");
    entries.set("ViewerPreferences", dictionary! { "DisplayDocTitle" => true, "PrintScaling" => "None" });
    if !document.language.is_empty() {
        entries.set("Lang", text(&document.language));
    }
}
