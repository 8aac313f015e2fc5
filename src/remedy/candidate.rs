//! Which choices may move a margin, and the rungs of each: from the terms of its sum and the levers of its rule to
//! the slots of the vocabulary.

use super::place::{Place, SlotAt, Way, path};
use super::step::{End, Setting, settings};
use super::stocked;
use super::trial::{Trial, Wrong};
use super::write::Act;
use crate::finding::{Kind, Piece};
use crate::language::vocabulary::{FILE, Key, SlotDef, SlotKind, Thing, Toward};
use crate::language::{Given, Slot, StatementKey, Value};
use crate::measure::{Amount, Number, Shape};
use crate::rules::Moves;
use crate::source::{Nature, Origin, Span};
use std::ops::Range;

/// What one rung does.
pub type Rung = Vec<(Way, Act)>;

/// A choice with its rungs, the nearest first.
pub struct Candidate {
    /// What tells it from others of its model.
    pub id: String,
    /// What it changes.
    pub kind: Kind,
    /// Never offered first.
    pub last: bool,
    /// It takes away what is too many: looked at, and offered, before all else.
    pub cause: bool,
    /// Other choices may stand in the same statement.
    pub shared: bool,
    rungs: Rungs,
}

enum Rungs {
    /// Numbers of one statement that move together, mark by mark.
    Marks { way: Way, head: String, slots: Vec<(Range<usize>, Setting)>, up: bool },
    /// One of a few.
    Others(Vec<Rung>),
}

impl Candidate {
    /// The rung `k`, from 1; `None` beyond the last.
    pub fn rung(&self, k: u32) -> Option<Rung> {
        match &self.rungs {
            Rungs::Others(rungs) => rungs.get(k as usize - 1).cloned(),
            Rungs::Marks { way, head, slots, up } => {
                let steps = if *up { i64::from(k) } else { -i64::from(k) };
                let parts: Option<Vec<(Range<usize>, String)>> =
                    slots.iter().map(|(at, setting)| Some((at.clone(), setting.moved(steps)?))).collect();
                Some(vec![(way.clone(), Act::Say(put(head, parts?)))])
            }
        }
    }

    /// How many rungs it has, if they are counted.
    pub fn others(&self) -> Option<u32> {
        match &self.rungs {
            Rungs::Others(rungs) => u32::try_from(rungs.len()).ok(),
            Rungs::Marks { .. } => None,
        }
    }

    /// The same, that takes away what is too many.
    pub fn of_the_cause(self) -> Self {
        Self { cause: true, ..self }
    }

    /// A choice of a few.
    pub fn of_rungs(id: String, kind: Kind, rungs: Vec<Rung>) -> Self {
        Self { id, kind, last: false, cause: false, shared: false, rungs: Rungs::Others(rungs) }
    }
}

/// A text with parts of it replaced.
fn put(text: &str, mut parts: Vec<(Range<usize>, String)>) -> String {
    parts.sort_by_key(|(at, _)| std::cmp::Reverse(at.start));
    let mut text = text.to_owned();
    for (at, part) in parts {
        text.replace_range(at, &part);
    }
    text
}

/// A draft's model, to be asked for its choices.
pub struct Scene<'s> {
    /// The model's name.
    pub model: &'s str,
    /// The draft.
    pub trial: &'s Trial,
    /// Its statements in force.
    pub places: Vec<Place<'s>>,
}

impl<'s> Scene<'s> {
    /// Of a draft.
    pub fn new(model: &'s str, trial: &'s Trial) -> Self {
        Self { model, trial, places: trial.places() }
    }

    /// The choices that may move what is wrong, each once, in the order of their names.
    pub fn candidates(&self, wrong: &Wrong) -> Vec<Candidate> {
        let judgement = &wrong.judgement;
        let mut all = Vec::new();
        for lever in &judgement.levers {
            self.from(&lever.origin, None, Some(lever.moves), &mut all);
        }
        for term in &judgement.terms.terms {
            self.from(&term.origin, term.what.stated(), None, &mut all);
        }
        for (origin, what) in &judgement.further {
            self.from(origin, what.piece().and_then(Piece::stated), None, &mut all);
        }
        if let Some((origin, _)) = &judgement.limit_origin {
            self.from(origin, None, None, &mut all);
        }
        self.machines(wrong, &mut all);
        self.added(wrong, &mut all);
        // Of two that come to the same, the one that takes away what is too many is looked at.
        all.sort_by(|a, b| b.cause.cmp(&a.cause).then_with(|| a.id.cmp(&b.id)));
        all.dedup_by(|a, b| a.id == b.id);
        all
    }

    /// The choices behind an origin: those that stand there, or those that name the fact that stands there.
    fn from(&self, origin: &Origin, spoken: Option<&str>, moves: Option<Moves>, all: &mut Vec<Candidate>) {
        match origin.nature {
            Nature::Choice => {
                // A nail's length may stand in another statement than the nail.
                let stands = |place: &&Place<'_>| place.slots().iter().any(|(_, slot)| slot.span.contains(origin.span));
                let here = |place: &&Place<'_>| path(self.model, &place.way) == *origin.path;
                let mut at: Vec<_> = self.places.iter().filter(stands).collect();
                if at.is_empty() {
                    at.extend(self.places.iter().filter(here));
                }
                for place in at {
                    self.at(place, origin.span, moves, all);
                }
            }
            Nature::Fact => self.naming(origin, spoken, all),
            Nature::HouseRule => {}
        }
    }

    fn at(&self, place: &Place<'_>, span: Span, moves: Option<Moves>, all: &mut Vec<Candidate>) {
        let slots = place.slots();
        let touched = |slot: &&(SlotAt, &Slot)| span.contains(slot.1.span) || slot.1.span.contains(span);
        let mut here: Vec<_> = slots.iter().filter(touched).collect();
        if here.is_empty() {
            here = slots.iter().collect();
        }
        for (at, slot) in &here {
            self.slot(place, *at, slot, moves, all);
        }
        // Rows are set by their number, the first and how far they are apart; an edge by its width and what is left.
        if matches!(place.kind().1, "rows" | "edge" | "eyelets" | "hooks") {
            for (at, slot) in slots.iter().filter(|(at, _)| here.iter().all(|(known, _)| known != at)) {
                self.slot(place, *at, slot, None, all);
            }
        }
        if place.kind().1 == "layer" {
            let inner =
                |known: &&Place<'_>| known.way.len() == place.way.len() + 1 && known.way.starts_with(&place.way);
            for inner in
                self.places.iter().filter(inner).filter(|known| matches!(known.kind().1, "breadth" | "rigid" | "ends"))
            {
                for (at, slot) in inner.slots() {
                    self.slot(inner, at, slot, None, all);
                }
                self.removal(inner, all);
            }
        }
        self.together(place, all);
        self.removal(place, all);
    }

    /// Choices that name a piece of stock; of several those of the part or layer that is spoken of, by the name
    /// under which the model states it.
    fn naming(&self, origin: &Origin, spoken: Option<&str>, all: &mut Vec<Candidate>) {
        let mut words = origin.path.split(" / ").next().unwrap_or_default().splitn(2, ' ');
        let (Some(word), Some(name)) = (words.next(), words.next()) else { return };
        let stocked = |slot: &SlotKind| if let SlotKind::New(thing) = slot { Some(*thing) } else { None };
        let of = FILE.statement(word).and_then(|def| def.slots.first()).and_then(|slot| stocked(&slot.kind));
        let Some(thing) = of.filter(|thing| !matches!(thing, Thing::Last | Thing::Model)) else { return };
        let named: Vec<(&Place<'_>, SlotAt)> = self
            .places
            .iter()
            .flat_map(|place| place.slots().into_iter().map(move |(at, _)| (place, at)))
            .filter(|(place, at)| takes(place, *at, thing) && place.name(*at) == Some(name))
            .collect();
        let is_spoken_of = |(place, _): &&(&Place<'_>, SlotAt)| {
            let of = place.way.iter().rev().nth(1).and_then(|key| key.first.as_deref());
            of.is_some() && of == spoken
        };
        let those: Vec<_> = named.iter().filter(is_spoken_of).collect();
        let chosen = if those.is_empty() { named.iter().collect() } else { those };
        for (place, at) in chosen {
            if let Some(slot) = place.slot(*at) {
                self.slot(place, *at, slot, None, all);
            }
            self.removal(place, all);
        }
    }

    /// The machine of a seam of which one of the machine's figures is the limit.
    fn machines(&self, wrong: &Wrong, all: &mut Vec<Candidate>) {
        let judgement = &wrong.judgement;
        let Some((limit, _)) = &judgement.limit_origin else { return };
        let Some(machine) = limit.path.split(" / ").find_map(|part| part.strip_prefix("machine ")) else { return };
        let seams: Vec<String> = judgement
            .levers
            .iter()
            .map(|lever| &lever.origin)
            .chain(judgement.further.iter().map(|(origin, _)| origin))
            .filter_map(|origin| origin.path.rsplit_once(" / ").map(|(block, _)| format!("{block} / on")))
            .collect();
        for place in &self.places {
            let at = SlotAt { clause: None, slot: 0 };
            if seams.contains(&path(self.model, &place.way))
                && place.name(at) == Some(machine)
                && let Some(slot) = place.slot(at)
            {
                self.slot(place, at, slot, None, all);
            }
        }
    }

    /// The rungs of one slot.
    fn slot(&self, place: &Place<'_>, at: SlotAt, slot: &Slot, moves: Option<Moves>, all: &mut Vec<Candidate>) {
        let Given::Value(value) = &slot.given else { return };
        // The order of work has no nearest other step: a change of it is taken back. How long the boot rests can be set.
        if place.block.name == "route" && !matches!(value, Value::Amount(_)) {
            return;
        }
        let key = place.statement.def.key == Key::First && at == (SlotAt { clause: None, slot: 0 });
        if key || matches!(place.statement.def.word, "revision" | "run" | "last" | "pieces" | "area" | "long") {
            return;
        }
        if let Some(rungs) = self.stock(place, at, value) {
            self.put_others(place, at, rungs, all);
            return;
        }
        match value {
            Value::Word(now) => {
                let Some(SlotKind::Choice(words)) = definition(place, at) else { return };
                let others = words.iter().filter(|word| *word != now).map(|word| self.say(place, slot, word)).collect();
                self.put_others(place, at, others, all);
            }
            Value::Amount(_) | Value::Count(_) => {
                let Some(row) = row(place, at) else { return };
                for (end, setting) in settings(value, self.text(slot.span), row.marks) {
                    for up in [false, true] {
                        let wanted = match (moves, end) {
                            (Some(Moves::Up), End::Value) => up,
                            (Some(Moves::Down), End::Value) => !up,
                            _ => true,
                        };
                        if wanted {
                            all.push(self.marks(place, &[(at, slot.span, setting.clone())], (end, up)));
                        }
                    }
                }
            }
            _ => {}
        }
    }

    pub fn text(&self, span: Span) -> &'s str {
        self.trial.loaded.sources.slice(span)
    }

    fn marks(&self, place: &Place<'_>, slots: &[(SlotAt, Span, Setting)], (end, up): (End, bool)) -> Candidate {
        let way = place.way.clone();
        let head = place.head();
        let within = |span: Span| (span.start - head.start) as usize..(span.end - head.start) as usize;
        let names: Vec<String> =
            slots.iter().map(|(at, ..)| format!("{} {}", at.clause.unwrap_or(""), at.slot)).collect();
        let (sign, toward) = if up { ("+", Toward::More) } else { ("-", Toward::Less) };
        Candidate {
            id: format!("{} [{} {end:?}] {sign}", path(self.model, &way), names.join(",")),
            kind: place.statement.def.cost,
            last: slots.first().and_then(|(at, ..)| row(place, *at)?.never_first) == Some(toward),
            cause: false,
            shared: true,
            rungs: Rungs::Marks {
                head: self.text(head).to_owned(),
                slots: slots.iter().map(|(_, span, setting)| (within(*span), setting.clone())).collect(),
                way,
                up,
            },
        }
    }

    fn put_others(&self, place: &Place<'_>, at: SlotAt, rungs: Vec<Rung>, all: &mut Vec<Candidate>) {
        if rungs.is_empty() {
            return;
        }
        let id = format!("{} [{} {}]", path(self.model, &place.way), at.clause.unwrap_or(""), at.slot);
        let shared = !place.statement.clauses.is_empty() || matches!(place.kind().1, "base" | "lengths");
        all.push(Candidate { shared, ..Candidate::of_rungs(id, place.statement.def.cost, rungs) });
    }

    /// A statement with one slot's text replaced.
    pub fn say(&self, place: &Place<'_>, slot: &Slot, text: &str) -> Rung {
        vec![(place.way.clone(), Act::Say(self.replaced(place, slot.span, text)))]
    }

    fn replaced(&self, place: &Place<'_>, span: Span, text: &str) -> String {
        let head = place.head();
        let at = (span.start - head.start) as usize..(span.end - head.start) as usize;
        put(self.text(head), vec![(at, text.to_owned())])
    }

    /// What else is stocked, for a slot that names stock or a measure of it.
    fn stock(&self, place: &Place<'_>, at: SlotAt, value: &Value) -> Option<Vec<Rung>> {
        let slot = place.slot(at)?;
        match (place.kind(), at.clause, at.slot) {
            (("layer", "of"), None, 0 | 1) if place.slot(SlotAt { clause: None, slot: 1 }).is_some() => {
                Some(self.substances(place, Thing::SoleLeather, [SlotAt { slot: 0, ..at }, SlotAt { slot: 1, ..at }]))
            }
            ((_, "lifts" | "wedges" | "thin-lifts"), Some("of"), _) => {
                Some(self.substances(place, Thing::Lift, [SlotAt { slot: 0, ..at }, SlotAt { slot: 1, ..at }]))
            }
            (("nailed", "base" | "cap"), None, 1) | ((_, "length") | ("stage", "lengths"), None, 0) => {
                Some(self.lengths(place, slot, value))
            }
            (_, _, _) => {
                let Value::Name(name) = value else { return None };
                let Some(SlotKind::Name(things)) = definition(place, at) else { return Some(Vec::new()) };
                let of = things.iter().find(|thing| stocked::items(self.trial, **thing).iter().any(|it| it.0 == *name));
                let others = of.map(|thing| stocked::others(self.trial, *thing, name)).unwrap_or_default();
                let fit = others.iter().filter(|other| !self.lies_elsewhere(place, other));
                Some(fit.map(|other| self.say(place, slot, other)).collect())
            }
        }
    }

    /// Whether a piece of stock is what another layer of the boot is made of: the rubber of a pad is no slip.
    fn lies_elsewhere(&self, place: &Place<'_>, stock: &str) -> bool {
        let first = SlotAt { clause: None, slot: 0 };
        place.block.name == "layer"
            && self.places.iter().any(|other| {
                other.kind() == ("layer", "of") && other.way != place.way && other.name(first) == Some(stock)
            })
    }

    /// The same leather or lift in another substance, or another in one of its substances.
    fn substances(&self, place: &Place<'_>, thing: Thing, [name, amount]: [SlotAt; 2]) -> Vec<Rung> {
        let (Some(name), Some(amount)) = (place.slot(name), place.slot(amount)) else { return Vec::new() };
        let Given::Value(Value::Amount(now)) = &amount.given else { return Vec::new() };
        let (here, text) = (self.text(name.span), self.text(amount.span));
        let all = stocked::substances(self.trial, thing, now.nominal());
        let others = all.into_iter().filter(|(stock, other)| {
            if stock == here { other.exact() != now.exact() } else { !self.lies_elsewhere(place, stock) }
        });
        let rung = |(stock, other): (String, Amount)| {
            let said = format!("{stock} {}", alike(now, text, &other));
            vec![(place.way.clone(), Act::Say(self.replaced(place, name.span.to(amount.span), &said)))]
        };
        others.map(rung).collect()
    }

    /// Numbers of one statement that are set as one: the turnout of forepart and waist.
    fn together(&self, place: &Place<'_>, all: &mut Vec<Candidate>) {
        if place.statement.def.word != "turnout" {
            return;
        }
        let joined = |at: &SlotAt| at.clause.is_some_and(|word| word != "at-heel");
        let slots: Vec<_> = place
            .slots()
            .into_iter()
            .filter(|(at, _)| joined(at))
            .filter_map(|(at, slot)| {
                let Given::Value(value) = &slot.given else { return None };
                let (_, setting) = settings(value, self.text(slot.span), row(place, at)?.marks).into_iter().next()?;
                Some((at, slot.span, setting))
            })
            .collect();
        all.extend([false, true].map(|up| self.marks(place, &slots, (End::Value, up))));
    }

    /// Statements that a boot can do without: a layer between others, a stiffness, a change of the route.
    fn removal(&self, place: &Place<'_>, all: &mut Vec<Candidate>) {
        let mut way: &[StatementKey] = &place.way;
        let spare = |key: &StatementKey| match key.word {
            "layer" => matches!(key.first.as_deref(), Some("slip" | "pad" | "filler" | "arch")),
            "rigid" => true,
            "step" | "skip" => place.block.name == "route",
            "length" => true,
            _ => false,
        };
        while let Some(key) = way.last() {
            if spare(key) {
                let id = format!("{} [out]", path(self.model, way));
                let outer = self.places.iter().find(|known| known.way == way);
                let cost = outer.map(|outer| outer.statement.def.cost);
                let out = vec![vec![(way.to_vec(), Act::Drop)]];
                all.extend(cost.map(|cost| Candidate::of_rungs(id, cost, out)));
                return;
            }
            way = &way[..way.len() - 1];
        }
    }
}

/// The row of the vocabulary that a slot's value stands in.
fn row(place: &Place<'_>, at: SlotAt) -> Option<&'static SlotDef> {
    let slots = match at.clause {
        None => place.statement.def.slots,
        Some(word) => place.statement.def.clause(word)?.slots,
    };
    slots.get(at.slot)
}

/// What may stand in a slot.
pub fn definition(place: &Place<'_>, at: SlotAt) -> Option<SlotKind> {
    row(place, at).map(|row| row.kind)
}

fn takes(place: &Place<'_>, at: SlotAt, thing: Thing) -> bool {
    matches!(definition(place, at), Some(SlotKind::Name(things)) if things.contains(&thing))
}

/// `other` in the unit and form of `now`, whose text is given.
pub fn alike(now: &Amount, text: &str, other: &Amount) -> String {
    let Shape::Exact(quantity) = now.shape else { return text.to_owned() };
    let factor = quantity.unit.map_or(crate::measure::exact(1, 1), crate::measure::Unit::factor);
    let value = other.exact() / factor;
    // What does not come out even in that unit keeps the unit in which it is stocked.
    let even = |number: &Number| {
        let text = number.written_alike(value);
        crate::measure::parse_number(&text).is_ok_and(|back| back.value == value).then_some(text)
    };
    let unit = text.trim_start_matches(|c: char| c.is_ascii_digit() || "./ \u{bd}\u{bc}\u{be}".contains(c));
    match (even(&quantity.number), other.shape) {
        (Some(number), _) => {
            let gap = if text.ends_with(&format!(" {unit}")) { " " } else { "" };
            format!("{number}{gap}{unit}")
        }
        (None, Shape::Exact(own)) => {
            let unit = own.unit.map_or("", crate::measure::Unit::name);
            format!("{} {unit}", own.number.written_alike(own.number.value))
        }
        (None, _) => text.to_owned(),
    }
}
