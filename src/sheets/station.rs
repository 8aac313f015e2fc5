//! The stations of the shop, in the order of the work: what each does, what it must beware of.

use super::words::{self, Word};
use crate::build::Figures;

/// A bench with its own sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the stations' own names")]
pub enum Station {
    Cutting,
    Skiving,
    Closing,
    Hardware,
    Lasting,
    Bottoming,
    SoleStitching,
    Heeling,
    Edge,
    Finishing,
    Inspection,
}

impl Station {
    /// All stations in the order of the work.
    pub const ALL: &'static [Station] = &[
        Station::Cutting,
        Station::Skiving,
        Station::Closing,
        Station::Hardware,
        Station::Lasting,
        Station::Bottoming,
        Station::SoleStitching,
        Station::Heeling,
        Station::Edge,
        Station::Finishing,
        Station::Inspection,
    ];

    /// The name by which `--station` asks for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Station::Cutting => "cutting",
            Station::Skiving => "skiving",
            Station::Closing => "closing",
            Station::Hardware => "hardware",
            Station::Lasting => "lasting",
            Station::Bottoming => "bottoming",
            Station::SoleStitching => "sole-stitching",
            Station::Heeling => "heeling",
            Station::Edge => "edge",
            Station::Finishing => "finishing",
            Station::Inspection => "inspection",
        }
    }

    /// Its title on the sheet.
    pub(super) fn title(self) -> &'static str {
        let word: Word = match self {
            Station::Cutting => words::CUTTING,
            Station::Skiving => words::SKIVING,
            Station::Closing => words::CLOSING,
            Station::Hardware => words::HARDWARE,
            Station::Lasting => words::LASTING,
            Station::Bottoming => words::BOTTOMING,
            Station::SoleStitching => words::SOLE_STITCHING,
            Station::Heeling => words::HEELING,
            Station::Edge => words::EDGE,
            Station::Finishing => words::FINISHING,
            Station::Inspection => words::INSPECTION,
        };
        words::of(word)
    }

    /// Its cautions. Sources: IARC Monographs (leather dust), NIOSH and OSHA (solvents, nails, compressed air), HSE (machines,
    /// presses); the rest is common practice, no source. Local codes and licensed practice come first.
    pub(super) fn cautions(self) -> &'static [&'static str] {
        const NAILS: &str = "Nails and tacks: wear eye protection, never hold them in the mouth, feel inside every boot for points before it leaves.";
        const SOLVENTS: &str = "Solvent adhesives: ventilate down and away from the face, no flame or spark, gloves. Limits in air: n-hexane 50 ppm (NIOSH), toluene 200 ppm, MEK 200 ppm (OSHA).";
        const DUST: &str = "Leather dust causes nasal cancer: extract at the sander, wear a respirator, no dry sweeping. Air under 30 psi, with chip guarding.";
        const NEEDLES: &str =
            "Needle, eye and belt guards on; power off and feet off the treadle to thread or to change the needle.";
        match self {
            Station::Cutting => {
                &["Press: two-hand control, release stops. Clicking knife: cut away from the hand that holds."]
            }
            Station::Skiving => &["Guard on, hands clear of the bell; power off to sharpen or clear it."],
            Station::Closing => &[NEEDLES],
            Station::Hardware => &["Fingers clear of punch and setter; wear eye protection."],
            Station::Lasting => &[NAILS, SOLVENTS],
            Station::Bottoming => &[SOLVENTS, NAILS],
            Station::SoleStitching => &[NEEDLES],
            Station::Heeling => &[NAILS, DUST],
            Station::Edge => &[DUST, "Sander: enclosed belt and nips, two hands on the boot, no loose sleeves."],
            Station::Finishing => &[SOLVENTS],
            Station::Inspection => &[
                "Feel inside every boot with the hand for nail points.",
                "This sheet certifies nothing: fire, safety and electrical footwear is tested and labelled through an accredited laboratory to the standard that applies; local codes and licensed practice come first.",
            ],
        }
    }

    /// Whether the model gives the station anything to do.
    #[must_use]
    pub fn has_work(self, figures: &Figures) -> bool {
        let any = |prefix: &str| figures.iter().any(|figure| figure.key.starts_with(prefix));
        match self {
            Station::Cutting => any("part."),
            Station::Skiving => {
                figures.iter().any(|figure| figure.label.starts_with("skive ") || figure.key.ends_with(".skived"))
            }
            Station::Closing => any("lap-") || any("seam-"),
            Station::Hardware => any("facing."),
            Station::Heeling => any("heel."),
            Station::Finishing => any("finish."),
            Station::Lasting | Station::Bottoming | Station::SoleStitching | Station::Edge | Station::Inspection => {
                true
            }
        }
    }
}
