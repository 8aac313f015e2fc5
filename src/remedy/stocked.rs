//! What else is on the shelf: other items of the kind that a slot names, nearest first.

use super::trial::Trial;
use crate::language::At;
use crate::language::vocabulary::Thing;
use crate::measure::Amount;
use crate::spec::{Val, Valued};

fn nominal(value: &Val<Amount>) -> f64 {
    value.as_ref().map_or(0.0, |value| value.it.nominal())
}

/// Every item of a kind with the measure by which it is nearer to one or another.
pub fn items(trial: &Trial, thing: Thing) -> Vec<(String, f64)> {
    let stock = &trial.world.stock;
    macro_rules! all {
        ($map:expr, $measure:expr) => {
            $map.iter().map(|(name, item)| (name.clone(), $measure(item))).collect()
        };
    }
    match thing {
        Thing::UpperLeather => all!(stock.upper_leathers, |it: &std::sync::Arc<_>| substance(it)),
        Thing::Outsole => all!(stock.outsoles, |it: &std::sync::Arc<crate::spec::Outsole>| {
            nominal(&it.base) + it.lug.as_ref().map_or(0.0, nominal)
        }),
        Thing::Rubber => all!(stock.rubbers, |it: &std::sync::Arc<crate::spec::Rubber>| nominal(&it.thickness)),
        Thing::Cap => all!(stock.caps, |it: &std::sync::Arc<crate::spec::Cap>| nominal(&it.thickness)),
        Thing::Stiffener => {
            all!(stock.stiffeners, |it: &std::sync::Arc<crate::spec::Stiffener>| nominal(&it.thickness))
        }
        Thing::Thread => all!(stock.threads, |it: &std::sync::Arc<crate::spec::Thread>| nominal(&it.size)),
        Thing::Nail => all!(stock.nails, |_| 0.0),
        Thing::Eyelet => all!(stock.eyelets, |it: &std::sync::Arc<crate::spec::Hardware>| nominal(&it.punch)),
        Thing::Hook => all!(stock.hooks, |it: &std::sync::Arc<crate::spec::Hardware>| nominal(&it.punch)),
        Thing::Adhesive => all!(stock.adhesives, |_| 0.0),
        Thing::Machine => {
            let shop = trial.world.shop.as_ref();
            shop.map(|shop| shop.machines.keys().map(|name| (name.clone(), 0.0)).collect()).unwrap_or_default()
        }
        Thing::Setter => {
            let shop = trial.world.shop.as_ref();
            shop.map(|shop| shop.setters.iter().map(|it| (it.name.clone(), 0.0)).collect()).unwrap_or_default()
        }
        _ => Vec::new(),
    }
}

fn substance(leather: &crate::spec::UpperLeather) -> f64 {
    nominal(&leather.substance)
}

/// Machines that make the same stitch, over a horn or without one.
fn machines(trial: &Trial, name: &str) -> Vec<(String, f64)> {
    let Some(shop) = &trial.world.shop else { return Vec::new() };
    let Some(now) = shop.machines.get(name) else { return Vec::new() };
    let makes = |machine: &crate::spec::Machine| machine.stitch.as_ref().ok().map(|stitch| stitch.it);
    let alike = |machine: &crate::spec::Machine| {
        makes(machine) == makes(now) && machine.shafts.is_some() == now.shafts.is_some()
    };
    shop.machines.iter().filter(|(_, machine)| alike(machine)).map(|(name, _)| (name.clone(), 0.0)).collect()
}

/// Items of a kind other than `name`, nearest first.
pub fn others(trial: &Trial, thing: Thing, name: &str) -> Vec<String> {
    let all = if thing == Thing::Machine { machines(trial, name) } else { items(trial, thing) };
    let now = all.iter().find(|(known, _)| known == name).map_or(0.0, |(_, measure)| *measure);
    let mut others: Vec<(String, f64)> = all.into_iter().filter(|(known, _)| known != name).collect();
    others.sort_by(|a, b| (a.1 - now).abs().total_cmp(&(b.1 - now).abs()).then_with(|| a.0.cmp(&b.0)));
    others.into_iter().map(|(name, _)| name).collect()
}

fn list(values: &Val<Vec<At<Amount>>>) -> Vec<Amount> {
    match values {
        Ok(Valued { it, .. }) => it.iter().map(|value| value.it).collect(),
        Err(_) => Vec::new(),
    }
}

/// Substances of sole leather or of lifts with the name that they are stocked under, nearest to `now` (mm) first.
pub fn substances(trial: &Trial, thing: Thing, now: f64) -> Vec<(String, Amount)> {
    let stock = &trial.world.stock;
    let mut all: Vec<(String, Amount)> = Vec::new();
    match thing {
        Thing::SoleLeather => {
            for (name, leather) in &stock.sole_leathers {
                all.extend(list(&leather.substances).into_iter().map(|amount| (name.clone(), amount)));
            }
        }
        Thing::Lift => {
            for (name, lift) in &stock.lifts {
                all.extend(list(&lift.substances).into_iter().map(|amount| (name.clone(), amount)));
            }
        }
        _ => {}
    }
    let far = |amount: &Amount| (amount.nominal() - now).abs();
    all.sort_by(|a, b| far(&a.1).total_cmp(&far(&b.1)).then_with(|| a.0.cmp(&b.0)));
    all
}

/// The lengths in which a nail is stocked, shortest first.
pub fn lengths(trial: &Trial, nail: &str) -> Vec<Amount> {
    let mut lengths = trial.world.stock.nails.get(nail).map(|nail| list(&nail.lengths)).unwrap_or_default();
    lengths.sort_by_key(Amount::exact);
    lengths
}
