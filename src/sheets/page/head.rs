//! The head of every page, to be read from two metres: station, size and width, model; below them what is smaller.

use super::super::Job;
use super::super::code::{self, CodeText};
use super::super::paper::{self, Anchor, Op, Paint, Pen, Point, Style, Text, width_mm, wrap};
use super::super::station::Station;
use super::super::words;
use super::{BODY, LINE, MARGIN, RULE, Sheets, owned, tall};

/// Points of the station, of the size, and of the model, most and least.
const STATION: (f64, f64) = (34.0, 24.0);
const SIZE: f64 = 40.0;
const MODEL: (f64, f64) = (22.0, 16.0);

/// The side of the code, mm, and the room that it takes with the white beside it.
const CODE: f64 = 13.2;
const CODE_ROOM: f64 = CODE + 4.0;

/// The square code of the sheet, in its place: the same on all of its pages.
pub(super) fn square(job: &Job<'_>, width: f64) -> Vec<Op> {
    let model = job.build.model;
    let text = CodeText {
        model: model.name.clone(),
        revision: model.revision.as_ref().ok().map(|revision| revision.it),
        system: job.build.size.system.name().to_owned(),
        size: job.build.size.to_string(),
        fingerprint: job.fingerprint.to_owned(),
        more: Vec::new(),
    };
    code::draw(&text.text(), Point::new(width - MARGIN - CODE, MARGIN + 1.6), CODE)
}

impl Sheets<'_> {
    pub(super) fn head(&mut self, station: Station, continued: bool) {
        let left = self.size_box();
        let room = left - MARGIN - 6.0;
        let title = station.title(self.job.lang);
        let points = paper::fit(title, Style::Bold, STATION.0, STATION.1, room).unwrap_or(STATION.1);
        self.text(MARGIN, self.y + 9.4, points, Style::Bold, title.to_owned());
        let model = self.job.build.model;
        let name = if model.title.is_empty() { &model.name } else { &model.title };
        let points = paper::fit(name, Style::CondensedBold, MODEL.0, MODEL.1, room).unwrap_or(MODEL.1);
        let lines = owned(wrap(name, Style::CondensedBold, points, room));
        self.lines((MARGIN, self.y + 18.6), (points, Style::CondensedBold, 7.0), &lines);
        let below = owned(wrap(&self.particulars(continued), Style::Condensed, BODY, self.width()));
        let y = self.y + 17.4 + tall(lines.len(), 7.0);
        self.lines((MARGIN, y), (BODY, Style::Condensed, LINE), &below);
        self.y = y + tall(below.len(), LINE) - 2.6;
        self.across(self.y, RULE);
        self.y += 3.2;
        if continued {
            self.still_unreleased();
        } else {
            self.reasons(station);
        }
    }

    /// The size in its box at the right, beside the code; where the box begins.
    fn size_box(&mut self) -> f64 {
        let size = self.job.build.size.to_string();
        let right = self.size.width() - MARGIN;
        for op in self.code.clone() {
            self.push(op);
        }
        let right = right - CODE_ROOM;
        let width = width_mm(&size, Style::Bold, SIZE) + 9.0;
        let at = Point::new(right - width + 0.5, self.y + 0.5);
        self.push(Op::Rect { at, width: width - 1.0, height: 15.4, paint: Paint::stroke(Pen::black(1.0)) });
        let text = Text::new(right - width / 2.0, self.y + 13.3, SIZE, Style::Bold, size);
        self.push(Op::Text(text.anchored(Anchor::Centre)));
        right - width
    }

    /// Name, revision, last, feet, in one line.
    fn particulars(&self, continued: bool) -> String {
        let model = self.job.build.model;
        let mut parts = Vec::new();
        if continued {
            parts.push(self.word(words::CONTINUED).to_owned());
        }
        if !model.title.is_empty() {
            parts.push(model.name.clone());
        }
        if let Ok(revision) = &model.revision {
            parts.push(format!("{} {}", self.word(words::REVISION), revision.it));
        }
        if let Ok(last) = &model.last {
            parts.push(format!("{} {}", self.word(words::LAST), last.it.name));
        }
        parts.push(self.word(words::BOTH_FEET).to_owned());
        parts.join(" · ")
    }
}
