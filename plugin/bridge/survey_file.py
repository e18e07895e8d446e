# SPDX-License-Identifier: GPL-2.0-or-later
"""A finished survey as it lies on the disk: its rows, its geometry at once, and the way from its layers' CRS to the
survey plane and back. Nothing here needs the window, and nothing is written."""

from __future__ import annotations

import math
import sqlite3
from contextlib import closing, contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsProject

from ..core.errors import BadInput
from .survey_view import UNIT_LENGTH, UNIT_NAME

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from ..core.quantity import Floats

NICE = (1.0, 2.0, 5.0)
"""Lengths of scale bars, and exaggerations, by powers of ten: such as can be reckoned with in the head."""
SPREAD = 1e-6
"""Of the longer reach of the stations: with a shorter one they lie in a line, and cannot show both axes of the map."""


@dataclass(frozen=True)
class Unit:
    """A unit of length to show figures in: its sign and its length in metres."""

    sign: str = "m"
    metres: float = 1.0

    def of(self, metres: float) -> float:
        """A length in it."""
        return metres / self.metres


METRE = Unit()


@dataclass(frozen=True)
class ScaleBar:
    """A length to draw beside a plan, in metres, and what to write at its end."""

    metres: float
    text: str


def shown_unit(project: QgsProject) -> Unit:
    """The unit that the project's labels show lengths in (two variables of the project); metres where it has none."""
    told = project.customVariables()
    try:
        metres = float(told.get(UNIT_LENGTH, 1.0))
    except (TypeError, ValueError):
        return METRE
    return Unit(str(told.get(UNIT_NAME) or "m"), metres) if math.isfinite(metres) and metres > 0 else METRE


def nice_below(value: float) -> float:
    """The largest of 1, 2 and 5 by powers of ten that is not above a positive value."""
    if not (math.isfinite(value) and value > 0.0):
        return 1.0
    power = 10.0 ** math.floor(math.log10(value))
    return max((k * power for k in NICE if k * power <= value * (1.0 + 1e-12)), default=power)


def scale_bar(reach: float, unit: Unit) -> ScaleBar:
    """A bar of a quarter of a plan's reach (metres) at the most, a round number of the unit."""
    length = nice_below(unit.of(reach) / 4.0)
    return ScaleBar(length * unit.metres, f"{length:g} {unit.sign}")


@contextmanager
def open_survey(survey: Path) -> Iterator[sqlite3.Connection]:
    """The survey's database, to be read.

    Raises:
        BadInput: it is not there, or is no survey, or one made before its tables had what is asked for.
    """
    try:
        with closing(sqlite3.connect(f"{survey.absolute().as_uri()}?mode=ro", uri=True)) as database:
            database.row_factory = sqlite3.Row
            yield database
    except sqlite3.Error as error:
        raise BadInput(
            "{path} cannot be read as a survey of this version ({reason}). Run the job again.",
            path=str(survey),
            reason=str(error),
        ) from error


def has_table(database: sqlite3.Connection, name: str) -> bool:
    """Whether the survey has a table."""
    return database.execute("SELECT 1 FROM sqlite_master WHERE name = ?", (name,)).fetchone() is not None


@dataclass(frozen=True, eq=False)
class MapWay:
    """From a layer's CRS to the survey plane (metres) and back: plane = middle of the plane + matrix (map - middle of the
    map). Fitted to the stations, which have both. What a map's scale changes across the site is left out: over a kilometre a
    millimetre on a national grid, and a ten-thousandth of a length on the web map at 51 degrees.

    Attributes:
        on_map, on_plane: (2,) the middles. matrix: (2, 2). z_metres: length of the layer's unit of height.
    """

    on_map: Floats
    on_plane: Floats
    matrix: Floats
    z_metres: float = 1.0

    def to_plane(self, xy: Floats) -> Floats:
        """(n, 2) map -> survey plane."""
        return np.asarray(self.on_plane + (xy - self.on_map) @ self.matrix.T)

    def to_map(self, xy: Floats) -> Floats:
        """(n, 2) survey plane -> map."""
        return np.asarray(self.on_map + (xy - self.on_plane) @ np.linalg.inv(self.matrix).T)


def fit_map_way(on_map: Floats, on_plane: Floats) -> MapWay:
    """The way that brings the stations of the map (n, 3) to those of the plane (n, 3), whatever the map's unit, turn and
    handedness; of stations in one line, a turn and a scale. Without stations nothing is changed."""
    good = np.isfinite(on_map[:, :2]).all(axis=1) & np.isfinite(on_plane[:, :2]).all(axis=1)
    a, b = on_map[good], on_plane[good]
    if not len(a):
        return MapWay(np.zeros(2), np.zeros(2), np.eye(2))
    middle_a, middle_b = a[:, :2].mean(axis=0), b[:, :2].mean(axis=0)
    p, q = a[:, :2] - middle_a, b[:, :2] - middle_b
    reach = np.linalg.svd(p, compute_uv=False) if len(p) > 1 else np.zeros(2)
    if reach[0] == 0.0:
        matrix = np.eye(2)
    elif reach[-1] > SPREAD * reach[0]:
        matrix = np.linalg.lstsq(p, q, rcond=None)[0].T
    else:
        along, onto = p[:, 0] + 1j * p[:, 1], q[:, 0] + 1j * q[:, 1]
        m = np.vdot(along, onto) / np.vdot(along, along)
        matrix = np.array([[m.real, -m.imag], [m.imag, m.real]])
    return MapWay(middle_a, middle_b, np.asarray(matrix), _height_unit(a[:, 2], b[:, 2]))


def _height_unit(on_map: Floats, metres: Floats) -> float:
    """Metres by unit of the map's heights: the stations have them in both; 1 where none is off nothing."""
    good = np.isfinite(on_map) & np.isfinite(metres)
    size = float(on_map[good] @ on_map[good])
    return float(on_map[good] @ metres[good]) / size if size > 0.0 else 1.0


def read_map_way(database: sqlite3.Connection) -> MapWay:
    """The way of a survey's own stations."""
    rows = database.execute("SELECT geom, x_m, y_m, z_m FROM stations").fetchall()
    on_map = point_places([row["geom"] for row in rows])
    on_plane = numbers(rows, ("x_m", "y_m", "z_m"))
    return fit_map_way(on_map, on_plane)


def point_places(blobs: Sequence[bytes | None]) -> Floats:
    """(n, 3) places of GeoPackage points with z, NaN where there is none.

    Source: OGC GeoPackage 1.3 (OGC 12-128r17), 2.1.3: head, envelope, then well-known binary.
    """
    out = np.full((len(blobs), 3), np.nan)
    for k, blob in enumerate(blobs):
        # A point with z is the last three doubles of its binary, whatever the head before it holds.
        if blob is not None and len(blob) >= POINT_BYTES:
            out[k] = np.frombuffer(blob[-24:], "<f8")
    return out


POINT_BYTES = 8 + 5 + 24
"""A GeoPackage point with z and no envelope."""


def numbers(rows: Sequence[sqlite3.Row], columns: Sequence[str]) -> Floats:
    """(n, k) columns of rows as numbers, NaN for NULL."""
    cells = [[math.nan if row[name] is None else float(row[name]) for name in columns] for row in rows]
    return np.array(cells, float).reshape(len(rows), len(columns))
