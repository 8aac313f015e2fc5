//! What a machine leaves for the outsole under everything that lies above it.

use super::{Lying, Peak, layer_of};
use crate::build::Built;
use crate::build::amounts::of;
use crate::finding::{Sum, Term, Variation};
use crate::spec::{Outsole, Role, Val};
use std::sync::Arc;

/// Room for base and lugs of an outsole together.
#[derive(Clone, Debug)]
pub struct Room {
    /// What lies above it where the whole stack is greatest at its thick end.
    pub above: Sum,
    /// The lap that lies there, if one does.
    pub lap: Option<Arc<str>>,
    /// The thickest outsole at its own thick end, with everything above at its thick end, mm; negative if that is too much
    /// already.
    pub passes: f64,
    /// The same with everything at nominal, mm.
    pub nominal: f64,
}

impl Lying {
    /// What a machine that sews `sews` mm leaves for the outsole: `sews` less the terms of all else. A channel in the tread,
    /// which belongs to the outsole, is left out.
    #[must_use]
    pub fn room_for_outsole(&self, sews: f64) -> Room {
        let above = |peak: &Peak| Sum { terms: peak.sum.terms.iter().filter(|it| !of_outsole(it)).cloned().collect() };
        let hi = above(&self.hi);
        Room {
            lap: self.hi.lap.clone(),
            passes: sews - hi.spread().hi,
            nominal: sews - above(&self.nominal).nominal(),
            above: hi,
        }
    }
}

/// Whether a term is the outsole's: its base, its lugs, or what a channel takes away of them.
fn of_outsole(term: &Term) -> bool {
    layer_of(term) == Some(Role::Outsole) || term.source == Some(Variation::Channel)
}

/// Base and lugs of a stocked outsole together, mm: nominal, and at the thick end.
///
/// # Errors
/// The hole of a fault in what the stock says of it.
pub fn outsole_thick(outsole: &Outsole) -> Built<(f64, f64)> {
    let ends = |amount: &Val<_>| of(amount).map(|it: &crate::spec::Valued<crate::measure::Amount>| it.it.spread());
    let mut all = vec![ends(&outsole.base)?];
    all.extend(outsole.lug.as_ref().map(ends).transpose()?);
    Ok((all.iter().map(|it| it.nominal).sum(), all.iter().map(|it| it.hi).sum()))
}
