//! The stack walked by brute force: every tenth of a mm along each row of random soles, against the maxima that are
//! found at corners.
//!
//! The walker knows the last's feather line and the definitions, and nothing of how the tool finds the stack.

use crate::common::chance::Chance;
use crate::common::memory::Only;
use crate::common::soles::{Lap, Layer, Sole, Thinned};
use crate::common::trial::{check, count, number, spread};
use hobnail::build::{Build, Datum, Figures, GradedLast, Plan, figures};
use hobnail::finding::{Finding, Severity};
use hobnail::geometry::{Frame, Path, Side};
use hobnail::measure::Spread;
use rayon::prelude::*;
use std::collections::BTreeSet;

const LINING: f64 = 2.75 * 25.4 / 64.0;
/// The demo house: the turnout holds to 15 behind the breast, blends over 25, and rows start 12 behind it.
const HOLDS: f64 = 15.0;
const BLEND: f64 = 25.0;
const STARTS: f64 = 12.0;
const TABLE_NOSE: f64 = 8.0;
const SEWS: f64 = 19.0;
const STEP: f64 = 0.1;
/// How near the walker's own lines come to the true ones, mm of thickness.
const OWN: f64 = 0.002;

/// One normal of the feather line.
struct Normal {
    frame: Frame,
    side: Side,
}

/// A row as a fine polyline: the whole turn of its line from where it starts, with the way to each point.
struct Row {
    /// The normals between which it starts and, if it does not run all round, stops.
    first: usize,
    last: usize,
    points: Vec<(f64, f64)>,
    way: Vec<f64>,
    /// The row's own, and that of the whole turn.
    length: f64,
    turn: f64,
    toe: f64,
    /// Where its line comes to the outside again.
    heel: f64,
}

/// From one corner to the next by the fair step of u, 3 u² - 2 u³.
fn fair(corners: &[(f64, f64)], x: f64) -> f64 {
    if x <= corners[0].0 {
        return corners[0].1;
    }
    for pair in corners.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        if x <= x1 {
            let share = if x1 > x0 { (x - x0) / (x1 - x0) } else { 1.0 };
            return y0 + (y1 - y0) * share * share * (3.0 - 2.0 * share);
        }
    }
    corners[corners.len() - 1].1
}

/// Corners that would run backwards give way to the one before.
fn ascending(corners: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut least = f64::MIN;
    let mut kept = Vec::new();
    for &(x, y) in corners {
        least = x.max(least + 1e-6);
        kept.push((least, y));
    }
    kept
}

fn middle(part: (f64, f64)) -> f64 {
    f64::midpoint(part.0, part.1)
}

impl Lap {
    fn mark(&self, side: Side) -> f64 {
        (if side == Side::Outside { self.outside } else { self.inside }) / 100.0
    }

    fn sine(&self) -> f64 {
        self.lean.to_radians().sin()
    }
}

/// Wall and turnout outside the feather line at station `x`.
fn finished(sole: &Sole, last: &GradedLast, side: Side, x: f64) -> f64 {
    let mut wall = LINING + middle(sole.parts[0]);
    for (n, lap) in sole.laps.iter().enumerate() {
        let mark = lap.mark(side) * last.bottom;
        let (from, to) = if lap.toeward { (mark, mark + lap.wide) } else { (mark - lap.wide, mark) };
        let change = middle(sole.parts[n + 1]) - middle(sole.parts[n]);
        wall += fair(&[(from, 0.0), (to, change)], x);
    }
    let holds = last.breast - HOLDS;
    let joint = if side == Side::Outside { last.joint_outside } else { last.joint_inside };
    let turnout =
        [(holds - BLEND, sole.heel), (holds, sole.waist), (joint - BLEND, sole.waist), (joint, sole.forepart)];
    wall + fair(&ascending(&turnout), x)
}

fn normals(last: &GradedLast) -> Vec<Normal> {
    const MANY: u32 = 16_000;
    let period = last.feather.period();
    let at = |n: u32| period * f64::from(n) / f64::from(MANY);
    (0..MANY).map(|n| Normal { frame: last.feather.frame(at(n)), side: last.feather.side(at(n)) }).collect()
}

/// Where a list of values passes `level` between two neighbours, as place and fraction.
fn passes(values: impl Iterator<Item = f64>, level: f64) -> Vec<(usize, f64)> {
    let values: Vec<f64> = values.collect();
    let between = |(n, pair): (usize, &[f64])| {
        let (a, b) = (pair[0] - level, pair[1] - level);
        ((a < 0.0) != (b < 0.0)).then(|| (n, a / (a - b)))
    };
    values.windows(2).enumerate().filter_map(between).collect()
}

fn row(sole: &Sole, last: &GradedLast, normals: &[Normal], k: usize) -> Row {
    #[expect(clippy::cast_precision_loss, reason = "up to three rows")]
    let inset = sole.from_edge + sole.apart * k as f64;
    let point = |normal: &Normal| {
        let Frame { point, normal: out, .. } = normal.frame;
        let at = point + out * (finished(sole, last, normal.side, point.x) - inset);
        (at.x, at.y)
    };
    let points: Vec<(f64, f64)> = normals.iter().map(point).collect();
    let starts = passes(points.iter().map(|p| p.0), last.breast - STARTS);
    let on = |side: Side| starts.iter().filter(move |(n, _)| normals[*n].side == side);
    let from = *on(Side::Outside).next().expect("it starts on the outside");
    let to = *on(Side::Inside).next_back().expect("it stops on the inside");
    let cut = |(n, f): (usize, f64)| {
        let (a, b) = (points[n], points[n + 1]);
        (a.0 + (b.0 - a.0) * f, a.1 + (b.1 - a.1) * f)
    };
    let mut way = vec![0.0];
    let mut kept = vec![cut(from)];
    kept.extend(&points[from.0 + 1..]);
    kept.extend(&points[..=from.0]);
    kept.push(cut(from));
    for pair in kept.windows(2) {
        let run = (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1);
        way.push(way[way.len() - 1] + run);
    }
    let toe = normals.iter().position(|normal| normal.side == Side::Inside).expect("there is an inside");
    let turn = way[way.len() - 1];
    let stop = way[to.0 - from.0] + (way[to.0 + 1 - from.0] - way[to.0 - from.0]) * to.1;
    Row {
        first: from.0,
        last: to.0,
        length: if sole.all_round { turn } else { stop },
        turn,
        toe: way[toe - from.0],
        heel: way[points.len() - from.0],
        points: kept,
        way,
    }
}

impl Row {
    fn s(&self, (n, f): (usize, f64)) -> f64 {
        self.way[n] + (self.way[n + 1] - self.way[n]) * f
    }

    fn side(&self, s: f64) -> Side {
        if self.toe < s && s <= self.heel { Side::Inside } else { Side::Outside }
    }

    fn place(&self, s: f64) -> (f64, f64) {
        let n = self.way.partition_point(|way| *way < s).clamp(1, self.way.len() - 1);
        let share = (s - self.way[n - 1]) / (self.way[n] - self.way[n - 1]);
        let (from, to) = (self.points[n - 1], self.points[n]);
        (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share)
    }

    /// mm along the row of a place on the feather line; behind its start it is as far as it stands behind.
    fn along(&self, (n, f): (usize, f64), normals: usize) -> f64 {
        if n >= self.first { self.s((n - self.first, f)) } else { self.s((n + normals - self.first, f)) - self.turn }
    }

    /// mm along the row at which the top part's edge crosses it.
    #[expect(clippy::cast_precision_loss, reason = "thousands of normals")]
    fn mark(&self, lap: &Lap, last: &GradedLast, normals: &[Normal], side: Side) -> f64 {
        let x = lap.mark(side) * last.bottom;
        let on_side = |(n, _): &(usize, f64)| normals[*n].side == side;
        let at = passes(normals.iter().map(|normal| normal.frame.point.x), x).into_iter().find(on_side);
        let (n, f) = at.expect("the mark lies on the feather line");
        let Frame { point, tangent, normal, .. } =
            last.feather.frame(last.feather.period() * (n as f64 + f) / normals.len() as f64);
        if (lap.lean - 90.0).abs() < 1e-9 {
            return self.along((n, f), normals.len());
        }
        let toeward = if side == Side::Outside { tangent } else { -tangent };
        let lean = lap.lean.to_radians();
        let edge = toeward * lean.cos() + normal * lean.sin();
        let off = self.points.iter().map(|p| (p.0 - point.x) * edge.y - (p.1 - point.y) * edge.x);
        let square = self.along((n, f), normals.len());
        let crossings = passes(off, 0.0).into_iter().map(|place| self.s(place)).flat_map(|s| [s, s - self.turn]);
        crossings.min_by(|a, b| (a - square).abs().total_cmp(&(b - square).abs())).expect("the edge meets the row")
    }
}

fn thinned(whole: Spread, thinned: &Thinned, x: f64) -> Spread {
    let taper = match thinned.edge {
        Some((wide, to)) if x < wide => {
            let rises = |full: f64| to + (full - to) * x / wide;
            Spread { lo: rises(whole.lo), nominal: rises(whole.nominal), hi: rises(whole.hi) }
        }
        _ => whole,
    };
    match thinned.flat {
        Some((flat, by)) if flat <= taper.nominal => Spread::around(flat, by),
        _ => taper,
    }
}

fn plus(a: Spread, b: Spread) -> Spread {
    Spread { lo: a.lo + b.lo, nominal: a.nominal + b.nominal, hi: a.hi + b.hi }
}

/// All that one boot is walked with.
struct Walk<'w> {
    sole: &'w Sole,
    last: &'w GradedLast,
    rows: Vec<Row>,
    /// By row, then side, then lap.
    marks: Vec<[Vec<f64>; 2]>,
}

impl<'w> Walk<'w> {
    fn new(sole: &'w Sole, last: &'w GradedLast) -> Self {
        let normals = normals(last);
        let rows: Vec<Row> = (0..sole.rows).map(|k| row(sole, last, &normals, k)).collect();
        let marks = rows.iter().map(|row| {
            [Side::Outside, Side::Inside]
                .map(|side| sole.laps.iter().map(|lap| row.mark(lap, last, &normals, side)).collect())
        });
        let marks = marks.collect();
        Self { sole, last, rows, marks }
    }

    /// The upper at `s`: every part that lies there, as it is left.
    fn outer(&self, k: usize, s: f64) -> Spread {
        self.parts(k, s).into_iter().flatten().fold(Spread::exactly(0.0), plus)
    }

    /// What is left at `s` of each part of the upper that lies there.
    fn parts(&self, k: usize, s: f64) -> Vec<Option<Spread>> {
        let (sole, row) = (self.sole, &self.rows[k]);
        let side = row.side(s);
        // Past the heel the row comes up to its start from behind.
        let s = if s > row.heel { s - row.length } else { s };
        let (marks, way) = if side == Side::Outside { (&self.marks[k][0], 1.0) } else { (&self.marks[k][1], -1.0) };
        // How far behind the top part's edge, within the lap: 0 to its width.
        let into = |n: usize| {
            let lap = &sole.laps[n];
            (s - marks[n]) * way * if lap.toeward { 1.0 } else { -1.0 } * lap.sine()
        };
        let mut parts = Vec::new();
        for (p, (lo, hi)) in sole.parts.iter().enumerate() {
            let whole = Spread { lo: *lo, nominal: middle((*lo, *hi)), hi: *hi };
            let mut left = whole;
            let mut lies = true;
            // Its heelward end lies in lap p - 1, its toeward end in lap p.
            for (n, toeward_part) in [(p.checked_sub(1), true), (Some(p).filter(|n| *n < sole.laps.len()), false)] {
                let Some(n) = n else { continue };
                let lap = &sole.laps[n];
                let on_top = lap.toeward == toeward_part;
                let own = if on_top { into(n) } else { lap.wide - into(n) };
                lies &= own >= -1e-9;
                if (-1e-9..=lap.wide + 1e-9).contains(&own) {
                    let here = thinned(whole, if on_top { &lap.top } else { &lap.under }, own.clamp(0.0, lap.wide));
                    // Where flat and whole are equally thick, the flat one counts.
                    let flat = lap.top.flat.is_some() || lap.under.flat.is_some();
                    if here.nominal < left.nominal || (flat && here.nominal <= left.nominal) {
                        left = here;
                    }
                }
            }
            parts.push(lies.then_some(left));
        }
        parts
    }

    /// How far a place lies ahead of the line from joint to joint, mm along the foot.
    fn before_the_joints(&self, (x, y): (f64, f64)) -> f64 {
        let last = self.last;
        let across = |x: f64| last.feather.breadth_at(x).expect("a joint is on the bottom");
        let (inside, outside) = (across(last.joint_inside).inside, -across(last.joint_outside).outside);
        let run = (last.joint_outside - last.joint_inside) / (outside - inside);
        x - last.joint_inside - run * (y - inside)
    }

    /// Whether a layer lies at a place.
    fn lies(&self, layer: &Layer, at: (f64, f64)) -> bool {
        let covered = match layer.covers {
            "forepart" => self.before_the_joints(at) >= 0.0,
            "waist" => at.0 >= self.last.breast && self.before_the_joints(at) <= 0.0,
            _ => true,
        };
        covered && !self.behind_its_end(layer, at) && layer.breadth.is_none_or(|breadth| at.1.abs() <= breadth / 2.0)
    }

    /// Whether a place lies behind the one where a layer says that it ends.
    fn behind_its_end(&self, layer: &Layer, at: (f64, f64)) -> bool {
        let ends = layer.ends.is_some_and(|behind| at.0 < self.last.breast - behind - 1e-6);
        ends || match layer.covers {
            "forepart" => self.before_the_joints(at) < 0.0,
            "waist" => at.0 < self.last.breast,
            _ => false,
        }
    }

    /// The layers that lie at a place down to `through`; without lugs where a channel counts.
    fn under(&self, (k, at): (usize, (f64, f64)), through: &str, stitch: bool) -> Spread {
        let sole = self.sole;
        let mut sum = Spread::exactly(0.0);
        if self.lies(&sole.midsole, at) {
            sum = plus(sum, sole.midsole());
        }
        if let Some(slip) = sole.slip.filter(|slip| through != "midsole" && self.lies(slip, at)) {
            sum = plus(plus(sum, slip.spread()), sole.film());
        }
        if through == "outsole" && self.lies(&sole.outsole, at) {
            sum = plus(plus(sum, sole.outsole.spread()), sole.film());
            #[expect(clippy::cast_precision_loss, reason = "up to three rows")]
            let inset = sole.from_edge + sole.apart * k as f64;
            let cut = sole
                .channel
                .is_some_and(|(a, b)| (a - 1e-6..=b + 1e-6).contains(&inset) && (stitch || b - a >= TABLE_NOSE - 1e-6));
            if !cut {
                sum = plus(sum, Spread::around(sole.lug.0, sole.lug.1));
            }
        }
        sum
    }

    fn at(&self, k: usize, s: f64, through: &str, stitch: bool) -> Spread {
        plus(self.outer(k, s), self.under((k, self.rows[k].place(s)), through, stitch))
    }

    /// The greatest thin end, nominal and thick end, each for itself, of each sum that is asked for.
    fn greatest(&self, asked: &[(&str, bool)]) -> Vec<Spread> {
        let mut most = vec![Spread::exactly(0.0); asked.len()];
        for (k, row) in self.rows.iter().enumerate() {
            let mut s = 0.0;
            while s <= row.length {
                let (outer, at) = (self.outer(k, s), row.place(s));
                for (most, (through, stitch)) in most.iter_mut().zip(asked) {
                    let here = plus(outer, self.under((k, at), through, *stitch));
                    most.lo = most.lo.max(here.lo);
                    most.nominal = most.nominal.max(here.nominal);
                    most.hi = most.hi.max(here.hi);
                }
                s += STEP;
            }
        }
        most
    }

    /// What a step may miss of a peak: the steepest tapers, all at once.
    fn missed(&self) -> f64 {
        let thick = self.sole.parts.iter().map(|part| part.1).fold(0.0, f64::max);
        let slope = |thinned: &Thinned| thinned.edge.map_or(0.0, |(wide, to)| (thick - to).max(0.0) / wide);
        self.sole.laps.iter().map(|lap| (slope(&lap.top) + slope(&lap.under)) * STEP).sum::<f64>() + OWN
    }
}

/// What one sole was like, in words.
type Was = BTreeSet<&'static str>;

/// The rules on where things lie, by what is walked; `None` where a step can't tell.
impl Walk<'_> {
    /// Whether a row misses the midsole, or the layer that it ends in, ahead of where that says that it ends.
    fn beside(&self) -> Option<bool> {
        let sole = self.sole;
        let asked = match sole.through {
            "outsole" => Some(&sole.outsole),
            "slip" => sole.slip.as_ref(),
            _ => None,
        };
        let mut missed = 0.0_f64;
        for layer in [Some(&sole.midsole), asked].into_iter().flatten() {
            for row in &self.rows {
                let mut here = 0.0;
                let mut s = 0.0;
                while s <= row.length {
                    let at = row.place(s);
                    if !self.behind_its_end(layer, at) && !self.lies(layer, at) {
                        here += STEP;
                    }
                    s += STEP;
                }
                missed = missed.max(here);
            }
        }
        // Less than a few steps may be the walker's own line.
        (missed == 0.0 || missed > 5.0 * STEP).then_some(missed > 0.0)
    }

    /// Whether a part is nominally under 1.0 mm somewhere under a row, or under 0.7 mm at its thin end: the demo's house.
    fn thin(&self) -> Option<bool> {
        let (mut nominal, mut lo) = (f64::MAX, f64::MAX);
        for (k, row) in self.rows.iter().enumerate() {
            let mut s = 0.0;
            while s <= row.length {
                for left in self.parts(k, s).into_iter().flatten() {
                    (nominal, lo) = (nominal.min(left.nominal), lo.min(left.lo));
                }
                s += STEP;
            }
        }
        let spare = (nominal - 1.0).min(lo - 0.7);
        (spare <= -1e-9 || spare > self.missed() || self.missed() <= OWN + 1e-12).then_some(spare < -1e-9)
    }

    /// Whether a lap enters behind the release cut (but where the rows run all round), behind the lap behind it, or on one
    /// side at more than 1.2 times the other's station: the demo's house.
    fn astray(&self) -> bool {
        let (sole, last) = (self.sole, self.last);
        let begins = if sole.all_round { 0.0 } else { (last.breast - HOLDS - BLEND) / last.bottom * 100.0 };
        let behind = |lap: &Lap| lap.outside.min(lap.inside) < begins - 1e-9;
        let apart = |lap: &Lap| lap.outside.max(lap.inside) > 1.2 * lap.outside.min(lap.inside) + 1e-6;
        let disordered = |pair: &[Lap]| pair[1].outside < pair[0].outside || pair[1].inside < pair[0].inside;
        sole.laps.iter().any(|lap| behind(lap) || apart(lap)) || sole.laps.windows(2).any(disordered)
    }
}

/// What was found wrong with one sole, and what it was like.
fn walked(seed: u64) -> (Vec<String>, Was) {
    let chance = &mut Chance::new(seed);
    let sole = match seed % 8 {
        0 => Sole::overlapping(chance),
        1 => Sole::over_the_start(chance),
        2 | 3 => Sole::of_strips(chance),
        4 => Sole::at_the_ends(chance),
        _ => Sole::random(chance),
    };
    let memory = sole.memory();
    let (_, checked) = check(&memory, &Only(sole.size));
    let world = &checked.worlds[0];
    let shop = world.shop.as_ref().expect("the demo has a shop");
    let model = checked.models.iter().find(|model| model.name == "trial").expect("it is there");
    let plan = Plan::new(&world.models[model.place.1], shop);
    let build = plan.build(model.sizes[0].size);
    let last = build.last.as_ref().expect("it has a last");
    let walk = Walk::new(&sole, last);
    let found = figures(&build);
    let mut wrong = Vec::new();
    sums(&walk, &found, &mut wrong);
    place(&walk, &found, &mut wrong);
    profile(&walk, &build, &mut wrong);
    thread(&walk, &build, &mut wrong);
    room(&walk, &build, &mut wrong);
    let refuses = |rule: &str, subject: &str| {
        let of = |it: &&Finding| it.name == rule && it.subject().contains(subject) && it.severity == Severity::Refused;
        checked.findings.iter().any(|finding| of(&finding))
    };
    let refused = refuses("jaw/sole-stack", "");
    let most = walk.greatest(&[(sole.through, false)])[0].nominal;
    if (most - SEWS).abs() > walk.missed() && refused != (most > SEWS) {
        wrong.push(format!("refused is {refused} at {most}"));
    }
    let overlapping = sole.laps.len() == 2
        && [Side::Outside, Side::Inside].into_iter().any(|side| {
            let between = (sole.laps[1].mark(side) - sole.laps[0].mark(side)) * last.bottom;
            between < sole.laps[0].wide
        });
    let found = [
        ("has rows beside a layer", refuses("rows/through", "sole rows"), walk.beside()),
        ("is thin under the rows", refuses("rows/least-in-turnout", ""), walk.thin()),
        ("has laps that enter no turnout", refuses("upper/enters-turnout", ""), Some(walk.astray())),
    ];
    for (what, tool, walked) in found {
        if walked.is_some_and(|walked| walked != tool) {
            wrong.push(format!("it {what}: refused is {tool}"));
        }
    }
    let wrong = wrong.into_iter().map(|what| format!("seed {seed}: {what}\n  {sole:?}")).collect();
    let others =
        [("is refused", refused), ("has laps that overlap", overlapping), ("has rows all round", sole.all_round)];
    let was = found.into_iter().map(|(what, tool, _)| (what, tool)).chain(others);
    (wrong, was.filter_map(|(what, is)| is.then_some(what)).collect())
}

fn sums(walk: &Walk<'_>, found: &Figures, wrong: &mut Vec<String>) {
    let asked = walk.sole.through;
    let mut pairs = vec![("stack.jaw".to_owned(), asked, false), ("stack.stitch".to_owned(), asked, true)];
    for through in ["outsole", "slip", "midsole"] {
        if through != asked && (through != "slip" || walk.sole.slip.is_some()) {
            pairs.push((format!("stack.through-{through}"), through, false));
        }
    }
    let sums: Vec<(&str, bool)> = pairs.iter().map(|(_, through, stitch)| (*through, *stitch)).collect();
    for ((key, ..), walked) in pairs.iter().zip(walk.greatest(&sums)) {
        let tool = spread(found, key);
        for (end, tool, walked) in
            [("lo", tool.lo, walked.lo), ("nominal", tool.nominal, walked.nominal), ("hi", tool.hi, walked.hi)]
        {
            if walked > tool + OWN || walked < tool - walk.missed() {
                wrong.push(format!("{key}, {end}: {tool}, walked {walked}"));
            }
        }
    }
}

/// The place of the thick end: it is as tall there as anywhere, the plateau's ends too, and nothing before it is.
fn place(walk: &Walk<'_>, found: &Figures, wrong: &mut Vec<String>) {
    let through = walk.sole.through;
    let hi = spread(found, "stack.jaw").hi;
    let k = usize::try_from(count(found, "stack.row")).expect("few rows") - 1;
    let Datum::Numbers(along) = &found.get("stack.along").expect("it has a place").datum else { return };
    for s in along {
        // A hair to each side: what ends at a place belongs to it, and the walker's lines are a hair off.
        let near =
            [-0.01, 0.0, 0.01].map(|off| walk.at(k, (s + off).clamp(0.0, walk.rows[k].length), through, false).hi);
        let there = near.into_iter().fold(0.0, f64::max);
        if (there - hi).abs() > walk.missed() * 0.2 + OWN {
            wrong.push(format!("at {s} of row {k} stand {there}, not {hi}"));
        }
    }
    let station = number(found, "stack.station") / 100.0 * walk.last.bottom;
    if (walk.rows[k].place(along[0]).0 - station).abs() > 0.05 {
        wrong.push(format!("{} of row {k} is no station {station}", along[0]));
    }
    let before = |row: usize, end: f64| {
        let mut s = 0.0;
        while s < end {
            if walk.at(row, s, through, false).hi > hi - 1e-7 {
                return Some(s);
            }
            s += STEP;
        }
        None
    };
    for row in 0..=k {
        let end = if row == k { along[0] - 0.02 } else { walk.rows[row].length };
        if let Some(s) = before(row, end) {
            wrong.push(format!("row {row} is as tall at {s} already, before row {k} at {}", along[0]));
        }
    }
}

/// The thickness along each row, as it is drawn: everywhere what is walked there, a hair to each side of a step.
fn profile(walk: &Walk<'_>, build: &Build<'_>, wrong: &mut Vec<String>) {
    let Ok(stack) = &build.stack else { return wrong.push("there is no stack".to_owned()) };
    for (k, row) in walk.rows.iter().enumerate() {
        let corners = stack.profile(k);
        let mut s = 0.37;
        while s < row.length - 0.4 {
            let n = corners.partition_point(|corner| corner.0 < s).clamp(1, corners.len() - 1);
            let ((s0, t0), (s1, t1)) = (corners[n - 1], corners[n]);
            let drawn = if s1 > s0 { t0 + (t1 - t0) * (s - s0) / (s1 - s0) } else { t1 };
            let near = [-0.02, 0.0, 0.02].map(|off| walk.at(k, s + off, walk.sole.through, false).nominal);
            let (least, most) = (near.iter().copied().fold(f64::MAX, f64::min), near.into_iter().fold(0.0, f64::max));
            if drawn < least - OWN || drawn > most + OWN {
                wrong.push(format!("at {s} of row {k} {drawn} is drawn, {least} to {most} walked"));
            }
            s += 1.3;
        }
    }
}

/// Class 301: each stitch takes its length and, shared by the lock, twice what the needle crosses in its middle; a row that
/// closes sews half an inch of its start once more. Both sums by hand; half the lock is each thread's.
fn thread(walk: &Walk<'_>, build: &Build<'_>, wrong: &mut Vec<String>) {
    const OVERLAP: f64 = 12.7;
    // A stitch whose middle lies so near to an edge may count either side of it, mm.
    const HAIR: f64 = 0.02;
    let Ok(rows) = &build.rows else { return wrong.push("there are no rows".to_owned()) };
    for (k, (row, built)) in walk.rows.iter().zip(&rows.rows).enumerate() {
        let pitch = row.length / f64::from(built.stitches);
        let over = if walk.sole.all_round { (OVERLAP / pitch - 1e-9).ceil() } else { 0.0 };
        let (mut least, mut most) = (0.0, 0.0);
        let mut n = 0.5;
        while n < f64::from(built.stitches) {
            let at = |s: f64| pitch + walk.at(k, s.clamp(0.0, row.length), walk.sole.through, true).nominal;
            let near = [-HAIR, 0.0, HAIR].map(|hair| at(n * pitch + hair));
            let times = if n < over { 2.0 } else { 1.0 };
            least += times * near.iter().copied().fold(f64::MAX, f64::min);
            most += times * near.iter().copied().fold(f64::MIN, f64::max);
            n += 1.0;
        }
        let Some(used) = &built.thread else { return wrong.push(format!("row {k} takes no thread")) };
        for (what, used) in [("needle", used.needle), ("bobbin", used.bobbin)] {
            if used * 1000.0 < least * (1.0 - 1e-4) || used * 1000.0 > most * (1.0 + 1e-4) {
                wrong.push(format!("row {k} takes {used} m of {what} thread, {least} to {most} mm walked"));
            }
        }
        if (f64::from(built.overlap) - over).abs() > 1e-9 {
            wrong.push(format!("row {k} closes with {} stitches, not {over}", built.overlap));
        }
    }
}

/// What is left between each row and the wall where it is least, and where each row passes the joints.
fn room(walk: &Walk<'_>, build: &Build<'_>, wrong: &mut Vec<String>) {
    let (Ok(rows), sole, last) = (&build.rows, walk.sole, walk.last) else { return };
    let normals = normals(last);
    let wall = |side: Side, x: f64| {
        let bare = Sole { forepart: 0.0, waist: 0.0, heel: 0.0, ..sole.clone() };
        finished(&bare, last, side, x)
    };
    for (k, (row, built)) in walk.rows.iter().zip(&rows.rows).enumerate() {
        let stop = if sole.all_round { normals.len() } else { row.last + 1 };
        let first = if sole.all_round { 0 } else { row.first + 1 };
        let left = normals[first..stop].iter().map(|normal| {
            let x = normal.frame.point.x;
            finished(sole, last, normal.side, x) - wall(normal.side, x) - built.inset
        });
        let least = left.fold(f64::MAX, f64::min);
        if (built.wall_clearance - least).abs() > 0.02 {
            wrong.push(format!("row {k} leaves {} to the wall, {least} walked", built.wall_clearance));
        }
        let joints = built.joints(last);
        let sides = [(Side::Outside, last.joint_outside), (Side::Inside, last.joint_inside)];
        for (joint, (side, x)) in joints.into_iter().zip(sides) {
            let Some(s) = joint else {
                wrong.push(format!("row {k} passes no joint"));
                continue;
            };
            let n = row.way.partition_point(|way| *way < s).clamp(1, row.way.len() - 1);
            let (a, b) = (row.points[n - 1], row.points[n]);
            let (inner, outer) = (joint_at(last, Side::Inside), joint_at(last, Side::Outside));
            let off = (a.0 - inner.0) * (outer.1 - inner.1) - (a.1 - inner.1) * (outer.0 - inner.0);
            let off = off / (outer.0 - inner.0).hypot(outer.1 - inner.1);
            if off.abs() > 0.1 + (b.0 - a.0).hypot(b.1 - a.1) || row.side(s) != side {
                wrong.push(format!("row {k} passes the joint at {x} on {s}, {off} beside the line"));
            }
        }
    }
}

/// The feather line's point at the joint of a side.
fn joint_at(last: &GradedLast, side: Side) -> (f64, f64) {
    let x = if side == Side::Outside { last.joint_outside } else { last.joint_inside };
    let normals = normals(last);
    let of_side = normals.iter().filter(|normal| normal.side == side).map(|normal| normal.frame.point);
    let near = of_side.min_by(|a, b| (a.x - x).abs().total_cmp(&(b.x - x).abs())).expect("it has points");
    (near.x, near.y)
}

#[test]
fn the_tallest_places_are_found() {
    const SOLES: u64 = 480;
    let walks: Vec<_> = (1..=SOLES).into_par_iter().map(walked).collect();
    let wrong: Vec<&String> = walks.iter().flat_map(|(wrong, _)| wrong).collect();
    let shown: String = wrong.iter().take(12).map(|wrong| format!("{wrong}\n")).collect();
    assert!(wrong.is_empty(), "{} differ:\n{shown}", wrong.len());
    let counted = |what: &str| walks.iter().filter(|(_, was)| was.contains(what)).count();
    let refused = counted("is refused");
    assert!(refused * 5 >= walks.len() && refused < walks.len(), "{refused} of {SOLES} are refused");
    for (what, least) in [
        ("has laps that overlap", 20),
        ("has rows all round", 40),
        ("has rows beside a layer", 40),
        ("is thin under the rows", 40),
        ("has laps that enter no turnout", 40),
    ] {
        let (with, without) = (counted(what), walks.len() - counted(what));
        assert!(with >= least && without >= least, "{what}: {with}, and not: {without}");
    }
}
