//! What of a size a bench must know before it begins.

use super::{Checked, ModelChecked};
use crate::build::Plan;
use crate::finding::Subject;
use crate::measure::Size;
use crate::rules::{Judgement, Verdict, all};

/// What was found of a size that a bench must know: why it is not released, what is tight.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// The rule that found it.
    pub rule: &'static str,
    /// What it found it of; several, where it says the same of each.
    pub subjects: Vec<Subject>,
    /// It cannot be built; else it is tight.
    pub refused: bool,
    /// What was judged, its limit, their unit; none for yes or no.
    pub numbers: Option<(f64, f64, &'static str)>,
}

impl Checked {
    /// What is refused and what is tight of a model in a size, in the order of the rules: of each subject the worst, and
    /// nothing twice.
    #[must_use]
    pub fn notices(&self, model: &ModelChecked, size: Size) -> Vec<Notice> {
        let world = &self.worlds[model.place.0];
        let Some(shop) = &world.shop else { return Vec::new() };
        let build = Plan::new(&world.models[model.place.1], shop).build(size);
        let mut notices = Vec::new();
        for rule in all() {
            notices.extend(said(rule.name(), worst(rule.judge(&build))));
        }
        notices
    }
}

fn is_refused(judgement: &Judgement) -> bool {
    judgement.verdict == Verdict::Refused
}

/// Of each subject the worst that is refused, and the worst that is tight: what makes one finding.
fn worst(judged: Vec<Judgement>) -> Vec<Judgement> {
    let mut worst: Vec<Judgement> = Vec::new();
    for judgement in judged.into_iter().filter(|it| is_refused(it) || it.verdict.is_tight()) {
        let same = |it: &&mut Judgement| it.subject == judgement.subject && is_refused(it) == is_refused(&judgement);
        match worst.iter_mut().find(same) {
            Some(known) if judgement.margin < known.margin => *known = judgement,
            Some(_) => {}
            None => worst.push(judgement),
        }
    }
    worst
}

/// One notice for all of which the same is said.
fn said(rule: &'static str, judged: Vec<Judgement>) -> Vec<Notice> {
    let mut notices: Vec<Notice> = Vec::new();
    for judgement in judged {
        let refused = is_refused(&judgement);
        let Judgement { sum, limit, unit, subject, .. } = judgement;
        let numbers = (!unit.is_empty()).then_some((sum, limit, unit));
        match notices.iter_mut().find(|known| known.refused == refused && known.numbers == numbers) {
            Some(known) => known.subjects.push(subject),
            None => notices.push(Notice { rule, subjects: vec![subject], refused, numbers }),
        }
    }
    notices
}
