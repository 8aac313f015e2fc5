//! Figures of the model as a whole, its last, its lasting, its finish.

use super::List;
use crate::build::upper::back_height;
use crate::build::{Build, Datum, Dwell, Rest};
use crate::geometry::Path;

pub(super) fn model(build: &Build<'_>, list: &mut List) {
    let model = build.model;
    list.text("model.name", "model", model.name.clone());
    list.text("model.title", "title", model.title.clone());
    list.whole("model.revision", "revision", Some(&model.revision));
    list.text("model.size", "size", build.size.to_string());
    list.text("model.system", "size system", build.size.system.name());
    fit(build, list);
    list.named("last.name", "last", Some(&model.last), |last| &last.name);
    if let Ok(last) = &model.last {
        list.text("last.title", "last's title", last.it.title.clone());
        list.word("last.plate", "plate", Some(&last.it.plate));
    }
    let Ok(last) = &build.last else { return };
    for (key, label, value) in [
        ("last.stick", "stick length", last.stick),
        ("last.bottom", "bottom length", last.bottom),
        ("last.ball", "ball girth", last.ball),
        ("last.tread", "tread", last.tread),
        ("last.seat-breadth", "seat breadth", last.seat_breadth),
        ("last.breast", "breast from the heel", last.breast),
        ("last.joint-inside", "inside joint from the heel", last.joint_inside),
        ("last.joint-outside", "outside joint from the heel", last.joint_outside),
        ("last.seat", "seat height", last.seat),
        ("last.feather", "feather line, all round", last.feather.length()),
    ] {
        list.number(key, label, "mm", value);
    }
    list.number("last.area", "area of the bottom", "cm2", last.feather.area() / 100.0);
    list.number("last.slope", "slope of the seat", "deg", last.slope);
    if let Some(spring) = last.spring {
        list.number("last.spring", "toe spring", "mm", spring);
    }
    match last.overhang {
        Some(overhang) => list.number("last.overhang", "overhang of the wall", "mm", overhang),
        None => list.text("last.overhang", "overhang of the wall", "taken as upright"),
    }
}

/// The foot that the size is for, and what it is called elsewhere.
fn fit(build: &Build<'_>, list: &mut List) {
    let fit = &build.fit;
    list.number("size.foot", "for a foot of", "mm", fit.foot);
    list.text("size.foot-by", "size by the foot", fit.route);
    for called in &fit.called {
        let name = called.system.name();
        list.number(&format!("size.{name}"), &format!("as {name}"), "", called.number);
        list.number(&format!("size.{name}-rounded"), &format!("as {name}, rounded"), "", called.rounded);
        list.text(&format!("size.{name}-by"), &format!("as {name}, by"), called.route);
    }
    if let Some(girth) = fit.girth {
        list.number("size.foot-girth", "mean ball girth of men's feet so long", "mm", girth);
    }
}

pub(super) fn lasting(build: &Build<'_>, list: &mut List) {
    let lasting = &build.model.lasting;
    list.window("lasting.mulled", "mull", lasting.mulled.as_ref());
    list.whole("lasting.insole-nails", "insole nails", lasting.insole_nails.as_ref());
    if let Some(Ok(order)) = &lasting.order {
        list.texts("lasting.order", "draft in this order", order.it.iter().map(|word| (*word).to_owned()).collect());
    }
    list.window("lasting.on-the-last", "on the last", lasting.on_the_last.as_ref());
    if let Some([toe, joints, heel]) = &lasting.margin {
        list.amount("lasting.margin-toe", "margin at the toe", toe);
        list.amount("lasting.margin-joints", "margin at the joints", joints);
        list.amount("lasting.margin-heel", "margin at the heel", heel);
    }
    for margin in build.margins.iter().flat_map(|margins| margins.iter()) {
        let key = |what: &str| format!("lasting.margin-{}-{what}", margin.place);
        list.number(&key("needed"), &format!("needed at the {}", margin.place), "mm", margin.needed.nominal());
        list.number(
            &key("free"),
            &format!("free for the pincers at the {}", margin.place),
            "mm",
            margin.free.nominal(),
        );
    }
    list.maybe("lasting.tacks", "tacks apart", lasting.tacks.as_ref());
    if let Some(left) = &lasting.tacks_left {
        list.amount("lasting.tacks-left", "tacks left in behind the release cut", &left.length);
        list.maybe("lasting.tacks-inside-feather", "these inside the feather line", left.inside_feather.as_ref());
    }
    if let Some(Ok(tacks)) = &build.tacks {
        list.count("lasting.tacks-left-count", "tacks left in, a boot", tacks.nails.len() as u64);
    }
    if let Some(height) = back_height(build) {
        list.built("lasting.back-height", "back height from the seat", "mm", &height);
    }
}

pub(super) fn finish(build: &Build<'_>, list: &mut List) {
    let model = build.model;
    let finish = &model.finish;
    if let Some((how, colour)) = &finish.edge {
        list.word("finish.edge", "edge", Some(how));
        list.string("finish.edge-colour", "edge colour", colour.as_ref());
    }
    if let Some((how, of)) = &finish.sock_lining {
        list.word("finish.sock-lining", "sock lining", Some(how));
        list.named("finish.sock-leather", "sock lining's leather", of.as_ref(), |leather| &leather.name);
    }
    list.string("finish.dress", "dress the upper with", finish.dress.as_ref());
    if let Some((laces, length)) = &finish.laces {
        list.string("finish.laces", "laces", Some(laces));
        list.maybe("finish.laces-length", "length of laces", length.as_ref());
    }
    list.maybe("finish.square-within", "edge square within", finish.square_within.as_ref());
    for check in &model.checks {
        let key = |what: &str| format!("check.{}.{what}", check.name);
        list.string(&key("at"), "look at", Some(&check.at));
        list.string(&key("with"), "with", check.with.as_ref());
        list.maybe(&key("target"), "target", check.target.as_ref());
        list.word(&key("else"), "if it fails", check.otherwise.as_ref());
    }
    route(build, list);
    if let Some(claim) = &model.claim {
        list.amount("claims.height", "claimed height, at least", &claim.height);
        list.word("claims.measured", "measured", Some(&claim.measured));
        list.string("claims.to", "claimed to", claim.to.as_ref());
        super::closing::claim(build, list);
    }
}

/// The whole order of work, with benches and rests.
fn route(build: &Build<'_>, list: &mut List) {
    let Ok(route) = &build.route else { return };
    list.texts("route.steps", "order of work", route.steps.iter().map(|step| step.name.to_string()).collect());
    list.texts("route.stations", "its benches", route.steps.iter().map(|step| step.station.to_owned()).collect());
    if !route.felt.is_empty() {
        let felt = route.felt.iter().map(|step| (*step).to_owned()).collect();
        list.texts("route.felt", "felt inside by hand for points after", felt);
    }
    for dwell in &route.dwells {
        rest(dwell, list);
    }
    if !route.critical.is_empty() {
        let critical = route.critical.iter().map(|step| (*step).to_owned()).collect();
        list.texts("route.critical", "critical: the adhesive alone holds the outsole", critical);
        list.count("route.peel-samples", "peel samples with each batch", 1_u32);
    }
}

fn rest(dwell: &Dwell, list: &mut List) {
    let key = format!("route.dwell.{}.{}", dwell.step, dwell.rest.name());
    let label = match dwell.rest {
        Rest::Leather if dwell.step == "mull" => "mulled",
        Rest::Leather => "on the last",
        Rest::Open => "joined after",
        Rest::Set => "left to set",
        Rest::Said => "rests",
    };
    if let Some(pressed) = dwell.pressed {
        list.number(&format!("route.dwell.{}.press", dwell.step), "pressed", "minutes", pressed);
    }
    match dwell.most {
        Some(hi) if hi > dwell.least => {
            list.figures.push(key, label, "minutes", Datum::Window(crate::measure::Window { lo: dwell.least, hi }));
        }
        _ => list.number(&key, label, "minutes", dwell.least),
    }
}
