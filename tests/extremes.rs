//! Every number of the demo, one after another, at its most absurd: nothing panics, hangs, or computes what is no
//! number.

#[path = "common/memory.rs"]
mod memory;

use hobnail::build::Datum;
use hobnail::check::{Checked, check};
use hobnail::language::tree::{Leaf, parse};
use hobnail::spec::Loaded;
use memory::{Memory, Only, edited};
use rayon::prelude::*;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::Instant;

const SCREE: &str = "specs/models/scree-8.hob";
const MUSTER: &str = "specs/models/muster-10.hob";

const ABSURD: [&str; 8] = ["0", "0.000000001", "1/999999999", "0.5", "90", "100", "180", "999999999"];

fn finite(checked: &Checked) -> Option<String> {
    for model in &checked.models {
        for size in &model.sizes {
            for figure in size.figures.iter() {
                let numbers: Vec<f64> = match &figure.datum {
                    Datum::Number(number) => vec![*number],
                    Datum::Spread(spread) => vec![spread.lo, spread.nominal, spread.hi],
                    Datum::Window(window) => vec![window.lo, window.hi],
                    Datum::Numbers(numbers) => numbers.clone(),
                    Datum::Count(_) | Datum::Text(_) | Datum::Texts(_) => Vec::new(),
                };
                if !numbers.iter().all(|n| n.is_finite()) {
                    return Some(format!("{} is {:?}", figure.key, figure.datum));
                }
            }
        }
    }
    None
}

/// The numbers of a text.
fn numbers(text: &str) -> Vec<std::ops::Range<usize>> {
    let mut leaves = Vec::new();
    parse(text).tree.leaves(&mut leaves);
    let number = |(leaf, range): (Leaf, std::ops::Range<u32>)| {
        (leaf == Leaf::Number).then(|| range.start as usize..range.end as usize)
    };
    leaves.into_iter().filter_map(number).collect()
}

fn absurd(loaded: &Loaded, file: &str, root: &str, at: &std::ops::Range<usize>, number: &str) -> Option<String> {
    let changed = edited(loaded, file, at.clone(), number, &[root]);
    let started = Instant::now();
    let checked = catch_unwind(AssertUnwindSafe(|| check(&changed, &Only("9 D"))));
    let took = started.elapsed().as_secs_f64();
    let wrong = match &checked {
        Err(panic) => {
            let message = panic.downcast_ref::<String>().cloned();
            Some(message.or(panic.downcast_ref::<&str>().map(|text| (*text).to_owned())).unwrap_or_default())
        }
        Ok(checked) => finite(checked).or((took > 20.0).then(|| format!("took {took:.0} s"))),
    }?;
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
            let work: Vec<_> = places.iter().flat_map(|at| ABSURD.iter().map(move |number| (at, *number))).collect();
            wrong.extend(
                work.par_iter().filter_map(|(at, number)| absurd(&loaded, file, root, at, number)).collect::<Vec<_>>(),
            );
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}
