//! Closed seams, stays, gussets and the collar: what their rows go through and where they run.

use super::name_of;
use super::row::{EdgeOf, UpperRow, UpperSeam, numbered, places};
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::build::ply::Ply;
use crate::finding::{FaultName, PartPlace, SeamName, Sum, Term, Variation};
use crate::language::Hole;
use crate::measure::fits;
use crate::source::Origin;
use crate::spec::{Collar, Gusset, House, Part, Seam, Stay, Stitching, Upper, Val};
use std::sync::Arc;

/// A stay over its seam.
#[derive(Clone, Debug)]
pub struct StayBuilt {
    /// Its name.
    pub name: Arc<str>,
    /// The seam that it covers.
    pub seam: Arc<str>,
    /// The row nearest to the seam and its distance from it, mm.
    pub nearest: Built<(u32, f64)>,
    /// How far the seam's allowance lies to each side, mm, and where that was written.
    pub allowance: Built<(f64, Origin)>,
    /// The allowances are rubbed flat before the stay covers them.
    pub rubbed_flat: Built<bool>,
    /// Where the stay says what it covers.
    pub covers: Built<Origin>,
    /// Where its rows were written.
    pub rows_origin: Built<Origin>,
}

/// A folded edge: what the fold needs, and what is allowed for it.
#[derive(Clone, Debug)]
pub struct FoldBuilt {
    /// Where the last row lies, the house's distance of a row from an edge, and what the turn takes.
    pub needed: Built<Sum>,
    /// What is folded in, mm.
    pub folded: Built<(f64, Origin)>,
}

/// A closed seam: its first row runs at the allowance, further ones nearer to the edge.
pub(super) fn seam(seam: &Seam, house: &House) -> UpperSeam {
    let rows = closed(seam).and_then(|stack| {
        let allowance = mm(&seam.allowance)?;
        let apart = match &seam.stitching.apart {
            Some(apart) => mm(apart)?,
            None => mm(&house.rule("row-inside-edges"))?,
        };
        let count = of(&seam.stitching.rows)?.it;
        let places: Vec<f64> = (0..count).map(|k| allowance - f64::from(k) * apart).collect();
        let edge_of = EdgeOf::Allowance;
        Ok(numbered(&places, |number, place| UpperRow::plain(number, place, place, &edge_of, &stack)))
    });
    UpperSeam::new(SeamName::Seam(seam.name.as_str().into()), &seam.stitching, rows)
}

/// Both sides of a closed seam. A part that is joined to itself varies as one piece if a foot has only one of it, or
/// if all is cut from one hide.
fn closed(seam: &Seam) -> Built<Sum> {
    let parts = seam.joins.as_ref().map_err(|hole| *hole)?;
    let mut sum = Sum::new();
    for part in parts {
        sum.terms.push(Ply::of_part(&part.it)?.term());
    }
    if let [part] = &parts[..] {
        let mut other = Ply::of_part(&part.it)?.term();
        other.what = other.what.placed(PartPlace::OtherSide);
        let one_hide = of(&part.it.of)?.it.one_hide;
        if of(&part.it.pieces)?.it > 1 && !one_hide {
            other.source = Some(Variation::OtherPiece(part.it.name.as_str().into()));
        }
        sum.terms.push(other);
    }
    Ok(sum)
}

/// The seam that a stay covers. Its name was found; a seam that lost its block was reported there.
fn covered<'u>(stay: &Stay, upper: &'u Upper) -> Built<&'u Seam> {
    let name = of(&stay.covers)?;
    let lost = Hole { fault: FaultName::STATEMENT_MISSING.0, span: name.span() };
    upper.seams.iter().find(|seam| seam.name == name.it).ok_or(lost)
}

/// A stay lies with its middle on the seam; its rows are counted across it from one edge.
pub(super) fn stay_seam(stay: &Stay, upper: &Upper, house: &House) -> UpperSeam {
    UpperSeam::new(SeamName::Stay(stay.name.as_str().into()), &stay.stitching, stay_rows(stay, upper, house))
}

fn stay_rows(stay: &Stay, upper: &Upper, house: &House) -> Built<Vec<UpperRow>> {
    let (wide, seam) = (mm(&stay.wide)?, covered(stay, upper)?);
    let strip = Ply::of_part(&of(&stay.of)?.it)?.term();
    let edge_of = EdgeOf::part(name_of(&stay.of));
    let (allowance, under) = (mm(&seam.allowance)?, one_side(seam)?);
    let places = places(&stay.stitching, house)?;
    Ok(numbered(&places, |number, place| {
        let mut stack = Sum::new().plus(strip.clone()).plus_all(under.clone());
        // On the allowance the same piece lies twice.
        if !fits(allowance, (place - wide / 2.0).abs()) {
            stack = stack.plus_all(under.clone());
        }
        UpperRow::plain(number, place, place.min(wide - place), &edge_of, &stack)
    }))
}

/// The thicker of the parts that a seam joins.
fn one_side(seam: &Seam) -> Built<Sum> {
    let parts = seam.joins.as_ref().map_err(|hole| *hole)?;
    let terms = parts.iter().map(|part| Ply::of_part(&part.it).map(|ply| ply.term())).collect::<Built<Vec<Term>>>()?;
    let thickest = terms.into_iter().reduce(|a, b| if b.nominal() > a.nominal() { b } else { a });
    Ok(Sum { terms: thickest.into_iter().collect() })
}

/// What is special to a stay.
pub(super) fn stay(stay: &Stay, upper: &Upper, house: &House) -> StayBuilt {
    let seam = covered(stay, upper);
    StayBuilt {
        name: stay.name.as_str().into(),
        seam: stay.covers.as_ref().map_or("", |covers| covers.it.as_str()).into(),
        nearest: nearest(stay, house),
        allowance: seam.and_then(|seam| of(&seam.allowance)).map(|it| (it.it.nominal(), it.origin.clone())),
        rubbed_flat: seam.map(|seam| seam.rubbed_flat),
        covers: of(&stay.covers).map(|covers| covers.origin.clone()),
        rows_origin: of(&stay.stitching.rows).map(|rows| rows.origin.clone()),
    }
}

/// The row nearest to the seam and its distance from it; of equal ones the first.
fn nearest(stay: &Stay, house: &House) -> Built<(u32, f64)> {
    let middle = mm(&stay.wide)? / 2.0;
    let places = places(&stay.stitching, house)?;
    let from_seam = (1..).zip(places.iter().map(|place| (place - middle).abs()));
    Ok(from_seam.reduce(|a, b| if b.1 < a.1 { b } else { a }).unwrap_or((1, middle)))
}

/// A gusset is sewn flat on its neighbour; both at their full thickness.
pub(super) fn gusset(gusset: &Gusset, house: &House) -> UpperSeam {
    let part = name_of(&gusset.part);
    let rows = on_each_other(&gusset.part, &gusset.joins, 1.0, &gusset.stitching, house);
    UpperSeam::new(SeamName::Gusset(part.into()), &gusset.stitching, rows)
}

/// A folded collar lies twice under its rows.
pub(super) fn collar(collar: &Collar, house: &House) -> UpperSeam {
    let times = if collar.folded.is_some() { 2.0 } else { 1.0 };
    let rows = on_each_other(&collar.part, &collar.joins, times, &collar.stitching, house);
    UpperSeam::new(SeamName::Collar, &collar.stitching, rows)
}

/// Rows through one part on another, of which only the first one's edge is known.
fn on_each_other(
    top: &Val<Arc<Part>>,
    under: &Val<Arc<Part>>,
    times: f64,
    stitching: &Stitching,
    house: &House,
) -> Built<Vec<UpperRow>> {
    let first = Term { coefficient: times, ..Ply::of_part(&of(top)?.it)?.term() };
    let stack = Sum::new().plus(first).plus(Ply::of_part(&of(under)?.it)?.term());
    let edge_of = EdgeOf::part(name_of(top));
    let places = places(stitching, house)?;
    Ok(numbered(&places, |number, place| UpperRow::plain(number, place, place, &edge_of, &stack)))
}

/// The fold of a collar; `None` if it is not folded.
pub(super) fn fold(collar: &Collar, house: &House) -> Option<FoldBuilt> {
    let folded = collar.folded.as_ref()?;
    Some(FoldBuilt {
        needed: needed(collar, house),
        folded: of(folded).map(|folded| (folded.it.nominal(), folded.origin.clone())),
    })
}

/// The last row must catch the folded edge at the house's distance, and the turn takes the leather's substance.
fn needed(collar: &Collar, house: &House) -> Built<Sum> {
    let last = places(&collar.stitching, house)?.last().copied().unwrap_or(0.0);
    let inside = house.rule("row-inside-edges")?;
    let turn = Ply::of_part(&of(&collar.part)?.it)?;
    Ok(Sum::new()
        .plus(Term::fixed("last row from the fold", last, &of(&collar.stitching.rows)?.origin))
        .plus(Term::fixed("row inside the edge", inside.it.nominal(), &inside.origin))
        .plus(Term { what: turn.what.clone().placed(PartPlace::InTheTurn), ..turn.term() }))
}
