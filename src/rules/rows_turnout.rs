//! # rows/turnout
//!
//! The turnout carries its rows: the innermost one keeps clear of the upper's wall, and rows start where it is full.
//!
//! ## At the bench
//!
//! If the innermost row runs too near to the wall, the machine's foot rides up on the upper, scuffs it and sews a crooked
//! row; a row that starts where the turnout has begun to fall runs off the edge.
//!
//! ## Formula
//!
//! At every place of the innermost row: turnout - from-edge - (rows - 1) * apart - overhang of the last `>= wall` of the
//! machine. Rows start no farther behind the breast than the waist's turnout holds.
//!
//! ## Fails
//!
//! ```text
//! turnout at-forepart 9.5 mm at-waist 9.5 mm at-heel 4 mm    # two rows leave 2.5 mm, the machine wants 3
//! ```
//!
//! ## Mended
//!
//! ```text
//! turnout at-forepart 11 mm at-waist 11 mm at-heel 4 mm
//! ```
//!
//! ## Source
//!
//! Geometry; the machine's clearance is the shop's own figure. Where rows start is a house rule, common practice,
//! no source.

use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use super::{Phrase, Rule};
use crate::build::{Build, Lines, SoleRows, mm, of};
use crate::finding::Subject;
use crate::geometry::{Path, Side};
use crate::language::Hole;

/// The rule.
pub(super) struct RowsTurnout;

const WALL: Subject = Subject::InnermostSoleRow;
const START: Subject = Subject::StartOfSoleRows;

impl Rule for RowsTurnout {
    fn name(&self) -> &'static str {
        "rows/turnout"
    }

    fn source(&self) -> &'static str {
        include_str!("rows_turnout.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        judged(WALL, &build.rows, |rows| {
            let wall = match &build.lines {
                Ok(lines) => wall(build, lines, rows).unwrap_or_else(|hole| Some(Judgement::lost(WALL, hole))),
                Err(hole) => Some(Judgement::lost(WALL, *hole)),
            };
            let start = rows
                .starts_in_full_turnout
                .map(|full| start(build, full).unwrap_or_else(|hole| Judgement::lost(START, hole)));
            wall.into_iter().chain(start).collect()
        })
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        if judgement.subject == START {
            let message = format!(
                "the rows start {} mm behind the breast, the turnout is full to {} mm: {} mm too far back",
                number(*sum, *margin),
                number(*limit, *margin),
                number(margin.abs(), *margin),
            );
            return Words {
                message,
                help: vec!["start them nearer to the breast, or let the turnout hold farther".to_owned()],
            };
        }
        let message = format!(
            "the innermost row runs {} mm from the upper's wall, the machine needs {} mm: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["turn the upper out farther".to_owned()] }
    }
}

fn wall(build: &Build<'_>, lines: &Lines, rows: &SoleRows) -> Result<Option<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let sole = bottom.sole.as_ref().map_err(|hole| *hole)?;
    let Some(limit) = &of(&sole.on)?.it.wall else { return Ok(None) };
    let limit = of(limit)?;
    let Some(row) = rows.rows.last() else { return Ok(None) };
    let clearance = row.wall_clearance;
    let wanted = limit.it.nominal();
    let turnout = bottom.turnout.as_ref().map_err(|hole| *hole)?;
    let side = if lines.last.feather.side(row.clearance_at) == Side::Outside { "outside" } else { "inside" };
    let station = lines.last.feather.point(row.clearance_at).x / lines.last.bottom * 100.0;
    let mut judgement = Judgement::new(WALL, clearance, wanted, clearance - wanted, "mm");
    judgement.place = Some(format!("nearest at {station:.0} % of the bottom on the {side}").into());
    let (waist, from_edge) = (of(&turnout.waist_outside)?, of(&sole.from_edge)?);
    let mut judgement = judgement
        .at(waist.origin.clone(), Phrase::of("turnout {} mm", waist.it.nominal()))
        .at(from_edge.origin.clone(), Phrase::of("outer row {} mm from the edge", from_edge.it.nominal()))
        .limit_at(limit.origin.clone(), "the machine's clearance to the wall")
        .lever(waist.origin.clone(), Moves::Up);
    if let Some(overhang) = &of(&build.model.last)?.it.overhang {
        let overhang = of(overhang)?;
        judgement =
            judgement.at(overhang.origin.clone(), Phrase::of("the wall leans out {} mm", overhang.it.nominal()));
    }
    if let Some(apart) = &sole.apart {
        let apart = of(apart)?;
        let others = rows.rows.len() - 1;
        judgement =
            judgement.at(apart.origin.clone(), format!("{others} more, {} mm apart", number(apart.it.nominal(), 1.0)));
    }
    Ok(Some(judgement))
}

fn start(build: &Build<'_>, full: bool) -> Result<Judgement, Hole> {
    let (starts, holds) = (build.house.rule("rows-start"), build.house.rule("turnout-holds"));
    let (start, hold) = (mm(&starts)?, mm(&holds)?);
    let mut judgement = Judgement::new(START, start, hold, hold - start, "mm");
    debug_assert_eq!(judgement.verdict == super::Verdict::Passes, full);
    judgement.place = Some("behind the breast".to_owned().into());
    Ok(judgement
        .at(of(&starts)?.origin.clone(), "rows start here")
        .limit_at(of(&holds)?.origin.clone(), "the turnout holds"))
}
