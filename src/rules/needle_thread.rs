//! # needle/thread
//!
//! The needle is one that the thread's maker names for it or, where he names none, of the usual thickness for it. A note,
//! never more.
//!
//! ## At the bench
//!
//! In a hole too narrow the thread frays and snaps; in one too wide the lock is pulled through to the face, and water
//! follows it.
//!
//! ## Formula
//!
//! If the thread's stock names needles: `least <= needle <= most`, in Nm. Only else: needle blade / thread diameter within
//! `needle-over-thread` of the house.
//!
//! ## Fails
//!
//! ```text
//! lap vamp over quarter { thread bonded-138;  needle 150 Nm }     # its maker names 130
//! ```
//!
//! ## Mended
//!
//! ```text
//! lap vamp over quarter { thread bonded-138;  needle 130 Nm }
//! ```
//!
//! ## Source
//!
//! The thread maker's needle table, as the stock states it; the ratio is a house rule, common practice, no source.

use super::judgement::{Judgement, Moves, Verdict, Words};
use super::words::number;
use super::{Case, Rule};
use crate::build::{Build, NeedleBuilt};
use crate::finding::Subject;
use crate::language::Hole;
use crate::measure::Window;

/// The rule.
pub(super) struct NeedleThread;

impl Rule for NeedleThread {
    fn name(&self) -> &'static str {
        "needle/thread"
    }

    fn source(&self) -> &'static str {
        include_str!("needle_thread.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let needles = build.needles.iter();
        needles
            .map(|needle| {
                judge(needle).unwrap_or_else(|hole| Judgement::lost(Subject::Seam(needle.name.clone()), hole))
            })
            .collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let (sum, limit) = (number(*sum, *margin), number(*limit, *margin));
        let message = if judgement.case == Case::NamedNeedle {
            format!("a needle of {sum} Nm is not one that the thread's maker names: {limit} Nm is the nearest")
        } else {
            format!("the needle is {sum} times as thick as its thread, usual is {limit} at this end")
        };
        Words { message, help: vec!["take the needle that the thread's maker names".to_owned()] }
    }
}

fn judge(needle: &NeedleBuilt) -> Result<Judgement, Hole> {
    let (blade, origin) = needle.blade.clone()?;
    let (value, (window, limit), unit, what, case) = match &needle.named {
        Some(named) => (blade * 100.0, named.clone()?, "Nm", "the maker's needles", Case::NamedNeedle),
        None => (needle.over_thread?, needle.ratio.clone()?, "ratio", "house rule: needle over thread", Case::Plain),
    };
    let mut judgement = Judgement::new(
        Subject::Seam(needle.name.clone()),
        value,
        window.nearer_end(value),
        inside(window, value),
        unit,
    )
    .lever(origin, Moves::Another)
    .limit_at(limit, what)
    .of_case(case);
    if judgement.verdict == Verdict::Refused {
        judgement.verdict = Verdict::Noted;
    }
    Ok(judgement)
}

fn inside(window: Window, value: f64) -> f64 {
    (value - window.lo).min(window.hi - value)
}
