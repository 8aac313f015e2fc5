//! # route/dwell
//!
//! The boot rests as long as its leather and its bonds ask for.
//!
//! ## At the bench
//!
//! Wet leather that comes off the last before it is dry springs back, and the waist is lost. Adhesive that is joined
//! before its solvent has gone stays soft, one that is worked on before it has set creeps under the needle, and an outsole
//! that hangs on it alone comes off on the hill. Joined after the film has dried to a skin, it does not take at all, and
//! nobody sees that from outside. Any other rest that is too long is a nuisance.
//!
//! ## Formula
//!
//! Least time given `>=` least time needed: on the last, where the leather was mulled or wet-lasted, the house's
//! `dry-on-last`, and its `dry-heavy` where a turned-out part is, by the middle of its spread, at least `mulled-from` thick;
//! before joining, the adhesive's least `open`; after pressing, its `set`. Of several adhesives in one step the slowest
//! counts. Most time given `<=` the most of `open` where midsole, slip or outsole are joined; for shank and pad more is a
//! note. A time that the model leaves out is the one that is needed.
//!
//! ## Fails
//!
//! ```text
//! lasting { on-the-last 20..72 hours }    # wet leather wants 24
//! ```
//!
//! ## Mended
//!
//! ```text
//! lasting { on-the-last 24..72 hours }
//! ```
//!
//! ## Source
//!
//! The adhesive's own data sheet, as the stock states it. The rest on the last: house rule, common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use crate::build::{Build, Dwell, Rest};
use crate::finding::{RestAt, Subject};
use crate::measure::fits;
use crate::source::Origin;

/// The rule.
pub(super) struct RouteDwell;

const SUBJECT: Subject = Subject::Rests;

impl Rule for RouteDwell {
    fn name(&self) -> &'static str {
        "route/dwell"
    }

    fn source(&self) -> &'static str {
        include_str!("route_dwell.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(SUBJECT, &build.route, |route| route.dwells.iter().flat_map(least_and_most).collect())
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let (given, limit, by) = (time(*sum), time(*limit), time(margin.abs()));
        if matches!(judgement.subject, Subject::LongestRest(_)) {
            let message = format!("it may rest {given}, the adhesive stays open for {limit}: {by} too long");
            return Words { message, help: vec!["join sooner; if it has waited too long, coat once more".to_owned()] };
        }
        let message = format!("it rests {given} at least, and needs {limit}: {by} too short");
        Words { message, help: vec!["let it rest longer".to_owned()] }
    }
}

fn rest(dwell: &Dwell) -> RestAt {
    match dwell.rest {
        Rest::Leather => RestAt::Last,
        Rest::Open => RestAt::Open(dwell.step),
        Rest::Set => RestAt::Setting(dwell.step),
        Rest::Said => RestAt::Step(dwell.step),
    }
}

/// A rest that the model states, against the least that is needed and the most that is allowed.
fn least_and_most(dwell: &Dwell) -> Vec<Judgement> {
    let Some(written) = &dwell.written else { return Vec::new() };
    let mut judgements = Vec::new();
    if let Some(needs) = &dwell.needs {
        let judgement = Judgement::new(
            Subject::Rest(rest(dwell)),
            dwell.least,
            needs.minutes,
            dwell.least - needs.minutes,
            "minutes",
        );
        let judgement =
            stated(judgement, written, dwell.least).limit_at(needs.origin.clone(), "what it needs at least");
        judgements.push(judgement.lever(written.clone(), Moves::Up));
    }
    if let (Some(allows), Some(most)) = (&dwell.allows, dwell.most)
        && (dwell.holds_sole || !fits(most, allows.minutes))
    {
        let subject = Subject::LongestRest(rest(dwell));
        let mut judgement = Judgement::new(subject, most, allows.minutes, allows.minutes - most, "minutes");
        if !dwell.holds_sole {
            judgement.verdict = Verdict::Noted;
        }
        let judgement = stated(judgement, written, most).limit_at(allows.origin.clone(), "what it allows at most");
        judgements.push(judgement.lever(written.clone(), Moves::Down));
    }
    judgements
}

fn stated(judgement: Judgement, written: &Origin, minutes: f64) -> Judgement {
    judgement.at(written.clone(), format!("{} is said here", time(minutes)))
}

/// Minutes as people say them.
fn time(minutes: f64) -> String {
    if minutes >= 120.0 {
        format!("{} hours", super::number(minutes / 60.0, 1.0))
    } else {
        format!("{} minutes", super::number(minutes, 1.0))
    }
}
