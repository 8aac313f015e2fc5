//! What each rule says of the build that it refuses or notes, at its limit and a step beyond: the words as people read them.

use crate::common::memory::Memory;
use crate::common::trial;
use crate::common::trial::trial;
use hobnail::check::SizeFilter;
use hobnail::finding::Finding;
use hobnail::measure::Size;
use insta::assert_snapshot;

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

fn said(finding: &Finding) -> String {
    let mut all = format!("  {:?}, {}, {}: {}\n", finding.severity, finding.name, finding.subject(), finding.message);
    all.extend(finding.labels.iter().map(|label| format!("    label: {}\n", label.text)));
    all.extend(finding.notes.iter().map(|note| format!("    note: {note}\n")));
    all.extend(finding.help.iter().map(|help| format!("    help: {help}\n")));
    all
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
            all.extend(checked.findings.iter().filter(|finding| finding.name == rule).map(said));
        }
    }
    assert_snapshot!(all);
}

/// What can be missed at two ends, in several places or in several ways: the ends, places and ways that the examples do not
/// show. What is declared beside the scree, and what differs in it.
const OTHERWISE: &[(&str, &str, &str, &str)] = &[
    (
        "the guide does not go out that far",
        "9 D",
        "",
        "bottom { turnout at-forepart 17 mm at-waist 17 mm at-heel 4 mm; sole sewn { on bench-stitcher; rows 1; from-edge 9.5 mm } }",
    ),
    (
        "a blank is too narrow",
        "12 EE",
        "outsole slim { base 4.5 mm +- 0.3 mm; lug 3.0 mm +- 0.2 mm; blanks us-men 5..14 measured 9 long 260 mm wide 110 mm grade-length 1/4 in grade-breadth 1/12 in }",
        "bottom { layer outsole { of slim } }",
    ),
    (
        "a blank is too short",
        "13 D",
        "outsole stub { base 4.5 mm +- 0.3 mm; lug 3.0 mm +- 0.2 mm; blanks us-men 5..14 measured 9 long 160 mm wide 170 mm grade-length 1/16 in grade-breadth 1/12 in }",
        "bottom { layer outsole { of stub } }",
    ),
    (
        "a blank is too short, and too narrow by less",
        "9 D",
        "outsole stub { base 4.5 mm +- 0.3 mm; lug 3.0 mm +- 0.2 mm; blanks us-men 5..14 measured 9 long 214 mm wide 116 mm grade-length 0 mm grade-breadth 0 mm }",
        "bottom { layer outsole { of stub } }",
    ),
    (
        "a blank is too narrow, and too short by less",
        "9 D",
        "outsole stub { base 4.5 mm +- 0.3 mm; lug 3.0 mm +- 0.2 mm; blanks us-men 5..14 measured 9 long 216 mm wide 114 mm grade-length 0 mm grade-breadth 0 mm }",
        "bottom { layer outsole { of stub } }",
    ),
    (
        "blanks that end before the run does",
        "14 D",
        "outsole few { base 4.5 mm +- 0.3 mm; lug 3.0 mm +- 0.2 mm; blanks us-men 5..12 measured 9 long 160 mm wide 170 mm grade-length 1/4 in grade-breadth 1/12 in }",
        "bottom { layer outsole { of few } }",
    ),
    ("a step that misses what two others leave", "9 D", "", "route { skip press; skip rough-round }"),
    (
        "hardware on a facing too thin",
        "9 D",
        "upper-leather veil { substance 1.5..1.7 mm }",
        "upper { part quarter { of veil } }",
    ),
    (
        "hardware on a facing thin at one end",
        "9 D",
        "upper-leather veil { substance 1.8..2.4 mm }",
        "upper { part quarter { of veil } }",
    ),
    (
        "a heel nail that the press lets go",
        "9 D",
        "nail tack { lengths 3/8, 7/8 in; shank 1.8 mm }",
        "heel { nailed { base tack back 3/8 in, breast 7/8 in } }",
    ),
    ("more heel nails than channels", "9 D", "", "heel { nailed { apart 5 mm } }"),
    (
        "cap nails that do not hold",
        "9 D",
        "nail tack { lengths 3/8 in; shank 1.8 mm }",
        "heel { nailed { cap tack 3/8 in } }",
    ),
    (
        "cap nails with sunk heads that do not hold",
        "9 D",
        "nail tack { lengths 3/8 in; shank 1.8 mm; sunk 1 mm }",
        "heel { nailed { cap tack 3/8 in } }",
    ),
    (
        "cap nails with sunk heads that come through at the breast",
        "9 D",
        "nail spike { lengths 7/8 in; shank 1.8 mm; sunk 1 mm }",
        "heel { nailed { cap spike 7/8 in } }",
    ),
    (
        "a stack that is tight",
        "9 D",
        "sole-leather card { substances 7.8 mm; tolerance 0.6 mm }",
        "bottom { layer midsole { of card 7.8 mm } }",
    ),
    (
        "a wall that overhangs, on more rows than it has room for",
        "9 D",
        "",
        "bottom { turnout at-forepart 11 mm at-waist 9 mm at-heel 4 mm; sole sewn { rows 3 } }",
    ),
    (
        "rests that are too long and too short",
        "9 D",
        "",
        "lasting { on-the-last 24..200 hours; mulled 6..40 hours }; route { dwell cement-outsole 12..60 minutes; dwell shank 15..41 minutes }",
    ),
    ("a row off its lap", "9 D", "", "upper { lap vamp over quarter { rows 2 first 0.5 mm apart 18 mm } }"),
    ("needles too thin for thread and machine", "9 D", "", "upper { lap vamp over quarter { needle 80 Nm } }"),
    ("a thread too thin, a pitch too wide", "9 D", "", "bottom { sole sewn { thread bonded-69; pitch 3 spi } }"),
    (
        "a thread too thick, a pitch too narrow",
        "9 D",
        "thread cord { size 700 tex; density 1.14 g/cm3; packing 0.7 }",
        "bottom { sole sewn { thread cord; pitch 9 spi } }",
    ),
    ("waist nails that do not clinch", "9 D", "", "bottom { waist nailed { length 4/8 in } }"),
    ("waist nails that stand too far", "9 D", "", "bottom { waist nailed { length 7/8 in } }"),
    ("a waist line past the outside joint", "9 D", "", "bottom { waist nailed { to 65 % } }"),
    ("a waist line past the inside joint", "9 D", "", "bottom { waist nailed { to 74 % } }"),
    (
        "a heel that is tight",
        "9 D",
        "cap lean { thickness 9.1 mm +- 1.5 mm; blanks us-men 5..14 }",
        "heel { cap lean; lifts 1 of lift-leather 12 iron; thin-lifts 1 of lift-leather 6 iron }",
    ),
    (
        "steps that miss several things",
        "9 D",
        "",
        "route { step sew-sole before midsole; step level before build-heel; step pull-last before nail-waist; step shank after midsole }",
    ),
    (
        "a seam too tall for its machine",
        "9 D",
        "upper-leather slab { substance 9..11 oz }",
        "upper { part quarter { of slab }; part vamp { of slab }; lap vamp over quarter { on flat-bed } }",
    ),
    ("a shaft that nothing goes over", "14 D", "", "upper { shaft 259 mm grade 2 mm }"),
];

#[test]
fn each_rule_says_what_is_missed_otherwise() {
    let mut all = String::new();
    for (what, size, declared, differs) in OTHERWISE {
        let memory = trial(declared, &format!("  {differs}"));
        let (_, checked) = memory.check(&[trial::TRIAL], &One((*size).to_owned()));
        all += &format!("{what}, in {size}\n");
        all.extend(checked.findings.iter().map(said));
    }
    assert_snapshot!(all);
}

/// What lies with the last or the house: a statement of the last, its girth, and a house rule as it stands and as it is changed.
type Beyond = (&'static str, &'static str, &'static str, Option<(&'static str, &'static str)>);

const BEYOND_THE_MODEL: [Beyond; 4] = [
    ("a last that overhangs its feather", "overhang 2 mm", "248 mm", None),
    ("a last that is too slack", "", "290 mm", None),
    ("a last that is too tight", "", "210 mm", None),
    ("rows that start where the turnout blends", "", "248 mm", Some(("rows-start        12 mm", "rows-start 18.5 mm"))),
];

#[test]
fn each_rule_says_what_last_and_house_miss() {
    let mut all = String::new();
    for (what, more, ball, rule) in BEYOND_THE_MODEL {
        let mut memory = trial::LastText { ball, more, ..trial::LastText::default() }.boot("us-men 9 widths D");
        if let Some((old, new)) = rule {
            let shop = memory.text("specs/shop.hob");
            assert_eq!(shop.matches(old).count(), 1, "{old}");
            memory = memory.with("specs/shop.hob", shop.replace(old, new));
        }
        let (_, checked) = memory.check(&[trial::TRIAL], &One("9 D".to_owned()));
        all += &format!("{what}\n");
        all.extend(checked.findings.iter().map(said));
    }
    assert_snapshot!(all);
}
