//! The forefoot's through-seam: its row, its stitches, what it goes through. It is sewn before slip and outsole are there.

use super::Built;
use super::amounts::{base, mm, of};
use super::corner::{Corner, corners, lost};
use super::lines::{Inside, Lines, lining};
use super::ply::Ply;
use super::rows::stitches;
use super::stack::{Along, Lies, Missed, Stretches, missed};
use super::thread::{ThreadUse, thread_use};
use crate::finding::Sum;
use crate::geometry::{Path, Rail};
use crate::measure::SLACK;
use crate::spec::{Bottom, Extent, Forefoot, ForefootHold, House, Layer, Model, Role};

/// The forefoot of one size.
#[derive(Clone, Debug)]
pub struct ForefootBuilt {
    /// Sewn or nailed.
    pub hold: ForefootHold,
    /// From the feather line inward, mm.
    pub inset: f64,
    /// The row and the parameters at which it crosses the joint line, outside and inside.
    pub row: Rail,
    /// See `row`.
    pub from: f64,
    /// See `row`.
    pub to: f64,
    /// Its length, mm.
    pub length: f64,
    /// Its corners, where its line was trimmed.
    pub corners: Vec<Corner>,
    /// Whole stitches and the length of one, mm; none if it is nailed.
    pub stitches: Option<(u32, f64)>,
    /// Insole, lining, midsole and whatever else lies under the row, where its nominal is greatest.
    pub layers: Sum,
    /// The same where its thick end is greatest.
    pub thick: Sum,
    /// mm from the row's start to the places of both; none where the same lies all along the row.
    pub places: Option<[f64; 2]>,
    /// Of the layers that it must go through, what it misses.
    pub missed: Vec<Missed>,
    /// Thread, if it is sewn.
    pub thread: Option<ThreadUse>,
}

pub(super) fn forefoot(
    model: &Model,
    house: &House,
    forefoot: &Forefoot,
    lines: &Lines,
    inside: &Inside,
) -> Built<ForefootBuilt> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let inset = mm(&forefoot.inside_feather)?;
    let row = inside.rail(lines, inset);
    let lost = lost(&row, of(&forefoot.inside_feather)?.span());
    let crossings = row.crossings(&lines.last.joint_line);
    let (from, to) = (*crossings.first().ok_or(lost)?, *crossings.last().ok_or(lost)?);
    if !row.runs_through(from, to) {
        return Err(lost);
    }
    let length = row.length_between(from, to);
    let corners = corners(&row, (from, to), &lines.last);
    let hold = of(&forefoot.hold)?.it;
    let along = Along { rail: &row, from, length };
    let under = Under::of(model, bottom, lines, along)?;
    let (layers, at) = under.greatest(Sum::nominal);
    let (thick, thick_at) = under.greatest(|sum| sum.spread().hi);
    let places = under.varies().then_some([at, thick_at]);
    let sewn = match &forefoot.pitch {
        Some(pitch) if hold == ForefootHold::Sewn => Some(stitches(length, 25.4 / base(pitch)?)),
        _ => None,
    };
    let thread = match (sewn, &forefoot.on) {
        (Some((count, pitch)), Some(machine)) => {
            // Each stitch takes what lies in its middle; all of them together take as many times the mean.
            let middles = (0..count).map(|n| under.at((f64::from(n) + 0.5) * pitch).nominal());
            let mean = || middles.sum::<f64>() / f64::from(count);
            let t = places.map_or_else(|| layers.nominal(), |_| mean());
            Some(thread_use(&of(machine)?.it, pitch, (0..count).map(|_| t), mm(&house.rule("tails"))?)?)
        }
        _ => None,
    };
    let through = [Role::Insole, Role::Midsole].into_iter().filter_map(|role| bottom.layer(role));
    let missed = through.map(|layer| missed(layer, lines, (0, along))).collect::<Built<_>>()?;
    Ok(ForefootBuilt {
        hold,
        inset,
        from,
        to,
        length,
        corners,
        stitches: sewn,
        layers,
        thick,
        places,
        missed,
        thread,
        row,
    })
}

/// What lies under the row: plies with the stretches on which they lie.
struct Under {
    plies: Vec<(Vec<Ply>, Stretches)>,
    length: f64,
}

impl Under {
    /// Everything down to the midsole, from the foot down; the lining as it is lasted in.
    fn of(model: &Model, bottom: &Bottom, lines: &Lines, along: Along<'_>) -> Built<Self> {
        let lying = |layer: &Layer| {
            let mut plies: Vec<Ply> = Ply::film_over(layer)?.into_iter().collect();
            plies.extend(Ply::of_layer(layer)?);
            Ok((plies, Lies::of(layer)?.touching(lines, along)))
        };
        let insole = bottom.layer(Role::Insole).map(lying).transpose()?;
        let lining: Vec<Ply> = lining(model)?.into_iter().collect();
        // What ends behind the joint or covers the seat does not come so far.
        let comes =
            |layer: &&Layer| layer.front.is_none() && layer.covers.as_ref().is_ok_and(|it| it.it != Extent::Seat);
        let others = bottom.layers.iter().filter(|layer| Role::Insole < layer.role && layer.role <= Role::Midsole);
        let others = others.filter(comes);
        let mut plies: Vec<(Vec<Ply>, Stretches)> = insole.into_iter().collect();
        plies.push((lining, vec![(0.0, along.length)]));
        plies.extend(others.map(lying).collect::<Built<Vec<_>>>()?);
        Ok(Self { plies, length: along.length })
    }

    fn at(&self, s: f64) -> Sum {
        let here =
            self.plies.iter().filter(|(_, lie)| lie.iter().any(|(from, to)| from - SLACK <= s && s <= to + SLACK));
        Sum { terms: here.flat_map(|(plies, _)| plies).map(Ply::term).collect() }
    }

    /// The sum of which `value` is greatest, and where that is. Between the ends of layers nothing changes, and the ends
    /// belong to them.
    fn greatest(&self, value: impl Fn(&Sum) -> f64) -> (Sum, f64) {
        let ends = self.plies.iter().flat_map(|(_, lie)| lie).flat_map(|(from, to)| [*from, *to]);
        let mut places: Vec<f64> = ends.map(|s| s.clamp(0.0, self.length)).collect();
        places.sort_by(f64::total_cmp);
        let sums = places.into_iter().map(|s| (self.at(s), s));
        let greater = |best: (Sum, f64), other: (Sum, f64)| {
            if value(&other.0) > value(&best.0) + SLACK { other } else { best }
        };
        sums.reduce(greater).unwrap_or_default()
    }

    /// Whether other things lie at some places than at others.
    fn varies(&self) -> bool {
        let all_along = |lie: &Stretches| lie.iter().any(|(from, to)| *from <= SLACK && self.length - SLACK <= *to);
        self.plies.iter().any(|(_, lie)| !lie.is_empty() && !all_along(lie))
    }
}
