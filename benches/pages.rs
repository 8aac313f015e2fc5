//! How fast pages become PDFs: `cargo bench --bench pages`; with `-- --dump DIR` what they show is left there for others
//! to draw, see `benches/peers`.
//!
//! All sizes of one demo model, all stations. Laying out is timed apart from writing, and nothing is put on the disk.

#![allow(clippy::cast_precision_loss, reason = "pages and milliseconds")]

use hobnail::build::Plan;
use hobnail::check::{AllSizes, check};
use hobnail::cli::Disk;
use hobnail::sheets::paper::{
    Anchor, Dash, Document, Op, Page, Paint, Path, Pen, Point, Step, Style, Text, segments, width_mm, write_all,
};
use hobnail::sheets::{Job, Lang, Paper, Typefaces, Units, lay, typefaces};
use hobnail::spec::load;
use lopdf::Object;
use rayon::prelude::*;
use serde_json::{Value, json};
use std::fs;
use std::path::Path as FilePath;
use std::time::{Duration, Instant};

const MODEL: &str = "specs/models/cairn-10.hob";
const RUNS: usize = 7;
const POINTS: f64 = 72.0 / 25.4;

/// A face, the name by which documents call it, and its whole file.
type Face = (Style, &'static str, fn() -> &'static [u8]);

/// The faces by the names that documents call them by, and their whole files.
const FACES: [Face; 5] = [
    (Style::Regular, "TR", dejavu::sans::regular),
    (Style::Bold, "TB", dejavu::sans::bold),
    (Style::Condensed, "TC", dejavu::sans_condensed::regular),
    (Style::CondensedBold, "TCB", dejavu::sans_condensed::bold),
    (Style::Mono, "TM", dejavu::sans_mono::regular),
];

fn main() {
    let (laid, faces, laying) = documents();
    let pages: usize = laid.iter().map(|document| document.pages.len()).sum();
    let mut runs: Vec<(Duration, usize)> = (0..RUNS).map(|_| written(&laid, &faces)).collect();
    runs.sort();
    let (took, bytes) = runs[RUNS / 2];
    let per_second = |took: Duration| pages as f64 / took.as_secs_f64();
    println!(
        "laid out  {:7.1} ms  {pages} pages, {:.0} pages a second",
        laying.as_secs_f64() * 1e3,
        per_second(laying)
    );
    println!(
        "written   {:7.1} ms  {:.0} pages a second, {:.1} kB a page",
        took.as_secs_f64() * 1e3,
        per_second(took),
        bytes as f64 / 1e3 / pages as f64
    );
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(at) = arguments.iter().position(|argument| argument == "--dump") {
        let folder = arguments.get(at + 1).expect("--dump needs a folder");
        dump(FilePath::new(folder), &laid, &faces, took);
    }
}

fn written(laid: &[Document], faces: &Typefaces) -> (Duration, usize) {
    let start = Instant::now();
    let written = write_all(laid, faces);
    let took = start.elapsed();
    (took, written.iter().map(|bytes| bytes.as_ref().expect("it is written").len()).sum())
}

/// The documents of all sizes, without what they carry: others don't carry it either.
fn documents() -> (Vec<Document>, Typefaces, Duration) {
    let loaded = load(&Disk::new(), &[MODEL.to_owned()]).expect("the demo is there");
    let checked = check(&loaded, &AllSizes);
    let model = &checked.models[0];
    let world = &checked.worlds[model.place.0];
    let shop = world.shop.as_ref().expect("the demo has a shop");
    let sizes = checked.figured(model);
    let faces = typefaces(&shop.name, sizes.iter().map(|size| &size.figures)).expect("typefaces are cut");
    let plan = Plan::new(&world.models[model.place.1], shop);
    let start = Instant::now();
    let laid = sizes.par_iter().map(|size| {
        let build = plan.build(size.checked.size);
        let job = Job {
            build: &build,
            shop,
            figures: &size.figures,
            fingerprint: &size.fingerprint,
            attachment: Vec::new(),
            paper: Paper::A4,
            lang: Lang::En,
            units: Units::of(shop),
            pairs: None,
            notices: &[],
            stations: &[],
        };
        let mut document = lay(&job).expect("the demo has work").document;
        document.attachments.clear();
        document
    });
    let laid: Vec<Document> = laid.collect();
    (laid, faces, start.elapsed())
}

// ---- What the pages show, for others

fn dump(folder: &FilePath, laid: &[Document], faces: &Typefaces, took: Duration) {
    fs::create_dir_all(folder).expect("folders can be made");
    let documents: Vec<Value> =
        laid.iter().map(|document| json!(document.pages.iter().map(page).collect::<Vec<_>>())).collect();
    let whole = json!({ "seconds": took.as_secs_f64(), "documents": documents });
    fs::write(folder.join("pages.json"), whole.to_string()).expect("files can be written");
    for (_, name, file) in FACES {
        fs::write(folder.join(format!("whole-{name}.ttf")), file()).expect("files can be written");
    }
    let written = write_all(&laid[..1], faces).swap_remove(0).expect("it is written");
    let pdf = lopdf::Document::load_mem(&written).expect("it is a PDF");
    let first = pdf.get_pages()[&1];
    for (name, font) in pdf.get_page_fonts(first).expect("it has fonts") {
        let program = program(&pdf, font).expect("the font has a program");
        let name = String::from_utf8_lossy(&name).into_owned();
        fs::write(folder.join(format!("cut-{name}.ttf")), program).expect("files can be written");
    }
}

/// The cut-down font program that a document carries.
fn program(pdf: &lopdf::Document, font: &lopdf::Dictionary) -> lopdf::Result<Vec<u8>> {
    let descendant = font.get(b"DescendantFonts")?.as_array()?[0].as_dict()?;
    let descriptor = pdf.get_dictionary(descendant.get(b"FontDescriptor")?.as_reference()?)?;
    let program = pdf.get_object(descriptor.get(b"FontFile2").and_then(Object::as_reference)?)?;
    program.as_stream()?.decompressed_content()
}

fn page(page: &Page) -> Value {
    let (width, height) = (page.size.width(), page.size.height());
    let mut ops = Vec::new();
    draw(&page.ops, height, &mut ops);
    json!({ "width": round(width), "height": round(height), "ops": ops })
}

/// Points to a thousandth, as ours are written.
fn round(mm: f64) -> f64 {
    (mm * POINTS * 1000.0).round() / 1000.0
}

fn draw(ops: &[Op], height: f64, all: &mut Vec<Value>) {
    let at = |p: Point| (round(p.x), round(height - p.y));
    let ring = |points: &[Point], closed: bool| {
        let mut steps: Vec<Value> = Vec::new();
        for (n, p) in points.iter().enumerate() {
            let (x, y) = at(*p);
            steps.push(json!([if n == 0 { "m" } else { "l" }, x, y]));
        }
        if closed {
            steps.push(json!(["h"]));
        }
        steps
    };
    let rings = |rings: &[Vec<Point>]| rings.iter().flat_map(|points| ring(points, true)).collect::<Vec<_>>();
    for op in ops {
        match op {
            Op::Text(text) => all.push(letters(text, at(start(text)))),
            Op::Line { from, to, pen } => all.push(shape(ring(&[*from, *to], false), &Paint::stroke(*pen))),
            Op::Polyline { points, pen } => all.push(shape(ring(points, false), &Paint::stroke(*pen))),
            Op::Polygon { rings: it, paint } => all.push(shape(rings(it), paint)),
            Op::Rect { at: corner, width, height: tall, paint } => {
                all.push(shape(ring(&corners(*corner, *width, *tall), true), paint));
            }
            Op::Circle { centre, radius, paint } => all.push(shape(curves(&circle(*centre, *radius), &at), paint)),
            Op::Path { path, paint } => all.push(shape(curves(path, &at), paint)),
            Op::Hatched { rings: it, hatch, outline } => {
                all.push(shape(rings(it), &Paint::fill(hobnail::sheets::paper::Ink::WHITE)));
                for strokes in hatch.strokes() {
                    let lines =
                        segments(it, strokes).iter().flat_map(|(from, to)| ring(&[*from, *to], false)).collect();
                    all.push(shape(lines, &Paint::stroke(strokes.pen)));
                }
                all.extend(outline.map(|pen| shape(rings(it), &Paint::stroke(pen))));
            }
            Op::Clip { at: corner, width, height: tall, ops } => {
                let (x, y) = at(Point::new(corner.x, corner.y + tall));
                all.push(json!(["clip", x, y, round(*width), round(*tall)]));
                draw(ops, height, all);
                all.push(json!(["unclip"]));
            }
            // The demo's sheets place none; others draw what stands on the pages themselves.
            Op::Place { .. } => {}
        }
    }
}

fn corners(at: Point, width: f64, height: f64) -> [Point; 4] {
    let (right, bottom) = (at.x + width, at.y + height);
    [at, Point::new(right, at.y), Point::new(right, bottom), Point::new(at.x, bottom)]
}

fn circle(centre: Point, radius: f64) -> Path {
    let out = radius * 0.552_284_749_8;
    let place = |dx: f64, dy: f64| Point::new(centre.x + dx, centre.y + dy);
    let mut steps = vec![Step::Move(place(radius, 0.0))];
    let (mut x, mut y) = (1.0, 0.0);
    for _ in 0..4 {
        let (next_x, next_y): (f64, f64) = (-y, x);
        steps.push(Step::Curve(
            place(x * radius + next_x * out, y * radius + next_y * out),
            place(next_x * radius + x * out, next_y * radius + y * out),
            place(next_x * radius, next_y * radius),
        ));
        (x, y) = (next_x, next_y);
    }
    steps.push(Step::Close);
    Path(steps)
}

fn curves(path: &Path, at: &impl Fn(Point) -> (f64, f64)) -> Vec<Value> {
    let steps = path.0.iter().map(|step| match *step {
        Step::Move(p) => json!(["m", at(p).0, at(p).1]),
        Step::Line(p) => json!(["l", at(p).0, at(p).1]),
        Step::Curve(a, b, p) => json!(["c", at(a).0, at(a).1, at(b).0, at(b).1, at(p).0, at(p).1]),
        Step::Close => json!(["h"]),
    });
    steps.collect()
}

fn shape(steps: Vec<Value>, paint: &Paint) -> Value {
    json!(["shape", Value::Array(steps), paint.fill.map(|ink| grey(ink.0)), paint.stroke.as_ref().map(pen)])
}

fn grey(ink: u8) -> f64 {
    f64::from(100 - ink) / 100.0
}

fn pen(pen: &Pen) -> Value {
    let dash = match pen.dash {
        Dash::Solid => Vec::new(),
        Dash::Dashed { on, off } => vec![on, off],
        Dash::Chain { long, gap, short } => vec![long, gap, short, gap],
    };
    json!([round(pen.width), grey(pen.ink.0), dash.into_iter().map(round).collect::<Vec<_>>()])
}

/// Where a text begins, wherever it is anchored.
fn start(text: &Text) -> Point {
    let width = width_mm(&text.content, text.style, text.size);
    let back = match text.anchor {
        Anchor::Left => 0.0,
        Anchor::Centre => width / 2.0,
        Anchor::Right => width,
    };
    let (sin, cos) = text.turn.to_radians().sin_cos();
    Point::new(text.at.x - back * cos, text.at.y + back * sin)
}

fn letters(text: &Text, (x, y): (f64, f64)) -> Value {
    let face = FACES.iter().find(|(style, ..)| *style == text.style).map_or("TR", |(_, name, _)| *name);
    json!(["text", face, text.size, grey(text.ink.0), text.turn, x, y, text.content.replace('\u{a0}', " ")])
}
