//! The stack along the path: what lies between foot and table at every place of every row, and where it is thickest.
//!
//! Every ply is piecewise linear in the way along the row, so the sum is, too: its maxima lie at breakpoints, and are
//! found there exactly.

mod held;
mod layers;
mod lies;
mod room;

pub use room::{Room, outsole_thick};

use super::Built;
use super::amounts::of;
use super::lines::Lines;
use super::pieces::{RowPiece, clipped, outer_at, outer_spread, pieces_of_side};
use super::ply::Ply;
use super::rows::{RowBuilt, SoleRows, sole};
use crate::finding::{Sum, Term, Variation};
use crate::geometry::{Path, Side};
use crate::measure::{Spread, fits};
use crate::spec::{Bottom, Model, Role};
use held::held;
pub use held::{Held, Thin};
use layers::{LayerPly, channel};
pub use lies::Missed;
pub(super) use lies::{Along, Lies, Stretches, missed};
use std::sync::Arc;

/// How far down the rows go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the layer that is sewn last")]
pub enum Mode {
    Outsole,
    Slip,
    Midsole,
}

impl Mode {
    /// All modes, deepest first.
    pub const ALL: &'static [Mode] = &[Mode::Outsole, Mode::Slip, Mode::Midsole];

    /// The layer's name.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.role().name()
    }

    fn role(self) -> Role {
        match self {
            Mode::Outsole => Role::Outsole,
            Mode::Slip => Role::Slip,
            Mode::Midsole => Role::Midsole,
        }
    }
}

/// A place where a sum is greatest.
#[derive(Clone, Debug)]
pub struct Peak {
    /// The row, from 0.
    pub row: usize,
    /// mm along the row from its start on the outside.
    pub s: f64,
    /// The whole plateau: from and to, mm along the row.
    pub plateau: (f64, f64),
    /// The side.
    pub side: Side,
    /// The station, share of the bottom.
    pub station: f64,
    /// The lap that lies there, if one does.
    pub lap: Option<Arc<str>>,
    /// The sum there.
    pub sum: Sum,
}

/// The greatest sums of one mode.
#[derive(Clone, Debug)]
pub struct Lying {
    /// The mode.
    pub mode: Mode,
    /// Where the thick end is greatest.
    pub hi: Peak,
    /// Where the nominal is greatest.
    pub nominal: Peak,
    /// The greatest thin end, mm.
    pub lo: f64,
    /// The greatest nominal off any lap, mm.
    pub off_the_lap: f64,
}

/// What the layers of the bottom together may be so that the thick end passes, too.
#[derive(Clone, Debug)]
pub struct SortTo {
    /// The layers, by their roles.
    pub what: Vec<String>,
    /// Their greatest thickness together, mm.
    pub most: f64,
}

impl Lying {
    /// The thickness to sort the bottom's layers to: what `limit` leaves when the upper is at its thick end. None if
    /// that is less than the layers are at their thin end.
    #[must_use]
    pub fn sort_to(&self, limit: f64) -> Option<SortTo> {
        let (bottom, upper): (Vec<Term>, Vec<Term>) =
            self.hi.sum.terms.iter().cloned().partition(|term| layer_of(term).is_some());
        let most = limit - Sum { terms: upper }.spread().hi;
        let mut roles: Vec<Role> = Vec::new();
        for role in bottom.iter().filter_map(layer_of) {
            if !roles.contains(&role) {
                roles.push(role);
            }
        }
        let what = roles.into_iter().map(|role| role.name().to_owned()).collect();
        let least = Sum { terms: bottom }.spread().lo;
        fits(least, most).then_some(SortTo { what, most })
    }
}

/// The layer of the bottom with whose stock a term varies, if it varies with one.
fn layer_of(term: &Term) -> Option<Role> {
    if let Some(Variation::Layer(role, _)) = &term.source { Some(*role) } else { None }
}

/// The stack along all rows.
#[derive(Clone, Debug)]
pub struct Stack {
    /// The mode that is asked for, between foot and table.
    pub asked: Lying,
    /// What the needle crosses in the mode that is asked for: less than in the jaw where a channel lies under the row.
    pub stitch: Lying,
    /// The other modes that the bottom has layers for.
    pub others: Vec<Lying>,
    /// Of the layers that the rows must go through, what each row misses: the one that they end in, and the midsole.
    pub missed: Vec<Missed>,
    /// Cemented joints between foot and table whose adhesive does not say how thick its film is, and which no sum counts.
    pub unfilmed: u32,
    /// What is left of each part of the upper under the rows.
    pub held: Vec<Held>,
    rows: Vec<RowStack>,
    asked_mode: Mode,
    layers: Vec<LayerPly>,
}

#[derive(Clone, Debug)]
struct RowStack {
    pieces: Vec<RowPiece>,
    /// Where each layer of the stack lies along the row.
    present: Vec<Stretches>,
    length: f64,
}

/// Which of the two sums.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Between {
    /// Everything between foot and table.
    Jaw,
    /// What the needle crosses.
    Stitch,
}

pub(super) fn stack(model: &Model, lines: &Lines, rows: &SoleRows) -> Built<Stack> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let asked_mode = match of(&sole(model)?.through)?.it {
        Role::Midsole => Mode::Midsole,
        Role::Slip => Mode::Slip,
        _ => Mode::Outsole,
    };
    let mut layers = Vec::new();
    let mut lie = Vec::new();
    for role in [Role::Midsole, Role::Slip, Role::Outsole] {
        let Some(layer) = bottom.layer(role) else { continue };
        let place = Lies::of(layer)?;
        let plies = Ply::of_layer(layer)?;
        layers.extend(plies.iter().cloned().map(|ply| LayerPly { role, ply, coefficient: 1.0, channel: None }));
        layers.extend(channel(model, layer, &plies, rows)?);
        layers.extend(Ply::film_over(layer)?.map(|ply| LayerPly { role, ply, coefficient: 1.0, channel: None }));
        lie.resize(layers.len(), place);
    }
    let row_stacks: Vec<RowStack> = rows.rows.iter().map(|row| row_stack(lines, row, &lie)).collect();
    let whole = Whole { lines, rows, stacks: &row_stacks, layers: &layers };
    let mut found: Vec<Lying> = Mode::ALL
        .iter()
        .filter(|mode| **mode == asked_mode || has(bottom, mode.role()))
        .filter_map(|mode| whole.lying(*mode, Between::Jaw))
        .collect();
    let lost = crate::language::Hole { fault: crate::finding::FaultName::VALUE_NONSENSE.0, span: sole(model)?.span };
    let at = found.iter().position(|lying| lying.mode == asked_mode).ok_or(lost)?;
    let asked = found.remove(at);
    let stitch = if layers.iter().any(|layer| layer.channel.is_some()) {
        whole.lying(asked_mode, Between::Stitch).ok_or(lost)?
    } else {
        asked.clone()
    };
    let missed = all_missed(bottom, asked_mode, lines, rows)?;
    let unfilmed = unfilmed(bottom, asked_mode)?;
    let held = held(&names(model)?, lines, rows, &row_stacks);
    Ok(Stack { asked, stitch, others: found, missed, unfilmed, held, rows: row_stacks, asked_mode, layers })
}

/// How many joints of the mode have a film of which nothing is known.
fn unfilmed(bottom: &Bottom, asked: Mode) -> Built<u32> {
    let joined = bottom.layers.iter().filter(|layer| Role::Midsole <= layer.role && layer.role <= asked.role());
    let films = joined.filter(|layer| layer.bonded.is_some()).map(Ply::film_over);
    films.map(|film| Ok(u32::from(film?.is_none()))).sum()
}

/// The names of the parts that are turned out, heel to toe.
fn names(model: &Model) -> Built<Vec<Arc<str>>> {
    let upper = model.upper.as_ref().map_err(|hole| *hole)?;
    let parts = upper.turned_out.as_ref().map_err(|hole| *hole)?;
    Ok(parts.iter().map(|part| part.it.name.as_str().into()).collect())
}

/// The side and the station, share of the bottom, of a place mm along a row.
fn place_on(row: &RowBuilt, s: f64, lines: &Lines) -> (Side, f64) {
    let t = row.rail.t_at_length(row.from, s);
    (row.rail.side(t), row.rail.point(t).x / lines.last.bottom)
}

fn all_missed(bottom: &Bottom, asked: Mode, lines: &Lines, rows: &SoleRows) -> Built<Vec<Missed>> {
    let mut through = vec![Role::Midsole, asked.role()];
    through.dedup();
    let layers = through.into_iter().filter_map(|role| bottom.layer(role));
    layers
        .flat_map(|layer| rows.rows.iter().enumerate().map(move |(k, row)| missed(layer, lines, (k, row.along()))))
        .collect()
}

/// All that a mode's sums are found from.
struct Whole<'w> {
    lines: &'w Lines,
    rows: &'w SoleRows,
    stacks: &'w [RowStack],
    layers: &'w [LayerPly],
}

fn has(bottom: &Bottom, role: Role) -> bool {
    bottom.layer(role).is_some()
}

/// Pieces and layers of one row.
fn row_stack(lines: &Lines, row: &RowBuilt, lie: &[Lies]) -> RowStack {
    let toe = row.rail.length_between(row.from, lines.last.feather.side_switch());
    let along = row.along();
    let (heel, back) = along.turn();
    // Heel to toe outside, then back: the inside's pieces come in the order of the row.
    let mut pieces = clipped(pieces_of_side(lines, row, Side::Outside), heel, toe);
    pieces.extend(clipped(pieces_of_side(lines, row, Side::Inside), toe, back));
    let again: Vec<RowPiece> = pieces.iter().map(|piece| piece.moved(back - heel)).collect();
    pieces.extend(again);
    let mut pieces = clipped(pieces, 0.0, row.length);
    for piece in &mut pieces {
        let at = |s: f64| outer_spread(piece, s, lines).nominal;
        piece.nominal = (at(piece.from), at(piece.to));
    }
    let present = lie.iter().map(|lies| lies.along(lines, along)).collect();
    RowStack { pieces, present, length: row.length }
}

struct Best {
    value: f64,
    row: usize,
    piece: usize,
    s: f64,
    to: f64,
    /// A place inside the stretch on which it was found: the same layers lie there.
    inside: f64,
}

impl Best {
    /// Takes the greater value; of equal ones the first, whose plateau grows with what adjoins it.
    fn offer(best: &mut Option<Best>, value: f64, (row, piece): (usize, usize), s: f64, stretch: (f64, f64)) {
        const SAME: f64 = 1e-9;
        match best {
            Some(known) if value <= known.value + SAME => {
                let adjoins = known.row == row && stretch.0 <= known.to + SAME;
                if adjoins && value >= known.value - SAME {
                    known.to = known.to.max(s);
                }
            }
            _ => *best = Some(Best { value, row, piece, s, to: s, inside: f64::midpoint(stretch.0, stretch.1) }),
        }
    }
}

impl Whole<'_> {
    /// The greatest sums of a mode over all rows.
    fn lying(&self, mode: Mode, between: Between) -> Option<Lying> {
        let (mut lo, mut nominal, mut hi): (Option<Best>, Option<Best>, Option<Best>) = (None, None, None);
        let mut off_the_lap = 0.0_f64;
        for (k, row) in self.stacks.iter().enumerate() {
            for (n, from, to) in row.stretches(mode, self.layers) {
                let piece = &row.pieces[n];
                let under = row.layers_at((k, f64::midpoint(from, to)), mode, between, self.layers);
                for s in [from, to] {
                    let outer = outer_spread(piece, s, self.lines);
                    Best::offer(&mut lo, outer.lo + under.lo, (k, n), s, (from, to));
                    Best::offer(&mut nominal, outer.nominal + under.nominal, (k, n), s, (from, to));
                    Best::offer(&mut hi, outer.hi + under.hi, (k, n), s, (from, to));
                    if !piece.in_a_lap() {
                        off_the_lap = off_the_lap.max(outer.nominal + under.nominal);
                    }
                }
            }
        }
        let peak = |best: Best| self.peak(&best, mode, between);
        Some(Lying { mode, lo: lo?.value, nominal: peak(nominal?), hi: peak(hi?), off_the_lap })
    }

    fn peak(&self, best: &Best, mode: Mode, between: Between) -> Peak {
        let (row, built) = (&self.stacks[best.row], &self.rows.rows[best.row]);
        let (side, station) = place_on(built, best.s, self.lines);
        let piece = &row.pieces[best.piece];
        let mut sum = Sum { terms: outer_at(piece, best.s, self.lines) };
        let lying = row.lying_at((best.row, best.inside), mode, between, self.layers);
        sum.terms.extend(lying.map(LayerPly::term));
        Peak {
            row: best.row,
            s: best.s,
            plateau: (best.s, best.to),
            side,
            station,
            lap: self.lap_on(piece),
            sum: sum.settled(),
        }
    }
}

impl Whole<'_> {
    /// The lap that lies on a piece; where one reaches into the next, both.
    fn lap_on(&self, piece: &RowPiece) -> Option<Arc<str>> {
        let mut laps: Vec<usize> = piece.outer.iter().flat_map(|laid| &laid.within).map(|(n, ..)| *n).collect();
        laps.sort_unstable();
        laps.dedup();
        let names: Vec<&str> = laps.iter().map(|n| &*self.lines.turned.laps[*n].name).collect();
        (!names.is_empty()).then(|| names.join(", ").into())
    }
}

impl RowStack {
    /// Pieces cut at the ends of layers, so that on each everything is linear.
    fn stretches(&self, mode: Mode, layers: &[LayerPly]) -> Vec<(usize, f64, f64)> {
        let mut cuts: Vec<f64> = self
            .present
            .iter()
            .zip(layers)
            .filter(|(_, layer)| layer.role <= mode.role())
            .flat_map(|(stretches, _)| stretches.iter().flat_map(|(from, to)| [*from, *to]))
            .collect();
        cuts.sort_by(f64::total_cmp);
        let mut stretches = Vec::with_capacity(self.pieces.len() + 4);
        for (n, piece) in self.pieces.iter().enumerate() {
            let mut from = piece.from;
            for cut in cuts.iter().copied().filter(|cut| piece.from < *cut && *cut < piece.to) {
                if cut > from {
                    stretches.push((n, from, cut));
                    from = cut;
                }
            }
            stretches.push((n, from, piece.to));
        }
        stretches
    }

    /// The layers that count at a place: the row, and mm along it.
    fn lying_at<'l>(
        &'l self,
        (k, s): (usize, f64),
        mode: Mode,
        between: Between,
        layers: &'l [LayerPly],
    ) -> impl Iterator<Item = &'l LayerPly> {
        let here = move |stretches: &Stretches| stretches.iter().any(|(from, to)| *from <= s && s <= *to);
        layers
            .iter()
            .zip(&self.present)
            .filter(move |(layer, present)| layer.role <= mode.role() && layer.counts(k, between) && here(present))
            .map(|(layer, _)| layer)
    }

    /// Their sum, its ends the worst case.
    fn layers_at(&self, place: (usize, f64), mode: Mode, between: Between, layers: &[LayerPly]) -> Spread {
        let mut sum = Spread::exactly(0.0);
        for layer in self.lying_at(place, mode, between, layers) {
            let spread = layer.ply.spread;
            // A channel of its own depth is least deep where the stack is thickest.
            let own = layer.channel.as_ref().is_some_and(|cut| !cut.lugs);
            let (thin, thick) = if own { (spread.hi, spread.lo) } else { (spread.lo, spread.hi) };
            sum.lo += layer.coefficient * thin;
            sum.nominal += layer.coefficient * spread.nominal;
            sum.hi += layer.coefficient * thick;
        }
        sum
    }
}

impl Stack {
    /// Corners of the nominal stack of the mode asked for along row `k`: mm from its start and mm of thickness.
    #[must_use]
    pub fn profile(&self, k: usize) -> Vec<(f64, f64)> {
        let row = &self.rows[k];
        let mut corners = Vec::new();
        for (n, from, to) in row.stretches(self.asked_mode, &self.layers) {
            let place = (k, f64::midpoint(from, to));
            let under = row.layers_at(place, self.asked_mode, Between::Jaw, &self.layers).nominal;
            corners.extend([from, to].map(|s| (s, row.pieces[n].nominal_at(s) + under)));
        }
        corners
    }

    /// Where laps lie along row `k`, mm from its start, in the order of the row.
    #[must_use]
    pub fn laps(&self, k: usize) -> Vec<(f64, f64)> {
        let mut laps: Vec<(f64, f64)> = Vec::new();
        for piece in self.rows[k].pieces.iter().filter(|piece| piece.in_a_lap()) {
            match laps.last_mut() {
                Some(last) if (piece.from - last.1).abs() < 1e-9 => last.1 = piece.to,
                _ => laps.push((piece.from, piece.to)),
            }
        }
        laps
    }

    /// The nominal thicknesses that the needle crosses at ascending places, mm along row `k`: what the thread goes
    /// through.
    pub(super) fn thicknesses(&self, k: usize, places: impl Iterator<Item = f64>) -> impl Iterator<Item = f64> {
        let row = &self.rows[k];
        let under = |from: f64, to: f64| {
            let place = (k, f64::midpoint(from, to));
            row.layers_at(place, self.asked_mode, Between::Stitch, &self.layers).nominal
        };
        let stretches = row.stretches(self.asked_mode, &self.layers);
        let stretches: Vec<(usize, f64, f64)> =
            stretches.into_iter().map(|(n, from, to)| (n, to, under(from, to))).collect();
        let mut at = 0;
        places.map(move |s| {
            let s = s.clamp(0.0, row.length);
            while at + 1 < stretches.len() && stretches[at].1 < s {
                at += 1;
            }
            stretches.get(at).map_or(0.0, |(n, _, under)| row.pieces[*n].nominal_at(s) + under)
        })
    }
}
