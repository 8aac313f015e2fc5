//! The bed: what lies between the face of the heel's base and the foot, layer by layer, each only where it really is.
//!
//! Nails are driven through it, so it is asked at a nail's own place: `x` along the centre line from the heel, `y` across
//! it, and how deep inside the feather line.

use super::Built;
use super::amounts::{maybe, mm, of};
use super::heel_nails::CutLayer;
use super::last::GradedLast;
use super::ply::Ply;
use crate::finding::{PartPlace, Sum, Term};
use crate::measure::{SLACK, Spread};
use crate::spec::{Bottom, Ends, Extent, House, LastedIn, Layer, Model, Role};

/// What lies in the bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// A layer of the bottom.
    Layer(Role),
    /// The outer that is lasted in, behind the release cut.
    LastedOuter,
    /// What else of the upper reaches the feather at the back: allowances, a stay, a counter cover.
    AtTheBack,
    /// The outer that is turned out, in the ledge outside the wall.
    TurnedOuter,
    /// A lining that is lasted in.
    Lining,
}

/// The layers of a bed, from the base's face up to the foot.
const FROM_THE_BASE: [Role; 3] = [Role::Outsole, Role::Slip, Role::Midsole];
const TO_THE_FOOT: [Role; 4] = [Role::Pad, Role::Shank, Role::Arch, Role::Insole];

/// One thing in the bed, the same in all sizes.
#[derive(Clone, Debug)]
struct Thing {
    lies: Lies,
    plies: Vec<Ply>,
    /// A nail holds in it.
    holds: bool,
    rigid: bool,
    reach: Reach,
}

/// How far a thing reaches, before there is a size.
#[derive(Clone, Copy, Debug)]
struct Reach {
    covers: Extent,
    /// How far behind the breast the model lets it end; none where its zone says so.
    back: Option<f64>,
    /// How far behind the breast whatever it covers ends; none where it runs to the back.
    ends_behind: Option<f64>,
    /// How far behind the joint it ends; none where it runs to the joint line.
    front: Option<f64>,
    /// Half its breadth.
    half: f64,
    skived_ends: f64,
    skived_sides: f64,
    /// Stations of a lining, shares of the bottom.
    stations: (f64, f64),
}

impl Reach {
    fn is_everywhere(&self) -> bool {
        self.covers == Extent::All && self.ends_behind.is_none() && self.half.is_infinite()
    }
}

const EVERYWHERE: Reach = Reach {
    covers: Extent::All,
    back: None,
    ends_behind: None,
    front: None,
    half: f64::INFINITY,
    skived_ends: 0.0,
    skived_sides: 0.0,
    stations: (f64::NEG_INFINITY, f64::INFINITY),
};

/// The things of a model's bed.
#[derive(Clone, Debug)]
pub(super) struct BedPlan {
    things: Vec<Thing>,
    /// How far behind the breast the release cut is, and how far the outer reaches inside the feather line behind it.
    release_behind: f64,
    inward: f64,
}

/// A place on the developed bottom.
#[derive(Clone, Copy, Debug)]
pub struct Spot {
    /// Along the centre line from the heel, mm.
    pub x: f64,
    /// Across it, mm, positive on the inside.
    pub y: f64,
    /// How deep inside the feather line, mm; negative outside.
    pub depth: f64,
}

/// The bed of one size.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bed<'p> {
    plan: &'p BedPlan,
    last: &'p GradedLast,
    /// The release cut, x.
    pub release: f64,
    /// Where the pieces that say where they end in front meet the joint line.
    met: [f64; WITH_A_FRONT.len()],
}

/// The layers that may say where they end in front, which is worked out once for a size.
const WITH_A_FRONT: [Role; 3] = [Role::Pad, Role::Shank, Role::Arch];

/// Which things lie at a place, a bit each.
pub(super) type Mask = u32;

/// A thing at a place: how thick it is there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lain {
    thing: usize,
    /// The share of its thickness that is left there.
    share: f64,
    pub spread: Spread,
    pub holds: bool,
    /// It fills what shank and pad leave of its thickness.
    pared: bool,
}

impl Lain {
    /// Whether both are one thing of the bed.
    pub fn is(&self, other: &Self) -> bool {
        self.thing == other.thing
    }
}

impl BedPlan {
    pub fn of(model: &Model, house: &House) -> Built<Self> {
        let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
        let mut things = Vec::new();
        for role in FROM_THE_BASE {
            things.extend(layer(bottom, role, house)?);
        }
        things.extend(layer(bottom, Role::Filler, house)?);
        if let Some(part) = model.seat_part()? {
            let plies = vec![Ply::of_part(&part.it)?];
            for lies in [Lies::LastedOuter, Lies::TurnedOuter] {
                things.push(Thing { lies, plies: plies.clone(), holds: true, rigid: false, reach: EVERYWHERE });
            }
        }
        things.extend(at_the_back(model)?);
        for lining in &model.upper.as_ref().map_err(|hole| *hole)?.lasted_in {
            let plies = vec![Ply::of_part(&of(&lining.part)?.it)?];
            let reach = Reach { stations: stations(lining)?, ..EVERYWHERE };
            things.push(Thing { lies: Lies::Lining, plies, holds: true, rigid: false, reach });
        }
        for role in TO_THE_FOOT {
            things.extend(layer(bottom, role, house)?);
        }
        let release_behind = mm(&house.rule("turnout-holds"))? + mm(&house.rule("blend"))?;
        Ok(Self { things, release_behind, inward: mm(&house.rule("lasted-inward"))? })
    }

    pub fn bed<'p>(&'p self, last: &'p GradedLast) -> Bed<'p> {
        let met = |role: Role| {
            let piece = self.things.iter().find(|thing| thing.lies == Lies::Layer(role) && thing.reach.front.is_some());
            piece.map_or(f64::INFINITY, |piece| last.joint_met(piece.reach.half))
        };
        Bed { plan: self, last, release: last.breast - self.release_behind, met: WITH_A_FRONT.map(met) }
    }
}

/// Every piece of the upper that reaches the feather line at the back counts there, unless it says that it stops above, or
/// is skived out: the back seam's allowances, a stay over it, a counter cover.
fn at_the_back(model: &Model) -> Built<Vec<Thing>> {
    let upper = model.upper.as_ref().map_err(|hole| *hole)?;
    let Some(seat) = model.seat_part()? else { return Ok(Vec::new()) };
    let thing = |ply: Ply, half: f64| {
        let reach = Reach { half, ..EVERYWHERE };
        Thing { lies: Lies::AtTheBack, plies: vec![ply], holds: true, rigid: false, reach }
    };
    let mut things = Vec::new();
    for seam in &upper.seams {
        let joins = seam.joins.as_ref().map_err(|hole| *hole)?;
        let at_the_seat = joins.iter().all(|part| part.it.name == seat.it.name);
        if !at_the_seat {
            continue;
        }
        if !seam.skived_out {
            things.push(thing(Ply::of_part(&seat.it)?, mm(&seam.allowance)?));
        }
        let over = |stay: &&crate::spec::Stay| stay.covers.as_ref().is_ok_and(|covers| covers.it == seam.name);
        for stay in upper.stays.iter().filter(over).filter(|stay| stay.stops.is_none()) {
            things.push(thing(Ply::of_part(&of(&stay.of)?.it)?, mm(&stay.wide)? / 2.0));
        }
    }
    for lap in upper.laps.iter().filter(|lap| lap.stops.is_none() && lap.enters_outside.is_none()) {
        let (top, under) = (&of(&lap.top)?.it, &of(&lap.under)?.it);
        if under.name == seat.it.name {
            things.push(thing(Ply::of_part(top)?, f64::INFINITY));
        }
    }
    Ok(things)
}

/// From where to where a lining reaches, as shares of the bottom, heelmost first.
pub(super) fn stations(lining: &LastedIn) -> Built<(f64, f64)> {
    let share = |station: Option<&_>, all: f64| maybe(station).map(|it| it.map_or(all, |share: f64| share / 100.0));
    Ok((share(lining.to.as_ref(), f64::NEG_INFINITY)?, share(lining.from.as_ref(), f64::INFINITY)?))
}

fn layer(bottom: &Bottom, role: Role, house: &House) -> Built<Option<Thing>> {
    let Some(layer) = bottom.layer(role) else { return Ok(None) };
    let mut plies = Ply::of_layer(layer)?;
    if role == Role::Outsole {
        // Lugs never lie under a base: where the model says so they are buffed off, else the rule on lugs refuses.
        plies.truncate(1);
    }
    let material = &of(&layer.of)?.it;
    let reach = reach(layer, house)?;
    Ok(Some(Thing { lies: Lies::Layer(role), plies, holds: material.holds_nails(), rigid: layer.rigid, reach }))
}

fn reach(layer: &Layer, house: &House) -> Built<Reach> {
    let length = |value: Option<&_>| maybe(value);
    let skived_ends = match (length(layer.skived.ends.as_ref())?, layer.role) {
        (Some(stated), _) => stated,
        (None, Role::Filler) => mm(&house.rule("filler-skived"))?,
        (None, _) => 0.0,
    };
    let ends = match of(&layer.ends)?.it {
        Ends::Full => None,
        Ends::BehindBreast(behind) => Some(behind),
    };
    Ok(Reach {
        covers: of(&layer.covers)?.it,
        back: length(layer.back.as_ref())?,
        ends_behind: ends,
        front: length(layer.front.as_ref())?,
        half: length(layer.breadth.as_ref())?.map_or(f64::INFINITY, |breadth| breadth / 2.0),
        skived_ends,
        skived_sides: length(layer.skived.sides.as_ref())?.unwrap_or(0.0),
        ..EVERYWHERE
    })
}

impl Bed<'_> {
    /// What lies at a place.
    fn mask(&self, at: Spot) -> Mask {
        let things = self.plan.things.iter().enumerate();
        things.fold(0, |mask, (n, thing)| mask | Mask::from(self.lies_at(thing, at)) << n)
    }

    /// What lies at a place, and what else does within `radius` of it: a nail so near to an edge is judged both ways.
    pub fn masks(&self, at: Spot, radius: f64) -> Vec<Mask> {
        let mut masks = vec![self.mask(at)];
        if !self.near_an_edge(at, radius) {
            return masks;
        }
        for by in [-radius, radius] {
            let near = [Spot { x: at.x + by, ..at }, Spot { y: at.y + by, ..at }, Spot { depth: at.depth + by, ..at }];
            for mask in near.map(|near| self.mask(near)) {
                if !masks.contains(&mask) {
                    masks.push(mask);
                }
            }
        }
        masks
    }

    /// Whether anything begins or ends within `radius`: asked first, as most nails stand in the middle of what lies there.
    fn near_an_edge(&self, at: Spot, radius: f64) -> bool {
        let near = |edge: f64, value: f64| (edge - value).abs() <= radius + SLACK;
        let depth = near(0.0, at.depth) || near(self.plan.inward, at.depth);
        let ends = |thing: &Thing| match thing.lies {
            Lies::LastedOuter | Lies::TurnedOuter => false,
            Lies::AtTheBack => near(thing.reach.half, at.y.abs()) || near(self.last.breast / 2.0, at.x),
            Lies::Lining => {
                let (heelmost, toemost) = thing.reach.stations;
                near(heelmost * self.last.bottom, at.x) || near(toemost * self.last.bottom, at.x)
            }
            Lies::Layer(_) if thing.reach.is_everywhere() => false,
            Lies::Layer(role) => {
                let (from, to) = self.along(role, &thing.reach, at.y);
                let joint = || self.last.joint_line.signed(kurbo::Point::new(at.x, at.y)).abs() <= radius + SLACK;
                let zone = matches!(thing.reach.covers, Extent::Forepart | Extent::Waist) && joint();
                let seat = thing.reach.covers == Extent::Seat && near(self.last.breast, at.x);
                near(from, at.x) || near(to, at.x) || near(thing.reach.half, at.y.abs()) || zone || seat
            }
        };
        depth || near(self.release, at.x) || self.plan.things.iter().any(ends)
    }

    fn lies_at(&self, thing: &Thing, at: Spot) -> bool {
        let lasted = at.depth >= -SLACK && at.depth <= self.plan.inward + SLACK;
        let behind_release = at.x <= self.release + SLACK;
        match thing.lies {
            Lies::LastedOuter => lasted && behind_release,
            Lies::AtTheBack => {
                lasted && behind_release && at.x <= self.last.breast / 2.0 && at.y.abs() <= thing.reach.half + SLACK
            }
            Lies::TurnedOuter => at.depth < -SLACK && at.x > self.release,
            Lies::Lining => {
                let (heelmost, toemost) = thing.reach.stations;
                let station = at.x / self.last.bottom;
                lasted && station >= heelmost - SLACK && station <= toemost + SLACK
            }
            Lies::Layer(role) => {
                let ends_at_feather = !FROM_THE_BASE.contains(&role);
                let hollow = role != Role::Filler || !(lasted && behind_release);
                // Most layers cover all: nothing more is to be asked of them.
                let here = hollow && (at.depth >= -SLACK || !ends_at_feather);
                here && (thing.reach.is_everywhere() || self.covered(role, &thing.reach, at))
            }
        }
    }

    fn covered(&self, role: Role, reach: &Reach, at: Spot) -> bool {
        if at.y.abs() > reach.half + SLACK {
            return false;
        }
        let ((from, to), breast) = (self.along(role, reach, at.y), self.last.breast);
        // A layer that says nothing of its front ends on the joint line, which leans.
        let ahead = || self.last.joint_line.signed(kurbo::Point::new(at.x, at.y)) > SLACK;
        let zone = match (reach.covers, reach.front) {
            (Extent::Forepart, _) => ahead(),
            (Extent::Waist, None) => !ahead(),
            (Extent::Seat, _) if role != Role::Filler => at.x <= breast + SLACK,
            _ => true,
        };
        zone && at.x >= from - SLACK && at.x <= to + SLACK
    }

    fn joint_met(&self, role: Role, reach: &Reach) -> f64 {
        let known = WITH_A_FRONT.iter().position(|known| *known == role);
        known.map_or_else(|| self.last.joint_met(reach.half), |n| self.met[n])
    }

    /// Where a layer begins and ends along the centre line, `y` beside it.
    fn along(&self, role: Role, reach: &Reach, y: f64) -> (f64, f64) {
        let breast = self.last.breast;
        let zone = match (reach.back, reach.covers) {
            (Some(behind), _) => breast - behind,
            (None, Extent::Waist) => breast,
            (None, _) => f64::NEG_INFINITY,
        };
        let heelmost = reach.ends_behind.map_or(zone, |behind| zone.max(breast - behind));
        let toemost = match (reach.front, reach.covers, role) {
            (Some(behind), ..) => self.joint_met(role, reach) - behind,
            (None, Extent::Seat, Role::Filler) => breast + reach.skived_ends,
            (None, Extent::Waist, _) => self.last.joint_line.x_at(y).unwrap_or(f64::INFINITY),
            (None, ..) => f64::INFINITY,
        };
        (heelmost, toemost)
    }

    /// The share of a thing's thickness that its skives leave at a place.
    fn share(&self, thing: &Thing, at: Spot) -> f64 {
        let Lies::Layer(role) = thing.lies else { return 1.0 };
        let (reach, (from, to)) = (&thing.reach, self.along(role, &thing.reach, at.y));
        let over = |far: f64, length: f64| if length > 0.0 { (far / length).clamp(0.0, 1.0) } else { 1.0 };
        let ends = if role == Role::Filler { to - at.x } else { (at.x - from).min(to - at.x) };
        over(ends, reach.skived_ends).min(over(reach.half - at.y.abs(), reach.skived_sides))
    }

    /// The things of a mask as thick as they are at a place, from the base's face up.
    pub fn lain(&self, mask: Mask, at: Spot) -> Vec<Lain> {
        let mut all: Vec<Lain> = Vec::with_capacity(self.plan.things.len());
        let mut filler = None;
        for (n, thing) in self.plan.things.iter().enumerate().filter(|(n, _)| mask >> n & 1 == 1) {
            let share = self.share(thing, at);
            let zero = Spread::exactly(0.0);
            let spread = thing.plies.iter().fold(zero, |sum, ply| added(sum, ply.spread, share));
            if thing.lies == Lies::Layer(Role::Filler) {
                filler = Some(all.len());
            }
            all.push(Lain { thing: n, share, spread, holds: thing.holds, pared: false });
        }
        if let Some(filler) = filler {
            self.pare(&mut all, filler);
        }
        all
    }

    /// A filler is pared to shank and pad: it fills what they leave of its own thickness, each end for itself.
    fn pare(&self, all: &mut Vec<Lain>, filler: usize) {
        let round = all.iter().filter(|lain| self.is_filled_round(lain));
        let filled = round.fold(Spread::exactly(0.0), |sum, lain| added(sum, lain.spread, 1.0));
        if filled.nominal <= 0.0 {
            return;
        }
        let left = added(all[filler].spread, filled, -1.0);
        if left.lo.max(left.nominal).max(left.hi) <= 0.0 {
            all.remove(filler);
            return;
        }
        all[filler].spread = Spread { lo: left.lo.max(0.0), nominal: left.nominal.max(0.0), hi: left.hi.max(0.0) };
        all[filler].pared = true;
    }

    /// The terms of what lies there, all of it or some. A filler that shank and pad leave nothing of at the `end` that is
    /// asked for has none.
    pub fn terms(&self, lain: &[Lain], some: impl Fn(&Lain) -> bool, end: fn(&Spread) -> f64) -> Sum {
        let mut terms = Vec::new();
        for one in lain.iter().filter(|one| some(one) && (!one.pared || end(&one.spread) > 0.0)) {
            terms.extend(self.terms_of(one, 1.0));
            if one.pared {
                terms.extend(
                    lain.iter().filter(|other| self.is_filled_round(other)).flat_map(|it| self.terms_of(it, -1.0)),
                );
            }
        }
        Sum { terms }.settled()
    }

    /// Each thing with its nominal thickness there, mm: what fills is as thick as it is left.
    pub fn layers(&self, lain: &[Lain]) -> Vec<CutLayer> {
        let layer = |one: &Lain| {
            let what = self.terms_of(one, 1.0).first().map(|term| term.what.clone())?;
            Some(CutLayer { what, count: 1, thickness: one.spread.nominal })
        };
        lain.iter().filter_map(layer).filter(|layer| layer.thickness > SLACK).collect()
    }

    fn terms_of(&self, lain: &Lain, sign: f64) -> Vec<Term> {
        let thing = &self.plan.things[lain.thing];
        let term = |ply: &Ply| {
            let mut term = Term { coefficient: sign * lain.share, ..ply.term() };
            if thing.lies == Lies::LastedOuter {
                term.what = term.what.placed(PartPlace::LastedIn);
            }
            term
        };
        thing.plies.iter().map(term).collect()
    }

    fn is_filled_round(&self, lain: &Lain) -> bool {
        matches!(self.plan.things[lain.thing].lies, Lies::Layer(Role::Shank | Role::Pad | Role::Arch))
    }

    /// Whether a lasting tack goes through it: what is there when the outer is lasted in.
    pub fn is_lasted(&self, lain: &Lain) -> bool {
        let lies = self.plan.things[lain.thing].lies;
        matches!(lies, Lies::LastedOuter | Lies::AtTheBack | Lies::Lining | Lies::Layer(Role::Insole))
    }

    /// Whether no nail goes through it.
    pub fn is_rigid(&self, lain: &Lain) -> bool {
        self.plan.things[lain.thing].rigid
    }

    /// Whether it lies below the midsole: it is not there yet when the last is still in.
    pub fn comes_later(&self, lain: &Lain) -> bool {
        matches!(self.plan.things[lain.thing].lies, Lies::Layer(Role::Outsole | Role::Slip))
    }

    /// The things that no nail goes through, of those in a mask.
    pub fn rigid(&self, mask: Mask) -> impl Iterator<Item = Role> {
        let things = self.plan.things.iter().enumerate().filter(move |(n, thing)| mask >> n & 1 == 1 && thing.rigid);
        things.filter_map(|(_, thing)| if let Lies::Layer(role) = thing.lies { Some(role) } else { None })
    }
}

fn added(sum: Spread, other: Spread, times: f64) -> Spread {
    Spread {
        lo: sum.lo + times * other.lo,
        nominal: sum.nominal + times * other.nominal,
        hi: sum.hi + times * other.hi,
    }
}

/// All of it together.
pub(super) fn together<'l>(lain: impl Iterator<Item = &'l Lain>) -> Spread {
    lain.fold(Spread::exactly(0.0), |sum, one| added(sum, one.spread, 1.0))
}
