//! What a bench must know of a size is said once: a notice for each finding, and none that reads as another does.

use crate::common::memory::{Memory, Only};
use crate::common::trial::{check, trial};
use hobnail::check::{Checked, Notice};
use hobnail::finding::{Finding, Severity, Subject};
use rayon::prelude::*;

fn notices(checked: &Checked, name: &str) -> Vec<Notice> {
    let model = checked.models.iter().find(|model| model.name == name).expect("it is declared");
    checked.notices(model, model.sizes[0].size)
}

/// Shank and pad as broad as the waist, both rigid: the waist's nails stand in two layers, and are one subject.
#[test]
fn nails_in_two_rigid_layers_are_one_notice() {
    let broad = "rigid;  back 0 mm under-heel;  breadth 50 mm";
    let memory = trial("", &format!("  bottom {{ layer shank {{ {broad} }}; layer pad {{ {broad} }} }}"));
    let (_, checked) = check(&memory, &Only("9 D"));
    let of_shank: Vec<&Finding> = checked.findings.iter().filter(|it| it.name == "waist/rigid-shank").collect();
    let of_waist: Vec<_> = of_shank.iter().filter(|it| it.subject() == "trial, waist nails").collect();
    assert_eq!(of_waist.len(), 1, "one finding");
    let all = notices(&checked, "trial");
    let said: Vec<&Notice> = all.iter().filter(|it| it.rule == "waist/rigid-shank").collect();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].subjects.contains(&Subject::WAIST_NAILS), "{said:?}");
}

/// Each build that is refused on purpose, in the size that it is refused in.
#[test]
fn what_is_found_is_noticed_once() {
    let demo = Memory::demo();
    demo.list("specs/refused/").par_iter().for_each(|path| {
        let (_, checked) = demo.check(&[path], &Only("9 D"));
        for model in &checked.models {
            let all = notices(&checked, &model.name);
            for (n, notice) in all.iter().enumerate() {
                let alike = |other: &&Notice| {
                    (other.rule, other.refused, other.numbers) == (notice.rule, notice.refused, notice.numbers)
                };
                assert!(!all[n + 1..].iter().any(|other| alike(&other)), "{path} says it twice: {notice:?}");
            }
            let weighs = |finding: &&Finding| matches!(finding.severity, Severity::Refused | Severity::Tight);
            let found = checked.findings.iter().filter(weighs);
            let found = found.filter(|it| it.about.as_ref().is_some_and(|about| about.model == model.name));
            let subjects: usize = all.iter().map(|notice| notice.subjects.len()).sum();
            assert_eq!(subjects, found.count(), "{path}: a subject for each finding: {all:?}");
        }
    });
}
