# SPDX-License-Identifier: GPL-2.0-or-later
"""What a survey GeoPackage knows of one named surface: its levels, its marks, and its walked edges as breaklines."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeature, QgsFeatureRequest, QgsVectorLayer

from ..core.defaults import GROUND
from ..core.errors import BadInput
from .drawn import text_of
from .ground_layers import GroundLayers, Role
from .survey_file import has_table, open_survey

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ..core.quantity import Floats, Ints
    from .ground_layers import Worth

AREAS = "areas"
EDGES = (AREAS, "lengths")
"""Tables whose features are walked edges."""
UNKNOWN_SIGMA_M = 0.02
"""Metres: of a height for which the survey says nothing."""
NO_PART = "\0"
"""A part that no feature has."""


@dataclass(frozen=True)
class Taken:
    """So many rows of a survey were taken, and so many of them are areas."""

    rows: int
    areas: int


def add_survey(layers: GroundLayers, path: str | Path, surface: str, *, inside: bool = False) -> Taken:
    """Add a survey's heights of one surface.

    Taken are the spots, the marks, the stations on the way (of no feature), and the edges of areas and lengths, each with
    what its stations' heights are worth, by themselves and together; of rows without a surface's name, those count as ground.

    Args:
        layers: that they are added to.
        path: of the survey GeoPackage.
        surface: ground, stripped, formation, finished or any other name.
        inside: whether only the inside of the survey's areas of that surface is ground.
    Raises:
        BadInput: the file is no survey, has no height of that surface, or no area of it where only those count.
    """
    path = Path(path)
    with open_survey(path) as database:
        there = {name for name in ("spots", "stations", "marks", *EDGES) if has_table(database, name)}
    if "stations" not in there:
        raise BadInput(
            "{path} holds no stations. Choose a GeoPackage that Survey walks has written.", path=str(path)
        )
    stations = _rows(path, "stations", lambda row: True)
    heights = _Heights(stations)
    taken, areas = 0, 0
    for table in (*EDGES, "spots", "marks", "stations"):
        if table not in there:
            continue
        rows = [row for row in _rows(path, table, _has_height) if _is_of(row, table, surface)]
        crs = _layer(path, table).crs()
        if rows and table in EDGES:
            is_area = table == AREAS
            role = Role.INSIDE if inside and is_area else Role.BREAKLINE
            layers.add_lines(role, rows, crs, heights.worth(rows), table)
            areas += len(rows) if is_area else 0
        elif rows:
            layers.add_levels(rows, crs, heights.worth(rows), table)
        taken += len(rows)
    if not taken:
        raise BadInput(
            "{path} holds no height of the surface {surface}. Choose another surface, or write its name into the logs' "
            "column surface.",
            path=str(path),
            surface=surface,
        )
    if inside and not areas:
        raise BadInput(
            "{path} has no area of the surface {surface} with heights. Draw a boundary instead, or build it without one.",
            path=str(path),
            surface=surface,
        )
    return Taken(taken, areas)


def has_areas(path: Path, surface: str) -> bool:
    """Whether a survey has areas of a surface whose vertices all have heights; no survey has none."""
    return any(_is_of(row, AREAS, surface) for row in _rows(path, AREAS, _has_height))


def _layer(path: Path, table: str) -> QgsVectorLayer:
    return QgsVectorLayer(f"{path}|layername={table}", table, "ogr")


def _rows(path: Path, table: str, keep: Callable[[QgsFeature], bool]) -> list[QgsFeature]:
    return [row for row in _layer(path, table).getFeatures(QgsFeatureRequest()) if keep(row)]


def _has_height(row: QgsFeature) -> bool:
    """Whether every vertex has a height."""
    return bool(row.hasGeometry()) and all(np.isfinite(vertex.z()) for vertex in row.geometry().vertices())


def _is_of(row: QgsFeature, table: str, surface: str) -> bool:
    named = text_of(row["surface"]) or GROUND
    if table == "stations":
        return named == surface and not text_of(row["feature"]) and not text_of(row["mark"])
    return named == surface


def _number(value: object) -> float:
    return value if isinstance(value, float) and np.isfinite(value) else UNKNOWN_SIGMA_M


class _Heights:
    """What the heights of a survey's stations are worth: what each errs by itself, and what it shares with the others."""

    def __init__(self, stations: Sequence[QgsFeature]) -> None:
        rows = [row for row in stations if _has_height(row)]
        places = [row.geometry().constGet() for row in rows]
        self._xy = np.array([(place.x(), place.y()) for place in places], float).reshape(-1, 2)
        told = [_worth_of(row) for row in rows]
        self._own = np.array([own for own, _ in told])
        self._shared = np.zeros((len(rows), max((len(shared) for _, shared in told), default=0)))
        for k, (_, shared) in enumerate(told):
            self._shared[k, : len(shared)] = shared
        self._of: dict[tuple[str, str], list[int]] = {}
        for k, row in enumerate(rows):
            self._of.setdefault(_key(row), []).append(k)

    def worth(self, rows: Sequence[QgsFeature]) -> Worth:
        """Of the points of some features: as of the stations of the same feature and part (of all, where it has none of its
        own) that lie next to each, evenly between the nearest two."""

        def tell(feature: Ints, xy: Floats) -> tuple[Floats, Floats]:
            own, shared = np.full(len(xy), UNKNOWN_SIGMA_M), np.zeros((len(xy), self._shared.shape[1]))
            groups: dict[tuple[str, str], list[int]] = {}
            for k, row in enumerate(feature.tolist()):
                groups.setdefault(_key(rows[row]), []).append(k)
            for key, its in groups.items() if len(self._xy) else ():
                stations = np.array(self._of.get(key, range(len(self._xy))), np.int64)
                a, b, part = _beside(self._xy[stations], xy[its])
                a, b = stations[a], stations[b]
                own[its] = self._own[a] * (1.0 - part) + self._own[b] * part
                shared[its] = self._shared[a] * (1.0 - part)[:, None] + self._shared[b] * part[:, None]
            return own, shared

        return tell


def _key(row: QgsFeature) -> tuple[str, str]:
    if row.fields().lookupField("residual_m") >= 0:
        return "", NO_PART  # a mark: whatever stands nearest to it
    return text_of(row["feature"]), text_of(row["part"])


def _worth_of(row: QgsFeature) -> tuple[float, list[float]]:
    """A station's own part and what it shares; of a survey that does not tell them, its whole sigma as its own."""
    if row.fields().lookupField("z_shared") < 0 or not text_of(row["z_shared"]):
        return _number(row["z_m_sigma"]), []
    return _number(row["z_own_m_sigma"]), [float(part) for part in json.loads(text_of(row["z_shared"]))]


def _beside(stations: Floats, xy: Floats) -> tuple[Ints, Ints, Floats]:
    """(n,) of places the nearest two stations, and the part of the way from the one to the other."""
    from scipy.spatial import cKDTree

    some = min(2, len(stations))
    near = cKDTree(stations).query(xy, some)[1].reshape(len(xy), some)
    a, b = near[:, 0], near[:, -1]
    way, to = stations[b] - stations[a], xy - stations[a]
    square = (way**2).sum(axis=1)
    along = np.divide((way * to).sum(axis=1), square, out=np.zeros(len(xy)), where=square > 0.0)
    return a, b, np.clip(along, 0.0, 1.0)
