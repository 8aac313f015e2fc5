//! Worlds: each file given is a root that sees its own names and those of all that it uses.

use super::declared::{Broken, StockNames};
use super::fields::{Fields, Named};
use super::last::{Last, last};
use super::load::Loaded;
use super::merge::Merged;
use super::model::{Head, Model, model};
use super::shop::{Machine, Shop, shop};
use super::stock::Stock;
use crate::finding::{FaultName, Finding};
use crate::language::vocabulary::{Carries, FILE, SlotKind, Thing};
use crate::language::{Given, Hole, Statement, Value};
use crate::source::{Nature, SourceId, Span};
use std::collections::BTreeMap;
use std::sync::Arc;

/// How long a chain of `like` may be.
const MAX_CHAIN: usize = 16;

/// What one file given sees, and the models that it declares.
#[derive(Debug)]
pub struct World {
    /// The file given.
    pub root: SourceId,
    /// Its shop.
    pub shop: Option<Arc<Shop>>,
    /// Its stock.
    pub stock: Stock,
    /// Its lasts.
    pub lasts: BTreeMap<String, Arc<Last>>,
    /// The models that the root itself declares, by name.
    pub models: Vec<Model>,
    /// Everything wrong with it.
    pub findings: Vec<Finding>,
}

/// The world of each root.
#[must_use]
pub fn worlds(loaded: &Loaded) -> Vec<World> {
    loaded.roots.iter().map(|root| Declared::gather(loaded, *root).world()).collect()
}

/// The world of one root alone.
#[must_use]
pub fn world(loaded: &Loaded, root: SourceId) -> World {
    Declared::gather(loaded, root).world()
}

/// The world of `root` again after one of its models was edited, and nothing else: that model alone, with the shop, the
/// stock and the lasts that are known.
#[must_use]
pub fn remade(loaded: &Loaded, known: &World, model: &str) -> Option<(World, Merged)> {
    let mut declared = Declared::gather(loaded, known.root);
    let statement = *declared.things.get(&(Thing::Model, model))?;
    let merged = declared.merged(statement, &mut vec![model])?;
    declared.things.retain(|(thing, name), _| *thing != Thing::Model || *name == model);
    let models = vec![declared.model(model, statement, &merged, known)];
    let (stock, lasts) = (known.stock.clone(), known.lasts.clone());
    let world = World { root: known.root, shop: known.shop.clone(), stock, lasts, models, findings: declared.findings };
    Some((world, merged))
}

/// What a model that `root` declares says, with everything that it inherits.
#[must_use]
pub fn in_force(loaded: &Loaded, root: SourceId, name: &str) -> Option<Merged> {
    let mut declared = Declared::gather(loaded, root);
    let (name, statement) = declared.of(Thing::Model).into_iter().find(|(known, _)| *known == name)?;
    declared.merged(statement, &mut vec![name])
}

/// All declarations that a root sees, by kind and name.
struct Declared<'l> {
    loaded: &'l Loaded,
    root: SourceId,
    things: BTreeMap<(Thing, &'l str), &'l Statement>,
    shops: Vec<&'l Statement>,
    broken: Broken,
    findings: Vec<Finding>,
}

impl<'l> Declared<'l> {
    fn gather(loaded: &'l Loaded, root: SourceId) -> Self {
        let mut declared = Declared {
            loaded,
            root,
            things: BTreeMap::new(),
            shops: Vec::new(),
            broken: Broken::default(),
            findings: Vec::new(),
        };
        let mut visible = loaded.visible(root);
        // By name, so that the order of `use` lines decides nothing.
        visible[1..].sort_by(|a, b| loaded.sources.get(*a).identity.cmp(&loaded.sources.get(*b).identity));
        for id in visible {
            declared.file(id);
        }
        declared
    }

    fn file(&mut self, id: SourceId) {
        let reading = self.loaded.reading(id);
        self.findings.extend(reading.findings.iter().cloned());
        let unread = self.loaded.faults.get(&id).into_iter().flatten();
        let unread = unread.filter(|fault| fault.name == FaultName::FILE_UNREADABLE.0);
        for fault in self.loaded.faults.get(&id).into_iter().flatten() {
            self.findings.push(fault.clone());
        }
        let whole = Span { source: id, start: 0, end: 0 };
        let hole = |finding: &Finding| Hole { fault: finding.name, span: finding.span().unwrap_or(whole) };
        self.broken.all = self.broken.all.or(unread.map(hole).next());
        // A `use` without its path, or a text that could not be read, may have held anything.
        let lost = reading.body.all("use").find_map(|line| line.slots.first().and_then(|slot| given_hole(&slot.given)));
        let unreadable = [FaultName::LIMIT_DEPTH.0, FaultName::FILE_NOT_UTF8.0];
        let dark = reading.findings.iter().find(|finding| unreadable.contains(&finding.name)).map(hole);
        let stray = reading.findings.iter().find(|finding| finding.name == FaultName::SHAPE_STRAY_CLOSE.0).map(hole);
        self.broken.all = self.broken.all.or(lost).or(dark).or(stray).or(reading.body.unread);
        if id == self.root && reading.body.statements.is_empty() && reading.findings.is_empty() {
            self.findings.push(
                Finding::fault(FaultName::FILE_EMPTY, whole, "the file declares nothing")
                    .help("`hobnail new NAME` writes a shop, a stock, a last and a model to start from"),
            );
        }
        for statement in &reading.body.statements {
            self.declare(statement);
        }
    }

    fn declare(&mut self, statement: &'l Statement) {
        if statement.def.word == "shop" {
            self.shops.push(statement);
            return;
        }
        let Some(SlotKind::New(thing)) = statement.def.slots.first().map(|slot| slot.kind) else { return };
        let Some(name) = statement.name() else {
            if let Some(hole) = statement.hole {
                self.broken.of.entry(thing).or_insert(hole);
            }
            return;
        };
        if statement.block.is_none()
            && let Some(hole) = statement.hole
        {
            self.broken.of.entry(thing).or_insert(hole);
        }
        if let Some(first) = self.things.get(&(thing, name.it)) {
            let message = format!("two {}s are named `{}`", thing.word(), name.it);
            let mut finding = Finding::fault(FaultName::NAME_TWICE, name.span, message);
            if let Some(first) = first.name() {
                finding = finding.also(first.span, "the first");
            }
            self.findings.push(finding.help("rename one of them"));
            return;
        }
        self.things.insert((thing, name.it), statement);
    }

    fn world(mut self) -> World {
        let shop = self.shop();
        let stock = self.stock();
        let lasts = self.lasts();
        let models = self.models(shop.as_ref(), &stock, &lasts);
        World { root: self.root, shop: shop.map(Arc::new), stock, lasts, models, findings: self.findings }
    }

    fn shop(&mut self) -> Option<Shop> {
        let first = *self.shops.first()?;
        for second in self.shops.iter().skip(1) {
            self.findings.push(
                Finding::fault(FaultName::SHOP_TWICE, second.word, "two shops are seen from one model")
                    .also(first.word, "the first")
                    .help("keep one shop, or check the models of each shop apart"),
            );
        }
        let name = first.name().map_or("", |name| name.it);
        let body = first.block.as_ref()?;
        let merged = Merged::written(body, &mut self.findings);
        let fields = Fields::new(&merged, Nature::Fact, format!("shop {name}"));
        for thing in [Thing::Machine, Thing::Skiver, Thing::Setter, Thing::Nailer] {
            let lost = body.all(thing.word()).find(|statement| statement.name().is_none() || statement.block.is_none());
            if let Some(hole) = lost.and_then(|statement| statement.hole).or(body.unread) {
                self.broken.of.insert(thing, hole);
            }
        }
        Some(shop(name, &fields, &mut self.findings))
    }

    /// Declarations of one kind, by name.
    fn of(&self, thing: Thing) -> Vec<(&'l str, &'l Statement)> {
        self.things
            .iter()
            .filter(|((kind, _), _)| *kind == thing)
            .map(|((_, name), statement)| (*name, *statement))
            .collect()
    }

    fn stock(&mut self) -> Stock {
        let mut stock = Stock::default();
        for statement in FILE.statements {
            let Some(SlotKind::New(thing)) = statement.slots.first().map(|slot| slot.kind) else { continue };
            if matches!(thing, Thing::Last | Thing::Model) || !matches!(statement.carries, Carries::Block(_)) {
                continue;
            }
            for (name, declared) in self.of(thing) {
                let Some(body) = &declared.block else { continue };
                let merged = Merged::written(body, &mut self.findings);
                let fields = Fields::new(&merged, Nature::Fact, format!("{} {name}", statement.word));
                let span = declared.name().map_or(declared.word, |name| name.span);
                stock.add(statement.word, name, span, &fields, &mut self.findings);
            }
        }
        stock
    }

    fn lasts(&mut self) -> BTreeMap<String, Arc<Last>> {
        let mut lasts = BTreeMap::new();
        for (name, declared) in self.of(Thing::Last) {
            let Some(body) = &declared.block else { continue };
            let merged = Merged::written(body, &mut self.findings);
            let fields = Fields::new(&merged, Nature::Fact, format!("last {name}"));
            let span = declared.name().map_or(declared.word, |name| name.span);
            let read = last(name, title(declared), span, &fields, &mut self.findings);
            lasts.insert(name.to_owned(), Arc::new(read));
        }
        lasts
    }

    fn models(&mut self, shop: Option<&Shop>, stock: &Stock, lasts: &BTreeMap<String, Arc<Last>>) -> Vec<Model> {
        let mine: Vec<(&str, &Statement)> =
            self.of(Thing::Model).into_iter().filter(|(_, declared)| declared.word.source == self.root).collect();
        if shop.is_none() && !mine.is_empty() && self.broken.all.is_none() {
            self.no_shop(mine[0].1);
        }
        let no_machines: BTreeMap<String, Arc<Machine>> = BTreeMap::new();
        let mut broken = self.broken.clone();
        if shop.is_none() {
            let hole =
                Hole { fault: FaultName::SHOP_MISSING.0, span: mine.first().map_or(self.whole(), |(_, m)| m.word) };
            for thing in [Thing::Machine, Thing::Skiver, Thing::Setter, Thing::Nailer] {
                broken.of.entry(thing).or_insert(hole);
            }
        }
        let names = StockNames::new(stock, shop, &no_machines, &broken);
        let lasts = Named { thing: Thing::Last, known: lasts, broken: broken.hole(Thing::Last) };
        let mut models = Vec::new();
        for (name, declared) in mine {
            let Some(merged) = self.merged(declared, &mut vec![name]) else { continue };
            let fields = Fields::new(&merged, Nature::Choice, format!("model {name}"));
            let span = declared.name().map_or(declared.word, |name| name.span);
            let head = Head { name, title: title(declared), span, like: like_of(declared).map(|(_, span)| span) };
            models.push(model(&head, &fields, &names, &lasts, &mut self.findings));
        }
        models
    }

    /// One model of a world whose stock is known.
    fn model(&mut self, name: &str, declared: &Statement, merged: &Merged, known: &World) -> Model {
        let no_machines: BTreeMap<String, Arc<Machine>> = BTreeMap::new();
        let broken = self.broken.clone();
        let names = StockNames::new(&known.stock, known.shop.as_deref(), &no_machines, &broken);
        let lasts = Named { thing: Thing::Last, known: &known.lasts, broken: broken.hole(Thing::Last) };
        let fields = Fields::new(merged, Nature::Choice, format!("model {name}"));
        let span = declared.name().map_or(declared.word, |name| name.span);
        let head = Head { name, title: title(declared), span, like: like_of(declared).map(|(_, span)| span) };
        model(&head, &fields, &names, &lasts, &mut self.findings)
    }

    fn whole(&self) -> Span {
        Span { source: self.root, start: 0, end: 0 }
    }

    fn no_shop(&mut self, first: &Statement) {
        self.findings.push(
            Finding::fault(FaultName::SHOP_MISSING, first.word, "no shop is seen from this model")
                .help("`use` the file of the shop, such as `use \"../shop.hob\"`"),
        );
    }

    /// A model's body over those of the models that it is like.
    fn merged(&mut self, declared: &'l Statement, chain: &mut Vec<&'l str>) -> Option<Merged> {
        let body = declared.block.as_ref()?;
        if declared.clause("like").is_none() {
            return Some(Merged::written(body, &mut self.findings));
        }
        let (parent, span) = like_of(declared)?;
        let parent = self.parent(parent, span)?;
        let name = parent.name()?.it;
        if chain.contains(&name) {
            let circle: Vec<&str> = chain.iter().copied().chain([name]).collect();
            let message = format!("models are like each other in a circle: {}", circle.join(" -> "));
            let in_circle = |label: &crate::finding::Label| {
                let of = |name: &&str| self.things.get(&(Thing::Model, *name)).and_then(|model| like_of(model));
                circle.iter().filter_map(of).any(|(_, like)| like == label.span)
            };
            let known =
                |finding: &Finding| finding.name == FaultName::LIKE_CYCLE.0 && finding.labels.iter().any(in_circle);
            if !self.findings.iter().any(known) {
                self.findings.push(
                    Finding::fault(FaultName::LIKE_CYCLE, span, message).help("one of them must say everything itself"),
                );
            }
            return None;
        }
        if chain.len() >= MAX_CHAIN {
            let message = format!("a chain of `like` has at most {MAX_CHAIN} models");
            self.push_once(Finding::fault(FaultName::LIMIT_CHAIN, span, message));
            return None;
        }
        chain.push(name);
        let under = self.merged(parent, chain)?;
        let mut under = under.inherited(span);
        // What a title and a revision say, they say of one model only.
        under.statements.retain(|known| known.statement.def.word != "revision");
        Some(under.overlaid(body, &mut self.findings))
    }

    fn push_once(&mut self, finding: Finding) {
        if !self.findings.iter().any(|known| known.name == finding.name) {
            self.findings.push(finding);
        }
    }

    fn parent(&mut self, name: &str, span: Span) -> Option<&'l Statement> {
        let models: BTreeMap<String, &'l Statement> =
            self.of(Thing::Model).into_iter().map(|(name, statement)| (name.to_owned(), statement)).collect();
        let named = Named { thing: Thing::Model, known: &models, broken: self.broken.hole(Thing::Model) };
        named.resolve(name, span, &mut self.findings).ok()
    }
}

fn given_hole(given: &Given) -> Option<Hole> {
    if let Given::Hole(hole) = given { Some(*hole) } else { None }
}

fn title(declared: &Statement) -> &str {
    match declared.slots.get(1).map(|slot| &slot.given) {
        Some(Given::Value(Value::Text(title))) => title,
        _ => "",
    }
}

/// The name behind `like`, and its place.
fn like_of(declared: &Statement) -> Option<(&str, Span)> {
    let slot = declared.clause("like")?.slots.first()?;
    match &slot.given {
        Given::Value(Value::Name(name)) => Some((name, slot.span)),
        _ => None,
    }
}
