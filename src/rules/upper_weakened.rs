//! # upper/weakened
//!
//! A skive that reaches beyond its lap leaves enough of the one part that lies there alone.
//!
//! ## At the bench
//!
//! In the lap two parts share the pull; beyond it one carries it alone. A skive wider than the lap does not show, because
//! it is on the flesh side, and the boot tears along a line where nobody sees a seam.
//!
//! ## Formula
//!
//! If a skive is wider than its lap: what it leaves at the lap's edge, `e + (T - e) * lap / w` at the thin end, `>=
//! single-ply` of the house. The thin end decides; there is no tight. (`least-substance` is not the limit here: under a
//! row, nearer to the edge, the skive always leaves less than at the lap's edge.)
//!
//! ## Fails
//!
//! ```text
//! lap counter-cover over quarter { wide 14 mm;  skive quarter { edge wide 30 mm to 0.6 mm } }    # 1.43 mm alone
//! ```
//!
//! ## Mended
//!
//! ```text
//! lap counter-cover over quarter { wide 14 mm;  skive quarter { edge wide 10 mm to 1.0 mm } }
//! ```
//!
//! ## Source
//!
//! House rule: common practice, no source.

use super::Rule;
use super::ends::thin_end;
use super::judgement::{Judgement, Moves, Words, judged};
use super::words::number;
use crate::build::{Beyond, Build, LapBuilt};
use crate::finding::{PartOfLap, SeamName, Subject};
use std::sync::Arc;

/// The rule.
pub(super) struct UpperWeakened;

impl Rule for UpperWeakened {
    fn name(&self) -> &'static str {
        "upper/weakened"
    }

    fn source(&self) -> &'static str {
        include_str!("upper_weakened.rs")
    }

    fn alike(&self) -> bool {
        true
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        let of_lap = |lap: &LapBuilt| {
            judged(Subject::Seam(SeamName::Lap(lap.name.clone())), &lap.beyond, |beyond| {
                beyond.iter().map(|beyond| judge(build, lap, beyond)).collect()
            })
        };
        build.upper.laps.iter().flat_map(of_lap).collect()
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let message = format!(
            "the skive reaches beyond the lap and leaves {} mm of one part alone, the house wants {} mm: {} mm short",
            number(*sum, *margin),
            number(*limit, *margin),
            number(margin.abs(), *margin),
        );
        Words { message, help: vec!["skive no wider than the lap, or leave more at the edge".to_owned()] }
    }
}

fn judge(build: &Build<'_>, lap: &LapBuilt, beyond: &Beyond) -> Judgement {
    let subject = Subject::PartOfLap(PartOfLap { part: Arc::clone(&beyond.part), lap: lap.name.clone() });
    let rule = match build.house.rule("single-ply") {
        Ok(rule) => rule,
        Err(hole) => return Judgement::lost(subject, hole),
    };
    let mut judgement = thin_end(subject, &beyond.sum, rule.it.nominal())
        .lever(beyond.origin.clone(), Moves::Up)
        .limit_at(rule.origin, "house rule: least leather of one part alone");
    judgement.place = Some(format!("at the lap's edge; the skive reaches {:.2} mm beyond it", beyond.reaches).into());
    judgement
}
