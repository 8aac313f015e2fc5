//! The heel's nails: how long they may be at each place, how many stand in the ring.

use super::Built;
use super::amounts::{maybe, mm, of};
use super::heel::{BaseOf, HeelBuilt, base_of};
use super::lines::{Lines, lining};
use super::nails::nails_on;
use super::ply::Ply;
use crate::finding::{Sum, Term};
use crate::geometry::{Path, Side, Straight};
use crate::language::{At, Hole};
use crate::measure::{Amount, fits};
use crate::source::{Origin, Span};
use crate::spec::{ByPlace, Heel, HeelNails, House, Model, Nail, NailOf, Role, Val};
use kurbo::Point;

/// Where a heel nail stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum Place {
    Back,
    Sides,
    Breast,
}

impl Place {
    /// As written.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Place::Back => "back",
            Place::Sides => "sides",
            Place::Breast => "breast",
        }
    }
}

/// The nails of one place in one stage.
#[derive(Clone, Debug)]
pub struct HeelNail {
    /// The stage's number; none if the base is nailed at once.
    pub stage: Option<u32>,
    /// The place.
    pub place: Place,
    /// The nail's length, mm: as stated, else as [`chosen`].
    pub length: f64,
    /// Where the length was stated, or the nail.
    pub origin: Origin,
    /// How deep its head is sunk, mm.
    pub sunk: f64,
    /// The base that is nailed when the stage is done, at the back and at the breast, built to the gauge, mm.
    pub base: [f64; 2],
    /// What length and sunk head together must not exceed at the thin end: base and layers less the reserve to the foot.
    pub room: Sum,
    /// What length and sunk head together must reach: base, what holds nothing, and the bite.
    pub hold: Sum,
}

/// The nails of the cap.
#[derive(Clone, Debug)]
pub struct CapNail {
    /// Their length, mm: as stated, else as [`chosen`].
    pub length: f64,
    /// Where the length was stated, or the nail.
    pub origin: Origin,
    /// How deep the heads are sunk, mm.
    pub sunk: f64,
    /// Where the stock says so.
    pub sunk_origin: Option<Origin>,
    /// What length and sunk head must reach: cap and bite.
    pub hold: Sum,
    /// What they must not exceed at the thin end: the block at the breast.
    pub room: Sum,
}

/// The ring of nails round the heel.
#[derive(Clone, Debug)]
pub struct Ring {
    /// From one crossing of the breast line round the back to the other, mm.
    pub length: f64,
    /// How many nails stand in it.
    pub count: u32,
    /// From nail to nail, evened, mm.
    pub apart: f64,
    /// Where each nail stands, from the breast on the inside round the back to the breast on the outside.
    pub places: Vec<Point>,
    /// How far along the heel each nail stands, as a share from the back to the breast.
    pub along: Vec<f64>,
}

/// All nails of a heel in one size.
#[derive(Clone, Debug)]
pub struct HeelNailsBuilt {
    /// How deep the heads of the last stage are sunk: below what is sanded, mm.
    pub sink: f64,
    /// By stage and place.
    pub nails: Vec<HeelNail>,
    /// The cap's.
    pub cap: Option<CapNail>,
    /// The ring, if the model says where it runs.
    pub ring: Option<Ring>,
}

struct Around<'a> {
    model: &'a Model,
    house: &'a House,
    heel: &'a Heel,
    built: &'a HeelBuilt,
}

pub(super) fn heel_nails(
    model: &Model,
    house: &House,
    heel: &Heel,
    built: &HeelBuilt,
    lines: &Built<Lines>,
) -> Built<Option<HeelNailsBuilt>> {
    let Some(nails) = &heel.nails else { return Ok(None) };
    if built.lugs_under {
        return Err(Hole { fault: "heel/lugs-under-base", span: heel.span });
    }
    if !fits(built.needed.nominal(), built.given.nominal()) {
        return Err(Hole { fault: "heel/height", span: heel.span });
    }
    let around = Around { model, house, heel, built };
    let sink = built.sand_back.max(built.sand_breast).max(0.0) + mm(&house.rule("heads-below"))?;
    Ok(Some(HeelNailsBuilt {
        sink,
        nails: around.base_nails(nails, sink)?,
        cap: nails.cap.as_ref().map(|cap| around.cap_nail(cap)).transpose()?,
        ring: ring(nails, lines)?,
    }))
}

/// A stage: its number, what it nails, what is nailed when it is done, and the lengths that are stated for it.
struct Stage<'s> {
    number: Option<u32>,
    own: BaseOf,
    so_far: BaseOf,
    first: bool,
    sunk: f64,
    lengths: Option<&'s Val<ByPlace>>,
}

impl Around<'_> {
    fn base_nails(&self, nails: &HeelNails, sink: f64) -> Built<Vec<HeelNail>> {
        let Some((nail, lengths)) = &nails.base else { return Ok(Vec::new()) };
        let nail = of(nail)?;
        let mut all = Vec::new();
        for stage in self.stages(nails, lengths.as_ref(), sink)? {
            let stated = match stage.lengths {
                Some(Ok(lengths)) => Some(&lengths.it),
                Some(Err(hole)) => return Err(*hole),
                None => None,
            };
            for place in [Place::Back, Place::Sides, Place::Breast] {
                let length = stated.map(|stated| at(stated, place));
                // Lengths by place: one that is not named has no nails of its own.
                if length == Some(None) {
                    continue;
                }
                all.push(self.nail(&stage, place, length.flatten(), nail)?);
            }
        }
        Ok(all)
    }

    fn nail(
        &self,
        stage: &Stage<'_>,
        place: Place,
        stated: Option<&At<Amount>>,
        nail: &crate::spec::Valued<std::sync::Arc<Nail>>,
    ) -> Built<HeelNail> {
        let (holds_at, clears_at) = match place {
            Place::Back => (Place::Back, Place::Back),
            Place::Sides => (Place::Back, Place::Breast),
            Place::Breast => (Place::Breast, Place::Breast),
        };
        let reserve = self.house.rule("reserve")?;
        let room = self.base(&stage.so_far, clears_at)?.plus_all(self.layers()?).less(&Sum::new().plus(Term::fixed(
            "kept clear of the foot",
            reserve.it.nominal(),
            &reserve.origin,
        )));
        let mut hold = self.base(&stage.own, holds_at)?;
        // A stage that stands on lifts bites in them; the first goes through the slip, which holds nothing.
        if stage.first {
            let bottom = self.model.bottom.as_ref().map_err(|hole| *hole)?;
            let slip = bottom.layer(Role::Slip).map_or(Ok(Vec::new()), Ply::of_layer)?;
            hold.terms.extend(slip.iter().map(Ply::term));
        }
        let bite = self.house.rule("bite")?;
        hold.terms.push(Term::fixed("bite", bite.it.nominal(), &bite.origin));
        let (length, origin) = match stated {
            Some(stated) => (stated.it.nominal(), Origin { span: stated.span, ..nail.origin.clone() }),
            None => (chosen(&nail.it, stage.sunk, &hold, &room)?, nail.origin.clone()),
        };
        let height = |place: Place| self.base(&stage.so_far, place).map(|base| base.nominal());
        let base = [height(Place::Back)?, height(Place::Breast)?];
        Ok(HeelNail { stage: stage.number, place, length, origin, sunk: stage.sunk, base, room, hold })
    }

    /// The stages in their order; a base that is nailed at once is one.
    fn stages<'s>(&self, nails: &'s HeelNails, lengths: Option<&'s Val<ByPlace>>, sink: f64) -> Built<Vec<Stage<'s>>> {
        let whole = BaseOf::whole(self.heel)?;
        if nails.stages.is_empty() {
            let own = whole;
            return Ok(vec![Stage { number: None, own, so_far: own, first: true, sunk: sink, lengths }]);
        }
        let between = mm(&self.house.rule("stage-sink"))?;
        let mut so_far = BaseOf::default();
        let mut stages = Vec::new();
        for (n, stage) in nails.stages.iter().enumerate() {
            let last = n + 1 == nails.stages.len();
            let own = BaseOf {
                wedges: if stage.wedges { whole.wedges } else { 0 },
                lifts: match &stage.lifts {
                    Some(lifts) => of(lifts)?.it,
                    None => 0,
                },
                // Thin lifts bring the height to its gauge: they come last.
                thin: if last { whole.thin } else { 0 },
            };
            so_far = so_far.with(own);
            let sunk = if last { sink } else { between };
            let number = Some(of(&stage.number)?.it);
            stages.push(Stage { number, own, so_far, first: n == 0, sunk, lengths: stage.lengths.as_ref() });
        }
        Ok(stages)
    }

    /// A base at a place, built to the gauge; at the breast less what the wedges in it take.
    fn base(&self, of: &BaseOf, place: Place) -> Built<Sum> {
        let mut sum = base_of(self.heel, self.house, *of)?;
        if place == Place::Breast && of.wedges > 0 {
            let last = &super::amounts::of(&self.model.last)?.it;
            let taken = Term::fixed(
                "taken by the wedges",
                self.built.drop - self.built.drop_left,
                &super::amounts::of(&last.slope)?.origin,
            );
            sum = sum.less(&Sum::new().plus(taken));
        }
        Ok(sum)
    }

    /// What lies over the base up to the foot's face of the insole.
    fn layers(&self) -> Built<Sum> {
        let mut sum = self.built.under_seat.clone();
        sum.terms.extend(lining(self.model)?.as_ref().map(Ply::term));
        Ok(sum)
    }

    fn cap_nail(&self, (nail, length): &NailOf<Amount>) -> Built<CapNail> {
        let nail = of(nail)?;
        let bite = self.house.rule("bite")?;
        let hold = Sum::new().plus(self.built.cap.term()).plus(Term::fixed("bite", bite.it.nominal(), &bite.origin));
        let last = &of(&self.model.last)?.it;
        let drop = Term::fixed("drop to the breast", self.built.drop, &of(&last.slope)?.origin);
        let room = self.built.block.clone().less(&Sum::new().plus(drop));
        let sunk = maybe(nail.it.sunk.as_ref())?.unwrap_or(0.0);
        let (length, origin) = match length {
            Some(length) => (mm(length)?, of(length)?.origin.clone()),
            None => (chosen(&nail.it, sunk, &hold, &room)?, nail.origin.clone()),
        };
        let sunk_origin = nail.it.sunk.as_ref().map(of).transpose()?.map(|sunk| sunk.origin.clone());
        Ok(CapNail { length, origin, sunk, sunk_origin, hold, room })
    }
}

fn at(lengths: &ByPlace, place: Place) -> Option<&At<Amount>> {
    match place {
        Place::Back => lengths.back.as_ref(),
        Place::Sides => lengths.sides.as_ref(),
        Place::Breast => lengths.breast.as_ref(),
    }
}

/// The shortest stocked nail that holds at the thick end and stays clear at the thin end. Where none does both, the
/// longest that stays clear, so that it is its hold that is missed, not the foot; where none does that, the shortest.
fn chosen(nail: &Nail, sunk: f64, hold: &Sum, room: &Sum) -> Built<f64> {
    let lengths = of(&nail.lengths)?;
    let lost = Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: lengths.span() };
    let mut stocked: Vec<f64> = lengths.it.iter().map(|length| length.it.nominal()).collect();
    stocked.sort_by(f64::total_cmp);
    let (least, most) = (hold.spread().hi, room.spread().lo);
    let clear = |length: &&f64| fits(**length + sunk, most);
    let serves = stocked.iter().filter(clear).find(|length| fits(least, **length + sunk));
    serves.or(stocked.iter().rfind(clear)).or(stocked.first()).copied().ok_or(lost)
}

/// Round the heel from breast to breast, inside the heel's own edge.
fn ring(nails: &HeelNails, lines: &Built<Lines>) -> Built<Option<Ring>> {
    let (Some(inside), Some(apart)) = (&nails.inside_edge, &nails.apart) else { return Ok(None) };
    let lines = lines.as_ref().map_err(|hole| *hole)?;
    let (inside_mm, apart_mm) = (mm(inside)?, mm(apart)?);
    let lost = |span: Span| Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span };
    let rail = lines.edge.beside(-inside_mm);
    let breast = Straight::square_at(lines.last.breast);
    let from = *rail.crossings_on(&breast, Side::Inside).last().ok_or(lost(of(inside)?.span()))?;
    let to = *rail.crossings_on(&breast, Side::Outside).first().ok_or(lost(of(inside)?.span()))?;
    let length = rail.length_between(from, rail.period() + to);
    let (count, apart) = nails_on(length, apart_mm);
    let back = rail.point(0.0).x;
    let evenly = rail.evenly(from, rail.period() + to, count as usize - 1);
    let places: Vec<Point> = evenly.into_iter().map(|t| rail.point(t)).collect();
    let along = places.iter().map(|place| (place.x - back) / (lines.last.breast - back)).collect();
    Ok(Some(Ring { length, count, apart, places, along }))
}
