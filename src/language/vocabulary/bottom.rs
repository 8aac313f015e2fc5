//! Words of the bottom and the heel.

use super::{
    BlockDef, COUNT, Carries, Key, Kind, LENGTH, SlotKind, StatementDef, Thing, Toward, clause, needed, one, optional,
    slot, word,
};

const LIFT_CLAUSE: super::ClauseDef = needed(
    "of",
    &[slot(SlotKind::Name(&[Thing::Lift])), one(Kind::Thickness).within(0.1, 50.0)],
    "the lift and its substance",
);

const PITCH: StatementDef = word("pitch", "Stitches per inch (or the length of one, in mm).")
    .slots(&[one(Kind::Pitch)])
    .example("pitch 5 spi", "pitch 5")
    .setting();
const THREAD: StatementDef = word("thread", "The thread.")
    .slots(&[slot(SlotKind::Name(&[Thing::Thread]))])
    .example("thread bonded-346", "thread 346")
    .stock();
const NEEDLE: StatementDef = word("needle", "The needle's size.")
    .slots(&[one(Kind::NeedleSize)])
    .example("needle 230 Nm", "needle 230/26")
    .setting();
const ON: StatementDef = word("on", "The machine.")
    .slots(&[slot(SlotKind::Name(&[Thing::Machine]))])
    .example("on sole-stitcher", "on 2")
    .setting();
const WITH: StatementDef = word("with", "The nail.")
    .slots(&[slot(SlotKind::Name(&[Thing::Nail]))])
    .example("with clinching", "with 5/8 in")
    .stock();
const INSIDE_FEATHER: StatementDef = word("inside-feather", "From the feather line inward.")
    .slots(&[LENGTH.within(0.0, 50.0)])
    .example("inside-feather 10 mm", "inside-feather 10")
    .setting();
const APART: StatementDef = word("apart", "From nail to nail, or from row to row.")
    .slots(&[LENGTH.within(0.5, 200.0)])
    .example("apart 12 mm", "apart 12")
    .setting();
const LENGTH_OF_NAIL: StatementDef = word("length", "The nail's length; the shortest that serves if left out.")
    .slots(&[LENGTH.within(1.0, 100.0)])
    .example("length 4.5/8 in", "length 4.5/8")
    .stock();
const TO: StatementDef =
    word("to", "The station to which the line is carried; its due end behind the joint if left out.")
        .slots(&[one(Kind::Share).within(1.0, 99.0).never_first(Toward::More)])
        .example("to 58 %", "to 58 mm")
        .construction();

const TURNOUT: super::SlotDef = LENGTH.within(0.0, 100.0);

pub(super) static BOTTOM: BlockDef = BlockDef {
    name: "bottom",
    says: "The bottom: what lies under the foot and how it is held.",
    removable: true,
    statements: &[
        word("turnout", "From the upper's wall to the finished edge, each zone its own.")
            .clauses(&[
                needed("at-forepart", &[TURNOUT], "round the toe, to the joints"),
                needed("at-waist", &[TURNOUT], "between the joints and the heel"),
                clause("at-waist-inside", &[TURNOUT], "the waist's inside, where it differs"),
                needed("at-heel", &[TURNOUT], "round the heel, where the outer is lasted in"),
            ])
            .needed()
            .example("turnout at-forepart 11 mm at-waist 11 mm at-heel 4 mm", "turnout at-forepart 11 mm at-waist 11 at-heel 4 mm"),
        word("layer", "A layer of the bottom. Roles have a fixed order: insole, arch, shank, pad, filler, midsole, slip, outsole.")
            .slots(&[slot(SlotKind::Choice(&["insole", "arch", "shank", "pad", "filler", "midsole", "slip", "outsole"]))])
            .carries(Carries::Block(&LAYER))
            .key(Key::First)
            .example("layer midsole { of bend 12 iron }", "layer welt { of bend 12 iron }").construction(),
        word("forefoot", "How the forefoot is held: sewn through, last out.")
            .slots(&[slot(SlotKind::Choice(&["sewn", "nailed"]))])
            .carries(Carries::Block(&FOREFOOT))
            .example("forefoot sewn { pitch 4.5 spi }", "forefoot glued { pitch 4.5 spi }"),
        word("waist", "How waist and seat are held: nailed, last in, clinched on its plate.")
            .slots(&[slot(SlotKind::Choice(&["nailed"]))])
            .carries(Carries::Block(&NAIL_LINE))
            .example("waist nailed { with clinching }", "waist tied { with clinching }"),
        word("seat", "The seat's nails, where they differ from the waist's.")
            .slots(&[slot(SlotKind::Choice(&["nailed"]))])
            .carries(Carries::Block(&SEAT_LINE))
            .example("seat nailed { apart 10 mm }", "seat tied { apart 10 mm }"),
        word("sole", "The sole's rows through the turnout.")
            .slots(&[slot(SlotKind::Choice(&["sewn"]))])
            .carries(Carries::Block(&SOLE))
            .needed()
            .example("sole sewn { rows 2 }", "sole sewed { rows 2 }"),
    ],
};

static LAYER: BlockDef = BlockDef {
    name: "layer",
    says: "A layer of the bottom.",
    removable: true,
    statements: &[
        word("of", "What it is made of; for sole leather, which substance.")
            .slots(&[
                slot(SlotKind::Name(&[
                    Thing::SoleLeather,
                    Thing::Outsole,
                    Thing::Rubber,
                    Thing::Filler,
                    Thing::UpperLeather,
                ])),
                optional(SlotKind::Amount(Kind::Thickness, super::Arity::One)),
            ])
            .needed()
            .example("of bend 12 iron", "of bend 12 spi")
            .stock(),
        word("covers", "What it covers.")
            .slots(&[slot(SlotKind::Choice(&["all", "forepart", "waist", "seat"]))])
            .default("all")
            .example("covers waist", "covers middle")
            .construction(),
        word("breadth", "Its breadth, centred on the centre line; the whole bottom if left out.")
            .slots(&[LENGTH.within(1.0, 200.0)])
            .example("breadth 30 mm", "breadth 30")
            .construction(),
        word("front", "Where a shank, pad or arch piece ends in front: behind the joint that it comes to first.")
            .slots(&[LENGTH.within(0.0, 100.0), slot(SlotKind::Choice(&["behind-joint"]))])
            .example("front 12 mm behind-joint", "front 12 mm"),
        word("back", "Where a shank, pad or arch piece ends behind the breast, under the heel.")
            .slots(&[LENGTH.within(0.0, 100.0), slot(SlotKind::Choice(&["under-heel"]))])
            .example("back 20 mm under-heel", "back 20 under-heel"),
        word(
            "skived",
            "The length over which it is skived to nothing: at its ends and sides; of a filler, ahead of the breast.",
        )
        .slots(&[slot(SlotKind::ValueOrPairs(&["ends", "sides"], Kind::Length)).within(0.0, 200.0)])
        .example("skived ends 25 mm, sides 8 mm", "skived ends 25 mm, sides 8"),
        word(
            "ends",
            "Where it ends at the heel: at the breast, full to the back, or tucked some mm behind the breast.",
        )
        .slots(&[
            slot(SlotKind::Choice(&["at-breast", "full", "tucked"])),
            optional(SlotKind::Amount(Kind::Length, super::Arity::One)).within(0.0, 200.0),
        ])
        .default("full")
        .example("ends at-breast", "ends somewhere")
        .construction(),
        word("grain", "Which way its grain side looks.")
            .slots(&[slot(SlotKind::Choice(&["up", "down"]))])
            .example("grain down", "grain sideways"),
        word("bonded", "The adhesive that holds it to the layer above.")
            .slots(&[slot(SlotKind::Name(&[Thing::Adhesive]))])
            .example("bonded neoprene", "bonded 2")
            .stock(),
        word("hammered", "How much thinner hammering it on makes it, as the shop measured it.")
            .slots(&[one(Kind::Share).within(0.0, 30.0)])
            .example("hammered 5 %", "hammered 5 mm"),
        word("rigid", "No nail goes through it.").example("rigid", "rigid 2").construction(),
        word("lugs-off", "The lugs are buffed off where the heel's base stands on them.")
            .example("lugs-off", "lugs-off 2"),
    ],
};

static FOREFOOT: BlockDef = BlockDef {
    name: "forefoot",
    says: "The forefoot's through-seam.",
    removable: true,
    statements: &[ON, INSIDE_FEATHER, PITCH, THREAD, NEEDLE, WITH, APART],
};

static NAIL_LINE: BlockDef = BlockDef {
    name: "waist",
    says: "A line of clinch nails along each side of the waist and round the seat.",
    removable: true,
    statements: &[WITH.needed(), INSIDE_FEATHER.needed(), APART.needed(), LENGTH_OF_NAIL, TO],
};

static SEAT_LINE: BlockDef = BlockDef {
    name: "seat",
    says: "The seat's nails; what is left out is as in the waist.",
    removable: true,
    statements: &[WITH, INSIDE_FEATHER, APART, LENGTH_OF_NAIL],
};

static SOLE: BlockDef = BlockDef {
    name: "sole",
    says: "The rows that hold the sole, outermost first.",
    removable: true,
    statements: &[
        word("through", "How far down the rows go. What lies below is cemented afterwards.")
            .slots(&[slot(SlotKind::Choice(&["outsole", "slip", "midsole"]))])
            .needed()
            .example("through outsole", "through everything")
            .construction(),
        ON.needed(),
        word("rows", "How many rows.")
            .slots(&[COUNT.within(1.0, 8.0).never_first(Toward::Less)])
            .needed()
            .example("rows 2", "rows 2 mm")
            .construction(),
        word("from-edge", "The outer row from the finished edge.")
            .slots(&[LENGTH.within(0.0, 100.0).never_first(Toward::Less)])
            .needed()
            .example("from-edge 3.5 mm", "from-edge 3.5")
            .setting(),
        word(
            "all-round",
            "The rows run all round and close on themselves; else they start and stop behind the breast.",
        )
        .example("all-round", "all-round 1"),
        APART,
        PITCH.needed(),
        THREAD.needed(),
        NEEDLE.needed(),
    ],
};

const ACROSS: StatementDef = word("across", "Nails across the heel, evenly between the ends of the ring.")
    .slots(&[COUNT.within(0.0, 20.0)])
    .example("across 2", "across 2 mm");
const LEANS: StatementDef = word("leans", "How far the points lean inward.")
    .slots(&[one(Kind::Angle).within(0.0, 30.0)])
    .example("leans 5 deg", "leans 5");

const PLACES: &[&str] = &["back", "sides", "breast"];

pub(super) static HEEL: BlockDef = BlockDef {
    name: "heel",
    says: "The stacked heel, from the seat down.",
    removable: true,
    statements: &[
        word("wedges", "Split lifts that take up the slope of the seat.")
            .slots(&[COUNT.within(0.0, 20.0)])
            .clauses(&[LIFT_CLAUSE])
            .example("wedges 1 of lift-leather 12 iron", "wedges 1 of lift-leather")
            .construction(),
        word("lifts", "Whole lifts.")
            .slots(&[COUNT.within(0.0, 20.0)])
            .clauses(&[LIFT_CLAUSE])
            .example("lifts 2 of lift-leather 12 iron", "lifts of lift-leather 12 iron")
            .construction(),
        word("thin-lifts", "Further lifts of another substance.")
            .slots(&[COUNT.within(0.0, 20.0)])
            .clauses(&[LIFT_CLAUSE])
            .example("thin-lifts 1 of lift-leather 9 iron", "thin-lifts 1 of lift-leather nine")
            .construction(),
        word("cap", "The cap.")
            .slots(&[slot(SlotKind::Name(&[Thing::Cap]))])
            .needed()
            .example("cap cap-low", "cap 8 mm")
            .stock(),
        word("bonded", "The adhesive that holds the base to the sole, the lifts to each other and the cap.")
            .slots(&[slot(SlotKind::Name(&[Thing::Adhesive]))])
            .example("bonded neoprene", "bonded 2 coats")
            .stock(),
        word("nailed", "How the heel is nailed.")
            .carries(Carries::Block(&NAILED))
            .example("nailed { base heel-nail 7/8 in; cap cap-nail }", "nailed"),
    ],
};

static NAILED: BlockDef = BlockDef {
    name: "nailed",
    says: "The heel's nails: through the base into the midsole, and through the cap into the base.",
    removable: true,
    statements: &[
        word("base", "The nails of the base: one length, or by place.")
            .slots(&[
                slot(SlotKind::Name(&[Thing::Nail])),
                optional(SlotKind::ValueOrPairs(PLACES, Kind::Length)).within(1.0, 100.0),
            ])
            .example("base heel-nail back 8/8 in, breast 7/8 in", "base heel-nail back 8/8, breast 7/8 in")
            .stock(),
        word("cap", "The nails of the cap.")
            .slots(&[
                slot(SlotKind::Name(&[Thing::Nail])),
                optional(SlotKind::Amount(Kind::Length, super::Arity::One)).within(1.0, 100.0),
            ])
            .example("cap cap-nail 5/8 in", "cap cap-nail 5/8")
            .stock(),
        word("stage", "A stage of nailing, in their order.")
            .slots(&[COUNT.within(1.0, 9.0)])
            .carries(Carries::Block(&STAGE))
            .key(Key::First)
            .example("stage 1 { wedges; lifts 1; lengths back 8/8 in, breast 5/8 in }", "stage { wedges }")
            .construction(),
        word("inside-feather", "The base's nails from the feather line inward.")
            .slots(&[LENGTH.within(0.0, 50.0)])
            .example("inside-feather 6 mm", "inside-feather 6")
            .setting(),
        word(
            "inside-edge",
            "The cap's nails from the heel's own edge; the base's, too, where it says nothing of the feather line.",
        )
        .slots(&[LENGTH.within(0.0, 50.0)])
        .example("inside-edge 1/4 in", "inside-edge 1/4")
        .setting(),
        word("behind-breast", "How far behind the breast line the nails begin.")
            .slots(&[LENGTH.within(0.0, 100.0)])
            .example("behind-breast 8 mm", "behind-breast 8"),
        ACROSS,
        LEANS,
        word("apart", "From nail to nail.")
            .slots(&[LENGTH.within(0.5, 200.0)])
            .example("apart 1/2 in", "apart 1/2")
            .setting(),
    ],
};

static STAGE: BlockDef = BlockDef {
    name: "stage",
    says: "What one stage nails.",
    removable: true,
    statements: &[
        word("wedges", "The wedges are nailed in this stage.").example("wedges", "wedges 1").construction(),
        word("lifts", "How many lifts are nailed in this stage.")
            .slots(&[COUNT.within(0.0, 20.0)])
            .example("lifts 1", "lifts 1 mm")
            .construction(),
        word("lengths", "The nails' lengths: one, or by place.")
            .slots(&[slot(SlotKind::ValueOrPairs(PLACES, Kind::Length)).within(1.0, 100.0)])
            .needed()
            .example("lengths back 8/8 in, breast 5/8 in", "lengths back 8/8")
            .stock(),
        ACROSS,
        LEANS,
    ],
};
