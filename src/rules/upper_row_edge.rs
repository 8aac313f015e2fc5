//! # upper/row-edge
//!
//! Every row of an upper seam runs well inside the edges of the parts that it joins.
//!
//! ## At the bench
//!
//! A row too near to an edge tears out of it: the foot of the machine tips over the edge, the stitches wander, and the
//! first hard flex cuts from hole to hole. More rows than a lap can hold end on one part alone.
//!
//! ## Formula
//!
//! Row k of a lap lies at `first + (k - 1) * apart` from the top part's edge and at `wide` less that from the other's; of
//! a stay at the same from one edge and at its width less that from the other; of a closed seam at `allowance - (k - 1) *
//! apart` from the edge; of a gusset and a collar at `first + (k - 1) * apart`. The least of them `>= row-inside-edges`
//! of the house.
//!
//! ## Fails
//!
//! ```text
//! lap vamp over quarter { wide 16 mm;  rows 4 first 2 mm apart 4.5 mm }    # the fourth is 0.5 mm inside the quarter
//! ```
//!
//! ## Mended
//!
//! ```text
//! lap vamp over quarter { wide 16 mm;  rows 4 first 2 mm apart 4 mm }
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Build, UpperRow, UpperSeam};
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct UpperRowEdge;

impl Rule for UpperRowEdge {
    fn name(&self) -> &'static str {
        "upper/row-edge"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_row_edge.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let seams = build.upper.seams.iter();
        let of_seam = |seam: &UpperSeam| {
            judged(Subject::Seam(seam.name.clone()), &seam.rows, |rows| {
                let judgement = judge(build, seam, rows);
                judgement
                    .unwrap_or_else(|hole| Some(Judgement::lost(Subject::Seam(seam.name.clone()), hole)))
                    .into_iter()
                    .collect()
            })
        };
        seams.flat_map(of_seam).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let runs = if *sum < 0.0 {
            format!("{} mm outside", number(-sum, *margin))
        } else {
            format!("{} mm inside", number(*sum, *margin))
        };
        let message = format!(
            "a row runs {runs} the edge, the house wants {} mm inside: {} mm short",
            number(*limit, *margin),
            number(margin.abs(), *margin)
        );
        Words { message, help: vec!["bring the rows closer together, take one less, or widen the lap".to_owned()] }
    }
}

fn judge(build: &Build<'_>, seam: &UpperSeam, rows: &[UpperRow]) -> Result<Option<Judgement>, Hole> {
    let least = rows.iter().reduce(|a, b| if b.inside < a.inside { b } else { a });
    let Some(row) = least else { return Ok(None) };
    let (rule, rows) = (build.house.rule("row-inside-edges")?, seam.rows_origin.clone()?);
    let limit = rule.it.nominal();
    let mut judgement = Judgement::new(Subject::Seam(seam.name.clone()), row.inside, limit, row.inside - limit, "mm")
        .lever(rows, Moves::Down)
        .limit_at(rule.origin, "house rule: least distance of a row from an edge");
    judgement.place = Some(format!("row {}, at the edge of the {}", row.number, row.edge_of).into());
    Ok(Some(judgement))
}
