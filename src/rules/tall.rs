//! What the rules on stacks that may be too tall share.

use super::judgement::{Judgement, Verdict};
use super::words::number;
use crate::finding::{Subject, Sum};
use crate::measure::fits;

/// Judges the sums where the nominal and where the thick end are greatest: refused if the nominal fails, tight if only
/// the thick end does.
pub(super) fn judge(subject: Subject, (nominal, thick): (&Sum, &Sum), limit: f64) -> Judgement {
    let refused = !fits(nominal.nominal(), limit);
    let (sum, terms) = if refused { (nominal.nominal(), nominal) } else { (thick.spread().hi, thick) };
    let mut judgement = Judgement::new(subject, sum, limit, limit - sum, "mm");
    if !refused && !fits(sum, limit) {
        judgement.verdict = Verdict::Tight(thick.share_above(limit));
    }
    judgement.terms = terms.clone();
    judgement
}

/// `the stack is 22.77 mm where the stitcher sews 19 mm: 3.77 mm too tall`
pub(super) fn words(judgement: &Judgement, what: &str, takes: &str, too: &str) -> String {
    let Judgement { sum, limit, margin, .. } = judgement;
    let end = if judgement.verdict == Verdict::Refused { "" } else { "at the thick end " };
    format!(
        "{what} is {end}{} mm where {takes} {} mm: {} mm {too}",
        number(*sum, *margin),
        number(*limit, *margin),
        number(margin.abs(), *margin),
    )
}
