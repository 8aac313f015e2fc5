//! Clinch nails: where they stand, what they hold, which stocked length serves.

use super::Built;
use super::amounts::{base, maybe, mm, of};
use super::last::GradedLast;
use super::lines::{Inside, Lines, lining};
use super::ply::Ply;
use crate::finding::Sum;
use crate::geometry::{Path, Rail, Side, Straight};
use crate::language::Hole;
use crate::measure::{SLACK, Window, fits};
use crate::source::Origin;
use crate::spec::{Bottom, Ends, Extent, House, Layer, Model, NailLine, Role};
use kurbo::Point;
use std::cell::OnceCell;

/// Where a nail stands.
#[derive(Clone, Copy, Debug)]
pub struct NailPlace {
    /// On the developed bottom, mm.
    pub point: Point,
    /// The side.
    pub side: Side,
}

/// A line of clinch nails of one size.
#[derive(Clone, Debug)]
pub struct NailsBuilt {
    /// From the feather line inward, mm.
    pub inset: f64,
    /// Every nail, outside first, heel to toe on the outside, toe to heel on the inside.
    pub places: Vec<NailPlace>,
    /// How many on the outside, on the inside; a seat counts all as outside.
    pub counts: (usize, usize),
    /// The spacing evened, mm, by side.
    pub spacing: (f64, f64),
    /// The layers where the stack is thickest.
    pub thickest: Sum,
    /// The layers where it is thinnest.
    pub thinnest: Sum,
    /// The lengths that serve every nail of every boot, mm; `lo > hi` where none can.
    pub window: Window,
    /// The length used: stated, or the shortest stocked one that serves.
    pub length: Option<f64>,
    /// Stocked lengths, ascending, mm.
    pub stocked: Vec<f64>,
    /// The length that the model states.
    pub stated: Option<f64>,
    /// Where the stock's lengths, or the stated length, were written.
    pub length_origin: Origin,
    /// How much nail stands beyond the layers, least and most, with where the house says so.
    pub clinch: (Window, Origin),
    /// How many nails stand in each rigid layer.
    pub in_rigid: Vec<(Role, usize)>,
    /// The last station on each side that a nail may stand at, x, and where the line's last nail stands.
    pub limits: Vec<JointLimit>,
}

/// How far towards the toe a side's line may go.
#[derive(Clone, Copy, Debug)]
pub struct JointLimit {
    /// The side.
    pub side: Side,
    /// x of its foremost nail.
    pub foremost: f64,
    /// x that it must not pass.
    pub limit: f64,
}

pub(super) fn nails(
    model: &Model,
    house: &House,
    lines: &Lines,
    (line, seat): (&NailLine, bool),
    inside: &Inside,
) -> Built<NailsBuilt> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let (inset, apart) = (mm(&line.inside_feather)?, mm(&line.apart)?);
    let lost = Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: line.span };
    if apart <= 0.0 {
        return Err(lost);
    }
    let rail = inside.rail(lines, inset);
    let behind_joint = mm(&house.rule("behind-joint"))?;
    let ways = if seat {
        vec![seat_way(&lines.last, &rail, apart).ok_or(lost)?]
    } else {
        waist_ways(&lines.last, &rail, maybe(line.to.as_ref())?, behind_joint).ok_or(lost)?
    };
    let (places, spread) = placed(&rail, &ways, apart);
    let standing: Vec<Standing<'_>> = places.iter().map(|place| Standing::new(place, &lines.last)).collect();
    let in_rigid = in_rigid(bottom, &standing)?;
    let stacks = stacks(model, bottom, &standing, seat)?;
    drop(standing);
    let (thickest, thinnest) = extremes(&stacks).ok_or(lost)?;
    let nail = &of(&line.with)?.it;
    let clinch_rule = house.rule("clinch")?;
    let clinch = clinch_rule.it.window();
    let sunk = maybe(nail.sunk.as_ref())?.unwrap_or(0.0);
    let window = Window { lo: thickest.spread().hi + clinch.lo + sunk, hi: thinnest.spread().lo + clinch.hi + sunk };
    let lengths = of(&nail.lengths)?;
    let mut stocked: Vec<f64> = lengths.it.iter().map(|length| length.it.nominal()).collect();
    stocked.sort_by(f64::total_cmp);
    let stated = maybe(line.length.as_ref())?;
    let length_origin = match &line.length {
        Some(Ok(stated)) => stated.origin.clone(),
        _ => lengths.origin.clone(),
    };
    let length =
        stated.or_else(|| stocked.iter().copied().find(|length| fits(window.lo, *length) && fits(*length, window.hi)));
    let limits = if seat { Vec::new() } else { limits(lines, &places, behind_joint) };
    let [first, second] = [0, 1].map(|n| spread.get(n).copied().unwrap_or((0, 0.0)));
    Ok(NailsBuilt {
        inset,
        places,
        counts: (first.0, second.0),
        spacing: (first.1, second.1),
        thickest,
        thinnest,
        window,
        length,
        stocked,
        stated,
        length_origin,
        clinch: (clinch, clinch_rule.origin),
        in_rigid,
        limits,
    })
}

impl NailsBuilt {
    /// From the foremost nail on each side to where the forefoot's row begins on that side, mm: outside, inside.
    #[must_use]
    pub fn to_forefoot(&self, forefoot: &super::ForefootBuilt) -> Option<(f64, f64)> {
        let foremost = |side: Side| {
            let of_side = self.places.iter().filter(|place| place.side == side);
            of_side.map(|place| place.point).max_by(|a, b| a.x.total_cmp(&b.x))
        };
        let end = |t: f64| forefoot.row.point(t);
        Some((
            foremost(Side::Outside)?.distance(end(forefoot.from)),
            foremost(Side::Inside)?.distance(end(forefoot.to)),
        ))
    }
}

/// Nails on a way of a length: `floor(length / apart) + 1`, both ends with a nail, and the spacing evened. A way shorter
/// than `apart` has one at each end all the same; one shorter than half of it a single nail, where it begins.
#[must_use]
pub fn nails_on(length: f64, apart: f64) -> (u32, f64) {
    if !fits(apart / 2.0, length) {
        return (1, 0.0);
    }
    let whole = (length / apart + SLACK).floor().clamp(1.0, 10_000.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped above")]
    let gaps = whole as u32;
    (gaps + 1, length / f64::from(gaps))
}

type Way = (Side, f64, f64);

/// The sum whose thick end is greatest, and that whose thin end is least; of equal ones the first.
fn extremes(stacks: &[Sum]) -> Option<(Sum, Sum)> {
    let thickest = stacks.iter().reduce(|best, sum| if sum.spread().hi > best.spread().hi { sum } else { best })?;
    let thinnest = stacks.iter().reduce(|best, sum| if sum.spread().lo < best.spread().lo { sum } else { best })?;
    Some((thickest.clone(), thinnest.clone()))
}

/// The nails of each way, evenly spaced with one at both ends; how many there are, and how far apart, mm.
fn placed(rail: &Rail, ways: &[Way], apart: f64) -> (Vec<NailPlace>, Vec<(usize, f64)>) {
    let mut places = Vec::new();
    let mut spread = Vec::new();
    for (side, from, to) in ways {
        let (count, spacing) = nails_on(rail.length_between(*from, *to), apart);
        let count = count as usize;
        spread.push((count, spacing));
        let evenly = rail.evenly(*from, *to, count - 1);
        places.extend(evenly.into_iter().map(|t| NailPlace { point: rail.point(t), side: *side }));
    }
    (places, spread)
}

/// From the breast line to 10 mm (house) behind that side's joint, or to the station that the model says.
fn waist_ways(last: &GradedLast, rail: &Rail, to: Option<f64>, behind_joint: f64) -> Option<Vec<Way>> {
    let at = |x: f64, side: Side| rail.crossings_on(&Straight::square_at(x), side).first().copied();
    let end = |joint: f64| to.map_or(joint - behind_joint, |share| share / 100.0 * last.bottom).max(last.breast);
    let outside = (Side::Outside, at(last.breast, Side::Outside)?, at(end(last.joint_outside), Side::Outside)?);
    let inside = (Side::Inside, at(end(last.joint_inside), Side::Inside)?, at(last.breast, Side::Inside)?);
    Some(vec![outside, inside])
}

/// Round the heel between the crossings with the line one spacing behind the breast.
fn seat_way(last: &GradedLast, rail: &Rail, apart: f64) -> Option<Way> {
    let line = Straight::square_at(last.breast - apart);
    let inside = *rail.crossings_on(&line, Side::Inside).last()?;
    let outside = *rail.crossings_on(&line, Side::Outside).first()?;
    Some((Side::Outside, inside, rail.period() + outside))
}

fn limits(lines: &Lines, places: &[NailPlace], behind_joint: f64) -> Vec<JointLimit> {
    let limit = |side: Side, joint: f64| {
        let foremost = places.iter().filter(|place| place.side == side).map(|place| place.point.x).fold(0.0, f64::max);
        JointLimit { side, foremost, limit: joint - behind_joint }
    };
    vec![limit(Side::Outside, lines.last.joint_outside), limit(Side::Inside, lines.last.joint_inside)]
}

/// The layers that a nail goes through where it stands in them, from the sole up.
const UNDER_THE_INSOLE: [Role; 5] = [Role::Midsole, Role::Filler, Role::Pad, Role::Shank, Role::Arch];

/// The stacks of all nails, each arrangement of layers once, in the order in which a nail first stands in it.
fn stacks(model: &Model, bottom: &Bottom, nails: &[Standing<'_>], seat: bool) -> Built<Vec<Sum>> {
    let layers: Vec<&Layer> =
        UNDER_THE_INSOLE.iter().filter_map(|role| bottom.layer(*role)).filter(|layer| !layer.rigid).collect();
    let mut known: Vec<Vec<bool>> = Vec::new();
    for nail in nails {
        let within = layers.iter().map(|layer| nail.stands_in(layer)).collect::<Built<Vec<bool>>>()?;
        if !known.contains(&within) {
            known.push(within);
        }
    }
    let stack = |within: Vec<bool>| {
        let crossed = layers.iter().zip(within).filter_map(|(layer, within)| within.then_some(*layer));
        layers_of(model, bottom, crossed, seat)
    };
    known.into_iter().map(stack).collect()
}

/// Nails that stand in what no nail goes through.
fn in_rigid(bottom: &Bottom, nails: &[Standing<'_>]) -> Built<Vec<(Role, usize)>> {
    let mut all = Vec::new();
    for layer in bottom.layers.iter().filter(|layer| layer.rigid) {
        let mut count = 0;
        for nail in nails {
            count += usize::from(nail.stands_in(layer)?);
        }
        all.push((layer.role, count));
    }
    Ok(all)
}

/// What a nail goes through: the layers that it stands in, lining, insole; in the seat the outer that is lasted in
/// there, too.
fn layers_of<'b>(model: &Model, bottom: &Bottom, crossed: impl Iterator<Item = &'b Layer>, seat: bool) -> Built<Sum> {
    let mut sum = Sum::new();
    for layer in crossed {
        sum.terms.extend(Ply::of_layer(layer)?.iter().map(Ply::term));
    }
    sum.terms.extend(lining(model)?.as_ref().map(Ply::term));
    if seat && let Some(part) = model.seat_part()? {
        sum.terms.push(Ply::of_part(&part.it)?.term());
    }
    sum.terms.extend(Ply::of_role(bottom, Role::Insole)?.iter().map(Ply::term));
    Ok(sum)
}

/// A nail where it stands on the bottom.
struct Standing<'n> {
    point: Point,
    last: &'n GradedLast,
    /// Whether it stands behind the joint line.
    before_joint: bool,
    /// The middle of the bottom's breadth at the nail, mm from the centre line, worked out for the first layer that asks.
    centre: OnceCell<Option<f64>>,
}

impl<'n> Standing<'n> {
    fn new(place: &NailPlace, last: &'n GradedLast) -> Self {
        let before_joint = last.joint_line.signed(place.point) <= SLACK;
        Self { point: place.point, last, before_joint, centre: OnceCell::new() }
    }

    /// Whether it stands in a layer: in its zone, and within its breadth, which is centred in the bottom there.
    fn stands_in(&self, layer: &Layer) -> Built<bool> {
        let (x, breast) = (self.point.x, self.last.breast);
        let zone = match of(&layer.covers)?.it {
            Extent::All => true,
            Extent::Forepart => !self.before_joint,
            Extent::Waist => x >= breast - SLACK && self.before_joint,
            Extent::Seat => x <= breast + SLACK,
        };
        let ends = match of(&layer.ends)?.it {
            Ends::Full => true,
            Ends::BehindBreast(behind) => x >= breast - behind - SLACK,
        };
        let Some(breadth) = &layer.breadth else { return Ok(zone && ends) };
        let half = base(breadth)? / 2.0;
        let within = |centre: f64| (self.point.y - centre).abs() <= half + SLACK;
        Ok(zone && ends && self.centre().is_some_and(within))
    }

    fn centre(&self) -> Option<f64> {
        let middle = || self.last.feather.breadth_at(self.point.x).map(|across| (across.inside - across.outside) / 2.0);
        *self.centre.get_or_init(middle)
    }
}
