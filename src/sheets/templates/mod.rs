//! True-size templates: what is laid on leather and lifts, at 1 : 1, on pages or as drawings in mm.
//!
//! Each template is a [`Shape`] of named layers, one file a shape; `page` puts shapes on paper and tiles what it does not
//! hold, `svg` writes them as drawings. The geometry of a build is developed on the insole of the right foot; every template is
//! seen from below, as a boot is held at the bench, and the left is the mirror of the right.

mod bottom;
mod heel;
mod insole;
mod page;
mod shape;
mod strips;
mod svg;

use super::Units;
use super::page::reason;
use super::paper::{Document, Heading, Paper};
use super::values::Voice;
use super::words::{self, Lang, templates as said};
use crate::build::Build;
use crate::check::Notice;
use shape::Shape;

/// The foot that a template is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "they say themselves")]
pub enum Foot {
    Left,
    Right,
}

impl Foot {
    /// As files are named.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Foot::Left => "left",
            Foot::Right => "right",
        }
    }

    fn say(self, lang: Lang) -> &'static str {
        match self {
            Foot::Left => said::LEFT.say(lang),
            Foot::Right => said::RIGHT.say(lang),
        }
    }
}

/// The templates of one size-width and foot.
#[derive(Debug)]
pub struct TemplateJob<'a> {
    /// What was built.
    pub build: &'a Build<'a>,
    /// The shop's name.
    pub shop: &'a str,
    /// The build's fingerprint.
    pub fingerprint: &'a str,
    /// The paper; A3 and tabloid lie on their side.
    pub paper: Paper,
    /// The language.
    pub lang: Lang,
    /// The foot.
    pub foot: Foot,
    /// Whether the build is refused, so that every template says that it is not released.
    pub refused: bool,
    /// What the rules found of it: those that refuse are the reason.
    pub notices: &'a [Notice],
}

impl TemplateJob<'_> {
    fn title(&self) -> String {
        format!("{} {}", self.build.model.name, self.build.size)
    }

    /// Everything that tells one template from another: shop, model, size, foot, revision, fingerprint.
    fn identity(&self) -> Vec<String> {
        let mut parts = vec![self.shop.to_owned(), self.title(), self.foot.say(self.lang).to_owned()];
        if let Ok(revision) = &self.build.model.revision {
            parts.push(format!("{} {}", words::of(words::REVISION, self.lang), revision.it));
        }
        parts.push(self.fingerprint.to_owned());
        parts
    }

    /// Why it is not released, one line a rule.
    fn reasons(&self) -> Vec<String> {
        let voice = Voice { lang: self.lang, units: Units::Metric };
        self.notices.iter().filter(|notice| notice.refused).map(|notice| reason(notice, voice)).collect()
    }

    fn shapes(&self) -> Vec<Shape> {
        let shapes = [bottom::shape(self), insole::shape(self), heel::shape(self), strips::shape(self)];
        shapes.into_iter().flatten().collect()
    }
}

/// Lays the templates out on pages; `None` if nothing of the bottom is known.
#[must_use]
pub fn templates(job: &TemplateJob<'_>) -> Option<Document> {
    let mut pages = page::pages(job, &job.shapes());
    let title = format!("{} {}", job.title(), job.foot.say(job.lang));
    pages.first_mut()?.headings.insert(0, Heading::part(title.clone()));
    Some(Document {
        title,
        author: job.shop.to_owned(),
        subject: said::TEMPLATE.say(job.lang).to_owned(),
        keywords: job.identity(),
        pages,
        ..super::document(job.lang)
    })
}

/// The templates as drawings in mm, each with the name of its shape.
#[must_use]
pub fn svgs(job: &TemplateJob<'_>) -> Vec<(&'static str, String)> {
    job.shapes().iter().map(|shape| (shape.id, svg::drawing(job, shape))).collect()
}
