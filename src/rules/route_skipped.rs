//! # route/skipped
//!
//! No step is left out that a later one cannot do without.
//!
//! ## At the bench
//!
//! A shop may do without wetting, without a first inspection, without the maker's mark. Without pulling the last nothing
//! gets into the boot; without hammering points flat the horn, and the foot, find them; without pressing a bond the rows
//! are sewn through layers that creep.
//!
//! ## Formula
//!
//! Yes or no: of every state that a step needs, the step of this model that leaves it is in the order of work.
//!
//! ## Fails
//!
//! ```text
//! route { skip hammer-points }    # the forefoot is sewn over a horn
//! ```
//!
//! ## Mended
//!
//! ```text
//! route { skip first-inspection }
//! ```
//!
//! ## Source
//!
//! Physical order; common practice, no source.

use super::judgement::{Judgement, Words, judged};
use super::route_order::by_step;
use super::{Rule, phrase};
use crate::build::Build;
use crate::finding::Subject;

/// The rule.
pub(super) struct RouteSkipped;

const SUBJECT: Subject = Subject::StepsLeftOut;

impl Rule for RouteSkipped {
    fn name(&self) -> &'static str {
        "route/skipped"
    }

    fn source(&self) -> &'static str {
        include_str!("route_skipped.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.route, |route| {
            by_step(SUBJECT, route.missing.iter().filter(|missing| missing.dropped.is_some()))
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let help = vec!["leave the step in, or leave out what it is for as well".to_owned()];
        Words { message: phrase::joined(&judgement.facts), help }
    }
}
