//! # rows/least-in-turnout
//!
//! Enough leather is left of each part in the turnout to hold the sole's rows.
//!
//! ## At the bench
//!
//! The sole hangs on the edge of the upper that is turned out under its rows. A quarter skived to paper there lets the jaw
//! close easily, and tears along the needle holes like a stamp.
//!
//! ## Formula
//!
//! Along the whole of each row, each part of the upper as it is skived there: nominal `>= least-substance`, and at the
//! thin end `>= least-in-turnout`, both of the house. It passes or it does not; there is no tight. What comes nearer to
//! its limit, or falls farther below it, is shown.
//!
//! ## Fails
//!
//! ```text
//! skive quarter { in-turnout flat to 0.3 mm +- 0.1 mm }       # 0.3 mm under the rows, the house wants 1.0
//! ```
//!
//! ## Mended
//!
//! ```text
//! skive quarter { in-turnout flat to 1.0 mm +- 0.25 mm }      # 0.75 mm at the thin end, the house wants 0.7
//! ```
//!
//! ## Source
//!
//! House rules: common practice, no source.

use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use super::{Case, Phrase, Rule};
use crate::build::{Build, Held, Thin};
use crate::finding::Subject;
use crate::geometry::Side;
use crate::language::Hole;
use std::sync::Arc;

/// The rule.
pub(super) struct RowsLeastInTurnout;

const SUBJECT: Subject = Subject::TurnedOutParts;
const THIN: &str = "house rule: least leather at the thin end in the turnout";
const NOMINAL: &str = "house rule: least leather under a row";

impl Rule for RowsLeastInTurnout {
    fn name(&self) -> &'static str {
        "rows/least-in-turnout"
    }

    fn source(&self) -> &'static str {
        include_str!("rows_least_in_turnout.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.stack, |stack| {
            let judge = |held: &Held| judge(build, held).unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole));
            stack.held.iter().map(judge).collect()
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let message = format!(
            "{} mm are left of the {subject}{}, the house wants {} mm: {} mm short",
            number(*sum, *margin),
            if judgement.case == Case::ThinEnd { " at the thin end" } else { "" },
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["skive it less inside the turnout, or skive it truer".to_owned()] }
    }
}

/// Whichever of the two limits is nearer.
fn judge(build: &Build<'_>, held: &Held) -> Result<Judgement, Hole> {
    let subject = Subject::UnderSoleRows(Arc::clone(&held.part));
    let against = |left: f64, thin: &Thin, rule: &str, what: &'static str| -> Result<Judgement, Hole> {
        let rule = build.house.rule(rule)?;
        let limit = rule.it.nominal();
        let mut judgement =
            Judgement::new(subject.clone(), left, limit, left - limit, "mm").limit_at(rule.origin, what);
        judgement.terms = thin.left.clone();
        judgement.place = Some(place(thin));
        Ok(judgement)
    };
    let nominal = against(held.nominal.left.nominal(), &held.nominal, "least-substance", NOMINAL)?;
    let thin = against(held.lo.left.spread().lo, &held.lo, "least-in-turnout", THIN)?.of_case(Case::ThinEnd);
    let judgement = if thin.margin < nominal.margin { thin } else { nominal };
    let origins: Vec<_> = judgement.terms.terms.iter().map(|term| term.origin.clone()).collect();
    Ok(origins.into_iter().fold(judgement, |judgement, origin| judgement.lever(origin, Moves::Up)))
}

fn place(thin: &Thin) -> Phrase {
    let side = if thin.side == Side::Outside { "outside" } else { "inside" };
    let (station, s, row) = (thin.station * 100.0, thin.s, thin.row + 1);
    format!("at {station:.0} % of the bottom on the {side}, {s:.0} mm along row {row} from its start").into()
}
