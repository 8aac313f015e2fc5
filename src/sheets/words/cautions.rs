//! The cautions. Sources: IARC Monographs (leather dust), NIOSH and OSHA (solvents, nails, compressed air), HSE (machines,
//! presses); the rest is common practice, no source. Local codes and licensed practice come first.

use super::{Word, words};

words! { CAUTIONS
    NAILS
        "Nails and tacks: wear eye protection, never hold them in the mouth, feel inside every boot for points before it leaves."
        "Clavos y tachuelas: gafas puestas, nunca en la boca, palpar cada bota por dentro en busca de puntas antes de que salga.";
    SOLVENTS
        "Solvent adhesives: ventilate down and away from the face, no flame or spark, gloves. Limits in air: n-hexane 50 ppm (NIOSH), toluene 200 ppm, MEK 200 ppm (OSHA)."
        "Adhesivos con disolvente: aspirar hacia abajo y lejos de la cara, ni llama ni chispa, guantes. Límites en el aire: n-hexano 50 ppm (NIOSH), tolueno 200 ppm, MEK 200 ppm (OSHA).";
    DUST
        "Leather dust causes nasal cancer: extract at the sander, wear a respirator, no dry sweeping. Air under 30 psi, with chip guarding."
        "El polvo de cuero causa cáncer nasal: aspirar en la lijadora, mascarilla con filtro, no barrer en seco. Aire a menos de 30 psi, con pantalla.";
    NEEDLES
        "Needle, eye and belt guards on; power off and feet off the treadle to thread or to change the needle."
        "Protectores de aguja, ojos y correa puestos; corriente cortada y pies fuera del pedal para enhebrar o cambiar la aguja.";
    PRESS
        "Press: two-hand control, release stops. Clicking knife: cut away from the hand that holds."
        "Troqueladora: mando a dos manos, al soltar para. Chaira de cortar: cortar lejos de la mano que sujeta.";
    BELL
        "Guard on, hands clear of the bell; power off to sharpen or clear it."
        "Protector puesto, manos lejos de la campana; corriente cortada para afilarla o limpiarla.";
    SETTER
        "Fingers clear of punch and setter; wear eye protection."
        "Dedos lejos del sacabocados y de la remachadora; gafas puestas.";
    SANDER
        "Sander: enclosed belt and nips, two hands on the boot, no loose sleeves."
        "Lijadora: banda y rodillos cubiertos, dos manos en la bota, sin mangas sueltas.";
    POINTS
        "Feel inside every boot with the hand for nail points."
        "Palpar cada bota por dentro con la mano en busca de puntas de clavo.";
    NO_CERTIFICATE
        "This sheet certifies nothing: fire, safety and electrical footwear is tested and labelled through an accredited laboratory to the standard that applies; local codes and licensed practice come first."
        "Esta hoja no certifica nada: el calzado de bombero, de seguridad y eléctrico lo ensaya y marca un laboratorio acreditado según la norma que toque; mandan los códigos locales y la práctica autorizada.";
}
