//! Units, and values that are words of the language; names that the shop types are none.

use super::Lang;
use crate::build::{FigureId, Manner};

/// Units by their name in figures.
const UNITS: &[(&str, &str, &str)] = &[
    ("min", "min", "min"),
    ("hours", "h", "h"),
    ("days", "days", "días"),
    ("spi", "spi", "ppp"),
    ("in", "in", "in"),
    ("iron", "iron", "iron"),
    ("oz", "oz", "oz"),
    ("ft2", "sq ft", "pies²"),
    ("dm2", "dm²", "dm²"),
    ("cm2", "cm²", "cm²"),
    ("g/m2", "g/m²", "g/m²"),
    ("deg", "°", "°"),
    ("hides", "hides", "pieles"),
];

/// Words of the language.
const VALUES: &[(&str, &str)] = &[
    ("across", "a lo ancho"),
    ("all", "todo"),
    ("along", "a lo largo"),
    (
        "an accredited laboratory's business; nothing is certified here",
        "cosa de un laboratorio acreditado; aquí no se certifica nada",
    ),
    ("breast", "frente"),
    ("close on themselves", "se cierran sobre sí mismas"),
    ("down", "abajo"),
    ("either", "igual"),
    ("forefoot", "antepié"),
    ("forepart", "delante"),
    ("from-heel", "desde el tacón"),
    ("full", "entera"),
    ("half", "media"),
    ("heel", "talón"),
    ("ink", "tinta"),
    ("inside", "dentro"),
    ("insole", "plantilla"),
    ("joints", "dedos"),
    ("leather", "cuero"),
    ("midsole", "entresuela"),
    ("natural", "natural"),
    ("no", "no"),
    ("none", "ninguna"),
    ("outside", "fuera"),
    ("outsole", "suela"),
    ("prime", "primera"),
    ("reject", "rechazar"),
    ("repair", "reparar"),
    ("seat", "asiento"),
    ("second", "segunda"),
    ("sewn-label", "etiqueta cosida"),
    ("slip", "suela media"),
    ("stamped", "estampada"),
    ("taken as upright", "se toma vertical"),
    ("thread", "hilo"),
    ("toe", "puntera"),
    ("to-joints", "hasta los dedos"),
    ("up", "arriba"),
    ("waist", "enfranque"),
    ("wax", "cera"),
    ("yes", "sí"),
];

/// A unit as a sheet says it.
pub(in crate::sheets) fn unit(name: &'static str, lang: Lang) -> &'static str {
    match UNITS.iter().find(|(known, ..)| *known == name) {
        Some((_, en, _)) if lang == Lang::En => en,
        Some((.., es)) => es,
        None => name,
    }
}

/// The text of a figure as a sheet says it: a word of the language turns, a name stays.
pub(in crate::sheets) fn value(id: FigureId, text: &str, lang: Lang) -> &str {
    if lang == Lang::En || !is_word(id) {
        return text;
    }
    VALUES.iter().find(|(known, _)| *known == text).map_or(text, |(_, es)| es)
}

fn is_word(id: FigureId) -> bool {
    id.definition().manner == Manner::Word
}

/// Whether the table has what a figure says, if that is a word of the language.
#[must_use]
pub fn has_value(id: FigureId, text: &str, lang: Lang) -> bool {
    lang == Lang::En || !is_word(id) || VALUES.iter().any(|(known, _)| *known == text)
}

/// All of them, for the typefaces.
pub(super) fn texts() -> impl Iterator<Item = &'static str> {
    UNITS.iter().flat_map(|(_, en, es)| [*en, *es]).chain(VALUES.iter().map(|(_, es)| *es))
}
