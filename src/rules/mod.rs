//! One file a rule: its name, what it judges, its words. A rule computes nothing that `build` should own.

mod forefoot_misses_insole;
mod forefoot_nailed;
mod heel_height;
mod heel_lugs_under_base;
mod jaw_needle;
mod jaw_pitch;
mod jaw_sole_stack;
mod jaw_thread;
mod judgement;
mod route_dwell;
mod route_order;
mod route_skipped;
mod rows_edge;
mod rows_turnout;
mod stock_blank;
mod waist_clinch;
mod window;
mod words;

pub use judgement::{Judgement, Lever, Moves, Verdict, Words};
pub use words::number;

use crate::build::Build;

/// A rule of the registry.
pub trait Rule: Sync {
    /// Plain name, never reused.
    fn name(&self) -> &'static str;

    /// The source of its file; the page is its module doc.
    fn source(&self) -> &'static str;

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
        &jaw_thread::JawThread,
        &jaw_needle::JawNeedle,
        &jaw_pitch::JawPitch,
        &rows_turnout::RowsTurnout,
        &rows_edge::RowsEdge,
        &forefoot_nailed::ForefootNailed,
        &forefoot_misses_insole::ForefootMissesInsole,
        &waist_clinch::WaistClinch,
        &heel_height::HeelHeight,
        &heel_lugs_under_base::HeelLugsUnderBase,
        &route_order::RouteOrder,
        &route_skipped::RouteSkipped,
        &route_dwell::RouteDwell,
        &stock_blank::StockBlank,
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
