//! Ways out: each that is offered was tried, and does what it says.

use crate::common::chance::Chance;
use crate::common::memory::{Memory, lines};
use crate::common::shuffled::shuffled;
use hobnail::check::{AllSizes, Checked, check};
use hobnail::finding::{Change, Finding, Kind, Reaches, Remedy, Severity};
use hobnail::remedy::{MOST_TRIALS, remedies};
use hobnail::source::Edit;
use hobnail::spec::Loaded;
use rayon::prelude::*;
use std::collections::BTreeSet;

/// Refused examples that have no way out, at most five.
const WITHOUT: [&str; 0] = [];

fn searched(demo: &Memory, paths: &[&str]) -> (Loaded, Checked) {
    let (loaded, mut checked) = demo.check(paths, &AllSizes);
    remedies(&loaded, &mut checked);
    (loaded, checked)
}

fn weigh(findings: &[Finding]) -> Vec<Finding> {
    findings.iter().filter(|finding| finding.severity < Severity::Note).cloned().collect()
}

/// Everything in all sizes once more, with some changes made.
fn after(loaded: &Loaded, changes: &[Change]) -> (Loaded, Checked) {
    let edits: Vec<Edit> = changes.iter().map(|change| change.edit.clone()).collect();
    with(loaded, &edits).expect("the edits of a remedy lie apart")
}

fn with(loaded: &Loaded, edits: &[Edit]) -> Option<(Loaded, Checked)> {
    let changed = loaded.with(loaded.sources.apply(edits).ok()?, loaded.roots.clone());
    let checked = check(&changed, &AllSizes);
    Some((changed, checked))
}

/// The ways out of the first finding that has any.
fn first_ways(checked: &Checked) -> &[Remedy] {
    let ways = checked.findings.iter().filter_map(|finding| finding.ways_out.as_ref());
    ways.map(|ways| &*ways.remedies).find(|remedies| !remedies.is_empty()).unwrap_or_default()
}

/// Every remedy once, however many findings it stands beside.
fn all_ways(checked: &Checked) -> Vec<&Remedy> {
    let mut all: Vec<&Remedy> = Vec::new();
    for remedy in
        checked.findings.iter().filter_map(|finding| finding.ways_out.as_ref()).flat_map(|ways| &ways.remedies)
    {
        if !all.contains(&remedy) {
            all.push(remedy);
        }
    }
    all
}

/// What a remedy promises holds: its findings are gone, nothing that weighs is new, and if it passes nothing is left.
fn holds(path: &str, loaded: &Loaded, before: &Checked, remedy: &Remedy) {
    let (changed, checked) = after(loaded, &remedy.changes);
    let left = weigh(&checked.findings);
    let keys = |loaded: &Loaded, findings: &[Finding]| -> BTreeSet<String> {
        findings.iter().map(|finding| finding.key(&loaded.sources)).collect()
    };
    let (was, now) = (keys(loaded, &weigh(&before.findings)), keys(&changed, &left));
    let gone: BTreeSet<String> = remedy.cures.iter().filter(|key| was.contains(*key)).cloned().collect();
    let refused = |findings: &[Finding]| findings.iter().filter(|it| it.severity == Severity::Refused).count();
    match remedy.reaches {
        Reaches::Passes => assert!(!gone.is_empty(), "{path}: a remedy cures nothing"),
        Reaches::Tight => assert!(refused(&left) < refused(&before.findings), "{path}: a remedy cures nothing"),
    }
    let expected: BTreeSet<String> = was.difference(&gone).cloned().collect();
    assert_eq!(now, expected, "{path}: {:?}\n{}", remedy.changes, lines(&changed, &left));
    if remedy.reaches == Reaches::Passes {
        let tight = left.iter().filter(|finding| finding.severity == Severity::Tight);
        assert!(tight.count() <= before.findings.iter().filter(|it| it.severity == Severity::Tight).count(), "{path}");
    }
}

#[test]
fn each_refused_example_has_ways_out_that_do_no_more_than_they_must() {
    let demo = Memory::demo();
    demo.list("specs/refused/").par_iter().for_each(|path| {
        let (loaded, checked) = searched(&demo, &[path]);
        for finding in weigh(&checked.findings) {
            let ways = finding.ways_out.unwrap_or_else(|| panic!("{path}: no ways out were looked for"));
            assert!(ways.trials > 0 && ways.trials < 2 * MOST_TRIALS, "{path}: {} trials", ways.trials);
            assert_eq!(ways.remedies.is_empty(), WITHOUT.contains(&path.as_str()), "{path}");
            assert_eq!(ways.remedies.is_empty(), ways.none_because.is_some(), "{path}");
        }
        let Some(first) = first_ways(&checked).first() else { return };
        assert_eq!(first.reaches, Reaches::Passes, "{path}");
        let (changed, after) = after(&loaded, &first.changes);
        assert_eq!(lines(&changed, &weigh(&after.findings)), "", "{path}: {:?}", first.changes);
        for remedy in first_ways(&checked).iter().take(3) {
            holds(path, &loaded, &checked, remedy);
            least(path, &loaded, &checked, remedy);
        }
    });
}

#[test]
fn rows_through_the_lugs_have_three_ways_out() {
    let demo = Memory::demo();
    let (loaded, checked) = searched(&demo, &["specs/refused/jaw-sole-stack.hob"]);
    let ways = first_ways(&checked);
    let first = &ways[..3];
    let kinds = |ways: &[Remedy]| ways.iter().map(|remedy| remedy.kind).collect::<BTreeSet<Kind>>().len().min(2);
    assert_eq!(kinds(first), kinds(ways), "the first three are of two kinds, if all are");
    let says = |remedy: &Remedy, new: &str| remedy.changes.iter().any(|change| change.new == new);
    assert!(first.iter().any(|remedy| says(remedy, "through slip") && remedy.changes.len() == 1), "{first:?}");
    // A thinner outsole lowers the block that is needed: the cap goes with it.
    let carried = first.iter().find(|remedy| says(remedy, "of lug-low")).expect("one takes the lower outsole");
    assert!(carried.changes.iter().any(|change| change.path.contains(" / heel / ")), "{carried:?}");
    for remedy in first {
        holds("jaw-sole-stack", &loaded, &checked, remedy);
    }
}

/// A change taken half back: one step nearer to what stood there, if it is one number of one unit.
fn nearer(change: &Change) -> Option<Edit> {
    // A nail's length goes by what is stocked.
    if ["length", "lengths", "base", "cap"].iter().any(|word| change.path.ends_with(&format!(" / {word}"))) {
        return None;
    }
    let (old, new) = (words(&change.old), words(&change.new));
    let differ: Vec<usize> = (0..old.len().max(new.len())).filter(|at| old.get(*at) != new.get(*at)).collect();
    let ([at], true) = (&differ[..], old.len() == new.len()) else { return None };
    let (from, to): (f64, f64) = (old[*at].parse().ok()?, new[*at].parse().ok()?);
    let step = match *new.get(at + 1)? {
        "mm" | "spi" => 0.25,
        "Nm" => 10.0,
        "%" => 0.5,
        _ => return None,
    };
    let back = if to > from { to - step } else { to + step };
    ((back - to).abs() < (from - to).abs() - 1e-9).then_some(())?;
    let text = change.edit.text.replacen(new[*at], &back.to_string(), 1);
    Some(Edit { text, ..change.edit.clone() })
}

fn words(text: &str) -> Vec<&str> {
    text.split_whitespace().collect()
}

/// Neither change can be left out, and no number can be set a step nearer.
fn least(path: &str, loaded: &Loaded, before: &Checked, remedy: &Remedy) {
    let as_good = |edits: &[Edit]| {
        let Some((changed, checked)) = with(loaded, edits) else { return false };
        let worse = checked.findings.iter().filter(|finding| finding.severity < Severity::Note).any(|finding| {
            let key = finding.key(&changed.sources);
            remedy.cures.contains(&key) || before.findings.iter().all(|known| known.key(&loaded.sources) != key)
        });
        !worse
    };
    // A tolerance that fails in so few pairs that it is only a note is reason enough for a change.
    let noted = |edits: &[Edit]| {
        let changed = with(loaded, edits).map(|(_, checked)| checked.findings).unwrap_or_default();
        changed.iter().any(|finding| remedy.cures.contains(&finding.key(&loaded.sources)))
    };
    let edits: Vec<Edit> = remedy.changes.iter().map(|change| change.edit.clone()).collect();
    for (n, change) in remedy.changes.iter().enumerate() {
        let alone = edits.iter().filter(|edit| edit.span == change.edit.span).count() == 1;
        let mut without = edits.clone();
        without.remove(n);
        if alone && !without.is_empty() {
            let spare = as_good(&without) && !noted(&without);
            assert!(!spare, "{path}: `{}` can be left out of {:?}", change.new, remedy.changes);
        }
        if let Some(edit) = nearer(change) {
            let mut stepped = edits.clone();
            stepped[n] = edit;
            assert!(!as_good(&stepped) || noted(&stepped), "{path}: `{}` goes too far", change.new);
        }
    }
}

/// Values of the demo's models, and what a shop might write in their place.
const SLIPS: [(&str, &str, &str); 13] = [
    ("scree-8", "from-edge 3.5 mm;  apart 3.5 mm", "from-edge 1.25 mm;  apart 3.5 mm"),
    ("scree-8", "needle 230 Nm", "needle 300 Nm"),
    ("scree-8", "pitch 5 spi", "pitch 11.3 spi"),
    ("scree-8", "of bend 12 iron", "of bend 10 iron"),
    ("scree-8", "lifts  2 of lift-leather 12 iron", "lifts  2 of lift-leather 6 iron"),
    ("scree-8", "base heel-nail back 7/8 in, breast 6.5/8 in", "base heel-nail 5/8 in"),
    ("scree-8", "at-forepart 11 mm at-waist 11 mm", "at-forepart 8 mm at-waist 9 mm"),
    ("scree-8", "at-toe 24 mm", "at-toe 18.6 mm"),
    ("cairn-10", "cap cap-heavy", "cap cap-low"),
    ("cairn-10", "of lug-heavy", "of lug-low"),
    ("cairn-10", "through slip;  on sole-stitcher", "through outsole;  on bench-stitcher"),
    ("muster-10", "lifts  4 of lift-leather 12 iron", "lifts  2 of lift-leather 12 iron"),
    ("muster-10", "inside-feather 10 mm", "inside-feather 3.1 mm"),
];

/// Every finding with its remedies in their order, as lines: nothing of where they stand in the text.
fn ranking(checked: &Checked) -> Vec<String> {
    let mut all = Vec::new();
    for finding in &checked.findings {
        for (n, remedy) in finding.ways_out.iter().flat_map(|ways| ways.remedies.iter().enumerate()) {
            let said = |change: &Change| format!("{}: {}", change.path, words(&change.new).join(" "));
            let changes: Vec<String> = remedy.changes.iter().map(said).collect();
            all.push(format!("{} {} {n} {}", finding.name, finding.subject(), changes.join("; ")));
        }
    }
    all
}

#[test]
fn over_random_builds_every_remedy_passes_and_ranking_ignores_the_layout() {
    let demo = Memory::demo();
    let mut tried = 0;
    let mut chance = Chance::new(7);
    let mut order: Vec<usize> = (0..SLIPS.len()).collect();
    chance.shuffle(&mut order);
    for n in order.into_iter().take(6) {
        let (model, old, new) = SLIPS[n];
        let path = format!("specs/models/{model}.hob");
        let text = demo.text(&path);
        assert!(text.contains(old), "{path} has no `{old}`");
        let mutated = demo.with(&path, text.replacen(old, new, 1));
        let (loaded, checked) = searched(&mutated, &[&path]);
        for remedy in all_ways(&checked) {
            holds(&path, &loaded, &checked, remedy);
        }
        if let Some(first) = first_ways(&checked).first() {
            least(&path, &loaded, &checked, first);
        }
        let id = loaded.sources.find(&path).expect("it is loaded");
        let text = &loaded.sources.get(id).text;
        let other = shuffled(text, &loaded.reading(id).body, 0..text.len(), &mut chance);
        let (_, other) = searched(&mutated.with(&path, other.replace('\n', "\r\n")), &[&path]);
        assert_eq!(ranking(&other), ranking(&checked), "{path}: `{new}`");
        tried += usize::from(!first_ways(&checked).is_empty());
    }
    assert!(tried >= 3, "only {tried} builds had a way out");
}

#[test]
fn a_value_that_two_models_share_is_mended_for_both() {
    let demo = Memory::demo();
    let path = "specs/models/scree-8.hob";
    let text = demo.text(path).replacen("needle 230 Nm", "needle 300 Nm", 1);
    let demo = demo.with(path, text).with("specs/other.hob", "use \"models/scree-8.hob\"\n");
    let (loaded, checked) = searched(&demo, &[path]);
    let subjects: Vec<String> =
        checked.findings.iter().filter(|it| it.ways_out.is_some()).map(Finding::subject).collect();
    assert_eq!(subjects, ["scree-8, sole rows", "scree-8-slim, sole rows"]);
    let ways = first_ways(&checked);
    let cures = ["jaw/needle@scree-8, sole rows", "jaw/needle@scree-8-slim, sole rows"];
    assert!(cures.iter().all(|key| ways[0].cures.iter().any(|cured| cured == key)), "{:?}", ways[0].cures);
    holds(path, &loaded, &checked, &ways[0]);
}

#[test]
fn an_edit_keeps_comments_spacing_and_line_ends() {
    let demo = Memory::demo();
    let path = "specs/refused/trial.hob";
    let text = "use \"../models/scree-8.hob\"\r\nmodel trial like scree-8 { # a\r\n\trevision 1 # b\r\n\tbottom {\r\n\t\tturnout at-forepart 9.5 mm   at-waist 9.5 mm at-heel 4 mm # c\r\n\t\tsole sewn { from-edge 3.5 mm;  apart 3.5 mm } # d\r\n\t}\r\n}\r\n";
    let demo = demo.with(path, text);
    let (loaded, checked) = searched(&demo, &[path]);
    let ways = first_ways(&checked);
    assert!(ways.len() > 1);
    for remedy in ways {
        let (changed, _) = after(&loaded, &remedy.changes);
        let id = changed.sources.find(path).expect("it is loaded");
        let new = &changed.sources.get(id).text;
        for comment in ["# a\r\n", "# b\r\n", "# c\r\n", "# d\r\n"] {
            assert!(new.contains(comment), "{new}");
        }
        assert_eq!(new.matches('\n').count(), new.matches("\r\n").count());
        holds(path, &loaded, &checked, remedy);
    }
}

#[test]
fn what_is_never_first_is_not_first() {
    let demo = Memory::demo();
    for path in demo.list("specs/refused/") {
        if !["rows-turnout", "upper-row-edge", "forefoot-nailed"].iter().any(|name| path.contains(name)) {
            continue;
        }
        let (_, checked) = searched(&demo, &[&path]);
        let first = &first_ways(&checked)[0].changes;
        let number = |text: &str| words(text).iter().find_map(|word| word.parse::<f64>().ok());
        for change in first {
            let less = number(&change.new) < number(&change.old);
            let edge = change.path.ends_with("sole / from-edge") || change.path.ends_with(" / rows");
            assert!(!(edge && less), "{path}: {change:?}");
            assert!(!change.path.ends_with("waist / to") || less, "{path}: {change:?}");
        }
    }
}
