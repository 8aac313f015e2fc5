//! The operations of the bench: where each is done, what it needs of the boot, what it leaves, what it takes away.
//!
//! A need counts only where the boot has the state from the start, or an operation of this model leaves it: a boot
//! without a counter needs no stiffener before lasting.

use super::facts::Facts;

/// A state of the boot on its way, in the words of a finding: "needs …".
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "each says itself, see `words`")]
pub enum State {
    Cut,
    Skived,
    BackClosed,
    SeamFlat,
    StaySewn,
    GussetSewn,
    CounterCovered,
    VampClosed,
    CollarSewn,
    FacingSewn,
    Flat,
    Unlasted,
    Mulled,
    InsoleFixed,
    Stiffened,
    WetLasted,
    LastIn,
    LastOut,
    Lasted,
    LiningIn,
    BottomFlat,
    InsoleFree,
    TacksOut,
    Released,
    TurnedOut,
    Filled,
    Shanked,
    MidsoleLoose,
    MidsoleOn,
    Nailed,
    PointsFlat,
    ForefootSewn,
    Primed,
    SoleCemented,
    Pressed,
    Rounded,
    RowsSewn,
    Trimmed,
    OutsoleCemented,
    OutsoleOn,
    BaseBuilt,
    Level,
    Capped,
    Sanded,
    Inspected,
    Unfinished,
}

impl State {
    /// As a finding says it behind "needs".
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            State::Cut => "the parts cut",
            State::Skived => "the parts skived",
            State::BackClosed => "the back seam closed",
            State::SeamFlat => "the back seam rubbed flat",
            State::StaySewn => "the stay sewn on",
            State::GussetSewn => "the tongue sewn in",
            State::CounterCovered => "the counter cover sewn on",
            State::VampClosed => "the vamp sewn on",
            State::CollarSewn => "the collar sewn on",
            State::FacingSewn => "the facing's rows sewn",
            State::Flat => "the parts still lying flat",
            State::Unlasted => "the upper not yet lasted",
            State::Mulled => "the leather mulled",
            State::InsoleFixed => "the insole fixed to the last",
            State::Stiffened => "puff and counter in",
            State::WetLasted => "the upper pulled wet over the last",
            State::LastIn => "the last in the boot",
            State::LastOut => "the last out of the boot",
            State::Lasted => "the upper lasted",
            State::LiningIn => "the lining cemented in",
            State::BottomFlat => "the bottom hammered flat",
            State::InsoleFree => "the insole nails drawn",
            State::TacksOut => "the lasting tacks drawn",
            State::Released => "the release cuts made",
            State::TurnedOut => "the outer turned out",
            State::Filled => "the bottom filled level",
            State::Shanked => "shank and pad laid",
            State::MidsoleLoose => "the midsole still off the boot",
            State::MidsoleOn => "the midsole scoured and cemented on",
            State::Nailed => "waist and seat nailed",
            State::PointsFlat => "no nail points standing up inside",
            State::ForefootSewn => "the forefoot sewn",
            State::Primed => "the rubber buffed and primed",
            State::SoleCemented => "the sole cemented on",
            State::Pressed => "the bond pressed and set",
            State::Rounded => "the edge rough-rounded",
            State::RowsSewn => "the rows sewn",
            State::Trimmed => "the edge trimmed",
            State::OutsoleCemented => "the outsole cemented on",
            State::OutsoleOn => "the outsole's bond pressed and set",
            State::BaseBuilt => "the heel's base nailed on",
            State::Level => "the base level",
            State::Capped => "the cap on",
            State::Sanded => "the edge sanded square",
            State::Inspected => "the inside felt by hand and its points hammered flat",
            State::Unfinished => "the final inspection still to come",
        }
    }
}

/// What a boot has before the first operation.
pub(super) const FROM_THE_START: &[State] =
    &[State::Flat, State::Unlasted, State::LastOut, State::MidsoleLoose, State::PointsFlat, State::Unfinished];

/// One operation.
#[derive(Debug)]
pub(super) struct Operation {
    /// The name of its step.
    pub name: &'static str,
    /// The bench.
    pub station: &'static str,
    pub needs: &'static [State],
    pub leaves: &'static [State],
    pub destroys: &'static [State],
    /// Whether the model has it.
    pub has: fn(&Facts) -> bool,
}

const fn op(
    name: &'static str,
    station: &'static str,
    needs: &'static [State],
    leaves: &'static [State],
    destroys: &'static [State],
    has: fn(&Facts) -> bool,
) -> Operation {
    Operation { name, station, needs, leaves, destroys, has }
}

/// What only a machine with a horn needs, of a step that a machine does.
pub(super) const FOR_A_HORN: &[State] = &[State::LastOut, State::PointsFlat];

use State as S;

/// A closed upper, and what else.
macro_rules! closed {
    ($($more:expr),*) => {
        &[S::Cut, S::BackClosed, S::StaySewn, S::GussetSewn, S::CounterCovered, S::VampClosed, S::CollarSewn, S::FacingSewn, $($more),*]
    };
}

/// Every operation by the name of its step. The default order is the vocabulary's.
pub(super) static OPERATIONS: &[Operation] = &[
    op("cut", "cutting", &[], &[S::Cut], &[], |_| true),
    op("skive", "skiving", &[S::Cut], &[S::Skived], &[], |facts| facts.skives),
    op("close-back", "closing", &[S::Cut, S::Skived], &[S::BackClosed], &[], |facts| facts.back_seam),
    op("rub-flat", "closing", &[S::BackClosed], &[S::SeamFlat], &[], |facts| facts.rubbed_flat),
    op("stay", "closing", &[S::Cut, S::BackClosed, S::SeamFlat], &[S::StaySewn], &[], |facts| facts.stay),
    op("gusset", "closing", &[S::Cut, S::Skived], &[S::GussetSewn], &[], |facts| facts.gusset),
    op(
        "counter-cover",
        "closing",
        &[S::Cut, S::Skived, S::BackClosed, S::SeamFlat],
        &[S::CounterCovered],
        &[],
        |facts| facts.counter_cover,
    ),
    // The tongue's foot is caught under the vamp.
    op("close-vamp", "closing", &[S::Cut, S::Skived, S::GussetSewn], &[S::VampClosed], &[], |facts| facts.vamp),
    op("collar", "closing", &[S::Cut, S::BackClosed, S::SeamFlat], &[S::CollarSewn], &[], |facts| facts.collar),
    op("facing-rows", "closing", &[S::Cut, S::Flat], &[S::FacingSewn], &[], |facts| facts.facing_rows),
    op("mark", "closing", &[S::Cut, S::Flat], &[], &[], |facts| facts.mark),
    op("hardware", "hardware", &[S::Cut, S::FacingSewn, S::Flat], &[], &[], |facts| facts.hardware),
    // Mulled leather dries out again while it is sewn.
    op("mull", "lasting", CLOSED, &[S::Mulled], &[], |facts| facts.mulled),
    op("fix-insole", "lasting", &[S::Cut], &[S::InsoleFixed], &[], |_| true),
    op(
        "stiffen",
        "lasting",
        &[S::Cut, S::Skived, S::BackClosed, S::CounterCovered, S::VampClosed, S::Unlasted],
        &[S::Stiffened],
        &[],
        |facts| facts.stiffeners,
    ),
    op("wet-last", "lasting", ON_THE_LAST, &[S::WetLasted, S::LastIn], &[S::Flat, S::LastOut], |_| true),
    op("set-wet", "lasting", &[S::WetLasted, S::LastIn, S::Unlasted], &[], &[], |_| true),
    op("last", "lasting", ON_THE_LAST, &[S::Lasted, S::LastIn], &[S::Flat, S::Unlasted, S::LastOut], |_| true),
    op("cement-lining", "lasting", &[S::Lasted, S::LastIn], &[S::LiningIn], &[], |facts| facts.lining),
    op("flatten-bottom", "lasting", &[S::Lasted, S::LiningIn, S::LastIn], &[S::BottomFlat], &[], |_| true),
    // The lasted upper holds the insole by now. No pincers reach what is under the filler, the shank or the midsole.
    op("draw-insole-nails", "lasting", &[S::Lasted, S::LastIn, S::MidsoleLoose], &[S::InsoleFree], &[], |_| true),
    // Pulled before the cement holds, the lining springs back.
    op("pull-tacks", "lasting", &[S::Lasted, S::LiningIn, S::LastIn, S::MidsoleLoose], &[S::TacksOut], &[], |_| true),
    op("release-cut", "lasting", &[S::Lasted, S::LastIn], &[S::Released], &[], |_| true),
    op("turn-out", "lasting", &[S::Lasted, S::TacksOut, S::Released, S::LastIn], &[S::TurnedOut], &[], |_| true),
    op("fill", "bottoming", ON_THE_INSOLE, &[S::Filled], &[], |facts| facts.filler),
    op("shank", "bottoming", ON_THE_INSOLE, &[S::Shanked], &[], |facts| facts.shank),
    op("ink-midsole", "bottoming", &[S::Cut, S::MidsoleLoose], &[], &[], |facts| facts.midsole && facts.inked),
    op(
        "midsole",
        "bottoming",
        &[S::BottomFlat, S::InsoleFree, S::TacksOut, S::TurnedOut, S::Filled, S::Shanked, S::LastIn],
        &[S::MidsoleOn],
        &[S::MidsoleLoose],
        |facts| facts.midsole,
    ),
    op(
        "nail-waist",
        "bottoming",
        &[S::BottomFlat, S::TurnedOut, S::MidsoleOn, S::LastIn],
        &[S::Nailed],
        &[S::PointsFlat],
        |facts| facts.nailed,
    ),
    // A last that the insole is still nailed to does not come out.
    op("pull-last", "bottoming", &[S::Lasted, S::InsoleFree, S::LastIn], &[S::LastOut], &[S::LastIn], |_| true),
    op("hammer-points", "bottoming", &[S::Nailed, S::LastOut], &[S::PointsFlat], &[], |facts| facts.nailed),
    op(
        "sew-forefoot",
        "bottoming",
        &[S::TurnedOut, S::MidsoleOn, S::LastOut, S::PointsFlat],
        &[S::ForefootSewn],
        &[],
        |facts| facts.forefoot,
    ),
    op("prime-rubber", "bottoming", &[], &[S::Primed], &[], |facts| facts.rubber),
    op(
        "cement-sole",
        "bottoming",
        &[S::TurnedOut, S::MidsoleOn, S::Nailed, S::ForefootSewn, S::Primed],
        &[S::SoleCemented],
        &[],
        |facts| facts.cemented_first,
    ),
    op("press", "bottoming", &[S::SoleCemented], &[S::Pressed], &[], |facts| facts.cemented_first),
    op("rough-round", "sole-stitching", &[S::TurnedOut, S::MidsoleOn, S::Pressed], &[S::Rounded], &[], |_| true),
    op(
        "sew-sole",
        "sole-stitching",
        &[S::TurnedOut, S::MidsoleOn, S::Pressed, S::Rounded],
        &[S::RowsSewn],
        &[],
        |_| true,
    ),
    // Stitching spreads the edge.
    op("trim", "sole-stitching", &[S::RowsSewn], &[S::Trimmed], &[], |_| true),
    op(
        "cement-outsole",
        "bottoming",
        &[S::MidsoleOn, S::Nailed, S::ForefootSewn, S::Primed, S::RowsSewn, S::Trimmed],
        &[S::OutsoleCemented],
        &[],
        |facts| facts.cemented_after,
    ),
    op("press-outsole", "bottoming", &[S::OutsoleCemented], &[S::OutsoleOn], &[], |facts| facts.cemented_after),
    // The rows' ends are caught under the base.
    op(
        "build-heel",
        "heeling",
        &[S::Nailed, S::Pressed, S::RowsSewn, S::OutsoleOn, S::LastOut],
        &[S::BaseBuilt],
        &[],
        |facts| facts.heel,
    ),
    op("level", "heeling", &[S::BaseBuilt], &[S::Level], &[], |facts| facts.heel),
    op("cap", "heeling", &[S::BaseBuilt, S::Level], &[S::Capped], &[], |facts| facts.heel),
    op("sand-edge", "edge", &[S::Trimmed, S::OutsoleOn, S::Capped, S::Unfinished], &[S::Sanded], &[], |_| true),
    op(
        "inspect-inside",
        "finishing",
        &[S::Nailed, S::ForefootSewn, S::RowsSewn, S::BaseBuilt, S::Capped, S::LastOut],
        &[S::Inspected, S::PointsFlat],
        &[],
        |_| true,
    ),
    op("sock", "finishing", &[S::Inspected, S::PointsFlat, S::LastOut, S::Unfinished], &[], &[], |facts| facts.sock),
    op("ink", "finishing", &[S::Sanded, S::Unfinished], &[], &[], |facts| facts.inked),
    op("first-inspection", "inspection", &[S::Sanded, S::Unfinished], &[], &[], |_| true),
    op("final-inspection", "inspection", &[S::Sanded, S::Inspected], &[], &[S::Unfinished], |_| true),
];

/// What is sewn by the time a closed upper leaves the closing bench.
const CLOSED: &[State] = closed!();

/// What must be done before the upper is pulled over the last.
const ON_THE_LAST: &[State] = closed!(S::Mulled, S::InsoleFixed, S::Stiffened, S::Unlasted);

/// What is laid on the insole lies flat on it, with no nail under it, before the midsole covers it.
const ON_THE_INSOLE: &[State] = &[S::BottomFlat, S::InsoleFree, S::LastIn, S::MidsoleLoose];

/// The operation of a step.
pub(super) fn operation(name: &str) -> Option<&'static Operation> {
    OPERATIONS.iter().find(|operation| operation.name == name)
}
