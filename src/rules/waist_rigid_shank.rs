//! # waist/rigid-shank
//!
//! No nail is driven into a rigid shank.
//!
//! ## At the bench
//!
//! A nail driven on steel or board turns, comes out beside it, or splits it, and the boot is scrap with its last
//! still in.
//!
//! ## Formula
//!
//! A shank that is marked `rigid` is where it says, over its breadth, centred on the centre line. Every nail of waist and
//! seat stands outside it by the radius of its shank at least, and so does every heel nail that passes the base's face.
//!
//! ## Fails
//!
//! ```text
//! layer shank { of bend 10 iron;  covers waist;  breadth 50 mm;  rigid }      # the waist's nails stand in it
//! ```
//!
//! ## Mended
//!
//! ```text
//! layer shank { of bend 10 iron;  covers waist;  breadth 30 mm;  rigid }
//! ```
//!
//! ## Source
//!
//! Common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words, judged};
use crate::build::{Build, Built, NailsBuilt, of};
use crate::finding::{ClinchLine, Subject};
use crate::language::Hole;
use crate::spec::Role;

/// The rule.
pub(super) struct WaistRigidShank;

impl Rule for WaistRigidShank {
    fn name(&self) -> &'static str {
        "waist/rigid-shank"
    }

    fn source(&self) -> &'static str {
        include_str!("waist_rigid_shank.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let lines = [(ClinchLine::Waist, &build.waist), (ClinchLine::Seat, &build.seat)];
        let of_line = |(line, nails): (ClinchLine, &Option<Built<NailsBuilt>>)| {
            let subject = Subject::Clinched(line);
            nails.as_ref().map(|nails| {
                judged(subject.clone(), nails, |nails| {
                    judge(build, &subject, (&nails.in_rigid, nails.nails.len()))
                        .unwrap_or_else(|hole| vec![Judgement::lost(subject, hole)])
                })
            })
        };
        let mut all: Vec<Judgement> = lines.into_iter().filter_map(of_line).flatten().collect();
        if let Some(Ok(nails)) = &build.heel_nails {
            let count = nails.stands.len();
            let found = judge(build, &Subject::HeelNails, (&nails.in_rigid, count));
            all.extend(found.unwrap_or_else(|hole| vec![Judgement::lost(Subject::HeelNails, hole)]));
        }
        all
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let message = format!("{} stand in a rigid layer", judgement.subject);
        Words { message, help: vec!["make it narrower, or move the nails out towards the feather".to_owned()] }
    }
}

fn judge(
    build: &Build<'_>,
    subject: &Subject,
    (in_rigid, of_all): (&[(Role, usize)], usize),
) -> Result<Vec<Judgement>, Hole> {
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    let rigid = in_rigid.iter().map(|(role, count)| {
        let mut judgement = Judgement::yes_no(subject.clone(), *count == 0);
        if let Some(layer) = bottom.layer(*role).filter(|_| *count > 0) {
            judgement.facts.push(format!("{count} of {} stand in the {}", of_all, role.name()).into());
            let origin = layer.breadth.as_ref().map_or(Ok(&of(&layer.of)?.origin), |it| of(it).map(|it| &it.origin))?;
            judgement = judgement.at(origin.clone(), "rigid").lever(origin.clone(), Moves::Down);
        }
        Ok(judgement)
    });
    rigid.collect()
}
