//! What the three rules on a machine's window share.

use super::judgement::{Judgement, Moves, Verdict, Words};
use super::words::number;
use crate::build::{Build, Built, SeamBuilt, Sewn};
use crate::finding::Subject;

/// One judgement for each seam.
pub(super) fn judge(
    build: &Build<'_>,
    unit: &'static str,
    of: fn(&SeamBuilt) -> &Built<Sewn>,
    what: &'static str,
    moves: Moves,
) -> Vec<Judgement> {
    build
        .seams
        .iter()
        .map(|seam| match of(seam) {
            Ok(sewn) => {
                let limit = sewn.window.nearer_end(sewn.value);
                let margin = (sewn.value - sewn.window.lo).min(sewn.window.hi - sewn.value);
                Judgement::new(Subject::Seam(seam.name.clone()), sewn.value, limit, margin, unit)
                    .at(sewn.origin.clone(), format!("{} {unit}", number(sewn.value, 1.0)))
                    .limit_at(sewn.window_origin.clone(), what)
                    .lever(sewn.origin.clone(), moves)
            }
            Err(hole) => Judgement::lost(Subject::Seam(seam.name.clone()), *hole),
        })
        .collect()
}

/// `the needle, 280 Nm, is 30 Nm over what the machine takes`
pub(super) fn words(judgement: &Judgement, what: &str, help: &str) -> Words {
    debug_assert!(judgement.verdict != Verdict::Passes);
    let Judgement { sum, limit, margin, unit, .. } = judgement;
    let over = if sum > limit { "over" } else { "under" };
    let message = format!(
        "{what} of {} {unit} is {} {unit} {over} what the machine takes ({} {unit})",
        number(*sum, *margin),
        number(margin.abs(), *margin),
        number(*limit, *margin),
    );
    Words { message, help: vec![help.to_owned()] }
}
