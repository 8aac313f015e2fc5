//! Strips to hold against the work: heel heights, rows from the edge, hole centres of the facing.

use super::super::paper::Pen;
use super::super::values::mm;
use super::super::words::templates as said;
use super::TemplateJob;
use super::shape::{Layer, Mark, Shape};
use kurbo::Point as Mm;

/// How wide a strip is, and from strip to strip, mm.
const WIDE: f64 = 18.0;
const APART: f64 = 28.0;

pub(super) fn shape(job: &TemplateJob<'_>) -> Option<Shape> {
    let build = job.build;
    let mut layers: Vec<Layer> = Vec::new();
    let mut strip = |id: &'static str, says: String, marks: &[f64]| {
        let n = f64::from(u32::try_from(layers.len()).unwrap_or_default());
        // Every layer has a pen of its own.
        let pen = Pen::black(0.3 + 0.02 * n);
        let mut drawn = ruled(marks, n * APART);
        drawn.push(Mark::Word { at: Mm::new(0.0, n * APART - 2.0), says: says.clone() });
        layers.push(Layer { id, says, pen, marks: drawn });
    };
    if let (Some(Ok(heel)), Ok(lines)) = (&build.heel, &build.lines) {
        // Each strip has the base when it is level, and beyond it as it is built.
        let gauged = heel.gauged(lines.behind_the_heel());
        let ends = gauged.after.into_iter().zip(gauged.before);
        let strips = [("heel-back", said::HEEL_BACK), ("heel-breast", said::HEEL_BREAST)];
        for ((id, word), (after, before)) in strips.into_iter().zip(ends) {
            let said = format!("{}: {} / {}", word.say(job.lang), mm(after, job.lang), mm(before, job.lang));
            strip(id, said, &[after, before]);
        }
    }
    if let Ok(rows) = &build.rows {
        let insets: Vec<f64> = rows.rows.iter().map(|row| row.inset).collect();
        strip("edge-guide", said::EDGE_GUIDE.say(job.lang).to_owned(), &insets);
    }
    if let Some(Ok(facing)) = &build.facing {
        let centres: Vec<f64> = facing.centres.iter().map(|centre| centre.at).collect();
        strip("facing", said::FACING_CENTRES.say(job.lang).to_owned(), &centres);
    }
    let title = said::STRIPS.say(job.lang);
    (!layers.is_empty()).then_some(Shape { id: "strips", title, notes: Vec::new(), layers })
}

/// A strip from 0, a line across at each mark, and room beyond the last.
fn ruled(marks: &[f64], y: f64) -> Vec<Mark> {
    let end = marks.iter().copied().fold(30.0, f64::max) + 15.0;
    let corner = |x: f64, down: f64| Mm::new(x, y + down);
    let frame = vec![corner(0.0, 0.0), corner(end, 0.0), corner(end, WIDE), corner(0.0, WIDE), corner(0.0, 0.0)];
    let across = marks.iter().map(|at| Mark::Line(vec![corner(*at, 0.0), corner(*at, WIDE)]));
    std::iter::once(Mark::Line(frame)).chain(across).collect()
}
