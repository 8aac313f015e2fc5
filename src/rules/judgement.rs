//! What a rule returns: numbers and places, no text.

use super::{Case, Phrase};
use crate::finding::{Subject, Sum};
use crate::language::Hole;
use crate::measure::pairs_failing;
use crate::source::Origin;

/// What was judged.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// It passes with every thickness in tolerance.
    Passes,
    /// Nominal passes, an end of the tolerance does not; the share of boots likely to fail.
    Tight(f64),
    /// It passes, and is worth a word.
    Noted,
    /// It can't be built.
    Refused,
    /// Something that it needs was lost to a fault.
    NotJudged(Hole),
}

/// Which way a choice moves the margin up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moves {
    /// More of it.
    Up,
    /// Less of it.
    Down,
    /// Another of its kind.
    Another,
}

/// Below this share of pairs a tight build is only worth a note.
const WORTH_TIGHT: f64 = 0.005;

impl Verdict {
    /// Whether so many pairs are likely to fail that it is called tight; fewer are worth a note, wherever they are shown.
    #[must_use]
    pub fn is_tight(&self) -> bool {
        matches!(self, Verdict::Tight(share) if pairs_failing(*share) >= WORTH_TIGHT)
    }

    /// In a word, the same in every output.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Verdict::Passes => "passes",
            Verdict::Tight(_) if self.is_tight() => "tight",
            Verdict::Tight(_) | Verdict::Noted => "note",
            Verdict::Refused => "refused",
            Verdict::NotJudged(_) => "not judged",
        }
    }
}

/// A choice that moves the margin.
#[derive(Clone, Debug, PartialEq)]
pub struct Lever {
    /// The choice.
    pub origin: Origin,
    /// Which way.
    pub moves: Moves,
}

/// One subject judged in one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// What is judged; the model is added where it is reported.
    pub subject: Subject,
    /// The verdict.
    pub verdict: Verdict,
    /// What was judged; NaN never, for yes/no rules both sum and limit are 0.
    pub sum: f64,
    /// What it was held against.
    pub limit: f64,
    /// How much is left.
    pub margin: f64,
    /// The unit of the three; empty for yes/no rules.
    pub unit: &'static str,
    /// The terms of the sum.
    pub terms: Sum,
    /// Where the limit was written, and what it is.
    pub limit_origin: Option<(Origin, &'static str)>,
    /// Further places that belong to it.
    pub further: Vec<(Origin, Phrase)>,
    /// Where on the boot.
    pub place: Option<Phrase>,
    /// Facts worth a line: modes that would pass, the window, the nearest lengths.
    pub facts: Vec<Phrase>,
    /// The choices that move its margin.
    pub levers: Vec<Lever>,
    /// Which of its rule's cases it is.
    pub case: Case,
}

/// Message and help.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Words {
    /// What is wrong, with the numbers.
    pub message: String,
    /// How to mend it.
    pub help: Vec<String>,
}

impl Judgement {
    /// A judgement of `sum` against `limit`, to be filled in.
    #[must_use]
    pub fn new(subject: Subject, sum: f64, limit: f64, margin: f64, unit: &'static str) -> Self {
        let verdict = if crate::measure::fits(0.0, margin) { Verdict::Passes } else { Verdict::Refused };
        Self {
            subject,
            verdict,
            sum,
            limit,
            margin,
            unit,
            terms: Sum::new(),
            limit_origin: None,
            further: Vec::new(),
            place: None,
            facts: Vec::new(),
            levers: Vec::new(),
            case: Case::Plain,
        }
    }

    /// A yes or no.
    #[must_use]
    pub fn yes_no(subject: Subject, passes: bool) -> Self {
        Self::new(subject, 0.0, 0.0, if passes { 0.0 } else { -1.0 }, "")
    }

    /// Not judged, because of a hole.
    #[must_use]
    pub fn lost(subject: Subject, hole: Hole) -> Self {
        Self { verdict: Verdict::NotJudged(hole), ..Self::new(subject, 0.0, 0.0, 0.0, "") }
    }

    /// As a case of its rule.
    #[must_use]
    pub fn of_case(self, case: Case) -> Self {
        Self { case, ..self }
    }

    /// With where the limit was written.
    #[must_use]
    pub fn limit_at(mut self, origin: Origin, what: &'static str) -> Self {
        self.limit_origin = Some((origin, what));
        self
    }

    /// With another place.
    #[must_use]
    pub fn at(mut self, origin: Origin, what: impl Into<Phrase>) -> Self {
        self.further.push((origin, what.into()));
        self
    }

    /// With a choice that moves it.
    #[must_use]
    pub fn lever(mut self, origin: Origin, moves: Moves) -> Self {
        self.levers.push(Lever { origin, moves });
        self
    }
}

/// Judgements of something that a fault may have taken whole.
pub(super) fn judged<T>(
    subject: Subject,
    built: &Result<T, Hole>,
    judge: impl FnOnce(&T) -> Vec<Judgement>,
) -> Vec<Judgement> {
    match built {
        Ok(built) => judge(built),
        Err(hole) => vec![Judgement::lost(subject, *hole)],
    }
}
