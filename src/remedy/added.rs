//! Whole statements that may be added: a slip sole, a flat skive in the turnout, a seam rubbed flat.

use super::candidate::{Candidate, Rung, Scene};
use super::place::{Place, SlotAt, Way, path};
use super::stocked;
use super::trial::Wrong;
use super::write::Act;
use crate::finding::{Kind, Subject};
use crate::language::vocabulary::Thing;
use crate::language::{Given, StatementKey, Value};
use crate::rules::all;

const FIRST: SlotAt = SlotAt { clause: None, slot: 0 };

/// How many a statement says in its first slot.
fn counted(place: &Place<'_>) -> Option<u32> {
    match &place.slot(FIRST)?.given {
        Given::Value(Value::Count(count)) => Some(*count),
        _ => None,
    }
}

fn key(word: &'static str, first: Option<&str>) -> StatementKey {
    StatementKey { word, first: first.map(str::to_owned) }
}

impl Scene<'_> {
    /// Statements that are not there and would help what is wrong.
    pub fn added(&self, wrong: &Wrong, candidates: &mut Vec<Candidate>) {
        match all()[wrong.about.0].name() {
            "jaw/sole-stack" | "jaw/locks" => {
                candidates.extend(self.slip_sole());
                candidates.extend(self.flat_skives());
            }
            "heel/sanding" => {
                candidates.extend(["lifts", "thin-lifts"].iter().filter_map(|word| self.fewer_lifts(word)));
            }
            "heel/held" => candidates.extend(self.bonded_heel()),
            "upper/stay" => candidates.extend(self.rubbed_flat(wrong)),
            _ => {}
        }
    }

    fn place(&self, way: &[StatementKey]) -> Option<&Place<'_>> {
        self.places.iter().find(|place| place.way == way)
    }

    /// The rows stop in a slip sole, and the outsole is cemented under it.
    fn slip_sole(&self) -> Option<Candidate> {
        let bottom = key("bottom", None);
        let layer = vec![bottom.clone(), key("layer", Some("slip"))];
        let through: Way = vec![bottom.clone(), key("sole", None), key("through", None)];
        if self.place(&layer).is_some() || self.place(&through).is_none() {
            return None;
        }
        let bonded = self.place(&[bottom, key("layer", Some("midsole")), key("bonded", None)]);
        let bond = bonded.and_then(|place| place.name(FIRST)).map(|name| format!(";  bonded {name}"));
        let rung = |(name, _): (String, f64)| -> Rung {
            let slip = format!("layer slip {{ of {name};  covers all{} }}", bond.as_deref().unwrap_or_default());
            vec![(layer.clone(), Act::Say(slip)), (through.clone(), Act::Say("through slip".to_owned()))]
        };
        let rungs: Vec<Rung> = stocked::items(self.trial, Thing::Rubber).into_iter().map(rung).collect();
        let id = format!("{} [in]", path(self.model, &layer));
        (!rungs.is_empty()).then(|| Candidate::of_rungs(id, Kind::Construction, rungs))
    }

    /// An adhesive for the heel; one that is not for soles is refused when it is tried.
    fn bonded_heel(&self) -> Option<Candidate> {
        let heel = key("heel", None);
        let way = vec![heel, key("bonded", None)];
        if self.place(&way).is_some() {
            return None;
        }
        let rung = |(name, _): (String, f64)| -> Rung { vec![(way.clone(), Act::Say(format!("bonded {name}")))] };
        let rungs: Vec<Rung> = stocked::items(self.trial, Thing::Adhesive).into_iter().map(rung).collect();
        let id = format!("{} [in]", path(self.model, &way));
        (!rungs.is_empty()).then(|| Candidate::of_rungs(id, Kind::Construction, rungs))
    }

    /// One lift less, two, and so on; the last stage that nails any has so many less to nail.
    fn fewer_lifts(&self, word: &'static str) -> Option<Candidate> {
        let lifts = self.place(&[key("heel", None), key(word, None)])?;
        let count = counted(lifts)?;
        let staged = |place: &&Place<'_>| place.kind() == ("stage", word) && counted(place).is_some_and(|it| it > 0);
        let stage = self.places.iter().rfind(staged);
        let most = stage.and_then(counted).unwrap_or(count);
        let rung = |less: u32| -> Option<Rung> {
            let say = |place: &Place<'_>, count: u32| Some(self.say(place, place.slot(FIRST)?, &count.to_string()));
            let staged = stage.map(|stage| say(stage, counted(stage)? - less)).unwrap_or_default();
            Some(say(lifts, count - less)?.into_iter().chain(staged.into_iter().flatten()).collect())
        };
        let rungs: Vec<Rung> = (1..=most.min(count)).filter_map(rung).collect();
        let id = format!("{} [fewer]", path(self.model, &lifts.way));
        (!rungs.is_empty()).then(|| Candidate::of_rungs(id, Kind::Construction, rungs).of_the_cause())
    }

    /// The under part of a lap that enters the turnout, thinned flat there.
    fn flat_skives(&self) -> Vec<Candidate> {
        let laps = self.places.iter().filter(|place| {
            place.statement.def.word == "lap" && {
                let enters = [&place.way[..], &[key("enters-turnout", None)]].concat();
                self.place(&enters).is_some()
            }
        });
        laps.filter_map(|lap| self.flat_skive(lap)).collect()
    }

    fn flat_skive(&self, lap: &Place<'_>) -> Option<Candidate> {
        let under = lap.name(SlotAt { clause: Some("over"), slot: 0 })?;
        let skive = [&lap.way[..], &[key("skive", Some(under))]].concat();
        let flat = [&skive[..], &[key("in-turnout", None)]].concat();
        if self.place(&flat).is_some() {
            return None;
        }
        let of = self.place(&[key("upper", None), key("part", Some(under)), key("of", None)])?.name(FIRST)?;
        let (_, thick) = stocked::items(self.trial, Thing::UpperLeather).into_iter().find(|(name, _)| name == of)?;
        let there = self.place(&skive).is_some();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "no leather is so thick")]
        let most = (thick * 4.0).ceil() as u32;
        // From the thickest quarter of a mm below the leather down to half a mm.
        let rungs = (2..most).rev().map(|quarters| {
            let said = format!("in-turnout flat to {} mm +- 0.25 mm", f64::from(quarters) / 4.0);
            if there {
                vec![(flat.clone(), Act::Say(said))]
            } else {
                vec![(skive.clone(), Act::Say(format!("skive {under} {{ {said} }}")))]
            }
        });
        let id = format!("{} [in]", path(self.model, &flat));
        Some(Candidate::of_rungs(id, Kind::Setting, rungs.collect()))
    }

    /// The seam under a stay that is not rubbed flat.
    fn rubbed_flat(&self, wrong: &Wrong) -> Option<Candidate> {
        let Subject::SeamUnderStay(seam, _) = &wrong.about.1 else { return None };
        let way = vec![key("upper", None), key("seam", Some(seam)), key("rubbed-flat", None)];
        if self.place(&way).is_some() {
            return None;
        }
        let id = format!("{} [in]", path(self.model, &way));
        let rung = vec![(way, Act::Say("rubbed-flat".to_owned()))];
        Some(Candidate::of_rungs(id, Kind::Construction, vec![rung]))
    }
}
