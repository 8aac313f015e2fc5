//! Words of the upper: parts, laps, seams, stay, gusset, facing, mark.

use super::{
    BlockDef, COUNT, Carries, Key, Kind, LENGTH, SlotKind, StatementDef, TEXT, Thing, Toward, clause, needed, one,
    optional, slot, spread, word,
};

const PART_NAME: super::SlotDef = slot(SlotKind::Name(&[Thing::Part]));

pub(super) static UPPER: BlockDef = BlockDef {
    name: "upper",
    says: "The upper: its parts and how they are joined.",
    removable: true,
    statements: &[
        word("shaft", "The height of the shaft inside at the back, in the last's base size, and how it grades a size.")
            .slots(&[LENGTH])
            .clauses(&[clause("grade", &[LENGTH], "how much it grows with a whole size")])
            .example("shaft 165 mm grade 2 mm", "shaft 165 mm grade"),
        word("part", "A part of the upper.")
            .slots(&[slot(SlotKind::New(Thing::Part))])
            .carries(Carries::Block(&PART))
            .key(Key::First)
            .example("part vamp { of oil-tan }", "part { of oil-tan }"),
        word("turned-out", "The outer parts that are turned out under the sole's rows, named from the heel to the toe. The first is lasted in at the seat.")
            .slots(&[slot(SlotKind::Names(Thing::Part))])
            .needed()
            .example("turned-out quarter, vamp", "turned-out"),
        word("lasted-in", "A lining that is lasted in under the insole's edge: all round, or as far as it reaches.")
            .slots(&[PART_NAME])
            .clauses(&[
                clause("from", &[one(Kind::Share).within(0.0, 100.0)], "from this station back, a quarter lining"),
                clause("to", &[one(Kind::Share).within(0.0, 100.0)], "from the toe back to this station, a half lining"),
                clause("bonded", &[slot(SlotKind::Name(&[Thing::Adhesive]))], "the adhesive that it is cemented in with"),
            ])
            .key(Key::First)
            .example("lasted-in vamp-lining to 45 % bonded latex", "lasted-in vamp-lining to 45 mm bonded latex"),
        word("lap", "A lap: the first part lies on top of the second.")
            .slots(&[PART_NAME])
            .clauses(&[needed("over", &[PART_NAME], "the part underneath")])
            .carries(Carries::Block(&LAP))
            .key(Key::First)
            .example("lap vamp over quarter { wide 16 mm }", "lap vamp { wide 16 mm }"),
        word("seam", "A closed seam: two parts face to face, opened and rubbed flat.")
            .slots(&[slot(SlotKind::New(Thing::Seam))])
            .carries(Carries::Block(&SEAM))
            .key(Key::First)
            .example("seam back { joins quarter, quarter }", "seam { joins quarter }"),
        word("stay", "A stay over a seam, with its loop.")
            .slots(&[slot(SlotKind::New(Thing::Stay))])
            .carries(Carries::Block(&STAY))
            .key(Key::First)
            .example("stay back-stay { of stay; covers-seam back }", "stay { of stay }"),
        word("gusset", "The gusset of a tongue, sewn to its neighbours up to a height.")
            .slots(&[PART_NAME])
            .carries(Carries::Block(&GUSSET))
            .key(Key::First)
            .example("gusset tongue { to 150 mm }", "gusset { to 150 mm }"),
        word("collar", "The collar at the top edge.")
            .slots(&[PART_NAME])
            .carries(Carries::Block(&COLLAR))
            .example("collar collar-band { folded 8 mm }", "collar { folded 8 mm }"),
        word("counter", "The heel's stiffener.")
            .carries(Carries::Block(&STIFFENED))
            .example("counter { of counter-leather; skived 14 mm }", "counter"),
        word("puff", "The toe's stiffener.")
            .carries(Carries::Block(&STIFFENED))
            .example("puff { of puff-board; skived 10 mm }", "puff"),
        word("facing", "The edges that are laced together: row, eyelets and hooks.")
            .carries(Carries::Block(&FACING))
            .example("facing { eyelets 5 of brass-eyelet apart 18 mm }", "facing"),
        word("mark", "The maker's mark.")
            .slots(&[slot(SlotKind::Choice(&["stamped", "sewn-label"])), TEXT])
            .clauses(&[needed("on", &[PART_NAME], "the part that bears it")])
            .example("mark stamped \"Tarnbeck\" on tongue", "mark stamped on tongue"),
    ],
};

static PART: BlockDef = BlockDef {
    name: "part",
    says: "A part: its leather and how it is cut.",
    removable: true,
    statements: &[
        word("of", "The leather that it is cut from.")
            .slots(&[slot(SlotKind::Name(&[Thing::UpperLeather]))])
            .needed()
            .example("of oil-tan", "of 7 oz")
            .stock(),
        word("zone", "The zone of the hide that it is cut from.")
            .slots(&[slot(SlotKind::Choice(&["prime", "second"]))])
            .example("zone prime", "zone belly"),
        word("pieces", "How many pieces a foot takes.")
            .slots(&[COUNT.within(1.0, 100.0)])
            .needed()
            .example("pieces 2", "pieces 2 mm"),
        word("area", "The net area of one piece in the last's base size.")
            .slots(&[one(Kind::Area).within(0.01, 100.0)])
            .needed()
            .example("area 4.4 dm2", "area 4.4 mm"),
        word("stretch", "Which way the leather may stretch: along the part or across it.")
            .slots(&[slot(SlotKind::Choice(&["along", "across", "either"]))])
            .example("stretch across", "stretch up"),
        word("pattern", "The number of its pattern.").slots(&[TEXT]).example("pattern \"S8-1\"", "pattern S8"),
        word("folded", "The edge that is folded over.").slots(&[LENGTH]).example("folded 8 mm", "folded 8"),
    ],
};

const ROWS: StatementDef = word("rows", "How many rows; the first from the edge, and how far they are apart.")
    .slots(&[COUNT.within(1.0, 20.0).never_first(Toward::Less)])
    .clauses(&[
        clause("first", &[LENGTH], "the first row from the top part's edge"),
        clause("apart", &[LENGTH], "from row to row"),
    ])
    .needed()
    .example("rows 3 first 2 mm apart 3.5 mm", "rows 3 first 2 apart 3.5 mm")
    .construction();

/// Statements of a block, and behind them those of its stitching.
macro_rules! stitching {
    ($($statement:expr),* $(,)?) => { stitching![rows ROWS; $($statement),*] };
    (rows $rows:expr; $($statement:expr),* $(,)?) => {
        &[
            $($statement,)*
            $rows,
            word("long", "How long one row is on one boot, all its stretches together, in the last's base size; grades with the last's length. Without it the thread is not known.")
                .slots(&[LENGTH.within(1.0, 10_000.0)])
                .example("long 260 mm", "long 260"),
            word("pitch", "Stitches per inch (or the length of one, in mm).")
                .slots(&[one(Kind::Pitch)])
                .needed()
                .example("pitch 8 spi", "pitch 8").setting(),
            word("thread", "The thread, top and bottom.")
                .slots(&[slot(SlotKind::Name(&[Thing::Thread]))])
                .needed()
                .example("thread bonded-138", "thread 138").stock(),
            word("needle", "The needle's size.").slots(&[one(Kind::NeedleSize)]).needed().example("needle 130 Nm", "needle 130/21").setting(),
            word("on", "The machine.")
                .slots(&[slot(SlotKind::Name(&[Thing::Machine]))])
                .needed()
                .example("on post-bed", "on 2").setting(),
        ]
    };
}

const STOPS: StatementDef = word(
    "stops-above-feather",
    "How far above the feather line it stops, so that no nail of the seat goes through it.",
)
.slots(&[LENGTH])
.example("stops-above-feather 8 mm", "stops-above-feather 8");

static LAP: BlockDef = BlockDef {
    name: "lap",
    says: "A lap of one part over another.",
    removable: true,
    statements: stitching![
        word("wide", "How far the parts lie on each other.")
            .slots(&[LENGTH.within(1.0, 200.0)])
            .needed()
            .example("wide 16 mm", "wide 16 oz"),
        STOPS,
        word("skive", "How one of the two parts is thinned.")
            .slots(&[PART_NAME])
            .carries(Carries::Block(&SKIVE))
            .key(Key::First)
            .example("skive quarter { edge wide 12 mm to 1.0 mm }", "skive { edge wide 12 mm to 1.0 mm }"),
        word("enters-turnout", "Where the top part's edge meets the feather line, each side its own station.")
            .clauses(&[
                clause("inside", &[one(Kind::Share).within(1.0, 99.0)], "on the inside"),
                clause("outside", &[one(Kind::Share).within(1.0, 99.0)], "on the outside"),
            ])
            .example("enters-turnout outside 38 % inside 44 %", "enters-turnout outside 38"),
        word(
            "leans",
            "The angle between the top part's edge and the feather line, on the toe side; square if left out."
        )
        .slots(&[one(Kind::Angle).within(10.0, 170.0)])
        .example("leans 70 deg", "leans 70"),
    ],
};

static SKIVE: BlockDef = BlockDef {
    name: "skive",
    says: "How a part is thinned: to a taper at its edge, flat inside the turnout, or both.",
    removable: true,
    statements: &[
        word("edge", "A taper: full thickness down to the figure at the edge, over a width.")
            .clauses(&[
                needed("wide", &[LENGTH.within(0.5, 200.0)], "the width of the taper"),
                needed("to", &[spread(Kind::Thickness)], "what is left at the edge"),
            ])
            .example("edge wide 12 mm to 1.0 mm", "edge wide 12 mm to 1.0")
            .setting(),
        word("in-turnout", "Thinned over the whole lap where it lies in the turnout.")
            .slots(&[slot(SlotKind::Choice(&["flat"]))])
            .clauses(&[needed("to", &[spread(Kind::Thickness)], "what is left")])
            .example("in-turnout flat to 1.0 mm +- 0.25 mm", "in-turnout flat")
            .setting(),
    ],
};

static SEAM: BlockDef = BlockDef {
    name: "seam",
    says: "A closed seam.",
    removable: true,
    statements: stitching![
        word("joins", "The parts that it joins; one name if both sides are the same part.")
            .slots(&[slot(SlotKind::Names(Thing::Part))])
            .needed()
            .example("joins quarter", "joins 2"),
        word("allowance", "From the edge to the row.")
            .slots(&[LENGTH])
            .needed()
            .example("allowance 3 mm", "allowance 3"),
        word("rubbed-flat", "The allowances are opened and rubbed flat.")
            .example("rubbed-flat", "rubbed-flat 2")
            .construction(),
        word("skived-at-feather", "The allowances are skived out where they come to the feather line.")
            .example("skived-at-feather", "skived-at-feather 2"),
    ],
};

static STAY: BlockDef = BlockDef {
    name: "stay",
    says: "A stay over a closed seam.",
    removable: true,
    statements: stitching![
        word("of", "The part that is the stay.").slots(&[PART_NAME]).needed().example("of stay", "of 2").stock(),
        word("covers-seam", "The seam that it covers.")
            .slots(&[slot(SlotKind::Name(&[Thing::Seam]))])
            .needed()
            .example("covers-seam back", "covers-seam"),
        word("wide", "Its width.").slots(&[LENGTH]).needed().example("wide 26 mm", "wide 26"),
        word("loop", "The length that is left for the pull loop.").slots(&[LENGTH]).example("loop 90 mm", "loop"),
        STOPS,
    ],
};

static GUSSET: BlockDef = BlockDef {
    name: "gusset",
    says: "A gusseted tongue.",
    removable: true,
    statements: stitching![rows ROWS.pattern();
        word("joins", "The part that it is sewn to.").slots(&[PART_NAME]).needed().example("joins quarter", "joins 4"),
        word("to", "How high it is sewn, inside from the seat.")
            .slots(&[LENGTH])
            .needed()
            .example("to 150 mm", "to 150"),
    ],
};

static COLLAR: BlockDef = BlockDef {
    name: "collar",
    says: "The collar.",
    removable: true,
    statements: stitching![
        word("joins", "The part that it is sewn to.").slots(&[PART_NAME]).needed().example("joins quarter", "joins 4"),
        word("folded", "How much of it is folded in.").slots(&[LENGTH]).example("folded 8 mm", "folded 8"),
    ],
};

static STIFFENED: BlockDef = BlockDef {
    name: "stiffened",
    says: "A stiffener between outer and lining, skived out at the feather.",
    removable: true,
    statements: &[
        word("of", "What it is made of.")
            .slots(&[slot(SlotKind::Name(&[Thing::Stiffener]))])
            .needed()
            .example("of counter-leather", "of 8 oz")
            .stock(),
        word("skived", "How wide its edges are skived.").slots(&[LENGTH]).example("skived 14 mm", "skived 14"),
        word("reaches", "How far it reaches: up the back for a counter, back from the toe for a puff.")
            .slots(&[LENGTH])
            .example("reaches 55 mm", "reaches 55"),
    ],
};

static FACING: BlockDef = BlockDef {
    name: "facing",
    says: "Eyelets and hooks, from the top edge down; their centres grade with the facing.",
    removable: true,
    statements: &[
        word("eyelets", "Eyelets on one side.")
            .slots(&[COUNT.within(0.0, 50.0)])
            .clauses(&[
                needed("of", &[slot(SlotKind::Name(&[Thing::Eyelet]))], "the eyelet"),
                needed("apart", &[LENGTH], "from centre to centre"),
            ])
            .example("eyelets 5 of brass-eyelet apart 18 mm", "eyelets 5 of brass-eyelet apart 18")
            .stock(),
        word("hooks", "Hooks on one side, above the eyelets.")
            .slots(&[COUNT.within(0.0, 50.0)])
            .clauses(&[
                needed("of", &[slot(SlotKind::Name(&[Thing::Hook]))], "the hook"),
                needed("apart", &[LENGTH], "from centre to centre"),
            ])
            .example("hooks 4 of brass-hook apart 22 mm", "hooks 4 of brass-hook")
            .stock(),
        word("first", "The highest centre from the top edge.")
            .slots(&[LENGTH])
            .needed()
            .example("first 12 mm", "first 12")
            .setting(),
        word("from-edge", "The centres from the facing's edge.")
            .slots(&[LENGTH])
            .needed()
            .example("from-edge 13 mm", "from-edge 13")
            .setting(),
        word("on", "The part whose edge the facing is; the first that is turned out, if left out.")
            .slots(&[PART_NAME])
            .example("on quarter", "on 2")
            .setting(),
        word(
            "long",
            "The length of the facing's edge from the top down, in the last's base size, and how it grades a size.",
        )
        .slots(&[LENGTH.within(1.0, 1000.0)])
        .clauses(&[clause("grade", &[LENGTH], "how much it grows with a whole size")])
        .example("long 175 mm grade 2 mm", "long 175"),
        word(
            "rows",
            "The rows of stitching along the facing's edge: how many, the first from the edge, how far apart.",
        )
        .slots(&[COUNT.within(1.0, 20.0).never_first(Toward::Less)])
        .clauses(&[
            clause("at", &[LENGTH], "the first row from the facing's edge"),
            clause("apart", &[LENGTH], "from row to row"),
            needed("pitch", &[one(Kind::Pitch)], "stitches per inch (or the length of one, in mm)"),
            needed("thread", &[slot(SlotKind::Name(&[Thing::Thread]))], "the thread, top and bottom"),
            needed("needle", &[one(Kind::NeedleSize)], "the needle's size"),
            needed("sewn-on", &[slot(SlotKind::Name(&[Thing::Machine]))], "the machine"),
        ])
        .example(
            "rows 2 at 3 mm apart 18 mm pitch 8 spi thread bonded-138 needle 130 Nm sewn-on flat-bed",
            "rows 2 at 3 pitch 8 spi thread bonded-138 needle 130 Nm sewn-on flat-bed",
        )
        .construction(),
        word("backing", "A backing behind the hardware: a part, or without a name the part itself turned in.")
            .slots(&[optional(SlotKind::Name(&[Thing::Part]))])
            .example("backing", "backing 2")
            .construction(),
        word("with", "The setter.")
            .slots(&[slot(SlotKind::Name(&[Thing::Setter]))])
            .example("with bench-setter", "with 2")
            .setting(),
    ],
};
