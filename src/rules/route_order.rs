//! # route/order
//!
//! Every step of the order of work finds what it needs: nothing that it needs comes after it, and nothing before it has
//! taken that away.
//!
//! ## At the bench
//!
//! Waist nails clinch on the plate of the last, so they are driven while the last is in; the forefoot is sewn from inside,
//! so the last is out, and no point may stand up where the boot goes over the horn. A seam is rubbed flat before its stay
//! hides it, an eyelet is set while the facing lies flat, rows are sewn before the edge is trimmed, because stitching
//! spreads the edge. A boot that was worked in another order is mostly no boot.
//!
//! ## Formula
//!
//! Yes or no, step by step: a step leaves states of the boot and takes others away; each state that it needs is there
//! when it is its turn. A need counts only where some step of this model leaves the state. Steps of the shop's own
//! (`add`) need nothing that is known.
//!
//! ## Fails
//!
//! ```text
//! route { step nail-waist after pull-last }    # no plate is left under the points
//! ```
//!
//! ## Mended
//!
//! ```text
//! route { step nail-waist after midsole }
//! ```
//!
//! ## Source
//!
//! Physical order; common practice, no source.

use super::judgement::{Judgement, Moves, Words, judged};
use super::{Rule, phrase};
use crate::build::{Build, Missing};
use crate::finding::Subject;

/// The rule.
pub(super) struct RouteOrder;

const SUBJECT: Subject = Subject::OrderOfWork;

impl Rule for RouteOrder {
    fn name(&self) -> &'static str {
        "route/order"
    }

    fn source(&self) -> &'static str {
        include_str!("route_order.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.route, |route| {
            by_step(SUBJECT, route.missing.iter().filter(|missing| missing.dropped.is_none()))
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        Words { message: phrase::joined(&judgement.facts), help: vec!["put the steps back in their order".to_owned()] }
    }
}

/// One judgement for each step that misses something, with a fact for each thing; one that passes if nothing is missing.
pub(super) fn by_step<'m>(subject: Subject, missing: impl Iterator<Item = &'m Missing>) -> Vec<Judgement> {
    let mut judgements: Vec<Judgement> = Vec::new();
    for missing in missing {
        let subject = Subject::Step(missing.step);
        let known = judgements.iter().position(|known| known.subject == subject);
        let at = known.unwrap_or_else(|| {
            judgements.push(Judgement::yes_no(subject, false));
            judgements.len() - 1
        });
        let judgement = &mut judgements[at];
        judgement.facts.push(fact(missing, known.is_none()).into());
        for origin in &missing.origins {
            if judgement.further.iter().all(|(known, _)| known.span != origin.span) {
                judgement.further.push((origin.clone(), "the order is changed here".into()));
                judgement.levers.push(super::Lever { origin: origin.clone(), moves: Moves::Another });
            }
        }
    }
    if judgements.is_empty() {
        judgements.push(Judgement::yes_no(subject, true));
    }
    judgements
}

/// "`nail-waist` needs the last in the boot: `pull-last` has taken that away".
fn fact(missing: &Missing, first: bool) -> String {
    let why = match (missing.dropped, missing.destroyed, missing.late) {
        (Some(dropped), ..) => format!("`{dropped}` is left out"),
        (None, Some(destroyed), Some(late)) => {
            format!("`{destroyed}` has taken that away and `{late}` comes too late")
        }
        (None, Some(destroyed), None) => format!("`{destroyed}` has taken that away"),
        (None, None, Some(late)) => format!("`{late}` comes too late"),
        (None, None, None) => "no step leaves it".to_owned(),
    };
    let who = if first { format!("`{}` needs", missing.step) } else { "it needs".to_owned() };
    format!("{who} {}: {why}", missing.state.words())
}
