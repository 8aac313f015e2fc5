//! An outline drawn as an SVG path, read as half-breadths.

use std::fmt;

use kurbo::{BezPath, Line, ParamCurve, ParamCurveExtrema, PathSeg, Point, Shape};

use super::outline::Station;

/// Stations that are read off a path: close to each other at heel and toe, where the outline turns.
const READ_AT: u32 = 48;

/// How far heel and toe may lie off their places, mm: a drawing program's rounding.
const OFF: f64 = 0.05;

/// Crossings nearer than this, mm, are one: a path that passes from piece to piece there.
const SAME: f64 = 1e-6;

/// Why a path is no outline.
#[derive(Clone, Debug, PartialEq)]
pub enum SvgFault {
    /// It is not an SVG path.
    Unread(String),
    /// It has not one closed line.
    NotOneLine,
    /// It doesn't run from the heel at 0 to the toe at the bottom's length: its ends along the centre line.
    Ends(f64, f64),
    /// The heel (or the toe) doesn't lie on the centre line, but this far off.
    OffCentre(f64),
    /// At this place along the centre line it doesn't have one point on each side.
    Sides(f64),
}

impl fmt::Display for SvgFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unread(why) => write!(f, "this is no SVG path: {why}"),
            Self::NotOneLine => write!(f, "the path is not one closed line"),
            Self::Ends(from, to) => write!(f, "the path runs from {from:.2} to {to:.2} mm along the centre line"),
            Self::OffCentre(off) => write!(f, "heel or toe lies {off:.2} mm off the centre line"),
            Self::Sides(x) => write!(f, "at {x:.1} mm from the heel the path doesn't cross once on each side"),
        }
    }
}

impl std::error::Error for SvgFault {}

/// The half-breadths of a path on a bottom of length `bottom`, mm. `x` runs from the heel at 0 along the centre line to the
/// toe, `y` is positive towards the outside, as an SVG's `y` grows downward.
///
/// # Errors
///
/// The first [`SvgFault`].
pub fn half_breadths(path: &str, bottom: f64) -> Result<Vec<Station>, SvgFault> {
    let path = BezPath::from_svg(path).map_err(|why| SvgFault::Unread(why.to_string()))?;
    let starts = path.elements().iter().filter(|element| matches!(element, kurbo::PathEl::MoveTo(_))).count();
    let segments: Vec<PathSeg> = path.segments().collect();
    let (Some(first), Some(last)) = (segments.first(), segments.last()) else { return Err(SvgFault::NotOneLine) };
    if starts != 1 || first.eval(0.0).distance(last.eval(1.0)) > OFF {
        return Err(SvgFault::NotOneLine);
    }
    let bounds = path.bounding_box();
    if !(bounds.x0.abs() <= OFF && (bounds.x1 - bottom).abs() <= OFF) {
        return Err(SvgFault::Ends(bounds.x0, bounds.x1));
    }
    for end in [bounds.x0, bounds.x1] {
        let off = segments.iter().map(|segment| nearest_off(segment, end)).fold(f64::MAX, f64::min);
        if off > OFF {
            return Err(SvgFault::OffCentre(off));
        }
    }
    (0..=READ_AT).map(|n| station(&segments, n, bottom)).collect()
}

/// How far from the centre line a segment touches the line square to it at `x`; as much as there is if it does not.
fn nearest_off(segment: &PathSeg, x: f64) -> f64 {
    let at = [0.0, 1.0].into_iter().chain(segment.extrema());
    at.map(|t| segment.eval(t))
        .filter(|point| (point.x - x).abs() <= OFF)
        .map(|point| point.y.abs())
        .fold(f64::MAX, f64::min)
}

/// The station number `n`: evenly spaced on a half circle over the bottom.
fn station(segments: &[PathSeg], n: u32, bottom: f64) -> Result<Station, SvgFault> {
    if n == 0 || n == READ_AT {
        let x = if n == 0 { 0.0 } else { bottom };
        return Ok(Station { x, inside: 0.0, outside: 0.0 });
    }
    let x = bottom * 0.5 * (1.0 - (std::f64::consts::PI * f64::from(n) / f64::from(READ_AT)).cos());
    let far = 10.0 * bottom;
    let across = Line::new(Point::new(x, -far), Point::new(x, far));
    let mut ys: Vec<f64> = segments
        .iter()
        .flat_map(|segment| {
            segment.intersect_line(across).iter().map(|hit| across.eval(hit.line_t).y).collect::<Vec<_>>()
        })
        .collect();
    ys.sort_by(f64::total_cmp);
    ys.dedup_by(|a, b| (*a - *b).abs() < SAME);
    match ys[..] {
        [inside, outside] if inside <= 0.0 && outside >= 0.0 => Ok(Station { x, inside: -inside, outside }),
        _ => Err(SvgFault::Sides(x)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Ellipse;

    #[test]
    fn an_ellipse_has_the_half_breadths_of_its_equation() {
        let path = Ellipse::new((140.0, 0.0), (140.0, 45.0), 0.0).to_path(1e-4).to_svg();
        let stations = half_breadths(&path, 280.0).expect("an ellipse is an outline");
        for station in stations {
            let half = 45.0 * (1.0 - ((station.x - 140.0) / 140.0).powi(2)).max(0.0).sqrt();
            assert!(
                (station.inside - half).abs() < 2e-3 && (station.outside - half).abs() < 2e-3,
                "{station:?} {half}"
            );
        }
    }

    #[test]
    fn what_is_no_outline_says_why() {
        let fault = |path: &str| half_breadths(path, 280.0).expect_err("no outline");
        assert!(matches!(fault("nonsense"), SvgFault::Unread(_)));
        assert_eq!(fault(""), SvgFault::NotOneLine);
        assert_eq!(fault("M 0 0 C 0 50 280 50 280 0"), SvgFault::NotOneLine);
        assert!(matches!(fault("M 0 0 C 0 50 270 50 270 0 C 270 -50 0 -50 0 0 Z"), SvgFault::Ends(..)));
        assert!(matches!(fault("M 0 9 C 0 50 280 50 280 9 C 280 -50 0 -50 0 9 Z"), SvgFault::OffCentre(_)));
        assert!(matches!(fault("M 0 0 C 0 50 280 50 280 0 C 280 20 0 20 0 0 Z"), SvgFault::Sides(_)));
    }
}
