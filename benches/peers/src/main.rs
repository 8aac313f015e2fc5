//! Draws the pages that `cargo bench --bench pages -- --dump DIR` left in DIR, with pdf-writer, and says how long that took:
//! `hobnail-peers DIR`. One document a size, all of them side by side, streams deflated, fonts embedded, as ours are.

use flate2::Compression;
use flate2::write::ZlibEncoder;
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, Str};
use rayon::prelude::*;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::time::{Duration, Instant};

const RUNS: usize = 7;
const FACES: [&str; 5] = ["TR", "TB", "TC", "TCB", "TM"];

/// A font that documents embed.
struct Font {
    name: String,
    packed: Vec<u8>,
    length: usize,
    glyphs: BTreeMap<char, u16>,
    widths: Vec<f32>,
    meanings: Vec<u8>,
}

enum Op {
    Text { face: usize, size: f32, grey: f32, matrix: [f32; 6], text: String },
    Shape { steps: Vec<Step>, fill: Option<f32>, pen: Option<(f32, f32, Vec<f32>)> },
    Clip([f32; 4]),
    Unclip,
}

enum Step {
    Move(f32, f32),
    Line(f32, f32),
    Curve([f32; 6]),
    Close,
}

struct Page {
    width: f32,
    height: f32,
    ops: Vec<Op>,
}

fn main() {
    let folder = std::env::args().nth(1).expect("the folder with the pages");
    let folder = Path::new(&folder);
    let text = fs::read_to_string(folder.join("pages.json")).expect("the pages are there");
    let whole: Value = serde_json::from_str(&text).expect("they are JSON");
    let documents: Vec<Vec<Page>> =
        list(&whole["documents"]).iter().map(|pages| list(pages).iter().map(page).collect()).collect();
    let count: usize = documents.iter().map(Vec::len).sum();
    let mut runs: Vec<(Duration, usize)> = (0..RUNS).map(|_| run(folder, &documents)).collect();
    runs.sort();
    let (took, bytes) = runs[RUNS / 2];
    if let Some(out) = std::env::args().nth(2) {
        let fonts = fonts(folder);
        fs::write(out, document(&documents[0], &fonts)).expect("files can be written");
    }
    println!("{} {count} {bytes}", took.as_secs_f64());
}

fn run(folder: &Path, documents: &[Vec<Page>]) -> (Duration, usize) {
    let start = Instant::now();
    let fonts = fonts(folder);
    let bytes: Vec<Vec<u8>> = documents.par_iter().map(|pages| document(pages, &fonts)).collect();
    (start.elapsed(), bytes.iter().map(Vec::len).sum())
}

// ---- Reading

fn list(value: &Value) -> &Vec<Value> {
    value.as_array().expect("a list")
}

fn number(value: &Value) -> f32 {
    value.as_f64().expect("a number") as f32
}

fn page(value: &Value) -> Page {
    let ops = list(&value["ops"]).iter().map(op).collect();
    Page { width: number(&value["width"]), height: number(&value["height"]), ops }
}

fn op(value: &Value) -> Op {
    match value[0].as_str().expect("a word") {
        "text" => {
            let (sin, cos) = number(&value[4]).to_radians().sin_cos();
            Op::Text {
                face: FACES.iter().position(|face| value[1] == *face).expect("a face"),
                size: number(&value[2]),
                grey: number(&value[3]),
                matrix: [cos, sin, -sin, cos, number(&value[5]), number(&value[6])],
                text: value[7].as_str().expect("a text").to_owned(),
            }
        }
        "clip" => Op::Clip([1, 2, 3, 4].map(|n| number(&value[n]))),
        "unclip" => Op::Unclip,
        _ => Op::Shape {
            steps: list(&value[1]).iter().map(step).collect(),
            fill: value[2].as_f64().map(|grey| grey as f32),
            pen: value[3]
                .as_array()
                .map(|pen| (number(&pen[0]), number(&pen[1]), list(&pen[2]).iter().map(number).collect())),
        },
    }
}

fn step(value: &Value) -> Step {
    match value[0].as_str().expect("a word") {
        "m" => Step::Move(number(&value[1]), number(&value[2])),
        "l" => Step::Line(number(&value[1]), number(&value[2])),
        "c" => Step::Curve([1, 2, 3, 4, 5, 6].map(|n| number(&value[n]))),
        _ => Step::Close,
    }
}

// ---- Writing

fn deflated(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(6));
    encoder.write_all(bytes).expect("memory takes it");
    encoder.finish().expect("memory takes it")
}

/// The fonts that were left with the pages.
fn fonts(folder: &Path) -> Vec<Option<Font>> {
    FACES.iter().map(|name| font(name, &fs::read(folder.join(format!("cut-{name}.ttf"))).ok()?)).collect()
}

fn font(name: &str, program: &[u8]) -> Option<Font> {
    let face = ttf_parser::RawFace::parse(program, 0).ok()?;
    let table = |tag: &[u8; 4]| face.table(ttf_parser::Tag::from_bytes(tag));
    let cmap = ttf_parser::cmap::Table::parse(table(b"cmap")?)?;
    let head = ttf_parser::head::Table::parse(table(b"head")?)?;
    let maxp = ttf_parser::maxp::Table::parse(table(b"maxp")?)?;
    let hhea = ttf_parser::hhea::Table::parse(table(b"hhea")?)?;
    let hmtx = ttf_parser::hmtx::Table::parse(hhea.number_of_metrics, maxp.number_of_glyphs, table(b"hmtx")?)?;
    let mut glyphs = BTreeMap::new();
    for subtable in cmap.subtables {
        subtable.codepoints(|code| {
            let glyph = subtable.glyph_index(code);
            if let (Some(letter), Some(glyph)) = (char::from_u32(code), glyph) {
                glyphs.insert(letter, glyph.0);
            }
        });
    }
    let scale = 1000.0 / f32::from(head.units_per_em);
    let widths = (0..maxp.number_of_glyphs.get())
        .map(|glyph| f32::from(hmtx.advance(ttf_parser::GlyphId(glyph)).unwrap_or(0)) * scale)
        .collect();
    let mut meanings = UnicodeCmap::new(Name(b"Custom"), SystemInfo {
        registry: Str(b"Adobe"),
        ordering: Str(b"Identity"),
        supplement: 0,
    });
    for (letter, glyph) in &glyphs {
        meanings.pair(*glyph, *letter);
    }
    let meanings = deflated(&meanings.finish());
    Some(Font { name: name.to_owned(), packed: deflated(program), length: program.len(), glyphs, widths, meanings })
}

fn document(pages: &[Page], fonts: &[Option<Font>]) -> Vec<u8> {
    let mut pdf = Pdf::new();
    let mut next = 0;
    let mut new = || {
        next += 1;
        Ref::new(next)
    };
    let (catalog, tree) = (new(), new());
    let mut known: Vec<(&str, Ref)> = Vec::new();
    for font in fonts.iter().flatten() {
        let refs = [new(), new(), new(), new(), new()];
        embed(&mut pdf, font, refs);
        known.push((&font.name, refs[0]));
    }
    let refs: Vec<(Ref, Ref)> = pages.iter().map(|_| (new(), new())).collect();
    pdf.catalog(catalog).pages(tree);
    pdf.pages(tree).kids(refs.iter().map(|(page, _)| *page)).count(pages.len() as i32);
    for (page, (id, content)) in pages.iter().zip(&refs) {
        let mut written = pdf.page(*id);
        written.media_box(Rect::new(0.0, 0.0, page.width, page.height)).parent(tree).contents(*content);
        let mut resources = written.resources();
        let mut dictionary = resources.fonts();
        for (name, font) in &known {
            dictionary.pair(Name(name.as_bytes()), *font);
        }
        dictionary.finish();
        resources.finish();
        written.finish();
        let bytes = deflated(&drawn(page, fonts));
        pdf.stream(*content, &bytes).filter(Filter::FlateDecode);
    }
    pdf.finish()
}

fn embed(pdf: &mut Pdf, font: &Font, [type0, cid, descriptor, program, meanings]: [Ref; 5]) {
    let name = Name(font.name.as_bytes());
    let info = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };
    pdf.type0_font(type0)
        .base_font(name)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(cid)
        .to_unicode(meanings);
    let mut written = pdf.cid_font(cid);
    written.subtype(CidFontType::Type2).base_font(name).system_info(info).font_descriptor(descriptor);
    written.default_width(0.0).cid_to_gid_map_predefined(Name(b"Identity"));
    written.widths().consecutive(0, font.widths.iter().copied());
    written.finish();
    pdf.font_descriptor(descriptor)
        .name(name)
        .flags(FontFlags::SYMBOLIC)
        .bbox(Rect::new(-1000.0, -400.0, 2000.0, 1200.0))
        .italic_angle(0.0)
        .ascent(928.0)
        .descent(-236.0)
        .cap_height(729.0)
        .stem_v(80.0)
        .font_file2(program);
    let mut stream = pdf.stream(program, &font.packed);
    stream.filter(Filter::FlateDecode);
    stream.pair(Name(b"Length1"), font.length as i32);
    stream.finish();
    pdf.stream(meanings, &font.meanings).filter(Filter::FlateDecode);
}

/// What is set already, so that it is set when it changes only.
#[derive(Clone, Default, PartialEq)]
struct Now {
    fill: Option<f32>,
    pen: Option<(f32, f32, Vec<f32>)>,
    face: Option<(usize, f32)>,
}

fn drawn(page: &Page, fonts: &[Option<Font>]) -> Vec<u8> {
    let mut content = Content::new();
    let mut now = Now::default();
    let mut before = Vec::new();
    let mut shown = Vec::new();
    for op in &page.ops {
        match op {
            Op::Text { face, size, grey, matrix, text } => {
                fill(&mut content, &mut now, *grey);
                content.begin_text();
                if now.face != Some((*face, *size)) {
                    content.set_font(Name(FACES[*face].as_bytes()), *size);
                    now.face = Some((*face, *size));
                }
                content.set_text_matrix(*matrix);
                let font = fonts[*face].as_ref().expect("the font was left with the pages");
                shown.clear();
                for letter in text.chars() {
                    shown.extend(font.glyphs.get(&letter).copied().unwrap_or(0).to_be_bytes());
                }
                content.show(Str(&shown));
                content.end_text();
            }
            Op::Shape { steps, fill: inside, pen } => {
                if let Some(grey) = inside {
                    fill(&mut content, &mut now, *grey);
                }
                if pen.is_some() && now.pen != *pen {
                    let (width, grey, dash) = pen.as_ref().expect("there is one");
                    content.set_line_width(*width).set_stroke_gray(*grey).set_dash_pattern(dash.iter().copied(), 0.0);
                    now.pen.clone_from(pen);
                }
                outline(&mut content, steps);
                match (inside, pen) {
                    (Some(_), Some(_)) => content.fill_even_odd_and_stroke(),
                    (Some(_), None) => content.fill_even_odd(),
                    (None, Some(_)) => content.stroke(),
                    (None, None) => content.end_path(),
                };
            }
            Op::Clip([x, y, width, height]) => {
                before.push(now.clone());
                content.save_state().rect(*x, *y, *width, *height).clip_nonzero().end_path();
            }
            Op::Unclip => {
                now = before.pop().unwrap_or_default();
                content.restore_state();
            }
        }
    }
    content.finish().to_vec()
}

fn fill(content: &mut Content, now: &mut Now, grey: f32) {
    if now.fill != Some(grey) {
        content.set_fill_gray(grey);
        now.fill = Some(grey);
    }
}

fn outline(content: &mut Content, steps: &[Step]) {
    for step in steps {
        match *step {
            Step::Move(x, y) => content.move_to(x, y),
            Step::Line(x, y) => content.line_to(x, y),
            Step::Curve([a, b, c, d, x, y]) => content.cubic_to(a, b, c, d, x, y),
            Step::Close => content.close_path(),
        };
    }
}
