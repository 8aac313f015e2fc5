//! What lies about the nail that has the least to spare, layer by layer: what a section through it shows.

use super::ring::{Stand, Zone};
use super::stages::Stage;
use super::{Around, Bound};
use crate::build::Built;
use crate::finding::Piece;

/// A section through a nail, everything at its nominal thickness, mm.
#[derive(Clone, Debug)]
pub struct NailCut {
    /// Which of [`super::HeelNailsBuilt::stands`] it is.
    pub stand: usize,
    /// What it has to spare at the worst, mm: up to what it must not exceed or beyond what it must reach, whichever is less.
    pub spare: f64,
    /// The base that is nailed when its stage is done, as built at that place, from the ground up.
    pub base: Vec<CutLayer>,
    /// What lies over the base there, up to the foot or the ledge's face; nothing in the turn of the upper.
    pub over: Vec<CutLayer>,
    /// What is kept clear below that face, mm.
    pub kept: f64,
}

/// One thing in a section.
#[derive(Clone, Debug)]
pub struct CutLayer {
    /// What it is.
    pub what: Piece,
    /// How many lie there, one on the other.
    pub count: u32,
    /// How thick they are together, mm.
    pub thickness: f64,
}

impl NailCut {
    /// The same with its nail counted among all nails of the heel.
    pub(super) fn moved(self, first: usize) -> Self {
        Self { stand: self.stand + first, ..self }
    }

    /// From the ground up to the foot or the ledge's face, mm.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.base.iter().chain(&self.over).map(|layer| layer.thickness).sum()
    }
}

impl Around<'_> {
    /// The section where least is to spare: at the nail with the least room, or at the one that must reach farthest.
    pub(super) fn cut(
        &self,
        stage: &Stage<'_>,
        stands: &[Stand],
        (room, hold): (&Bound, &Bound),
        reach: f64,
    ) -> Built<NailCut> {
        let (above, beyond) = (room.value - reach, reach - hold.value);
        let (bound, spare, pick): (_, _, fn(f64, f64) -> f64) =
            if beyond < above { (hold, beyond, f64::max) } else { (room, above, f64::min) };
        let stand = &stands[bound.stand];
        let base = self.base_at(stage, stage.so_far.worst(stand, pick))?;
        let over = if stand.zone == Zone::Turn {
            Vec::new()
        } else {
            self.bed.layers(&self.bed.lain(bound.mask, stand.spot()))
        };
        Ok(NailCut { stand: bound.stand, spare, base, over, kept: self.kept(stand.zone)?.0 })
    }

    /// The layers of a base at a place along the heel: what the slope takes is taken from the wedges.
    fn base_at(&self, stage: &Stage<'_>, x: f64) -> Built<Vec<CutLayer>> {
        let mut layers: Vec<CutLayer> = Vec::new();
        let mut taken = 0.0;
        for term in stage.so_far.sum(self, x)?.terms.iter().rev() {
            let thickness = term.nominal();
            if thickness > 0.0 {
                #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "lifts are counted")]
                let count = term.coefficient.round() as u32;
                layers.push(CutLayer { what: term.what.clone(), count, thickness });
            } else {
                taken -= thickness;
            }
        }
        // Wedges lie against the seat: they are the last from the ground up.
        if let Some(wedges) = layers.last_mut() {
            wedges.thickness -= taken;
        }
        Ok(layers)
    }
}
