# SPDX-License-Identifier: GPL-2.0-or-later
"""Lot 9, Sorrelback Lane: a made-up plot in US survey feet, its true geometry and its three walks."""

from __future__ import annotations

from functools import lru_cache

from .geometry import angle_of, point_at, spread
from .route import Route
from .site import ControlMark, Site

FOOT = 1200.0 / 3937.0
"""The US survey foot in metres, by definition."""
LONGEST = 9.0 / FOOT
PATIO = ((4.0, 6.0), (28.0, 6.0), (28.0, 20.0), (4.0, 20.0))
PATIO_CENTRE, PATIO_RADIUS = (16.0, 11.0), 15.0
DRIVE = ((-4.0, 0.0), (-4.0, 45.0), (-16.0, 45.0), (-16.0, 0.0))
DRIVE_THICK, EDGE_WIDE, EDGE_DEEP = 0.5, 1.0, 1.0
WALL_START, WALL_BEND, WALL_CENTRE, WALL_RADIUS = (30.0, 6.0), (30.0, 30.0), (40.0, 30.0), 10.0
WALL_HEIGHTS = (1.5, 3.8, 2.0)
STEP_X, STEP_FOOT, STEP_FOOT_Z, STEP_COUNT, STEP_RISER, STEP_GOING = 28.0, 30.0, 311.0, 5, 7.0 / 12.0, 1.0
LAWN = ((-3.0, 32.0), (26.0, 32.0), (26.0, 60.0), (-3.0, 60.0))
RING, RING_RADIUS = (8.0, 46.0), 4.0
OAK, OAK_STEM = (36.0, 52.0), 14.0 / 12.0
PLAN_MARKS = {"A": (0.0, 0.0), "B": (40.0, 0.0), "C": (44.0, 58.0)}

NEW = {"status": "new", "surface": "finished"}


def ground(x: float, y: float) -> float:
    """Height of the ground in feet."""
    return 312.00 - 0.02 * x - 0.015 * y


def wall_top(x: float, y: float) -> float:
    """Height of the wall's top in feet: its height runs evenly along the straight, then along the curve."""
    low, high, end = WALL_HEIGHTS
    if y <= WALL_BEND[1]:
        share = (y - WALL_START[1]) / (WALL_BEND[1] - WALL_START[1])
        return ground(x, y) + low + (high - low) * share
    share = (180.0 - angle_of(WALL_CENTRE, (x, y))) / 90.0
    return ground(x, y) + high + (end - high) * share


def _start(name: str) -> Route:
    route = Route(name, ground, LONGEST)
    route.stand_on("A", PLAN_MARKS["A"])
    route.stand_on("B", PLAN_MARKS["B"])
    return route


def walk_paving() -> Route:
    """W1: patio and drive, back to A."""
    route = _start("W1")
    route.begin("Patio", PATIO[1], geometry="area", item="PAV-02", side_item="EDG-01", **NEW)
    route.draw_to(PATIO[2])
    angles = spread(angle_of(PATIO_CENTRE, PATIO[2]), angle_of(PATIO_CENTRE, PATIO[3]), 4)
    route.draw_arc(PATIO_CENTRE, PATIO_RADIUS, angles[1:])
    route.draw_to(PATIO[0], PATIO[1])
    route.begin("Drive", DRIVE[0], geometry="area", item="CON-01", depth=str(DRIVE_THICK), **NEW)
    route.draw_to(*DRIVE[1:], DRIVE[0])
    route.stand_on("A", PLAN_MARKS["A"])
    return route


def walk_wall() -> Route:
    """W2: the wall's top and, back, its foot, then the steps; ends on C."""
    route = _start("W2")
    wall = {"geometry": "length", "item": "WAL-01", **NEW}
    route.begin("Wall", WALL_START, wall_top, part="top", **wall)
    route.draw_to(WALL_BEND)
    route.draw_arc(WALL_CENTRE, WALL_RADIUS, (135.0, 90.0))
    route.begin("Wall", point_at(WALL_CENTRE, WALL_RADIUS, 90.0), part="foot", **wall)
    route.draw_arc(WALL_CENTRE, WALL_RADIUS, (135.0, 180.0))
    route.draw_to(WALL_START)
    _walk_steps(route)
    route.stand_on("C", PLAN_MARKS["C"])
    return route


def _walk_steps(route: Route) -> None:
    """Up the flight: the foot of each riser and each nosing."""
    y, z = STEP_FOOT, STEP_FOOT_Z
    route.begin("Steps", (STEP_X, y), z=z, geometry="length", item="STP-01", width="4", **NEW)
    for i in range(STEP_COUNT):
        if i:
            y += STEP_GOING
            route.draw_to((STEP_X, y), z=z)
        z += STEP_RISER
        route.draw_to((STEP_X, y), z=z)


def walk_lawn() -> Route:
    """W3: the lawn, the ring round its tree, the oak; ends on C."""
    route = _start("W3")
    lawn = {"geometry": "area", "status": "new", "surface": "ground"}
    route.begin("Lawn", LAWN[1], item="TRF-01", **lawn)
    route.draw_to(*LAWN[2:], *LAWN[:2])
    route.begin("Tree ring", point_at(RING, RING_RADIUS, 0.0), hole_in="Lawn", **lawn)
    route.draw_arc(RING, RING_RADIUS, (90.0, 180.0, 270.0, 360.0))
    route.begin("Oak", OAK, geometry="spot", status="retain", surface="ground", stem_d=f"{OAK_STEM:.6f}")
    route.stand_on("C", PLAN_MARKS["C"])
    return route


@lru_cache(maxsize=1)
def site() -> Site:
    """The site with everything that logs are made from."""
    return Site(
        name="Lot 9, Sorrelback Lane", folder="sorrelback_lane", number=2, unit="us-ft", unit_m=FOOT, crs="EPSG:2264",
        anchor=(3020000.000, 300000.000), turn_deg=-12.0, scale=0.99993719,
        marks={name: (x, y, ground(x, y)) for name, (x, y) in PLAN_MARKS.items()},
        walks=(walk_paving(), walk_wall(), walk_lawn()),
        control=(ControlMark("A", "fit", has_level=True), ControlMark("B", "fit"), ControlMark("C", "check")),
        tapes=(("A", "B"),), pick_sd=0.08, shift_sd=0.33, level_sd=0.01, tape_sd=0.033, shift=(-0.20, 0.30),
    )  # fmt: skip
