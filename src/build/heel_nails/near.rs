//! What heel nails come near to in plan: sole rows, clinch nails, each other's heads, the heel's own edge; and nails that
//! come up where the upper turns.

use super::ring::{Lines, Stand, Zone};
use super::{Around, HeelNailsBuilt};
use crate::build::Built;
use crate::build::amounts::mm;
use crate::geometry::Path;
use crate::measure::fits;
use crate::source::Origin;
use crate::spec::Role;
use kurbo::Point;

/// What a heel nail must not come near to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meets {
    /// A row of the sole.
    Row,
    /// A clinch nail.
    Clinch,
    /// The head of another heel nail.
    Head,
    /// The heel's own edge, the breast's among it.
    Edge,
    /// The turn of the upper, about the feather line and the wall.
    Turn,
}

/// The nearest that heel nails come to something.
#[derive(Clone, Debug)]
pub struct Near {
    /// To what.
    pub meets: Meets,
    /// It is a cap nail.
    pub cap: bool,
    /// The stage's number; none for a base nailed at once, and for the cap.
    pub stage: Option<u32>,
    /// How near, centre to centre, mm; at the turn of the upper, how far inside the feather line.
    pub distance: f64,
    /// How near it may be, mm; at the turn, from how far inside a nail may pass the base's face.
    pub limit: f64,
    /// Where that is said.
    pub limit_origin: Origin,
    /// Which of [`HeelNailsBuilt::stands`].
    pub stand: usize,
    /// Where the line was written on which the nail stands, and whether more of it leads away.
    pub origin: Origin,
    /// It is farther away with more of what stands at `origin`.
    pub more_is_farther: bool,
}

impl Near {
    /// How much is left, mm.
    #[must_use]
    pub fn margin(&self) -> f64 {
        self.distance - self.limit
    }
}

/// The nails of a heel with what each needs to be known of it.
struct All<'a> {
    around: &'a Around<'a>,
    lines: &'a Lines,
    built: &'a HeelNailsBuilt,
    /// How true the base is built, mm.
    gauge: f64,
}

/// The nearest of each kind; what is far away by the lines alone is not looked at.
pub(super) fn nearest(around: &Around<'_>, lines: &Lines, built: &HeelNailsBuilt) -> Built<Vec<Near>> {
    let all = All { around, lines, built, gauge: mm(&around.house.rule("gauge"))? };
    let mut near = Vec::new();
    near.extend(all.least(Meets::Row, Some("nail-to-row"), &|stand, limit| all.to_row(stand, limit))?);
    near.extend(all.least(Meets::Clinch, Some(to_clinch(around.by_hand)), &|stand, _| all.to_clinch(stand))?);
    near.extend(all.least(Meets::Head, Some("heads-apart"), &|stand, _| all.to_head(stand))?);
    near.extend(all.least(Meets::Edge, Some("nail-to-edge"), &|stand, limit| all.to_edge(stand, limit))?);
    near.extend(all.turn()?);
    Ok(near)
}

/// The house rule that says how near a nail may come to one that is clinched.
pub(in crate::build) fn to_clinch(by_hand: bool) -> &'static str {
    if by_hand { "nail-to-clinch-by-hand" } else { "nail-to-clinch" }
}

/// Nails that pass the base's face and stand in what no nail goes through, or touch it, by layer.
pub(super) fn in_rigid(around: &Around<'_>, lines: &Lines, built: &HeelNailsBuilt) -> Built<Vec<(Role, usize)>> {
    let all = All { around, lines, built, gauge: mm(&around.house.rule("gauge"))? };
    let bottom = around.model.bottom.as_ref().map_err(|hole| *hole)?;
    let mut counts: Vec<(Role, usize)> =
        bottom.layers.iter().filter(|layer| layer.rigid).map(|layer| (layer.role, 0)).collect();
    if counts.is_empty() {
        return Ok(counts);
    }
    for stand in built.stands.iter().filter(|stand| all.passes_the_base(stand)) {
        let touched = around.bed.masks(stand.spot(), TOUCHES).into_iter().fold(0, |all, mask| all | mask);
        for role in around.bed.rigid(touched) {
            counts.iter_mut().filter(|(known, _)| *known == role).for_each(|(_, count)| *count += 1);
        }
    }
    Ok(counts)
}

/// How near to a rigid layer's edge a nail meets it, mm: the radius of a common nail.
const TOUCHES: f64 = 0.9;

impl All<'_> {
    fn least(
        &self,
        meets: Meets,
        rule: Option<&str>,
        to: &dyn Fn(usize, f64) -> Built<Option<f64>>,
    ) -> Built<Option<Near>> {
        let Some(rule) = rule else { return Ok(None) };
        let rule = self.around.house.rule(rule)?;
        let limit = rule.it.nominal();
        let mut least: Option<(f64, usize)> = None;
        for n in 0..self.built.stands.len() {
            let Some(distance) = to(n, limit)? else { continue };
            if least.is_none_or(|(known, _)| distance < known) {
                least = Some((distance, n));
            }
        }
        Ok(least.map(|(distance, stand)| self.near(meets, (distance, limit), rule.origin.clone(), stand)))
    }

    fn near(&self, meets: Meets, (distance, limit): (f64, f64), limit_origin: Origin, stand: usize) -> Near {
        let at = &self.built.stands[stand];
        let cap = at.stage.is_none();
        let stage = at.stage.and_then(|n| self.built.rings[n].stage);
        let edged = self.lines.inside_edge(cap).is_some();
        let breast = meets == Meets::Edge && self.to_breast(at) <= distance;
        let origin = match (breast, cap) {
            (true, _) => &self.lines.breast_origin,
            (false, true) => &self.lines.cap_origin,
            (false, false) => &self.lines.base_origin,
        };
        // Farther inside the feather line leads away from rows, edge and turn; clinch nails stand farther in.
        let more_is_farther = breast || edged || !matches!(meets, Meets::Clinch);
        Near { meets, cap, stage, distance, limit, limit_origin, stand, origin: origin.clone(), more_is_farther }
    }

    /// Whether a nail's point may pass the face of the base.
    fn passes_the_base(&self, stand: &Stand) -> bool {
        match (stand.stage, &self.built.cap) {
            (Some(_), _) => self.built.nail_of(stand).is_some_and(|nail| {
                // The base is lowest toward the breast: at the head or, where the nail leans, at the point.
                let share = stand.head.x.max(stand.point.x) / self.around.built.length;
                let base = nail.base[0] + (nail.base[1] - nail.base[0]) * share - self.gauge;
                !fits(nail.reach(), base)
            }),
            (None, Some(cap)) => {
                let block = self.around.built.block.spread().lo;
                let drop = self.around.built.drop * stand.head.x / self.around.built.length;
                !fits(cap.length + cap.sunk, block - drop)
            }
            (None, None) => false,
        }
    }

    /// How far from the feather line the innermost row is at the least, mm: what lies deeper inside is farther away.
    fn rows_outside(&self) -> f64 {
        let zones = self.around.lines.turnout;
        let least = zones.heel.min(zones.waist_inside).min(zones.waist_outside).min(zones.forepart);
        let inset = self.around.rows.and_then(|rows| rows.rows.last()).map_or(0.0, |row| row.inset);
        least - inset
    }

    fn to_row(&self, n: usize, limit: f64) -> Built<Option<f64>> {
        let stand = &self.built.stands[n];
        let Some(rows) = self.around.rows else { return Ok(None) };
        // A leaning nail's head stands nearer to the rows than its point.
        let shallowest = stand.depth - stand.point.distance(stand.head);
        if fits(limit, shallowest + self.rows_outside()) || !self.passes_the_base(stand) {
            return Ok(None);
        }
        let away = |point: Point| {
            let to = rows.rows.iter().map(|row| row.rail.nearest_between(point, row.from, row.to).distance);
            to.fold(f64::INFINITY, f64::min)
        };
        Ok(Some(away(stand.head).min(away(stand.point))))
    }

    fn to_clinch(&self, n: usize) -> Built<Option<f64>> {
        let stand = &self.built.stands[n];
        if !self.passes_the_base(stand) {
            return Ok(None);
        }
        let clinched = self.around.clinched.iter().flat_map(|line| &line.nails).map(|nail| nail.point);
        Ok(clinched.map(|at| at.distance(stand.head).min(at.distance(stand.point))).reduce(f64::min))
    }

    /// To the heads of its own stage, of the one before and of the cap, which is driven over the last.
    fn to_head(&self, n: usize) -> Built<Option<f64>> {
        let stand = &self.built.stands[n];
        let stages = self.built.rings.len();
        let order = |stand: &Stand| stand.stage.unwrap_or(stages);
        let met = |other: &&Stand| order(other) == order(stand) || order(other) + 1 == order(stand);
        let others = self.built.stands.iter().enumerate().filter(|(m, _)| *m != n).map(|(_, other)| other);
        Ok(others.filter(met).map(|other| other.head.distance(stand.head)).reduce(f64::min))
    }

    fn to_breast(&self, stand: &Stand) -> f64 {
        self.around.lines.last.breast - stand.head.x
    }

    fn to_edge(&self, n: usize, limit: f64) -> Built<Option<f64>> {
        let stand = &self.built.stands[n];
        // The edge is outside the feather line, so what stands deep inside it needs no looking at. A ring that is set out from
        // the edge says how near it comes: where the turnout grows, that is less than its inset, which is square to the feather.
        let edged = self.lines.inside_edge(stand.stage.is_none()).is_some();
        let deep = !edged && fits(limit, stand.depth);
        let round = if deep { f64::INFINITY } else { self.around.lines.edge.nearest(stand.head).distance };
        let least = round.min(self.to_breast(stand));
        Ok(least.is_finite().then_some(least))
    }

    /// A nail that passes the base's face stands well inside the feather line, or well outside the wall.
    fn turn(&self) -> Built<Option<Near>> {
        let rule = self.around.house.rule("turn-inside")?;
        let at_the_turn = |stand: &&(usize, &Stand)| stand.1.zone == Zone::Turn && self.passes_the_base(stand.1);
        let stands: Vec<(usize, &Stand)> = self.built.stands.iter().enumerate().collect();
        let base = stands.iter().filter(at_the_turn).filter(|(_, stand)| stand.stage.is_some());
        let worst = base.min_by(|a, b| a.1.depth.total_cmp(&b.1.depth));
        Ok(worst.map(|(n, stand)| self.near(Meets::Turn, (stand.depth, rule.it.nominal()), rule.origin.clone(), *n)))
    }
}
