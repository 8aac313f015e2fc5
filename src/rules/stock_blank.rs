//! # stock/blank
//!
//! Outsole and cap are stocked in a blank that holds their outline with all that is trimmed from it.
//!
//! ## At the bench
//!
//! A blank that is too short or too narrow leaves the rough-rounder nothing to cut at the toe or beside the joints, and the
//! edge shows a step that no sanding takes away. One finds out with the boot on the machine.
//!
//! ## Formula
//!
//! Needed: the outline from where the outsole ends (for a cap: from the back) to the toe (for a cap: to the breast), along
//! the centre line and square to it. An outsole that the rows go through is cut away with the rest: its outline is the edge
//! before rough-rounding. One that is cemented below the rows, and a cap, go on when that edge is trimmed. A size of blank
//! serves if it is no smaller than the boot's size, where both are numbered by one system, and, where the stock says how
//! large it is, if it is as long and as wide as needed. Some size that is stocked must serve.
//!
//! ## Fails
//!
//! ```text
//! outsole lug-low { blanks us-men 5..12 }    # the model is made up to 14
//! ```
//!
//! ## Mended
//!
//! ```text
//! outsole lug-low { blanks us-men 5..14 }
//! ```
//!
//! ## Source
//!
//! Geometry; the blanks are the shop's own figures.

use super::judgement::{Judgement, Moves, Words};
use super::words::number;
use super::{By, Case, Rule};
use crate::build::Build;
use crate::build::takes::{BlankBuilt, blanks};
use crate::finding::Subject;
use crate::measure::{Size, to_f64};

/// The rule.
pub(super) struct StockBlank;

impl Rule for StockBlank {
    fn name(&self) -> &'static str {
        "stock/blank"
    }

    fn source(&self) -> &'static str {
        include_str!("stock_blank.rs")
    }

    fn judge(&self, build: &Build<'_>) -> Vec<Judgement> {
        match blanks(build) {
            Ok(blanks) => blanks.iter().map(judgement).collect(),
            Err(hole) => vec![Judgement::lost(Subject::Blanks, hole)],
        }
    }

    fn words(&self, judgement: &Judgement) -> Words {
        let Judgement { sum, limit, margin, .. } = judgement;
        let help = vec!["stock a larger blank, or make the model in fewer sizes".to_owned()];
        let (way, lacks) = match judgement.case {
            Case::Blank(By::Length) => ("long", "short"),
            Case::Blank(By::Breadth) => ("wide", "narrow"),
            _ => {
                let [asked, largest] = [sum, limit].map(|size| number(*size, 1.0));
                let message = format!("size {asked} is asked for, the largest blank is size {largest}");
                return Words { message, help };
            }
        };
        let message = format!(
            "the largest blank is {} mm {way}, {} mm are needed: {} mm too {lacks}",
            number(*limit, *margin),
            number(*sum, *margin),
            number(margin.abs(), *margin)
        );
        Words { message, help }
    }
}

/// Against the largest blank: by its size, else by whichever of length and breadth it is shorter in.
fn judgement(blank: &BlankBuilt) -> Judgement {
    let subject = Subject::Blank(blank.what);
    let largest = to_f64(blank.largest);
    let number = blank.size.map_or(0.0, to_f64);
    let mut judgement = match (blank.needs, blank.largest_is) {
        (Some(needs), Some(is)) if number <= largest => {
            let (long, wide) = (is.0 - needs.0, is.1 - needs.1);
            let ((sum, limit), by, way) = if long < wide {
                ((needs.0, is.0), By::Length, "how long it is, at its largest")
            } else {
                ((needs.1, is.1), By::Breadth, "how wide it is, at its largest")
            };
            let mut judgement = Judgement::new(subject, sum, limit, limit - sum, "mm").of_case(Case::Blank(by));
            judgement.place = Some(way.to_owned().into());
            judgement
        }
        _ => Judgement::new(subject, number, largest, largest - number, "size").of_case(Case::Blank(By::Size)),
    };
    if let Some(chosen) = blank.chosen {
        judgement.facts.push(format!("blank size {} is taken", Size::number_text(chosen)).into());
    }
    judgement
        .at(blank.origin.clone(), format!("`{}` is stocked so", blank.stock))
        .lever(blank.origin.clone(), Moves::Up)
}
