//! Leather of the upper: net, gross and share of a hide, by the zone that it is cut from.

use super::super::amounts::{base, maybe, of};
use super::super::{Build, Built, GradedLast};
use super::{BOOTS, DM2};
use crate::geometry::{Path, Straight};
use crate::spec::{Shares, UpperLeather, Val};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What a pair takes of one zone of a leather.
#[derive(Clone, Debug, PartialEq)]
pub struct ZoneTaken {
    /// `prime` or `second`.
    pub zone: &'static str,
    /// Net area, dm2.
    pub net: f64,
    /// What must be cut from, dm2: net over `cuts`.
    pub gross: Option<f64>,
    /// Hides: gross over what a hide has of this zone.
    pub hides: Option<f64>,
}

/// What a pair takes of one leather.
#[derive(Clone, Debug, PartialEq)]
pub struct LeatherTaken {
    /// The leather.
    pub name: String,
    /// By zone, the best first.
    pub zones: Vec<ZoneTaken>,
    /// Hides: the greatest over the zones, as one hide gives all of them. None if a zone is not known.
    pub hides: Option<f64>,
}

/// The zones of a hide, the best first.
const ZONES: [&str; 2] = ["prime", "second"];

/// Where a part is cut that does not say: nobody goes short of the better zone then.
const UNSAID: &str = ZONES[0];

/// Every leather of the upper and the sock lining, by name.
///
/// # Errors
/// The hole of a fault in a part, its leather or the last.
pub fn leathers(build: &Build<'_>) -> Built<Vec<LeatherTaken>> {
    let mut nets: BTreeMap<String, (Arc<UpperLeather>, [f64; 2])> = BTreeMap::new();
    let mut add = |leather: &Arc<UpperLeather>, zone: &str, area: f64| {
        let known = nets.entry(leather.name.clone()).or_insert_with(|| (Arc::clone(leather), [0.0; 2]));
        known.1[usize::from(zone == ZONES[1])] += area;
    };
    for built in &build.parts {
        let zone = match &built.part.zone {
            Some(zone) => of(zone)?.it,
            None => UNSAID,
        };
        add(&of(&built.part.of)?.it, zone, built.pair.as_ref().map_err(|hole| *hole).copied()?);
    }
    if let Some((how, Some(leather))) = &build.model.finish.sock_lining {
        let last = build.last.as_ref().map_err(|hole| *hole)?;
        add(&of(leather)?.it, UNSAID, BOOTS * sock(of(how)?.it, last));
    }
    nets.into_values().map(|(leather, nets)| taken(&leather, nets)).collect()
}

/// The sock lining of one boot, dm2: the bottom, or what of it lies behind the breast.
fn sock(how: &str, last: &GradedLast) -> f64 {
    let whole = last.feather.area();
    let mm2 = match how {
        "full" => whole,
        "heel" => whole - last.feather.area_beyond(&Straight::square_at(last.breast)),
        _ => 0.0,
    };
    mm2 / DM2
}

fn taken(leather: &UpperLeather, nets: [f64; 2]) -> Built<LeatherTaken> {
    let hide = maybe(leather.hide.as_ref())?;
    let mut zones = Vec::new();
    for (zone, net) in ZONES.into_iter().zip(nets).filter(|(_, net)| *net > 0.0) {
        let gross = share(leather.cuts.as_ref(), zone)?.map(|cuts| net / cuts);
        let of_hide = share(leather.of_hide.as_ref(), zone)?;
        let hides = gross.zip(hide).zip(of_hide).map(|((gross, hide), of_hide)| gross / (hide * of_hide));
        zones.push(ZoneTaken { zone, net, gross, hides });
    }
    let each: Option<Vec<f64>> = zones.iter().map(|zone| zone.hides).collect();
    let hides = each.and_then(|each| each.into_iter().reduce(f64::max));
    Ok(LeatherTaken { name: leather.name.clone(), zones, hides })
}

/// The share of a zone, 0 to 1.
fn share(shares: Option<&Val<Shares>>, zone: &str) -> Built<Option<f64>> {
    let Some(shares) = shares else { return Ok(None) };
    let share = of(shares)?.it.iter().find(|(known, _)| *known == zone);
    Ok(share.map(|(_, share)| share.it.nominal() / 100.0))
}

/// The share of a single value, 0 to 1.
pub(super) fn yields(value: Option<&Val<crate::measure::Amount>>) -> Built<Option<f64>> {
    Ok(value.map(base).transpose()?.map(|percent| percent / 100.0))
}
