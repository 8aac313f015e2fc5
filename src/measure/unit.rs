//! Units and the kinds of value that they measure.

use super::exact::{Exact, exact};

/// What a value measures. A slot of the language wants one kind; another kind is a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// A length on the boot or of a machine, base mm.
    Length,
    /// A substance or thickness: any length, and iron and ounce; base mm.
    Thickness,
    /// Stitches, base stitches per inch.
    Pitch,
    /// Thread size, base tex.
    ThreadSize,
    /// Needle size, base hundredths of a mm of blade (Nm).
    NeedleSize,
    /// Force, base newton.
    Force,
    /// Angle, base degree.
    Angle,
    /// A share, base percent.
    Share,
    /// Area, base square decimetre.
    Area,
    /// Density, base g/cm3.
    Density,
    /// What is spread on a face, base g/m2 (ml/m2 apart).
    Coverage,
    /// Time, base minute.
    Time,
    /// A bare number.
    Number,
}

impl Kind {
    /// The kind in words with its article, for messages: "needs a length".
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Kind::Length => "a length",
            Kind::Thickness => "a thickness",
            Kind::Pitch => "a pitch",
            Kind::ThreadSize => "a thread size",
            Kind::NeedleSize => "a needle size",
            Kind::Force => "a force",
            Kind::Angle => "an angle",
            Kind::Share => "a share",
            Kind::Area => "an area",
            Kind::Density => "a density",
            Kind::Coverage => "a coverage",
            Kind::Time => "a time",
            Kind::Number => "a bare number",
        }
    }

    /// A worked value of the kind, for messages: "such as `12 mm`".
    #[must_use]
    pub fn example(self) -> &'static str {
        match self {
            Kind::Length => "12 mm",
            Kind::Thickness => "10 iron",
            Kind::Pitch => "5 spi",
            Kind::ThreadSize => "350 tex",
            Kind::NeedleSize => "230 Nm",
            Kind::Force => "249 N",
            Kind::Angle => "3 deg",
            Kind::Share => "45 %",
            Kind::Area => "4.4 dm2",
            Kind::Density => "1.14 g/cm3",
            Kind::Coverage => "180 g/m2",
            Kind::Time => "24 hours",
            Kind::Number => "3",
        }
    }

    /// The base unit, as messages and figures write it.
    #[must_use]
    pub fn base_unit(self) -> &'static str {
        match self {
            Kind::Length | Kind::Thickness => "mm",
            Kind::Pitch => "spi",
            Kind::ThreadSize => "tex",
            Kind::NeedleSize => "Nm",
            Kind::Force => "N",
            Kind::Angle => "deg",
            Kind::Share => "%",
            Kind::Area => "dm2",
            Kind::Density => "g/cm3",
            Kind::Coverage => "g/m2",
            Kind::Time => "minutes",
            Kind::Number => "",
        }
    }

    /// The least value other than zero and the most of anything in a boot shop, in the base unit. What lies outside
    /// is a slip of the pen, and no sum is worth making with it.
    #[must_use]
    pub fn bounds(self) -> (f64, f64) {
        match self {
            Kind::Length => (0.001, 10_000.0),
            Kind::Thickness => (0.001, 1_000.0),
            Kind::Pitch => (0.5, 100.0),
            Kind::ThreadSize => (1.0, 100_000.0),
            Kind::NeedleSize => (1.0, 1_000.0),
            Kind::Force => (0.01, 1_000_000.0),
            Kind::Angle => (0.001, 180.0),
            Kind::Share => (0.001, 100.0),
            Kind::Area => (0.001, 100_000.0),
            Kind::Density => (0.01, 30.0),
            Kind::Coverage => (0.01, 100_000.0),
            Kind::Time => (0.01, 5_256_000.0),
            Kind::Number => (0.001, 999_999_999.0),
        }
    }

    /// Whether a value in `unit` may stand where this kind is wanted.
    #[must_use]
    pub fn takes(self, unit: Unit) -> bool {
        let kind = unit.kind();
        kind == self || (self == Kind::Thickness && kind == Kind::Length) || (self == Kind::Pitch && unit == Unit::Mm)
    }

    /// The units that this kind may be written in, as the language spells them.
    #[must_use]
    pub fn units(self) -> Vec<&'static str> {
        Unit::ALL.iter().filter(|unit| self.takes(**unit)).map(|unit| unit.name()).collect()
    }
}

macro_rules! units {
    ($($variant:ident $kind:ident $above:literal / $below:literal $name:literal $(, $other:literal)*;)+) => {
        /// The closed list of units.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Unit { $(#[doc = $name] $variant,)+ }

        impl Unit {
            /// All units, in the order of the reference.
            pub const ALL: &'static [Unit] = &[$(Unit::$variant),+];

            /// Reads a unit as spelt in the language; case counts (`N` is newton, `Nm` a needle size).
            #[must_use]
            pub fn parse(text: &str) -> Option<Unit> {
                match text { $($name $(| $other)* => Some(Unit::$variant),)+ _ => None }
            }

            /// The spelling that the formatter and messages use.
            #[must_use]
            pub fn name(self) -> &'static str { match self { $(Unit::$variant => $name,)+ } }

            /// Every spelling that is read as this unit.
            #[must_use]
            pub fn spellings(self) -> &'static [&'static str] {
                match self { $(Unit::$variant => &[$name $(, $other)*],)+ }
            }

            /// The kind that the unit measures.
            #[must_use]
            pub fn kind(self) -> Kind { match self { $(Unit::$variant => Kind::$kind,)+ } }

            /// How many base units one of this unit is, exactly.
            #[must_use]
            pub fn factor(self) -> Exact { match self { $(Unit::$variant => exact($above, $below),)+ } }
        }
    };
}

// Iron 1/48 in: Federal Test Method Standard 311 (1969), def. 3.2.114. Ounce of leather 1/64 in:
// GNU Units `shoeounce`. Denier: ISO 1144. The inch is 25.4 mm, the pound-force 4.4482216152605 N by definition.
units! {
    Mm Length 1 / 1 "mm", "millimetre", "millimetres";
    Cm Length 10 / 1 "cm", "centimetre", "centimetres";
    Metre Length 1000 / 1 "metre", "metres";
    Inch Length 127 / 5 "in", "inch", "inches";
    Foot Length 1524 / 5 "ft", "foot", "feet";
    Iron Thickness 127 / 240 "iron", "irons";
    Ounce Thickness 127 / 320 "oz", "ounce", "ounces";
    Spi Pitch 1 / 1 "spi";
    Tex ThreadSize 1 / 1 "tex";
    Denier ThreadSize 1 / 9 "denier";
    Nm NeedleSize 1 / 1 "Nm";
    Newton Force 1 / 1 "N", "newton", "newtons";
    PoundForce Force 8_896_443_230_521 / 2_000_000_000_000 "lbf";
    Degree Angle 1 / 1 "deg", "degree", "degrees";
    Percent Share 1 / 1 "%", "percent";
    SquareDm Area 1 / 1 "dm2";
    SquareMetre Area 100 / 1 "m2";
    SquareFoot Area 145_161 / 15_625 "sqft";
    GramPerCm3 Density 1 / 1 "g/cm3";
    GramPerM2 Coverage 1 / 1 "g/m2";
    MlPerM2 Coverage 1 / 1 "ml/m2";
    Minute Time 1 / 1 "minutes", "minute";
    Hour Time 60 / 1 "hours", "hour";
    Day Time 1440 / 1 "days", "day";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::to_f64;

    #[test]
    fn no_unit_is_spelt_like_a_width() {
        for unit in Unit::ALL {
            for spelling in unit.spellings() {
                assert!(crate::measure::parse_width(spelling).is_none(), "{spelling}");
            }
        }
    }

    #[test]
    fn a_square_foot_is_the_foot_squared() {
        let foot = Unit::Foot.factor();
        assert_eq!(Unit::SquareFoot.factor() * exact(10_000, 1), foot * foot);
        assert!((to_f64(Unit::PoundForce.factor()) - 4.448_221_615_260_5).abs() < 1e-15);
    }
}
