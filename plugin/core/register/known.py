# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey as it was measured, ready to be compared; the same as what its GeoPackage tells."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np

from ..measure.rows import AreaRow, Ellipse, LengthRow, SpotRow, StationRow, Survey, Tags
from ..quantity import Floats, Quantity
from ..segments import Curve, chorded
from .noise import DEFAULT_PARTS, HeightParts, leg_variances, parts_of
from .records import Known, Stations, Table, Thing

UNKNOWN_SIGMA = 0.05
"""Metres per axis, of a place or a height of which a survey does not say what it is worth."""
DENSE = "as-walked"
LEVELS = ("", "existing")
"""What the status of a spot without an item says where it is a level of the ground."""

Way = Callable[[Floats], Floats]
"""(n, 2) places of a survey's own plane -> the common plane; turns by no more than the planes differ, which is nothing."""


def known_survey(survey: Survey, way: Way = lambda xy: xy) -> Known:
    """What of a survey is compared.

    Args:
        survey: as measured.
        way: from its plane to the common one.
    """
    stations = gather_stations(survey.stations, height_parts(survey), way)
    spreads = Spreads(stations)
    rows: list[AreaRow | LengthRow | SpotRow] = [*survey.areas, *survey.lengths, *survey.spots]
    things = [_thing(row, spreads, way) for row in rows]
    return Known(tuple(one for one in things if one), stations, survey.placement.common_sigma or 0.0)


def height_parts(survey: Survey) -> dict[str, HeightParts]:
    """What the heights of each walk are worth, where its model says it in a few numbers."""
    if survey.workings is None:
        return {}
    adjusted = survey.workings.placed.adjusted
    told = {walk.name: parts_of(model) for walk, model in zip(adjusted.walks, adjusted.models)}
    return {name: parts for name, parts in told.items() if parts is not None}


class Spreads:
    """What the places of a feature are worth, by its stations."""

    def __init__(self, stations: Stations) -> None:
        """Of the stations of one survey."""
        self._stations = stations
        rows: dict[tuple[str, ...], list[int]] = {}
        for k, key in enumerate(stations.key):
            rows.setdefault(key, []).append(k)
        self._rows = {key: np.array(its) for key, its in rows.items()}

    def of(self, feature: str, part: str, corners: Floats) -> Floats:
        """(v, 2, 2) of each corner: that of the nearest station of the feature."""
        its = self._rows.get((feature, part))
        if its is None:
            return np.tile(UNKNOWN_SIGMA**2 * np.eye(2), (len(corners), 1, 1))
        away = ((corners[:, None] - self._stations.xy[its][None]) ** 2).sum(axis=2)
        return np.asarray(self._stations.spread[its[away.argmin(axis=1)]])


def _thing(row: AreaRow | LengthRow | SpotRow, spreads: Spreads, way: Way) -> Thing | None:
    if isinstance(row, SpotRow):
        place = way(np.array([row.point[:2]], float))
        return make_thing(Table.SPOT, row.tags, (place,), place, None, spreads)
    is_area = isinstance(row, AreaRow)
    curves = row.outline if isinstance(row, AreaRow) else row.runs
    size = row.area if isinstance(row, AreaRow) else row.length
    table = Table.AREA if is_area else Table.LENGTH
    paths = tuple(way(chorded(curve)[:, :2]) for curve in curves)
    return make_thing(table, row.tags, paths, way(corners_of(curves, is_area=is_area)), size, spreads)


def corners_of(curves: Sequence[Curve], *, is_area: bool) -> Floats:
    """(v, 2) the vertices of rings or lines, each once."""
    each = [curve.points[:-1, :2] if is_area else curve.points[:, :2] for curve in curves]
    return np.vstack([np.zeros((0, 2)), *each])


def make_thing(
    table: Table,
    tags: Tags,
    paths: tuple[Floats, ...],
    corners: Floats,
    size: Quantity | None,
    spreads: Spreads,
) -> Thing | None:
    """A thing of a survey; None of one that lies nowhere.

    Args:
        table: what it is.
        tags: its names.
        paths: rings or runs in the common plane, metres.
        corners: vertices in it.
        size: its area or length.
        spreads: what places are worth.
    """
    if not len(corners) or not np.isfinite(corners).all():
        return None
    is_level = table is Table.SPOT and not tags.item and tags.status in LEVELS
    spread = spreads.of(tags.feature, tags.part, corners)
    return Thing(table, tags.feature, tags.part, tags.item, paths, corners, spread, size, is_level)


def gather_stations(rows: Sequence[StationRow], worth: dict[str, HeightParts], way: Way) -> Stations:
    """The stations of a survey's rows, in order."""
    xy = way(np.array([row.point[:2] for row in rows], float).reshape(-1, 2))
    walks = [row.tags.walk for row in rows]
    number = {name: k for k, name in enumerate(dict.fromkeys(walks))}
    walk = np.array([number[name] for name in walks], np.int64)
    is_dense = np.array([row.leg == DENSE for row in rows], bool)
    time = np.array([_seconds(row.time) for row in rows])
    z_sigma = np.array([_number(row.z_sigma) for row in rows])
    leg, stand = np.zeros(len(rows)), np.zeros(len(rows))
    for name, k in number.items():
        its = np.flatnonzero(walk == k)
        parts = worth.get(name, DEFAULT_PARTS)
        leg[its], stand[its] = leg_variances(parts, xy[its], time[its], is_dense[its])
        if name not in worth:  # each may err by itself, as the points of a list do
            stand[its] = np.maximum(stand[its], z_sigma[its] ** 2)
    return Stations(
        xy,
        np.array([row.point[2] for row in rows], float),
        np.array([spread_of(row.ellipse) for row in rows]).reshape(-1, 2, 2),
        z_sigma,
        tuple(_key(row) for row in rows),
        walk,
        leg,
        stand,
        is_dense,
    )


def _key(row: StationRow) -> tuple[str, ...]:
    if row.tags.feature:
        return row.tags.feature, row.tags.part
    return (row.mark,) if row.mark else ()


def spread_of(ellipse: Ellipse | None) -> Floats:
    """(2, 2) covariance of a place, m2."""
    if ellipse is None or not (math.isfinite(ellipse.major) and math.isfinite(ellipse.minor)):
        return UNKNOWN_SIGMA**2 * np.eye(2)
    along = np.array([math.cos(ellipse.angle), math.sin(ellipse.angle)])
    across = np.array([-along[1], along[0]])
    return np.asarray(ellipse.major**2 * np.outer(along, along) + ellipse.minor**2 * np.outer(across, across))


def _number(value: float | None) -> float:
    return UNKNOWN_SIGMA if value is None or not math.isfinite(value) else value


def _seconds(text: str) -> float:
    """A station's time in seconds; of a clock's, of its day. NaN where there is none."""
    try:
        return float(text)
    except ValueError:
        pass
    clock = text.partition("T")[2].rstrip("Z").split("+")[0].split("-")[0].split(":")
    try:
        hours, minutes, seconds = map(float, clock)
    except ValueError:
        return math.nan
    return 3600.0 * hours + 60.0 * minutes + seconds
