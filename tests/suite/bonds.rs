//! What bonds a sole: an adhesive for soles, in what is judged and in every way out that is offered.

use crate::common::memory::{Memory, Only, faults};
use hobnail::check::AllSizes;
use hobnail::finding::Severity;
use hobnail::remedy::remedies;

const PATH: &str = "specs/trial.hob";

fn cairn(differs: &str) -> Memory {
    let text = format!("use \"models/cairn-10.hob\"\nmodel trial like cairn-10 {{\n  revision 1\n  {differs}\n}}\n");
    Memory::demo().with(PATH, text)
}

#[test]
fn no_way_out_bonds_a_sole_with_the_paste_for_linings() {
    // The cement of the outsole sets for 24 hours, the paste for half an hour: it would do in the hour that is given.
    let memory = cairn("route { dwell press-outsole 1 hours }");
    let (loaded, mut checked) = memory.check(&[PATH], &AllSizes);
    assert!(faults(&loaded).is_empty(), "{}", memory.text(PATH));
    remedies(&loaded, &mut checked);
    let finding = checked.findings.iter().find(|finding| finding.name == "route/dwell").expect("it is refused");
    assert_eq!(finding.severity, Severity::Refused);
    let ways = finding.ways_out.as_ref().expect("ways out were looked for");
    let said: Vec<&str> =
        ways.remedies.iter().flat_map(|remedy| &remedy.changes).map(|change| change.new.as_str()).collect();
    assert!(said.iter().all(|change| !change.contains("latex")), "{said:?}");
}

#[test]
fn a_lining_is_cemented_in_with_one_for_linings() {
    for (says, bonds) in [("for linings;", true), ("for linings, soles;", true), ("for soles;", false), ("", false)] {
        let stock = format!("adhesive other {{ {says} coats 1 }}\n");
        let text = stock + cairn("upper { lasted-in vamp-lining to 42 % bonded other }").text(PATH);
        let (loaded, checked) = Memory::demo().with(PATH, text).check(&[PATH], &AllSizes);
        assert!(faults(&loaded).is_empty(), "{says}");
        let found = checked.findings.iter().find(|finding| finding.name == "bond/adhesive");
        assert_eq!(found.is_none(), bonds, "{says}");
        let message = match says {
            "" => "`other` does not say that it is for linings",
            _ => "`other` is for soles, not for linings",
        };
        assert!(found.is_none_or(|finding| finding.message == message), "{says}");
    }
}

#[test]
fn an_adhesive_for_both_and_one_for_soles_bond_soles_and_no_other_does() {
    for (says, bonds) in [
        ("for soles;", true),
        ("for linings, soles;", true),
        ("for soles, linings;", true),
        ("for linings;", false),
        ("", false),
    ] {
        let stock = format!("adhesive other {{ {says} coats 2; open 15..40 minutes; set 24 hours }}\n");
        let text = stock + cairn("bottom { layer outsole { bonded other } }").text(PATH);
        let (_, checked) = Memory::demo().with(PATH, text).check(&[PATH], &Only("9 D"));
        let refused = checked.findings.iter().any(|it| it.severity == Severity::Refused && it.name == "bond/adhesive");
        assert_eq!(refused, !bonds, "`{says}`");
    }
}
