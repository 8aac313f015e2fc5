//! What of a size a bench must know before it begins.

use super::{Checked, ModelChecked};
use crate::build::Plan;
use crate::measure::Size;
use crate::rules::{Verdict, all};

/// What was found of a size that a bench must know: why it is not released, what is tight.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// The rule that found it.
    pub rule: &'static str,
    /// It cannot be built; else it is tight.
    pub refused: bool,
    /// What was judged, its limit, their unit; none for yes or no.
    pub numbers: Option<(f64, f64, &'static str)>,
}

impl Checked {
    /// What is refused and what is tight of a model in a size, in the order of the rules.
    #[must_use]
    pub fn notices(&self, model: &ModelChecked, size: Size) -> Vec<Notice> {
        let world = &self.worlds[model.place.0];
        let Some(shop) = &world.shop else { return Vec::new() };
        let build = Plan::new(&world.models[model.place.1], shop).build(size);
        let mut notices = Vec::new();
        for rule in all() {
            for judgement in rule.judge(&build) {
                let refused = judgement.verdict == Verdict::Refused;
                if refused || judgement.verdict.is_tight() {
                    let numbers =
                        (!judgement.unit.is_empty()).then_some((judgement.sum, judgement.limit, judgement.unit));
                    notices.push(Notice { rule: rule.name(), refused, numbers });
                }
            }
        }
        notices
    }
}
