//! # last/feet
//!
//! A graded last is about as large round the ball as the feet that its size is for.
//!
//! ## At the bench
//!
//! A last is measured in one size and graded to the others. A grade that is too coarse, or a base that was narrow to begin
//! with, shows at the ends of the run: the 13 is a bucket, the 6 can't be got on. Nobody notices before the boots are worn.
//!
//! ## Formula
//!
//! The size says the foot's length; men's feet so long have a mean ball girth, on the straight line through the two that
//! are known (262.8 mm long: 247.4; 279.4: 256.1). Noted where the last's ball girth is farther from it than `feet-girth`
//! (house). Not for women's sizes, of whose feet no such figures are at hand.
//!
//! ## Fails
//!
//! ```text
//! ball 262 mm;  grade size { ball 1/2 in; … }      # the 11 D is 287.4 mm round the ball, feet so long 256.1
//! ```
//!
//! ## Mended
//!
//! ```text
//! ball 248 mm;  grade size { ball 1/4 in; … }
//! ```
//!
//! ## Source
//!
//! ANSUR II (2012 Anthropometric Survey of U.S. Army Personnel, Natick/TR-15/007, public release), computed from its public
//! data. How far is too far is a house rule: two of its standard deviations of the ball girth of all men, 12.94 mm.

use super::judgement::{Judgement, Verdict, Words};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, GradedLast, of};
use crate::finding::Subject;
use crate::language::Hole;
use crate::measure::Window;

/// The rule.
pub(super) struct LastFeet;

const SUBJECT: Subject = Subject::BallGirth;

impl Rule for LastFeet {
    fn name(&self) -> &'static str {
        "last/feet"
    }

    fn source(&self) -> &'static str {
        include_str!("last_feet.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let (Ok(last), Some(girth)) = (&build.last, build.fit.girth) else { return Vec::new() };
        vec![judge(build, last, girth).unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole))]
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let (which, most) = if sum > limit { ("more", "most") } else { ("less", "least") };
        let message = format!(
            "the last is {} mm round the ball, the feet that it is for are taken to be {} mm at {most}: {} mm {which}",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words {
            message,
            help: vec!["look at the last's grade, or at the width that its base is measured in".to_owned()],
        }
    }
}

fn judge(build: &Build<'_>, last: &GradedLast, girth: f64) -> Result<Judgement, Hole> {
    let off = build.house.rule("feet-girth")?;
    let feet = Window { lo: girth - off.it.nominal(), hi: girth + off.it.nominal() };
    let margin = (last.ball - feet.lo).min(feet.hi - last.ball);
    let mut judgement = Judgement::new(SUBJECT, last.ball, feet.nearer_end(last.ball), margin, "mm");
    if judgement.verdict == Verdict::Refused {
        judgement.verdict = Verdict::Noted;
    }
    judgement
        .facts
        .push(Phrase::Numbers("men's feet of {} mm are {} mm round the ball, on average", [build.fit.foot, girth]));
    let base = of(&build.model.last)?.it.ball.as_ref().map_err(|hole| *hole)?;
    Ok(judgement
        .at(base.origin.clone(), "the girth in the last's base size")
        .limit_at(off.origin, "house rule: how far from the mean"))
}
