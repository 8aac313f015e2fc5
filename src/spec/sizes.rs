//! Runs of sizes: what a last is made in, what a model is made in.

use super::fields::{Field, hole_of};
use crate::finding::{FaultName, Finding};
use crate::language::{At, Hole, SizeRange, Value};
use crate::measure::{Exact, Size, System, Width};
use crate::source::Span;
use num_traits::ToPrimitive;

/// The most size-widths that one run may have.
pub const MAX_SIZES: usize = 10_000;

/// The sizes in which something is made: runs of numbers in a system, and widths.
#[derive(Clone, Debug)]
pub struct Made {
    /// The system.
    pub system: System,
    /// The runs.
    pub runs: Vec<At<SizeRange>>,
    /// The widths.
    pub widths: Vec<At<Width>>,
    /// The whole list of numbers.
    pub span: Span,
}

impl Made {
    pub(super) fn read(field: &Field<'_>, findings: &mut Vec<Finding>) -> Result<Made, Hole> {
        let value = field.value(0)?;
        let Value::Sizes(system, runs) = value.it else { return Err(field.lost()) };
        let widths = field.clause_widths("widths")?;
        for (n, width) in widths.iter().enumerate() {
            let name = width.it.name();
            if width.it.rank(system).is_none() {
                let message = format!("{} has no width {name}", system.name());
                let finding = Finding::fault(FaultName::SIZE_NOT_MADE, width.span, message);
                let has: Vec<&str> =
                    Width::ALL.iter().filter(|width| width.rank(system).is_some()).map(|width| width.name()).collect();
                return Err(report(finding.help(format!("its widths are {}", has.join(", "))), findings));
            }
            if widths[..n].iter().any(|known| known.it == width.it) {
                let finding = Finding::fault(FaultName::SIZE_TWICE, width.span, format!("width {name} stands twice"));
                return Err(report(finding.help("delete one of them"), findings));
            }
        }
        let made = Made { system, runs, widths, span: value.origin.span };
        let count = made.runs.iter().map(|run| steps(&run.it).saturating_add(1)).fold(0_usize, usize::saturating_add);
        let count = count.saturating_mul(made.widths.len());
        if count > MAX_SIZES {
            let message = format!("the run has more than {MAX_SIZES} size-widths");
            return Err(report(Finding::fault(FaultName::LIMIT_SIZES, made.span, message), findings));
        }
        Ok(made)
    }

    /// All numbers, smallest first, each with the place of its run.
    #[must_use]
    pub fn numbers(&self) -> Vec<At<Exact>> {
        let mut numbers: Vec<At<Exact>> = self.runs.iter().flat_map(numbers_of).collect();
        numbers.sort_by(|a, b| a.it.cmp(&b.it).then(a.span.cmp(&b.span)));
        numbers
    }

    /// Whether a number is in one of the runs.
    #[must_use]
    pub fn has_number(&self, number: Exact) -> bool {
        self.runs.iter().any(|At { it: run, .. }| {
            run.from <= number && number <= run.to && ((number - run.from) / run.by).is_integer()
        })
    }

    /// Whether a width is made.
    #[must_use]
    pub fn has_width(&self, width: Width) -> bool {
        self.widths.iter().any(|known| known.it == width)
    }

    /// All size-widths: numbers ascending, widths from the narrowest.
    #[must_use]
    pub fn sizes(&self) -> Vec<Size> {
        let mut widths: Vec<Width> = self.widths.iter().map(|width| width.it).collect();
        widths.sort_by_key(|width| width.rank(self.system));
        let system = self.system;
        self.numbers()
            .iter()
            .flat_map(|number| widths.iter().map(|width| Size { system, number: number.it, width: *width }))
            .collect()
    }

    /// The sizes of a model's run, checked against doubles and against what its last is made in.
    pub(super) fn on(&self, last: &Made, last_name: &str, findings: &mut Vec<Finding>) -> Result<Vec<Size>, Hole> {
        if let Some(fault) = self.fault_on(last, last_name) {
            return Err(report(fault, findings));
        }
        Ok(self.sizes())
    }

    fn fault_on(&self, last: &Made, last_name: &str) -> Option<Finding> {
        if self.system != last.system {
            let message =
                format!("the last `{last_name}` is made in {}, not in {}", last.system.name(), self.system.name());
            return Some(Finding::fault(FaultName::SIZE_NOT_MADE, self.span, message).also(last.span, "made in these"));
        }
        let numbers = self.numbers();
        if let Some(pair) = numbers.windows(2).find(|pair| pair[0].it == pair[1].it) {
            let message = format!("size {} stands twice in the run", Size::number_text(pair[1].it));
            return Some(Finding::fault(FaultName::SIZE_TWICE, pair[1].span, message).help("delete one of them"));
        }
        let lacking: Vec<&At<Exact>> = numbers.iter().filter(|number| !last.has_number(number.it)).collect();
        if let Some(first) = lacking.first() {
            let shown: Vec<String> = lacking.iter().take(6).map(|number| Size::number_text(number.it)).collect();
            let more = if lacking.len() > 6 { " and more" } else { "" };
            let sizes = if lacking.len() > 1 { "sizes" } else { "size" };
            let message = format!("the last `{last_name}` is not made in {sizes} {}{more}", shown.join(", "));
            let finding = Finding::fault(FaultName::SIZE_NOT_MADE, first.span, message);
            return Some(
                finding.also(last.span, "made in these").help("leave them out, or have the last made in them"),
            );
        }
        let width = self.widths.iter().find(|width| !last.has_width(width.it))?;
        let message = format!("the last `{last_name}` is not made in width {}", width.it.name());
        Some(Finding::fault(FaultName::SIZE_NOT_MADE, width.span, message).also(last.span, "made in these"))
    }
}

fn report(finding: Finding, findings: &mut Vec<Finding>) -> Hole {
    let hole = hole_of(&finding, Span { source: crate::source::SourceId(0), start: 0, end: 0 });
    findings.push(finding);
    hole
}

fn steps(run: &SizeRange) -> usize {
    ((run.to - run.from) / run.by).to_integer().to_usize().unwrap_or(usize::MAX)
}

fn numbers_of(run: &At<SizeRange>) -> impl Iterator<Item = At<Exact>> + '_ {
    let count = steps(&run.it).min(MAX_SIZES);
    let step = move |n: usize| run.it.from + run.it.by * Exact::from_integer(i128::try_from(n).unwrap_or(0));
    (0..=count).map(move |n| At { it: step(n), span: run.span })
}
