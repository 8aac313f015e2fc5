//! What every figure, judgement and printed word is, to the last bit: a change of how they are held changes none of them.
//!
//! Values come from this program and prove nothing about boots; other tests hold them against sources. A change of what is
//! said or computed takes these snapshots anew, and their difference shows all of it. `HOBNAIL_GOLDEN=FOLDER` writes the
//! lines behind each hash there, to be compared.

use crate::common::memory::{Memory, Only};
use crate::common::printed::{Wanted, print_of};
use hobnail::build::{Datum, Figure, FigureId, Slot};
use hobnail::check::{Checked, SizeFilter};
use hobnail::finding::{LapName, SeamName, Sum};
use hobnail::rules::all;
use hobnail::sheets::paper::Op;
use hobnail::sheets::{Lang, Units};
use insta::assert_snapshot;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;

const SCREE: &str = "specs/models/scree-8.hob";

/// The demo, its everyday boot made of parts whose names are words of the program, or look like a key's.
fn adverse() -> Memory {
    let demo = Memory::demo();
    let mut text = demo.text(SCREE).to_owned();
    for (old, new) in [
        ("vamp-lining", "sole-rows-2"),
        ("quarter-lining", "row-1"),
        ("counter-cover", "toe"),
        ("stay-strip", "heel-nails"),
        ("back-stay", "part-edge-wide"),
        ("collar-band", "lap-vamp"),
    ] {
        text = text.replace(old, new);
    }
    // Not within `quarter-...`, which are gone by now.
    text = text.replace("quarter", "quarter-edge");
    demo.with(SCREE, text)
}

fn terms(sum: &Sum, into: &mut String) {
    for term in &sum.terms {
        let source = term.source.as_ref().map_or("-".to_owned(), ToString::to_string);
        writeln!(into, "    {} | {} | {:?} | {source}", term.what, term.coefficient, term.spread).expect("a string");
    }
}

fn one_figure(figure: &Figure, into: &mut String) {
    let Figure { key, label, unit, datum, sum, .. } = figure;
    let datum = match datum {
        Datum::Number(number) => format!("{number:?}"),
        other => format!("{other:?}"),
    };
    writeln!(into, "{key} | {label} | {unit} | {datum}").expect("a string");
    if let Some(sum) = sum {
        terms(sum, into);
    }
}

/// All figures of what a file declares.
fn figures(checked: &Checked) -> String {
    let mut all_lines = String::new();
    for model in &checked.models {
        for sized in checked.figured(model) {
            writeln!(all_lines, "{} {} {}", model.name, sized.checked.size, sized.fingerprint).expect("a string");
            sized.figures.iter().for_each(|figure| one_figure(figure, &mut all_lines));
        }
    }
    all_lines
}

/// All figures and all judgements of what a file declares.
fn lines(checked: &Checked) -> String {
    let mut all_lines = figures(checked);
    for rule in all() {
        for derived in checked.derived(*rule, |model| model.sizes.iter().map(|sized| sized.size).collect()) {
            let judged = &derived.judgement;
            writeln!(
                all_lines,
                "{} | {} | {:?} | {:?} | {:?} | {}",
                rule.name(),
                judged.subject,
                judged.verdict,
                judged.sum,
                judged.margin,
                judged.unit
            )
            .expect("a string");
            terms(&judged.terms, &mut all_lines);
        }
    }
    for finding in &checked.findings {
        writeln!(all_lines, "{:?} {} {} {}", finding.severity, finding.name, finding.subject(), finding.message)
            .expect("a string");
    }
    all_lines
}

/// The name with a hash of the lines; they are kept where one asks for it.
fn hashed(name: &str, lines: &str) -> String {
    if let Some(folder) = std::env::var_os("HOBNAIL_GOLDEN") {
        let file = std::path::Path::new(&folder).join(name.replace('/', "_"));
        std::fs::write(file, lines).expect("the folder can be written");
    }
    let hash = blake3::hash(lines.as_bytes()).to_hex();
    format!("{name} {} {}\n", lines.lines().count(), &hash[..16])
}

fn of_file(shop: &Memory, path: &str, sizes: &dyn SizeFilter) -> String {
    lines(&shop.check(&[path], sizes).1)
}

#[test]
fn all_figures_and_judgements_are_what_they_were() {
    let demo = Memory::demo();
    let files = [demo.list("specs/models/"), demo.list("specs/refused/"), demo.list("specs/noted/")].concat();
    let hashes: Vec<String> = files.par_iter().map(|path| hashed(path, &of_file(&demo, path, &Only("9 D")))).collect();
    assert_snapshot!("builds", hashes.concat() + &hashed("adverse", &of_file(&adverse(), SCREE, &Only("9 D"))));
}

#[test]
fn names_that_look_like_words_are_names() {
    assert_snapshot!("adverse", figures(&adverse().check(&[SCREE], &Only("9 D")).1));
}

/// Names as a shop may type them: words of the program, and what looks like a part of a key.
const NAMES: [&str; 7] = ["a", "a-edge", "skive", "row-2", "lap", "wide", "lasted-in"];

/// Every seam of these names.
fn seams() -> Vec<SeamName> {
    let mut all = vec![SeamName::Collar, SeamName::Facing, SeamName::Forefoot, SeamName::Sole];
    for one in NAMES {
        all.extend([SeamName::Seam(one.into()), SeamName::Stay(one.into()), SeamName::Gusset(one.into())]);
        all.extend(NAMES.map(|under| SeamName::Lap(LapName { top: one.into(), under: under.into() })));
    }
    all
}

#[test]
fn two_figures_never_print_one_key() {
    let of_seams = FigureId::ALL.iter().filter(|id| id.definition().key.starts_with("{0}."));
    let mut known: BTreeMap<String, (&str, Vec<Slot>)> = BTreeMap::new();
    for id in of_seams {
        let key = id.definition().key;
        let names = key.matches('{').count();
        for seam in seams() {
            for (n, one) in NAMES.iter().enumerate() {
                // The second name of a row is its number.
                let second = if key.contains("row-{1}") { Slot::Number(2) } else { Slot::typed(*one) };
                let third = Slot::typed(NAMES[(n + 3) % NAMES.len()]);
                let all = [Slot::Seam(seam.clone()), second, third];
                let printed = id.of(all.clone()).key();
                let all = all[..names].to_vec();
                // Definitions of one pattern are of seams of different kinds: a lap's width, a stay's.
                let before = known.entry(printed.clone()).or_insert_with(|| (key, all.clone()));
                assert_eq!((before.0, &before.1), (key, &all), "{printed}");
            }
        }
    }
    assert!(known.len() > 5_000, "{}", known.len());
}

#[test]
fn all_printed_words_are_what_they_were() {
    let print = |(name, shop): (&str, &Memory), lang, units| {
        let printed = print_of(shop, &Only("9 D"), &Wanted { lang, units, ..Wanted::default() });
        let mut hashes = String::new();
        for sheet in printed {
            let mut words = String::new();
            for op in sheet.laid.document.pages.iter().flat_map(|page| &page.ops) {
                if let Op::Text(text) = op {
                    writeln!(words, "{:.3} {:.3} {} {}", text.at.x, text.at.y, text.size, text.content)
                        .expect("a string");
                }
            }
            hashes += &hashed(&format!("{name} {} {} {units:?}", sheet.name, lang.tag()), &words);
        }
        hashes
    };
    let (demo, adverse) = (Memory::demo(), adverse());
    let mut all_hashes = String::new();
    for lang in Lang::ALL {
        for units in [Units::TradeMetric, Units::Metric] {
            all_hashes += &print(("demo", &demo), lang, units);
            all_hashes += &print(("adverse", &adverse), lang, units);
        }
    }
    assert_snapshot!("printed", all_hashes);
}
