//! Everything that a machine sews, with what is asked of the machine.

use super::Built;
use super::amounts::{base, of};
use super::thread::diameter;
use crate::finding::{LapName, SeamName};
use crate::language::Hole;
use crate::measure::{Amount, Window};
use crate::source::Origin;
use crate::spec::{ForefootHold, Machine, Model, Part, Stitching, Thread, Val, Valued};
use std::sync::Arc;

/// A value asked for, and the window of the machine that must hold it.
#[derive(Clone, Debug)]
pub struct Sewn {
    /// What is asked for, in the unit of the window.
    pub value: f64,
    /// Where that was written.
    pub origin: Origin,
    /// What the machine takes.
    pub window: Window,
    /// Where that was written.
    pub window_origin: Origin,
}

/// A seam with its settings.
#[derive(Clone, Debug)]
pub struct SeamBuilt {
    /// What is sewn.
    pub name: SeamName,
    /// The machine's name.
    pub machine: Built<String>,
    /// The thread's name.
    pub thread_name: Built<String>,
    /// Rows.
    pub rows: Built<u32>,
    /// Thread size against the machine's, tex.
    pub thread: Built<Sewn>,
    /// Needle against the machine's, Nm.
    pub needle: Built<Sewn>,
    /// Pitch against the machine's, spi.
    pub pitch: Built<Sewn>,
    /// Thread diameter, mm.
    pub diameter: Built<f64>,
    /// The needles that the thread's maker names, Nm, if he names any.
    pub named: Option<Built<(Window, Origin)>>,
    /// What one stitch holds, N, if the thread states its strength: 1.5 times that, or what a hole of the leather holds, if
    /// that is less. A row is as strong, in N/mm, as this over its true pitch in mm. An estimate.
    pub stitch_holds: Option<Built<f64>>,
    /// The leather that gives way before the thread does.
    pub leather_first: Option<String>,
}

struct Asked<'a> {
    name: SeamName,
    rows: Built<u32>,
    pitch: &'a Val<Amount>,
    thread: &'a Val<Arc<Thread>>,
    needle: &'a Val<Amount>,
    on: &'a Val<Arc<Machine>>,
    /// The leathers that it holds.
    leathers: Vec<&'a Val<Arc<Part>>>,
    /// More of them, from a list.
    joins: &'a [Valued<Arc<Part>>],
}

/// Every sewn seam of a model: the upper's in the order of their names, then forefoot and sole.
pub(super) fn seams(model: &Model) -> Vec<SeamBuilt> {
    let mut asked: Vec<Asked<'_>> = Vec::new();
    if let Ok(upper) = &model.upper {
        let name = |part: &Val<Arc<Part>>| part.as_ref().map_or_else(|_| String::new(), |part| part.it.name.clone());
        for lap in &upper.laps {
            let (top, under) = (name(&lap.top), name(&lap.under));
            let name = SeamName::Lap(LapName { top: top.into(), under: under.into() });
            let seam = upper_seam(name, &lap.stitching);
            asked.push(Asked { leathers: vec![&lap.top, &lap.under], ..seam });
        }
        for seam in &upper.seams {
            let asked_seam = upper_seam(SeamName::Seam(seam.name.as_str().into()), &seam.stitching);
            asked.push(Asked { joins: seam.joins.as_ref().map_or(&[], Vec::as_slice), ..asked_seam });
        }
        for stay in &upper.stays {
            let seam = upper_seam(SeamName::Stay(stay.name.as_str().into()), &stay.stitching);
            asked.push(Asked { leathers: vec![&stay.of], ..seam });
        }
        for gusset in &upper.gussets {
            let part = name(&gusset.part);
            let seam = upper_seam(SeamName::Gusset(part.into()), &gusset.stitching);
            asked.push(Asked { leathers: vec![&gusset.part, &gusset.joins], ..seam });
        }
        if let Some(collar) = &upper.collar {
            let seam = upper_seam(SeamName::Collar, &collar.stitching);
            asked.push(Asked { leathers: vec![&collar.part, &collar.joins], ..seam });
        }
        if let Some(facing) = &upper.facing
            && let Some(stitching) = &facing.rows
        {
            let seam = upper_seam(SeamName::Facing, stitching);
            let joins = upper.faced(facing).ok().flatten().map(std::slice::from_ref).unwrap_or_default();
            asked.push(Asked { joins, ..seam });
        }
    }
    if let Ok(bottom) = &model.bottom {
        if let Some(forefoot) = &bottom.forefoot
            && let (Some(pitch), Some(thread), Some(needle), Some(on)) =
                (&forefoot.pitch, &forefoot.thread, &forefoot.needle, &forefoot.on)
            && forefoot.hold.as_ref().is_ok_and(|hold| hold.it == ForefootHold::Sewn)
        {
            let name = SeamName::Forefoot;
            asked.push(Asked { name, rows: Ok(1), pitch, thread, needle, on, leathers: Vec::new(), joins: &[] });
        }
        if let Ok(sole) = &bottom.sole {
            let rows = of(&sole.rows).map(|rows| rows.it);
            let name = SeamName::Sole;
            asked.push(Asked {
                name,
                rows,
                pitch: &sole.pitch,
                thread: &sole.thread,
                needle: &sole.needle,
                on: &sole.on,
                leathers: Vec::new(),
                joins: turned_out(model),
            });
        }
    }
    asked.into_iter().map(built).collect()
}

fn upper_seam(name: SeamName, stitching: &Stitching) -> Asked<'_> {
    Asked {
        name,
        rows: of(&stitching.rows).map(|rows| rows.it),
        pitch: &stitching.pitch,
        thread: &stitching.thread,
        needle: &stitching.needle,
        on: &stitching.on,
        leathers: Vec::new(),
        joins: &[],
    }
}

/// What one stitch hole of the weakest leather holds, N, and which leather that is, if a leather states it.
fn holds(leathers: &[(&str, &Val<Amount>)]) -> Built<Option<(f64, String)>> {
    let mut weakest: Option<(f64, String)> = None;
    for (name, holds) in leathers {
        let holds = base(holds)?;
        if weakest.as_ref().is_none_or(|(least, _)| holds < *least) {
            weakest = Some((holds, (*name).to_owned()));
        }
    }
    Ok(weakest)
}

/// What one stitch holds, N, and the leather that gives way first, if one does.
fn stitch_holds(thread: &Val<Amount>, weakest: Option<(f64, String)>) -> Built<(f64, Option<String>)> {
    let of_thread = 1.5 * base(thread)?;
    Ok(match weakest {
        Some((holds, leather)) if holds < of_thread => (holds, Some(leather)),
        _ => (of_thread, None),
    })
}

fn built(asked: Asked<'_>) -> SeamBuilt {
    let machine = of(asked.on);
    let window = |pick: fn(&Machine) -> &Val<Amount>| -> Built<(Window, Origin)> {
        let value = of(pick(&machine?.it))?;
        Ok((value.it.window(), value.origin.clone()))
    };
    let thread = of(asked.thread);
    let size: Result<&Valued<_>, Hole> = thread.and_then(|thread| of(&thread.it.size));
    let strength_of = thread.ok().and_then(|thread| thread.it.strength.as_ref());
    let parts = asked.leathers.iter().filter_map(|part| part.as_ref().ok()).chain(asked.joins).map(|part| &*part.it);
    let leathers: Vec<(&str, &Val<Amount>)> = parts.filter_map(stated_hold).collect();
    let strength = strength_of.map(|thread| stitch_holds(thread, holds(&leathers)?));
    let named = thread.ok().and_then(|thread| thread.it.needle.as_ref());
    SeamBuilt {
        named: named.map(|named| of(named).map(|named| (named.it.window(), named.origin.clone()))),
        name: asked.name,
        machine: machine.map(|machine| machine.it.name.clone()),
        thread_name: thread.map(|thread| thread.it.name.clone()),
        rows: asked.rows,
        thread: size.and_then(|size| {
            // The thread is a choice of the model; its size stands with the stock.
            let origin = thread?.origin.clone();
            Ok(sewn(size.it.nominal(), &origin, window(|machine| &machine.thread)?))
        }),
        needle: of(asked.needle)
            .and_then(|needle| Ok(sewn(needle.it.nominal(), &needle.origin, window(|machine| &machine.needle)?))),
        pitch: of(asked.pitch)
            .and_then(|pitch| Ok(sewn(pitch.it.nominal(), &pitch.origin, window(|machine| &machine.pitch)?))),
        diameter: thread.and_then(|thread| diameter(&thread.it)),
        leather_first: strength.as_ref().and_then(|it| it.as_ref().ok()).and_then(|(_, leather)| leather.clone()),
        stitch_holds: strength.map(|strength| strength.map(|(holds, _)| holds)),
    }
}

fn stated_hold(part: &Part) -> Option<(&str, &Val<Amount>)> {
    let leather = &part.of.as_ref().ok()?.it;
    Some((leather.name.as_str(), leather.holds.as_ref()?))
}

/// What the sole's rows hold of the upper.
fn turned_out(model: &Model) -> &[Valued<Arc<Part>>] {
    model.upper.as_ref().ok().and_then(|upper| upper.turned_out.as_deref().ok()).unwrap_or_default()
}

fn sewn(value: f64, origin: &Origin, (window, window_origin): (Window, Origin)) -> Sewn {
    Sewn { value, origin: origin.clone(), window, window_origin }
}
