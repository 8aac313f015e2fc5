//! Everything that a machine sews, with what is asked of the machine.

use super::Built;
use super::amounts::{base, of};
use super::thread::diameter;
use crate::language::Hole;
use crate::measure::Window;
use crate::source::Origin;
use crate::spec::{ForefootHold, Machine, Model, Stitching, Thread, Val, Valued};
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
    /// `sole rows`, `forefoot row`, `lap vamp over quarter`.
    pub name: Arc<str>,
    /// The key of its figures: `sole`, `forefoot`, `lap-vamp`.
    pub key: Arc<str>,
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
    /// Strength of one row, N/mm, if the thread states its strength: 1.5 times strength over pitch. An estimate.
    pub strength: Option<Built<f64>>,
}

struct Asked<'a> {
    name: String,
    key: String,
    rows: Built<u32>,
    pitch: &'a Val<crate::measure::Amount>,
    thread: &'a Val<Arc<Thread>>,
    needle: &'a Val<crate::measure::Amount>,
    on: &'a Val<Arc<Machine>>,
}

/// Every sewn seam of a model: the upper's in the order of their names, then forefoot and sole.
pub(super) fn seams(model: &Model) -> Vec<SeamBuilt> {
    let mut asked: Vec<Asked<'_>> = Vec::new();
    if let Ok(upper) = &model.upper {
        let name = |part: &Val<Arc<crate::spec::Part>>| {
            part.as_ref().map_or_else(|_| String::new(), |part| part.it.name.clone())
        };
        for lap in &upper.laps {
            let (top, under) = (name(&lap.top), name(&lap.under));
            asked.push(upper_seam(format!("lap {top} over {under}"), format!("lap-{top}"), &lap.stitching));
        }
        for seam in &upper.seams {
            asked.push(upper_seam(format!("seam {}", seam.name), format!("seam-{}", seam.name), &seam.stitching));
        }
        for stay in &upper.stays {
            asked.push(upper_seam(format!("stay {}", stay.name), format!("stay-{}", stay.name), &stay.stitching));
        }
        for gusset in &upper.gussets {
            let part = name(&gusset.part);
            asked.push(upper_seam(format!("gusset of {part}"), format!("gusset-{part}"), &gusset.stitching));
        }
        if let Some(collar) = &upper.collar {
            asked.push(upper_seam("collar".to_owned(), "collar".to_owned(), &collar.stitching));
        }
    }
    if let Ok(bottom) = &model.bottom {
        if let Some(forefoot) = &bottom.forefoot
            && let (Some(pitch), Some(thread), Some(needle), Some(on)) =
                (&forefoot.pitch, &forefoot.thread, &forefoot.needle, &forefoot.on)
            && forefoot.hold.as_ref().is_ok_and(|hold| hold.it == ForefootHold::Sewn)
        {
            let (name, key) = ("forefoot row".to_owned(), "forefoot".to_owned());
            asked.push(Asked { name, key, rows: Ok(1), pitch, thread, needle, on });
        }
        if let Ok(sole) = &bottom.sole {
            let rows = of(&sole.rows).map(|rows| rows.it);
            let (name, key) = ("sole rows".to_owned(), "sole".to_owned());
            asked.push(Asked {
                name,
                key,
                rows,
                pitch: &sole.pitch,
                thread: &sole.thread,
                needle: &sole.needle,
                on: &sole.on,
            });
        }
    }
    asked.into_iter().map(built).collect()
}

fn upper_seam(name: String, key: String, stitching: &Stitching) -> Asked<'_> {
    Asked {
        name,
        key,
        rows: of(&stitching.rows).map(|rows| rows.it),
        pitch: &stitching.pitch,
        thread: &stitching.thread,
        needle: &stitching.needle,
        on: &stitching.on,
    }
}

fn built(asked: Asked<'_>) -> SeamBuilt {
    let machine = of(asked.on);
    let window = |pick: fn(&Machine) -> &Val<crate::measure::Amount>| -> Built<(Window, Origin)> {
        let value = of(pick(&machine?.it))?;
        Ok((value.it.window(), value.origin.clone()))
    };
    let thread = of(asked.thread);
    let size: Result<&Valued<_>, Hole> = thread.and_then(|thread| of(&thread.it.size));
    let strength = thread.ok().and_then(|thread| thread.it.strength.as_ref());
    SeamBuilt {
        name: asked.name.into(),
        key: asked.key.into(),
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
        strength: strength.map(|strength| Ok(1.5 * base(strength)? * base(asked.pitch)? / 25.4)),
    }
}

fn sewn(value: f64, origin: &Origin, (window, window_origin): (Window, Origin)) -> Sewn {
    Sewn { value, origin: origin.clone(), window, window_origin }
}
