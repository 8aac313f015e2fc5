//! The layers of the bottom as the stack sums them, and the channels in the tread.

use super::Between;
use crate::build::Built;
use crate::build::amounts::{mm, of};
use crate::build::ply::Ply;
use crate::build::rows::{SoleRows, sole};
use crate::finding::{Piece, Term, Variation};
use crate::measure::fits;
use crate::spec::{Layer, LayerStock, Model, Role};

/// A layer, or what a channel takes away of one.
#[derive(Clone, Debug)]
pub(super) struct LayerPly {
    pub role: Role,
    pub ply: Ply,
    /// 1, or -1 for what a channel takes away.
    pub coefficient: f64,
    /// What is to know of a channel.
    pub channel: Option<Cut>,
}

/// A channel in the tread.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    /// Whether it lies under each row.
    pub under: Vec<bool>,
    /// Whether the table's nose goes into it.
    pub nose: bool,
    /// It takes away the lugs themselves, which vary as they do where they are left.
    pub lugs: bool,
}

impl LayerPly {
    /// Whether it counts in a sum on row `k`.
    pub fn counts(&self, k: usize, between: Between) -> bool {
        match &self.channel {
            None => true,
            Some(cut) => cut.under.get(k) == Some(&true) && (between == Between::Stitch || cut.nose),
        }
    }

    pub fn term(&self) -> Term {
        Term { coefficient: self.coefficient, ..self.ply.term() }
    }
}

/// What a channel in the tread takes away from under the rows that run over it. Down to the base's face it takes the
/// lugs, the very same ones; else its own depth.
pub(super) fn channel(model: &Model, layer: &Layer, plies: &[Ply], rows: &SoleRows) -> Built<Option<LayerPly>> {
    let LayerStock::Outsole(outsole) = &of(&layer.of)?.it else { return Ok(None) };
    let Some(channel) = &outsole.channel else { return Ok(None) };
    let between = of(&channel.between)?.it.window();
    let under = rows.rows.iter().map(|row| between.holds(row.inset)).collect();
    // A machine that does not say how broad its table is has one that goes into no channel.
    let nose = match &of(&sole(model)?.on)?.it.table_nose {
        Some(nose) => fits(mm(nose)?, between.hi - between.lo),
        None => false,
    };
    let ply = match &channel.deep {
        Some(deep) => {
            let deep = of(deep)?;
            Ply {
                what: Piece::Channel { outsole: outsole.name.as_str().into() },
                spread: deep.it.spread(),
                source: Variation::Channel,
                origin: deep.origin.clone(),
                tolerance: None,
            }
        }
        None => match plies.get(1) {
            Some(lug) => lug.clone(),
            None => return Ok(None),
        },
    };
    let cut = Cut { under, nose, lugs: channel.deep.is_none() };
    Ok(Some(LayerPly { role: layer.role, ply, coefficient: -1.0, channel: Some(cut) }))
}
