//! Clinch nails: each one where it stands, what it holds there, which stocked length serves it.

use super::Built;
use super::amounts::{maybe, mm, of};
use super::bed::{Bed, Mask, Spot, together};
use super::last::GradedLast;
use super::lines::{Inside, Lines};
use crate::finding::Sum;
use crate::geometry::{Path, Rail, Side, Straight};
use crate::language::Hole;
use crate::measure::{SLACK, Spread, Window, fits};
use crate::source::Origin;
use crate::spec::{House, Model, NailLine, Role, TacksLeft};
use kurbo::Point;
use std::collections::BTreeMap;

/// A clinch nail.
#[derive(Clone, Copy, Debug)]
pub struct ClinchNail {
    /// Where it stands on the developed bottom, mm.
    pub point: Point,
    /// The side.
    pub side: Side,
    /// The lengths that serve it in every boot, mm; `lo > hi` where none can.
    pub window: Window,
    /// Its length: stated, or the shortest stocked one that serves it.
    pub length: Option<f64>,
}

impl ClinchNail {
    /// How much a length lies inside what serves this nail, mm; negative by how much it doesn't.
    #[must_use]
    pub fn margin(&self, length: f64) -> f64 {
        (length - self.window.lo).min(self.window.hi - length)
    }
}

/// A line of clinch nails of one size.
#[derive(Clone, Debug)]
pub struct NailsBuilt {
    /// From the feather line inward, mm.
    pub inset: f64,
    /// Every nail, outside first, heel to toe on the outside, toe to heel on the inside; a seat's, round the heel.
    pub nails: Vec<ClinchNail>,
    /// How many on the outside, on the inside; a seat counts all as outside.
    pub counts: (usize, usize),
    /// The spacing evened, mm, by side.
    pub spacing: (f64, f64),
    /// The nail that is nearest to not clinching, or does so least.
    pub worst: usize,
    /// What lies there where it is thickest.
    pub thickest: Sum,
    /// What lies there where it is thinnest.
    pub thinnest: Sum,
    /// The length that most nails have, mm; none where no nail has one.
    pub length: Option<f64>,
    /// The lengths that serve every nail of that length, mm; those that would serve the worst, where none has one.
    pub window: Window,
    /// How much stands beyond what lies there over the whole line, least and most, mm; none where a nail has no length.
    pub clinches: Option<Window>,
    /// Stocked lengths, ascending, mm.
    pub stocked: Vec<f64>,
    /// The length that the model states.
    pub stated: Option<f64>,
    /// Where the stock's lengths, or the stated length, were written.
    pub length_origin: Origin,
    /// How much nail stands beyond the layers, least and most, with where the house says so.
    pub clinch: (Window, Origin),
    /// How many nails stand in each rigid layer.
    pub in_rigid: Vec<(Role, usize)>,
    /// The last station on each side that a nail may stand at, x, and where the line's last nail stands.
    pub limits: Vec<JointLimit>,
}

/// How far towards the toe a side's line may go.
#[derive(Clone, Copy, Debug)]
pub struct JointLimit {
    /// The side.
    pub side: Side,
    /// x of its foremost nail.
    pub foremost: f64,
    /// x that it must not pass.
    pub limit: f64,
}

/// How near tacks that are left in come to a line of clinch nails, which are driven down on them.
#[derive(Clone, Debug)]
pub struct TacksNear {
    /// The line is the seat's, not the waist's.
    pub seat: bool,
    /// How near, centre to centre in plan, mm.
    pub distance: f64,
    /// Where the nearest tack stands.
    pub at: Point,
    /// How near one may be, mm.
    pub limit: f64,
    /// Where the house says so.
    pub limit_origin: Origin,
    /// The tacks stand farther inside the feather line than the nails.
    pub deeper: bool,
}

/// The nearest that tacks come to each line; a line or tacks that are lost are told of elsewhere.
pub(super) fn tacks_near(
    tacks: Option<&Built<NailsBuilt>>,
    lines: [(bool, Option<&Built<NailsBuilt>>); 2],
    (house, by_hand): (&House, bool),
) -> Built<Vec<TacksNear>> {
    let Some(Ok(tacks)) = tacks else { return Ok(Vec::new()) };
    let rule = house.rule(super::heel_nails::to_clinch(by_hand))?;
    let near = |(seat, line): (bool, Option<&Built<NailsBuilt>>)| {
        let line = line?.as_ref().ok()?;
        let pairs = tacks.nails.iter().flat_map(|tack| line.nails.iter().map(move |nail| (tack.point, nail.point)));
        let (at, distance) = least(pairs.map(|(tack, nail)| (tack, tack.distance(nail))))?;
        let (limit, limit_origin, deeper) = (rule.it.nominal(), rule.origin.clone(), tacks.inset > line.inset);
        Some(TacksNear { seat, distance, at, limit, limit_origin, deeper })
    };
    Ok(lines.into_iter().filter_map(near).collect())
}

/// Nails of one length that follow each other on a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// How many.
    pub count: usize,
    /// Their length, mm; none where no stocked one serves.
    pub length: Option<f64>,
}

pub(super) fn nails(
    model: &Model,
    house: &House,
    (lines, bed): (&Lines, Bed<'_>),
    (line, seat): (&NailLine, bool),
    inside: &Inside,
) -> Built<NailsBuilt> {
    let (inset, apart) = (mm(&line.inside_feather)?, mm(&line.apart)?);
    let lost = Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: line.span };
    if apart <= 0.0 {
        return Err(lost);
    }
    let rail = inside.rail(lines, inset);
    let no_line = super::corner::lost(&rail, of(&line.inside_feather)?.span());
    let behind_joint = mm(&house.rule("behind-joint"))?;
    let ways = if seat {
        vec![seat_way(&lines.last, &rail, apart).ok_or(no_line)?]
    } else {
        waist_ways(&lines.last, &rail, maybe(line.to.as_ref())?, behind_joint).ok_or(no_line)?
    };
    let clinch = house.rule("clinch")?.it.window();
    let driven = Driven::of(line, (clinch, inset))?;
    let mut built = driven.along((&rail, &ways, apart), (model, house, bed), lost)?;
    if !seat {
        built.limits = limits(lines, &built.nails, behind_joint);
    }
    Ok(built)
}

/// Lasting tacks that are left in behind the release cut: clinch nails through the outer lasted in, lining and insole.
pub(super) fn tacks(
    model: &Model,
    house: &House,
    (lines, bed): (&Lines, Bed<'_>),
    left: &TacksLeft,
    inside: &Inside,
) -> Built<NailsBuilt> {
    let length = of(&left.length)?;
    let lost = Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: length.span() };
    let rule = house.rule("tacks-inside-feather");
    let inset = mm(left.inside_feather.as_ref().unwrap_or(&rule))?;
    let apart = model.lasting.tacks.as_ref().map_or(Err(lost), mm)?;
    let driven = Driven {
        inset,
        radius: SHANK / 2.0,
        sunk: 0.0,
        clinch: house.rule("clinch")?.it.window(),
        stocked: vec![length.it.nominal()],
        stated: Some(length.it.nominal()),
        length_origin: length.origin.clone(),
        lasting: true,
    };
    let rail = inside.rail(lines, inset);
    // The last tack stands behind the cut, where the outer is whole.
    let way = round_way(bed.release - apart / 2.0, &rail).ok_or_else(|| {
        super::corner::lost(
            &rail,
            of(left.inside_feather.as_ref().unwrap_or(&left.length)).map_or(lost.span, crate::spec::Valued::span),
        )
    })?;
    driven.along((&rail, &[way], apart), (model, house, bed), lost)
}

/// The shank of a nail whose stock does not say, mm: half of it is how near to an edge a nail is judged both ways.
const SHANK: f64 = 1.8;

/// The shank's radius of a stocked nail, mm.
pub(super) fn radius(nail: &crate::spec::Nail) -> Built<f64> {
    Ok(maybe(nail.shank.as_ref())?.unwrap_or(SHANK) / 2.0)
}

/// What is driven along a line, wherever it stands.
struct Driven {
    inset: f64,
    radius: f64,
    sunk: f64,
    clinch: Window,
    stocked: Vec<f64>,
    stated: Option<f64>,
    length_origin: Origin,
    /// It is driven when the outer is lasted in, before anything is laid over it.
    lasting: bool,
}

impl Driven {
    /// The nails of a line, each judged where it stands.
    fn along(
        self,
        (rail, ways, apart): (&Rail, &[Way], f64),
        (model, house, bed): (&Model, &House, Bed<'_>),
        lost: Hole,
    ) -> Built<NailsBuilt> {
        let (places, spread) = placed(rail, ways, apart);
        let nails: Vec<ClinchNail> = places.iter().map(|place| self.nail(bed, *place)).collect();
        let (worst, _) = least((0..nails.len()).map(|n| (n, self.least_margin(&nails[n])))).ok_or(lost)?;
        let (thickest, thinnest) = self.extremes(bed, &nails[worst]);
        let in_rigid = in_rigid(model, bed, &self, &nails)?;
        let clinches = self.clinches(&nails);
        let (length, window) =
            usual(&nails).map_or((None, nails[worst].window), |(length, window)| (Some(length), window));
        let [first, second] = [0, 1].map(|n| spread.get(n).copied().unwrap_or((0, 0.0)));
        Ok(NailsBuilt {
            inset: self.inset,
            nails,
            counts: (first.0, second.0),
            spacing: (first.1, second.1),
            worst,
            thickest,
            thinnest,
            length,
            window,
            clinches,
            clinch: (self.clinch, house.rule("clinch")?.origin),
            stocked: self.stocked,
            stated: self.stated,
            length_origin: self.length_origin,
            in_rigid,
            limits: Vec::new(),
        })
    }

    fn of(line: &NailLine, (clinch, inset): (Window, f64)) -> Built<Self> {
        let nail = &of(&line.with)?.it;
        let lengths = of(&nail.lengths)?;
        let mut stocked: Vec<f64> = lengths.it.iter().map(|length| length.it.nominal()).collect();
        stocked.sort_by(f64::total_cmp);
        let length_origin = match &line.length {
            Some(Ok(stated)) => stated.origin.clone(),
            _ => lengths.origin.clone(),
        };
        let (sunk, stated) = (maybe(nail.sunk.as_ref())?.unwrap_or(0.0), maybe(line.length.as_ref())?);
        Ok(Self { inset, radius: radius(nail)?, sunk, clinch, stocked, stated, length_origin, lasting: false })
    }

    /// `length + sunk - layers` stands out: the least of it at the thick end, the most at the thin end. What is sunk at the
    /// head reaches as much farther at the point.
    fn nail(&self, bed: Bed<'_>, (point, side): (Point, Side)) -> ClinchNail {
        let at = self.spot(point);
        let mut window = Window { lo: f64::NEG_INFINITY, hi: f64::INFINITY };
        for mask in bed.masks(at, self.radius) {
            let layers = self.layers(bed, mask, at);
            window.lo = window.lo.max(layers.hi + self.clinch.lo - self.sunk);
            window.hi = window.hi.min(layers.lo + self.clinch.hi - self.sunk);
        }
        let serves = |length: &f64| fits(window.lo, *length) && fits(*length, window.hi);
        let length = self.stated.or_else(|| self.stocked.iter().copied().find(serves));
        ClinchNail { point, side, window, length }
    }

    fn spot(&self, point: Point) -> Spot {
        Spot { x: point.x, y: point.y, depth: self.inset }
    }

    fn layers(&self, bed: Bed<'_>, mask: Mask, at: Spot) -> Spread {
        together(bed.lain(mask, at).iter().filter(|lain| self.goes_through(bed, lain)))
    }

    /// What a clinch nail goes through: not what is laid later, nor what is rigid, where it is refused anyway.
    fn goes_through(&self, bed: Bed<'_>, lain: &crate::build::bed::Lain) -> bool {
        if self.lasting { bed.is_lasted(lain) } else { !bed.comes_later(lain) && !bed.is_rigid(lain) }
    }

    /// The margin of the length that a nail has; where it has none, of the stocked one that comes nearest.
    fn least_margin(&self, nail: &ClinchNail) -> f64 {
        let nearest = || self.stocked.iter().map(|length| nail.margin(*length)).fold(f64::NEG_INFINITY, f64::max);
        nail.length.map_or_else(nearest, |length| nail.margin(length))
    }

    /// What lies at a nail where its thick end is greatest, and where its thin end is least.
    fn extremes(&self, bed: Bed<'_>, nail: &ClinchNail) -> (Sum, Sum) {
        let at = self.spot(nail.point);
        let masks = bed.masks(at, self.radius);
        let sum = |mask: Mask, end: fn(&Spread) -> f64| {
            bed.terms(&bed.lain(mask, at), |lain| self.goes_through(bed, lain), end)
        };
        let most =
            |of: &dyn Fn(Mask) -> f64| least(masks.iter().map(|mask| (*mask, of(*mask)))).map_or(masks[0], |it| it.0);
        let thickest = most(&|mask| -self.layers(bed, mask, at).hi);
        let thinnest = most(&|mask| self.layers(bed, mask, at).lo);
        (sum(thickest, |spread| spread.hi), sum(thinnest, |spread| spread.lo))
    }

    /// A window says what the layers are: what stands out is a length less that.
    fn clinches(&self, nails: &[ClinchNail]) -> Option<Window> {
        let mut all = Window { lo: f64::INFINITY, hi: f64::NEG_INFINITY };
        for nail in nails {
            let length = nail.length?;
            all.lo = all.lo.min(length - nail.window.lo + self.clinch.lo);
            all.hi = all.hi.max(length - nail.window.hi + self.clinch.hi);
        }
        Some(all)
    }
}

/// The first of those whose value is least.
fn least<T>(all: impl Iterator<Item = (T, f64)>) -> Option<(T, f64)> {
    all.reduce(|best, one| if one.1 < best.1 { one } else { best })
}

/// The length that most nails have, the shorter of two; and the lengths that serve all of these.
fn usual(nails: &[ClinchNail]) -> Option<(f64, Window)> {
    let mut counts: BTreeMap<u64, usize> = BTreeMap::new();
    for length in nails.iter().filter_map(|nail| nail.length) {
        // Lengths are positive: their bits sort as they do.
        *counts.entry(length.to_bits()).or_default() += 1;
    }
    let (most, _) = counts.into_iter().max_by_key(|(bits, count)| (*count, std::cmp::Reverse(*bits)))?;
    let of_most = nails.iter().filter(|nail| nail.length.is_some_and(|length| length.to_bits() == most));
    let both = |a: Window, b: Window| Window { lo: a.lo.max(b.lo), hi: a.hi.min(b.hi) };
    Some((f64::from_bits(most), of_most.map(|nail| nail.window).reduce(both)?))
}

impl NailsBuilt {
    /// From the nails on each side to the forefoot's row, the nearest of them, mm: outside, inside.
    #[must_use]
    pub fn to_forefoot(&self, forefoot: &super::ForefootBuilt) -> Option<(f64, f64)> {
        let nearest = |side: Side| {
            // The nails behind the foremost are farther away, whichever way the row turns.
            let of_side = self.nails.iter().filter(|nail| nail.side == side).map(|nail| nail.point);
            let foremost = of_side.max_by(|a, b| a.x.total_cmp(&b.x))?;
            Some(forefoot.row.nearest_between(foremost, forefoot.from, forefoot.to).distance)
        };
        Some((nearest(Side::Outside)?, nearest(Side::Inside)?))
    }

    /// The nails of one side from the heel to the toe, those of one length that follow each other together; a seat's, from
    /// the breast on the inside round the back.
    #[must_use]
    pub fn runs(&self, side: Side) -> Vec<Run> {
        let mut runs: Vec<Run> = Vec::new();
        let mut of_side: Vec<&ClinchNail> = self.nails.iter().filter(|nail| nail.side == side).collect();
        if side == Side::Inside {
            of_side.reverse();
        }
        for nail in of_side {
            match runs.last_mut() {
                Some(run) if run.length == nail.length => run.count += 1,
                _ => runs.push(Run { count: 1, length: nail.length }),
            }
        }
        runs
    }
}

/// Nails on a way of a length: `floor(length / apart) + 1`, both ends with a nail, and the spacing evened. A way shorter
/// than `apart` has one at each end all the same; one shorter than half of it a single nail, where it begins.
#[must_use]
pub fn nails_on(length: f64, apart: f64) -> (u32, f64) {
    if !fits(apart / 2.0, length) {
        return (1, 0.0);
    }
    let whole = (length / apart + SLACK).floor().clamp(1.0, 10_000.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped above")]
    let gaps = whole as u32;
    (gaps + 1, length / f64::from(gaps))
}

type Way = (Side, f64, f64);
type Placed = (Point, Side);

/// The nails of each way, evenly spaced with one at both ends; how many there are, and how far apart, mm.
fn placed(rail: &Rail, ways: &[Way], apart: f64) -> (Vec<Placed>, Vec<(usize, f64)>) {
    let mut places = Vec::new();
    let mut spread = Vec::new();
    for (side, from, to) in ways {
        let (count, spacing) = nails_on(rail.length_between(*from, *to), apart);
        let count = count as usize;
        spread.push((count, spacing));
        let evenly = rail.evenly(*from, *to, count - 1);
        places.extend(evenly.into_iter().map(|t| (rail.point(t), *side)));
    }
    (places, spread)
}

/// From the breast line to 10 mm (house) behind that side's joint, or to the station that the model says.
fn waist_ways(last: &GradedLast, rail: &Rail, to: Option<f64>, behind_joint: f64) -> Option<Vec<Way>> {
    let at = |x: f64, side: Side| rail.crossings_on(&Straight::square_at(x), side).first().copied();
    let end = |joint: f64| to.map_or(joint - behind_joint, |share| share / 100.0 * last.bottom).max(last.breast);
    let outside = (Side::Outside, at(last.breast, Side::Outside)?, at(end(last.joint_outside), Side::Outside)?);
    let inside = (Side::Inside, at(end(last.joint_inside), Side::Inside)?, at(last.breast, Side::Inside)?);
    Some(vec![outside, inside])
}

/// Round the heel between the crossings with the line one spacing behind the breast.
fn seat_way(last: &GradedLast, rail: &Rail, apart: f64) -> Option<Way> {
    round_way(last.breast - apart, rail)
}

/// Round the heel between the crossings with a line square to the centre line.
fn round_way(x: f64, rail: &Rail) -> Option<Way> {
    let line = Straight::square_at(x);
    let inside = *rail.crossings_on(&line, Side::Inside).last()?;
    let outside = *rail.crossings_on(&line, Side::Outside).first()?;
    Some((Side::Outside, inside, rail.period() + outside))
}

fn limits(lines: &Lines, places: &[ClinchNail], behind_joint: f64) -> Vec<JointLimit> {
    let limit = |side: Side, joint: f64| {
        let foremost = places.iter().filter(|place| place.side == side).map(|place| place.point.x).fold(0.0, f64::max);
        JointLimit { side, foremost, limit: joint - behind_joint }
    };
    vec![limit(Side::Outside, lines.last.joint_outside), limit(Side::Inside, lines.last.joint_inside)]
}

/// Nails that stand in what no nail goes through, or touch it.
fn in_rigid(model: &Model, bed: Bed<'_>, driven: &Driven, nails: &[ClinchNail]) -> Built<Vec<(Role, usize)>> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let mut all: Vec<(Role, usize)> =
        bottom.layers.iter().filter(|layer| layer.rigid).map(|layer| (layer.role, 0)).collect();
    if all.is_empty() {
        return Ok(all);
    }
    for nail in nails {
        let touched = bed.masks(driven.spot(nail.point), driven.radius).into_iter().fold(0, |all, mask| all | mask);
        for role in bed.rigid(touched) {
            all.iter_mut().filter(|(known, _)| *known == role).for_each(|(_, count)| *count += 1);
        }
    }
    Ok(all)
}
