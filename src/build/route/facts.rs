//! What of the model decides which operations it has.

use super::super::Built;
use super::super::amounts::{base, of};
use crate::measure::fits;
use crate::spec::{Bottom, ForefootHold, House, LayerStock, Model, Role, Upper};

/// What a model has, as far as the order of work goes.
#[derive(Clone, Debug)]
#[expect(clippy::struct_excessive_bools, reason = "a list of what a boot has and has not")]
pub(super) struct Facts {
    pub skives: bool,
    pub back_seam: bool,
    pub rubbed_flat: bool,
    pub stay: bool,
    pub gusset: bool,
    pub counter_cover: bool,
    pub vamp: bool,
    pub collar: bool,
    pub facing_rows: bool,
    pub mark: bool,
    pub hardware: bool,
    /// The outer is as heavy as what the house mulls.
    pub heavy: bool,
    pub mulled: bool,
    pub stiffeners: bool,
    pub lining: bool,
    pub filler: bool,
    pub shank: bool,
    pub midsole: bool,
    pub inked: bool,
    pub nailed: bool,
    /// Nails go through the insole: in waist or seat, or tacks that are left in.
    pub clinched: bool,
    pub forefoot: bool,
    pub rubber: bool,
    /// Layers that are cemented before the rows are sewn.
    pub cemented_first: bool,
    /// Layers that are cemented afterwards: the adhesive alone holds them.
    pub cemented_after: bool,
    pub heel: bool,
    pub heel_nailed: bool,
    pub sock: bool,
    /// The machine of the rows has a horn.
    pub horn: bool,
}

impl Facts {
    pub fn of(model: &Model, house: &House) -> Built<Facts> {
        let upper = model.upper.as_ref().map_err(|hole| *hole)?;
        let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
        let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
        let through = of(&sole.through)?.it;
        let below_midsole = |role: Role| matches!(role, Role::Slip | Role::Outsole);
        let has = |role: Role| bottom.layer(role).is_some();
        let enters = |lap: &crate::spec::Lap| lap.enters_inside.is_some() || lap.enters_outside.is_some();
        let finish = &model.finish;
        let stiffeners = [&upper.counter, &upper.puff];
        Ok(Facts {
            skives: upper.laps.iter().any(|lap| !lap.skives.is_empty())
                || stiffeners.into_iter().flatten().any(|stiffened| stiffened.skived.is_some()),
            back_seam: !upper.seams.is_empty(),
            rubbed_flat: upper.seams.iter().any(|seam| seam.rubbed_flat),
            stay: !upper.stays.is_empty(),
            gusset: !upper.gussets.is_empty(),
            counter_cover: upper.laps.iter().any(|lap| !enters(lap)),
            vamp: upper.laps.iter().any(enters),
            collar: upper.collar.is_some(),
            facing_rows: upper.facing.as_ref().is_some_and(|facing| facing.rows.is_some()),
            mark: upper.mark.is_some(),
            hardware: upper.facing.as_ref().is_some_and(|facing| facing.eyelets.is_some() || facing.hooks.is_some()),
            heavy: heavy(upper, house)?,
            mulled: heavy(upper, house)? || model.lasting.mulled.is_some(),
            stiffeners: stiffeners.into_iter().any(Option::is_some),
            lining: !upper.lasted_in.is_empty(),
            filler: has(Role::Filler),
            shank: [Role::Arch, Role::Shank, Role::Pad].into_iter().any(has),
            midsole: has(Role::Midsole),
            inked: match &finish.edge {
                Some((how, _)) => of(how)?.it != "natural",
                None => false,
            },
            nailed: bottom.waist.is_some() || bottom.seat.is_some(),
            clinched: bottom.waist.is_some() || bottom.seat.is_some() || model.lasting.tacks_left.is_some(),
            forefoot: match &bottom.forefoot {
                Some(forefoot) => of(&forefoot.hold)?.it == ForefootHold::Sewn,
                None => false,
            },
            rubber: rubber(bottom)?,
            cemented_first: bottom.layers.iter().any(|layer| below_midsole(layer.role) && layer.role <= through),
            cemented_after: bottom.layers.iter().any(|layer| below_midsole(layer.role) && layer.role > through),
            heel: model.heel.is_some(),
            heel_nailed: model.heel.as_ref().is_some_and(|heel| heel.nails.is_some()),
            sock: match &finish.sock_lining {
                Some((how, _)) => of(how)?.it != "none",
                None => false,
            },
            horn: of(&sole.on)?.it.shafts.is_some(),
        })
    }
}

/// A turned-out part is as heavy as what the house mulls, by its nominal substance.
fn heavy(upper: &Upper, house: &House) -> Built<bool> {
    let from = base(&house.rule("mulled-from"))?;
    for part in upper.turned_out.as_ref().map_err(|hole| *hole)? {
        if fits(from, base(&of(&part.it.of)?.it.substance)?) {
            return Ok(true);
        }
    }
    Ok(false)
}

fn rubber(bottom: &Bottom) -> Built<bool> {
    for layer in bottom.layers.iter().filter(|layer| matches!(layer.role, Role::Slip | Role::Outsole)) {
        if !matches!(of(&layer.of)?.it, LayerStock::Leather(..)) {
            return Ok(true);
        }
    }
    Ok(false)
}
