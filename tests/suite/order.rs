//! The order in which things are written says nothing, but in `route`: no figure and no fingerprint hangs on it.

use crate::common::chance::Chance;
use crate::common::memory;
use crate::common::memory::Memory;
use crate::common::shuffled::shuffled;
use hobnail::check::{Checked, SizeFilter};
use hobnail::measure::Size;
use rayon::prelude::*;

struct Some3;

impl SizeFilter for Some3 {
    fn wants(&self, size: &Size) -> bool {
        ["6 C", "9 D", "14 EE"].contains(&size.to_string().as_str())
    }
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
