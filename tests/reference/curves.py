"""Reference figures for the curves, from SciPy and Shapely: writes curves.csv beside this file.

    pip install scipy shapely
    python3 curves.py

Each row is: outline, kind, figures in mm and mm2. Kinds:

    station  x, inside, outside
    knot     t, x, y                               the points of the curve and their parameters
    sample   t, x, y, x', y', x'', y''             SciPy's CubicSpline(bc_type="periodic")
    whole    length, area                          by Gauss-Legendre, 64 nodes a piece
    offset   distance, folds, length, area, parts  Shapely's buffer of the curve cut into 0.02 mm chords
"""

import csv
import pathlib

import numpy as np
from scipy.interpolate import CubicSpline
from shapely.geometry import Polygon

PERCENT = [0, 2, 5, 10, 16, 26, 36, 45, 54, 62, 70, 78, 86, 92, 96, 98.5, 100]

TELLER = [
    (0, 0), (17.6, 17.6), (25.2, 25.4), (30.2, 30.6), (31.7, 32.0), (31.2, 32.4), (28.6, 33.4), (27.6, 35.6),
    (30.2, 39.4), (35.4, 43.0), (40.2, 44.0), (40.6, 41.2), (36.8, 35.4), (30.2, 28.8), (23.0, 21.8), (14.9, 14.3),
    (0, 0),
]
DROVER = [
    (0, 0), (17.2, 17.2), (24.6, 24.8), (29.6, 30.0), (31.0, 31.4), (29.8, 31.4), (26.2, 32.0), (25.0, 34.4),
    (28.2, 38.6), (34.0, 42.4), (39.4, 43.2), (39.6, 40.2), (35.2, 34.2), (28.6, 27.4), (21.6, 20.6), (13.9, 13.4),
    (0, 0),
]

OUTLINES = {
    "teller": [(276 * p / 100, i, o) for p, (i, o) in zip(PERCENT, TELLER)],
    "drover": [(272 * p / 100, i, o) for p, (i, o) in zip(PERCENT, DROVER)],
    # A waist drawn in so far on the inside that an offset going out folds there.
    "nipped": [
        (0, 0, 0), (6, 17, 17), (20, 28, 28), (50, 32, 31), (90, 30, 30), (112, 16, 29), (124, 11, 30), (136, 16, 32),
        (160, 34, 38), (190, 42, 42), (220, 38, 38), (245, 28, 27), (258, 17, 16), (264, 0, 0),
    ],
    # A toe so narrow that an offset going in folds there.
    "peaked": [
        (0, 0, 0), (5, 14, 14), (18, 23, 23), (45, 26, 26), (90, 24, 26), (140, 31, 35), (180, 36, 38), (215, 27, 27),
        (245, 14, 13.5), (262, 6, 5.5), (268, 2.6, 2.4), (270, 0, 0),
    ],
    # A notch in the inside waist, so narrow that the row that runs in the turnout folds there.
    "notched": [
        (276 * p / 100, 12 if p == 45 else i, o) for p, (i, o) in zip(PERCENT, TELLER)
    ],
    # A pointed toe on the same last.
    "pointed": [
        (0, 0, 0), (5.5, 17.6, 17.6), (13.8, 25.2, 25.4), (27.6, 30.2, 30.6), (44, 31.7, 32), (72, 31.2, 32.4),
        (99, 28.6, 33.4), (124, 27.6, 35.6), (149, 30.2, 39.4), (171, 35.4, 43), (193, 40.2, 44), (215, 37, 38),
        (237, 26, 25), (254, 14.5, 13.5), (265, 7.2, 6.6), (272, 3, 2.8), (276, 0, 0),
    ],
    # A child's, of few stations.
    "child": [
        (0, 0, 0), (4, 11.5, 12), (20, 22, 22.5), (60, 21, 23), (110, 30, 31), (150, 24, 22), (163, 11, 10),
        (166, 0, 0),
    ],
}

DISTANCES = [24.0, 18.5, 14.671, 11.171, 3.671, -3.0, -6.5, -10.0, -12.0, -16.0, -20.0, -25.0, -29.0, -33.0, -50.0]
NODES, WEIGHTS = np.polynomial.legendre.leggauss(64)


def points(stations):
    outside = [(x, -o) for x, _, o in stations]
    inside = [(x, i) for x, i, _ in stations[1:-1]]
    return np.array(outside + inside[::-1], dtype=float)


def fit(points):
    closed = np.vstack([points, points[:1]])
    chords = np.hypot(*np.diff(closed, axis=0).T)
    t = np.concatenate([[0.0], np.cumsum(chords)])
    return t, CubicSpline(t, closed, bc_type="periodic")


def integral(f, t):
    total = 0.0
    for a, b in zip(t, t[1:]):
        total += (b - a) / 2 * np.sum(WEIGHTS * f((a + b) / 2 + (b - a) / 2 * NODES))
    return total


def folds(curve, t, distance):
    """Whether 1 + k d falls to 0 anywhere."""
    u = np.linspace(0, t[-1], 200_001)
    first, second = curve(u, 1), curve(u, 2)
    bend = (first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]) / np.hypot(*first.T) ** 3
    return int(np.min(1 + bend * distance) <= 0)


def rows(name, stations):
    for station in stations:
        yield [name, "station", *station]
    t, curve = fit(points(stations))
    for at, (x, y) in zip(t, curve(t)):
        yield [name, "knot", at, x, y]
    for at in np.linspace(0, t[-1], 97)[:-1]:
        yield [name, "sample", at, *curve(at), *curve(at, 1), *curve(at, 2)]

    def area(u):
        (x, y), (dx, dy) = curve(u).T, curve(u, 1).T
        return (x * dy - y * dx) / 2

    yield [name, "whole", integral(lambda u: np.hypot(*curve(u, 1).T), t), integral(area, t)]
    polygon = Polygon(curve(np.arange(0, t[-1], 0.02)))
    for distance in DISTANCES:
        offset = polygon.buffer(distance, quad_segs=256)
        parts = 0 if offset.is_empty else len(getattr(offset, "geoms", [offset]))
        yield [name, "offset", distance, folds(curve, t, distance), offset.length, offset.area, parts]


def main():
    with open(pathlib.Path(__file__).with_name("curves.csv"), "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        for name, stations in OUTLINES.items():
            for name_, kind, *figures in rows(name, stations):
                writer.writerow([name_, kind, *(repr(float(figure)) for figure in figures)])


if __name__ == "__main__":
    main()
