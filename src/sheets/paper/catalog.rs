//! What a document has beside its pages: outline, labels, attachments, what viewers are to
//! do with it.

use std::collections::BTreeSet;

use lopdf::{Dictionary, Document as Pdf, Object, ObjectId, Stream, dictionary};

use super::objects::text;
use super::write::{deflate, set_packed};
use super::{Attachment, Document, Error, Heading, Level};

/// Adds it all to the document whose pages these are.
pub(super) fn complete(pdf: &mut Pdf, document: &Document, pages: &[ObjectId]) -> Result<(), Error> {
    let mut entries = Dictionary::new();
    outline(pdf, document, pages, &mut entries);
    labels(document, &mut entries);
    attachments(pdf, &document.attachments, &mut entries)?;
    viewing(document, &mut entries);
    let catalog = pdf.catalog_mut()?;
    for (key, value) in entries {
        catalog.set(key, value);
    }
    Ok(())
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
