# SPDX-License-Identifier: GPL-2.0-or-later
"""Marlisk Yard: a made-up yard in metres, its true geometry and its four walks."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from .geometry import Point, angle_of, point_at, spread
from .route import Route
from .site import ControlMark, Site

LONGEST = 9.0
COURT = ((2.0, 2.0), (22.0, 2.0), (22.0, 12.0), (2.0, 12.0))
COURT_CENTRE, COURT_RADIUS = (12.0, 1.5), 14.5
COURT_HOLE = ((11.4, 6.4), (12.6, 6.4), (12.6, 7.6), (11.4, 7.6))
BED_1 = ((0.5, 2.0), (0.5, 11.0), (-4.0, 12.5), (-6.0, 2.0))
TREE_HOLE, TREE_HOLE_RADIUS = (-2.5, 6.0), 0.75
BED_2 = ((4.0, -2.5), (20.0, -2.5), (22.0, 2.0), (2.0, 2.0))
RAMP = ((22.0, 3.0), (31.0, 3.0), (31.0, 4.5), (22.0, 4.5))
RAMP_TOP, RAMP_FOOT = 84.260, 83.660
STEP_Y, STEP_TOP, STEP_RISERS, STEP_GOING = 8.75, 84.235, (0.140, 0.140, 0.150), 0.350
SEAT_ANGLES, SEAT_THICK, SEAT_HIGH = (60.0, 120.0), 0.45, 0.45
BED_WALL_TOP, BED_WALL_FOOT = 85.000, (84.560, 84.450)
KERB_CENTRE, KERB_RADIUS = (24.0, 0.0), 6.0
BANK_CENTRE, BANK_RADII, BANK_LEVELS = (39.0, -6.0), (8.0, 9.6), (82.400, 83.600)
FACE_X, FACE_Y, FACE_Z, FACE_RADIUS, FACE_SWEEP, FACE_WIDTH = -8.5, 14.0, 84.450, 2.4, 60.0, 3.0
SWALE_X, SWALE_Y, SWALE_WAVE, SWALE_PERIOD = (24.0, 40.0), 10.0, 1.2, 8.0
SWALE_WIDTH, SWALE_DEPTH, SWALE_STEP = 1.8, 0.3, 0.25
DRAINS = {"G1": (21.4, 11.0), "G2": (21.4, 2.6), "G3": (40.0, 10.0)}
TREES = {"T1": (-2.5, 6.0, 0.32), "T2": (12.0, 7.0, 0.18), "T3": (34.0, 13.5, 0.55)}
LEVEL_X = tuple(range(40, -9, -4))
LEVEL_Y = tuple(range(-6, 15, 4))
PLAN_MARKS = {
    "A": (-1, -4),
    "B": (23, -4),
    "P": (0.5, -4),
    "Q": (5, -4),
    "C": (39, 14),
    "D": (-10, 16),
    "BM1": (-7, 0),
}
BM1_LEVEL = 84.810

NEW = {"status": "new", "surface": "finished"}


def ground(x: float, y: float) -> float:
    """Height of the ground as it is."""
    hump = math.exp(-((x - 12.0) ** 2 + (y - 7.0) ** 2) / 18.0)
    return 84.600 - 0.030 * x - 0.012 * y + 0.080 * hump


def ground_grid(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """(m, n) heights of the ground at n places x and m places y."""
    hump = np.exp(-((x[None, :] - 12.0) ** 2 + (y[:, None] - 7.0) ** 2) / 18.0)
    return 84.600 - 0.030 * x[None, :] - 0.012 * y[:, None] + 0.080 * hump


def court_finished(x: float, y: float) -> float:
    """Finished height of the paved court."""
    return 84.550 - 0.0125 * x - 0.005 * y


def ramp_height(x: float, y: float) -> float:
    """Finished height of the ramp; it falls along x alone."""
    return RAMP_TOP + (RAMP_FOOT - RAMP_TOP) * (x - 22.0) / 9.0 + 0.0 * y


def bed_wall_foot(x: float, y: float) -> float:
    """Height at the foot of the wall of Bed 1."""
    return BED_WALL_FOOT[0] + (BED_WALL_FOOT[1] - BED_WALL_FOOT[0]) * (y - 2.0) / 9.0 + 0.0 * x


def court_angles() -> tuple[float, ...]:
    """Directions from the centre of the court's curve to five points at equal sweeps, as walked."""
    return spread(angle_of(COURT_CENTRE, COURT[2]), angle_of(COURT_CENTRE, COURT[3]), 4)


def swale_point(x: float) -> Point:
    """The swale's line."""
    return x, SWALE_Y + SWALE_WAVE * math.sin(2.0 * math.pi * (x - SWALE_X[0]) / SWALE_PERIOD)


@lru_cache(maxsize=1)
def swale_length() -> float:
    """True length of the swale's line, by Simpson's rule over 16,000 parts (error below 1e-12)."""
    parts = 16_000
    pace = 2.0 * math.pi / SWALE_PERIOD
    h = (SWALE_X[1] - SWALE_X[0]) / parts
    total = 0.0
    for i in range(parts + 1):
        weight = 1.0 if i in (0, parts) else 4.0 if i % 2 else 2.0
        total += weight * math.hypot(1.0, SWALE_WAVE * pace * math.cos(pace * i * h))
    return total * h / 3.0


@lru_cache(maxsize=1)
def swale_rows() -> tuple[Point, ...]:
    """Places on the swale at even distances along it, 0.25 m or a little less apart."""
    fine = [swale_point(SWALE_X[0] + i * 0.001) for i in range(16_001)]
    along = [0.0]
    for a, b in zip(fine, fine[1:]):
        along.append(along[-1] + math.dist(a, b))
    parts = math.ceil(along[-1] / SWALE_STEP)
    rows, i = [fine[0]], 0
    for k in range(1, parts):
        target = along[-1] * k / parts
        while along[i + 1] < target:
            i += 1
        share = (target - along[i]) / (along[i + 1] - along[i])
        rows.append(swale_point(fine[i][0] + share * 0.001))
    return (*rows, fine[-1])


def face_profile() -> tuple[tuple[float, float, float], ...]:
    """Five points up the dished face, level at its base."""
    angles = [math.radians(a) for a in spread(0.0, FACE_SWEEP, 4)]
    return tuple(
        (FACE_X, FACE_Y + FACE_RADIUS * math.sin(a), FACE_Z + FACE_RADIUS * (1.0 - math.cos(a)))
        for a in angles
    )


def _start(name: str, *marks: str) -> Route:
    route = Route(name, ground, LONGEST)
    for mark in marks:
        route.stand_on(mark, PLAN_MARKS[mark])
    return route


def walk_court() -> Route:
    """W1: court, its hole, the kerb, back to A."""
    route = _start("W1", "A", "P", "Q", "B")
    court = {"geometry": "area", "item": "PAV-01", "side_item": "EDG-01", **NEW}
    route.begin("Paved court", COURT[1], court_finished, **court)
    route.draw_to(COURT[2])
    route.draw_arc(COURT_CENTRE, COURT_RADIUS, court_angles()[1:])
    route.draw_to(COURT[0], COURT[1])
    hole = {"geometry": "area", "hole_in": "Paved court", **NEW}
    route.begin("Court opening", COURT_HOLE[0], court_finished, **hole)
    route.draw_to(*COURT_HOLE[1:], COURT_HOLE[0])
    route.begin("Kerb", (30.0, 2.5), geometry="length", item="KRB-01", **NEW)
    route.draw_to((30.0, 0.0))
    route.draw_arc(KERB_CENTRE, KERB_RADIUS, (-45.0, -90.0))
    route.draw_to((-6.0, -6.0))
    route.stand_on("A", PLAN_MARKS["A"])
    return route


def walk_faces() -> Route:
    """W2: ramp, steps, walls, C, bank and dished face, back to A."""
    route = _start("W2", "A", "B")
    route.begin("Ramp", RAMP[0], ramp_height, geometry="area", item="CON-01", **NEW)
    route.draw_to(*RAMP[1:], RAMP[0])
    _walk_steps(route)
    first = point_at(COURT_CENTRE, COURT_RADIUS, SEAT_ANGLES[0])
    seat = {"geometry": "length", "item": "WAL-01", "width": str(SEAT_THICK), "height": str(SEAT_HIGH), **NEW}
    route.begin("Seat wall", first, court_finished, **seat)
    route.draw_arc(COURT_CENTRE, COURT_RADIUS, (90.0, SEAT_ANGLES[1]))
    wall = {"geometry": "length", "item": "WAL-01", **NEW}
    route.begin("Bed 1 wall", BED_1[1], lambda x, y: BED_WALL_TOP, part="top", **wall)
    route.draw_to(BED_1[0])
    route.begin("Bed 1 wall", BED_1[0], bed_wall_foot, part="foot", **wall)
    route.draw_to(BED_1[1])
    route.stand_on("C", PLAN_MARKS["C"])
    _walk_bank(route)
    profile = face_profile()
    face = {"geometry": "length", "part": "profile", "item": "SED-01", "width": str(FACE_WIDTH), **NEW}
    route.begin("Dished face", profile[0][:2], z=profile[0][2], **face)
    route.draw_profile(profile[1:])
    route.stand_on("A", PLAN_MARKS["A"])
    return route


def _walk_steps(route: Route) -> None:
    """Down the flight: each nosing and the foot of each riser."""
    x, z = 22.0, STEP_TOP
    route.begin("Steps", (x, STEP_Y), z=z, geometry="length", item="STP-01", width="1.5", **NEW)
    for i, riser in enumerate(STEP_RISERS):
        if i:
            x += STEP_GOING
            route.draw_to((x, STEP_Y), z=z)
        z -= riser
        route.draw_to((x, STEP_Y), z=z)


def _walk_bank(route: Route) -> None:
    bank = {"geometry": "length", "item": "SED-01", **NEW}
    low, high = BANK_LEVELS
    route.begin("Bank", point_at(BANK_CENTRE, BANK_RADII[0], 90.0), lambda x, y: low, part="foot", **bank)
    route.draw_arc(BANK_CENTRE, BANK_RADII[0], (135.0, 180.0))
    route.begin("Bank", point_at(BANK_CENTRE, BANK_RADII[1], 180.0), lambda x, y: high, part="top", **bank)
    route.draw_arc(BANK_CENTRE, BANK_RADII[1], (135.0, 90.0))


def walk_beds() -> Route:
    """W3: both beds, the tree hole, the swale as walked, ends on C."""
    route = _start("W3", "A", "B")
    bed = {"geometry": "area", "item": "MUL-01", "status": "new", "surface": "ground"}
    route.begin("Bed 2", BED_2[0], **bed)
    route.draw_to(*BED_2[1:], BED_2[0])
    route.begin("Bed 1", BED_1[0], **bed)
    route.draw_to(*BED_1[1:], BED_1[0])
    hole = {"geometry": "area", "hole_in": "Bed 1", "status": "new", "surface": "ground"}
    route.begin("Tree hole", point_at(TREE_HOLE, TREE_HOLE_RADIUS, 0.0), **hole)
    route.draw_arc(TREE_HOLE, TREE_HOLE_RADIUS, (120.0, 240.0, 360.0))
    swale = {
        "geometry": "length",
        "item": "SWL-01",
        "width": str(SWALE_WIDTH),
        "depth": str(SWALE_DEPTH),
        **NEW,
    }
    rows = swale_rows()
    route.begin("Swale", rows[0], **swale)
    route.draw_run(rows[1:])
    route.stand_on("C", PLAN_MARKS["C"])
    return route


def level_rows() -> tuple[tuple[str, float, float], ...]:
    """Name and place of the 78 spot levels, up one column of the grid and down the next."""
    columns = [(x, LEVEL_Y if i % 2 == 0 else LEVEL_Y[::-1]) for i, x in enumerate(LEVEL_X)]
    places = [(float(x), float(y)) for x, column in columns for y in column]
    return tuple((f"Level {i:02d}", x, y) for i, (x, y) in enumerate(places, start=1))


def walk_levels() -> Route:
    """W4: spot levels with drains, trees and marks where the way passes them, back to A by D."""
    route = _start("W4", "A", "B")
    beside = {
        (40.0, 10.0): ("G3",), (40.0, 14.0): ("C",), (36.0, 14.0): ("T3",), (20.0, 10.0): ("G1",), (20.0, 2.0): ("G2",),
        (12.0, 6.0): ("T2",), (-4.0, 6.0): ("T1",), (-8.0, -2.0): ("BM1",), (-8.0, 14.0): ("D",),
    }  # fmt: skip
    for name, x, y in level_rows():
        route.begin(name, (x, y), geometry="spot", status="existing", surface="ground")
        for thing in beside.get((x, y), ()):
            _walk_beside(route, thing)
    route.stand_on("A", PLAN_MARKS["A"])
    return route


def _walk_beside(route: Route, thing: str) -> None:
    if thing in DRAINS:
        route.begin(thing, DRAINS[thing], geometry="spot", item="DRN-01", status="new", surface="ground")
    elif thing in TREES:
        x, y, stem = TREES[thing]
        route.begin(thing, (x, y), geometry="spot", status="retain", surface="ground", stem_d=str(stem))
    else:
        route.stand_on(thing, PLAN_MARKS[thing])


SHARED_EDGES = (
    ("Paved court", "Seat wall"),
    ("Paved court", "Bed 2"),
    ("Paved court", "Ramp"),
    ("Bed 1 wall/top", "Bed 1"),
    ("Bed 1 wall/foot", "Bed 1"),
)
"""Pairs of features, in order of walking, whose edges are one line on the ground."""


@lru_cache(maxsize=1)
def site() -> Site:
    """The site with everything that logs are made from."""
    marks = {name: (float(x), float(y), ground(x, y)) for name, (x, y) in PLAN_MARKS.items()}
    marks["BM1"] = (*marks["BM1"][:2], BM1_LEVEL)
    return Site(
        name="Marlisk Yard", folder="marlisk_yard", number=1, unit="m", unit_m=1.0, crs="EPSG:25831",
        anchor=(512340.000, 5712850.000), turn_deg=27.5, scale=0.99958869, marks=marks,
        walks=(walk_court(), walk_faces(), walk_beds(), walk_levels()),
        control=(
            ControlMark("A", "fit"), ControlMark("B", "fit"), ControlMark("C", "check"), ControlMark("D", "check"),
            ControlMark("BM1", "fit", is_picked=False, has_level=True),
        ),
        tapes=(("A", "B"), ("A", "BM1")), pick_sd=0.025, shift_sd=0.10, level_sd=0.003, tape_sd=0.010,
        shift=(0.12, -0.08),
        answers=tuple(("GE-02", f"{a}+{b}", "join") for a, b in SHARED_EDGES),
    )  # fmt: skip
