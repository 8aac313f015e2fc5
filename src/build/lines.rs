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
    let by_side = |side: Side| {
        let (joint, waist) = match side {
            Side::Inside => (last.joint_inside, zones.waist_inside),
            Side::Outside => (last.joint_outside, zones.waist_outside),
        };
        let turnout =
            blends(&[(holds - blend, zones.heel), (holds, waist), (joint - blend, waist), (joint, zones.forepart)]);
        (wall_profile(turned, last, lining, side), turnout)
    };
    let ((wall_out, turn_out), (wall_in, turn_in)) = (by_side(Side::Outside), by_side(Side::Inside));
    let lost = |_| Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: model.span };
    let wall = Distance { outside: profile(&wall_out, model)?, inside: profile(&wall_in, model)? };
    let whole = Distance {
        outside: profile(&added(&wall_out, &turn_out), model)?,
        inside: profile(&added(&wall_in, &turn_in), model)?,
    };
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
        turned: Arc::clone(turned),
        turnout_profile: Distance { outside: profile(&turn_out, model)?, inside: profile(&turn_in, model)? },
        last: last.clone(),
    })
}

/// The lining that is lasted in, if there is one.
pub(super) fn lining(model: &Model) -> Built<Option<Ply>> {
    let upper = model.upper.as_ref().map_err(|hole| *hole)?;
    match &upper.lasted_in {
        Some(part) => Ply::of_part(&super::amounts::of(part)?.it).map(Some),
        None => Ok(None),
    }
}

/// Corners that never run backwards: where a blend is longer than its zone, the corner ahead gives way.
fn blends(corners: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut ascending: Vec<(f64, f64)> = Vec::with_capacity(corners.len());
    for &(x, d) in corners {
        let least = ascending.last().map_or(f64::MIN, |last| last.0 + 1e-6);
        ascending.push((x.max(least), d));
    }
    ascending
}

/// Lining and outer along one side; between two parts of different leather it changes over the lap.
fn wall_profile(turned: &Turned, last: &GradedLast, lining: f64, side: Side) -> Vec<(f64, f64)> {
    let thickness = |n: usize| lining + turned.parts[n].spread.nominal;
    let mut corners = vec![(0.0, thickness(0))];
    for (n, lap) in turned.laps.iter().enumerate() {
        let mark = lap.mark(side) * last.bottom;
        let (from, to) = if lap.toeward { (mark, mark + lap.wide) } else { (mark - lap.wide, mark) };
        // Each lap adds its own change, so that the wall makes no step where one reaches into the next.
        corners = added(&corners, &[(from, 0.0), (to, thickness(n + 1) - thickness(n))]);
    }
    corners
}

/// The sum of two piecewise linear functions, with the corners of both.
fn added(a: &[(f64, f64)], b: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let at = |corners: &[(f64, f64)], x: f64| -> f64 {
        let Some(n) = corners.iter().position(|corner| corner.0 >= x) else { return corners[corners.len() - 1].1 };
        if n == 0 {
            return corners[0].1;
        }
        let ((x0, d0), (x1, d1)) = (corners[n - 1], corners[n]);
        d0 + (d1 - d0) * (x - x0) / (x1 - x0)
    };
    let mut xs: Vec<f64> = a.iter().chain(b).map(|corner| corner.0).collect();
    xs.sort_by(f64::total_cmp);
    xs.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    xs.into_iter().map(|x| (x, at(a, x) + at(b, x))).collect()
}

fn profile(corners: &[(f64, f64)], model: &Model) -> Built<Profile> {
    Profile::new(corners.to_vec())
        .map_err(|_| Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: model.span })
}
