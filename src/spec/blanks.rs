//! Blanks of outsoles and caps, by the sizes in which they are stocked.

use super::fields::{Field, Fields};
use super::value::Val;
use crate::finding::{FaultName, Finding};
use crate::language::{At, Hole, SizeRange, Value};
use crate::measure::{Amount, Exact, System};
use crate::source::Origin;

/// The measures of the blank of one size, and how they grow.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "each field is the clause of that word")]
pub struct BlankMeasured {
    pub measured: Val<Amount>,
    pub long: Val<Amount>,
    pub wide: Val<Amount>,
    pub longer: Val<Amount>,
    pub wider: Val<Amount>,
}

/// The blanks stocked.
#[derive(Clone, Debug)]
pub struct Blanks {
    /// The system of their sizes.
    pub system: System,
    /// The runs stocked.
    pub runs: Vec<At<SizeRange>>,
    /// How large they are, where that was measured.
    pub measured: Option<BlankMeasured>,
    /// Where they are written.
    pub origin: Origin,
}

impl Blanks {
    /// The smallest size stocked that is no smaller than `least`.
    #[must_use]
    pub fn from(&self, least: Exact) -> Option<Exact> {
        let next = |run: &At<SizeRange>| {
            let run = run.it;
            let steps = ((least - run.from) / run.by).ceil().max(Exact::from_integer(0));
            Some(run.from + steps * run.by).filter(|size| *size <= run.to)
        };
        self.runs.iter().filter_map(next).min()
    }

    /// The largest size stocked.
    #[must_use]
    pub fn largest(&self) -> Option<Exact> {
        let last = |run: &At<SizeRange>| run.it.from + ((run.it.to - run.it.from) / run.it.by).floor() * run.it.by;
        self.runs.iter().map(last).max()
    }
}

const MEASURES: [&str; 5] = ["measured", "long", "wide", "grade-length", "grade-breadth"];

pub(super) fn blanks(fields: &Fields<'_>, findings: &mut Vec<Finding>) -> Option<Result<Blanks, Hole>> {
    Some(read(&fields.get("blanks")?, findings))
}

fn read(field: &Field<'_>, findings: &mut Vec<Finding>) -> Result<Blanks, Hole> {
    let value = field.value(0)?;
    let Value::Sizes(system, runs) = value.it else { return Err(field.lost()) };
    Ok(Blanks { system, runs, measured: measured(field, findings)?, origin: value.origin })
}

/// All five measures or none.
fn measured(field: &Field<'_>, findings: &mut Vec<Finding>) -> Result<Option<BlankMeasured>, Hole> {
    let lacking: Vec<&str> = MEASURES.into_iter().filter(|word| !field.has_clause(word)).collect();
    if lacking.len() == MEASURES.len() {
        return Ok(None);
    }
    if !lacking.is_empty() {
        if field.force.statement.hole.is_some() {
            return Err(field.lost());
        }
        let span = field.force.statement.word;
        let message = format!("a measured blank also needs `{}`", lacking.join("`, `"));
        let finding = Finding::fault(FaultName::VALUE_MISSING, span, message);
        let hole = Hole { fault: finding.name, span };
        findings.push(finding.help("say all of `measured`, `long`, `wide`, `grade-length`, `grade-breadth`, or none"));
        return Err(hole);
    }
    let of = |word: &str| field.need_clause(word, 0);
    let (measured, long, wide) = (of("measured"), of("long"), of("wide"));
    Ok(Some(BlankMeasured { measured, long, wide, longer: of("grade-length"), wider: of("grade-breadth") }))
}
