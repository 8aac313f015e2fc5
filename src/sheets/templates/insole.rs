//! The insole: the feather line is its outline; breast and joints to lay it by.

use super::super::paper::Pen;
use super::super::words::{self, templates as said};
use super::TemplateJob;
use super::shape::{Layer, Mark, Shape, whole};
use crate::geometry::{Path as _, Straight};

pub(super) fn shape(job: &TemplateJob<'_>) -> Option<Shape> {
    let last = &job.build.lines.as_ref().ok()?.last;
    let feather = &last.feather;
    let across = |line: &Straight| -> Option<Mark> {
        let crossings = feather.crossings(line);
        Some(Mark::Line(vec![feather.point(*crossings.first()?), feather.point(*crossings.last()?)]))
    };
    let lang = job.lang;
    let layer =
        |id: &'static str, word: words::Word, pen, marks| Layer { id, says: word.say(lang).to_owned(), pen, marks };
    let layers = vec![
        layer("insole", words::FEATHER, Pen::black(0.3), vec![whole(feather)]),
        layer(
            "breast",
            words::BREAST,
            Pen::black(0.16).dashed(4.0, 1.0),
            across(&Straight::square_at(last.breast)).into_iter().collect(),
        ),
        layer(
            "joints",
            words::JOINTS,
            Pen::black(0.14).dashed(4.0, 1.0),
            across(&last.joint_line).into_iter().collect(),
        ),
    ];
    let notes = vec![said::FROM_BELOW.say(lang).to_owned()];
    Some(Shape { id: "insole", title: said::INSOLE.say(lang), notes, layers }.on(job.foot))
}
