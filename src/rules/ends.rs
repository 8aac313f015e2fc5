//! Sums held against a limit: the nominal refuses, an end of the spread makes it tight; or the worst end decides.

use super::judgement::{Judgement, Verdict};
use crate::finding::{Subject, Sum};
use crate::measure::{fits, share_below};

/// A sum that may be at most `limit`.
pub(super) fn at_most(subject: Subject, sum: &Sum, limit: f64) -> Judgement {
    let (nominal, hi) = (sum.nominal(), sum.spread().hi);
    let shown = if fits(nominal, limit) { hi } else { nominal };
    let mut judgement = Judgement::new(subject, shown, limit, limit - shown, "mm");
    if fits(nominal, limit) && !fits(hi, limit) {
        judgement.verdict = Verdict::Tight(sum.share_above(limit));
    }
    judgement.terms = sum.clone();
    judgement
}

/// A sum that must be at least `limit`.
pub(super) fn at_least(subject: Subject, sum: &Sum, limit: f64) -> Judgement {
    let (nominal, lo) = (sum.nominal(), sum.spread().lo);
    let shown = if fits(limit, nominal) { lo } else { nominal };
    let mut judgement = Judgement::new(subject, shown, limit, shown - limit, "mm");
    if fits(limit, nominal) && !fits(limit, lo) {
        judgement.verdict = Verdict::Tight(share_below(nominal, sum.sigma(), limit));
    }
    judgement.terms = sum.clone();
    judgement
}

/// A sum whose thin end must be at least `limit`: the worst case decides.
pub(super) fn thin_end(subject: Subject, sum: &Sum, limit: f64) -> Judgement {
    let lo = sum.spread().lo;
    Judgement { terms: sum.clone(), ..Judgement::new(subject, lo, limit, lo - limit, "mm") }
}

/// A sum whose thick end may be at most `limit`: the worst case decides.
pub(super) fn thick_end(subject: Subject, sum: &Sum, limit: f64) -> Judgement {
    let hi = sum.spread().hi;
    Judgement { terms: sum.clone(), ..Judgement::new(subject, hi, limit, limit - hi, "mm") }
}

/// ` at the thick end` where only that fails.
pub(super) fn at_end(judgement: &Judgement, end: &str) -> String {
    if matches!(judgement.verdict, Verdict::Tight(_)) { format!(" at the {end} end") } else { String::new() }
}
