//! One file a rule: its name, what it judges, its words. A rule computes nothing that `build` should own.

mod bond_adhesive;
mod case;
mod claim_height;
mod ends;
mod forefoot_misses_insole;
mod forefoot_nailed;
mod forefoot_shaft;
mod hardware_reach;
mod hardware_spacing;
mod hardware_through;
mod heel_cap_nails;
mod heel_filler;
mod heel_height;
mod heel_held;
mod heel_lugs_under_base;
mod heel_nail_heads;
mod heel_nail_hold;
mod heel_nail_place;
mod heel_nail_point;
mod heel_nailer;
mod heel_sanding;
mod heel_wedges;
mod jaw_film;
mod jaw_forefoot_stack;
mod jaw_locks;
mod jaw_needle;
mod jaw_opens;
mod jaw_pitch;
mod jaw_sole_stack;
mod jaw_thread;
mod judgement;
mod last_feet;
mod lasting_margin;
mod lasting_pincers;
mod nail;
mod needle_perforation;
mod needle_thread;
mod phrase;
mod route_dwell;
mod route_order;
mod route_skipped;
mod rows_corner;
mod rows_edge;
mod rows_guide;
mod rows_least_in_turnout;
mod rows_no_line;
mod rows_through;
mod rows_turnout;
mod skiver_limits;
mod stock_blank;
mod tall;
mod upper_enters_turnout;
mod upper_fold;
mod upper_gusset;
mod upper_least_substance;
mod upper_row_edge;
mod upper_sews;
mod upper_stay;
mod upper_step;
mod upper_weakened;
mod waist_clinch;
mod waist_rigid_shank;
mod window;
mod words;

pub use case::{Against, By, Case};
pub use judgement::{Judgement, Lever, Moves, Verdict, Words};
pub use phrase::Phrase;
pub use words::{derivation, number, times};

use crate::build::Build;

/// A rule of the registry.
pub trait Rule: Sync {
    /// Plain name, never reused.
    fn name(&self) -> &'static str;

    /// The source of its file; the page is its module doc.
    fn source(&self) -> &'static str;

    /// Whether it says the same in every size of a model: what it looks at is settled before there is a size, in
    /// [`crate::build::Plan`]. Such a rule is asked once for a model.
    fn alike(&self) -> bool {
        false
    }

    /// What it says of one build: one judgement for each subject.
    fn judge(&self, build: &Build<'_>) -> Vec<Judgement>;

    /// The words for a judgement that does not pass.
    fn words(&self, judgement: &Judgement) -> Words;
}

/// All rules, in the order in which findings are shown.
#[must_use]
pub fn all() -> &'static [&'static dyn Rule] {
    &[
        &jaw_sole_stack::JawSoleStack,
        &jaw_opens::JawOpens,
        &jaw_film::JawFilm,
        &jaw_locks::JawLocks,
        &jaw_forefoot_stack::JawForefootStack,
        &rows_through::RowsThrough,
        &rows_least_in_turnout::RowsLeastInTurnout,
        &upper_enters_turnout::UpperEntersTurnout,
        &jaw_thread::JawThread,
        &jaw_needle::JawNeedle,
        &jaw_pitch::JawPitch,
        &rows_turnout::RowsTurnout,
        &rows_no_line::RowsNoLine,
        &rows_corner::RowsCorner,
        &rows_edge::RowsEdge,
        &rows_guide::RowsGuide,
        &last_feet::LastFeet,
        &lasting_margin::LastingMargin,
        &lasting_pincers::LastingPincers,
        &forefoot_nailed::ForefootNailed,
        &forefoot_misses_insole::ForefootMissesInsole,
        &waist_clinch::WaistClinch,
        &waist_rigid_shank::WaistRigidShank,
        &heel_height::HeelHeight,
        &heel_lugs_under_base::HeelLugsUnderBase,
        &heel_sanding::HeelSanding,
        &heel_wedges::HeelWedges,
        &heel_filler::HeelFiller,
        &heel_nail_place::HeelNailPlace,
        &heel_nail_point::HeelNailPoint,
        &heel_nail_hold::HeelNailHold,
        &heel_nail_heads::HeelNailHeads,
        &heel_nailer::HeelNailer,
        &heel_cap_nails::HeelCapNails,
        &heel_held::HeelHeld,
        &upper_row_edge::UpperRowEdge,
        &upper_sews::UpperSews,
        &upper_least_substance::UpperLeastSubstance,
        &upper_step::UpperStep,
        &upper_weakened::UpperWeakened,
        &upper_stay::UpperStay,
        &upper_fold::UpperFold,
        &upper_gusset::UpperGusset,
        &skiver_limits::SkiverLimits,
        &needle_perforation::NeedlePerforation,
        &needle_thread::NeedleThread,
        &hardware_reach::HardwareReach,
        &hardware_through::HardwareThrough,
        &hardware_spacing::HardwareSpacing,
        &forefoot_shaft::ForefootShaft,
        &claim_height::ClaimHeight,
        &route_order::RouteOrder,
        &route_skipped::RouteSkipped,
        &route_dwell::RouteDwell,
        &stock_blank::StockBlank,
        &bond_adhesive::BondAdhesive,
    ]
}

/// The page of a rule: what, why at the bench, formula, an example that fails and its mending, the source.
#[must_use]
pub fn page(rule: &dyn Rule) -> String {
    let doc = rule.source().lines().take_while(|line| line.starts_with("//!"));
    let mut page: String = doc.map(|line| line[3..].strip_prefix(' ').unwrap_or("").to_owned() + "\n").collect();
    page.truncate(page.trim_end().len());
    page.push('\n');
    page
}

/// One section of a rule's page, without its heading.
#[must_use]
pub fn section(rule: &dyn Rule, heading: &str) -> String {
    let page = page(rule);
    let start = format!("## {heading}");
    let lines = page.lines().skip_while(|line| *line != start).skip(1).take_while(|line| !line.starts_with("## "));
    lines.collect::<Vec<_>>().join("\n").trim().to_owned()
}

/// The first sentence of a rule's page: what it checks.
#[must_use]
pub fn gist(rule: &dyn Rule) -> String {
    let page = page(rule);
    let paragraph: Vec<&str> = page
        .lines()
        .skip_while(|line| line.is_empty() || line.starts_with('#'))
        .take_while(|line| !line.is_empty())
        .collect();
    let paragraph = paragraph.join(" ");
    paragraph.split_inclusive(". ").next().unwrap_or_default().trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gist_is_the_first_sentence_below_the_title() {
        for rule in all() {
            let (page, gist) = (page(*rule), gist(*rule));
            let below = page.split_once('\n').expect("a title").1.trim_start().replace('\n', " ");
            assert!(below.starts_with(&gist) && gist.ends_with('.') && !gist.contains(". "), "{}: {gist}", rule.name());
        }
    }

    #[test]
    fn every_rule_has_a_page_with_all_its_parts() {
        for rule in all() {
            let page = page(*rule);
            assert!(page.starts_with(&format!("# {}\n", rule.name())), "{}", rule.name());
            for part in ["## At the bench", "## Formula", "## Fails", "## Mended", "## Source"] {
                assert!(page.contains(part), "{} lacks {part}", rule.name());
            }
        }
    }

    #[test]
    fn no_name_is_used_twice() {
        let mut names: Vec<&str> = all().iter().map(|rule| rule.name()).collect();
        names.extend(crate::finding::FaultName::FAULTS.iter().map(|(name, _)| name.0));
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), count);
    }
}
