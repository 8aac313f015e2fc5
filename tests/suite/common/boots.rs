//! Random boots for nails: the numbers of a bottom and a heel, and the text that says them.

use super::chance::Chance;
use super::insole::{DROVER, Last, TELLER};
use super::memory::Memory;
use hobnail::measure::Spread;
use std::fmt::Write as _;
use std::sync::OnceLock;

pub const IRON: f64 = 25.4 / 48.0;
pub const BOOT: &str = "specs/models/trial.hob";

/// A piece between insole and midsole, centred on the centre line: shank, pad or arch piece.
#[derive(Clone, Debug)]
pub struct Piece {
    pub role: &'static str,
    pub thick: Spread,
    /// Of leather, in which nails hold.
    pub leather: bool,
    pub breadth: f64,
    /// How far behind the joint line it ends; none where it runs up to it.
    pub front: Option<f64>,
    /// How far behind the breast it ends; none where it ends on the breast line.
    pub back: Option<f64>,
    pub skived_ends: f64,
    pub skived_sides: f64,
    pub rigid: bool,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Filler {
    None,
    /// Offcuts of the outer.
    Offcuts,
    Stocked(Spread),
}

/// A lining's thickness, and between which stations it is lasted in.
#[derive(Clone, Debug)]
pub struct Lining {
    pub part: &'static str,
    pub thick: Spread,
    pub from: f64,
    pub to: f64,
}

/// A layer below the midsole: to the back, or to so many mm behind the breast.
#[derive(Clone, Debug)]
pub struct Under {
    pub thick: Spread,
    pub ends: Option<f64>,
    pub forepart: bool,
}

/// A line of clinch nails.
#[derive(Clone, Debug)]
pub struct Clinched {
    pub inset: f64,
    pub apart: f64,
    pub to: Option<f64>,
    pub stated: Option<f64>,
}

#[derive(Clone, Debug)]
pub struct Pin {
    pub lengths: Vec<f64>,
    pub shank: f64,
    pub sunk: f64,
}

/// A stage of nailing.
#[derive(Clone, Debug)]
pub struct Staged {
    pub wedges: bool,
    pub lifts: u32,
    pub thin: u32,
    /// Back, sides and breast, where they are stated.
    pub lengths: Option<[f64; 3]>,
    pub across: u32,
    /// Degrees.
    pub leans: f64,
}

/// Where the base's nails are measured from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ringed {
    InsideFeather(f64),
    InsideEdge,
}

#[derive(Clone, Debug)]
pub struct Boot {
    pub last: Last,
    pub size: String,
    pub outer: Spread,
    pub linings: Vec<Lining>,
    pub insole: Spread,
    pub pieces: Vec<Piece>,
    pub filler: Filler,
    pub filler_skived: f64,
    pub midsole: Spread,
    pub rubber_midsole: bool,
    pub slip: Option<Under>,
    pub outsole: Under,
    pub lug: Option<Spread>,
    pub turnout: [f64; 3],
    pub rows: u32,
    pub from_edge: f64,
    pub rows_apart: f64,
    pub all_round: bool,
    pub waist: Clinched,
    pub seat: Clinched,
    pub clinching: Pin,
    pub wedges: (u32, f64),
    pub lifts: (u32, f64),
    pub thin: u32,
    pub cap: Spread,
    pub ringed: Ringed,
    pub behind_breast: f64,
    pub nails_apart: f64,
    pub cap_inset: f64,
    pub pin: Pin,
    pub cap_pin: Pin,
    pub cap_length: Option<f64>,
    /// One without a number where the base is nailed at once.
    pub stages: Vec<Staged>,
    pub house: House,
}

/// The house rules that differ from boot to boot, mm.
#[derive(Clone, Copy, Debug)]
pub struct House {
    pub lasted_inward: f64,
    pub reserve: f64,
    pub bite: f64,
    pub gauge: f64,
}

pub const THIN_LIFT: f64 = 6.0 * IRON;

#[expect(clippy::cast_precision_loss, reason = "a handful of steps")]
fn step(chance: &mut Chance, from: f64, by: f64, steps: usize) -> f64 {
    let value = from + by * chance.below(steps + 1) as f64;
    (value * 1000.0).round() / 1000.0
}

fn one_in(chance: &mut Chance, n: usize) -> bool {
    chance.below(n) == 0
}

fn pick<T: Clone>(chance: &mut Chance, of: &[T]) -> T {
    of[chance.below(of.len())].clone()
}

fn around(chance: &mut Chance, from: f64, by: f64, steps: usize) -> Spread {
    let nominal = step(chance, from, by, steps);
    Spread::around(nominal, step(chance, 0.0, 0.1, 3))
}

fn piece(chance: &mut Chance, role: &'static str, leather: bool, breadth: f64) -> Piece {
    let thick = if leather { around(chance, 2.0, 0.5, 8) } else { around(chance, 0.8, 0.3, 4) };
    let skived = !one_in(chance, 4);
    Piece {
        role,
        thick,
        leather,
        breadth,
        front: (!one_in(chance, 4)).then(|| step(chance, 4.0, 2.0, 12)),
        back: (!one_in(chance, 4)).then(|| step(chance, 6.0, 2.0, 14)),
        skived_ends: if skived { step(chance, 10.0, 5.0, 4) } else { 0.0 },
        skived_sides: if skived { step(chance, 3.0, 1.0, 6) } else { 0.0 },
        rigid: one_in(chance, 4),
    }
}

fn linings(chance: &mut Chance) -> Vec<Lining> {
    let mut lining = |part, from, to| Lining { part, thick: around(chance, 0.9, 0.1, 5), from, to };
    let (all, heel) = (f64::INFINITY, f64::NEG_INFINITY);
    let (vamp, quarter) = (lining("vamp-lining", heel, all), lining("quarter-lining", heel, all));
    match chance.below(4) {
        0 => vec![vamp],
        1 => vec![Lining { from: step(chance, 30.0, 3.0, 8), ..vamp }],
        2 => {
            let at = step(chance, 36.0, 2.0, 6);
            vec![Lining { from: at, ..vamp }, Lining { to: at, ..quarter }]
        }
        _ => Vec::new(),
    }
}

fn clinched(chance: &mut Chance, lengths: &[f64], waist: bool) -> Clinched {
    Clinched {
        inset: if one_in(chance, 5) { 16.4 } else { step(chance, 8.0, 0.5, 8) },
        apart: step(chance, 9.0, 1.0, 7),
        to: (waist && one_in(chance, 3)).then(|| step(chance, 40.0, 2.0, 5)),
        stated: one_in(chance, 4).then(|| pick(chance, lengths)),
    }
}

fn lengths(chance: &mut Chance, from: f64, by: f64, steps: usize) -> Vec<f64> {
    let mut length = step(chance, from, 0.25, 4);
    let mut all = Vec::new();
    for _ in 0..steps {
        all.push(length);
        length = ((length + step(chance, by, 0.5, 2)) * 1000.0).round() / 1000.0;
    }
    all
}

impl Boot {
    pub fn random(chance: &mut Chance) -> Self {
        let last = pick(chance, &[TELLER, DROVER]);
        let size =
            format!("{} {}", pick(chance, &["6", "7.5", "9", "9.5", "11", "13"]), pick(chance, &["C", "D", "E", "EE"]));
        let clinching = Pin {
            lengths: lengths(chance, 9.0, 1.5, 9),
            shank: pick(chance, &[1.6, 1.8, 2.2]),
            sunk: step(chance, 0.0, 0.5, 3),
        };
        let pin = Pin { lengths: lengths(chance, 13.0, 1.5, 12), shank: pick(chance, &[1.8, 2.0]), sunk: 0.0 };
        let cap_pin = Pin { lengths: lengths(chance, 12.0, 2.0, 5), shank: 1.8, sunk: step(chance, 0.0, 0.5, 3) };
        let waist = clinched(chance, &clinching.lengths, true);
        let seat = if one_in(chance, 2) {
            clinched(chance, &clinching.lengths, false)
        } else {
            Clinched { to: None, ..waist.clone() }
        };
        let mut boot = Self {
            last,
            size,
            outer: around(chance, 1.8, 0.2, 6),
            linings: linings(chance),
            insole: around(chance, 3.5, 0.5, 5),
            pieces: pieces(chance),
            filler: filler(chance),
            filler_skived: if one_in(chance, 3) { 20.0 } else { step(chance, 10.0, 4.0, 6) },
            midsole: around(chance, 3.0, 0.5, 9),
            rubber_midsole: one_in(chance, 4),
            slip: one_in(chance, 3).then(|| under(chance, 2.0)),
            outsole: Under { forepart: false, ..under(chance, 3.5) },
            lug: None,
            turnout: [step(chance, 10.0, 0.5, 5), step(chance, 9.0, 0.5, 5), heel_turnout(chance)],
            rows: 1 + u32::from(one_in(chance, 2)),
            from_edge: step(chance, 3.0, 0.5, 2),
            rows_apart: step(chance, 2.5, 0.5, 2),
            all_round: one_in(chance, 5),
            waist,
            seat,
            clinching,
            wedges: (0, 12.0 * IRON),
            lifts: (0, pick(chance, &[12.0, 12.0, 9.0]) * IRON),
            thin: u32::from(one_in(chance, 3)),
            cap: around(chance, 6.0, 1.0, 4),
            ringed: if one_in(chance, 4) {
                Ringed::InsideEdge
            } else {
                Ringed::InsideFeather(step(chance, 3.6, 0.5, 13))
            },
            behind_breast: step(chance, 5.0, 0.5, 12),
            nails_apart: step(chance, 9.0, 0.7, 7),
            cap_inset: step(chance, 4.5, 0.5, 20),
            pin,
            cap_pin,
            cap_length: None,
            stages: Vec::new(),
            house: House {
                // Seldom near to where clinch nails stand.
                lasted_inward: pick(chance, &[13.4, 14.4, 18.4]),
                reserve: step(chance, 1.5, 0.25, 4),
                bite: step(chance, 3.0, 0.5, 6),
                gauge: step(chance, 0.2, 0.1, 5),
            },
        };
        // Lugs that would lie under the base are buffed off there.
        if boot.outsole.ends.is_some() {
            boot.lug = (!one_in(chance, 4)).then(|| around(chance, 2.0, 0.5, 6));
        }
        boot.wedges.0 =
            if boot.last.slope > 5.0 { 1 + u32::from(!one_in(chance, 3)) } else { u32::from(!one_in(chance, 4)) };
        boot.cap_length = one_in(chance, 3).then(|| pick(chance, &boot.cap_pin.lengths));
        boot
    }

    /// With as many lifts as reach `needed`, and the stages that nail them.
    pub fn lifted(mut self, chance: &mut Chance, needed: f64) -> Self {
        let thin = f64::from(self.thin) * THIN_LIFT;
        let missing = needed + 0.01 - thin - f64::from(self.wedges.0) * self.wedges.1;
        let mut count = 1;
        while f64::from(count) * self.lifts.1 < missing {
            count += 1;
        }
        self.lifts.0 = count;
        let stages = (1 + chance.below(3)).min(usize::try_from(count).expect("few lifts"));
        let mut left = count;
        for n in 0..stages {
            let last = n + 1 == stages;
            let after = u32::try_from(stages - n - 1).expect("few stages");
            let lifts = if last {
                left
            } else {
                1 + u32::try_from(chance.below(usize::try_from(left - after).expect("few"))).expect("few")
            };
            left -= lifts;
            self.stages.push(Staged {
                wedges: n == 0 && self.wedges.0 > 0,
                lifts,
                thin: if last { self.thin } else { 0 },
                lengths: (stages > 1 || !one_in(chance, 3)).then(|| by_place(chance, &self.pin.lengths)),
                across: u32::try_from(chance.below(4)).expect("few"),
                leans: if one_in(chance, 3) { step(chance, 1.0, 1.0, 7) } else { 0.0 },
            });
        }
        self
    }

    pub fn memory(&self) -> Memory {
        static DEMO: OnceLock<Memory> = OnceLock::new();
        let demo = DEMO.get_or_init(Memory::demo);
        let shop = demo.text("specs/shop.hob");
        let house = &self.house;
        let rules = [
            ("lasted-inward     15 mm", format!("lasted-inward {} mm", house.lasted_inward)),
            ("reserve          2 mm", format!("reserve {} mm", house.reserve)),
            ("bite             5 mm", format!("bite {} mm", house.bite)),
            ("gauge            0.5 mm", format!("gauge {} mm", house.gauge)),
        ];
        let shop = rules.iter().fold(shop.to_owned(), |shop, (from, to)| {
            assert_eq!(shop.matches(from).count(), 1, "{from} in the shop");
            shop.replace(from, to)
        });
        demo.with("specs/shop.hob", shop).with(BOOT, self.text())
    }

    fn text(&self) -> String {
        let mut text = String::from("use \"scree-8.hob\"\nuse \"../lasts/drover.hob\"\n");
        self.stock(&mut text);
        _ = writeln!(text, "model trial like scree-8 {{\n  revision 1\n  last {}", self.last.name);
        self.upper(&mut text);
        self.bottom(&mut text);
        self.heel(&mut text);
        text + "}\n"
    }

    fn stock(&self, text: &mut String) {
        _ = writeln!(text, "upper-leather outer {{ substance {} }}", ends(&self.outer));
        for lining in &self.linings {
            _ = writeln!(text, "upper-leather of-{} {{ substance {} }}", lining.part, ends(&lining.thick));
        }
        let leather = |text: &mut String, name: &str, it: &Spread| {
            _ = writeln!(text, "sole-leather {name} {{ substances {} mm; tolerance {:.3} mm }}", it.nominal, it.half());
        };
        let rubber = |text: &mut String, name: &str, it: &Spread| {
            _ = writeln!(text, "rubber {name} {{ thickness {} }}", toleranced(it));
        };
        leather(text, "board", &self.insole);
        if self.rubber_midsole {
            rubber(text, "card", &self.midsole);
        } else {
            leather(text, "card", &self.midsole);
        }
        for piece in &self.pieces {
            let name = format!("of-{}", piece.role);
            if piece.leather { leather(text, &name, &piece.thick) } else { rubber(text, &name, &piece.thick) }
        }
        if let Some(slip) = &self.slip {
            rubber(text, "sheet", &slip.thick);
        }
        if let Filler::Stocked(thick) = &self.filler {
            _ = writeln!(text, "filler cork {{ thickness {} }}", toleranced(thick));
        }
        let lug = self.lug.map(|lug| format!("; lug {}", toleranced(&lug))).unwrap_or_default();
        _ = writeln!(text, "outsole tread {{ base {}{lug}; blanks us-men 5..14 }}", toleranced(&self.outsole.thick));
        _ = writeln!(text, "cap top {{ thickness {}; blanks us-men 5..14 }}", toleranced(&self.cap));
        for (name, pin, more) in
            [("waisting", &self.clinching, "; clinches"), ("basing", &self.pin, ""), ("capping", &self.cap_pin, "")]
        {
            let lengths = pin.lengths.iter().map(|length| format!("{length} mm")).collect::<Vec<_>>().join(", ");
            let sunk = if pin.sunk > 0.0 { format!("; sunk {} mm", pin.sunk) } else { String::new() };
            _ = writeln!(text, "nail {name} {{ lengths {lengths}; shank {} mm{sunk}{more} }}", pin.shank);
        }
    }

    fn upper(&self, text: &mut String) {
        *text += "  upper {\n    without lasted-in vamp-lining\n    without lasted-in quarter-lining\n";
        *text += "    part quarter { of outer }; part vamp { of outer }\n";
        for lining in &self.linings {
            let from = if lining.to.is_finite() { format!(" from {} %", lining.to) } else { String::new() };
            let to = if lining.from.is_finite() { format!(" to {} %", lining.from) } else { String::new() };
            let part = lining.part;
            _ = writeln!(text, "    part {part} {{ of of-{part} }}; lasted-in {part}{from}{to}");
        }
        *text += "  }\n";
    }

    fn bottom(&self, text: &mut String) {
        let [forepart, waist, heel] = self.turnout;
        *text += "  bottom {\n    without layer shank\n    without layer pad\n    without layer filler\n";
        _ = writeln!(text, "    turnout at-forepart {forepart} mm at-waist {waist} mm at-heel {heel} mm");
        _ = writeln!(text, "    layer insole {{ of board {} mm }}", self.insole.nominal);
        for piece in &self.pieces {
            _ = writeln!(text, "    {}", said(piece));
        }
        let filled = match self.filler {
            Filler::None => None,
            Filler::Offcuts => Some("outer"),
            Filler::Stocked(_) => Some("cork"),
        };
        if let Some(of) = filled {
            // Twenty is what the house says where the model says nothing.
            let skived = if (self.filler_skived - 20.0).abs() < 1e-9 {
                String::new()
            } else {
                format!("; skived {} mm", self.filler_skived)
            };
            _ = writeln!(text, "    layer filler {{ of {of}; covers seat; bonded neoprene{skived} }}");
        }
        let substance = if self.rubber_midsole { String::new() } else { format!(" {} mm", self.midsole.nominal) };
        _ = writeln!(text, "    layer midsole {{ of card{substance} }}");
        let ended = |ends: Option<f64>| match ends {
            None => "ends full".to_owned(),
            Some(0.0) => "ends at-breast".to_owned(),
            Some(behind) => format!("ends tucked {behind} mm"),
        };
        if let Some(slip) = &self.slip {
            let covers = if slip.forepart { "forepart" } else { "all" };
            _ = writeln!(text, "    layer slip {{ of sheet; covers {covers}; bonded neoprene; {} }}", ended(slip.ends));
        }
        let buffed = if self.outsole.ends.is_some_and(|behind| behind > 0.0) { "; lugs-off" } else { "" };
        _ = writeln!(text, "    layer outsole {{ of tread; bonded neoprene; {}{buffed} }}", ended(self.outsole.ends));
        let line = |line: &Clinched| {
            let to = line.to.map(|to| format!("; to {to} %")).unwrap_or_default();
            let stated = line.stated.map(|stated| format!("; length {stated} mm")).unwrap_or_default();
            format!("with waisting; inside-feather {} mm; apart {} mm{to}{stated}", line.inset, line.apart)
        };
        // What the seat does not say is as in the waist.
        _ = writeln!(text, "    without waist\n    waist nailed {{ {} }}", line(&self.waist));
        _ = writeln!(text, "    seat nailed {{ {} }}", line(&self.seat));
        let Self { rows, from_edge, rows_apart, .. } = self;
        let round = if self.all_round { "; all-round" } else { "" };
        _ = writeln!(
            text,
            "    sole sewn {{ through midsole; rows {rows}; from-edge {from_edge} mm; apart {rows_apart} mm{round} }}\n  }}"
        );
    }

    fn heel(&self, text: &mut String) {
        let iron = |thick: f64| (thick / IRON).round();
        *text += "  without heel\n  heel {\n";
        if self.wedges.0 > 0 {
            _ = writeln!(text, "    wedges {} of lift-leather {} iron", self.wedges.0, iron(self.wedges.1));
        }
        _ = writeln!(text, "    lifts {} of lift-leather {} iron", self.lifts.0, iron(self.lifts.1));
        if self.thin > 0 {
            _ = writeln!(text, "    thin-lifts {} of lift-leather 6 iron", self.thin);
        }
        *text += "    cap top\n    nailed {\n";
        let by_place =
            |[back, sides, breast]: [f64; 3]| format!("back {back} mm, sides {sides} mm, breast {breast} mm");
        if let [only] = &self.stages[..] {
            let lengths = only.lengths.map(by_place).unwrap_or_default();
            _ = writeln!(text, "      base basing {lengths}\n      across {}; leans {} deg", only.across, only.leans);
        } else {
            *text += "      base basing\n";
            for (n, stage) in self.stages.iter().enumerate() {
                let wedges = if stage.wedges { "wedges; " } else { "" };
                let lengths = by_place(stage.lengths.expect("stages say their lengths"));
                let Staged { lifts, across, leans, .. } = stage;
                _ = writeln!(
                    text,
                    "      stage {} {{ {wedges}lifts {lifts}; lengths {lengths}; across {across}; leans {leans} deg }}",
                    n + 1
                );
            }
        }
        let cap = self.cap_length.map(|length| format!(" {length} mm")).unwrap_or_default();
        _ = writeln!(text, "      cap capping{cap}\n      inside-edge {} mm", self.cap_inset);
        if let Ringed::InsideFeather(inset) = self.ringed {
            _ = writeln!(text, "      inside-feather {inset} mm");
        }
        _ = writeln!(
            text,
            "      behind-breast {} mm; apart {} mm\n    }}\n  }}",
            self.behind_breast, self.nails_apart
        );
    }
}

fn by_place(chance: &mut Chance, lengths: &[f64]) -> [f64; 3] {
    [(); 3].map(|()| pick(chance, lengths))
}

fn heel_turnout(chance: &mut Chance) -> f64 {
    // Now and then the heel's edge stands so far out that nails stand in the ledge.
    if one_in(chance, 4) { step(chance, 10.0, 1.0, 6) } else { step(chance, 3.0, 0.5, 6) }
}

fn under(chance: &mut Chance, from: f64) -> Under {
    let ends = match chance.below(4) {
        0 => None,
        1 => Some(step(chance, 4.0, 2.0, 10)),
        _ => Some(0.0),
    };
    Under { thick: around(chance, from, 0.5, 4), ends, forepart: one_in(chance, 4) }
}

fn pieces(chance: &mut Chance) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let breadth = if one_in(chance, 4) { step(chance, 30.0, 2.0, 8) } else { step(chance, 14.0, 2.0, 7) };
    if one_in(chance, 8) {
        pieces.push(piece(chance, "arch", true, breadth));
    }
    if !one_in(chance, 4) {
        pieces.push(piece(chance, "shank", true, breadth));
    }
    if one_in(chance, 2) {
        pieces.push(piece(chance, "pad", false, breadth));
    }
    pieces
}

fn filler(chance: &mut Chance) -> Filler {
    match chance.below(4) {
        0 => Filler::None,
        1 => Filler::Stocked(around(chance, 1.5, 0.5, 7)),
        _ => Filler::Offcuts,
    }
}

fn said(piece: &Piece) -> String {
    let Piece { role, thick, leather, breadth, front, back, skived_ends, skived_sides, rigid } = piece;
    let substance = if *leather { format!(" {} mm", thick.nominal) } else { String::new() };
    let front = front.map(|front| format!("; front {front} mm behind-joint")).unwrap_or_default();
    let back = back.map(|back| format!("; back {back} mm under-heel")).unwrap_or_default();
    let skived = if *skived_ends > 0.0 {
        format!("; skived ends {skived_ends} mm, sides {skived_sides} mm")
    } else {
        String::new()
    };
    let rigid = if *rigid { "; rigid" } else { "" };
    format!(
        "layer {role} {{ of of-{role}{substance}; covers waist; breadth {breadth} mm{front}{back}{skived}{rigid}; bonded neoprene }}"
    )
}

fn ends(it: &Spread) -> String {
    format!("{:.3}..{:.3} mm", it.lo, it.hi)
}

fn toleranced(it: &Spread) -> String {
    format!("{} mm +- {:.3} mm", it.nominal, it.half())
}
