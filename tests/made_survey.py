# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey made by hand, of shapes whose figures are known in closed form (metres, survey plane)."""

from __future__ import annotations

import math

import numpy as np
import pyproj

from plugin.core.findings import Finding, Severity
from plugin.core.measure.rows import (
    AreaRow,
    Ellipse,
    LegRow,
    LengthRow,
    MarkRow,
    PlacementRow,
    SideRow,
    SpotRow,
    StationRow,
    Survey,
    Tags,
    WalkRow,
)
from plugin.core.plane import SurveyPlane
from plugin.core.quantity import Quantity
from plugin.core.segments import Curve

NAN = float("nan")
PLACES = {
    "EPSG:25831": (3.18, 51.56),
    "EPSG:27700": (-1.0, 51.5),
    "EPSG:2264": (-78.0, 34.2),
    "EPSG:3857": (3.18, 51.56),
    "EPSG:2180": (18.6, 54.6),
    "EPSG:31467": (9.0, 53.6),
    "EPSG:2193": (175.0, -40.9),
    "EPSG:32633": (15.0, 44.0),
}
"""CRSs with feet, with northing first, north and south: each with a longitude and latitude where it serves."""


def ground(x: float, y: float) -> float:
    """Height of the made ground: a plane falling 1:50 to the east."""
    return 84.6 - 0.02 * x


def curve(*xy: tuple[float, float], bulges: dict[int, float] | None = None) -> Curve:
    """A curve on the made ground; `bulges` by edge."""
    points = np.array([(x, y, ground(x, y)) for x, y in xy], dtype=float)
    bulge = np.zeros(len(points) - 1)
    for edge, value in (bulges or {}).items():
        bulge[edge] = value
    return Curve(points, bulge)


RISE = 4.0
"""Of the court's curved side over its chord of 20 m: radius 14.5 m."""
COURT_BULGE = RISE / 10.0
COURT = curve((2, 2), (22, 2), (22, 12), (2, 12), (2, 2), bulges={2: COURT_BULGE})
HOLE = curve((11.4, 6.4), (11.4, 7.6), (12.6, 7.6), (12.6, 6.4), (11.4, 6.4))
BED = curve((-6, 2), (0.5, 2), (0.5, 11), (-4, 12.5), (-6, 2))
TREE_RING = curve((-1.75, 6), (-3.25, 6), (-1.75, 6), bulges={0: -1.0, 1: -1.0})
KERB = curve((-6, -6), (24, -6), (30, 0), (30, 2.5), bulges={1: math.tan(math.pi / 8)})
KERB_LENGTH_M = 30 + 3 * math.pi + 2.5
SECTOR = 14.5**2 * math.asin(10 / 14.5) - 10 * 10.5
"""Area between the court's curved side and its chord: half of R^2 (2 a) less the triangle."""
COURT_AREA_M2 = 200 + SECTOR - 1.44


def metres(value: float, sigma: float = 0.02) -> Quantity:
    """A length."""
    return Quantity(value, sigma, "m")


def side(name: str, run: Curve, length: float, bulge: float = 0.0, other: str = "") -> SideRow:
    """A side of an area, with the radius its bulge gives."""
    sweep = 4 * math.atan(bulge) if bulge else None
    chord = float(np.hypot(*(run.points[-1] - run.points[0])[:2]))
    radius = metres(chord / (2 * abs(math.sin(sweep / 2))), 0.02) if sweep else None
    turned = Quantity(sweep, 0.003, "rad") if sweep else None
    tags = Tags(walk="W1", feature=name, method="plan", sigma_from="instruments")
    return SideRow(tags, run, name, other, "edging", metres(length), radius, turned)


def sides_of(name: str, ring: Curve, other: str = "") -> tuple[SideRow, ...]:
    """Every edge of a ring as a side."""
    made = []
    for i, bulge in enumerate(ring.bulge):
        chord = float(np.hypot(*(ring.points[i + 1] - ring.points[i])[:2]))
        sweep = 4 * math.atan(bulge)
        length = chord if not bulge else abs(sweep) * chord / (2 * abs(math.sin(sweep / 2)))
        made.append(
            side(name, Curve(ring.points[i : i + 2], ring.bulge[i : i + 1]), length, float(bulge), other)
        )
    return tuple(made)


def area(name: str, outline: tuple[Curve, ...], plan: float, perimeter: float, **more: str) -> AreaRow:
    """An area with figures."""
    tags = Tags(
        site="Made yard",
        walk="W1",
        feature=name,
        method="plan, holes out",
        sigma_from="instruments",
        item="paving",
    )
    status = more.pop("status", "")
    tags = Tags(**{**tags.__dict__, "status": status})
    return AreaRow(
        tags,
        outline,
        Quantity(plan, 0.81, "m2"),
        Quantity(plan * 1.0002, 0.81, "m2"),
        metres(perimeter, 0.09),
        Quantity(0.02, 0.0004, "ratio"),
        Quantity(90.0, 1.1, "deg"),
        **more,
    )


def stations() -> tuple[StationRow, ...]:
    """A station on each corner of the court."""
    ellipse = Ellipse(0.03, 0.01, math.radians(30))
    return tuple(
        StationRow(Tags(walk="W1", feature="Court"), str(i), tuple(p), ellipse, 0.012, "", "direct", "")
        for i, p in enumerate(COURT.points.tolist(), 1)
    )


def marks() -> tuple[MarkRow, ...]:
    """Two marks and a check point."""
    ellipse = Ellipse(0.02, 0.02, 0.0)
    places = {"A": (-1.0, -4.0), "B": (23.0, -4.0), "C": (39.0, 14.0)}
    return tuple(
        MarkRow(Tags(walk="W1"), name, (x, y, ground(x, y)), ellipse, 0.01, 0.013)
        for name, (x, y) in places.items()
    )


def findings() -> tuple[Finding, ...]:
    """One of each severity."""
    return (
        Finding(
            "GE-01",
            Severity.STOP,
            "Bed 3",
            'The outline of "{feature}" crosses itself between stations {a} and {b}.',
            'Answer with the outline that is meant, or walk "{feature}" again.',
            {"feature": "Bed 3", "a": 4, "b": 7},
            file="w1.csv",
            line=31,
            walk="W1",
            feature="Bed 3",
            at=(14.0, -1.0),
            answers=("loop 1", "loop 2"),
        ),
        Finding(
            "GE-02", Severity.ASK, "Bed+Court", "Two edges lie 0.03 m apart.", "Answer join or keep.", {}
        ),
        Finding(
            "RD-02", Severity.NOTE, "survey", "No accuracy was stated; a default is assumed.", "State it.", {}
        ),
    )


def made_survey(crs: str | None = "EPSG:25831", *, lengths: tuple[LengthRow, ...] | None = None) -> Survey:
    """The made survey, placed in a CRS or not placed at all."""
    plane = SurveyPlane(pyproj.CRS.from_user_input(crs), *PLACES[crs], 84.2) if crs else None
    arc = 2 * 14.5 * math.asin(10 / 14.5)
    kerb = LengthRow(
        Tags(walk="W1", feature="Kerb", item="kerb", method="plan", sigma_from="instruments"),
        (KERB,),
        metres(KERB_LENGTH_M, 0.05),
        metres(KERB_LENGTH_M + 0.01, 0.05),
        metres(-0.72, 0.01),
        Quantity(-0.0172, 0.0003, "ratio"),
    )
    crossing = curve((8, -4.5), (20, -4.5), (14, -1), (11, -1), (8, -4.5))
    stopped = AreaRow(
        Tags(walk="W1", feature="Bed 3", finding="GE-01"), (crossing,), None, None, None, None, None
    )
    leg = LegRow(
        Tags(walk="W1", feature="Kerb"),
        Curve(KERB.points[:2], KERB.bulge[:1]),
        "1",
        "2",
        metres(30),
        metres(30.006),
        metres(-0.6),
        Quantity(-0.02, 0.0004, "ratio"),
    )
    spots = tuple(
        SpotRow(Tags(walk="W4", feature=f"L{i}"), (x, y, ground(x, y)), metres(ground(x, y), 0.011))
        for i, (x, y) in enumerate([(-2, -2), (6, -3), (18, -3), (26, 2), (26, 8), (26, 14)])
    )
    return Survey(
        site="Made yard",
        plane=plane,
        areas=(
            area("Court", (COURT, HOLE), COURT_AREA_M2, 40 + arc),
            area("Bed 1", (BED, TREE_RING), 54.375 - math.pi * 0.75**2, 30.932, status="existing"),
            area(
                "Bed 1 hole",
                (Curve(TREE_RING.points, -TREE_RING.bulge),),
                math.pi * 0.75**2,
                4.712,
                hole_in="Bed 1",
            ),
            area(
                "Old slab", (curve((24, 4), (29, 4), (29, 9), (24, 9), (24, 4)),), 25.0, 20.0, status="remove"
            ),
            stopped,
        ),
        lengths=(kerb,) if lengths is None else lengths,
        spots=spots,
        sides=(*sides_of("Court", COURT), *sides_of("Bed 1", BED)),
        legs=(leg,),
        stations=stations(),
        marks=marks(),
        walks=(WalkRow("W1", "w1.csv", "pole 1", 42, 172.0, 132.0, 0.031, 0.05, 0.008, 0.01),),
        placement=PlacementRow(
            "placed" if crs else "not placed",
            crs or "",
            math.radians(27.5) if crs else None,
            1.0 if crs else None,
            0.1 if crs else None,
            "",
            plane.grid_to_ground if plane else None,
            0.1 if crs else None,
        ),
        findings=findings(),
    )
