//! Art: long runs of lines and curves, kept as forms of the document.
//!
//! A run that comes back, on another page or in another size, is kept once.

use std::collections::{BTreeMap, BTreeSet};

use lopdf::{Dictionary, Document as Pdf, Object, Stream, dictionary};
use printpdf::{Op as PdfOp, XObjectId};

use super::content::encoded;
use super::write::{deflate, set_packed};
use super::{Error, Op, Typefaces};

/// Runs with fewer points stay on the page.
const WORTH_IT: usize = 100;

/// The forms of a document by their content.
#[derive(Default)]
pub(super) struct Gallery {
    known: BTreeMap<[u8; 32], usize>,
    forms: Vec<Form>,
}

/// Deflated content and the frame that it stays within.
struct Form {
    width: f32,
    height: f32,
    packed: Vec<u8>,
}

impl Gallery {
    /// Keeps a run of drawing operations and gives the name to call it by.
    pub fn keep(&mut self, ops: &[PdfOp], width: f32, height: f32, faces: &Typefaces) -> Result<XObjectId, Error> {
        // Lines and areas use no typeface.
        let content = encoded(ops, faces, &mut BTreeSet::new());
        let mut hash = blake3::Hasher::new();
        hash.update(&content);
        hash.update(&width.to_be_bytes());
        hash.update(&height.to_be_bytes());
        let key = *hash.finalize().as_bytes();
        if let Some(&index) = self.known.get(&key) {
            return Ok(id(index));
        }
        let index = self.forms.len();
        self.known.insert(key, index);
        self.forms.push(Form { width, height, packed: deflate(&content)? });
        Ok(id(index))
    }

    /// Adds the forms to a document; by their names.
    pub fn forms(self, pdf: &mut Pdf) -> Dictionary {
        let mut forms = Dictionary::new();
        for (index, form) in self.forms.into_iter().enumerate() {
            forms.set(id(index).0, pdf.add_object(form.into_stream()));
        }
        forms
    }
}

fn id(index: usize) -> XObjectId {
    XObjectId(format!("A{index}"))
}

impl Form {
    fn into_stream(self) -> Stream {
        let frame: Vec<Object> = [0.0, 0.0, self.width, self.height].map(Object::Real).to_vec();
        let dict = dictionary! {
            "Type" => "XObject",
            "Subtype" => "Form",
            "BBox" => frame,
            "Resources" => Dictionary::new(),
        };
        let mut stream = Stream::new(dict, Vec::new());
        set_packed(&mut stream, self.packed);
        stream
    }
}

/// Whether a run of operations is long enough to be kept as a form.
pub(super) fn worth_it(run: &[Op]) -> bool {
    run.iter().filter_map(weight).sum::<usize>() >= WORTH_IT
}

/// Points of an operation; none for what needs letters or other drawings.
pub(super) fn weight(op: &Op) -> Option<usize> {
    match op {
        Op::Text(_) | Op::Place { .. } => None,
        Op::Line { .. } | Op::Rect { .. } => Some(2),
        Op::Polyline { points, .. } => Some(points.len()),
        Op::Polygon { rings, .. } => Some(rings.iter().map(Vec::len).sum()),
        Op::Circle { .. } => Some(12),
        Op::Path { path, .. } => Some(path.0.len() * 3),
        // Hundreds of strokes as a rule.
        Op::Hatched { .. } => Some(WORTH_IT),
        Op::Clip { ops, .. } => ops.iter().map(weight).sum(),
    }
}
