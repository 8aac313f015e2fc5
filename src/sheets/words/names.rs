//! Names of layers, pieces and seams, and words that stand in labels: words of this program turn, what the shop typed stays.

use super::Lang;
use crate::finding::{LapName, LayerPiece, PartPlace, Piece, SeamName};

/// Size systems, which every language calls alike.
const SYSTEMS: &[&str] = &["us-men", "us-women", "uk", "eu", "mondo"];

/// Words of this program that stand in labels and names.
const WORDS: &[(&str, &str)] = &[
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
pub(super) fn turned(word: &str) -> &str {
    WORDS.iter().find(|(known, _)| *known == word).map_or(word, |(_, said)| said)
}

/// Whether the table has a word of this program.
pub(super) fn turns(word: &'static str) -> bool {
    SYSTEMS.contains(&word) || WORDS.iter().any(|(known, _)| *known == word)
}

/// A word of this program that stands for itself: a layer's role, a place of the nails, an end of the last.
pub(in crate::sheets) fn role(word: &str, lang: Lang) -> String {
    match lang {
        Lang::En => word.to_owned(),
        Lang::Es => turned(word).to_owned(),
    }
}

/// A seam by its name.
pub(in crate::sheets) fn seam(name: &SeamName, lang: Lang) -> String {
    match (lang, name) {
        (Lang::En, name) => name.to_string(),
        (Lang::Es, SeamName::Lap(LapName { top, under })) => format!("solape {top} sobre {under}"),
        (Lang::Es, SeamName::Seam(name)) => format!("costura {name}"),
        (Lang::Es, SeamName::Stay(name)) => format!("refuerzo {name}"),
        (Lang::Es, SeamName::Gusset(part)) => format!("fuelle de {part}"),
        (Lang::Es, SeamName::Collar) => "collarín".to_owned(),
        (Lang::Es, SeamName::Facing) => "cartera".to_owned(),
        (Lang::Es, SeamName::Forefoot) => "fila del antepié".to_owned(),
        (Lang::Es, SeamName::Sole) => "filas de la suela".to_owned(),
    }
}

/// What lies in a stack, with what it is made of.
pub(in crate::sheets) fn piece(what: &Piece, lang: Lang) -> String {
    if lang == Lang::En {
        return what.to_string();
    }
    let short = short(what, lang);
    match what {
        Piece::Layer { stock, hammered, .. } => {
            let hammered = hammered.map_or_else(String::new, |share| format!(", martillado {share} %"));
            format!("{short} ({stock}){hammered}")
        }
        Piece::Film { adhesive, .. } => format!("{short} ({adhesive})"),
        Piece::Cap(cap) => format!("{short} ({cap})"),
        Piece::Part { leather, place, .. } => match place {
            PartPlace::AtItsEdge => short,
            PartPlace::Whole | PartPlace::InTheTurn => format!("{short} ({leather})"),
            PartPlace::Skived => format!("{short} ({leather}), rebajado"),
            PartPlace::LastedIn => format!("{short} ({leather}), montado en el asiento"),
            PartPlace::OtherSide => format!("{short} ({leather}), el otro lado"),
        },
        Piece::Channel { .. } | Piece::Lifted(_) | Piece::Measure(_) => short,
    }
}

/// The same without what it is made of.
pub(in crate::sheets) fn short(what: &Piece, lang: Lang) -> String {
    if lang == Lang::En {
        return what.short();
    }
    match what {
        Piece::Layer { role, piece, .. } => {
            let piece = match piece {
                LayerPiece::Whole => "",
                LayerPiece::Base => ", base",
                LayerPiece::Lug => ", taco",
            };
            format!("{}{piece}", turned(role.name()))
        }
        Piece::Film { over, .. } => format!("película sobre {}", turned(over.name())),
        Piece::Part { part, place, .. } => match place {
            PartPlace::AtItsEdge => format!("{part} en su borde rebajado"),
            PartPlace::InTheTurn => format!("la vuelta toma {part}"),
            _ => part.to_string(),
        },
        Piece::Cap(_) => turned("cap").to_owned(),
        Piece::Lifted(lifted) => turned(lifted.name()).to_owned(),
        Piece::Measure(words) => turned(words).to_owned(),
        Piece::Channel { outsole } => format!("canal de {outsole}"),
    }
}

/// All Spanish ones, for the typefaces.
pub(super) fn texts() -> impl Iterator<Item = &'static str> {
    let around = [
        "solape sobre costura refuerzo fuelle de collarín cartera fila del antepié filas de la suela",
        "martillado % rebajado, montado en el asiento (el otro lado) película sobre la vuelta toma borde canal de",
    ];
    WORDS.iter().map(|(_, spanish)| *spanish).chain(around)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn a_part_that_is_called_like_a_word_keeps_its_name() {
        let toe = Piece::Part { part: "toe".into(), leather: "oil-tan".into(), place: PartPlace::Skived };
        assert_eq!(piece(&toe, Lang::Es), "toe (oil-tan), rebajado");
        assert_eq!(short(&toe, Lang::Es), "toe");
        let lap = SeamName::Lap(LapName { top: "toe".into(), under: "heel".into() });
        assert_eq!(seam(&lap, Lang::Es), "solape toe sobre heel");
        assert_eq!(role("toe", Lang::Es), "la puntera");
    }

    #[test]
    fn each_word_stands_once() {
        let all: BTreeSet<&str> = WORDS.iter().map(|(english, _)| *english).collect();
        assert_eq!(all.len(), WORDS.len());
    }
}
