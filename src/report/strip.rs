//! The lines of a text that a finding shows, cut to the width that there is.

use super::places::Lines;
use crate::finding::Label;
use std::ops::Range;

/// What stands for the part of a line that is not shown.
const ELLIPSIS: char = '…';

/// How much of a cut line is shown before its first label, characters.
const LEAD: usize = 24;

/// Columns that line numbers and frame take.
const FRAME: usize = 10;

/// The lines that labels stand on, one after another, with the place of each in its text.
pub(super) struct Strip {
    pub text: String,
    lines: Vec<Line>,
}

/// One line of a strip.
struct Line {
    /// Its number in the text, from 0.
    number: usize,
    /// Where it stands in the strip.
    range: Range<usize>,
    /// The bytes of the text that are shown.
    shown: Range<usize>,
    /// How many bytes before them stand for what is not shown.
    lead: usize,
    /// How many characters before them are not shown, less those that stand for them.
    hidden: usize,
}

/// A part of a strip: whole lines, with the place of its beginning in the text.
pub(super) struct Cut {
    pub range: Range<usize>,
    pub line: usize,
    pub column: usize,
    pub count: usize,
}

impl Strip {
    pub fn of(lines: &Lines<'_>, labels: &[&Label], width: usize) -> Self {
        let mut strip = Self { text: String::new(), lines: Vec::new() };
        for number in numbers(lines, labels) {
            let on_line = labels.iter().filter(|label| lines.line_of(label.span.start as usize) == number);
            let wanted =
                on_line.map(|label| on_first_line(lines, label)).reduce(|a, b| a.start.min(b.start)..a.end.max(b.end));
            strip.push(lines, number, wanted, width.saturating_sub(FRAME));
        }
        strip
    }

    fn push(&mut self, lines: &Lines<'_>, number: usize, wanted: Option<Range<usize>>, room: usize) {
        let whole = lines.line_range(number);
        let wanted = wanted.unwrap_or(whole.start..whole.start);
        let shown = window(lines.clean(), &whole, &wanted, room);
        let start = self.text.len();
        let before = shown.start > whole.start;
        if before {
            self.text.push(ELLIPSIS);
        }
        let lead = self.text.len() - start;
        self.text.push_str(&lines.clean()[shown.clone()]);
        if shown.end < whole.end {
            self.text.push(ELLIPSIS);
        }
        let hidden = lines.clean()[whole.start..shown.start].chars().count().saturating_sub(usize::from(before));
        self.lines.push(Line { number, range: start..self.text.len(), shown, lead, hidden });
        self.text.push('\n');
    }

    /// Where a label stands in the strip: on the first line of its span, as far as it is shown.
    pub fn span_of(&self, label: &Label) -> Range<usize> {
        let (start, end) = (label.span.start as usize, label.span.end as usize);
        let line = self.lines.iter().rev().find(|line| line.shown.start <= start).or(self.lines.first());
        let Some(line) = line else { return 0..0 };
        let at = |byte: usize| {
            line.range.start + line.lead + byte.clamp(line.shown.start, line.shown.end) - line.shown.start
        };
        at(start)..at(end)
    }

    /// The lines from one byte of the strip to another.
    pub fn around(&self, start: usize, end: usize) -> Cut {
        let holds = |byte: usize| self.lines.iter().position(|line| byte <= line.range.end);
        let last = self.lines.len().saturating_sub(1);
        let (from, to) = (holds(start).unwrap_or(last), holds(end).unwrap_or(last));
        let (first, last) = (&self.lines[from], &self.lines[to]);
        let before = self.text[first.range.start..start].chars().count();
        Cut {
            range: first.range.start..last.range.end,
            line: first.number,
            column: first.hidden + before,
            count: last.number - first.number + 1,
        }
    }
}

/// The lines that labels start on, and single lines between two of them.
fn numbers(lines: &Lines<'_>, labels: &[&Label]) -> Vec<usize> {
    let mut numbers: Vec<usize> = labels.iter().map(|label| lines.line_of(label.span.start as usize)).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let between: Vec<usize> =
        numbers.windows(2).filter(|pair| pair[1] - pair[0] == 2).map(|pair| pair[0] + 1).collect();
    numbers.extend(between);
    numbers.sort_unstable();
    numbers
}

/// A label's bytes on the line that it starts on.
fn on_first_line(lines: &Lines<'_>, label: &Label) -> Range<usize> {
    let line = lines.line_range(lines.line_of(label.span.start as usize));
    (label.span.start as usize).min(line.end)..(label.span.end as usize).min(line.end)
}

/// The part of a line that is shown in `room` columns: all of it, or what is around `wanted`.
fn window(text: &str, line: &Range<usize>, wanted: &Range<usize>, room: usize) -> Range<usize> {
    let count = |range: Range<usize>| text[range].chars().count();
    if count(line.clone()) <= room {
        return line.clone();
    }
    let room = room.saturating_sub(2).max(1);
    let back = if count(line.start..wanted.end) <= room { usize::MAX } else { LEAD };
    let before = text[line.start..wanted.start].char_indices().rev().take(back).last();
    let start = before.map_or(wanted.start, |(at, _)| line.start + at);
    let end = text[start..line.end].char_indices().nth(room).map_or(line.end, |(at, _)| start + at);
    start..end
}
