//! Template truth: what is drawn at true size, read back out of the PDF and the SVG, against points worked out apart with
//! `SciPy` and Shapely (`reference/templates.py` makes the table).
#![allow(clippy::cast_precision_loss, reason = "counts of a few hundred")]

use crate::common::{Case, case};
use kurbo::{Affine, ParamCurve as _, Point, Rect, Shape as _, Vec2};
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object};
use std::collections::BTreeMap;
use std::fs;

const TABLE: &str = include_str!("../reference/templates.csv");
const MM: f64 = 25.4 / 72.0;
/// How far a drawn point may be from one that was worked out, mm.
const NEAR: f64 = 0.1;
/// How wide the pens of the layers are, mm: by these they are told apart.
const PENS: [(&str, f64); 10] = [
    ("wall", 0.2),
    ("joints", 0.14),
    ("feather", 0.3),
    ("finished-edge", 0.5),
    ("rough-edge", 0.24),
    ("rows", 0.35),
    ("tenths", 0.18),
    ("starts", 0.4),
    ("forefoot", 0.28),
    ("waist-nails", 0.22),
];
const BREAST_PEN: f64 = 0.16;
const CROSS_PEN: f64 = 0.12;
const BAR_PEN: f64 = 0.45;

type Parts = BTreeMap<u32, Vec<Point>>;
type Layers = BTreeMap<String, Parts>;

/// The table: by size and foot, layer and part.
fn table() -> BTreeMap<(String, String), Layers> {
    let mut all: BTreeMap<_, Layers> = BTreeMap::new();
    for line in TABLE.lines() {
        let fields: Vec<&str> = line.split(',').collect();
        let [size, foot, layer, part, x, y] = fields[..] else { panic!("six fields in {line}") };
        let number = |text: &str| text.parse::<f64>().expect("a number");
        let layers = all.entry((size.to_owned(), foot.to_owned())).or_default();
        let part = layers.entry(layer.to_owned()).or_default().entry(part.parse().expect("a part")).or_default();
        part.push(Point::new(number(x), number(y)));
    }
    all
}

/// A line of one pen on a page: mm from the page's top left corner.
#[derive(Clone, Debug)]
struct Drawn {
    pen: f64,
    points: Vec<Point>,
}

/// A page read back: its lines, its window, its size.
struct Leaf {
    drawn: Vec<Drawn>,
    window: Rect,
}

impl Leaf {
    fn of(&self, pen: f64) -> Vec<&Drawn> {
        // Pens are written to a thousandth of a point.
        self.drawn.iter().filter(|line| (line.pen - pen).abs() < 0.001).collect()
    }

    /// From the page to the template: the breast line's middle stands on the centre line, at a station that is known.
    fn undo(&self, breast: f64) -> Vec2 {
        let line = self.of(BREAST_PEN).into_iter().next_back().expect("it has a breast line");
        Point::new(breast, 0.0) - line.points[0].midpoint(line.points[1])
    }
}

/// What is drawn with: kept on `q`, taken back on `Q`.
#[derive(Clone, Copy)]
struct State {
    to_page: Affine,
    pen: f64,
}

struct Pdf<'d> {
    document: &'d Document,
    height: f64,
    drawn: Vec<Drawn>,
    clips: Vec<Rect>,
}

impl Pdf<'_> {
    fn mm(&self, state: State, x: f64, y: f64) -> Point {
        let p = state.to_page * Point::new(x, y);
        Point::new(p.x * MM, (self.height - p.y) * MM)
    }

    fn run(&mut self, bytes: &[u8], resources: &Dictionary, mut state: State) {
        let (mut kept, mut path, mut frame): (Vec<State>, Vec<Vec<Point>>, Option<Rect>) =
            (Vec::new(), Vec::new(), None);
        for operation in Content::decode(bytes).expect("content can be read").operations {
            let n: Vec<f64> = operation.operands.iter().filter_map(number).collect();
            match operation.operator.as_str() {
                "q" => kept.push(state),
                "Q" => state = kept.pop().expect("q before Q"),
                "cm" => state.to_page *= Affine::new([n[0], n[1], n[2], n[3], n[4], n[5]]),
                "w" => state.pen = n[0] * MM,
                "m" => path.push(vec![self.mm(state, n[0], n[1])]),
                "l" => path.last_mut().expect("m before l").push(self.mm(state, n[0], n[1])),
                "c" => {
                    let [a, b, end] = [0, 2, 4].map(|k| self.mm(state, n[k], n[k + 1]));
                    let line = path.last_mut().expect("m before c");
                    let curve = kurbo::CubicBez::new(line[line.len() - 1], a, b, end);
                    line.extend((1..=16_u32).map(|k| curve.eval(f64::from(k) / 16.0)));
                }
                "re" => {
                    let corners = [self.mm(state, n[0], n[1]), self.mm(state, n[0] + n[2], n[1] + n[3])];
                    frame = Some(Rect::from_points(corners[0], corners[1]));
                }
                "W" | "W*" => self.clips.extend(frame),
                "S" | "s" => {
                    let pen = state.pen;
                    self.drawn.extend(path.drain(..).map(|points| Drawn { pen, points }));
                }
                "n" | "f" | "f*" | "B" | "B*" | "b" | "b*" => path.clear(),
                "Do" => self.call(operation.operands[0].as_name().expect("a name"), resources, state),
                _ => {}
            }
        }
    }

    fn call(&mut self, name: &[u8], resources: &Dictionary, state: State) {
        let forms = resources.get_deref(b"XObject", self.document).and_then(Object::as_dict).expect("forms");
        let form = forms.get_deref(name, self.document).and_then(Object::as_stream).expect("the form");
        let own = form.dict.get_deref(b"Resources", self.document).and_then(Object::as_dict);
        let bytes = form.decompressed_content().unwrap_or_else(|_| form.content.clone());
        self.run(&bytes, own.unwrap_or(resources), state);
    }
}

fn number(object: &Object) -> Option<f64> {
    object.as_float().ok().map(f64::from).or_else(|| object.as_i64().ok().map(|whole| whole as f64))
}

/// The first pages of a template's file, read back: those of the bottom.
fn leaves(bytes: &[u8], wanted: usize) -> Vec<Leaf> {
    let document = Document::load_mem(bytes).expect("the PDF can be read");
    let mut leaves = Vec::new();
    for (_, id) in document.get_pages().into_iter().take(wanted) {
        let page = document.get_dictionary(id).expect("a page");
        let media = page.get_deref(b"MediaBox", &document).and_then(Object::as_array).expect("a media box");
        let height = media.iter().filter_map(number).next_back().expect("a height");
        let resources = page.get_deref(b"Resources", &document).and_then(Object::as_dict).expect("resources");
        let bytes = document.get_page_content(id);
        let mut pdf = Pdf { document: &document, height, drawn: Vec::new(), clips: Vec::new() };
        pdf.run(&bytes, resources, State { to_page: Affine::IDENTITY, pen: 0.0 });
        let window = pdf.clips.first().copied().expect("the template lies in a window");
        leaves.push(Leaf { drawn: pdf.drawn, window });
    }
    leaves
}

fn far(p: Point, line: &[Point]) -> f64 {
    let near = |pair: &[Point]| {
        let (a, along) = (pair[0], pair[1] - pair[0]);
        let share = if along.hypot2() > 0.0 { ((p - a).dot(along) / along.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
        p.distance(a + along * share)
    };
    line.windows(2).map(near).fold(f64::INFINITY, f64::min)
}

fn middle(points: &[Point]) -> Point {
    let first = Rect::from_points(points[0], points[0]);
    points.iter().fold(first, |all, p| all.union_pt(*p)).bounding_box().center()
}

/// What one layer has that is not where it was worked out to be, drawn or not drawn.
fn faults(layer: &str, drawn: &[Vec<Point>], parts: &Parts) -> Vec<String> {
    let mut faults = Vec::new();
    let mut say = |what: &str, p: Point, far: f64| {
        if far > NEAR {
            faults.push(format!("{layer}: {what} at {p:?} is off by {far:.3} mm"));
        }
    };
    let wanted: Vec<Point> = parts.values().flatten().copied().collect();
    if matches!(layer, "tenths" | "starts" | "waist-nails") {
        let places: Vec<Point> = drawn.iter().map(|points| middle(points)).collect();
        let off = |p: Point, all: &[Point]| all.iter().map(|q| q.distance(p)).fold(f64::INFINITY, f64::min);
        for p in &wanted {
            say("reference", *p, off(*p, &places));
        }
        for p in &places {
            say("mark", *p, off(*p, &wanted));
        }
        if places.len() != wanted.len() {
            faults.push(format!("{layer}: {} marks, {} worked out", places.len(), wanted.len()));
        }
        return faults;
    }
    let off = |p: Point, lines: &[Vec<Point>]| lines.iter().map(|line| far(p, line)).fold(f64::INFINITY, f64::min);
    let parts: Vec<Vec<Point>> = parts.values().cloned().collect();
    for p in &wanted {
        say("reference", *p, off(*p, drawn));
    }
    for p in drawn.iter().flatten() {
        say("line", *p, off(*p, &parts));
    }
    faults
}

fn print(shop: &Case, size: &str, foot: &str, more: &[&str]) -> Vec<String> {
    let model = "specs/models/scree-8.hob";
    let mut arguments = vec!["templates", model, "--size", size, "--foot", foot, "--out", "out"];
    arguments.extend(more);
    let ran = shop.run(&arguments);
    assert_eq!(ran.code, Some(0), "{ran}");
    let mut names: Vec<String> = fs::read_dir(shop.path("out")).expect("the folder").map(named).collect();
    names.sort();
    names
}

fn named(entry: std::io::Result<fs::DirEntry>) -> String {
    entry.expect("an entry").file_name().into_string().expect("UTF-8")
}

fn pdf_of(shop: &Case, size: &str, foot: &str, more: &[&str]) -> Vec<u8> {
    let names = print(shop, size, foot, more);
    let name = names.iter().find(|name| name.starts_with("scree-8_") && name.ends_with(&format!("_{foot}.pdf")));
    fs::read(shop.path("out").join(name.expect("its file"))).expect("the file")
}

#[test]
fn what_is_drawn_lies_where_it_was_worked_out() {
    let mut all = Vec::new();
    for ((size, foot), layers) in table() {
        // One page of A3 or two tiles of A4: each has the whole template in its own frame.
        for (paper, pages) in [("a3", 1), ("a4", 2)] {
            let bytes = pdf_of(&case().demo(), &size, &foot, &["--paper", paper]);
            let breast = layers["breast"][&0][0].x;
            let leaves = leaves(&bytes, pages);
            for leaf in &leaves {
                let undo = leaf.undo(breast);
                for (layer, pen) in PENS {
                    // The key above the window shows each pen once more.
                    let inside = |line: &&&Drawn| !(line.points.iter().all(|p| p.y < leaf.window.y0));
                    let lines = leaf.of(pen);
                    let lines = lines.iter().filter(inside).map(|line| line.points.iter().map(|p| *p + undo).collect());
                    let faults = faults(layer, &lines.collect::<Vec<_>>(), &layers[layer]);
                    all.extend(faults.into_iter().map(|fault| format!("{size} {foot} {paper} {fault}")));
                }
            }
            for (layer, p) in layers.iter().flat_map(|(layer, parts)| parts.values().flatten().map(move |p| (layer, p)))
            {
                let seen = |leaf: &Leaf| leaf.window.inflate(0.01, 0.01).contains(*p - leaf.undo(breast));
                if !leaves.iter().any(seen) {
                    all.push(format!("{size} {foot} {paper} {layer} {p:?} lies on no page"));
                }
            }
        }
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all[..all.len().min(30)].join("\n"));
}

#[test]
fn marks_of_neighbouring_tiles_lie_on_each_other() {
    let bytes = pdf_of(&case().demo(), "9 D", "right", &["--paper", "a4"]);
    let breast = table()[&("9 D".to_owned(), "right".to_owned())]["breast"][&0][0].x;
    let crosses = |leaf: &Leaf| -> Vec<Point> {
        leaf.of(CROSS_PEN).iter().map(|line| line.points[0].midpoint(line.points[1]) + leaf.undo(breast)).collect()
    };
    let leaves = leaves(&bytes, 2);
    let (first, second) = (crosses(&leaves[0]), crosses(&leaves[1]));
    let shared = first.iter().filter(|p| second.iter().any(|q| q.distance(**p) < 0.01)).count();
    assert_eq!((first.len(), second.len(), shared), (8, 8, 4));
}

#[test]
fn bars_are_a_hundred_millimetres_both_ways_on_every_page() {
    for paper in ["a3", "tabloid", "a4", "letter"] {
        let leaves = leaves(&pdf_of(&case().demo(), "9 D", "right", &["--paper", paper]), 99);
        for leaf in &leaves {
            let long: Vec<Vec2> = leaf
                .of(BAR_PEN)
                .iter()
                .map(|bar| bar.points[1] - bar.points[0])
                .filter(|bar| bar.hypot() > 50.0)
                .collect();
            // A point of the PDF is written to a thousandth: 0.0004 mm.
            let is = |bar: &Vec2, x: f64, y: f64| (bar.x.abs() - x).abs() < 0.001 && (bar.y.abs() - y).abs() < 0.001;
            assert!(
                long.iter().any(|bar| is(bar, 100.0, 0.0)) && long.iter().any(|bar| is(bar, 0.0, 100.0)),
                "{long:?}"
            );
        }
    }
}

#[test]
fn drawings_in_mm_say_the_same() {
    let mut all = Vec::new();
    for ((size, foot), layers) in table() {
        let shop = case().demo();
        let names = print(&shop, &size, &foot, &["--kind", "svg"]);
        let name = names.iter().find(|name| name.starts_with("scree-8_") && name.ends_with("_bottom.svg"));
        let text = fs::read_to_string(shop.path("out").join(name.expect("its file"))).expect("the file");
        let value = |what: &str| text.split(&format!("{what}=\"")).nth(1).and_then(|rest| rest.split('"').next());
        let frame: Vec<&str> = value("viewBox").expect("a frame").split(' ').collect();
        let (wide, high) = (format!("{}mm", frame[2]), format!("{}mm", frame[3]));
        assert_eq!((value(" width"), value(" height")), (Some(wide.as_str()), Some(high.as_str())));
        for (layer, _) in PENS {
            let group = text.split(&format!("<g id=\"{layer}\"")).nth(1).and_then(|rest| rest.split("</g>").next());
            let lines: Vec<Vec<Point>> = group.expect("its group").lines().filter_map(drawn).collect();
            all.extend(faults(layer, &lines, &layers[layer]).into_iter().map(|fault| format!("{size} {foot} {fault}")));
        }
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all[..all.len().min(30)].join("\n"));
}

/// The points of a path, or the middle of a circle.
fn drawn(line: &str) -> Option<Vec<Point>> {
    let value = |what: &str| line.split(&format!(" {what}=\"")).nth(1)?.split('"').next();
    let number = |text: &str| text.parse::<f64>().expect("a number");
    if let Some(path) = value("d") {
        let place = |text: &str| text.split_once(' ').map(|(x, y)| Point::new(number(x), number(y)));
        return path.trim_start_matches('M').split('L').map(place).collect();
    }
    Some(vec![Point::new(number(value("cx")?), number(value("cy")?))])
}

#[test]
fn two_runs_are_byte_equal() {
    let (one, other) = (case().demo(), case().demo());
    for more in [["--paper", "letter"], ["--kind", "svg"]] {
        let names = print(&one, "9 D", "both", &more);
        assert_eq!(names, print(&other, "9 D", "both", &more));
        for name in names {
            let read = |shop: &Case| fs::read(shop.path("out").join(&name)).expect("the file");
            assert!(read(&one) == read(&other), "{name}");
        }
    }
}

#[test]
fn what_is_refused_prints_only_by_force_and_says_so() {
    let shop = case().demo();
    let model = "specs/refused/jaw-sole-stack.hob";
    let asked = ["templates", model, "--size", "9 D", "--foot", "left", "--out", "out"];
    assert_eq!(shop.run(&asked).code, Some(1));
    assert!(!shop.path("out").exists());
    shop.run(&[&asked[..], &["--force"]].concat());
    let entry = fs::read_dir(shop.path("out")).expect("the folder").next().expect("a file");
    let document = Document::load(entry.expect("an entry").path()).expect("the PDF can be read");
    for page in document.get_pages().keys() {
        let text = document.extract_text(&[*page]).expect("its text").replace('\u{a0}', " ");
        assert!(text.contains("NOT RELEASED"), "page {page}");
        assert!(text.contains("jaw/sole-stack") && text.contains("22.77 mm"), "page {page} says why");
    }
    let drawn = [&asked[..], &["--force", "--kind", "svg"]].concat();
    shop.run(&drawn);
    let names = fs::read_dir(shop.path("out")).expect("the folder").map(|entry| entry.expect("an entry").path());
    let svgs: Vec<_> = names.filter(|path| path.extension().is_some_and(|kind| kind == "svg")).collect();
    assert!(!svgs.is_empty());
    for svg in svgs {
        let text = fs::read_to_string(svg).expect("the drawing");
        let said = text.lines().find(|line| line.starts_with("<desc>")).expect("what is said of it");
        assert!(said.contains("jaw/sole-stack") && text.contains("not-released"), "{said}");
    }
}
