//! Nails that serve: each stocked length where it could stand, judged in all sizes.

use super::{Rig, Tally, judged, said, say, way};
use crate::language::vocabulary::Thing;
use crate::remedy::place::{Place, SlotAt, Way};
use crate::remedy::stocked;
use crate::remedy::write::Draft;
use std::collections::BTreeMap;

/// One length of one nail in one place.
#[derive(Clone, Debug)]
pub struct NailServes {
    /// Where it stands: `waist nails`, `heel nail at the back`.
    pub place: String,
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
        let order = |it: &NailServes| ["waist", "seat"].iter().position(|word| it.place.starts_with(word)).unwrap_or(2);
        all.sort_by(|a, b| order(a).cmp(&order(b)).then_with(|| a.place.cmp(&b.place)));
        all
    }

    fn places(&self) -> Vec<Place<'_>> {
        self.start.places()
    }

    /// Nails that clinch on the last's plate: the same in waist and seat.
    fn clinched(&self) -> Vec<NailServes> {
        let nailed: Vec<&'static str> = ["waist", "seat"].into_iter().filter(|word| self.has(word)).collect();
        let clinch = stocked::items(self.start, Thing::Nail).into_iter().map(|(name, _)| name);
        let clinch = clinch.filter(|name| self.start.world.stock.nails.get(name).is_some_and(|nail| nail.clinches));
        let mut all = Vec::new();
        for nail in clinch {
            for length in stocked::lengths(self.start, &nail) {
                let mut draft = Draft::new();
                for word in &nailed {
                    draft.insert(way([("bottom", None), (word, None), ("with", None)]), say(format!("with {nail}")));
                    let at = way([("bottom", None), (word, None), ("length", None)]);
                    draft.insert(at, say(format!("length {}", said(&length))));
                }
                let subject = |subject: &str| subject.ends_with(" nails");
                all.extend(self.tried(&draft, (&nail, &said(&length)), &["waist/clinch"], subject));
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
        let mut at: Vec<(Way, String, String)> = staged
            .filter_map(|place| {
                let stage = place.way.iter().rev().nth(1)?.first.clone()?;
                Some((place.way.clone(), "lengths".to_owned(), format!("heel nail of stage {stage} ")))
            })
            .collect();
        if at.is_empty() {
            at.push((base.way.clone(), format!("base {nail}"), "heel nail at ".to_owned()));
        }
        let mut all = Vec::new();
        for length in stocked::lengths(self.start, &nail) {
            for (way, head, subjects) in &at {
                let draft = Draft::from([(way.clone(), say(format!("{head} {}", said(&length))))]);
                let rules = ["heel/nail-point", "heel/nail-hold"];
                all.extend(self.tried(&draft, (&nail, &said(&length)), &rules, |it| it.starts_with(subjects)));
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
        wanted: impl Fn(&str) -> bool,
    ) -> Vec<NailServes> {
        let sizes = self.each(draft, |build| judged(build, rules)).unwrap_or_default();
        let mut tallies: BTreeMap<String, Tally> = BTreeMap::new();
        for judgements in sizes {
            let mut by_place: BTreeMap<String, Vec<_>> = BTreeMap::new();
            for judgement in judgements.into_iter().filter(|it| wanted(&it.subject)) {
                by_place.entry(judgement.subject.to_string()).or_default().push(judgement);
            }
            for (place, judgements) in by_place {
                tallies.entry(place).or_default().take(&judgements);
            }
        }
        let one = |(place, sizes)| NailServes { place, nail: nail.to_owned(), length: length.to_owned(), sizes };
        tallies.into_iter().map(one).collect()
    }
}

/// The word as the vocabulary has it.
fn word_of(word: &str) -> &'static str {
    if word == "waist" { "waist" } else { "seat" }
}
