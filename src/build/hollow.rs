//! The hollow of the seat inside the outer that is lasted in, and what fills it.

use super::Built;
use super::amounts::of;
use super::ply::Ply;
use crate::source::Origin;
use crate::spec::{Layer, Model, Role};

/// The seat's hollow of one model; it is the same in all sizes.
#[derive(Clone, Debug)]
pub struct Hollow {
    /// How thick the outer is that is lasted in round it, nominal, mm, and where that was written.
    pub outer: (f64, Origin),
    /// How thick the filler is, nominal, mm, and where that was written; none without one.
    pub filler: Option<(f64, Origin)>,
    /// How far shank, pad and arch piece together stand above the filler on the breast line, nominal, mm; 0 or less where
    /// they are let into it. With where the first of them was written.
    pub above: Option<(f64, Origin)>,
}

/// None where no outer is lasted in.
pub(super) fn hollow(model: &Model) -> Built<Option<Hollow>> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let Some(part) = model.seat_part()? else { return Ok(None) };
    let outer = Ply::of_part(&part.it)?;
    let filler = bottom.layer(Role::Filler).map(thick).transpose()?;
    let over = [Role::Pad, Role::Shank, Role::Arch].into_iter().filter_map(|role| bottom.layer(role));
    let over: Vec<(f64, Origin)> = over.map(at_the_breast).collect::<Built<_>>()?;
    let first = over.iter().find(|(thick, _)| *thick > 0.0).map(|(_, origin)| origin.clone());
    let together: f64 = over.iter().map(|(thick, _)| thick).sum();
    let above = match (&filler, first) {
        (Some((filler, _)), Some(origin)) => Some((together - filler, origin)),
        _ => None,
    };
    Ok(Some(Hollow { outer: (outer.spread.nominal, outer.origin), filler, above }))
}

fn thick(layer: &Layer) -> Built<(f64, Origin)> {
    let nominal = Ply::of_layer(layer)?.iter().map(|ply| ply.spread.nominal).sum();
    Ok((nominal, of(&layer.of)?.origin.clone()))
}

/// What is left of a piece on the breast line, in the middle: its back end may be skived.
fn at_the_breast(layer: &Layer) -> Built<(f64, Origin)> {
    let (nominal, origin) = thick(layer)?;
    let length = |value: Option<&_>| value.map(super::amounts::mm).transpose();
    let (back, skived) = (length(layer.back.as_ref())?, length(layer.skived.ends.as_ref())?);
    let share = match (back, skived) {
        // Without a back end of its own it ends on the breast line.
        (None, Some(skived)) if skived > 0.0 => 0.0,
        (Some(back), Some(skived)) if skived > 0.0 => (back / skived).min(1.0),
        _ => 1.0,
    };
    Ok((nominal * share, origin))
}
