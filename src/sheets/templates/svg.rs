//! Templates as drawings: SVG in mm, one group a layer.

use super::TemplateJob;
use super::shape::{Layer, Mark, Shape};
use crate::sheets::words;
use kurbo::{Point as Mm, Rect};
use std::fmt::Write as _;

/// Room round the drawing, mm.
const ROOM: f64 = 5.0;

pub(super) fn drawing(job: &TemplateJob<'_>, shape: &Shape) -> String {
    let frame = shape.bounds().inset(ROOM);
    let (x, y, wide, high) = (number(frame.x0), number(frame.y0), number(frame.width()), number(frame.height()));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" viewBox=\"{x} {y} {wide} {high}\">\n"
    );
    let _ = writeln!(out, "<title>{}</title>", escaped(&format!("{} · {}", shape.title, job.identity().join(" · "))));
    let said: Vec<String> =
        shape.notes.iter().cloned().chain(job.refused.then(|| job.reasons()).into_iter().flatten()).collect();
    let _ = writeln!(out, "<desc>{}</desc>", escaped(&said.join(" · ")));
    shape.layers.iter().for_each(|layer| group(layer, &mut out));
    if job.refused {
        unreleased(job, frame, &mut out);
    }
    out.push_str("</svg>\n");
    out
}

fn group(layer: &Layer, out: &mut String) {
    let width = number(layer.pen.width);
    let _ = writeln!(out, "<g id=\"{}\" fill=\"none\" stroke=\"black\" stroke-width=\"{width}\">", layer.id);
    let _ = writeln!(out, "<title>{}</title>", escaped(&layer.says));
    for mark in &layer.marks {
        match mark {
            Mark::Line(points) => out.push_str(&format!("<path d=\"{}\"/>\n", path(points))),
            Mark::Dot { centre, radius } => {
                let (x, y, r) = (number(centre.x), number(centre.y), number(*radius));
                out.push_str(&format!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\"/>\n"));
            }
            Mark::Word { .. } => {}
        }
    }
    out.push_str("</g>\n");
}

fn unreleased(job: &TemplateJob<'_>, frame: Rect, out: &mut String) {
    let (centre, word) = (frame.center(), words::NOT_RELEASED.say(job.lang));
    let (x, y, size) = (number(centre.x), number(centre.y), number(frame.width() / 10.0));
    let _ = writeln!(
        out,
        "<text id=\"not-released\" x=\"{x}\" y=\"{y}\" font-size=\"{size}\" text-anchor=\"middle\" fill=\"#d6d6d6\">{word}</text>"
    );
}

fn path(points: &[Mm]) -> String {
    let places = points.iter().map(|point| format!("{} {}", number(point.x), number(point.y)));
    format!("M{}", places.collect::<Vec<_>>().join("L"))
}

/// To a thousandth, and never minus nought.
fn number(value: f64) -> String {
    format!("{}", (value * 1000.0).round() / 1000.0 + 0.0)
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
