//! The order in which things are written says nothing, but in `route`: no figure and no fingerprint hangs on it.

#[path = "common/chance.rs"]
mod chance;
#[path = "common/memory.rs"]
mod memory;

use chance::Chance;
use hobnail::check::{Checked, SizeFilter};
use hobnail::language::{Body, Statement};
use hobnail::measure::Size;
use memory::Memory;
use rayon::prelude::*;

struct Some3;

impl SizeFilter for Some3 {
    fn wants(&self, size: &Size) -> bool {
        ["6 C", "9 D", "14 EE"].contains(&size.to_string().as_str())
    }
}

/// The statements of a block in another order, each with its comments: those at the end of its line, and those
/// on lines of their own above it.
fn shuffled(text: &str, body: &Body, inner: std::ops::Range<usize>, chance: &mut Chance) -> String {
    if body.statements.is_empty() {
        return text[inner].to_owned();
    }
    let mut at = inner.start;
    let mut head = String::new();
    let mut chunks: Vec<String> = Vec::new();
    for statement in &body.statements {
        let range = statement.span.range();
        let (same_line, above) = comments(&text[at..range.start]);
        match chunks.last_mut() {
            Some(last) => last.push_str(&same_line),
            None => head = same_line,
        }
        chunks.push(above + &moved(text, statement, chance));
        at = range.end;
    }
    let (same_line, rest) = comments(&text[at..inner.end]);
    if let Some(last) = chunks.last_mut() {
        last.push_str(&same_line);
    }
    if body.def.name != "route" {
        chance.shuffle(&mut chunks);
    }
    format!("{head}\n{}\n{rest}", chunks.join("\n"))
}

fn moved(text: &str, statement: &Statement, chance: &mut Chance) -> String {
    let range = statement.span.range();
    let Some(body) = &statement.block else { return text[range].to_owned() };
    let inner = body.span.range().start + 1..body.span.range().end - 1;
    let inside = shuffled(text, body, inner.clone(), chance);
    format!("{}{inside}}}", &text[range.start..inner.start])
}

/// The comments of what stands between two statements: on the first one's line, and on lines of their own.
fn comments(gap: &str) -> (String, String) {
    let comment = |line: &str| line.find('#').map(|at| line[at..].trim_end().to_owned());
    let mut lines = gap.split('\n');
    let same_line = lines.next().and_then(comment).map(|comment| format!("  {comment}")).unwrap_or_default();
    (same_line, lines.filter_map(comment).map(|comment| comment + "\n").collect())
}

/// Every figure of the sizes built, as text, with its fingerprint.
fn figures(checked: &Checked) -> Vec<String> {
    let mut all = Vec::new();
    for model in &checked.models {
        for size in checked.figured(model) {
            let name = format!("{} {}", model.name, size.checked.size);
            all.push(format!("{name} {}", size.fingerprint));
            let of = |figure: &hobnail::build::Figure| format!("{name} {} {:?}", figure.key, figure.datum);
            all.extend(size.figures.iter().map(of));
        }
    }
    all
}

#[test]
fn order_changes_no_figure_and_no_fingerprint() {
    let demo = Memory::demo();
    demo.list("specs/models/").par_iter().for_each(|path| {
        let (loaded, checked) = demo.check(&[path], &Some3);
        let before = figures(&checked);
        assert!(before.len() > 100, "{path} has {} figures", before.len());
        for seed in 1..=4 {
            let mut chance = Chance::new(seed);
            let mut other = demo.clone();
            for (id, source) in loaded.sources.iter() {
                let body = &loaded.reading(id).body;
                other = other.with(&source.shown, shuffled(&source.text, body, 0..source.text.len(), &mut chance));
                assert_ne!(other.text(&source.shown), &*source.text);
            }
            let (_, checked) = other.check(&[path], &Some3);
            assert_eq!(figures(&checked), before, "{path}, seed {seed}");
        }
    });
}

#[test]
fn order_counts_in_a_route() {
    let demo = Memory::demo();
    let path = "specs/models/scree-8.hob";
    let with = |route: &str| {
        let text = demo.text(path).replace("    claims {", &format!("    {route}\n    claims {{"));
        let text = text.replace("  claims {", &format!("  {route}\n  claims {{"));
        figures(&demo.with(path, text).check(&[path], &memory::Only("9 D")).1)
    };
    let one = with("route { step mark after collar; step hardware after collar }");
    let other = with("route { step hardware after collar; step mark after collar }");
    assert!(!one.is_empty());
    assert_ne!(one, other);
}
