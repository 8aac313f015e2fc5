//! The lasting margin: what the upper needs outside the feather line, and what is left for the pincers.

use super::Built;
use super::amounts::of;
use super::lines::lining_at;
use super::ply::Ply;
use crate::finding::{Sum, Term};
use crate::measure::Amount;
use crate::source::Origin;
use crate::spec::{House, Model, Role, Val};

/// The margin at one place, mm.
#[derive(Clone, Debug)]
pub struct Margin {
    /// `toe`, `joints`, `heel`
    pub place: &'static str,
    /// As stated, from the feather line.
    pub stated: f64,
    /// Where that was written.
    pub origin: Origin,
    /// What it must become: turnout and what is cut off it, or what is lasted in.
    pub needed: Sum,
    /// What is free beyond insole and lining.
    pub free: Sum,
    /// What the pincers need, and where the house says so.
    pub pincers: (f64, Origin),
}

/// The margins of a model; the same in all sizes.
pub(super) fn margins(model: &Model, house: &House) -> Built<Vec<Margin>> {
    let Some([toe, joints, heel]) = &model.lasting.margin else { return Ok(Vec::new()) };
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let turnout = bottom.turnout.as_ref().map_err(|hole| *hole)?;
    let insole = Ply::of_role(bottom, Role::Insole)?;
    let under = |share: f64| -> Built<Sum> {
        Ok(Sum { terms: insole.iter().chain(&lining_at(model, share)?).map(Ply::term).collect() })
    };
    let (under, at_the_heel) = (under(1.0)?, under(0.0)?);
    let turned_out = |zone: &Val<Amount>| -> Built<Sum> {
        let sum = under.clone().plus(term("turnout", zone)?);
        let sum = sum.plus(term("trimming and sanding", &house.rule("off-the-edge"))?);
        Ok(sum.plus(term("rough-rounding", &house.rule("cut"))?))
    };
    let lasted_in = at_the_heel.clone().plus(term("over the insole", &house.rule("lasted-inward"))?);
    let margin = |place, stated: &Val<Amount>, needed, under: &Sum| -> Built<Margin> {
        let (margin, pincers) = (of(stated)?, house.rule("pincers")?);
        Ok(Margin {
            place,
            stated: margin.it.nominal(),
            origin: margin.origin.clone(),
            needed,
            free: Sum::new().plus(term("margin", stated)?).less(under),
            pincers: (pincers.it.nominal(), pincers.origin),
        })
    };
    Ok(vec![
        margin("toe", toe, turned_out(&turnout.forepart)?, &under)?,
        margin("joints", joints, turned_out(&turnout.forepart)?, &under)?,
        margin("heel", heel, lasted_in, &at_the_heel)?,
    ])
}

/// Margins are cut to a nominal: what varies is in the stack, not here.
fn term(what: &'static str, value: &Val<Amount>) -> Built<Term> {
    let value = of(value)?;
    Ok(Term::fixed(what, value.it.nominal(), &value.origin))
}
