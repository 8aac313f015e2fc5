"""Rows of boots whose lines have to be trimmed, from SciPy and Shapely: writes offsets.csv beside this file.

    pip install scipy shapely
    python3 offsets.py

The outlines are two of curves.py, on a bottom of 276 mm: breast at 26 %, joints at 70 % inside and 62 % outside. A line is
Shapely's buffer of the outline in 0.02 mm chords; its loops are none of Shapely's making. Each row is: outline, line,
distance from the feather line, length of the line between its ends, length of the normals' ends between the same ends
with all their loops, stitches, mm. Lines:

    row-1, row-2   at 9.25 oz of wall + 11 of turnout - 3.5 and - 7.0, ahead of 12 behind the breast, 5 to the inch
    forefoot-I     I inside the feather line, ahead of the joint line, 4.5 to the inch
"""

import csv
import math
import pathlib

import numpy as np
from shapely.geometry import Polygon

from curves import OUTLINES, fit, points

BOTTOM, INCH = 276, 25.4
WALL = 9.25 / 64 * INCH


def half_plane(inside, outside):
    """What lies toeward of the line through two points."""
    way = (outside - inside) / np.hypot(*(outside - inside))
    toeward = np.array([-way[1], way[0]])
    far = 600
    return toeward, Polygon([inside - far * way, inside + far * way, inside + far * (way + toeward), inside + far * (toeward - way)])


def ahead_of(chain, inside, toeward):
    """Length of what a chain of points has toeward of a line."""
    off = (chain - inside) @ toeward
    first, last, chords = off[:-1], off[1:], np.hypot(*np.diff(chain, axis=0).T)
    both = np.maximum(first, 0) + np.maximum(last, 0)
    return np.sum(chords * both / (np.abs(first) + np.abs(last)))


def rows(name):
    t, curve = fit(points(OUTLINES[name]))
    u = np.arange(0, t[-1], 0.02)
    place, (dx, dy) = curve(u), curve(u, 1).T
    normal = np.column_stack([dy, -dx]) / np.hypot(dx, dy)[:, None]
    outline = Polygon(place)

    def on(x, sign):
        crossings = [root for root in curve.derivative(0).solve(x)[0] if 0 <= root <= t[-1]]
        return max((curve(root) for root in crossings), key=lambda p: sign * p[1])

    def line(what, distance, inside, outside, pitch):
        toeward, ahead = half_plane(inside, outside)
        left = outline.buffer(distance, quad_segs=256).exterior.intersection(ahead).length
        looped = ahead_of(place + distance * normal, inside, toeward)
        return [name, what, distance, left, looped, math.floor(left / pitch + 0.5)]

    start = 0.26 * BOTTOM - 12
    across = np.array([start, 50.0]), np.array([start, -50.0])
    for k in (1, 2):
        yield line(f"row-{k}", WALL + 11 - 3.5 * k, *across, INCH / 5)
    joints = on(0.7 * BOTTOM, 1), on(0.62 * BOTTOM, -1)
    for inset in (5, 8, 10, 12, 20):
        yield line(f"forefoot-{inset}", -inset, *joints, INCH / 4.5)


def main():
    with open(pathlib.Path(__file__).with_name("offsets.csv"), "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        for name in ("notched", "pointed"):
            writer.writerows(rows(name))


if __name__ == "__main__":
    main()
