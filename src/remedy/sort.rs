//! What a change costs: of which kind it is, and what is never offered first.

use super::place::Way;
use crate::finding::Kind;

/// The kind of a change of the statement at `way`.
pub fn kind(way: &Way) -> Kind {
    let word = way.last().map_or("", |key| key.word);
    let within = |outer: &str| way.iter().any(|key| key.word == outer);
    match word {
        "on" | "pitch" | "needle" | "with" if within("facing") => Kind::Setting,
        "on" | "pitch" | "needle" | "in-turnout" | "edge" | "from-edge" | "apart" | "inside-feather" | "step"
        | "skip" | "on-the-last" | "dwell" | "mulled" | "first" | "inside-edge" => Kind::Setting,
        "of" | "with" | "thread" | "cap" | "base" | "lengths" | "length" | "bonded" => Kind::Stock,
        "eyelets" | "hooks" => Kind::Stock,
        "layer" | "through" | "lifts" | "wedges" | "thin-lifts" | "covers" | "ends" | "breadth" | "rigid" | "to"
        | "rows" | "rubbed-flat" | "backing" | "stage"
            if !within("gusset") =>
        {
            Kind::Construction
        }
        _ => Kind::Pattern,
    }
}

/// Fewer rows, less edge, nails towards the toe: nothing that a maker of boots would be told to do first.
pub fn never_first(way: &Way, clause: Option<&str>, up: bool) -> bool {
    let word = way.last().map_or("", |key| key.word);
    match word {
        "rows" => !up && clause.is_none(),
        "from-edge" => !up && way.iter().any(|key| key.word == "sole"),
        "to" => up && way.iter().any(|key| key.word == "waist"),
        _ => false,
    }
}
