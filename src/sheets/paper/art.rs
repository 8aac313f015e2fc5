//! Art: long runs of lines and curves, written as content by ourselves and handed to
//! printpdf as forms.
//!
//! printpdf makes an object of every number before it writes it, and deflates nothing by
//! itself; an outline with its stitches takes it longer than all the text of a page. A run
//! that comes back, on another page or in another size, is kept once.

use std::collections::BTreeMap;

use printpdf::{DictItem, ExternalStream, ExternalXObject, Op as PdfOp, XObject, XObjectId};

use super::content::encoded;
use super::write::deflate;
use super::{Error, Op};

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
    pub fn keep(&mut self, ops: &[PdfOp], width: f32, height: f32) -> Result<XObjectId, Error> {
        let content = encoded(ops);
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

    pub fn into_objects(self) -> impl Iterator<Item = (XObjectId, XObject)> {
        let forms = self.forms.into_iter().enumerate();
        forms.map(|(index, form)| (id(index), form.into_object()))
    }
}

fn id(index: usize) -> XObjectId {
    XObjectId(format!("A{index}"))
}

impl Form {
    fn into_object(self) -> XObject {
        let name = |name: &str| DictItem::Name(name.into());
        let frame = [0.0, 0.0, self.width, self.height].map(DictItem::Real);
        let dict = [
            ("Type", name("XObject")),
            ("Subtype", name("Form")),
            ("BBox", DictItem::Array(frame.into())),
            ("Filter", name("FlateDecode")),
            ("Resources", DictItem::Dict { map: BTreeMap::new() }),
        ];
        XObject::External(ExternalXObject {
            stream: ExternalStream {
                dict: dict.map(|(key, item)| (key.into(), item)).into(),
                content: self.packed,
                compress: false,
            },
            width: None,
            height: None,
            dpi: None,
        })
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
