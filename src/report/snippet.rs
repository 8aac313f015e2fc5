//! The places of a finding in one text, drawn by miette.
//!
//! miette shows one text a diagnostic. A finding with labels in several texts is several such drawings under
//! one head, each with the path that it stands in.

use super::places::{Lines, clean};
use super::strip::Strip;
use crate::finding::Label;
use miette::{
    Diagnostic, GraphicalReportHandler, LabeledSpan, MietteError, MietteSpanContents, SourceCode, SourceSpan,
    SpanContents,
};
use std::fmt;

/// The drawing of `labels`, all of one text, in `width` columns; the first of them is the place to name.
pub(super) fn draw(handler: &GraphicalReportHandler, lines: &Lines<'_>, labels: &[&Label], width: usize) -> String {
    let strip = Strip::of(lines, labels, width);
    let spans = labels.iter().enumerate().map(|(n, label)| spanned(&strip, label, n == 0)).collect();
    let mut out = String::new();
    // Writing to a string fails only if a text can't be had, and this one can.
    let drawn = handler.render_report(&mut out, &Drawing { text: Shown { strip, path: lines.shown }, spans });
    debug_assert!(drawn.is_ok(), "every label lies in the strip");
    out.trim_matches('\n').to_owned()
}

fn spanned(strip: &Strip, label: &Label, primary: bool) -> LabeledSpan {
    let span = strip.span_of(label);
    let text = (!label.text.is_empty()).then(|| clean(&label.text).into_owned());
    if primary { LabeledSpan::new_primary_with_span(text, span) } else { LabeledSpan::new_with_span(text, span) }
}

/// One text's part of a finding. It has no words of its own: the head is written beside it.
struct Drawing<'d> {
    text: Shown<'d>,
    spans: Vec<LabeledSpan>,
}

impl fmt::Debug for Drawing<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text.path)
    }
}

impl fmt::Display for Drawing<'_> {
    fn fmt(&self, _: &mut fmt::Formatter<'_>) -> fmt::Result {
        Ok(())
    }
}

impl std::error::Error for Drawing<'_> {}

impl Diagnostic for Drawing<'_> {
    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.spans.iter().cloned()))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.text)
    }
}

/// A strip with the path of the text that it was cut from.
struct Shown<'e> {
    strip: Strip,
    path: &'e str,
}

impl SourceCode for Shown<'_> {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        _: usize,
        _: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let cut = self.strip.around(span.offset(), span.offset() + span.len());
        let bytes = &self.strip.text.as_bytes()[cut.range.clone()];
        // One line more than there is: places with one line between them are drawn together.
        let (path, at) = (self.path.to_owned(), (cut.range.start, bytes.len()).into());
        Ok(Box::new(MietteSpanContents::new_named(path, bytes, at, cut.line, cut.column, cut.count + 1)))
    }
}
