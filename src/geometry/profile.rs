//! Distances that change along the centre line.

use std::fmt;

/// Places of two profiles nearer than this, mm, are one.
const SAME_PLACE: f64 = 1e-9;

/// A distance in mm that changes between stated places, and is constant before the first and past the last.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// The first holds up to where the second begins, each other one from where it begins.
    courses: Vec<Course>,
}

/// A stretch of a profile: a cubic in the mm from its start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Course {
    from: f64,
    /// The distance at the start, and the factors of the way from there, its square and its cube.
    powers: [f64; 4],
}

impl Course {
    pub(super) const fn level(from: f64, distance: f64) -> Self {
        Self { from, powers: [distance, 0.0, 0.0, 0.0] }
    }

    /// From one knot to the next in a straight line.
    fn straight((x0, d0): (f64, f64), (x1, d1): (f64, f64)) -> Self {
        Self { from: x0, powers: [d0, (d1 - d0) / (x1 - x0), 0.0, 0.0] }
    }

    /// From one knot to the next by the fair step `3 u² - 2 u³`, which sets out level and arrives level.
    fn fair((x0, d0): (f64, f64), (x1, d1): (f64, f64)) -> Self {
        let (way, change) = (x1 - x0, d1 - d0);
        Self { from: x0, powers: [d0, 0.0, 3.0 * change / (way * way), -2.0 * change / (way * way * way)] }
    }

    /// The distance at `x`, mm.
    #[inline]
    pub(super) fn at(&self, x: f64) -> f64 {
        let ([d, first, second, third], h) = (self.powers, x - self.from);
        d + h * (first + h * (second + h * third))
    }

    /// Its change for each mm along the centre line.
    #[inline]
    pub(super) fn slope(&self, x: f64) -> f64 {
        let ([_, first, second, third], h) = (self.powers, x - self.from);
        first + h * (2.0 * second + h * 3.0 * third)
    }

    /// Whether the distance is the same all along.
    #[inline]
    pub(super) fn is_level(&self) -> bool {
        self.powers[1] == 0.0 && self.powers[2] == 0.0 && self.powers[3] == 0.0
    }

    /// The distance where it starts; all along if it is level.
    #[inline]
    pub(super) fn start(&self) -> f64 {
        self.powers[0]
    }

    /// The same course `added` mm farther out.
    pub(super) fn farther(mut self, added: f64) -> Self {
        self.powers[0] += added;
        self
    }

    /// The distance is surely within these two from `low` to `high` along the centre line, mm.
    pub(super) fn bounds(&self, low: f64, high: f64) -> (f64, f64) {
        if self.is_level() {
            return (self.start(), self.start());
        }
        // As a cubic from one to the other: its control points hold it.
        let (start, end, third) = (self.at(low), self.at(high), (high - low) / 3.0);
        let controls = [start + self.slope(low) * third, end - self.slope(high) * third, end];
        controls.iter().fold((start, start), |(least, most), &d| (least.min(d), most.max(d)))
    }

    /// The powers of the same course from `x`.
    fn about(&self, x: f64) -> [f64; 4] {
        let ([_, _, second, third], h) = (self.powers, x - self.from);
        [self.at(x), self.slope(x), second + 3.0 * third * h, third]
    }
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
    /// A profile through `knots`, pairs of `x` and distance, mm, with `x` strictly ascending: straight from one to the next.
    ///
    /// # Errors
    ///
    /// The first [`ProfileFault`].
    pub fn new(knots: &[(f64, f64)]) -> Result<Self, ProfileFault> {
        Self::through(knots, Course::straight)
    }

    /// A profile through `knots` that goes from one to the next by the fair step `3 u² - 2 u³`: it has no corner.
    ///
    /// # Errors
    ///
    /// The first [`ProfileFault`].
    pub fn fair(knots: &[(f64, f64)]) -> Result<Self, ProfileFault> {
        Self::through(knots, Course::fair)
    }

    fn through(knots: &[(f64, f64)], course: impl Fn((f64, f64), (f64, f64)) -> Course) -> Result<Self, ProfileFault> {
        let (Some(&first), Some(&last)) = (knots.first(), knots.last()) else { return Err(ProfileFault::Empty) };
        if let Some(i) = knots.iter().position(|&(x, d)| !(x.is_finite() && d.is_finite())) {
            return Err(ProfileFault::NotFinite(i));
        }
        if let Some(i) = (1..knots.len()).find(|&i| knots[i].0 <= knots[i - 1].0) {
            return Err(ProfileFault::OutOfOrder(i));
        }
        let mut courses = vec![Course::level(first.0, first.1)];
        courses.extend(knots.windows(2).map(|ends| course(ends[0], ends[1])));
        if knots.len() > 1 {
            courses.push(Course::level(last.0, last.1));
        }
        Ok(Self { courses })
    }

    /// The same `distance`, mm, everywhere.
    #[must_use]
    pub fn constant(distance: f64) -> Self {
        Self { courses: vec![Course::level(0.0, distance)] }
    }

    /// The sum of both.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        let mut places: Vec<f64> = self.places().chain(other.places()).collect();
        places.sort_by(f64::total_cmp);
        places.dedup_by(|later, earlier| *later - *earlier < SAME_PLACE);
        // Courses are looked up inside a stretch, where a place that was dropped has been passed.
        let both = |inside: f64, from: f64| {
            let (a, b) = (self.course_at(inside).about(from), other.course_at(inside).about(from));
            Course { from, powers: [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]] }
        };
        let first = places.first().copied().unwrap_or(0.0);
        let nexts = places.iter().skip(1).copied().chain([f64::INFINITY]);
        let later = places.iter().zip(nexts).map(|(&from, next)| both(from + 0.5 * (next - from).min(1.0), from));
        Self { courses: std::iter::once(both(first - 1.0, first)).chain(later).collect() }
    }

    /// The distance at `x`, mm.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        self.course_at(x).at(x)
    }

    /// The places where the distance begins another course, ascending, mm.
    pub(super) fn places(&self) -> impl Iterator<Item = f64> + '_ {
        self.courses[1..].iter().map(|course| course.from)
    }

    /// The course that the profile follows at `x`.
    pub(super) fn course_at(&self, x: f64) -> &Course {
        &self.courses[self.courses[1..].partition_point(|course| course.from <= x)]
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
        let profile = Profile::new(&[(30.0, 4.0), (55.0, 11.0)]).expect("ascending");
        for (x, d) in [(0.0, 4.0), (30.0, 4.0), (42.5, 7.5), (55.0, 11.0), (300.0, 11.0)] {
            assert!((profile.at(x) - d).abs() < 1e-12, "at {x}");
        }
    }

    #[test]
    fn a_fair_step_sets_out_and_arrives_level() {
        let profile = Profile::fair(&[(30.0, 4.0), (55.0, 11.0)]).expect("ascending");
        // 3 u² - 2 u³ is 5/32 at a quarter of the way, 1/2 at half and 27/32 at three quarters.
        let stepped = [(36.25, 4.0 + 7.0 * 5.0 / 32.0), (42.5, 7.5), (48.75, 4.0 + 7.0 * 27.0 / 32.0)];
        for (x, d) in stepped.into_iter().chain([(0.0, 4.0), (30.0, 4.0), (55.0, 11.0), (300.0, 11.0)]) {
            assert!((profile.at(x) - d).abs() < 1e-12, "at {x}");
        }
        for x in [30.0, 55.0] {
            let slope = (profile.at(x + 1e-6) - profile.at(x - 1e-6)) / 2e-6;
            assert!(slope.abs() < 1e-6, "{slope} at {x}");
        }
    }

    #[test]
    fn a_sum_is_the_sum_at_every_place() {
        let one = Profile::fair(&[(30.0, 4.0), (55.0, 11.0), (80.0, 9.0)]).expect("ascending");
        let other = Profile::new(&[(20.0, 0.0), (55.0 + 4e-10, -2.0), (60.0, 1.0)]).expect("ascending");
        let sum = one.plus(&other);
        for i in 0..1000 {
            let x = f64::from(i) * 0.1;
            assert!((sum.at(x) - one.at(x) - other.at(x)).abs() < 1e-8, "at {x}");
        }
        assert!((Profile::constant(3.0).plus(&Profile::constant(4.0)).at(17.0) - 7.0).abs() < 1e-15);
    }

    #[test]
    fn faults_name_the_knot() {
        assert_eq!(Profile::new(&[]), Err(ProfileFault::Empty));
        assert_eq!(Profile::new(&[(0.0, 1.0), (0.0, 2.0)]), Err(ProfileFault::OutOfOrder(1)));
        assert_eq!(Profile::fair(&[(0.0, f64::NAN)]), Err(ProfileFault::NotFinite(0)));
    }
}
