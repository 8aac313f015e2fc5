//! Leather and rubber of the bottom, and what bonds them and the linings lasted in.

use super::super::amounts::{base, mm, of};
use super::super::heel::BaseOf;
use super::super::{Build, Built, Lines};
use super::upper::yields;
use super::{BOOTS, DM2};
use crate::geometry::{Path, Rail, Straight};
use crate::spec::{Adhesive, Ends, Extent, Heel, Layer, LayerStock, Role};

/// What a pair takes of one layer.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerTaken {
    /// The layer.
    pub role: Role,
    /// Its stock.
    pub stock: String,
    /// As pressed, with all that is trimmed from it, dm2.
    pub net: f64,
    /// Net over the yield of pressing, dm2, where the stock says it.
    pub gross: Option<f64>,
}

/// What an adhesive holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Held {
    /// A layer of the bottom.
    Layer(Role),
    /// A lining that is lasted in, by its part's name.
    Lining(String),
    /// Wedges, lifts and cap of the heel.
    Heel,
}

impl Held {
    /// As findings and labels have it.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Held::Layer(role) => role.name(),
            Held::Lining(part) => part,
            Held::Heel => "base",
        }
    }

    /// As keys of figures have it: a part may be named like a layer.
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            Held::Layer(role) => role.name().to_owned(),
            Held::Lining(part) => format!("lasted-in.{part}"),
            Held::Heel => "base".to_owned(),
        }
    }
}

/// What a pair takes of an adhesive for one bond.
#[derive(Clone, Debug, PartialEq)]
pub struct Bonded {
    /// What it holds.
    pub held: Held,
    /// The adhesive.
    pub adhesive: String,
    /// Coated faces of a pair, dm2: two of each joint.
    pub faces: f64,
    /// g; none where coats or coverage are not said.
    pub grams: Option<f64>,
}

/// Every layer that is cut from leather or sheet. Moulded outsoles are taken by the blank.
///
/// # Errors
/// The hole of a fault in the bottom or its lines.
pub fn layers(build: &Build<'_>) -> Built<Vec<LayerTaken>> {
    let (bottom, lines, through) = parts(build)?;
    let mut taken = Vec::new();
    for layer in &bottom.layers {
        let stock = &of(&layer.of)?.it;
        let pressed = match stock {
            LayerStock::Outsole(_) => continue,
            LayerStock::Leather(leather, _) => yields(leather.yields.as_ref())?,
            LayerStock::Rubber(_) | LayerStock::Filler(_) => None,
            // Offcuts are left over from the upper.
            LayerStock::Offcuts(_) => continue,
        };
        let net = BOOTS * area(layer, through, lines)? / DM2;
        let gross = pressed.map(|pressed| net / pressed);
        taken.push(LayerTaken { role: layer.role, stock: stock.name().to_owned(), net, gross });
    }
    Ok(taken)
}

/// Every bond of the bottom, of the linings that are lasted in, then the heel's.
///
/// # Errors
/// The hole of a fault in the bottom, its lines or the upper.
pub fn adhesives(build: &Build<'_>) -> Built<Vec<Bonded>> {
    let (bottom, lines, through) = parts(build)?;
    let mut bonds = Vec::new();
    for layer in &bottom.layers {
        let Some(adhesive) = &layer.bonded else { continue };
        bonds.push(bonded(Held::Layer(layer.role), &of(adhesive)?.it, area(layer, through, lines)?)?);
    }
    for lining in &build.model.upper.as_ref().map_err(|hole| *hole)?.lasted_in {
        let Some(adhesive) = &lining.bonded else { continue };
        let held = Held::Lining(of(&lining.part)?.it.name.clone());
        let broad = mm(&build.house.rule("lasted-inward"))?;
        let strip = broad * length_in_the_middle(broad, crate::build::bed::stations(lining)?, lines);
        bonds.push(bonded(held, &of(adhesive)?.it, strip)?);
    }
    if let Some(heel) = &build.model.heel
        && let Some(adhesive) = &heel.bonded
    {
        bonds.push(bonded(Held::Heel, &of(adhesive)?.it, of_the_heel(heel, lines)?)?);
    }
    Ok(bonds)
}

/// A bond of so many mm2 on one boot.
fn bonded(held: Held, adhesive: &Adhesive, area: f64) -> Built<Bonded> {
    let faces = BOOTS * 2.0 * area / DM2;
    let grams = match (&adhesive.coats, &adhesive.coverage) {
        // 1 dm2 is a hundredth of 1 m2.
        (Some(coats), Some(coverage)) => Some(faces / 100.0 * f64::from(of(coats)?.it) * base(coverage)?),
        _ => None,
    };
    Ok(Bonded { held, adhesive: adhesive.name.clone(), faces, grams })
}

/// What is joined in the heel of one boot, mm2: each wedge and lift and the cap to what lies over it, all fitted to the edge as
/// it is trimmed.
fn of_the_heel(heel: &Heel, lines: &Lines) -> Built<f64> {
    let rough = lines.rough();
    let piece = rough.area() - rough.area_beyond(&Straight::square_at(lines.last.breast));
    let BaseOf { wedges, lifts, thin } = BaseOf::whole(heel)?;
    Ok(f64::from(wedges + lifts + thin + 1) * piece)
}

/// How long a strip along the feather line, `broad` mm inward, is in its middle between two stations: its breadth times that
/// is its area, however the line bends.
fn length_in_the_middle(broad: f64, (heelmost, toemost): (f64, f64), lines: &Lines) -> f64 {
    let middle = Rail::constant(&lines.last.feather, -broad / 2.0);
    let beyond = |station: f64| {
        if station.is_infinite() {
            return if station > 0.0 { 0.0 } else { middle.length() };
        }
        let stretches = middle.stretches_beyond(&Straight::square_at(station * lines.last.bottom));
        stretches.into_iter().map(|(from, to)| middle.length_between(from, to)).sum()
    };
    (beyond(heelmost) - beyond(toemost)).max(0.0)
}

/// The bottom, its lines, and the layer that the rows end in.
fn parts<'b>(build: &'b Build<'_>) -> Built<(&'b crate::spec::Bottom, &'b Lines, Role)> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let through = of(&bottom.sole.as_ref().map_err(|hole| *hole)?.through)?.it;
    Ok((bottom, build.lines.as_ref().map_err(|hole| *hole)?, through))
}

/// The piece of one boot, mm2. What lies inside the feather line is cut to it; what shows at the edge is cut to where
/// rough-rounding begins, or to the trimmed edge if it is fitted after the rows.
fn area(layer: &Layer, through: Role, lines: &Lines) -> Built<f64> {
    let last = &lines.last;
    let inside = matches!(layer.role, Role::Insole | Role::Arch | Role::Shank | Role::Pad | Role::Filler);
    let cut_to = lines.cut_to(layer.role, through);
    let path: &dyn Path = if inside { &last.feather } else { &cut_to };
    let ends = match of(&layer.ends)?.it {
        Ends::Full => f64::NEG_INFINITY,
        Ends::BehindBreast(behind) => last.breast - behind,
    };
    let extent = of(&layer.covers)?.it;
    if let (Some(breadth), true) = (&layer.breadth, layer.front.is_some() || layer.back.is_some()) {
        let breadth = base(breadth)?;
        let front = layer.front.as_ref().map(base).transpose()?;
        let to = front.map_or_else(|| joint_in_the_middle(lines), |front| last.joint_met(breadth / 2.0) - front);
        let from = last.breast - layer.back.as_ref().map_or(Ok(0.0), base)?;
        return Ok(breadth * (to - from).max(0.0));
    }
    if let Some(breadth) = &layer.breadth {
        return Ok(base(breadth)? * length_of(extent, ends, lines).max(0.0));
    }
    let beyond = |x: f64| if x.is_finite() { path.area_beyond(&Straight::square_at(x)) } else { path.area() };
    Ok(match extent {
        Extent::All => beyond(ends),
        Extent::Forepart => path.area_beyond(&last.joint_line),
        Extent::Waist => beyond(ends.max(last.breast)) - path.area_beyond(&last.joint_line),
        Extent::Seat => (beyond(ends) - beyond(last.breast)).max(0.0),
    })
}

/// How long a strip in the middle of the bottom is, mm.
fn length_of(extent: Extent, ends: f64, lines: &Lines) -> f64 {
    let last = &lines.last;
    let joint = joint_in_the_middle(lines);
    let (from, to) = match extent {
        Extent::All => (0.0, last.bottom),
        Extent::Forepart => (joint, last.bottom),
        Extent::Waist => (last.breast, joint),
        Extent::Seat => (0.0, last.breast),
    };
    to - from.max(ends)
}

/// Where the joint line crosses the middle of the bottom's breadth.
fn joint_in_the_middle(lines: &Lines) -> f64 {
    let last = &lines.last;
    let middle = |x: f64| last.feather.breadth_at(x).map_or(0.0, |across| (across.inside - across.outside) / 2.0);
    let (mut before, mut beyond) =
        (last.joint_inside.min(last.joint_outside), last.joint_inside.max(last.joint_outside));
    // Halved until nothing is left to halve.
    for _ in 0..60 {
        let x = f64::midpoint(before, beyond);
        if last.joint_line.signed(kurbo::Point::new(x, middle(x))) > 0.0 { beyond = x } else { before = x }
    }
    f64::midpoint(before, beyond)
}
