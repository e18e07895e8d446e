# SPDX-License-Identifier: GPL-2.0-or-later
"""The working of every figure of a survey, as it is kept beside the figures: the exact edges that it was measured from,
the stations it moves with, and the parts of its uncertainty."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from ..place.fit import Placed
from ..quantity import Gradient, Quantity
from ..segments import Curve
from ..walk import ErrorGrowth
from .area import ANY_DIRECTION
from .method import is_as_walked
from .parts import Part, Parts, coarse_parts, parts_of
from .rows import AreaRow, LegRow, LengthRow, MarkRow, SideRow, SpotRow, StationRow, Tags
from .zigzag import added_by_metre

if TYPE_CHECKING:
    from .rows import Survey

FIGURES: dict[type, dict[str, str]] = {
    AreaRow: {
        "area": "area_m2",
        "sloped_area": "sloped_area_m2",
        "perimeter": "perimeter_m",
        "fall": "fall_ratio",
        "fall_bearing": "fall_bearing_deg",
    },
    LengthRow: {
        "length": "length_m",
        "slope_length": "slope_length_m",
        "rise": "rise_m",
        "gradient": "gradient_ratio",
    },
    SpotRow: {"height": "height_m"},
    SideRow: {"length": "length_m", "radius": "radius_m", "sweep": "sweep_deg"},
}
"""What each row has that can be worked out, and the column it goes to."""
FIGURES[LegRow] = {**FIGURES[LengthRow], "radius": "radius_m", "sweep": "sweep_deg"}
WIDENED = frozenset({"perimeter_m", "length_m", "slope_length_m"})
"""Lengths that noise from row to row may have added to."""
FALLS = frozenset({"fall_ratio", "fall_bearing_deg"})
"""Figures of a plane through stations, of which two may count as one place."""
EXACT = 1e-12
"""Of a figure: a one-sigma below this is rounding (a full circle turns through 360 degrees whatever is wrong)."""
PLACE, HEIGHT = "sigma_major_m", "z_m"
"""The figures of a station or mark: its place along the long axis of its ellipse, and its height."""
FINE_CELLS = 400_000
"""Figures times stations whose parts are told one by one (0.3 s); of those beyond, the walks' are told in one."""


@dataclass(frozen=True)
class WorkingRow:
    """The working of one row of a table (the rows of a table are numbered from 1): `text` is JSON."""

    table: str
    row: int
    text: str


@dataclass(frozen=True, eq=False)
class _Asked:
    """A figure whose parts are wanted."""

    column: str
    figure: Quantity
    moves: Gradient


@dataclass(frozen=True, eq=False)
class _Row:
    """A row and its figures."""

    table: str
    number: int
    curves: tuple[Curve, ...]
    tags: Tags
    asked: tuple[_Asked, ...]
    merged: tuple[tuple[int, ...], ...] = ()
    """Numbers, from 1, of stations that a plane takes as one place."""


@dataclass(frozen=True, eq=False)
class Workings:
    """Works out the figures of a survey when it is written.

    Attributes:
        placed: where its stations lie, and their covariance.
        mark_rows: the station that stands for each mark.
    """

    placed: Placed
    mark_rows: dict[str, int] = field(default_factory=dict)

    def rows(self, survey: Survey) -> tuple[WorkingRow, ...]:
        """A row for each row of the survey that has figures; what was kept out is not worked out."""
        rows = list(self._rows(survey))
        every = [asked for row in rows for asked in row.asked]
        fine = FINE_CELLS // max(len(self.placed.xy), 1)
        parts = iter(
            [
                *parts_of(self.placed, [asked.moves for asked in every[:fine]]),
                *(coarse_parts(self.placed, asked.moves, asked.figure.sigma) for asked in every[fine:]),
            ]
        )
        return tuple(self._told(row, [next(parts) for _ in row.asked]) for row in rows)

    def _told(self, row: _Row, parts: Sequence[Parts]) -> WorkingRow:
        told: dict[str, dict[str, object]] = {}
        for asked, own in zip(row.asked, parts):
            settled = self._settled(row, asked, own)
            told[asked.column] = {
                "parts": {part.value: sigma for part, sigma in settled.items()},
                "stations": ranges(_behind(asked.moves)),
            }
            if asked.column in FALLS:
                told[asked.column]["merged"] = row.merged
        curves = [_curve(curve) for curve in row.curves]
        return WorkingRow(row.table, row.number, json.dumps({"curves": curves, "figures": told}))

    def _settled(self, row: _Row, asked: _Asked, parts: Parts) -> Parts:
        """The parts with what came to a figure after the stations' own: the noise of as-walked rows of a receiver, and
        the limit of a direction that may be any."""
        if asked.figure.sigma <= EXACT * abs(asked.figure.value):
            return {}
        if asked.column == "fall_bearing_deg" and asked.figure.sigma >= ANY_DIRECTION:
            return {Part.UNKNOWN: asked.figure.sigma}
        if asked.column not in WIDENED or not is_as_walked(row.tags.method):
            return parts
        tags = row.tags
        walk = next((walk for walk in self.placed.walks if walk.name == tags.walk), None)
        if walk is None or walk.keys.growth is not ErrorGrowth.RECEIVER:
            return parts
        added = asked.figure.value * added_by_metre(walk, tags.feature, tags.part)
        return {**parts, Part.ROWS: added} if added > 0.0 else parts

    def _rows(self, survey: Survey) -> Iterator[_Row]:
        """In the order of what matters most: the parts of the last may be told in less detail."""
        tables = ("areas", "lengths", "spots", "sides")
        for table in tables:
            yield from _feature_rows(table, getattr(survey, table))
        for number, row in enumerate(survey.marks, 1):
            if row.mark in self.mark_rows:
                yield _place_row("marks", number, row, self.mark_rows[row.mark])
        yield from _feature_rows("legs", survey.legs)
        for number, station in enumerate(survey.stations, 1):
            yield _place_row("stations", number, station, number - 1)


def _feature_rows(table: str, rows: Iterable[object]) -> Iterator[_Row]:
    for number, row in enumerate(rows, 1):
        asked = tuple(_asked(row))
        if asked:
            places = row.fall_places if isinstance(row, AreaRow) else ()
            merged = tuple(tuple(n + 1 for n in place) for place in places if len(place) > 1)
            tags: Tags = row.tags  # type: ignore[attr-defined] # any table's
            yield _Row(table, number, _curves_of(row), tags, asked, merged)


def _asked(row: object) -> Iterator[_Asked]:
    for name, column in FIGURES[type(row)].items():
        figure: Quantity | None = getattr(row, name)
        if figure is None or figure.moves is None:
            continue
        moves = figure.moves()
        if figure.unit == "rad":
            figure, moves = _in_degrees(figure, moves)
        yield _Asked(column, figure, moves)


def _in_degrees(figure: Quantity, moves: Gradient) -> tuple[Quantity, Gradient]:
    turned = Gradient(moves.index, np.degrees(moves.plan), np.degrees(moves.height))
    return replace(figure, value=math.degrees(figure.value), sigma=math.degrees(figure.sigma)), turned


def _place_row(table: str, number: int, row: StationRow | MarkRow, at: int) -> _Row:
    asked = []
    index = np.array([at], dtype=np.int64)
    if row.ellipse is not None:
        way = np.array([[math.cos(row.ellipse.angle), math.sin(row.ellipse.angle)]])
        place = Quantity(row.ellipse.major, row.ellipse.major, "m")
        asked.append(_Asked(PLACE, place, Gradient(index, way, np.zeros(1))))
    if row.z_sigma is not None:
        height = Quantity(row.point[2], row.z_sigma, "m")
        asked.append(_Asked(HEIGHT, height, Gradient(index, np.zeros((1, 2)), np.ones(1))))
    return _Row(table, number, (), row.tags, tuple(asked))


def _curves_of(row: object) -> tuple[Curve, ...]:
    if isinstance(row, AreaRow):
        return row.outline
    if isinstance(row, LengthRow):
        return row.runs
    return (row.run,) if isinstance(row, (SideRow, LegRow)) else ()


def _behind(moves: Gradient) -> list[int]:
    """Numbers, from 1, of the stations that a figure moves with, in order of walking."""
    has = moves.plan.any(axis=1) | (moves.height != 0.0)
    return [int(row) + 1 for row in np.unique(moves.index[has])]


def _curve(curve: Curve) -> dict[str, object]:
    points = [[None if math.isnan(v) else v for v in point] for point in curve.points.tolist()]
    return {"points": points, "bulge": curve.bulge.tolist()}


def ranges(numbers: Sequence[int]) -> str:
    """Rising whole numbers as text, runs of them by their ends.

    >>> ranges([3, 4, 5, 9])
    '3-5,9'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ",".join(f"{a}-{b}" if b > a else f"{a}" for a, b in runs)


def from_ranges(text: str) -> tuple[int, ...]:
    """The numbers that `ranges` wrote.

    >>> from_ranges("3-5,9")
    (3, 4, 5, 9)
    """
    ends = [part.split("-") for part in text.split(",") if part]
    return tuple(n for part in ends for n in range(int(part[0]), int(part[-1]) + 1))
