//! Where heel nails stand: in a ring inside the feather line or the heel's own edge, and across the heel.

use super::Around;
use super::stages::Stage;
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::build::bed::Spot;
use crate::build::lines::Inside;
use crate::build::nails::nails_on;
use crate::geometry::{Path, Rail, Side, Straight};
use crate::language::Hole;
use crate::measure::fits;
use crate::source::Origin;
use crate::spec::HeelNails;
use kurbo::{Point, Vec2};

/// Which length a nail takes: by thirds of the heel's length from the heel point of the feather line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum Place {
    Back,
    Sides,
    Breast,
}

impl Place {
    /// All places, from the back.
    pub const ALL: [Place; 3] = [Place::Back, Place::Sides, Place::Breast];

    /// As written.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Place::Back => "back",
            Place::Sides => "sides",
            Place::Breast => "breast",
        }
    }

    fn of(x: f64, length: f64) -> Self {
        if fits(x, length / 3.0) {
            Place::Back
        } else if fits(x, length * 2.0 / 3.0) {
            Place::Sides
        } else {
            Place::Breast
        }
    }
}

/// What lies over a nail's point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// The foot, well inside the feather line.
    Seat,
    /// The turn of the upper, about the feather line and the wall: nothing may come up there.
    Turn,
    /// The ledge outside the wall.
    Ledge,
}

/// A heel nail where it stands, on the developed bottom, mm.
#[derive(Clone, Debug)]
pub struct Stand {
    /// The stage, from 0; none for a cap nail.
    pub stage: Option<usize>,
    /// Its place.
    pub place: Place,
    /// It stands across the heel, not in the ring.
    pub across: bool,
    /// Where its head is.
    pub head: Point,
    /// Where its point is.
    pub point: Point,
    /// How deep its point is inside the feather line; negative outside.
    pub depth: f64,
    /// What lies over its point.
    pub zone: Zone,
}

impl Stand {
    /// Its point's place in the bed.
    #[must_use]
    pub fn spot(&self) -> Spot {
        Spot { x: self.point.x, y: self.point.y, depth: self.depth }
    }
}

/// The ring of nails round the heel of one stage, or of the cap.
#[derive(Clone, Debug)]
pub struct Ring {
    /// The stage's number.
    pub stage: Option<u32>,
    /// From one end round the back to the other, mm.
    pub length: f64,
    /// How many nails stand in it.
    pub count: u32,
    /// From nail to nail, evened, mm.
    pub apart: f64,
    /// How many nails stand across the heel besides.
    pub across: u32,
}

/// The lines that heel nails stand on, in one size.
pub(super) struct Lines {
    base: Line,
    cap: Line,
    apart: f64,
    /// Where the base's distance and the cap's were written, and the breast's.
    pub base_origin: Origin,
    pub cap_origin: Origin,
    pub breast_origin: Origin,
    turn: (f64, f64),
}

/// A line round the heel, from one end to the other.
struct Line {
    rail: Rail,
    from: f64,
    to: f64,
    /// How far inside the heel's edge it runs; none for a line inside the feather.
    pub inside_edge: Option<f64>,
}

impl Lines {
    pub fn of(around: &Around<'_>, nails: &HeelNails, inside: &Inside) -> Built<Self> {
        let house = around.house;
        let ruled = |stated: Option<&_>, rule: &str| -> Built<(f64, Origin)> {
            let value: crate::spec::Val<_> = stated.cloned().unwrap_or_else(|| house.rule(rule));
            Ok((mm(&value)?, of(&value)?.origin.clone()))
        };
        let (behind, breast_origin) = ruled(nails.behind_breast.as_ref(), "ring-behind-breast")?;
        let (apart, _) = ruled(nails.apart.as_ref(), "ring-apart")?;
        let (cap_inset, cap_origin) = ruled(nails.inside_edge.as_ref(), "cap-inside-edge")?;
        let ends_at = around.lines.last.breast - behind;
        let lost = Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: around.heel.span };
        let edged = || around.lines.edge.beside(-cap_inset);
        let line = |rail: Rail, inside_edge| Line::round(rail, ends_at, inside_edge).ok_or(lost);
        let (base, base_origin) = if nails.inside_feather.is_none() && nails.inside_edge.is_some() {
            (line(edged(), Some(cap_inset))?, cap_origin.clone())
        } else {
            let (inset, origin) = ruled(nails.inside_feather.as_ref(), "ring-inside-feather")?;
            (line(inside.rail(around.lines, inset), None)?, origin)
        };
        let turn = (mm(&house.rule("turn-inside"))?, mm(&house.rule("turn-outside"))?);
        let cap = line(edged(), Some(cap_inset))?;
        Ok(Self { base, cap, apart, base_origin, cap_origin, breast_origin, turn })
    }

    /// The nails of the base's stage `n`: each stage in the middles of the one before, so that it has one nail less.
    /// Points lean by the lengths that are given by place.
    pub fn stage(
        &self,
        n: usize,
        stage: &Stage<'_>,
        lengths: [f64; 3],
        around: &Around<'_>,
    ) -> Built<(Ring, Vec<Stand>)> {
        let (on, apart) = nails_on(self.base.length(), self.apart);
        let spaces = on.saturating_sub(1) as usize;
        let of_stage = self.base.places_of(n, (spaces, apart));
        // A point stands inside its head by what leans of its own length.
        let lean = |head: Point| lengths[Place::of(head.x, around.built.length) as usize] * stage.leans.sin();
        let mut stands: Vec<Stand> = of_stage.into_iter().map(|t| self.on_line(&self.base, t, &lean, around)).collect();
        let count = u32::try_from(stands.len()).unwrap_or(u32::MAX);
        for share in across(stage.across, n) {
            stands.push(self.on_breast(share, &lean, around));
        }
        for stand in &mut stands {
            stand.stage = Some(n);
        }
        let (length, across) = (self.base.length(), stage.across);
        Ok((Ring { stage: stage.number, length, count, apart, across }, stands))
    }

    /// The cap's nails stand in the middles of the spaces of their own line.
    pub fn cap(&self, around: &Around<'_>) -> Built<(Ring, Vec<Stand>)> {
        let (on, apart) = nails_on(self.cap.length(), self.apart);
        let spaces = on.saturating_sub(1).max(1);
        let steps = self.cap.places_of(1, (spaces as usize, apart));
        let stands = steps.into_iter().map(|t| self.on_line(&self.cap, t, &|_| 0.0, around)).collect();
        Ok((Ring { stage: None, length: self.cap.length(), count: spaces, apart, across: 0 }, stands))
    }

    fn on_line(&self, line: &Line, t: f64, lean: &dyn Fn(Point) -> f64, around: &Around<'_>) -> Stand {
        let feather = &around.lines.last.feather;
        let head = line.rail.point(t);
        let lean = lean(head);
        let inward = -feather.frame(t).normal;
        let depth = lean - line.rail.distance(t);
        self.stand(head, inward * lean, (depth, around.lines.wall_at(t)), around)
    }

    /// A nail on the line across the heel, at a share of the way from the inside's end to the outside's.
    fn on_breast(&self, share: f64, lean: &dyn Fn(Point) -> f64, around: &Around<'_>) -> Stand {
        let (inside, outside) = (self.base.rail.point(self.base.from), self.base.rail.point(self.base.to));
        let head = inside + (outside - inside) * share;
        let by = Vec2::new(-lean(head), 0.0);
        let feather = &around.lines.last.feather;
        let near = feather.nearest(head + by);
        let depth = feather.depth(head + by);
        let mut stand = self.stand(head, by, (depth, around.lines.wall_at(near.t)), around);
        stand.across = true;
        stand
    }

    fn stand(&self, head: Point, by: Vec2, (depth, wall): (f64, f64), around: &Around<'_>) -> Stand {
        let zone = if fits(self.turn.0, depth) {
            Zone::Seat
        } else if fits(wall + self.turn.1, -depth) {
            Zone::Ledge
        } else {
            Zone::Turn
        };
        let place = Place::of(head.x, around.built.length);
        Stand { stage: None, place, across: false, head, point: head + by, depth, zone }
    }

    /// How far inside the heel's edge a stage's line runs, or the cap's; none where it runs inside the feather line.
    pub fn inside_edge(&self, cap: bool) -> Option<f64> {
        if cap { self.cap.inside_edge } else { self.base.inside_edge }
    }
}

impl Line {
    /// Round the heel between its crossings with the line square at `x`.
    fn round(rail: Rail, x: f64, inside_edge: Option<f64>) -> Option<Self> {
        let ends = Straight::square_at(x);
        let from = *rail.crossings_on(&ends, Side::Inside).last()?;
        let to = *rail.crossings_on(&ends, Side::Outside).first()? + rail.period();
        Some(Self { rail, from, to, inside_edge })
    }

    fn length(&self) -> f64 {
        self.rail.length_between(self.from, self.to)
    }

    /// The places of a stage: the first has a nail at each end of the spaces, each later one begins half a space farther in.
    fn places_of(&self, stage: usize, (spaces, apart): (usize, f64)) -> Vec<f64> {
        if stage == 0 || spaces < stage {
            return if stage == 0 { self.rail.evenly(self.from, self.to, spaces) } else { Vec::new() };
        }
        #[expect(clippy::cast_precision_loss, reason = "stages are few")]
        let in_by = apart * stage as f64 / 2.0;
        let (from, to) = (self.rail.t_at_length(self.from, in_by), self.rail.t_at_length(self.to, -in_by));
        self.rail.evenly(from, to, spaces - stage)
    }
}

/// Where `count` nails stand between the ends, as shares of the way: evenly; in a later stage in the middles of the
/// spaces of as many, those nearest to even.
fn across(count: u32, stage: usize) -> Vec<f64> {
    let spaces = f64::from(count) + 1.0;
    if stage.is_multiple_of(2) {
        return (1..=count).map(|n| f64::from(n) / spaces).collect();
    }
    // As many nails have one space more: the middle one stays empty, or the last of an odd number.
    let middles = (0..=count).filter(|n| *n != count.div_ceil(2));
    middles.map(|n| (f64::from(n) + 0.5) / spaces).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::SLACK;

    #[test]
    fn a_later_stage_stands_in_the_middles() {
        let close = |a: &[f64], b: &[f64]| a.len() == b.len() && a.iter().zip(b).all(|(a, b)| (a - b).abs() < SLACK);
        assert!(close(&across(2, 0), &[1.0 / 3.0, 2.0 / 3.0]));
        assert!(close(&across(2, 1), &[1.0 / 6.0, 5.0 / 6.0]), "{:?}", across(2, 1));
        assert!(close(&across(1, 1), &[0.25]), "{:?}", across(1, 1));
        assert!(close(&across(3, 1), &[0.125, 0.375, 0.875]), "{:?}", across(3, 1));
        assert!(across(0, 0).is_empty() && across(0, 1).is_empty());
    }
}
