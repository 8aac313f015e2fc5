//! The units that figures have.

use crate::measure::Kind;
use std::fmt;

/// The unit of a figure's numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FigureUnit {
    /// None: counts, ratios, words.
    Bare,
    /// Millimetres.
    Mm,
    /// Metres.
    Metres,
    /// Square centimetres.
    Cm2,
    /// Square decimetres.
    Dm2,
    /// Inches.
    Inch,
    /// Eighths of an inch.
    Eighths,
    /// Stitches an inch.
    Spi,
    /// Hundredths of a millimetre, as needles are numbered.
    Nm,
    /// Thread size.
    Tex,
    /// Newtons.
    Newtons,
    /// Newtons a millimetre of seam.
    NewtonsPerMm,
    /// Hundredths.
    Percent,
    /// Degrees of an angle.
    Degree,
    /// Minutes.
    Minutes,
    /// Grams.
    Grams,
    /// Grams a square metre.
    GramsPerM2,
    /// Grams a cubic centimetre.
    GramsPerCm3,
    /// Hides.
    Hides,
    /// The one that was written.
    Written,
}

impl FigureUnit {
    /// As tables and JSON write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            FigureUnit::Bare | FigureUnit::Written => "",
            FigureUnit::Mm => "mm",
            FigureUnit::Metres => "m",
            FigureUnit::Cm2 => "cm2",
            FigureUnit::Dm2 => "dm2",
            FigureUnit::Inch => "in",
            FigureUnit::Eighths => "1/8 in",
            FigureUnit::Spi => "spi",
            FigureUnit::Nm => "Nm",
            FigureUnit::Tex => "tex",
            FigureUnit::Newtons => "N",
            FigureUnit::NewtonsPerMm => "N/mm",
            FigureUnit::Percent => "%",
            FigureUnit::Degree => "deg",
            FigureUnit::Minutes => "minutes",
            FigureUnit::Grams => "g",
            FigureUnit::GramsPerM2 => "g/m2",
            FigureUnit::GramsPerCm3 => "g/cm3",
            FigureUnit::Hides => "hides",
        }
    }

    /// The base unit of a kind of amount.
    #[must_use]
    pub const fn of(kind: Kind) -> FigureUnit {
        match kind {
            Kind::Length | Kind::Thickness => FigureUnit::Mm,
            Kind::Pitch => FigureUnit::Spi,
            Kind::ThreadSize => FigureUnit::Tex,
            Kind::NeedleSize => FigureUnit::Nm,
            Kind::Force => FigureUnit::Newtons,
            Kind::Angle => FigureUnit::Degree,
            Kind::Share => FigureUnit::Percent,
            Kind::Area => FigureUnit::Dm2,
            Kind::Density => FigureUnit::GramsPerCm3,
            Kind::Coverage => FigureUnit::GramsPerM2,
            Kind::Time => FigureUnit::Minutes,
            Kind::Number => FigureUnit::Bare,
        }
    }
}

impl fmt::Display for FigureUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
