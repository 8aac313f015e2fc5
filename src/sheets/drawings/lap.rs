//! A lap cut across as it is closed, outside the turnout: both parts with their tapers, and the rows through them.

use super::{Pointed, Scale, TITLE, column, fitted, label, level, line, row, scale, title_within};
use crate::build::{LapBuilt, LapSection, UpperRow};
use crate::finding::SeamName;
use crate::sheets::paper::{Anchor, Hatch, Op, Pen, Point};
use crate::sheets::values::mm;
use crate::sheets::words::{self, Lang};

const SCALES: [Scale; 3] = [scale(4.0, 1.0), scale(2.0, 1.0), scale(1.0, 1.0)];
/// What is shown of each part beyond the lap, mm of the boot.
const BEYOND: f64 = 8.0;
/// What is kept free to the right for the parts' names, mm.
const BESIDE: f64 = 46.0;
/// Above the parts for the numbers of the rows, and below for two dimension lines, mm.
const OVER: f64 = TITLE + 5.0;
const UNDER: f64 = 14.0;

/// What the drawing says beside its lines, as the sheet prints it.
pub(in crate::sheets) struct Lap<'b> {
    pub built: &'b LapBuilt,
    pub rows: &'b [UpperRow],
    pub lang: Lang,
    /// Width of the lap.
    pub wide: String,
}

impl Lap<'_> {
    fn section(&self) -> Option<&LapSection> {
        self.built.section.as_ref().ok()
    }

    fn scale(section: &LapSection, width: f64) -> Scale {
        Scale::largest(&SCALES, section.wide + 2.0 * BEYOND, width - BESIDE)
    }

    fn tall(section: &LapSection) -> f64 {
        places(section).into_iter().map(|x| under(section, x) + top(section, x)).fold(0.0, f64::max)
    }

    /// mm of paper on `width`; `None` where a fault took a part.
    pub fn height(&self, width: f64) -> Option<f64> {
        let section = self.section()?;
        Some(OVER + Self::tall(section) * Self::scale(section, width).by() + UNDER)
    }

    /// Draws it.
    pub fn draw(&self, at: Point, width: f64) -> Vec<Op> {
        let Some(section) = self.section() else { return Vec::new() };
        let scale = Self::scale(section, width);
        let by = scale.by();
        let floor = at.y + OVER + Self::tall(section) * by;
        let place = |x: f64, up: f64| Point::new(at.x + (x + BEYOND) * by, floor - up * by);
        let named = words::seam(&SeamName::Lap(self.built.name.clone()), self.lang);
        let mut ops = vec![title_within(width, at, &named, &scale.said(), self.lang)];
        let xs = places(section);
        let ring = |lower: &dyn Fn(f64) -> f64, upper: &dyn Fn(f64) -> f64, xs: &[f64]| {
            let above = xs.iter().map(|x| place(*x, upper(*x)));
            let ring: Vec<Point> = above.chain(xs.iter().rev().map(|x| place(*x, lower(*x)))).collect();
            Op::Hatched { rings: vec![ring], hatch: Hatch::UpperLeather, outline: Some(Pen::black(0.35)) }
        };
        let (of_under, of_top): (Vec<f64>, Vec<f64>) = (
            xs.iter().copied().filter(|x| *x <= section.wide).collect(),
            xs.iter().copied().filter(|x| *x >= 0.0).collect(),
        );
        ops.push(ring(&|_| 0.0, &|x| under(section, x), &of_under));
        // Past the under part's edge the top part is shown as it leaves it: its step is what is felt inside.
        let lies = |x: f64| under(section, x.min(section.wide));
        ops.push(ring(&lies, &|x| lies(x) + top(section, x), &of_top));
        for row in self.rows.iter().filter(|row| row.place <= section.wide + BEYOND) {
            let high = lies(row.place) + top(section, row.place);
            let (head, foot) = (place(row.place, high), place(row.place, 0.0));
            ops.push(line(Point::new(head.x, head.y - 1.2), Point::new(foot.x, foot.y + 1.2), Pen::black(0.7)));
            ops.push(label(head.x, place(0.0, Self::tall(section)).y - 2.2, row.number.to_string(), Anchor::Centre));
        }
        ops.extend(self.measured(section, &place, (at.x, at.x + width - BESIDE)));
        ops.extend(self.parts(section, &place, at.x + width - BESIDE + 8.0));
        ops
    }

    /// From the top part's edge to each row and over the whole lap.
    fn measured(&self, section: &LapSection, place: &dyn Fn(f64, f64) -> Point, between: (f64, f64)) -> Vec<Op> {
        let y = place(0.0, 0.0).y + 4.0;
        let mut ops = level(y, place(0.0, 0.0).x, place(section.wide, 0.0).x);
        let rows = self.rows.iter().map(|row| (row.place, mm(row.place, self.lang)));
        let mut all: Vec<(f64, String)> = rows.chain([(section.wide, self.wide.clone())]).collect();
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let labels = all.into_iter().map(|(x, text)| Pointed { at: Point::new(place(x, 0.0).x, y), text });
        ops.extend(row(labels.collect(), y + 7.0, between));
        ops
    }

    fn parts(&self, section: &LapSection, place: &dyn Fn(f64, f64) -> Point, x: f64) -> Vec<Op> {
        let over = under(section, section.wide);
        let names = [
            (section.wide + BEYOND, over + section.top.full() / 2.0, &section.top.part),
            (section.wide, over / 2.0, &section.under.part),
        ];
        let labels = names.map(|(x, up, name)| Pointed { at: place(x, up), text: fitted(name, BESIDE - 9.0) });
        let top = place(0.0, Self::tall(section)).y;
        column(labels.into(), x, Anchor::Left, (top, place(0.0, 0.0).y + 4.0))
    }
}

/// Where something begins or ends, from the top part's edge: the parts are straight in between.
fn places(section: &LapSection) -> Vec<f64> {
    let (top, under) = (section.top.taper, section.under.taper.map(|taper| section.wide - taper));
    let mut places = vec![-BEYOND, 0.0, section.wide, section.wide + BEYOND];
    places.extend([top, under].into_iter().flatten().filter(|x| (-BEYOND..section.wide + BEYOND).contains(x)));
    places.sort_by(f64::total_cmp);
    places
}

fn top(section: &LapSection, x: f64) -> f64 {
    if x < 0.0 { 0.0 } else { section.top.at(x) }
}

fn under(section: &LapSection, x: f64) -> f64 {
    if x > section.wide { 0.0 } else { section.under.at(section.wide - x) }
}
