//! Thread: what a row takes, what a bobbin holds, how thick it is.

use super::Built;
use super::amounts::{base, mm};
use crate::measure::fits;
use crate::spec::{Bobbin, Thread};

/// Thread of one row, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadUse {
    /// From the needle.
    pub needle: f64,
    /// From the bobbin; 0 for a chainstitch.
    pub bobbin: f64,
    /// Tails, on top of both.
    pub tails: f64,
}

impl ThreadUse {
    /// Everything, m.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.needle + self.bobbin + self.tails
    }
}

/// Class 301: a stitch takes `2p + 2t`, the needle `p + 2 lock t` of it. `thicknesses` are the nominal stitch sums at
/// the middle of each stitch, mm. Source: textile calculation teaching texts (2 + 2TS per inch); ISO 4915 for the lock.
pub(super) fn lockstitch_use(pitch: f64, lock: f64, thicknesses: impl Iterator<Item = f64>, tails: f64) -> ThreadUse {
    let (mut needle, mut bobbin) = (0.0, 0.0);
    for t in thicknesses {
        needle += pitch + 2.0 * lock * t;
        bobbin += pitch + 2.0 * (1.0 - lock) * t;
    }
    ThreadUse { needle: needle / 1000.0, bobbin: bobbin / 1000.0, tails: tails / 1000.0 }
}

/// Class 101: a stitch takes `3p + 2t`. Source: textile calculation teaching texts (3 + 2TS per inch).
pub(super) fn chainstitch_use(stitches: u32, pitch: f64, thickness: f64) -> ThreadUse {
    ThreadUse { needle: f64::from(stitches) * (3.0 * pitch + 2.0 * thickness) / 1000.0, bobbin: 0.0, tails: 0.0 }
}

/// Diameter, mm: as measured, else `2 sqrt(Tex / (1000 pi rho phi))` with density in g/cm3 and the share of the round
/// that is fibre. Source: geometry.
pub(super) fn diameter(thread: &Thread) -> Built<f64> {
    if let Some(measured) = &thread.diameter {
        return mm(measured);
    }
    let (tex, density, packing) = (base(&thread.size)?, base(&thread.density)?, base(&thread.packing)?);
    Ok(2.0 * (tex / (1000.0 * std::f64::consts::PI * density * packing)).sqrt())
}

/// Metres on a full bobbin: the ring between hub and outside, as full as it winds, over the thread's weight.
pub(super) fn bobbin_metres(bobbin: &Bobbin, thread: &Thread) -> Built<f64> {
    let (across, hub, wide) = (mm(&bobbin.across)?, mm(&bobbin.hub)?, mm(&bobbin.wide)?);
    let volume = std::f64::consts::FRAC_PI_4 * (across * across - hub * hub) * wide;
    // mm3 * g/cm3 / (g/km) is m.
    Ok(volume.max(0.0) * base(&bobbin.fill)? * base(&thread.density)? / base(&thread.size)?)
}

/// Nobody counts further.
const MOST_ROWS: usize = 10_000;

/// Whole rows that a bobbin sews before it would run out inside one: row 1, row 2, …, then the other boot.
pub(super) fn rows_of_a_bobbin(metres: f64, rows: &[f64]) -> u32 {
    if rows.is_empty() || rows.iter().sum::<f64>() <= 0.0 {
        return 0;
    }
    let (mut left, mut count) = (metres, 0);
    for row in rows.iter().cycle().take(MOST_ROWS) {
        left -= row;
        if !fits(0.0, left) {
            break;
        }
        count += 1;
    }
    count
}

#[cfg(test)]
mod tests {
    use super::rows_of_a_bobbin;

    #[test]
    fn a_bobbin_that_is_used_up_at_the_end_of_a_row_has_sewn_that_row() {
        assert_eq!(rows_of_a_bobbin(4.5, &[1.0, 0.5]), 6);
        assert_eq!(rows_of_a_bobbin(4.4, &[1.0, 0.5]), 5);
        assert_eq!(rows_of_a_bobbin(0.9, &[1.0, 0.5]), 0);
        // Three tenths are not quite 0.3.
        assert_eq!(rows_of_a_bobbin(0.3, &[0.1]), 3);
    }

    #[test]
    fn rows_that_take_nothing_are_not_counted() {
        assert_eq!(rows_of_a_bobbin(4.5, &[0.0, 0.0]), 0);
        assert_eq!(rows_of_a_bobbin(4.5, &[]), 0);
    }
}
