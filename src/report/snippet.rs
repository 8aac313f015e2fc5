//! The places of a finding in one text, drawn by miette.
//!
//! miette shows one text a diagnostic. A finding with labels in several texts is several such drawings under
//! one head, each with the path that it stands in.

use super::places::{Lines, Places};
use crate::finding::Label;
use crate::source::SourceId;
use miette::{
    Diagnostic, GraphicalReportHandler, LabeledSpan, MietteError, MietteSpanContents, SourceCode, SourceSpan,
    SpanContents,
};
use std::fmt;

/// The longest run of one line that is underlined, and what is shown of a long line on both sides of it, bytes.
const REACH: usize = 60;

/// The drawing of `labels`, all of the text `id`; the first of them is the place to name.
pub(super) fn draw(handler: &GraphicalReportHandler, places: &Places<'_>, id: SourceId, labels: &[&Label]) -> String {
    let lines = places.lines(id);
    let spans = labels.iter().enumerate().map(|(n, label)| spanned(lines, label, n == 0)).collect();
    let drawing = Drawing { text: Excerpts(lines), spans };
    let mut out = String::new();
    // Writing to a string fails only if an excerpt can't be had, and each can.
    let drawn = handler.render_report(&mut out, &drawing);
    debug_assert!(drawn.is_ok(), "every span lies in its text");
    out.trim_start_matches('\n').to_owned()
}

/// A label on the first line of its span.
fn spanned(lines: &Lines<'_>, label: &Label, primary: bool) -> LabeledSpan {
    let line = lines.line_range(lines.line_of(label.span.start as usize));
    let start = (label.span.start as usize).min(line.end);
    let end = floor(lines.clean(), (label.span.end as usize).min(line.end).min(start + REACH)).max(start);
    let text = (!label.text.is_empty()).then(|| super::places::clean(&label.text).into_owned());
    if primary {
        LabeledSpan::new_primary_with_span(text, start..end)
    } else {
        LabeledSpan::new_with_span(text, start..end)
    }
}

/// The nearest boundary of a character at or before `at`.
fn floor(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}

/// One text's part of a finding. It has no words of its own: the head is written beside it.
struct Drawing<'d> {
    text: Excerpts<'d>,
    spans: Vec<LabeledSpan>,
}

impl fmt::Debug for Drawing<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text.0.shown)
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

/// Whole lines of a text, or what is near of very long ones.
struct Excerpts<'e>(&'e Lines<'e>);

impl SourceCode for Excerpts<'_> {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let lines = self.0;
        let (start, end) = (span.offset(), span.offset() + span.len());
        let (first, column) = lines.line_column(start);
        let last = lines.line_of(end);
        let shown = first.saturating_sub(before)..=(last + after).min(lines.count() - 1);
        let text = lines.clean();
        let from = lines.line_range(*shown.start()).start.max(floor(text, start.saturating_sub(REACH)));
        let to = lines.line_range(*shown.end()).end.min(floor(text, end + REACH)).max(end);
        // One line more than shown: snippets with one line between them are drawn as one.
        let count = shown.end() - shown.start() + 2;
        let bytes = &text.as_bytes()[from..to];
        let contents = MietteSpanContents::new_named(
            lines.shown.to_owned(),
            bytes,
            (from, to - from).into(),
            *shown.start(),
            column,
            count,
        );
        Ok(Box::new(contents))
    }
}
