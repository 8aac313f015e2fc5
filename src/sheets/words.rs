//! Every word that a sheet says, in one place.
//!
//! Fixed words stand in [`WORDS`]; the label of a figure is its own key and passes through [`label`]. Names that the shop
//! types stay as they are.

/// A fixed word, by its place in [`WORDS`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word(usize);

macro_rules! words {
    ($($ident:ident $text:literal;)+) => {
        words!(@number 0_usize; $($ident)+);
        /// The fixed words of sheets.
        pub const WORDS: &[&str] = &[$($text),+];
    };
    (@number $n:expr; $ident:ident $($rest:ident)*) => {
        pub(super) const $ident: Word = Word($n);
        words!(@number $n + 1; $($rest)*);
    };
    (@number $n:expr;) => {};
}

words! {
    CUTTING "Cutting";
    SKIVING "Skiving";
    CLOSING "Closing";
    HARDWARE "Hardware";
    LASTING "Lasting";
    BOTTOMING "Bottoming";
    SOLE_STITCHING "Sole stitching";
    HEELING "Heeling";
    EDGE "Edge";
    FINISHING "Finishing";
    INSPECTION "Inspection";
    BUILD_SHEETS "Build sheets";
    FIGURES_ATTACHED "Every figure of this build";
    REVISION "revision";
    LAST "last";
    PAGE "page";
    OF "of";
    CONTINUED "continued";
    CAUTION "Caution";
    DO "Do";
    PART "part";
    PATTERN "pattern";
    LEATHER "leather";
    SUBSTANCE "mm thick";
    ZONE "zone";
    PIECES "a foot";
    STRETCH "stretch";
    AREA "dm2 a piece";
    FOLDED "folded mm";
    LAP "lap";
    WIDE "lap mm";
    TAPER_WIDE "taper mm";
    TAPER_TO "edge to mm";
    FLAT_TO "flat in turnout mm";
    SEAM "seam";
    MACHINE "machine";
    THREAD "thread";
    NEEDLE "Nm";
    PITCH "spi";
    ROWS "rows";
    FIRST "first mm";
    APART "apart mm";
    LAYER "layer";
    OF_STOCK "of";
    THICK "mm thick";
    COVERS "covers";
    BREADTH "breadth mm";
    GRAIN "grain";
    ADHESIVE "adhesive";
    SECTION "Section where the stack is tallest, scale 4 : 1";
    BELOW "Right foot seen from below (mirrored), scale 1 : 2";
    SEWS "the machine sews";
    FEATHER "feather line";
    WALL "wall";
    FINISHED_EDGE "finished edge";
    ROW "row";
    NAILS "nails";
    FOREFOOT "forefoot row";
    BREAST "breast";
    JOINTS "joints";
    INSIDE "inside";
    OUTSIDE "outside";
    HEEL "heel";
    TOE "toe";
    SETTINGS "Set";
    MEASURE "Measure";
    STACK "Stack";
    THREAD_AND_BOBBIN "Thread and bobbin";
    ROWS_OF "Rows";
    WAIST_NAILS "Waist nails";
    SEAT_NAILS "Seat nails";
    LIFTS "Lifts and cap";
    HEEL_NAILS "Nails";
    LEVEL "Level";
    TURNOUT "Turnout";
    CHECKS "Checks";
    LOOK_AT "look at";
    WITH "with";
    TARGET "target";
    IF_FAILS "if it fails";
    DONE "done";
    CLAIMS "Claims";
    STIFFENERS "Stiffeners";
    FACING "Facing";
    MARK "Mark";
    TIMES "Times";
    MARGIN "Margin and tacks";
    THE_LAST "Last";
    UPPER "Upper";
    WAIST_NAIL "waist nail";
    SEAT_NAIL "seat nail";
    WAIST_COUNT "nails in the waist of a boot";
    SEAT_COUNT "nails in the seat of a boot";
    FOREFOOT_STITCHES "forefoot stitches";
    OUTER_STITCHES "stitches in the outer row";
    GAUGE_BEFORE "gauge before levelling, back";
    GAUGE_AFTER "gauge when level, back";
    ROW_FROM_EDGE "outer row from the edge";
    HEEL_SEEN "heel seen at the back";
    PARTS_JOINED "What is joined";
    CRITICAL "Critical: this bond alone holds the outsole. Peel the sample before the boots go on";
    SOCK "Sock lining, laces, dressing";
}

/// The words for a step of the route.
pub const STEP_WORDS: &[(&str, &str)] = &[
    ("cut", "cut the parts"),
    ("skive", "skive"),
    ("close-back", "close the back seam"),
    ("rub-flat", "rub the seam flat"),
    ("stay", "sew the stay and its loop"),
    ("gusset", "sew the tongue's gusset"),
    ("counter-cover", "sew the counter cover"),
    ("close-vamp", "lap and sew the vamp"),
    ("collar", "sew the collar"),
    ("mark", "make the maker's mark"),
    ("hardware", "set eyelets and hooks"),
    ("mull", "mull the upper"),
    ("fix-insole", "nail the insole to the last and trim it"),
    ("stiffen", "put in puff and counter"),
    ("wet-last", "wet for lasting"),
    ("set-wet", "let it set on the last"),
    ("last", "last waist, heel, toe"),
    ("cement-lining", "cement the lining in"),
    ("flatten-bottom", "flatten the bottom"),
    ("pull-toe-tacks", "pull the toe tacks"),
    ("release-cut", "make the release cuts where the turnout begins"),
    ("turn-out", "turn the outer out"),
    ("fill", "fill the bottom level"),
    ("shank", "lay shank and pad"),
    ("ink-midsole", "ink the midsole's edge that will show"),
    ("midsole", "scour, cement and hammer on the midsole"),
    ("nail-waist", "nail waist and seat to the plate, last in"),
    ("pull-last", "pull the last"),
    ("hammer-points", "hammer points flat, before anything goes over a horn"),
    ("sew-forefoot", "sew the forefoot"),
    ("prime-rubber", "buff and prime the rubber"),
    ("cement-sole", "cement what the rows go through"),
    ("press", "press, and wait"),
    ("rough-round", "rough-round"),
    ("sew-sole", "sew the rows"),
    ("trim", "trim the edge"),
    ("cement-outsole", "prime, cement and warm the outsole: it hangs on this bond alone"),
    ("press-outsole", "press the outsole, wait, trim it"),
    ("build-heel", "fit wedges and base, nail"),
    ("level", "level the base"),
    ("cap", "cement and nail the cap"),
    ("sand-edge", "sand the edge square"),
    ("inspect-inside", "feel inside by hand, hammer points flat"),
    ("sock", "lay the sock lining"),
    ("ink", "ink the edge and buff"),
    ("first-inspection", "first inspection"),
    ("final-inspection", "final inspection"),
];

/// A fixed word.
pub(super) fn of(word: Word) -> &'static str {
    WORDS[word.0]
}

/// The words for a step.
pub(super) fn step(name: &str) -> &str {
    STEP_WORDS.iter().find(|(known, _)| *known == name).map_or(name, |(_, words)| words)
}

/// The label of a figure as a sheet says it.
pub(super) fn label(label: &str) -> &str {
    label
}
