//! What is taken by the piece: lifts, caps, stiffeners, hardware, laces.

use super::super::amounts::of;
use super::super::{Build, Built};

/// Something taken by the piece.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceTaken {
    /// What it is for: `lifts`, `cap`, `eyelets`.
    pub what: &'static str,
    /// Its stock.
    pub stock: String,
    /// How many for a pair.
    pub count: u32,
}

/// Everything that is taken by the piece.
///
/// # Errors
/// The hole of a fault in the heel, the upper or the bottom.
pub fn pieces(build: &Build<'_>) -> Built<Vec<PieceTaken>> {
    let mut all = Vec::new();
    let mut add = |what: &'static str, stock: &str, boot: u32| {
        if boot > 0 {
            all.push(PieceTaken { what, stock: stock.to_owned(), count: boot.saturating_mul(2) });
        }
    };
    let upper = build.model.upper.as_ref().map_err(|hole| *hole)?;
    for (what, stiffened) in [("counter", &upper.counter), ("puff", &upper.puff)] {
        if let Some(stiffened) = stiffened {
            add(what, &of(&stiffened.of)?.it.name, 1);
        }
    }
    if let Some(facing) = &upper.facing {
        for (what, row) in [("eyelets", &facing.eyelets), ("hooks", &facing.hooks)] {
            if let Some((count, hardware, _)) = row {
                // Two facings a boot.
                add(what, &of(hardware)?.it.name, of(count)?.it.saturating_mul(2));
            }
        }
    }
    let bottom = build.model.bottom.as_ref().map_err(|hole| *hole)?;
    for layer in &bottom.layers {
        if let crate::spec::LayerStock::Outsole(outsole) = &of(&layer.of)?.it {
            add("outsole", &outsole.name, 1);
        }
    }
    if let Some(heel) = &build.model.heel {
        for (what, lifts) in [("wedges", &heel.wedges), ("lifts", &heel.lifts), ("thin-lifts", &heel.thin_lifts)] {
            if let Some(lifts) = lifts {
                add(what, &of(&lifts.lift)?.it.name, of(&lifts.count)?.it);
            }
        }
        add("cap", &of(&heel.cap)?.it.name, 1);
    }
    if let Some((laces, _)) = &build.model.finish.laces {
        add("laces", &of(laces)?.it, 1);
    }
    Ok(all)
}
