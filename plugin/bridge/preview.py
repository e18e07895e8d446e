# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey on trial, before it is accepted: what of it is drawn over the picture, and how well it lies."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsGeometry, QgsVectorLayer

from ..core.errors import BadInput
from .desk import ELLIPSE_TO_95, length
from .ellipses import ellipse_outline, times_for
from .picture import crs_of
from .survey_file import numbers, open_survey, point_places, read_map_way
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from qgis.core import QgsCoordinateReferenceSystem

    from ..core.quantity import Floats

DRAWN = ("areas", "lengths")
MOST = 40
"""Ellipses drawn: those of the marks, and then of the stations that are told worst, none over another's middle."""
CONFIRMS = "PL-01"
"""The finding that asks whether the preview was looked at, of the place `survey`."""


@dataclass(frozen=True, eq=False)
class Preview:
    """A placed survey to be looked at.

    Attributes:
        crs: of its geometry. outlines: areas and lengths. marks: by name, where the survey puts them.
        ellipses: of 95 %, drawn `times` as large as they are.
        residuals: metres from each pair's map point. status: of the placement. scale: map by survey, None where it is
            not known. far: metres, the largest half axis of 95 %.
        asks: whether somebody has to look (or had to) before it counts as placed. against: what speaks against it.
    """

    crs: QgsCoordinateReferenceSystem
    outlines: tuple[QgsGeometry, ...]
    marks: Mapping[str, tuple[float, float]]
    ellipses: tuple[QgsGeometry, ...]
    times: int
    residuals: Mapping[str, float]
    status: str
    scale: float | None
    far: float
    asks: bool
    against: tuple[str, ...]

    @property
    def words(self) -> str:
        """How well it lies, in a sentence or two."""
        if self.against:
            return " ".join(self.against)
        parts = []
        if self.residuals:
            mark, worst = max(self.residuals.items(), key=lambda item: item[1])
            parts.append(tr("{mark} lies off most, {size}").format(mark=mark, size=length(worst)))
        parts.append(tr("±{size} at the worst station (95 %)").format(size=length(self.far)))
        if self.scale is not None:
            parts.append(tr("map to walk {scale:.4f}").format(scale=self.scale))
        return "; ".join(parts) + "."


def read_preview(survey: Path) -> Preview:
    """The trial that lies in a GeoPackage.

    Raises:
        BadInput: it is no survey.
    """
    with open_survey(survey) as database:
        status, scale, crs = database.execute("SELECT status, scale, crs FROM placement").fetchone()
        marks = database.execute("SELECT geom, mark, residual_m FROM marks").fetchall()
        places = point_places([row["geom"] for row in marks])
        told = database.execute(
            "SELECT severity, place, message, answer FROM findings WHERE code = ?", (CONFIRMS,)
        ).fetchall()
        ellipses, times, far = _ellipses(database)
    asks = any(row["place"] == "survey" and row["severity"] == "stop" for row in told)
    return Preview(
        crs_of(str(crs or "")),
        tuple(_geometries(survey)),
        {row["mark"]: (float(x), float(y)) for row, (x, y, _) in zip(marks, places)},
        ellipses,
        times,
        {row["mark"]: float(row["residual_m"]) for row in marks if row["residual_m"] is not None},
        str(status),
        None if scale is None else float(scale),
        far,
        asks,
        tuple(row["message"] for row in told if _is_against(row)),
    )


def _is_against(row: sqlite3.Row) -> bool:
    return row["place"] != "survey" and row["severity"] != "note" and row["answer"] is None


def _geometries(survey: Path) -> list[QgsGeometry]:
    layers = [QgsVectorLayer(f"{survey}|layername={table}", table, "ogr") for table in DRAWN]
    return [
        QgsGeometry(f.geometry())
        for layer in layers
        for f in layer.getFeatures()
        if not f.geometry().isNull()
    ]


def _ellipses(database: sqlite3.Connection) -> tuple[tuple[QgsGeometry, ...], int, float]:
    """Rings on the map, how many times too large, and the largest half axis of 95 % in metres."""
    rows = database.execute(
        "SELECT geom, sigma_major_m, sigma_minor_m, sigma_bearing_deg FROM stations "
        "WHERE sigma_major_m IS NOT NULL ORDER BY mark IS NULL, sigma_major_m DESC"
    ).fetchall()
    if not rows:
        return (), 1, 0.0
    places = point_places([row["geom"] for row in rows])[:, :2]
    axes = numbers(rows, ("sigma_major_m", "sigma_minor_m", "sigma_bearing_deg"))
    axes[:, :2] *= ELLIPSE_TO_95
    metre = 1.0 / np.sqrt(abs(np.linalg.det(read_map_way(database).matrix)))
    far = float(axes[:, 0].max())
    times = times_for(far, float(np.hypot(*np.ptp(places, axis=0))) / metre)
    shown = _apart(places, times * metre * axes[:, 0])
    rings = [
        at + times * metre * ellipse_outline(*size) for at, size in zip(places[shown], axes[shown].tolist())
    ]
    return tuple(map(_polygon, rings)), times, far


def _apart(places: Floats, reach: Floats) -> list[int]:
    """Numbers of ellipses to draw, the first ones first, each farther from the others' middles than it reaches."""
    shown: list[int] = []
    for k in np.flatnonzero(np.isfinite(places).all(axis=1) & np.isfinite(reach)).tolist():
        gaps = np.hypot(*(places[shown] - places[k]).T)
        if (gaps > np.maximum(reach[shown], reach[k])).all():
            shown.append(k)
        if len(shown) == MOST:
            break
    return shown


def _polygon(ring: Floats) -> QgsGeometry:
    return QgsGeometry.fromWkt(f"POLYGON(({', '.join(f'{x!r} {y!r}' for x, y in ring.tolist())}))")


def read_marks(survey: Path) -> tuple[str, ...]:
    """Names of the marks of a survey, short ones first; none where it cannot be read."""
    try:
        with open_survey(survey) as database:
            names = [str(row["mark"]) for row in database.execute("SELECT mark FROM marks")]
    except BadInput:
        return ()
    return tuple(sorted(names, key=lambda name: (len(name), name)))
