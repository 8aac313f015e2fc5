//! The thickest outsole that the rows still get through.

use super::{Rig, said, say, way};
use crate::build::{Build, Room, outsole_thick};
use crate::finding::Sum;
use crate::language::vocabulary::Thing;
use crate::measure::{Size, fits};
use crate::remedy::place::Way;
use crate::remedy::stocked;
use crate::remedy::write::{Act, Draft};
use crate::spec::{Machine, Outsole, Part, Role, Upper};
use std::collections::BTreeSet;
use std::sync::Arc;

/// What one machine still sews through.
#[derive(Clone, Debug)]
pub struct Stitches {
    /// The machine.
    pub machine: String,
    /// The tallest stack that it sews, mm.
    pub sews: f64,
    /// The thickest stitch in which it locks, mm, if it says so.
    pub locks: Option<f64>,
    /// Which of the two leaves less.
    pub limit: Limit,
    /// The midsole: `bend 12 iron`.
    pub midsole: String,
    /// The leather that is turned out.
    pub outer: String,
    /// The slip sole, if there is one in this.
    pub slip: Option<String>,
    /// The size in which least is left.
    pub size: Size,
    /// The lap that sets the limit, if one does.
    pub lap: Option<Arc<str>>,
    /// What lies above the outsole where least is left.
    pub above: Sum,
    /// The thickest outsole at its own thick end, with everything above at its thick end, mm; negative if that is too
    /// much already.
    pub passes: f64,
    /// The same with everything at nominal, mm.
    pub nominal: f64,
    /// The stocked outsoles, base and lugs together.
    pub outsoles: Vec<(String, Serves)>,
}

/// What of a machine sets the limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// The tallest stack in the jaw that it sews.
    Sews,
    /// The thickest stitch in which needle and bobbin thread still lock.
    Locks,
}

impl Limit {
    /// The machine's word, as in JSON.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Limit::Sews => "sews",
            Limit::Locks => "locks-through",
        }
    }
}

impl Stitches {
    /// What the machine takes at the limit, mm.
    #[must_use]
    pub fn takes(&self) -> f64 {
        match self.limit {
            Limit::Sews => self.sews,
            Limit::Locks => self.locks.unwrap_or(self.sews),
        }
    }
}

/// How a stocked piece does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Serves {
    /// With every tolerance.
    Passes,
    /// At nominal only.
    Tight,
    /// Not.
    No,
}

impl Serves {
    /// As printed and in JSON.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Serves::Passes => "passes",
            Serves::Tight => "tight",
            Serves::No => "no",
        }
    }
}

/// What of the stock one build is made with.
struct Made {
    machine: String,
    midsole: String,
    outer: String,
    slip: Option<String>,
}

impl Rig<'_> {
    /// Every sole stitcher with every stocked midsole and outer.
    pub(super) fn stitches(&self) -> Vec<Stitches> {
        let model = self.start.model();
        let (Ok(upper), Ok(bottom)) = (&model.upper, &model.bottom) else { return Vec::new() };
        if bottom.layer(Role::Outsole).is_none() {
            return Vec::new();
        }
        let slips = match bottom.layer(Role::Slip) {
            Some(slip) => vec![slip.of.as_ref().ok().map(|of| of.it.name().to_owned()), None],
            None => vec![None],
        };
        let mut all = Vec::new();
        for machine in self.stitchers() {
            for midsole in self.midsoles() {
                for outer in self.outers(upper) {
                    for slip in &slips {
                        let (midsole, outer) = (midsole.clone(), outer.clone());
                        let made = Made { machine: machine.name.clone(), midsole, outer, slip: slip.clone() };
                        all.extend(self.made(upper, made, &machine));
                    }
                }
            }
        }
        all
    }

    fn has_slip(&self) -> bool {
        self.start.model().bottom.as_ref().is_ok_and(|bottom| bottom.layer(Role::Slip).is_some())
    }

    /// Machines with a guide along the edge, and the one that the model names.
    fn stitchers(&self) -> Vec<Arc<Machine>> {
        let Some(shop) = &self.start.world.shop else { return Vec::new() };
        let bottom = self.start.model().bottom.as_ref().ok();
        let own = bottom.and_then(|bottom| bottom.sole.as_ref().ok()).and_then(|sole| sole.on.as_ref().ok());
        let own = own.map(|on| on.it.name.as_str());
        let sews = |machine: &&Arc<Machine>| machine.edge_guide.is_some() || Some(machine.name.as_str()) == own;
        shop.machines.values().filter(sews).cloned().collect()
    }

    /// The leather of the midsole in each of its substances.
    fn midsoles(&self) -> Vec<String> {
        let bottom = self.start.model().bottom.as_ref().ok();
        let of = bottom.and_then(|bottom| bottom.layer(Role::Midsole)).and_then(|layer| layer.of.as_ref().ok());
        let Some(of) = of else { return Vec::new() };
        let all = stocked::substances(self.start, Thing::SoleLeather, f64::MAX);
        all.iter()
            .filter(|(name, _)| name == of.it.name())
            .map(|(name, amount)| format!("{name} {}", said(amount)))
            .collect()
    }

    /// Leathers that no other part of the boot is made of: a lining is no outer.
    fn outers(&self, upper: &Upper) -> Vec<String> {
        let out: BTreeSet<&str> = turned_out(upper).map(|part| part.name.as_str()).collect();
        let of = |part: &Part| part.of.as_ref().ok().map(|of| of.it.name.clone());
        let own: BTreeSet<String> = turned_out(upper).filter_map(of).collect();
        let others = upper.parts.values().filter(|part| !out.contains(part.name.as_str())).filter_map(|part| of(part));
        let elsewhere: BTreeSet<String> = others.filter(|name| !own.contains(name)).collect();
        let all = self.start.world.stock.upper_leathers.keys();
        all.filter(|name| !elsewhere.contains(*name)).cloned().collect()
    }

    fn made(&self, upper: &Upper, made: Made, machine: &Machine) -> Option<Stitches> {
        let sews = machine.sews.as_ref().ok()?.it.nominal();
        let mut draft = draft(upper, &made);
        if made.slip.is_none() && self.has_slip() {
            draft.insert(way([("bottom", None), ("layer", Some("slip"))]), Act::Drop);
        }
        let locks = machine.locks_through.as_ref().and_then(|locks| locks.as_ref().ok()).map(|it| it.it.nominal());
        let rooms = |build: &Build<'_>| {
            let stack = build.stack.as_ref().ok()?;
            let jaw = (build.size, Limit::Sews, stack.asked.room_for_outsole(sews));
            let stitch = locks.map(|locks| (build.size, Limit::Locks, stack.stitch.room_for_outsole(locks)));
            Some([Some(jaw), stitch])
        };
        let rooms: Vec<[Option<(Size, Limit, Room)>; 2]> =
            self.each(&draft, rooms)?.into_iter().collect::<Option<_>>()?;
        let rooms: Vec<&(Size, Limit, Room)> = rooms.iter().flatten().flatten().collect();
        let (size, limit, least) = rooms.iter().copied().reduce(|a, b| if b.2.passes < a.2.passes { b } else { a })?;
        let nominal = rooms.iter().map(|(.., room)| room.nominal).fold(f64::INFINITY, f64::min);
        let outsoles = self.start.world.stock.outsoles.values();
        let outsoles = outsoles.filter_map(|it| Some((it.name.clone(), serves(it, least.passes, nominal)?)));
        Some(Stitches {
            sews,
            locks,
            limit: *limit,
            size: *size,
            lap: least.lap.clone(),
            above: least.above.clone(),
            passes: least.passes,
            nominal,
            outsoles: outsoles.collect(),
            machine: made.machine,
            midsole: made.midsole,
            outer: made.outer,
            slip: made.slip,
        })
    }
}

fn turned_out(upper: &Upper) -> impl Iterator<Item = &Part> {
    upper.turned_out.iter().flatten().map(|part| &*part.it)
}

fn draft(upper: &Upper, made: &Made) -> Draft {
    let mut draft = Draft::new();
    for part in turned_out(upper) {
        let of: Way = way([("upper", None), ("part", Some(&part.name)), ("of", None)]);
        draft.insert(of, say(format!("of {}", made.outer)));
    }
    draft
        .insert(way([("bottom", None), ("layer", Some("midsole")), ("of", None)]), say(format!("of {}", made.midsole)));
    draft.insert(way([("bottom", None), ("sole", None), ("through", None)]), say("through outsole"));
    draft.insert(way([("bottom", None), ("sole", None), ("on", None)]), say(format!("on {}", made.machine)));
    draft
}

/// How an outsole does under what is left for it.
fn serves(outsole: &Outsole, passes: f64, nominal: f64) -> Option<Serves> {
    let (thick, thickest) = outsole_thick(outsole).ok()?;
    Some(match (fits(thick, nominal), fits(thickest, passes)) {
        (false, _) => Serves::No,
        (true, true) => Serves::Passes,
        (true, false) => Serves::Tight,
    })
}
