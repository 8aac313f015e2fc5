//! Figures of the model as a whole, its last, its lasting, its finish.

use super::List;
use crate::build::figure::{FigureId as F, Slot};
use crate::build::upper::back_height;
use crate::build::{Build, Datum, Dwell, Rest};
use crate::geometry::Path;

pub(super) fn model(build: &Build<'_>, list: &mut List) {
    let model = build.model;
    list.text(F::ModelName, model.name.clone());
    list.text(F::ModelTitle, model.title.clone());
    list.whole(F::ModelRevision, Some(&model.revision));
    list.text(F::ModelSize, build.size.to_string());
    list.text(F::ModelSystem, build.size.system.name());
    fit(build, list);
    list.named(F::LastName, Some(&model.last), |last| &last.name);
    if let Ok(last) = &model.last {
        list.text(F::LastTitle, last.it.title.clone());
        list.word(F::LastPlate, Some(&last.it.plate));
    }
    let Ok(last) = &build.last else { return };
    for (id, value) in [
        (F::LastStick, last.stick),
        (F::LastBottom, last.bottom),
        (F::LastBall, last.ball),
        (F::LastTread, last.tread),
        (F::LastSeatBreadth, last.seat_breadth),
        (F::LastBreast, last.breast),
        (F::LastJointInside, last.joint_inside),
        (F::LastJointOutside, last.joint_outside),
        (F::LastSeat, last.seat),
        (F::LastFeather, last.feather.length()),
    ] {
        list.number(id, value);
    }
    list.number(F::LastArea, last.feather.area() / 100.0);
    list.number(F::LastSlope, last.slope);
    if let Some(spring) = last.spring {
        list.number(F::LastSpring, spring);
    }
    match last.overhang {
        Some(overhang) => list.number(F::LastOverhang, overhang),
        None => list.text(F::LastUpright, "taken as upright"),
    }
}

/// The foot that the size is for, and what it is called elsewhere.
fn fit(build: &Build<'_>, list: &mut List) {
    let fit = &build.fit;
    list.number(F::SizeFoot, fit.foot);
    list.text(F::SizeFootBy, fit.route);
    for called in &fit.called {
        let name = called.system.name();
        let of = |id: F| id.of([Slot::Word(name)]);
        list.number(of(F::SizeCalled), called.number);
        list.number(of(F::SizeCalledRounded), called.rounded);
        list.text(of(F::SizeCalledBy), called.route);
    }
    if let Some(girth) = fit.girth {
        list.number(F::SizeFootGirth, girth);
    }
}

pub(super) fn lasting(build: &Build<'_>, list: &mut List) {
    let lasting = &build.model.lasting;
    list.window(F::LastingMulled, lasting.mulled.as_ref());
    list.whole(F::LastingInsoleNails, lasting.insole_nails.as_ref());
    if let Some(Ok(order)) = &lasting.order {
        list.texts(F::LastingOrder, order.it.iter().map(|word| (*word).to_owned()).collect());
    }
    list.window(F::LastingOnTheLast, lasting.on_the_last.as_ref());
    if let Some([toe, joints, heel]) = &lasting.margin {
        list.amount(F::LastingMargin.of([Slot::Word("toe")]), toe);
        list.amount(F::LastingMargin.of([Slot::Word("joints")]), joints);
        list.amount(F::LastingMargin.of([Slot::Word("heel")]), heel);
    }
    for margin in build.margins.iter().flat_map(|margins| margins.iter()) {
        let of = |id: F| id.of([Slot::Word(margin.place)]);
        list.number(of(F::LastingMarginNeeded), margin.needed.nominal());
        list.number(of(F::LastingMarginFree), margin.free.nominal());
    }
    list.maybe(F::LastingTacks, lasting.tacks.as_ref());
    if let Some(left) = &lasting.tacks_left {
        list.amount(F::LastingTacksLeft, &left.length);
        list.maybe(F::LastingTacksInside, left.inside_feather.as_ref());
    }
    if let Some(Ok(tacks)) = &build.tacks {
        list.count(F::LastingTacksCount, tacks.nails.len() as u64);
    }
    if let Some(height) = back_height(build) {
        list.built(F::LastingBackHeight, &height);
    }
}

pub(super) fn finish(build: &Build<'_>, list: &mut List) {
    let model = build.model;
    let finish = &model.finish;
    if let Some((how, colour)) = &finish.edge {
        list.word(F::FinishEdge, Some(how));
        list.string(F::FinishEdgeColour, colour.as_ref());
    }
    if let Some((how, of)) = &finish.sock_lining {
        list.word(F::FinishSockLining, Some(how));
        list.named(F::FinishSockLeather, of.as_ref(), |leather| &leather.name);
    }
    list.string(F::FinishDress, finish.dress.as_ref());
    if let Some((laces, length)) = &finish.laces {
        list.string(F::FinishLaces, Some(laces));
        list.maybe(F::FinishLacesLength, length.as_ref());
    }
    list.maybe(F::FinishSquareWithin, finish.square_within.as_ref());
    for check in &model.checks {
        let of = |id: F| id.of([Slot::typed(&*check.name)]);
        list.string(of(F::CheckAt), Some(&check.at));
        list.string(of(F::CheckWith), check.with.as_ref());
        list.maybe(of(F::CheckTarget), check.target.as_ref());
        list.word(of(F::CheckElse), check.otherwise.as_ref());
    }
    route(build, list);
    if let Some(claim) = &model.claim {
        list.amount(F::ClaimHeight, &claim.height);
        list.word(F::ClaimMeasured, Some(&claim.measured));
        list.string(F::ClaimTo, claim.to.as_ref());
        super::closing::claim(build, list);
    }
}

/// The whole order of work, with benches and rests.
fn route(build: &Build<'_>, list: &mut List) {
    let Ok(route) = &build.route else { return };
    list.texts(F::RouteSteps, route.steps.iter().map(|step| step.name.to_string()).collect());
    list.texts(F::RouteStations, route.steps.iter().map(|step| step.station.to_owned()).collect());
    if !route.felt.is_empty() {
        let felt = route.felt.iter().map(|step| (*step).to_owned()).collect();
        list.texts(F::RouteFelt, felt);
    }
    for dwell in &route.dwells {
        rest(dwell, list);
    }
    if !route.critical.is_empty() {
        let critical = route.critical.iter().map(|step| (*step).to_owned()).collect();
        list.texts(F::RouteCritical, critical);
        list.count(F::RoutePeelSamples, 1_u32);
    }
}

fn rest(dwell: &Dwell, list: &mut List) {
    let of = |id: F| id.of([Slot::Word(dwell.step)]);
    let id = match dwell.rest {
        Rest::Leather if dwell.step == "mull" => F::RestMulled,
        Rest::Leather => F::RestOnTheLast,
        Rest::Open => F::RestOpen,
        Rest::Set => F::RestSet,
        Rest::Said => F::RestSaid,
    };
    if let Some(pressed) = dwell.pressed {
        list.number(of(F::RestPressed), pressed);
    }
    match dwell.most {
        Some(hi) if hi > dwell.least => {
            list.figures.push(of(id), Datum::Window(crate::measure::Window { lo: dwell.least, hi }));
        }
        _ => list.number(of(id), dwell.least),
    }
}
