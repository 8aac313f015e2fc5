//! # bond/adhesive
//!
//! What bonds a layer of the bottom, or the heel, is an adhesive for soles; what cements a lining in, one for linings.
//!
//! ## At the bench
//!
//! Lining paste stays soft and strips off when it must. A sole that is bonded with it comes off in the wet, and where the rows
//! end above it nothing else holds it. Sole cement in a lining dries hard: the edge is felt under the foot, and the lining no
//! longer strips off when the boot is resoled.
//!
//! ## Formula
//!
//! The adhesive that a layer of the bottom, or the heel, is `bonded` with says `for soles` in the stock; the one that a
//! `lasted-in` lining is `bonded` with says `for linings`. One that does not say what it is for holds neither: what is not known of it can't be
//! relied on. A lining that names none is not judged.
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
use crate::finding::{Held, Subject};
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
        let layers = build.model.bottom.iter().flat_map(|bottom| &bottom.layers);
        let layers = layers.filter_map(|layer| Some((Held::Layer(layer.role.name()), layer.bonded.as_ref()?)));
        let heel = build.model.heel.iter().filter_map(|heel| Some((Held::Heel, heel.bonded.as_ref()?)));
        let linings = build.model.upper.iter().flat_map(|upper| &upper.lasted_in);
        let linings = linings.filter_map(|lining| {
            Some((Held::Lining(lining.part.as_ref().ok()?.it.name.as_str().into()), lining.bonded.as_ref()?))
        });
        layers.chain(heel).chain(linings).map(|(held, bonded)| judge(&held, bonded)).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let message = judgement.facts.first().map(ToString::to_string).unwrap_or_default();
        let wanted = if let Subject::Bond(held) = &judgement.subject { wanted(held) } else { SOLES };
        let help = format!(
            "bond it with one that is; where its maker says that this one is, let the stock say `for {wanted}`"
        );
        Words { message, help: vec![help] }
    }
}

const SOLES: &str = "soles";

/// What the adhesive must be for.
fn wanted(held: &Held) -> &'static str {
    match held {
        Held::Layer(_) | Held::Heel => SOLES,
        Held::Lining(_) => "linings",
    }
}

fn judge(held: &Held, bonded: &Val<Arc<Adhesive>>) -> Judgement {
    let (subject, wanted) = (Subject::Bond(held.clone()), wanted(held));
    let judged = || -> Result<Judgement, Hole> {
        let (adhesive, origin) = (&of(bonded)?.it, &of(bonded)?.origin);
        let stated = adhesive.fit_for.as_ref().map(of).transpose()?;
        let fits = stated.is_some_and(|stated| stated.it.contains(&wanted));
        let mut judgement = Judgement::yes_no(subject.clone(), fits);
        if !fits {
            let name = &adhesive.name;
            judgement.facts.push(match stated {
                Some(stated) => format!("`{name}` is for {}, not for {wanted}", stated.it.join(" and ")).into(),
                None => format!("`{name}` does not say that it is for {wanted}").into(),
            });
        }
        if let Some(stated) = stated {
            judgement = judgement.at(stated.origin.clone(), "what it is for");
        }
        Ok(judgement.at(origin.clone(), format!("holds the {held}")).lever(origin.clone(), Moves::Another))
    };
    judged().unwrap_or_else(|hole| Judgement::lost(subject.clone(), hole))
}
