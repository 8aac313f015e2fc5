//! Lifts that level: how many of which, under which cap.

use super::{Rig, Tally, judged, said, say, way};
use crate::language::vocabulary::Thing;
use crate::remedy::stocked;
use crate::remedy::write::Draft;

/// The most lifts that are tried; a heel of more is no boot's.
const MOST: u32 = 8;

/// Some lifts under a cap.
#[derive(Clone, Debug)]
pub struct LiftsLevel {
    /// The cap.
    pub cap: String,
    /// The lift as stocked: `lift-leather 12 iron`.
    pub lift: String,
    /// How many.
    pub count: u32,
    /// In how many sizes the base is tall enough and not too much is sanded away.
    pub sizes: Tally,
    /// What is sanded off at the back, least and most over the sizes, mm.
    pub sanded: (f64, f64),
}

impl Rig<'_> {
    /// Every count that levels in any size, up to the first that does in all: more is sanded away again. Wedges and thin lifts stay as they are.
    pub(super) fn lifts(&self) -> Vec<LiftsLevel> {
        let Some(heel) = &self.start.model().heel else { return Vec::new() };
        let now = heel.lifts.as_ref().and_then(|lifts| lifts.count.as_ref().ok()).map_or(0.0, |it| f64::from(it.it));
        let caps: Vec<String> = stocked::items(self.start, Thing::Cap).into_iter().map(|(name, _)| name).collect();
        let mut all = Vec::new();
        for cap in &caps {
            for (name, substance) in stocked::substances(self.start, Thing::Lift, f64::MAX) {
                let lift = format!("{name} {}", said(&substance));
                for level in (1..=MOST).filter_map(|count| self.level(cap, &lift, count)) {
                    let enough = level.sizes.everywhere();
                    all.extend((level.sizes.passes + level.sizes.tight > 0).then_some(level));
                    if enough {
                        break;
                    }
                }
            }
        }
        let far = |level: &LiftsLevel| (f64::from(level.count) - now).abs();
        all.sort_by(|a, b| {
            let whole = |it: &LiftsLevel| it.sizes.refused;
            whole(a).cmp(&whole(b)).then(a.sizes.tight.cmp(&b.sizes.tight)).then(far(a).total_cmp(&far(b)))
        });
        all
    }

    fn level(&self, cap: &str, lift: &str, count: u32) -> Option<LiftsLevel> {
        let draft = Draft::from([
            (way([("heel", None), ("lifts", None)]), say(format!("lifts {count} of {lift}"))),
            (way([("heel", None), ("cap", None)]), say(format!("cap {cap}"))),
        ]);
        let sizes = self.each(&draft, |build| {
            let sanded = build.heel.as_ref()?.as_ref().ok()?.sand_back;
            Some((judged(build, &["heel/height", "heel/sanding"]), sanded))
        })?;
        let mut tally = Tally::default();
        let mut sanded = (f64::INFINITY, f64::NEG_INFINITY);
        for (judgements, off) in sizes.into_iter().flatten() {
            tally.take(&judgements);
            sanded = (sanded.0.min(off), sanded.1.max(off));
        }
        Some(LiftsLevel { cap: cap.to_owned(), lift: lift.to_owned(), count, sizes: tally, sanded })
    }
}
