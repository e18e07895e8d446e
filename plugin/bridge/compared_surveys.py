# SPDX-License-Identifier: GPL-2.0-or-later
"""Two survey GeoPackages in one plane, as far as they are compared."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsCoordinateReferenceSystem, QgsVectorLayer

from ..core.errors import BadInput
from ..core.measure.rows import Ellipse, StationRow, Tags
from ..core.place.fit import fit_similarity
from ..core.plane import SurveyPlane
from ..core.quantity import Quantity
from ..core.register.known import Spreads, corners_of, gather_stations, height_parts, make_thing
from ..core.register.match import pair_stations
from ..core.register.noise import read_parts
from ..core.register.records import Known, Stations, Table, Thing
from ..core.segments import chorded
from .fields import RunFact
from .planned import plane_about
from .sources import ground_of
from .surfaces import into_plane
from .survey_file import MapWay, has_table, numbers, open_survey, point_places
from .survey_shapes import table_edges

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Sequence
    from contextlib import AbstractContextManager

    from ..core.measure.layer.ground import GroundWay
    from ..core.measure.rows import Survey
    from ..core.quantity import Floats
    from ..core.register.noise import HeightParts
    from .planned import Plane

INSTRUMENT = "instrument"
"""Kind of the facts of a run that say what each walk's heights are worth."""
SIZES = {Table.AREA: "area_m2", Table.LENGTH: "length_m"}
ROWS_OF = {Table.AREA: "SELECT * FROM areas", Table.LENGTH: "SELECT * FROM lengths"}
NAMES = ("feature", "part", "item", "status")


@dataclass(frozen=True, eq=False)
class OpenedPair:
    """Two surveys in the plane of the earlier one; the CRS that its `to_crs` goes to; and of which walks nothing was kept
    on what their heights are worth against each other."""

    before: Known
    after: Known
    plane: Plane
    crs: QgsCoordinateReferenceSystem
    assumed: tuple[str, ...]


def instrument_facts(survey: Survey) -> tuple[RunFact, ...]:
    """What a survey keeps of its walks' heights, so that it can be compared with a later one."""
    return tuple(RunFact(INSTRUMENT, name, parts.text) for name, parts in height_parts(survey).items())


def is_survey(path: str | Path) -> bool:
    """Whether a file is a GeoPackage with stations."""
    path = Path(path)
    if path.suffix.lower() != ".gpkg" or not path.is_file():
        return False
    with open_survey(path) as database:
        return has_table(database, "stations") and has_table(database, "placement")


def read_pair(before: str | Path, after: str | Path) -> OpenedPair:
    """Two surveys side by side.

    A survey that is not placed is laid on the other by the stations that both name, rigidly.

    Raises:
        BadInput: a file that is no survey of this version, without stations, or not placed and without two places in common.
        BadCrs, Refused: there is no good way between their CRSs.
    """
    one, other = _Opened(Path(before)), _Opened(Path(after))
    plane = one.plane
    with one.database() as database:
        earlier = one.known(database, plane)
    is_apart = one.way.is_local or other.way.is_local
    with other.database() as database:
        later = other.known(database, other.plane if is_apart else plane)
    if is_apart:
        later = _laid(later, earlier, other.path)
    return OpenedPair(earlier, later, plane, one.crs, (*one.assumed, *other.assumed))


def _laid(later: Known, earlier: Known, path: Path) -> Known:
    """A survey turned and shifted onto another, whose plane has another origin and turn."""
    i, j = pair_stations(earlier.stations, later.stations, None)
    places = later.stations.xy[j]
    if len(i) < FEWEST or np.ptp(places, axis=0).max() == 0.0:
        raise BadInput(
            "{path} or the survey before it is not placed on the map, and they name no two places alike. Place both, or name "
            "the marks alike.",
            path=str(path),
        )
    fit = fit_similarity(places, earlier.stations.xy[i])
    turned = fit.matrix
    stations = replace(
        later.stations, xy=fit.apply(later.stations.xy), spread=turned @ later.stations.spread @ turned.T
    )
    things = tuple(
        replace(
            thing,
            paths=tuple(map(fit.apply, thing.paths)),
            corners=fit.apply(thing.corners),
            spread=turned @ thing.spread @ turned.T,
        )
        for thing in later.things
    )
    return Known(things, stations, 0.0)


FEWEST = 2
"""Places that two surveys must share where one of them is not placed."""


@dataclass(frozen=True, eq=False)
class _PlaneWay(MapWay):
    """From a layer's CRS into a plane, point by point."""

    there: tuple[GroundWay, Plane, str] | None = None

    @classmethod
    def of(cls, way: GroundWay, plane: Plane, name: str) -> _PlaneWay:
        return cls(np.zeros(2), np.zeros(2), np.eye(2), way.unit_m, (way, plane, name))

    def to_plane(self, xy: Floats) -> Floats:
        assert self.there is not None  # noqa: S101 - `of` has given it
        way, plane, name = self.there
        return into_plane(xy, way, plane, name) if len(xy) else xy


class _Opened:
    """One survey file."""

    def __init__(self, path: Path) -> None:
        self.path = path
        if not is_survey(path):
            raise BadInput(
                "{path} is no survey. Choose a GeoPackage that Survey walks has written.", path=str(path)
            )
        self.crs = QgsVectorLayer(f"{path}|layername=stations", "stations", "ogr").crs()
        self.way = ground_of(self.crs)
        self.assumed: tuple[str, ...] = ()
        with self.database() as database:
            rows = database.execute("SELECT geom, z_m FROM stations").fetchall()
        xy = point_places([row["geom"] for row in rows])[:, :2]
        xy = xy[np.isfinite(xy).all(axis=1)]
        if not len(xy):
            raise BadInput("{path} holds no stations with a place. Run the job again.", path=str(path))
        z = numbers(rows, ("z_m",))
        height = float(np.nanmean(z)) if np.isfinite(z).any() else 0.0
        self.plane = plane_about(xy, self.way, height)

    def database(self) -> AbstractContextManager[sqlite3.Connection]:
        return open_survey(self.path)

    def known(self, database: sqlite3.Connection, plane: Plane) -> Known:
        """What of it is compared, in a plane."""
        way = _PlaneWay.of(self.way, plane, self.path.name)
        stations = self._stations(database, way, plane)
        spreads = Spreads(stations)
        things = [
            *self._shaped(database, Table.AREA, way, spreads),
            *self._shaped(database, Table.LENGTH, way, spreads),
            *self._spots(database, way, spreads),
        ]
        row = database.execute("SELECT common_m_sigma FROM placement").fetchone()
        common = row["common_m_sigma"] if row else None
        return Known(tuple(thing for thing in things if thing), stations, float(common or 0.0))

    def _stations(self, database: sqlite3.Connection, way: _PlaneWay, plane: Plane) -> Stations:
        rows = database.execute("SELECT * FROM stations").fetchall()
        places = _finite(point_places([row["geom"] for row in rows])[:, :2], way)
        turn = self.plane.grid_turn if isinstance(self.plane, SurveyPlane) else 0.0
        told = [_station(row, xy, turn) for row, xy in zip(rows, places.tolist())]
        worth = self._worth(database)
        walks = {row["walk"] for row in rows if row["walk"]}
        self.assumed = tuple(f"{self.path.name}: {name}" for name in sorted(walks - set(worth)))
        return gather_stations(told, worth, lambda xy: xy)

    def _worth(self, database: sqlite3.Connection) -> dict[str, HeightParts]:
        rows = database.execute("SELECT name, value FROM runs WHERE kind = ?", (INSTRUMENT,)).fetchall()
        told = {row["name"]: read_parts(row["value"] or "") for row in rows}
        return {name: parts for name, parts in told.items() if parts is not None}

    def _shaped(
        self, database: sqlite3.Connection, table: Table, way: _PlaneWay, spreads: Spreads
    ) -> list[Thing | None]:
        """The areas or the lengths."""
        rows = database.execute(ROWS_OF[table]).fetchall()
        edges = table_edges([row["geom"] for row in rows], way)
        out = []
        for k, row in enumerate(rows):
            curves = [edges.curve(run) for run in edges.runs_of(k).tolist()]
            paths = tuple(chorded(curve)[:, :2] for curve in curves)
            corners = corners_of(curves, is_area=table is Table.AREA)
            out.append(make_thing(table, _tags(row), paths, corners, _size(row, SIZES[table]), spreads))
        return out

    def _spots(self, database: sqlite3.Connection, way: _PlaneWay, spreads: Spreads) -> list[Thing | None]:
        rows = database.execute("SELECT * FROM spots").fetchall()
        places = _finite(point_places([row["geom"] for row in rows])[:, :2], way)
        each = ((row, xy[None]) for row, xy in zip(rows, places))
        return [make_thing(Table.SPOT, _tags(row), (xy,), xy, None, spreads) for row, xy in each]


def _finite(xy: Floats, way: _PlaneWay) -> Floats:
    """Places in the plane; those that are none stay so."""
    good = np.isfinite(xy).all(axis=1)
    out = np.full_like(xy, np.nan)
    out[good] = way.to_plane(xy[good])
    return out


def _tags(row: sqlite3.Row) -> Tags:
    feature, part, item, status = (row[name] or "" for name in NAMES)
    return Tags(feature=feature, part=part, item=item, status=status)


def _station(row: sqlite3.Row, xy: Sequence[float], turn: float) -> StationRow:
    z = math.nan if row["z_m"] is None else float(row["z_m"])
    ellipse = None
    if row["sigma_major_m"] is not None:
        angle = math.radians(90.0 - (row["sigma_bearing_deg"] or 0.0)) - turn
        ellipse = Ellipse(row["sigma_major_m"], row["sigma_minor_m"], angle)
    return StationRow(
        tags=Tags(walk=row["walk"] or "", feature=row["feature"] or "", part=row["part"] or ""),
        station=row["station"] or "",
        point=(xy[0], xy[1], z),
        ellipse=ellipse,
        z_sigma=row["z_m_sigma"],
        mark=row["mark"] or "",
        leg=row["leg"] or "",
        time=row["time"] or "",
    )


def _size(row: sqlite3.Row, column: str) -> Quantity | None:
    if row[column] is None or row[f"{column}_sigma"] is None:
        return None
    return Quantity(float(row[column]), float(row[f"{column}_sigma"]), column.rpartition("_")[2])
