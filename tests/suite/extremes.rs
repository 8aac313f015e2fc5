//! Every number of the demo, one after another, at its most absurd: nothing panics, hangs, or computes what is no
//! number.

use crate::common::chance::Chance;
use crate::common::memory::{Memory, Only, edited, not_finite};
use hobnail::check::{Checked, check};
use hobnail::finding::{Finding, Severity};
use hobnail::language::tree::{Leaf, parse};
use hobnail::spec::Loaded;
use rayon::prelude::*;
use std::panic::{AssertUnwindSafe, catch_unwind};

const SCREE: &str = "specs/models/scree-8.hob";
const MUSTER: &str = "specs/models/muster-10.hob";

const ABSURD: [&str; 17] = [
    "0",
    "0.000000001",
    "1/999999999",
    "0.001",
    "0.1",
    "0.5",
    "1",
    "2",
    "8",
    "20",
    "45",
    "60",
    "99",
    "100",
    "200",
    "600",
    "999999999",
];

/// The numbers of a text.
fn numbers(text: &str) -> Vec<std::ops::Range<usize>> {
    let mut leaves = Vec::new();
    parse(text).tree.leaves(&mut leaves);
    let number = |(leaf, range): (Leaf, std::ops::Range<u32>)| {
        (leaf == Leaf::Number).then_some(range.start as usize..range.end as usize)
    };
    leaves.into_iter().filter_map(number).collect()
}

/// The harm done by judging one size, if any is.
fn harm(loaded: &Loaded, size: &'static str) -> Option<String> {
    let checked = match catch_unwind(AssertUnwindSafe(|| check(loaded, &Only(size)))) {
        Ok(checked) => checked,
        Err(panic) => {
            let message = panic.downcast_ref::<String>().cloned();
            let message = message.or(panic.downcast_ref::<&str>().map(|text| (*text).to_owned()));
            return Some(message.unwrap_or_default());
        }
    };
    not_finite(&checked).or_else(|| unexplained(&checked))
}

/// A model that could not be judged whole, with no fault and no refusal to say why.
fn unexplained(checked: &Checked) -> Option<String> {
    let wrong = |finding: &Finding| matches!(finding.severity, Severity::Fault | Severity::Refused);
    let silent = !checked.findings.iter().any(wrong);
    let faulty = checked.models.iter().find(|model| model.faulty);
    faulty.filter(|_| silent).map(|model| format!("{} is not judged, and nothing says why", model.name))
}

fn absurd(loaded: &Loaded, file: &str, root: &str, at: &std::ops::Range<usize>, number: &str) -> Option<String> {
    let wrong = harm(&edited(loaded, file, at.clone(), number, &[root]), "9 D")?;
    let id = loaded.sources.find(file)?;
    let text = &loaded.sources.get(id).text;
    let line = text[..at.start].rfind('\n').map_or(0, |n| n + 1);
    let rest = text[at.end..].lines().next().unwrap_or("");
    let column = &text[line..at.start];
    Some(format!("{file}: {}[{number}]{rest}: {wrong}", column.trim_start()))
}

#[test]
fn no_number_however_absurd_does_any_harm() {
    let demo = Memory::demo();
    let mut wrong = Vec::new();
    for (root, files) in
        [(SCREE, vec![SCREE, "specs/shop.hob", "specs/stock.hob", "specs/lasts/teller.hob"]), (MUSTER, vec![MUSTER])]
    {
        let loaded = demo.load(&[root]);
        for file in files {
            let places = numbers(demo.text(file));
            // Nothing and far too much for each, and another of the rest from place to place.
            let three = |n: usize| [ABSURD[0], ABSURD[1 + n % 15], ABSURD[16]];
            let work: Vec<_> =
                places.iter().enumerate().flat_map(|(n, at)| three(n).map(|number| (at, number))).collect();
            wrong.extend(
                work.par_iter().filter_map(|(at, number)| absurd(&loaded, file, root, at, number)).collect::<Vec<_>>(),
            );
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn several_absurd_numbers_at_once_do_no_harm() {
    let demo = Memory::demo();
    let files = [SCREE, "specs/shop.hob", "specs/stock.hob", "specs/lasts/teller.hob"];
    let spoiled = |seed: u64| {
        let mut chance = Chance::new(seed);
        let mut spoiled = demo.clone();
        for _ in 0..2 + chance.below(4) {
            let file = files[chance.below(files.len())];
            let text = spoiled.text(file);
            let places = numbers(text);
            let at = places[chance.below(places.len())].clone();
            let text = format!("{}{}{}", &text[..at.start], ABSURD[chance.below(ABSURD.len())], &text[at.end..]);
            spoiled = spoiled.with(file, text);
        }
        spoiled
    };
    let wrong: Vec<String> = (0..120_u64)
        .into_par_iter()
        .filter_map(|seed| {
            let size = ["6 C", "9 D", "14 EE"][usize::try_from(seed % 3).unwrap_or(0)];
            harm(&spoiled(seed).load(&[SCREE]), size).map(|wrong| format!("seed {seed}: {wrong}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}
