//! What people get wrong, and what no one should write: each has a clear finding at its place, or a named limit.
//!
//! The snapshots show every text with everything that is said of it, to be read aloud.

use crate::common::memory::{Memory, NoSize, Only};
use hobnail::finding::{Finding, Severity};
use hobnail::spec::Loaded;
use std::fmt::Write as _;

/// The demo with one edit, as a line for people.
struct Case {
    file: &'static str,
    old: &'static str,
    new: String,
}

fn case(file: &'static str, old: &'static str, new: impl Into<String>) -> Case {
    Case { file, old, new: new.into() }
}

/// A snapshot of the text alone.
macro_rules! shown {
    ($text:expr $(,)?) => {
        insta::with_settings!({ omit_expression => true }, { insta::assert_snapshot!($text) })
    };
}

const NAILED: &str = "base heel-nail back 7/8 in, breast 6.5/8 in";
const SCREE: &str = "specs/models/scree-8.hob";
const CAIRN: &str = "specs/models/cairn-10.hob";
const MUSTER: &str = "specs/models/muster-10.hob";
const SHOP: &str = "specs/shop.hob";
const STOCK: &str = "specs/stock.hob";
const TELLER: &str = "specs/lasts/teller.hob";

fn said(loaded: &Loaded, finding: &Finding) -> String {
    let sources = &loaded.sources;
    let mut text = format!("  {}: {}\n", finding.name, finding.message);
    for (n, label) in finding.labels.iter().enumerate() {
        let slice: String = sources.slice(label.span).chars().take(60).collect();
        let mark = if n == 0 { "at" } else { "and" };
        let words = if label.text.is_empty() { String::new() } else { format!(" ({})", label.text) };
        let _ = writeln!(text, "    {mark} {} `{}`{words}", sources.place(label.span), slice.escape_debug());
    }
    for help in &finding.help {
        let _ = writeln!(text, "    help: {help}");
    }
    text
}

fn faults(memory: &Memory, roots: &[&str]) -> String {
    let (loaded, checked) = memory.check(roots, &NoSize);
    let faults = checked.findings.iter().filter(|finding| finding.severity == Severity::Fault);
    let text: String = faults.map(|finding| said(&loaded, finding)).collect();
    if text.is_empty() { "  nothing\n".to_owned() } else { text }
}

/// Every case with all that is said of it; each must be one finding.
fn one_each(cases: &[Case]) -> String {
    let demo = Memory::demo();
    let mut all = String::new();
    for case in cases {
        let text = demo.text(case.file);
        assert!(text.contains(case.old), "{} has no `{}`", case.file, case.old);
        let spoiled = demo.with(case.file, text.replacen(case.old, &case.new, 1));
        let model = case.file.starts_with("specs/models/");
        let answer = faults(&spoiled, &[if model { case.file } else { SCREE }]);
        let shown: String = case.new.chars().take(80).collect();
        let count = answer.lines().filter(|line| line.starts_with("  ") && !line.starts_with("    ")).count();
        let _ = writeln!(all, "{}", shown.trim().escape_debug());
        if count != 1 {
            let _ = writeln!(all, "  !! {count} findings");
        }
        all += &answer;
        all.push('\n');
    }
    all
}

/// Small texts of their own, each judged alone; how many findings each gives is seen in the snapshot.
fn texts(cases: &[(&str, &[u8])]) -> String {
    let mut all = String::new();
    for (what, bytes) in cases {
        let memory = Memory::new().with("a.hob", *bytes);
        let _ = writeln!(all, "{what}\n{}", faults(&memory, &["a.hob"]));
    }
    all
}

#[test]
fn ways_of_writing() {
    let wide = "wide 16 mm\n";
    let with = |text: &str| case(SCREE, wide, format!("{text}\n"));
    shown!(one_each(&[
        with("wide 3/8\""),
        with("wide 1-1/2 in"),
        with("wide 3,5 mm"),
        with("wide 12"),
        with("wide -3 mm"),
        with("wide mm 16"),
        with("wide 16 m"),
        with("wide 16 MM"),
        with("wide 16mm thick"),
        with("wide"),
        with("wide about 16 mm"),
        with("Wide 16 mm"),
        with("wide 16 mm; wide 16 mm"),
        with("wide 16 mm;; ;"),
        with("wide 16 mm, 17 mm"),
        with("wide = 16 mm"),
        with("wide: 16 mm"),
        with("wide (16 mm)"),
        with("wide 15..16 mm"),
        with("wide 16 mm +- 1 mm"),
        with("wide sixteen mm"),
        with("wide 1e1 mm"),
        with("wide .5 mm"),
        with("wide 16. mm"),
        case(SCREE, "mulled 8..16 hours", "mulled 2-3 hours"),
        case(SCREE, "mulled 8..16 hours", "mulled 2 to 3 hours"),
        case(SCREE, "mulled 8..16 hours", "mulled 16..8 hours"),
        case(SCREE, "mulled 8..16 hours", "mulled 8.. hours"),
        case(SCREE, "mulled 8..16 hours", "mulled 8…16 hours"),
        case(SCREE, "mulled 8..16 hours", "mulled 8 hours..16 mm"),
        case(SCREE, "thread bonded-138;", "thread #138\n"),
        case(SCREE, "thread bonded-138;", "thread # 138\n"),
        case(SCREE, "thread bonded-138;", "thread 138;"),
        case(SCREE, "thread bonded-138;", "thread \"bonded-138\";"),
        case(SCREE, "thread bonded-138;", "thread Bonded-138;"),
        case(SCREE, "thread bonded-138;", "thread bonded_138;"),
        case(SCREE, "thread bonded-138;", "thread bonded 138;"),
        case(SCREE, "thread bonded-138;", "thread pitch;"),
        case(SCREE, "needle 130 Nm;", "needle 130/21;"),
        case(SCREE, "needle 130 Nm;", "needle Nm 130;"),
        case(SCREE, "needle 130 Nm;", "needle 130;"),
        case(SCREE, "needle 130 Nm;", "needle 130 N;"),
        case(SCREE, "layer shank", "Layer shank"),
        case(SCREE, "layer shank", "LAYER shank"),
        case(SCREE, "layer shank", "layer Shank"),
        case(SCREE, "rows 3 first 2 mm apart 3.5 mm;", "rows 3 first 2 mm\n      apart 3.5 mm;"),
        case(SCREE, "rows 3 first 2 mm apart 3.5 mm;", "rows 3 first 2 mm first 3 mm apart 3.5 mm;"),
        case(SCREE, "rows 3 first 2 mm apart 3.5 mm;", "rows 2.5 first 2 mm apart 3.5 mm;"),
        case(SCREE, "rows 3 first 2 mm apart 3.5 mm;", "rows three first 2 mm apart 3.5 mm;"),
        case(SCREE, "turned-out quarter, vamp ", "turned-out quarter vamp "),
        case(SCREE, "turned-out quarter, vamp ", "turned-out quarter, "),
        case(SCREE, "part vamp ", "part \"vamp\" "),
        case(SCREE, "part vamp ", "part 8vamp "),
        case(SCREE, "mark stamped \"Tarnbeck\"", "mark stamped Tarnbeck"),
        case(SCREE, "mark stamped \"Tarnbeck\"", "mark stamped 'Tarnbeck'"),
        case(SCREE, "mark stamped \"Tarnbeck\"", "mark stamped \u{201c}Tarnbeck\u{201d}"),
        case(SCREE, "of bend 12 iron", "of bend 11 iron"),
        case(SCREE, "of bend 12 iron", "of bend"),
        case(SCREE, "of bend 12 iron", "of lug-low 12 iron"),
        case(SCREE, "of bend 12 iron", "of wood 12 iron"),
        case(SCREE, NAILED, "base heel-nail back 7/8 in, back 6/8 in"),
        case(SCREE, "joins quarter; ", "joins collar; "),
    ]));
}

#[test]
fn numbers_and_values() {
    let cut = "cut                4 mm";
    let with = |text: &str| case(SHOP, cut, text);
    let long = "9".repeat(400);
    shown!(one_each(&[
        with(&format!("cut {long} mm")),
        with(&format!("cut 1.{long} mm")),
        with(&format!("cut 1/{long} mm")),
        with("cut 1/0 mm"),
        with("cut 1 1/0 mm"),
        with("cut 123456789.123456789/987654321.987654321 mm"),
        case(STOCK, "base 4.5 mm +- 0.3 mm", "base 4.5 mm +- 5 mm"),
        case(STOCK, "base 4.5 mm +- 0.3 mm", "base 4.5 mm +- 120 %"),
        case(STOCK, "base 4.5 mm +- 0.3 mm", "base 4.5 mm +-"),
        case(STOCK, "base 4.5 mm +- 0.3 mm", "base 0 mm"),
        case(STOCK, "substance 6..7 oz", "substance 7..6 oz"),
        case(STOCK, "of-hide prime 45 %, second 40 %", "of-hide prime 145 %, second 40 %"),
        case(STOCK, "of-hide prime 45 %, second 40 %", "of-hide prime 60.1 %, second 40.2 %"),
        case(STOCK, "lengths 4/8, 4.5/8, 5/8, 5.5/8, 6/8, 7/8 in", "lengths 4/8, 5/8"),
        case(STOCK, "lengths 4/8, 4.5/8, 5/8, 5.5/8, 6/8, 7/8 in", "lengths 4/8, 4/8 in"),
        case(STOCK, "lengths 4/8, 4.5/8, 5/8, 5.5/8, 6/8, 7/8 in", "lengths 0, 5/8 in"),
        case(STOCK, "size  70 tex", "size 0 tex"),
        case(STOCK, "packing 0.7", "packing 0"),
        case(STOCK, "packing 0.7", "packing 7"),
        case(STOCK, "density 1.14 g/cm3", "density 0 g/cm3"),
        case(SHOP, "pitch 4..8 spi", "pitch 0..8 spi"),
        case(SHOP, "lock 1/2", "lock 3/2"),
        case(SHOP, "bobbin across 36 mm hub 9 mm", "bobbin across 9 mm hub 36 mm"),
        case(SHOP, "clinch         1.5..5 mm", "clinch 5..1.5 mm"),
        case(SCREE, "wide 16 mm\n", "wide 0 mm\n"),
        case(SCREE, "skive quarter { edge wide 12 mm to 1.0 mm; ", "skive quarter { edge wide 20 mm to 1.0 mm; "),
        case(SCREE, "skive quarter { edge wide 12 mm to 1.0 mm; ", "skive quarter { edge wide 12 mm to 9 mm; "),
        case(SCREE, "enters-turnout outside 38 %", "leans 0 deg; enters-turnout outside 38 %"),
        case(SCREE, "enters-turnout outside 38 %", "leans 180 deg; enters-turnout outside 38 %"),
        case(SCREE, "enters-turnout outside 38 %", "enters-turnout outside 138 %"),
        case(SCREE, "pitch 5 spi", "pitch 0 spi"),
        case(SCREE, "pitch 5 spi", "pitch 0 mm"),
        case(SCREE, "pitch 5 spi", "pitch 1000000 spi"),
        case(SCREE, "pitch 5 spi", "pitch 0.000001 spi"),
        case(SCREE, "      rows 2;  from-edge", "      rows 0;  from-edge"),
        case(SCREE, "      rows 2;  from-edge", "      rows 999999999;  from-edge"),
        case(SCREE, "rows 3 first", "rows 0 first"),
        case(SCREE, "inside-feather 10 mm;  apart 12 mm", "inside-feather 10 mm;  apart 0 mm"),
        case(SCREE, "inside-feather 10 mm;  apart 12 mm", "inside-feather 10 mm;  apart 0.000001 mm"),
        case(SCREE, "turnout at-forepart 11 mm", "turnout at-forepart 900000000 mm"),
        case(SCREE, "lifts  2 of", "lifts 4000000000 of"),
        case(
            SCREE,
            "of bend 10 iron;  covers waist;  breadth 22 mm;  bonded neoprene",
            "of bend 10 iron;  covers waist;  breadth 0 mm"
        ),
        case(SCREE, "pieces 1;  area 4.4 dm2", "pieces 0;  area 4.4 dm2"),
        case(SCREE, "area 4.4 dm2", "area 0 dm2"),
        case(SCREE, "revision 3", "revision 3.5"),
        case(SCREE, "revision 3", "revision 99999999999"),
        // What the shelf does not have.
        case(SCREE, "lifts  2 of lift-leather 12 iron", "lifts  2 of lift-leather 9.5 iron"),
        case(SCREE, NAILED, "base heel-nail 5.5/8 in"),
        case(SCREE, NAILED, "base heel-nail back 7/8 in, breast 5.5/8 in"),
        // A place that is left out takes the length of the place behind it; the back has none behind it.
        case(SCREE, NAILED, "base heel-nail breast 6/8 in"),
        case(MUSTER, "lengths 7/8 in", "lengths 7.5/8 in"),
        case(SCREE, "waist nailed { with clinching;", "waist nailed { with clinching;  length 4.75/8 in;"),
        // Stages that leave something loose.
        case(MUSTER, "stage 2 { lifts 3;", "stage 2 { lifts 2;"),
        case(MUSTER, "stage 1 { wedges;  lifts 1;", "stage 1 { lifts 1;"),
        case(MUSTER, "stage 2 { lifts 3;", "stage 2 { wedges;  lifts 3;"),
        // Nothing holds what lies below the rows.
        case(
            CAIRN,
            "layer outsole { of lug-heavy;        ends at-breast;  bonded neoprene }",
            "layer outsole { of lug-heavy;        ends at-breast }"
        ),
    ]));
}

#[test]
fn sizes_and_lasts() {
    let run = "run us-men 6..12 by 1/2, 13, 14 widths C, D, E, EE";
    let with = |text: &str| case(SCREE, run, text);
    shown!(one_each(&[
        with("run us-men 6..12 by 0 widths C, D"),
        with("run us-men 12..6 by 1/2 widths C, D"),
        with("run us-men 6..12 by 1/2, 12 widths C, D"),
        with("run us-men 6..12 by 1/2 widths C, C"),
        with("run us-men 6..12 by 1/2 widths C, D, EEE"),
        with("run us-men 6..12 by 1/2 widths F"),
        with("run us-men 6..12 by 1/2 widths X"),
        with("run us-men 6..12 by 1/4 widths C, D"),
        with("run us-men 6..12 by 1/2, 15.5, 16 widths C, D"),
        with("run uk 6..12 by 1/2 widths C, D"),
        with("run men 6..12 by 1/2 widths C, D"),
        with("run 6..12 by 1/2 widths C, D"),
        with("run us-men widths C, D"),
        with("run us-men 6..12 by 1/2"),
        with("run us-men 6..12 by widths C, D"),
        with("run us-men 6..999999999 by 1/2 widths C, D"),
        with("run us-men 0..900 by 1/12 widths C, D"),
        with("run us-men 6..12 by 1/999999999 widths C, D"),
        with("run us-men 10½ d widths C, D"),
        with("run us-men 6-12 by 1/2 widths C, D"),
        with("run us-men 6 to 12 by 1/2 widths C, D"),
        case(TELLER, "made us-men 5..15 by 1/2", "made us-men 5..15"),
        case(TELLER, "base us-men 9 D", "base 9 D"),
        case(TELLER, "base us-men 9 D", "base us-men 9"),
        case(TELLER, "base us-men 9 D", "base uk 9 D"),
        case(TELLER, "base us-men 9 D", "base us-men 4 D"),
        case(TELLER, "stick 283 mm", "stick 0 mm"),
        case(TELLER, "bottom 276 mm", "bottom 0 mm"),
        case(TELLER, "bottom 276 mm", "bottom 900000000 mm"),
        case(TELLER, "joints inside 70 % outside 62 %", "joints inside 100 % outside 62 %"),
        case(TELLER, "joints inside 70 % outside 62 %", "joints inside 20 % outside 62 %"),
        case(TELLER, "breast 26 %", "breast 0 %"),
        case(TELLER, "seat 20 mm slope 3 deg", "seat 20 mm slope 90 deg"),
        case(TELLER, "at   36 %   inside 28.6 mm", "at   36 %   inside 0 mm"),
        case(TELLER, "at   36 %   inside 28.6 mm", "at   36 %"),
        case(TELLER, "at    0 %   inside  0.0 mm", "at    0 %   inside  5 mm"),
        case(TELLER, "    at  100 %   inside  0.0 mm   outside  0.0 mm\n", "\n"),
        case(
            TELLER,
            "    at   36 %   inside 28.6 mm",
            "    at   35.5 %   inside 5 mm outside 400 mm\n    at   36 %   inside 28.6 mm"
        ),
        case(TELLER, "grade size  { stick 1/3 in", "grade size  { stick 100 mm"),
    ]));
}

#[test]
fn bytes_and_shapes() {
    shown!(texts(&[
        ("empty", b""),
        ("only a comment", b"# nothing yet\n"),
        ("only white space", b"  \n\t\n"),
        ("byte-order mark", b"\xEF\xBB\xBFrubber a { thickness 3 mm }\n"),
        ("byte-order mark in the middle", b"rubber a { thickness 3 mm }\n\xEF\xBB\xBFrubber b { thickness 3 mm }\n"),
        ("carriage returns", b"rubber a {\r\n  thickness 3 mm\r\n}\r\n"),
        ("old carriage returns", b"rubber a {\r  thickness 3 mm\r}\r"),
        ("tabs", b"rubber\ta\t{\tthickness\t3\tmm\t}\n"),
        ("NUL", b"rubber a { thickness 3\0 mm }\n"),
        ("NUL in a text", b"use \"a\0b.hob\"\nrubber a { thickness 3 mm }\n"),
        ("not UTF-8", b"# caf\xE9\nrubber a { thickness 3 mm }\n"),
        ("UTF-16", b"\xFF\xFEr\0u\0b\0"),
        ("no-break space", "rubber a { thickness 3\u{a0}mm }\n".as_bytes()),
        ("unclosed text", b"use \"shop.hob\nrubber a { thickness 3 mm }\n"),
        ("unclosed text before a block", b"last a \"Teller {\n}\n"),
        ("unclosed block", b"rubber a {\n  thickness 3 mm\n\nrubber b { thickness 3 mm }\n"),
        ("unclosed block at the end", b"rubber a { thickness 3 mm\n"),
        ("two blocks open", b"shop \"x\" {\n  house {\n    cut 4 mm\n\nrubber a { thickness 3 mm }\n"),
        ("a close too many", b"rubber a { thickness 3 mm }\n}\n"),
        ("block on the next line", b"rubber a\n{\n  thickness 3 mm\n}\n"),
        ("block without a head", b"{ thickness 3 mm }\n"),
        ("no block", b"rubber a\n"),
        ("spare block", b"rubber a { thickness 3 mm { x } }\n"),
        ("statement at the top", b"thickness 3 mm\n"),
        ("unknown kind", b"leather a { substance 7 oz }\n"),
        ("numbers first", b"3 mm thickness\n"),
        ("a sentence", b"This is a boot with a thick sole.\n"),
        ("doubled names", b"rubber a { thickness 3 mm }\nrubber a { thickness 4 mm }\n"),
    ]));
}

#[test]
fn deep_and_many() {
    let deep = "shop \"x\" { house { ".repeat(40);
    let answer = texts(&[("80 deep", deep.as_bytes()), ("100,000 open", "{".repeat(100_000).as_bytes())]);
    shown!(answer);
    let many: String = (0..1000).map(|n| format!("rubber r{n} {{ thickness 3 oops }}\n")).collect();
    let (_, faults) = Memory::new().with("a.hob", many).faults(&["a.hob"]);
    assert_eq!(faults.len(), 1000);
}

#[test]
fn files_that_use_files() {
    let shop = "shop \"x\" { machine m { makes lockstitch; sews 9 mm; needle 90..200 Nm; thread 70..300 tex; pitch 4..9 spi } }\n";
    let files = |files: &[(&str, &str)]| {
        let mut memory = Memory::new().with("shop.hob", shop);
        for (path, text) in files {
            memory = memory.with(path, *text);
        }
        faults(&memory, &["a.hob"])
    };
    let mut all = String::new();
    let mut tell = |what: &str, answer: String| {
        let _ = writeln!(all, "{what}\n{answer}");
    };
    tell("itself", files(&[("a.hob", "use \"a.hob\"\n")]));
    tell("a circle of two", files(&[("a.hob", "use \"b.hob\"\n"), ("b.hob", "use \"a.hob\"\n")]));
    let three = [("a.hob", "use \"b.hob\"\n"), ("b.hob", "use \"c.hob\"\n"), ("c.hob", "use \"b.hob\"\n")];
    tell("a circle further on", files(&three));
    tell("a missing file", files(&[("a.hob", "use \"nowhere.hob\"\n")]));
    tell("an empty path", files(&[("a.hob", "use \"\"\n")]));
    tell("one file by two paths", files(&[("a.hob", "use \"shop.hob\"\nuse \"./shop.hob\"\n")]));
    tell("one file twice", files(&[("a.hob", "use \"shop.hob\"\nuse \"shop.hob\"\n")]));
    tell("two shops", files(&[("a.hob", "use \"shop.hob\"\nshop \"y\" { paper a4 }\n")]));
    let two = [
        ("a.hob", "use \"shop.hob\"\nuse \"b.hob\"\n"),
        ("b.hob", "rubber r { thickness 3 mm }\nrubber r { thickness 3 mm }\n"),
    ];
    tell("a fault in a file used", files(&two));
    shown!(all);
}

#[test]
fn models_and_variants() {
    let header = "use \"../shop.hob\"\nuse \"../stock.hob\"\nuse \"../lasts/teller.hob\"\nuse \"scree-8.hob\"\n";
    let demo = Memory::demo();
    let mut all = String::new();
    let mut tell = |text: &str| {
        let spoiled = demo.with("specs/models/new.hob", format!("{header}{text}\n"));
        let _ = writeln!(all, "{text}\n{}", faults(&spoiled, &["specs/models/new.hob"]));
    };
    tell("model a like scree-8 { revision 1 }");
    tell("model a like scree-88 { revision 1 }");
    tell("model a like brogue { revision 1 }");
    tell("model a like a { revision 1 }");
    tell("model a like b { revision 1 }\nmodel b like a { revision 1 }");
    tell(
        "model a like b { revision 1 }\nmodel b like a { revision 1 }\nmodel c like d { revision 1 }\nmodel d like c { revision 1 }",
    );
    tell(
        "model a like b { revision 1 }\nmodel b like scree-8 { revision 1; bottom { layer midsole { of bend 10 spi } } }",
    );
    tell("model a like scree-8 { }");
    tell("model a like scree-8 { revision 1; bottom { without layer slip } }");
    tell("model a like scree-8 { revision 1; bottom { without layer } }");
    tell("model a like scree-8 { revision 1; bottom { without } }");
    tell("model a like scree-8 { revision 1; bottom { without slip } }");
    tell(
        "model a like scree-8 { revision 1; bottom { without layer midsole; without layer insole; without layer outsole; without layer shank; without layer pad } }",
    );
    tell("model a like scree-8 { revision 1; bottom { without layer outsole } }");
    tell("model a like scree-8 { revision 1; without last }");
    tell("model a like scree-8 { revision 1; last brogue }");
    tell("model a like scree-8 { revision 1; bottom { forefoot nailed { inside-feather 10 mm } } }");
    tell("model a like scree-8 { revision 1; bottom { waist nailed { with heel-nail } } }");
    tell("model a { revision 1 }");
    tell("model a { }");
    tell("model a {");
    tell("model like { revision 1 }");
    let chain: String = (0..20).map(|n| format!("model m{} like m{n} {{ revision 1 }}\n", n + 1)).collect();
    tell(&format!("{chain}model m0 like scree-8 {{ revision 1 }}"));
    shown!(all);
}

#[test]
fn a_model_without_a_shop_or_a_last() {
    let demo = Memory::demo();
    let without = |line: &str| {
        let text = demo.text(SCREE).replacen(line, "\n", 1);
        faults(&demo.with(SCREE, text), &[SCREE])
    };
    let mut all = String::new();
    for line in ["use \"../shop.hob\"\n", "use \"../stock.hob\"\n", "use \"../lasts/teller.hob\"\n", "  last teller\n"]
    {
        let _ = writeln!(all, "without {}\n{}", line.trim(), without(line));
    }
    shown!(all);
}

/// A fault takes what rests on it: every rule that would have judged it is named, none passes in silence.
#[test]
fn rules_that_a_fault_leaves_without_figures_are_named() {
    let demo = Memory::demo();
    for (old, new, rules) in [
        (
            "cap cap-low\n",
            "cap cap-low 5 mm\n",
            &["heel/height", "heel/nail-hold", "heel/nail-point", "heel/cap-nails", "heel/nailer"][..],
        ),
        ("shaft 165 mm", "shaft 165", &["claim/height", "upper/gusset"]),
        ("from-edge 3.5 mm", "from-edge 3.5", &["jaw/sole-stack", "rows/turnout", "rows/guide"]),
    ] {
        let text = demo.text(SCREE).replacen(old, new, 1);
        let (_, checked) = demo.with(SCREE, text).check(&[SCREE], &Only("9 D"));
        let named: String = checked
            .findings
            .iter()
            .filter(|it| {
                it.name == "check/not-judged" && it.about.as_ref().is_some_and(|about| about.model == "scree-8")
            })
            .map(|it| it.message.clone() + "; ")
            .collect();
        for rule in rules {
            assert!(named.contains(rule), "{new}: {rule} is not in {named}");
        }
    }
}
