# SPDX-License-Identifier: GPL-2.0-or-later
"""What is held against limits: ramps, steps, paths, falls and walls of layers and of a survey, measured."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeatureRequest, QgsVectorLayer

from ..core.errors import BadInput, GroundTallyError
from ..core.trade.checks import fall_figures, path_figures, ramp_figures, steps_figures, wall_figures
from ..core.trade.limits import Thing
from ..core.trade.profiles import PointWorth
from ..core.trade.ramps import RampRules, measure_ramp, take_across
from ..core.trade.steps import measure_steps
from ..core.trade.walls import WallSpec, measure_wall
from .compat import IGNORE_INVALID
from .drawn import text_of
from .gradient_rows import survey_fall
from .gradients import area_by_own
from .measured import ASSUMED
from .sources import ground_of
from .survey_file import has_table, open_survey
from .survey_worth import SurveyWorth
from .text import explain
from .trade import ROW, GroundReader, Partners, refuse_kept_out

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ..core.trade.limits import Measured
    from ..core.trade.lines import Line
    from .gradients import GradientRow
    from .survey_worth import Worth

NAMES = ("feature", "name")
"""Columns that name a thing, the first that is there."""
PROFILE = "profile"
"""The part of a length that was walked up a face: it is none of these things."""
RAMP_PARTS, WALL_PARTS = ("left", "right"), ("foot", "top")


@dataclass(frozen=True)
class Examined:
    """A thing that was looked at.

    Attributes:
        thing, name: what it is.
        figures: that limits may be of; none where it was refused.
        method, sigma_from: words.
        why: the reason that there are none, "" else.
    """

    thing: Thing
    name: str
    figures: tuple[Measured, ...] = ()
    method: str = ""
    sigma_from: str = ASSUMED
    why: str = ""


class Examiner:
    """Measures the rows of layers as things that limits are of."""

    def __init__(self, worth: PointWorth, rules: RampRules, height: float) -> None:
        """What points are worth, how ramps are taken apart, and the height of the ground in metres."""
        self._worth, self._rules, self._height = worth, rules, height

    def ramps(self, source: QgsProcessingFeatureSource, thing: Thing) -> Iterator[Examined]:
        """Ramps or paths of a layer of lines: two lines of one feature that are its left and right edge, or one along its
        middle."""
        partners = Partners(source, None, None)
        reader = self._reader(source)
        for row in _rows(source):
            if partners.part(row) == RAMP_PARTS[1] and self._has_other(partners, row):
                continue
            yield self._told(thing, _name(source, row), partial(self._ramp_row, reader, partners, row, thing))

    def steps(self, source: QgsProcessingFeatureSource) -> Iterator[Examined]:
        """Steps of a layer of lines."""
        reader = self._reader(source)
        for row in _rows(source):
            yield self._told(Thing.STEPS, _name(source, row), partial(self._steps_row, reader, row))

    def walls(self, source: QgsProcessingFeatureSource) -> Iterator[Examined]:
        """Walls of a layer of lines: a foot and a top of one feature."""
        partners, reader = Partners(source, None, None), self._reader(source)
        for row in _rows(source):
            if partners.part(row) == WALL_PARTS[1] and self._has_other(partners, row):
                continue
            yield self._told(
                Thing.WALL,
                _name(source, row),
                partial(self._wall_row, reader, partners, row),
            )

    def falls(
        self,
        source: QgsProcessingFeatureSource,
        over: Callable[[QgsFeature], GradientRow] | None,
        bearing: float | None = None,
    ) -> Iterator[Examined]:
        """Areas of a layer: over a surface, or by their own heights; with a crossfall where there is a bearing, degrees
        clockwise from grid north."""
        reader = self._reader(source)
        for row in _rows(source):
            yield self._told(Thing.FALL, _name(source, row), partial(self._fall, reader, row, over, bearing))

    def _reader(self, source: QgsProcessingFeatureSource) -> GroundReader:
        return GroundReader(ground_of(source.sourceCrs()), self._height)

    def _has_other(self, partners: Partners, row: QgsFeature) -> bool:
        try:
            return partners.other(row) is not None
        except BadInput:
            return False

    def _told(self, thing: Thing, name: str, measure: Callable[[], _Found]) -> Examined:
        try:
            found = measure()
        except GroundTallyError as error:
            return Examined(thing, name, why=f"{ROW}: {explain(error)}")
        figures = tuple(replace(one, name=name) for one in found.figures)
        return Examined(thing, name, figures, found.method, found.sigma_from)

    def _ramp_row(self, reader: GroundReader, partners: Partners, row: QgsFeature, thing: Thing) -> _Found:
        return self._ramp(_edges(reader, partners, row), thing)

    def _steps_row(self, reader: GroundReader, row: QgsFeature) -> _Found:
        return self._steps(reader.row(row).line, self._worth)

    def _wall_row(self, reader: GroundReader, partners: Partners, row: QgsFeature) -> _Found:
        return self._wall(_pair(reader, partners, row), self._worth)

    def _ramp(self, edges: tuple[Line, ...], thing: Thing, worth: Worth | None = None) -> _Found:
        ramp = measure_ramp(edges, worth.points if worth else self._worth, self._rules)
        figures = ramp_figures("", ramp) if thing is Thing.RAMP else path_figures("", ramp)
        return _Found(figures, ramp.method, worth.sigma_from if worth else ASSUMED)

    def _steps(self, line: Line, points: PointWorth, sigma_from: str = ASSUMED) -> _Found:
        steps = measure_steps(line, points)
        return _Found(steps_figures("", steps), steps.method, sigma_from)

    def _wall(self, lines: tuple[Line, Line], points: PointWorth, sigma_from: str = ASSUMED) -> _Found:
        wall = measure_wall(lines[0], lines[1], WallSpec(), points.height)
        return _Found(wall_figures("", wall.highest), wall.method, sigma_from)

    def _fall(
        self,
        reader: GroundReader,
        row: QgsFeature,
        over: Callable[[QgsFeature], GradientRow] | None = None,
        bearing: float | None = None,
    ) -> _Found:
        if over is None:
            told = area_by_own(reader.row(row), self._worth, bearing)
            own = survey_fall(row, reader)
            if own is not None:
                return _Found(fall_figures("", own[0], None, told.cross), told.method, own[2])
            return _Found(fall_figures("", told.fall, None, told.cross), told.method, ASSUMED)
        told = over(row)
        ends = None if told.steepest is None or told.flattest is None else (told.steepest, told.flattest)
        return _Found(fall_figures("", told.fall, ends, told.cross), told.method, told.sigma_from)

    def survey(self, path: Path) -> Iterator[Examined]:
        """Everything of a survey GeoPackage that limits are of: areas; lengths whose parts are left and right (ramps), or
        foot and top (walls); lengths with risers (steps); and all other lengths (paths).

        What points are worth comes from the survey's own legs: their rises and lengths say how far neighbouring stations
        err against each other, the whole length's rise how much that grows along it; the larger of the two counts.

        Raises:
            BadInput: the file is no survey.
        """
        tables = _survey_tables(path)
        worth = SurveyWorth(tables)
        if "areas" in tables:
            areas = tables["areas"]
            reader = self._layer_reader(areas)
            for row in _rows(areas):
                yield self._told(
                    Thing.FALL,
                    _name(areas, row),
                    partial(self._fall, reader, row),
                )
        if "lengths" in tables:
            yield from self._survey_lengths(tables["lengths"], worth)

    def _layer_reader(self, layer: QgsVectorLayer) -> GroundReader:
        return GroundReader(ground_of(layer.crs()), self._height)

    def _survey_lengths(self, lengths: QgsVectorLayer, worth: SurveyWorth) -> Iterator[Examined]:
        partners, reader = Partners(_AsSource(lengths), None, None), self._layer_reader(lengths)
        for row in _rows(lengths):
            part = partners.part(row)
            if part == PROFILE or (part in (RAMP_PARTS[1], WALL_PARTS[1]) and self._has_other(partners, row)):
                continue
            thing = Thing.RAMP if part in RAMP_PARTS else Thing.WALL if part in WALL_PARTS else Thing.PATH
            if thing is Thing.PATH and _has_risers(reader, row):
                thing = Thing.STEPS
            name = _name(lengths, row)
            yield self._told(thing, name, partial(self._of_survey, reader, partners, row, thing, worth))

    def _of_survey(
        self, reader: GroundReader, partners: Partners, row: QgsFeature, thing: Thing, worth: SurveyWorth
    ) -> _Found:
        refuse_kept_out(row, "length_m")
        own = worth.of(row)
        if thing is Thing.STEPS:
            return self._steps(reader.row(row).line, own.points, own.sigma_from)
        if thing is Thing.WALL:
            return self._wall(_pair(reader, partners, row), worth.apart(row).points, own.sigma_from)
        edges, other = _edges(reader, partners, row), partners.other(row)
        if thing is not Thing.RAMP or other is None:
            return self._ramp(edges, thing, own)
        ramp, wide = (
            measure_ramp(edges, w.points, self._rules) for w in (worth.along(row, other), worth.apart(row))
        )
        return _Found(ramp_figures("", take_across(ramp, wide)), ramp.method, own.sigma_from)


@dataclass(frozen=True)
class _Found:
    figures: Sequence[Measured]
    method: str
    sigma_from: str


class _AsSource:
    """A layer where a source of rows is asked for."""

    def __init__(self, layer: QgsVectorLayer) -> None:
        self._layer = layer

    def fields(self):  # type: ignore[no-untyped-def]
        return self._layer.fields()

    def getFeatures(self, *request: object):  # type: ignore[no-untyped-def]  # noqa: N802 - the host's name
        return self._layer.getFeatures(*request[:1])


def _survey_tables(path: Path) -> dict[str, QgsVectorLayer]:
    with open_survey(path) as database:
        names = [name for name in ("areas", "lengths", "legs", "stations") if has_table(database, name)]
    if "stations" not in names:
        raise BadInput(
            "{path} holds no stations. Choose a GeoPackage that Survey walks has written.", path=str(path)
        )
    return {name: QgsVectorLayer(f"{path}|layername={name}", name, "ogr") for name in names}


def _has_risers(reader: GroundReader, row: QgsFeature) -> bool:
    """Whether a length has an edge that rises more than it runs."""
    try:
        line = reader.row(row).line
    except GroundTallyError:
        return False
    if not line.has_heights:
        return False
    rise = np.abs(line.points[line.edges.q, 2] - line.points[line.edges.p, 2])
    return bool((rise > line.edges.lengths).any())


def _rows(source: QgsProcessingFeatureSource | QgsVectorLayer) -> Iterator[QgsFeature]:
    if isinstance(source, QgsVectorLayer):
        yield from source.getFeatures(QgsFeatureRequest())
    else:
        yield from source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID)


def _name(source: QgsProcessingFeatureSource | QgsVectorLayer, row: QgsFeature) -> str:
    """What a row is called: its feature, with the part where that tells no edge."""
    column = next((name for name in NAMES if source.fields().lookupField(name) >= 0), None)
    name = text_of(row[column]) if column else ""
    part = text_of(row["part"]) if source.fields().lookupField("part") >= 0 else ""
    if part and part.lower() not in (*RAMP_PARTS, *WALL_PARTS):
        name = f"{name}/{part}"
    return name or f"row {row.id()}"


def _edges(reader: GroundReader, partners: Partners, row: QgsFeature) -> tuple[Line, ...]:
    other = partners.other(row) if partners.part(row) in RAMP_PARTS else None
    if other is None:
        return (reader.row(row).line,)
    left, right = (row, other) if partners.part(row) == RAMP_PARTS[0] else (other, row)
    one, two = reader.pair(left, right)
    return one.line, two.line


def _pair(reader: GroundReader, partners: Partners, row: QgsFeature) -> tuple[Line, Line]:
    """Foot and top of a wall.

    Raises:
        BadInput: one of them was not walked.
    """
    other = partners.other(row) if partners.part(row) in WALL_PARTS else None
    if other is None:
        raise BadInput(
            "The wall has no second edge. Walk its foot and its top, as parts foot and top of one feature."
        )
    foot, top = (row, other) if partners.part(row) == WALL_PARTS[0] else (other, row)
    one, two = reader.pair(foot, top)
    return one.line, two.line
