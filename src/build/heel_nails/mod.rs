//! The heel's nails: each one where it stands, how long it may be there and must be, and what it comes near to.

mod cut;
mod near;
mod ring;
mod stages;
mod walk;

pub use cut::{CutLayer, NailCut};
pub(super) use near::to_clinch;
pub use near::{Meets, Near};
pub use ring::{Place, Ring, Stand, Zone};

use super::Built;
use super::amounts::{maybe, mm, of};
use super::bed::{Bed, Lain, together};
use super::heel::HeelBuilt;
use super::lines::{Inside, Lines};
use super::nails::{NailsBuilt, radius};
use super::rows::SoleRows;
use crate::finding::{Sum, Term};
use crate::language::{At, Hole};
use crate::measure::{Amount, Spread, fits};
use crate::source::Origin;
use crate::spec::{ByPlace, Heel, House, Model, Nail, NailOf, Role, Valued};
use ring::Lines as RingLines;
use stages::{Stage, stages};
use std::sync::Arc;
use walk::{Through, passed};

/// The nails of one place in one stage. They have one length, and the one that stands worst judges it.
#[derive(Clone, Debug)]
pub struct HeelNail {
    /// The stage's number; none if the base is nailed at once.
    pub stage: Option<u32>,
    /// The place.
    pub place: Place,
    /// How many stand there.
    pub count: usize,
    /// Their length, mm: as stated, else the shortest stocked one that serves them all.
    pub length: f64,
    /// Where the length was stated, or the nail.
    pub origin: Origin,
    /// How deep their heads are sunk, mm.
    pub sunk: f64,
    /// How far their points lean inward, radians.
    pub leans: f64,
    /// The base that is nailed when the stage is done, at the back and at the breast, built to the gauge, mm.
    pub base: [f64; 2],
    /// What a nail must not exceed at the thin end, where there is least: base and layers less the reserve to the foot.
    pub room: Sum,
    /// What the room ends at: the foot, the face of the base, or the ledge.
    pub zone: Zone,
    /// Which of [`HeelNailsBuilt::stands`] has the least room.
    pub worst: usize,
    /// What it must reach, where that is most: base, what holds nothing, and the bite.
    pub hold: Sum,
    /// The same with leather at its thin end, which may leave more to go through before the bite is complete.
    pub hold_thick: Sum,
    /// What lies about the nail that has the least to spare.
    pub cut: NailCut,
}

impl HeelNail {
    /// How far the nail reaches up from the base's face as built, mm: what leans reaches less far.
    #[must_use]
    pub fn reach(&self) -> f64 {
        self.length * self.leans.cos() + self.sunk
    }

    /// Lengths that serve, mm: least and most.
    #[must_use]
    pub fn serves(&self) -> crate::measure::Window {
        let of = |reach: f64| (reach - self.sunk) / self.leans.cos();
        crate::measure::Window { lo: of(self.hold_thick.spread().hi), hi: of(self.room.spread().lo) }
    }
}

/// The nails of the cap.
#[derive(Clone, Debug)]
pub struct CapNail {
    /// Their length, mm: as stated, else the shortest stocked one that serves them all.
    pub length: f64,
    /// How many there are.
    pub count: usize,
    /// Where the length was stated, or the nail.
    pub origin: Origin,
    /// How deep the heads are sunk, mm.
    pub sunk: f64,
    /// Where the stock says so.
    pub sunk_origin: Option<Origin>,
    /// What length and sunk head must reach: cap and bite.
    pub hold: Sum,
    /// What they must not exceed at the thin end, where there is least.
    pub room: Sum,
    /// What the room ends at.
    pub zone: Zone,
}

/// All nails of a heel in one size.
#[derive(Clone, Debug)]
pub struct HeelNailsBuilt {
    /// How deep the heads of the last stage are sunk: below what is sanded, mm.
    pub sink: f64,
    /// The most that is sanded off the base, at the back or at the breast, with its tolerances; none without nails in it.
    pub heads: Option<Sum>,
    /// By stage and place.
    pub nails: Vec<HeelNail>,
    /// Every nail where it stands, stage by stage, the cap's last.
    pub stands: Vec<Stand>,
    /// The cap's.
    pub cap: Option<CapNail>,
    /// The ring of each stage.
    pub rings: Vec<Ring>,
    /// The ring of the cap.
    pub cap_ring: Option<Ring>,
    /// The nearest that nails come to what they must not meet, each kind once.
    pub near: Vec<Near>,
    /// How many nails that pass the base's face stand in each rigid layer, or touch it.
    pub in_rigid: Vec<(Role, usize)>,
}

impl HeelNailsBuilt {
    /// The most that may be sanded reaches the heads of the base's nails.
    #[must_use]
    pub fn heads_reached(&self) -> bool {
        self.heads.as_ref().is_some_and(|sanded| !fits(sanded.spread().hi, self.sink))
    }

    /// How far above the level the heads of a base may lie that is built to the thick end of its gauge, `gauge` mm over, as
    /// it is sanded where most is taken, mm; mostly below it, and negative.
    #[must_use]
    pub fn heads_over_level(&self, gauge: f64) -> Option<f64> {
        Some(self.heads.as_ref()?.nominal() + gauge - self.sink)
    }

    /// The nails of one place in one stage.
    #[must_use]
    pub fn nail_of(&self, stand: &Stand) -> Option<&HeelNail> {
        let stage = self.rings.get(stand.stage?)?.stage;
        self.nails.iter().find(|nail| nail.stage == stage && nail.place == stand.place)
    }
}

/// What a heel is nailed through, in one size.
pub(super) struct Around<'a> {
    pub model: &'a Model,
    pub house: &'a House,
    pub heel: &'a Heel,
    pub built: &'a HeelBuilt,
    pub lines: &'a Lines,
    pub bed: Bed<'a>,
    /// The sole's rows, and the clinch nails of waist and seat: what heel nails may meet.
    pub rows: Option<&'a SoleRows>,
    pub clinched: Vec<&'a NailsBuilt>,
    /// The shop drives heel nails by hand.
    pub by_hand: bool,
}

pub(super) fn heel_nails(around: &Around<'_>, inside: &Inside) -> Built<Option<HeelNailsBuilt>> {
    let (heel, built) = (around.heel, around.built);
    let Some(nails) = &heel.nails else { return Ok(None) };
    if built.lugs_under {
        return Err(Hole { fault: "heel/lugs-under-base", span: heel.span });
    }
    if !fits(built.needed.nominal(), built.given.nominal()) {
        return Err(Hole { fault: "heel/height", span: heel.span });
    }
    let sink = built.sand_back.max(built.sand_breast).max(0.0) + mm(&around.house.rule("heads-below"))?;
    let mut all = HeelNailsBuilt {
        sink,
        heads: nails.base.is_some().then(|| around.sanded()).transpose()?,
        nails: Vec::new(),
        stands: Vec::new(),
        cap: None,
        rings: Vec::new(),
        cap_ring: None,
        near: Vec::new(),
        in_rigid: Vec::new(),
    };
    let lines = RingLines::of(around, nails, inside)?;
    if let Some((nail, lengths)) = &nails.base {
        let nail = of(nail)?;
        for (n, stage) in stages(around, nails, lengths.as_ref(), sink)?.iter().enumerate() {
            let lengths = around.lengths(&lines, (n, stage), &nail.it)?;
            let (ring, stands) = lines.stage(n, stage, lengths, around)?;
            around.stage_nails(stage, &stands, (nail, lengths), &mut all)?;
            all.rings.push(ring);
        }
    }
    if let Some(cap) = &nails.cap {
        let (ring, stands) = lines.cap(around)?;
        all.cap = around.cap_nails(cap, &stands)?;
        all.stands.extend(stands);
        all.cap_ring = Some(ring);
    }
    all.near = near::nearest(around, &lines, &all)?;
    all.in_rigid = near::in_rigid(around, &lines, &all)?;
    Ok(Some(all))
}

/// A limit on a nail where it stands.
struct Bound {
    stand: usize,
    /// What lies there.
    mask: u32,
    zone: Zone,
    /// The number by which bounds compare.
    value: f64,
    sum: Sum,
}

impl Around<'_> {
    /// What is sanded where it is most: at the back, and at the breast what the wedges leave of the slope on top.
    fn sanded(&self) -> Built<Sum> {
        let sum = self.built.given.clone().less(&self.built.needed).settled();
        if fits(self.built.drop_left, 0.0) {
            return Ok(sum);
        }
        let slope = &of(&of(&self.model.last)?.it.slope)?.origin;
        Ok(sum.plus(Term::fixed("slope that the wedges leave", self.built.drop_left, slope)))
    }

    /// The lengths of a stage's nails by place, by which its points lean: as stated, else as chosen where each would stand.
    fn lengths(&self, lines: &RingLines, (n, stage): (usize, &Stage<'_>), nail: &Nail) -> Built<[f64; 3]> {
        if let Some(stated) = stage.lengths {
            let stated = &stated.as_ref().map_err(|hole| *hole)?.it;
            return Ok(Place::ALL.map(|place| at(stated, place).it.nominal()));
        }
        let mut lengths = [0.0; 3];
        if stage.leans == 0.0 {
            return Ok(lengths);
        }
        let radius = radius(nail)?;
        for place in Place::ALL {
            let limits = |length: f64| {
                let (_, stands) = lines.stage(n, stage, [length; 3], self)?;
                let here: Vec<(usize, &Stand)> =
                    stands.iter().enumerate().filter(|(_, stand)| stand.place == place).collect();
                if here.is_empty() {
                    return Ok((0.0, 0.0));
                }
                let [room, _, hold_thick] = self.limits(stage, &here, radius)?;
                Ok((hold_thick.value, room.value))
            };
            lengths[place as usize] = chosen(nail, (stage.sunk, stage.leans), limits)?;
        }
        Ok(lengths)
    }

    /// The nails of a stage: those of each place have one length.
    fn stage_nails(
        &self,
        stage: &Stage<'_>,
        stands: &[Stand],
        (nail, leaning): (&Valued<Arc<Nail>>, [f64; 3]),
        all: &mut HeelNailsBuilt,
    ) -> Built<()> {
        let first = all.stands.len();
        let stated = match stage.lengths {
            Some(Ok(lengths)) => Some(&lengths.it),
            Some(Err(hole)) => return Err(*hole),
            None => None,
        };
        for place in Place::ALL {
            let here: Vec<(usize, &Stand)> =
                stands.iter().enumerate().filter(|(_, stand)| stand.place == place).collect();
            if here.is_empty() {
                continue;
            }
            let limits = self.limits(stage, &here, radius(&nail.it)?)?;
            let [room, hold, hold_thick] = limits;
            let (length, origin) = match stated.map(|stated| at(stated, place)) {
                Some(stated) => (stated.it.nominal(), Origin { span: stated.span, ..nail.origin.clone() }),
                None if stage.leans > 0.0 => (leaning[place as usize], nail.origin.clone()),
                None => {
                    let limits = |_| Ok((hold_thick.value, room.value));
                    (chosen(&nail.it, (stage.sunk, stage.leans), limits)?, nail.origin.clone())
                }
            };
            let reach = length * stage.leans.cos() + stage.sunk;
            let cut = self.cut(stage, stands, (&room, &hold_thick), reach)?.moved(first);
            all.nails.push(HeelNail {
                stage: stage.number,
                place,
                count: here.len(),
                length,
                origin,
                sunk: stage.sunk,
                leans: stage.leans,
                base: [stage.so_far.at(0.0).nominal, stage.so_far.at(self.built.length).nominal],
                room: room.sum,
                zone: room.zone,
                worst: first + room.stand,
                hold: hold.sum,
                hold_thick: hold_thick.sum,
                cut,
            });
        }
        all.stands.extend(stands.iter().cloned());
        Ok(())
    }

    /// The least room and the most hold of some nails, with the terms of the worst of each.
    fn limits(&self, stage: &Stage<'_>, here: &[(usize, &Stand)], radius: f64) -> Built<[Bound; 3]> {
        let bite = mm(&self.house.rule("bite"))?;
        let mut worst: [Option<(f64, usize, u32)>; 3] = [None; 3];
        let mut offer = |which: usize, value: f64, at: (usize, u32)| {
            let better = worst[which].is_none_or(|(known, ..)| if which == 0 { value < known } else { value > known });
            if better {
                worst[which] = Some((value, at.0, at.1));
            }
        };
        let (reserve, ledge) = (self.kept(Zone::Seat)?.0, self.kept(Zone::Ledge)?.0);
        for (n, stand) in here {
            let spot = stand.spot();
            let kept = if stand.zone == Zone::Ledge { ledge } else { reserve };
            for mask in self.bed.masks(spot, radius) {
                let lain = self.bed.lain(mask, spot);
                let above = if stand.zone == Zone::Turn { 0.0 } else { together(lain.iter()).lo - kept };
                let (own, so_far) = (stage.own.worst(stand, f64::max), stage.so_far.worst(stand, f64::min));
                offer(0, stage.so_far.at(so_far).lo + above, (*n, mask));
                let through: Vec<Through> =
                    if stage.first { lain.iter().map(Through::from).collect() } else { Vec::new() };
                offer(1, stage.own.at(own).nominal + passed(&through, bite, false).0 + bite, (*n, mask));
                offer(2, stage.own.at(own).hi + passed(&through, bite, true).0 + bite, (*n, mask));
            }
        }
        let lost = Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: self.heel.span };
        let [room, hold, thick] = worst;
        let stand = |n: usize| here.iter().find(|(known, _)| *known == n).map(|(_, stand)| *stand).ok_or(lost);
        let (room, hold, thick) = (room.ok_or(lost)?, hold.ok_or(lost)?, thick.ok_or(lost)?);
        let bound = |(_, n, mask): (f64, usize, u32), zone: Zone, sum: Sum, end: fn(&Spread) -> f64| Bound {
            stand: n,
            mask,
            zone,
            value: end(&sum.spread()),
            sum,
        };
        let (at_room, at_hold, at_thick) = (stand(room.1)?, stand(hold.1)?, stand(thick.1)?);
        Ok([
            bound(room, at_room.zone, self.room_sum(stage, at_room, room.2)?, |sum| sum.lo),
            bound(hold, at_hold.zone, self.hold_sum(stage, at_hold, (hold.2, false))?, |sum| sum.nominal),
            bound(thick, at_thick.zone, self.hold_sum(stage, at_thick, (thick.2, true))?, |sum| sum.hi),
        ])
    }

    /// What is kept clear where a nail's point stands: the reserve to the foot, or a little below the ledge's face.
    fn kept(&self, zone: Zone) -> Built<(f64, &'static str, Origin)> {
        let (rule, what) = match zone {
            Zone::Seat => ("reserve", "kept clear of the foot"),
            Zone::Turn => return Ok((0.0, "", self.house.rule("reserve")?.origin)),
            Zone::Ledge => ("below-ledge", "kept below the ledge's face"),
        };
        let rule = self.house.rule(rule)?;
        Ok((rule.it.nominal(), what, rule.origin))
    }

    fn room_sum(&self, stage: &Stage<'_>, stand: &Stand, mask: u32) -> Built<Sum> {
        let base = stage.so_far.sum(self, stage.so_far.worst(stand, f64::min))?;
        if stand.zone == Zone::Turn {
            return Ok(base);
        }
        let spot = stand.spot();
        let (kept, what, origin) = self.kept(stand.zone)?;
        let layers = self.bed.terms(&self.bed.lain(mask, spot), |_| true, |spread| spread.lo);
        Ok(base.plus_all(layers).less(&Sum::new().plus(Term::fixed(what, kept, &origin))))
    }

    fn hold_sum(&self, stage: &Stage<'_>, stand: &Stand, (mask, thick): (u32, bool)) -> Built<Sum> {
        let mut sum = stage.own.sum(self, stage.own.worst(stand, f64::max))?;
        let bite = self.house.rule("bite")?;
        if stage.first {
            let lain = self.bed.lain(mask, stand.spot());
            let through: Vec<Through> = lain.iter().map(Through::from).collect();
            let (_, complete) = passed(&through, bite.it.nominal(), thick);
            let below = |one: &Lain| lain.iter().take(complete).any(|it| it.is(one));
            let end: fn(&Spread) -> f64 = if thick { |spread| spread.hi } else { |spread| spread.nominal };
            sum = sum.plus_all(self.bed.terms(&lain, |one| !one.holds && below(one), end));
        }
        Ok(sum.plus(Term::fixed("bite", bite.it.nominal(), &bite.origin)))
    }

    /// The cap's nails are driven when the base is level: they bite in it and end inside it, but where the seat lies above
    /// them, or the ledge, they may go on.
    fn cap_nails(&self, (nail, length): &NailOf<Amount>, stands: &[Stand]) -> Built<Option<CapNail>> {
        let nail = of(nail)?;
        let bite = self.house.rule("bite")?;
        let mut room: Option<(f64, Zone, Sum)> = None;
        // Where the upper turns over all of them, the block alone counts, and the foremost has least of it.
        let turning = stands.iter().all(|stand| stand.zone == Zone::Turn);
        let foremost = stands.iter().max_by(|a, b| a.head.x.total_cmp(&b.head.x));
        let judged = if turning { foremost.into_iter().collect() } else { stands.iter().collect::<Vec<_>>() };
        for stand in judged {
            let sum = self.cap_room(stand, radius(&nail.it)?)?;
            let value = sum.spread().lo;
            if room.as_ref().is_none_or(|(known, ..)| value < *known) {
                room = Some((value, stand.zone, sum));
            }
        }
        let Some((most, zone, room)) = room else { return Ok(None) };
        let hold = Sum::new().plus(self.built.cap.term()).plus(Term::fixed("bite", bite.it.nominal(), &bite.origin));
        let sunk = maybe(nail.it.sunk.as_ref())?.unwrap_or(0.0);
        let (length, origin) = match length {
            Some(length) => (mm(length)?, of(length)?.origin.clone()),
            None => (chosen(&nail.it, (sunk, 0.0), |_| Ok((hold.spread().hi, most)))?, nail.origin.clone()),
        };
        let sunk_origin = nail.it.sunk.as_ref().map(of).transpose()?.map(|sunk| sunk.origin.clone());
        Ok(Some(CapNail { length, count: stands.len(), origin, sunk, sunk_origin, hold, room, zone }))
    }

    fn cap_room(&self, stand: &Stand, radius: f64) -> Built<Sum> {
        let last = &of(&self.model.last)?.it;
        let drop = self.built.drop * stand.head.x / self.built.length;
        let drop = Term::fixed("drop to there", drop, &of(&last.slope)?.origin);
        let block = self.built.block.clone().less(&Sum::new().plus(drop));
        if stand.zone == Zone::Turn {
            return Ok(block);
        }
        let spot = stand.spot();
        let (kept, what, origin) = self.kept(stand.zone)?;
        let over = |mask: u32| {
            let layers = self.bed.terms(&self.bed.lain(mask, spot), |_| true, |spread| spread.lo);
            block.clone().plus_all(layers).less(&Sum::new().plus(Term::fixed(what, kept, &origin))).settled()
        };
        let sums = self.bed.masks(spot, radius).into_iter().map(over);
        let least = sums.reduce(|a, b| if b.spread().lo < a.spread().lo { b } else { a });
        Ok(least.unwrap_or(block))
    }
}

fn at(lengths: &ByPlace, place: Place) -> &At<Amount> {
    match place {
        Place::Back => &lengths.back,
        Place::Sides => &lengths.sides,
        Place::Breast => &lengths.breast,
    }
}

/// The shortest stocked nail that holds at the thick end and stays clear at the thin end. Where none does both, the
/// longest that stays clear, so that it is its hold that is missed, not the foot; where none does that, the shortest.
/// `limits` of a length are what it must reach and may: they change with it where it leans.
fn chosen(nail: &Nail, (sunk, leans): (f64, f64), limits: impl Fn(f64) -> Built<(f64, f64)>) -> Built<f64> {
    let lengths = of(&nail.lengths)?;
    let lost = Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: lengths.span() };
    let mut stocked: Vec<f64> = lengths.it.iter().map(|length| length.it.nominal()).collect();
    stocked.sort_by(f64::total_cmp);
    let mut longest_clear = None;
    for length in &stocked {
        let (least, most) = limits(*length)?;
        let reach = length * leans.cos() + sunk;
        if fits(reach, most) {
            if fits(least, reach) {
                return Ok(*length);
            }
            longest_clear = Some(*length);
        }
    }
    longest_clear.or(stocked.first().copied()).ok_or(lost)
}
