//! The feet that a size is made for, and what the other systems call it.

use crate::measure::{Size, System, to_f64};

const INCH: f64 = 25.4;
const PARIS_POINT: f64 = 20.0 / 3.0;

/// Ball girths of men's feet that are nearest US 9 and US 11: length and girth, mm.
///
/// Source: ANSUR II (2012 Anthropometric Survey of U.S. Army Personnel, Natick/TR-15/007, public release), means of 395 and
/// 401 men, computed from its public data.
const MEN: [(f64, f64); 2] = [(262.8, 247.4), (279.4, 256.1)];

/// What a size says of the foot.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Length of the foot that it is for, mm.
    pub foot: f64,
    /// How that was reached.
    pub route: &'static str,
    /// The same foot in the other systems.
    pub called: Vec<Called>,
    /// Mean ball girth of men's feet so long, mm; `None` for a women's size, of which nothing is published here.
    pub girth: Option<f64>,
}

/// A foot as a system numbers it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Called {
    /// The system.
    pub system: System,
    /// The number as it comes out.
    pub number: f64,
    /// To the step in which the system is usually made: half a size, 5 mm of Mondopoint.
    pub rounded: f64,
    /// How it was reached.
    pub route: &'static str,
}

impl Fit {
    /// What `size` says of the foot.
    ///
    /// Sources: US men's 3 F(in) - 22, measuring-device convention; Paris points by ISO 19407:2015 as restated, the last two
    /// points longer than the foot; Mondopoint is the foot's length (ISO 9407). US women's 3 F - 21 and UK adult 3 F - 23
    /// (the last 25 + n thirds of an inch, two of them before the toes) are from memory.
    #[must_use]
    pub fn of(size: Size) -> Self {
        let foot = foot(size.system, to_f64(size.number));
        let others = System::ALL.iter().copied().filter(|system| *system != size.system);
        let called = others.map(|system| {
            let number = number(system, foot);
            let step = if system == System::Mondo { 5.0 } else { 0.5 };
            Called { system, number, rounded: (number / step).round() * step, route: route(system) }
        });
        Self {
            foot,
            route: route(size.system),
            called: called.collect(),
            girth: (size.system != System::UsWomen).then(|| mean_girth(foot)),
        }
    }
}

/// mm of foot for a number: [`number`] turned round.
fn foot(system: System, number: f64) -> f64 {
    match system {
        System::UsMen => (number + 22.0) / 3.0 * INCH,
        System::UsWomen => (number + 21.0) / 3.0 * INCH,
        System::Uk => (number + 23.0) / 3.0 * INCH,
        System::Eu => (number - 2.0) * PARIS_POINT,
        System::Mondo => number,
    }
}

fn number(system: System, foot: f64) -> f64 {
    match system {
        System::UsMen => 3.0 * foot / INCH - 22.0,
        System::UsWomen => 3.0 * foot / INCH - 21.0,
        System::Uk => 3.0 * foot / INCH - 23.0,
        System::Eu => foot / PARIS_POINT + 2.0,
        System::Mondo => foot,
    }
}

fn route(system: System) -> &'static str {
    match system {
        System::UsMen => "3 x foot in inches - 22",
        System::UsWomen => "3 x foot in inches - 21",
        System::Uk => "3 x foot in inches - 23",
        System::Eu => "foot / (20/3 mm) + 2",
        System::Mondo => "the foot in mm",
    }
}

/// On the straight line through what is known of two lengths.
fn mean_girth(foot: f64) -> f64 {
    let [(short, small), (long, large)] = MEN;
    small + (foot - short) * (large - small) / (long - short)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_system_comes_back_to_its_own_number() {
        for system in System::ALL {
            for n in [5.0, 9.5, 42.0] {
                assert!((number(*system, foot(*system, n)) - n).abs() < 1e-9, "{} {n}", system.name());
            }
        }
    }
}
