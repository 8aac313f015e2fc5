//! Words of a model, but for its upper and its bottom.

use super::{
    Arity, BlockDef, COUNT, Carries, Key, Kind, LENGTH, SlotDef, SlotKind, TEXT, Thing, bottom, clause, needed, one,
    optional, slot, upper, window, word,
};

/// The steps of the default route, in their order, by the names that `route` uses.
pub const STEPS: &[&str] = &[
    "cut",
    "skive",
    "close-back",
    "rub-flat",
    "stay",
    "gusset",
    "counter-cover",
    "close-vamp",
    "collar",
    "facing-rows",
    "mark",
    "hardware",
    "mull",
    "fix-insole",
    "stiffen",
    "wet-last",
    "set-wet",
    "last",
    "cement-lining",
    "flatten-bottom",
    "draw-insole-nails",
    "pull-tacks",
    "release-cut",
    "turn-out",
    "fill",
    "shank",
    "ink-midsole",
    "midsole",
    "nail-waist",
    "pull-last",
    "hammer-points",
    "sew-forefoot",
    "prime-rubber",
    "cement-sole",
    "press",
    "rough-round",
    "sew-sole",
    "trim",
    "cement-outsole",
    "press-outsole",
    "build-heel",
    "level",
    "cap",
    "sand-edge",
    "inspect-inside",
    "sock",
    "ink",
    "first-inspection",
    "final-inspection",
];

const STEP: SlotDef = slot(SlotKind::Choice(STEPS));

pub(super) static MODEL: BlockDef = BlockDef {
    name: "model",
    says: "A model: one construction for all its sizes.",
    removable: true,
    statements: &[
        word("revision", "The revision; it goes up with each change that reaches a bench.")
            .slots(&[COUNT])
            .needed()
            .example("revision 3", "revision 3 mm"),
        word("last", "The last that it is made on.")
            .slots(&[slot(SlotKind::Name(&[Thing::Last]))])
            .needed()
            .example("last teller", "last 9 D"),
        word("run", "The sizes and widths that it is made in.")
            .slots(&[slot(SlotKind::Sizes)])
            .clauses(&[needed("widths", &[slot(SlotKind::Widths)], "the widths")])
            .needed()
            .example("run us-men 6..12 by 1/2, 13, 14 widths C, D, E, EE", "run us-men 12..6 by 1/2 widths C, D"),
        word("upper", "The upper.")
            .carries(Carries::Block(&upper::UPPER))
            .needed()
            .example("upper { turned-out vamp }", "upper"),
        word("lasting", "How it is lasted.")
            .carries(Carries::Block(&LASTING))
            .example("lasting { insole-nails 3 }", "lasting"),
        word("bottom", "The bottom.")
            .carries(Carries::Block(&bottom::BOTTOM))
            .needed()
            .example("bottom { layer midsole { of bend 10 iron } }", "bottom"),
        word("heel", "The heel.").carries(Carries::Block(&bottom::HEEL)).example("heel { cap cap-low }", "heel"),
        word("finish", "How it is finished.")
            .carries(Carries::Block(&FINISH))
            .example("finish { edge ink brown }", "finish"),
        word("inspect", "What is inspected besides what follows from the build.")
            .carries(Carries::Block(&INSPECT))
            .example("inspect { check pair { at \"both boots side by side\" } }", "inspect"),
        word("route", "Where the order of work differs from the default. The one block in which order counts.")
            .carries(Carries::Block(&ROUTE))
            .example("route { step mark after close-vamp }", "route"),
        word("claims", "What is claimed of it.")
            .carries(Carries::Block(&CLAIMS))
            .example("claims { height 150 mm measured inside }", "claims"),
    ],
};

static LASTING: BlockDef = BlockDef {
    name: "lasting",
    says: "How the upper is lasted.",
    removable: true,
    statements: &[
        word("mulled", "How long the upper is mulled, least and most.")
            .slots(&[window(Kind::Time)])
            .example("mulled 12..24 hours", "mulled 24..12 hours").setting(),
        word("insole-nails", "Nails that hold the insole to the last.")
            .slots(&[COUNT])
            .example("insole-nails 3", "insole-nails 3 mm"),
        word("order", "The order of lasting.")
            .slots(&[slot(SlotKind::Choices(&["waist", "heel", "toe"]))])
            .example("order waist, heel, toe", "order waist, shaft"),
        word("on-the-last", "How long it stays on the last, least and most.")
            .slots(&[window(Kind::Time)])
            .example("on-the-last 24..72 hours", "on-the-last 24").setting(),
        word("margin", "The lasting margin from the feather line.")
            .clauses(&[
                needed("at-toe", &[LENGTH], "at the toe"),
                needed("at-joints", &[LENGTH], "at the joints"),
                needed("at-heel", &[LENGTH], "at the heel"),
            ])
            .example(
                "margin at-toe 24 mm at-joints 24 mm at-heel 20 mm",
                "margin at-toe 24 at-joints 24 mm at-heel 20 mm",
            ),
        word("tacks", "How far apart the lasting tacks stand. All are drawn, but for those of this length that are left in behind the release cut.")
            .slots(&[LENGTH])
            .clauses(&[
                clause("left", &[LENGTH.within(1.0, 100.0)], "the length of the tacks that are left in"),
                clause("inside-feather", &[LENGTH.within(0.0, 50.0)], "how far inside the feather line they stand"),
            ])
            .example("tacks 10 mm left 3.5/8 in inside-feather 10 mm", "tacks 10"),
        word(
            "back-height",
            "From the seat to the back's top edge on the last, in the base size; it grows as the shaft does.",
        )
        .slots(&[LENGTH])
        .example("back-height 165 mm", "back-height"),
    ],
};

static FINISH: BlockDef = BlockDef {
    name: "finish",
    says: "How it is finished.",
    removable: true,
    statements: &[
        word("edge", "How the edge is finished, and its colour.")
            .slots(&[slot(SlotKind::Choice(&["ink", "wax", "natural"])), optional(SlotKind::Free)])
            .example("edge ink brown", "edge paint brown")
            .setting(),
        word("sock-lining", "The sock lining.")
            .slots(&[slot(SlotKind::Choice(&["full", "heel", "none"]))])
            .clauses(&[clause("of", &[slot(SlotKind::Name(&[Thing::UpperLeather]))], "its leather")])
            .example("sock-lining full", "sock-lining half"),
        word("dress", "What the upper is dressed with.")
            .slots(&[slot(SlotKind::Free)])
            .example("dress pine-oil", "dress 2"),
        word("laces", "The laces and their length.")
            .slots(&[slot(SlotKind::Free), optional(SlotKind::Amount(Kind::Length, Arity::One))])
            .example("laces waxed-brown 180 cm", "laces 180 cm"),
        word("square-within", "How square the edge stands to the ground.")
            .slots(&[one(Kind::Angle)])
            .example("square-within 2 deg", "square-within 2"),
    ],
};

static INSPECT: BlockDef = BlockDef {
    name: "inspect",
    says: "Checks of the shop's own, on the inspection sheet.",
    removable: true,
    statements: &[word("check", "A check.")
        .slots(&[slot(SlotKind::New(Thing::Check))])
        .carries(Carries::Block(&CHECK))
        .key(Key::First)
        .example("check pair { at \"both boots side by side\" }", "check { at \"both boots\" }")],
};

static CHECK: BlockDef = BlockDef {
    name: "check",
    says: "One check: place, instrument, and what happens if it fails.",
    removable: true,
    statements: &[
        word("at", "Where.").slots(&[TEXT]).needed().example("at \"inside, over the insole\"", "at inside"),
        word("with", "The instrument.").slots(&[slot(SlotKind::Free)]).example("with hand", "with \"hand\"").stock(),
        word("target", "The length wanted, with its tolerance.")
            .slots(&[slot(SlotKind::Amount(Kind::Length, Arity::Spread))])
            .example("target 30 mm +- 1 mm", "target 30"),
        word("else", "What happens to a boot that fails.")
            .slots(&[slot(SlotKind::Choice(&["repair", "reject"]))])
            .example("else repair", "else burn"),
    ],
};

static ROUTE: BlockDef = BlockDef {
    name: "route",
    says: "Moves, adds and leaves out steps of the default order of work, one after another as written. `without STEP` leaves one out.",
    removable: true,
    statements: &[
        word("step", "Puts a step behind or before another.")
            .slots(&[STEP])
            .clauses(&[
                clause("after", &[STEP], "the step that it follows"),
                clause("before", &[STEP], "the step that it precedes"),
            ])
            .key(Key::First)
            .example("step mark after close-vamp", "step mark after closing-time").setting(),
        word("skip", "Leaves a step of the default out.")
            .slots(&[STEP])
            .key(Key::First)
            .example("skip mull", "skip lunch").setting(),
        word("add", "Adds a step of the shop's own, at the bench of the step that it stands by; nothing is known of what it needs.")
            .slots(&[TEXT])
            .clauses(&[
                clause("after", &[STEP], "the step that it follows"),
                clause("before", &[STEP], "the step that it precedes"),
            ])
            .key(Key::First)
            .example("add \"oil the tongue\" after collar", "add oil after collar"),
        word("dwell", "How long the boot rests with a step before work goes on, least and most; what the stock says where it is left out.")
            .slots(&[STEP, window(Kind::Time)])
            .key(Key::First)
            .example("dwell press 24..48 hours", "dwell press 24").setting(),
    ],
};

static CLAIMS: BlockDef = BlockDef {
    name: "claims",
    says: "What is claimed. Hobnail certifies nothing: certification is an accredited laboratory's business.",
    removable: true,
    statements: &[word("height", "A least height of the boot, in every size.")
        .slots(&[LENGTH])
        .clauses(&[
            needed("measured", &[slot(SlotKind::Choice(&["inside", "from-heel"]))], "where it is measured from"),
            clause("to", &[TEXT], "the rule that asks for it"),
        ])
        .example("height 150 mm measured inside", "height 150 mm")],
};
