//! A sum is a list of terms, never a bare number.

use super::piece::{Piece, Variation};
use crate::measure::{Spread, share_above};
use crate::source::Origin;

/// One summand: `coefficient * spread`, from a source of variation.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// What it is.
    pub what: Piece,
    /// How often it counts, and with which sign.
    pub coefficient: f64,
    /// The value, in the unit of the sum.
    pub spread: Spread,
    /// Terms of one source vary together; `None` varies with nothing.
    pub source: Option<Variation>,
    /// Where it was written.
    pub origin: Origin,
    /// Where its tolerance was written, if that is another place.
    pub tolerance: Option<Origin>,
}

impl Term {
    /// An amount that counts once and varies with nothing.
    #[must_use]
    pub fn fixed(what: impl Into<Piece>, value: f64, origin: &Origin) -> Self {
        Self {
            what: what.into(),
            coefficient: 1.0,
            spread: Spread::exactly(value),
            source: None,
            origin: origin.clone(),
            tolerance: None,
        }
    }

    /// What the term adds at nominal.
    #[must_use]
    pub fn nominal(&self) -> f64 {
        self.coefficient * self.spread.nominal
    }

    fn swing(&self) -> f64 {
        self.coefficient * self.spread.half()
    }
}

/// A sum of terms. Worst case, share and derivation all read the same terms.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sum {
    /// The terms, in the order in which they are shown.
    pub terms: Vec<Term>,
}

impl Sum {
    /// An empty sum.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// With a term more.
    #[must_use]
    pub fn plus(mut self, term: Term) -> Self {
        self.terms.push(term);
        self
    }

    /// The sum and all terms of another.
    #[must_use]
    pub fn plus_all(mut self, other: Sum) -> Self {
        self.terms.extend(other.terms);
        self
    }

    /// The sum less all terms of another.
    #[must_use]
    pub fn less(mut self, other: &Sum) -> Self {
        self.terms.extend(other.terms.iter().cloned().map(|term| Term { coefficient: -term.coefficient, ..term }));
        self
    }

    /// The same sum without pieces that stand on both sides of the subtraction and cancel.
    #[must_use]
    pub fn settled(&self) -> Sum {
        let same = |a: &Term, b: &Term| a.source.is_some() && a.source == b.source && a.spread == b.spread;
        let mut terms: Vec<Term> = Vec::new();
        for term in &self.terms {
            let other = terms
                .iter()
                .position(|known| same(known, term) && (known.coefficient + term.coefficient).abs() < 1e-12);
            match other {
                Some(at) => {
                    terms.remove(at);
                }
                None => terms.push(term.clone()),
            }
        }
        Sum { terms }
    }

    /// The sum of the nominals.
    #[must_use]
    pub fn nominal(&self) -> f64 {
        self.terms.iter().map(Term::nominal).sum()
    }

    /// Half spreads by source: terms of one source add with their signs (so a piece on both sides of a
    /// subtraction cancels, tolerance included), different sources stay apart.
    fn swings(&self) -> Vec<f64> {
        let mut by_source: Vec<(&Variation, f64)> = Vec::new();
        let mut swings = Vec::new();
        for term in &self.terms {
            match &term.source {
                None => swings.push(term.swing()),
                Some(source) => match by_source.iter_mut().find(|(known, _)| *known == source) {
                    Some((_, swing)) => *swing += term.swing(),
                    None => by_source.push((source, term.swing())),
                },
            }
        }
        swings.extend(by_source.into_iter().map(|(_, swing)| swing));
        swings
    }

    /// Worst case both ways: sources add linearly.
    #[must_use]
    pub fn spread(&self) -> Spread {
        Spread::around(self.nominal(), self.swings().iter().map(|swing| swing.abs()).sum())
    }

    /// Standard deviation: sources add by squares, each with a sigma of a third of its half spread.
    #[must_use]
    pub fn sigma(&self) -> f64 {
        self.swings().iter().map(|swing| (swing / 3.0).powi(2)).sum::<f64>().sqrt()
    }

    /// The estimated share of boots in which the sum exceeds `limit`.
    #[must_use]
    pub fn share_above(&self, limit: f64) -> f64 {
        share_above(self.nominal(), self.sigma(), limit)
    }
}
