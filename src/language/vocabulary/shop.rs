//! Words of a shop: paper, machines, house rules.

use super::{
    Arity, BlockDef, COUNT, Carries, Key, Kind, LENGTH, SlotKind, StatementDef, Thing, clause, needed, one, slot,
    window, word,
};

pub(super) static SHOP: BlockDef = BlockDef {
    name: "shop",
    says: "What the shop has and how it works, whatever the model.",
    removable: false,
    statements: &[
        word("paper", "The paper that sheets are printed on.")
            .slots(&[slot(SlotKind::Choice(&["a4", "letter"]))])
            .default("a4")
            .example("paper a4", "paper a6"),
        word("print", "The units that sheets print, in this order: trade, metric or both.")
            .slots(&[slot(SlotKind::Choices(&["trade", "metric"]))])
            .default("trade, metric")
            .example("print trade, metric", "print feet"),
        word("machine", "A sewing machine and what this shop has found that it does.")
            .slots(&[slot(SlotKind::New(Thing::Machine))])
            .carries(Carries::Block(&MACHINE))
            .key(Key::First)
            .example("machine post-bed { makes lockstitch }", "machine { makes lockstitch }"),
        word("skiver", "A skiving machine and its limits.")
            .slots(&[slot(SlotKind::New(Thing::Skiver))])
            .carries(Carries::Block(&SKIVER))
            .key(Key::First)
            .example("skiver bell-skiver { leather 4 mm }", "skiver { leather 4 mm }"),
        word("setter", "A setter of eyelets and hooks and its limits.")
            .slots(&[slot(SlotKind::New(Thing::Setter))])
            .carries(Carries::Block(&SETTER))
            .key(Key::First)
            .example("setter bench-setter { reach 30 mm }", "setter { reach 30 mm }"),
        word("nailer", "A heel nailer and its limits.")
            .slots(&[slot(SlotKind::New(Thing::Nailer))])
            .carries(Carries::Block(&NAILER))
            .key(Key::First)
            .example("nailer heel-press { lengths 12..32 mm }", "nailer { lengths 12..32 mm }"),
        word("house", "House rules: thresholds that are this shop's practice and nobody's law.")
            .carries(Carries::Block(&HOUSE))
            .example("house { cut 4 mm }", "house"),
    ],
};

const BOBBIN: super::SlotDef = LENGTH.within(1.0, 500.0);

static MACHINE: BlockDef = BlockDef {
    name: "machine",
    says: "A sewing machine. All limits are facts, measured on this machine.",
    removable: false,
    statements: &[
        word("makes", "The stitch: lockstitch (ISO 4915 class 301) or chainstitch (class 101).")
            .slots(&[slot(SlotKind::Choice(&["lockstitch", "chainstitch"]))])
            .needed()
            .example("makes lockstitch", "makes knots"),
        word("opens", "What can be pushed under the raised foot.")
            .slots(&[LENGTH])
            .example("opens 23 mm", "opens 5 spi"),
        word("sews", "The tallest stack that this shop has sewn clean on it, measured loose on offcuts.")
            .slots(&[LENGTH.within(0.1, 200.0)])
            .needed()
            .example("sews 19 mm", "sews 19"),
        word("needle", "The needle sizes that it takes.")
            .slots(&[window(Kind::NeedleSize)])
            .needed()
            .example("needle 200..250 Nm", "needle 250..200 Nm"),
        word("thread", "The thread sizes that it takes.")
            .slots(&[window(Kind::ThreadSize)])
            .needed()
            .example("thread 210..600 tex", "thread 210..600 mm"),
        word("pitch", "The pitches that it can be set to.")
            .slots(&[window(Kind::Pitch)])
            .needed()
            .example("pitch 4..8 spi", "pitch 4..8"),
        word("locks-through", "The thickest stitch in which needle and bobbin thread still lock.")
            .slots(&[LENGTH])
            .example("locks-through 26 mm", "locks-through"),
        word("edge-guide", "The settings of the edge guide, from the rough edge.")
            .slots(&[window(Kind::Length)])
            .example("edge-guide 2.5..12 mm", "edge-guide 2.5 to 12 mm"),
        word("wall", "How near to the upper's wall the innermost row can run.")
            .slots(&[LENGTH])
            .example("wall 3 mm", "wall 3 deg"),
        word("table-nose", "The breadth of the table under the needle.")
            .slots(&[LENGTH])
            .example("table-nose 8 mm", "table-nose eight"),
        word("lock", "Where in the stack the threads lock, as a share from the bobbin side.")
            .slots(&[one(Kind::Number).within(0.0, 1.0)])
            .default("1/2")
            .example("lock 1/2", "lock 1/2 mm"),
        word("bobbin", "The bobbin: outer diameter, hub, width inside; and how full it winds.")
            .clauses(&[
                needed("across", &[BOBBIN], "outer diameter of the winding"),
                needed("hub", &[BOBBIN], "diameter of the hub"),
                needed("wide", &[BOBBIN], "width between the flanges"),
                clause(
                    "fill",
                    &[one(Kind::Number).within(0.01, 1.0)],
                    "share of the space that is thread; the house rule `fill` if left out",
                ),
            ])
            .example("bobbin across 36 mm hub 9 mm wide 12 mm", "bobbin across 36 mm hub 9 mm"),
        word("shafts", "The tallest shaft that goes over its horn.")
            .slots(&[LENGTH])
            .example("shafts 260 mm", "shafts 260 oz"),
    ],
};

static SKIVER: BlockDef = BlockDef {
    name: "skiver",
    says: "A skiving machine and what it can do. What it does not say is not judged.",
    removable: false,
    statements: &[
        word("edge", "The thinnest edge that it leaves.").slots(&[LENGTH]).example("edge 0 mm", "edge"),
        word("flat", "How true a flat skive is, either way.").slots(&[LENGTH]).example("flat 0.1 mm", "flat 0.1"),
        word("wide", "The widest skive.").slots(&[LENGTH]).example("wide 30 mm", "wide 30 spi"),
        word("leather", "The thickest leather that it takes.")
            .slots(&[one(Kind::Thickness)])
            .example("leather 4 mm", "leather 4 tex"),
    ],
};

static SETTER: BlockDef = BlockDef {
    name: "setter",
    says: "A setter of eyelets and hooks and what it can do. What it does not say is not judged.",
    removable: false,
    statements: &[
        word("reach", "How far from the edge it reaches.").slots(&[LENGTH]).example("reach 30 mm", "reach"),
        word("through", "The thickness that it can set through.")
            .slots(&[window(Kind::Thickness)])
            .example("through 2..6 mm", "through 6..2 mm"),
    ],
};

static NAILER: BlockDef = BlockDef {
    name: "nailer",
    says: "A heel nailer.",
    removable: false,
    statements: &[
        word("lengths", "The nail lengths that it drives.")
            .slots(&[window(Kind::Length)])
            .example("lengths 12..32 mm", "lengths 32..12 mm"),
        word("nails", "How many nails it drives at once.").slots(&[COUNT]).example("nails 14", "nails 14 mm"),
    ],
};

macro_rules! house {
    ($($word:literal $kind:ident $arity:ident $least:literal..$most:literal $default:literal $fails:literal $says:literal;)+) => {
        static HOUSE: BlockDef = BlockDef {
            name: "house",
            says: "House rules, each with the default that holds where the shop says nothing. They are common practice with no published source; a finding that rests on one says so.",
            removable: false,
            statements: &[$(house_rule($word, $says, &[slot(SlotKind::Amount(Kind::$kind, Arity::$arity)).within($least, $most)], $default)
                .example(concat!($word, " ", $default), concat!($word, " ", $fails))),+],
        };
    };
}

const fn house_rule(
    name: &'static str,
    says: &'static str,
    slots: &'static [super::SlotDef],
    default: &'static str,
) -> StatementDef {
    word(name, says).slots(slots).default(default)
}

house! {
    "edge-after-sanding" Length One 0.0..50.0 "2 mm" "2" "The least leather between the outer row and the finished edge.";
    "off-the-edge" Length One 0.0..20.0 "1 mm" "1 oz" "What trimming and sanding take off the sewn edge.";
    "cut" Length One 0.0..50.0 "4 mm" "4" "What rough-rounding cuts away outside the rough edge.";
    "lasted-inward" Length One 0.0..50.0 "15 mm" "15" "How far the upper that is lasted in at the heel reaches over the insole.";
    "pincers" Length One 0.0..100.0 "12 mm" "12" "Free leather that the lasting pincers need.";
    "rows-start" Length One 0.0..100.0 "12 mm" "12 spi" "How far behind the breast the sole rows start and stop.";
    "overlap" Length One 0.0..200.0 "12.7 mm" "12.7" "How far a row that runs all round is sewn over its own start, at least.";
    "turnout-holds" Length One 0.0..100.0 "15 mm" "15" "How far behind the breast the waist's turnout still holds.";
    "blend" Length One 0.1..100.0 "25 mm" "25 spi" "The length over which one turnout passes into the next.";
    "feet-girth" Length One 0.0..200.0 "26 mm" "26" "How far a last's ball girth may lie from the mean of men's feet so long before it is noted.";
    "inside-feather" Length One 0.0..50.0 "5 mm" "5" "The least distance of a through-seam or clinch nail inside the feather line.";
    "clinch" Length Window 0.0..20.0 "1.5..5 mm" "5..1.5 mm" "How much of a clinch nail stands beyond what it holds, least and most.";
    "behind-joint" Length One 0.0..100.0 "10 mm" "10" "How far behind its side's joint the last clinch nail stands.";
    "clinch-to-forefoot" Length One 0.0..100.0 "3 mm" "3" "The least distance of a clinch nail from the forefoot's row.";
    "tacks-inside-feather" Length One 0.0..50.0 "10 mm" "10" "How far inside the feather line lasting tacks stand that are left in, where the model does not say.";
    "filler-level" Length One 0.0..20.0 "0.5 mm" "0.5" "How far a filler may differ from the outer that is lasted in round it before it is noted.";
    "midsole-relieved" Length One 0.0..20.0 "3 mm" "3" "How far shank and pad may stand above the filler at the breast: the midsole's flesh side is relieved for them.";
    "filler-skived" Length One 0.0..200.0 "20 mm" "20" "Over how much ahead of the breast a filler runs out, where the model does not say.";
    "ring-inside-feather" Length One 0.0..50.0 "6 mm" "6" "How far inside the feather line the heel's base is nailed, where the model does not say.";
    "ring-behind-breast" Length One 0.0..100.0 "8 mm" "8" "How far behind the breast line the heel's nails begin, where the model does not say.";
    "ring-apart" Length One 0.5..200.0 "12.7 mm" "12.7" "How far apart heel nails stand at least, where the model does not say.";
    "cap-inside-edge" Length One 0.0..50.0 "6.35 mm" "6.35" "How far inside the heel's edge the cap is nailed, where the model does not say.";
    "nail-to-row" Length One 0.0..50.0 "3 mm" "3" "The least distance of a heel nail that passes the base's face from a sole row.";
    "nail-to-clinch" Length One 0.0..50.0 "4 mm" "4" "The least distance of a heel nail that passes the base's face from a clinch nail, and of waist and seat nails from tacks that are left in.";
    "nail-to-clinch-by-hand" Length One 0.0..50.0 "5 mm" "5" "The same where the shop has no nailer and drives by hand.";
    "heads-apart" Length One 0.0..50.0 "3 mm" "3" "The least distance between heads of heel nails, the cap's among them.";
    "nail-to-edge" Length One 0.0..50.0 "4 mm" "4" "The least distance of a heel nail from the heel's own edge, the breast's among it.";
    "turn-inside" Length One 0.0..50.0 "5 mm" "5" "From how far inside the feather line a heel nail may pass the base's face: nearer, it comes up where the upper turns.";
    "turn-outside" Length One 0.0..50.0 "2 mm" "2" "From how far outside the upper's wall a heel nail may pass the base's face.";
    "below-ledge" Length One 0.0..20.0 "1.5 mm" "1.5" "How far below the ledge's face a heel nail ends that stands outside the wall.";
    "reserve" Length One 0.0..20.0 "2 mm" "2" "What a blind nail's point keeps clear of the insole's face.";
    "bite" Length One 0.0..50.0 "5 mm" "5" "How deep a heel nail must hold in leather.";
    "heads-below" Length One 0.0..20.0 "1 mm" "1" "How much deeper than sanding the nail heads lie.";
    "stage-sink" Length One 0.0..10.0 "0.5 mm" "0.5" "How deep heads are sunk in a stage that is built over.";
    "gauge" Length One 0.0..10.0 "0.5 mm" "0.5" "How true a stack of lifts is built to its gauge, either way.";
    "wedge-at-breast" Length One 0.0..20.0 "1 mm" "1" "The least thickness of a wedge at the breast.";
    "row-inside-edges" Length One 0.0..50.0 "2 mm" "2" "The least distance of an upper row from the edges of its parts.";
    "least-substance" Thickness One 0.0..20.0 "1.0 mm" "1.0" "The least leather left under a row.";
    "least-in-turnout" Thickness One 0.0..20.0 "0.7 mm" "0.7" "The least leather at the thin end of what the sole's rows hold in the turnout.";
    "film" Thickness One 0.0..5.0 "0.15 mm" "0.15" "What a cemented joint commonly adds to a stack, where the adhesive does not say how thick its film is: less left in the jaw is noted.";
    "lap-sides" Number One 1.0..10.0 "1.2" "1.2 mm" "How many times the smaller station of a lap in the turnout the greater one on the other side may be.";
    "single-ply" Thickness One 0.0..20.0 "1.5 mm" "1.5" "The least leather of one part alone, where a skive reaches beyond its lap.";
    "hole-web" Length One 0.0..50.0 "3 mm" "3" "The least leather between two punched holes, and between a hole and an edge or a row.";
    "step" Thickness One 0.0..20.0 "1.2 mm" "1.2" "The highest step felt inside at a lap that no lining covers.";
    "mulled-from" Thickness One 0.0..20.0 "7 oz" "7 spi" "From this substance on, upper leather is mulled before lasting.";
    "perforation-upper" Number One 0.0..1.0 "0.5" "0.5 mm" "Needle over pitch above which an upper row is noted.";
    "perforation-sole" Number One 0.0..1.0 "0.6" "0.6 mm" "Needle over pitch above which a sole row is noted.";
    "needle-over-thread" Number Window 0.1..20.0 "2.5..3.7" "3.7..2.5" "Needle blade over thread diameter outside which it is noted.";
    "dry-on-last" Time One 0.0..100_000.0 "24 hours" "24" "How long at least a boot that was wet-lasted dries on the last.";
    "dry-heavy" Time One 0.0..100_000.0 "48 hours" "48" "The same where the leather is as heavy as what is mulled, by the middle of its substance.";
    "fill" Number One 0.01..1.0 "0.6" "0.6 mm" "How full a bobbin winds, where the machine does not say.";
    "tails" Length One 0.0..5000.0 "150 mm" "150" "Thread left at both ends of a row together, but for the sole's rows.";
    "sole-tails" Length One 0.0..5000.0 "250 mm" "250" "Thread left at both ends of a row of the sole together.";
    "thread-waste" Share One 0.0..100.0 "15 %" "150 %" "What is added to thread when it is bought.";
}
