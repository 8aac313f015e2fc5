//! Words of a last: its measures, its grades, its outline.

use super::{BlockDef, Carries, Key, Kind, LENGTH, SlotKind, StatementDef, clause, needed, one, slot, word};

const SHARE: super::SlotDef = one(Kind::Share);
/// A length or girth of a whole last, from a child's first to a giant's.
const WHOLE: super::SlotDef = LENGTH.within(50.0, 600.0);
const BREADTH: super::SlotDef = LENGTH.within(10.0, 200.0);

pub(super) static LAST: BlockDef = BlockDef {
    name: "last",
    says: "A last, as measured in its base size. Other sizes are the base plus grade steps.",
    removable: false,
    statements: &[
        word("base", "The size in which it was measured.")
            .slots(&[slot(SlotKind::Size)])
            .needed()
            .example("base us-men 9 D", "base 9 D"),
        word("stick", "Its length on the size stick.").slots(&[WHOLE]).needed().example("stick 283 mm", "stick 283"),
        word("bottom", "The length of its bottom along the centre line; stations are shares of it.")
            .slots(&[WHOLE])
            .needed()
            .example("bottom 276 mm", "bottom 276 oz"),
        word("ball", "Its girth at the joints.").slots(&[WHOLE]).needed().example("ball 248 mm", "ball"),
        word("tread", "The breadth of its bottom at the joints; from the outline if left out.")
            .slots(&[BREADTH])
            .example("tread 83 mm", "tread 83"),
        word("seat-breadth", "The greatest breadth of its bottom behind the breast; from the outline if left out.")
            .slots(&[BREADTH])
            .example("seat-breadth 64 mm", "seat-breadth 64"),
        word("joints", "The stations of the joints, each side its own.")
            .clauses(&[
                needed("inside", &[SHARE.within(1.0, 99.0)], "the inside joint"),
                needed("outside", &[SHARE.within(1.0, 99.0)], "the outside joint"),
            ])
            .needed()
            .example("joints inside 70 % outside 62 %", "joints inside 70 %"),
        word("breast", "The station of the heel's breast.")
            .slots(&[SHARE.within(5.0, 60.0)])
            .needed()
            .example("breast 26 %", "breast 26 mm"),
        word("seat", "The height at which the seat stands over the ground, and how it slopes towards the breast.")
            .slots(&[LENGTH.within(0.0, 200.0)])
            .clauses(&[needed("slope", &[one(Kind::Angle).within(0.0, 45.0)], "the slope of the seat")])
            .needed()
            .example("seat 20 mm slope 3 deg", "seat 20 mm"),
        word("spring", "Toe spring: how high the toe stands over the ground.")
            .slots(&[LENGTH.within(0.0, 100.0)])
            .example("spring 11 mm", "spring 11 spi"),
        word("plate", "Where the bottom is plated, so that nails clinch: all over, at the heel, or nowhere.")
            .slots(&[slot(SlotKind::Choice(&["full", "heel", "none"]))])
            .needed()
            .example("plate full", "plate steel"),
        word("overhang", "How far the last's wall leans out over the feather line.")
            .slots(&[LENGTH.within(0.0, 20.0)])
            .example("overhang 0.5 mm", "overhang"),
        word("made", "The sizes and widths in which it is made.")
            .slots(&[slot(SlotKind::Sizes)])
            .clauses(&[needed("widths", &[slot(SlotKind::Widths)], "the widths")])
            .needed()
            .example("made us-men 5..15 by 1/2 widths B, C, D, E, EE", "made us-men 5..15 by 1/2"),
        word("grade", "What changes from size to size, or from width to width.")
            .slots(&[slot(SlotKind::Choice(&["size", "width"]))])
            .carries(Carries::Block(&GRADE))
            .key(Key::First)
            .example("grade size { ball 1/4 in; tread 1/12 in; seat-breadth 1/16 in }", "grade { ball 1/4 in }"),
        word("outline", "The bottom's half-breadths, measured square to the centre line.")
            .carries(Carries::Block(&OUTLINE))
            .needed()
            .example("outline { at 0 % inside 0 mm outside 0 mm }", "outline"),
    ],
};

const STEP: super::SlotDef = LENGTH.within(0.0, 30.0);

const fn step(name: &'static str, says: &'static str) -> StatementDef {
    word(name, says).slots(&[STEP])
}

static GRADE: BlockDef = BlockDef {
    name: "grade",
    says: "Steps for one whole size, or for one width; half sizes take half.",
    removable: false,
    statements: &[
        step("stick", "Length; the system's own step if left out. Bottom and stick grow alike.")
            .example("stick 1/3 in", "stick 1/3"),
        step("ball", "Girth at the joints.").example("ball 1/4 in", "ball 1/4"),
        step("tread", "Breadth at the joints.").example("tread 1/12 in", "tread"),
        step("seat-breadth", "Breadth of the seat.").example("seat-breadth 1/16 in", "seat-breadth 1/16"),
    ],
};

static OUTLINE: BlockDef = BlockDef {
    name: "outline",
    says: "Points of the bottom's outline, heel to toe. The first and the last stand on the centre line.",
    removable: false,
    statements: &[
        word(
            "path",
            "The whole outline as an SVG path in mm: x from the heel along the centre line, y towards the outside.",
        )
        .slots(&[slot(SlotKind::Text)])
        .example("path \"M 0 0 C 0 45 276 45 276 0 C 276 -45 0 -45 0 0 Z\"", "path 276 mm"),
        word("at", "The half-breadths at one station.")
            .slots(&[SHARE])
            .clauses(&[
                clause("inside", &[LENGTH.within(0.0, 150.0)], "from the centre line to the inside edge"),
                clause("outside", &[LENGTH.within(0.0, 150.0)], "from the centre line to the outside edge"),
            ])
            .key(Key::First)
            .example("at 5 % inside 25.2 mm outside 25.4 mm", "at 5 % inside 25.2 outside 25.4 mm"),
    ],
};
