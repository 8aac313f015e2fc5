//! The head of every page, to be read from two metres; the foot that tells one sheet from another.

use super::super::code::{self, CodeText};
use super::super::paper::{self, Anchor, Op, Page, Point, Style, Text, width_mm, wrap};
use super::super::station::Station;
use super::super::words;
use super::{HAIR, MARGIN, Printed, RULE, Sheets};

/// The side of the code, mm, and the room that it takes with the white beside it.
const CODE: f64 = 13.2;
const CODE_ROOM: f64 = CODE + 4.0;

impl Sheets<'_> {
    /// Station and size to be read from two metres, model, revision and last below.
    pub(super) fn head(&mut self, station: Station, continued: bool) {
        let (left, right) = (MARGIN, self.size.width() - MARGIN);
        let build = self.job.build;
        let size = build.size.to_string();
        let size_width = width_mm(&size, Style::Bold, 40.0);
        let title = if continued {
            format!("{} ({})", station.title(self.job.lang), self.word(words::CONTINUED))
        } else {
            station.title(self.job.lang).to_owned()
        };
        let right = right - CODE_ROOM;
        let room = self.width() - CODE_ROOM - size_width - 8.0;
        let points = paper::fit(&title, Style::Bold, 30.0, 14.0, room).unwrap_or(14.0);
        self.text(left, self.y + 11.0, points, Style::Bold, title);
        self.push(Op::Text(Text::new(right, self.y + 14.0, 40.0, Style::Bold, size).anchored(Anchor::Right)));
        let model = if build.model.title.is_empty() { build.model.name.clone() } else { build.model.title.clone() };
        let revision = build
            .model
            .revision
            .as_ref()
            .map_or_else(|_| String::new(), |revision| format!(" · {} {}", self.word(words::REVISION), revision.it));
        let last = build
            .model
            .last
            .as_ref()
            .map_or_else(|_| String::new(), |last| format!(" · {} {}", self.word(words::LAST), last.it.name));
        let line = format!("{model}{revision}{last}");
        let points = paper::fit(&line, Style::Condensed, 13.0, 9.0, room).unwrap_or(9.0);
        for (n, part) in wrap(&line, Style::Condensed, points, room).into_iter().take(2).enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "at most two lines")]
            let down = n as f64 * 5.0;
            self.text(left, self.y + 17.5 + down, points, Style::Condensed, part.to_owned());
        }
        let right = self.size.width() - MARGIN;
        for op in self.code(Point::new(right - CODE, self.y + 2.0)) {
            self.push(op);
        }
        self.y += 24.0;
        self.push(Op::Line { from: Point::new(left, self.y), to: Point::new(right, self.y), pen: RULE });
        self.y += 5.0;
    }

    /// The square code of the sheet.
    fn code(&self, at: Point) -> Vec<Op> {
        let model = self.job.build.model;
        let text = CodeText {
            model: model.name.clone(),
            revision: model.revision.as_ref().ok().map(|revision| revision.it),
            system: self.job.build.size.system.name().to_owned(),
            size: self.job.build.size.to_string(),
            fingerprint: self.job.fingerprint.to_owned(),
            more: Vec::new(),
        };
        code::draw(&text.text(), at, CODE)
    }

    /// The pages, with their feet.
    pub(in crate::sheets) fn finish(mut self) -> (Vec<Page>, Vec<Printed>) {
        let count = self.pages.len();
        let y = self.size.height() - MARGIN;
        let model = &self.job.build.model.name;
        let left = format!("{} · {} {} · {}", self.job.shop.name, model, self.job.build.size, self.job.fingerprint);
        let room = self.width() - 40.0;
        let points = paper::fit(&left, Style::Condensed, 9.0, 7.0, room).unwrap_or(7.0);
        for (n, page) in self.pages.iter_mut().enumerate() {
            let (from, to) = (Point::new(MARGIN, y - 5.0), Point::new(self.size.width() - MARGIN, y - 5.0));
            page.ops.push(Op::Line { from, to, pen: HAIR });
            page.ops.push(Op::Text(Text::new(MARGIN, y, points, Style::Condensed, left.clone())));
            let number = format!(
                "{} {} {} {count}",
                words::of(words::PAGE, self.job.lang),
                n + 1,
                words::of(words::OF, self.job.lang)
            );
            let at = Text::new(self.size.width() - MARGIN, y, 9.0, Style::Condensed, number);
            page.ops.push(Op::Text(at.anchored(Anchor::Right)));
        }
        (self.pages, self.printed)
    }
}
