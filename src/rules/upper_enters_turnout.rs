//! # upper/enters-turnout
//!
//! A lap enters the turnout where there is one, on both sides at about the same station, and after the laps behind it.
//!
//! ## At the bench
//!
//! A lap whose station is mistyped leaves the sum of what lies in the jaw without a word, and the stitcher finds it. Ahead
//! of the release cut the outer is turned out, behind it is lasted in: a lap that enters there enters no turnout.
//!
//! ## Formula
//!
//! On each side: `turnout-holds` + `blend` behind the breast `<= enters-turnout`, unless the rows run all round; no
//! farther heelward than the lap behind it, in the order in which the parts are turned out. Between the sides: the greater
//! station `<=` the smaller times `lap-sides` of the house. A lap that says where it enters joins two neighbours of the parts
//! that are turned out. How far toeward it may stand, the language says: to 99 %.
//!
//! ## Fails
//!
//! ```text
//! enters-turnout outside 10 % inside 44 %      # the turnout begins at 11.51 %
//! ```
//!
//! ## Mended
//!
//! ```text
//! enters-turnout outside 38 % inside 44 %      # 44 is 1.16 times 38, the house takes 1.2
//! ```
//!
//! ## Source
//!
//! Geometry; how far the sides may lie apart is a house rule: common practice, no source.

use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use super::{Against, Case, Rule};
use crate::build::{Build, Lines, of};
use crate::finding::{Enters, LapName, Subject};
use crate::language::Hole;
use crate::measure::Amount;
use crate::spec::{Lap, Upper, Val, Valued};

/// The rule.
pub(super) struct UpperEntersTurnout;

const RELEASE: &str = "the turnout holds to here behind the breast, and then begins over the blend";
const BEHIND: &str = "the lap behind it enters here";
const SIDES: &str = "house rule: how many times the one side's station the other's may be";

impl Rule for UpperEntersTurnout {
    fn name(&self) -> &'static str {
        "upper/enters-turnout"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_enters_turnout.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(Subject::LapsInTurnout, &build.lines, |lines| {
            judge(build, lines).unwrap_or_else(|hole| vec![Judgement::lost(Subject::LapsInTurnout, hole)])
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, subject, .. } = judgement;
        let (sum, limit) = (number(*sum, *margin), number(*limit, *margin));
        if let Subject::LapEnters(name, Enters::Astray) = subject {
            let message = format!("the lap {name} enters the turnout, and joins no two neighbours of `turned-out`");
            return Words {
                message,
                help: vec!["name both of its parts in `turned-out`, or take out `enters-turnout`".to_owned()],
            };
        }
        let against = if let Case::Enters(against) = judgement.case { against } else { Against::Release };
        let (message, help) = match against {
            Against::OtherSide => (
                format!(
                    "the lap {subject} enters the turnout at {sum} %, where the other side allows {limit} % at most"
                ),
                "see whether inside and outside are swapped, or a figure mistyped",
            ),
            Against::Behind => (
                format!(
                    "the lap {subject}, enters the turnout at {sum} %, the one behind it at {limit} %: out of order"
                ),
                "let the laps enter in the order of `turned-out`, from the heel to the toe",
            ),
            Against::Release => (
                format!("the lap {subject}, enters at {sum} %, where nothing is turned out: that begins at {limit} %"),
                "let it enter the turnout ahead of the release cut",
            ),
        };
        Words { message, help: vec![help.to_owned()] }
    }
}

/// A lap between two neighbours of the turned-out parts, and the lap behind it.
struct Pair<'u> {
    name: LapName,
    lap: &'u Lap,
    behind: Option<&'u Lap>,
}

fn judge(build: &Build<'_>, lines: &Lines) -> Result<Vec<Judgement>, Hole> {
    let upper = build.model.upper.as_ref().map_err(|hole| *hole)?;
    let pairs = pairs(upper)?;
    let mut all = Vec::new();
    for pair in &pairs {
        all.push(by_side(build, lines, pair, OUTSIDE)?);
        all.push(by_side(build, lines, pair, INSIDE)?);
        all.extend(sides(build, pair)?);
    }
    all.extend(astray(upper, &pairs)?);
    Ok(all)
}

type OfSide = (Enters, fn(&Lap) -> Option<&Val<Amount>>);
const OUTSIDE: OfSide = (Enters::Outside, |lap| lap.enters_outside.as_ref());
const INSIDE: OfSide = (Enters::Inside, |lap| lap.enters_inside.as_ref());

fn pairs(upper: &Upper) -> Result<Vec<Pair<'_>>, Hole> {
    let parts = upper.turned_out.as_ref().map_err(|hole| *hole)?;
    let laps = parts.windows(2).filter_map(|pair| upper.lap_between(&pair[0].it, &pair[1].it));
    let mut pairs: Vec<Pair<'_>> = Vec::new();
    for lap in laps {
        let behind = pairs.last().map(|pair| pair.lap);
        pairs.push(Pair { name: name(lap)?, lap, behind });
    }
    Ok(pairs)
}

fn name(lap: &Lap) -> Result<LapName, Hole> {
    let (top, under) = (of(&lap.top)?.it.name.as_str(), of(&lap.under)?.it.name.as_str());
    Ok(LapName { top: top.into(), under: under.into() })
}

/// On one side: against the release cut, or against the lap behind it, whichever it is nearer to.
fn by_side(build: &Build<'_>, lines: &Lines, pair: &Pair<'_>, (side, of_side): OfSide) -> Result<Judgement, Hole> {
    let lost = Hole { fault: crate::finding::FaultName::STATEMENT_MISSING.0, span: pair.lap.span };
    let at = of(of_side(pair.lap).ok_or(lost)?)?;
    let station = at.it.nominal();
    let subject = Subject::LapEnters(pair.name.clone(), side);
    let against = |limit: f64| Judgement::new(subject.clone(), station, limit, station - limit, "%");
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    // Where the rows run all round, so does the turnout.
    let round = bottom.sole.as_ref().is_ok_and(|sole| sole.all_round);
    let begins = if round { 0.0 } else { lines.turnout_begins / lines.last.bottom * 100.0 };
    let holds = build.house.rule("turnout-holds")?;
    let mut judgement = against(begins).limit_at(holds.origin, RELEASE).of_case(Case::Enters(Against::Release));
    if let Some(behind) = pair.behind.and_then(of_side) {
        let behind = of(behind)?;
        let ordered =
            against(behind.it.nominal()).limit_at(behind.origin.clone(), BEHIND).of_case(Case::Enters(Against::Behind));
        if ordered.margin < judgement.margin {
            judgement = ordered.lever(behind.origin.clone(), Moves::Down);
        }
    }
    Ok(judgement
        .at(
            at.origin.clone(),
            if side == Enters::Outside { "it enters here on the outside" } else { "it enters here on the inside" },
        )
        .lever(at.origin.clone(), Moves::Up))
}

/// The one side against the other; nothing if a side is not said.
fn sides(build: &Build<'_>, pair: &Pair<'_>) -> Result<Option<Judgement>, Hole> {
    let (Some(outside), Some(inside)) = (OUTSIDE.1(pair.lap), INSIDE.1(pair.lap)) else { return Ok(None) };
    let (outside, inside) = (of(outside)?, of(inside)?);
    let nominal = |value: &Valued<Amount>| value.it.nominal();
    let (less, more) = if nominal(outside) < nominal(inside) { (outside, inside) } else { (inside, outside) };
    let rule = build.house.rule("lap-sides")?;
    let (station, limit) = (nominal(more), nominal(less) * rule.it.nominal());
    let judgement =
        Judgement::new(Subject::LapEnters(pair.name.clone(), Enters::BothSides), station, limit, limit - station, "%")
            .of_case(Case::Enters(Against::OtherSide))
            .limit_at(rule.origin, SIDES)
            .at(less.origin.clone(), "the one side")
            .at(more.origin.clone(), "the other side")
            .lever(less.origin.clone(), Moves::Up)
            .lever(more.origin.clone(), Moves::Down);
    Ok(Some(judgement))
}

/// Laps that say where they enter the turnout, and join no two neighbours of what is turned out: nothing counts them.
fn astray(upper: &Upper, pairs: &[Pair<'_>]) -> Result<Vec<Judgement>, Hole> {
    let enters = |lap: &&Lap| lap.enters_outside.is_some() || lap.enters_inside.is_some();
    let known = |lap: &Lap| pairs.iter().any(|pair| std::ptr::eq(pair.lap, lap));
    let astray = upper.laps.iter().filter(enters).filter(|lap| !known(lap));
    astray
        .map(|lap| {
            let enters = [OUTSIDE, INSIDE].into_iter().find_map(|(_, of_side)| of_side(lap));
            let judgement = Judgement::yes_no(Subject::LapEnters(name(lap)?, Enters::Astray), false);
            Ok(match enters.and_then(|value| value.as_ref().ok()) {
                Some(value) => judgement.at(value.origin.clone(), "it enters here"),
                None => judgement,
            })
        })
        .collect()
}
