//! # bond/adhesive
//!
//! What bonds a layer of the bottom, or the heel, is an adhesive for soles.
//!
//! ## At the bench
//!
//! Lining paste stays soft and strips off when it must. A sole that is bonded with it comes off in the wet, and where the rows
//! end above it nothing else holds it.
//!
//! ## Formula
//!
//! The adhesive that a layer of the bottom, or the heel, is `bonded` with says `for soles` in the stock. One that does not say what it is
//! for holds no sole: what is not known of it can't be relied on.
//!
//! ## Fails
//!
//! ```text
//! adhesive latex { for linings;  coats 1 }
//! layer slip { of slip-sheet;  bonded latex }
//! ```
//!
//! ## Mended
//!
//! ```text
//! adhesive neoprene { for soles;  coats 2 }
//! layer slip { of slip-sheet;  bonded neoprene }
//! ```
//!
//! ## Source
//!
//! The maker's data sheet of the adhesive, as the stock states it. Common practice, no source.

use super::Rule;
use super::judgement::{Judgement, Moves, Words};
use crate::build::{Build, of};
use crate::language::Hole;
use crate::spec::{Adhesive, Val};
use std::sync::Arc;

/// The rule.
pub(super) struct BondAdhesive;

impl Rule for BondAdhesive {
    fn name(&self) -> &'static str {
        "bond/adhesive"
    }

    fn source(&self) -> &'static str {
        include_str!("bond_adhesive.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let Ok(bottom) = &build.model.bottom else { return Vec::new() };
        let layers = bottom.layers.iter().map(|layer| (layer.role.name(), layer.bonded.as_ref()));
        let heel = build.model.heel.as_ref().map(|heel| ("heel", heel.bonded.as_ref()));
        let bonds = layers.chain(heel).filter_map(|(what, bonded)| Some((what, bonded?)));
        bonds
            .map(|(what, bonded)| {
                let subject = format!("bond of the {what}");
                judge(&subject, what, bonded).unwrap_or_else(|hole| Judgement::lost(subject, hole))
            })
            .collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let message = judgement.facts.first().map(ToString::to_string).unwrap_or_default();
        let help = "bond it with one that is; where its maker says that this one is, let the stock say `for soles`";
        Words { message, help: vec![help.to_owned()] }
    }
}

fn judge(subject: &str, what: &str, bonded: &Val<Arc<Adhesive>>) -> Result<Judgement, Hole> {
    let (adhesive, origin) = (&of(bonded)?.it, &of(bonded)?.origin);
    let stated = adhesive.fit_for.as_ref().map(of).transpose()?;
    let fits = stated.is_some_and(|stated| stated.it.contains(&"soles"));
    let mut judgement = Judgement::yes_no(subject, fits);
    if !fits {
        let name = &adhesive.name;
        judgement.facts.push(match stated {
            Some(stated) => format!("`{name}` is for {}, not for soles", stated.it.join(" and ")).into(),
            None => format!("`{name}` does not say that it is for soles").into(),
        });
    }
    if let Some(stated) = stated {
        judgement = judgement.at(stated.origin.clone(), "what it is for");
    }
    Ok(judgement.at(origin.clone(), format!("holds the {what}")).lever(origin.clone(), Moves::Another))
}
