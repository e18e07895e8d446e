# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey's plan made ready to be drawn on one page: what is built where, told by hatch, line kind and letter.

Places are metres on the ground, grid north up, from the middle of the stations."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from ..core.segments import chorded
from .survey_file import (
    METRE,
    MapWay,
    ScaleBar,
    Unit,
    numbers,
    open_survey,
    point_places,
    read_map_way,
    scale_bar,
)
from .survey_shapes import TableEdges, table_edges
from .text import tr

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Sequence
    from pathlib import Path

    from ..core.quantity import Floats

SMOOTH = 1.0 / 5000.0
"""Of the plan's reach: a chord this near to its arc is not seen on a sheet."""
EDGE = 0.05
"""Of the reach: room about the plan."""
LONELY = 10.0
"""Metres shown about a survey of one place."""
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class Shown(Enum):
    """How a feature is drawn; on the map in the same kinds (styles of areas and lengths)."""

    NEW = "new"
    EXISTING = "existing"
    RETAIN = "retain"
    REMOVE = "remove"
    NO_FIGURES = "no figures"
    HOLE = "hole"


def shown_words(shown: Shown) -> str:
    """The kind in words of the trade."""
    return {
        Shown.NEW: tr("new or not stated"),
        Shown.EXISTING: tr("existing"),
        Shown.RETAIN: tr("to retain"),
        Shown.REMOVE: tr("to remove"),
        Shown.NO_FIGURES: tr("no figures: see findings"),
        Shown.HOLE: tr("hole"),
    }[shown]


@dataclass(frozen=True, eq=False)
class AreaDrawn:
    """An area: its rings, the outer one first, (n, 2) each; its kind; the letter of its item; where to write it."""

    name: str
    rings: tuple[Floats, ...]
    shown: Shown
    letter: str
    at: tuple[float, float]


@dataclass(frozen=True, eq=False)
class LengthDrawn:
    """A length: its runs, (n, 2) each."""

    name: str
    runs: tuple[Floats, ...]
    shown: Shown
    letter: str
    at: tuple[float, float]


@dataclass(frozen=True)
class PointDrawn:
    """A spot with its height, or a mark with its name."""

    x: float
    y: float
    text: str


@dataclass(frozen=True, eq=False)
class PlanPreview:
    """The plan: `key` tells what each letter stands for, `box` the least and most x and y."""

    areas: tuple[AreaDrawn, ...]
    lengths: tuple[LengthDrawn, ...]
    spots: tuple[PointDrawn, ...]
    marks: tuple[PointDrawn, ...]
    key: tuple[tuple[str, str], ...]
    bar: ScaleBar
    box: tuple[float, float, float, float]

    @property
    def kinds(self) -> tuple[Shown, ...]:
        """The kinds that are there, in the order of the legend."""
        there = {area.shown for area in self.areas} | {length.shown for length in self.lengths}
        return tuple(kind for kind in Shown if kind in there)


def read_plan(survey: Path, unit: Unit = METRE) -> PlanPreview:
    """The plan of a survey.

    Raises:
        BadInput: it is no survey.
    """
    with open_survey(survey) as database:
        way = _ground(read_map_way(database))
        columns = "geom, feature, part, item, status, finding"
        areas = database.execute(f"SELECT {columns}, hole_in FROM areas ORDER BY fid").fetchall()  # noqa: S608
        lengths = database.execute(f"SELECT {columns}, NULL AS hole_in FROM lengths ORDER BY fid").fetchall()  # noqa: S608
        spots = database.execute("SELECT geom, feature, height_m FROM spots").fetchall()
        marks = database.execute("SELECT geom, mark FROM marks").fetchall()
    tables = [table_edges([row["geom"] for row in rows], way) for rows in (areas, lengths)]
    points = [way.to_plane(point_places([row["geom"] for row in rows])[:, :2]) for rows in (spots, marks)]
    box = _box([*(table.vertex[:, :2] for table in tables), *points])
    reach = max(box[1] - box[0], box[3] - box[2])
    letters = _letters([*areas, *lengths])
    return PlanPreview(
        tuple(_areas(areas, tables[0], letters, SMOOTH * reach)),
        tuple(_lengths(lengths, tables[1], letters, SMOOTH * reach)),
        _points(points[0], _heights(spots, unit)),
        _points(points[1], [str(row["mark"]) for row in marks]),
        _key([*areas, *lengths], letters),
        scale_bar(reach, unit),
        box,
    )


def _ground(way: MapWay) -> MapWay:
    """The map as it lies, grid north up, in metres on the ground: the way to the survey plane without its turn."""
    scale = math.sqrt(abs(float(np.linalg.det(way.matrix))))
    return MapWay(way.on_map, np.zeros(2), scale * np.eye(2), way.z_metres)


def _box(places: Sequence[Floats]) -> tuple[float, float, float, float]:
    xy = np.concatenate(places)
    xy = xy[np.isfinite(xy).all(axis=1)]
    if not len(xy):
        return (0.0, LONELY, 0.0, LONELY)
    low, high = xy.min(axis=0), xy.max(axis=0)
    edge = EDGE * float((high - low).max()) or 0.5 * LONELY
    (x0, y0), (x1, y1) = (low - edge).tolist(), (high + edge).tolist()
    return (x0, x1, y0, y1 + edge)


def _shown(row: sqlite3.Row) -> Shown:
    if row["finding"]:
        return Shown.NO_FIGURES
    if row["hole_in"]:
        return Shown.HOLE
    status = (row["status"] or "").strip().lower()
    return next(
        (kind for kind in (Shown.EXISTING, Shown.RETAIN, Shown.REMOVE) if kind.value == status), Shown.NEW
    )


def _group(row: sqlite3.Row) -> str:
    """What shares a letter: all of one item; without one, each feature for itself."""
    return str(row["item"] or row["feature"] or "")


def _letters(rows: Sequence[sqlite3.Row]) -> dict[str, str]:
    """A letter for each group that is no hole, in the order of the tables: A to Z, then AA."""
    groups = dict.fromkeys(_group(row) for row in rows if not row["hole_in"])
    return {group: _letter(k) for k, group in enumerate(groups)}


def _letter(number: int) -> str:
    text = ""
    while number >= 0:
        number, rest = divmod(number, len(LETTERS))
        text = LETTERS[rest] + text
        number -= 1
    return text


def _key(rows: Sequence[sqlite3.Row], letters: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """What each letter stands for: the item, and the features of it."""
    out = []
    for group, letter in letters.items():
        own = [row for row in rows if _group(row) == group and not row["hole_in"]]
        features = ", ".join(dict.fromkeys(str(row["feature"] or "") for row in own))
        has_item = bool(own[0]["item"])
        out.append(
            (letter, tr("{item}: {features}").format(item=group, features=features) if has_item else features)
        )
    return tuple(out)


def _areas(
    rows: Sequence[sqlite3.Row], table: TableEdges, letters: dict[str, str], sag: float
) -> list[AreaDrawn]:
    out = []
    for k, row in enumerate(rows):
        runs = table.runs_of(k)
        rings = tuple(chorded(table.curve(int(run)), sag)[:, :2] for run in runs)
        if rings:
            letter = "" if row["hole_in"] else letters[_group(row)]
            out.append(AreaDrawn(_name(row), rings, _shown(row), letter, _inside(rings)))
    return out


def _lengths(
    rows: Sequence[sqlite3.Row], table: TableEdges, letters: dict[str, str], sag: float
) -> list[LengthDrawn]:
    out = []
    for k, row in enumerate(rows):
        runs = tuple(chorded(table.curve(int(run)), sag)[:, :2] for run in table.runs_of(k))
        if runs:
            out.append(LengthDrawn(_name(row), runs, _shown(row), letters[_group(row)], _middle(runs[0])))
    return out


def _name(row: sqlite3.Row) -> str:
    return " ".join(filter(None, (row["feature"], row["part"])))


def _inside(rings: Sequence[Floats]) -> tuple[float, float]:
    """A place well inside the outer ring and outside the holes: the host's own pole of it."""
    from qgis.core import QgsGeometry, QgsPointXY

    host = QgsGeometry.fromPolygonXY([[QgsPointXY(x, y) for x, y in ring.tolist()] for ring in rings])
    reach = float(np.ptp(rings[0], axis=0).max())
    point, _ = host.poleOfInaccessibility(max(reach / 100.0, 1e-3))
    if point.isEmpty():
        x, y = rings[0].mean(axis=0).tolist()
        return x, y
    return point.asPoint().x(), point.asPoint().y()


def _middle(run: Floats) -> tuple[float, float]:
    """Half way along a line."""
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(run, axis=0).T))])
    x, y = (float(np.interp(0.5 * along[-1], along, run[:, axis])) for axis in (0, 1))
    return x, y


def _heights(rows: Sequence[sqlite3.Row], unit: Unit) -> list[str]:
    """The spots' heights, or their names where a height is missing or kept out."""
    heights = numbers(rows, ("height_m",))[:, 0].tolist()
    return [
        f"{unit.of(height):.2f}" if math.isfinite(height) else str(row["feature"] or "")
        for row, height in zip(rows, heights)
    ]


def _points(xy: Floats, texts: Sequence[str]) -> tuple[PointDrawn, ...]:
    return tuple(PointDrawn(x, y, text) for (x, y), text in zip(xy.tolist(), texts) if math.isfinite(x))
