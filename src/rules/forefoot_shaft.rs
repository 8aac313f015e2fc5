//! # forefoot/shaft
//!
//! The shaft goes over the horn of the machine that sews the forefoot.
//!
//! ## At the bench
//!
//! The forefoot is sewn with the last out and the boot hung over the horn. A shaft too tall for it folds against the
//! machine's arm, and the row is pulled crooked or not sewn at all; the largest sizes fail first.
//!
//! ## Formula
//!
//! shaft inside at the back, graded, `<= shafts` of the forefoot's machine.
//!
//! ## Fails
//!
//! ```text
//! shaft 262 mm grade 2 mm       # the horn stitcher takes shafts to 260
//! ```
//!
//! ## Mended
//!
//! ```text
//! shaft 165 mm grade 2 mm
//! ```
//!
//! ## Source
//!
//! The machine's own figure, as the shop states it.

use super::Rule;
use super::ends::at_most;
use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use crate::build::Build;
use crate::finding::Subject;
use crate::language::Hole;

/// The rule.
pub(super) struct ForefootShaft;

const SUBJECT: Subject = Subject::ShaftOverHorn;

impl Rule for ForefootShaft {
    fn name(&self) -> &'static str {
        "forefoot/shaft"
    }

    fn source(&self) -> &'static str {
        include_str!("forefoot_shaft.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let judgement = judge(build).unwrap_or_else(|hole| Some(Judgement::lost(SUBJECT, hole)));
        judgement.into_iter().collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the shaft stands {} mm, over the horn go {} mm: {} mm too tall",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words {
            message,
            help: vec!["lower the shaft, or sew the forefoot on a machine that reaches deeper".to_owned()],
        }
    }
}

fn judge(build: &Build<'_>) -> Result<Option<Judgement>, Hole> {
    let Some(shaft) = &build.shaft else { return Ok(None) };
    let shaft = shaft.as_ref().map_err(|hole| *hole)?;
    let Some(horn) = &shaft.horn else { return Ok(None) };
    let (limit, origin) = horn.clone()?;
    let mut judgement = at_most(SUBJECT, &shaft.inside, limit).limit_at(origin, "the tallest shaft over its horn");
    if let Some(term) = shaft.inside.terms.first() {
        judgement = judgement.lever(term.origin.clone(), Moves::Down);
    }
    Ok(Some(judgement))
}
