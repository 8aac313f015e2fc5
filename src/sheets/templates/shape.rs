//! A template as named layers of lines and dots, in mm.

use super::super::paper::Pen;
use super::Foot;
use crate::geometry::Path;
use kurbo::{Point as Mm, Rect};

/// Chords of outlines stay within this of them, mm.
const FINE: f64 = 0.01;

/// What a layer shows.
#[derive(Clone, Debug)]
pub(super) enum Mark {
    Line(Vec<Mm>),
    Dot {
        centre: Mm,
        radius: f64,
    },
    /// What is said at a place, from there to the right; drawings in mm say it as the title of its layer.
    Word {
        at: Mm,
        says: String,
    },
}

/// Marks that mean one thing. Every layer of a shape has a pen of its own.
#[derive(Clone, Debug)]
pub(super) struct Layer {
    /// Its name in drawings.
    pub id: &'static str,
    /// What the key says.
    pub says: String,
    pub pen: Pen,
    pub marks: Vec<Mark>,
}

/// A template: x from the heel to the toe, y downwards as it is seen.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    pub id: &'static str,
    pub title: &'static str,
    /// What is said above it.
    pub notes: Vec<String>,
    pub layers: Vec<Layer>,
}

/// A stretch of a path as a fine line.
pub(super) fn along(path: &impl Path, from: f64, to: f64) -> Mark {
    Mark::Line(path.flatten(from, to, FINE))
}

/// A closed path, whole.
pub(super) fn whole(path: &impl Path) -> Mark {
    along(path, 0.0, path.period())
}

/// A short line across a path at `t`, `half` mm to either side.
pub(super) fn tick(path: &impl Path, t: f64, half: f64) -> Mark {
    let motion = path.motion(t);
    let across = kurbo::Vec2::new(motion.velocity.y, -motion.velocity.x).normalize() * half;
    Mark::Line(vec![motion.point - across, motion.point + across])
}

impl Shape {
    /// As it is seen from below on a foot: seen so, the right foot's inside lies downwards, and the left is its mirror.
    pub fn on(mut self, foot: Foot) -> Self {
        if foot == Foot::Left {
            let mirror = |p: &mut Mm| p.y = -p.y;
            for mark in self.layers.iter_mut().flat_map(|layer| &mut layer.marks) {
                match mark {
                    Mark::Line(points) => points.iter_mut().for_each(mirror),
                    Mark::Dot { centre, .. } => mirror(centre),
                    Mark::Word { at, .. } => mirror(at),
                }
            }
        }
        self
    }

    /// What it takes up, with the reach of its dots.
    pub fn bounds(&self) -> Rect {
        let mut points = Vec::new();
        for mark in self.layers.iter().flat_map(|layer| &layer.marks) {
            match mark {
                Mark::Line(line) => points.extend(line.iter().copied()),
                Mark::Dot { centre, radius } => {
                    let reach = kurbo::Vec2::new(*radius, *radius);
                    points.extend([*centre - reach, *centre + reach]);
                }
                // Room for a line of words.
                Mark::Word { at, .. } => points.extend([*at, *at - kurbo::Vec2::new(0.0, 4.0)]),
            }
        }
        let Some(first) = points.first() else { return Rect::ZERO };
        points.iter().fold(Rect::from_points(*first, *first), |all, point| all.union_pt(*point))
    }
}
