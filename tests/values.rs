//! Every value of a demo model is used: another value changes a figure, or the statement is on the list of what is
//! recorded and not yet used.

#[path = "common/memory.rs"]
mod memory;

use hobnail::check::{Checked, check};
use hobnail::language::vocabulary::{SlotDef, SlotKind, Thing};
use hobnail::language::{Body, Given, Slot, Statement, Value};
use hobnail::measure::parse_number;
use hobnail::spec::Loaded;
use memory::{Memory, edited};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// One value of a model: where it stands, and what might stand there instead.
struct Place {
    at: std::ops::Range<usize>,
    others: Vec<String>,
    recorded: bool,
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
        let recorded = statement.def.recorded;
        self.slots(&statement.slots, statement.def.slots, recorded, path);
        for clause in &statement.clauses {
            self.slots(&clause.slots, clause.def.slots, recorded, &format!("{path} / {}", clause.def.word));
        }
        if let Some(inner) = &statement.block {
            self.body(inner, path);
        }
    }

    fn slots(&mut self, slots: &[Slot], defs: &[SlotDef], recorded: bool, path: &str) {
        for (slot, def) in slots.iter().zip(defs) {
            let Given::Value(value) = &slot.given else { continue };
            for (at, others) in self.changes(value, def, slot.span.range()) {
                let shown = format!("{path}: {}", &self.text[at.clone()]);
                self.places.push(Place { at, others, recorded, shown });
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
    let mut found = Vec::new();
    let slice = &text[at.clone()];
    let digit = |c: char| c.is_ascii_digit();
    let mut from = 0;
    while let Some(start) = slice[from..].find(digit).map(|n| n + from) {
        let more = |n: usize, c: char| {
            let point = c == '.' && slice[n + 1..].starts_with(digit) && !slice[start..n].contains('.');
            digit(c) || point || (c == '/' && slice[n + 1..].starts_with(digit))
        };
        let end = slice[start..].char_indices().find(|(n, c)| !more(start + n, *c));
        let end = end.map_or(slice.len(), |(n, _)| start + n);
        found.push((at.start + start..at.start + end, others(&slice[start..end])));
        from = end;
        // The digit of a unit, such as `dm2`, is no number.
        if slice[..start].ends_with(|c: char| c.is_alphabetic()) {
            found.pop();
        }
    }
    found
}

/// Nearby numbers first, then those that a stock may have.
fn others(number: &str) -> Vec<String> {
    let Ok(number) = parse_number(number) else { return Vec::new() };
    let by = |above: i128, below: i128| number.written_alike(number.value * above / below);
    let one = hobnail::measure::Exact::from_integer(1);
    let mut others = vec![by(21, 20), by(19, 20), number.written_alike(number.value + one), by(3, 2), by(1, 2)];
    others.push(number.written_alike(if number.value > one { number.value - one } else { number.value }));
    others.extend(owned(&["9", "10", "12", "6", "8", "14", "5/8", "6/8", "7/8", "8/8", "1/4", "13.5"]));
    others
}

/// All that is computed of the 9 D and the sizes of the run; without a fault, or not at all.
fn figures(checked: &Checked) -> Vec<String> {
    let mut all = Vec::new();
    for model in &checked.models {
        all.push(format!("{:?}", model.run));
        for size in &model.sizes {
            all.extend(size.figures.iter().map(|figure| format!("{} {} {:?}", model.name, figure.key, figure.datum)));
        }
    }
    all
}

/// The base size, and one that everything graded differs in.
struct Two;

impl hobnail::check::SizeFilter for Two {
    fn wants(&self, size: &hobnail::measure::Size) -> bool {
        matches!(size.to_string().as_str(), "9 D" | "11 EE")
    }
}

enum Answer {
    Used,
    Unused,
    /// No other value was taken without a fault.
    Untried,
}

fn ask(loaded: &Loaded, path: &str, place: &Place, before: &[String]) -> Answer {
    let mut tried = false;
    let text = &loaded.sources.get(loaded.roots[0]).text;
    for other in &place.others {
        if *other == text[place.at.clone()] {
            continue;
        }
        let changed = edited(loaded, path, place.at.clone(), other, &[path]);
        let checked = check(&changed, &Two);
        if checked.findings.iter().any(|finding| finding.severity == hobnail::finding::Severity::Fault) {
            continue;
        }
        tried = true;
        if figures(&checked) != before {
            return Answer::Used;
        }
    }
    if tried { Answer::Unused } else { Answer::Untried }
}

#[test]
fn every_value_of_a_demo_model_is_used_or_listed() {
    let demo = Memory::demo();
    let mut unused = Vec::new();
    let mut recorded = Vec::new();
    for path in demo.list("specs/models/") {
        let loaded = demo.load(&[&path]);
        let before = figures(&check(&loaded, &Two));
        let names = names(&loaded);
        let mut finder = Finder { text: demo.text(&path), names: &names, places: Vec::new() };
        for statement in loaded.reading(loaded.roots[0]).body.all("model") {
            finder.statement(statement, &statement.key().to_string());
        }
        assert!(finder.places.len() > 150, "{path} has {} values", finder.places.len());
        let asked = finder.places.par_iter().filter(|place| !place.recorded);
        let wrong = asked.filter_map(|place| match ask(&loaded, &path, place, &before) {
            Answer::Used => None,
            Answer::Unused => Some(format!("{}: no figure changes", place.shown)),
            Answer::Untried => {
                // The shop has nothing else to put there: one last, one eyelet, one word of a choice.
                println!("nothing else could be tried: {}", place.shown);
                None
            }
        });
        unused.extend(wrong.collect::<Vec<_>>());
        recorded.extend(finder.places.iter().filter(|place| place.recorded).map(|place| place.shown.clone()));
    }
    println!("recorded, not yet used:\n{}", recorded.join("\n"));
    assert!(unused.is_empty(), "{}:\n{}", unused.len(), unused.join("\n"));
}
