//! Written documents, read back: bytes, words, widths, lengths and the catalogue.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::float_cmp,
    reason = "a test may write a file and start a reader; coordinates are compared as written"
)]

mod read;

use std::process::Command;

use rayon::ThreadPoolBuilder;

use self::read::Book;
use super::*;

const SIGNS: &str = "Ø 2 mm ± 0.1 · 42½ ¼ ¾ ⅛ 7′ 6″ é ñ (a) \\ → ☐ ✓ × — ‘x’ …";

fn text(y: f64, style: Style, content: &str) -> Op {
    Op::Text(Text::new(20.0, y, 10.0, style, content))
}

fn page(ops: Vec<Op>) -> Page {
    Page { ops, ..Page::default() }
}

fn document(pages: Vec<Page>) -> Document {
    Document { title: "Build — 42½".into(), author: "Demo shop".into(), pages, ..Document::default() }
}

fn bytes(document: &Document) -> Result<Vec<u8>, Error> {
    write(document, &Typefaces::for_text(document.characters())?)
}

fn book(document: &Document) -> Book {
    Book::read(&bytes(document).unwrap())
}

/// A run long enough to become art: `count` circles around the middle of the page.
fn stitches(count: usize) -> Vec<Op> {
    let at = |i: usize| (i as f64 / count as f64 * std::f64::consts::TAU).sin_cos();
    let circle = |(sin, cos)| Op::Circle {
        centre: Point::new(105.0 + 60.0 * cos, 148.0 + 60.0 * sin),
        radius: 0.6,
        paint: Paint::stroke(Pen::black(0.2)),
    };
    (0..count).map(at).map(circle).collect()
}

/// A document with something of everything.
fn full() -> Document {
    let square = [(20.0, 60.0), (60.0, 60.0), (60.0, 90.0), (20.0, 90.0)];
    let square: Vec<Point> = square.map(|(x, y)| Point::new(x, y)).to_vec();
    let mut ops = stitches(60);
    for (row, style) in Style::ALL.into_iter().enumerate() {
        ops.push(text(20.0 + row as f64 * 6.0, style, "Stitch 3.2 mm, 42½"));
    }
    for hatch in Hatch::ALL {
        let rings = vec![square.clone()];
        let outline = Some(Pen::black(0.4));
        ops.push(Op::Hatched { rings, hatch, outline });
    }
    let clipped = vec![text(105.0, Style::Bold, "within"), Op::Place { drawing: 0, at: square[0] }];
    ops.push(Op::Clip { at: Point::new(20.0, 100.0), width: 30.0, height: 10.0, ops: clipped });
    let mut first = page(ops.clone());
    first.label = "S-1".into();
    first.headings = vec![Heading::part("Size 42½"), Heading::sheet("Stitching")];
    let mut second = page(ops);
    second.headings = vec![Heading::sheet("Trimming"), Heading::part("Size 43")];
    second.size = PageSize::landscape(Paper::Letter);
    Document {
        drawings: vec![Drawing { width: 40.0, height: 20.0, ops: vec![text(10.0, Style::Mono, "shared")] }],
        attachments: vec![attachment("figures.json"), attachment("a.json")],
        language: "en".into(),
        ..document(vec![first, second])
    }
}

fn attachment(name: &str) -> Attachment {
    Attachment {
        name: name.into(),
        mime: "application/json".into(),
        about: "figures".into(),
        bytes: name.as_bytes().repeat(40),
    }
}

#[test]
fn the_same_document_gives_the_same_bytes_in_any_number_of_threads() {
    let documents: Vec<Document> =
        (0..24).map(|number| Document { title: format!("Build {number}"), ..full() }).collect();
    let run = |threads: usize| {
        let pool = ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| {
            let faces = Typefaces::for_text(documents[0].characters()).unwrap();
            let all: Result<Vec<_>, _> = write_all(&documents, &faces).into_iter().collect();
            all.unwrap()
        })
    };
    let once = run(1);
    assert_eq!(once, run(1));
    assert_eq!(once, run(2));
    assert_eq!(once, run(5));
}

#[test]
fn text_reads_back_exactly() {
    let ops = Style::ALL.map(|style| text(20.0, style, SIGNS)).to_vec();
    let mut turned = Text::new(100.0, 100.0, 12.0, Style::Bold, "up é").turned(90.0);
    turned.anchor = Anchor::Centre;
    let mut pages = vec![page(ops), page(vec![Op::Text(turned)])];
    pages[1].ops.push(text(50.0, Style::Regular, "8.5\u{a0}mm"));
    let book = book(&document(pages));
    assert_eq!(book.texts(0), vec![SIGNS; Style::ALL.len()]);
    assert_eq!(book.texts(1), vec!["up é", "8.5 mm"]);
}

#[test]
fn widths_are_those_that_the_document_states() {
    let ops = Style::ALL.map(|style| text(20.0, style, SIGNS)).to_vec();
    let book = book(&document(vec![page(ops)]));
    for (style, stated) in Style::ALL.into_iter().zip(book.widths(0, 10.0)) {
        let measured = width_mm(SIGNS, style, 10.0);
        assert!((measured - stated).abs() < 1e-9, "{style:?}: {measured} {stated}");
        assert!(lacks(SIGNS, style).is_empty());
    }
}

#[test]
fn anchored_text_stands_where_it_should() {
    let at = |anchor| Op::Text(Text::new(100.0, 50.0, 12.0, Style::Regular, "Setting").anchored(anchor));
    let ops = [Anchor::Left, Anchor::Centre, Anchor::Right].map(at).to_vec();
    let book = book(&document(vec![page(ops)]));
    let width = width_mm("Setting", Style::Regular, 12.0);
    for (start, part) in book.starts(0).into_iter().zip([0.0, 0.5, 1.0]) {
        assert!((start.0 - (100.0 - width * part)).abs() < 0.001);
        assert!((start.1 - (297.0 - 50.0)).abs() < 0.001);
    }
}

#[test]
fn a_bar_of_100_mm_is_100_mm_long() {
    let bar = |y: f64| Op::Line { from: Point::new(30.0, y), to: Point::new(130.0, y), pen: Pen::black(0.3) };
    let mut art = stitches(60);
    art.push(bar(60.0));
    for ops in [vec![bar(60.0)], art] {
        let book = book(&document(vec![page(ops)]));
        let (from, to) = book.lines(0).pop().unwrap();
        assert!((to.0 - from.0 - 100.0).abs() < 0.0005, "{from:?} {to:?}");
        assert!((from.0 - 30.0).abs() < 0.0005 && (from.1 - 237.0).abs() < 0.0005);
        assert_eq!(from.1, to.1);
    }
}

#[test]
fn art_that_comes_back_is_kept_once() {
    let one = book(&document(vec![page(stitches(60))]));
    let five = book(&document(vec![page(stitches(60)); 5]));
    assert_eq!((one.forms(), five.forms()), (1, 1));
    let other = book(&document(vec![page(stitches(60)), page(stitches(61))]));
    assert_eq!(other.forms(), 2);
    assert_eq!(book(&document(vec![page(stitches(3))])).forms(), 0);
}

/// Shared drawings are written by printpdf, art by ourselves.
#[test]
fn art_is_what_printpdf_would_have_written() {
    let drawn = |op: &Op| !matches!(op, Op::Text(_) | Op::Clip { .. });
    let mut ops: Vec<Op> = full().pages[0].ops.iter().filter(|op| drawn(op)).cloned().collect();
    let clipped = Op::Clip { at: Point::new(20.0, 20.0), width: 90.0, height: 50.0, ops: ops.clone() };
    let at = Point::new(30.0, 40.0);
    let paint = Paint::both(Ink(33), Pen::black(0.5).dashed(2.0, 1.0));
    ops.extend([clipped, Op::Rect { at, width: 9.5, height: 3.0, paint }]);
    let path = [
        Step::Move(at),
        Step::Curve(Point::new(1.0, 2.0), Point::new(50.0, 3.125), Point::new(60.0, 70.0)),
        Step::Line(Point::new(0.0, 300.0)),
        Step::Close,
        Step::Move(Point::new(5.0, 5.0)),
        Step::Line(Point::new(7.0, 5.0)),
    ];
    ops.push(Op::Path { path: Path(path.into()), paint });
    let drawing = Drawing { width: 210.0, height: 297.0, ops: ops.clone() };
    let place = Op::Place { drawing: 0, at: Point::default() };
    let document = Document { drawings: vec![drawing], ..document(vec![page(ops), page(vec![place])]) };
    let book = book(&document);
    assert_eq!(book.forms(), 2);
    assert!(book.drawn(0).len() > 1000);
    assert_eq!(book.drawn(0), book.drawn(1));
}

#[test]
fn the_catalogue_says_what_was_asked_for() {
    let book = book(&full());
    let catalog = book.pdf.catalog().unwrap();
    assert_eq!(catalog.get(b"PageMode").unwrap().as_name().unwrap(), b"UseOutlines");
    let layout = catalog.get(b"PageLayout").unwrap();
    assert_eq!(layout.as_name().unwrap(), b"SinglePage");
    assert_eq!(book.outline(), ["Size 42½", "Size 42½ / Stitching", "Size 42½ / Trimming", "Size 43"],);
    assert_eq!(book.attachments(), ["a.json", "figures.json"]);
    assert_eq!(book.labels(), ["S-1", ""]);
    assert_eq!(book.texts(1).last().unwrap(), "shared");
    let info = book.pdf.trailer.get(b"Info").unwrap().as_reference().unwrap();
    let info = book.pdf.get_dictionary(info).unwrap();
    assert!(!info.has(b"CreationDate") && !info.has(b"ModDate"));
}

#[test]
fn the_id_follows_the_content() {
    let ids: Vec<_> = ["one", "one", "two"]
        .map(|word| book(&document(vec![page(vec![text(20.0, Style::Regular, word)])])))
        .map(|book| book.pdf.trailer.get(b"ID").unwrap().clone())
        .into();
    assert_eq!(ids[0], ids[1]);
    assert_ne!(ids[0], ids[2]);
}

#[test]
fn what_cannot_be_written_is_refused() {
    let one = |op: Op| bytes(&document(vec![page(vec![op])]));
    assert!(matches!(bytes(&document(vec![])), Err(Error::NoPages)));
    let missing = one(text(20.0, Style::Mono, "a靴"));
    assert!(matches!(missing, Err(Error::Missing { characters, .. }) if characters == ['靴'].into()));
    let line = |y: f64| Op::Polyline { points: vec![Point::new(0.0, y); 2], pen: Pen::black(0.2) };
    for wrong in [f64::NAN, f64::INFINITY, -1e9] {
        assert!(matches!(one(line(wrong)), Err(Error::OffTheScale { .. })));
        let art = bytes(&document(vec![page([stitches(60), vec![line(wrong)]].concat())]));
        assert!(matches!(art, Err(Error::OffTheScale { .. })));
    }
    let place = Op::Place { drawing: 0, at: Point::default() };
    assert!(matches!(one(place.clone()), Err(Error::NoDrawing { drawing: 0, .. })));
    let nested = Drawing { width: 9.0, height: 9.0, ops: vec![place] };
    let nested = Document { drawings: vec![nested], ..document(vec![page(vec![])]) };
    assert!(matches!(bytes(&nested), Err(Error::Nested { .. })));
    let twice = vec![attachment("a"), attachment("a")];
    let twice = Document { attachments: twice, ..document(vec![page(vec![])]) };
    assert!(matches!(bytes(&twice), Err(Error::Attachment(name)) if name == "a"));
}

#[test]
fn lines_break_at_spaces_and_fit() {
    let prose = "Stitch at 3.2 mm, 8.5\u{a0}mm from the edge\nunbrechbarlangeswort  end";
    let lines = wrap(prose, Style::Regular, 10.0, 30.0);
    for line in &lines {
        assert!(width_mm(line, Style::Regular, 10.0) <= 30.0 + 1e-9, "{line:?}");
        assert_eq!(line.trim_matches(' '), *line);
    }
    let squeezed = |text: &str| text.replace([' ', '\n'], "");
    assert_eq!(squeezed(&lines.concat()), squeezed(prose));
    assert!(lines.iter().any(|line| line.contains("8.5\u{a0}mm")));
    assert_eq!(wrap("a b", Style::Regular, 10.0, 0.1), ["a", "b"]);
    assert_eq!(wrap("a\n\nb", Style::Regular, 10.0, 99.0), ["a", "", "b"]);
    assert_eq!(wrap("", Style::Regular, 10.0, 99.0), [""]);
}

#[test]
fn a_fitted_text_is_as_large_as_it_can_be() {
    let width = |size| width_mm("Sole stitcher", Style::Bold, size);
    let fitted = |wanted, least, room| fit("Sole stitcher", Style::Bold, wanted, least, room);
    assert_eq!(fitted(20.0, 8.0, 500.0), Some(20.0));
    let size = fitted(40.0, 8.0, 60.0).unwrap();
    assert!(width(size) <= 60.0 && width(size + 0.1) > 60.0);
    assert_eq!(fitted(40.0, 8.0, 1.0), None);
    assert_eq!(fitted(40.0, 8.05, width(8.07)), Some(8.05));
}

#[test]
fn capitals_are_as_high_as_stated() {
    for style in Style::ALL {
        let part = style.top_of_h();
        assert!((part - Style::CAP_HEIGHT).abs() < 0.001, "{style:?} {part}");
    }
}

/// Where the tools are installed, they have to agree.
#[test]
fn other_readers_agree() {
    let file = std::env::temp_dir().join(format!("paper-{}.pdf", std::process::id()));
    std::fs::write(&file, bytes(&full()).unwrap()).unwrap();
    if let Ok(checked) = Command::new("qpdf").arg("--check").arg(&file).output() {
        assert!(checked.status.success(), "{checked:?}");
    }
    if let Ok(read) = Command::new("pdftotext").arg(&file).arg("-").output() {
        let read = String::from_utf8(read.stdout).unwrap();
        assert_eq!(read.matches("Stitch 3.2 mm, 42½").count(), 10, "{read}");
        assert_eq!(read.matches("shared").count(), 2, "{read}");
    }
    std::fs::remove_file(&file).unwrap();
}
