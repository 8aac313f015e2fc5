//! The shaft's height by both datums, and what is claimed of it.

use crate::build::amounts::{mm, of};
use crate::build::heel::HeelBuilt;
use crate::build::last::GradedLast;
use crate::build::{Build, Built};
use crate::finding::{Sum, Term};
use crate::source::Origin;
use crate::spec::{Claim, Model};
use std::sync::Arc;

/// The shaft of one size.
#[derive(Clone, Debug)]
pub struct ShaftBuilt {
    /// Inside at the back, from the insole to the top: base + grade * whole sizes.
    pub inside: Sum,
    /// From the heel's bottom to the top at the back: inside + block + what lies under the seat.
    pub from_heel: Option<Built<Sum>>,
    /// What the forefoot's machine takes over its horn, if the forefoot is sewn on one that says so: mm, and where.
    pub horn: Option<Built<(f64, Origin)>>,
}

/// A claimed height in one size.
#[derive(Clone, Debug)]
pub struct ClaimBuilt {
    /// What is claimed, mm, and where.
    pub height: f64,
    /// See `height`.
    pub origin: Origin,
    /// From the heel's bottom; else inside.
    pub from_heel: bool,
    /// What the boot has there.
    pub has: Sum,
    /// The gussets.
    pub gussets: Vec<GussetBuilt>,
}

/// How high a gusset is sewn.
#[derive(Clone, Debug)]
pub struct GussetBuilt {
    /// Its part.
    pub part: Arc<str>,
    /// How high it is sewn, measured as the claim measures.
    pub sewn: Built<Sum>,
}

/// The shaft, if the model states one.
pub(in crate::build) fn shaft(
    model: &Model,
    last: &GradedLast,
    heel: Option<&Built<HeelBuilt>>,
) -> Option<Built<ShaftBuilt>> {
    let upper = model.upper.as_ref().ok()?;
    let (height, grade) = upper.shaft.as_ref()?;
    let inside = of(height).and_then(|height| {
        let grade = grade.as_ref().map_or(Ok(0.0), mm)?;
        let value = height.it.nominal() + grade * last.sizes_from_base;
        Ok(Sum::new().plus(Term::fixed("shaft inside at the back", value, &height.origin)))
    });
    Some(inside.map(|inside| ShaftBuilt {
        from_heel: heel.map(|heel| under_foot(heel).map(|under| inside.clone().plus_all(under))),
        inside,
        horn: horn(model),
    }))
}

/// Between the foot and the ground at the back: block and what lies under the seat. What lies under the seat stands on
/// both sides and cancels: what is left is the last's seat height and the layers under the ball.
fn under_foot(heel: &Built<HeelBuilt>) -> Built<Sum> {
    let heel = heel.as_ref().map_err(|hole| *hole)?;
    Ok(heel.block.clone().plus_all(heel.under_seat.clone()).settled())
}

/// From the seat to the back's top edge on the last in one size, mm: as stated for the base size, and grown as the shaft is.
pub(in crate::build) fn back_height(build: &Build<'_>) -> Option<Built<f64>> {
    let stated = build.model.lasting.back_height.as_ref()?;
    let grade =
        build.model.upper.as_ref().ok().and_then(|upper| upper.shaft.as_ref()).and_then(|(_, grade)| grade.as_ref());
    let last = build.last.as_ref().map_err(|hole| *hole);
    Some(last.and_then(|last| Ok(mm(stated)? + grade.map_or(Ok(0.0), mm)? * last.sizes_from_base)))
}

/// The forefoot's machine sews with the last out: the shaft hangs over its horn.
fn horn(model: &Model) -> Option<Built<(f64, Origin)>> {
    let forefoot = model.bottom.as_ref().ok()?.forefoot.as_ref()?;
    let machine = match forefoot.on.as_ref()? {
        Ok(machine) => &machine.it,
        Err(hole) => return Some(Err(*hole)),
    };
    let shafts = machine.shafts.as_ref()?;
    Some(of(shafts).map(|shafts| (shafts.it.nominal(), shafts.origin.clone())))
}

/// The claim, if the model makes one and states a shaft.
pub(in crate::build) fn claim(
    model: &Model,
    shaft: Option<&Built<ShaftBuilt>>,
    heel: Option<&Built<HeelBuilt>>,
) -> Option<Built<ClaimBuilt>> {
    let (claim, shaft) = (model.claim.as_ref()?, shaft?);
    Some(shaft.as_ref().map_err(|hole| *hole).and_then(|shaft| held(model, claim, shaft, heel)))
}

fn held(model: &Model, claim: &Claim, shaft: &ShaftBuilt, heel: Option<&Built<HeelBuilt>>) -> Built<ClaimBuilt> {
    let height = of(&claim.height)?;
    let from_heel = of(&claim.measured)?.it == "from-heel";
    let lacks = crate::language::Hole { fault: crate::finding::FaultName::STATEMENT_MISSING.0, span: height.span() };
    let under = match (from_heel, heel) {
        (false, _) => Sum::new(),
        (true, Some(heel)) => under_foot(heel)?,
        (true, None) => return Err(lacks),
    };
    let gussets = model.upper.as_ref().map_err(|hole| *hole)?.gussets.iter().map(|gusset| {
        let sewn = of(&gusset.to).map(|to| {
            let sewn = Term::fixed("gusset sewn up to", to.it.nominal(), &to.origin);
            Sum::new().plus(sewn).plus_all(under.clone())
        });
        GussetBuilt { part: super::name_of(&gusset.part).into(), sewn }
    });
    Ok(ClaimBuilt {
        height: height.it.nominal(),
        origin: height.origin.clone(),
        from_heel,
        gussets: gussets.collect(),
        has: shaft.inside.clone().plus_all(under),
    })
}
