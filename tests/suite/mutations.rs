//! One slip in a demo file is one fault, and it lies inside the statement that was spoiled.

use crate::common::chance::Chance;
use crate::common::memory::{Memory, edited, faults, lines};
use crate::common::slips::{Slip, slips};
use hobnail::finding::Finding;
use hobnail::language::{Given, Value};
use hobnail::spec::Loaded;
use rayon::prelude::*;
use std::collections::BTreeSet;

const MODELS: [&str; 3] = ["specs/models/cairn-10.hob", "specs/models/muster-10.hob", "specs/models/scree-8.hob"];

/// The demo files that are spoiled.
fn files(demo: &Memory) -> Vec<String> {
    let mut files = vec!["specs/shop.hob".to_owned(), "specs/stock.hob".to_owned()];
    files.extend(demo.list("specs/lasts/"));
    files.extend(demo.list("specs/models/"));
    files
}

/// Every file with its slips.
fn all(demo: &Memory) -> Vec<(String, Vec<Slip>)> {
    let loaded = demo.load(&MODELS);
    let declared = loaded.readings.iter().flat_map(|reading| {
        let mut names = BTreeSet::new();
        names_of(&reading.body, &mut names);
        names
    });
    let names: BTreeSet<String> = declared.collect();
    let of = |file: String| {
        let id = loaded.sources.find(&file).unwrap_or_else(|| panic!("no model uses {file}"));
        let slips = slips(demo.text(&file), loaded.reading(id), &names);
        (file, slips)
    };
    files(demo).into_iter().map(of).collect()
}

fn names_of(body: &hobnail::language::Body, names: &mut BTreeSet<String>) {
    for statement in &body.statements {
        for slot in statement.slots.iter().chain(statement.clauses.iter().flat_map(|clause| &clause.slots)) {
            if let Given::Value(Value::Name(name)) = &slot.given {
                names.insert(name.clone());
            }
        }
        if let Some(inner) = &statement.block {
            names_of(inner, names);
        }
    }
}

/// The models and the files given, all as roots.
fn roots<'f>(files: &[&'f str]) -> Vec<&'f str> {
    let mut roots: Vec<&str> = MODELS.to_vec();
    roots.extend(files.iter().filter(|file| !MODELS.contains(file)));
    roots
}

/// The demo files, read once: a slip changes one of them, and the others need no second reading.
struct Demo {
    memory: Memory,
    loaded: Loaded,
}

impl Demo {
    fn new() -> Self {
        let memory = Memory::demo();
        let files = files(&memory);
        let loaded = memory.load(&roots(&files.iter().map(String::as_str).collect::<Vec<_>>()));
        Self { memory, loaded }
    }

    /// The models and the spoiled file, loaded, with the slip made. Roots that don't see the file are left out:
    /// nothing has changed for them.
    fn spoiled(&self, file: &str, slip: &Slip) -> Loaded {
        if slip.of_use {
            let text = slip.apply(self.memory.text(file));
            return self.memory.with(file, text).load(&roots(&[file]));
        }
        let id = self.loaded.sources.find(file).expect("the file is loaded");
        let sees = |root: &&str| {
            let root = self.loaded.sources.find(root).expect("the root is loaded");
            self.loaded.visible(root).contains(&id)
        };
        let roots: Vec<&str> = roots(&[file]).into_iter().filter(sees).collect();
        edited(&self.loaded, file, slip.at.clone(), &slip.to, &roots)
    }
}

/// What is wrong with the answer to one slip, if anything is.
fn judge(demo: &Demo, file: &str, slip: &Slip) -> Option<String> {
    let loaded = demo.spoiled(file, slip);
    let faults = faults(&loaded);
    let inside = |finding: &Finding| {
        finding.span().is_some_and(|span| {
            let range = span.range();
            loaded.sources.get(span.source).shown == file
                && slip.inside.start <= range.start
                && range.end <= slip.inside.end
        })
    };
    let good = faults.len() == 1 && faults.iter().all(inside);
    (!good).then(|| format!("{file} {}\n{}", slip.what, lines(&loaded, &faults)))
}

#[test]
fn the_demo_files_have_no_fault() {
    let demo = Memory::demo();
    let all = files(&demo);
    let (loaded, faults) = demo.faults(&roots(&all.iter().map(String::as_str).collect::<Vec<_>>()));
    assert_eq!(lines(&loaded, &faults), "");
}

#[test]
fn one_slip_is_one_fault_in_its_statement() {
    let demo = Demo::new();
    let all = all(&demo.memory);
    let work: Vec<(&str, &Slip)> =
        all.iter().flat_map(|(file, slips)| slips.iter().map(|slip| (file.as_str(), slip))).collect();
    let wrong: Vec<String> = work.par_iter().filter_map(|(file, slip)| judge(&demo, file, slip)).collect();
    println!("{} slips", work.len());
    assert!(work.len() > 2000, "only {} slips were made", work.len());
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), work.len(), wrong.join("\n"));
}

#[test]
fn five_slips_in_five_files_are_five_faults() {
    let demo = Memory::demo();
    let all = all(&demo);
    let wrong: Vec<String> = (1..=100_u64).into_par_iter().filter_map(|seed| judge_five(&demo, &all, seed)).collect();
    assert!(wrong.is_empty(), "{} of 100:\n{}", wrong.len(), wrong.join("\n"));
}

fn judge_five(demo: &Memory, all: &[(String, Vec<Slip>)], seed: u64) -> Option<String> {
    let mut chance = Chance::new(seed);
    let mut files: Vec<&(String, Vec<Slip>)> = all.iter().collect();
    chance.shuffle(&mut files);
    let five: Vec<(&str, &Slip)> =
        files[..5].iter().map(|(file, slips)| (file.as_str(), &slips[chance.below(slips.len())])).collect();
    let paths = roots(&five.iter().map(|(file, _)| *file).collect::<Vec<_>>());
    let faults_of = |slips: &[(&str, &Slip)]| {
        let spoil = |memory: Memory, (file, slip): &(&str, &Slip)| memory.with(file, slip.apply(demo.text(file)));
        slips.iter().fold(demo.clone(), spoil).faults(&paths)
    };
    let (loaded, faults) = faults_of(&five);
    if faults.len() == 5 {
        return None;
    }
    // A name that a nameless declaration may have had is no fault until that one has a name again; then it is.
    let named: Vec<(&str, &Slip)> = five.iter().copied().filter(|(_, slip)| !slip.unnames).collect();
    if named.len() < 5 && !faults.is_empty() && faults_of(&named).1.len() == named.len() {
        return None;
    }
    let what: Vec<String> = five.iter().map(|(file, slip)| format!("{file} {}", slip.what)).collect();
    Some(format!("seed {seed}:\n{}\n{}", what.join("\n"), lines(&loaded, &faults)))
}
