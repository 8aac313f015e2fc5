//! The stations of the shop, in the order of the work: what each does, what it must beware of.

use super::words::{self, Lang, Word, cautions};
use crate::build::{FigureId as F, Figures};

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
    #[must_use]
    pub fn title(self, lang: Lang) -> &'static str {
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
        words::of(word, lang)
    }

    /// Its cautions.
    pub(super) fn cautions(self) -> &'static [Word] {
        match self {
            Station::Cutting => &[cautions::PRESS],
            Station::Skiving => &[cautions::BELL],
            Station::Closing | Station::SoleStitching => &[cautions::NEEDLES],
            Station::Hardware => &[cautions::SETTER],
            Station::Lasting => &[cautions::NAILS, cautions::SOLVENTS],
            Station::Bottoming => &[cautions::SOLVENTS, cautions::NAILS],
            Station::Heeling => &[cautions::NAILS, cautions::SOLVENTS, cautions::DUST],
            Station::Edge => &[cautions::DUST, cautions::SANDER],
            Station::Finishing => &[cautions::SOLVENTS],
            Station::Inspection => &[cautions::POINTS, cautions::NO_CERTIFICATE],
        }
    }

    /// Whether the model gives the station anything to do.
    #[must_use]
    pub fn has_work(self, figures: &Figures) -> bool {
        let any = |ids: &[F]| figures.iter().any(|figure| ids.contains(&figure.of.id));
        match self {
            Station::Cutting => any(&[F::PartPieces]),
            Station::Skiving => any(&[F::SkiveEdge, F::SkiveFlat, F::StiffenerSkived]),
            Station::Closing => any(&[F::LapWide, F::SeamAllowance]),
            Station::Hardware => any(&[F::FacingFirst]),
            Station::Heeling => any(&[F::HeelCap, F::LiftsCount, F::HeelLength]),
            Station::Finishing => {
                any(&[F::FinishEdge, F::FinishSockLining, F::FinishDress, F::FinishLaces, F::FinishSquareWithin])
            }
            Station::Lasting | Station::Bottoming | Station::SoleStitching | Station::Edge | Station::Inspection => {
                true
            }
        }
    }
}
