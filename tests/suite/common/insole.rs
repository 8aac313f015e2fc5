//! The insole pattern laid out plainly: graded points, a cubic through them, many feet of normals, lines beside it.
//!
//! It knows the measures that a last states and nothing of how the tool lays them out.

use super::memory::Memory;

pub type At = (f64, f64);

pub fn apart(a: At, b: At) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}

pub fn between(a: At, b: At, share: f64) -> At {
    (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
}

/// A demo last of us-men 9 D: its file, and what it states besides its outline.
#[derive(Clone, Copy, Debug)]
pub struct Last {
    pub name: &'static str,
    bottom: f64,
    breast: f64,
    pub seat: f64,
    pub slope: f64,
}

pub const TELLER: Last = Last { name: "teller", bottom: 276.0, breast: 0.26, seat: 20.0, slope: 3.0 };
pub const DROVER: Last = Last { name: "drover", bottom: 272.0, breast: 0.25, seat: 38.5, slope: 8.0 };

/// Joints of both lasts, shares of the bottom.
const INSIDE_JOINT: f64 = 0.70;
const OUTSIDE_JOINT: f64 = 0.62;
/// What a size and a width add, mm: 1/3 in to the length, 1/12 in to the tread, 1/16 in to the seat's breadth.
const LONGER: f64 = 25.4 / 3.0;
const TREAD: f64 = 25.4 / 12.0;
const SEAT: f64 = 25.4 / 16.0;
const WIDTHS: [&str; 5] = ["B", "C", "D", "E", "EE"];

/// How many places are laid out between two measured points.
const FINE: usize = 96;

/// A place of the feather line.
#[derive(Clone, Copy, Debug)]
pub struct Foot {
    pub at: At,
    /// The outward normal.
    pub out: At,
    pub inside: bool,
}

/// A place on a line: after which of its points, and which share of the way to the next.
pub type Mark = (usize, f64);

/// The bottom of a last in one size, mm.
#[derive(Debug)]
pub struct Insole {
    pub bottom: f64,
    pub breast: f64,
    pub joint_inside: f64,
    pub joint_outside: f64,
    /// Round from the heel by the outside, the toe and the inside; the heel once more at the end.
    pub feather: Vec<Foot>,
    /// The feather line at the inside joint and at the outside joint.
    pub joints: (At, At),
}

/// Half-breadths at a station: x, inside, outside.
type Station = (f64, f64, f64);

fn outline(last: &Last) -> Vec<Station> {
    let memory = Memory::demo();
    let text = memory.text(&format!("specs/lasts/{}.hob", last.name));
    let number = |word: &str| word.parse::<f64>().ok();
    let lines = text.lines().map(str::trim).filter(|line| line.starts_with("at "));
    lines
        .map(|line| {
            let numbers: Vec<f64> = line.split_whitespace().filter_map(number).collect();
            (numbers[0] / 100.0 * last.bottom, numbers[1], numbers[2])
        })
        .collect()
}

impl Insole {
    /// The last in a size such as `9.5 EE`.
    pub fn of(last: &Last, size: &str) -> Self {
        let (number, width) = size.split_once(' ').expect("a size and a width");
        let sizes: f64 = number.parse::<f64>().expect("a number") - 9.0;
        let rank = |width: &str| WIDTHS.iter().position(|known| *known == width).expect("a width of the last");
        #[expect(clippy::cast_precision_loss, reason = "five widths")]
        let widths = rank(width) as f64 - rank("D") as f64;
        let stations = outline(last);
        let base = Self::laid(last.bottom, last, &stations);
        let tread = base.half(base.joint_inside, true) + base.half(base.joint_outside, false);
        let seat = base.seat_breadth();
        let bottom = last.bottom + LONGER * sizes;
        let at_seat = (seat + SEAT * (sizes + widths)) / seat;
        let at_tread = (tread + TREAD * (sizes + widths)) / tread;
        let graded = stations.iter().map(|(x, inside, outside)| {
            let x = x / last.bottom * bottom;
            let factor = |joint: f64| at_seat + (at_tread - at_seat) * (x / (joint * bottom)).min(1.0);
            (x, inside * factor(INSIDE_JOINT), outside * factor(OUTSIDE_JOINT))
        });
        Self::laid(bottom, last, &graded.collect::<Vec<_>>())
    }

    fn laid(bottom: f64, last: &Last, stations: &[Station]) -> Self {
        let inner = &stations[1..stations.len() - 1];
        let outside = stations.iter().map(|(x, _, outside)| (*x, -outside));
        let points: Vec<At> = outside.chain(inner.iter().rev().map(|(x, inside, _)| (*x, *inside))).collect();
        let feather = rounded(&points, stations.len() - 1);
        let (joint_inside, joint_outside) = (INSIDE_JOINT * bottom, OUTSIDE_JOINT * bottom);
        let mut laid = Self {
            bottom,
            breast: last.breast * bottom,
            joint_inside,
            joint_outside,
            feather,
            joints: Default::default(),
        };
        let half = |x: f64, inside: bool| laid.half(x, inside);
        laid.joints = ((joint_inside, half(joint_inside, true)), (joint_outside, -half(joint_outside, false)));
        laid
    }

    /// The half-breadth at `x` on one side.
    fn half(&self, x: f64, inside: bool) -> f64 {
        let line: Vec<At> = self.feather.iter().map(|foot| foot.at).collect();
        self.place(&line, self.crossing(&line, x, inside)).1.abs()
    }

    /// The greatest breadth behind the breast.
    fn seat_breadth(&self) -> f64 {
        let line: Vec<At> = self.feather.iter().map(|foot| foot.at).collect();
        let across = |x: f64| {
            let at = |inside: bool| self.place(&line, self.crossing(&line, x, inside)).1.abs();
            at(true) + at(false)
        };
        let mut most: f64 = 0.0;
        let mut x = self.breast;
        while x > self.breast / 4.0 {
            most = most.max(across(x));
            x -= 0.05;
        }
        most
    }

    /// The line at a distance outside the feather line that depends on station and side.
    pub fn beside(&self, distance: impl Fn(f64, bool) -> f64) -> Vec<At> {
        let carried = |foot: &Foot| {
            let d = distance(foot.at.0, foot.inside);
            (foot.at.0 + foot.out.0 * d, foot.at.1 + foot.out.1 * d)
        };
        self.feather.iter().map(carried).collect()
    }

    /// Where a line crosses the square line at `x` on one side, the place nearest to the waist.
    pub fn crossing(&self, line: &[At], x: f64, inside: bool) -> Mark {
        let toe = self.toe();
        let (from, to) = if inside { (toe, line.len() - 1) } else { (0, toe) };
        let passes = |n: &usize| (line[*n].0 < x) != (line[n + 1].0 < x);
        // On the outside the first on the way to the toe, on the inside the last on the way to the heel.
        let found = if inside { (from..to).rev().find(passes) } else { (from..to).find(passes) };
        let n = found.expect("the line crosses there");
        (n, (x - line[n].0) / (line[n + 1].0 - line[n].0))
    }

    fn toe(&self) -> usize {
        self.feather.iter().position(|foot| foot.inside).expect("there is an inside")
    }

    pub fn place(&self, line: &[At], (n, share): Mark) -> At {
        between(line[n], line[n + 1], share)
    }

    /// A line from one mark to another, round by the heel if need be.
    pub fn cut(&self, line: &[At], from: Mark, to: Mark) -> Vec<At> {
        let mut kept = vec![self.place(line, from)];
        if from.0 < to.0 || (from.0 == to.0 && from.1 <= to.1) {
            kept.extend(&line[from.0 + 1..=to.0.max(from.0)]);
        } else {
            kept.extend(&line[from.0 + 1..line.len() - 1]);
            kept.extend(&line[..=to.0]);
        }
        kept.push(self.place(line, to));
        kept
    }

    /// How deep a place lies inside the feather line, and the direction that leads deeper.
    pub fn depth(&self, at: At) -> (f64, At) {
        let (n, share) = nearest(self.feather.iter().map(|foot| foot.at), at).0;
        let (a, b) = (&self.feather[n], &self.feather[n + 1]);
        let (foot, out) = (between(a.at, b.at, share), between(a.out, b.out, share));
        let depth = (foot.0 - at.0) * out.0 + (foot.1 - at.1) * out.1;
        let away = apart(foot, at);
        (if depth < 0.0 { -away } else { away }, (-out.0, -out.1))
    }

    /// How far ahead of the straight line through the joints a place lies, along the foot.
    pub fn before_the_joints(&self, at: At) -> f64 {
        at.0 - self.joint_at(at.1)
    }

    /// Where the line of the joints is at `y`.
    pub fn joint_at(&self, y: f64) -> f64 {
        let (a, b) = self.joints;
        a.0 + (b.0 - a.0) * (y - a.1) / (b.1 - a.1)
    }
}

/// The place of a line nearest to a point, and how near it is.
pub fn nearest(line: impl Iterator<Item = At>, at: At) -> (Mark, f64) {
    let mut best = ((0, 0.0), f64::INFINITY);
    let mut before: Option<At> = None;
    for (n, b) in line.enumerate() {
        if let Some(a) = before {
            let (dx, dy) = (b.0 - a.0, b.1 - a.1);
            let (px, py) = (at.0 - a.0, at.1 - a.1);
            let share = ((px * dx + py * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
            let (ox, oy) = (px - dx * share, py - dy * share);
            let away = ox * ox + oy * oy;
            if away < best.1 {
                best = ((n - 1, share), away);
            }
        }
        before = Some(b);
    }
    (best.0, best.1.sqrt())
}

/// The way along a line to each of its points.
pub fn ways(line: &[At]) -> Vec<f64> {
    let mut way = vec![0.0];
    for pair in line.windows(2) {
        way.push(way[way.len() - 1] + apart(pair[0], pair[1]));
    }
    way
}

/// The place `along` mm along a line.
pub fn along(line: &[At], ways: &[f64], along: f64) -> At {
    let n = ways.partition_point(|way| *way < along).clamp(1, ways.len() - 1);
    between(line[n - 1], line[n], (along - ways[n - 1]) / (ways[n] - ways[n - 1]))
}

/// The closed cubic through points, smooth to the second derivative, with chord lengths as parameters.
#[expect(clippy::many_single_char_names, reason = "the letters of the formula")]
fn rounded(points: &[At], toe: usize) -> Vec<Foot> {
    let n = points.len();
    let chord: Vec<f64> = (0..n).map(|i| apart(points[i], points[(i + 1) % n])).collect();
    let bend = bends(points, &chord);
    let mut feet = Vec::with_capacity(n * FINE + 1);
    for i in 0..n {
        let (a, b, h) = (points[i], points[(i + 1) % n], chord[i]);
        let (ma, mb) = (bend[i], bend[(i + 1) % n]);
        for step in 0..FINE {
            #[expect(clippy::cast_precision_loss, reason = "a hundred steps")]
            let u = step as f64 / FINE as f64;
            let v = 1.0 - u;
            let place = |a: f64, b: f64, ma: f64, mb: f64| {
                v * a + u * b + h * h / 6.0 * ((v * v * v - v) * ma + (u * u * u - u) * mb)
            };
            let speed = |a: f64, b: f64, ma: f64, mb: f64| {
                (b - a) / h + h / 6.0 * ((1.0 - 3.0 * v * v) * ma + (3.0 * u * u - 1.0) * mb)
            };
            let at = (place(a.0, b.0, ma.0, mb.0), place(a.1, b.1, ma.1, mb.1));
            let (dx, dy) = (speed(a.0, b.0, ma.0, mb.0), speed(a.1, b.1, ma.1, mb.1));
            let length = dx.hypot(dy);
            feet.push(Foot { at, out: (dy / length, -dx / length), inside: i >= toe });
        }
    }
    let first = feet[0];
    feet.push(Foot { inside: true, ..first });
    feet
}

/// The second derivatives at the points: as many equations, solved by elimination.
fn bends(points: &[At], chord: &[f64]) -> Vec<At> {
    let n = points.len();
    let mut rows = vec![vec![0.0; n + 2]; n];
    for i in 0..n {
        let (before, after) = ((i + n - 1) % n, (i + 1) % n);
        let (h, k) = (chord[before], chord[i]);
        rows[i][before] += h;
        rows[i][i] += 2.0 * (h + k);
        rows[i][after] += k;
        let of = |a: f64, b: f64, c: f64| 6.0 * ((c - b) / k - (b - a) / h);
        rows[i][n] = of(points[before].0, points[i].0, points[after].0);
        rows[i][n + 1] = of(points[before].1, points[i].1, points[after].1);
    }
    for i in 0..n {
        // The diagonal outweighs the rest of its row, so that no rows need to change places.
        let pivot = rows[i].clone();
        for (j, row) in rows.iter_mut().enumerate() {
            let times = row[i] / pivot[i];
            if j != i && times != 0.0 {
                row.iter_mut().zip(&pivot).skip(i).for_each(|(value, pivot)| *value -= times * pivot);
            }
        }
    }
    (0..n).map(|i| (rows[i][n] / rows[i][i], rows[i][n + 1] / rows[i][i])).collect()
}
