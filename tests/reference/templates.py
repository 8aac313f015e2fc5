"""Reference points of true-size templates, from SciPy and Shapely: writes templates.csv beside this file.

    pip install scipy shapely
    python3 templates.py

Reads the stations and grades of specs/lasts/teller.hob and works out the bottom of scree-8 as docs/computation.md says, from
the model's figures below. Each row is: size, foot, layer, part, x, y in mm, with x from the heel along the centre line and y
downwards as seen from below: the right foot's inside lies at positive y, and the left is its mirror.
"""

import csv
import math
import pathlib
import re

import numpy as np
from shapely.geometry import LineString, Polygon
from shapely.ops import substring

from curves import fit, points

HERE = pathlib.Path(__file__).parent
INCH = 25.4
# Sizes and widths away from the base, 9 D.
SIZES = {"7 D": (-2, 0), "9 D": (0, 0), "12 EE": (3, 2)}

# scree-8 and the house: lining 2.75 oz and outer 6.5 oz, an ounce being 1/64 in.
WALL = (2.75 + 6.5) * INCH / 64
TURNOUT, TURNOUT_HEEL = 11.0, 4.0
HOLDS, BLEND, OFF_THE_EDGE = 15.0, 25.0, 1.0
FROM_EDGE, APART, ROWS, STITCHES_PER_INCH, ROWS_START = 3.5, 3.5, 2, 5, 12.0
INSET, NAILS_APART, BEHIND_JOINT = 10.0, 12.0, 10.0


def number(text):
    whole = [part.split("/") for part in text.split()]
    return sum(float(part[0]) / (float(part[1]) if len(part) > 1 else 1) for part in whole)


def last():
    text = (HERE / "../../specs/lasts/teller.hob").read_text()

    def one(pattern):
        return number(re.search(pattern, text).group(1))

    stations = re.findall(r"at\s+([\d.]+) %\s+inside\s+([\d.]+) mm\s+outside\s+([\d.]+) mm", text)
    grades = {kind: dict(re.findall(r"([\w-]+) ([\d/]+) in", re.search(rf"grade {kind} +{{(.*?)}}", text).group(1)))
              for kind in ("size", "width")}
    return {
        "bottom": one(r"bottom ([\d.]+) mm"), "breast": one(r"breast ([\d.]+) %") / 100,
        "inside": one(r"joints inside ([\d.]+) %") / 100, "outside": one(r"outside ([\d.]+) %") / 100,
        "stations": [tuple(float(part) for part in station) for station in stations], "grades": grades,
    }


def graded(base, sizes, widths):
    """Length of the bottom and stations, graded."""
    def step(kind, what):
        return number(base["grades"][kind].get(what, "0")) * INCH

    bottom = base["bottom"] + sizes * step("size", "stick")
    at_base = [(share / 100 * base["bottom"], i, o) for share, i, o in base["stations"]]
    t, curve = fit(points(at_base))
    joint = {side: base[side] * base["bottom"] for side in ("inside", "outside")}
    tread = half(t, curve, joint["inside"], 1) + half(t, curve, joint["outside"], -1)
    behind = np.linspace(5, base["breast"] * base["bottom"], 2000)
    seat = max(half(t, curve, x, 1) + half(t, curve, x, -1) for x in behind)
    grown = {}
    for what, start in (("tread", tread), ("seat-breadth", seat)):
        grown[what] = (start + sizes * step("size", what) + widths * step("width", what)) / start

    def widened(x, value, side):
        along = min(x / (base[side] * bottom), 1.0)
        return value * (grown["seat-breadth"] + (grown["tread"] - grown["seat-breadth"]) * along)

    stations = []
    for share, i, o in base["stations"]:
        x = share / 100 * bottom
        stations.append((x, widened(x, i, "inside"), widened(x, o, "outside")))
    return bottom, stations


def half(t, curve, x, sign):
    """The half-breadth at x: where the curve crosses that station on one side."""
    roots = [root for root in curve.derivative(0).solve(x)[0] if 0 <= root <= t[-1]]
    return max(sign * curve(root)[1] for root in roots)


def carried(curve, u, distance):
    """Points outside the curve by distance(x, side), along its normals."""
    place, (dx, dy) = curve(u), curve(u, 1).T
    speed = np.hypot(dx, dy)
    toe = u[np.argmax(place[:, 0])]
    out = np.array([distance(x, "outside" if at <= toe else "inside") for at, x in zip(u, place[:, 0])])
    return place + np.column_stack([dy / speed, -dx / speed]) * out[:, None]


def every(line):
    """As few of its points as keep their chords within 0.005 mm of it."""
    return list(line.simplify(0.005).coords)


def between(ring, first, second):
    """The part of a ring that starts at the heel and runs over the outside, from one crossing to the next."""
    a, b = sorted((ring.project(first), ring.project(second)))
    return substring(ring, a, b)


def crossings(ring, x):
    """Where a ring crosses the station x: outside, then inside."""
    cut = ring.intersection(LineString([(x, -200), (x, 200)]))
    return sorted(cut.geoms, key=lambda point: point.y)


def from_heel(polygon):
    """Its ring, heel first, over the outside to the toe."""
    coords = np.array(polygon.exterior.coords)[:-1]
    area = np.sum(coords[:, 0] * np.roll(coords[:, 1], -1) - np.roll(coords[:, 0], -1) * coords[:, 1])
    coords = coords if area > 0 else coords[::-1]
    coords = np.roll(coords, -int(np.argmin(coords[:, 0])), axis=0)
    return LineString(np.vstack([coords, coords[:1]]))


def bottom(base, sizes, widths):
    long, stations = graded(base, sizes, widths)
    t, curve = fit(points(stations))
    u = np.linspace(0, t[-1], 30_001)
    breast = base["breast"] * long
    joint = {side: base[side] * long for side in ("inside", "outside")}

    def edge(less):
        def distance(x, _side):
            u = min(max((x - (breast - HOLDS - BLEND)) / BLEND, 0.0), 1.0)
            turned = TURNOUT_HEEL + (TURNOUT - TURNOUT_HEEL) * (3 * u * u - 2 * u ** 3)
            return WALL + turned - less
        return LineString(carried(curve, u, distance))

    feather = LineString(curve(u))
    yield "feather", 0, every(feather)
    yield "wall", 0, every(LineString(carried(curve, u, lambda _x, _side: WALL)))
    yield "finished-edge", 0, every(edge(0.0))
    yield "rough-edge", 0, every(edge(-OFF_THE_EDGE))
    for k in range(ROWS):
        ring = edge(FROM_EDGE + k * APART)
        row = between(ring, *crossings(ring, breast - ROWS_START))
        yield "rows", k, every(row)
        stitches = math.floor(row.length / (INCH / STITCHES_PER_INCH) + 0.5)
        tenths = range(10, stitches + 1, 10)
        yield "tenths", k, [row.interpolate(row.length * n / stitches).coords[0] for n in tenths]
        yield "starts", k, [row.interpolate(0).coords[0]]
    inner = from_heel(Polygon(feather.coords).buffer(-INSET, quad_segs=256))
    ends = [crossings(feather, joint["outside"])[0], crossings(feather, joint["inside"])[-1]]
    a, b = (np.array(end.coords[0]) for end in ends)
    far = LineString([a + (a - b) * 3, b + (b - a) * 3])
    yield "forefoot", 0, every(between(inner, *sorted(inner.intersection(far).geoms, key=lambda point: point.y)))
    for part, side in enumerate(("outside", "inside")):
        pick = 0 if side == "outside" else -1
        at = [inner.project(crossings(inner, x)[pick]) for x in (breast, joint[side] - BEHIND_JOINT)]
        line = substring(inner, min(at), max(at))
        count = math.floor(line.length / NAILS_APART + 1e-9) + 1
        places = np.linspace(0, line.length, count)
        yield "waist-nails", part, [line.interpolate(place).coords[0] for place in places]
    yield "breast", 0, [(breast, 0.0)]
    # Drawn from edge to edge.
    yield "joints", 0, [end.coords[0] for end in sorted(edge(0.0).intersection(far).geoms, key=lambda point: point.y)]


def main():
    base = last()
    with open(HERE / "templates.csv", "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        for size, steps in SIZES.items():
            for layer, part, places in bottom(base, *steps):
                for foot, sign in (("right", 1), ("left", -1)):
                    for x, y in places:
                        writer.writerow([size, foot, layer, part, f"{x:.4f}", f"{sign * y + 0.0:.4f}"])


if __name__ == "__main__":
    main()
