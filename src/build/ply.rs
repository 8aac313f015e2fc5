//! Plies: the things that lie on each other, each with its spread and its source of variation.

use super::Built;
use super::amounts::{base, of};
use crate::finding::{LayerPiece, PartPlace, Piece, Term, Variation};
use crate::measure::{Amount, Spread};
use crate::source::Origin;
use crate::spec::{Layer, LayerStock, Part, Role, Val};
use std::sync::Arc;

/// One thing in a stack.
#[derive(Clone, Debug)]
pub struct Ply {
    /// What it is.
    pub what: Piece,
    /// Its thickness, mm.
    pub spread: Spread,
    /// What it varies with.
    pub source: Variation,
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
            what: self.what.clone(),
            coefficient: 1.0,
            spread,
            source: Some(self.source.clone()),
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
        let (name, leather_name): (Arc<str>, Arc<str>) = (part.name.as_str().into(), leather.name.as_str().into());
        Ok(Ply {
            source: if leather.one_hide {
                Variation::Hide(Arc::clone(&leather_name))
            } else {
                Variation::Part(Arc::clone(&name))
            },
            what: Piece::Part { part: name, leather: leather_name, place: PartPlace::Whole },
            spread: substance.it.spread(),
            origin: substance.origin.clone(),
            tolerance: None,
        })
    }

    /// The plies of a layer: one, or base and lugs of a moulded outsole.
    ///
    /// # Errors
    /// The hole of a fault in the layer or its stock.
    pub fn of_layer(layer: &Layer) -> Built<Vec<Ply>> {
        let stock = &of(&layer.of)?.it;
        let ply = |piece: LayerPiece, spread: Spread, origin: &Origin| Ply {
            what: Piece::Layer {
                role: layer.role,
                piece,
                stock: stock.name().into(),
                material: stock.material(),
                hammered: None,
            },
            spread,
            source: Variation::Layer(layer.role, piece),
            origin: origin.clone(),
            tolerance: None,
        };
        let piece = |piece: LayerPiece, thickness: &Val<Amount>| {
            of(thickness).map(|thickness| ply(piece, thickness.it.spread(), &thickness.origin))
        };
        Ok(match stock {
            LayerStock::Leather(leather, substance) => {
                let spread = hammered(leather.spread_of(&substance.it)?, layer)?;
                let known = leather.tolerance.as_ref().and_then(|value| value.as_ref().ok());
                let mut one = ply(LayerPiece::Whole, spread, &substance.origin);
                one.what = one.what.hammered(layer.hammered.as_ref().and_then(|share| base(share).ok()));
                vec![Ply { tolerance: known.map(|value| value.origin.clone()), ..one }]
            }
            LayerStock::Rubber(rubber) => vec![piece(LayerPiece::Whole, &rubber.thickness)?],
            LayerStock::Filler(filler) => vec![piece(LayerPiece::Whole, &filler.thickness)?],
            LayerStock::Offcuts(leather) => vec![piece(LayerPiece::Whole, &leather.substance)?],
            LayerStock::Outsole(outsole) => {
                let mut plies = vec![piece(LayerPiece::Base, &outsole.base)?];
                if let Some(lug) = &outsole.lug {
                    plies.push(piece(LayerPiece::Lug, lug)?);
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
        let film = of(film)?;
        Ok(Some(Ply {
            what: Piece::Film { over: layer.role, adhesive: adhesive.name.as_str().into() },
            spread: film.it.spread(),
            source: Variation::Film(layer.role),
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
