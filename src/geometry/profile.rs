//! Distances that change along the centre line.

use std::fmt;

/// A distance in mm that is linear in `x` between stated places and constant before the first and past the last.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    knots: Vec<(f64, f64)>,
}

/// What is wrong with the knots of a profile.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProfileFault {
    /// There is no knot.
    Empty,
    /// The knot of this index has a number that is not finite.
    NotFinite(usize),
    /// The knot of this index doesn't lie toeward of the one before.
    OutOfOrder(usize),
}

impl fmt::Display for ProfileFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "a profile needs a knot"),
            Self::NotFinite(i) => write!(f, "knot {i} of the profile is not a finite number"),
            Self::OutOfOrder(i) => write!(f, "knot {i} of the profile must lie toeward of the one before"),
        }
    }
}

impl std::error::Error for ProfileFault {}

impl Profile {
    /// A profile through `knots`: pairs of `x` and distance, mm, with `x` strictly ascending.
    ///
    /// # Errors
    ///
    /// The first [`ProfileFault`].
    pub fn new(knots: Vec<(f64, f64)>) -> Result<Self, ProfileFault> {
        if knots.is_empty() {
            return Err(ProfileFault::Empty);
        }
        if let Some(i) = knots.iter().position(|&(x, d)| !(x.is_finite() && d.is_finite())) {
            return Err(ProfileFault::NotFinite(i));
        }
        if let Some(i) = (1..knots.len()).find(|&i| knots[i].0 <= knots[i - 1].0) {
            return Err(ProfileFault::OutOfOrder(i));
        }
        Ok(Self { knots })
    }

    /// The same `distance`, mm, everywhere.
    #[must_use]
    pub fn constant(distance: f64) -> Self {
        Self { knots: vec![(0.0, distance)] }
    }

    /// The distance at `x`, mm.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        let (value, slope) = self.line_at(x);
        value + slope * x
    }

    /// The places where the distance changes its slope, ascending, mm.
    pub(super) fn places(&self) -> impl Iterator<Item = f64> + '_ {
        let places = if self.knots.len() > 1 { &self.knots[..] } else { &[] };
        places.iter().map(|&(x, _)| x)
    }

    /// The straight line that the profile follows at `x`: its value at 0 and its slope.
    pub(super) fn line_at(&self, x: f64) -> (f64, f64) {
        let next = self.knots.partition_point(|&(knot, _)| knot <= x);
        if next == 0 {
            return (self.knots[0].1, 0.0);
        }
        let (x0, d0) = self.knots[next - 1];
        let Some(&(x1, d1)) = self.knots.get(next) else {
            return (d0, 0.0);
        };
        let slope = (d1 - d0) / (x1 - x0);
        (d0 - slope * x0, slope)
    }
}

/// The distance of a rail from its feather curve, by side, from the `x` of the normal's foot.
#[derive(Clone, Debug, PartialEq)]
pub struct Distance {
    /// Heel to toe.
    pub outside: Profile,
    /// Toe to heel.
    pub inside: Profile,
}

impl Distance {
    /// The same `distance`, mm, all round.
    #[must_use]
    pub fn constant(distance: f64) -> Self {
        Self { outside: Profile::constant(distance), inside: Profile::constant(distance) }
    }
}

#[cfg(test)]
mod tests {
    use super::{Profile, ProfileFault};

    #[test]
    fn linear_between_and_constant_beyond() {
        let profile = Profile::new(vec![(30.0, 4.0), (55.0, 11.0)]).expect("ascending");
        for (x, d) in [(0.0, 4.0), (30.0, 4.0), (42.5, 7.5), (55.0, 11.0), (300.0, 11.0)] {
            assert!((profile.at(x) - d).abs() < 1e-12, "at {x}");
        }
    }

    #[test]
    fn faults_name_the_knot() {
        assert_eq!(Profile::new(vec![]), Err(ProfileFault::Empty));
        assert_eq!(Profile::new(vec![(0.0, 1.0), (0.0, 2.0)]), Err(ProfileFault::OutOfOrder(1)));
        assert_eq!(Profile::new(vec![(0.0, f64::NAN)]), Err(ProfileFault::NotFinite(0)));
    }
}
