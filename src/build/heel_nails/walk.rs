//! How far a nail must go until it holds: past what holds nothing, and then into leather.

use crate::build::bed::Lain;
use crate::measure::{Spread, fits};

/// One thing that a nail goes through.
#[derive(Clone, Copy, Debug)]
pub(super) struct Through {
    pub spread: Spread,
    pub holds: bool,
}

impl From<&Lain> for Through {
    fn from(lain: &Lain) -> Self {
        Self { spread: lain.spread, holds: lain.holds }
    }
}

/// What holds nothing and lies below the place where the bite is complete, mm, and how many things are reached by then.
/// At the thick end what holds nothing is thick and leather is thin. Where all of it together does not hold the bite, what
/// is missing of it is still to be reached, and nothing is there.
pub(super) fn passed(through: &[Through], bite: f64, thick: bool) -> (f64, usize) {
    let (mut held, mut passed) = (0.0, 0.0);
    for (n, one) in through.iter().enumerate() {
        if one.holds {
            held += if thick { one.spread.lo } else { one.spread.nominal };
            if fits(bite, held) {
                return (passed, n + 1);
            }
        } else {
            passed += if thick { one.spread.hi } else { one.spread.nominal };
        }
    }
    (passed, through.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leather(thick: f64) -> Through {
        Through { spread: Spread::around(thick, 0.25), holds: true }
    }

    fn rubber(thick: f64) -> Through {
        Through { spread: Spread::around(thick, 0.5), holds: false }
    }

    #[test]
    fn what_holds_nothing_is_passed_only_below_the_bite() {
        let close = |a: f64, b: f64| (a - b).abs() < 1e-12;
        // Slip 3, midsole 6: the bite of 5 is complete in the midsole; the filler above it is not gone through.
        let all = [rubber(3.0), leather(6.0), rubber(2.0), leather(4.0)];
        let (to, by) = passed(&all, 5.0, false);
        assert!(close(to, 3.0) && by == 2, "{to} {by}");
        assert!(close(passed(&all, 5.0, true).0, 3.5));
        // A midsole of 5.2 that may be 4.95: at its thin end the nail goes on through the filler.
        let all = [rubber(3.0), leather(5.2), rubber(2.0), leather(4.0)];
        assert!(close(passed(&all, 5.0, false).0, 3.0));
        let (to, by) = passed(&all, 5.0, true);
        assert!(close(to, 6.0) && by == 4, "{to} {by}");
    }

    #[test]
    fn a_rubber_midsole_holds_nothing() {
        let (to, by) = passed(&[rubber(6.0), leather(2.0), leather(4.0)], 5.0, false);
        assert!((to - 6.0).abs() < 1e-12 && by == 3, "{to} {by}");
    }
}
