//! The document of how far one can go.

use super::origin::{TermDoc, terms};
use crate::remedy::reach::{LiftsLevel, Limit, NailServes, Reach, Serves, Stitches, Tally};
use crate::report::places::Places;
#[cfg(test)]
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;
use std::io::{self, Write};

/// How far the models of the files can go.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields, title = "hobnail/reach/1"))]
struct ReachDoc<'d> {
    /// The version of this shape: `hobnail/reach/1`.
    version: &'static str,
    /// The models, in the order of the files.
    models: Vec<ModelDoc<'d>>,
}

/// How far one model can go.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct ModelDoc<'d> {
    /// Its name.
    model: &'d str,
    /// How many sizes everything was tried in.
    sizes: usize,
    /// How many drafts were tried.
    trials: usize,
    /// The thickest outsole that the rows still get through.
    outsoles: Vec<StitchesDoc<'d>>,
    /// Nails by length and place.
    nails: Vec<NailDoc<'d>>,
    /// Lifts and caps that level in any size.
    lifts: Vec<LiftsDoc<'d>>,
}

/// What one machine still sews through.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct StitchesDoc<'d> {
    /// The machine.
    machine: &'d str,
    /// The tallest stack that it sews, mm.
    sews: f64,
    /// The thickest stitch in which it locks, mm, if it says so.
    #[serde(skip_serializing_if = "Option::is_none")]
    locks_through: Option<f64>,
    /// Which of the two leaves less for the outsole.
    limit: LimitName,
    /// The leather that is turned out.
    outer: &'d str,
    /// The midsole.
    midsole: &'d str,
    /// The slip sole, if there is one in this.
    #[serde(skip_serializing_if = "Option::is_none")]
    slip: Option<&'d str>,
    /// The thickest outsole at its own thick end, with everything above at its thick end, mm.
    passes: f64,
    /// The same with everything at nominal, mm.
    nominal: f64,
    /// The size in which least is left.
    size: String,
    /// The lap that sets the limit, if one does.
    #[serde(skip_serializing_if = "Option::is_none")]
    lap: Option<&'d str>,
    /// What lies above the outsole there.
    above: Vec<TermDoc<'d>>,
    /// The stocked outsoles.
    stocked: Vec<ServesDoc<'d>>,
}

/// A stocked outsole.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct ServesDoc<'d> {
    /// Its name.
    outsole: &'d str,
    /// How it does.
    serves: ServesName,
}

/// What of a machine sets the limit.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum LimitName {
    /// The tallest stack in the jaw that it sews.
    Sews,
    /// The thickest stitch in which it locks.
    LocksThrough,
}

/// How a stocked piece does.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema))]
#[serde(rename_all = "kebab-case")]
enum ServesName {
    /// With every tolerance.
    Passes,
    /// At nominal only.
    Tight,
    /// Not.
    No,
}

/// In how many sizes something does.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct TallyDoc {
    /// With every tolerance.
    passes: usize,
    /// At nominal only.
    tight: usize,
    /// Not.
    refused: usize,
}

/// One length of one nail in one place.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct NailDoc<'d> {
    /// Where it stands.
    place: String,
    /// The nail.
    nail: &'d str,
    /// Its length as stocked.
    length: &'d str,
    /// In how many sizes it serves.
    sizes: TallyDoc,
}

/// Some lifts under a cap.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(JsonSchema), schemars(deny_unknown_fields))]
struct LiftsDoc<'d> {
    /// The cap.
    cap: &'d str,
    /// The lift as stocked.
    lift: &'d str,
    /// How many.
    count: u32,
    /// In how many sizes they level.
    sizes: TallyDoc,
    /// What is sanded off at the back, the least over the sizes, mm.
    sanded_least: f64,
    /// The most, mm.
    sanded_most: f64,
}

#[cfg(test)]
pub(super) fn schema() -> Schema {
    schema_for!(ReachDoc<'static>)
}

/// Writes the document.
pub(in crate::report) fn write(out: &mut dyn Write, all: &[Reach], places: &Places<'_>) -> io::Result<()> {
    let models = all.iter().map(|reach| model(reach, places)).collect();
    super::document(out, &ReachDoc { version: super::REACH_SCHEMA, models })
}

fn model<'d>(reach: &'d Reach, places: &Places<'d>) -> ModelDoc<'d> {
    ModelDoc {
        model: &reach.model,
        sizes: reach.sizes,
        trials: reach.trials,
        outsoles: reach.stitches.iter().map(|it| stitches(it, places)).collect(),
        nails: reach.nails.iter().map(nail).collect(),
        lifts: reach.lifts.iter().map(lifts).collect(),
    }
}

fn stitches<'d>(it: &'d Stitches, places: &Places<'d>) -> StitchesDoc<'d> {
    StitchesDoc {
        machine: &it.machine,
        sews: it.sews,
        locks_through: it.locks,
        limit: match it.limit {
            Limit::Sews => LimitName::Sews,
            Limit::Locks => LimitName::LocksThrough,
        },
        outer: &it.outer,
        midsole: &it.midsole,
        slip: it.slip.as_deref(),
        passes: it.passes,
        nominal: it.nominal,
        size: it.size.to_string(),
        lap: it.lap.as_deref(),
        above: terms(&it.above, places),
        stocked: it.outsoles.iter().map(|(outsole, serves)| ServesDoc { outsole, serves: named(*serves) }).collect(),
    }
}

fn named(serves: Serves) -> ServesName {
    match serves {
        Serves::Passes => ServesName::Passes,
        Serves::Tight => ServesName::Tight,
        Serves::No => ServesName::No,
    }
}

fn tally(tally: Tally) -> TallyDoc {
    TallyDoc { passes: tally.passes, tight: tally.tight, refused: tally.refused }
}

fn nail(it: &NailServes) -> NailDoc<'_> {
    NailDoc { place: it.place.to_string(), nail: &it.nail, length: &it.length, sizes: tally(it.sizes) }
}

fn lifts(it: &LiftsLevel) -> LiftsDoc<'_> {
    LiftsDoc {
        cap: &it.cap,
        lift: &it.lift,
        count: it.count,
        sizes: tally(it.sizes),
        sanded_least: it.sanded.0,
        sanded_most: it.sanded.1,
    }
}
