//! One row of an upper seam: where it runs, what it goes through, what is left of each part there.

use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::finding::{SeamName, Sum};
use crate::measure::Amount;
use crate::source::Origin;
use crate::spec::{House, Stitching, Val};
use std::fmt;
use std::sync::Arc;

/// What a skive leaves of a part under a row.
#[derive(Clone, Debug)]
pub struct Left {
    /// The part.
    pub part: Arc<str>,
    /// Its thickness there.
    pub sum: Sum,
}

/// Whose edge a row is nearest to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EdgeOf {
    /// A part.
    Part(Arc<str>),
    /// A closed seam's allowance.
    Allowance,
}

impl EdgeOf {
    /// The edge of a part.
    pub(super) fn part(name: &str) -> Self {
        EdgeOf::Part(name.into())
    }
}

impl fmt::Display for EdgeOf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            EdgeOf::Part(name) => f.write_str(name),
            EdgeOf::Allowance => f.write_str("allowance"),
        }
    }
}

/// A row.
#[derive(Clone, Debug)]
pub struct UpperRow {
    /// Counted from the edge that rows are measured from, from 1.
    pub number: u32,
    /// From that edge, mm.
    pub place: f64,
    /// The least distance to an edge of a part, mm; negative outside it.
    pub inside: f64,
    /// Whose edge that is.
    pub edge_of: EdgeOf,
    /// What the needle goes through.
    pub stack: Sum,
    /// What is left of the parts that are thinned under it.
    pub left: Vec<Left>,
}

impl UpperRow {
    /// A row along which nothing is thinned.
    pub(super) fn plain(number: u32, place: f64, inside: f64, edge_of: &EdgeOf, stack: &Sum) -> Self {
        Self { number, place, inside, edge_of: edge_of.clone(), stack: stack.clone(), left: Vec::new() }
    }
}

/// A seam of the upper with its rows.
#[derive(Clone, Debug)]
pub struct UpperSeam {
    /// As the machine's settings name it.
    pub name: SeamName,
    /// Its rows, the first first.
    pub rows: Built<Vec<UpperRow>>,
    /// The tallest stack that its machine sews, mm.
    pub sews: Built<(f64, Origin)>,
    /// Where its machine was named.
    pub machine_origin: Built<Origin>,
    /// Where its rows were written.
    pub rows_origin: Built<Origin>,
}

impl UpperSeam {
    pub(super) fn new(name: SeamName, stitching: &Stitching, rows: Built<Vec<UpperRow>>) -> Self {
        let sews = of(&stitching.on).and_then(|machine| of(&machine.it.sews));
        Self {
            name,
            rows,
            sews: sews.map(|sews| (sews.it.nominal(), sews.origin.clone())),
            machine_origin: of(&stitching.on).map(|machine| machine.origin.clone()),
            rows_origin: of(&stitching.rows).map(|rows| rows.origin.clone()),
        }
    }

    /// The row whose sum is greatest by `of`; of equal ones the first.
    #[must_use]
    pub fn thickest(rows: &[UpperRow], of: impl Fn(&Sum) -> f64) -> Option<&UpperRow> {
        rows.iter().rev().max_by(|a, b| of(&a.stack).total_cmp(&of(&b.stack)))
    }
}

/// Where the rows of a stitching run, from the edge: `first + (k - 1) * apart`. What is not said is the house's distance of
/// a row from an edge.
pub(super) fn places(stitching: &Stitching, house: &House) -> Built<Vec<f64>> {
    let stated = |value: &Option<Val<Amount>>| value.as_ref().map_or_else(|| mm(&house.rule("row-inside-edges")), mm);
    let (first, apart) = (stated(&stitching.first)?, stated(&stitching.apart)?);
    Ok((0..of(&stitching.rows)?.it).map(|k| first + f64::from(k) * apart).collect())
}

/// Rows numbered from 1.
pub(super) fn numbered(places: &[f64], row: impl Fn(u32, f64) -> UpperRow) -> Vec<UpperRow> {
    (1..).zip(places).map(|(number, place)| row(number, *place)).collect()
}
