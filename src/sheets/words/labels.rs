//! The labels of figures. English is the label itself, as it stands in tables and in the JSON; here stands what other
//! languages say instead.
//!
//! `{}` is a name that the shop types, which stays; `{w}` is a word of this program, which is looked up in [`HOLES`].

use super::Lang;
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Labels without a name in them.
const LABELS: &[(&str, &str)] = &[
    ("as eu", "en eu"),
    ("as eu, by", "en eu, por"),
    ("as eu, rounded", "en eu, redondeada"),
    ("as mondo", "en mondo"),
    ("as mondo, by", "en mondo, por"),
    ("as mondo, rounded", "en mondo, redondeada"),
    ("as uk", "en uk"),
    ("as uk, by", "en uk, por"),
    ("as uk, rounded", "en uk, redondeada"),
    ("as us-men", "en us-men"),
    ("as us-men, by", "en us-men, por"),
    ("as us-men, rounded", "en us-men, redondeada"),
    ("as us-women", "en us-women"),
    ("as us-women, by", "en us-women, por"),
    ("as us-women, rounded", "en us-women, redondeada"),
    ("film of the joint", "película de la junta"),
    ("for a foot of", "para un pie de"),
    ("mean ball girth of men's feet so long", "perímetro medio de dedos de pies de hombre de ese largo"),
    ("size by the foot", "talla por el pie"),
    ("stitches over its own start", "puntadas sobre su propio comienzo"),
    ("the rows", "las filas"),
    ("left under what the machine sews", "queda bajo lo que cose la máquina"),
    ("left at the thick end", "queda en el extremo grueso"),
    ("a full bobbin holds", "una canilla llena lleva"),
    ("adhesive", "adhesivo"),
    ("along the edge of", "a lo largo del canto de"),
    ("sides of a boot", "lados de una bota"),
    ("allowance", "margen de costura"),
    ("apart", "separación"),
    ("apart, at least", "separación, al menos"),
    ("area for a pair", "área por par"),
    ("area of one piece", "área de una pieza"),
    ("area of the bottom", "área del fondo"),
    ("back height from the seat", "altura trasera desde el asiento, talla base"),
    ("ball girth", "perímetro de dedos"),
    ("base given by lifts and wedges", "base que dan tapas y cuñas"),
    ("base needed at the back", "base necesaria atrás"),
    ("block at the back: base and cap", "bloque atrás: base y firme"),
    ("bobbin thread", "hilo de canilla"),
    ("bottom length", "largo del fondo"),
    ("breadth", "ancho"),
    ("breast from the heel", "frente del tacón desde atrás"),
    ("backed", "reforzado"),
    ("backing", "refuerzo"),
    ("cap", "firme"),
    ("cap nails", "clavos del firme"),
    ("cap nails that serve", "clavos del firme que sirven"),
    ("centres from the facing's edge", "centros desde el canto de la cartera"),
    ("centres from the top edge", "centros desde el borde de arriba"),
    ("certification", "certificación"),
    ("claimed height, at least", "altura declarada, al menos"),
    ("claimed to", "declarado según"),
    ("clear of the allowance", "libre del margen de costura"),
    ("coats on each face", "manos en cada cara"),
    ("collar", "collarín"),
    ("facing", "cartera"),
    ("counter", "contrafuerte"),
    ("coverage of one coat", "gasto de una mano"),
    ("covers", "cubre"),
    ("covers the seam", "cubre la costura"),
    ("critical: the adhesive alone holds the outsole", "crítico: solo el adhesivo sujeta la suela"),
    ("draft in this order", "montar en este orden"),
    ("dress the upper with", "engrasar el corte con"),
    ("drop of the seat to the breast", "caída del asiento hasta el frente"),
    ("each wedge at the breast", "cada cuña en el frente"),
    ("edge", "canto"),
    ("edge colour", "color del canto"),
    ("edge guide, from the rough edge", "guía, desde el canto en basto"),
    ("edge square within", "canto a escuadra dentro de"),
    ("ends", "acaba"),
    ("ends behind the breast", "acaba detrás del frente"),
    ("enters the turnout inside at", "entra en el vuelo por dentro al"),
    ("enters the turnout outside at", "entra en el vuelo por fuera al"),
    ("eyelets", "ojales"),
    ("eyelets a side", "ojales por lado"),
    ("eyelets apart", "entre ojales"),
    ("feather line, all round", "línea de la plantilla, todo alrededor"),
    ("finished edge, all round", "canto acabado, todo alrededor"),
    ("first row from the edge", "primera fila al borde"),
    ("folded edge", "borde doblado"),
    ("folded in", "doblado hacia dentro"),
    ("from end to end round the back", "de extremo a extremo por detrás"),
    ("the cap's line from end to end round the back", "la línea de la tapa de extremo a extremo por detrás"),
    ("lasted in, from", "montado hacia dentro, desde"),
    ("lasted in, back to", "montado hacia dentro, hacia atrás hasta"),
    ("nails of the base inside the feather line", "clavos de la base por dentro de la línea de la plantilla"),
    ("nails begin behind the breast", "los clavos empiezan detrás del frente"),
    ("nails across the heel", "clavos a lo ancho del tacón"),
    ("points lean inward", "las puntas se inclinan hacia dentro"),
    ("cap nails, a boot", "clavos de la tapa, por bota"),
    ("cap nails apart, evened", "entre clavos de la tapa, igualado"),
    ("stands out to clinch", "sobresale para remachar"),
    ("nails of one length, outside, from the heel", "clavos de un largo, por fuera, desde el talón"),
    ("nails of one length, inside, from the heel", "clavos de un largo, por dentro, desde el talón"),
    ("their lengths, outside, from the heel", "sus largos, por fuera, desde el talón"),
    ("their lengths, inside, from the heel", "sus largos, por dentro, desde el talón"),
    ("ends behind the joint", "acaba detrás del dedo"),
    ("ends under the heel", "acaba bajo el tacón"),
    ("skived at its ends over", "rebajado en los extremos a lo largo de"),
    ("skived at its sides over", "rebajado en los lados a lo largo de"),
    ("lugs buffed off under the heel", "tacos cardados bajo el tacón"),
    ("from centre to centre", "de centro a centro"),
    ("from the finished edge", "desde el canto acabado"),
    ("from the heel's bottom to the top at the back", "de la base del tacón al borde de arriba, atrás"),
    ("gauge of the base before levelling, back", "galga de la base antes de nivelar, atrás"),
    ("gauge of the base before levelling, breast", "galga de la base antes de nivelar, frente"),
    ("gauge of the base when level, back", "galga de la base nivelada, atrás"),
    ("gauge of the base when level, breast", "galga de la base nivelada, frente"),
    ("gauge true within, either way", "galga exacta dentro de, más o menos"),
    ("gives way first, of what is stated", "cede primero, de lo declarado"),
    ("goes over the horn up to", "pasa por el cuerno hasta"),
    ("grain", "flor"),
    ("hammered thinner by", "martillado, más fino en"),
    ("heads below the base as built", "cabezas por debajo de la base construida"),
    ("heel length, from the feather line to the breast", "largo del tacón, de la línea de la plantilla al frente"),
    ("heel seen at the back", "tacón visto atrás"),
    ("heel seen at the back, nearest eighth of an inch", "tacón visto atrás, al octavo de pulgada"),
    ("heel seen at the breast", "tacón visto en el frente"),
    ("height there, as the claim measures it", "altura ahí, medida como se declara"),
    ("highest centre from the top edge", "centro más alto desde el borde de arriba"),
    ("hooks", "ganchos"),
    ("hooks a side", "ganchos por lado"),
    ("hooks apart", "entre ganchos"),
    ("if it fails", "si falla"),
    ("in the jaw", "en la boca de la máquina"),
    ("in the stitch", "en la puntada"),
    ("inside joint from the heel", "dedo interior desde el talón"),
    ("inside the feather line", "por dentro de la línea de la plantilla"),
    ("insole nails", "clavos de la plantilla"),
    ("its benches", "sus puestos"),
    ("join after", "unir pasados"),
    ("joined after", "unido pasados"),
    ("joins", "une"),
    ("laces", "cordones"),
    ("laps from and to, from the row's start", "solapes de y a, desde el principio de la fila"),
    ("laps over", "solapa sobre"),
    ("last", "horma"),
    ("last nail to the forefoot row, inside", "último clavo a la fila del antepié, dentro"),
    ("last nail to the forefoot row, outside", "último clavo a la fila del antepié, fuera"),
    ("last's title", "título de la horma"),
    ("lasted in", "montado hacia dentro"),
    ("layers, where they are thickest", "capas, donde son más gruesas"),
    ("least distance to the wall", "distancia mínima a la pared"),
    ("least leather: facing's edge", "cuero mínimo: canto de la cartera"),
    ("least leather: facing's ends", "cuero mínimo: extremos de la cartera"),
    ("least leather: facing's row", "cuero mínimo: fila de la cartera"),
    ("least leather: holes of the facing", "cuero mínimo: agujeros de la cartera"),
    ("leather", "cuero"),
    ("leave to set", "dejar secar"),
    ("left to set", "dejado secar"),
    ("length", "largo"),
    ("length of a row, base size", "largo de una fila, talla base"),
    ("length of laces", "largo de los cordones"),
    ("length of the facing", "largo de la cartera"),
    ("lengths that clinch", "largos que remachan"),
    ("lifts", "tapas"),
    ("lining covers it inside", "el forro lo cubre por dentro"),
    ("look at", "mirar"),
    ("loop", "tirador"),
    ("lowest centre from the top edge", "centro más bajo desde el borde de arriba"),
    ("machine", "máquina"),
    ("margin at the heel", "margen en el talón"),
    ("margin at the joints", "margen en los dedos"),
    ("margin at the toe", "margen en la puntera"),
    ("mark", "marca"),
    ("mark on", "marca en"),
    ("mark says", "la marca dice"),
    ("measured", "medido"),
    ("model", "modelo"),
    ("mull", "humedecer"),
    ("mulled", "humedecido"),
    ("nail", "clavo"),
    ("nail length", "largo del clavo"),
    ("nail length in eighths of an inch", "largo del clavo en pulgadas"),
    ("nails a boot", "clavos por bota"),
    ("nails apart, at least", "entre clavos, al menos"),
    ("nails apart, evened", "entre clavos, repartidos"),
    ("nails from the heel's edge", "clavos desde el canto del tacón"),
    ("nails of the base", "clavos de la base"),
    ("nails of the cap", "clavos del firme"),
    ("nails round the heel", "clavos alrededor del tacón"),
    ("needle", "aguja"),
    ("needle over stitch", "aguja por puntada"),
    ("needle over thread", "aguja por hilo"),
    ("needle thread", "hilo de aguja"),
    ("needles named by the thread's maker", "agujas que da el fabricante del hilo"),
    ("no nearer the outer row than", "no más cerca de la fila de fuera que"),
    ("on the inside", "por dentro"),
    ("on the last", "en la horma"),
    ("on the outside", "por fuera"),
    ("felt inside by hand for points after", "se palpa por dentro en busca de puntas tras"),
    ("order of work", "orden de trabajo"),
    ("outer row from the finished edge", "fila de fuera al canto acabado"),
    ("outside joint from the heel", "dedo exterior desde el talón"),
    ("over the claim, nominal", "sobre lo declarado, nominal"),
    ("overhang of the wall", "vuelo de la pared"),
    ("pairs of lasts: one, of", "pares de hormas: uno, de"),
    ("pattern", "patrón"),
    ("peel samples with each batch", "muestras de despegue por lote"),
    ("pieces a foot", "piezas por pie"),
    ("pitch", "puntada"),
    ("plate", "chapa"),
    ("press for", "prensar"),
    ("pressed", "prensado"),
    ("puff", "tope"),
    ("rests", "reposa"),
    ("revision", "revisión"),
    ("rigid", "rígido"),
    ("rough edge, all round", "canto en basto, todo alrededor"),
    ("rough turnout, forepart", "vuelo en basto, parte delantera"),
    ("rough turnout, heel", "vuelo en basto, talón"),
    ("rough turnout, waist inside", "vuelo en basto, enfranque dentro"),
    ("rough turnout, waist outside", "vuelo en basto, enfranque fuera"),
    ("rough-rounding cuts away", "el desvirado en basto quita"),
    ("rows", "filas"),
    ("rows apart", "entre filas"),
    ("rows from the facing's edge", "filas desde el canto de la cartera"),
    ("rows start behind the breast", "las filas empiezan detrás del frente"),
    ("rubbed flat", "asentada"),
    ("seat breadth", "ancho del asiento"),
    ("seat height", "altura del asiento"),
    ("set through", "se pone a través de"),
    ("setter", "remachadora"),
    ("settings of the edge guide", "posiciones de la guía"),
    ("sewn through the", "cosido hasta"),
    ("sewn to", "cosido a"),
    ("sewn up to", "cosido hasta"),
    ("shaft inside at the back", "caña por dentro, atrás"),
    ("size", "talla"),
    ("size system", "sistema de tallas"),
    ("slope of the seat", "inclinación del asiento"),
    ("sock lining", "plantilla de vista"),
    ("sock lining's leather", "cuero de la plantilla de vista"),
    ("sort by thickness", "clasificar por grueso"),
    ("sorted: together at most", "clasificado: juntos como mucho"),
    ("spacing", "separación"),
    ("spacing inside", "separación dentro"),
    ("spacing outside", "separación fuera"),
    ("stack off the lap", "pila fuera del solape"),
    ("stack where it is tallest", "pila donde es más alta"),
    ("stay", "refuerzo"),
    ("stick length", "largo de horma"),
    ("stitches", "puntadas"),
    ("stitches over 50 mm", "puntadas en 50 mm"),
    ("stop and drive heads deeper at a gauge of, back", "parar y hundir más las cabezas a una galga de, atrás"),
    ("stop and drive heads deeper at a gauge of, breast", "parar y hundir más las cabezas a una galga de, frente"),
    ("strength of one row, estimated", "resistencia de una fila, estimada"),
    ("strength of this row, estimated", "resistencia de esta fila, estimada"),
    ("stretch", "estira"),
    ("substance", "grueso"),
    ("hollow of the seat inside the outer", "hueco del asiento dentro del corte"),
    (
        "relieve the midsole for shank and pad, at the breast",
        "rebajar la entresuela para cambrillón y almohadilla, en el frente",
    ),
    ("tacks apart", "entre tachuelas"),
    ("tacks left in behind the release cut", "tachuelas que quedan detrás del corte de alivio"),
    ("these inside the feather line", "estas por dentro de la línea de la plantilla"),
    ("tacks left in, a boot", "tachuelas que quedan, por bota"),
    ("stops above the feather", "acaba por encima de la línea de la plantilla"),
    ("allowances skived out at the feather", "márgenes rebajados en la línea de la plantilla"),
    ("tallest at, share of the bottom", "más alta al, parte del fondo"),
    ("tallest from and to, from the row's start", "más alta de y a, desde el principio de la fila"),
    ("tallest on row", "más alta en la fila"),
    ("tallest on the", "más alta por"),
    ("target", "objetivo"),
    ("the fold needs", "el doblez pide"),
    ("the machine locks through", "la máquina enlaza hasta"),
    ("the machine opens", "la máquina abre"),
    ("the machine sews", "la máquina cose"),
    ("thickest row goes through", "la fila más gruesa atraviesa"),
    ("thread", "hilo"),
    ("thread diameter", "diámetro del hilo"),
    ("thread for a boot", "hilo por bota"),
    ("thread for a pair, tails included", "hilo por par, con cabos"),
    ("thread size", "título del hilo"),
    ("title", "título"),
    ("to sand at the back", "por lijar atrás"),
    ("to sand at the breast", "por lijar en el frente"),
    ("toe spring", "quebrante de puntera"),
    ("tread", "ancho de dedos"),
    ("trimming and sanding take", "desvirar y lijar quitan"),
    ("true pitch", "puntada real"),
    ("turned out, heel to toe", "vuelto hacia fuera, de talón a puntera"),
    ("turnout begins to grow, from the heel", "el vuelo empieza a crecer, desde el talón"),
    ("turnout full from, from the heel", "vuelo completo desde, desde el talón"),
    ("turnout, forepart", "vuelo, parte delantera"),
    ("turnout, heel", "vuelo, talón"),
    ("turnout, waist inside", "vuelo, enfranque dentro"),
    ("turnout, waist outside", "vuelo, enfranque fuera"),
    ("wall outside the feather line at the toe", "pared por fuera de la línea de la plantilla en la puntera"),
    ("warm the film before joining", "calentar la película antes de unir"),
    ("wedges", "cuñas"),
    ("whole rows on one bobbin", "filas enteras con una canilla"),
    ("width of the lap", "ancho del solape"),
    ("width of the stay", "ancho del refuerzo"),
    ("with", "con"),
    ("zone of the hide", "zona de la piel"),
];

/// Labels with names or words in them. The first that fits counts.
const PATTERNS: &[(&str, &str)] = &[
    ("skive {}: taper wide", "rebajar {}: ancho del chaflán"),
    ("skive {}: edge to", "rebajar {}: borde a"),
    ("skive {}: flat in the turnout to", "rebajar {}: plano en el vuelo a"),
    ("skiver for {} in {}", "rebajadora para {} en {}"),
    ("stage {}: lifts", "etapa {}: tapas"),
    ("stage {}: nails across", "etapa {}: clavos a lo ancho"),
    ("stage {}: points lean inward", "etapa {}: las puntas se inclinan hacia dentro"),
    ("stage {}: wedges", "etapa {}: cuñas"),
    ("row {}: from the edge", "fila {}: desde el borde"),
    ("row {}: goes through", "fila {}: atraviesa"),
    ("row {}: inside the allowance", "fila {}: dentro del margen de costura"),
    ("row {}: inside the {}", "fila {}: por dentro de {}"),
    ("row {}: left of the {}", "fila {}: queda de {}"),
    ("row {} from the seam", "fila {} desde la costura"),
    ("left of the {} alone", "queda de {} sola"),
    ("skive beyond the {}", "rebaje más allá de {}"),
    ("step at the edge of the {}", "escalón en el borde de {}"),
    ("gusset of {}, as the claim measures", "fuelle de {}, medido como se declara"),
    ("least leather: {}", "cuero mínimo: {}"),
    ("nail at the {w}", "clavo en {w}"),
    ("nails at the {w}, a boot", "clavos en {w}, por bota"),
    ("lengths that serve at the {w}", "largos que sirven en {w}"),
    ("needed at the {w}", "hace falta en {w}"),
    ("free for the pincers at the {w}", "libre para las tenazas en {w}"),
    ("through the {w} instead", "si se cose hasta {w}"),
    ("{} on the {w}: faces of a pair", "{} en {w}: caras de un par"),
    ("{} on the {w}: for a pair", "{} en {w}: por par"),
    ("{} under the lining {}: faces of a pair", "{} bajo el forro {}: caras de un par"),
    ("{} under the lining {}: for a pair", "{} bajo el forro {}: por par"),
    ("{w}: edges skived", "{w}: bordes rebajados"),
    ("{w}: reaches", "{w}: llega"),
    ("{w}: thickness", "{w}: grueso"),
    ("{w}: punch", "{w}: sacabocados"),
    ("{w}: left", "{w}: queda"),
    ("{w} ({}): thickness", "{w} ({}): grueso"),
    ("{w}: net for a pair", "{w}: neto por par"),
    ("{w}: pressed from", "{w}: troquelado de"),
    ("{w}: blank at least long", "{w}: pieza, largo al menos"),
    ("{w}: blank at least wide", "{w}: pieza, ancho al menos"),
    ("{w}: size of the blank", "{w}: talla de la pieza"),
    ("{w}: length", "{w}: largo"),
    ("{w}: for a pair", "{w}: por par"),
    ("{}, {w}: net for a pair", "{}, {w}: neto por par"),
    ("{}, {w}: cut from", "{}, {w}: cortado de"),
    ("{}, {w}: hides", "{}, {w}: pieles"),
    ("{}: hides for a pair", "{}: pieles por par"),
    ("{}: whole pairs from one hide", "{}: pares enteros de una piel"),
    ("{}: stitches of a row", "{}: puntadas de una fila"),
    ("{}: thread for a boot", "{}: hilo por bota"),
    ("{}: needle thread for a pair", "{}: hilo de aguja por par"),
    ("{}: bobbin thread for a pair", "{}: hilo de canilla por par"),
    ("{}: tails for a pair", "{}: cabos por par"),
    ("{}: to buy for a pair, waste included", "{}: por comprar por par, con merma"),
    ("{}: not known, no length is said of", "{}: no se sabe, sin largo de"),
    ("{}: weight for a pair", "{}: peso por par"),
    ("{}: for a pair", "{}: por par"),
    ("{} for a pair", "{} por par"),
    ("{w} ({}), skived", "{w} ({}), rebajado"),
    ("{w} ({})", "{w} ({})"),
    ("{} ({}), skived", "{} ({}), rebajado"),
    ("lap {} over {}", "solape {} sobre {}"),
    ("seam {}", "costura {}"),
    ("stay {}", "refuerzo {}"),
    ("gusset of {}", "fuelle de {}"),
    ("{w}", "{w}"),
];

/// Words of this program that stand in holes.
const HOLES: &[(&str, &str)] = &[
    ("arch", "arco"),
    ("back", "la parte de atrás"),
    ("base", "la base"),
    ("breast", "el frente"),
    ("cap", "firme"),
    ("counter", "contrafuerte"),
    ("edge", "borde"),
    ("eyelets", "ojales"),
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

/// The label of a figure as a sheet says it; as it is, where the table lacks it.
pub(in crate::sheets) fn label(label: &str, lang: Lang) -> Cow<'_, str> {
    match lang {
        Lang::En => Cow::Borrowed(label),
        Lang::Es => spanish(label).unwrap_or(Cow::Borrowed(label)),
    }
}

/// Whether the table has a figure's label in a language.
#[must_use]
pub fn has_label(label: &str, lang: Lang) -> bool {
    lang == Lang::En || spanish(label).is_some()
}

/// All Spanish ones, for the typefaces.
pub(super) fn texts() -> impl Iterator<Item = &'static str> {
    LABELS.iter().chain(PATTERNS).chain(HOLES).map(|(_, spanish)| *spanish)
}

fn spanish(label: &str) -> Option<Cow<'static, str>> {
    static EXACT: LazyLock<BTreeMap<&str, &str>> = LazyLock::new(|| LABELS.iter().copied().collect());
    if let Some(found) = EXACT.get(label) {
        return Some(Cow::Borrowed(found));
    }
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
            ("row 2: left of the counter-cover", "fila 2: queda de counter-cover"),
            ("skive vamp: edge to", "rebajar vamp: borde a"),
            ("outsole lug (lug-low): thickness", "suela, taco (lug-low): grueso"),
            ("neoprene on the shank: faces of a pair", "neoprene en cambrillón: caras de un par"),
            ("insole", "plantilla"),
            ("cap-nail 6-8: for a pair", "cap-nail 6-8: por par"),
        ] {
            assert_eq!(label(english, Lang::Es), spanish);
        }
    }

    #[test]
    fn each_label_stands_once() {
        let mut seen = std::collections::BTreeSet::new();
        for (english, spanish) in LABELS.iter().chain(PATTERNS).chain(HOLES) {
            assert!(!english.is_empty() && !spanish.is_empty());
            let holes = |text: &str| [text.matches("{}").count(), text.matches("{w}").count()];
            assert_eq!(holes(english), holes(spanish), "{english}");
        }
        for (english, _) in LABELS.iter().chain(PATTERNS) {
            assert!(seen.insert(english), "{english} stands twice");
        }
    }
}
