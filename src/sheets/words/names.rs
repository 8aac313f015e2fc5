//! Words of this program that are no figure's label: what lies in a stack, seams, places, roles.
//!
//! `{}` is a name that the shop types, which stays; `{w}` is a word of this program, which is looked up in [`HOLES`].

use super::Lang;
use std::borrow::Cow;

/// Names with words in them. The first that fits counts.
const PATTERNS: &[(&str, &str)] = &[
    ("{w} ({}), skived", "{w} ({}), rebajado"),
    ("{w} ({})", "{w} ({})"),
    ("{} ({}), skived", "{} ({}), rebajado"),
    ("lap {} over {}", "solape {} sobre {}"),
    ("seam {}", "costura {}"),
    ("stay {}", "refuerzo {}"),
    ("gusset of {}", "fuelle de {}"),
    ("{w}", "{w}"),
];

/// Size systems, which every language calls alike.
const SYSTEMS: &[&str] = &["us-men", "us-women", "uk", "eu", "mondo"];

/// Words of this program that stand in holes.
const HOLES: &[(&str, &str)] = &[
    ("arch", "arco"),
    ("back", "la parte de atrás"),
    ("base", "la base"),
    ("breast", "el frente"),
    ("cap", "firme"),
    ("collar", "collarín"),
    ("counter", "contrafuerte"),
    ("edge", "borde"),
    ("eyelets", "ojales"),
    ("facing", "cartera"),
    ("filler", "relleno"),
    ("flat", "plano"),
    ("heel", "el talón"),
    ("hooks", "ganchos"),
    ("insole", "plantilla"),
    ("joints", "los dedos"),
    ("laces", "cordones"),
    ("leather", "cuero"),
    ("lifts", "tapas"),
    ("midsole", "entresuela"),
    ("outsole", "suela"),
    ("outsole base", "suela, base"),
    ("outsole lug", "suela, taco"),
    ("pad", "almohadilla"),
    ("prime", "primera"),
    ("puff", "tope"),
    ("second", "segunda"),
    ("shank", "cambrillón"),
    ("sides", "los lados"),
    ("slip", "suela media"),
    ("thin-lifts", "tapas finas"),
    ("toe", "la puntera"),
    ("wedges", "cuñas"),
    ("width", "ancho"),
];

/// A word of this program in Spanish; as it is, where the table lacks it.
pub(super) fn turned(word: &'static str) -> &'static str {
    HOLES.iter().find(|(known, _)| *known == word).map_or(word, |(_, said)| said)
}

/// What lies in a stack, or a seam, as a sheet says it; as it is, where the table lacks it.
pub(in crate::sheets) fn label(label: &str, lang: Lang) -> Cow<'_, str> {
    match lang {
        Lang::En => Cow::Borrowed(label),
        Lang::Es => spanish(label).unwrap_or(Cow::Borrowed(label)),
    }
}

/// Whether the table has a word of this program.
pub(super) fn turns(word: &'static str) -> bool {
    SYSTEMS.contains(&word) || HOLES.iter().any(|(known, _)| *known == word)
}

/// All Spanish ones, for the typefaces.
pub(super) fn texts() -> impl Iterator<Item = &'static str> {
    PATTERNS.iter().chain(HOLES).map(|(_, spanish)| *spanish)
}

fn spanish(label: &str) -> Option<Cow<'static, str>> {
    PATTERNS.iter().find_map(|(pattern, said)| filled(pattern, said, label)).map(Cow::Owned)
}

/// The Spanish of a label that fits a pattern.
fn filled(pattern: &str, said: &str, label: &str) -> Option<String> {
    let mut rest = label;
    let mut pattern = pattern;
    let mut said = said.to_owned();
    while let Some((before, hole, after)) = first_hole(pattern) {
        rest = rest.strip_prefix(before)?;
        // A hole ends where what follows it stands first; the last one takes all.
        let next = first_hole(after).map_or(after, |(next, ..)| next);
        let end = if next.is_empty() { rest.len() } else { rest.find(next)? };
        let name = &rest[..end];
        let filling = match hole {
            "{w}" => HOLES.iter().find(|(word, _)| *word == name)?.1,
            _ if name.is_empty() => return None,
            _ => name,
        };
        said = said.replacen(hole, filling, 1);
        rest = &rest[end..];
        pattern = after;
    }
    (rest == pattern).then_some(said)
}

/// What stands before the first hole, the hole, what stands behind it.
fn first_hole(pattern: &str) -> Option<(&str, &str, &str)> {
    let start = pattern.find('{')?;
    let end = start + pattern[start..].find('}')? + 1;
    Some((&pattern[..start], &pattern[start..end], &pattern[end..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_stay_and_words_turn() {
        for (english, spanish) in [
            ("outsole lug (lug-low)", "suela, taco (lug-low)"),
            ("insole", "plantilla"),
            ("lap vamp over toe", "solape vamp sobre toe"),
        ] {
            assert_eq!(label(english, Lang::Es), spanish);
        }
    }

    #[test]
    fn each_label_stands_once() {
        let mut seen = std::collections::BTreeSet::new();
        for (english, spanish) in PATTERNS.iter().chain(HOLES) {
            assert!(!english.is_empty() && !spanish.is_empty());
            let holes = |text: &str| [text.matches("{}").count(), text.matches("{w}").count()];
            assert_eq!(holes(english), holes(spanish), "{english}");
        }
        for (english, _) in PATTERNS {
            assert!(seen.insert(english), "{english} stands twice");
        }
    }
}
