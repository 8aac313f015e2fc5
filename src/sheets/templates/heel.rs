//! Lifts, wedges and cap: all have one outline, at its place from the heel seat.

use super::super::drawings::lifted;
use super::super::paper::Pen;
use super::super::values::mm;
use super::super::words::{self, Word, templates as said};
use super::TemplateJob;
use super::shape::{Layer, Mark, Shape, along};

pub(super) fn shape(job: &TemplateJob<'_>) -> Option<Shape> {
    let lines = job.build.lines.as_ref().ok()?;
    let heel = job.build.heel.as_ref()?.as_ref().ok()?;
    let (from, to) = lines.round_the_heel()?;
    let Mark::Line(mut outline) = along(&lines.edge, from, to) else { return None };
    outline.extend(outline.first().copied());
    let mut layers = vec![layer(job, "outline", words::FINISHED_EDGE, Pen::black(0.5), outline)];
    let rough = lines.rough();
    let Mark::Line(rough) = along(&rough, from, to) else { return None };
    layers.push(layer(job, "rough-edge", said::ROUGH_EDGE, Pen::black(0.24), rough));
    let pieces = heel.stack.iter().map(|(which, count, thick)| {
        let word = lifted(*which);
        format!("{count} × {} {}", word.say(job.lang), mm(*thick, job.lang))
    });
    let mut notes: Vec<String> = pieces.collect();
    notes.push(format!("1 × {}", words::CAP.say(job.lang)));
    notes.push(said::FROM_BELOW.say(job.lang).to_owned());
    Some(Shape { id: "heel", title: said::HEEL_PIECES.say(job.lang), notes, layers }.on(job.foot))
}

fn layer(job: &TemplateJob<'_>, id: &'static str, word: Word, pen: Pen, line: Vec<kurbo::Point>) -> Layer {
    Layer { id, says: word.say(job.lang).to_owned(), pen, marks: vec![Mark::Line(line)] }
}
