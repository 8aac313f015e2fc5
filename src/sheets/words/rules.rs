//! What rules have found, in the words of a bench: why a build is not released, what to measure or sort first where it is
//! tight, and whose sheets say so.

use super::{Lang, Word};
use crate::sheets::Station;
use Station::{Bottoming, Closing, Cutting, Edge, Hardware, Heeling, Lasting, Skiving, SoleStitching};

/// A rule in the words of a bench.
struct Told {
    rule: &'static str,
    /// Why it is not released.
    refusal: Word,
    /// What to measure or sort first; empty where a tolerance has no say.
    first: Word,
    /// Whose sheets say what is tight.
    concerns: &'static [Station],
}

const fn told(rule: &'static str, refusal: Word, first: Word, concerns: &'static [Station]) -> Told {
    Told { rule, refusal, first, concerns }
}

const TOLD: &[Told] = &[
    told(
        "check/not-judged",
        Word::new("not everything of it could be judged", "no se pudo juzgar todo"),
        Word::new("", ""),
        &[],
    ),
    told(
        "bond/adhesive",
        Word::new("bonded with what is not for it", "pegado con algo que no es para eso"),
        Word::new("", ""),
        &[Bottoming],
    ),
    told(
        "claim/height",
        Word::new("not as tall as it is claimed to be", "no llega a la altura que se declara"),
        Word::new(
            "Measure the shaft at the back before the hardware is set",
            "Medir la caña atrás antes de poner los herrajes",
        ),
        &[Closing],
    ),
    told(
        "forefoot/misses-insole",
        Word::new("the forefoot row misses the insole", "la fila del antepié no coge la plantilla"),
        Word::new("", ""),
        &[Bottoming],
    ),
    told(
        "forefoot/nailed",
        Word::new("nails where the forefoot flexes", "clavos donde dobla el antepié"),
        Word::new("", ""),
        &[Bottoming],
    ),
    told(
        "forefoot/shaft",
        Word::new("the shaft does not go over the horn", "la caña no pasa por el cuerno"),
        Word::new("Try the tallest shaft over the horn first", "Probar antes la caña más alta en el cuerno"),
        &[Bottoming],
    ),
    told(
        "hardware/reach",
        Word::new("the setter does not reach", "la remachadora no alcanza"),
        Word::new("", ""),
        &[Hardware],
    ),
    told(
        "hardware/spacing",
        Word::new("too little leather round a hole", "queda poco cuero junto a un agujero"),
        Word::new("", ""),
        &[Hardware],
    ),
    told(
        "hardware/through",
        Word::new("the barrel does not suit what it goes through", "el tubo no va con lo que atraviesa"),
        Word::new(
            "Measure the facing where it is thickest and thinnest",
            "Medir la cartera donde es más gruesa y más fina",
        ),
        &[Hardware],
    ),
    told(
        "heel/cap-nails",
        Word::new("no cap nail serves", "ningún clavo sirve para el firme"),
        Word::new("", ""),
        &[Heeling],
    ),
    told(
        "heel/height",
        Word::new("the heel is not as high as the last asks", "el tacón no llega a lo que pide la horma"),
        Word::new(
            "Gauge the base before nailing; a thicker lift if it is short",
            "Medir la base antes de clavar; una tapa más gruesa si falta",
        ),
        &[Heeling],
    ),
    told(
        "heel/lugs-under-base",
        Word::new("lugs lie under the base", "hay tacos debajo de la base"),
        Word::new("", ""),
        &[Heeling],
    ),
    told(
        "heel/nail-hold",
        Word::new("a heel nail holds too little", "un clavo del tacón agarra poco"),
        Word::new(
            "Measure the layers under the seat; the longer nail if they are thick",
            "Medir las capas del asiento; el clavo más largo si son gruesas",
        ),
        &[Heeling],
    ),
    told("heel/held", Word::new("nothing holds the heel", "nada sujeta el tacón"), Word::new("", ""), &[Heeling]),
    told(
        "heel/nail-heads",
        Word::new("the sander may reach the nails' heads", "la lija puede llegar a las cabezas"),
        Word::new("", ""),
        &[Heeling],
    ),
    told(
        "heel/filler",
        Word::new("the seat is not level inside the outer", "el asiento no queda a nivel dentro del corte"),
        Word::new("", ""),
        &[Bottoming],
    ),
    told(
        "heel/nail-place",
        Word::new("a heel nail stands where it must not", "un clavo del tacón está donde no debe"),
        Word::new("", ""),
        &[Heeling],
    ),
    told(
        "heel/nail-point",
        Word::new("a heel nail comes through to the foot", "un clavo del tacón llega al pie"),
        Word::new("", ""),
        &[Heeling],
    ),
    told(
        "heel/nailer",
        Word::new("the nailer does not drive them", "la clavadora no los clava"),
        Word::new("", ""),
        &[Heeling],
    ),
    told("heel/sanding", Word::new("too much to sand off", "demasiado por lijar"), Word::new("", ""), &[Heeling]),
    told(
        "heel/wedges",
        Word::new("the wedges do not take up the slope", "las cuñas no quitan la inclinación"),
        Word::new("", ""),
        &[Heeling],
    ),
    told(
        "jaw/film",
        Word::new("the films of adhesive may not go into the jaw", "las capas de cola quizá no entran en la boca"),
        Word::new("", ""),
        &[SoleStitching],
    ),
    told(
        "jaw/forefoot-stack",
        Word::new("the forefoot is too thick for its machine", "el antepié es demasiado grueso para su máquina"),
        Word::new(
            "Measure insole and midsole; sort the thin ones to these boots",
            "Medir plantilla y entresuela; dejar las finas para estas botas",
        ),
        &[Bottoming],
    ),
    told(
        "jaw/locks",
        Word::new("the stitch does not lock", "la puntada no enlaza"),
        Word::new(
            "Sew an offcut of the thickest stack and look at the lock",
            "Coser un retal de la pila más gruesa y mirar el enlace",
        ),
        &[SoleStitching],
    ),
    told(
        "jaw/needle",
        Word::new("the machine does not take the needle", "la máquina no admite la aguja"),
        Word::new("", ""),
        &[SoleStitching, Closing],
    ),
    told(
        "jaw/opens",
        Word::new("the stack does not go under the raised foot", "la pila no entra bajo el prensatelas"),
        Word::new("", ""),
        &[SoleStitching],
    ),
    told(
        "jaw/pitch",
        Word::new("the machine does not make the pitch", "la máquina no da la puntada"),
        Word::new("", ""),
        &[SoleStitching, Closing],
    ),
    told(
        "jaw/sole-stack",
        Word::new("the stack is too tall for the stitcher", "la pila es demasiado alta para la máquina"),
        Word::new(
            "Measure at the lap, where it is tallest; sort the bottom's layers",
            "Medir en el solape, donde es más alta; clasificar las capas del fondo",
        ),
        &[SoleStitching, Bottoming, Skiving],
    ),
    told(
        "jaw/thread",
        Word::new("the machine does not take the thread", "la máquina no admite el hilo"),
        Word::new("", ""),
        &[SoleStitching, Closing],
    ),
    told(
        "last/feet",
        Word::new("the last is not the size of the feet", "la horma no es del tamaño de los pies"),
        Word::new("", ""),
        &[],
    ),
    told(
        "lasting/margin",
        Word::new("too little margin to last it", "falta margen para montar"),
        Word::new("", ""),
        &[Lasting, Cutting],
    ),
    told(
        "lasting/pincers",
        Word::new("too little for the pincers", "falta para las tenazas"),
        Word::new("", ""),
        &[Lasting, Cutting],
    ),
    told(
        "needle/perforation",
        Word::new("the needle perforates the leather", "la aguja perfora el cuero"),
        Word::new("", ""),
        &[Closing],
    ),
    told(
        "needle/thread",
        Word::new("needle and thread do not suit each other", "aguja e hilo no van juntos"),
        Word::new("", ""),
        &[Closing],
    ),
    told(
        "route/dwell",
        Word::new("a rest is too short or too long", "un reposo es demasiado corto o demasiado largo"),
        Word::new("", ""),
        &[],
    ),
    told(
        "route/order",
        Word::new("a step stands before what it needs", "un paso va antes de lo que necesita"),
        Word::new("", ""),
        &[],
    ),
    told(
        "route/skipped",
        Word::new("a step that is needed is left out", "falta un paso necesario"),
        Word::new("", ""),
        &[],
    ),
    told(
        "rows/edge",
        Word::new("the outer row is too near the edge", "la fila de fuera está demasiado cerca del canto"),
        Word::new("", ""),
        &[SoleStitching, Edge],
    ),
    told(
        "rows/corner",
        Word::new("a row has a corner that no machine follows", "una fila tiene una esquina que ninguna máquina sigue"),
        Word::new("", ""),
        &[SoleStitching, Bottoming],
    ),
    told(
        "rows/guide",
        Word::new("the edge guide cannot be set to it", "la guía no llega a esa posición"),
        Word::new("", ""),
        &[SoleStitching],
    ),
    told(
        "rows/no-line",
        Word::new("a row has no line to run on", "una fila no tiene por dónde ir"),
        Word::new("", ""),
        &[SoleStitching, Bottoming],
    ),
    told(
        "rows/least-in-turnout",
        Word::new("too little leather left to hold the rows", "queda poco cuero para sujetar las filas"),
        Word::new("", ""),
        &[Skiving, SoleStitching],
    ),
    told(
        "rows/through",
        Word::new("a row lies beside a layer that it goes through", "una fila pasa al lado de una capa que debe coger"),
        Word::new("", ""),
        &[Bottoming, SoleStitching],
    ),
    told(
        "rows/turnout",
        Word::new("the rows do not fit the turnout", "las filas no caben en el vuelo"),
        Word::new("", ""),
        &[SoleStitching],
    ),
    told(
        "skiver/limits",
        Word::new("the skiver does not do it", "la rebajadora no lo hace"),
        Word::new("", ""),
        &[Skiving],
    ),
    told(
        "stock/blank",
        Word::new("no stocked blank is large enough", "ninguna pieza en almacén es bastante grande"),
        Word::new("", ""),
        &[Bottoming],
    ),
    told(
        "upper/enters-turnout",
        Word::new("a lap enters where there is no turnout", "un solape entra donde no hay vuelo"),
        Word::new("", ""),
        &[Closing],
    ),
    told(
        "upper/fold",
        Word::new("the fold does not go round the edge", "el doblez no rodea el borde"),
        Word::new("Measure the thickest collar first", "Medir antes el collarín más grueso"),
        &[Closing],
    ),
    told(
        "upper/gusset",
        Word::new("the gusset is not sewn as high as is claimed", "el fuelle no se cose tan alto como se declara"),
        Word::new(
            "Measure the gusset from the heel before it is sewn",
            "Medir el fuelle desde el talón antes de coserlo",
        ),
        &[Closing],
    ),
    told(
        "upper/least-substance",
        Word::new("too little leather left under a row", "queda poco cuero bajo una fila"),
        Word::new(
            "Gauge the skived edges; keep the thin skins for other parts",
            "Medir los bordes rebajados; las pieles finas, para otras piezas",
        ),
        &[Skiving, Closing],
    ),
    told(
        "upper/row-edge",
        Word::new("a row is too near an edge", "una fila está demasiado cerca de un borde"),
        Word::new("", ""),
        &[Closing],
    ),
    told(
        "upper/sews",
        Word::new("too thick for the closing machine", "demasiado grueso para la máquina de aparar"),
        Word::new(
            "Measure the thickest lap; sort the thick skins out",
            "Medir el solape más grueso; apartar las pieles gruesas",
        ),
        &[Cutting, Closing],
    ),
    told(
        "upper/stay",
        Word::new("a row of the stay meets the allowance", "una fila del refuerzo pisa el margen de costura"),
        Word::new("", ""),
        &[Closing],
    ),
    told(
        "upper/step",
        Word::new("the step is felt inside", "el escalón se nota por dentro"),
        Word::new(
            "Gauge the edge inside the lap; skive again if it is thick",
            "Medir el borde dentro del solape; rebajar otra vez si es grueso",
        ),
        &[Skiving],
    ),
    told(
        "upper/weakened",
        Word::new(
            "a skive reaches beyond its lap and weakens the part",
            "un rebaje pasa del solape y debilita la pieza",
        ),
        Word::new("Gauge the skive where it leaves the lap", "Medir el rebaje donde sale del solape"),
        &[Skiving],
    ),
    told(
        "waist/clinch",
        Word::new("no nail length clinches", "ningún largo de clavo remacha"),
        Word::new("Measure the layers; take the length that clinches", "Medir las capas; tomar el largo que remacha"),
        &[Bottoming],
    ),
    told(
        "waist/rigid-shank",
        Word::new("nails go through a rigid shank", "clavos a través de un cambrillón rígido"),
        Word::new("", ""),
        &[Bottoming],
    ),
];

fn find(rule: &str) -> Option<&'static Told> {
    TOLD.iter().find(|told| told.rule == rule)
}

/// Why a build that this rule refuses is not released.
pub(in crate::sheets) fn refusal(rule: &str, lang: Lang) -> &'static str {
    find(rule).map_or("", |told| told.refusal.say(lang))
}

/// What to measure or sort first where this rule finds it tight.
pub(in crate::sheets) fn first(rule: &str, lang: Lang) -> &'static str {
    find(rule).map_or("", |told| told.first.say(lang))
}

/// The stations whose sheets say what this rule finds tight.
pub(in crate::sheets) fn concerns(rule: &str) -> &'static [Station] {
    find(rule).map_or(&[], |told| told.concerns)
}

/// Whether a rule has its words in every language.
#[must_use]
pub fn has_rule(rule: &str) -> bool {
    find(rule).is_some_and(|told| Lang::ALL.iter().all(|lang| !told.refusal.say(*lang).is_empty()))
}

/// All of them, for the typefaces.
pub(super) fn words() -> impl Iterator<Item = &'static Word> {
    TOLD.iter().flat_map(|told| [&told.refusal, &told.first])
}
