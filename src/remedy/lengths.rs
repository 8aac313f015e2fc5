//! Nails' lengths: the next that are stocked, for all places or for one.

use super::candidate::{Rung, Scene, alike, definition};
use super::place::{Place, SlotAt};
use super::stocked;
use crate::language::vocabulary::SlotKind;
use crate::language::{Slot, StatementKey, Value};
use crate::measure::Amount;

impl Scene<'_> {
    /// Lengths stocked: all places one length on, or one place.
    pub fn lengths(&self, place: &Place<'_>, slot: &Slot, value: &Value) -> Vec<Rung> {
        let Some(nail) = self.nail_of(place) else { return Vec::new() };
        let stocked = stocked::lengths(self.trial, &nail);
        let said: Vec<(Option<&'static str>, Amount, String)> = match value {
            Value::Amount(amount) => vec![(None, *amount, self.text(slot.span).to_owned())],
            Value::Pairs(pairs) => {
                pairs.iter().map(|(word, at)| (Some(*word), at.it, self.text(at.span).to_owned())).collect()
            }
            _ => return Vec::new(),
        };
        let by_place = definition(place, SlotAt { clause: None, slot: usize::from(place.block.name == "nailed") });
        let mut rungs = Vec::new();
        let most = i64::try_from(stocked.len()).unwrap_or(0);
        for far in 1..=most {
            for steps in [-far, far] {
                let moved: Vec<_> = said.iter().map(|one| on(&stocked, one, steps)).collect();
                if moved.iter().all(Option::is_some) {
                    let mut moved = moved.iter().flatten();
                    rungs.push(words(&said, |_, _| moved.next().cloned().unwrap_or_default()));
                }
                // Then one place alone.
                for n in 0..said.len() {
                    if let (Some(place), Some(one)) = (said[n].0, &moved[n]) {
                        rungs.push(words(
                            &said,
                            |word, text| if word == Some(place) { one.clone() } else { text.to_owned() },
                        ));
                    }
                }
                if let ([(None, _, text)], [Some(one)], Some(SlotKind::ValueOrPairs(places, _))) =
                    (&said[..], &moved[..], by_place)
                {
                    for apart in places {
                        let split = |place: &&str| format!("{place} {}", if place == apart { one } else { text });
                        rungs.push(places.iter().map(split).collect::<Vec<_>>().join(", "));
                    }
                    // Or no nail at all between back and breast, where neither length may serve.
                    rungs.push(format!("back {text}, breast {one}"));
                    rungs.push(format!("back {one}, breast {text}"));
                }
            }
        }
        rungs.into_iter().map(|text| self.say(place, slot, &text)).collect()
    }

    /// The nail whose lengths stand in a statement.
    fn nail_of(&self, place: &Place<'_>) -> Option<String> {
        let first = SlotAt { clause: None, slot: 0 };
        if place.block.name == "nailed" {
            return place.name(first).map(str::to_owned);
        }
        let up = place.way.len() - 1;
        let beside = |way: &[StatementKey], word: &str| {
            let found = self.places.iter().find(|known| {
                known.way.len() == way.len() + 1 && known.way.starts_with(way) && known.statement.def.word == word
            })?;
            found.name(first).map(str::to_owned)
        };
        if place.block.name == "stage" {
            return beside(&place.way[..up - 1], "base");
        }
        beside(&place.way[..up], "with").or_else(|| {
            let waist = self.places.iter().find(|known| known.way.iter().any(|key| key.word == "waist"))?;
            beside(&waist.way[..2], "with")
        })
    }
}

/// Lengths by place, each said by `say`.
fn words(
    said: &[(Option<&'static str>, Amount, String)],
    mut say: impl FnMut(Option<&'static str>, &str) -> String,
) -> String {
    let one = |(place, _, text): &(Option<&'static str>, Amount, String)| match place {
        Some(word) => format!("{word} {}", say(*place, text)),
        None => say(*place, text),
    };
    said.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// A length `steps` stocked ones on, in the form in which it was written.
fn on(stocked: &[Amount], (_, now, text): &(Option<&'static str>, Amount, String), steps: i64) -> Option<String> {
    let above = stocked.iter().filter(|length| length.exact() > now.exact()).count();
    let below = stocked.iter().filter(|length| length.exact() < now.exact()).count();
    let far = usize::try_from(steps.unsigned_abs()).ok()?;
    let at = if steps > 0 { (far <= above).then(|| stocked.len() - above + far - 1) } else { below.checked_sub(far) };
    Some(alike(now, text, stocked.get(at?)?))
}
