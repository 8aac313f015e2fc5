//! Stages of nailing: what each nails, and how tall the base is where a nail stands.

use super::Around;
use super::ring::Stand;
use crate::build::Built;
use crate::build::amounts::{maybe, mm, of};
use crate::build::heel::{BaseOf, base_of};
use crate::finding::{Sum, Term};
use crate::measure::Spread;
use crate::spec::{ByPlace, HeelNails, Val};

/// A stage: its number, what it nails, what is nailed when it is done, and what is stated for it.
pub(super) struct Stage<'s> {
    pub number: Option<u32>,
    pub own: Base,
    pub so_far: Base,
    pub first: bool,
    pub sunk: f64,
    pub lengths: Option<&'s Val<ByPlace>>,
    pub across: u32,
    /// Radians.
    pub leans: f64,
}

/// A base, or the part of it that a stage nails, as built and before it is levelled.
#[derive(Clone, Copy, Debug)]
pub(super) struct Base {
    of: BaseOf,
    at_the_back: Spread,
    /// What the wedges in it take over the whole heel, and the heel's length.
    taken: f64,
    length: f64,
}

impl Base {
    fn of(around: &Around<'_>, of: BaseOf) -> Built<Self> {
        let taken = if of.wedges > 0 { around.built.drop - around.built.drop_left } else { 0.0 };
        let at_the_back = base_of(around.heel, around.house, of)?.spread();
        Ok(Self { of, at_the_back, taken, length: around.built.length })
    }

    /// Its height at a place along the heel, mm: at the back less what the wedges take to there.
    pub fn at(&self, x: f64) -> Spread {
        let less = self.taken * x / self.length;
        let Spread { lo, nominal, hi } = self.at_the_back;
        Spread { lo: lo - less, nominal: nominal - less, hi: hi - less }
    }

    /// Where it is worst for a nail, at its head or at its point: `f64::min` picks the lower base, `f64::max` the higher.
    pub fn worst(&self, stand: &Stand, pick: fn(f64, f64) -> f64) -> f64 {
        let (head, point) = (stand.head.x, stand.point.x);
        let height = pick(self.at(head).nominal, self.at(point).nominal);
        if self.at(head).nominal.total_cmp(&height).is_eq() { head } else { point }
    }

    /// The same as terms.
    pub fn sum(&self, around: &Around<'_>, x: f64) -> Built<Sum> {
        let sum = base_of(around.heel, around.house, self.of)?;
        if self.of.wedges == 0 {
            return Ok(sum);
        }
        let last = &of(&around.model.last)?.it;
        let taken = Term::fixed("taken by the wedges", self.taken * x / self.length, &of(&last.slope)?.origin);
        Ok(sum.less(&Sum::new().plus(taken)))
    }
}

/// The stages in their order; a base that is nailed at once is one.
pub(super) fn stages<'s>(
    around: &Around<'_>,
    nails: &'s HeelNails,
    lengths: Option<&'s Val<ByPlace>>,
    sink: f64,
) -> Built<Vec<Stage<'s>>> {
    let count = |value: Option<&Val<u32>>| value.map_or(Ok(0), |count| of(count).map(|count| count.it));
    let lean = |value: Option<&Val<_>>| maybe(value).map(|degrees: Option<f64>| degrees.unwrap_or(0.0).to_radians());
    let whole = BaseOf::whole(around.heel)?;
    if nails.stages.is_empty() {
        let (across, leans) = (count(nails.across.as_ref())?, lean(nails.leans.as_ref())?);
        let own = Base::of(around, whole)?;
        return Ok(vec![Stage { number: None, own, so_far: own, first: true, sunk: sink, lengths, across, leans }]);
    }
    let between = mm(&around.house.rule("stage-sink"))?;
    let mut so_far = BaseOf::default();
    let mut stages = Vec::new();
    for (n, stage) in nails.stages.iter().enumerate() {
        let last = n + 1 == nails.stages.len();
        let own = BaseOf {
            wedges: if stage.wedges { whole.wedges } else { 0 },
            lifts: count(stage.lifts.as_ref())?,
            // Thin lifts bring the height to its gauge: they come last.
            thin: if last { whole.thin } else { 0 },
        };
        so_far = so_far.with(own);
        stages.push(Stage {
            number: Some(of(&stage.number)?.it),
            own: Base::of(around, own)?,
            so_far: Base::of(around, so_far)?,
            first: n == 0,
            sunk: if last { sink } else { between },
            lengths: stage.lengths.as_ref(),
            across: count(stage.across.as_ref().or(nails.across.as_ref().filter(|_| n == 0)))?,
            leans: lean(stage.leans.as_ref().or(nails.leans.as_ref()))?,
        });
    }
    Ok(stages)
}
