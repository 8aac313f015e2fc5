//! What each rule says of the build that it refuses or notes, at its limit and a step beyond: the words as people read them.

#[path = "common/memory.rs"]
mod memory;

use hobnail::check::SizeFilter;
use hobnail::measure::Size;
use insta::assert_snapshot;
use memory::Memory;

struct One(String);

impl SizeFilter for One {
    fn wants(&self, size: &Size) -> bool {
        size.to_string() == self.0
    }
}

/// `# expect: RULE in SIZE: …`, the first.
fn expected(text: &str) -> (String, String) {
    let said = text.lines().find_map(|line| line.split_once("# expect: ")).expect("each file expects something").1;
    let (rule, said) = said.split_once(" in ").expect("a rule in a size");
    (rule.to_owned(), said.split_once(": ").expect("a size").0.to_owned())
}

/// The text with the edit of a directive done where its OLD stands outside comments; `None` without the directive.
fn edited(text: &str, directive: &str) -> Option<String> {
    let said = text.lines().find_map(|line| line.split_once(directive))?.1;
    let (old, new) = said.trim().split_once(" -> ").expect("an edit has an arrow");
    let code = |line: &str| line.find('#').unwrap_or(line.len());
    let edit = |line: &str| {
        let (code, comment) = line.split_at(code(line));
        code.replace(old, new) + comment + "\n"
    };
    Some(text.lines().map(edit).collect())
}

#[test]
fn each_rule_says_why() {
    let demo = Memory::demo();
    let mut all = String::new();
    for path in [demo.list("specs/refused/"), demo.list("specs/noted/")].concat() {
        let text = demo.text(&path).to_owned();
        let (rule, size) = expected(&text);
        let variants = [("as written", Some(text.clone()))]
            .into_iter()
            .chain(["limit", "beyond"].map(|name| (name, edited(&text, &format!("# {name}: ")))));
        for (name, text) in variants.filter_map(|(name, text)| Some((name, text?))) {
            let (_, checked) = demo.with(&path, text).check(&[&path], &One(size.clone()));
            all += &format!("{path}, {name}, in {size}\n");
            for finding in checked.findings.iter().filter(|finding| finding.name == rule) {
                all += &format!("  {:?}, {}: {}\n", finding.severity, finding.subject, finding.message);
                all.extend(finding.labels.iter().map(|label| format!("    label: {}\n", label.text)));
                all.extend(finding.notes.iter().map(|note| format!("    note: {note}\n")));
                all.extend(finding.help.iter().map(|help| format!("    help: {help}\n")));
            }
        }
    }
    assert_snapshot!(all);
}
