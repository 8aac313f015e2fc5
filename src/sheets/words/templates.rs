//! The words of true-size templates.

use super::{Word, words};

words! { TEMPLATES
    TEMPLATE "Templates at true size" "Plantillas a tamaño real";
    LEFT "left" "izquierda";
    RIGHT "right" "derecha";
    BOTTOM "Bottom" "Piso";
    INSOLE "Insole" "Palmilla";
    HEEL_PIECES "Lifts, wedges, cap" "Tapas, cuñas, firme";
    STRIPS "Strips" "Tiras";
    FULL_SIZE "print at 100 %, measure the bars: 100 mm both ways" "imprimir al 100 %, medir las barras: 100 mm en ambos sentidos";
    CHECKING "for checking, not for pricking" "para comprobar, no para picar";
    FROM_BELOW "seen from below" "visto desde abajo";
    TILE "tile" "hoja";
    ROUGH_EDGE "rough edge" "canto en basto";
    TENTHS "every tenth stitch" "cada décima puntada";
    STARTS "start of a row" "comienzo de fila";
    LAPS "laps" "solapes";
    WAIST "waist nails" "clavos del enfranque";
    SEAT "heel seat nails" "clavos del asiento";
    HEEL_BACK "base at the back, when level / as built" "base atrás, nivelada / construida";
    HEEL_BREAST "base at the breast, when level / as built" "base en el frente, nivelada / construida";
    EDGE_GUIDE "rows from the edge" "filas desde el canto";
    FACING_CENTRES "hole centres from the top edge" "centros desde el borde superior";
}
