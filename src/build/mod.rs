//! One model in one size: every figure, margins included. Knows no page and no terminal.

mod amounts;
mod bed;
mod corner;
mod figure;
mod figures;
mod fit;
mod forefoot;
mod heel;
mod heel_nails;
mod hollow;
mod last;
mod lines;
mod margins;
mod nails;
mod needle;
mod outer;
mod parts;
mod pieces;
mod ply;
mod route;
mod rows;
mod seams;
mod stack;
pub mod takes;
mod thread;
mod upper;

pub use amounts::{base, mm, of, plain};
pub use bed::Spot;
pub use corner::{Corner, NO_LINE};
pub use figure::{
    BondOf, Datum, Definition, Figure, FigureId, FigureUnit, Figures, Identity, Manner, Slot, filled, key_of_seam,
};
pub use figures::figures;
pub use fit::{Called, Fit};
pub use forefoot::ForefootBuilt;
pub use heel::{Gauged, HeelBuilt, Thinner, TooMany};
pub use heel_nails::{CapNail, CutLayer, HeelNail, HeelNailsBuilt, Meets, NailCut, Near, Place, Ring, Stand, Zone};
pub use hollow::Hollow;
pub use last::GradedLast;
use lines::Inside;
pub use lines::Lines;
pub use margins::Margin;
pub use nails::{ClinchNail, NailsBuilt, Run, TacksNear, nails_on};
pub use needle::NeedleBuilt;
pub use parts::PartBuilt;
pub use ply::Ply;
pub use route::{Bound, Dwell, Missing, Rest, Route, State, Step};
pub use rows::{RowBuilt, SoleRows};
pub use seams::{SeamBuilt, Sewn};
pub use stack::{Held, Lying, Missed, Mode, Peak, Room, Stack, Thin, outsole_thick};
pub use thread::ThreadUse;
pub use upper::{
    Beyond, Centre, ClaimBuilt, EdgeOf, FacingBuilt, FoldBuilt, GussetBuilt, LapBuilt, LapSection, LapSide, Left,
    ShaftBuilt, SkiveBuilt, SkiverLimit, StayBuilt, Through, UpperBuilt, UpperRow, UpperSeam, Web,
};

use crate::language::Hole;
use crate::measure::Size;
use crate::spec::{House, Model, Nailer, Shop};
use std::sync::Arc;

/// What changes when the computation changes: part of every fingerprint.
pub const COMPUTATION: u32 = 11;

/// Sides of a boot that are laced together.
pub(crate) const FACINGS: u32 = 2;

/// A part of a build, or the hole of the fault because of which it is not known.
pub type Built<T> = Result<T, Hole>;

/// What does not depend on the size, worked out once for a model.
#[derive(Debug)]
pub struct Plan<'m> {
    /// The model.
    pub model: &'m Model,
    /// The shop's house rules.
    pub house: &'m House,
    /// The shop's heel nailers.
    pub nailers: &'m [Nailer],
    shop: &'m Shop,
    base: Built<last::Base>,
    seams: Arc<[SeamBuilt]>,
    margins: Built<Arc<[Margin]>>,
    turned: Built<Arc<outer::Turned>>,
    upper: Arc<UpperBuilt>,
    route: Built<Arc<Route>>,
    bed: Built<bed::BedPlan>,
    hollow: Built<Option<Hollow>>,
}

/// One model in one size.
#[derive(Debug)]
#[expect(missing_docs, reason = "each field is the part of the boot of that name")]
pub struct Build<'m> {
    pub model: &'m Model,
    pub house: &'m House,
    pub nailers: &'m [Nailer],
    pub size: Size,
    pub fit: Fit,
    pub last: Built<GradedLast>,
    pub lines: Built<Lines>,
    pub margins: Built<Arc<[Margin]>>,
    pub rows: Built<SoleRows>,
    pub stack: Built<Stack>,
    pub forefoot: Option<Built<ForefootBuilt>>,
    pub waist: Option<Built<NailsBuilt>>,
    pub seat: Option<Built<NailsBuilt>>,
    /// Lasting tacks that are left in behind the release cut.
    pub tacks: Option<Built<NailsBuilt>>,
    /// How near they come to the clinch nails of waist and seat.
    pub tacks_near: Built<Vec<TacksNear>>,
    pub heel: Option<Built<HeelBuilt>>,
    pub heel_nails: Option<Built<HeelNailsBuilt>>,
    pub parts: Vec<PartBuilt>,
    pub seams: Arc<[SeamBuilt]>,
    pub needles: Vec<NeedleBuilt>,
    pub upper: Arc<UpperBuilt>,
    pub shaft: Option<Built<ShaftBuilt>>,
    pub claim: Option<Built<ClaimBuilt>>,
    pub facing: Option<Built<FacingBuilt>>,
    pub route: Built<Arc<Route>>,
    pub hollow: Built<Option<Hollow>>,
}

impl<'m> Plan<'m> {
    /// Prepares a model.
    #[must_use]
    pub fn new(model: &'m Model, shop: &'m Shop) -> Self {
        let base = model.last.as_ref().map_err(|hole| *hole).and_then(|last| last::Base::of(&last.it));
        let margins = margins::margins(model, &shop.house).map(Arc::from);
        let turned = outer::turned(model).map(Arc::new);
        let upper = Arc::new(upper::upper(model, shop));
        let (house, nailers, seams) = (&shop.house, &*shop.nailers, seams::seams(model).into());
        let route = route::route(model, house).map(Arc::new);
        let (bed, hollow) = (bed::BedPlan::of(model, house), hollow::hollow(model));
        Self { model, house, nailers, shop, base, seams, margins, turned, upper, route, bed, hollow }
    }

    /// Builds one size.
    #[must_use]
    pub fn build(&self, size: Size) -> Build<'m> {
        let (model, house) = (self.model, self.house);
        let last = self.base.as_ref().map_err(|hole| *hole).and_then(|base| base.graded(size));
        let both = |hole: &Hole| *hole;
        let lines = and(&last, &self.turned).and_then(|(last, turned)| lines::lines(model, house, last, turned));
        let rows = lines.as_ref().map_err(both).and_then(|lines| rows::rows(model, house, lines));
        let stack = and(&lines, &rows).and_then(|(lines, rows)| stack::stack(model, lines, rows));
        let rows = rows.map(|rows| rows.with_thread(model, house, stack.as_ref().ok()));
        let bottom = model.bottom.as_ref();
        let inside = Inside::default();
        let on_bed = and(&lines, &self.bed).map(|(lines, plan)| (lines, plan.bed(&lines.last)));
        let on_lines = |line: Option<&crate::spec::NailLine>, seat: bool| {
            line.map(|line| on_bed.and_then(|on| nails::nails(model, house, on, (line, seat), &inside)))
        };
        let waist = on_lines(bottom.ok().and_then(|bottom| bottom.waist.as_ref()), false);
        let seat = on_lines(bottom.ok().and_then(|bottom| bottom.seat.as_ref()), true);
        let left = model.lasting.tacks_left.as_ref();
        let tacks = left.map(|left| on_bed.and_then(|on| nails::tacks(model, house, on, left, &inside)));
        let forefoot = bottom.ok().and_then(|bottom| bottom.forefoot.as_ref()).map(|forefoot| {
            lines.as_ref().map_err(both).and_then(|lines| forefoot::forefoot(model, house, forefoot, lines, &inside))
        });
        let heel = model
            .heel
            .as_ref()
            .map(|heel| last.as_ref().map_err(both).and_then(|last| heel::heel(model, house, heel, last)));
        let of_lines = [(false, waist.as_ref()), (true, seat.as_ref())];
        let tacks_near = nails::tacks_near(tacks.as_ref(), of_lines, (house, self.nailers.is_empty()));
        let clinched = [&waist, &seat, &tacks].into_iter().filter_map(|line| line.as_ref()?.as_ref().ok()).collect();
        let heel_nails = match (&model.heel, &heel) {
            (Some(heel), Some(Ok(built))) if heel.nails.is_some() => {
                let (rows, by_hand) = (rows.as_ref().ok(), self.nailers.is_empty());
                let around = |(lines, bed)| heel_nails::Around {
                    model,
                    house,
                    heel,
                    built,
                    lines,
                    bed,
                    rows,
                    clinched,
                    by_hand,
                };
                on_bed.and_then(|on| heel_nails::heel_nails(&around(on), &inside)).transpose()
            }
            (_, Some(Err(hole))) => Some(Err(*hole)),
            _ => None,
        };
        let needles = needle::needles(&self.seams, house, laid(model, &rows, forefoot.as_ref()));
        let shaft = last.as_ref().ok().and_then(|last| upper::shaft(model, last, heel.as_ref()));
        let claim = upper::claim(model, shaft.as_ref(), heel.as_ref());
        let facing = last.as_ref().ok().and_then(|last| upper::facing(model, self.shop, last));
        Build {
            heel_nails,
            margins: self.margins.clone(),
            nailers: self.nailers,
            model,
            house,
            size,
            fit: Fit::of(size),
            forefoot,
            waist,
            seat,
            tacks,
            tacks_near,
            heel,
            parts: last.as_ref().map(|last| parts::parts(model, last)).unwrap_or_default(),
            needles,
            seams: Arc::clone(&self.seams),
            upper: Arc::clone(&self.upper),
            shaft,
            claim,
            facing,
            route: self.route.clone(),
            hollow: self.hollow.clone(),
            last,
            lines,
            rows,
            stack,
        }
    }
}

impl Build<'_> {
    /// The tallest stack that the sole's stitcher sews, mm; `None` if that is not known.
    #[must_use]
    pub fn sole_sews(&self) -> Option<f64> {
        let sole = self.model.bottom.as_ref().ok()?.sole.as_ref().ok()?;
        mm(&of(&sole.on).ok()?.it.sews).ok()
    }
}

/// Both, or the hole of the first that is lost.
fn and<'b, A, B>(a: &'b Built<A>, b: &'b Built<B>) -> Built<(&'b A, &'b B)> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok((a, b)),
        (Err(hole), _) | (_, Err(hole)) => Err(*hole),
    }
}

/// The true stitches of rows and forefoot, where the needle's are judged by them.
fn laid(model: &Model, rows: &Built<SoleRows>, forefoot: Option<&Built<ForefootBuilt>>) -> needle::Laid {
    let shortest = |rows: &SoleRows| rows.rows.iter().map(|row| row.pitch).fold(f64::INFINITY, f64::min);
    needle::Laid {
        sole: model.bottom.is_ok().then(|| rows.as_ref().map_err(|hole| *hole).map(shortest)),
        forefoot: forefoot.and_then(|forefoot| match forefoot {
            Ok(forefoot) => forefoot.stitches.map(|(_, pitch)| Ok(pitch)),
            Err(hole) => Some(Err(*hole)),
        }),
    }
}
