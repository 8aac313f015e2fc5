//! A value as written in a slot: exact, a range or toleranced, with its units.

use super::exact::{Exact, to_f64};
use super::number::Number;
use super::spread::{Spread, Window};
use super::unit::{Kind, Unit};
use num_traits::{Signed, Zero};

/// One number with its unit; `None` is a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quantity {
    /// The number as written.
    pub number: Number,
    /// The unit as written.
    pub unit: Option<Unit>,
}

impl Quantity {
    /// The value in the base unit of `kind` (stitches per inch for a pitch written in mm).
    #[must_use]
    pub fn base(&self, kind: Kind) -> Exact {
        let Some(unit) = self.unit else { return self.number.value };
        if kind == Kind::Pitch && unit == Unit::Mm {
            // A stitch of no length has no pitch; the slot refuses it before it gets here.
            let length = self.number.value;
            return if length.is_zero() { Exact::zero() } else { Unit::Inch.factor() / length };
        }
        self.number.value * unit.factor()
    }
}

/// The three shapes that a value can be written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shape {
    /// `12 mm`
    Exact(Quantity),
    /// `2.4..2.8 mm`
    Range(Quantity, Quantity),
    /// `12 iron +- 0.5 iron`; the tolerance may be in % of the nominal.
    Toleranced(Quantity, Quantity),
}

/// A value of a known kind, as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    /// What it measures.
    pub kind: Kind,
    /// How it was written.
    pub shape: Shape,
    /// The ends as floats: asked for by every sum of every size, and the exact ones take a while.
    spread: Spread,
}

/// An end is never `NaN`: it comes from a ratio.
impl Eq for Amount {}

/// Why a pair of ends makes no value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountFault {
    /// `7..6 oz`
    UpsideDown,
    /// `0.2 mm +- 0.5 mm`
    ToleranceTooLarge,
    /// A share above 100 %.
    OverHundred,
    /// A stitch length or thread size of zero.
    Zero,
}

impl Amount {
    /// Checks the ends against each other.
    ///
    /// # Errors
    /// A range upside down, a tolerance larger than its value, a share over 100 %, a pitch of 0.
    pub fn new(kind: Kind, shape: Shape) -> Result<Self, AmountFault> {
        let amount = Self::unchecked(kind, shape);
        if let Shape::Range(a, b) = shape
            && (a.number.value * a.unit.map_or(Exact::from_integer(1), Unit::factor))
                > (b.number.value * b.unit.map_or(Exact::from_integer(1), Unit::factor))
        {
            return Err(AmountFault::UpsideDown);
        }
        let (lo, _, hi) = amount.ends();
        if lo.is_negative() {
            return Err(AmountFault::ToleranceTooLarge);
        }
        if kind == Kind::Share && hi > Exact::from_integer(100) {
            return Err(AmountFault::OverHundred);
        }
        if matches!(kind, Kind::Pitch | Kind::ThreadSize | Kind::NeedleSize | Kind::Density) && lo.is_zero() {
            return Err(AmountFault::Zero);
        }
        Ok(amount)
    }

    /// A bare number.
    #[must_use]
    pub fn number(value: u32) -> Self {
        Self::unchecked(Kind::Number, Shape::Exact(Quantity { number: Number::whole(i64::from(value)), unit: None }))
    }

    fn unchecked(kind: Kind, shape: Shape) -> Self {
        let mut amount = Self { kind, shape, spread: Spread::exactly(0.0) };
        let (lo, nominal, hi) = amount.ends();
        amount.spread = Spread { lo: to_f64(lo), nominal: to_f64(nominal), hi: to_f64(hi) };
        amount
    }

    /// Lower end, nominal, upper end, exact, in the base unit of the kind.
    #[must_use]
    pub fn ends(&self) -> (Exact, Exact, Exact) {
        match self.shape {
            Shape::Exact(quantity) => {
                let value = quantity.base(self.kind);
                (value, value, value)
            }
            Shape::Range(a, b) => {
                let (a, b) = (a.base(self.kind), b.base(self.kind));
                let (lo, hi) = if a <= b { (a, b) } else { (b, a) };
                (lo, (lo + hi) / Exact::from_integer(2), hi)
            }
            Shape::Toleranced(value, tolerance) => {
                let nominal = value.base(self.kind);
                let half = if tolerance.unit == Some(Unit::Percent) && self.kind != Kind::Share {
                    nominal * tolerance.number.value / Exact::from_integer(100)
                } else {
                    tolerance.base(self.kind)
                };
                (nominal - half, nominal, nominal + half)
            }
        }
    }

    /// The nominal, exact, in the base unit.
    #[must_use]
    pub fn exact(&self) -> Exact {
        self.ends().1
    }

    /// The nominal as a float, in the base unit.
    #[must_use]
    pub fn nominal(&self) -> f64 {
        self.spread.nominal
    }

    /// The value as a spread (what is delivered).
    #[must_use]
    pub fn spread(&self) -> Spread {
        self.spread
    }

    /// The value as a window (what is allowed).
    #[must_use]
    pub fn window(&self) -> Window {
        Window { lo: self.spread.lo, hi: self.spread.hi }
    }
}
