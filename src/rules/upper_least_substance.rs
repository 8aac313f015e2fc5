//! # upper/least-substance
//!
//! A skive leaves enough of each part under every row that stands on it.
//!
//! ## At the bench
//!
//! A feather edge is good work where no row stands on it. A row on leather thinner than a millimetre cuts it like a
//! stamp's edge: the seam holds on the bench and opens in the wet.
//!
//! ## Formula
//!
//! For each row of a lap and each part that its edge skive thins there, outside the turnout: `e + (T - e) x / w` at the
//! thin end, x from the part's own edge, `>= least-substance` of the house. The thin end decides; there is no tight. A
//! part that nothing thins under a row is the leather that was chosen, and not judged here. What is left in the turnout is
//! judged by rows/least-in-turnout.
//!
//! ## Fails
//!
//! ```text
//! skive quarter { edge wide 22 mm to 0 mm }       # 8.5 mm from the quarter's edge 0.92 mm are left under row 2
//! ```
//!
//! ## Mended
//!
//! ```text
//! skive quarter { edge wide 10 mm to 1.0 mm }     # 2.17 mm
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::ends::thin_end;
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Build, Left, UpperRow, UpperSeam};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct UpperLeastSubstance;

impl Rule for UpperLeastSubstance {
    fn name(&self) -> &'static str {
        "upper/least-substance"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_least_substance.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let of_seam = |seam: &UpperSeam| {
            judged(Subject::Seam(seam.name.clone()), &seam.rows, |rows| {
                let judgement = judge(build, seam, rows);
                judgement
                    .unwrap_or_else(|hole| Some(Judgement::lost(Subject::Seam(seam.name.clone()), hole)))
                    .into_iter()
                    .collect()
            })
        };
        build.upper.seams.iter().flat_map(of_seam).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the skive leaves {} mm under a row, the house wants {} mm: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words {
            message,
            help: vec!["leave more at the edge, skive narrower, or move the row off the skive".to_owned()],
        }
    }
}

fn judge(build: &Build<'_>, seam: &UpperSeam, rows: &[UpperRow]) -> Result<Option<Judgement>, Hole> {
    let lo = |left: &Left| left.sum.spread().lo;
    let all = rows.iter().flat_map(|row| row.left.iter().map(move |left| (row, left)));
    let Some((row, left)) = all.reduce(|a, b| if lo(b.1) < lo(a.1) { b } else { a }) else { return Ok(None) };
    let rule = build.house.rule("least-substance")?;
    let mut judgement = thin_end(Subject::Seam(seam.name.clone()), &left.sum, rule.it.nominal())
        .limit_at(rule.origin, "house rule: least leather under a row");
    if let Some(term) = left.sum.terms.first() {
        judgement = judgement.lever(term.origin.clone(), Moves::Up);
    }
    judgement.place =
        Some(format!("the {} under row {}, {:.2} mm from the edge", left.part, row.number, row.place).into());
    Ok(Some(judgement))
}
