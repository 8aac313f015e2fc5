//! The lines of the bottom, all developed on the flat insole pattern: feather, wall, finished edge, rough edge, cut.

use super::Built;
use super::amounts::mm;
use super::last::GradedLast;
use super::outer::Turned;
use super::ply::Ply;
use crate::geometry::{Distance, Path, Profile, Rail, Side, Straight};
use crate::language::Hole;
use crate::spec::{House, Model, Role};
use std::cell::RefCell;
use std::sync::Arc;

/// The lines of one size. Distances in mm, positive outward of the feather line.
#[derive(Clone, Debug)]
pub struct Lines {
    /// The last.
    pub last: GradedLast,
    /// The finished edge.
    pub edge: Rail,
    /// Where rough-rounding has not yet cut.
    pub uncut: Rail,
    /// Turnout by zone: forepart, waist outside, waist inside, heel.
    pub turnout: Zones,
    /// What trimming and sanding take off the sewn edge.
    pub off_the_edge: f64,
    /// What rough-rounding cuts away.
    pub cut: f64,
    /// Lining thickness, nominal.
    pub lining: f64,
    /// Where the waist's turnout begins to fall to the heel's, x.
    pub turnout_holds: f64,
    /// Where the turnout begins to grow, ahead of the release cut, x: behind it the outer is lasted in.
    pub turnout_begins: f64,
    pub(super) turned: Arc<Turned>,
    wall: Distance,
    turnout_profile: Distance,
}

/// Turnout by zone, mm.
#[derive(Clone, Copy, Debug)]
pub struct Zones {
    pub forepart: f64,
    pub waist_outside: f64,
    pub waist_inside: f64,
    pub heel: f64,
}

impl Lines {
    /// The upper's wall: lining and outer as lasted. Its sides meet wherever those of the edge do, which is laid out from
    /// it; for drawings and figures, so that judging does without it.
    #[must_use]
    pub fn wall(&self) -> Option<Rail> {
        Rail::along(&self.last.feather, &self.wall, 0.0).ok()
    }

    /// The rough edge on which the edge guide runs.
    #[must_use]
    pub fn rough(&self) -> Rail {
        self.edge.beside(self.off_the_edge)
    }

    /// The edge that a layer of the bottom is cut to, and that its adhesive is counted on, in a boot whose rows go
    /// `through` a layer. What the rows hold is cut away with the rest; what lies below is fitted when the edge is
    /// trimmed, and meets the edge as it is then. How much of `off_the_edge` is left for the sander by then is not known:
    /// all of it still counts.
    #[must_use]
    pub fn cut_to(&self, role: Role, through: Role) -> Rail {
        if role > through { self.rough() } else { self.uncut.clone() }
    }

    /// The corners of a piece `broad` mm along the centre line from the breast to the joints, such as a shank.
    #[must_use]
    pub fn on_the_waist(&self, broad: f64) -> Option<[kurbo::Point; 4]> {
        let (breast, half) = (self.last.breast, broad / 2.0);
        let [outside, inside] = [self.last.joint_line.x_at(-half)?, self.last.joint_line.x_at(half)?];
        let places = [(breast, -half), (outside, -half), (inside, half), (breast, half)];
        Some(places.map(|(x, y)| kurbo::Point::new(x, y)))
    }

    /// Where the finished edge runs round the heel, from the breast line on the inside round the back to it on the outside:
    /// the outline of every lift, wedge and cap, which are cut off square at the breast. `None` if it misses the line.
    #[must_use]
    pub fn round_the_heel(&self) -> Option<(f64, f64)> {
        let breast = Straight::square_at(self.last.breast);
        let inside = *self.edge.crossings_on(&breast, Side::Inside).last()?;
        let outside = *self.edge.crossings_on(&breast, Side::Outside).first()?;
        Some((inside, outside + self.edge.period()))
    }

    /// The release cut, x: where the turnout begins to grow. Behind it the outer is lasted in.
    #[must_use]
    pub fn release(&self) -> f64 {
        self.turnout_begins
    }

    /// The turnout at parameter `t` of the feather line.
    #[must_use]
    pub fn turnout_at(&self, t: f64) -> f64 {
        self.distance_at(&self.turnout_profile, t)
    }

    /// How far the wall stands outside the feather line at its parameter `t`.
    #[must_use]
    pub fn wall_at(&self, t: f64) -> f64 {
        self.distance_at(&self.wall, t)
    }

    /// How far the finished edge stands behind the heel point of the feather line, where both turn across, mm: a gauge at
    /// the back stands there.
    #[must_use]
    pub fn behind_the_heel(&self) -> f64 {
        self.wall.outside.at(0.0) + self.turnout_profile.outside.at(0.0)
    }

    fn distance_at(&self, distance: &Distance, t: f64) -> f64 {
        let x = self.last.feather.point(t).x;
        match self.last.feather.side(t) {
            Side::Outside => distance.outside.at(x),
            Side::Inside => distance.inside.at(x),
        }
    }

    /// The parameter at which the feather line crosses station x on `side`.
    #[must_use]
    pub fn feather_at(&self, x: f64, side: Side) -> Option<f64> {
        self.last.feather.crossings_on(&Straight::square_at(x), side).first().copied()
    }
}

/// The lines inside the feather that forefoot, waist and seat stand on: mostly one, which is carried once.
#[derive(Default)]
pub(super) struct Inside(RefCell<Vec<(f64, Rail)>>);

impl Inside {
    /// The line `inset` mm inside the feather line.
    pub fn rail(&self, lines: &Lines, inset: f64) -> Rail {
        let mut known = self.0.borrow_mut();
        if let Some((_, rail)) = known.iter().find(|(of, _)| of.total_cmp(&inset).is_eq()) {
            return rail.clone();
        }
        let rail = Rail::constant(&lines.last.feather, -inset);
        known.push((inset, rail.clone()));
        rail
    }
}

pub(super) fn lines(model: &Model, house: &House, last: &GradedLast, turned: &Arc<Turned>) -> Built<Lines> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let turnout = bottom.turnout.as_ref().map_err(|hole| *hole)?;
    let zones = Zones {
        forepart: mm(&turnout.forepart)?,
        waist_outside: mm(&turnout.waist_outside)?,
        waist_inside: mm(&turnout.waist_inside)?,
        heel: mm(&turnout.heel)?,
    };
    let lining = lining(model)?.map_or(0.0, |ply| ply.spread.nominal);
    let (blend, holds) = (mm(&house.rule("blend"))?, last.breast - mm(&house.rule("turnout-holds"))?);
    let (off_the_edge, cut) = (mm(&house.rule("off-the-edge"))?, mm(&house.rule("cut"))?);
    let turn_out = |side: Side| {
        let (joint, waist) = match side {
            Side::Inside => (last.joint_inside, zones.waist_inside),
            Side::Outside => (last.joint_outside, zones.waist_outside),
        };
        fair(&[(holds - blend, zones.heel), (holds, waist), (joint - blend, waist), (joint, zones.forepart)], model)
    };
    let by_side =
        |side: Side| -> Built<(Profile, Profile)> { Ok((wall_profile(turned, last, side, model)?, turn_out(side)?)) };
    let ((wall_out, turn_out), (wall_in, turn_in)) = (by_side(Side::Outside)?, by_side(Side::Inside)?);
    let lost = |_| Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: model.span };
    let whole = Distance { outside: wall_out.plus(&turn_out), inside: wall_in.plus(&turn_in) };
    let wall = Distance { outside: wall_out, inside: wall_in };
    let edge = Rail::along(&last.feather, &whole, 0.0).map_err(lost)?;
    Ok(Lines {
        wall,
        uncut: edge.beside(off_the_edge + cut),
        edge,
        turnout: zones,
        off_the_edge,
        cut,
        lining,
        turnout_holds: holds,
        turnout_begins: holds - blend,
        turned: Arc::clone(turned),
        turnout_profile: Distance { outside: turn_out, inside: turn_in },
        last: last.clone(),
    })
}

/// The lining that is lasted in at the toe, if there is one.
pub(super) fn lining(model: &Model) -> Built<Option<Ply>> {
    lining_at(model, 1.0).map(|linings| linings.into_iter().next())
}

/// The linings that are lasted in at a station, a share of the bottom.
pub(super) fn lining_at(model: &Model, share: f64) -> Built<Vec<Ply>> {
    let mut there = Vec::new();
    for lining in &model.upper.as_ref().map_err(|hole| *hole)?.lasted_in {
        let (heelmost, toemost) = super::bed::stations(lining)?;
        if heelmost <= share && share <= toemost {
            there.push(Ply::of_part(&super::amounts::of(&lining.part)?.it)?);
        }
    }
    Ok(there)
}

/// From one figure to the next by a fair step, so that the edge has no corner. Blends never run backwards: where one is
/// longer than its zone, the place ahead gives way.
fn fair(places: &[(f64, f64)], model: &Model) -> Built<Profile> {
    let mut ascending: Vec<(f64, f64)> = Vec::with_capacity(places.len());
    for &(x, d) in places {
        let least = ascending.last().map_or(f64::MIN, |last| last.0 + 1e-6);
        ascending.push((x.max(least), d));
    }
    Profile::fair(&ascending).map_err(|_| Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: model.span })
}

/// Over how much a lining's end is thinned so that nothing is felt, mm: the wall follows it.
const LINING_SKIVE: f64 = 10.0;

/// How far from a lining's end it surely lies or doesn't, a share of the bottom.
const BESIDE: f64 = 1e-6;

fn lining_thick(model: &Model, share: f64) -> Built<f64> {
    Ok(lining_at(model, share)?.iter().map(|ply| ply.spread.nominal).sum())
}

/// The stations at which a lining begins or ends, ascending, each once; shares of the bottom.
fn lining_ends(model: &Model) -> Built<Vec<f64>> {
    let mut ends = Vec::new();
    for lining in &model.upper.as_ref().map_err(|hole| *hole)?.lasted_in {
        let (heelmost, toemost) = super::bed::stations(lining)?;
        ends.extend([heelmost, toemost].into_iter().filter(|station| station.is_finite()));
    }
    ends.sort_by(f64::total_cmp);
    ends.dedup();
    Ok(ends)
}

/// Lining and outer along one side; between two parts of different leather it changes over the lap.
fn wall_profile(turned: &Turned, last: &GradedLast, side: Side, model: &Model) -> Built<Profile> {
    let thickness = |n: usize| turned.parts[n].spread.nominal;
    let mut wall = Profile::constant(lining_thick(model, 0.0)? + thickness(0));
    for station in lining_ends(model)? {
        let change = lining_thick(model, station + BESIDE)? - lining_thick(model, station - BESIDE)?;
        let at = station * last.bottom;
        if change.abs() > crate::measure::SLACK {
            wall = wall.plus(&fair(&[(at - LINING_SKIVE / 2.0, 0.0), (at + LINING_SKIVE / 2.0, change)], model)?);
        }
    }
    for (n, lap) in turned.laps.iter().enumerate() {
        let mark = lap.mark(side) * last.bottom;
        let (from, to) = if lap.toeward { (mark, mark + lap.wide) } else { (mark - lap.wide, mark) };
        let change = thickness(n + 1) - thickness(n);
        // Each lap adds its own change, so that the wall makes no step where one reaches into the next.
        if change != 0.0 {
            wall = wall.plus(&fair(&[(from, 0.0), (to, change)], model)?);
        }
    }
    Ok(wall)
}
