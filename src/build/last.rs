//! The last in one size: the base plus grade steps, exact until the curve is fitted.

use super::Built;
use super::amounts::{maybe, mm, of};
use crate::geometry::{ClosedCurve, Outline, Path, Side, Station, Straight};
use crate::language::Hole;
use crate::measure::{Amount, Exact, Size, System, to_f64};
use crate::spec::{Grade, Last, Val, stations_mm};
use num_traits::Zero;

/// The base last with what its outline says of itself.
#[derive(Clone, Debug)]
pub(super) struct Base {
    last: std::sync::Arc<Last>,
    stations: Vec<Station>,
    tread: f64,
    seat_breadth: f64,
}

/// A last in one size. All in mm, stations as x along the bottom from the heel.
#[derive(Clone, Debug)]
pub struct GradedLast {
    /// The stick length.
    pub stick: f64,
    /// The bottom's length.
    pub bottom: f64,
    /// The girth at the joints.
    pub ball: f64,
    /// Bottom breadth at the joints.
    pub tread: f64,
    /// Greatest bottom breadth behind the breast.
    pub seat_breadth: f64,
    /// Graded stick over base stick.
    pub length_factor: f64,
    /// Graded ball over base ball.
    pub girth_factor: f64,
    /// Whole sizes away from the base, negative below it.
    pub sizes_from_base: f64,
    /// The breast line.
    pub breast: f64,
    /// The inside joint.
    pub joint_inside: f64,
    /// The outside joint.
    pub joint_outside: f64,
    /// Height of the seat over the ground, not graded.
    pub seat: f64,
    /// Slope of the seat, degrees, not graded.
    pub slope: f64,
    /// Toe spring, not graded.
    pub spring: Option<f64>,
    /// How far the wall leans over the feather line; `None` if the last does not say.
    pub overhang: Option<f64>,
    /// The feather line.
    pub feather: ClosedCurve,
    /// The joint line: straight through the feather line's points at the two joint stations.
    pub joint_line: Straight,
}

impl GradedLast {
    /// The hindmost place of the joint line, x, that a piece meets which is `half` mm broad to each side of the centre line.
    #[must_use]
    pub fn joint_met(&self, half: f64) -> f64 {
        let half = half.min(self.tread);
        let at = |y: f64| self.joint_line.x_at(y).unwrap_or(f64::INFINITY);
        at(-half).min(at(half)).max(self.joint_inside.min(self.joint_outside))
    }
}

impl Base {
    pub fn of(last: &std::sync::Arc<Last>) -> Built<Base> {
        let bottom = mm(&last.bottom)?;
        let stations = stations_mm(&of(&last.outline)?.it, bottom);
        let curve = fit(last, &stations)?;
        let at = |share: &Val<Amount>| mm(share).map(|share| share / 100.0 * bottom);
        let half =
            |x: f64, side: Side| curve.breadth_at(x).map(|b| if side == Side::Inside { b.inside } else { b.outside });
        let lost = || not_fitted(last);
        let inside = half(at(&last.joint_inside)?, Side::Inside).ok_or_else(lost)?;
        let outside = half(at(&last.joint_outside)?, Side::Outside).ok_or_else(lost)?;
        let widest = curve.greatest_breadth_behind(at(&last.breast)?).ok_or_else(lost)?.total();
        Ok(Base {
            last: std::sync::Arc::clone(last),
            stations,
            tread: maybe(last.tread.as_ref())?.unwrap_or(inside + outside),
            seat_breadth: maybe(last.seat_breadth.as_ref())?.unwrap_or(widest),
        })
    }

    /// The last in `size`.
    pub fn graded(&self, size: Size) -> Built<GradedLast> {
        let last = &*self.last;
        let base = of(&last.base)?.it;
        let sizes = steps(last, size.number - base.number, base.system);
        let widths = width_steps(base, size).ok_or_else(|| not_fitted(last))?;
        let grown = |start: &Val<Amount>, pick: Pick| -> Built<Exact> {
            Ok(of(start)?.it.exact() + grade(&last.by_size, pick)? * sizes + grade(&last.by_width, pick)? * widths)
        };
        let longer = length_step(last, base.system)? * sizes;
        let breadth = |start: f64, pick: Pick| -> Built<f64> {
            Ok(start + to_f64(grade(&last.by_size, pick)? * sizes + grade(&last.by_width, pick)? * widths))
        };
        let (stick, bottom) = (of(&last.stick)?.it.exact() + longer, to_f64(of(&last.bottom)?.it.exact() + longer));
        let (tread, seat_breadth) = (breadth(self.tread, Pick::Tread)?, breadth(self.seat_breadth, Pick::SeatBreadth)?);
        let at = |share: &Val<Amount>| mm(share).map(|share| share / 100.0 * bottom);
        let (joint_inside, joint_outside) = (at(&last.joint_inside)?, at(&last.joint_outside)?);
        let factors = (seat_breadth / self.seat_breadth, tread / self.tread);
        let lengthening = bottom / mm(&last.bottom)?;
        let stations: Vec<Station> = self
            .stations
            .iter()
            .map(|station| scaled(station, lengthening, factors, joint_inside, joint_outside))
            .collect();
        let feather = fit(last, &stations)?;
        let joint_line = joint_line(&feather, joint_inside, joint_outside).ok_or_else(|| not_fitted(last))?;
        let ball = grown(&last.ball, Pick::Ball)?;
        Ok(GradedLast {
            stick: to_f64(stick),
            bottom,
            ball: to_f64(ball),
            tread,
            seat_breadth,
            length_factor: to_f64(stick / of(&last.stick)?.it.exact()),
            girth_factor: to_f64(ball / of(&last.ball)?.it.exact()),
            sizes_from_base: to_f64(sizes),
            breast: at(&last.breast)?,
            joint_inside,
            joint_outside,
            seat: mm(&last.seat)?,
            slope: mm(&last.slope)?,
            spring: maybe(last.spring.as_ref())?,
            overhang: maybe(last.overhang.as_ref())?,
            feather,
            joint_line,
        })
    }
}

#[derive(Clone, Copy)]
enum Pick {
    Ball,
    Tread,
    SeatBreadth,
}

fn grade(grade: &Grade, pick: Pick) -> Built<Exact> {
    let step = match pick {
        Pick::Ball => &grade.ball,
        Pick::Tread => &grade.tread,
        Pick::SeatBreadth => &grade.seat_breadth,
    };
    step.as_ref().map_or(Ok(Exact::zero()), |step| of(step).map(|step| step.it.exact()))
}

/// Whole sizes from the base. Mondopoint is numbered in mm: a size is the step in which the last is made.
fn steps(last: &Last, numbers: Exact, system: System) -> Exact {
    let step = last.made.as_ref().ok().and_then(|made| made.runs.first()).map(|run| run.it.by);
    match (system, step) {
        (System::Mondo, Some(step)) => numbers / step,
        _ => numbers,
    }
}

/// What one whole size adds to the length: stated, or the system's own step.
fn length_step(last: &Last, system: System) -> Built<Exact> {
    if let Some(stated) = &last.by_size.stick {
        return of(stated).map(|step| step.it.exact());
    }
    let step = last.made.as_ref().ok().and_then(|made| made.runs.first()).map(|run| run.it.by);
    Ok(match (system, step) {
        (System::Mondo, Some(step)) => step,
        _ => system.length_step(),
    })
}

fn width_steps(base: Size, size: Size) -> Option<Exact> {
    let steps = size.width.rank(size.system)? - base.width.rank(base.system)?;
    Some(Exact::from_integer(i128::from(steps)))
}

/// A station of the graded last: lengthened, and widened by a factor that runs linearly from the seat's at the
/// heel to the tread's at that side's own joint, and stays there.
fn scaled(
    station: &Station,
    lengthening: f64,
    (seat, tread): (f64, f64),
    joint_inside: f64,
    joint_outside: f64,
) -> Station {
    let x = station.x * lengthening;
    let factor = |joint: f64| seat + (tread - seat) * (x / joint).min(1.0);
    Station { x, inside: station.inside * factor(joint_inside), outside: station.outside * factor(joint_outside) }
}

fn joint_line(feather: &ClosedCurve, inside: f64, outside: f64) -> Option<Straight> {
    let point = |x: f64, side: Side| Some(feather.point(*feather.crossings_on(&Straight::square_at(x), side).first()?));
    Straight::through(point(inside, Side::Inside)?, point(outside, Side::Outside)?)
}

fn fit(last: &Last, stations: &[Station]) -> Built<ClosedCurve> {
    Outline::fit(stations).map(Outline::into_curve).map_err(|_| not_fitted(last))
}

/// The hole of a graded outline through which no curve goes; the base outline was fitted where it was read.
fn not_fitted(last: &Last) -> Hole {
    Hole { fault: crate::finding::FaultName::OUTLINE_CROSSES.0, span: last.span }
}
