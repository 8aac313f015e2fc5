//! What a judgement is about. Its text is what is printed and what keys are made of; nothing reads it back.

use std::cmp::Ordering;
use std::fmt;
use std::sync::Arc;

/// A lap by its parts: `vamp over quarter`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LapName {
    /// The part on top.
    pub top: Arc<str>,
    /// The part under it.
    pub under: Arc<str>,
}

/// One part of a lap: `quarter in lap vamp over quarter`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartOfLap {
    /// The part.
    pub part: Arc<str>,
    /// The lap.
    pub lap: LapName,
}

impl LapName {
    /// The lap of two parts.
    #[must_use]
    pub fn of(top: &str, under: &str) -> LapName {
        LapName { top: top.into(), under: under.into() }
    }
}

/// Everything that a machine sews.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SeamName {
    /// A lap of the upper.
    Lap(LapName),
    /// A closed seam, by its name.
    Seam(Arc<str>),
    /// A stay, by its name.
    Stay(Arc<str>),
    /// A gusset, by its part.
    Gusset(Arc<str>),
    /// The collar.
    Collar,
    /// The rows along the facing.
    Facing,
    /// The forefoot's row.
    Forefoot,
    /// The sole's rows.
    Sole,
}

impl SeamName {
    /// Whether it is one of the upper.
    #[must_use]
    pub fn is_of_the_upper(&self) -> bool {
        !matches!(self, SeamName::Forefoot | SeamName::Sole)
    }
}

/// A line of nails that are clinched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ClinchLine {
    /// Of the waist.
    Waist,
    /// Of the seat.
    Seat,
    /// Tacks of the lasting that stay in.
    Tacks,
}

/// A figure of a skiver that a skive is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SkiverFigure {
    /// How thin an edge it leaves.
    Edge,
    /// How wide it skives.
    Width,
    /// How true it is over the whole lap.
    Flat,
    /// How thick a leather it takes.
    Leather,
}

/// What the holes of a facing come near to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BesideHole {
    /// Each other.
    Holes,
    /// The facing's edge.
    Edge,
    /// A row of stitching.
    Row,
    /// The facing's ends.
    Ends,
}

/// Where a lap enters the turnout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Enters {
    /// On the one side against the other.
    BothSides,
    /// On the outside.
    Outside,
    /// On the inside.
    Inside,
    /// Between parts that are no neighbours there.
    Astray,
}

/// What is held by an adhesive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Held {
    /// A layer of the bottom, by its role.
    Layer(&'static str),
    /// The heel.
    Heel,
    /// A lining that is lasted in, by its part.
    Lining(Arc<str>),
}

/// A rest in the order of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RestAt {
    /// On the last.
    Last,
    /// Open, between coat and joining, at a step.
    Open(&'static str),
    /// Until a bond holds, at a step.
    Setting(&'static str),
    /// As the model says, at a step.
    Step(&'static str),
}

/// What is judged of a boot.
#[derive(Clone, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "each is what its text says; see `Display`")]
pub enum Subject {
    Seam(SeamName),
    SoleRow(usize),
    OuterSoleRow,
    InnermostSoleRow,
    StartOfSoleRows,
    UnderRaisedFoot,
    SoleStitch,
    EdgeGuide,
    CementedJoints,
    Forefoot,
    ShaftOverHorn,
    TurnedOutParts,
    UnderSoleRows(Arc<str>),
    Clinched(ClinchLine),
    ClinchingInWaist,
    WaistAndForefoot,
    TacksAndClinched,
    TacksAnd(ClinchLine),
    HeelNails,
    /// A stage's number, none for a base that is nailed at once; and the place.
    HeelNail(Option<u32>, &'static str),
    HeelNailsAndRows,
    HeelNailsAndClinched,
    HeelNailsAndEdge,
    HeelNailsAtTurn,
    /// From each other.
    HeelNailHeads,
    /// In the face of the base.
    HeadsInBase,
    NailsRoundHeel,
    CapNails,
    BaseHeld,
    CapHeld,
    HeelBase,
    SandingBase,
    Wedges,
    OutsoleAtHeel,
    HollowSeat,
    FillerAndOuter,
    OverFiller,
    BallGirth,
    LastingMargins,
    /// By its place.
    LastingMargin(&'static str),
    LapsInTurnout,
    LapEnters(LapName, Enters),
    PartOfLap(PartOfLap),
    Skive(PartOfLap),
    SkiveFigure(SkiverFigure, PartOfLap),
    /// The seam and the stay over it, by their names.
    SeamUnderStay(Arc<str>, Arc<str>),
    CollarFold,
    Gussets,
    SettingFacing,
    /// By the hardware or its setter.
    FacingThrough(Arc<str>),
    FacingHoles(BesideHole),
    ClaimedHeight,
    HeightFromHeel,
    HeightInside,
    OrderOfWork,
    StepsLeftOut,
    Step(&'static str),
    Rests,
    Rest(RestAt),
    /// The longest that it may be.
    LongestRest(RestAt),
    Blanks,
    Blank(&'static str),
    Bond(Held),
    /// What a fault or a refusal took, by the name of that.
    NotJudged(&'static str),
}

impl Subject {
    /// The sole's rows.
    pub const SOLE_ROWS: Subject = Subject::Seam(SeamName::Sole);
    /// The forefoot's row.
    pub const FOREFOOT_ROW: Subject = Subject::Seam(SeamName::Forefoot);
    /// The facing.
    pub const FACING: Subject = Subject::Seam(SeamName::Facing);
    /// The nails of the waist.
    pub const WAIST_NAILS: Subject = Subject::Clinched(ClinchLine::Waist);
    /// The tacks that stay in.
    pub const TACKS: Subject = Subject::Clinched(ClinchLine::Tacks);
}

/// In the order of their texts, as they are listed. Two that read alike, a part that is called as a thing is, stay two.
impl Ord for Subject {
    fn cmp(&self, other: &Self) -> Ordering {
        if self == other {
            return Ordering::Equal;
        }
        let by_text = self.to_string().cmp(&other.to_string());
        by_text.then_with(|| format!("{self:?}").cmp(&format!("{other:?}")))
    }
}

impl PartialOrd for Subject {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for LapName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} over {}", self.top, self.under)
    }
}

impl fmt::Display for PartOfLap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} in lap {}", self.part, self.lap)
    }
}

impl fmt::Display for SeamName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SeamName::Lap(lap) => write!(f, "lap {lap}"),
            SeamName::Seam(name) => write!(f, "seam {name}"),
            SeamName::Stay(name) => write!(f, "stay {name}"),
            SeamName::Gusset(part) => write!(f, "gusset of {part}"),
            SeamName::Collar => f.write_str("collar"),
            SeamName::Facing => f.write_str("facing"),
            SeamName::Forefoot => f.write_str("forefoot row"),
            SeamName::Sole => f.write_str("sole rows"),
        }
    }
}

impl fmt::Display for ClinchLine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            ClinchLine::Waist => "waist nails",
            ClinchLine::Seat => "seat nails",
            ClinchLine::Tacks => "tacks left in",
        })
    }
}

impl SkiverFigure {
    /// In a word, as keys have it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            SkiverFigure::Edge => "edge",
            SkiverFigure::Width => "width",
            SkiverFigure::Flat => "flat",
            SkiverFigure::Leather => "leather",
        }
    }
}

impl fmt::Display for SkiverFigure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl BesideHole {
    /// In a word, as keys have it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            BesideHole::Holes => "holes",
            BesideHole::Edge => "edge",
            BesideHole::Row => "row",
            BesideHole::Ends => "ends",
        }
    }
}

impl fmt::Display for BesideHole {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BesideHole::Holes => f.write_str("holes of the facing"),
            _ => write!(f, "facing's {}", self.name()),
        }
    }
}

impl fmt::Display for Held {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Held::Layer(role) => role,
            Held::Heel => "heel",
            Held::Lining(part) => part,
        })
    }
}

impl fmt::Display for RestAt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RestAt::Last => f.write_str("rest on the last"),
            RestAt::Open(step) => write!(f, "open time of {step}"),
            RestAt::Setting(step) => write!(f, "setting at {step}"),
            RestAt::Step(step) => write!(f, "rest at {step}"),
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Subject::Seam(name) => return write!(f, "{name}"),
            Subject::SoleRow(number) => return write!(f, "sole row {number}"),
            Subject::UnderSoleRows(part) => return write!(f, "{part} under the sole rows"),
            Subject::Clinched(line) => return write!(f, "{line}"),
            Subject::TacksAnd(line) => return write!(f, "tacks left in and {line}"),
            Subject::HeelNail(None, place) => return write!(f, "heel nail at the {place}"),
            Subject::HeelNail(Some(stage), place) => return write!(f, "heel nail of stage {stage} at the {place}"),
            Subject::LastingMargin(place) => return write!(f, "lasting margin at the {place}"),
            Subject::LapEnters(lap, Enters::BothSides) => return write!(f, "{lap}"),
            Subject::LapEnters(lap, Enters::Outside) => return write!(f, "{lap}, outside"),
            Subject::LapEnters(lap, Enters::Inside) => return write!(f, "{lap}, inside"),
            Subject::LapEnters(lap, Enters::Astray) => return write!(f, "{lap}, astray"),
            Subject::PartOfLap(of) => return write!(f, "{of}"),
            Subject::Skive(of) => return write!(f, "skive of {of}"),
            Subject::SkiveFigure(figure, of) => return write!(f, "{figure} of the skive of {of}"),
            Subject::SeamUnderStay(seam, stay) => return write!(f, "seam {seam} under stay {stay}"),
            Subject::FacingThrough(name) => return write!(f, "facing through {name}"),
            Subject::FacingHoles(beside) => return write!(f, "{beside}"),
            Subject::Step(step) => return write!(f, "step {step}"),
            Subject::Rest(rest) => return write!(f, "{rest}"),
            Subject::LongestRest(rest) => return write!(f, "{rest}, at most"),
            Subject::Blank(what) => return write!(f, "blank of the {what}"),
            Subject::Bond(held) => return write!(f, "bond of the {held}"),
            Subject::NotJudged(fault) => fault,
            Subject::OuterSoleRow => "outer sole row",
            Subject::InnermostSoleRow => "innermost sole row",
            Subject::StartOfSoleRows => "start of the sole rows",
            Subject::UnderRaisedFoot => "sole rows under the raised foot",
            Subject::SoleStitch => "sole stitch",
            Subject::EdgeGuide => "edge guide",
            Subject::CementedJoints => "cemented joints in the jaw",
            Subject::Forefoot => "forefoot",
            Subject::ShaftOverHorn => "shaft over the horn",
            Subject::TurnedOutParts => "turned-out parts",
            Subject::ClinchingInWaist => "clinching in the waist",
            Subject::WaistAndForefoot => "waist nails and the forefoot's row",
            Subject::TacksAndClinched => "tacks left in and clinch nails",
            Subject::HeelNails => "heel nails",
            Subject::HeelNailsAndRows => "heel nails and sole rows",
            Subject::HeelNailsAndClinched => "heel nails and clinch nails",
            Subject::HeelNailsAndEdge => "heel nails and the heel's edge",
            Subject::HeelNailsAtTurn => "heel nails at the turn of the upper",
            Subject::HeelNailHeads => "heads of heel nails",
            Subject::HeadsInBase => "heads of the heel nails",
            Subject::NailsRoundHeel => "nails round the heel",
            Subject::CapNails => "cap nails",
            Subject::BaseHeld => "base of the heel",
            Subject::CapHeld => "cap of the heel",
            Subject::HeelBase => "heel base",
            Subject::SandingBase => "sanding the base",
            Subject::Wedges => "wedges",
            Subject::OutsoleAtHeel => "outsole at the heel",
            Subject::HollowSeat => "hollow of the seat",
            Subject::FillerAndOuter => "filler and outer",
            Subject::OverFiller => "shank and pad over the filler",
            Subject::BallGirth => "ball girth of the last",
            Subject::LastingMargins => "lasting margin",
            Subject::LapsInTurnout => "laps in the turnout",
            Subject::CollarFold => "collar's fold",
            Subject::Gussets => "gusset",
            Subject::SettingFacing => "setting the facing",
            Subject::ClaimedHeight => "height",
            Subject::HeightFromHeel => "height from the heel's bottom",
            Subject::HeightInside => "height measured inside",
            Subject::OrderOfWork => "order of work",
            Subject::StepsLeftOut => "steps left out",
            Subject::Rests => "rests",
            Subject::Blanks => "blanks",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_that_read_alike_stay_two() {
        let (heel, part) = (Subject::Bond(Held::Heel), Subject::Bond(Held::Lining("heel".into())));
        assert_eq!(heel.to_string(), part.to_string());
        assert_ne!(heel.cmp(&part), Ordering::Equal);
    }

    #[test]
    fn they_are_listed_by_their_texts() {
        let mut all = [Subject::Wedges, Subject::SoleRow(10), Subject::SoleRow(2), Subject::SOLE_ROWS];
        all.sort();
        let texts = all.map(|subject| subject.to_string());
        assert_eq!(texts, ["sole row 10", "sole row 2", "sole rows", "wedges"]);
    }
}
