//! Nails that serve: each stocked length where it could stand, judged in all sizes.

use super::{Rig, Tally, judged, said, say, way};
use crate::build::{Build, Built, NailsBuilt};
use crate::finding::{ClinchLine, Subject};
use crate::language::vocabulary::Thing;
use crate::remedy::place::{Place, SlotAt, Way};
use crate::remedy::stocked;
use crate::remedy::write::Draft;
use crate::rules::Judgement;
use std::collections::BTreeMap;

/// One length of one nail in one place.
#[derive(Clone, Debug)]
pub struct NailServes {
    /// Where it stands: nails of the waist, of a place of the heel.
    pub place: Subject,
    /// The nail.
    pub nail: String,
    /// Its length as stocked: `6/8 in`.
    pub length: String,
    /// In how many sizes it clinches, or holds and keeps its point clear.
    pub sizes: Tally,
}

const FIRST: SlotAt = SlotAt { clause: None, slot: 0 };

impl Rig<'_> {
    /// Waist and seat, then the heel.
    pub(super) fn nails(&self) -> Vec<NailServes> {
        let mut all = self.clinched();
        all.extend(self.in_heel());
        // By place, in the order in which the boot is nailed.
        let order = |it: &NailServes| match &it.place {
            Subject::Clinched(line) => (false, Some(*line)),
            _ => (true, None),
        };
        all.sort_by(|a, b| order(a).cmp(&order(b)).then_with(|| a.place.cmp(&b.place)));
        all
    }

    fn places(&self) -> Vec<Place<'_>> {
        self.start.places()
    }

    /// Nails that clinch on the last's plate. Several lengths on a line are normal: a length serves a line if it serves the
    /// nails of the length that most of them have.
    fn clinched(&self) -> Vec<NailServes> {
        let nailed: Vec<&'static str> = ["waist", "seat"].into_iter().filter(|word| self.has(word)).collect();
        let clinch = stocked::items(self.start, Thing::Nail).into_iter().map(|(name, _)| name);
        let clinch = clinch.filter(|name| self.start.world.stock.nails.get(name).is_some_and(|nail| nail.clinches));
        let mut all = Vec::new();
        for nail in clinch {
            let mut draft = Draft::new();
            for word in &nailed {
                draft.insert(way([("bottom", None), (word, None), ("with", None)]), say(format!("with {nail}")));
            }
            for length in stocked::lengths(self.start, &nail) {
                let serves = |build: &Build<'_>| {
                    let lines = [(ClinchLine::Waist, &build.waist), (ClinchLine::Seat, &build.seat)];
                    let judge = |(line, nails): (ClinchLine, &Option<Built<NailsBuilt>>)| {
                        Some(match nails.as_ref()? {
                            Ok(nails) => inside(line, length.nominal(), nails),
                            Err(hole) => Judgement::lost(Subject::Clinched(line), *hole),
                        })
                    };
                    lines.into_iter().filter_map(judge).collect()
                };
                all.extend(self.tallied(&draft, (&nail, &said(&length)), serves));
            }
        }
        all
    }

    fn has(&self, word: &str) -> bool {
        let wanted = |place: &Place<'_>| place.way.len() == 2 && place.kind() == ("bottom", word_of(word));
        self.places().iter().any(wanted)
    }

    /// The base's nails: one length all round, stage by stage where it is built in stages.
    fn in_heel(&self) -> Vec<NailServes> {
        let places = self.places();
        let base = places.iter().find(|place| place.kind() == ("nailed", "base"));
        let Some((base, nail)) = base.and_then(|base| Some((base, base.name(FIRST)?.to_owned()))) else {
            return Vec::new();
        };
        let staged = places.iter().filter(|place| place.kind() == ("stage", "lengths"));
        let mut at: Vec<(Way, String, Option<u32>)> = staged
            .filter_map(|place| {
                let stage = place.way.iter().rev().nth(1)?.first.as_ref()?.parse().ok()?;
                Some((place.way.clone(), "lengths".to_owned(), Some(stage)))
            })
            .collect();
        if at.is_empty() {
            at.push((base.way.clone(), format!("base {nail}"), None));
        }
        let mut all = Vec::new();
        for length in stocked::lengths(self.start, &nail) {
            for (way, head, stage) in &at {
                let draft = Draft::from([(way.clone(), say(format!("{head} {}", said(&length))))]);
                let rules = ["heel/nail-point", "heel/nail-hold"];
                let mine = |it: &Subject| matches!(it, Subject::HeelNail(of, _) if of == stage);
                all.extend(self.tried(&draft, (&nail, &said(&length)), &rules, mine));
            }
        }
        all
    }

    /// A draft in all sizes, by the subjects that are wanted.
    fn tried(
        &self,
        draft: &Draft,
        (nail, length): (&str, &str),
        rules: &[&str],
        wanted: impl Fn(&Subject) -> bool + Sync,
    ) -> Vec<NailServes> {
        let judge = |build: &Build<'_>| judged(build, rules).into_iter().filter(|it| wanted(&it.subject)).collect();
        self.tallied(draft, (nail, length), judge)
    }

    /// What is judged of a draft in all sizes, by subject.
    fn tallied(
        &self,
        draft: &Draft,
        (nail, length): (&str, &str),
        judge: impl Fn(&Build<'_>) -> Vec<Judgement> + Sync,
    ) -> Vec<NailServes> {
        let sizes = self.each(draft, judge).unwrap_or_default();
        let mut tallies: BTreeMap<Subject, Tally> = BTreeMap::new();
        for judgements in sizes {
            let mut by_place: BTreeMap<Subject, Vec<_>> = BTreeMap::new();
            for judgement in judgements {
                by_place.entry(judgement.subject.clone()).or_default().push(judgement);
            }
            for (place, judgements) in by_place {
                tallies.entry(place).or_default().take(&judgements);
            }
        }
        let one = |(place, sizes)| NailServes { place, nail: nail.to_owned(), length: length.to_owned(), sizes };
        tallies.into_iter().map(one).collect()
    }
}

/// Whether a length serves the nails of a line that most have one length.
fn inside(line: ClinchLine, length: f64, nails: &NailsBuilt) -> Judgement {
    let (over, under) = (length - nails.window.lo, nails.window.hi - length);
    let limit = if over < under { nails.window.lo } else { nails.window.hi };
    Judgement::new(Subject::Clinched(line), length, limit, over.min(under), "mm")
}

/// The word as the vocabulary has it.
fn word_of(word: &str) -> &'static str {
    if word == "waist" { "waist" } else { "seat" }
}
