//! Blanks of outsoles and caps: which of the sizes stocked holds the outline with all that is trimmed.

use super::super::amounts::{base, of};
use super::super::{Build, Built, Lines};
use crate::geometry::{Path, Rail};
use crate::measure::{Exact, SLACK, exact, fits};
use crate::source::Origin;
use crate::spec::{BlankMeasured, Blanks, Ends, LayerStock, Role};

/// The blank of an outsole or a cap.
#[derive(Clone, Debug)]
pub struct BlankBuilt {
    /// `outsole` or `cap`.
    pub what: &'static str,
    /// Its stock.
    pub stock: String,
    /// How long and how wide the blank must be, mm, where the stock's are measured.
    pub needs: Option<(f64, f64)>,
    /// The smallest size that does.
    pub chosen: Option<Exact>,
    /// The size of the boot, where the blanks are numbered by the same system.
    pub size: Option<Exact>,
    /// The largest size stocked.
    pub largest: Exact,
    /// How long and how wide that is, mm.
    pub largest_is: Option<(f64, f64)>,
    /// Where the blanks are written.
    pub origin: Origin,
}

/// The blanks of a boot.
///
/// # Errors
/// The hole of a fault in the stock, the bottom or its lines.
pub fn blanks(build: &Build<'_>) -> Built<Vec<BlankBuilt>> {
    let mut all = Vec::new();
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    if let Some(layer) = bottom.layer(Role::Outsole)
        && let LayerStock::Outsole(outsole) = &of(&layer.of)?.it
        && let Some(stocked) = &outsole.blanks
    {
        let from = match of(&layer.ends)?.it {
            Ends::Full => None,
            Ends::BehindBreast(behind) => Some(-behind),
        };
        let through = of(&bottom.sole.as_ref().map_err(|hole| *hole)?.through)?.it;
        let reach = |lines: &Lines| {
            let from = from.map_or(f64::NEG_INFINITY, |behind| lines.last.breast + behind);
            extent(&lines.cut_to(Role::Outsole, through), from, f64::INFINITY)
        };
        all.extend(blank(build, "outsole", &outsole.name, stocked.as_ref().map_err(|hole| *hole)?, reach)?);
    }
    if let Some(heel) = &build.model.heel {
        let cap = &of(&heel.cap)?.it;
        if let Some(stocked) = &cap.blanks {
            // It goes on when the edge is trimmed.
            let reach = |lines: &Lines| extent(&lines.rough(), f64::NEG_INFINITY, lines.last.breast);
            all.extend(blank(build, "cap", &cap.name, stocked.as_ref().map_err(|hole| *hole)?, reach)?);
        }
    }
    Ok(all)
}

/// The blank of what has to lie inside it; none where nothing can be said of it: blanks that are numbered
/// by another system and were not measured.
fn blank(
    build: &Build<'_>,
    what: &'static str,
    name: &str,
    stocked: &Blanks,
    needed: impl Fn(&Lines) -> (f64, f64),
) -> Built<Option<BlankBuilt>> {
    let size = (stocked.system == build.size.system).then_some(build.size.number);
    let Some(largest) = stocked.largest() else { return Ok(None) };
    let mut built = BlankBuilt {
        what,
        stock: name.to_owned(),
        needs: None,
        chosen: None,
        size,
        largest,
        largest_is: None,
        origin: stocked.origin.clone(),
    };
    let mut least = size;
    if let Some(measured) = &stocked.measured {
        let lines = build.lines.as_ref().map_err(|hole| *hole)?;
        let measures = Measures::of(measured)?;
        let needs = needed(lines);
        built.needs = Some(needs);
        built.largest_is = Some(measures.at(crate::measure::to_f64(largest)));
        let Some(holds) = measures.least(needs) else { return Ok(Some(built)) };
        least = Some(least.map_or(holds, |size| size.max(holds)));
    }
    let Some(least) = least else { return Ok(None) };
    built.chosen = stocked.from(least);
    Ok(Some(built))
}

/// What an edge fills between two stations, mm: along the centre line and square to it.
fn extent(edge: &Rail, from: f64, to: f64) -> (f64, f64) {
    let Some(all) = edge.extent(from, to) else { return (0.0, 0.0) };
    // The stations themselves are ends as well.
    let back = if from.is_finite() { from } else { all.x0 };
    let front = if to.is_finite() { to } else { all.x1 };
    ((front - back).max(0.0), all.height())
}

/// The measures of a blank by its size.
struct Measures {
    measured: f64,
    long: (f64, f64),
    wide: (f64, f64),
}

impl Measures {
    fn of(blank: &BlankMeasured) -> Built<Measures> {
        let long = (base(&blank.long)?, base(&blank.longer)?);
        let wide = (base(&blank.wide)?, base(&blank.wider)?);
        Ok(Measures { measured: base(&blank.measured)?, long, wide })
    }

    /// Length and breadth of a size, mm.
    fn at(&self, size: f64) -> (f64, f64) {
        let sizes = size - self.measured;
        (self.long.0 + sizes * self.long.1, self.wide.0 + sizes * self.wide.1)
    }

    /// The least size that holds both; `None` if it does not grow and never will.
    fn least(&self, (long, wide): (f64, f64)) -> Option<Exact> {
        let size = |needed: f64, (is, grows): (f64, f64)| {
            if grows > 0.0 {
                Some(self.measured + (needed - is - SLACK) / grows)
            } else {
                fits(needed, is).then_some(0.0)
            }
        };
        let least = size(long, self.long)?.max(size(wide, self.wide)?).clamp(0.0, 1e6);
        #[expect(clippy::cast_possible_truncation, reason = "clamped above")]
        let millionths = (least * 1e6).ceil() as i128;
        Some(exact(millionths, 1_000_000))
    }
}
