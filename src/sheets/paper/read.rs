//! Documents read back: the files that travel within a PDF, whoever wrote it.

use std::fmt;

use lopdf::{Dictionary, Document as Pdf, Object, Stream};

/// No attachment that is read is longer, in bytes, packed or unpacked.
const LONGEST: usize = 64 << 20;

/// A tree of names is never deeper.
const DEEPEST: usize = 16;

/// Why a file is no document that can be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// It doesn't begin as PDFs begin.
    NotAPdf,
    /// It begins as one, and then it can't be followed: cut off, or damaged.
    Broken,
    /// Nothing in it can be read without a password.
    Locked,
    /// It is whole, and carries no file of that name.
    NotAttached,
    /// It carries the file, and that can't be unpacked.
    Damaged,
}

impl fmt::Display for Unread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Unread::NotAPdf => "it is not a PDF",
            Unread::Broken => "it is cut off or damaged",
            Unread::Locked => "it is locked by a password",
            Unread::NotAttached => "it carries no figures; it is no sheet of this program, or they were taken out",
            Unread::Damaged => "the figures that it carries are damaged",
        })
    }
}

/// Whether bytes begin as PDFs begin; viewers allow for something before that.
pub fn is_pdf(bytes: &[u8]) -> bool {
    bytes[..bytes.len().min(1024)].windows(5).any(|window| window == b"%PDF-")
}

/// The bytes of the file called `name` that travels within a PDF.
///
/// # Errors
/// Why there are none, in [`Unread`].
pub fn attached(pdf: &[u8], name: &str) -> Result<Vec<u8>, Unread> {
    if !is_pdf(pdf) {
        return Err(Unread::NotAPdf);
    }
    let pdf = Pdf::load_mem(pdf).map_err(|_| Unread::Broken)?;
    if pdf.is_encrypted() {
        return Err(Unread::Locked);
    }
    let catalog = pdf.catalog().map_err(|_| Unread::Broken)?;
    let stream = embedded(&pdf, catalog, name).ok_or(Unread::NotAttached)?;
    unpacked(stream)
}

/// What a PDF says of itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct About {
    /// Its title.
    pub title: String,
    /// The program that made it.
    pub creator: String,
    /// Its keywords.
    pub keywords: Vec<String>,
}

/// What a PDF says of itself; what it leaves out is empty.
///
/// # Errors
/// Why it can't be read, in [`Unread`].
pub fn about(pdf: &[u8]) -> Result<About, Unread> {
    if !is_pdf(pdf) {
        return Err(Unread::NotAPdf);
    }
    let pdf = Pdf::load_mem(pdf).map_err(|_| Unread::Broken)?;
    if pdf.is_encrypted() {
        return Err(Unread::Locked);
    }
    let info = entry(&pdf, &pdf.trailer, b"Info").and_then(|info| info.as_dict().ok());
    let said = |key: &[u8]| {
        let text = info.and_then(|info| entry(&pdf, info, key)?.as_str().ok());
        text.map(decoded).unwrap_or_default()
    };
    let keywords = said(b"Keywords").split(',').map(|word| word.trim().to_owned()).collect();
    Ok(About { title: said(b"Title"), creator: said(b"Creator"), keywords })
}

/// A text as `objects::text` writes it: ASCII, or UTF-16 behind its mark.
fn decoded(bytes: &[u8]) -> String {
    match bytes.strip_prefix(&[0xFE, 0xFF]) {
        None => String::from_utf8_lossy(bytes).into_owned(),
        Some(units) => {
            let units: Vec<u16> = units.chunks_exact(2).map(|unit| u16::from_be_bytes([unit[0], unit[1]])).collect();
            String::from_utf16_lossy(&units)
        }
    }
}

fn unpacked(stream: &Stream) -> Result<Vec<u8>, Unread> {
    if stream.dict.has(b"Filter") {
        return stream.decompressed_content_with_limit(LONGEST).map_err(|_| Unread::Damaged);
    }
    if stream.content.len() > LONGEST { Err(Unread::Damaged) } else { Ok(stream.content.clone()) }
}

/// The stream of an attached file, found by its name in the tree of names.
fn embedded<'p>(pdf: &'p Pdf, catalog: &'p Dictionary, name: &str) -> Option<&'p Stream> {
    let names = entry(pdf, catalog, b"Names")?.as_dict().ok()?;
    let files = entry(pdf, names, b"EmbeddedFiles")?.as_dict().ok()?;
    let spec = named(pdf, files, name, 0)?;
    let streams = entry(pdf, spec, b"EF")?.as_dict().ok()?;
    entry(pdf, streams, b"F").or_else(|| entry(pdf, streams, b"UF"))?.as_stream().ok()
}

/// A leaf of the tree of names whose file has the name that is looked for.
fn named<'p>(pdf: &'p Pdf, node: &'p Dictionary, name: &str, depth: usize) -> Option<&'p Dictionary> {
    if depth > DEEPEST {
        return None;
    }
    let leaves = entry(pdf, node, b"Names").and_then(|names| names.as_array().ok());
    let specs = leaves.into_iter().flatten().filter_map(|leaf| followed(pdf, leaf)?.as_dict().ok());
    let mut fitting = specs.filter(|spec| [b"UF".as_slice(), b"F"].iter().any(|key| says(pdf, spec, key, name)));
    let kids = entry(pdf, node, b"Kids").and_then(|kids| kids.as_array().ok());
    fitting.next().or_else(|| {
        let mut kids = kids.into_iter().flatten().filter_map(|kid| followed(pdf, kid)?.as_dict().ok());
        kids.find_map(|kid| named(pdf, kid, name, depth + 1))
    })
}

fn says(pdf: &Pdf, spec: &Dictionary, key: &[u8], name: &str) -> bool {
    entry(pdf, spec, key).and_then(|text| text.as_str().ok()).is_some_and(|text| text == name.as_bytes())
}

fn entry<'p>(pdf: &'p Pdf, of: &'p Dictionary, key: &[u8]) -> Option<&'p Object> {
    followed(pdf, of.get(key).ok()?)
}

fn followed<'p>(pdf: &'p Pdf, object: &'p Object) -> Option<&'p Object> {
    pdf.dereference(object).ok().map(|(_, object)| object)
}
