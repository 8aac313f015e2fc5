//! # heel/nailer
//!
//! The shop's nailer drives the heel's nails.
//!
//! ## At the bench
//!
//! A nail longer than the nailer's drivers is left standing, a shorter one turns in its channel, and more nails
//! than it has channels take a second blow that splits the lifts.
//!
//! ## Formula
//!
//! Each length of the base's nails lies within the lengths of a nailer of the shop; the nails round the heel, where
//! the model says how they stand, are no more than it drives at once (a note: the rest are driven by hand). A shop
//! without a nailer drives by hand, and nothing is judged.
//!
//! ## Fails
//!
//! ```text
//! stage 2 { lifts 3;  lengths 11/8 in }      # 34.93 mm, the press drives 12 to 32
//! ```
//!
//! ## Mended
//!
//! ```text
//! stage 2 { lifts 3;  lengths 7/8 in }
//! ```
//!
//! ## Source
//!
//! The nailer's own figures, as the shop states them.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words, judged};
use super::nail::{lengthy, subject};
use super::words::number;
use crate::build::{Build, HeelNail, of};
use crate::finding::Subject;
use crate::language::Hole;
use crate::measure::Amount;
use crate::spec::{Nailer, Val};

/// The rule.
pub(super) struct HeelNailer;

impl Rule for HeelNailer {
    fn name(&self) -> &'static str {
        "heel/nailer"
    }

    fn source(&self) -> &'static str {
        include_str!("heel_nailer.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Some(nails) = &build.heel_nails else { return Vec::new() };
        if build.nailers.is_empty() {
            return Vec::new();
        }
        judged(SUBJECT, nails, |nails| {
            let lengths = nails.nails.iter().filter_map(|nail| best(build.nailers, |nailer| length(nail, nailer)));
            let ring = nails.rings.iter().map(|ring| f64::from(ring.count + ring.across)).reduce(f64::max);
            lengths.chain(ring.and_then(|count| best(build.nailers, |nailer| at_once(count, nailer)))).collect()
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let message = if judgement.verdict == Verdict::Noted {
            format!(
                "{} nails stand round the heel, the nailer drives {} at once",
                number(*sum, 1.0),
                number(*limit, 1.0)
            )
        } else {
            format!(
                "the {subject} is {} mm long, the nailer drives {} mm at {}: {} mm {}",
                number(*sum, *margin),
                number(*limit, *margin),
                if sum > limit { "most" } else { "least" },
                number(margin.abs(), *margin),
                if sum > limit { "too long" } else { "too short" },
            )
        };
        let help = match judgement.verdict {
            Verdict::Noted => "the others take a second blow, or are driven by hand",
            _ => "take a length that it drives, or drive these by hand and leave the nailer out",
        };
        Words { message, help: vec![help.to_owned()] }
    }
}

const SUBJECT: Subject = Subject::HeelNails;

/// The judgement of the nailer that does best.
fn best(nailers: &[Nailer], judge: impl Fn(&Nailer) -> Option<Result<Judgement, Hole>>) -> Option<Judgement> {
    let judged =
        nailers.iter().filter_map(|nailer| Some(judge(nailer)?.unwrap_or_else(|hole| Judgement::lost(SUBJECT, hole))));
    judged.max_by(|a, b| a.margin.total_cmp(&b.margin))
}

fn length(nail: &HeelNail, nailer: &Nailer) -> Option<Result<Judgement, Hole>> {
    let judge = |lengths: &Val<Amount>| {
        let lengths = of(lengths)?;
        let window = lengths.it.window();
        let limit = window.nearer_end(nail.length);
        let margin = (nail.length - window.lo).min(window.hi - nail.length);
        Ok(Judgement::new(subject(nail), nail.length, limit, margin, "mm")
            .at(nail.origin.clone(), lengthy(nail))
            .limit_at(lengths.origin.clone(), "the nailer drives")
            .lever(nail.origin.clone(), if nail.length > limit { Moves::Down } else { Moves::Up }))
    };
    nailer.lengths.as_ref().map(judge)
}

/// More nails than channels are driven in a second blow: worth a word.
fn at_once(count: f64, nailer: &Nailer) -> Option<Result<Judgement, Hole>> {
    let judge = |nails: &Val<u32>| {
        let nails = of(nails)?;
        let most = f64::from(nails.it);
        let mut judgement = Judgement::new(Subject::NailsRoundHeel, count, most, most - count, "nails");
        if judgement.verdict == Verdict::Refused {
            judgement.verdict = Verdict::Noted;
        }
        Ok(judgement.limit_at(nails.origin.clone(), "the nailer drives at once"))
    };
    nailer.nails.as_ref().map(judge)
}
