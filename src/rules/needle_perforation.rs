//! # needle/perforation
//!
//! The needle is not so thick for its stitch that a row turns into a line to tear along. A note, never more.
//!
//! ## At the bench
//!
//! A stamp tears where it is punched. When half of the line or more is hole, the leather between the stitches gives way
//! before the thread does, and no stronger thread mends it.
//!
//! ## Formula
//!
//! needle blade / length of a stitch `<= perforation-upper` of the house for rows of the upper, `perforation-sole` for the
//! forefoot's and the sole's. The blade is Nm / 100 mm; the stitch is the true one where a row is laid out, else the pitch as
//! stated.
//!
//! ## Fails
//!
//! ```text
//! lap vamp over quarter { pitch 12 spi;  needle 130 Nm }     # 1.3 of every 2.12 mm: 0.61
//! ```
//!
//! ## Mended
//!
//! ```text
//! lap vamp over quarter { pitch 8 spi;  needle 130 Nm }      # 0.41
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Verdict, Words};
use super::words::number;
use crate::build::{Build, NeedleBuilt};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct NeedlePerforation;

impl Rule for NeedlePerforation {
    fn name(&self) -> &'static str {
        "needle/perforation"
    }

    fn source(&self) -> &'static str {
        include_str!("needle_perforation.rs")
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
        let message = format!(
            "the needle takes {} of every stitch, the house notes it above {}",
            number(*sum, *margin),
            number(*limit, *margin)
        );
        Words { message, help: vec!["lengthen the stitch, or take a thinner thread and needle".to_owned()] }
    }
}

fn judge(needle: &NeedleBuilt) -> Result<Judgement, Hole> {
    let ((_, origin), share) = (needle.blade.clone()?, needle.perforation?);
    let (most, limit) = needle.most.clone()?;
    let mut judgement = Judgement::new(Subject::Seam(needle.name.clone()), share, most, most - share, "ratio")
        .lever(origin, Moves::Another)
        .limit_at(limit, "house rule: needle over stitch");
    if judgement.verdict == Verdict::Refused {
        judgement.verdict = Verdict::Noted;
    }
    Ok(judgement)
}
