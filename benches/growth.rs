//! What one build of one size takes on one core, and how the work grows with the number of size-widths:
//! `cargo bench --bench growth`.
//!
//! The model is the demo shop's heaviest; many size-widths are many variants of it in one file. Each count is judged
//! several times and the quickest counts, so that what else the machine does shows little. The exponent is the slope of
//! the logarithms: 1 is linear.

#![allow(clippy::cast_precision_loss, reason = "counts and milliseconds")]

#[allow(dead_code, reason = "the tests use the rest")]
#[path = "../tests/suite/common/memory.rs"]
mod memory;

use hobnail::build::Plan;
use hobnail::check::{AllSizes, SizeFilter, check};
use hobnail::measure::Size;
use hobnail::spec::worlds;
use memory::Memory;
use std::fmt::Write as _;
use std::hint::black_box;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;

const MODEL: &str = "specs/models/cairn-10.hob";
const RUNS: usize = 7;

fn main() {
    one_size();
    growth();
}

/// One build, and one build judged, without the others beside it.
fn one_size() {
    let demo = Memory::demo();
    let loaded = demo.load(&[MODEL]);
    let worlds = worlds(&loaded);
    let (model, shop) = (&worlds[0].models[0], worlds[0].shop.as_ref().expect("the demo shop"));
    let sizes = model.sizes.as_ref().expect("its run");
    let plan = Plan::new(model, shop);
    let builds = quickest(|| sizes.iter().for_each(|size| drop(black_box(plan.build(*size)))));
    let judged = quickest(|| {
        for size in sizes {
            let build = plan.build(*size);
            for rule in hobnail::rules::all() {
                drop(black_box(rule.judge(&build)));
            }
        }
    });
    let each = |whole: f64| whole / sizes.len() as f64 * 1e6;
    println!("one size built            {:7.1} us on one core (mean of {})", each(builds), sizes.len());
    println!("one size built and judged {:7.1} us, every rule asked", each(judged));
}

/// Takes the first so many.
struct First(AtomicUsize);

impl SizeFilter for First {
    fn wants(&self, _: &Size) -> bool {
        self.0.fetch_update(Ordering::Relaxed, Ordering::Relaxed, |left| left.checked_sub(1)).is_ok()
    }
}

fn growth() {
    let mut known: Vec<(f64, f64)> = Vec::new();
    println!("\nsize-widths   read and judged    each");
    for (models, wanted) in [(1, 10), (2, 120), (17, 1_020), (167, 10_020)] {
        let memory = variants(models);
        let mut sizes = 0;
        let took = quickest(|| {
            let loaded = memory.load(&["specs/models/many.hob"]);
            let first = First(AtomicUsize::new(wanted));
            let filter: &dyn SizeFilter = if models == 1 { &first } else { &AllSizes };
            sizes = check(&loaded, filter).models.iter().map(|model| model.sizes.len()).sum();
        });
        assert_eq!(sizes, wanted, "as many size-widths as were wanted");
        println!("{sizes:>11} {:>14.1} ms {:>7.1} us", took * 1e3, took / sizes as f64 * 1e6);
        known.push(((sizes as f64).ln(), took.ln()));
    }
    println!("exponent {:.2} over all, {:.2} between the last two", slope(&known), slope(&known[known.len() - 2..]));
}

/// The model and variants of it that change nothing but their name; so many models in all.
fn variants(models: usize) -> Memory {
    let demo = Memory::demo();
    let mut text = demo.text(MODEL).to_owned();
    for n in 1..models {
        writeln!(text, "\nmodel many-{n} like cairn-10 {{\n    revision {n}\n}}").expect("a string takes it");
    }
    demo.with("specs/models/many.hob", text)
}

/// The quickest of several runs, s.
fn quickest(mut work: impl FnMut()) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..RUNS {
        let start = Instant::now();
        work();
        best = best.min(start.elapsed().as_secs_f64());
    }
    best
}

/// The slope of the straight line through the points with the least squares.
fn slope(points: &[(f64, f64)]) -> f64 {
    let count = points.len() as f64;
    let mean = |pick: fn(&(f64, f64)) -> f64| points.iter().map(pick).sum::<f64>() / count;
    let (x, y) = (mean(|point| point.0), mean(|point| point.1));
    let up: f64 = points.iter().map(|point| (point.0 - x) * (point.1 - y)).sum();
    up / points.iter().map(|point| (point.0 - x).powi(2)).sum::<f64>()
}
