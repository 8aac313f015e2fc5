//! Words of the stock: leathers, rubbers, threads, nails, lifts, hardware, adhesives.

use super::{
    BlockDef, COUNT, Carries, Key, Kind, LENGTH, SlotDef, SlotKind, StatementDef, Thing, clause, one, slot, spread,
    window, word,
};

const fn stock(
    name: &'static str,
    says: &'static str,
    slots: &'static [SlotDef],
    block: &'static BlockDef,
) -> StatementDef {
    word(name, says).slots(slots).carries(Carries::Block(block)).key(Key::First)
}

pub(super) const UPPER_LEATHER_WORD: StatementDef = stock(
    "upper-leather",
    "Leather of uppers and linings, by its substance.",
    &[slot(SlotKind::New(Thing::UpperLeather))],
    &UPPER_LEATHER,
)
.example("upper-leather oil-tan { substance 6..7 oz }", "upper-leather oil-tan");
pub(super) const SOLE_LEATHER_WORD: StatementDef = stock(
    "sole-leather",
    "Leather of bottoms, by the substances stocked and their tolerance.",
    &[slot(SlotKind::New(Thing::SoleLeather))],
    &SOLE_LEATHER,
)
.example(
    "sole-leather bend { substances 12 iron, 10 iron; tolerance 0.5 iron }",
    "sole-leather { substances 12 iron }",
);
pub(super) const OUTSOLE_WORD: StatementDef =
    stock("outsole", "A moulded outsole: base and lugs.", &[slot(SlotKind::New(Thing::Outsole))], &OUTSOLE)
        .example("outsole lug-low { base 4.5 mm +- 0.3 mm; lug 3 mm +- 0.2 mm }", "outsole lug-low");
pub(super) const RUBBER_WORD: StatementDef =
    stock("rubber", "Sheet rubber: slip soles and pads.", &[slot(SlotKind::New(Thing::Rubber))], &RUBBER)
        .example("rubber slip-sheet { thickness 3 mm +- 0.2 mm }", "rubber slip-sheet");
pub(super) const FILLER_WORD: StatementDef = stock(
    "filler",
    "Filler for the hollow of a bottom: cork, felt. No nail holds in it.",
    &[slot(SlotKind::New(Thing::Filler))],
    &FILLER,
)
.example("filler cork-sheet { thickness 3 mm }", "filler cork-sheet");
pub(super) const CAP_WORD: StatementDef =
    stock("cap", "The cap (top piece) of a heel.", &[slot(SlotKind::New(Thing::Cap))], &CAP)
        .example("cap cap-low { thickness 8 mm +- 0.3 mm }", "cap cap-low");
pub(super) const STIFFENER_WORD: StatementDef = stock(
    "stiffener",
    "Board or leather of counters and toe puffs.",
    &[slot(SlotKind::New(Thing::Stiffener))],
    &STIFFENER,
)
.example("stiffener counter-leather { thickness 8 oz }", "stiffener counter-leather");
pub(super) const THREAD_WORD: StatementDef =
    stock("thread", "A sewing thread.", &[slot(SlotKind::New(Thing::Thread))], &THREAD)
        .example("thread bonded-346 { size 350 tex }", "thread bonded-346");
pub(super) const LIFT_WORD: StatementDef =
    stock("lift", "Heel lifts, by the substances stocked.", &[slot(SlotKind::New(Thing::Lift))], &LIFT)
        .example("lift lift-leather { substances 12, 9, 6 iron }", "lift lift-leather");
pub(super) const NAIL_WORD: StatementDef =
    stock("nail", "A nail, by the lengths stocked.", &[slot(SlotKind::New(Thing::Nail))], &NAIL)
        .example("nail clinching { lengths 4/8, 5/8 in; clinches }", "nail clinching");
pub(super) const EYELET_WORD: StatementDef =
    stock("eyelet", "An eyelet.", &[slot(SlotKind::New(Thing::Eyelet))], &EYELET)
        .example("eyelet brass-eyelet { punch 5 mm }", "eyelet brass-eyelet");
pub(super) const HOOK_WORD: StatementDef = stock("hook", "A speed hook.", &[slot(SlotKind::New(Thing::Hook))], &HOOK)
    .example("hook brass-hook { punch 4 mm }", "hook brass-hook");
pub(super) const ADHESIVE_WORD: StatementDef =
    stock("adhesive", "An adhesive.", &[slot(SlotKind::New(Thing::Adhesive))], &ADHESIVE)
        .example("adhesive neoprene { for soles; coats 2; open 15..40 minutes }", "adhesive neoprene");

const THICK: SlotDef = spread(Kind::Thickness).within(0.05, 100.0);

const THICKNESS: StatementDef = word("thickness", "How thick it is delivered.")
    .slots(&[THICK])
    .needed()
    .example("thickness 3 mm +- 0.2 mm", "thickness 3");

const SIDE: SlotDef = LENGTH.within(1.0, 1000.0);
const GROWS: SlotDef = LENGTH.within(0.0, 50.0);

const BLANKS: StatementDef = word(
    "blanks",
    "The sizes in which blanks are stocked; and, where they were measured, how long and how wide the blank of one size is, and how much it grows from size to size. The measures are said together.",
)
.slots(&[slot(SlotKind::Sizes)])
.clauses(&[
    clause("measured", &[one(Kind::Number).within(0.0, 1000.0)], "the size that was measured"),
    clause("long", &[SIDE], "its length, along the boot"),
    clause("wide", &[SIDE], "its breadth"),
    clause("grade-length", &[GROWS], "how much longer the next whole size is"),
    clause("grade-breadth", &[GROWS], "how much wider the next whole size is"),
])
.example("blanks us-men 5..14 measured 9 long 232 mm wide 130 mm grade-length 1/4 in grade-breadth 1/12 in", "blanks 5..14");

static UPPER_LEATHER: BlockDef = BlockDef {
    name: "upper-leather",
    says: "A leather of the upper. Its substance is a spread: the tannery delivers all of it.",
    removable: false,
    statements: &[
        word("substance", "The substance as delivered.")
            .slots(&[THICK])
            .needed()
            .example("substance 6..7 oz", "substance 7..6 oz"),
        word(
            "one-hide",
            "Both uppers of a pair, and all parts of one boot, are cut from one hide, so they vary together.",
        )
        .example("one-hide", "one-hide 2"),
        word("holds", "The force at which one stitch tears out of it, per hole, as measured on offcuts.")
            .slots(&[one(Kind::Force)])
            .example("holds 180 N", "holds 180"),
        word("hide", "The area of a hide.")
            .slots(&[one(Kind::Area).within(0.1, 1000.0)])
            .example("hide 22 sqft", "hide 22"),
        word("of-hide", "How much of a hide each zone is; together no more than all of it.")
            .slots(&[slot(SlotKind::Pairs(&["prime", "second"], Kind::Share)).within(1.0, 100.0)])
            .example("of-hide prime 45 %, second 40 %", "of-hide prime 145 %"),
        word("cuts", "Net over gross when cutting in each zone.")
            .slots(&[slot(SlotKind::Pairs(&["prime", "second"], Kind::Share)).within(1.0, 100.0)])
            .example("cuts prime 72 %, second 65 %", "cuts prime 72 mm"),
    ],
};

static SOLE_LEATHER: BlockDef = BlockDef {
    name: "sole-leather",
    says: "A leather of the bottom, stocked in substances; the tolerance holds for each of them.",
    removable: false,
    statements: &[
        word("substances", "The substances stocked.")
            .slots(&[slot(SlotKind::List(Kind::Thickness)).within(0.1, 50.0)])
            .needed()
            .example("substances 12 iron, 10 iron", "substances 12, 10"),
        word("tolerance", "How far a piece may be from its substance, either way.")
            .slots(&[one(Kind::Thickness).within(0.0, 10.0)])
            .example("tolerance 0.5 iron", "tolerance half"),
        word("yield", "Net over gross when pressing.")
            .slots(&[one(Kind::Share).within(1.0, 100.0)])
            .example("yield 70 %", "yield 170 %"),
    ],
};

static OUTSOLE: BlockDef = BlockDef {
    name: "outsole",
    says: "A moulded outsole: the base carries the lugs.",
    removable: false,
    statements: &[
        word("base", "The thickness of the base between the lugs.")
            .slots(&[THICK])
            .needed()
            .example("base 4.5 mm +- 0.3 mm", "base 4.5 mm +- 5 mm"),
        word("lug", "The height of the lugs. Without it the outsole is flat.")
            .slots(&[THICK])
            .example("lug 3 mm +- 0.2 mm", "lug"),
        word(
            "channel",
            "A channel in the tread under the rows: between which distances from the finished edge it runs.",
        )
        .slots(&[window(Kind::Length)])
        .clauses(&[clause("deep", &[THICK], "its depth; down to the base's face if left out")])
        .example("channel 2..12 mm", "channel 12..2 mm"),
        BLANKS,
    ],
};

static RUBBER: BlockDef =
    BlockDef { name: "rubber", says: "Sheet rubber.", removable: false, statements: &[THICKNESS] };

static FILLER: BlockDef =
    BlockDef { name: "filler", says: "Filler, by its thickness.", removable: false, statements: &[THICKNESS] };

static CAP: BlockDef = BlockDef {
    name: "cap",
    says: "The cap of a heel, the piece that walks.",
    removable: false,
    statements: &[THICKNESS, BLANKS],
};

static STIFFENER: BlockDef = BlockDef {
    name: "stiffener",
    says: "What counters and toe puffs are made of; skived out at the feather.",
    removable: false,
    statements: &[THICKNESS],
};

static THREAD: BlockDef = BlockDef {
    name: "thread",
    says: "A thread. Its diameter is measured, or follows from size, density and packing.",
    removable: false,
    statements: &[
        word("size", "Its size in tex (grams per 1000 m, ISO 1144) or denier.")
            .slots(&[one(Kind::ThreadSize)])
            .needed()
            .example("size 350 tex", "size 350"),
        word("needle", "The needle that its maker names for leather.")
            .slots(&[window(Kind::NeedleSize)])
            .example("needle 230 Nm", "needle 230/21"),
        word("strength", "Its breaking strength.").slots(&[one(Kind::Force)]).example("strength 249 N", "strength 249"),
        word("density", "The density of its fibre.")
            .slots(&[one(Kind::Density)])
            .default("1.14 g/cm3")
            .example("density 1.14 g/cm3", "density 1.14"),
        word("packing", "How much of its round is fibre.")
            .slots(&[one(Kind::Number).within(0.1, 1.0)])
            .default("0.7")
            .example("packing 0.7", "packing 0.7 mm"),
        word("diameter", "Its diameter, where it was measured.")
            .slots(&[LENGTH.within(0.01, 10.0)])
            .example("diameter 0.74 mm", "diameter 0.74"),
    ],
};

static LIFT: BlockDef = BlockDef {
    name: "lift",
    says: "Heel lifts. A stack of them is built to a gauge, so their own tolerance does not count.",
    removable: false,
    statements: &[word("substances", "The substances stocked.")
        .slots(&[slot(SlotKind::List(Kind::Thickness)).within(0.1, 50.0)])
        .needed()
        .example("substances 12, 9, 6 iron", "substances iron")],
};

static NAIL: BlockDef = BlockDef {
    name: "nail",
    says: "A nail, in the lengths stocked.",
    removable: false,
    statements: &[
        word("lengths", "The lengths stocked.")
            .slots(&[slot(SlotKind::List(Kind::Length)).within(1.0, 100.0)])
            .needed()
            .example("lengths 4/8, 4.5/8, 5/8 in", "lengths 4/8, 5/8"),
        word("shank", "Its diameter.").slots(&[LENGTH.within(0.1, 10.0)]).example("shank 1.8 mm", "shank 1.8"),
        word("clinches", "Its point turns over on a steel plate.").example("clinches", "clinches 2"),
        word("sunk", "How deep its head is driven below the face.")
            .slots(&[LENGTH.within(0.0, 20.0)])
            .example("sunk 0.5 mm", "sunk"),
        word("weight", "How many go to the kilogram, for buying.")
            .slots(&[COUNT.within(1.0, 1_000_000.0)])
            .example("weight 1400", "weight heavy"),
    ],
};

const PUNCH: StatementDef = word("punch", "The hole that it is set in.")
    .slots(&[LENGTH.within(0.1, 50.0)])
    .needed()
    .example("punch 5 mm", "punch 5");
const HARDWARE_THROUGH: StatementDef = word("through", "The thickness that its barrel closes on.")
    .slots(&[window(Kind::Thickness)])
    .example("through 2..5 mm", "through 5..2 mm");

static EYELET: BlockDef =
    BlockDef { name: "eyelet", says: "An eyelet.", removable: false, statements: &[PUNCH, HARDWARE_THROUGH] };

static HOOK: BlockDef =
    BlockDef { name: "hook", says: "A speed hook.", removable: false, statements: &[PUNCH, HARDWARE_THROUGH] };

static ADHESIVE: BlockDef = BlockDef {
    name: "adhesive",
    says: "An adhesive, as its maker's data sheet and the shop's practice have it.",
    removable: false,
    statements: &[
        word("for", "What it holds: soles, linings, or both. Without this it bonds no sole.")
            .slots(&[slot(SlotKind::Choices(&["soles", "linings"]))])
            .example("for soles, linings", "for heels"),
        word("coats", "Coats on each face.").slots(&[COUNT.within(1.0, 20.0)]).example("coats 2", "coats 2 mm"),
        word("coverage", "What one coat takes.")
            .slots(&[one(Kind::Coverage)])
            .example("coverage 180 g/m2", "coverage 180"),
        word("open", "Open time: the least and the most before the faces are joined.")
            .slots(&[window(Kind::Time)])
            .example("open 15..40 minutes", "open 40..15 minutes"),
        word("film", "How thick the dry film between two joined faces is.")
            .slots(&[spread(Kind::Thickness).within(0.0, 5.0)])
            .example("film 0.15 mm +- 0.05 mm", "film 0.15"),
        word("press", "How long it is pressed.").slots(&[one(Kind::Time)]).example("press 1 minutes", "press hard"),
        word("set", "How long it must set before work goes on.")
            .slots(&[one(Kind::Time)])
            .clauses(&[clause("reactivated", &[], "the film is warmed before the faces are joined")])
            .example("set 24 hours", "set"),
    ],
};
