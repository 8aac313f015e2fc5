//! The search: one choice after another until nothing is refused, each moved the least that cures what it is for.

use super::candidate::{Candidate, Scene};
use super::place::Way;
use super::trial::{About, Bench, Outcome, Trial, Wrong};
use super::write::Draft;
use crate::finding::{Kind, Severity};
use crate::measure::Size;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// How many drafts are tried for one model. The bound of the search: it never hangs on the clock.
pub const MOST_TRIALS: usize = 250;

/// How many statements a remedy changes at most.
const MOST_CHANGES: usize = 4;

/// How many remedies are looked for; more are no help at the bench.
const ENOUGH: usize = 6;

/// How many sizes are built before a remedy is proven in all of them.
const MOST_SIZES: usize = 6;

/// The part of what is missing that a change must bring, if it does not cure.
const WORTH: f64 = 0.2;

/// What a search is for.
pub struct Goal {
    /// What has to go.
    pub cure: BTreeSet<About>,
    /// What is wrong beside it and may stay.
    pub leave: BTreeSet<About>,
    /// What was tight before, and may stay so.
    pub tight: BTreeSet<About>,
}

/// One choice on one of its rungs.
#[derive(Clone)]
pub struct Step {
    choice: Arc<Candidate>,
    k: u32,
}

/// Choices made, and what they come to.
#[derive(Clone)]
struct Node {
    steps: Vec<Step>,
    trial: Arc<Trial>,
    /// What still must go.
    open: Vec<Wrong>,
    /// What is tight and was refused.
    tight: Vec<Wrong>,
}

/// A draft that leaves nothing open in any size.
pub struct Found {
    /// What it does.
    pub draft: Draft,
    /// The dearest of what it changes.
    pub kind: Kind,
    /// Never offered first.
    pub last: bool,
    /// Offered before all else.
    pub cause: bool,
    /// How many rungs up or down its ladders.
    pub far: u32,
    /// The names of its choices.
    pub name: String,
    /// Something stays tight.
    pub tight: bool,
    /// The keys of all findings that go away.
    pub cures: Vec<String>,
    choices: BTreeSet<(String, u32)>,
}

/// What a proof in all sizes says.
pub enum Proof {
    /// Nothing is refused, at fault or newly tight; something may stay tight that was refused.
    Holds {
        /// It does.
        tight: bool,
        /// The keys of all findings that go away.
        cures: Vec<String>,
    },
    /// In this size something is wrong, or the texts are at fault.
    Fails(Option<Size>),
}

/// A search on one model.
pub struct Search<'s> {
    bench: &'s Bench<'s>,
    goal: &'s Goal,
    sizes: Vec<Size>,
    seen: BTreeSet<Draft>,
    idle: BTreeSet<(String, About)>,
    queue: BTreeMap<(usize, bool, u32, Kind, u32, String), Node>,
    most: usize,
}

impl Goal {
    /// What of an outcome must go still, and what of it is tight and may stay.
    fn open(&self, outcome: &Outcome) -> (Vec<Wrong>, Vec<Wrong>) {
        let mut open = Vec::new();
        let mut tight = Vec::new();
        for wrong in &outcome.wrong {
            let about = &wrong.about;
            if self.leave.contains(about) {
                continue;
            }
            if wrong.severity == Severity::Note {
                // No finding, but not every tolerance passes either.
                tight.extend(self.cure.contains(about).then(|| wrong.clone()));
            } else if wrong.severity == Severity::Refused {
                open.push(wrong.clone());
            } else if self.cure.contains(about) && !self.tight.contains(about) {
                tight.push(wrong.clone());
            } else if self.cure.contains(about) || !self.tight.contains(about) {
                open.push(wrong.clone());
            }
        }
        (open, tight)
    }
}

impl<'s> Search<'s> {
    /// A search that first looks at some sizes alone.
    pub fn new(bench: &'s Bench<'s>, goal: &'s Goal, sizes: Vec<Size>) -> Self {
        let most = bench.tried() + MOST_TRIALS;
        Self { bench, goal, sizes, seen: BTreeSet::new(), idle: BTreeSet::new(), queue: BTreeMap::new(), most }
    }

    /// Looks for drafts that `prove` holds for.
    pub fn run(mut self, prove: impl Fn(&Draft) -> Proof) -> Vec<Found> {
        let mut found: Vec<Found> = Vec::new();
        if let Some(start) = self.node(Vec::new()) {
            self.expand(&start);
        }
        while let Some((place, node)) = self.queue.pop_first() {
            if self.bench.tried() >= self.most || enough(&found, place.0) {
                break;
            }
            if found.iter().any(|known| known.choices.is_subset(&node.choices())) {
                // What was found does without the rest.
                continue;
            }
            if node.open.is_empty() {
                self.complete(&node, &prove, &mut found);
            }
            if !node.open.is_empty() || node.tight.iter().any(|wrong| wrong.severity == Severity::Tight) {
                self.expand(&node);
            }
        }
        found
    }

    fn complete(&mut self, node: &Node, prove: &impl Fn(&Draft) -> Proof, found: &mut Vec<Found>) {
        let node = self.pruned(node.clone());
        let draft = draft(&node.steps);
        if found.iter().any(|known| known.draft == draft) {
            return;
        }
        match prove(&draft) {
            Proof::Holds { tight, cures } => found.push(node.found(draft, tight, cures)),
            Proof::Fails(Some(size)) if self.sizes.len() < MOST_SIZES && !self.sizes.contains(&size) => {
                // What was not seen is looked at from now on.
                self.sizes.push(size);
                self.sizes.sort_unstable();
                if let Some(node) = self.node(node.steps) {
                    self.push(node);
                }
            }
            Proof::Fails(_) => {}
        }
    }

    /// Choices as a draft, with what it comes to; `None` if the texts are at fault then.
    fn node(&self, steps: Vec<Step>) -> Option<Node> {
        let trial = self.bench.trial(&draft(&steps))?;
        let outcome = trial.judged(&self.sizes);
        if outcome.faulty {
            return None;
        }
        let (open, tight) = self.goal.open(&outcome);
        Some(Node { steps, trial: Arc::new(trial), open, tight })
    }

    fn push(&mut self, node: Node) {
        let changed = node.ways().len();
        let left = node.rules();
        // One more change may cure several rules.
        if changed + left.min(1) > MOST_CHANGES {
            return;
        }
        let far = node.steps.iter().map(|step| step.k).sum();
        let place = (changed + left, !node.cause(), node.left(), node.kind(), far, node.name());
        self.queue.insert(place, node);
    }

    /// Every choice that may cure the first thing that is open, each on its least rung.
    fn expand(&mut self, node: &Node) {
        let Some(target) = node.target().cloned() else { return };
        let scene = Scene::new(self.bench.model, &node.trial);
        let taken = node.ways();
        let choices: Vec<Arc<Candidate>> = scene
            .candidates(&target)
            .into_iter()
            .filter(|choice| !self.idle.contains(&(choice.id.clone(), target.about.clone())))
            .filter(|choice| {
                let ways = choice.rung(1).unwrap_or_default();
                choice.shared || ways.iter().all(|(way, _)| !taken.contains(way))
            })
            .map(Arc::new)
            .collect();
        let search = &*self;
        let solved: Vec<(Arc<Candidate>, Vec<Node>)> = choices
            .into_par_iter()
            .map(|choice| {
                let nodes = search.solve(node, &target, &choice);
                (choice, nodes)
            })
            .collect();
        for (choice, nodes) in solved {
            if nodes.is_empty() {
                self.idle.insert((choice.id.clone(), target.about.clone()));
            }
            for node in nodes {
                if self.seen.insert(draft(&node.steps)) {
                    self.push(node);
                }
            }
        }
    }

    /// The rungs of a choice that cure the target, or the one that helps it most.
    fn solve(&self, node: &Node, target: &Wrong, choice: &Arc<Candidate>) -> Vec<Node> {
        let solver = Solver { search: self, node, target, choice };
        match choice.others() {
            Some(most) => solver.others(most),
            None => solver.marks(),
        }
    }

    /// The same without what is not needed, and each choice as near as it may be.
    fn pruned(&self, mut node: Node) -> Node {
        while let Some(less) = self.without_one(&node) {
            node = less;
        }
        let mut at = 0;
        while at < node.steps.len() {
            let mut nearer = node.steps.clone();
            nearer[at].k -= 1;
            let counted = node.steps[at].choice.others().is_some();
            match (nearer[at].k > 0 && !counted).then(|| self.serves(nearer, &node)).flatten() {
                Some(less) => node = less,
                None => at += 1,
            }
        }
        node
    }

    fn without_one(&self, node: &Node) -> Option<Node> {
        let fewer =
            |way: &Way| -> Vec<Step> { node.steps.iter().filter(|step| !step.ways().contains(way)).cloned().collect() };
        let ways = node.ways();
        let all = ways.iter().map(fewer).filter(|fewer| !fewer.is_empty());
        all.into_iter().find_map(|fewer| self.serves(fewer, node))
    }

    /// Fewer or nearer steps, if they do as well.
    fn serves(&self, steps: Vec<Step>, as_well_as: &Node) -> Option<Node> {
        let node = self.node(steps)?;
        (node.open.is_empty() && node.tight.len() <= as_well_as.tight.len()).then_some(node)
    }
}

/// Enough was found that passes, and what follows changes more.
fn enough(found: &[Found], changes: usize) -> bool {
    let mut kinds: Vec<Kind> =
        found.iter().filter(|found| !found.last && !found.tight).map(|found| found.kind).collect();
    let first = kinds.len();
    kinds.sort_unstable();
    kinds.dedup();
    first >= ENOUGH || found.len() >= 2 * ENOUGH || first >= 3 && kinds.len() > 1 && changes > 1
}

fn draft(steps: &[Step]) -> Draft {
    steps.iter().flat_map(|step| step.choice.rung(step.k).unwrap_or_default()).collect()
}

impl Step {
    fn ways(&self) -> Vec<Way> {
        self.choice.rung(self.k).unwrap_or_default().into_iter().map(|(way, _)| way).collect()
    }
}

impl Node {
    fn ways(&self) -> BTreeSet<Way> {
        self.steps.iter().flat_map(Step::ways).collect()
    }

    fn kind(&self) -> Kind {
        self.steps.iter().map(|step| step.choice.kind).max().unwrap_or(Kind::Setting)
    }

    fn cause(&self) -> bool {
        self.steps.iter().any(|step| step.choice.cause)
    }

    fn name(&self) -> String {
        self.steps.iter().map(|step| format!("{} {}", step.choice.id, step.k)).collect::<Vec<_>>().join("; ")
    }

    /// Its choices: which of a few was taken, or only that a number is moved.
    fn choices(&self) -> BTreeSet<(String, u32)> {
        let taken = |step: &Step| (step.choice.id.clone(), step.choice.others().map_or(0, |_| step.k));
        self.steps.iter().map(taken).collect()
    }

    /// How many rules are open still.
    fn rules(&self) -> usize {
        let rules: BTreeSet<usize> = self.open.iter().map(|wrong| wrong.about.0).collect();
        rules.len()
    }

    /// How much of the worst of what is open is missing, in thousandths of what it is held against.
    fn left(&self) -> u32 {
        let part = |wrong: &Wrong| (wrong.judgement.margin / wrong.judgement.limit.max(1.0)).abs();
        let worst = self.open.iter().map(part).fold(0.0, f64::max);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a limit, bounded")]
        let thousandths = (worst.min(1000.0) * 1000.0) as u32;
        thousandths
    }

    /// What is to be cured next: refused before tight, in the order of the rules.
    fn target(&self) -> Option<&Wrong> {
        let of = |severity| self.open.iter().find(move |wrong| wrong.severity == severity);
        let target = of(Severity::Refused).or_else(|| of(Severity::Tight)).or_else(|| self.tight.first())?;
        // In the size in which it is worst.
        let same = self.open.iter().chain(&self.tight).filter(|wrong| wrong.about == target.about);
        same.max_by(|a, b| a.missing().0.cmp(&b.missing().0).then(a.missing().1.total_cmp(&b.missing().1)))
    }

    fn found(&self, draft: Draft, tight: bool, cures: Vec<String>) -> Found {
        Found {
            kind: self.kind(),
            last: self.steps.iter().any(|step| step.choice.last),
            cause: self.cause(),
            far: self.steps.iter().map(|step| step.k).sum(),
            name: self.name(),
            choices: self.choices(),
            draft,
            tight,
            cures,
        }
    }
}

/// One choice against one thing that is wrong.
struct Solver<'s> {
    search: &'s Search<'s>,
    node: &'s Node,
    target: &'s Wrong,
    choice: &'s Arc<Candidate>,
}

/// How a rung does in the target's size: `None` if it can't be tried.
type Tried = Option<(bool, f64)>;

impl Solver<'_> {
    fn steps(&self, k: u32) -> Vec<Step> {
        let step = Step { choice: Arc::clone(self.choice), k };
        let ways = step.ways();
        // What was said of the same statements before is part of what is said now.
        let before = self.node.steps.iter().filter(|known| known.ways().iter().any(|way| !ways.contains(way)));
        before.cloned().chain([step.clone()]).collect()
    }

    fn tried(&self, k: u32) -> Tried {
        self.choice.rung(k)?;
        let trial = self.search.bench.trial(&draft(&self.steps(k)))?;
        let outcome = trial.asked(self.target.about.0, self.target.size);
        if outcome.faulty {
            return None;
        }
        Some(outcome.about(&self.target.about).map_or((false, -1.0), Wrong::missing))
    }

    fn cures(tried: (bool, f64)) -> bool {
        !tried.0 && tried.1 < 0.0
    }

    /// Whether what is left is worth a further change.
    fn helps(&self, tried: (bool, f64)) -> bool {
        let (refused, missing) = self.target.missing();
        refused && !tried.0 || refused == tried.0 && tried.1 < missing * (1.0 - WORTH)
    }

    fn nodes(&self, rungs: &[u32]) -> Vec<Node> {
        let nodes = rungs.iter().filter_map(|k| self.search.node(self.steps(*k)));
        nodes.filter(|node| self.gains(node)).collect()
    }

    /// Whether a node is nearer to the goal: the target is cured, or better, in its size.
    fn gains(&self, node: &Node) -> bool {
        let same = |wrong: &&Wrong| wrong.about == self.target.about && wrong.size == self.target.size;
        node.open.iter().chain(&node.tight).filter(same).all(|left| self.helps(left.missing()))
    }

    /// Words are each of interest; of stock the nearest that leaves nothing open, else the two nearest that cure.
    fn others(&self, most: u32) -> Vec<Node> {
        let words = self.choice.kind == Kind::Construction;
        let mut best: Option<(u32, (bool, f64))> = None;
        let mut nodes: Vec<Node> = Vec::new();
        for k in 1..=most {
            let Some(tried) = self.tried(k) else { continue };
            if Self::cures(tried) {
                nodes.extend(self.nodes(&[k]));
                if !words && nodes.last().is_some_and(|node| node.open.is_empty()) {
                    return nodes.split_off(nodes.len() - 1);
                }
            } else if best.is_none_or(|(_, known)| tried < known) && self.helps(tried) {
                best = Some((k, tried));
            }
        }
        nodes.truncate(if words { nodes.len() } else { 2 });
        if nodes.is_empty() {
            nodes.extend(best.into_iter().flat_map(|(k, _)| self.nodes(&[k])));
        }
        nodes
    }

    /// Along the marks of a ladder: what one mark brings says how many are needed; then back to the first that does.
    fn marks(&self) -> Vec<Node> {
        let mut last = self.target.missing();
        let (mut fails, mut k, mut gain) = (0, 1_u32, 0.0_f64);
        let mut best = None;
        for round in 0..8 {
            let Some(tried) = self.tried(k) else {
                if k > fails + 1 {
                    // Beyond what can be set; half as far may do.
                    k = fails + (k - fails) / 2;
                    continue;
                }
                break;
            };
            if Self::cures(tried) {
                return self.nodes(&[self.first(fails, k)]);
            }
            if round == 0 && tried >= last {
                // A yes or no says nothing of how near it is.
                if !self.target.judgement.unit.is_empty() {
                    return Vec::new();
                }
            }
            if tried.0 == last.0 && tried.1 < last.1 {
                gain = (last.1 - tried.1) / f64::from(k - fails);
            }
            if self.helps(tried) {
                best = Some(k);
            }
            last = tried;
            fails = k;
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded")]
            let need = if gain > 0.0 { (tried.1 / gain).ceil().clamp(1.0, 4000.0) as u32 } else { k };
            k += need;
        }
        best.map(|k| self.nodes(&[k])).unwrap_or_default()
    }

    /// The first rung above `fails` that cures; `cures` does.
    fn first(&self, mut fails: u32, mut cures: u32) -> u32 {
        let mut near = true;
        while cures - fails > 1 {
            let k = if near { cures - 1 } else { fails + (cures - fails) / 2 };
            near = false;
            if self.tried(k).is_some_and(Self::cures) { cures = k } else { fails = k }
        }
        cures
    }
}
