//! The words of travellers and line cards.

use super::{Word, words};

words! { CARDS
    TRAVELLER "Traveller" "Hoja de ruta";
    PAIR_OF "pair" "par";
    PAIRS "pairs" "pares";
    BATCH "batch" "lote";
    SERIAL "serial" "n.º de serie";
    SERIALS "serials, from and to" "n.º de serie, de y a";
    BENCH "bench" "puesto";
    RESTS "rests after it" "reposa después";
    NOT_BEFORE "next not before" "no seguir antes";
    DAY_AND_HOUR "done: day, hour" "hecho: día, hora";
    PASSED_ON "pairs on" "pares";
    SIGNED "signed" "firma";
    LINE_CARD "Line card" "Ficha de máquina";
    ALL_SIZES "in all sizes" "en todas las tallas";
    IN_SIZES "size" "talla";
    UNTIL "to" "a";
    REACH "How far the rows get" "Hasta dónde llegan las filas";
    REACH_SAYS "Hatched: what lies above the outsole where least is left. Dashed: what is left for base and lugs, at the thick end / nominal. Scale" "Rayado: lo que hay sobre la suela donde menos queda. A trazos: lo que queda para base y tacos, por el lado grueso / nominal. Escala";
    NO_SLIP "no slip" "sin entresuela fina";
    SEWS "sews" "cose";
    LOCKS "locks through" "anuda hasta";
}
