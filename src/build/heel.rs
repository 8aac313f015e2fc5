//! The heel: what the last asks for, what the lifts give, what is sanded.

use super::Built;
use super::amounts::{mm, of};
use super::last::GradedLast;
use super::ply::Ply;
use crate::finding::{LayerPiece, Lifted, PartPlace, Piece, Sum, Term, Variation};
use crate::measure::{Spread, fits};
use crate::spec::{Ends, Extent, Heel, House, Layer, LayerStock, Lifts, Model, Role};

/// Wedges or lifts: which, how many, how thick.
pub type Layered = (Lifted, u32, f64);

/// The heel of one size, mm.
#[derive(Clone, Debug)]
pub struct HeelBuilt {
    /// From the back to the breast.
    pub length: f64,
    /// How much the seat falls from the back to the breast.
    pub drop: f64,
    /// Base and cap at the back: seat height and what lies under the ball, less what lies under the seat.
    pub block: Sum,
    /// What lies under the seat: layers, and the outer that is lasted in there.
    pub under_seat: Sum,
    /// The cap.
    pub cap: Ply,
    /// What the base must be at the back: block less cap.
    pub needed: Sum,
    /// What lifts and wedges give, built to the gauge.
    pub given: Sum,
    /// What one wedge is at the breast; `None` without wedges.
    pub wedge_at_breast: Option<f64>,
    /// What the wedges can't take of the drop: sanded at the breast on top of the back's figure.
    pub drop_left: f64,
    /// Nominal sanding at the back.
    pub sand_back: f64,
    /// Nominal sanding at the breast.
    pub sand_breast: f64,
    /// What is seen of the heel at the back: block, midsole and slip.
    pub visible_back: f64,
    /// The same at the breast.
    pub visible_breast: f64,
    /// The thickest of the lifts and wedges.
    pub thickest_lift: f64,
    /// The base with one lift replaced by the next thinner stocked one, if there is one.
    pub thinner: Option<Thinner>,
    /// The thickest lift without which the base still reaches its height at its thin end: it is too many.
    pub too_many: Option<TooMany>,
    /// Lugs of the outsole lie under the base.
    pub lugs_under: bool,
    /// Lifts and wedges: count and thickness, wedges first.
    pub stack: Vec<Layered>,
}

impl HeelBuilt {
    /// The base as a gauge shows it at the finished edge, `out` mm behind the heel point of the feather line, where a tapered
    /// base is higher than at that point, from which sums count. The breast lies on the breast line, and is as it is there.
    #[must_use]
    pub fn gauged(&self, out: f64) -> Gauged {
        let ends = |back: f64, falls: f64| [back + falls * out / self.length, back - falls];
        // Before it is levelled a base falls by what the wedges take of the drop.
        Gauged {
            before: ends(self.given.nominal(), self.drop - self.drop_left),
            after: ends(self.needed.nominal(), self.drop),
        }
    }
}

/// Heights of the base at its finished edge, at the back and at the breast, mm.
#[derive(Clone, Copy, Debug)]
pub struct Gauged {
    /// As built.
    pub before: [f64; 2],
    /// When it is level.
    pub after: [f64; 2],
}

impl Gauged {
    /// What is sanded there, at the back and at the breast, mm.
    #[must_use]
    pub fn sanded(&self) -> [f64; 2] {
        [self.before[0] - self.after[0], self.before[1] - self.after[1]]
    }
}

/// One lift replaced by the next thinner stocked one, mm.
#[derive(Clone, Copy, Debug)]
#[expect(missing_docs, reason = "from one thickness to another")]
pub struct Thinner {
    pub from: f64,
    pub to: f64,
    /// The base still reaches its height at its thin end.
    pub reaches: bool,
}

/// Lifts of which there is one too many.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TooMany {
    /// Which: `lifts` or `thin-lifts`.
    pub word: &'static str,
    /// How thick one of them is, mm.
    pub thick: f64,
}

pub(super) fn heel(model: &Model, house: &House, heel: &Heel, last: &GradedLast) -> Built<HeelBuilt> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let (under_ball, under_seat) = (under(bottom, true)?, under_seat(model)?);
    let length = last.breast;
    let drop = length * last.slope.to_radians().tan();
    let block = seat_height(model)?.plus_all(under_ball).less(&under_seat);
    let cap = cap(heel)?;
    let needed = block.clone().less(&Sum { terms: vec![cap.term()] });
    let (given, stack) = given(heel, house)?;
    let least = mm(&house.rule("wedge-at-breast"))?;
    let wedges = stack
        .iter()
        .find(|(which, ..)| *which == Lifted::Wedges)
        .map(|(_, count, thickness)| (f64::from(*count), *thickness));
    let taken = wedges.map_or(0.0, |(count, thickness)| drop.min(count * (thickness - least).max(0.0)));
    let wedge_at_breast = wedges.filter(|(count, _)| *count > 0.0).map(|(count, thickness)| thickness - taken / count);
    let sand_back = given.nominal() - needed.nominal();
    let on_top = Ply::of_role(bottom, Role::Midsole)?.into_iter().chain(Ply::of_role(bottom, Role::Slip)?);
    let visible_back = block.nominal() + on_top.map(|ply| ply.spread.nominal).sum::<f64>();
    let over = given.clone().less(&needed).spread().lo;
    let (thinner, too_many) = (thinner(heel, over)?, too_many(&stack, over));
    Ok(HeelBuilt {
        length,
        drop,
        cap,
        needed,
        given,
        wedge_at_breast,
        drop_left: drop - taken,
        sand_back,
        sand_breast: sand_back + drop - taken,
        visible_back,
        visible_breast: visible_back - drop,
        lugs_under: lugs_under(bottom)?,
        thickest_lift: stack
            .iter()
            .filter(|(_, count, _)| *count > 0)
            .map(|(.., thickness)| *thickness)
            .fold(0.0, f64::max),
        thinner,
        too_many,
        stack,
        block,
        under_seat,
    })
}

/// The last makes the heel height.
fn seat_height(model: &Model) -> Built<Sum> {
    let last = &of(&model.last)?.it;
    let seat = of(&last.seat)?;
    Ok(Sum::new().plus(Term::fixed("seat height of the last", seat.it.nominal(), &seat.origin)))
}

/// Layers under the ball (or the seat). The lining and the filler that levels it lie under both and cancel.
fn under(bottom: &crate::spec::Bottom, ball: bool) -> Built<Sum> {
    let mut sum = Sum::new();
    for layer in bottom
        .layers
        .iter()
        .filter(|layer| matches!(layer.role, Role::Insole | Role::Midsole | Role::Slip | Role::Outsole))
    {
        let covered = matches!(
            (of(&layer.covers)?.it, ball),
            (Extent::All, _) | (Extent::Forepart, true) | (Extent::Seat, false)
        );
        if covered && (ball || reaches_seat(layer)?) {
            // Lugs that are buffed off at the seat are not there; under the ball they are.
            let buffed = |ply: &Ply| !ball && layer.lugs_off && ply.what.of_layer() == Some(LayerPiece::Lug);
            sum.terms.extend(Ply::of_layer(layer)?.iter().filter(|ply| !buffed(ply)).map(Ply::term));
        }
    }
    Ok(sum)
}

fn reaches_seat(layer: &Layer) -> Built<bool> {
    Ok(of(&layer.ends)?.it == Ends::Full)
}

/// Layers under the seat and the outer that is lasted in there, as they lie: the outer between insole and midsole.
fn under_seat(model: &Model) -> Built<Sum> {
    let bottom = model.bottom.as_ref().map_err(|hole| *hole)?;
    let mut sum = under(bottom, false)?;
    if let Some(part) = model.seat_part()? {
        let mut term = Ply::of_part(&part.it)?.term();
        term.what = term.what.placed(PartPlace::LastedIn);
        let insole = Ply::of_role(bottom, Role::Insole)?;
        let over = |of: &Term| insole.iter().any(|ply| of.source.as_ref() == Some(&ply.source));
        let at = sum.terms.iter().take_while(|of| over(of)).count();
        sum.terms.insert(at, term);
    }
    Ok(sum)
}

fn cap(heel: &Heel) -> Built<Ply> {
    let cap = &of(&heel.cap)?.it;
    let thickness = of(&cap.thickness)?;
    Ok(Ply {
        what: Piece::Cap(cap.name.as_str().into()),
        spread: thickness.it.spread(),
        source: Variation::Cap,
        origin: thickness.origin.clone(),
        tolerance: None,
    })
}

/// The lift whose next thinner stocked one saves the least: what is over at the thin end tells whether it may go.
fn thinner(heel: &Heel, over: f64) -> Built<Option<Thinner>> {
    let mut least: Option<Thinner> = None;
    for lifts in [&heel.lifts, &heel.thin_lifts].into_iter().flatten() {
        if of(&lifts.count)?.it == 0 {
            continue;
        }
        let from = of(&lifts.substance)?.it.nominal();
        let stocked = of(&of(&lifts.lift)?.it.substances)?;
        let below = stocked.it.iter().map(|substance| substance.it.nominal()).filter(|other| !fits(from, *other));
        let Some(to) = below.reduce(f64::max) else { continue };
        if least.is_none_or(|known| from - to < known.from - known.to) {
            least = Some(Thinner { from, to, reaches: fits(from - to, over) });
        }
    }
    Ok(least)
}

/// The thickest lift that is less than what is over at the thin end. Wedges are not left out: they take up the slope.
fn too_many(stack: &[Layered], over: f64) -> Option<TooMany> {
    let lifts = stack.iter().filter(|(which, count, _)| *which != Lifted::Wedges && *count > 0);
    let spare = lifts.filter(|(.., thick)| fits(*thick, over)).max_by(|a, b| a.2.total_cmp(&b.2));
    spare.map(|(which, _, thick)| TooMany { word: which.name(), thick: *thick })
}

/// How many of each lie in a base, or in a part of it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct BaseOf {
    pub wedges: u32,
    pub lifts: u32,
    pub thin: u32,
}

impl BaseOf {
    pub fn whole(heel: &Heel) -> Built<Self> {
        let count =
            |lifts: &Option<Lifts>| lifts.as_ref().map_or(Ok(0), |lifts| of(&lifts.count).map(|count| count.it));
        Ok(Self { wedges: count(&heel.wedges)?, lifts: count(&heel.lifts)?, thin: count(&heel.thin_lifts)? })
    }

    /// Both together.
    pub fn with(self, other: Self) -> Self {
        Self { wedges: self.wedges + other.wedges, lifts: self.lifts + other.lifts, thin: self.thin + other.thin }
    }
}

/// Some of the wedges and lifts, with the tolerance of the gauge that they are built to, not of each lift.
pub(super) fn base_of(heel: &Heel, house: &House, counts: BaseOf) -> Built<Sum> {
    let mut sum = Sum::new();
    let all = [
        (Lifted::Wedges, &heel.wedges, counts.wedges),
        (Lifted::Lifts, &heel.lifts, counts.lifts),
        (Lifted::ThinLifts, &heel.thin_lifts, counts.thin),
    ];
    for (which, lifts, count) in all {
        let Some(lifts) = lifts.as_ref().filter(|_| count > 0) else { continue };
        let substance = of(&lifts.substance)?;
        let one = Term::fixed(which, substance.it.nominal(), &substance.origin);
        sum.terms.push(Term { coefficient: f64::from(count), ..one });
    }
    let gauge = house.rule("gauge")?;
    sum.terms.push(Term {
        what: "gauge of the stack".into(),
        coefficient: 1.0,
        spread: Spread::around(0.0, gauge.it.nominal()),
        source: None,
        origin: gauge.origin,
        tolerance: None,
    });
    Ok(sum)
}

/// The whole base, and its wedges and lifts with count and thickness.
fn given(heel: &Heel, house: &House) -> Built<(Sum, Vec<Layered>)> {
    let mut stack = Vec::new();
    let all = [(Lifted::Wedges, &heel.wedges), (Lifted::Lifts, &heel.lifts), (Lifted::ThinLifts, &heel.thin_lifts)];
    for (which, lifts) in all.into_iter().filter_map(|(which, lifts)| lifts.as_ref().map(|lifts| (which, lifts))) {
        stack.push((which, of(&lifts.count)?.it, of(&lifts.substance)?.it.nominal()));
    }
    Ok((base_of(heel, house, BaseOf::whole(heel)?)?, stack))
}

/// An outsole with lugs that runs under the heel, full or tucked, puts its lugs under the stacked base, unless the model says
/// that they are buffed off there.
fn lugs_under(bottom: &crate::spec::Bottom) -> Built<bool> {
    let Some(outsole) = bottom.layer(Role::Outsole) else { return Ok(false) };
    let has_lugs = matches!(&of(&outsole.of)?.it, LayerStock::Outsole(stock) if stock.lug.is_some());
    let under = match of(&outsole.ends)?.it {
        Ends::Full => true,
        Ends::BehindBreast(behind) => behind > crate::measure::SLACK,
    };
    Ok(has_lugs && !outsole.lugs_off && under)
}
