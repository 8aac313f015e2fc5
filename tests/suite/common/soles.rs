//! Random soles: the numbers of a stitch-down sole and the text that says them.

use super::chance::Chance;
use super::memory::Memory;
use super::trial::trial;
use hobnail::measure::Spread;
use std::fmt::Write as _;

/// How a part is thinned in a lap: a taper's width and its edge, a flat skive and its tolerance, mm.
#[derive(Clone, Debug, Default)]
pub struct Thinned {
    pub edge: Option<(f64, f64)>,
    pub flat: Option<(f64, f64)>,
}

#[derive(Clone, Debug)]
pub struct Lap {
    pub wide: f64,
    pub outside: f64,
    pub inside: f64,
    pub lean: f64,
    /// The toeward part lies on top.
    pub toeward: bool,
    pub top: Thinned,
    pub under: Thinned,
}

/// A layer: nominal, tolerance, and how far behind the breast it ends, if it does.
#[derive(Clone, Copy, Debug)]
pub struct Layer {
    pub nominal: f64,
    pub tolerance: f64,
    pub ends: Option<f64>,
    /// `all`, or only `forepart` or `waist`: what lies on either side of the line of the joints.
    pub covers: &'static str,
    /// How broad it is about the centre line; as broad as the bottom if it does not say.
    pub breadth: Option<f64>,
}

impl Layer {
    pub fn spread(&self) -> Spread {
        Spread::around(self.nominal, self.tolerance)
    }
}

#[derive(Clone, Debug)]
pub struct Sole {
    pub size: &'static str,
    /// Substances of the turned-out parts, heel to toe, mm.
    pub parts: Vec<(f64, f64)>,
    pub laps: Vec<Lap>,
    pub midsole: Layer,
    pub slip: Option<Layer>,
    pub outsole: Layer,
    pub lug: (f64, f64),
    pub channel: Option<(f64, f64)>,
    pub through: &'static str,
    pub rows: usize,
    pub from_edge: f64,
    pub apart: f64,
    pub forepart: f64,
    pub waist: f64,
    pub heel: f64,
    /// The rows close on themselves.
    pub all_round: bool,
    /// How thick the film over slip and outsole is, mm and tolerance.
    pub film: Option<(f64, f64)>,
    /// How much thinner hammering makes the midsole, %.
    pub hammered: Option<f64>,
}

const NAMES: [&str; 3] = ["hinder", "middle", "front"];

/// `from` and so many steps on.
#[expect(clippy::cast_precision_loss, reason = "a handful of steps")]
fn step(chance: &mut Chance, from: f64, by: f64, steps: usize) -> f64 {
    let value = from + by * chance.below(steps + 1) as f64;
    (value * 1000.0).round() / 1000.0
}

fn one_in(chance: &mut Chance, n: usize) -> bool {
    chance.below(n) == 0
}

fn thinned(chance: &mut Chance, thin: f64, wide: f64) -> Thinned {
    let edge = !one_in(chance, 4);
    let flat = one_in(chance, 2);
    Thinned {
        edge: edge.then(|| (step(chance, wide / 8.0, wide / 8.0, 7), step(chance, 0.4, 0.2, 5).min(thin))),
        flat: flat.then(|| (step(chance, 0.8, 0.1, 8).min(thin), step(chance, 0.0, 0.05, 6))),
    }
}

fn lap(chance: &mut Chance, (outside, inside): (f64, f64), thin: f64) -> Lap {
    let wide = step(chance, 6.0, 1.0, 14);
    Lap {
        wide,
        outside,
        inside,
        lean: if one_in(chance, 2) { 90.0 } else { step(chance, 35.0, 5.0, 22) },
        toeward: !one_in(chance, 3),
        top: thinned(chance, thin, wide),
        under: thinned(chance, thin, wide),
    }
}

fn layer(chance: &mut Chance, nominal: f64) -> Layer {
    let ends = match chance.below(4) {
        0 => Some(0.0),
        1 => Some(step(chance, 2.0, 2.0, 10)),
        _ => None,
    };
    Layer { nominal, tolerance: step(chance, 0.0, 0.1, 5), ends, covers: "all", breadth: None }
}

impl Sole {
    pub fn random(chance: &mut Chance) -> Self {
        let parts: Vec<(f64, f64)> = (0..2 + chance.below(2))
            .map(|_| {
                let thin = step(chance, 1.6, 0.2, 7);
                (thin, thin + step(chance, 0.0, 0.1, 6))
            })
            .collect();
        let thin = parts.iter().map(|part| part.0).fold(f64::MAX, f64::min);
        let first = (step(chance, 26.0, 1.0, 30), step(chance, 26.0, 1.0, 30));
        let mut laps = vec![lap(chance, first, thin)];
        if parts.len() == 3 {
            // Near to the first, so that they overlap, or well ahead of it.
            let near = one_in(chance, 2);
            let ahead = if near { step(chance, 1.0, 0.5, 6) } else { step(chance, 18.0, 2.0, 6) };
            let mut second = lap(chance, (first.0 + ahead, first.1 + ahead), thin);
            if near {
                // Edges that lean differently could cross.
                second.lean = laps[0].lean;
                (laps[0].toeward, second.toeward) = (true, true);
            }
            // A part has one lap in which it lies on top.
            second.toeward |= laps[0].toeward;
            laps.push(second);
        }
        let base = step(chance, 3.0, 0.5, 5);
        let midsole = step(chance, 4.0, 0.4, 12);
        let slip = one_in(chance, 3).then(|| step(chance, 2.0, 0.5, 4));
        let covers = ["all", "forepart", "waist"][chance.below(3)];
        let slip = slip.map(|nominal| Layer { ends: None, covers, ..layer(chance, nominal) });
        let modes: &[&'static str] =
            if slip.is_some() { &["outsole", "slip", "midsole"] } else { &["outsole", "outsole", "midsole"] };
        let sizes = ["6 C", "7.5 D", "9 D", "9 D", "10.5 EE", "12 E", "14 EE"];
        let apart = step(chance, 2.5, 0.5, 3);
        Self {
            size: sizes[chance.below(sizes.len())],
            laps,
            midsole: Layer { ends: None, ..layer(chance, midsole) },
            slip,
            outsole: layer(chance, base),
            lug: (step(chance, 2.0, 0.5, 8), step(chance, 0.0, 0.1, 3)),
            channel: one_in(chance, 4).then(|| (2.0, step(chance, 5.0, 1.0, 10))),
            through: modes[chance.below(modes.len())],
            rows: 1 + chance.below(3),
            from_edge: step(chance, 2.5, 0.5, 4),
            apart,
            forepart: step(chance, 9.0, 0.5, 8),
            waist: step(chance, 8.0, 0.5, 8),
            heel: step(chance, 3.0, 0.5, 6),
            all_round: one_in(chance, 4),
            film: None,
            hammered: None,
            parts,
        }
    }

    /// One whose middle part lies in two laps at once and tapers in both: it is as thin as the thinner of them.
    pub fn overlapping(chance: &mut Chance) -> Self {
        loop {
            let mut sole = Self::random(chance);
            let near = sole.laps.len() == 2 && sole.laps[1].outside - sole.laps[0].outside < 4.5;
            if !near {
                continue;
            }
            for lap in &mut sole.laps {
                for thinned in [&mut lap.top, &mut lap.under] {
                    thinned.flat = None;
                    thinned.edge.get_or_insert((lap.wide * 0.75, 0.6));
                }
            }
            return sole;
        }
    }

    /// One whose rows run all round and start in a lap, or near one.
    pub fn over_the_start(chance: &mut Chance) -> Self {
        let mut sole = Self::random(chance);
        sole.all_round = true;
        let back = sole.laps[0].outside - step(chance, 19.0, 0.5, 10);
        for lap in &mut sole.laps {
            lap.outside -= back;
        }
        sole
    }

    /// One of which some layers are strips: under the toe's round alone, out to the rows of the waist, or beyond them all.
    pub fn of_strips(chance: &mut Chance) -> Self {
        let mut sole = Self::random(chance);
        let breadth = |chance: &mut Chance| (!one_in(chance, 3)).then(|| step(chance, 40.0, 2.5, 36));
        sole.midsole.breadth = breadth(chance);
        sole.outsole.breadth = breadth(chance);
        if let Some(slip) = &mut sole.slip {
            slip.breadth = breadth(chance);
        }
        sole.film = one_in(chance, 2).then(|| (step(chance, 0.1, 0.05, 4), step(chance, 0.0, 0.05, 2)));
        sole.hammered = one_in(chance, 2).then(|| step(chance, 1.0, 0.5, 16));
        sole
    }

    /// One whose laps enter at the turnout's ends: about the release cut and the start of the rows, or near the toe; some of
    /// them behind it, out of their order, or with the sides far apart.
    pub fn at_the_ends(chance: &mut Chance) -> Self {
        let mut sole = Self::random(chance);
        let back = one_in(chance, 2);
        let mut at = if back { step(chance, 9.0, 0.5, 30) } else { step(chance, 74.0, 0.5, 16) };
        for lap in &mut sole.laps {
            lap.outside = at;
            lap.inside = at + step(chance, -1.0, 0.25, 24);
            at += step(chance, -0.5, 0.5, 8);
            // An edge that leans may miss the rows at the toe, and a lap that runs past it can't be laid out.
            lap.lean = if back { lap.lean } else { 90.0 };
        }
        sole
    }

    /// The midsole as it lies there.
    pub fn midsole(&self) -> Spread {
        let left = 1.0 - self.hammered.unwrap_or(0.0) / 100.0;
        Spread::around(self.midsole.nominal * left, self.midsole.tolerance * left)
    }

    /// What the adhesive over slip and outsole adds to each.
    pub fn film(&self) -> Spread {
        self.film.map_or(Spread::exactly(0.0), |(thick, by)| Spread::around(thick, by))
    }

    pub fn memory(&self) -> Memory {
        trial(&self.stock(), &self.model())
    }

    fn stock(&self) -> String {
        let mut text = String::new();
        for (n, (lo, hi)) in self.parts.iter().enumerate() {
            _ = writeln!(text, "upper-leather leather-{n} {{ substance {lo}..{hi:.3} mm }}");
        }
        let Self { midsole, outsole, lug, .. } = self;
        let film = self.film.map(|(thick, by)| format!("film {thick} mm +- {by} mm; ")).unwrap_or_default();
        _ = writeln!(text, "adhesive gum {{ {film}coats 1 }}");
        _ = writeln!(
            text,
            "sole-leather card {{ substances {} mm; tolerance {} mm }}",
            midsole.nominal, midsole.tolerance
        );
        let channel = self.channel.map(|(a, b)| format!("; channel {a}..{b} mm")).unwrap_or_default();
        _ = writeln!(
            text,
            "outsole tread {{ base {} mm +- {} mm; lug {} mm +- {} mm; blanks us-men 5..14{channel} }}",
            outsole.nominal, outsole.tolerance, lug.0, lug.1
        );
        if let Some(slip) = &self.slip {
            _ = writeln!(text, "rubber sheet {{ thickness {} mm +- {} mm }}", slip.nominal, slip.tolerance);
        }
        text
    }

    fn model(&self) -> String {
        let names = &NAMES[..self.parts.len()];
        let mut text = String::from("  upper {\n    without lap vamp\n");
        for (n, name) in names.iter().enumerate() {
            _ = writeln!(text, "    part {name} {{ of leather-{n}; pieces 1; area 3 dm2 }}");
        }
        for (n, lap) in self.laps.iter().enumerate() {
            _ = writeln!(text, "{}", said(lap, names[n], names[n + 1]));
        }
        _ = writeln!(text, "    turned-out {}\n  }}", names.join(", "));
        let Self { forepart, waist, heel, from_edge, apart, rows, through, .. } = self;
        _ = writeln!(text, "  bottom {{\n    turnout at-forepart {forepart} mm at-waist {waist} mm at-heel {heel} mm");
        let ends = |layer: &Layer| match layer.ends {
            None => "ends full".to_owned(),
            Some(0.0) => "ends at-breast".to_owned(),
            Some(behind) => format!("ends tucked {behind} mm"),
        };
        let lies = |layer: &Layer| {
            let breadth = layer.breadth.map(|breadth| format!("; breadth {breadth} mm")).unwrap_or_default();
            format!("covers {}; {}{breadth}", layer.covers, ends(layer))
        };
        let hammered = self.hammered.map(|share| format!("; hammered {share} %")).unwrap_or_default();
        let midsole = lies(&self.midsole) + &hammered;
        _ = writeln!(text, "    layer midsole {{ of card {} mm; {midsole} }}", self.midsole.nominal);
        if let Some(slip) = &self.slip {
            _ = writeln!(text, "    layer slip {{ of sheet; bonded gum; {} }}", lies(slip));
        }
        _ = writeln!(text, "    layer outsole {{ of tread; bonded gum; {} }}", lies(&self.outsole));
        let round = if self.all_round { "; all-round" } else { "" };
        let sewn = format!("through {through}; rows {rows}; from-edge {from_edge} mm; apart {apart} mm{round}");
        _ = writeln!(text, "    sole sewn {{ {sewn} }}\n  }}");
        text
    }
}

fn said(lap: &Lap, behind: &str, before: &str) -> String {
    let (top, under) = if lap.toeward { (before, behind) } else { (behind, before) };
    let mut text = format!("    lap {top} over {under} {{\n      wide {} mm; leans {} deg\n", lap.wide, lap.lean);
    for (part, thinned) in [(top, &lap.top), (under, &lap.under)] {
        let edge = thinned.edge.map(|(wide, to)| format!("edge wide {wide} mm to {to} mm")).unwrap_or_default();
        let flat = thinned.flat.map(|(to, by)| format!("in-turnout flat to {to} mm +- {by} mm")).unwrap_or_default();
        if !edge.is_empty() || !flat.is_empty() {
            _ = writeln!(text, "      skive {part} {{ {edge}; {flat} }}");
        }
    }
    text += "      rows 2 first 2 mm apart 3 mm; pitch 8 spi; thread bonded-138; needle 130 Nm; on post-bed\n";
    text + &format!("      enters-turnout outside {} % inside {} %\n    }}", lap.outside, lap.inside)
}
