//! From half-breadths at stations to a closed curve, with the faults that such a table can have.

use std::fmt;

use kurbo::Point;

use super::loops::{self, SelfCrossing};
use super::path::Side;
use super::plane::length_of;
use super::spline::{ClosedCurve, CurveFault, SAME_POINT};

/// Stations that an outline needs, heel and toe among them.
const FEWEST: usize = 4;

/// Cosine of the greatest turn at a point, 150 degrees: what turns more sharply comes back on itself.
const CUSP: f64 = -0.866;

/// Half-breadths at one place of the centre line, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Along the centre line from the heel.
    pub x: f64,
    /// From the centre line to the inside.
    pub inside: f64,
    /// From the centre line to the outside.
    pub outside: f64,
}

/// A closed curve with the stations that it goes through.
#[derive(Clone, Debug)]
pub struct Outline {
    curve: ClosedCurve,
    stations: usize,
}

/// A stretch of an outline from one station to the next, by their indices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The side on which it lies.
    pub side: Side,
    /// The station at its heelward end.
    pub from: usize,
    /// The station at its toeward end.
    pub to: usize,
}

/// What is wrong with a table of stations; indices count from 0 at the heel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OutlineFault {
    /// There are only this many stations; four are needed.
    TooFew {
        /// How many there are.
        stations: usize,
    },
    /// A station has a number that is not finite.
    NotFinite {
        /// Its index.
        station: usize,
    },
    /// A half-breadth is negative.
    Negative {
        /// The station's index.
        station: usize,
        /// The side of the half-breadth.
        side: Side,
    },
    /// The first or last station isn't on the centre line.
    OffCentre {
        /// Its index.
        station: usize,
    },
    /// A station doesn't lie toeward of the one before.
    OutOfOrder {
        /// Its index.
        station: usize,
    },
    /// A station repeats the one before, or between heel and toe has its two points in one place.
    Repeated {
        /// Its index.
        station: usize,
    },
    /// The outline turns back on itself at a station's point.
    Cusp {
        /// The station's index.
        station: usize,
        /// The side of the point; the outside for the heel and the toe.
        side: Side,
    },
    /// The curve crosses itself.
    Crosses {
        /// Where, mm.
        point: Point,
        /// The one stretch.
        one: Stretch,
        /// The other; the same if a single stretch makes a loop.
        other: Stretch,
    },
}

impl OutlineFault {
    /// The index of the station at which to look.
    #[must_use]
    pub fn station(&self) -> Option<usize> {
        match *self {
            Self::TooFew { .. } => None,
            Self::NotFinite { station }
            | Self::Negative { station, .. }
            | Self::OffCentre { station }
            | Self::OutOfOrder { station }
            | Self::Repeated { station }
            | Self::Cusp { station, .. } => Some(station),
            Self::Crosses { one, .. } => Some(one.to),
        }
    }
}

/// Stations are counted from 1 in words: the first is the heel.
impl fmt::Display for OutlineFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::TooFew { stations } => write!(f, "an outline needs {FEWEST} stations, not {stations}"),
            Self::NotFinite { station } => write!(f, "station {} is not finite", station + 1),
            Self::Negative { station, side } => {
                write!(f, "the {} half-breadth at station {} is negative", name(side), station + 1)
            }
            Self::OffCentre { station } => write!(f, "station {} must be on the centre line", station + 1),
            Self::OutOfOrder { station } => write!(f, "station {} must be toeward of the one before", station + 1),
            Self::Repeated { station } => write!(f, "station {} repeats a point", station + 1),
            Self::Cusp { station, side } => {
                write!(f, "the {} turns back on itself at station {}", name(side), station + 1)
            }
            Self::Crosses { one, other, .. } => write!(f, "the curve crosses itself: {one} and {other}"),
        }
    }
}

impl std::error::Error for OutlineFault {}

impl fmt::Display for Stretch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} between stations {} and {}", name(self.side), self.from + 1, self.to + 1)
    }
}

fn name(side: Side) -> &'static str {
    match side {
        Side::Outside => "outside",
        Side::Inside => "inside",
    }
}

impl Outline {
    /// The smooth outline through `stations`, ascending in `x`, the first and the last on the centre line.
    ///
    /// # Errors
    ///
    /// The first [`OutlineFault`]: of the table from the heel, then of the fitted curve.
    pub fn fit(stations: &[Station]) -> Result<Self, OutlineFault> {
        let points = Self::points(stations)?;
        let count = stations.len();
        let curve = ClosedCurve::through(&points).map_err(|fault| from_curve(fault, count))?;
        match loops::self_crossing(&curve) {
            Some(crossing) => Err(crosses(crossing, count)),
            None => Ok(Self { curve, stations: count }),
        }
    }

    /// The points of `stations` in the order of the curve: heel, outside, toe, inside.
    ///
    /// # Errors
    ///
    /// The first [`OutlineFault`] of the table.
    pub fn points(stations: &[Station]) -> Result<Vec<Point>, OutlineFault> {
        if stations.len() < FEWEST {
            return Err(OutlineFault::TooFew { stations: stations.len() });
        }
        for i in 0..stations.len() {
            check_station(stations, i)?;
        }
        let inner = &stations[1..stations.len() - 1];
        let heel_to_toe = stations.iter().map(|s| Point::new(s.x, -s.outside));
        let points: Vec<Point> = heel_to_toe.chain(inner.iter().rev().map(|s| Point::new(s.x, s.inside))).collect();
        let turned = (0..points.len()).find(|&i| turns_back(&points, i));
        match turned.map(|i| station_of(i, stations.len())) {
            Some((side, station)) => Err(OutlineFault::Cusp { station, side }),
            None => Ok(points),
        }
    }

    /// The fitted curve.
    #[must_use]
    pub fn curve(&self) -> &ClosedCurve {
        &self.curve
    }

    /// The curve alone.
    #[must_use]
    pub fn into_curve(self) -> ClosedCurve {
        self.curve
    }

    /// The curve's parameter at the point of a station; `None` if there is no such station.
    #[must_use]
    pub fn t_at_station(&self, station: usize, side: Side) -> Option<f64> {
        let last = self.stations - 1;
        let i = match side {
            _ if station > last => return None,
            Side::Inside if station > 0 => 2 * last - station,
            _ => station,
        };
        self.curve.parameters().get(i).copied()
    }
}

fn check_station(stations: &[Station], i: usize) -> Result<(), OutlineFault> {
    let Station { x, inside, outside } = stations[i];
    if !(x.is_finite() && inside.is_finite() && outside.is_finite()) {
        return Err(OutlineFault::NotFinite { station: i });
    }
    for (half, side) in [(inside, Side::Inside), (outside, Side::Outside)] {
        if half < 0.0 {
            return Err(OutlineFault::Negative { station: i, side });
        }
    }
    let end = i == 0 || i == stations.len() - 1;
    let on_centre = inside + outside < SAME_POINT;
    if end && !on_centre {
        return Err(OutlineFault::OffCentre { station: i });
    }
    if i > 0 && x - stations[i - 1].x < SAME_POINT {
        let repeated = stations[i] == stations[i - 1];
        return Err(if repeated {
            OutlineFault::Repeated { station: i }
        } else {
            OutlineFault::OutOfOrder { station: i }
        });
    }
    if !end && on_centre {
        return Err(OutlineFault::Repeated { station: i });
    }
    Ok(())
}

/// Whether the chords before and after point `i` nearly oppose each other.
fn turns_back(points: &[Point], i: usize) -> bool {
    let n = points.len();
    let before = points[i] - points[(i + n - 1) % n];
    let after = points[(i + 1) % n] - points[i];
    before.dot(after) < CUSP * length_of(before) * length_of(after)
}

/// The station and side of point `i` of an outline.
fn station_of(i: usize, stations: usize) -> (Side, usize) {
    let last = stations - 1;
    if i <= last { (Side::Outside, i) } else { (Side::Inside, 2 * last - i) }
}

fn stretch_of(piece: usize, stations: usize) -> Stretch {
    let last = stations - 1;
    if piece < last {
        Stretch { side: Side::Outside, from: piece, to: piece + 1 }
    } else {
        Stretch { side: Side::Inside, from: 2 * last - piece - 1, to: 2 * last - piece }
    }
}

fn crosses(crossing: SelfCrossing, stations: usize) -> OutlineFault {
    let [one, other] = crossing.pieces.map(|piece| stretch_of(piece, stations));
    OutlineFault::Crosses { point: crossing.point, one, other }
}

fn from_curve(fault: CurveFault, stations: usize) -> OutlineFault {
    match fault {
        CurveFault::TooFew(_) => OutlineFault::TooFew { stations },
        CurveFault::NotFinite(i) => OutlineFault::NotFinite { station: station_of(i, stations).1 },
        CurveFault::TooLarge => OutlineFault::NotFinite { station: stations - 1 },
        CurveFault::Repeated(i) => OutlineFault::Repeated { station: station_of(i, stations).1 },
    }
}
