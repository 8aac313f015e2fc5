//! What lies at a place of a random boot's bottom, and walks through it a tenth of a mm at a time.

use super::boots::{Boot, Filler, Piece};
use super::insole::{At, Insole};
use hobnail::measure::Spread;

/// Step of a walk, mm. Where what lies there changes within a step, the place is found by halving.
const STEP: f64 = 0.1;
const HALVINGS: u32 = 14;
/// So far a walk goes at the most, mm.
const FAR: f64 = 80.0;
/// A bite that ends on a face is complete there.
const HAIR: f64 = 1e-4;

/// What lies somewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    Outsole,
    Slip,
    Midsole,
    Filler,
    LastedOuter,
    TurnedOuter,
    /// The lining of that number.
    Lining(usize),
    /// The piece of that number: shank, pad or arch piece.
    Piece(usize),
    Insole,
    /// Nothing more: the foot, or the ledge's face.
    Foot,
}

/// A place on the insole pattern: how deep inside the feather line, and where deeper leads.
#[derive(Clone, Copy, Debug)]
pub struct Spot {
    pub at: At,
    pub depth: f64,
    deeper: At,
}

impl Spot {
    pub fn of(insole: &Insole, at: At) -> Self {
        let (depth, deeper) = insole.depth(at);
        Self { at, depth, deeper }
    }

    /// A place beside it; so near by the feather line is straight.
    pub fn beside(&self, (x, y): At) -> Self {
        let depth = self.depth + x * self.deeper.0 + y * self.deeper.1;
        Self { at: (self.at.0 + x, self.at.1 + y), depth, ..*self }
    }
}

/// One thing of the bottom.
#[derive(Clone, Debug)]
struct Thing {
    what: What,
    thick: Spread,
    holds: bool,
}

/// The things of a boot, from the base's face up.
pub struct Bed<'b> {
    pub boot: &'b Boot,
    pub insole: &'b Insole,
    things: Vec<Thing>,
    pub release: f64,
}

/// How far behind the breast the waist's turnout holds, and over what it falls, mm: the demo's house.
pub const HOLDS: f64 = 15.0;
pub const BLEND: f64 = 25.0;

/// Which things lie at a place, as bits in their order.
pub type Lying = u32;

/// What a nail is judged by: what lies where it stands, and so near that it touches it.
pub struct Around {
    pub surely: Vec<Lying>,
    pub perhaps: Vec<Lying>,
}

impl Around {
    /// The least of a limit: from what it may be to what it surely is.
    pub fn least(&self, of: impl Fn(Lying) -> f64) -> Range {
        let least = |all: &[Lying]| all.iter().map(|lying| of(*lying)).fold(f64::MAX, f64::min);
        (least(&self.perhaps), least(&self.surely))
    }

    /// The most of a limit, likewise.
    pub fn most(&self, of: impl Fn(Lying) -> f64) -> Range {
        let (least, most) = self.least(|lying| -of(lying));
        (-most, -least)
    }
}

/// A value that is not known better than between two ends.
pub type Range = (f64, f64);

/// One thing at a place as a walk meets it.
#[derive(Clone, Copy, Debug)]
pub struct Laid {
    pub what: What,
    pub thick: f64,
    pub holds: bool,
}

/// How thick a thing is taken: by what it is, and whether a nail holds in it.
pub type Taken<'t> = &'t dyn Fn(What, bool, Spread) -> f64;

pub fn thin(_: What, _: bool, it: Spread) -> f64 {
    it.lo
}

pub fn nominal(_: What, _: bool, it: Spread) -> f64 {
    it.nominal
}

pub fn thick(_: What, _: bool, it: Spread) -> f64 {
    it.hi
}

/// What holds nothing is thick, leather is thin.
pub fn worst_to_hold(_: What, holds: bool, it: Spread) -> f64 {
    if holds { it.lo } else { it.hi }
}

impl<'b> Bed<'b> {
    pub fn of(boot: &'b Boot, insole: &'b Insole) -> Self {
        let mut things = Vec::new();
        let mut add = |what, thick, holds| things.push(Thing { what, thick, holds });
        add(What::Outsole, boot.outsole.thick, false);
        if let Some(slip) = &boot.slip {
            add(What::Slip, slip.thick, false);
        }
        add(What::Midsole, boot.midsole, !boot.rubber_midsole);
        match boot.filler {
            Filler::None => {}
            Filler::Offcuts => add(What::Filler, boot.outer, false),
            Filler::Stocked(thick) => add(What::Filler, thick, false),
        }
        add(What::LastedOuter, boot.outer, true);
        add(What::TurnedOuter, boot.outer, true);
        for (n, lining) in boot.linings.iter().enumerate() {
            add(What::Lining(n), lining.thick, true);
        }
        // Pad, shank, arch piece: towards the foot.
        for (n, piece) in boot.pieces.iter().enumerate().rev() {
            add(What::Piece(n), piece.thick, piece.leather);
        }
        add(What::Insole, boot.insole, true);
        Self { boot, insole, things, release: insole.breast - HOLDS - BLEND }
    }

    fn lies(&self, what: What, spot: &Spot) -> bool {
        let (x, breast) = (spot.at.0, self.insole.breast);
        let inside = spot.depth >= 0.0;
        let lasted = inside && spot.depth <= self.boot.house.lasted_inward;
        let behind_release = x <= self.release;
        let reaches = |ends: Option<f64>| ends.is_none_or(|behind| x >= breast - behind);
        match what {
            What::Outsole => reaches(self.boot.outsole.ends),
            What::Slip => self.boot.slip.as_ref().is_some_and(|slip| {
                reaches(slip.ends) && (!slip.forepart || self.insole.before_the_joints(spot.at) >= 0.0)
            }),
            What::Midsole => true,
            What::Filler => inside && x < breast + self.boot.filler_skived && !(lasted && behind_release),
            What::LastedOuter => lasted && behind_release,
            What::TurnedOuter => !inside && !behind_release,
            What::Lining(n) => {
                let (lining, share) = (&self.boot.linings[n], x / self.insole.bottom * 100.0);
                lasted && share >= lining.from && share <= lining.to
            }
            What::Piece(n) => inside && self.within(&self.boot.pieces[n], spot.at) > 0.0,
            What::Insole => inside,
            What::Foot => false,
        }
    }

    /// Where a piece begins and ends at `y`.
    fn ends(&self, piece: &Piece, y: f64) -> (f64, f64) {
        let from = self.insole.breast - piece.back.unwrap_or(0.0);
        let to = match piece.front {
            // Behind the hindmost joint that its breadth meets, the edge is square.
            Some(front) => {
                let half = piece.breadth / 2.0;
                let hindmost = self.insole.joint_at(half).min(self.insole.joint_at(-half));
                hindmost.max(self.insole.joint_outside.min(self.insole.joint_inside)) - front
            }
            None => self.insole.joint_at(y),
        };
        (from, to)
    }

    /// How far a place is within a piece, mm.
    fn within(&self, piece: &Piece, (x, y): At) -> f64 {
        let (from, to) = self.ends(piece, y);
        (x - from).min(to - x).min(piece.breadth / 2.0 - y.abs())
    }

    /// The share of a thing's thickness that is left at a place.
    fn share(&self, what: What, spot: &Spot) -> f64 {
        let over = |far: f64, wide: f64| if wide > 0.0 { (far / wide).clamp(0.0, 1.0) } else { 1.0 };
        let (x, y) = spot.at;
        match what {
            What::Filler => over(self.insole.breast + self.boot.filler_skived - x, self.boot.filler_skived),
            What::Piece(n) => {
                let piece = &self.boot.pieces[n];
                let (from, to) = self.ends(piece, y);
                let ends = over((x - from).min(to - x), piece.skived_ends);
                ends.min(over(piece.breadth / 2.0 - y.abs(), piece.skived_sides))
            }
            _ => 1.0,
        }
    }

    pub fn lying(&self, spot: &Spot) -> Lying {
        let bit = |(n, thing): (usize, &Thing)| Lying::from(self.lies(thing.what, spot)) << n;
        self.things.iter().enumerate().map(bit).sum()
    }

    /// What lies there and within a radius, each once: what is surely seen, and what may be, where a hair more or less of
    /// radius sees something else, more than one edge is near, or the corner of one.
    pub fn around(&self, spot: &Spot, radius: f64) -> Around {
        const RIM: u32 = 24;
        let seen = |radius: f64, rim: u32| {
            let mut seen = vec![self.lying(spot)];
            for n in 0..rim {
                let turn = f64::from(n) / f64::from(rim) * std::f64::consts::TAU;
                let lying = self.lying(&spot.beside((radius * turn.cos(), radius * turn.sin())));
                if !seen.contains(&lying) {
                    seen.push(lying);
                }
            }
            seen
        };
        let [mut surely, mut perhaps] = [seen(radius * 0.9, 4), seen(radius * 1.1, RIM)];
        if surely.len() != perhaps.len() || surely.len() > 2 {
            surely.truncate(1);
        }
        if perhaps.len() > 2 {
            // Near to two edges, with and without each.
            let pairs = perhaps.iter().flat_map(|a| perhaps.iter().flat_map(move |b| [a | b, a & b]));
            perhaps = pairs.collect();
        }
        Around { surely, perhaps }
    }

    /// The things that lie at a place, from the base's face up, as thick as they are taken. Filler fills what pieces
    /// leave of its thickness.
    pub fn column(&self, lying: Lying, spot: &Spot, taken: Taken<'_>) -> Vec<Laid> {
        let there = self.things.iter().enumerate().filter(|(n, _)| lying >> n & 1 == 1).map(|(_, thing)| thing);
        let laid = |thing: &Thing| {
            let thick = taken(thing.what, thing.holds, thing.thick) * self.share(thing.what, spot);
            Laid { what: thing.what, thick, holds: thing.holds }
        };
        let mut column: Vec<Laid> = there.map(laid).collect();
        let pieces: f64 = column.iter().filter(|it| matches!(it.what, What::Piece(_))).map(|it| it.thick).sum();
        for it in column.iter_mut().filter(|it| it.what == What::Filler) {
            it.thick = (it.thick - pieces).max(0.0);
        }
        column
    }

    /// Whether a piece through which no nail goes is among what lies there.
    pub fn rigid(&self, lying: Lying) -> bool {
        let piece = |what: What| matches!(what, What::Piece(n) if self.boot.pieces[n].rigid);
        self.things.iter().enumerate().any(|(n, thing)| lying >> n & 1 == 1 && piece(thing.what))
    }
}

/// What lies `z` mm above the face of a column.
pub fn solid(column: &[Laid], z: f64) -> Laid {
    let mut face = 0.0;
    for it in column {
        face += it.thick;
        if z < face {
            return *it;
        }
    }
    Laid { what: What::Foot, thick: f64::INFINITY, holds: false }
}

/// Walks up and says where what lies there changes, and to what; the first is what lies on the face.
pub fn changes(solid: impl Fn(f64) -> Laid) -> Vec<(f64, Laid)> {
    let mut found = vec![(0.0, solid(0.0))];
    let mut z = 0.0;
    while z < FAR && found[found.len() - 1].1.what != What::Foot {
        let before = found[found.len() - 1].1;
        let (mut low, mut high) = (z, z + STEP);
        if solid(high).what == before.what {
            z = high;
            continue;
        }
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if solid(middle).what == before.what { low = middle } else { high = middle }
        }
        z = high;
        found.push((high, solid(high)));
    }
    found
}

/// How high the foot is above the face, mm.
pub fn to_the_foot(column: &[Laid]) -> f64 {
    let walked = changes(|z| solid(column, z));
    walked[walked.len() - 1].0
}

/// How high a nail must go until it holds the bite in leather, mm above the face; where it nowhere does, what is missing
/// is counted as if leather went on.
pub fn to_the_bite(bite: f64, solid: impl Fn(f64) -> Laid) -> f64 {
    let walked = changes(solid);
    let mut held = 0.0;
    for pair in walked.windows(2) {
        let ((from, it), (to, _)) = (pair[0], pair[1]);
        if it.holds {
            if held + (to - from) >= bite - HAIR {
                return from + bite - held;
            }
            held += to - from;
        }
    }
    walked[walked.len() - 1].0 + bite - held
}
