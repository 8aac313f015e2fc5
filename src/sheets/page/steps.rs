//! What the station does, in order, and how long the boot rests with it.

use super::super::words::{self, Word};
use super::flow::evened;
use super::{Item, Sheets, texts};
use crate::build::{Figure, FigureId as F, Figures, Identity, Slot};

impl Sheets<'_> {
    /// *Set* at the left, *do* at the right: this station's steps of the route in order, each with a box to tick, behind
    /// what is done before the first of them. Then how long the boot rests.
    pub(in crate::sheets) fn set_and_do(&mut self, set: &[Item], first: &[Word]) {
        let steps = self.own_steps();
        let mut items: Vec<Item> = first.iter().map(|word| Item::Step(self.word(*word).to_owned())).collect();
        let lang = self.job.lang;
        let felt = self.felt();
        items.extend((1..).zip(&steps).map(|(n, step)| {
            let step_words = words::step(step, lang);
            let feel = felt.contains(step).then(|| words::FEEL_NOW.say(lang));
            Item::Step(feel.map_or_else(|| format!("{n}  {step_words}"), |feel| format!("{n}  {step_words}; {feel}")))
        }));
        let mut items = self.headed(words::DO, items);
        let (critical, others) = self.rests(&steps);
        if set.is_empty() {
            let mut left = std::mem::take(&mut items);
            left.extend(critical);
            self.columns(&left, &others);
        } else {
            items.extend(others);
            items.extend(critical);
            let (mut left, mut right) = (set.to_vec(), items);
            evened(&mut left, &mut right, self.column());
            self.columns(&left, &right);
        }
    }

    fn own_steps(&self) -> Vec<String> {
        let Some(station) = self.station else { return Vec::new() };
        let figures = self.job.figures;
        let (steps, benches) = (texts(figures, F::RouteSteps), texts(figures, F::RouteStations));
        let here = steps.iter().zip(benches).filter(|(_, bench)| *bench == station.name());
        here.map(|(step, _)| step.clone()).collect()
    }

    /// The steps after which the inside is felt by hand for points.
    fn felt(&self) -> Vec<String> {
        texts(self.job.figures, F::RouteFelt).to_vec()
    }

    /// How long the boot rests with each of these steps: first where the bond alone holds the outsole, which has a place
    /// of its own, then all others.
    fn rests(&mut self, steps: &[String]) -> (Vec<Item>, Vec<Item>) {
        let alone = texts(self.job.figures, F::RouteCritical);
        let (critical, others): (Vec<&String>, Vec<&String>) = steps.iter().partition(|step| alone.contains(step));
        let mut rows = self.rest_rows(&critical);
        if !critical.is_empty() {
            rows.extend(self.figure(F::RoutePeelSamples));
        }
        let others = self.rest_rows(&others);
        (self.headed(words::CRITICAL, rows), self.headed(words::TIMES, others))
    }

    fn rest_rows(&mut self, steps: &[&String]) -> Vec<Item> {
        let mut rows = Vec::new();
        for step in steps {
            let rests: Vec<Identity> = rests_at(self.job.figures, step).map(|figure| figure.of.clone()).collect();
            let name = words::step(step, self.job.lang).split([',', ':']).next().unwrap_or(step).to_owned();
            rows.extend(rests.into_iter().filter_map(|of| self.figure_of(&name, of)));
        }
        rows
    }
}

/// The rests of a step, in order.
pub(in crate::sheets) fn rests_at<'f>(figures: &'f Figures, step: &str) -> impl Iterator<Item = &'f Figure> {
    const RESTS: [F; 6] = [F::RestPressed, F::RestMulled, F::RestOnTheLast, F::RestOpen, F::RestSet, F::RestSaid];
    let here = move |figure: &&Figure| matches!(&*figure.of.slots, [Slot::Word(known)] if *known == step);
    figures.iter().filter(|figure| RESTS.contains(&figure.of.id)).filter(here)
}
