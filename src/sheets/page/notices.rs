//! What must be known before anyone begins: that the build is not released, and why; what is tight, and what to measure
//! or sort first.

use super::super::paper::{Anchor, Ink, Op, Paint, Pen, Point, Style, Text, width_mm, wrap};
use super::super::station::Station;
use super::super::values::Voice;
use super::super::words;
use super::{BODY, LINE, MARGIN, Sheets, owned, tall};
use crate::build::FigureId as F;
use crate::check::Notice;

/// How dark the words across the page are, in per cent of black.
const FAINT: Ink = Ink(16);

/// `jaw/sole-stack: the stack does not go into the machine (22.77 mm, limit 19 mm)`
pub(in crate::sheets) fn reason(notice: &Notice, voice: Voice) -> String {
    let said = words::refusal(notice.rule, voice.lang);
    let numbers = notice.numbers.map(|(sum, limit, unit)| {
        let unit = words::unit(unit, voice.lang);
        let [sum, limit] = [sum, limit].map(|value| format!("{} {unit}", voice.bare(value, 2)).trim_end().to_owned());
        format!(" ({sum}, {} {limit})", words::of(words::LIMIT, voice.lang))
    });
    format!("{}: {said}{}", notice.rule, numbers.unwrap_or_default())
}

impl Sheets<'_> {
    fn is_released(&self) -> bool {
        !self.job.notices.iter().any(|notice| notice.refused)
    }

    /// NOT RELEASED across the page, behind everything that follows.
    pub(super) fn unreleased(&mut self) {
        if self.is_released() {
            return;
        }
        let word = self.word(words::NOT_RELEASED);
        let (width, height) = (self.size.width(), self.size.height());
        let turn = (height / width).atan();
        let room = (width.hypot(height)) * 0.74;
        let points = (room / width_mm(word, Style::Bold, 1.0) * 10.0).floor() / 10.0;
        // The baseline lies half a capital below the middle of the page, square to the diagonal.
        let drop = points * 25.4 / 72.0 * Style::CAP_HEIGHT / 2.0;
        let at = (width / 2.0 + drop * turn.sin(), height / 2.0 + drop * turn.cos());
        let text = Text::new(at.0, at.1, points, Style::Bold, word).anchored(Anchor::Centre);
        self.push(Op::Text(text.turned(turn.to_degrees()).inked(FAINT)));
    }

    /// Why it is not released, on every station's sheet; what is tight, on the sheets of those that can measure or sort.
    pub(super) fn reasons(&mut self, station: Station) {
        let job = self.job;
        let (refused, tight): (Vec<&Notice>, Vec<&Notice>) = job.notices.iter().partition(|notice| notice.refused);
        if !refused.is_empty() {
            let reasons: Vec<String> = refused.iter().map(|notice| self.reason(notice)).collect();
            self.boxed(words::NOT_RELEASED, &reasons);
        }
        let here = |notice: &&&Notice| words::concerns(notice.rule).contains(&station);
        let reasons: Vec<String> = tight.iter().filter(here).map(|notice| self.first(notice)).collect();
        if !reasons.is_empty() {
            self.boxed(words::TIGHT, &reasons);
        }
    }

    fn reason(&self, notice: &Notice) -> String {
        reason(notice, self.voice())
    }

    /// On further pages the reason stands in a line below the head.
    pub(super) fn still_unreleased(&mut self) {
        if self.is_released() {
            return;
        }
        let refused = self.job.notices.iter().filter(|notice| notice.refused);
        let reasons: Vec<String> = refused.map(|notice| self.reason(notice)).collect();
        let said = format!("{}: {}", self.word(words::NOT_RELEASED), reasons.join("; "));
        let lines = owned(wrap(&said, Style::CondensedBold, BODY, self.width()));
        self.lines((MARGIN, self.y + 3.0), (BODY, Style::CondensedBold, LINE), &lines);
        self.y += tall(lines.len(), LINE) + 1.4;
    }

    /// What to measure or sort first, with the figure that says to what.
    fn first(&mut self, notice: &Notice) -> String {
        let mut text = format!("{}. {}", self.reason(notice), words::first(notice.rule, self.job.lang));
        if notice.rule == "jaw/sole-stack" {
            let sort = [F::StackSort, F::StackSortTo].map(|id| self.job.figures.of(&id.into()));
            if let [Some(what), Some(most)] = sort {
                let [what_said, most_said] = [what, most].map(|figure| self.voice().line(figure));
                self.note(what, &what_said);
                self.note(most, &most_said);
                let label = words::figure(most, self.job.lang);
                text = format!("{text}: {what_said}, {label} {most_said}");
            }
        }
        text
    }

    fn boxed(&mut self, title: words::Word, reasons: &[String]) {
        let title = self.word(title);
        let width = self.width() - 6.0;
        let lines: Vec<String> =
            reasons.iter().flat_map(|reason| owned(wrap(reason, Style::Condensed, BODY, width))).collect();
        let height = tall(lines.len(), LINE) + 8.0;
        let at = Point::new(MARGIN + 0.4, self.y);
        self.push(Op::Rect { at, width: self.width() - 0.8, height, paint: Paint::stroke(Pen::black(0.8)) });
        self.text(MARGIN + 3.0, self.y + 5.4, 12.0, Style::Bold, title.to_owned());
        self.lines((MARGIN + 3.0, self.y + 10.6), (BODY, Style::Condensed, LINE), &lines);
        self.y += height + 3.0;
    }
}
