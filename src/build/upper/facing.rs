//! Eyelets and hooks of one size: where their centres stand, what lies between the holes, what they are set through.

use super::row::places_of;
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::build::last::GradedLast;
use crate::build::ply::Ply;
use crate::finding::Sum;
use crate::measure::Window;
use crate::source::Origin;
use crate::spec::{Facing, Hardware, House, Model, RowOf, Shop, Val};
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
}

/// The leather that is left between a hole and what is next to it.
#[derive(Clone, Debug)]
pub struct Web {
    /// `holes of the facing`, `facing's edge`, `facing's row`, `facing's ends`: what is judged.
    pub what: &'static str,
    /// The least leather left, mm; negative where they cut into each other.
    pub leather: f64,
    /// Where: the centres concerned, from the top edge.
    pub place: String,
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
    /// Where the rows were written.
    pub rows_origin: Option<Origin>,
    /// Where the highest centre and the counts were written.
    pub first_origin: Origin,
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
    let facing = model.upper.as_ref().ok()?.facing.as_ref()?;
    Some(built(model, facing, shop, last))
}

fn built(model: &Model, facing: &Facing, shop: &Shop, last: &GradedLast) -> Built<FacingBuilt> {
    let long = long(facing, last)?;
    let (from_edge, first) = (of(&facing.from_edge)?, of(&facing.first)?);
    let mut centres = centres(facing)?;
    if let Some((_, grown, _)) = &long {
        spread_out(&mut centres, *grown);
    }
    let setter = match &facing.with {
        Some(with) => shop.setters.iter().find(|setter| of(with).is_ok_and(|name| name.it == setter.name)),
        None => None,
    };
    let rows = rows(facing, &shop.house)?;
    let end = long.as_ref().map(|(long, ..)| *long);
    let reach = setter.and_then(|setter| setter.reach.as_ref()).map(of).transpose()?;
    Ok(FacingBuilt {
        long: long.map(|(long, _, origin)| (long, origin)),
        from_edge: (from_edge.it.nominal(), from_edge.origin.clone()),
        webs: webs(&centres, from_edge.it.nominal(), &rows, end),
        rows,
        rows_origin: facing.rows.as_ref().and_then(|rows| rows.count.as_ref().ok()).map(|count| count.origin.clone()),
        first_origin: first.origin.clone(),
        stack: stack(model, facing)?,
        centres,
        through: through(facing, setter.and_then(|setter| Some((setter.name.as_str(), setter.through.as_ref()?))))?,
        reach: reach.map(|reach| (reach.it.nominal(), reach.origin.clone())),
    })
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
        let (apart, punch) = (mm(apart)?, mm(&of(hardware)?.it.punch)?);
        for _ in 0..of(count)?.it {
            let at = centres.last().map_or(first, |above| above.at + apart);
            centres.push(Centre { word, at, punch });
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

fn webs(centres: &[Centre], from_edge: f64, rows: &[f64], end: Option<f64>) -> Vec<Web> {
    let web = |what: &'static str, leather: f64, place: String| Web { what, leather, place };
    let between = centres.windows(2).map(|pair| {
        let leather = pair[1].at - pair[0].at - f64::midpoint(pair[0].punch, pair[1].punch);
        web(
            "holes of the facing",
            leather,
            format!("between the centres at {:.2} and {:.2} mm", pair[0].at, pair[1].at),
        )
    });
    let to_edge = centres.iter().map(|centre| {
        let place = format!("at the centre {:.2} mm from the top", centre.at);
        web("facing's edge", from_edge - centre.punch / 2.0, place)
    });
    let to_rows = centres.iter().flat_map(|centre| rows.iter().map(move |row| (centre, *row))).map(|(centre, row)| {
        let place = format!("at the row {row:.2} mm from the edge, the centre {:.2} mm from the top", centre.at);
        web("facing's row", (from_edge - row).abs() - centre.punch / 2.0, place)
    });
    let ends = centres.iter().map(|centre| {
        let to_end = end.map_or(centre.at, |end| centre.at.min(end - centre.at));
        let place = format!("at the centre {:.2} mm from the top", centre.at);
        web("facing's ends", to_end - centre.punch / 2.0, place)
    });
    let all = [least(between), least(to_edge), least(to_rows), least(ends)];
    all.into_iter().flatten().collect()
}

/// The least of them; of equal ones the first.
fn least(webs: impl Iterator<Item = Web>) -> Option<Web> {
    webs.reduce(|least, next| if next.leather < least.leather { next } else { least })
}

fn rows(facing: &Facing, house: &House) -> Built<Vec<f64>> {
    let Some(rows) = &facing.rows else { return Ok(Vec::new()) };
    places_of(&rows.count, rows.first.as_ref(), rows.apart.as_ref(), house)
}

/// The facing's part, and its backing: another part, or the part itself turned in.
fn stack(model: &Model, facing: &Facing) -> Built<Sum> {
    let on = match &facing.on {
        Some(part) => Some(of(part)?.clone()),
        None => model.seat_part()?,
    };
    let Some(on) = on else { return Ok(Sum::new()) };
    let part = Ply::of_part(&on.it)?.term();
    let mut sum = Sum::new().plus(part.clone());
    match &facing.backing {
        Some(Some(backing)) => sum.terms.push(Ply::of_part(&of(backing)?.it)?.term()),
        Some(None) => sum.terms.push(part),
        None => {}
    }
    Ok(sum)
}

fn through(facing: &Facing, setter: Option<(&str, &Val<crate::measure::Amount>)>) -> Built<Vec<Through>> {
    let one = |name: &str, window: &Val<crate::measure::Amount>| {
        let window = of(window)?;
        Ok(Through { name: name.into(), window: window.it.window(), origin: window.origin.clone() })
    };
    let mut all: Vec<Through> = setter.into_iter().map(|(name, window)| one(name, window)).collect::<Built<_>>()?;
    for (_, (_, hardware, _)) in of_side(facing) {
        let hardware: &Hardware = &of(hardware)?.it;
        if let Some(window) = &hardware.through {
            all.push(one(&hardware.name, window)?);
        }
    }
    Ok(all)
}
