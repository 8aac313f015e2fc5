//! The sole's rows: where they run, how many stitches, what thread they take.

use super::Built;
use super::amounts::{base, maybe, mm, of};
use super::corner::{Corner, corners, lost};
use super::lines::Lines;
use super::stack::{Along, Stack};
use super::thread::{ThreadUse, bobbin_metres, rows_of_a_bobbin, thread_use};
use crate::geometry::{Path, Rail, Side, Straight};
use crate::spec::{House, Model, Sole, Stitch};

/// One row of sole stitching.
#[derive(Clone, Debug)]
pub struct RowBuilt {
    /// From the finished edge, mm.
    pub inset: f64,
    /// The row's line.
    pub rail: Rail,
    /// Parameters at which it starts (outside) and stops: on the inside, or a turn later where it runs all round.
    pub from: f64,
    /// See `from`.
    pub to: f64,
    /// Its length, mm.
    pub length: f64,
    /// Its corners, where its line was trimmed.
    pub corners: Vec<Corner>,
    /// Whole stitches.
    pub stitches: u32,
    /// Stitches sewn once more over the start of a row that runs all round, into the same holes.
    pub overlap: u32,
    /// Length of one stitch, mm.
    pub pitch: f64,
    /// The least distance to the wall along its way, mm, and the parameter of that place.
    pub wall_clearance: f64,
    /// See `wall_clearance`.
    pub clearance_at: f64,
    /// Thread, if the stack is known.
    pub thread: Option<ThreadUse>,
}

impl RowBuilt {
    /// The row as a way along which layers lie.
    pub(super) fn along(&self) -> Along<'_> {
        Along { rail: &self.rail, from: self.from, length: self.length }
    }

    /// Where the row crosses the line of the joints on the outside and on the inside, mm from its start.
    #[must_use]
    pub fn joints(&self, last: &super::GradedLast) -> [Option<f64>; 2] {
        [Side::Outside, Side::Inside].map(|side| {
            let crossings = self.rail.crossings_on(&last.joint_line, side);
            crossings.first().map(|t| self.rail.length_between(self.from, *t))
        })
    }
}

/// All rows with what is common to them.
#[derive(Clone, Debug)]
pub struct SoleRows {
    /// Outermost first.
    pub rows: Vec<RowBuilt>,
    /// What the edge guide is set to, from the rough edge, mm.
    pub guide: f64,
    /// x of the line behind the breast on which rows start and stop.
    pub starts_at: f64,
    /// Rows start where the turnout is full; `None` where they run all round, through every turnout.
    pub starts_in_full_turnout: Option<bool>,
    /// Metres that a full bobbin holds, if the machine has one.
    pub bobbin: Option<f64>,
    /// Whole rows of a pair that one bobbin sews, in the order sewn.
    pub rows_a_bobbin: Option<u32>,
}

pub(super) fn rows(model: &Model, house: &House, lines: &Lines) -> Built<SoleRows> {
    let sole = sole(model)?;
    let (from_edge, apart) = (mm(&sole.from_edge)?, maybe(sole.apart.as_ref())?.unwrap_or(0.0));
    let count = of(&sole.rows)?.it;
    let nominal_pitch = 25.4 / base(&sole.pitch)?;
    let starts_at = lines.last.breast - mm(&house.rule("rows-start"))?;
    let mut rows = Vec::new();
    for k in 0..count.min(MOST_ROWS) {
        let inset = from_edge + f64::from(k) * apart;
        let rail = lines.edge.beside(-inset);
        let lost = lost(&rail, of(&sole.from_edge)?.span());
        let line = Straight::square_at(starts_at);
        let from = *rail.crossings_on(&line, Side::Outside).first().ok_or(lost)?;
        let stops = *rail.crossings_on(&line, Side::Inside).last().ok_or(lost)?;
        let to = if sole.all_round { from + rail.period() } else { stops };
        if !rail.runs_through(from, to) {
            return Err(lost);
        }
        let length = rail.length_between(from, to);
        let corners = corners(&rail, (from, to), &lines.last);
        let (stitches, pitch) = stitches(length, nominal_pitch);
        let overlap = if sole.all_round { stitches_over(mm(&house.rule("overlap"))?, pitch) } else { 0 };
        let (clearance_at, upright) = clearance(lines, inset, from, to);
        let wall_clearance = upright - lines.last.overhang.unwrap_or(0.0);
        rows.push(RowBuilt {
            inset,
            rail,
            from,
            to,
            length,
            corners,
            stitches,
            overlap,
            pitch,
            wall_clearance,
            clearance_at,
            thread: None,
        });
    }
    Ok(SoleRows {
        rows,
        guide: from_edge + lines.off_the_edge,
        starts_at,
        starts_in_full_turnout: (!sole.all_round).then_some(starts_at >= lines.turnout_holds - crate::measure::SLACK),
        bobbin: None,
        rows_a_bobbin: None,
    })
}

/// More rows than this find no room in any turnout; the rest is not laid out, and the turnout's rule refuses.
const MOST_ROWS: u32 = 8;

pub(super) fn sole(model: &Model) -> Built<&Sole> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    bottom.sole.as_ref().map_err(|hole| *hole)
}

/// More stitches than this has no row; a pitch that asks for more is refused by the machine's range.
const MOST_STITCHES: f64 = 100_000.0;

/// `round(length / pitch)`, half up, at least 1, and the pitch that makes whole stitches of it.
pub(super) fn stitches(length: f64, pitch: f64) -> (u32, f64) {
    let wanted = (length / pitch + 0.5).floor().clamp(1.0, MOST_STITCHES);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what the type holds")]
    let count = wanted as u32;
    (count, length / f64::from(count))
}

/// Whole stitches that reach over `length`.
fn stitches_over(length: f64, pitch: f64) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what the type holds")]
    let count = (length / pitch - crate::measure::SLACK).ceil().clamp(0.0, MOST_STITCHES) as u32;
    count
}

/// The least of turnout less inset along a row: at one of its ends, or in a zone that it runs through, as the turnout goes
/// evenly from zone to zone. One place stands for each: the toe, the waist on either side, and the heel of a row that goes
/// round it.
fn clearance(lines: &Lines, inset: f64, from: f64, to: f64) -> (f64, f64) {
    let feather = &lines.last.feather;
    let waist =
        [Side::Outside, Side::Inside].into_iter().filter_map(|side| lines.feather_at(lines.turnout_holds, side));
    let places = [from, to, feather.side_switch(), feather.period()].into_iter().chain(waist);
    let measured = places.filter(|t| (from..=to).contains(t)).map(|t| (t, lines.turnout_at(t) - inset));
    measured.fold((from, f64::MAX), |least, place| if place.1 < least.1 { place } else { least })
}

impl SoleRows {
    /// Adds thread and bobbins, which need the thickness at every stitch.
    pub(super) fn with_thread(mut self, model: &Model, house: &House, stack: Option<&Stack>) -> Self {
        let Some(stack) = stack else { return self };
        let Ok(used) = self
            .rows
            .iter()
            .enumerate()
            .map(|(k, row)| thread_of(model, house, stack, k, row))
            .collect::<Built<Vec<_>>>()
        else {
            return self;
        };
        for (row, thread) in self.rows.iter_mut().zip(used) {
            row.thread = Some(thread);
        }
        if let Ok(Some(metres)) = bobbin(model) {
            let bobbins: Vec<f64> =
                self.rows.iter().filter_map(|row| row.thread.as_ref()).map(|thread| thread.bobbin).collect();
            self.bobbin = Some(metres);
            self.rows_a_bobbin = Some(rows_of_a_bobbin(metres, &bobbins));
        }
        self
    }
}

fn thread_of(model: &Model, house: &House, stack: &Stack, k: usize, row: &RowBuilt) -> Built<ThreadUse> {
    let machine = &of(&sole(model)?.on)?.it;
    let middles = |count: u32| (0..count).map(|n| (f64::from(n) + 0.5) * row.pitch);
    let thicknesses = stack.thicknesses(k, middles(row.stitches)).chain(stack.thicknesses(k, middles(row.overlap)));
    thread_use(machine, row.pitch, thicknesses, mm(&house.rule("sole-tails"))?)
}

fn bobbin(model: &Model) -> Built<Option<f64>> {
    let sole = sole(model)?;
    let machine = &of(&sole.on)?.it;
    // A chainstitch has none, whatever else its machine is said to have.
    let locks = of(&machine.stitch)?.it == Stitch::Lockstitch;
    let Some(bobbin) = machine.bobbin.as_ref().filter(|_| locks) else { return Ok(None) };
    bobbin_metres(bobbin, &of(&sole.thread)?.it).map(Some)
}
