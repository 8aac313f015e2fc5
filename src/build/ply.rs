//! Plies: the things that lie on each other, each with its spread and its source of variation.

use super::Built;
use super::amounts::{base, of};
use crate::finding::Term;
use crate::measure::Spread;
use crate::source::Origin;
use crate::spec::{Layer, Material, Part, Role};
use std::sync::Arc;

/// How the sources of variation of the bottom's layers begin.
pub(super) const LAYER: &str = "layer ";

/// One thing in a stack.
#[derive(Clone, Debug)]
pub struct Ply {
    /// What it is.
    pub what: Arc<str>,
    /// Its thickness, mm.
    pub spread: Spread,
    /// What it varies with.
    pub source: Arc<str>,
    /// Where its thickness was written.
    pub origin: Origin,
    /// Where its tolerance was written, if that is another place.
    pub tolerance: Option<Origin>,
}

impl Ply {
    /// The ply as a term of a sum.
    #[must_use]
    pub fn term(&self) -> Term {
        self.term_as(self.spread)
    }

    /// The same with another thickness: a place on a skive.
    #[must_use]
    pub fn term_as(&self, spread: Spread) -> Term {
        Term {
            what: Arc::clone(&self.what),
            coefficient: 1.0,
            spread,
            source: Some(Arc::clone(&self.source)),
            origin: self.origin.clone(),
            tolerance: self.tolerance.clone(),
        }
    }

    /// The ply of a part of the upper at its full thickness. Parts vary on their own unless their leather is
    /// cut from one hide.
    ///
    /// # Errors
    /// The hole of a fault in the part or its leather.
    pub fn of_part(part: &Part) -> Built<Ply> {
        let leather = &of(&part.of)?.it;
        let substance = of(&leather.substance)?;
        let source = if leather.one_hide { format!("leather {}", leather.name) } else { format!("part {}", part.name) };
        Ok(Ply {
            what: format!("{} ({})", part.name, leather.name).into(),
            spread: substance.it.spread(),
            source: source.into(),
            origin: substance.origin.clone(),
            tolerance: None,
        })
    }

    /// The plies of a layer: one, or base and lugs of a moulded outsole.
    ///
    /// # Errors
    /// The hole of a fault in the layer or its stock.
    pub fn of_layer(layer: &Layer) -> Built<Vec<Ply>> {
        let role = layer.role.name();
        let piece = |part: &str| -> Arc<str> { format!("{LAYER}{role}{part}").into() };
        let of_one = |name: &str, thickness: &crate::spec::Valued<crate::measure::Amount>| Ply {
            what: format!("{role} ({name})").into(),
            spread: thickness.it.spread(),
            source: piece(""),
            origin: thickness.origin.clone(),
            tolerance: None,
        };
        Ok(match &of(&layer.of)?.it {
            Material::Leather(leather, substance) => vec![Ply {
                what: format!("{role} ({}){}", leather.name, said_of(layer)).into(),
                spread: hammered(leather.spread_of(&substance.it)?, layer)?,
                source: piece(""),
                origin: substance.origin.clone(),
                tolerance: leather
                    .tolerance
                    .as_ref()
                    .and_then(|value| value.as_ref().ok())
                    .map(|value| value.origin.clone()),
            }],
            Material::Rubber(rubber) => vec![of_one(&rubber.name, of(&rubber.thickness)?)],
            Material::Filler(filler) => vec![of_one(&filler.name, of(&filler.thickness)?)],
            Material::Offcuts(leather) => vec![of_one(&leather.name, of(&leather.substance)?)],
            Material::Outsole(outsole) => {
                let ply = |part: &str, value: &crate::spec::Valued<crate::measure::Amount>| Ply {
                    what: format!("{role} {part} ({})", outsole.name).into(),
                    spread: value.it.spread(),
                    source: piece(&format!(" {part}")),
                    origin: value.origin.clone(),
                    tolerance: None,
                };
                let mut plies = vec![ply("base", of(&outsole.base)?)];
                if let Some(lug) = &outsole.lug {
                    plies.push(ply("lug", of(lug)?));
                }
                plies
            }
        })
    }

    /// The film of the adhesive that holds a layer to the one above; none where the adhesive does not say how thick it is,
    /// or nothing is said to hold the layer.
    ///
    /// # Errors
    /// The hole of a fault in the adhesive or its film.
    pub fn film_over(layer: &Layer) -> Built<Option<Ply>> {
        let Some(adhesive) = &layer.bonded else { return Ok(None) };
        let adhesive = &of(adhesive)?.it;
        let Some(film) = &adhesive.film else { return Ok(None) };
        let (film, role) = (of(film)?, layer.role.name());
        Ok(Some(Ply {
            what: format!("film over the {role} ({})", adhesive.name).into(),
            spread: film.it.spread(),
            source: format!("film over {role}").into(),
            origin: film.origin.clone(),
            tolerance: None,
        }))
    }

    /// The plies of the layer of a role, none if the bottom has no such layer.
    ///
    /// # Errors
    /// The hole of a fault in the layer or its stock.
    pub fn of_role(bottom: &crate::spec::Bottom, role: Role) -> Built<Vec<Ply>> {
        bottom.layer(role).map_or(Ok(Vec::new()), Ply::of_layer)
    }
}

/// What hammering leaves of a piece of leather.
fn hammered(spread: Spread, layer: &Layer) -> Built<Spread> {
    let Some(share) = &layer.hammered else { return Ok(spread) };
    let left = 1.0 - base(share)? / 100.0;
    Ok(Spread { lo: spread.lo * left, nominal: spread.nominal * left, hi: spread.hi * left })
}

/// `, hammered 5 %`
fn said_of(layer: &Layer) -> String {
    match layer.hammered.as_ref().map(base) {
        Some(Ok(share)) => format!(", hammered {share} %"),
        _ => String::new(),
    }
}
