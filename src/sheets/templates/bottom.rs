//! The bottom: feather line, wall, edges, rows with every tenth stitch, forefoot row, nails, breast, joints, laps.

use super::super::paper::Pen;
use super::super::words::{self, Word, templates as said};
use super::TemplateJob;
use super::shape::{Layer, Mark, Shape, along, tick, whole};
use crate::build::{Lines, NailsBuilt, SoleRows, Stack};
use crate::geometry::Path as _;
use kurbo::Point as Mm;

/// Half a tick across a row, mm.
const TICK: f64 = 1.2;

pub(super) fn shape(job: &TemplateJob<'_>) -> Option<Shape> {
    let build = job.build;
    let lines = build.lines.as_ref().ok()?;
    let layer = |id: &'static str, word: Word, pen: Pen, marks: Vec<Mark>| Layer {
        id,
        says: word.say(job.lang).to_owned(),
        pen,
        marks,
    };
    let mut layers = vec![
        layer("finished-edge", words::FINISHED_EDGE, Pen::black(0.5), vec![whole(&lines.edge)]),
        layer("rough-edge", said::ROUGH_EDGE, Pen::black(0.24).dashed(5.0, 1.2), vec![whole(&lines.rough())]),
        layer("feather", words::FEATHER, Pen::black(0.3), vec![whole(&lines.last.feather)]),
    ];
    if let Some(wall) = lines.wall() {
        layers.push(layer("wall", words::WALL, Pen::black(0.2).dashed(1.6, 0.8), vec![whole(&wall)]));
    }
    if let Ok(rows) = &build.rows {
        layers.push(layer("rows", words::ROW, Pen::black(0.35).dashed(0.9, 0.5), courses(rows)));
        layers.push(layer("tenths", said::TENTHS, Pen::black(0.18), tenths(rows)));
        layers.push(layer("starts", said::STARTS, Pen::black(0.4), starts(rows)));
        if let Ok(stack) = &build.stack {
            layers.push(layer("laps", said::LAPS, Pen::black(0.7), laps(rows, stack)));
        }
    }
    if let Some(Ok(forefoot)) = &build.forefoot {
        let row = vec![along(&forefoot.row, forefoot.from, forefoot.to)];
        layers.push(layer("forefoot", words::FOREFOOT, Pen::black(0.28).dashed(0.5, 0.5), row));
    }
    if let Some(Ok(nails)) = &build.waist {
        layers.push(layer("waist-nails", said::WAIST, Pen::black(0.22), dots(nails)));
    }
    if let Some(Ok(nails)) = &build.seat {
        layers.push(layer("seat-nails", said::SEAT, Pen::black(0.26), dots(nails)));
    }
    layers.push(layer("breast", words::BREAST, Pen::black(0.16).dashed(4.0, 1.0), vec![breast(lines)]));
    layers.push(layer("joints", words::JOINTS, Pen::black(0.14).dashed(4.0, 1.0), vec![joints(lines)?]));
    let notes = vec![said::FROM_BELOW.say(job.lang).to_owned(), said::CHECKING.say(job.lang).to_owned()];
    Some(Shape { id: "bottom", title: said::BOTTOM.say(job.lang), notes, layers }.on(job.foot))
}

fn courses(rows: &SoleRows) -> Vec<Mark> {
    rows.rows.iter().map(|row| along(&row.rail, row.from, row.to)).collect()
}

/// The holes of every tenth stitch, counted from the start.
fn tenths(rows: &SoleRows) -> Vec<Mark> {
    let holes = |row: &crate::build::RowBuilt| {
        let places = row.rail.evenly(row.from, row.to, row.stitches as usize);
        places.into_iter().step_by(10).skip(1).map(|t| tick(&row.rail, t, TICK)).collect::<Vec<_>>()
    };
    rows.rows.iter().flat_map(holes).collect()
}

fn starts(rows: &SoleRows) -> Vec<Mark> {
    rows.rows.iter().map(|row| Mark::Dot { centre: row.rail.point(row.from), radius: 1.4 }).collect()
}

/// Where laps come in and go out, on each row.
fn laps(rows: &SoleRows, stack: &Stack) -> Vec<Mark> {
    let of_row = |(k, row): (usize, &crate::build::RowBuilt)| {
        let ends = stack.laps(k).into_iter().flat_map(|(from, to)| [from, to]);
        ends.map(|s| tick(&row.rail, row.rail.t_at_length(row.from, s), 2.0)).collect::<Vec<_>>()
    };
    rows.rows.iter().enumerate().flat_map(of_row).collect()
}

fn dots(nails: &NailsBuilt) -> Vec<Mark> {
    nails.nails.iter().map(|place| Mark::Dot { centre: place.point, radius: 0.8 }).collect()
}

fn breast(lines: &Lines) -> Mark {
    let reach = lines.last.tread / 2.0 + 4.0;
    Mark::Line(vec![Mm::new(lines.last.breast, -reach), Mm::new(lines.last.breast, reach)])
}

/// The joint line, where it runs within the finished edge.
fn joints(lines: &Lines) -> Option<Mark> {
    let crossings = lines.edge.crossings(&lines.last.joint_line);
    let (from, to) = (crossings.first()?, crossings.last()?);
    Some(Mark::Line(vec![lines.edge.point(*from), lines.edge.point(*to)]))
}
