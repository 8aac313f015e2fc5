//! How pages are laid out: no text over text, nothing beyond the margins, nothing too small to read, in both languages, on
//! both papers, with names as long as a shop may type.

use crate::common::memory::{Memory, Only};
use crate::common::printed::{MODELS, Wanted, print_of};
use hobnail::build::Plan;
use hobnail::check::Notice;
use hobnail::finding::Severity;
use hobnail::rules::all;
use hobnail::sheets::paper::{Document, Page, Style, TextBox, text_boxes};
use hobnail::sheets::{
    Foot, Lang, Paper, STEP_WORDS, Station, TemplateJob, Units, has_rule, has_value, has_words, templates,
};
use hobnail::{build::Datum, check::AllSizes};

const MARGIN: f64 = 12.0;
/// Boxes are of the face's reach, not of the letters: a hair may be shared.
const SLACK: f64 = 0.05;

/// What is wrong with the layout of a page.
fn faults_of(document: &Document, page: &Page) -> Vec<String> {
    let boxes: Vec<TextBox> = text_boxes(document, page).into_iter().filter(|text| text.ink.0 >= 50).collect();
    let mut faults = Vec::new();
    let (right, bottom) = (page.size.width() - MARGIN, page.size.height() - MARGIN);
    for (n, text) in boxes.iter().enumerate() {
        if text.left < MARGIN - SLACK
            || text.right > right + SLACK
            || text.top < MARGIN - 0.5
            || text.bottom > bottom + 0.5
        {
            faults.push(format!("{}: `{}` leaves the margins", page.label, text.content));
        }
        if text.size < 9.0 {
            faults.push(format!("{}: `{}` has {} pt", page.label, text.content, text.size));
        }
        for other in &boxes[n + 1..] {
            if text.overlaps(other, SLACK) {
                faults.push(format!("{}: `{}` lies over `{}`", page.label, text.content, other.content));
            }
        }
    }
    faults
}

fn faults(shop: &Memory, size: &'static str, wanted: &Wanted<'_>) -> Vec<String> {
    let mut faults = Vec::new();
    for printed in print_of(shop, &Only(size), wanted) {
        let document = &printed.laid.document;
        for page in &document.pages {
            let named = |fault: String| format!("{} {size} {:?} {:?} {fault}", printed.name, wanted.lang, wanted.paper);
            faults.extend(faults_of(document, page).into_iter().map(named));
        }
    }
    faults
}

#[test]
fn no_text_lies_over_text_or_leaves_the_margins() {
    let mut all = Vec::new();
    for lang in Lang::ALL {
        for paper in [Paper::A4, Paper::Letter] {
            for units in [Units::Metric, Units::TradeMetric] {
                let wanted = Wanted { lang, paper, units, ..Wanted::default() };
                for size in ["6 C", "13 EE"] {
                    all.extend(faults(&Memory::demo(), size, &wanted));
                }
            }
        }
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

/// The demo shop with names as long as a shop may type: 40 characters.
fn lengthened() -> Memory {
    let mut shop = Memory::demo();
    let long = |name: &str| {
        format!(
            "{name}-{}",
            "abcdefghijklmnopqrstuvwxyz-abcdefghijkl"[..39 - name.len()].trim_end_matches('-').to_owned() + "z"
        )
    };
    for path in shop.list("specs/") {
        let mut text = shop.text(&path).to_owned();
        for name in
            ["oil-tan-heavy", "counter-cover", "sole-stitcher", "bonded-346", "clinching", "lug-heavy", "cairn-10"]
        {
            text = replaced(&text, name, &long(name));
        }
        text = text.replace("\"Cairn, 10 inch\"", "\"Cairn, 10 inch, in the widest of its widths\"");
        text = text.replace("\"Tarnbeck Bootyard\"", "\"Tarnbeck Bootyard and Sons, Upper Mill Yard\"");
        text = text.replace("\"C10-1\"", "\"C10-1, of the winter pattern, second issue\"");
        shop = shop.with(&path, text);
    }
    shop
}

/// What is wrong with the templates of one size of each model.
fn template_faults(shop: &Memory, refused: bool) -> Vec<String> {
    let (_, checked) = shop.check(&MODELS, &Only("9 D"));
    let mut all = Vec::new();
    let why =
        Notice { rule: "jaw/sole-stack", subjects: Vec::new(), refused: true, numbers: Some((22.77, 19.0, "mm")) };
    let notices = if refused { vec![why] } else { Vec::new() };
    for model in &checked.models {
        let world = &checked.worlds[model.place.0];
        let shop = world.shop.as_ref().expect("the demo has a shop");
        let plan = Plan::new(&world.models[model.place.1], shop);
        for size in &checked.figured(model) {
            let build = plan.build(size.checked.size);
            for (lang, foot) in [(Lang::En, Foot::Left), (Lang::Es, Foot::Right)] {
                for paper in [Paper::A3, Paper::Tabloid, Paper::A4, Paper::Letter] {
                    let fingerprint = &size.fingerprint;
                    let shop = &shop.name;
                    let job =
                        TemplateJob { build: &build, shop, fingerprint, paper, lang, foot, refused, notices: &notices };
                    let document = templates(&job).expect("the demo has templates");
                    let named = |fault| format!("{} {lang:?} {paper:?} {fault}", model.name);
                    all.extend(document.pages.iter().flat_map(|page| faults_of(&document, page)).map(named));
                }
            }
        }
    }
    all
}

#[test]
fn no_text_of_a_template_lies_over_text_or_leaves_the_margins() {
    for (shop, refused) in [(Memory::demo(), false), (lengthened(), true)] {
        let all = template_faults(&shop, refused);
        assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
    }
}

/// Whole names only: `cairn-10` in `cairn-10.hob` or in another name stays.
fn replaced(text: &str, name: &str, long: &str) -> String {
    let part = |c: char| c.is_alphanumeric() || c == '-' || c == '.' || c == '/';
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find(name) {
        let (before, after) = (&rest[..at], &rest[at + name.len()..]);
        let whole = !before.ends_with(part) && !after.starts_with(part);
        out.push_str(before);
        out.push_str(if whole { long } else { name });
        rest = after;
    }
    out + rest
}

#[test]
fn long_names_wrap_and_flow() {
    let shop = lengthened();
    let (_, checked) = shop.check(&MODELS, &Only("9 D"));
    let faulty: Vec<_> = checked.findings.iter().filter(|finding| finding.severity == Severity::Fault).collect();
    assert!(faulty.is_empty(), "{faulty:?}");
    let mut all = Vec::new();
    for lang in Lang::ALL {
        for paper in [Paper::A4, Paper::Letter] {
            all.extend(faults(&shop, "9 D", &Wanted { lang, paper, units: Units::TradeMetric, ..Wanted::default() }));
        }
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

/// The language sets no end to a name: parts that no drawing has room for still print, and no page loses its layout.
#[test]
fn names_that_no_drawing_has_room_for_are_cut_there_and_whole_elsewhere() {
    for letters in [21, 22, 24, 40, 120] {
        let long = |name: &str| {
            let mut long = format!("{name}-{}", "of-the-hill-boot-in-two-pieces-".repeat(4));
            long.truncate(letters - 1);
            long + "s"
        };
        let demo = Memory::demo();
        let mut text = demo.text(MODELS[2]).to_owned();
        for name in ["quarter", "vamp", "counter-cover", "vamp-lining"] {
            text = replaced(&text, name, &long(name));
        }
        let shop = demo.with(MODELS[2], text);
        let mut all = Vec::new();
        for lang in Lang::ALL {
            all.extend(faults(&shop, "9 D", &Wanted { lang, bytes: true, ..Wanted::default() }));
        }
        assert!(all.is_empty(), "{letters} letters: {} faults:\n{}", all.len(), all.join("\n"));
    }
}

#[test]
fn key_numbers_are_large_and_station_and_size_are_read_from_afar() {
    for lang in Lang::ALL {
        for printed in print_of(&Memory::demo(), &Only("9 D"), &Wanted { lang, ..Wanted::default() }) {
            for page in &printed.laid.document.pages {
                let boxes = text_boxes(&printed.laid.document, page);
                let size = boxes.iter().find(|text| text.content == "9 D").expect("each page says its size");
                assert!(size.size >= 40.0);
                let station = boxes.iter().map(|text| text.size).filter(|size| *size < 40.0).fold(0.0, f64::max);
                assert!(station >= 24.0, "{}", page.label);
            }
            for (key, points) in printed.keys() {
                assert!(points >= 20.0, "{} prints {key} at {points}", printed.name);
            }
        }
    }
}

#[test]
fn every_label_value_step_and_rule_has_its_words() {
    let (_, checked) = Memory::demo().check(&MODELS, &AllSizes);
    for model in &checked.models {
        for size in checked.figured(model) {
            for figure in size.figures.iter() {
                assert!(has_words(figure), "no Spanish for a word in `{}` of {}", figure.label, figure.key);
                let texts = match &figure.datum {
                    Datum::Text(text) => std::slice::from_ref(text),
                    Datum::Texts(texts) => texts,
                    _ => &[],
                };
                for text in texts {
                    assert!(has_value(figure.of.id, text, Lang::Es), "no Spanish for `{text}` of {}", figure.key);
                }
                if &*figure.key == "route.steps" {
                    for step in texts {
                        assert!(STEP_WORDS.iter().any(|(known, _)| known == step), "no words for the step {step}");
                    }
                }
            }
        }
    }
    for rule in all() {
        assert!(has_rule(rule.name()), "no words for {}", rule.name());
    }
}

#[test]
fn what_is_refused_says_so_on_every_page() {
    let refused =
        Notice { rule: "jaw/sole-stack", subjects: Vec::new(), refused: true, numbers: Some((22.77, 19.0, "mm")) };
    for (lang, word, sum) in [(Lang::En, "NOT RELEASED", "22.77 mm"), (Lang::Es, "NO LIBERADO", "22,77 mm")] {
        let notices = [refused.clone()];
        let wanted = Wanted { lang, notices: &notices, ..Wanted::default() };
        for printed in print_of(&Memory::demo(), &Only("9 D"), &wanted) {
            let document = &printed.laid.document;
            for page in &document.pages {
                let boxes = text_boxes(document, page);
                let across = &boxes[0];
                assert!(across.content == word && across.ink.0 < 30, "it lies behind all else on {}", page.label);
                assert!(across.left >= 0.0 && across.right <= page.size.width());
                assert!(across.top >= 0.0 && across.bottom <= page.size.height());
                let said: Vec<&str> = boxes[1..].iter().map(|text| text.content.as_str()).collect();
                let said = said.join(" ");
                assert!(said.contains(word) && said.contains(sum), "{} says why", page.label);
                assert_eq!(faults_of(document, page), Vec::<String>::new());
            }
        }
    }
}

#[test]
fn what_is_tight_is_said_where_it_can_be_measured() {
    let notices =
        [Notice { rule: "heel/nail-hold", subjects: Vec::new(), refused: false, numbers: Some((4.2, 5.0, "mm")) }];
    let wanted = Wanted { notices: &notices, ..Wanted::default() };
    for printed in print_of(&Memory::demo(), &Only("9 D"), &wanted) {
        for page in &printed.laid.document.pages {
            let boxes = text_boxes(&printed.laid.document, page);
            let said = boxes.iter().any(|text| text.content.contains("heel/nail-hold"));
            assert_eq!(said, page.label == "heeling", "{} {}", printed.name, page.label);
            assert!(!boxes.iter().any(|text| text.content == "NOT RELEASED"));
        }
    }
}

#[test]
fn the_pairs_of_the_batch_stand_at_every_foot() {
    for printed in print_of(&Memory::demo(), &Only("9 D"), &Wanted { pairs: Some(24), ..Wanted::default() }) {
        for page in &printed.laid.document.pages {
            let boxes = text_boxes(&printed.laid.document, page);
            assert!(boxes.iter().any(|text| text.content.contains("pairs: 24")), "{}", page.label);
        }
    }
}

#[test]
fn boxes_of_text_are_where_the_letters_stand() {
    use hobnail::sheets::paper::{Anchor, Op, Text, width_mm};
    let text = Text::new(50.0, 80.0, 20.0, Style::Bold, "H".to_owned());
    let long = width_mm("H", Style::Bold, 20.0);
    let turned = text.clone().turned(90.0);
    let centred = text.clone().anchored(Anchor::Centre);
    let page = Page { ops: [text, turned, centred].map(Op::Text).into(), ..Page::default() };
    let boxes = text_boxes(&Document::default(), &page);
    let high = 20.0 * 25.4 / 72.0;
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    assert!(near(boxes[0].left, 50.0) && near(boxes[0].right, 50.0 + long) && near(boxes[0].top, 80.0 - 0.76 * high));
    // Read upwards, a text stands above its place and left of its baseline.
    assert!(near(boxes[1].bottom, 80.0) && near(boxes[1].top, 80.0 - long) && near(boxes[1].left, 50.0 - 0.76 * high));
    assert!(near(boxes[2].left, 50.0 - long / 2.0));
    assert!(boxes[0].overlaps(&boxes[2], 0.0) && !boxes[0].overlaps(&boxes[2], long));
}

#[test]
fn a_heel_that_its_adhesive_holds_has_no_heads_to_sink() {
    let demo = Memory::demo();
    let path = "specs/models/scree-8.hob";
    let text = demo.text(path);
    let heel = text.find("  heel {").expect("it has a heel");
    let start = heel + text[heel..].find("    nailed {").expect("it is nailed");
    let end = start + text[start..].find("\n    }\n").expect("the block ends") + "\n    }\n".len();
    let glued = demo.with(path, format!("{}{}", &text[..start], &text[end..]));
    let says = |shop: &Memory| {
        let wanted = Wanted { stations: &[Station::Heeling], ..Wanted::default() };
        let printed = print_of(shop, &Only("9 D"), &wanted);
        let scree = printed.iter().find(|printed| printed.name == "scree-8").expect("it prints");
        let document = &scree.laid.document;
        document.pages.iter().flat_map(|page| text_boxes(document, page)).any(|it| it.content.contains("every head"))
    };
    assert!(says(&demo));
    assert!(!says(&glued));
}
