# SPDX-License-Identifier: GPL-2.0-or-later
"""Ponds, the points they run off over, and the ways of their water, as rows of layers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsGeometry, QgsLineString, QgsMultiPolygon, QgsPoint, QgsPolygon

from ..core.ground.ways_out import RIM
from .fields import Kind
from .geometry import MapFrame
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..core.ground.ponds import Pond
    from ..core.ground.ways_out import WayOut
    from ..core.quantity import Quantity
    from .planned import Plane

METHOD = "exact over the triangles; water leaves over outer edges and edges of voids"
OVER_RIM, POND, UNSURE = "rim", "pond", "cannot tell"


def _with_sigma(*names: str) -> tuple[tuple[str, Kind], ...]:
    return tuple((whole, Kind.REAL) for name in names for whole in (name, f"{name}_sigma"))


HEAD = (("pond", Kind.WHOLE), ("surface", Kind.TEXT))
POND_COLUMNS = (
    *HEAD,
    *_with_sigma("level_m", "depth_m", "area_m2", "volume_m3"),
    ("lowest_m", Kind.REAL),
    ("weak_m2", Kind.REAL),
    ("outcome", Kind.TEXT),
    ("chance_ratio", Kind.REAL),
    ("runs_into", Kind.TEXT),
    ("method", Kind.TEXT),
    ("sigma_from", Kind.TEXT),
    ("finding", Kind.TEXT),
)
SPILL_COLUMNS = (*HEAD, *_with_sigma("level_m"), ("runs_into", Kind.TEXT), ("method", Kind.TEXT))
WAY_COLUMNS = (
    *HEAD,
    ("length_m", Kind.REAL),
    ("drop_m", Kind.REAL),
    ("gradient_ratio", Kind.REAL),
    ("runs_into", Kind.TEXT),
    ("method", Kind.TEXT),
)


@dataclass(frozen=True, eq=False)
class PondRow:
    """A pond with its way out, its number in the table, and what it runs into as the table tells it."""

    pond: Pond
    way: WayOut
    number: int
    into: str


def number_ponds(ponds: list[Pond], ways: list[WayOut], first: int) -> list[PondRow]:
    """Ponds with numbers of the table, from `first` on. What runs into one that is too shallow to be told runs on,
    into what that one does.

    Args:
        ponds: of one surface.
        ways: of all its ponds, by their number.
        first: the number of the first pond.
    """
    numbers = {pond.number: first + k for k, pond in enumerate(ponds)}
    out = []
    for pond in ponds:
        into = ways[pond.number].into
        while into != RIM and into not in numbers:
            into = ways[into].into
        told = OVER_RIM if into == RIM else f"{POND} {numbers[into]}"
        out.append(PondRow(pond, ways[pond.number], numbers[pond.number], told))
    return out


def pond_values(row: PondRow, surface: str, sigma_from: str) -> list[object]:
    """The columns of a pond."""
    pond = row.pond
    return [
        row.number,
        surface,
        *_pairs(pond.level, pond.depth, pond.area, pond.volume),
        float(pond.deepest[2]),
        pond.weak,
        POND if pond.is_certain else UNSURE,
        pond.chance,
        row.into,
        METHOD,
        sigma_from,
        _finding(pond),
    ]


def _finding(pond: Pond) -> str:
    if pond.is_certain:
        return tr("DR-01: Water stands here. Raise the ground, add a drain, or accept it as a pond.")
    return tr("The depth is within what it is worth: cannot tell whether water stands here. Level it better.")


def spill_values(row: PondRow, surface: str) -> list[object]:
    """The columns of the point a pond runs off over."""
    return [row.number, surface, *_pairs(row.pond.level), row.into, METHOD]


def way_values(row: PondRow, surface: str) -> list[object]:
    """The columns of a way out of more than one point."""
    steps = np.diff(row.way.line, axis=0)
    length, drop = float(np.hypot(steps[:, 0], steps[:, 1]).sum()), float(-steps[:, 2].sum())
    return [row.number, surface, length, drop, drop / length if length else None, row.into, METHOD]


def _pairs(*quantities: Quantity) -> list[object]:
    return [value for quantity in quantities for value in (quantity.value, quantity.sigma)]


def pond_geometry(pond: Pond, plane: Plane) -> QgsGeometry:
    """The water's edge, at its level, in the layer's CRS."""
    frame, whole = MapFrame(plane), QgsMultiPolygon()
    for rings in pond.outline:
        polygon = QgsPolygon()
        for number, ring in enumerate(rings):
            line = _line(frame.points(np.column_stack([ring, np.full(len(ring), pond.level.value)])))
            polygon.addInteriorRing(line) if number else polygon.setExteriorRing(line)
        whole.addGeometry(polygon)
    return QgsGeometry(whole)


def spill_geometry(pond: Pond, plane: Plane) -> QgsGeometry:
    """The point a pond runs off over, in the layer's CRS."""
    return QgsGeometry(QgsPoint(*MapFrame(plane).points(pond.spill[None])[0].tolist()))


def way_geometry(way: WayOut, plane: Plane) -> QgsGeometry:
    """The way of a pond's water, in the layer's CRS."""
    return QgsGeometry(_line(MapFrame(plane).points(way.line)))


def _line(points: np.ndarray) -> QgsLineString:  # type: ignore[type-arg]
    return QgsLineString(*(column.tolist() for column in points.T))


def long_ways(rows: list[PondRow]) -> Iterator[PondRow]:
    """The rows whose way has a length."""
    return (row for row in rows if len(row.way.line) > 1)
