# SPDX-License-Identifier: GPL-2.0-or-later
"""What is held against limits: ramps, steps, paths, falls and walls of layers and of a survey, measured."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Union

import numpy as np
from qgis.core import QgsVectorLayer

from ..core.errors import BadInput, GroundTallyError
from ..core.trade.checks import fall_figures, path_figures, ramp_figures, steps_figures, wall_figures
from ..core.trade.limits import SLOPES, Figure, Thing
from ..core.trade.ramps import RampRules, measure_ramp, take_across
from ..core.trade.steps import measure_steps
from ..core.trade.walls import WallSpec, measure_wall
from ..core.trade.worth import PointWorth
from .drawn import text_of
from .gradient_rows import take_survey_fall
from .gradients import area_by_own
from .layer_rows import LayerRows
from .measured import ASSUMED
from .partners import Partners
from .row_names import NamedRows
from .sources import ground_of
from .survey_file import has_table, open_survey
from .survey_rows import refuse_kept_out
from .survey_worth import COARSE, SurveyWorth, seat_lengths
from .text import explain
from .trade import GroundReader
from .trade_columns import ROW
from .ways import NO_GROUND, Under, is_hole, is_ramp, seat_sides, under_area

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ..core.trade.limits import Measured
    from ..core.trade.lines import Line
    from ..core.trade.worth import Worth as Points
    from .gradients import GradientRow
    from .ways import WayOver, WayReader

    Source = Union[QgsProcessingFeatureSource, QgsVectorLayer]

ITEM = "item"
"""The column that says what a thing is built of."""
PROFILE = "profile"
"""The part of a length that was walked up a face: it is none of these things."""
RAMP_PARTS, WALL_PARTS = ("left", "right"), ("foot", "top")
RAMP_FROM = 1.0 / 20.0
"""An area that is called a ramp is one where it is steeper: flatter ways are none (2010 ADA Standards, 403.3)."""
AT_ONCE = 500
"""Rows that are read together."""


@dataclass(frozen=True)
class Examined:
    """A thing that was looked at.

    Attributes:
        thing, name: what it is.
        figures: that limits may be of; none where it was refused.
        method, sigma_from: words.
        why: the reason that there are none, "" else.
        item: what it is built of, "" where that is not known.
        under: what is to be told of the ground of a surface under it.
        is_found: whether it is a length of a survey, which nobody gave to be checked as this.
    """

    thing: Thing
    name: str
    figures: tuple[Measured, ...] = ()
    method: str = ""
    sigma_from: str = ASSUMED
    why: str = ""
    item: str = ""
    under: Under = NO_GROUND
    is_found: bool = False


class Examiner:
    """Measures the rows of layers as things that limits are of."""

    def __init__(
        self,
        worth: PointWorth,
        rules: RampRules,
        height: float,
        over: Callable[[QgsProcessingFeatureSource], WayReader] | None = None,
    ) -> None:
        """What points are worth, how ramps are taken apart, the height of the ground in metres, and what reads the crossfalls
        of a layer's ways over a surface, where there is one."""
        self._worth, self._rules, self._height, self._over = worth, rules, height, over
        self._rows = NamedRows((*RAMP_PARTS, *WALL_PARTS))

    def ramps(self, source: QgsProcessingFeatureSource, thing: Thing) -> Iterator[Examined]:
        """Ramps or paths of a layer of lines: two lines of one feature that are its left and right edge, or one along its
        middle."""
        partners, ways = Partners(source, None, None), self._over(source) if self._over else None
        reader = self._reader(source)
        for row in _read_ahead(self._rows.of(source), reader, partners):
            if partners.part(row) == RAMP_PARTS[1] and _other(partners, row) is not None:
                continue
            measure = partial(self._ramp_row, reader, partners, row, thing, ways)
            yield self._told(thing, source, row, measure)

    def steps(self, source: QgsProcessingFeatureSource) -> Iterator[Examined]:
        """Steps of a layer of lines."""
        reader = self._reader(source)
        for row in _read_ahead(self._rows.of(source), reader):
            yield self._told(Thing.STEPS, source, row, partial(self._steps_row, reader, row))

    def walls(self, source: QgsProcessingFeatureSource) -> Iterator[Examined]:
        """Walls of a layer of lines: a foot and a top of one feature."""
        partners, reader = Partners(source, None, None), self._reader(source)
        for row in _read_ahead(self._rows.of(source), reader, partners):
            if partners.part(row) == WALL_PARTS[1] and _other(partners, row) is not None:
                continue
            yield self._told(Thing.WALL, source, row, partial(self._wall_row, reader, partners, row))

    def falls(
        self,
        source: QgsProcessingFeatureSource,
        over: Callable[[QgsFeature], GradientRow] | None,
        bearing: float | None = None,
    ) -> Iterator[Examined]:
        """Areas of a layer: over a surface, or by their own heights; with a crossfall where there is a bearing, degrees
        clockwise from grid north."""
        reader = self._reader(source)
        for row in self._rows.of(source):
            yield self._told(Thing.FALL, source, row, partial(self._fall, reader, row, over, bearing))

    def _reader(self, source: QgsProcessingFeatureSource) -> GroundReader:
        return GroundReader(ground_of(source.sourceCrs(), source.sourceName()), self._height)

    def _told(self, thing: Thing, source: Source, row: QgsFeature, measure: Callable[[], _Found]) -> Examined:
        has_item = source.fields().lookupField(ITEM) >= 0
        one = Examined(
            thing,
            self._rows.name(source, row),
            item=text_of(row[ITEM]) if has_item else "",
        )
        try:
            found = measure()
        except GroundTallyError as error:
            return replace(one, why=f"{ROW}: {explain(error)}")
        figures = tuple(figure.named(one.name) for figure in found.figures)
        told = replace(one, figures=figures, method=found.method, under=found.under)
        return replace(told, sigma_from=found.sigma_from)

    def _ramp_row(
        self,
        reader: GroundReader,
        partners: Partners,
        row: QgsFeature,
        thing: Thing,
        ways: WayReader | None,
    ) -> _Found:
        lines = _edges(reader, partners, row)[1]
        over = _over(ways, lines, row)
        if ways is None or len(lines) > 1 or lines[0].has_heights:
            return self._ramp(lines, thing, self._worth, over=over)
        line, worth = ways.laid(row)
        found = self._ramp((line,), thing, worth, ways.sigma_from, over)
        # What is weak under the line is so under its heights too.
        under = replace(found.under, figures=SLOPES)
        return replace(found, method=f"{found.method}, heights of the surface", under=under)

    def _steps_row(self, reader: GroundReader, row: QgsFeature) -> _Found:
        return self._steps(reader.row(row).line, self._worth)

    def _wall_row(self, reader: GroundReader, partners: Partners, row: QgsFeature) -> _Found:
        return self._wall(_pair(reader, partners, row)[1], self._worth)

    def _ramp(
        self,
        edges: tuple[Line, ...],
        thing: Thing,
        points: Points,
        sigma_from: str = ASSUMED,
        over: WayOver | None = None,
    ) -> _Found:
        ramp, under = measure_ramp(edges, points, self._rules), NO_GROUND
        method = ramp.method
        if over is not None:
            under = over.under(ramp, frozenset({Figure.CROSSFALL}))
            ramp, method = over.crossed(ramp), f"{method}, {over.words}"
        figures = ramp_figures("", ramp) if thing is Thing.RAMP else path_figures("", ramp)
        return _Found(figures, method, sigma_from, under)

    def _steps(self, line: Line, points: Points, sigma_from: str = ASSUMED) -> _Found:
        steps = measure_steps(line, points)
        return _Found(steps_figures("", steps), steps.method, sigma_from)

    def _wall(self, lines: tuple[Line, ...], points: Points, sigma_from: str = ASSUMED) -> _Found:
        wall = measure_wall(lines[0], lines[1], WallSpec(), points)
        return _Found(wall_figures("", wall.highest), wall.method, sigma_from)

    def _fall(
        self,
        reader: GroundReader,
        row: QgsFeature,
        over: Callable[[QgsFeature], GradientRow] | None = None,
        bearing: float | None = None,
    ) -> _Found:
        if over is None:
            ground = reader.row(row)
            told = take_survey_fall(area_by_own(ground, self._worth, bearing), row, reader, ground)
            return _Found(fall_figures("", told.fall, None, told.cross), told.method, told.sigma_from)
        told = over(row)
        ends = None if told.steepest is None or told.flattest is None else (told.steepest, told.flattest)
        figures = fall_figures("", told.fall, ends, told.cross)
        return _Found(figures, told.method, told.sigma_from, under_area(told))

    def survey(self, path: Path) -> Iterator[Examined]:
        """Everything of a survey GeoPackage that limits are of: areas, but holes; those of four corners that are called a
        ramp and are steep, as ramps; lengths whose parts are left and right (ramps), or foot and top (walls); lengths with
        risers (steps); and all other lengths (paths).

        What points are worth the survey's rows say. Where an older version wrote them, or a line is no more as the survey
        drew it, it comes from the survey's own legs: their rises and lengths say how far neighbouring stations err against
        each other, the whole length's rise how much that grows along it; the larger of the two counts.

        Raises:
            BadInput: the file is no survey.
        """
        tables = _survey_tables(path)
        survey = _Survey(SurveyWorth(tables))
        if "areas" in tables:
            areas = tables["areas"]
            reader = self._layer_reader(areas)
            for row in self._rows.of(areas):
                if not is_hole(row):
                    yield self._survey_area(areas, reader, row)
        if "lengths" in tables:
            yield from self._survey_lengths(tables["lengths"], survey)

    def _survey_area(self, areas: QgsVectorLayer, reader: GroundReader, row: QgsFeature) -> Examined:
        fall = self._told(Thing.FALL, areas, row, partial(self._fall, reader, row))
        if not (
            is_ramp(f"{fall.name} {fall.item}") and fall.figures and fall.figures[0].value.value > RAMP_FROM
        ):
            return fall
        return self._told(Thing.RAMP, areas, row, partial(self._ramp_area, reader, row))

    def _ramp_area(self, reader: GroundReader, row: QgsFeature) -> _Found:
        """A survey's ramp that was walked as an area of four corners.

        Raises:
            BadInput: it is no such area.
        """
        seated = seat_sides(row, reader.row(row).lines)
        found = self._ramp(seated.lines, Thing.RAMP, seated.worth, seated.sigma_from)
        return replace(found, method=f"area of four corners, {found.method}")

    def _layer_reader(self, layer: QgsVectorLayer) -> GroundReader:
        return GroundReader(ground_of(layer.crs(), layer.name()), self._height)

    def _survey_lengths(self, lengths: QgsVectorLayer, survey: _Survey) -> Iterator[Examined]:
        partners, reader = Partners(LayerRows(lengths), None, None), self._layer_reader(lengths)
        ways = self._over(LayerRows(lengths)) if self._over else None
        for row in _read_ahead(self._rows.of(lengths), reader, partners):
            part = partners.part(row)
            second = part in (RAMP_PARTS[1], WALL_PARTS[1]) and _other(partners, row) is not None
            if part == PROFILE or second:
                continue
            thing = Thing.RAMP if part in RAMP_PARTS else Thing.WALL if part in WALL_PARTS else Thing.PATH
            if thing is Thing.PATH and _has_risers(reader, row):
                thing = Thing.STEPS
            measure = partial(self._of_survey, reader, partners, row, thing, replace(survey, ways=ways))
            yield replace(self._told(thing, lengths, row, measure), is_found=True)

    def _of_survey(
        self, reader: GroundReader, partners: Partners, row: QgsFeature, thing: Thing, survey: _Survey
    ) -> _Found:
        refuse_kept_out(row, "length_m")
        rows, lines = (_pair if thing is Thing.WALL else _edges)(reader, partners, row)
        seated = seat_lengths(rows, lines)
        over = _over(survey.ways, lines, row) if thing in (Thing.RAMP, Thing.PATH) else None
        if seated is None:
            found = self._by_legs(rows, lines, thing, survey.worth, over)
            return replace(found, method=found.method + COARSE)
        if thing is Thing.STEPS:
            return self._steps(seated.lines[0], seated.worth, seated.sigma_from)
        if thing is Thing.WALL:
            return self._wall(seated.lines, seated.worth, seated.sigma_from)
        return self._ramp(seated.lines, thing, seated.worth, seated.sigma_from, over)

    def _by_legs(
        self,
        rows: tuple[QgsFeature, ...],
        lines: tuple[Line, ...],
        thing: Thing,
        worth: SurveyWorth,
        over: WayOver | None,
    ) -> _Found:
        own = worth.of(rows[0])
        if thing is Thing.STEPS:
            return self._steps(lines[0], own.points, own.sigma_from)
        if thing is Thing.WALL:
            points = worth.apart(rows[0]).points
            return self._wall(lines, PointWorth(points.height, points.height), own.sigma_from)
        if thing is not Thing.RAMP or len(rows) == 1:
            return self._ramp(lines, thing, own.points, own.sigma_from, over)
        ramp, wide = (
            measure_ramp(lines, w.points, self._rules) for w in (worth.along(*rows), worth.apart(rows[0]))
        )
        return _Found(ramp_figures("", take_across(ramp, wide)), ramp.method, own.sigma_from)


@dataclass(frozen=True)
class _Survey:
    """What a survey's legs say of its points, where its rows do not; and what reads the crossfalls of its lengths, where there
    is a surface."""

    worth: SurveyWorth
    ways: WayReader | None = None


@dataclass(frozen=True)
class _Found:
    figures: Sequence[Measured]
    method: str
    sigma_from: str
    under: Under = NO_GROUND


def _over(ways: WayReader | None, lines: tuple[Line, ...], row: QgsFeature) -> WayOver | None:
    """The crossfalls of a way that is one line; None of two edges, which have their own."""
    return ways.over(row) if ways is not None and len(lines) == 1 else None


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


def _read_ahead(
    rows: Iterator[QgsFeature], reader: GroundReader, partners: Partners | None = None
) -> Iterator[QgsFeature]:
    """Rows, which the reader has read some hundred at a time with their partners before they are handed on."""
    for some in iter(lambda: list(islice(rows, AT_ONCE)), []):
        others = [] if partners is None else [_other(partners, row) for row in some]
        reader.read_ahead([*some, *(other for other in others if other is not None)])
        yield from some


def _other(partners: Partners, row: QgsFeature) -> QgsFeature | None:
    """The second edge of a row's thing; None where there is none, or more than one."""
    try:
        return partners.other(row)
    except BadInput:
        return None


_Lines = tuple[tuple["QgsFeature", ...], tuple["Line", ...]]
"""Rows and their lines."""


def _edges(reader: GroundReader, partners: Partners, row: QgsFeature) -> _Lines:
    other = partners.other(row) if partners.part(row) in RAMP_PARTS else None
    if other is None:
        return (row,), (reader.row(row).line,)
    rows = (row, other) if partners.part(row) == RAMP_PARTS[0] else (other, row)
    one, two = reader.pair(*rows)
    return rows, (one.line, two.line)


def _pair(reader: GroundReader, partners: Partners, row: QgsFeature) -> _Lines:
    """Foot and top of a wall.

    Raises:
        BadInput: one of them was not walked.
    """
    other = partners.other(row) if partners.part(row) in WALL_PARTS else None
    if other is None:
        raise BadInput(
            "The wall has no second edge. Walk its foot and its top, as parts foot and top of one feature."
        )
    rows = (row, other) if partners.part(row) == WALL_PARTS[0] else (other, row)
    one, two = reader.pair(*rows)
    return rows, (one.line, two.line)
