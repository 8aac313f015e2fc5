//! # upper/sews
//!
//! What lies under each row of an upper seam is no thicker than what its machine sews.
//!
//! ## At the bench
//!
//! A closing machine that is made to climb a seam too thick for it skips stitches and breaks needles in the row that the
//! boot hangs on; the next taller machine stands beside it.
//!
//! ## Formula
//!
//! Under each row, outside the turnout: in a lap both parts, each as skived there; in a closed seam both sides; under a
//! stay the stay and its part, twice where an allowance lies; a folded collar twice and its part. The greatest `<= sews`.
//! Refused if the nominal fails; tight if only the thick end does.
//!
//! ## Fails
//!
//! ```text
//! lap counter-cover over quarter { on flat-bed }     # 3.77 + 2.34 = 6.11 mm, the flat-bed sews 6
//! ```
//!
//! ## Mended
//!
//! ```text
//! lap counter-cover over quarter { on post-bed }     # sews 8
//! ```
//!
//! ## Source
//!
//! Arithmetic on the stock's figures; what the machine sews is the shop's own measurement.

use super::Rule;
use super::ends::{at_end, at_most};
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Build, UpperRow, UpperSeam};
use crate::finding::{Subject, Sum};
use crate::language::Hole;
use crate::measure::fits;

/// The rule.
pub(super) struct UpperSews;

impl Rule for UpperSews {
    fn name(&self) -> &'static str {
        "upper/sews"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_sews.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let of_seam = |seam: &UpperSeam| {
            judged(Subject::Seam(seam.name.clone()), &seam.rows, |rows| {
                let judgement = judge(seam, rows);
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
            "a row goes through {} mm{} where the machine sews {} mm: {} mm too thick",
            number(*sum, *margin),
            at_end(judgement, "thick"),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["sew it on a machine that sews taller, or skive the parts".to_owned()] }
    }
}

fn judge(seam: &UpperSeam, rows: &[UpperRow]) -> Result<Option<Judgement>, Hole> {
    let (limit, origin) = seam.sews.clone()?;
    let (nominal, thick) = (UpperSeam::thickest(rows, Sum::nominal), UpperSeam::thickest(rows, |sum| sum.spread().hi));
    let (Some(nominal), Some(thick)) = (nominal, thick) else { return Ok(None) };
    let row = if fits(nominal.stack.nominal(), limit) { thick } else { nominal };
    let mut judgement = at_most(Subject::Seam(seam.name.clone()), &row.stack, limit)
        .lever(seam.machine_origin.clone()?, Moves::Another)
        .limit_at(origin, "the machine sews");
    judgement.place = Some(format!("under row {}, {:.2} mm from the edge", row.number, row.place).into());
    Ok(Some(judgement))
}
