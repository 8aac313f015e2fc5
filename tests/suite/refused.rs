//! The builds that are refused on purpose: each by the rule that it names, by its amounts, and by nothing else; and
//! mended as it says, by nothing.

use crate::common::memory::{Memory, lines};
use hobnail::check::{AllSizes, SizeFilter};
use hobnail::finding::{Finding, Severity};
use hobnail::measure::{Size, parse_number, to_f64};
use hobnail::rules::all;
use rayon::prelude::*;

/// `# expect: RULE in SIZE: SUM, LIMIT`, or the fact in words.
struct Expected {
    rule: String,
    size: String,
    amounts: Option<Amounts>,
    fact: String,
}

struct Amounts {
    sum: f64,
    limit: f64,
    unit: String,
}

fn expectations(text: &str) -> Vec<Expected> {
    let expected = |line: &str| {
        let (_, said) = line.split_once("# expect: ")?;
        let (rule, said) = said.split_once(" in ")?;
        let (size, said) = said.split_once(": ")?;
        Some(Expected {
            rule: rule.to_owned(),
            size: size.to_owned(),
            amounts: amounts(said),
            fact: said.trim().to_owned(),
        })
    };
    text.lines().filter_map(expected).collect()
}

fn amounts(said: &str) -> Option<Amounts> {
    let (sum, limit) = said.split_once(", ")?;
    let (sum, unit) = sum.trim().split_once(' ')?;
    let (limit, same) = limit.trim().split_once(' ')?;
    assert_eq!(unit, same, "sum and limit of `{said}` have one unit");
    let number = |text: &str| parse_number(text).ok().map(|number| to_f64(number.value));
    Some(Amounts { sum: number(sum)?, limit: number(limit)?, unit: unit.to_owned() })
}

/// The text with every `# mend: OLD -> NEW` done on its own line.
fn mended(path: &str, text: &str) -> String {
    let mend = |line: &str| {
        let Some((code, edit)) = line.split_once("# mend: ") else { return line.to_owned() };
        let (old, new) = edit.trim_end().split_once(" -> ").unwrap_or_else(|| panic!("{path}: `{line}` has no arrow"));
        assert_eq!(code.matches(old).count(), 1, "{path}: `{old}` stands once in `{code}`");
        code.replace(old, new)
    };
    text.lines().map(|line| mend(line) + "\n").collect()
}

struct One(String);

impl SizeFilter for One {
    fn wants(&self, size: &Size) -> bool {
        size.to_string() == self.0
    }
}

fn of(findings: &[Finding], severities: &[Severity]) -> Vec<Finding> {
    findings.iter().filter(|finding| severities.contains(&finding.severity)).cloned().collect()
}

const WRONG: [Severity; 2] = [Severity::Fault, Severity::Refused];

/// Builds that a rule refuses, and builds on which a rule that only takes note has a word.
const FOLDERS: [&str; 2] = ["specs/refused/", "specs/noted/"];

#[test]
fn each_is_refused_by_its_rule_and_by_its_amounts() {
    let demo = Memory::demo();
    for path in demo.list("specs/refused/") {
        let expected = expectations(demo.text(&path));
        assert!(!expected.is_empty(), "{path} expects nothing");
        // Mostly one rule; where one can't be broken without the other, the file says both.
        let rules: Vec<String> = expected.iter().map(|expected| expected.rule.clone()).collect();
        for expected in expected {
            let (loaded, checked) = demo.check(&[&path], &One(expected.size.clone()));
            let wrong = of(&checked.findings, &WRONG);
            let matching: Vec<&Finding> = wrong.iter().filter(|finding| finding.name == expected.rule).collect();
            let other = wrong.iter().filter(|finding| !rules.iter().any(|rule| rule == finding.name)).count();
            assert!(!matching.is_empty() && other == 0, "{path}:\n{}", lines(&loaded, &wrong));
            compare(&path, &expected, &matching);
        }
    }
}

fn compare(path: &str, expected: &Expected, found: &[&Finding]) {
    let Some(amounts) = &expected.amounts else {
        let says = |finding: &&Finding| finding.measured.is_none() && finding.message.contains(&expected.fact);
        let messages: Vec<&str> = found.iter().map(|finding| finding.message.as_str()).collect();
        assert!(found.iter().any(says), "{path}: `{}` is not said in {messages:?}", expected.fact);
        return;
    };
    let within = match amounts.unit.as_str() {
        "mm" if path.ends_with("jaw-sole-stack-2.hob") => 0.0005,
        // Two decimals, as they are printed.
        "mm" | "%" => 0.01,
        _ => 0.0,
    };
    let fits = |finding: &&Finding| {
        finding.measured.as_ref().is_some_and(|measured| {
            (measured.sum - amounts.sum).abs() <= within
                && (measured.limit - amounts.limit).abs() <= within
                && measured.unit == amounts.unit
        })
    };
    let measured: Vec<_> =
        found.iter().map(|finding| finding.measured.as_ref().map(|it| (it.sum, it.limit, it.unit))).collect();
    assert!(found.iter().any(fits), "{path}: {} and {} are not in {measured:?}", amounts.sum, amounts.limit);
}

/// What a rule says that is asked once for a model holds in all its sizes.
#[test]
fn a_rule_that_looks_at_no_size_says_the_same_in_each() {
    let demo = Memory::demo();
    let paths: Vec<String> = ["specs/models/", "specs/refused/"].iter().flat_map(|folder| demo.list(folder)).collect();
    paths.par_iter().for_each(|path| {
        let (_, checked) = demo.check(&[path], &AllSizes);
        for rule in all().iter().filter(|rule| rule.alike()) {
            for model in &checked.models {
                let said = |size: Size| -> Vec<_> {
                    let derived = checked.derived(*rule, |of| if of.name == model.name { vec![size] } else { vec![] });
                    derived.into_iter().map(|derived| derived.judgement).collect()
                };
                let [first, middle, last] = [0, model.run.len() / 2, model.run.len() - 1].map(|n| model.run[n]);
                let other = [middle, last].into_iter().find(|size| said(*size) != said(first));
                assert_eq!(other, None, "{path}, {}: another word than in {first}", rule.name());
            }
        }
    });
}

#[test]
fn in_no_size_is_anything_else_wrong() {
    let demo = Memory::demo();
    demo.list("specs/refused/").par_iter().for_each(|path| {
        let rules: Vec<String> = expectations(demo.text(path)).into_iter().map(|expected| expected.rule).collect();
        let (loaded, checked) = demo.check(&[path], &AllSizes);
        let wrong = of(&checked.findings, &WRONG);
        let other: Vec<Finding> =
            wrong.iter().filter(|finding| !rules.iter().any(|rule| rule == finding.name)).cloned().collect();
        assert!(!wrong.is_empty() && other.is_empty(), "{path}:\n{}", lines(&loaded, &other));
    });
}

#[test]
fn mended_as_it_says_each_passes() {
    let demo = Memory::demo();
    demo.list("specs/refused/").par_iter().for_each(|path| {
        let text = demo.text(path);
        let rules: Vec<String> = expectations(text).into_iter().map(|expected| expected.rule).collect();
        let mended = mended(path, text);
        assert_ne!(mended, text, "{path} says no mend");
        let (loaded, checked) = demo.with(path, mended).check(&[path], &AllSizes);
        assert_eq!(lines(&loaded, &of(&checked.findings, &WRONG)), "", "{path}");
        let still = checked.findings.iter().filter(|finding| rules.iter().any(|rule| rule == finding.name));
        assert_eq!(still.count(), 0, "{path} still has what it was mended of");
        assert!(checked.models.iter().all(|model| !model.sizes.is_empty() && !model.faulty), "{path}");
    });
}

/// The edit of a `# limit: OLD -> NEW` or `# beyond: OLD -> NEW` done where OLD stands outside comments.
fn at_boundary(path: &str, text: &str, directive: &str) -> Option<String> {
    let said = text.lines().find_map(|line| line.split_once(directive))?.1;
    let (old, new) = said.trim().split_once(" -> ").unwrap_or_else(|| panic!("{path}: `{said}` has no arrow"));
    let code = |line: &str| line.find('#').map_or(line.len(), |at| at);
    let found = text.lines().map(|line| line[..code(line)].matches(old).count()).sum::<usize>();
    assert_eq!(found, 1, "{path}: `{old}` stands once outside comments");
    let edit = |line: &str| {
        let (code, comment) = line.split_at(code(line));
        code.replace(old, new) + comment + "\n"
    };
    Some(text.lines().map(edit).collect())
}

/// Whether the rule refuses a text in the size that its file names.
fn refuses(demo: &Memory, path: &str, text: &str, expected: &Expected) -> bool {
    let (loaded, checked) = demo.with(path, text).check(&[path], &One(expected.size.clone()));
    let faults = of(&checked.findings, &[Severity::Fault]);
    assert_eq!(lines(&loaded, &faults), "", "{path}");
    of(&checked.findings, &[Severity::Refused]).iter().any(|finding| finding.name == expected.rule)
}

#[test]
fn exactly_at_the_limit_passes_and_one_step_beyond_does_not() {
    let demo = Memory::demo();
    let mut tried: Vec<String> = Vec::new();
    let mut amounts: Vec<String> = Vec::new();
    for path in demo.list("specs/refused/") {
        let text = demo.text(&path);
        let expected = expectations(text);
        let expected = expected.first().expect("each file expects something");
        if expected.amounts.is_some() {
            amounts.push(expected.rule.clone());
        }
        let Some(at_limit) = at_boundary(&path, text, "# limit: ") else { continue };
        let beyond = at_boundary(&path, text, "# beyond: ").unwrap_or_else(|| panic!("{path} goes nowhere beyond"));
        assert!(!refuses(&demo, &path, &at_limit, expected), "{path} is refused at the limit");
        assert!(refuses(&demo, &path, &beyond, expected), "{path} passes beyond the limit");
        tried.push(expected.rule.clone());
    }
    amounts.retain(|rule| !tried.contains(rule));
    assert_eq!(amounts, Vec::<String>::new(), "rules with an amount and without a boundary");
}

#[test]
fn each_rule_has_a_file_and_each_file_a_rule() {
    let demo = Memory::demo();
    let files: Vec<String> = FOLDERS.iter().flat_map(|folder| demo.list(folder)).collect();
    for rule in all() {
        let file = |folder| format!("{folder}{}.hob", rule.name().replace('/', "-"));
        let found = FOLDERS.iter().any(|folder| files.contains(&file(folder)));
        assert!(found, "{} has no file in specs/refused or specs/noted", rule.name());
    }
    for path in &files {
        let stem = path.rsplit('/').next().unwrap_or_default().trim_end_matches(".hob");
        let named: Vec<String> = expectations(demo.text(path)).into_iter().map(|expected| expected.rule).collect();
        for rule in named {
            assert!(all().iter().any(|known| known.name() == rule), "{path} names `{rule}`, which is no rule");
        }
        let plain = expectations(demo.text(path))[0].rule.replace('/', "-");
        let numbered = stem.strip_prefix(&format!("{plain}-")).is_some_and(|n| n.parse::<u8>().is_ok());
        assert!(stem == plain || numbered, "{path} is not named after the rule that it expects first");
    }
}

#[test]
fn the_demo_models_pass_in_every_size() {
    let demo = Memory::demo();
    demo.list("specs/models/").par_iter().for_each(|path| {
        let (loaded, checked) = demo.check(&[path], &AllSizes);
        let wrong = of(&checked.findings, &[Severity::Fault, Severity::Refused, Severity::Tight]);
        assert_eq!(lines(&loaded, &wrong), "", "{path}");
        assert!(checked.models.iter().all(|model| model.sizes.len() == model.run.len() && !model.faulty));
    });
}
