//! Every nail of random boots walked by brute force: where it stands, what lies along its path every tenth of a mm, what
//! stands out of it or is left over it, against what the tool says of it.
//!
//! The walker lays the last out itself and knows the texts' numbers and the definitions, and nothing of how the tool finds
//! places or layers.

use crate::common::boots::{BOOT, Boot, Clinched, Lining, Pin, Ringed, Staged, THIN_LIFT};
use crate::common::chance::Chance;
use crate::common::insole::{At, Insole, along, apart, between, ways};
use crate::common::memory::{NoSize, lines};
use crate::common::walked::{
    BLEND, Bed, HOLDS, Laid, Lying, Range, Spot, Taken, What, changes, nominal, solid, thick, thin, to_the_bite,
    to_the_foot, worst_to_hold,
};
use hobnail::build::{Build, ClinchNail, HeelNailsBuilt, NailsBuilt, Place, Plan, Stand, Zone};
use hobnail::finding::Severity;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};

mod near;

const BOOTS: u64 = 300;
/// How near places must agree, and margins, mm.
const SAME_PLACE: f64 = 0.05;
const SAME_MARGIN: f64 = 0.05;
/// What is not known better than this, because a nail stands at an edge, is left out of the comparison, mm.
const LEFT_OUT: f64 = 0.1;
/// A nail so near to a third of the heel, or to the turn of the upper, mm, may be taken for the one or the other.
const HAIR: f64 = 0.005;

/// The demo house's rules that no boot changes, mm.
const CLINCH: (f64, f64) = (1.5, 5.0);
const BEHIND_JOINT: f64 = 10.0;
const TURN_INSIDE: f64 = 5.0;
const TURN_OUTSIDE: f64 = 2.0;
const BELOW_LEDGE: f64 = 1.5;
const HEADS_BELOW: f64 = 1.0;
const STAGE_SINK: f64 = 0.5;
const WEDGE_AT_BREAST: f64 = 1.0;

/// The heel by hand: how much the seat falls, what wedges take of it, what is sanded.
struct Heel {
    length: f64,
    drop: f64,
    taken: f64,
    needed: f64,
    sink: f64,
}

impl Heel {
    fn of(boot: &Boot, insole: &Insole) -> Self {
        let length = insole.breast;
        let drop = length * boot.last.slope.to_radians().tan();
        let (wedges, wedge) = boot.wedges;
        let taken = drop.min(f64::from(wedges) * (wedge - WEDGE_AT_BREAST));
        let needed = block(boot, |_, it| it.nominal) - boot.cap.nominal;
        let sanded = given(boot, (wedges, boot.lifts.0, boot.thin)) - needed;
        let sink = sanded.max(sanded + drop - taken).max(0.0) + HEADS_BELOW;
        Self { length, drop, taken, needed, sink }
    }

    /// What a base of some wedges, lifts and thin lifts is high at `x`, nominal.
    fn base(&self, boot: &Boot, counts: (u32, u32, u32), x: f64) -> f64 {
        let taken = if counts.0 > 0 { self.taken * x / self.length } else { 0.0 };
        given(boot, counts) - taken
    }
}

fn given(boot: &Boot, (wedges, lifts, thin): (u32, u32, u32)) -> f64 {
    f64::from(wedges) * boot.wedges.1 + f64::from(lifts) * boot.lifts.1 + f64::from(thin) * THIN_LIFT
}

/// How often a thing counts in the block: once under the ball, less once under the seat.
fn in_block(boot: &Boot, what: What) -> f64 {
    let once = |it: bool| if it { 1.0 } else { 0.0 };
    match what {
        What::Outsole => 1.0 - once(boot.outsole.ends.is_none()),
        What::Slip => boot.slip.as_ref().map_or(0.0, |slip| 1.0 - once(slip.ends.is_none() && !slip.forepart)),
        What::LastedOuter | What::TurnedOuter => -1.0,
        _ => 0.0,
    }
}

/// Base and cap at the back.
fn block(boot: &Boot, taken: impl Fn(What, hobnail::measure::Spread) -> f64) -> f64 {
    let slip = boot.slip.as_ref().map_or(0.0, |slip| in_block(boot, What::Slip) * taken(What::Slip, slip.thick));
    let lug = boot.lug.map_or(0.0, |lug| lug.lo + (taken(What::Foot, lug) - lug.lo));
    boot.last.seat + in_block(boot, What::Outsole) * taken(What::Outsole, boot.outsole.thick) + lug + slip
        - taken(What::LastedOuter, boot.outer)
}

/// A heel nail as the walker places it.
struct Walked {
    /// The stage, from 0; none for the cap's.
    stage: Option<usize>,
    place: Place,
    head: At,
    point: Spot,
    zone: Zone,
    radius: f64,
}

/// All that one boot is walked with.
struct Walk<'w> {
    bed: Bed<'w>,
    heel: Heel,
    edge: Vec<At>,
    wrong: Vec<String>,
    share: Share,
}

/// How many nails and places were looked at, and how many were left out because they stand at an edge.
#[derive(Clone, Copy, Default)]
struct Share {
    nails: usize,
    nails_left_out: usize,
    places: usize,
    places_left_out: usize,
    /// What makes boots unlike: leaning, staged, with pieces under the heel, in the ledge, in the turn, rigid.
    seen: [usize; 6],
}

impl Share {
    fn with(mut self, other: Self) -> Self {
        self.nails += other.nails;
        self.nails_left_out += other.nails_left_out;
        self.places += other.places;
        self.places_left_out += other.places_left_out;
        self.seen.iter_mut().zip(other.seen).for_each(|(a, b)| *a += b);
        self
    }
}

/// Nails on a line: their number, and from one to the next.
fn spaced(length: f64, apart: f64) -> (usize, f64) {
    if length < apart / 2.0 {
        return (1, 0.0);
    }
    let mut spaces = 1;
    while f64::from(spaces + 1) * apart <= length + 1e-6 {
        spaces += 1;
    }
    (usize::try_from(spaces).expect("few") + 1, length / f64::from(spaces))
}

#[expect(clippy::cast_precision_loss, reason = "a handful of nails")]
fn evenly(line: &[At], apart: f64) -> Vec<At> {
    let ways = ways(line);
    let (count, spacing) = spaced(ways[ways.len() - 1], apart);
    (0..count).map(|n| along(line, &ways, n as f64 * spacing)).collect()
}

impl<'w> Walk<'w> {
    fn of(boot: &'w Boot, insole: &'w Insole) -> Self {
        let heel = Heel::of(boot, insole);
        let edge = insole.beside(|x, inside| wall(boot, insole, x) + turnout(boot, insole, x, inside));
        Self { bed: Bed::of(boot, insole), heel, edge, wrong: Vec::new(), share: Share::default() }
    }

    fn boot(&self) -> &'w Boot {
        self.bed.boot
    }

    fn insole(&self) -> &'w Insole {
        self.bed.insole
    }

    fn says(&mut self, what: String) {
        self.wrong.push(what);
    }

    fn near(&mut self, what: &str, tool: f64, walked: f64, by: f64) {
        if (tool - walked).abs() > by || tool.is_nan() {
            self.says(format!("{what}: {tool:.4}, walked {walked:.4}"));
        }
    }

    /// Within what is walked, a margin more or less.
    fn within(&mut self, what: &str, tool: f64, (least, most): Range) {
        if tool < least - SAME_MARGIN || tool > most + SAME_MARGIN || tool.is_nan() {
            self.says(format!("{what}: {tool:.4}, walked {least:.4} to {most:.4}"));
        }
    }

    // Clinch nails.

    /// The waist's nails: outside first, heel to toe, then inside from toe to heel; how many on each side.
    fn waist(&self) -> (Vec<At>, usize) {
        let (insole, line) = (self.insole(), &self.boot().waist);
        let rail = insole.beside(|_, _| -line.inset);
        let end = |joint: f64| {
            let to = line.to.map_or(joint - BEHIND_JOINT, |share| share / 100.0 * insole.bottom);
            to.max(insole.breast)
        };
        let side = |joint: f64, inside: bool| {
            let [heel, toe] = [insole.breast, end(joint)].map(|x| insole.crossing(&rail, x, inside));
            let way = if inside { insole.cut(&rail, toe, heel) } else { insole.cut(&rail, heel, toe) };
            evenly(&way, line.apart)
        };
        let (mut nails, inside) = (side(insole.joint_outside, false), side(insole.joint_inside, true));
        let outside = nails.len();
        nails.extend(inside);
        (nails, outside)
    }

    /// The seat's nails, from one spacing behind the breast on the inside round the heel to the same on the outside.
    fn seat(&self) -> Vec<At> {
        let (insole, line) = (self.insole(), &self.boot().seat);
        let rail = insole.beside(|_, _| -line.inset);
        let [from, to] = [true, false].map(|inside| insole.crossing(&rail, insole.breast - line.apart, inside));
        evenly(&insole.cut(&rail, from, to), line.apart)
    }

    /// What a clinch nail goes through, on the boot by then: midsole and what lies above it.
    fn clinched(&self, lying: Lying, spot: &Spot, taken: fn(What, bool, hobnail::measure::Spread) -> f64) -> f64 {
        let mut column = self.bed.column(lying, spot, &taken);
        column.retain(|it| !matches!(it.what, What::Outsole | What::Slip));
        to_the_foot(&column)
    }

    fn clinch(&mut self, name: &str, line: &Clinched, at: &[At], built: &NailsBuilt) {
        let Pin { shank, sunk, lengths } = &self.boot().clinching;
        if built.nails.len() != at.len() {
            return self.says(format!("{name}: {} nails, walked {}", built.nails.len(), at.len()));
        }
        let mut in_rigid = (0, 0);
        for (n, (nail, at)) in built.nails.iter().zip(at).enumerate() {
            let ClinchNail { point, window, length, .. } = nail;
            let off = apart((point.x, point.y), *at);
            if off > SAME_PLACE {
                self.says(format!("{name} {n} stands {off:.3} from {at:?}"));
                continue;
            }
            let spot = Spot::of(self.insole(), *at);
            let around = self.bed.around(&spot, shank / 2.0);
            let rigid = |all: &[Lying]| usize::from(all.iter().any(|lying| self.bed.rigid(*lying)));
            in_rigid = (in_rigid.0 + rigid(&around.surely), in_rigid.1 + rigid(&around.perhaps));
            if rigid(&around.perhaps) > 0 {
                // No nail goes through it: that is refused, and what would clinch there is nothing.
                continue;
            }
            // What is sunk at the head comes out at the point: `length + sunk - layers` stands out.
            let most = around.most(|lying| self.clinched(lying, &spot, thick));
            let least = around.least(|lying| self.clinched(lying, &spot, thin));
            let lo = (most.0 + CLINCH.0 - sunk, most.1 + CLINCH.0 - sunk);
            let hi = (least.0 + CLINCH.1 - sunk, least.1 + CLINCH.1 - sunk);
            self.within(&format!("{name} {n} at {at:.1?}, least length"), window.lo, lo);
            self.within(&format!("{name} {n} at {at:.1?}, most length"), window.hi, hi);
            self.share.nails += 1;
            self.share.nails_left_out += usize::from(wide(lo) || wide(hi));
            self.chosen((name, n), line.stated, (*length, lengths), (lo, hi));
        }
        self.rigid(name, built, in_rigid);
    }

    /// The stated length, or the shortest stocked one that serves; where a hair decides, either way.
    fn chosen(
        &mut self,
        what: (&str, usize),
        stated: Option<f64>,
        (tool, stocked): (Option<f64>, &[f64]),
        (lo, hi): (Range, Range),
    ) {
        let sure = stocked.iter().copied().find(surely(lo, hi));
        let right = match (stated, tool) {
            (Some(_), _) => tool == stated,
            (None, None) => sure.is_none(),
            (None, Some(tool)) => perhaps(lo, hi)(&tool) && sure.is_none_or(|sure| tool <= sure),
        };
        if !right {
            self.says(format!("{what:?} is {tool:?} long, walked {sure:?} in {lo:.2?}..{hi:.2?}"));
        }
    }

    fn rigid(&mut self, name: &str, built: &NailsBuilt, (surely, perhaps): (usize, usize)) {
        let tool = built.in_rigid.iter().map(|(_, count)| *count).max().unwrap_or(0);
        let rigid = self.boot().pieces.iter().filter(|piece| piece.rigid).count();
        self.share.seen[5] += usize::from(surely > 0);
        // Two rigid pieces lie on each other, and nails may stand in one of them alone.
        if rigid <= 1 && (tool < surely || tool > perhaps) {
            self.says(format!("{name}: {tool} in what is rigid, walked {surely} to {perhaps}"));
        }
    }

    // Heel nails.

    /// The line of the base's nails, or of the cap's, from the inside's end round the heel to the outside's.
    fn ring(&self, cap: bool) -> Vec<At> {
        let (boot, insole) = (self.boot(), self.insole());
        let rail = match boot.ringed {
            Ringed::InsideFeather(inset) if !cap => insole.beside(|_, _| -inset),
            _ => insole.beside(|x, inside| wall(boot, insole, x) + turnout(boot, insole, x, inside) - boot.cap_inset),
        };
        let [from, to] = [true, false].map(|inside| insole.crossing(&rail, insole.breast - boot.behind_breast, inside));
        insole.cut(&rail, from, to)
    }

    /// The nails of a stage: in the ring, then across. `stands` says which length each of them has.
    #[expect(clippy::cast_precision_loss, reason = "a handful of nails")]
    fn stage(&self, n: usize, stage: &Staged, built: &HeelNailsBuilt) -> Vec<Walked> {
        let (boot, line) = (self.boot(), self.ring(false));
        let ways = ways(&line);
        let (count, spacing) = spaced(ways[ways.len() - 1], boot.nails_apart);
        let mut heads: Vec<(At, Option<At>)> = Vec::new();
        // Each stage in the middles of the one before, so that it has one nail less.
        for k in 0..count.saturating_sub(n) {
            heads.push((along(&line, &ways, (k as f64 + n as f64 / 2.0) * spacing), None));
        }
        let ends = (line[0], line[line.len() - 1]);
        for share in across(stage.across, n) {
            heads.push((between(ends.0, ends.1, share), Some((-1.0, 0.0))));
        }
        let lean = stage.leans.to_radians().sin();
        let leant = |(head, inward): (At, Option<At>)| {
            let place = self.place(head.0);
            let stated = stage.lengths.map(|[back, sides, breast]| match place {
                Place::Back => back,
                Place::Sides => sides,
                Place::Breast => breast,
            });
            let of_stage = built.nails.iter().filter(|nail| built.rings[n].stage == nail.stage);
            let chosen = || of_stage.clone().find(|nail| nail.place == place).map(|nail| nail.length);
            let by = lean * stated.or_else(chosen).unwrap_or(0.0);
            let inward = inward.unwrap_or_else(|| self.insole().depth(head).1);
            let point = Spot::of(self.insole(), (head.0 + inward.0 * by, head.1 + inward.1 * by));
            let zone = self.zone(point.depth, point.at.0);
            Walked { stage: Some(n), place, head, point, zone, radius: boot.pin.shank / 2.0 }
        };
        heads.into_iter().map(leant).collect()
    }

    #[expect(clippy::cast_precision_loss, reason = "a handful of nails")]
    fn cap(&self) -> Vec<Walked> {
        let (boot, line) = (self.boot(), self.ring(true));
        let ways = ways(&line);
        let (count, spacing) = spaced(ways[ways.len() - 1], boot.nails_apart);
        let middles = (0..(count - 1).max(1)).map(|k| along(&line, &ways, (k as f64 + 0.5) * spacing));
        let stand = |head: At| {
            let point = Spot::of(self.insole(), head);
            let (place, zone) = (self.place(head.0), self.zone(point.depth, point.at.0));
            Walked { stage: None, place, head, point, zone, radius: boot.cap_pin.shank / 2.0 }
        };
        middles.map(stand).collect()
    }

    fn place(&self, x: f64) -> Place {
        match x / self.heel.length * 3.0 {
            third if third <= 1.0 => Place::Back,
            third if third <= 2.0 => Place::Sides,
            _ => Place::Breast,
        }
    }

    fn zone(&self, depth: f64, x: f64) -> Zone {
        if depth >= TURN_INSIDE {
            Zone::Seat
        } else if -depth >= wall(self.boot(), self.insole(), x) + TURN_OUTSIDE {
            Zone::Ledge
        } else {
            Zone::Turn
        }
    }

    /// Whether a nail's place or zone hangs by a hair.
    fn by_a_hair(&self, walked: &Walked) -> bool {
        let third = self.heel.length / 3.0;
        let limits = [TURN_INSIDE, -wall(self.boot(), self.insole(), walked.head.0) - TURN_OUTSIDE];
        let near = |value: f64, limits: [f64; 2]| limits.iter().any(|limit| (value - limit).abs() < HAIR);
        near(walked.head.0, [third, 2.0 * third]) || near(walked.point.depth, limits)
    }

    fn heel_nails(&mut self, built: &HeelNailsBuilt, clinched: &[At]) {
        self.near("sink", built.sink, self.heel.sink, 1e-6);
        let mut all: Vec<Walked> = Vec::new();
        for (n, stage) in self.boot().stages.iter().enumerate() {
            all.extend(self.stage(n, stage, built));
        }
        all.extend(self.cap());
        if all.len() != built.stands.len() {
            let by = |stands: &mut dyn Iterator<Item = Option<usize>>| {
                stands.map(|it| format!("{it:?} ")).collect::<String>()
            };
            let tool = by(&mut built.stands.iter().map(|stand| stand.stage));
            return self.says(format!("heel nails: {tool}, walked {}", by(&mut all.iter().map(|it| it.stage))));
        }
        let mut hairs = Vec::new();
        for (n, (walked, stand)) in all.iter().zip(&built.stands).enumerate() {
            let Stand { stage, place, head, point, depth, zone, .. } = stand;
            let off = apart((head.x, head.y), walked.head).max(apart((point.x, point.y), walked.point.at));
            let hair = self.by_a_hair(walked);
            let same = *stage == walked.stage && (hair || (*place == walked.place && *zone == walked.zone));
            if off > SAME_PLACE || (depth - walked.point.depth).abs() > SAME_PLACE || !same {
                let Walked { stage, place, head, point, zone, .. } = walked;
                self.says(format!(
                    "heel nail {n}: {stand:?}, walked {stage:?} {place:?} {head:.3?} {:.3?} {:.3} {zone:?}",
                    point.at, point.depth
                ));
            }
            if hair {
                hairs.push((*stage, *place));
                hairs.push((walked.stage, walked.place));
            }
        }
        if self.wrong.is_empty() {
            self.places(built, &all, &hairs);
            self.cap_nails(built, &all, &hairs);
            self.nearest(built, &all, clinched);
        }
    }

    /// The lengths that serve the nails of each place of each stage.
    fn places(&mut self, built: &HeelNailsBuilt, all: &[Walked], hairs: &[(Option<usize>, Place)]) {
        let boot = self.boot();
        let mut so_far = (0, 0, 0);
        let mut nails = built.nails.iter();
        for (n, stage) in boot.stages.iter().enumerate() {
            let own = (if stage.wedges { boot.wedges.0 } else { 0 }, stage.lifts, stage.thin);
            so_far = (so_far.0 + own.0, so_far.1 + own.1, so_far.2 + own.2);
            let sunk = if n + 1 == boot.stages.len() { self.heel.sink } else { STAGE_SINK };
            for place in Place::ALL {
                let here: Vec<&Walked> = all.iter().filter(|it| it.stage == Some(n) && it.place == place).collect();
                if here.is_empty() {
                    continue;
                }
                let name = format!("stage {n}, {}", place.name());
                self.share.places += 1;
                let Some(nail) = nails.next().filter(|nail| nail.place == place || hairs.contains(&(Some(n), place)))
                else {
                    self.says(format!("{name} is missing"));
                    continue;
                };
                if hairs.contains(&(Some(n), place)) {
                    self.share.places_left_out += 1;
                    continue;
                }
                let of = (own, so_far, stage.leans.to_radians(), nail.length * stage.leans.to_radians().cos() + sunk);
                let limits: Vec<[Range; 3]> = here.iter().map(|it| self.limits(it, n == 0, of)).collect();
                if nail.count != here.len() {
                    self.says(format!("{name}: {} nails, walked {}", nail.count, here.len()));
                }
                self.seen(&here, stage);
                let all = |k: usize, pick: fn(f64, f64) -> f64| {
                    let both = |a: Range, b: Range| (pick(a.0, b.0), pick(a.1, b.1));
                    limits.iter().map(|it| it[k]).reduce(both).expect("there are nails")
                };
                let (room, hold, held) = (all(0, f64::min), all(1, f64::max), all(2, f64::max));
                let length = |(a, b): Range| [a, b].map(|reach| (reach - sunk) / stage.leans.to_radians().cos()).into();
                let (shortest, longest): (Range, Range) = (length(hold), length(room));
                self.within(&format!("{name}, longest"), nail.serves().hi, longest);
                self.within(&format!("{name}, shortest"), nail.serves().lo, shortest);
                self.within(&format!("{name}, must reach"), nail.hold.spread().nominal, held);
                self.near(&format!("{name}, reaches"), nail.reach(), of.3, 1e-6);
                self.share.places_left_out += usize::from(wide(room) || wide(hold) || wide(held));
                if stage.lengths.is_none() {
                    self.shortest(&name, nail.length, (shortest, longest), &boot.pin.lengths);
                }
            }
        }
        if nails.next().is_some() {
            self.says("there are nails of a place more".to_owned());
        }
    }

    fn seen(&mut self, here: &[&Walked], stage: &Staged) {
        let piece = |it: &&Walked| {
            let laid = self.bed.column(self.bed.lying(&it.point), &it.point, &nominal);
            laid.iter().any(|it| matches!(it.what, What::Piece(_)))
        };
        let counts = [
            stage.leans > 0.0,
            self.boot().stages.len() > 1,
            here.iter().any(piece),
            here.iter().any(|it| it.zone == Zone::Ledge),
            here.iter().any(|it| it.zone == Zone::Turn),
        ];
        counts.iter().enumerate().for_each(|(n, seen)| self.share.seen[n] += usize::from(*seen));
    }

    /// A length that is left out is the shortest stocked one that serves; where none surely does, nothing is asked.
    fn shortest(&mut self, name: &str, tool: f64, (lo, hi): (Range, Range), stocked: &[f64]) {
        let Some(sure) = stocked.iter().copied().find(surely(lo, hi)) else { return };
        if tool > sure || !perhaps(lo, hi)(&tool) {
            self.says(format!("{name} takes {tool}, walked {sure:?} in {lo:.2?}..{hi:.2?}"));
        }
    }

    /// The least room over a nail's point, and what it must reach at the thick end and at nominal.
    #[expect(clippy::type_complexity, reason = "wedges, lifts and thin lifts of two bases")]
    fn limits(
        &self,
        it: &Walked,
        first: bool,
        (own, so_far, leans, reach): ((u32, u32, u32), (u32, u32, u32), f64, f64),
    ) -> [Range; 3] {
        let (boot, gauge) = (self.boot(), self.boot().house.gauge);
        let around = self.bed.around(&it.point, it.radius);
        let (head, point) = (it.head.0, it.point.at.0);
        let base = |counts, x: f64| self.heel.base(boot, counts, x);
        let lowest = base(so_far, head).min(base(so_far, point)) - gauge;
        let highest = base(own, head).max(base(own, point));
        let over = |lying: Lying, taken: Taken<'_>| self.bed.column(lying, &it.point, taken);
        let above = around.least(|lying| match it.zone {
            Zone::Seat => to_the_foot(&over(lying, &thin)) - boot.house.reserve,
            Zone::Turn => 0.0,
            Zone::Ledge => to_the_foot(&over(lying, &thin)) - BELOW_LEDGE,
        });
        let bite = |taken: Taken<'_>| {
            around.most(|lying| if first { bitten(boot.house.bite, &over(lying, taken)) } else { boot.house.bite })
        };
        let (hold, mut held) = (bite(&worst_to_hold), bite(&nominal));
        if first && leans > 0.0 {
            // What it comes through on its way is what lies at its point, but where it goes through an edge.
            let leant = self.along_its_path(it, leans, reach - highest);
            held = (held.0.min(leant), held.1.max(leant));
        }
        let plus = |(a, b): Range, more: f64| (a + more, b + more);
        [plus(above, lowest), plus(hold, highest + gauge), plus(held, highest)]
    }

    /// How high a nail that leans must go until it bites, nominal, by what it really comes through on its way.
    fn along_its_path(&self, it: &Walked, leans: f64, end: f64) -> f64 {
        let (dx, dy) = (it.point.at.0 - it.head.0, it.point.at.1 - it.head.1);
        let run = dx.hypot(dy).max(1e-9);
        let inward = (dx / run, dy / run);
        to_the_bite(self.boot().house.bite, |z| {
            let by = (z - end) * leans.tan();
            let spot = it.point.beside((inward.0 * by, inward.1 * by));
            solid(&self.bed.column(self.bed.lying(&spot), &spot, &nominal), z)
        })
    }

    /// The cap's nails: driven when the base is level, they may go on into what lies above it.
    fn cap_nails(&mut self, built: &HeelNailsBuilt, all: &[Walked], hairs: &[(Option<usize>, Place)]) {
        let boot = self.boot();
        let Some(cap) = &built.cap else { return self.says("the cap is not nailed".to_owned()) };
        let here: Vec<&Walked> = all.iter().filter(|it| it.stage.is_none()).collect();
        if cap.count != here.len() {
            self.says(format!("cap: {} nails, walked {}", cap.count, here.len()));
        }
        let hold = boot.cap.hi + boot.house.bite;
        self.near("cap, must reach", cap.hold.spread().hi, hold, SAME_MARGIN);
        self.near("cap, sunk", cap.sunk, boot.cap_pin.sunk, 1e-9);
        self.share.places += 1;
        if hairs.iter().any(|(stage, _)| stage.is_none()) {
            self.share.places_left_out += 1;
            return;
        }
        let both = |a: Range, b: Range| (a.0.min(b.0), a.1.min(b.1));
        let room = here.iter().map(|it| self.cap_room(it)).reduce(both).expect("there are nails");
        self.within("cap, most", cap.room.spread().lo, room);
        self.share.places_left_out += usize::from(wide(room));
        #[expect(clippy::single_match_else, reason = "stated or chosen")]
        match boot.cap_length {
            Some(stated) => self.near("cap, long", cap.length, stated, 1e-9),
            None => {
                let (least, most) = (hold - cap.sunk, (room.0 - cap.sunk, room.1 - cap.sunk));
                self.shortest("cap", cap.length, ((least, least), most), &boot.cap_pin.lengths);
            }
        }
    }

    /// Cap, base and what lies above, all of it where that makes least: a piece that lies under ball and seat makes no
    /// difference, the outer at the seat none where the nail stands in it.
    fn cap_room(&self, it: &Walked) -> Range {
        let boot = self.boot();
        let level = |block: f64| block - self.heel.drop * it.head.0 / self.heel.length;
        if it.zone == Zone::Turn {
            let worst =
                |what: What, it: hobnail::measure::Spread| if in_block(boot, what) < 0.0 { it.hi } else { it.lo };
            let room = level(block(boot, worst));
            return (room, room);
        }
        let kept = if it.zone == Zone::Seat { boot.house.reserve } else { BELOW_LEDGE };
        let room = |lying: Lying| {
            let whole = self.bed.column(lying, &it.point, &nominal);
            let times = |what: What| {
                let above = whole.iter().any(|laid| outer(laid.what) == outer(what));
                in_block(boot, what) + if above { 1.0 } else { 0.0 }
            };
            let worst = |what: What, it: hobnail::measure::Spread| if times(what) < 0.0 { it.hi } else { it.lo };
            let column = self.bed.column(lying, &it.point, &|what, _, it| worst(what, it));
            let ground = level(block(boot, worst));
            // From the ground up: the heel, then what lies above it.
            let walked = changes(|z| if z < ground { HEEL } else { solid(&column, z - ground) });
            walked[walked.len() - 1].0 - kept
        };
        self.bed.around(&it.point, it.radius).least(room)
    }
}

/// Whether a value is not known well enough to compare a margin.
fn wide((least, most): Range) -> bool {
    most - least > LEFT_OUT
}

/// Whether a length serves, whatever a hair does.
fn surely(lo: Range, hi: Range) -> impl Fn(&f64) -> bool {
    move |length| *length >= lo.1 + SAME_MARGIN && *length <= hi.0 - SAME_MARGIN
}

/// Whether a length may serve.
fn perhaps(lo: Range, hi: Range) -> impl Fn(&f64) -> bool {
    move |length| *length >= lo.0 - SAME_MARGIN && *length <= hi.1 + SAME_MARGIN
}

const HEEL: Laid = Laid { what: What::Midsole, thick: 0.0, holds: true };

/// The same piece of leather, lasted in or turned out.
fn outer(what: What) -> What {
    if what == What::TurnedOuter { What::LastedOuter } else { what }
}

/// How high above a face the bite is complete.
fn bitten(bite: f64, column: &[Laid]) -> f64 {
    to_the_bite(bite, |z| solid(column, z))
}

/// Where nails stand across the heel, as shares of the way from the inside's end: evenly; in a later stage in the middles
/// of as many spaces, of which one more than nails there are: the middle one stays empty.
fn across(count: u32, stage: usize) -> Vec<f64> {
    let spaces = f64::from(count + 1);
    if stage.is_multiple_of(2) {
        return (1..=count).map(|n| f64::from(n) / spaces).collect();
    }
    let empty = count.div_ceil(2);
    (0..=count).filter(|n| *n != empty).map(|n| (f64::from(n) + 0.5) / spaces).collect()
}

/// The wall outside the feather line: the lining as lasted at the toe, and the outer.
/// The step by which turnout and wall change: `3 u^2 - 2 u^3`.
fn fair(u: f64) -> f64 {
    let u = u.clamp(0.0, 1.0);
    u * u * (3.0 - 2.0 * u)
}

/// Outer and lining as they are lasted in there; a lining's end is thinned over 10 mm.
fn wall(boot: &Boot, insole: &Insole, x: f64) -> f64 {
    let there = |lining: &Lining| {
        let past = |station: f64| {
            if station.is_finite() {
                fair((x - station / 100.0 * insole.bottom + 5.0) / 10.0)
            } else {
                f64::from(station < 0.0)
            }
        };
        lining.thick.nominal * (past(lining.from) - past(lining.to))
    };
    boot.outer.nominal + boot.linings.iter().map(there).sum::<f64>()
}

fn turnout(boot: &Boot, insole: &Insole, x: f64, inside: bool) -> f64 {
    let [forepart, waist, heel] = boot.turnout;
    let joint = if inside { insole.joint_inside } else { insole.joint_outside };
    let passes = |from: f64| fair((x - from) / BLEND);
    heel + (waist - heel) * passes(insole.breast - HOLDS - BLEND) + (forepart - waist) * passes(joint - BLEND)
}

/// The last of a boot, laid out once for each size.
fn insole(boot: &Boot) -> Arc<Insole> {
    static LAID: Mutex<BTreeMap<(&str, String), Arc<Insole>>> = Mutex::new(BTreeMap::new());
    let key = (boot.last.name, boot.size.clone());
    let known = LAID.lock().expect("no walk fails in here").get(&key).cloned();
    known.unwrap_or_else(|| {
        let laid = Arc::new(Insole::of(&boot.last, &boot.size));
        LAID.lock().expect("no walk fails in here").insert(key, Arc::clone(&laid));
        laid
    })
}

/// What was found wrong with one boot.
fn walked(seed: u64) -> (Vec<String>, Share) {
    let chance = &mut Chance::new(seed);
    let boot = Boot::random(chance);
    let insole = insole(&boot);
    let needed = Heel::of(&boot, &insole).needed;
    let boot = boot.lifted(chance, needed);
    let memory = boot.memory();
    let (loaded, checked) = memory.check(&[BOOT], &NoSize);
    let faults: Vec<_> = checked.findings.iter().filter(|it| it.severity == Severity::Fault).cloned().collect();
    let said = lines(&loaded, &faults);
    assert_eq!(said, "");
    let world = &checked.worlds[0];
    let model = checked.models.iter().find(|model| model.name == "trial").expect("it is there");
    let plan = Plan::new(&world.models[model.place.1], world.shop.as_ref().expect("the demo has a shop"));
    let size = model.run.iter().find(|size| size.to_string() == boot.size).expect("a size of the run");
    let walk = walk(&boot, &insole, &plan.build(*size));
    let wrong = walk.wrong.iter().map(|what| format!("seed {seed}: {what}\n{}", memory.text(BOOT))).collect();
    (wrong, walk.share)
}

fn walk<'w>(boot: &'w Boot, insole: &'w Insole, build: &Build<'_>) -> Walk<'w> {
    let mut walk = Walk::of(boot, insole);
    let (waist, outside) = walk.waist();
    let seat = walk.seat();
    match (&build.waist, &build.seat) {
        (Some(Ok(built)), Some(Ok(seated))) => {
            if built.counts != (outside, waist.len() - outside) {
                walk.says(format!("the waist's nails are {:?}, walked {outside} of {}", built.counts, waist.len()));
            }
            walk.clinch("waist", &boot.waist, &waist, built);
            walk.clinch("seat", &boot.seat, &seat, seated);
        }
        _ => walk.says("waist and seat are not nailed".to_owned()),
    }
    let clinched: Vec<At> = waist.into_iter().chain(seat).collect();
    match &build.heel_nails {
        Some(Ok(built)) => walk.heel_nails(built, &clinched),
        other => walk.says(format!("the heel is not nailed: {:?}", other.as_ref().map(|it| it.as_ref().err()))),
    }
    walk
}

#[test]
fn every_nail_is_judged_where_it_stands() {
    let walks: Vec<_> = (1..=BOOTS).into_par_iter().map(walked).collect();
    let wrong: Vec<&String> = walks.iter().flat_map(|(wrong, _)| wrong).collect();
    let shown: String = wrong.iter().take(6).map(|wrong| format!("{wrong}\n")).collect();
    let share = walks.iter().fold(Share::default(), |sum, (_, share)| sum.with(*share));
    let Share { nails, nails_left_out, places, places_left_out, seen } = share;
    assert!(wrong.is_empty(), "{} differ:\n{shown}", wrong.len());
    assert!(nails_left_out * 50 <= nails, "{nails_left_out} of {nails} clinch nails are left out");
    assert!(places_left_out * 50 <= places, "{places_left_out} of {places} places are left out");
    assert!(seen.iter().all(|seen| *seen >= 20), "{seen:?} of leaning, staged, under a shank, ledge, turn, rigid");
}
