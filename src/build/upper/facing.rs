//! Eyelets and hooks of one size: where their centres stand, what lies between the holes, what they are set through.

use super::row::{EdgeOf, UpperRow, UpperSeam, numbered, places};
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::build::last::GradedLast;
use crate::build::ply::Ply;
use crate::finding::{BesideHole, SeamName, Sum};
use crate::measure::{Amount, Window};
use crate::source::Origin;
use crate::spec::{Facing, House, Model, RowOf, Setter, Shop, Upper, Val, Valued};
use std::sync::Arc;

/// An eyelet or a hook.
#[derive(Clone, Debug)]
pub struct Centre {
    /// `eyelets` or `hooks`.
    pub word: &'static str,
    /// From the top edge, mm.
    pub at: f64,
    /// Diameter of its hole, mm.
    pub punch: f64,
    /// Where it was written how far it is from the one above.
    pub origin: Origin,
}

/// The leather that is left between a hole and what is next to it.
#[derive(Clone, Debug)]
pub struct Web {
    /// What the hole is next to.
    pub what: BesideHole,
    /// The least leather left, mm; negative where they cut into each other.
    pub leather: f64,
    /// Where: the centres concerned, from the top edge.
    pub place: String,
    /// The figure that moves it.
    pub origin: Origin,
}

/// A window that a thickness must lie in.
#[derive(Clone, Debug)]
pub struct Through {
    /// `bench-setter`, `brass-eyelet`.
    pub name: Arc<str>,
    /// The window.
    pub window: Window,
    /// Where that was written.
    pub origin: Origin,
    /// Where the model names it.
    pub named: Origin,
}

/// The facing of one size, mm.
#[derive(Clone, Debug)]
pub struct FacingBuilt {
    /// The length of its edge in this size, if the model states it, and where.
    pub long: Option<(f64, Origin)>,
    /// Its centres from the top edge down.
    pub centres: Vec<Centre>,
    /// From the facing's edge to the centres, and where that was written.
    pub from_edge: (f64, Origin),
    /// Rows of stitching from the facing's edge.
    pub rows: Vec<f64>,
    /// The leather left between holes, and from holes to the edge, to rows and to the facing's ends.
    pub webs: Vec<Web>,
    /// Facing and backing.
    pub stack: Sum,
    /// What setter and hardware are made for.
    pub through: Vec<Through>,
    /// How far the setter reaches, if one is named that says so, and where.
    pub reach: Option<(f64, Origin)>,
}

/// The facing, if the upper has one.
pub(in crate::build) fn facing(model: &Model, shop: &Shop, last: &GradedLast) -> Option<Built<FacingBuilt>> {
    let upper = model.upper.as_ref().ok()?;
    let facing = upper.facing.as_ref()?;
    Some(built(upper, facing, shop, last))
}

fn built(upper: &Upper, facing: &Facing, shop: &Shop, last: &GradedLast) -> Built<FacingBuilt> {
    let long = long(facing, last)?;
    let (from_edge, first) = (of(&facing.from_edge)?, of(&facing.first)?);
    let mut centres = centres(facing)?;
    if let Some((_, grown, _)) = &long {
        spread_out(&mut centres, *grown);
    }
    let setter = setter(facing, shop)?;
    let rows = rows(facing, &shop.house)?;
    let beside = Beside {
        edge: from_edge,
        first,
        rows: &rows,
        rows_origin: facing.rows.as_ref().and_then(|rows| rows.rows.as_ref().ok()).map(|count| &count.origin),
        end: long.as_ref().map(|(long, _, origin)| (*long, origin)),
    };
    let webs = webs(&centres, &beside);
    let reach = setter.and_then(|(setter, _)| setter.reach.as_ref()).map(of).transpose()?;
    Ok(FacingBuilt {
        long: long.map(|(long, _, origin)| (long, origin)),
        from_edge: (from_edge.it.nominal(), from_edge.origin.clone()),
        webs,
        rows,
        stack: stack(upper, facing)?,
        centres,
        through: through(facing, setter)?,
        reach: reach.map(|reach| (reach.it.nominal(), reach.origin.clone())),
    })
}

/// The setter that the facing names, and where it does.
fn setter<'s>(facing: &'s Facing, shop: &'s Shop) -> Built<Option<(&'s Setter, &'s Origin)>> {
    let Some(with) = &facing.with else { return Ok(None) };
    let with = of(with)?;
    let setter = shop.setters.iter().find(|setter| setter.name == with.it);
    Ok(setter.map(|setter| (setter, &with.origin)))
}

/// Its length in this size, how much of that is grade, and where it was written.
fn long(facing: &Facing, last: &GradedLast) -> Built<Option<(f64, f64, Origin)>> {
    let Some((long, grade)) = &facing.long else { return Ok(None) };
    let grown = grade.as_ref().map_or(Ok(0.0), mm)? * last.sizes_from_base;
    let long = of(long)?;
    Ok(Some((long.it.nominal() + grown, grown, long.origin.clone())))
}

/// The rows of one side, hooks above eyelets.
fn of_side(facing: &Facing) -> impl Iterator<Item = (&'static str, &RowOf)> {
    [("hooks", &facing.hooks), ("eyelets", &facing.eyelets)]
        .into_iter()
        .filter_map(|(word, row)| row.as_ref().map(|row| (word, row)))
}

/// Centres in the base size. From the last hook to the first eyelet it is as far as from eyelet to eyelet.
fn centres(facing: &Facing) -> Built<Vec<Centre>> {
    let mut centres: Vec<Centre> = Vec::new();
    let first = mm(&facing.first)?;
    for (word, (count, hardware, apart)) in of_side(facing) {
        let (origin, apart) = (&of(apart)?.origin, mm(apart)?);
        let punch = mm(&of(hardware)?.it.punch)?;
        for _ in 0..of(count)?.it {
            let at = centres.last().map_or(first, |above| above.at + apart);
            centres.push(Centre { word, at, punch, origin: origin.clone() });
        }
    }
    Ok(centres)
}

/// The highest centre stays from the top edge, the lowest from the facing's end: what the facing grows by is shared out
/// between the centres.
fn spread_out(centres: &mut [Centre], grown: f64) {
    let (Some(first), Some(last)) = (centres.first().map(|it| it.at), centres.last().map(|it| it.at)) else { return };
    if last > first {
        let factor = ((last - first + grown) / (last - first)).max(0.0);
        for centre in centres {
            centre.at = first + (centre.at - first) * factor;
        }
    }
}

/// What lies beside the holes of a facing, each with where it was written.
struct Beside<'f> {
    edge: &'f Valued<Amount>,
    first: &'f Valued<Amount>,
    rows: &'f [f64],
    rows_origin: Option<&'f Origin>,
    end: Option<(f64, &'f Origin)>,
}

fn webs(centres: &[Centre], beside: &Beside<'_>) -> Vec<Web> {
    let from_edge = beside.edge.it.nominal();
    let from_top = |centre: &Centre| format!("the centre {:.2} mm from the top", centre.at);
    let between = centres.windows(2).map(|pair| {
        let leather = pair[1].at - pair[0].at - f64::midpoint(pair[0].punch, pair[1].punch);
        let place = move || format!("between the centres {:.2} and {:.2} mm from the top", pair[0].at, pair[1].at);
        (leather, &pair[1].origin, place)
    });
    let to_edge =
        centres.iter().map(|centre| (from_edge - centre.punch / 2.0, &beside.edge.origin, move || from_top(centre)));
    let rows_origin = beside.rows_origin.unwrap_or(&beside.edge.origin);
    let to_rows = centres.iter().flat_map(|centre| beside.rows.iter().map(move |row| (centre, *row)));
    let to_rows = to_rows.map(|(centre, row)| {
        let place = move || format!("the row {row:.2} mm from the edge, {}", from_top(centre));
        ((from_edge - row).abs() - centre.punch / 2.0, rows_origin, place)
    });
    let to_ends = centres.iter().map(|centre| {
        let top = (centre.at, &beside.first.origin);
        let end = beside.end.map(|(end, origin)| (end - centre.at, origin)).filter(|(left, _)| *left < centre.at);
        let (left, origin) = end.unwrap_or(top);
        (left - centre.punch / 2.0, origin, move || from_top(centre))
    });
    let all = [
        least(BesideHole::Holes, between),
        least(BesideHole::Edge, to_edge),
        least(BesideHole::Row, to_rows),
        least(BesideHole::Ends, to_ends),
    ];
    all.into_iter().flatten().collect()
}

/// The least of them, of equal ones the first; only its place is put in words.
fn least<'o, P: FnOnce() -> String>(what: BesideHole, webs: impl Iterator<Item = (f64, &'o Origin, P)>) -> Option<Web> {
    let (leather, origin, place) = webs.reduce(|least, next| if next.0 < least.0 { next } else { least })?;
    Some(Web { what, leather, place: place(), origin: origin.clone() })
}

fn rows(facing: &Facing, house: &House) -> Built<Vec<f64>> {
    let Some(rows) = &facing.rows else { return Ok(Vec::new()) };
    places(rows, house)
}

/// The rows along the facing's edge: through the facing and its backing, wherever that ends.
pub(super) fn seam(upper: &Upper, house: &House) -> Option<UpperSeam> {
    let facing = upper.facing.as_ref()?;
    let stitching = facing.rows.as_ref()?;
    let rows = stack(upper, facing).and_then(|stack| {
        let edge_of = EdgeOf::part(upper.faced(facing)?.map_or("", |part| part.it.name.as_str()));
        let places = places(stitching, house)?;
        Ok(numbered(&places, |number, place| UpperRow::plain(number, place, place, &edge_of, &stack)))
    });
    Some(UpperSeam::new(SeamName::Facing, stitching, rows))
}

/// The facing's part, and its backing: another part, or the part itself turned in.
fn stack(upper: &Upper, facing: &Facing) -> Built<Sum> {
    let Some(on) = upper.faced(facing)? else { return Ok(Sum::new()) };
    let part = Ply::of_part(&on.it)?.term();
    let mut sum = Sum::new().plus(part.clone());
    match &facing.backing {
        Some(Some(backing)) => sum.terms.push(Ply::of_part(&of(backing)?.it)?.term()),
        Some(None) => sum.terms.push(part),
        None => {}
    }
    Ok(sum)
}

/// The windows of the setter, if one is named that states one, and of the hardware.
fn through(facing: &Facing, setter: Option<(&Setter, &Origin)>) -> Built<Vec<Through>> {
    let one = |name: &str, window: &Val<Amount>, named: &Origin| {
        let window = of(window)?;
        let (origin, named) = (window.origin.clone(), named.clone());
        Ok(Through { name: name.into(), window: window.it.window(), origin, named })
    };
    let mut all = Vec::new();
    if let Some((setter, named)) = setter
        && let Some(window) = &setter.through
    {
        all.push(one(&setter.name, window, named)?);
    }
    for (_, (_, hardware, _)) in of_side(facing) {
        let hardware = of(hardware)?;
        if let Some(window) = &hardware.it.through {
            all.push(one(&hardware.it.name, window, &hardware.origin)?);
        }
    }
    Ok(all)
}
