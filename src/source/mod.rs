//! Texts, spans, edits and where a value came from. Knows no files: a [`Reader`] brings them.

mod edit;
mod origin;
mod reader;
mod text;

pub use edit::{Edit, EditFault};
pub use origin::{Nature, Origin, Provenance};
pub use reader::{MAX_BYTES, Opened, ReadFault, Reader};
pub use text::{Damage, Source, SourceId, Sources, Span};
