//! Thread: what a row takes, what a bobbin holds, how thick it is.

use super::Built;
use super::amounts::{base, mm, of};
use crate::measure::fits;
use crate::spec::{Bobbin, Machine, Stitch, Thread};

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

/// What a row takes on a machine, by the stitch that it makes; `thicknesses` are the nominal stitch sums at the middle of
/// each stitch, `tails` what is left at both ends together, all in mm.
///
/// Class 301: a stitch takes `2p + 2t`, the needle `p + 2 lock t` of it. Class 101: `3p + 2t`, all of it from the needle.
/// Source: textile calculation teaching texts (2 + 2TS and 3 + 2TS per inch); ISO 4915 for the lock.
pub(super) fn thread_use(
    machine: &Machine,
    pitch: f64,
    thicknesses: impl Iterator<Item = f64>,
    tails: f64,
) -> Built<ThreadUse> {
    let of_a_stitch: [f64; 4] = match of(&machine.stitch)?.it {
        Stitch::Chainstitch => [3.0, 2.0, 0.0, 0.0],
        Stitch::Lockstitch => {
            let lock = base(&machine.lock)?;
            [1.0, 2.0 * lock, 1.0, 2.0 * (1.0 - lock)]
        }
    };
    let [needle_p, needle_t, bobbin_p, bobbin_t] = of_a_stitch;
    let (mut needle, mut bobbin) = (0.0, 0.0);
    for t in thicknesses {
        needle += needle_p * pitch + needle_t * t;
        bobbin += bobbin_p * pitch + bobbin_t * t;
    }
    Ok(ThreadUse { needle: needle / 1000.0, bobbin: bobbin / 1000.0, tails: tails / 1000.0 })
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
