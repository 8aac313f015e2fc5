//! The words for the steps of the route.

use super::Word;

/// Each step of the route by its name.
pub const STEP_WORDS: &[(&str, Word)] = &[
    ("cut", Word::new("cut the parts", "cortar las piezas")),
    ("skive", Word::new("skive", "rebajar")),
    ("close-back", Word::new("close the back seam", "cerrar la costura trasera")),
    ("rub-flat", Word::new("rub the seam flat", "asentar la costura")),
    ("stay", Word::new("sew the stay and its loop", "coser el refuerzo y su tirador")),
    ("gusset", Word::new("sew the tongue's gusset", "coser el fuelle de la lengüeta")),
    ("counter-cover", Word::new("sew the counter cover", "coser la talonera")),
    ("close-vamp", Word::new("lap and sew the vamp", "montar y coser la pala")),
    ("collar", Word::new("sew the collar", "coser el collarín")),
    ("facing-rows", Word::new("sew the facing's rows", "coser las filas de la cartera")),
    ("mark", Word::new("make the maker's mark", "poner la marca de la casa")),
    ("hardware", Word::new("set eyelets and hooks", "poner ojales y ganchos")),
    ("mull", Word::new("mull the upper", "humedecer el corte")),
    ("fix-insole", Word::new("nail the insole to the last and trim it", "clavar la plantilla a la horma y recortarla")),
    ("stiffen", Word::new("put in puff and counter", "meter tope y contrafuerte")),
    ("wet-last", Word::new("wet for lasting", "mojar para montar")),
    ("set-wet", Word::new("let it set on the last", "dejar asentar en la horma")),
    ("last", Word::new("last waist, heel, toe", "montar enfranque, talón, puntera")),
    ("cement-lining", Word::new("cement the lining in", "pegar el forro hacia dentro")),
    ("flatten-bottom", Word::new("flatten the bottom", "aplanar el fondo")),
    (
        "draw-insole-nails",
        Word::new("draw the insole nails, and count them", "sacar los clavos de la plantilla y contarlos"),
    ),
    (
        "pull-tacks",
        Word::new(
            "draw the lasting tacks, all but those that are left in",
            "sacar las tachuelas de montar, menos las que quedan",
        ),
    ),
    (
        "release-cut",
        Word::new("make the release cuts where the turnout begins", "dar los cortes de alivio donde empieza el vuelo"),
    ),
    ("turn-out", Word::new("turn the outer out", "volver el cuero hacia fuera")),
    ("fill", Word::new("fill the bottom level", "rellenar el fondo a nivel")),
    ("shank", Word::new("lay shank and pad", "poner cambrillón y almohadilla")),
    ("ink-midsole", Word::new("ink the midsole's edge that will show", "teñir el canto de la entresuela que se verá")),
    ("midsole", Word::new("scour, cement and hammer on the midsole", "raspar, pegar y martillar la entresuela")),
    (
        "nail-waist",
        Word::new(
            "nail waist and seat to the plate, last in",
            "clavar enfranque y asiento contra la chapa, horma dentro",
        ),
    ),
    ("pull-last", Word::new("pull the last", "sacar la horma")),
    (
        "hammer-points",
        Word::new(
            "hammer points flat, before anything goes over a horn",
            "aplastar las puntas, antes de pasar nada por un cuerno",
        ),
    ),
    ("sew-forefoot", Word::new("sew the forefoot", "coser el antepié")),
    ("prime-rubber", Word::new("buff and prime the rubber", "cardar e imprimar la goma")),
    ("cement-sole", Word::new("cement what the rows go through", "pegar lo que cruzan las filas")),
    ("press", Word::new("press, and wait", "prensar y esperar")),
    ("rough-round", Word::new("rough-round", "desvirar en basto")),
    ("sew-sole", Word::new("sew the rows", "coser las filas")),
    ("trim", Word::new("trim the edge", "desvirar el canto")),
    (
        "cement-outsole",
        Word::new(
            "prime, cement and warm the outsole: it hangs on this bond alone",
            "imprimar, pegar y calentar la suela: cuelga solo de este pegado",
        ),
    ),
    ("press-outsole", Word::new("press the outsole, wait, trim it", "prensar la suela, esperar, desvirar")),
    ("build-heel", Word::new("fit wedges and base, nail", "ajustar cuñas y base, clavar")),
    ("level", Word::new("level the base", "nivelar la base")),
    ("cap", Word::new("cement and nail the cap", "pegar y clavar el firme")),
    ("sand-edge", Word::new("sand the edge square", "lijar el canto a escuadra")),
    (
        "inspect-inside",
        Word::new("feel inside by hand, hammer points flat", "palpar por dentro con la mano, aplastar las puntas"),
    ),
    ("sock", Word::new("lay the sock lining", "poner la plantilla de vista")),
    ("ink", Word::new("ink the edge and buff", "teñir el canto y lustrar")),
    ("first-inspection", Word::new("first inspection", "primera revisión")),
    ("final-inspection", Word::new("final inspection", "revisión final")),
];
