//! The foot that tells one sheet from another: shop, model and revision, fingerprint, pairs of the batch, page.

use super::super::Job;
use super::super::paper::{Anchor, Op, Point, Style, Text, width_mm, wrap};
use super::super::words;
use super::{HAIR, MARGIN, SMALL, SMALL_LINE, Sheets, tall};

/// Room for `page 12 of 34` at the right, mm.
const NUMBER: f64 = 36.0;

/// What stands at the left of every foot.
pub(super) fn lines(job: &Job<'_>, width: f64) -> Vec<String> {
    let model = &job.build.model;
    let say = |word| words::of(word, job.lang);
    let mut parts = vec![job.shop.name.clone(), format!("{} {}", model.name, job.build.size)];
    if let Ok(revision) = &model.revision {
        parts.push(format!("{} {}", say(words::REVISION), revision.it));
    }
    parts.push(job.fingerprint.to_owned());
    parts.push(match job.pairs {
        Some(pairs) => format!("{}: {pairs}", say(words::PAIRS)),
        None => format!("{}: ____", say(words::PAIRS)),
    });
    let mut lines: Vec<String> = Vec::new();
    for part in parts {
        let room = width - NUMBER;
        match lines.last_mut() {
            Some(line) if width_mm(&format!("{line} · {part}"), Style::Condensed, SMALL) <= room => {
                line.push_str(" · ");
                line.push_str(&part);
            }
            _ => lines.extend(wrap(&part, Style::Condensed, SMALL, room).into_iter().map(str::to_owned)),
        }
    }
    lines
}

/// How high the foot is, with its rule, mm.
pub(super) fn height(lines: &[String]) -> f64 {
    1.6 + tall(lines.len(), SMALL_LINE)
}

/// Puts the foot on every page.
pub(super) fn add(sheets: &mut Sheets<'_>) {
    let count = sheets.pages.len();
    let (right, bottom) = (sheets.size.width() - MARGIN, sheets.size.height() - MARGIN);
    let top = bottom - height(&sheets.foot);
    let (page, of) = (sheets.word(words::PAGE), sheets.word(words::OF));
    for (n, sheet) in sheets.pages.iter_mut().enumerate() {
        sheet.ops.push(Op::Line { from: Point::new(MARGIN, top), to: Point::new(right, top), pen: HAIR });
        for (line, text) in (0_u32..).zip(&sheets.foot) {
            let y = top + 4.6 + f64::from(line) * SMALL_LINE;
            sheet.ops.push(Op::Text(Text::new(MARGIN, y, SMALL, Style::Condensed, text.clone())));
        }
        let number = Text::new(right, top + 4.6, SMALL, Style::CondensedBold, format!("{page} {} {of} {count}", n + 1));
        sheet.ops.push(Op::Text(number.anchored(Anchor::Right)));
    }
}
