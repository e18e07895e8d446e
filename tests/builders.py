# SPDX-License-Identifier: GPL-2.0-or-later
"""Walks made by hand, for tests: from points, or the Marlisk Yard walks in their simplified form with exact
geometry (legs over 9 m cut evenly), on which the attained figures of the adjustment are known."""

from __future__ import annotations

import math

import numpy as np

from plugin.core.adjust.instrument import Model
from plugin.core.adjust.network import Occupation
from plugin.core.adjust.plan import PlanInput, PlanNetwork, TapeRow, adjust_plan
from plugin.core.walk import Instrument, Kind, Leg, LogKeys, Walk

DEMO = Instrument(
    name="rover",
    scale=0.0015,
    heading_rate=math.radians(0.04) / 60.0,
    leg=0.003,
    leg_time=0.0004,
    stand=0.004,
    height_leg=0.003,
    height_leg_time=0.0003,
    height_stand=0.004,
)
MARKS = {
    "A": (-1, -4),
    "B": (23, -4),
    "P": (0.5, -4),
    "Q": (5, -4),
    "C": (39, 14),
    "D": (-10, 16),
    "BM1": (-7, 0),
}


def make_walk(
    xy,
    *,
    name="W1",
    z=None,
    time=None,
    hold=None,
    mark=None,
    leg=None,
    feature=None,
    kind=None,
    part=None,
    hole_in=None,
    offset=None,
    sd_xy=None,
    keys=None,
):
    """A walk from points and whatever columns a test needs; the rest is blank."""
    n = len(xy)
    blank, nan = ("",) * n, np.full(n, np.nan)

    def column(cells):
        return blank if cells is None else tuple(cells)

    def numbers(cells, default):
        return default if cells is None else np.array(cells, float)

    return Walk(
        name=name,
        file=f"{name}.csv",
        keys=keys or LogKeys(units="m", instrument="rover"),
        station=tuple(str(i) for i in range(n)),
        line=np.arange(n) + 2,
        xy=np.array(xy, float).reshape(n, 2),
        z=numbers(z, nan),
        time=numbers(time, nan),
        hold=numbers(hold, np.ones(n)),
        feature=column(feature),
        part=column(part),
        kind=(None,) * n if kind is None else tuple(k and Kind(k) for k in kind),
        leg=(Leg.DIRECT,) * n if leg is None else tuple(Leg(k) for k in leg),
        hole_in=column(hole_in),
        mark=column(mark),
        offset=numbers(offset, np.zeros(n)),
        pole=np.zeros(n),
        sd_xy=numbers(sd_xy, nan),
        sd_z=nan,
        sizes={},
        texts={},
        extra={},
    )


def turn(xy, angle):
    """Points turned anticlockwise by an angle in radians."""
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(xy, float) @ np.array([[c, s], [-s, c]])


def route(stops, longest=9.0):
    """Points and mark names along stops (marks by name); legs over `longest` metres are cut evenly."""
    points, names = [], []
    for stop in stops:
        place = MARKS[stop] if isinstance(stop, str) else stop
        if points:
            begin = points[-1]
            cuts = max(1, math.ceil(math.dist(begin, place) / longest - 1e-9))
            for i in range(1, cuts):
                points.append(tuple(b + (p - b) * i / cuts for b, p in zip(begin, place)))
                names.append("")
        points.append(tuple(place))
        names.append(stop if isinstance(stop, str) else "")
    return np.array(points, float), names


def on_arc(centre, radius, start_deg, end_deg, steps):
    """Points at equal sweeps after the start of an arc, its end included."""
    angles = np.radians(np.linspace(start_deg, end_deg, steps + 1)[1:])
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]


BEGIN = math.degrees(math.atan2(10.5, 10))
COURT = [(22, 2), (22, 12), *on_arc((12, 1.5), 14.5, BEGIN, 180 - BEGIN, 4), (2, 2), (22, 2)]
HOLE = [(11.4, 6.4), (12.6, 6.4), (12.6, 7.6), (11.4, 7.6), (11.4, 6.4)]
KERB = [(30, 2.5), (30, 0), *on_arc((24, 0), 6, 0, -90, 2), (-6, -6)]
RAMP = [(22, 3), (31, 3), (31, 4.5), (22, 4.5)]
STEPS = [(22, 8), (22.7, 8), (22.7, 9.5), (22, 9.5)]
BED_1 = [(-6, 2), (0.5, 2), (0.5, 11), (-4, 12.5)]
BED_2 = [(22, 2), (20, -2.5), (4, -2.5), (2, 2)]
FRONT = [
    (12 + 14.5 * math.cos(math.radians(a)), 1.5 + 14.5 * math.sin(math.radians(a))) for a in (60, 90, 120)
]
SWALE = [(x, 10 + 1.2 * math.sin(2 * math.pi * (x - 24) / 8)) for x in (24, 28, 32, 36, 40)]
ROUTES = {
    "W1": ["A", "P", "Q", "B", *COURT, *HOLE, *KERB, "A"],
    "W2": ["A", "B", *RAMP, *STEPS, *FRONT],
    "W3": ["A", "B", *BED_2, *BED_1, *SWALE, "C"],
    "W4": ["A", "B", (21.4, 2.6), (21.4, 11), (40, 10), (34, 13.5), "C", (12, 7), (-2.5, 6), "BM1", "D"],
}


def demo_walks(names=("W1", "W2", "W3", "W4"), noise=None, angles=(0.3, 1.9, -2.0, 2.8)):
    """The simplified walks, each in a frame of its own; `noise` is a random generator for drift, or None."""
    walks = []
    for k, name in enumerate(names):
        points, marks = route(ROUTES[name])
        if noise is not None:
            points = drifted(points, noise)
        walks.append(
            make_walk(turn(points - points[0], angles[k]) + (100.0 * k, 50.0), name=name, mark=marks)
        )
    return walks


def drifted(points, rng, instrument=DEMO, speed=1.3):
    """Points as an instrument with this drift would record them, step by step with exact turns."""
    steps = np.diff(points, axis=0)
    scale = 1.0 + rng.normal(0, instrument.scale)
    rate = rng.normal(0, instrument.heading_rate)
    place, time, out = np.zeros(2), 0.0, [np.zeros(2)]
    for step in steps:
        took = math.hypot(*step) / speed
        moved = turn(step * scale, rate * (time + took / 2))
        place = place + moved + rng.normal(0, instrument.leg + instrument.leg_time * took**1.5, 2)
        time += took
        out.append(place)
    return np.array(out) + rng.normal(0, instrument.stand, (len(out), 2))


def network(walks, tapes=(), instrument=DEMO, **options) -> tuple[PlanNetwork, list[str], np.ndarray]:
    """The plan network of some walks: tapes are (mark, mark, distance, sd)."""
    marks = list(dict.fromkeys(mark for walk in walks for mark in walk.mark if mark))
    first = np.concatenate([[0], np.cumsum([len(walk) for walk in walks])])
    occupations = tuple(
        Occupation(k, int(first[k]) + i, marks.index(mark))
        for k, walk in enumerate(walks)
        for i, mark in enumerate(walk.mark)
        if mark
    )
    rows = tuple(TapeRow(marks.index(a), marks.index(b), distance, sd) for a, b, distance, sd in tapes)
    models = (Model(instrument, instrument.name),) * len(walks)
    job = PlanInput(tuple(walks), models, first, len(marks), occupations, rows, **options)
    return adjust_plan(job), marks, first


def rows_of(name, stops, first=0):
    """Rows of the first station at each of some places along a route."""
    points, _ = route(ROUTES[name])
    return [first + int(np.argmin(np.hypot(*(points - stop).T))) for stop in stops]
