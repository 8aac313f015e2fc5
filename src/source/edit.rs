//! Edits of a text: replace what stands under a span.

use super::text::Span;

/// Replaces the bytes under `span` by `text`; an empty span inserts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// What goes.
    pub span: Span,
    /// What comes.
    pub text: String,
}

/// Why edits cannot be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EditFault {
    /// Two edits touch the same bytes.
    Overlap,
    /// An edit reaches beyond its text, or into the middle of a character.
    Outside,
}

/// Makes `edits` (all of this text) at once.
pub(super) fn apply(text: &str, edits: &[&Edit]) -> Result<String, EditFault> {
    let mut ordered = edits.to_vec();
    ordered.sort_by_key(|edit| (edit.span.start, edit.span.end));
    let mut out = String::with_capacity(text.len());
    let mut done = 0;
    for edit in ordered {
        let range = edit.span.range();
        if range.start < done {
            return Err(EditFault::Overlap);
        }
        out.push_str(text.get(done..range.start).ok_or(EditFault::Outside)?);
        text.get(range.clone()).ok_or(EditFault::Outside)?;
        out.push_str(&edit.text);
        done = range.end;
    }
    out.push_str(text.get(done..).ok_or(EditFault::Outside)?);
    Ok(out)
}
