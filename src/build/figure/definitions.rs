//! What every figure is: its key, its label, its unit, and how a sheet says it. `{0}` is the first of its names.
//!
//! Keys are stable: a printed sheet carries them. A figure that is new takes a line here, a line in each language of the
//! sheets' words, and a line in the file that works it out.

use super::{Definition, FigureUnit as U, Manner};

/// A table of figures: each becomes an identity with its definition.
macro_rules! figures {
    ($($id:ident $key:literal $label:literal $unit:ident $($manner:ident)?;)+) => {
        /// What a figure is; names tell apart those that are of one thing each.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum FigureId {
            $(#[doc = $label] $id,)+
        }

        impl FigureId {
            /// Every one, in the order of the table.
            pub const ALL: &[FigureId] = &[$(FigureId::$id),+];

            /// What it is.
            #[must_use]
            pub const fn definition(self) -> Definition {
                match self {
                    $(FigureId::$id => Definition { key: $key, label: $label, unit: U::$unit, manner: manner!($($manner)?) },)+
                }
            }

            /// Its name in this table.
            const fn variant(self) -> &'static str {
                match self {
                    $(FigureId::$id => stringify!($id),)+
                }
            }
        }
    };
}

macro_rules! manner {
    () => {
        Manner::Plain
    };
    ($manner:ident) => {
        Manner::$manner
    };
}

figures! {
    // The model, its size.
    ModelName "model.name" "model" Bare;
    ModelTitle "model.title" "title" Bare;
    ModelRevision "model.revision" "revision" Bare;
    ModelSize "model.size" "size" Bare;
    ModelSystem "model.system" "size system" Bare;
    SizeFoot "size.foot" "for a foot of" Mm;
    SizeFootBy "size.foot-by" "size by the foot" Bare;
    SizeCalled "size.{0}" "as {0}" Bare;
    SizeCalledRounded "size.{0}-rounded" "as {0}, rounded" Bare;
    SizeCalledBy "size.{0}-by" "as {0}, by" Bare;
    SizeFootGirth "size.foot-girth" "mean ball girth of men's feet so long" Mm;
    // The last.
    LastName "last.name" "last" Bare;
    LastTitle "last.title" "last's title" Bare;
    LastPlate "last.plate" "plate" Bare Word;
    LastStick "last.stick" "stick length" Mm;
    LastBottom "last.bottom" "bottom length" Mm;
    LastBall "last.ball" "ball girth" Mm;
    LastTread "last.tread" "tread" Mm;
    LastSeatBreadth "last.seat-breadth" "seat breadth" Mm;
    LastBreast "last.breast" "breast from the heel" Mm;
    LastJointInside "last.joint-inside" "inside joint from the heel" Mm;
    LastJointOutside "last.joint-outside" "outside joint from the heel" Mm;
    LastSeat "last.seat" "seat height" Mm;
    LastFeather "last.feather" "feather line, all round" Mm;
    LastArea "last.area" "area of the bottom" Cm2;
    LastSlope "last.slope" "slope of the seat" Degree;
    LastSpring "last.spring" "toe spring" Mm;
    LastOverhang "last.overhang" "overhang of the wall" Mm;
    LastUpright "last.overhang" "overhang of the wall" Bare Word;
    // The shaft.
    ShaftInside "shaft.inside" "shaft inside at the back" Mm;
    ShaftFromHeel "shaft.from-heel" "from the heel's bottom to the top at the back" Mm;
    ShaftHorn "shaft.horn" "goes over the horn up to" Mm;
    // Parts of the upper, by name.
    PartOf "part.{0}.of" "leather" Bare;
    PartSubstance "part.{0}.substance" "substance" Mm Ounces;
    PartZone "part.{0}.zone" "zone of the hide" Bare Word;
    PartPieces "part.{0}.pieces" "pieces a foot" Bare;
    PartArea "part.{0}.area" "area of one piece" Dm2;
    PartPair "part.{0}.pair" "area for a pair" Dm2;
    PartStretch "part.{0}.stretch" "stretch" Bare Word;
    PartPattern "part.{0}.pattern" "pattern" Bare;
    PartFolded "part.{0}.folded" "folded edge" Mm;
    // Laps, by seam; their skives, by seam and part.
    LapOver "{0}.over" "laps over" Bare;
    LapWide "{0}.wide" "width of the lap" Mm;
    SkiveWide "{0}.skive.{1}.wide" "skive {1}: taper wide" Mm;
    SkiveEdge "{0}.skive.{1}.edge" "skive {1}: edge to" Mm;
    SkiveFlat "{0}.skive.{1}.flat" "skive {1}: flat in the turnout to" Mm;
    LapEntersOutside "{0}.enters-outside" "enters the turnout outside at" Percent;
    LapEntersInside "{0}.enters-inside" "enters the turnout inside at" Percent;
    LapLeans "{0}.leans" "leans" Degree;
    StopsAboveFeather "{0}.stops-above-feather" "stops above the feather" Mm;
    // Seams, stays, gussets, the collar.
    SeamJoins "{0}.joins" "joins" Bare;
    SeamAllowance "{0}.allowance" "allowance" Mm;
    SeamRubbedFlat "{0}.rubbed-flat" "rubbed flat" Bare Word;
    SeamSkivedOut "{0}.skived-at-feather" "allowances skived out at the feather" Bare Word;
    StayOf "{0}.of" "stay" Bare;
    StayCovers "{0}.covers" "covers the seam" Bare;
    StayWide "{0}.wide" "width of the stay" Mm;
    StayLoop "{0}.loop" "loop" Mm;
    SewnTo "{0}.joins" "sewn to" Bare;
    GussetTo "{0}.to" "sewn up to" Mm;
    CollarPart "collar.part" "collar" Bare;
    CollarFolded "{0}.folded" "folded in" Mm;
    CollarFoldNeeds "{0}.fold-needed" "the fold needs" Mm;
    // Counter and puff.
    StiffenerOf "{0}.of" "{0}" Bare;
    StiffenerThickness "{0}.thickness" "{0}: thickness" Mm Ounces;
    StiffenerSkived "{0}.skived" "{0}: edges skived" Mm;
    StiffenerReaches "{0}.reaches" "{0}: reaches" Mm;
    // The facing.
    FacingFirst "facing.first" "highest centre from the top edge" Mm;
    FacingFromEdge "facing.from-edge" "centres from the facing's edge" Mm;
    HardwareCount "facing.{0}" "{0} a side" Bare;
    HardwareOf "facing.{0}-of" "{0}" Bare;
    HardwareApart "facing.{0}-apart" "{0} apart" Mm;
    HardwarePunch "facing.{0}-punch" "{0}: punch" Mm;
    FacingBacked "facing.backed" "backed" Bare Word;
    FacingBacking "facing.backing" "backing" Bare;
    FacingWith "facing.with" "setter" Bare;
    FacingRowsJoin "{0}.joins" "along the edge of" Bare;
    FacingRowsSides "{0}.sides" "sides of a boot" Bare;
    FacingLong "facing.long" "length of the facing" Mm;
    FacingLast "facing.last" "lowest centre from the top edge" Mm;
    FacingCentres "facing.centres" "centres from the top edge" Mm;
    FacingGaps "facing.gaps" "from centre to centre" Mm;
    FacingRows "facing.rows" "rows from the facing's edge" Mm;
    FacingWebHoles "facing.web-holes" "least leather: holes of the facing" Mm;
    FacingWebEdge "facing.web-edge" "least leather: facing's edge" Mm;
    FacingWebRow "facing.web-row" "least leather: facing's row" Mm;
    FacingWebEnds "facing.web-ends" "least leather: facing's ends" Mm;
    FacingStack "facing.stack" "set through" Mm;
    // What a machine is set to, by seam.
    SeamMachine "{0}.machine" "machine" Bare;
    SeamThread "{0}.thread" "thread" Bare;
    SeamThreadSize "{0}.thread-size" "thread size" Tex;
    SeamNeedle "{0}.needle" "needle" Nm;
    SeamPitch "{0}.pitch" "pitch" Spi;
    SeamOver50 "{0}.over-50" "stitches over 50 mm" Bare;
    SeamRows "{0}.rows" "rows" Bare;
    SeamThreadDiameter "{0}.thread-diameter" "thread diameter" Mm;
    SeamStrength "{0}.strength" "strength of one row, estimated" NewtonsPerMm;
    SeamRowStrength "{0}.row-{1}.strength" "strength of this row, estimated" NewtonsPerMm;
    SeamGivesWay "{0}.gives-way" "gives way first, of what is stated" Bare;
    SeamPerforation "{0}.perforation" "needle over stitch" Bare;
    SeamNeedleOverThread "{0}.needle-over-thread" "needle over thread" Bare;
    SeamNeedleNamed "{0}.needle-named" "needles named by the thread's maker" Nm;
    SeamFirst "{0}.first" "first row from the edge" Mm;
    SeamApart "{0}.apart" "rows apart" Mm;
    SeamLong "{0}.long" "length of a row, base size" Mm;
    // Rows of the upper, by seam and row.
    RowPlace "{0}.row-{1}.place" "row {1}: from the edge" Mm;
    RowInside "{0}.row-{1}.inside" "row {1}: inside the {2}" Mm;
    RowInsideAllowance "{0}.row-{1}.inside" "row {1}: inside the allowance" Mm;
    RowStack "{0}.row-{1}.stack" "row {1}: goes through" Mm;
    RowLeft "{0}.row-{1}.left.{2}" "row {1}: left of the {2}" Mm;
    SeamThickest "{0}.thickest" "thickest row goes through" Mm;
    SeamSews "{0}.sews" "the machine sews" Mm;
    LapStep "{0}.step" "step at the edge of the {1}" Mm;
    LapCovered "{0}.covered" "lining covers it inside" Bare Word;
    LapAlone "{0}.alone.{1}" "left of the {1} alone" Mm;
    LapBeyond "{0}.beyond.{1}" "skive beyond the lap" Mm;
    StayFromSeam "{0}.from-seam" "row {1} from the seam" Mm;
    StayClear "{0}.clear" "clear of the allowance" Mm;
    SkiverFor "{0}.skive.{1}.skiver" "skiver for {1} in {0}" Bare;
    SkiverLeft "{0}.skive.{1}.skiver-{2}" "{2}: left" Mm;
    // Linings, the maker's mark.
    UpperTurnedOut "upper.turned-out" "turned out, heel to toe" Bare;
    UpperLastedIn "upper.lasted-in" "lasted in" Bare;
    LiningFrom "upper.lasted-in.{0}.from" "lasted in, from" Percent;
    LiningTo "upper.lasted-in.{0}.to" "lasted in, back to" Percent;
    MarkHow "mark.how" "mark" Bare Word;
    MarkSays "mark.says" "mark says" Bare;
    MarkOn "mark.on" "mark on" Bare;
    // Bonds.
    BondWith "{0}.bonded" "adhesive" Bare;
    BondCoats "{0}.coats" "coats on each face" Bare;
    BondCoverage "{0}.coverage" "coverage of one coat" GramsPerM2;
    BondOpen "{0}.open" "join after" Minutes;
    BondFilm "{0}.film" "film of the joint" Mm;
    BondPress "{0}.press" "press for" Minutes;
    BondSet "{0}.set" "leave to set" Minutes;
    BondReactivated "{0}.reactivated" "warm the film before joining" Bare Word;
    // Lasting.
    LastingMulled "lasting.mulled" "mull" Minutes;
    LastingInsoleNails "lasting.insole-nails" "insole nails" Bare;
    LastingOrder "lasting.order" "draft in this order" Bare Word;
    LastingOnTheLast "lasting.on-the-last" "on the last" Minutes;
    LastingMargin "lasting.margin-{0}" "margin at the {0}" Mm;
    LastingMarginNeeded "lasting.margin-{0}-needed" "needed at the {0}" Mm;
    LastingMarginFree "lasting.margin-{0}-free" "free for the pincers at the {0}" Mm;
    LastingTacks "lasting.tacks" "tacks apart" Mm;
    LastingTacksLeft "lasting.tacks-left" "tacks left in behind the release cut" Mm;
    LastingTacksInside "lasting.tacks-inside-feather" "these inside the feather line" Mm;
    LastingTacksCount "lasting.tacks-left-count" "tacks left in, a boot" Bare;
    LastingBackHeight "lasting.back-height" "back height from the seat" Mm;
    // Layers of the bottom, by role.
    LayerOf "layer.{0}.of" "{0}" Bare;
    LayerThickness "layer.{0}.thickness" "{0} ({1}): thickness" Mm Irons;
    LayerHammeredThickness "layer.{0}.thickness" "{0} ({1}), hammered {2} %: thickness" Mm Irons;
    LayerBaseThickness "layer.{0}.thickness-base" "{0} base ({1}): thickness" Mm Irons;
    LayerLugThickness "layer.{0}.thickness-lug" "{0} lug ({1}): thickness" Mm Irons;
    LayerCovers "layer.{0}.covers" "covers" Bare Word;
    LayerBreadth "layer.{0}.breadth" "breadth" Mm;
    LayerEndsBehind "layer.{0}.ends" "ends behind the breast" Mm;
    LayerEndsFull "layer.{0}.ends" "ends" Bare Word;
    LayerGrain "layer.{0}.grain" "grain" Bare Word;
    LayerHammered "layer.{0}.hammered" "hammered thinner by" Percent;
    LayerFront "layer.{0}.front" "ends behind the joint" Mm;
    LayerBack "layer.{0}.back" "ends under the heel" Mm;
    LayerSkivedEnds "layer.{0}.skived-ends" "skived at its ends over" Mm;
    LayerSkivedSides "layer.{0}.skived-sides" "skived at its sides over" Mm;
    LayerLugsOff "layer.{0}.lugs-off" "lugs buffed off under the heel" Bare Word;
    LayerRigid "layer.{0}.rigid" "rigid" Bare Word;
    SeatHollow "seat.hollow" "hollow of the seat inside the outer" Mm;
    SeatRelieved "seat.relieved" "relieve the midsole for shank and pad, at the breast" Mm;
    // The forefoot.
    ForefootInset "forefoot.inset" "inside the feather line" Mm;
    ForefootLength "forefoot.length" "length" Mm;
    ForefootStitches "forefoot.stitches" "stitches" Bare;
    ForefootTruePitch "forefoot.true-pitch" "true pitch" Mm;
    ForefootLayers "forefoot.layers" "layers, where they are thickest" Mm;
    ForefootThreadUsed "forefoot.thread-used" "thread for a boot" Metres;
    ForefootWith "forefoot.with" "nail" Bare;
    ForefootApart "forefoot.apart" "apart" Mm;
    // Clinch nails, by line: waist, seat.
    NailsWith "{0}.with" "nail" Bare;
    NailsApart "{0}.apart" "apart, at least" Mm;
    NailsTo "{0}.to" "carried to" Percent;
    NailsInset "{0}.inset" "inside the feather line" Mm;
    NailsLayers "{0}.layers" "layers, where they are thickest" Mm;
    NailsWindow "{0}.window" "lengths that clinch" Mm;
    NailsLength "{0}.length" "nail length" Mm Inches;
    NailsEighths "{0}.eighths" "nail length in eighths of an inch" Eighths;
    NailsCount "{0}.nails" "nails a boot" Bare;
    NailsClinch "{0}.clinch" "stands out to clinch" Mm;
    NailsOutsideRuns "{0}.outside-runs" "nails of one length, outside, from the heel" Bare;
    NailsOutsideLengths "{0}.outside-lengths" "their lengths, outside, from the heel" Mm Inches;
    NailsInsideRuns "{0}.inside-runs" "nails of one length, inside, from the heel" Bare;
    NailsInsideLengths "{0}.inside-lengths" "their lengths, inside, from the heel" Mm Inches;
    NailsOutside "{0}.outside" "on the outside" Bare;
    NailsInside "{0}.inside" "on the inside" Bare;
    NailsSpacingOutside "{0}.spacing-outside" "spacing outside" Mm;
    NailsSpacingInside "{0}.spacing-inside" "spacing inside" Mm;
    NailsSpacing "{0}.spacing" "spacing" Mm;
    WaistToForefootOutside "waist.to-forefoot-outside" "last nail to the forefoot row, outside" Mm;
    WaistToForefootInside "waist.to-forefoot-inside" "last nail to the forefoot row, inside" Mm;
    // The finished edge.
    EdgeForepart "edge.forepart" "turnout, forepart" Mm;
    EdgeWaistOutside "edge.waist-outside" "turnout, waist outside" Mm;
    EdgeWaistInside "edge.waist-inside" "turnout, waist inside" Mm;
    EdgeHeel "edge.heel" "turnout, heel" Mm;
    EdgeOff "edge.off" "trimming and sanding take" Mm;
    EdgeCut "edge.cut" "rough-rounding cuts away" Mm;
    EdgeWall "edge.wall" "wall outside the feather line at the toe" Mm;
    EdgeLength "edge.length" "finished edge, all round" Mm;
    EdgeRoughLength "edge.rough-length" "rough edge, all round" Mm;
    EdgeHolds "edge.holds" "turnout full from, from the heel" Mm;
    EdgeRoughForepart "edge.rough-forepart" "rough turnout, forepart" Mm;
    EdgeRoughWaistOutside "edge.rough-waist-outside" "rough turnout, waist outside" Mm;
    EdgeRoughWaistInside "edge.rough-waist-inside" "rough turnout, waist inside" Mm;
    EdgeRoughHeel "edge.rough-heel" "rough turnout, heel" Mm;
    EdgeBegins "edge.begins" "turnout begins to grow, from the heel" Mm;
    EdgeRowLeast "edge.row-least" "no nearer the outer row than" Mm;
    // The sole's rows.
    SoleThrough "sole.through" "sewn through the" Bare Word;
    SoleFromEdge "sole.from-edge" "outer row from the finished edge" Mm;
    SoleApart "sole.apart" "rows apart" Mm;
    SoleSews "sole.sews" "the machine sews" Mm;
    SoleOpens "sole.opens" "the machine opens" Mm;
    SoleLocksThrough "sole.locks-through" "the machine locks through" Mm;
    SoleGuideRange "sole.guide-range" "settings of the edge guide" Mm;
    SoleGuide "sole.guide" "edge guide, from the rough edge" Mm;
    SoleStartsBehind "sole.starts-behind" "rows start behind the breast" Mm;
    SoleAllRound "sole.all-round" "the rows" Bare Word;
    SoleRowInset "sole.row-{0}.inset" "from the finished edge" Mm;
    SoleRowGuide "sole.row-{0}.guide" "edge guide, from the rough edge" Mm;
    SoleRowLength "sole.row-{0}.length" "length" Mm;
    SoleRowStitches "sole.row-{0}.stitches" "stitches" Bare;
    SoleRowOverlap "sole.row-{0}.overlap" "stitches over its own start" Bare;
    SoleRowPitch "sole.row-{0}.pitch" "true pitch" Mm;
    SoleRowWall "sole.row-{0}.wall" "least distance to the wall" Mm;
    SoleRowNeedleThread "sole.row-{0}.needle-thread" "needle thread" Metres;
    SoleRowBobbinThread "sole.row-{0}.bobbin-thread" "bobbin thread" Metres;
    SoleThreadPair "sole.thread-pair" "thread for a pair, tails included" Metres;
    SoleBobbin "sole.bobbin" "a full bobbin holds" Metres;
    SoleRowsABobbin "sole.rows-a-bobbin" "whole rows on one bobbin" Bare;
    // The stack under the sole's rows.
    StackWorst "stack.worst" "stack where it is tallest" Mm;
    StackJaw "stack.jaw" "in the jaw" Mm;
    StackStitch "stack.stitch" "in the stitch" Mm;
    StackOffTheLap "stack.off-the-lap" "stack off the lap" Mm;
    StackSide "stack.side" "tallest on the" Bare Word;
    StackStation "stack.station" "tallest at, share of the bottom" Percent;
    StackRow "stack.row" "tallest on row" Bare;
    StackAlong "stack.along" "tallest from and to, from the row's start" Mm Stretches;
    StackThrough "stack.through-{0}" "through the {0} instead" Mm;
    StackLaps "stack.row-{0}.laps" "laps from and to, from the row's start" Mm Stretches;
    StackMargin "stack.margin" "left under what the machine sews" Mm;
    StackMarginLeast "stack.margin-least" "left at the thick end" Mm;
    StackSort "stack.sort" "sort by thickness" Bare Word;
    StackSortTo "stack.sort-to" "sorted: together at most" Mm;
    // The heel.
    HeelCap "heel.cap" "cap" Bare;
    LiftsCount "heel.{0}" "{0}" Bare;
    LiftsOf "heel.{0}-of" "{0}" Bare;
    LiftsSubstance "heel.{0}-substance" "{0}: thickness" Mm Irons;
    HeelGaugeWithin "heel.gauge-within" "gauge true within, either way" Mm;
    HeelBlock "heel.block" "block at the back: base and cap" Mm;
    HeelNeeded "heel.needed" "base needed at the back" Mm;
    HeelGiven "heel.given" "base given by lifts and wedges" Mm;
    HeelCapThickness "heel.cap-thickness" "cap: thickness" Mm;
    HeelLength "heel.length" "heel length, from the feather line to the breast" Mm;
    HeelDrop "heel.drop" "drop of the seat to the breast" Mm;
    HeelVisibleBack "heel.visible-back" "heel seen at the back" Mm;
    HeelVisibleBreast "heel.visible-breast" "heel seen at the breast" Mm;
    HeelVisibleInches "heel.visible-inches" "heel seen at the back, nearest eighth of an inch" Inch;
    HeelWedgeBreast "heel.wedge-breast" "each wedge at the breast" Mm;
    HeelSandBack "heel.sand-back" "to sand at the back" Mm;
    HeelSandBreast "heel.sand-breast" "to sand at the breast" Mm;
    HeelGaugeBefore "heel.gauge-before" "gauge of the base before levelling, back" Mm;
    HeelGaugeBeforeBreast "heel.gauge-before-breast" "gauge of the base before levelling, breast" Mm;
    HeelGaugeAfter "heel.gauge-after" "gauge of the base when level, back" Mm;
    HeelGaugeAfterBreast "heel.gauge-after-breast" "gauge of the base when level, breast" Mm;
    HeelStop "heel.stop" "stop and drive heads deeper at a gauge of, back" Mm;
    HeelStopBreast "heel.stop-breast" "stop and drive heads deeper at a gauge of, breast" Mm;
    // The heel's nails.
    HeelNailsBase "heel-nails.base" "nails of the base" Bare;
    HeelNailsCap "heel-nails.cap" "nails of the cap" Bare;
    StageWedges "heel-nails.stage-{0}-wedges" "stage {0}: wedges" Bare Word;
    StageLifts "heel-nails.stage-{0}-lifts" "stage {0}: lifts" Bare;
    StageAcross "heel-nails.stage-{0}-across" "stage {0}: nails across" Bare;
    StageLeans "heel-nails.stage-{0}-leans" "stage {0}: points lean inward" Degree;
    HeelNailsInsideFeather "heel-nails.inside-feather" "nails of the base inside the feather line" Mm Inches;
    HeelNailsInsideEdge "heel-nails.inside-edge" "nails from the heel's edge" Mm Inches;
    HeelNailsBehindBreast "heel-nails.behind-breast" "nails begin behind the breast" Mm Inches;
    HeelNailsApart "heel-nails.apart" "nails apart, at least" Mm Inches;
    HeelNailsAcross "heel-nails.across" "nails across the heel" Bare;
    HeelNailsLeans "heel-nails.leans" "points lean inward" Degree;
    HeelNailsSink "heel-nails.sink" "heads below the base as built" Mm Inches;
    BaseNail "heel-nails.base-{0}" "nail at the {0}" Mm Inches;
    BaseNailCount "heel-nails.base-{0}-count" "nails at the {0}, a boot" Bare;
    BaseNailServes "heel-nails.base-{0}-serves" "lengths that serve at the {0}" Mm Inches;
    StageNail "heel-nails.stage-{0}-{1}" "nail at the {1}" Mm Inches;
    StageNailCount "heel-nails.stage-{0}-{1}-count" "nails at the {1}, a boot" Bare;
    StageNailServes "heel-nails.stage-{0}-{1}-serves" "lengths that serve at the {1}" Mm Inches;
    HeelNailsCapLength "heel-nails.cap-length" "cap nails" Mm Inches;
    HeelNailsCapCount "heel-nails.cap-count" "cap nails, a boot" Bare;
    HeelNailsCapServes "heel-nails.cap-serves" "cap nails that serve" Mm Inches;
    HeelNailsCount "heel-nails.count" "nails round the heel" Bare;
    HeelNailsSpacing "heel-nails.spacing" "nails apart, evened" Mm Inches;
    HeelNailsWay "heel-nails.way" "from end to end round the back" Mm Inches;
    HeelNailsCapSpacing "heel-nails.cap-spacing" "cap nails apart, evened" Mm Inches;
    HeelNailsCapWay "heel-nails.cap-way" "the cap's line from end to end round the back" Mm Inches;
    // Finishing and what is looked at.
    FinishEdge "finish.edge" "edge" Bare Word;
    FinishEdgeColour "finish.edge-colour" "edge colour" Bare;
    FinishSockLining "finish.sock-lining" "sock lining" Bare Word;
    FinishSockLeather "finish.sock-leather" "sock lining's leather" Bare;
    FinishDress "finish.dress" "dress the upper with" Bare;
    FinishLaces "finish.laces" "laces" Bare;
    FinishLacesLength "finish.laces-length" "length of laces" Mm;
    FinishSquareWithin "finish.square-within" "edge square within" Degree;
    CheckAt "check.{0}.at" "look at" Bare;
    CheckWith "check.{0}.with" "with" Bare;
    CheckTarget "check.{0}.target" "target" Written;
    CheckElse "check.{0}.else" "if it fails" Bare Word;
    // The order of work.
    RouteSteps "route.steps" "order of work" Bare;
    RouteStations "route.stations" "its benches" Bare;
    RouteFelt "route.felt" "felt inside by hand for points after" Bare;
    RouteCritical "route.critical" "critical: the adhesive alone holds the outsole" Bare;
    RoutePeelSamples "route.peel-samples" "peel samples with each batch" Bare;
    RestPressed "route.dwell.{0}.press" "pressed" Minutes;
    RestMulled "route.dwell.{0}.rest" "mulled" Minutes;
    RestOnTheLast "route.dwell.{0}.rest" "on the last" Minutes;
    RestOpen "route.dwell.{0}.open" "joined after" Minutes;
    RestSet "route.dwell.{0}.set" "left to set" Minutes;
    RestSaid "route.dwell.{0}.rest" "rests" Minutes;
    // What is claimed.
    ClaimHeight "claims.height" "claimed height, at least" Mm;
    ClaimMeasured "claims.measured" "measured" Bare Word;
    ClaimTo "claims.to" "claimed to" Bare;
    ClaimHas "claims.has" "height there, as the claim measures it" Mm;
    ClaimOver "claims.over" "over the claim, nominal" Mm;
    ClaimGusset "claims.gusset.{0}" "gusset of {0}, as the claim measures" Mm;
    ClaimCertification "claims.certification" "certification" Bare Word;
    // What a pair takes.
    LeatherZoneNet "takes.leather.{0}.{1}.net" "{0}, {1}: net for a pair" Dm2;
    LeatherZoneGross "takes.leather.{0}.{1}.gross" "{0}, {1}: cut from" Dm2;
    LeatherZoneHides "takes.leather.{0}.{1}.hides" "{0}, {1}: hides" Hides;
    LeatherHides "takes.leather.{0}.hides" "{0}: hides for a pair" Hides;
    LeatherPairs "takes.leather.{0}.pairs" "{0}: whole pairs from one hide" Bare;
    TakenLayerOf "takes.layer.{0}.of" "{0}" Bare;
    TakenLayerNet "takes.layer.{0}.net" "{0}: net for a pair" Dm2;
    TakenLayerGross "takes.layer.{0}.gross" "{0}: pressed from" Dm2;
    BlankOf "takes.blank.{0}.of" "{0}" Bare;
    BlankLong "takes.blank.{0}.long" "{0}: blank at least long" Mm;
    BlankWide "takes.blank.{0}.wide" "{0}: blank at least wide" Mm;
    BlankSize "takes.blank.{0}.size" "{0}: size of the blank" Bare;
    AdhesiveFaces "takes.adhesive.{0}.{1}.faces" "{0} on the {1}: faces of a pair" Dm2;
    AdhesiveWeight "takes.adhesive.{0}.{1}.weight" "{0} on the {1}: for a pair" Grams;
    AdhesiveLiningFaces "takes.adhesive.{0}.lasted-in.{1}.faces" "{0} under the lining {1}: faces of a pair" Dm2;
    AdhesiveLiningWeight "takes.adhesive.{0}.lasted-in.{1}.weight" "{0} under the lining {1}: for a pair" Grams;
    AdhesivePair "takes.adhesive.{0}.weight" "{0} for a pair" Grams;
    TakenSeamStitches "takes.seam.{0}.stitches" "{0}: stitches of a row" Bare;
    TakenSeamThread "takes.seam.{0}.thread" "{0}: thread for a boot" Metres;
    ThreadUnknown "takes.thread.{0}.unknown" "{0}: not known, no length is said of" Bare;
    ThreadNeedle "takes.thread.{0}.needle" "{0}: needle thread for a pair" Metres;
    ThreadBobbin "takes.thread.{0}.bobbin" "{0}: bobbin thread for a pair" Metres;
    ThreadTails "takes.thread.{0}.tails" "{0}: tails for a pair" Metres;
    ThreadTotal "takes.thread.{0}.total" "{0}: for a pair" Metres;
    ThreadBought "takes.thread.{0}.bought" "{0}: to buy for a pair, waste included" Metres;
    TakenNails "takes.nails.{0}.{1}.count" "{0} {1}: for a pair" Bare;
    TakenNailsWeight "takes.nails.{0}.{1}.weight" "{0} {1}: weight for a pair" Grams;
    TakenPieceOf "takes.pieces.{0}.of" "{0}" Bare;
    TakenPieces "takes.pieces.{0}.count" "{0}: for a pair" Bare;
    LacesLong "takes.pieces.laces.long" "laces: length" Mm;
    LastsTaken "takes.last" "pairs of lasts: one, of" Bare;
}

impl FigureId {
    /// Its name as JSON has it, stable as keys are: `sole-row-stitches`.
    #[must_use]
    pub fn name(self) -> String {
        let mut name = String::new();
        let mut before = '-';
        for c in self.variant().chars() {
            if !name.is_empty() && (c.is_ascii_uppercase() || c.is_ascii_digit() && !before.is_ascii_digit()) {
                name.push('-');
            }
            name.push(c.to_ascii_lowercase());
            before = c;
        }
        name
    }
}
