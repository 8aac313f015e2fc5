//! Every value of a demo model is used: another value changes a figure.

use crate::common::memory::{Memory, edited};
use hobnail::check::{Checked, SizeFilter, check};
use hobnail::finding::Severity;
use hobnail::language::tree::{Leaf, parse};
use hobnail::language::vocabulary::{SlotDef, SlotKind, Thing};
use hobnail::language::{Body, Given, Slot, Statement, Value};
use hobnail::measure::{Size, parse_number};
use hobnail::spec::Loaded;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// One value of a model: where it stands, and what might stand there instead.
struct Place {
    at: std::ops::Range<usize>,
    others: Vec<String>,
    shown: String,
}

type Names = BTreeMap<Thing, Vec<String>>;

/// The names declared in all files, by kind.
fn names(loaded: &Loaded) -> Names {
    let mut names = Names::new();
    for reading in &loaded.readings {
        declared(&reading.body, &mut names);
    }
    names
}

fn declared(body: &Body, names: &mut Names) {
    for statement in &body.statements {
        if let (Some(SlotKind::New(thing)), Some(name)) =
            (statement.def.slots.first().map(|slot| slot.kind), statement.name())
        {
            names.entry(thing).or_default().push(name.it.to_owned());
        }
        if let Some(inner) = &statement.block {
            declared(inner, names);
        }
    }
}

struct Finder<'t> {
    text: &'t str,
    names: &'t Names,
    places: Vec<Place>,
}

impl Finder<'_> {
    fn body(&mut self, body: &Body, path: &str) {
        for statement in &body.statements {
            self.statement(statement, &format!("{path} / {}", statement.key()));
        }
    }

    fn statement(&mut self, statement: &Statement, path: &str) {
        self.slots(&statement.slots, statement.def.slots, path);
        for clause in &statement.clauses {
            self.slots(&clause.slots, clause.def.slots, &format!("{path} / {}", clause.def.word));
        }
        if let Some(inner) = &statement.block {
            self.body(inner, path);
        }
    }

    fn slots(&mut self, slots: &[Slot], defs: &[SlotDef], path: &str) {
        for (slot, def) in slots.iter().zip(defs) {
            let Given::Value(value) = &slot.given else { continue };
            for (at, others) in self.changes(value, def, slot.span.range()) {
                let shown = format!("{path}: {}", &self.text[at.clone()]);
                self.places.push(Place { at, others, shown });
            }
        }
    }

    fn changes(
        &self,
        value: &Value,
        def: &SlotDef,
        at: std::ops::Range<usize>,
    ) -> Vec<(std::ops::Range<usize>, Vec<String>)> {
        let of = |things: &[Thing]| -> Vec<String> {
            things.iter().flat_map(|thing| self.names.get(thing).into_iter().flatten().cloned()).collect()
        };
        match (value, def.kind) {
            (Value::Word(_), SlotKind::Choice(words)) => vec![(at, owned(words))],
            (Value::Words(list), SlotKind::Choices(words)) => {
                list.iter().map(|word| (word.span.range(), owned(words))).collect()
            }
            (Value::Name(_), SlotKind::Name(things)) => vec![(at, of(things))],
            (Value::Name(_), SlotKind::Free) => vec![(at, owned(&["something-else"]))],
            (Value::Names(list), SlotKind::Names(thing)) => {
                list.iter().map(|name| (name.span.range(), of(&[thing]))).collect()
            }
            (Value::Text(_), _) => vec![(at, owned(&["\"something else\""]))],
            (Value::Widths(list), _) => {
                list.iter().map(|width| (width.span.range(), owned(&["B", "C", "D", "E", "EE"]))).collect()
            }
            (Value::Amount(_) | Value::Amounts(_) | Value::Pairs(_) | Value::Count(_) | Value::Sizes(..), _) => {
                numbers(self.text, at)
            }
            _ => Vec::new(),
        }
    }
}

fn owned(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

/// Every number of a value, with others that might stand there.
fn numbers(text: &str, at: std::ops::Range<usize>) -> Vec<(std::ops::Range<usize>, Vec<String>)> {
    let mut leaves = Vec::new();
    parse(&text[at.clone()]).tree.leaves(&mut leaves);
    let numbers = leaves.into_iter().filter(|(leaf, _)| *leaf == Leaf::Number);
    let place = |range: std::ops::Range<u32>| at.start + range.start as usize..at.start + range.end as usize;
    numbers.map(|(_, range)| place(range)).map(|range| (range.clone(), others(&text[range]))).collect()
}

/// Nearby numbers first, then those that a stock may have.
fn others(number: &str) -> Vec<String> {
    let Ok(number) = parse_number(number) else { return Vec::new() };
    let by = |above: i128, below: i128| number.written_alike(number.value * above / below);
    let one = hobnail::measure::Exact::from_integer(1);
    let mut others = vec![by(21, 20), by(19, 20), number.written_alike(number.value + one), by(3, 2), by(1, 2)];
    others.push(number.written_alike(if number.value > one { number.value - one } else { number.value }));
    others.extend(owned(&["9", "10", "12", "6", "8", "14", "5/8", "6/8", "7/8", "8/8", "1/4"]));
    others
}

/// A size that is the last's base, and one that is not.
struct Two;

impl SizeFilter for Two {
    fn wants(&self, size: &Size) -> bool {
        ["9 D", "11 E"].contains(&size.to_string().as_str())
    }
}

/// All that is computed of two sizes, and the sizes of the run.
fn figures(checked: &Checked) -> Vec<String> {
    let mut all = Vec::new();
    for model in &checked.models {
        all.push(format!("{:?}", model.run));
        for size in checked.figured(model) {
            all.extend(size.figures.iter().map(|figure| format!("{} {} {:?}", model.name, figure.key, figure.datum)));
        }
    }
    all
}

enum Answer {
    /// Another value changes a figure, or is at fault with what else is written.
    Used,
    Unused,
    /// There is no other.
    Only,
}

fn ask(loaded: &Loaded, path: &str, place: &Place, before: &[String]) -> Answer {
    let text = &loaded.sources.get(loaded.roots[0]).text;
    let now = &text[place.at.clone()];
    let number = |text: &str| parse_number(text).ok().map(|number| number.value);
    // `8/8` is no other than 1.
    let same = |other: &str| other == now || number(other).is_some() && number(other) == number(now);
    let others: Vec<&String> = place.others.iter().filter(|other| !same(other)).collect();
    let mut unused = false;
    for other in &others {
        let checked = check(&edited(loaded, path, place.at.clone(), other, &[path]), &Two);
        if checked.findings.iter().any(|finding| finding.severity == Severity::Fault) {
            continue;
        }
        if figures(&checked) != before {
            return Answer::Used;
        }
        unused = true;
    }
    match (unused, others.is_empty()) {
        (true, _) => Answer::Unused,
        (false, true) => Answer::Only,
        (false, false) => Answer::Used,
    }
}

/// The demo with a second one of everything of which its stock has but one.
fn roomy() -> Memory {
    let demo = Memory::demo();
    let shop = demo.text("specs/shop.hob").replace("  house {", "  setter other-setter { reach 30 mm }\n  house {");
    let more = "
use \"lasts/teller.hob\"
use \"lasts/drover.hob\"
sole-leather other-sole { substances 12, 10, 9, 8 iron; tolerance 0.3 iron }
lift other-lift { substances 12, 9, 6 iron }
eyelet other-eyelet { punch 4 mm }
hook other-hook { punch 5 mm }
";
    let stock = demo.text("specs/stock.hob").replace("substances 8 iron;", "substances 8 iron, 9 iron;") + more;
    demo.with("specs/shop.hob", shop).with("specs/stock.hob", stock)
}

#[test]
fn every_value_of_a_demo_model_is_used() {
    let demo = roomy();
    let mut only = Vec::new();
    let mut unused = Vec::new();
    for path in demo.list("specs/models/") {
        let loaded = demo.load(&[&path]);
        let before = figures(&check(&loaded, &Two));
        let names = names(&loaded);
        let mut finder = Finder { text: demo.text(&path), names: &names, places: Vec::new() };
        for statement in loaded.reading(loaded.roots[0]).body.all("model") {
            finder.statement(statement, &statement.key().to_string());
        }
        assert!(finder.places.len() > 150, "{path} has {} values", finder.places.len());
        let asked = finder.places.par_iter();
        let answers: Vec<(&Place, Answer)> = asked.map(|place| (place, ask(&loaded, &path, place, &before))).collect();
        for (place, answer) in answers {
            match answer {
                Answer::Used => {}
                Answer::Unused => unused.push(place.shown.clone()),
                Answer::Only => only.push(place.shown.clone()),
            }
        }
    }
    println!("the only one there is:\n{}", only.join("\n"));
    assert!(unused.is_empty(), "no figure changes with {}:\n{}", unused.len(), unused.join("\n"));
}
