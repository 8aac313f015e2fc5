//! Builds that pass and are worth a word: each is noted by the rule that its file names, with its numbers, and by it is
//! nothing refused; mended, or at the limit, it is no longer noted.

use crate::common::memory::{Memory, lines};
use hobnail::check::{AllSizes, SizeFilter};
use hobnail::finding::{Finding, Severity};
use hobnail::measure::{Size, parse_number, to_f64};
use hobnail::rules::all;

struct Expected {
    rule: String,
    size: String,
    sum: f64,
    limit: f64,
}

struct One(String);

impl SizeFilter for One {
    fn wants(&self, size: &Size) -> bool {
        size.to_string() == self.0
    }
}

/// `# expect: RULE in SIZE: SUM, LIMIT`
fn expected(text: &str) -> Expected {
    let said = text.lines().find_map(|line| line.split_once("# expect: ")).expect("each file expects a note").1;
    let (rule, said) = said.split_once(" in ").expect("a rule in a size");
    let (size, said) = said.split_once(": ").expect("a size and what is expected in it");
    let (sum, limit) = said.split_once(", ").expect("a sum and a limit");
    let number =
        |text: &str| to_f64(parse_number(text.split_whitespace().next().unwrap_or("")).expect("a number").value);
    Expected { rule: rule.to_owned(), size: size.to_owned(), sum: number(sum), limit: number(limit) }
}

/// The text with the edit of a directive done where its OLD stands outside comments.
fn edited(path: &str, text: &str, directive: &str) -> String {
    let said =
        text.lines().find_map(|line| line.split_once(directive)).unwrap_or_else(|| panic!("{path}: {directive}"));
    let (old, new) = said.1.trim().split_once(" -> ").expect("an edit has an arrow");
    let code = |line: &str| line.find('#').unwrap_or(line.len());
    let found: usize = text.lines().map(|line| line[..code(line)].matches(old).count()).sum();
    assert_eq!(found, 1, "{path}: `{old}` stands once outside comments");
    let edit = |line: &str| {
        let (code, comment) = line.split_at(code(line));
        code.replace(old, new) + comment + "\n"
    };
    text.lines().map(edit).collect()
}

fn notes(demo: &Memory, path: &str, text: &str, sizes: &dyn SizeFilter, rule: &str) -> Vec<Finding> {
    let (loaded, checked) = demo.with(path, text).check(&[path], sizes);
    let wrong = |finding: &&Finding| finding.severity != Severity::Note;
    let wrong: Vec<Finding> = checked.findings.iter().filter(wrong).cloned().collect();
    assert_eq!(lines(&loaded, &wrong), "", "{path}");
    checked.findings.into_iter().filter(|finding| finding.name == rule).collect()
}

#[test]
fn each_is_noted_with_its_numbers_and_refused_nowhere() {
    let demo = Memory::demo();
    for path in demo.list("specs/noted/") {
        let text = demo.text(&path);
        let expected = expected(text);
        let found = notes(&demo, &path, text, &One(expected.size.clone()), &expected.rule);
        let [found] = &found[..] else { panic!("{path}: {} notes", found.len()) };
        let measured = found.measured.as_ref().expect("a note has numbers");
        assert!((measured.sum - expected.sum).abs() < 1e-4, "{path}: {}", measured.sum);
        assert!((measured.limit - expected.limit).abs() < 1e-9, "{path}: {}", measured.limit);
        notes(&demo, &path, text, &AllSizes, &expected.rule);
    }
}

#[test]
fn mended_and_at_the_limit_it_is_not_noted_and_a_step_beyond_it_is() {
    let demo = Memory::demo();
    for path in demo.list("specs/noted/") {
        let text = demo.text(&path);
        let expected = expected(text);
        let count = |directive: &str, sizes: &dyn SizeFilter| {
            notes(&demo, &path, &edited(&path, text, directive), sizes, &expected.rule).len()
        };
        let size = One(expected.size.clone());
        assert_eq!(count("# mend: ", &AllSizes), 0, "{path} mended");
        assert_eq!(count("# limit: ", &size), 0, "{path} at the limit");
        assert_eq!(count("# beyond: ", &size), 1, "{path} a step beyond");
    }
}

#[test]
fn each_file_is_named_after_its_rule() {
    let demo = Memory::demo();
    for path in demo.list("specs/noted/") {
        let rule = expected(demo.text(&path)).rule;
        assert!(all().iter().any(|known| known.name() == rule), "{path} names `{rule}`, which is no rule");
        let stem = path.trim_start_matches("specs/noted/").trim_end_matches(".hob");
        assert!(stem.starts_with(&rule.replace('/', "-")), "{path} is not named after `{rule}`");
    }
}
