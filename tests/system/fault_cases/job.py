# SPDX-License-Identifier: GPL-2.0-or-later
"""The jobs that the tables of faults spoil: a small one without any error, and Marlisk Yard with its drift."""

from __future__ import annotations

import math
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from scripts.demo_jobs import COMMITTED_SEEDS, make_job

if TYPE_CHECKING:
    from collections.abc import Mapping

Files = dict[str, bytes]
LOG_1, LOG_2, CONTROL, TAPES, INSTRUMENTS, DECISIONS = (
    "walk_1.csv", "walk_2.csv", "control.csv", "tapes.csv", "instruments.csv", "decisions.csv",
)  # fmt: skip
COLUMNS = (
    "walk", "station", "x", "y", "z", "time", "hold_s", "feature", "part", "geometry", "leg", "hole_in", "mark",
    "surface", "offset", "offset_side", "width", "note",
)  # fmt: skip
PACE = 1.3
"""m/s."""
MARKS = MappingProxyType({"A": (0.0, 0.0), "B": (15.0, 0.0), "C": (15.0, 12.0), "D": (0.0, 12.0)})
LAWN = {"feature": "Lawn", "geometry": "area"}
POND = {"feature": "Pond", "geometry": "area", "hole_in": "Lawn"}
PATH = {"feature": "Path", "geometry": "length", "surface": "finished"}
WALK_1 = (
    ((0, 0), {"mark": "A"}), ((15, 0), {"mark": "B"}),
    ((13, 2), LAWN), ((13, 8), LAWN), ((7.5, 10), {**LAWN, "leg": "curve"}), ((2, 8), {**LAWN, "leg": "curve-end"}),
    ((2, 2), LAWN), ((13, 2), LAWN),
    ((8, 4), POND), ((8, 6), POND), ((5, 6), POND), ((5, 4), POND), ((8, 4), POND),
    ((15, 12), {"mark": "C"}), ((8, 7), {}), ((0, 0), {"mark": "A"}),
)  # fmt: skip
WALK_2 = (
    ((0, 0), {"mark": "A"}), ((15, 0), {"mark": "B"}),
    ((14, 1), PATH), ((14, 11), PATH), ((1, 11), PATH),
    ((0, 12), {"mark": "D"}), ((15, 12), {"mark": "C"}), ((6, 1), {"feature": "Oak", "geometry": "spot"}),
    ((0, 0), {"mark": "A"}),
)  # fmt: skip
GROUND = 10.0
GRID = 0.9996003
"""Grid length by ground length at the place of the job (EPSG:25831, central meridian, near its ground height)."""
EAST, NORTH = 512340.0, 5712850.0
HEADS = "# units: m\n# instrument: level-1\n# date: 2026-05-12\n# site: Ostrel Yard\n"
INSTRUMENT_ROWS = (
    "instrument,scale,scale_shared,heading_rate_deg_per_min,leg_m,leg_m_per_s1_5,stand_m,height_leg_m,"
    "height_leg_m_per_s1_5,height_stand_m\nlevel-1,0.0015,0,0.04,0.003,0.0004,0.004,0.003,0.0003,0.004\n"
)


def ground(x: float, y: float) -> float:
    """Height of the ground, a plane."""
    return GROUND - 0.02 * x - 0.01 * y


def write_walk(name: str, stops: tuple, turn_deg: float, origin: complex) -> str:
    """A log without error, in a frame of its own; held 1 s at each station."""
    rows, clock, before = [], 0.0, None
    turn = complex(math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg)))
    for i, ((x, y), cells) in enumerate(stops, start=1):
        if before is not None:
            clock += math.dist(before, (x, y)) / PACE + 1.0
        before = (x, y)
        place = origin + turn * complex(x, y)
        row = {"walk": name, "station": str(i), "x": f"{place.real:.4f}", "y": f"{place.imag:.4f}"}
        row.update(z=f"{ground(x, y) - 8.0:.4f}", time=f"{clock:.3f}", hold_s="1", **cells)
        rows.append(",".join(row.get(column, "") for column in COLUMNS))
    return HEADS + ",".join(COLUMNS) + "\n" + "\n".join(rows) + "\n"


def write_control() -> str:
    """A and B are fitted, C checks; A has a level."""
    lines = ["# crs: EPSG:25831", "# height-datum: site datum", "mark,x,y,z,sd_xy,sd_z,use"]
    for mark, use in (("A", "fit"), ("B", "fit"), ("C", "check")):
        x, y = MARKS[mark]
        level = f"{ground(x, y):.3f},0.02,0.003" if mark == "A" else ",0.02,"
        lines.append(f"{mark},{EAST + GRID * x:.4f},{NORTH + GRID * y:.4f},{level},{use}")
    return "\n".join(lines) + "\n"


@cache
def _small() -> Mapping[str, bytes]:
    texts = {
        LOG_1: write_walk("W1", WALK_1, 33.0, 4 - 7j),
        LOG_2: write_walk("W2", WALK_2, -71.0, -2 + 3j),
        CONTROL: write_control(),
        TAPES: "# units: m\nfrom,to,distance,sd,slope\nA,B,15.000,0.01,no\nB,C,12.000,0.01,no\n",
        INSTRUMENTS: INSTRUMENT_ROWS,
        DECISIONS: "finding,place,answer,by,when\n",
    }
    return MappingProxyType({name: text.encode() for name, text in texts.items()})


def small() -> Files:
    """The small job."""
    return dict(_small())


@cache
def _shipped(folder: str) -> Mapping[str, bytes]:
    job = make_job(folder, COMMITTED_SEEDS[folder], variant="committed")
    return MappingProxyType({name: text.encode() for name, text in job.items()})


def yard() -> Files:
    """Marlisk Yard as it is shipped, with its drift."""
    return dict(_shipped("marlisk_yard"))


def lane() -> Files:
    """The job in US survey feet as it is shipped, with its drift."""
    return dict(_shipped("sorrelback_lane"))
